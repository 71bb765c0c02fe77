"""Arrangements that bear on bolts: one trunk and a row of posts, two trunks and a row of posts.

All is drawn with the trunks below the floor's lower edge; the ground is turned so that they lie there.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from bolewright.ground.soil import SoilGroup
from bolewright.platform.file.ratings import TO_BUY
from bolewright.platform.project.fields import Point
from bolewright.proposing.ground import Ground, Turn
from bolewright.proposing.needs import NeededTree
from bolewright.proposing.parts import (
    Draft,
    beam,
    begun,
    crossed,
    ended,
    even_spacing,
    joists,
    post,
    post_kind,
)
from bolewright.proposing.rows import Row, row_at
from bolewright.proposing.sizes import Sizes
from bolewright.proposing.taken import BARK, FROST
from bolewright.proposing.writing import eighth, inches, point

LEAST_GIRTH = 60.0  # in: below it nothing passed in any run; the checks judge above
_NEAREST, _FARTHEST = 3.0, 14.0  # in, from a trunk's bark to the floor's edge
_BRACKET = 5.0  # in, from the bark to the bearing on a bolt, about; what passed
_OVER = 66.0  # in, of joists past the beams on the bolts: farther out nothing passed
PAST = 6.0  # in, of a beam past its bolt
_FAR_EDGE = 2.0  # in, from the middle of the beam on the posts to the floor's far edge
_LEAST_LEG = 24.0  # in, of a diagonal at a corner
WAYS = {
    "tied": "the bracket is bolted to its bolt: a stop both ways",
    "slides": "slides along its bolt, held across it: keeps the floor from turning",
    "slides across": "held along its bolt, slides across it: keeps the floor from moving to and from the trunks",
    "floats": "floats both ways on a pad: the trunk goes its own way",
}
FREE = (
    ("slides across", "slides across"),
    ("slides across", "floats"),
)  # brackets of a trunk that is not tied
TURNS = tuple(Turn(swapped, flipped) for swapped in (False, True) for flipped in (False, True))


def trunks_below(ground: Ground) -> tuple[NeededTree, ...]:
    """Trunks that could bear the floor's lower edge, from left to right: near to it, outside, thick enough."""
    x0, _, x1, _ = ground.box
    found = []
    for tree in ground.needs.trees:
        x, y = ground.at(tree)
        stretch = ground.across(min(max(x, x0 + 1), x1 - 1))
        if stretch is None or not tree.may_bear or tree.girth < LEAST_GIRTH:
            continue
        if _NEAREST <= stretch[0] - (y + tree.radius) <= _FARTHEST and x0 - 6 <= x <= x1 + 6:
            found.append(tree)
    return tuple(sorted(found, key=lambda t: ground.at(t)))


