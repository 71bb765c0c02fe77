"""What would cure a check: one change at a time is made to the file's data and all checks are run again."""

from __future__ import annotations

import copy
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from bolewright.platform.check import Check
from bolewright.platform.layout import LayoutError
from bolewright.platform.reading import Location, find_faults
from bolewright.platform.results import Results, find_results
from bolewright.rendering import numbers
from bolewright.status import Status

Data = dict[str, Any]
_Name = tuple[str, str, str]
_FAR = 10.0
MOST = 3  # cures that are looked for


@dataclass(frozen=True)
class Change:
    """One change of the data: ``words`` as in "2x10 for J", and the values it sets."""

    words: str
    values: tuple[tuple[Location, Any], ...]
    added: tuple[tuple[str, Data], ...] = ()

    def made(self, data: Data) -> Data:
        """The data with the change."""
        changed = copy.deepcopy(data)
        for where, value in self.values:
            node: Any = changed
            for key in where[:-1]:
                node = node[key]
            node[where[-1]] = value
        for key, part in self.added:
            changed.setdefault(key, []).append(part)
        return changed


@dataclass(frozen=True)
class Outcome:
    """What a change did to the check it was tried for.

    ``ratio`` is None where the change could not be made or the check still can't be; 0 where the check is gone.
    ``others_fail`` and ``others_open`` count checks that fail, or can't be made, for it. ``brings`` says which of
    the checks that came in the place of one that is gone has the largest ratio.
    """

    change: Change
    ratio: float | None
    others_fail: int
    others_open: int = 0
    brings: str = ""

    @property
    def cures(self) -> bool:
        """Whether the check passes then, and no other fails or is left open for it."""
        return self.ratio is not None and self.ratio <= 1 and not (self.others_fail or self.others_open)

    @property
    def badness(self) -> tuple[float, float]:
        """Order among changes that do not cure: what fails for it, then how far the check is from passing."""
        assert self.ratio is not None
        return (self.others_fail + self.others_open if self.ratio <= 1 else math.inf, self.ratio)

    @property
    def sentence(self) -> str:
        """What it would do, in words."""
        if self.ratio is None:
            return f"{self.change.words} could not be worked out."
        said = f"{self.change.words} would {self._result()}"
        if self.ratio > 1:
            return f"{said}, not enough."
        if self.others_fail:
            others = "another check" if self.others_fail == 1 else f"{self.others_fail} other checks"
            return f"{said}, but {others} would fail for it."
        if self.others_open:
            others = "another check" if self.others_open == 1 else f"{self.others_open} other checks"
            return f"{said}, and {others} would want more to be filled in."
        return f"{said}."

    def _result(self) -> str:
        if self.ratio:
            return f"bring it to {_amount(self.ratio)}"
        return (
            f"do away with it; what comes with it is at most {self.brings}"
            if self.brings
            else "do away with it"
        )


def try_out(data: Data, results: Results, check: Check, change: Change) -> Outcome:
    """Run all checks with a change and see what became of one of them."""
    project, _ = find_faults(change.made(data))
    if project is None:
        return Outcome(change, None, 0)
    try:
        after = find_results(project)
    except LayoutError:
        return Outcome(change, None, 0)
    joists = {m.mark for r in (results, after) for m in r.path.layout.joists}

    def name(one: Check) -> _Name:
        """What makes a check the same before and after: joists as one, for closer ones are numbered anew."""
        return (one.topic, "a joist" if one.part in joists else one.part, one.limit_state)

    def fresh(status: Status) -> int:
        before = {name(c) for c in results.checks if c.status is status}
        return len({name(c) for c in after.checks if c.status is status} - before)

    fails, unmade = fresh(Status.FAILS), fresh(Status.NOT_CHECKED)
    same = [c for c in after.checks if name(c) == name(check)]
    ratios = [c.severity for c in same if c.status is not Status.NOT_CHECKED]
    if ratios:
        return Outcome(change, max(ratios), fails, unmade)
    if same:
        return Outcome(change, None, 0)
    known = {name(c) for c in results.checks}
    came = [c for c in after.checks if name(c) not in known and not math.isnan(c.ratio)]
    worst = max(came, key=lambda c: c.ratio, default=None)
    brings = f"{_amount(worst.ratio)} ({worst.part}, {worst.limit_state})" if worst else ""
    return Outcome(change, 0.0, fails, unmade, brings)


def _amount(ratio: float) -> str:
    return numbers.ratio(ratio) if ratio < _FAR else "far over 1.00"


def find_cures(data: Data, results: Results, check: Check, most: int = MOST) -> Iterator[Outcome | None]:
    """Cures of a check that fails or can't be made, one trial a step; None where a trial cured nothing.

    Each way (a larger size, closer spacing ...) is followed until it cures. When none does, the best that was
    tried comes last.
    """
    from bolewright.workbook.ways import ways  # the ways are made of changes

    if check.status is Status.PASSES:
        return
    found = 0
    best: Outcome | None = None
    for way in ways(data, results, check):
        for change in way:
            outcome = try_out(data, results, check, change)
            if outcome.cures:
                found += 1
                yield outcome
                break
            if outcome.ratio is not None and (best is None or outcome.badness < best.badness):
                best = outcome
            yield None
        if found == most:
            return
    if not found and best is not None:
        yield best
