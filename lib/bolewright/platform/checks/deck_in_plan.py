"""The deck in plan: crossed diagonals that carry lateral force from one end of the platform to the other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from bolewright.bracing.plan import (
    force_across_deck,
    lateral_load_before_cut,
    moment_about_middle,
    plan_diagonal_force,
    plan_shear,
    support_force_before_cut,
)
from bolewright.bracing.trunk_brace import with_brace_compression
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import most_of
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import Run
from bolewright.platform.checks.lateral import judge_lateral, start, worse
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Diagonal
from bolewright.units import POUND, feet_inches

BOARDS_NOTE = "Boards with open gaps are not counted on to brace the deck in its plane."
CUT_NOTE = (
    "What the supports before a cut across the deck take, less the push on the deck before it, is passed on by the "
    "diagonals that the cut meets and that lean one way. The push is spread in a straight line along the deck."
)
SHORT = 12.0  # in: a strip of deck no longer than this keeps square by its joists
FLAT = 0.1  # cosine: a diagonal that leans less across the beams passes nothing


@dataclass(frozen=True)
class _Cut:
    """A stretch of deck between supports: from, to, and the diagonals across it that lean each way."""

    low: float
    high: float
    gap: int
    leaning: tuple[tuple[Diagonal, ...], tuple[Diagonal, ...]]


def plan_checks(lateral: LateralAnalysis) -> list[Check]:
    """Diagonals in every stretch of deck between supports; not checked where a stretch has none crossed."""
    layout = lateral.path.layout
    u, t = _directions(lateral)
    if len({f.support.at for f in lateral.frames}) < 2 or not layout.project.diagonals:
        return [
            _open(
                "The deck has no in-plane bracing: boards with open gaps are not counted on. Put a crossed "
                "pair of straps or flat bars under the joists ([[diagonal]] with from, to and rated_load)."
            )
        ]
    places = np.array([f.support.at for f in lateral.frames]) @ u
    checks: list[Check] = []
    for cut in _cuts(lateral, u, t, places):
        bare = [diagonals for diagonals in cut.leaning if not diagonals]
        if len(bare) == 2:
            return [
                _open(
                    f"No plan diagonal crosses {feet_inches(cut.high - cut.low)} of the deck between supports, from "
                    f"{feet_inches(cut.low)} to {feet_inches(cut.high)} along the beams: carry them on."
                )
            ]
        if bare:
            return [_open("The plan diagonals all lean one way, and a strap takes tension only: cross them.")]
        for diagonals in cut.leaning:
            if unrated := [d.mark for d in diagonals if d.rated_load is None]:
                return [_open(f"No rated load is given for diagonal {unrated[0]}: enter rated_load.")]
            C = sum(_cosine(d, t) for d in diagonals)
            rated = min(d.rated_load or 0.0 for d in diagonals)
            checks += [_diagonal(lateral, state, (places, t), cut, C, rated) for state in lateral.states]
    return worse(checks)


def _open(reason: str) -> Check:
    return not_checked("platform", "platform.in_plane", reason)


def _directions(lateral: LateralAnalysis) -> tuple[Array, Array]:
    """Direction of the beams under the deck, on average, and the one across them."""
    top = [c for c in lateral.path.layout.beams if c.layer <= 1]
    angles = [2 * math.atan2(c.line.u[1], c.line.u[0]) for c in top]
    angle = math.atan2(sum(map(math.sin, angles)), sum(map(math.cos, angles))) / 2
    u = np.array([math.cos(angle), math.sin(angle)])
    return u, np.array([-u[1], u[0]])


def _cosine(diagonal: Diagonal, t: Array) -> float:
    along = np.array(diagonal.end) - np.array(diagonal.start)
    return abs(float(along @ t)) / float(np.linalg.norm(along))


def _cuts(lateral: LateralAnalysis, u: Array, t: Array, places: Array) -> list[_Cut]:
    """Stretches between neighbouring supports along the beams, cut where a diagonal starts or ends."""
    layout = lateral.path.layout
    deck = np.array(layout.project.platform.outline) @ u
    ends = {
        d.mark: sorted((float(np.array(d.start) @ u), float(np.array(d.end) @ u)))
        for d in layout.project.diagonals
    }
    order = np.sort(places)
    cuts = []
    for gap, (a, b) in enumerate(pairwise(order)):
        low, high = max(float(a), float(deck.min())), min(float(b), float(deck.max()))
        if high - low <= SHORT:
            continue
        marks = sorted({low, high, *(x for pair in ends.values() for x in pair if low < x < high)})
        for start_, end in pairwise(marks):
            if end - start_ <= SHORT:
                continue
            middle = (start_ + end) / 2
            across = [d for d in layout.project.diagonals if ends[d.mark][0] <= middle <= ends[d.mark][1]]
            leaning = tuple(tuple(d for d in across if _lean(d, u, t) == lean) for lean in (1, -1))
            cuts.append(_Cut(start_, end, gap, (leaning[0], leaning[1])))
    return cuts


def _lean(diagonal: Diagonal, u: Array, t: Array) -> int:
    """1 or -1 for the way a diagonal leans, 0 for one that runs along the beams."""
    along = np.array(diagonal.end) - np.array(diagonal.start)
    across = float(along @ t) / float(np.linalg.norm(along)) * (1 if along @ u > 0 else -1)
    return 0 if abs(across) <= FLAT else int(math.copysign(1, across))


def _run_push(run: Run, lateral: LateralAnalysis, t: Array) -> tuple[Array, Array, float, float]:
    """Push across the deck in every case and its moment about the deck's middle; where the deck starts, its length."""
    u = np.array([t[1], -t[0]])
    deck = np.array(lateral.path.layout.project.platform.outline)
    low, high = float((deck @ u).min()), float((deck @ u).max())
    middle = u * (low + high) / 2 + t * float((deck @ t).min() + (deck @ t).max()) / 2
    F_x, F_y, M_z = lateral.cases.load[:, None, :]
    F = run(force_across_deck, F_x=F_x, F_y=F_y, c=float(t[0]), s=float(t[1]))
    x, y = (float(v) for v in middle)
    M = run(moment_about_middle, M_z=M_z, F_x=F_x, F_y=F_y, x=x, y=y)
    return np.asarray(F), np.asarray(M), low, high - low