def far_rows(ground: Ground, posts: int, half: float, low: float) -> Iterator[Row]:
    """Rows of posts of a floor that bears on trunks along its lower edge, nearest first to 0.84 of the way from it."""
    _, y0, _, y1 = ground.box
    depth = y1 - y0
    found = []
    for i in range(int(depth // 2)):
        y = y1 - 4 - 2.0 * i
        if y < max(y0 + 0.5 * depth, low):
            break
        row = row_at(ground, y, posts, half)
        if row is not None:
            found.append((abs(y - (y0 + 0.84 * depth)) / depth + row.off, row))
    found.sort(key=lambda item: (round(item[0], 6), item[1].y))
    yield from (row for _, row in found)


def start_sizes(ground: Ground, per_post: float, hung: tuple[int, str]) -> Sizes:
    """Sizes that platforms on trunks and a row of posts passed with."""
    height, needs = ground.height, ground.needs
    wanted = 1 if height <= 60 else 2 if height <= 84 else 3
    largest = ("6x6", "8x8", "10x10", "12x12").index(needs.timber.largest_post)
    soil = SoilGroup(needs.place.soil or SoilGroup.CLAY).number
    width = {1: 18.0, 2: 18.0, 3: 20.0, 4: 24.0, 5: 28.0}[soil] + (4 if per_post > 30 else 0)
    frost = FROST if needs.place.frost_depth is None else needs.place.frost_depth
    return Sizes(
        post=("6x6", "8x8", "10x10", "12x12")[min(wanted, largest)],
        beam=(3, min("2x12", needs.timber.largest_board, key=_deep)),
        hung=(hung[0], min(hung[1], needs.timber.largest_board, key=_deep)),
        joist="2x8",
        spacing=16.0,
        width=width,
        depth=max(66.0, 6 * -(-frost // 6)),
        bolt=1.75,
        embedment=7.0,
        gap=2.5,
        trimmer_nails=8.0,
    )


def initials(ways: tuple[str, ...]) -> str:
    """How brackets meet a lateral force, a letter each: tied, slides, across, floats."""
    return "-".join(way.replace("slides ", "")[0] for way in ways)


def wood_radius(tree: NeededTree) -> float:
    """Radius of a trunk without its bark (in)."""
    return tree.radius - (BARK if tree.bark is None else tree.bark)


def _deep(board: str) -> int:
    return int(board.split("x")[1])


def bolt_kind(draft: Draft, sizes: Sizes, seat: float, *, slide: float = 0.0, name: str = "B") -> None:
    """A kind of tree bolt, with the ratings of its bracket."""
    entry = {
        "diameter": inches(sizes.bolt),
        "embedment": inches(sizes.embedment),
        "F_y": "36 ksi",
        "F_u": "58 ksi",
        "seat": "steel bracket",
        "seat_length": inches(seat),
        "rated_load": "5000 lb",
        "rated_note": TO_BUY,
        "rated_lateral": "2500 lb",
        "rated_lateral_note": TO_BUY,
        "rated_with_fastening": True,
    }
    if slide:
        entry["slide"] = inches(slide)
    draft.data.setdefault("bolt", {})[name] = entry
    draft.say(("bolt", name, "embedment"), "in sound wood, behind the bark")
    draft.say(("bolt", name, "F_y"), "the steel that is bought must have this at least")


def on_bolt(draft: Draft, mark: str, tree: NeededTree, way: str, at: Point, sizes: Sizes, words: str) -> None:
    """A support on a tree bolt at ``at`` (in), and how its bracket meets a lateral force."""
    entry: dict[str, Any] = {
        "mark": mark,
        "kind": "tree bolt",
        "lateral": way,
        "uplift_tie": "500 lb",
        "uplift_note": TO_BUY,
        "tree": tree.mark,
        "bolt": "B",
        "at": point(*at),
    }
    if way != "tied":
        entry |= {"slot": inches(sizes.slot), "friction": 0.1}
    draft.add("support", entry, words)


@dataclass(frozen=True)
class OneTrunk:
    """Two bolts on opposite sides of a trunk, a beam on each, a cross beam on two posts, joists across on top.

    ``ways``: how the bracket on each bolt meets a lateral force. Where none is tied the posts hold all of it.
    """

    mark: str
    turn: Turn
    ways: tuple[str, str] = ("tied", "tied")

    @property
    def name(self) -> str:
        """What the arrangement is called."""
        free = "" if self.ways == ("tied", "tied") else f" ({' and '.join(self.ways)})"
        return f"trunk {self.mark} with two bolts{free}, 2 posts"

    @property
    def family(self) -> str:
        """Arrangements alike to look at."""
        return f"trunk {self.mark}"

    @property
    def key(self) -> str:
        """Short name."""
        free = "" if self.ways == ("tied", "tied") else f"-{initials(self.ways)}"
        return f"trunk-{self.mark}{free}"

    def _tree(self, own: Ground) -> NeededTree:
        return next(t for t in own.needs.trees if t.mark == self.mark)

    def start(self, ground: Ground) -> Sizes | None:
        """First sizes; None where it does not fit."""
        own = self.turn.of(ground)
        tree = self._tree(own)
        sizes = start_sizes(own, own.area / 4, (2, "2x10"))
        sizes = replace(sizes, bolt=2.25, embedment=max(5.0, math.floor(wood_radius(tree) * 0.5)))
        x0, _, x1, _ = own.box
        over = max(own.at(tree)[0] - x0, x1 - own.at(tree)[0]) - tree.radius - _BRACKET
        if over > _OVER:
            return None
        joist = "2x8" if over < 34 else "2x10" if over < 46 else "2x12"
        return replace(sizes, joist=min(joist, own.needs.timber.largest_board, key=_deep))

    def bolt_room(self, ground: Ground) -> tuple[float, float]:
        """Two bolts that face each other leave wood between their tips."""
        return math.inf, wood_radius(self._tree(ground))

    def draw(self, ground: Ground, sizes: Sizes) -> Draft | None:
        """The project with these sizes; None where it can't be laid out."""
        own = self.turn.of(ground)
        tree = self._tree(own)
        tx, ty = own.at(tree)
        reach = eighth(tree.radius + sizes.gap + 0.75 * sizes.hung[0])
        left, right = eighth(tx - reach), eighth(tx + reach)
        x0, y0, x1, y1 = own.box
        row = row_at(own, y1 - _FAR_EDGE, 2, sizes.width / 2)
        near = own.chord(y0 + 1)
        if near is None or left < near[0] + 2 or right > near[1] - 2:
            return None
        if row is None or left < x0 + 2 or right > x1 - 2 or row.x0 > left - 6 or row.x1 < right + 6:
            return None
        held = {
            ("tied", "tied"): "and is tied to the platform; two posts bear the far end and hold it upright",
            ("floats", "floats"): "and sways under it; two posts bear the far end and hold all of it upright",
        }.get(self.ways, "and is held along them alone; two posts bear the far end and hold it upright")
        why = f"{tree.mark} bears the near end on two bolts, one on each side, {held}."
        draft = begun(self.name, why, own, sizes)
        draft.bearing = (tree.mark,)
        post_kind(draft, own, sizes)
        free = self.ways != ("tied", "tied")
        bolt_kind(draft, sizes, max(3.0, 1.5 * sizes.hung[0]), slide=2.0 if free else 0.0)
        for mark, x, way in (("T1", left, self.ways[0]), ("T2", right, self.ways[1])):
            words = WAYS[way] if mark == "T1" or self.ways[0] != way else ""
            on_bolt(draft, mark, tree, way, (x, ty), sizes, words)
        for i, x in enumerate(row.posts):
            post(draft, f"P{i + 1}", (x, row.y))
        nails = {"ply_rows": 4, "ply_spacing": inches(sizes.trimmer_nails)}
        rated = {"lateral_tie": "1000 lb", "rotation_tie": "2500 lb", "tie_note": TO_BUY}
        deep = max(sizes.beam[1], sizes.hung[1], key=_deep)  # what hangs in its face is no deeper
        cross = beam(own, "C1", (sizes.beam[0], deep), (row.x0, row.y), (row.x1, row.y), **nails, **rated)
        draft.add("beam", cross, "on the posts, under the joists")
        face = eighth(row.y - 0.75 * sizes.beam[0])
        for mark, x in (("S1", left), ("S2", right)):
            entry = beam(own, mark, sizes.hung, (x, eighth(ty - PAST)), (x, face), **nails, **rated)
            draft.add(
                "beam",
                {**entry, "edge_load": "800 lb", "hanger": "HB"},
                "past the trunk, on its bolt; hung in the face of C1" if mark == "S1" else "",
            )
        _hanger(draft, "HB", "hanger of S1 and S2 in the face of C1")
        _corners(draft, own, sizes, (left, right), row, face)
        spacing = even_spacing(y0 + 1, row.y, sizes.spacing)
        joists(draft, own, sizes, (y0 + 1, row.y, spacing), along="x")
        crossed(draft, left, right, y0 + 2, face - 1)
        return ended(draft, self.turn)


def _hanger(draft: Draft, name: str, words: str) -> None:
    draft.data.setdefault("connection", {})[name] = {
        "rated_load": "3000 lb",
        "rated_uplift": "1000 lb",
        "rated_lateral": "1000 lb",
        "load_duration": "normal",
        "wet_included": True,
        "seat_length": "2 in",
        "note": TO_BUY,
    }
    draft.say(("connection", name), words)


def _corners(
    draft: Draft, own: Ground, sizes: Sizes, inner: tuple[float, float], row: Row, face: float
) -> None:
    """Diagonals at 45 degrees from the ends of C1 to the hung beams, where the floor reaches far past these."""
    half = 0.75 * sizes.hung[0]
    for mark, end, x, way in (("D1", row.x0, inner[0], -1), ("D2", row.x1, inner[1], 1)):
        start = end - 3 * way
        leg = abs(start - (x + way * half))
        if leg < _LEAST_LEG or face - leg < own.box[1] + 12:
            continue
        entry = beam(
            own, mark, (2, sizes.hung[1]), (eighth(start), face), (x + way * half, eighth(face - leg))
        )
        draft.add(
            "beam",
            {**entry, "hanger": "HD", "edge_load": "300 lb", "tie_note": TO_BUY},
            "diagonal from C1 to a hung beam" if mark == "D1" else "",
        )
    if any(c["mark"][0] == "D" for c in draft.data["beam"]):
        _hanger(draft, "HD", "hanger of the diagonals, made to the skew of 45 degrees")
