"""A beam along the floor's edge on the bolts of one or two trunks, with posts where a trunk is missing, and a row."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from bolewright.proposing.ground import Ground, Turn
from bolewright.proposing.needs import NeededTree
from bolewright.proposing.on_posts import framed, openings_of
from bolewright.proposing.one_trunk import (
    PAST,
    WAYS,
    bolt_kind,
    far_rows,
    initials,
    on_bolt,
    start_sizes,
    trunks_below,
    wood_radius,
)
from bolewright.proposing.parts import TIED, Draft, beam, begun, ended, post, post_kind
from bolewright.proposing.rows import CLEAR, Row, bears_all, joist_lines
from bolewright.proposing.sizes import Sizes
from bolewright.proposing.writing import eighth

FARTHEST = 14.0  # in, from a trunk's bark to the bearing on its bolt
_REACH = 110.0  # in, of a beam from bearing to bearing without a post between
_OVER = 0.34  # of the beam's length past its last bearing, at most
_STEP = 2.0


@dataclass(frozen=True)
class EdgeBeam:
    """A beam across the bolts of ``marks`` and on posts beside them, a second beam on a row of ``posts``.

    ``ways``: how each trunk's bracket meets a lateral force.
    """

    marks: tuple[str, ...]
    ways: tuple[str, ...]
    turn: Turn
    posts: int = 3

    @property
    def name(self) -> str:
        """What the arrangement is called."""
        trunks = " and ".join(f"{m} ({way})" for m, way in zip(self.marks, self.ways, strict=True))
        return f"trunk{'s' if len(self.marks) > 1 else ''} {trunks}, a row of {self.posts} posts"

    @property
    def family(self) -> str:
        """Arrangements alike to look at."""
        return f"beam on {' and '.join(sorted(self.marks))}"

    @property
    def key(self) -> str:
        """Short name."""
        return f"edge-{'-'.join(self.marks)}-{initials(self.ways)}-{self.posts}"

    def _trees(self, own: Ground) -> list[NeededTree]:
        return [next(t for t in own.needs.trees if t.mark == m) for m in self.marks]

    def bolt_room(self, ground: Ground) -> tuple[float, float]:
        """A bolt ends before the middle of the thinnest trunk."""
        return min(wood_radius(tree) for tree in self._trees(ground)) - 0.5, math.inf

    def start(self, ground: Ground) -> Sizes | None:
        """First sizes."""
        own = self.turn.of(ground)
        sizes = start_sizes(own, own.area / (len(self.marks) + 1 + self.posts), (3, "2x12"))
        deep = min(8.0, max(5.0, self.bolt_room(ground)[0] // 1))
        return replace(sizes, bolt=2.25, embedment=deep, slot=7.0)

    def draw(self, ground: Ground, sizes: Sizes) -> Draft | None:
        """The project with these sizes; None where it can't be laid out."""
        own = self.turn.of(ground)
        trees = self._trees(own)
        thick, y0 = 1.5 * sizes.hung[0], own.box[1]
        line = eighth(
            max(max(own.at(t)[1] + t.radius + sizes.gap + thick / 2 for t in trees), y0 + thick / 2)
        )
        if any(line - own.at(t)[1] - t.radius > FARTHEST for t in trees):
            return None
        near = row_on_bolts(own, trees, line, sizes.width / 2)
        if near is None:
            return None
        openings = openings_of(own, sizes.gap)
        if any(low < line + CLEAR for _, low, _, _ in openings):
            return None
        lines = joist_lines(own)
        rows = far_rows(own, self.posts, sizes.width / 2, line + 36)
        free = (r for r in rows if all(r.y > high + CLEAR for _, _, _, high in openings))
        far = next((row for row in free if lines is not None and bears_all(lines, (near, row))), None)
        if far is None:
            return None
        draft = begun(self.name, self._why(), own, sizes)
        draft.bearing = self.marks
        post_kind(draft, own, sizes)
        bolt_kind(draft, sizes, max(3.0, thick), slide=2.0)
        self._supports(draft, own, trees, near, far, sizes)
        across = beam(own, "S1", sizes.hung, (near.x0, line), (near.x1, line), layer=1, **TIED)
        draft.add("beam", across, "on the bolts")
        on_posts = beam(own, "C1", sizes.beam, (far.x0, far.y), (far.x1, far.y), layer=1)
        draft.add("beam", on_posts, "on the posts")
        if not framed(draft, own, (near, far), list(openings), sizes):
            return None
        return ended(draft, self.turn)

    def _why(self) -> str:
        if self.ways == ("tied",):
            return f"{self.marks[0]} bears a part of the floor's edge and is tied to it; posts bear the rest."
        if len(self.marks) == 1:
            return (
                f"{self.marks[0]} bears a part of the floor's edge and sways under it; posts hold it upright."
            )
        if self.ways[1] == "slides across":
            return (
                f"{' and '.join(self.marks)} never move together: {self.marks[0]} holds the beam across its bolt "
                f"alone, {self.marks[1]} along its bolt alone; posts keep the platform from turning."
            )
        held = [m for m, way in zip(self.marks, self.ways, strict=True) if way != "floats"]
        way = (
            f"is held by {held[0]} across its bolt alone and floats on the other"
            if held
            else "floats on both"
        )
        return (
            f"{' and '.join(self.marks)} never move together: the beam across them {way}; posts hold the "
            "platform upright."
        )

    def _supports(
        self, draft: Draft, own: Ground, trees: list[NeededTree], near: Row, far: Row, sizes: Sizes
    ) -> None:
        bolts(draft, own, [(t, way, near.y) for t, way in zip(trees, self.ways, strict=True)], sizes)
        places = [(x, near.y) for x in near.posts] + [(x, far.y) for x in far.posts]
        for i, at in enumerate(places):
            post(draft, f"P{i + 1}", at)


