"""Bolts of a knee brace from a trunk: those of its head in beam and brace, those of its foot in the shoe."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from bolewright.bracing.trunk_brace import (
    trunk_brace_compression,
)
from bolewright.fasteners.bearing_lengths import Shear
from bolewright.fasteners.connectors import bolt
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.geometry import Distances, Geometry, Pattern
from bolewright.fasteners.lateral import lateral_design_value
from bolewright.fasteners.members import Steel, Wood
from bolewright.fasteners.tear_out import critical_spacing, row_tear_out
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.checks.lateral import judge_lateral, start
from bolewright.platform.checks.trunk_brace_forces import run_force, run_head_load
from bolewright.platform.layout.trunk_brace_ends import DISTANCE_NOTE, END, SPACING
from bolewright.platform.layout.trunk_braces import TrunkBrace
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.timber.adjusted_values import adjusted_shear
from bolewright.timber.adjustment import Service, factors
from bolewright.units import POUND

PLATE_NOTE = (
    "The steel plates themselves, their welds and the shoe's seat are for their maker: bought rated, or drawn by an "
    "engineer."
)


TEAR_NOTE = (
    "In the beam the bolts press along the grain towards its outer end; in the brace they press from its end into the "
    "wood, where no row tears out. What the head presses up on the beam goes through bearing, not through the bolts, "
    "so that shear at a connection (NDS 2018, 3.4.3.3) is not in them."
)


@dataclass(frozen=True)
class _Joint:
    """Bolts through two steel plates and one timber: thickness, E, width and G of it, angle to its grain (degrees)."""

    wood: Wood
    end: float
    toward_end: bool
    edge: float
    loaded_edge: float | None


def bolt_checks(lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> list[Check]:
    """Bolts of head and foot in two steel plates; open where they are not given."""
    strut, beam, wood = brace.strut, brace.beam, brace.values
    D = strut.bolt_diameter
    values = lateral.path.effects[beam.mark].values
    past = beam.line.length - brace.at if brace.side > 0 else brace.at
    n = float(strut.head_bolts or 0)
    own = Wood(brace.section.b, wood.G, E=wood.E, width=brace.section.d, name=f"brace {brace.mark}")
    row = (n - 1) * SPACING * (D or 0.0) / 2
    joints = {
        "trunk_brace.head_bolts_beam": (
            strut.head_bolts,
            _Joint(
                Wood(beam.width, values.G, E=values.E, width=beam.section.d, name=f"beam {beam.mark}"),
                past - row,
                True,
                beam.section.d / 2,
                None,
            ),
            "the lateral force on the bolts of its head in the beam",
        ),
        "trunk_brace.head_bolts_brace": (
            strut.head_bolts,
            _Joint(
                replace(own, theta=brace.to_beam),
                END * (D or 0.0),
                True,
                brace.section.d / 2,
                brace.section.d / 2,
            ),
            "the lateral force on the bolts of its head",
        ),
        "trunk_brace.foot_bolts": (
            strut.foot_bolts,
            _Joint(own, END * (D or 0.0), True, brace.section.d / 2, None),
            "the force on the bolts of its foot",
        ),
    }
    checks = []
    for key, (count, joint, says) in joints.items():
        if count is None or D is None:
            which = "foot_bolts" if key.endswith("foot_bolts") else "head_bolts"
            checks.append(
                not_checked(
                    brace.mark,
                    key,
                    f"{brace.mark}: enter {which} and bolt_diameter of its kind of strut, {brace.support.strut}.",
                )
            )
        else:
            checks.append(_joint(lateral, state, brace, key, count, D, joint, says))
    if strut.head_bolts is not None and D is not None:
        checks.append(_tear_out(lateral, state, brace, strut.head_bolts, D, past - row))
    return checks


def _tear_out(
    lateral: LateralAnalysis, state: State, brace: TrunkBrace, count: int, D: float, end: float
) -> Check:
    """The row of bolts of the head torn out of the beam along its grain, towards the end that the brace presses to."""
    beam, effects = brace.beam, lateral.path.effects[brace.beam.mark]
    group = factors(effects.values, Service(wet=beam.timber.wet, incised=beam.timber.counts_incised))
    calculation = start(lateral)
    run = calculation.run
    T = np.asarray(
        run(trunk_brace_compression, R=run_head_load(run, lateral, state, brace), a=brace.a, r=brace.r)
    )
    F_v_p = run(adjusted_shear, F_v=effects.values.F_v, C_D=lateral.cases.C_D, **group.shear)
    a_end = max(end, 0.0)
    s_crit = run(critical_spacing, a_end=a_end, s=SPACING * D) if count > 1 else a_end
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key="trunk_brace.row_tear_out",
        at=beam.mark,
        demand=T,
        capacity=run(row_tear_out, n_i=float(count), F_v_p=F_v_p, t=beam.width, s_crit=s_crit),
        unit=POUND,
        says=f"the lateral force on its bolts along the grain of {beam.mark}",
        notes=(TEAR_NOTE,),
        nothing=f"{beam.mark} ends before its bolts",
    )


def _joint(
    lateral: LateralAnalysis,
    state: State,
    brace: TrunkBrace,
    key: str,
    count: int,
    D: float,
    joint: _Joint,
    says: str,
) -> Check:
    calculation = start(lateral)
    run = calculation.run
    if key == "trunk_brace.foot_bolts":
        T = run_force(run, lateral, state, brace)
    else:
        R = run_head_load(run, lateral, state, brace)
        T = np.asarray(run(trunk_brace_compression, R=R, a=brace.a, r=brace.r))
    plate = Steel(brace.strut.plate, width=3 * D, name="plate")
    distances = Distances(joint.end, joint.toward_end, joint.loaded_edge, joint.edge)
    pattern = Pattern(in_row=count, spacing=SPACING * D)
    notes: tuple[str, ...] = (PLATE_NOTE, DISTANCE_NOTE)
    nothing = ""
    try:
        found = lateral_design_value(
            bolt(D, joint.wood.thickness + 2 * brace.strut.plate),
            plate,
            joint.wood,
            shear=Shear.DOUBLE,
            C_D=lateral.cases.C_D,
            geometry=Geometry(pattern, main=distances),
            calculation=calculation,
        )
        capacity, notes = found.Z_total, (*notes, *found.notes)
    except FastenerError as error:
        capacity, nothing = 0.0, f"{error}"
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key=key,
        demand=T,
        capacity=capacity,
        unit=POUND,
        says=says,
        notes=notes,
        nothing=nothing,
    )
