"""Beams at the bolts of their knees: bending of what the holes leave, with wind and sway."""

from __future__ import annotations

import numpy as np

from bolewright.platform.analysis.knees import Knee
from bolewright.platform.analysis.lateral import LateralAnalysis, State, range_over
from bolewright.platform.checks.beam_added import added_effect
from bolewright.platform.checks.beam_rotation import run_seat_load
from bolewright.platform.checks.lateral import judge_lateral, open_while_loose, start, unprinted, worse
from bolewright.platform.checks.members import look_of
from bolewright.platform.checks.plies import BENDING_NOTE, NEAR_NOTE, run_moment_of_ply_at
from bolewright.platform.layout.brace_bolts import BraceBolts
from bolewright.platform.limit_states.check import Check
from bolewright.timber.adjusted_values import adjusted_bending
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bending import bending_stress
from bolewright.timber.net_section import holes_in_one_section, net_modulus_of_row
from bolewright.units import PSI

AT = 1e-6  # in: a station this near to a knee is at it
HOLES_NOTE = (
    "The holes stand level at mid-depth of the beam; C_r is not counted. Bending laterally is in the "
    "check of both ways."
)


def bolted_beam_checks(lateral: LateralAnalysis) -> list[Check]:
    """Bending at the bolts of every knee, on the net section of its beam."""
    if lateral.loose:
        return [
            open_while_loose(lateral, knee.beam.mark, "beam.bending_at_bolts", knee.brace.mark)
            for knee in lateral.knees
            if knee.bolts
        ]
    return [
        check
        for knee in lateral.knees
        if knee.bolts
        for check in worse(
            _bending(lateral, state, knee, knee.bolts, sagging=sagging)
            for state in lateral.states
            for sagging in (True, False)
        )
    ]


def _bending(
    lateral: LateralAnalysis, state: State, knee: Knee, bolts: BraceBolts, *, sagging: bool
) -> Check:
    beam, cases, brace = knee.beam, lateral.cases, knee.brace
    effects = lateral.path.effects[beam.mark]
    after = int(np.clip(np.searchsorted(effects.stations, knee.at - AT), 1, effects.stations.size - 1))
    before = after if abs(effects.stations[after] - knee.at) <= AT else after - 1
    rows = np.array([before, after])
    most, least = range_over(lateral.path, effects.moment[rows], cases)
    added = added_effect(lateral, state, beam, "moment", rows).total
    M = np.maximum(most + added if sagging else -(least + added), 0.0).max(axis=0)[None, :]
    n = float(holes_in_one_section(bolts.count, bolts.spacing, 0.0, bolts.diameter))
    d = beam.section.d
    group = factors(effects.values, Service(wet=beam.timber.wet, incised=beam.timber.counts_incised))
    calculation = start(lateral)
    run = calculation.run
    S_n = run(net_modulus_of_row, b=beam.width, d=d, n=n, D_h=bolts.hole, y=0.0)
    M_1, plies, said = run_moment_of_ply_at(
        run,
        look_of(lateral.path, beam),
        knee.at,
        lambda load: run_seat_load(unprinted(), lateral, state, load.member, load.row, most=True),
        M,
        sagging=sagging,
    )
    f_b = run(bending_stress, M=M_1, S=S_n / plies)
    F_b_p = run(adjusted_bending, F_b=effects.values.F_b, C_D=cases.C_D, C_L=1.0, **group.bending)
    return judge_lateral(
        calculation,
        lateral,
        state,
        beam.mark,
        key="beam.bending_at_bolts",
        at=brace.mark,
        demand=f_b,
        capacity=F_b_p,
        unit=PSI,
        says=f"bending of the net section at {brace.mark}",
        notes=(HOLES_NOTE, *((NEAR_NOTE.format(said=said), BENDING_NOTE) if said else ())),
    )
