"""Parts that follow each other: a place given by another part is worked out before the file is read further.

Where the file wants a place, ``["12 in", "30 in"]``, it may have a sentence instead, ``"on P1, 6 in along C1"``; where
a joist field wants its first or last line, ``"in line with corner 2, 2 in along y"``. The grammar is :data:`GRAMMAR`.
"""

from __future__ import annotations

import copy
import math
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from bolewright.platform.file.file_lines import Location
from bolewright.units import DEGREE, INCH, ReadError, read, shown

Place = tuple[float, float]
Data = dict[str, Any]

GRAMMAR = (
    '"on P1", "start of C1", "end of C1", "corner 3", "middle of P1 and P2", "crossing of C1 and S1", '
    '"edge 3 at 24 in" or "middle of edge 3", then any of ", 6 in toward P2", ", 6 in away from P2", '
    '", 6 in along C1", ", 6 in left of C1", ", 6 in right of C1", ", 6 in inside edge 3", ", 6 in along x"'
)
_PLACES = {"support": ("at",), "beam": ("from", "to"), "diagonal": ("from", "to"), "tree": ("at",)}
_ENDS = {"start": "from", "end": "to"}
_WORD = r"[A-Za-z][A-Za-z0-9_-]{0,11}"
_POINT = rf"(?:start of {_WORD}|end of {_WORD}|corner \d+|{_WORD})"
_LINE = rf"(?:edge \d+|{_WORD})"
_BEGINS = re.compile(r"\s*(?:on|start|end|corner|middle|crossing|edge|in line with)\b", re.IGNORECASE)
_AHEAD = "in line with "
_PARALLEL = 1e-6  # sine of an angle below which two lines do not cross


class FollowError(ValueError):
    """A place that can't be worked out; one sentence."""


@dataclass(frozen=True)
class Followed:
    """A value that was worked out: where it stands, what the file says, and the place or distance (in) it comes to."""

    where: Location
    words: str
    place: Place | float


def is_relation(value: Any) -> bool:
    """Whether a value of the file says a place by other parts."""
    return isinstance(value, str) and bool(_BEGINS.match(value))


def relations(data: Data) -> Iterator[tuple[Location, str]]:
    """Every value of the file that says a place by other parts."""
    for key, names in (*_PLACES.items(), ("joists", ("first", "last"))):
        parts = data.get(key)
        for i, part in enumerate(parts if isinstance(parts, list) else ()):
            for name in names if isinstance(part, dict) else ():
                if is_relation(part.get(name)):
                    yield (key, i, name), part[name]


def follow(data: Data) -> tuple[Data, tuple[Followed, ...], tuple[tuple[Location, str], ...]]:
    """The data with every such value worked out, what they came to, and what is wrong, by place, in sentences.

    What is wrong keeps its text. Data without such values is given back as it is.
    """
    found = list(relations(data))
    if not found:
        return data, (), ()
    changed, done, wrong = copy.deepcopy(data), [], []
    for where, words in found:
        try:
            place = _Solver(data).value(where)
        except (FollowError, ReadError) as error:
            wrong.append((where, f"{shown(words)}: {error}"))
            continue
        done.append(Followed(where, words, place))
        node: Any = changed
        for key in where[:-1]:
            node = node[key]
        node[where[-1]] = [f"{x:.9f} in" for x in place] if isinstance(place, tuple) else f"{place:.9f} in"
    return changed, tuple(done), tuple(wrong)


def renamed(words: str, old: str, new: str) -> str:
    """What a relation says when a part has another mark."""
    return re.sub(rf"(?<![\w-]){re.escape(old)}(?![\w-])", new, words)


