"""T-frames under lateral load: each case with more weight on either arm of the beam, and with weight on both.

The weight on one arm brings a moment into the post's head, of one sign in a case, and bends the post: in the plan
of the lateral springs that is like a movement of the ground under it, against which the rest of the platform holds it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from bolewright.bracing.stiffness import SOFT_FOOT
from bolewright.bracing.tee import tee_lean
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import first_most
from bolewright.platform.analysis.lateral_supports import Foot, LateralFrame, PostFrame
from bolewright.platform.layout.tees import FIXITY, Run, Tee, post_bending
from bolewright.platform.loads.combine import Array, dead_for, raising_loads, raising_push, snow_for
from bolewright.platform.loads.lateral_loads import LateralCases
from bolewright.platform.loads.load_path import LoadPath

ARMS = {
    -1: "more weight towards the start of",
    1: "more weight towards the end of",
    0: "weight on both arms of",
}


@dataclass(frozen=True)
class TeeWeight:
    """What weight brings to every support that is a T-frame's post in every case (supports, cases); 0 elsewhere.

    ``moment`` about the post (lb·in), towards its beam's end, and ``load`` on its cap (lb), of one pattern of
    live load; one heavy person counts where the moment is greater for it.
    """

    moment: Array
    load: Array


def head_rows(path: LoadPath, frames: tuple[LateralFrame, ...]) -> Array:
    """Influence of the sources on the moment of weight into the head of every T-frame's post (supports, sources)."""
    rows = np.zeros((len(frames), path.weights.size))
    for i, tee in _tees(frames):
        head = path.effects[tee.beam.mark].head
        assert head is not None
        rows[i] = head[0]
    return rows


def with_arms(
    path: LoadPath, frames: tuple[LateralFrame, ...], cases: LateralCases
) -> tuple[LateralCases, TeeWeight]:
    """All cases with every pattern of weight on the arms of T-frames; as they are where there is none."""
    tees = _tees(frames)
    rows = head_rows(path, frames)
    patterns = list(product(ARMS, repeat=len(tees)))
    moment = np.zeros((len(frames), len(patterns), cases.count))
    load = np.zeros_like(moment)
    for p, pattern in enumerate(patterns):
        for (i, tee), arm in zip(tees, pattern, strict=True):
            M, R = _live(path, rows[i], path.reactions[tee.mark], arm)
            snow = snow_for(path, arm * rows[i]) if arm else path.snow
            dead = dead_for(path, arm * rows[i]) if arm else path.dead
            moment[i, p] = rows[i] @ dead * cases.D + rows[i] @ snow * cases.S + M * cases.L
            down = path.reactions[tee.mark]
            load[i, p] = down @ dead * cases.D + down @ snow * cases.S + R * cases.L
    weight = TeeWeight(moment.reshape(len(frames), -1), load.reshape(len(frames), -1))
    if not tees:
        return cases, weight
    said = [
        "".join(f", {ARMS[arm]} {tee.beam.mark}" for (_, tee), arm in zip(tees, pattern, strict=True))
        for pattern in patterns
    ]
    n = len(patterns)
    repeated = {
        name: np.tile(getattr(cases, name), n)
        for name in ("C_D", "D", "L", "S", "W", "G", "load", "wind", "people", "over", "trunk")
    }
    words = tuple(word + arms for arms in said for word in cases.words)
    return replace(cases, names=cases.names * n, words=words, against=cases.against * n, **repeated), weight


def run_lean(run: Run, frame: LateralFrame, foot: Foot, moment: Array) -> Array:
    """How far weight on one arm would move the top of a T-frame along its beam, were it free (in)."""
    if not isinstance(frame, PostFrame) or frame.tee is None:
        return np.zeros_like(moment)
    E, I = post_bending(Calculation().run, frame.tee)
    f = 1.0 if foot is Foot.HELD else SOFT_FOOT
    return np.asarray(run(tee_lean, M_h=moment, E=E, I=I, l=frame.h + FIXITY, d=frame.depth, f=f))


def _tees(frames: tuple[LateralFrame, ...]) -> list[tuple[int, Tee]]:
    return [(i, f.tee) for i, f in enumerate(frames) if isinstance(f, PostFrame) and f.tee is not None]


def _live(path: LoadPath, row: Array, down: Array, arm: int) -> tuple[float, float]:
    """Moment about the post and load on it from live load on one arm (the worst pattern), or on all."""
    if not arm:
        return float(row @ path.live), float(down @ path.live)
    loaded = raising_loads(path, arm * row, "live") + raising_push(path, arm * row)
    M, R = float(row @ loaded), float(down @ loaded)
    spots = row[path.first_spot :]
    worst = first_most(arm * spots) if spots.size else 0
    person = path.layout.project.loads.person
    if spots.size and arm * spots[worst] * person > abs(M):
        return float(spots[worst] * person), max(R, float(down[path.first_spot + worst]) * person)
    return M, R
