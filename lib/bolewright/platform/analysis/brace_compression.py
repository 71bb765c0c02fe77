"""Lateral force that knee braces from a trunk bring to its bolts: outwards to the tie, inwards to the foot."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from bolewright.bracing.trunk_brace import opposed_thrust, part_along, trunk_brace_compression
from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.analysis.lateral_supports import BoltFrame, BraceFrame, LateralFrame, axes_of
from bolewright.platform.layout.trunk_braces import TrunkBrace
from bolewright.platform.loads.combine import Array, dead_for, raising_loads, snow_for
from bolewright.platform.loads.lateral_loads import LateralCases
from bolewright.platform.loads.load_path import LoadPath

Run = Callable[..., Any]
SQUARE = 0.5  # cosine: less than this of a beam's direction, a bolt's other axis holds its thrust
STILL = 1e-9  # cosine


@dataclass(frozen=True)
class Thrust:
    """Lateral force of some knee braces of one beam on one bolt.

    ``braces`` with the one towards the beam's end first; ``c`` the part of a force towards the beam's end that is
    along and across the bolt, with the sign of what the bolt gets; ``loads`` the load on each brace's head (lb;
    2 patterns, braces, cases): that with the greatest sum towards the beam's end, and towards its start.
    """

    braces: tuple[TrunkBrace, ...]
    c: tuple[float, float]
    loads: Array = field(repr=False)

    def run(self, run: Run, over: Array, H: Array, which: int) -> Array:
        """Force along (0) or across (1) the bolt in every case that makes ``H`` there greater, as a row.

        ``over`` is what overturning adds to the head of each brace (braces, cases).
        """
        heads = self.loads + over
        signed = [b.side * b.slope for b in self.braces]
        sums = np.einsum("b,pbc->pc", signed, heads) * self.c[which]
        pick = (np.abs(H + sums[1]) > np.abs(H + sums[0])).astype(int)
        R = np.take_along_axis(heads, pick.reshape(1, 1, -1), axis=0)[0]
        parts = [
            run(trunk_brace_compression, R=row[None, :], a=b.a, r=b.r)
            for row, b in zip(R, self.braces, strict=True)
        ]
        if len(parts) == 2:
            T = run(opposed_thrust, T_1=parts[0], T_2=parts[1])
            sign = 1.0
        else:
            T, sign = parts[0], float(self.braces[0].side)
        return np.asarray(run(part_along, T=T, c=sign * self.c[which]), dtype=float)

    def greatest(self, over: Array) -> Array:
        """Greatest lateral force along the beam either way, without sign (lb; cases)."""
        signed = np.array([b.side * b.slope for b in self.braces])
        return np.asarray(np.abs(np.einsum("b,pbc->pc", signed, self.loads + over)).max(axis=0))

    def couple(self, over: Array, sense: int) -> Array:
        """Moment that the heads bring about the bolt they stand on, along the beam (lb·in; cases).

        ``sense`` 0 of the pattern that makes it greatest towards the beam's end, 1 towards its start.
        """
        arms = np.array([b.side * b.r for b in self.braces])
        return np.asarray(arms @ (self.loads[sense] + over))


def find_thrusts(path: LoadPath, frames: Sequence[LateralFrame], cases: LateralCases) -> dict[str, Thrust]:
    """Thrust on every bolt that ties a beam with knee braces to its tree, or that such braces stand on."""
    braces = [f.brace for f in frames if isinstance(f, BraceFrame)]
    found = {}
    for frame in frames:
        if not isinstance(frame, BoltFrame):
            continue
        if frame.braces:
            own, sign = list(frame.braces), -1.0
        else:
            own = [b for b in braces if frame in ties(path, frames, b)]
            sign = 1.0
        if own:
            own.sort(key=lambda b: -b.side)
            c = axes_of(frame) @ np.array(own[0].beam.line.u) * sign
            found[frame.support.mark] = Thrust(
                tuple(own), (float(c[0]), float(c[1])), _loads(path, own, cases)
            )
    return found


def ties(path: LoadPath, frames: Sequence[LateralFrame], brace: TrunkBrace) -> list[BoltFrame]:
    """The bolts of a brace's tree that its beam sits on and that hold it along itself."""
    return [
        f
        for f in frames
        if isinstance(f, BoltFrame)
        and not f.braces
        and f.support.tree == brace.foot.tree
        and any(m.mark == brace.beam.mark for m, _ in path.layout.on_support(f.support.mark))
        and _holds(f, brace)
    ]


def _holds(frame: BoltFrame, brace: TrunkBrace) -> bool:
    """Whether a bracket holds along a beam: along its bolt, across it, or both on a skew."""
    parts = np.abs(axes_of(frame) @ np.array(brace.beam.line.u))
    held = held_ways(frame.support.lateral)
    return all(held[which] for which in (0, 1) if parts[which] > SQUARE)


def _loads(path: LoadPath, braces: Sequence[TrunkBrace], cases: LateralCases) -> Array:
    """Load on each brace's head in every case, in the patterns that make their sum greatest either way."""
    rows = np.array([path.reactions[b.mark] for b in braces])
    total = np.array([b.side * b.slope for b in braces]) @ rows
    found = []
    for sense in (1.0, -1.0):
        live, snow = raising_loads(path, sense * total, "live"), snow_for(path, sense * total)
        dead = dead_for(path, sense * total)
        found.append(
            np.outer(rows @ dead, cases.D) + np.outer(rows @ live, cases.L) + np.outer(rows @ snow, cases.S)
        )
    return np.array(found)


def heads_over(frames: Sequence[LateralFrame], braces: Sequence[TrunkBrace], over: Array) -> Array:
    """What overturning adds to the head of each brace (braces, cases), out of an array over all supports."""
    marks = [f.support.mark for f in frames]
    return np.asarray(over[[marks.index(b.mark) for b in braces]])


def with_feet(frames: Sequence[LateralFrame], rows: Array) -> Array:
    """Rows over the supports, with those of the bolts under knee braces filled by the sum of these."""
    feet = [i for i, f in enumerate(frames) if isinstance(f, BoltFrame) and f.braces]
    if not feet:
        return rows
    filled = rows.copy()
    for i in feet:
        frame = frames[i]
        assert isinstance(frame, BoltFrame)
        filled[i] = heads_over(frames, frame.braces, rows).sum(axis=0)
    return filled
