"""All checks of a project run again with changes of its file, each change once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from bolewright.changes.change import Change, Data
from bolewright.platform.file.reading import find_faults
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Project
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status
from bolewright.take_off.concrete import concrete_of
from bolewright.take_off.cut_list import find_cuts
from bolewright.timber.sections import parse_section

Name = tuple[str, str, str]
_BOARD_FOOT = 144.0  # cu in
_CONCRETE = 6.0  # board feet that a cubic foot of concrete counts as; judgement: what is bought and carried


@dataclass(frozen=True)
class Stuff:
    """What is bought by volume: ``wood`` as sold (board feet, actual sizes) and ``concrete`` (cu ft)."""

    wood: float
    concrete: float

    @property
    def weight(self) -> float:
        """Both in board feet, to put changes in order: a cubic foot of concrete counts as six (judgement)."""
        return self.wood + _CONCRETE * self.concrete


@dataclass(frozen=True)
class Tried:
    """What is kept of a run of all checks."""

    checks: tuple[tuple[Name, Check], ...]
    stuff: Stuff

    def of(self, name: Name) -> list[Check]:
        """Checks of a name: all joists' of a limit state, for closer ones are numbered anew."""
        return [check for own, check in self.checks if own == name]

    def names(self, status: Status) -> dict[Name, Check]:
        """Names that a status is found under, each with its worst check."""
        found: dict[Name, Check] = {}
        for name, check in self.checks:
            if check.status is status and (name not in found or check.severity > found[name].severity):
                found[name] = check
        return found

    @property
    def left(self) -> int:
        """How many names fail or are open."""
        return len(self.names(Status.FAILS)) + len(self.names(Status.NOT_CHECKED))


def tried_of(results: Results) -> Tried:
    """What is kept of results."""
    joists = {m.mark for m in results.path.layout.joists}
    checks = tuple(
        ((c.topic, "a joist" if c.part in joists else c.part, c.limit_state), c) for c in results.checks
    )
    return Tried(checks, _stuff(results))


def _stuff(results: Results) -> Stuff:
    wood = 0.0
    for cut in find_cuts(results):
        section = parse_section(cut.lumber.section)
        wood += section.b * section.d * cut.buy / _BOARD_FOOT
    return Stuff(wood, concrete_of(results.path.layout).volume)


class Trials:
    """A file's data and what its checks say with changes; what was tried is remembered."""

    def __init__(
        self, data: Data, results: Results, find: Callable[[Project], Results] = find_results
    ) -> None:
        self.data = data
        self.results = results
        self.before = tried_of(results)
        self.count = 0
        self._find = find
        self._kept: dict[str, Tried | None] = {}

    def run(self, change: Change) -> Tried | None:
        """What the checks say with a change; None where the file or the arrangement can't be used then."""
        if change.key not in self._kept:
            self.count += 1
            self._kept[change.key] = self._run(change)
        return self._kept[change.key]

    def known(self, change: Change) -> bool:
        """Whether a change was run already."""
        return change.key in self._kept

    def _run(self, change: Change) -> Tried | None:
        project, _ = find_faults(change.made(self.data))
        if project is None:
            return None
        try:
            return tried_of(self._find(project))
        except LayoutError:
            return None