def bolts(draft: Draft, own: Ground, trees: Sequence[tuple[NeededTree, str, float]], sizes: Sizes) -> None:
    """Supports on tree bolts: each trunk with how its bracket meets a lateral force and the beam's y."""
    for i, (tree, way, y) in enumerate(trees):
        on_bolt(draft, f"T{i + 1}", tree, way, (own.at(tree)[0], y), sizes, WAYS[way])


def row_on_bolts(own: Ground, trees: list[NeededTree], line: float, half: float) -> Row | None:
    """The beam on the bolts, with posts (the row's ``posts``) where it would reach too far without."""
    chord = own.chord(max(line, own.box[1] + 0.1))
    if chord is None:
        return None
    bolts = sorted(own.at(t)[0] for t in trees)
    x0, x1 = min(chord[0], bolts[0] - PAST), max(chord[1], bolts[-1] + PAST)
    length = x1 - x0
    bearings = list(bolts)

    def placed(low: float, high: float, best: float) -> bool:
        count = int((high - low) // _STEP)
        free = own.free_of([low + i * _STEP for i in range(count + 1)], line, half) if count >= 0 else []
        if free:
            bearings.append(eighth(min(free, key=lambda x: (round(abs(x - best), 6), x))))
        return bool(free)

    over = _OVER * length
    lone = len(trees) == 1
    left = bolts[0] - x0 > over or (lone and x1 - bolts[0] <= over)
    if left and not placed(x0 + 10, min(x0 + over, bolts[0] - 24), x0 + 0.16 * length):
        return None
    right = x1 - bolts[-1] > over or (lone and len(bearings) < 2)
    if right and not placed(max(x1 - over, bolts[-1] + 24), x1 - 10, x1 - 0.16 * length):
        return None
    for a, b in list(pairwise(sorted(bearings))):
        if b - a > _REACH:
            placed(a + 30, b - 30, (a + b) / 2)
    posts = tuple(sorted(x for x in bearings if x not in bolts))
    if min(b - a for a, b in pairwise(sorted(bearings))) < 24:
        return None
    return Row(line, eighth(x0), eighth(x1), posts, 0.0)


def edge_beams(own: Ground, turn: Turn) -> Iterator[EdgeBeam]:
    """Beams on trunks along one side of the floor, those on two trunks first."""
    trees = trunks_below(own)
    may_tie = own.needs.rules.may_tie is not False
    x0, _, x1, _ = own.box
    few = 2 if x1 - x0 <= 130 else 3
    for i, one in enumerate(trees):
        for other in trees[i + 1 :]:
            thick, thin = (one, other) if one.girth >= other.girth else (other, one)
            both = (thick.mark, thin.mark)
            ways = [("slides", "slides across"), ("slides", "floats")] + [("tied", "floats")] * may_tie
            yield from (EdgeBeam(both, way, turn, few + more) for more in (0, 2) for way in ways)
    for tree in sorted(trees, key=lambda t: -t.girth):
        for way in ("floats", "tied")[: 1 + may_tie]:
            yield from (EdgeBeam((tree.mark,), (way,), turn, few + more) for more in (0, 1))
