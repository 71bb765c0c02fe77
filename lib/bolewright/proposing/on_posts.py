"""Beams on posts with joists on top, round every trunk that goes through the floor: the sure answer."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely import LineString
from shapely import Point as PlanPoint

from bolewright.ground.soil import SoilGroup
from bolewright.platform.file.ratings import TO_BUY
from bolewright.proposing.ground import Ground, Turn
from bolewright.proposing.needs import NeededTree
from bolewright.proposing.parts import (
    ABOVE_GRADE,
    Draft,
    beam,
    begun,
    crossed,
    ended,
    even_spacing,
    joists,
    post,
    post_kind,
    rods,
)
from bolewright.proposing.rows import CLEAR, Box, Row, find_rows
from bolewright.proposing.sizes import Sizes
from bolewright.proposing.taken import FROST
from bolewright.proposing.writing import eighth, inches, point
from bolewright.timber.sections import parse_section

_LEAST_WITH_RODS = 60.0  # in: a floor lower than this stands as well without rods
_BELOW_BEAM, _MOST_BELOW = 6.0, 60.0  # in, of the upper ends of crossed rods
_STEEP = 1.9  # rise of a rod over its run, at most
_LEAST_RISE = 24.0  # in
_ASLANT = 0.17  # sine of the angle between a column of posts and the square to their beams, at most
_CLEAR_OF_ROD = 4.0  # in between bark and rod


@dataclass(frozen=True)
class OnPosts:
    """``rows`` beams along x (along y where the ground is swapped), ``posts`` under each."""

    rows: int
    posts: int
    swapped: bool
    rods: bool = False

    @property
    def name(self) -> str:
        """What the arrangement is called."""
        way = "y" if self.swapped else "x"
        rods = " with crossed rods" if self.rods else ""
        return f"{self.rows * self.posts} posts{rods}, {self.rows} beams along {way}"

    @property
    def family(self) -> str:
        """Arrangements of one family are alike to look at; the cheapest stands for it."""
        return f"{self.rows} by {self.posts} posts{' with crossed rods' if self.rods else ''}"

    @property
    def key(self) -> str:
        """Short name, for file names."""
        rods = "-rods" if self.rods else ""
        return f"posts-{self.rows}x{self.posts}-{'y' if self.swapped else 'x'}{rods}"

    def start(self, ground: Ground) -> Sizes | None:
        """Sizes that such platforms passed with; None where posts find no place."""
        own = Turn(self.swapped).of(ground)
        area, height, largest = ground.area, ground.height, ground.needs.timber.largest_post
        number = self.rows * self.posts
        if self.rods and height < _LEAST_WITH_RODS:
            return None
        if self.rods:
            wanted = 0 if area <= 120 and height <= 132 else 1
        else:
            wanted = 1 if height <= 90 and area <= 141 else 2 if height <= 150 and area <= 160 else 3
        post_size = ("6x6", "8x8", "10x10", "12x12")[wanted]
        if int(post_size.split("x")[0]) > int(largest.split("x")[0]):
            post_size = largest
        soil = SoilGroup(ground.needs.place.soil or SoilGroup.CLAY).number
        each = area / number
        width = (
            {1: 16.0, 2: 16.0, 3: 18.0, 4: 22.0, 5: 24.0}[soil]
            + (6 if each > 30 else 0)
            + (6 if each > 45 else 0)
        )
        side = {"6x6": 5.5, "8x8": 7.5, "10x10": 9.5, "12x12": 11.5}[post_size]
        width = max(width, 2 * -(-side * 1.45 // 2) + 2)
        depth = 72.0 if area > 140 or height > 114 else 60.0
        frost = FROST if ground.needs.place.frost_depth is None else ground.needs.place.frost_depth
        depth = max(depth, 6 * -(-frost // 6))
        board = ground.needs.timber.largest_board
        found = find_rows(own, self.rows, self.posts, width / 2, openings_of(own, 5.0))
        if found is None:
            return None
        span = max(b.y - a.y for a, b in pairwise(found))
        reach = max(b - a for row in found for a, b in pairwise(row.posts))
        joist = "2x8" if span < 110 else "2x10" if span < 140 else "2x12"
        depth_of_beam = "2x8" if reach < 60 else "2x10" if reach < 100 else "2x12"
        return Sizes(
            post=post_size,
            beam=(3, min(depth_of_beam, board, key=_deep)),
            joist=min(joist, board, key=_deep),
            width=width,
            depth=depth,
            pad=8.0,
            gap=5.0,
        )

    def bolt_room(self, ground: Ground) -> tuple[float, float]:
        """No bolt goes into a tree, so none is too deep."""
        return math.inf, math.inf

    def draw(self, ground: Ground, sizes: Sizes) -> Draft | None:
        """The project with these sizes; None where it can't be laid out."""
        own = Turn(self.swapped).of(ground)
        openings = openings_of(own, sizes.gap)
        rows = find_rows(own, self.rows, self.posts, sizes.width / 2, openings)
        if rows is None:
            return None
        if self.rods:
            rows = _in_columns(own, rows, sizes.width / 2)
        trunks = own.trunks_in()
        why = "Nothing is fastened to a tree: posts bear all of it" + (
            f", and {' and '.join(t.mark for t in trunks)} goes through openings, touched by nothing."
            if trunks
            else "."
        )
        draft = begun(self.name, why, own, sizes)
        post_kind(draft, own, sizes)
        number = 0
        for i, row in enumerate(rows):
            for x in row.posts:
                number += 1
                post(draft, f"P{number}", (x, row.y))
            entry = beam(own, f"C{i + 1}", sizes.beam, (row.x0, row.y), (row.x1, row.y))
            draft.add("beam", entry, "on the posts, right under the joists" if i == 0 else "")
        if not framed(draft, own, rows, list(openings), sizes):
            return None
        if self.rods and not _braced(draft, own, rows, sizes):
            return None
        return ended(draft, own.turn)