def _run_supports(run: Run, state: State, rows: Sequence[int], t: Array) -> Array:
    """Lateral force across the deck of some supports in every case, one after another."""
    V = np.zeros((1, state.force.shape[2]))
    for n, i in enumerate(rows):
        (c_1, c_2), (V_1, V_2) = state.springs[i].axes @ t, state.force[i][:, None, :]
        before = {"V_b": V} if n else {"V_b": 0.0}
        V = run(support_force_before_cut, V_1=V_1, V_2=V_2, c_1=float(c_1), c_2=float(c_2), **before)
    return np.asarray(V)


def _by_knees(lateral: LateralAnalysis, state: State, rows: Sequence[int], t: Array) -> tuple[Array, Array]:
    """Greatest and least of that force with what knees under weight and overturning push the deck with."""
    parts = np.zeros((1, len(lateral.frames), 2))
    for i in rows:
        parts[0, i] = state.springs[i].axes @ t
    return lateral.passed_range(state, parts)


def _diagonal(
    lateral: LateralAnalysis, state: State, places: tuple[Array, Array], cut: _Cut, C: float, rated: float
) -> Check:
    at, t = places
    before = [int(i) for i in np.argsort(at)[: cut.gap + 1]]
    calculation = start(lateral)
    V = _run_supports(calculation.run, state, before, t)
    most, least = _by_knees(lateral, state, before, t)
    F, M, low, length = _run_push(calculation.run, lateral, t)

    def shear(run: Run, place: float) -> Array:
        w = run(lateral_load_before_cut, F=F, M=M, L=length, c=place - low)
        if not lateral.pushed:
            return np.asarray(run(plan_shear, V=V, w=w))
        pushed = np.where(np.abs(most - w) >= np.abs(least - w), most, least)
        return np.asarray(run(plan_shear, V=run(with_brace_compression, H=V, T=pushed - V), w=w))

    ends = (cut.low, cut.high)
    worst = most_of(ends, lambda place: float(shear(Calculation().run, place).max()))
    F_d = calculation.run(plan_diagonal_force, H=shear(calculation.run, worst), C=C)
    return judge_lateral(
        calculation,
        lateral,
        state,
        "platform",
        key="platform.in_plane",
        demand=F_d,
        capacity=rated,
        unit=POUND,
        says="the tension in its plan diagonals",
        notes=(BOARDS_NOTE, CUT_NOTE),
    )
