"""The statics behind the demand of a member with wind and sway: its loads, its knees, what overturning adds, by hand.

A check takes the worst of many stations and patterns. What it found is looked up again by its value, its loads are
listed, and reactions, moment or shear come out of them by the same formulas as under weight alone.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from bolewright.bracing.knee import shear_with_brace_force
from bolewright.calculation import Calculation
from bolewright.platform.analysis.knee_force import knee_reaction
from bolewright.platform.analysis.knee_weight import pattern_loads
from bolewright.platform.analysis.knees import Knee
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import run_knee_share
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.checks.beam_added import added_effect, lifted_by_knees
from bolewright.platform.checks.joint_shear import TRADED, whole
from bolewright.platform.layout.tees import stands_alone
from bolewright.platform.limit_states.check import Check, Effect
from bolewright.platform.loads.balance import BalanceError
from bolewright.platform.loads.combine import Array, envelope
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block, Statement, StatementKind
from bolewright.rendering.numbers import digits
from bolewright.sheets.lateral_cases import lateral_place
from bolewright.sheets.printing import Page, printed
from bolewright.sheets.statics import LONGEST, Acting, Hand, acting_on, continuous
from bolewright.units import feet_inches

_SAME = 1e-9
_BESIDE = 4e-6  # in: a couple over the section is past it where the moment before it is meant
_QUANTITY = {"moment": "moment", "shear_left": "shear left", "shear_right": "shear right"}
_SHEAR = ("shear", (("shear_stress", "V"),))
_BENDING = ("moment", (("moment_of_loaded_ply", "M"), ("bending_stress", "M")))
# What a check takes of its member: which formula has it as which argument.
_TAKES = {
    **{f"{kind}.shear_lateral": _SHEAR for kind in ("beam", "joist", "blocking")},
    **{f"{kind}.bending_lateral": _BENDING for kind in ("beam", "joist", "blocking")},
    "guard.framing_bending_lateral": _BENDING,
    "guard.framing_shear_lateral": (
        "shear",
        (("shear_beside_post", "V"), ("demand_capacity_ratio", "demand")),
    ),
    "beam.shear_at_bolts": ("shear", (("demand_capacity_ratio", "demand"),)),
    "beam.bending_at_bolts": _BENDING,
}


@dataclass(frozen=True)
class Governing:
    """What governs a check of a beam: the place, the loads on every source, and the force of every knee on the beam.

    ``slack``: the knees have slack, and take none of the weight. ``traded`` pounds of shear that a pound of brace force
    is traded for, ``force`` that of the brace in this pattern (lb, positive the way that is looked at).
    """

    place: tuple[int, int]
    effect: Effect
    aim: Array
    loads: Array
    slack: bool
    traded: float = 0.0
    force: float = 0.0


def lateral_statics(results: Results, check: Check, page: Page) -> tuple[Block, ...]:
    """Loads on a beam in the lateral case that governs, and its moment or shear by hand; nothing for other checks."""
    found = governing_loads(results, check)
    if found is None:
        return ()
    lateral = results.lateral
    state = lateral.every[found.place[1]]
    mark = found.effect.member
    effects = results.path.effects[mark]
    acting = list(_acting(lateral, state, found))
    acting.sort(key=lambda x: (x.at, x.label))
    caption = f"Loads on {mark} in {check.combination} of this lateral case, its knees "
    caption += "with slack" if found.slack else "taking up weight"
    if not _knees(lateral, mark):
        caption = f"Loads on {mark} in {check.combination} of this lateral case"
    if len(effects.member.seats) != 2:
        blocks: tuple[Block, ...] = continuous(effects, acting, check, caption)
    else:
        hand = Hand(effects, found.effect, acting, caption)
        blocks = hand.blocks(check, page)
        wanted = _effect_of(lateral, state, found)
        if not math.isclose(found.effect.sign * hand.result, wanted, rel_tol=1e-6, abs_tol=1.0):
            raise BalanceError(f"{mark}: {hand.result:.1f} by hand, {wanted:.1f} checked")
    x = feet_inches(float(effects.stations[found.effect.row]))
    said = [f"Section at {x} from its start; overturning as for R_o (sheet Lateral stability)."]
    said += _knee_words(lateral, state, found)
    traded = Calculation()
    if found.traded:
        V = _effect_of(lateral, state, found)
        traded.run(shear_with_brace_force, V=V, t=found.traded, F=found.force)
        said.append(TRADED_NOTE)
    return (*blocks, Statement(StatementKind.ASIDE, (" ".join(said),)), *printed(traded.at(()), page))


TRADED_NOTE = (
    "Only patterns count in which the brace pulls, or pushes, as this row says. The shear of any of these is no more "
    "than the greatest V + t F of all patterns, F the force in the brace that way: the t with the least is taken."
)


def governing_loads(results: Results, check: Check) -> Governing | None:
    """The place and pattern whose effect is the one that a check took; None for another check."""
    place = lateral_place(results.lateral, check)
    mark = check.at if check.key.startswith("guard.") else check.part
    if place is None or check.key not in _TAKES or mark not in results.path.effects:
        return None
    member = results.path.effects[mark].member
    quantity, taken = _TAKES[check.key]
    wanted = _wanted(check, taken)
    if wanted is None or wanted <= 0 or stands_alone(member):
        return None
    knee = next((k for k in results.lateral.knees if k.brace.mark == check.at.split(",")[0]), None)
    if check.key == "beam.shear_at_bolts" and knee is None:
        return None
    names = ("moment",) if quantity == "moment" else ("shear_left", "shear_right")
    state = results.lateral.every[place[1]]
    if check.key == "beam.shear_at_bolts" and knee is not None:
        way = -1.0 if "tension" in check.at else 1.0
        return _find_traded(results.lateral, state, place, mark, names, (knee, way), wanted)
    return _find(results.lateral, state, place, mark, names, wanted)


def _wanted(check: Check, taken: Sequence[tuple[str, str]]) -> float | None:
    for formula, name in taken:
        found = [step.arguments[name] for step in check.steps if step.formula.name == formula]
        if found:  # of the ratios the first is the hand calculation's, before the frame model's
            return found[0] if formula == "demand_capacity_ratio" else found[-1]
    return None


def _knees(lateral: LateralAnalysis, mark: str) -> tuple[Knee, ...]:
    found = lateral.brace_reactions.get(mark)
    return found.knees if found else ()


def _ways(
    lateral: LateralAnalysis, state: State, mark: str, name: str
) -> Iterator[tuple[bool, Array, Array]]:
    """With slack knees and with tight ones: influence of weight on an effect, and its lateral part in every case."""
    effect = whole(getattr(lateral.path.effects[mark], name)[np.arange(_count(lateral, mark))])
    level = added_effect(lateral, state, lateral.path.layout.member(mark), name).total  # type: ignore[arg-type]
    yield True, effect, level
    found = lateral.brace_reactions.get(mark)
    if found is not None:
        taken = np.asarray(getattr(found, name) @ lifted_by_knees(lateral.knees_in(state), found.knees))
        yield False, effect - taken, level - taken @ lateral.tilt @ state.turn


def _count(lateral: LateralAnalysis, mark: str) -> int:
    return int(lateral.path.effects[mark].stations.size)


def _most(lateral: LateralAnalysis, rows: Array, case: int) -> Array:
    """Greatest of effects from weight in one lateral case."""
    e, cases = envelope(lateral.path, rows), lateral.cases
    by = (cases.D[case], cases.L[case], cases.S[case], cases.G[case])
    return np.asarray(by[0] * e.D + by[1] * e.L_most + by[2] * e.S_most + by[3] * e.guard_most)


def _find(
    lateral: LateralAnalysis,
    state: State,
    place: tuple[int, int],
    mark: str,
    names: Sequence[str],
    wanted: float,
) -> Governing | None:
    case = place[0]
    for name in names:
        for slack, rows, level in _ways(lateral, state, mark, name):
            for sign in (1, -1):
                values = _most(lateral, sign * rows, case) + sign * level[:, case]
                at = np.flatnonzero(np.isclose(values, wanted, rtol=_SAME, atol=0.0))
                if at.size:
                    row = int(at[0])
                    aim = sign * rows[row]
                    effect = Effect(_QUANTITY[name], mark, row, sign)
                    return Governing(
                        place, effect, aim, pattern_loads(lateral.path, lateral.cases, case, aim), slack
                    )
    return None


def _find_traded(
    lateral: LateralAnalysis,
    state: State,
    place: tuple[int, int],
    mark: str,
    names: Sequence[str],
    looked: tuple[Knee, float],
    wanted: float,
) -> Governing | None:
    """Shear under the patterns that put a knee in compression or in tension, as the check bounds it from above."""
    (knee, way), case = looked, place[0]
    on = lateral.knees_in(state)
    if knee not in on.knees:
        return None
    f = way * on.force[on.knees.index(knee)]
    up = knee.brace.rise / math.hypot(knee.brace.rise, knee.brace.run)
    F_level = float(
        (
            -way * knee_reaction(lateral.frames, state.Q, knee, state.foot) / up
            + f @ lateral.tilt @ state.turn
        )[case]
    )
    for name in names:
        for slack, rows, level in _ways(lateral, state, mark, name):
            for t in TRADED[:, 0]:
                for sign in (1, -1):
                    values = _most(lateral, sign * rows + t * f, case) + sign * level[:, case] + t * F_level
                    at = np.flatnonzero(np.isclose(values, wanted, rtol=_SAME, atol=0.0))
                    if at.size:
                        row = int(at[0])
                        loads = pattern_loads(lateral.path, lateral.cases, case, sign * rows[row] + t * f)
                        effect = Effect(_QUANTITY[name], mark, row, sign)
                        force = F_level + float(f @ loads)
                        return Governing(place, effect, sign * rows[row], loads, slack, float(t), force)
    return None


def _effect_of(lateral: LateralAnalysis, state: State, found: Governing) -> float:
    """The effect in this pattern, by the influences that the check ran on."""
    name = found.effect.quantity.replace(" ", "_")
    for slack, rows, level in _ways(lateral, state, found.effect.member, name):
        if slack == found.slack:
            row = found.effect.row
            return found.effect.sign * float(rows[row] @ found.loads + level[row, found.place[0]])
    raise BalanceError(f"{found.effect.member}: no such pattern")


def _acting(lateral: LateralAnalysis, state: State, found: Governing) -> Iterator[Acting]:
    """Loads on the beam: weight and overturning, forces of its knees, couples over its posts."""
    mark, case = found.effect.member, found.place[0]
    effects = lateral.path.effects[mark]
    tilted = lateral.tilt @ state.turn[:, case]
    weight, over = acting_on(effects, found.loads), acting_on(effects, tilted)
    if len(weight) + len(over) <= LONGEST:
        yield from weight
        yield from (replace(x, label=f"{x.label}, overturning") for x in over)
    else:
        both = acting_on(effects, found.loads + tilted)
        yield from (replace(x, label=f"{x.label}, with overturning") for x in both)
    for knee, lateral_part, by_weight in _knee_forces(lateral, state, found):
        yield Acting(f"{knee.brace.mark}, lateral force", knee.at, lateral_part, knee.at, knee.at)
        if not found.slack:
            up = -by_weight * knee.brace.rise / math.hypot(knee.brace.rise, knee.brace.run)
            yield Acting(f"{knee.brace.mark}, weight", knee.at, up, knee.at, knee.at)
    tipped = lateral.tipped.get(mark)
    if tipped is not None:
        for i, couple in zip(tipped.posts, tipped.couples(lateral.frames, state.force)[:, case], strict=True):
            post = lateral.frames[i].support.mark
            at = next(s.at for s in effects.member.seats if s.below == post)
            beside = at + (_BESIDE if found.effect.quantity in ("moment", "shear left") else 0.0)
            yield Acting(
                f"{post}, lateral force times depth, couple", beside, 0.0, beside, beside, -float(couple)
            )


def _knee_forces(
    lateral: LateralAnalysis, state: State, found: Governing
) -> Iterator[tuple[Knee, float, float]]:
    """Every knee of the beam: force down on it from lateral force, and along the knee from weight and overturning."""
    on, case = lateral.knees_in(state), found.place[0]
    for knee in _knees(lateral, found.effect.member):
        down = float(knee_reaction(lateral.frames, state.Q, knee, state.foot)[case])
        F_w = float(on.force[on.knees.index(knee)] @ (found.loads + lateral.tilt @ state.turn[:, case]))
        yield knee, down, F_w


def _knee_words(lateral: LateralAnalysis, state: State, found: Governing) -> list[str]:
    """Forces along the knees behind their rows in the table."""
    knees = list(_knee_forces(lateral, state, found))
    if not knees:
        return []
    said = []
    for knee, _, F_w in knees:
        i = lateral.row(knee.brace.support)
        frame = lateral.frames[i]
        assert isinstance(frame, PostFrame)
        which = next(w for w, axis in enumerate(frame.axes) if knee in axis.knees)
        Q = float(state.Q[i, which, found.place[0]])
        q = run_knee_share(Calculation().run, frame.axes[which], knee, state.foot)
        weight = "" if found.slack else f", F_w = {digits(F_w)} lb"
        said.append(f"{knee.brace.mark} Q = {digits(Q)} lb, q = {digits(q)}{weight}")
    rule = "down on the beam from lateral force q Q a / r"
    if not found.slack:
        rule += ", from weight and overturning -F_w a / L_b (row 'all' of the table of weight on the braces)"
    return [f"Knees: {'; '.join(said)}; {rule}."]
