"""What there is to choose in a file: each choice a ladder of sizes, the smallest first."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import Any

from bolewright.changes.change import Data
from bolewright.platform.file.reading import Location

Values = tuple[tuple[Location, Any], ...]
State = tuple[int, ...]


@dataclass(frozen=True)
class Rung:
    """One size of a choice: its words, the values it sets, parts left out with it, its length (in) if it is one."""

    words: str
    values: Values = ()
    without: tuple[tuple[str, int], ...] = ()
    size: float = 0.0


@dataclass(frozen=True)
class Choice:
    """A choice: which parts, what of them, and its sizes. ``start`` is the file's own; ``kind`` what it is of."""

    parts: str
    what: str
    kind: str
    rungs: tuple[Rung, ...]
    start: int

    @property
    def name(self) -> str:
        """Parts and what of them."""
        return f"{self.parts}, {self.what}"

    @property
    def places(self) -> frozenset[Location]:
        """Values of the file that it sets."""
        return frozenset(where for rung in self.rungs for where, _ in rung.values)


@dataclass(frozen=True)
class Choices:
    """All choices of a file, with its data."""

    data: Data
    all: tuple[Choice, ...]

    @property
    def start(self) -> State:
        """The file's own sizes."""
        return tuple(choice.start for choice in self.all)

    def made(self, state: State, more: Values = ()) -> Data:
        """The data with the sizes of a state, and ``more`` values."""
        changed = copy.deepcopy(self.data)
        out: set[tuple[str, int]] = set()
        for choice, rung in zip(self.all, state, strict=True):
            for where, value in choice.rungs[rung].values:
                put(changed, where, value)
            out |= set(choice.rungs[rung].without)
        for where, value in more:
            put(changed, where, value)
        for key, row in sorted(out, reverse=True):
            del changed[key][row]
        for key in {key for key, _ in out}:
            if not changed[key]:
                del changed[key]
        return changed

    def left_out(self, state: State) -> tuple[tuple[str, int], ...]:
        """Parts that a state leaves out."""
        return tuple(o for c, r in zip(self.all, state, strict=True) for o in c.rungs[r].without)

    def values(self, state: State) -> Values:
        """Values that a state sets other than the file has them."""
        chosen = zip(self.all, state, strict=True)
        return tuple(value for choice, rung in chosen for value in choice.rungs[rung].values)


def put(data: Any, where: Location, value: Any) -> None:
    """Set a value of the data."""
    for key in where[:-1]:
        data = data[key]
    data[where[-1]] = value
