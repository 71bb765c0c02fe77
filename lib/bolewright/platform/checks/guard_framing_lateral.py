"""What guards' posts do to the joist, rim or header that their bolts go through, with wind and sway.

Overturning presses some of the deck more and some less: the bending of the net section at a post's bolts and the shear
there with what it adds. A beam behind a post is bent and drawn by lateral force too: its net section is not here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.calculation import Calculation
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.checks.guard_framing import (
    COUNTED,
    HOLES,
    WHOLE,
    hangs_behind,
    moments_there,
    run_net_modulus,
    run_shear_beside,
    run_shear_value,
    sheared_stations,
)
from bolewright.platform.checks.lateral import judge_lateral, start, unprinted
from bolewright.platform.checks.members import BENT, look_of
from bolewright.platform.checks.overturned import (
    Asked,
    Corners,
    either_way,
    in_cases,
    worst_of,
    worst_state,
)
from bolewright.platform.layout.guard_joints import InFraming, places_in_framing
from bolewright.platform.layout.guards import GuardPost, find_guards
from bolewright.platform.layout.parts import Kind
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array, envelope, member_envelope
from bolewright.platform.loads.load_path import Effects
from bolewright.timber.adjusted_values import adjusted_bending
from bolewright.timber.adjustment import Factors
from bolewright.timber.bending import bending_stress
from bolewright.units import POUND, PSI


@dataclass(frozen=True)
class _At:
    """A post's bolts in a piece of framing."""

    post: GuardPost
    place: InFraming
    effects: Effects
    own: Factors


def guard_framing_lateral_checks(lateral: LateralAnalysis) -> list[Check]:
    """Of each guard the post whose bolts weaken a joist or a piece of blocking most, in bending and in shear."""
    layout = lateral.path.layout
    if lateral.loose or not layout.project.guards:
        return []
    found: dict[str, list[_At]] = {}
    for run in find_guards(layout):
        for post in run.posts:
            found.setdefault(run.guard.mark, []).extend(_in_framing(lateral, post))
    corners = Corners.of(lateral)
    return [
        check
        for some in found.values()
        for check in (*_bending(lateral, corners, some), *_shear(lateral, corners, some))
    ]


def _in_framing(lateral: LateralAnalysis, post: GuardPost) -> Iterator[_At]:
    path = lateral.path
    if post.receiver is None:
        return
    for place in places_in_framing(path.layout, post):
        if place.member.kind is not Kind.BEAM and min(place.to_top, place.to_bottom) > 0:
            own = look_of(path, place.member).factors
            yield _At(post, place, path.effects[place.member.mark], own)


def _bending(lateral: LateralAnalysis, corners: Corners, some: Sequence[_At]) -> Iterator[Check]:
    """Bending on what the two holes leave."""

    def asked(at: _At) -> Asked[_At]:
        there = moments_there(at.post, at.place, at.effects)
        units = either_way(lateral, envelope(lateral.path, there), there)
        S_n = run_net_modulus(unprinted(), at.post, at.place)
        F_b_p = unprinted()(
            adjusted_bending, F_b=at.effects.values.F_b, C_D=corners.values, C_L=1.0, **at.own.bending
        )
        return Asked(at, units, S_n * F_b_p)

    worst = worst_of(corners, map(asked, some))
    if worst is None or float((worst.unit @ corners.amount).max()) <= BENT:
        return
    at, C_D = worst.part, lateral.cases.C_D
    state = worst_state(lateral, worst.unit, C_D)
    calculation = start(lateral)
    run = calculation.run
    S_n = run_net_modulus(run, at.post, at.place)
    F_b_p = run(adjusted_bending, F_b=at.effects.values.F_b, C_D=C_D, C_L=1.0, **at.own.bending)
    M = np.maximum(in_cases(lateral, state, worst.unit), 0.0)
    mark = at.place.member.mark
    yield judge_lateral(
        calculation,
        lateral,
        state,
        at.post.mark,
        key="guard.framing_bending_lateral",
        at=mark,
        demand=run(bending_stress, M=M, S=S_n),
        capacity=F_b_p,
        unit=PSI,
        says=f"bending of the net section of {mark} at its bolts with wind and sway",
        notes=(HOLES,),
    )


def _shear(lateral: LateralAnalysis, corners: Corners, some: Sequence[_At]) -> Iterator[Check]:
    """Shear with the depth from the lower edge, all of the post's load down beside it."""

    def beside(at: _At, calculation: Calculation, V: Array, pushed: Array) -> Array:
        if hangs_behind(at.post, at.place.member):
            return V
        return run_shear_beside(lateral.path, at.post, calculation, V, pushed)

    def asked(at: _At) -> Asked[_At]:
        mark, units = at.place.member.mark, []
        sides = sheared_stations(at.post, at.place, at.effects)
        for side, rows in zip(("shear_left", "shear_right"), sides, strict=True):
            weight = member_envelope(lateral.path, mark, side).at(rows)
            units.append(either_way(lateral, weight, getattr(at.effects, side)[rows]))
        capacity, _, _ = run_shear_value(unprinted(), at.place, at.effects, at.own, corners.values)
        nothing = np.zeros((1, corners.which.size))
        return Asked(at, np.concatenate(units), capacity, beside(at, Calculation(), nothing, corners.pushed))

    worst = worst_of(corners, map(asked, some))
    if worst is None:
        return
    at, cases = worst.part, lateral.cases
    more = beside(at, Calculation(), np.zeros((1, cases.count)), cases.G)
    state = worst_state(lateral, worst.unit, cases.C_D, more)
    calculation = start(lateral)
    V = beside(at, calculation, np.maximum(in_cases(lateral, state, worst.unit), 0.0), cases.G)
    V_r_p, clause, words = run_shear_value(calculation.run, at.place, at.effects, at.own, cases.C_D)
    mark = at.place.member.mark
    note = COUNTED if hangs_behind(at.post, at.place.member) else WHOLE
    yield judge_lateral(
        calculation,
        lateral,
        state,
        at.post.mark,
        key="guard.framing_shear_lateral",
        at=mark,
        demand=V,
        capacity=V_r_p,
        unit=POUND,
        clause=clause,
        says=f"shear of {mark} at its bolts with wind and sway",
        notes=(words, note.format(mark=mark)),
    )
