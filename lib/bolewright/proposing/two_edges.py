"""A beam along each of two opposite edges, on the bolts of one or two trunks, with posts where one is missing."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations

from bolewright.proposing.edge_beam import FARTHEST, bolts, row_on_bolts
from bolewright.proposing.ground import Ground, Turn
from bolewright.proposing.needs import NeededTree
from bolewright.proposing.on_posts import framed, openings_of
from bolewright.proposing.one_trunk import bolt_kind, initials, start_sizes, trunks_below, wood_radius
from bolewright.proposing.parts import TIED, Draft, beam, begun, ended, post, post_kind
from bolewright.proposing.rows import CLEAR, bears_all, joist_lines
from bolewright.proposing.sizes import Sizes
from bolewright.proposing.writing import eighth

Marks = tuple[str, ...]
# How the brackets meet a lateral force, by the number of trunks at the one edge and at the other: no more is held than
# keeps the floor in its place, so that the trunks never have to move together.
_WAYS: dict[tuple[int, int], tuple[tuple[Marks, Marks], ...]] = {
    (2, 2): ((("slides", "slides across"), ("slides", "floats")),),
    (2, 1): ((("slides", "slides across"), ("slides",)), (("slides", "floats"), ("floats",))),
    (1, 1): ((("slides",), ("slides",)), (("slides",), ("floats",))),
}


@dataclass(frozen=True)
class TwoEdges:
    """A beam on the bolts of the trunks ``near`` along the floor's lower edge, another on those of ``far``."""

    near: Marks
    far: Marks
    near_ways: Marks
    far_ways: Marks
    turn: Turn

    @property
    def name(self) -> str:
        """What the arrangement is called."""
        trunks = zip(self.near + self.far, self.near_ways + self.far_ways, strict=True)
        return f"trunks {' and '.join(f'{mark} ({way})' for mark, way in trunks)}, a beam on either side"

    @property
    def family(self) -> str:
        """Arrangements alike to look at."""
        return f"beams on {' and '.join(sorted(self.near + self.far))}"

    @property
    def key(self) -> str:
        """Short name."""
        return f"edges-{'-'.join(self.near)}-{'-'.join(self.far)}-{initials(self.near_ways + self.far_ways)}"

    def _trees(self, own: Ground, marks: Marks) -> list[NeededTree]:
        return [next(t for t in own.needs.trees if t.mark == m) for m in marks]

    def bolt_room(self, ground: Ground) -> tuple[float, float]:
        """A bolt ends before the middle of the thinnest trunk."""
        return min(wood_radius(t) for t in self._trees(ground, self.near + self.far)) - 0.5, math.inf

    def start(self, ground: Ground) -> Sizes | None:
        """First sizes."""
        own = self.turn.of(ground)
        sizes = start_sizes(own, own.area / 4, (3, "2x12"))
        deep = min(8.0, max(5.0, self.bolt_room(ground)[0] // 1))
        return replace(sizes, bolt=2.25, embedment=deep, slot=7.0)

    def draw(self, ground: Ground, sizes: Sizes) -> Draft | None:
        """The project with these sizes; None where it can't be laid out."""
        own = self.turn.of(ground)
        near, far = self._trees(own, self.near), self._trees(own, self.far)
        half = 0.75 * sizes.hung[0]
        _, y0, _, y1 = own.box
        low = eighth(max(*(own.at(t)[1] + t.radius + sizes.gap + half for t in near), y0 + half))
        high = eighth(min(*(own.at(t)[1] - t.radius - sizes.gap - half for t in far), y1 - half))
        if any(low - own.at(t)[1] - t.radius > FARTHEST for t in near):
            return None
        if any(own.at(t)[1] - t.radius - high > FARTHEST for t in far):
            return None
        rows = (
            row_on_bolts(own, near, low, sizes.width / 2),
            row_on_bolts(own, far, high, sizes.width / 2),
        )
        lines = joist_lines(own)
        openings = openings_of(own, sizes.gap)
        if rows[0] is None or rows[1] is None or lines is None or not bears_all(lines, (rows[0], rows[1])):
            return None
        if any(a < low + CLEAR or b > high - CLEAR for _, a, _, b in openings):
            return None
        draft = begun(self.name, self._why(), own, sizes)
        draft.bearing = self.near + self.far
        places = [(x, row.y) for row in rows if row for x in row.posts]
        if places:
            post_kind(draft, own, sizes)
        bolt_kind(draft, sizes, max(3.0, 2 * half), slide=2.0)
        on = [(t, way, low) for t, way in zip(near, self.near_ways, strict=True)]
        bolts(draft, own, [*on, *((t, w, high) for t, w in zip(far, self.far_ways, strict=True))], sizes)
        for i, at in enumerate(places):
            post(draft, f"P{i + 1}", at)
        for i, row in enumerate((rows[0], rows[1])):
            ends = (row.x0, row.y), (row.x1, row.y)
            draft.add(
                "beam",
                beam(own, f"S{i + 1}", sizes.hung, *ends, layer=1, **TIED),
                "" if i else "on the bolts",
            )
        if not framed(draft, own, (rows[0], rows[1]), list(openings), sizes):
            return None
        return ended(draft, self.turn)

    def _why(self) -> str:
        held = [
            m
            for m, way in zip(self.near + self.far, self.near_ways + self.far_ways, strict=True)
            if way != "floats"
        ]
        return (
            f"{' and '.join(self.near + self.far)} bear a beam along either edge and never move together: the floor "
            f"is held by {' and '.join(held)}, each in one direction alone, so that none is forced by another."
        )


def two_edges(own: Ground, turn: Turn) -> Iterator[TwoEdges]:
    """Beams along two opposite edges with trunks at both; two trunks where an edge has as many."""
    near, far = trunks_below(own), trunks_below(Turn(flipped=True).of(own))
    count = min(len(near), 2), min(len(far), 2)
    for below in combinations(near, count[0]):
        for above in combinations(far, count[1]):
            marks = [tuple(t.mark for t in sorted(side, key=lambda t: -t.girth)) for side in (below, above)]
            yield from (TwoEdges(marks[0], marks[1], a, b, turn) for a, b in _WAYS.get(count, ()))