def _in_columns(ground: Ground, rows: tuple[Row, ...], half: float) -> tuple[Row, ...]:
    """The rows with their first posts in line across, and their last: as far in as the shortest beam has them.

    A post whose place is not free there stays where it was.
    """
    first, last = max(row.posts[0] for row in rows), min(row.posts[-1] for row in rows)
    found = []
    for row in rows:
        x = [first, *row.posts[1:-1], last]
        free = all(ground.free(at, row.y, half) for at in (first, last))
        found.append(replace(row, posts=tuple(x)) if free and x == sorted(x) else row)
    return tuple(found)


def _braced(draft: Draft, ground: Ground, rows: tuple[Row, ...], sizes: Sizes) -> bool:
    """Crossed rods between the first two posts of every row, and in every column between the first two rows.

    False where posts stand too near to each other for their height, or a trunk is in the way.
    """
    joist, beam_depth = (parse_section(board).d for board in (sizes.joist, sizes.beam[1]))
    top = ground.height - 1.5 - joist - beam_depth
    names = [[f"P{i * len(row.posts) + k + 1}" for k in range(len(row.posts))] for i, row in enumerate(rows)]
    at = {
        mark: (x, row.y)
        for own, row in zip(names, rows, strict=True)
        for mark, x in zip(own, row.posts, strict=True)
    }
    columns = list(zip(names[0], names[1], strict=True))
    for one, two in [(own[0], own[1]) for own in names] + columns:
        L = math.dist(at[one], at[two])
        below = max(_BELOW_BEAM, math.ceil(top - ABOVE_GRADE - _STEEP * L))
        line = LineString([at[one], at[two]])
        aslant = (one, two) in columns and abs(at[one][0] - at[two][0]) > _ASLANT * L
        if aslant or below > min(_MOST_BELOW, top / 3) or top - below - ABOVE_GRADE < _LEAST_RISE:
            return False
        if any(line.distance(PlanPoint(ground.at(t))) < t.radius + _CLEAR_OF_ROD for t in ground.needs.trees):
            return False
        rods(draft, sizes, below, one, two)
    return True


def _deep(board: str) -> int:
    return int(board.split("x")[1])


def openings_of(ground: Ground, gap: float) -> tuple[Box, ...]:
    """Openings round the trunks that go through the floor."""
    return tuple(_opening(ground, tree, gap) for tree in ground.trunks_in())


def _opening(ground: Ground, tree: NeededTree, gap: float) -> Box:
    x, y = ground.at(tree)
    half = tree.radius + gap
    return eighth(x - half), eighth(y - half), eighth(x + half), eighth(y + half)


def framed(draft: Draft, ground: Ground, rows: tuple[Row, ...], openings: list[Box], sizes: Sizes) -> bool:
    """Joists and straps, trimmers and headers round the openings; False where an opening does not fit in."""
    x0, _, x1, _ = ground.box
    openings = sorted(openings)
    bands = [(o[0] - 1.5, o[2] + 1.5) for o in openings]
    for i, (a, b) in enumerate(bands):
        inside = ground.across(a - 1.5), ground.across(b + 1.5)
        rests = [row for row in rows if row.x0 <= a - 2 and row.x1 >= b + 2]
        low = max((r.y for r in rests if r.y < openings[i][1] - CLEAR), default=None)
        high = min((r.y for r in rests if r.y > openings[i][3] + CLEAR), default=None)
        if low is None or high is None or None in inside or a - 1.5 < x0 + 12 or b + 1.5 > x1 - 12:
            return False
        if any(openings[i][1] - CLEAR < r.y < openings[i][3] + CLEAR for r in rows):
            return False
        if i and a - bands[i - 1][1] < 14:
            return False
    _openings(draft, openings)
    for i, (opening, band) in enumerate(zip(openings, bands, strict=True)):
        _trimmed(draft, ground, i, opening, band, sizes)
    more = {"hanger": "HJ"} if openings else {}
    spacing = _spacing(x0 + 0.75, x1 - 0.75, sizes.spacing, bands)
    joists(draft, ground, sizes, (x0 + 0.75, x1 - 0.75, spacing), along="y", **more)
    for below, above in pairwise(rows):
        left, right = max(below.x0, above.x0) + 2, min(below.x1, above.x1) - 2
        here = [o for o in openings if below.y < o[1] and o[3] < above.y]
        bounds = [left, *(x for o in here for x in (o[0] - 3, o[2] + 3)), right]
        for a, b in zip(bounds[::2], bounds[1::2], strict=True):
            if b - a > 1.6 * (above.y - below.y):
                middle = eighth((a + b) / 2)
                crossed(draft, a, middle - 2, below.y, above.y)
                crossed(draft, middle + 2, b, below.y, above.y)
            else:
                crossed(draft, a, b, below.y, above.y)
        for o in here:
            crossed(draft, o[0], o[2], below.y + 2, o[1] - 1.5)
            crossed(draft, o[0], o[2], o[3] + 3, above.y - 2)
    return True


