"""Where beams and posts can stand under a floor: rows of posts clear of paths, roots and property lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise, product

from bolewright.proposing.ground import Ground
from bolewright.proposing.writing import eighth

_STEP = 2.0
CLEAR = 10.0  # in, from a beam's middle to an opening: header, hangers and a hand
_EDGE = 10.0  # in: a post this near to its beam's end leaves no room for cap and strap
_OVER_END = 0.38  # of the beam's length past its outer post, at most
_OVER_SIDE = 0.34  # of the floor's depth past its outer beam, at most
_BEST_END = 0.16  # rules of thumb out of runs that passed: posts and beams in from the edges
_BEST_SIDE = 0.18
_SKEW = 0.6  # weight of a row's posts standing to one side; judgement


@dataclass(frozen=True)
class Row:
    """A beam along x at ``y`` from ``x0`` to ``x1``, with posts at ``posts``."""

    y: float
    x0: float
    x1: float
    posts: tuple[float, ...]
    off: float  # how far from the rules of thumb, in lengths


Box = tuple[float, float, float, float]


@lru_cache(maxsize=256)
def find_rows(
    ground: Ground, count: int, posts: int, half: float, openings: tuple[Box, ...] = ()
) -> tuple[Row, ...] | None:
    """Rows that bear every joist, nearest to the rules of thumb; None where no places can be found.

    No beam lies under an opening or nearer to it than a header wants; one lies on each side of it.
    """
    _, y0, _, y1 = ground.box
    depth = y1 - y0
    choices = []
    for i, best in enumerate(_wanted(y0, depth, count)):
        found = []
        for y in _around(y0, y1):
            share = (y - y0) / depth
            if (i == 0 and share > _OVER_SIDE) or (i == count - 1 and 1 - share > _OVER_SIDE):
                continue
            if any(low - CLEAR < y < high + CLEAR for _, low, _, high in openings):
                continue
            row = row_at(ground, y, posts, half)
            if row is not None:
                found.append((abs(y - best) / depth + row.off, row))
        found.sort(key=lambda item: (round(item[0], 6), item[1].y))
        choices.append(found[:14])
    lines = joist_lines(ground)
    if lines is None:
        return None
    sets = sorted(
        ((sum(off for off, _ in rows), tuple(row for _, row in rows)) for rows in product(*choices)),
        key=lambda item: (round(item[0], 6), tuple(row.y for row in item[1])),
    )
    return next((rows for _, rows in sets if _stands(rows, lines, openings)), None)


def _stands(rows: tuple[Row, ...], lines: list[Line], openings: tuple[Box, ...]) -> bool:
    if any(b.y - a.y < 20 for a, b in pairwise(rows)):
        return False
    if any(rows[0].y > low or rows[-1].y < high for _, low, _, high in openings):
        return False
    return bears_all(lines, rows)


def _wanted(y0: float, depth: float, count: int) -> list[float]:
    first, last = y0 + _BEST_SIDE * depth, y0 + (1 - _BEST_SIDE) * depth
    if count == 3:
        first, last = y0 + 0.1 * depth, y0 + 0.9 * depth
    return [first + (last - first) * i / (count - 1) for i in range(count)]


def _around(low: float, high: float) -> Iterator[float]:
    count = int((high - low - 2 * 4) // _STEP)
    yield from (low + 4 + i * _STEP for i in range(count + 1))


def row_at(ground: Ground, y: float, posts: int, half: float) -> Row | None:
    """A beam over the whole floor at y, with posts where the rules of thumb want them or as near as can be.

    Posts as far from one end of the beam as from the other: the floor turns less in wind.
    """
    chord = ground.chord(y)
    if chord is None or chord[1] - chord[0] < 30:
        return None
    x0, x1 = chord
    length = x1 - x0
    best = [x0 + (_BEST_END + (1 - 2 * _BEST_END) * i / (posts - 1)) * length for i in range(posts)]
    spots = [ground.free_of(_spots(i, posts, x0, x1), y, half) for i in range(posts)]
    if not all(spots):
        return None
    ends = ((a, b) for a in spots[0] for b in spots[-1] if b - a >= 24 * (posts - 1))

    def off_ends(a: float, b: float) -> float:
        skew = abs((a - x0) - (x1 - b))
        return (abs(a - best[0]) + abs(b - best[-1]) + _SKEW * skew) / length

    pair = min(ends, key=lambda ab: (round(off_ends(*ab), 6), ab), default=None)
    if pair is None:
        return None
    between = [_nearest(own, b) for own, b in zip(spots[1:-1], best[1:-1], strict=True)]
    places = [pair[0], *between, pair[1]]
    if any(b - a < 24 for a, b in pairwise(places)):
        return None
    off = off_ends(*pair) + sum(abs(x - b) / length for x, b in zip(between, best[1:-1], strict=True))
    return Row(eighth(y), eighth(x0), eighth(x1), tuple(eighth(x) for x in places), off / posts)


def _nearest(spots: list[float], best: float) -> float:
    return min(spots, key=lambda x: (round(abs(x - best), 6), x))


def _spots(i: int, posts: int, x0: float, x1: float) -> list[float]:
    """Where along a beam a post of its row may stand: the same on both sides of the middle."""
    length = x1 - x0
    if i == 0:
        return [x0 + d for d in _around(0, length) if _EDGE <= d <= _OVER_END * length]
    if i == posts - 1:
        return [x1 - d for d in _around(0, length) if _EDGE <= d <= _OVER_END * length]
    middle = x0 + (_BEST_END + (1 - 2 * _BEST_END) * i / (posts - 1)) * length
    return [middle + d * way for d in _around(-4, 0.2 * length) for way in (1, -1)]


Line = tuple[float, float, float]  # x of a joist, from where to where it runs along y


def joist_lines(ground: Ground) -> list[Line] | None:
    """Some joists along y from edge to edge; None where the floor lies in two pieces along one."""
    x0, _, x1, _ = ground.box
    found = []
    for i in range(25):
        x = x0 + 0.75 + (x1 - x0 - 1.5) * i / 24
        stretch = ground.across(x)
        if stretch is None:
            return None
        found.append((x, *stretch))
    return found


def bears_all(lines: list[Line], rows: tuple[Row, ...]) -> bool:
    """Whether every joist along y lies on two beams at least, and does not run out too far past the outer ones."""
    for x, low, high in lines:
        on = [row.y for row in rows if row.x0 - 1 <= x <= row.x1 + 1 and low <= row.y <= high]
        if len(on) < 2 or max(on[0] - low, high - on[-1]) > max(0.6 * (on[-1] - on[0]), 12):
            return False
    return True
