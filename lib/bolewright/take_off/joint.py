"""A row of the connection schedule: like joints, what fastens them, what the checks ask of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from bolewright.platform.limit_states.check import Check, worst
from bolewright.status import Status
from bolewright.take_off.buying import natural

Asked = tuple[str, str, str]


@dataclass(frozen=True)
class Row:
    """One joint before like ones are put together; ``asked`` part, key and place of the checks that ask of it.

    An empty place stands for any.
    """

    kind: str
    parts: str
    fastener: str
    each: str
    pattern: str
    protection: str
    asked: tuple[Asked, ...]

    @property
    def like(self) -> tuple[str, ...]:
        """What joints in one row have in common."""
        return (self.kind, self.fastener, self.each, self.pattern, self.protection)


class Found:
    """The checks of a platform by part and key; each is given out once, to the first joint that asks for it."""

    def __init__(self, checks: Iterable[Check]) -> None:
        self._given: set[int] = set()
        self._by: dict[tuple[str, str], list[Check]] = {}
        for check in checks:
            self._by.setdefault((check.part, check.key), []).append(check)

    def of(self, asked: Asked) -> list[Check]:
        """Checks of a part and key at a place, or at any where none is named."""
        part, key, at = asked
        here = [c for c in self._by.get((part, key), []) if not at or c.at in (at, "")]
        new = [c for c in here if id(c) not in self._given]
        self._given |= {id(c) for c in new}
        return new


@dataclass(frozen=True)
class Joint:
    """Like joints: a number, their kind, parts, places; fastener, how many at each, pattern, protection, checks."""

    number: int
    kind: str
    parts: tuple[str, ...]
    fastener: str
    each: str
    pattern: str
    protection: str
    checks: tuple[Check, ...]

    @classmethod
    def of(cls, rows: Sequence[Row], found: Found) -> Joint:
        """Of like rows, with all checks that ask of any of them, each once."""
        checks = tuple(c for row in rows for asked in row.asked for c in found.of(asked))
        first = rows[0]
        parts = tuple(dict.fromkeys(sorted((row.parts for row in rows), key=natural)))
        return cls(
            0,
            first.kind,
            parts,
            first.fastener,
            first.each,
            first.pattern,
            first.protection,
            checks,
        )

    def numbered(self, number: int) -> Joint:
        """The same with its number in the schedule."""
        return replace(self, number=number)

    @property
    def governing(self) -> tuple[Check, ...]:
        """For each limit state the check that asks the most; open and failing ones first."""
        found: dict[str, Check] = {}
        for check in worst(self.checks):
            found.setdefault(check.key, check)
        return tuple(found.values())

    @property
    def only_locates(self) -> bool:
        """Whether no check asks anything of it."""
        return not any(c.demand > 0 or c.status is Status.NOT_CHECKED for c in self.checks)

    @property
    def basis(self) -> str:
        """What holds it: a rating that was typed in, a calculation, both, nothing; or that it is open."""
        if any(c.status is Status.NOT_CHECKED for c in self.checks):
            return "open"
        if self.only_locates:
            return "locates only"
        kinds = {c.rests_on_rating for c in self.governing if c.demand > 0}
        if len(kinds) == 2:
            return "rating and calculation"
        return "rating" if True in kinds else "calculation"