def _openings(draft: Draft, openings: list[Box]) -> None:
    if openings:
        draft.data["platform"]["openings"] = [
            [point(a, b), point(c, b), point(c, d), point(a, d)] for a, b, c, d in openings
        ]


def deck_framing(draft: Draft, ground: Ground, opening: Box, sizes: Sizes) -> bool:
    """Joists along y and trimmers beside an opening, what it cuts hung from headers at the floor's edges.

    False where the floor leaves no room beside it.
    """
    x0, _, x1, _ = ground.box
    band = (opening[0] - 1.5, opening[2] + 1.5)
    ends = [ground.across(x) for x in band]
    if band[0] < x0 + 10 or band[1] > x1 - 10 or None in ends or ends[0] != ends[1]:
        return False
    assert ends[0] is not None
    _openings(draft, [opening])
    edges = (eighth(ends[0][0] + 0.75), eighth(ends[0][1] - 0.75))
    _trimmed(draft, ground, 0, opening, band, sizes, headers=edges)
    spacing = _spacing(x0 + 0.75, x1 - 0.75, sizes.spacing, [band])
    joists(draft, ground, sizes, (x0 + 0.75, x1 - 0.75, spacing), along="y", hanger="HJ")
    return True


def _spacing(first: float, last: float, spacing: float, bands: list[tuple[float, float]]) -> float:
    """A spacing no wider than wanted whose joists keep clear of the trimmers."""
    spacing = tried = even_spacing(first, last, spacing)
    while tried > spacing - 4:
        count = int((last - first) / tried + 1e-6)
        lines = [last - i * tried for i in range(count + 1)]
        if all(min(abs(x - a), abs(x - b)) > 2.3 for x in lines for a, b in bands):
            return tried
        tried -= 0.125
    return spacing


def _trimmed(
    draft: Draft,
    ground: Ground,
    i: int,
    opening: Box,
    band: tuple[float, float],
    sizes: Sizes,
    headers: tuple[float, float] | None = None,
) -> None:
    """Trimmers on both sides of an opening, over all beams, and headers hung between them.

    Single ``headers`` at the floor's edges, else doubled ones beside the opening.
    """
    x0, y0, x1, y1 = opening
    rated = {"lateral_tie": "1000 lb", "rotation_tie": "2000 lb", "uplift_tie": "300 lb", "tie_note": TO_BUY}
    nails = {"layer": 0, "ply_spacing": inches(sizes.trimmer_nails)}
    for k, x in enumerate(band):
        ends = ground.across(x)
        assert ends is not None
        entry = beam(
            ground, f"M{2 * i + k + 1}", (2, sizes.joist), (x, ends[0]), (x, ends[1]), **nails, **rated
        )
        draft.add("beam", entry, "trimmers beside the opening, as deep as the joists" if k == 0 else "")
    hung = {"hanger": "HD", "edge_load": "300 lb", "tie_note": TO_BUY}
    nails = {"layer": 0} if headers else nails
    for k, y in enumerate(headers or (y0 - 1.5, y1 + 1.5)):
        plies = (1 if headers else 2, sizes.joist)
        entry = beam(ground, f"H{2 * i + k + 1}", plies, (x0, y), (x1, y), **nails, **hung)
        draft.add("beam", entry, "headers, hung between the trimmers" if k == 0 else "")
    for name, seat in (("HD", "2 in"), ("HJ", "1 1/2 in")):
        draft.data.setdefault("connection", {})[name] = {
            "rated_load": "1500 lb",
            "rated_uplift": "500 lb",
            "load_duration": "normal",
            "wet_included": True,
            "seat_length": seat,
            "note": TO_BUY,
        }
    draft.say(("connection", "HD"), "hanger of a double header")
    draft.say(("connection", "HJ"), "hanger of a joist that the opening cuts")
