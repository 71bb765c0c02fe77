"""The beam at the bolts that hold it in its bracket: what their holes leave of it, and how high in it they stand."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from bolewright.calculation import Calculation
from bolewright.platform.analysis.lateral import LateralAnalysis, State, range_over
from bolewright.platform.checks.beam_added import added_effect
from bolewright.platform.checks.beam_rotation import run_seat_load
from bolewright.platform.checks.bracket_bolts import BoltedBeam, bolted_in_brackets
from bolewright.platform.checks.lateral import judge_lateral, open_while_loose, start, unprinted, worse
from bolewright.platform.checks.members import C_D, CASES, NAMES, look_of
from bolewright.platform.checks.plies import (
    BENDING_NOTE,
    NEAR_NOTE,
    Reaction,
    reaction_by_weight,
    run_moment_of_ply_at,
)
from bolewright.platform.limit_states.check import Check, judge
from bolewright.platform.loads.combine import Array, envelope
from bolewright.timber.adjusted_values import adjusted_bending, adjusted_tension
from bolewright.timber.bending import bending_stress
from bolewright.timber.combined import bending_and_tension, tension_stress
from bolewright.timber.net_section import net_area, net_section_modulus
from bolewright.units import INCH, NONE, feet_inches

HOLE = 1 / 16  # in, a bolt hole is wider than its bolt (NDS 2018, 12.1.3.2)
HOLES_NOTE = (
    "One hole in a section: the bolts stand 4 diameters apart along the grain (NDS 2018, 3.1.2.3). The greatest moment "
    "from bolt to bolt, knees taken as they take up weight or with slack; on the safe side the whole lateral force on "
    "the bolts pulls along the grain. C_r is not counted."
)
MIDDLE_NOTE = (
    "Lifted, the beam is held down by its bolts, which pull across the grain at the wood above them: a concentrated "
    "load, unless light, is not suspended below the neutral axis of a beam (NDS 2018, Table 12.5.1C, footnote 2, from "
    "memory; 3.8.2). They are asked to hold 200 lb at least, which counts as not light (judgement). Steel that takes "
    "the tension across the grain is not calculated."
)


def bracket_net_section_checks(lateral: LateralAnalysis) -> list[Check]:
    """Every beam that bolts hold in its bracket: its net section there, and whether they stand below its middle."""
    found: list[Check] = []
    for at in bolted_in_brackets(lateral):
        if lateral.loose:
            found.append(open_while_loose(lateral, at.member.mark, "beam.bending_at_bolts", at.mark))
        else:
            found += worse([*_by_weight(at), *_with_lateral(at)])
        found.append(_height(at))
    return found


def _height(at: BoltedBeam) -> Check:
    """Bolts at mid-depth of the beam or above."""
    half = at.member.section.d / 2
    (check,) = judge(
        Calculation((1, 1)),
        [at.member.mark],
        ("any",),
        key="beam.bolts_below_middle",
        at=at.mark,
        demand=half,
        capacity=at.bolts.height,
        unit=INCH,
        says=f"half its depth, against bolts {feet_inches(at.bolts.height)} up in its bracket on {at.mark},",
        notes=(MIDDLE_NOTE,),
    )
    return check


def _between(at: BoltedBeam) -> Array:
    """From stations beside the bolts to the places between the first and the last of these (places, stations)."""
    x, (low, high) = at.stations, (at.bolts.places[0], at.bolts.places[-1])
    inside = x[(x > low) & (x < high)]
    places = np.clip(np.concatenate([[low], inside, [high]]), x[0], x[-1])
    after = np.clip(np.searchsorted(x, places), 1, x.size - 1)
    share = (places - x[after - 1]) / (x[after] - x[after - 1])
    weights, rows = np.zeros((places.size, x.size)), np.arange(places.size)
    weights[rows, after - 1], weights[rows, after] = 1.0 - share, share
    return weights


def _by_weight(at: BoltedBeam) -> Iterator[Check]:
    """Bending by weight in the cases of strength."""
    path, mark = at.lateral.path, at.member.mark
    none = np.zeros((1, len(CASES)))
    for on in (*at.lateral.tight, None):
        M, _, _ = at.influences("moment", on)
        found = envelope(path, _between(at) @ M)
        ways = found.most(CASES).max(axis=1), -found.least(CASES).min(axis=1)
        for greatest, sagging in zip(ways, (True, False), strict=True):
            calculation = Calculation((1, len(CASES)))
            said = _bent(at, calculation, greatest, none, C_D, reaction_by_weight(path), sagging=sagging)
            yield judge(calculation, [mark], NAMES, **said)[0]


def _with_lateral(at: BoltedBeam) -> Iterator[Check]:
    """The same with wind and sway in every state."""
    lateral, between, rows = at.lateral, _between(at), at.beside()
    for on in (*lateral.tight, None):
        M, taken, _ = at.influences("moment", on)
        most, least = range_over(lateral.path, between @ M, lateral.cases)
        for state in lateral.states:
            if on is not None and on is not lateral.knees_in(state):
                continue
            added = added_effect(lateral, state, at.member, "moment", rows).total
            added = between @ (added - taken @ lateral.tilt @ state.turn)
            ways = (most + added).max(axis=0), -(least + added).min(axis=0)
            for greatest, sagging in zip(ways, (True, False), strict=True):
                calculation = start(lateral)
                T = at.run_lateral(calculation.run, state)
                load = _load_in(lateral, state)
                said = _bent(at, calculation, greatest, T, lateral.cases.C_D, load, sagging=sagging)
                yield judge_lateral(calculation, lateral, state, at.member.mark, slack=on is None, **said)


def _load_in(lateral: LateralAnalysis, state: State) -> Reaction:
    """Load of what hangs on the beam, with wind and sway in a state."""
    return lambda load: run_seat_load(unprinted(), lateral, state, load.member, load.row, most=True)


def _bent(
    at: BoltedBeam,
    calculation: Calculation,
    M: Array,
    T: Array,
    durations: Array,
    load: Reaction,
    *,
    sagging: bool,
) -> dict[str, Any]:
    """Bending one way with tension along the grain on what a hole leaves: what is judged and said of it."""
    run, b, d, D_h = calculation.run, at.member.width, at.member.section.d, at.bolts.diameter + HOLE
    values = at.lateral.path.effects[at.member.mark].values
    S_n = run(net_section_modulus, b=b, d=d, D_h=D_h, y=at.bolts.height - d / 2)
    middle = (at.bolts.places[0] + at.bolts.places[-1]) / 2
    look = look_of(at.lateral.path, at.member)
    whole = np.maximum(M, 0.0)[None, :]
    M_1, plies, near = run_moment_of_ply_at(run, look, middle, load, whole, sagging=sagging)
    f_b = run(bending_stress, M=M_1, S=S_n / plies)
    F_b_star = run(adjusted_bending, F_b=values.F_b, C_D=durations, C_L=1.0, **at.group.bending)
    f_t = run(tension_stress, T=T, A_n=run(net_area, b=b, d=d, n=1.0, D_h=D_h))
    F_t_p = run(adjusted_tension, F_t=values.F_t, C_D=durations, **at.group.tension)
    return {
        "key": "beam.bending_at_bolts",
        "at": at.mark,
        "demand": run(bending_and_tension, f_t=f_t, F_t_p=F_t_p, f_b=f_b, F_b_star=F_b_star),
        "capacity": 1.0,
        "unit": NONE,
        "clause": "NDS 2018, 3.1.2, 3.9.1",
        "says": f"bending and tension of the net section at the bolts in its bracket on {at.mark}",
        "notes": (HOLES_NOTE, *((NEAR_NOTE.format(said=near), BENDING_NOTE) if near else ())),
    }