class _Solver:
    """Works one value out; the values under way are remembered, so that a circle is seen."""

    def __init__(self, data: Data) -> None:
        self.data = data
        self.chain: list[str] = []

    def value(self, where: Location) -> Place | float:
        """The place or distance that a value of the file means."""
        key, i, name = str(where[0]), int(where[1]), str(where[2])
        part = self.data[key][i]
        words = part[name]
        if key != "joists":
            return self._named(key, part, name)
        if not words.startswith(_AHEAD):
            raise FollowError(
                'a line of joists is said as "in line with" and a place, such as "in line with corner 2"'
            )
        ahead = words.removeprefix(_AHEAD)
        bare = re.fullmatch(_WORD, ahead.partition(",")[0].strip())
        x, y = self._place(f"on {ahead}" if bare else ahead)
        turn = math.radians(read(part.get("direction", "0 deg"), DEGREE))
        return -math.sin(turn) * x + math.cos(turn) * y

    def _named(self, key: str, part: Data, name: str) -> Place:
        """Place of a part, which may be a relation itself."""
        given: Any = part.get(name)
        here = f"{key} {part.get('mark', '')} {name}".replace("  ", " ")
        if here in self.chain:
            circle = " -> ".join([*self.chain[self.chain.index(here) :], here])
            raise FollowError(f"it goes round in a circle: {circle}; give one of them in numbers")
        if not is_relation(given):
            return self._numbers(given, here)
        self.chain.append(here)
        place = self._place(given)
        self.chain.pop()
        return place

    def _numbers(self, given: Any, here: str) -> Place:
        if not isinstance(given, list) or len(given) != 2:
            raise FollowError(f"the place of {here} is not given in numbers yet")
        return read(given[0], INCH), read(given[1], INCH)

    def _place(self, words: str) -> Place:
        base, *steps = (piece.strip() for piece in words.split(","))
        place = self._base(base)
        for step in steps:
            place = self._step(place, step)
        return place

    def _base(self, words: str) -> Place:
        forms: tuple[tuple[str, Callable[..., Place]], ...] = (
            (rf"on ({_WORD})", self._point),
            (rf"((?:start|end) of {_WORD})", self._point),
            (r"(corner \d+)", self._point),
            (rf"middle of ({_POINT}) and ({_POINT})", self._middle),
            (rf"middle of ({_LINE})", self._middle_of),
            (rf"crossing of ({_LINE}) and ({_LINE})", self._crossing),
            (rf"({_WORD} \d+) at (.+)", self._along_edge),
        )
        for form, work in forms:
            if match := re.fullmatch(form, words):
                return work(*match.groups())
        raise FollowError(f"{shown(words)} is no place: write it in numbers or as {GRAMMAR}")

    def _step(self, place: Place, words: str) -> Place:
        forms: tuple[tuple[str, Callable[[Place, str], Place]], ...] = (
            (rf"(.+?) toward ({_POINT})", lambda at, to: _unit(at, self._point(to), to)),
            (rf"(.+?) away from ({_POINT})", lambda at, to: _turned(_unit(at, self._point(to), to), 180)),
            (r"(.+?) along ([xy])", lambda at, axis: (1.0, 0.0) if axis == "x" else (0.0, 1.0)),
            (rf"(.+?) along ({_LINE})", lambda at, line: self._direction(line)),
            (rf"(.+?) left of ({_LINE})", lambda at, line: _turned(self._direction(line), 90)),
            (rf"(.+?) right of ({_LINE})", lambda at, line: _turned(self._direction(line), -90)),
            (r"(.+?) inside (edge \d+)", lambda at, line: self._inward(line)),
        )
        for form, direction in forms:
            if match := re.fullmatch(form, words):
                by = read(match[1], INCH)
                u = direction(place, match[2])
                return place[0] + by * u[0], place[1] + by * u[1]
        raise FollowError(f"{shown(words)} is no step from a place: write it as in {GRAMMAR}")

    def _point(self, words: str) -> Place:
        if match := re.fullmatch(rf"(start|end) of ({_WORD})", words):
            key, part = self._part(match[2], ("beam", "diagonal"))
            return self._named(key, part, _ENDS[match[1]])
        if match := re.fullmatch(r"corner (\d+)", words):
            return self._corner(int(match[1]))
        key, part = self._part(words, ("support", "tree"))
        return self._named(key, part, "at")

    def _part(self, mark: str, keys: tuple[str, ...]) -> tuple[str, Data]:
        for key in keys:
            parts = self.data.get(key)
            for part in parts if isinstance(parts, list) else ():
                if isinstance(part, dict) and part.get("mark") == mark:
                    return key, part
        raise FollowError(f"no {' or '.join(keys)} of the file has the mark {mark}")

    def _corner(self, number: int) -> Place:
        platform = self.data.get("platform")
        outline = platform.get("outline") if isinstance(platform, dict) else None
        if not isinstance(outline, list) or not 1 <= number <= len(outline):
            count = len(outline) if isinstance(outline, list) else 0
            raise FollowError(f"the outline has corners 1 to {count}, not {number}")
        return self._numbers(outline[number - 1], f"corner {number}")

    def _ends(self, words: str) -> tuple[Place, Place]:
        if match := re.fullmatch(r"edge (\d+)", words):
            number = int(match[1])
            first = self._corner(number)
            return first, self._corner(number % len(self.data["platform"]["outline"]) + 1)
        key, part = self._part(words, ("beam", "diagonal"))
        return self._named(key, part, "from"), self._named(key, part, "to")

    def _direction(self, words: str) -> Place:
        start, end = self._ends(words)
        return _unit(start, end, words)

    def _inward(self, words: str) -> Place:
        """Square to an edge, into the deck."""
        corners = [self._corner(i + 1) for i in range(len(self.data["platform"]["outline"]))]
        pairs = zip(corners, [*corners[1:], corners[0]], strict=True)
        area = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)
        return _turned(self._direction(words), 90 if area > 0 else -90)

    def _middle(self, one: str, other: str) -> Place:
        (a, b), (c, d) = self._point(one), self._point(other)
        return (a + c) / 2, (b + d) / 2

    def _middle_of(self, line: str) -> Place:
        (a, b), (c, d) = self._ends(line)
        return (a + c) / 2, (b + d) / 2

    def _along_edge(self, edge: str, by: str) -> Place:
        start, _ = self._ends(edge)
        u = self._direction(edge)
        away = read(by, INCH)
        return start[0] + away * u[0], start[1] + away * u[1]

    def _crossing(self, one: str, other: str) -> Place:
        (p, _), (q, _) = self._ends(one), self._ends(other)
        u, v = self._direction(one), self._direction(other)
        sine = u[0] * v[1] - u[1] * v[0]
        if abs(sine) < _PARALLEL:
            raise FollowError(f"{one} and {other} run the same way and never cross")
        along = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / sine
        return p[0] + along * u[0], p[1] + along * u[1]


def _unit(start: Place, end: Place, words: str) -> Place:
    length = math.dist(start, end)
    if length < _PARALLEL:
        raise FollowError(f"there is no direction to {words}: both places are one")
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def _turned(u: Place, degrees: int) -> Place:
    """A direction turned to the left by a quarter, to the right by one, or about."""
    return {90: (-u[1], u[0]), -90: (u[1], -u[0]), 180: (-u[0], -u[1])}[degrees]
