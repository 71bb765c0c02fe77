"""What a way to help works on: the file's data, its results, the check, and where the check's part stands in them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from bolewright.changes.change import Data
from bolewright.platform.layout.layout import Member
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Project, Support
from bolewright.platform.results.results import Results


@dataclass(frozen=True)
class Case:
    """A check to be helped."""

    data: Data
    results: Results
    check: Check

    @property
    def project(self) -> Project:
        """The project as it was read."""
        return self.results.project

    def row(self, key: str, mark: str = "") -> int | None:
        """Place of a part in its list; of the check's own without a mark."""
        wanted = mark or self.check.part
        return next((i for i, part in enumerate(self.data.get(key, ())) if part.get("mark") == wanted), None)

    @property
    def support(self) -> Support | None:
        """The support that the check is of."""
        return next((s for s in self.project.supports if s.mark == self.check.part), None)

    def kind(self, what: str) -> str | None:
        """Name of the kind of post, footing or bolt of the check's support."""
        return getattr(self.support, what, None)

    def kinds(self, what: str) -> list[str]:
        """The kind of the check's support; of every support, where the check is of none."""
        if self.support is not None:
            return [kind] if (kind := self.kind(what)) else []
        return list(dict.fromkeys(k for s in self.project.supports if (k := getattr(s, what))))

    @property
    def member(self) -> Member | None:
        """The joist or beam that the check is of."""
        return next((m for m in self.results.path.layout.members if m.mark == self.check.part), None)

    @property
    def field(self) -> int | None:
        """Place of the field of the check's joist."""
        if self.member is None:
            return None
        found = (i for i, field in enumerate(self.project.joists) if field.mark == self.member.field)
        return next(found, None)

    def beams_below(self) -> list[int]:
        """Places of the beams on which the check's part bears."""
        below = [] if self.member is None else [seat.below for seat in self.member.seats]
        return [row for mark in dict.fromkeys(below) if (row := self.row("beam", mark)) is not None]

    def supports_below(self) -> list[str]:
        """Marks of the supports on which the check's part bears; the one it names first."""
        marks = {s.mark for s in self.project.supports}
        below = [] if self.member is None else [s.below for s in self.member.seats if s.below in marks]
        return sorted(below, key=lambda mark: mark != self.check.at)

    def beams_on(self, support: str) -> list[int]:
        """Places of the beams that stand on a support."""
        rows = (self.row("beam", m.mark) for m in self.members_on(support))
        return [row for row in rows if row is not None]

    def members_on(self, support: str) -> list[Member]:
        """Beams that stand on a support."""
        return [m for m in self.results.path.layout.beams if any(s.below == support for s in m.seats)]

    def get(self, *where: Any) -> Any:
        """A value of the data; None where it is left out."""
        node: Any = self.data
        for key in where:
            try:
                node = node[key]
            except (KeyError, IndexError, TypeError):
                return None
        return node


def inches(value: float) -> str:
    """A length as it is written into a file, to the sixteenth."""
    return f"{round(value * 16) / 16:g} in"
