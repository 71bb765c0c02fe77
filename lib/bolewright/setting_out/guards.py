"""Guards and gates as they are set out: rails between posts, balusters, and the leaf of a gate in its way."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.platform.layout.gates import GateAt, find_gates, leaf_balusters, leaf_brace, leaf_height
from bolewright.platform.layout.guard_sizes import baluster_places, stretches_of
from bolewright.platform.layout.guards import GuardRun, edge_name, height_of
from bolewright.platform.layout.layout import Layout
from bolewright.platform.project import Guard
from bolewright.timber.sections import parse_section


@dataclass(frozen=True)
class RailBay:
    """A clear stretch of rail: of what guard, between what, from where to where along its edge (in).

    ``balusters`` in it, and the ``gap`` that they leave, all alike (in); none where the infill is another.
    """

    guard: str
    edge: int
    between: tuple[str, str]
    low: float
    high: float
    balusters: int
    gap: float | None

    @property
    def length(self) -> float:
        """Clear length (in)."""
        return self.high - self.low


@dataclass(frozen=True)
class GateCut:
    """A gate as it is set out (in): its way along the edge, its leaf, and heights over the deck.

    ``low`` and ``high`` are the ends of the guard beside it, from the edge's first corner; ``beside`` the clear
    distances from the post that it hangs on, and from the one it closes to, to the leaf.
    """

    mark: str
    edge: int
    low: float
    high: float
    hung_on: str
    closes_to: str
    leaf: float
    foot: float
    top: float
    side_gap: float
    beside: tuple[float | None, float | None]
    hinges: tuple[float, float]
    latch: float
    brace: float
    balusters: int
    gap: float | None

    @property
    def height(self) -> float:
        """Height of the leaf (in)."""
        return self.top - self.foot

    @property
    def diagonal(self) -> float:
        """Corner to corner of the leaf (in)."""
        return math.hypot(self.leaf, self.height)


def rail_bays(layout: Layout) -> tuple[RailBay, ...]:
    """Every clear stretch of every guard, in the order of its posts."""
    return tuple(bay for run in layout.guards for bay in _bays(run))


def _bays(run: GuardRun) -> list[RailBay]:
    half = parse_section(run.guard.section).b / 2
    found = []
    for low, high in stretches_of(run):
        before = [p.mark for p in run.posts if p.along - run.start <= low - half + 1e-6]
        after = [p.mark for p in run.posts if p.along - run.start >= high + half - 1e-6]
        count, gap = _filled(run.guard, low, high)
        ends = (before[-1] if before else "its end", after[0] if after else "its end")
        found.append(
            RailBay(edge_name(run), run.edge, ends, run.start + low, run.start + high, count, gap),
        )
    return found


def _filled(guard: Guard, low: float, high: float) -> tuple[int, float | None]:
    """Balusters in a clear stretch, and the gap that they leave."""
    if guard.infill != "balusters":
        return 0, None
    count = len(baluster_places(guard, low, high))
    return count, (high - low - count * parse_section(guard.baluster).b) / (count + 1)


def gate_cuts(layout: Layout) -> tuple[GateCut, ...]:
    """Every gate."""
    return tuple(_gate(layout, at) for at in find_gates(layout))


def _gate(layout: Layout, at: GateAt) -> GateCut:
    gate = at.gate
    top = height_of(layout.project)
    middle = gate.bottom_gap + leaf_height(layout, gate) / 2
    count, gap = leaf_balusters(at), None
    if at.guard is not None and at.guard.infill == "balusters":
        stile = parse_section(gate.section).b
        clear = at.leaf - 2 * stile - count * parse_section(at.guard.baluster).b
        gap = clear / (count + 1)
    return GateCut(
        gate.mark,
        gate.edge,
        at.way.low,
        at.way.high,
        at.hung_on.mark if at.hung_on else "",
        at.closes_to.mark if at.closes_to else "",
        at.leaf,
        gate.bottom_gap,
        top,
        gate.side_gap,
        (
            at.face_to_leaf(at.hung_on) if at.hung_on else None,
            at.face_to_leaf(at.closes_to) if at.closes_to else None,
        ),
        (middle - gate.hinge_spacing / 2, middle + gate.hinge_spacing / 2),
        middle,
        leaf_brace(layout, at),
        count,
        gap,
    )
