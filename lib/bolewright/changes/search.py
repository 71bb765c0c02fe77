"""What would make a check pass: one change at a time is made to the file's data and all checks are run again."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.changes.change import Change, Data
from bolewright.changes.trials import Name, Trials, Tried
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results
from bolewright.rendering import numbers
from bolewright.status import Status

_FAR = 10.0
_NAMED = 3  # checks that fail for a change and are named
MOST = 3  # changes that are looked for


@dataclass(frozen=True)
class Outcome:
    """What a change did to the check it was tried for.

    ``ratio`` is None where the change could not be made or the check still can't be; 0 where the check is gone.
    ``fails`` and ``opens`` name the checks that fail, or can't be made, for it. ``brings`` says which of the checks
    that came in the place of one that is gone has the largest ratio. ``wood`` (board feet) and ``concrete`` (cu ft)
    are what it takes more.
    """

    change: Change
    ratio: float | None
    fails: tuple[str, ...] = ()
    opens: tuple[str, ...] = ()
    brings: str = ""
    wood: float = 0.0
    concrete: float = 0.0
    weight: float = 0.0

    @property
    def changes(self) -> bool:
        """Whether the check passes then, and no other fails or is left open for it."""
        return self.helps and not (self.fails or self.opens)

    @property
    def helps(self) -> bool:
        """Whether the check passes then, whatever becomes of others."""
        return self.ratio is not None and self.ratio <= 1

    @property
    def badness(self) -> tuple[float, float]:
        """Order among changes that do not make it pass: what fails for it, then how far the check is from passing."""
        assert self.ratio is not None
        return (len(self.fails) + len(self.opens) if self.ratio <= 1 else math.inf, self.ratio)

    @property
    def sentence(self) -> str:
        """What it would do, in words."""
        if self.ratio is None:
            return f"{self.change.words} could not be worked out."
        said = f"{self.change.words} would {self._result()}"
        if self.ratio > 1:
            return f"{said}, not enough."
        if self.fails:
            return f"{said}, but {_named(self.fails)} would fail for it."
        if self.opens:
            want = "wants" if len(self.opens) == 1 else "want"
            return f"{said}, and {_named(self.opens)} then {want} more to be filled in."
        return f"{said}."

    @property
    def takes(self) -> str:
        """What it takes more, or less, in words; empty where that is next to nothing."""
        found = [
            f"{value:+,.0f} {unit}"
            for value, unit in ((self.wood, "board ft of wood"), (self.concrete, "cu ft of concrete"))
            if abs(value) >= 0.5
        ]
        return ", ".join(found)

    def _result(self) -> str:
        if self.ratio:
            return f"bring it to {_amount(self.ratio)}"
        return (
            f"do away with it; what comes with it is at most {self.brings}"
            if self.brings
            else "do away with it"
        )


def _named(checks: tuple[str, ...]) -> str:
    """The first few of some checks, and how many more."""
    more = len(checks) - _NAMED
    named = [*checks[:_NAMED], *([f"{more} more"] if more > 0 else [])]
    return named[0] if len(named) == 1 else f"{', '.join(named[:-1])} and {named[-1]}"


def _names(checks: dict[Name, Check]) -> tuple[str, ...]:
    ordered = sorted(checks.values(), key=lambda c: -c.severity)
    return tuple(
        f"{c.part}, {c.limit_state}" + (f" ({c.shown_ratio})" if c.status is Status.FAILS else "")
        for c in ordered
    )


def outcome_of(trials: Trials, name: Name, change: Change) -> Outcome:
    """Make a change, run all checks and see what became of one of them."""
    after = trials.run(change)
    if after is None:
        return Outcome(change, None)
    before = trials.before

    def fresh(status: Status) -> tuple[str, ...]:
        known = before.names(status)
        return _names({own: check for own, check in after.names(status).items() if own not in known})

    def told(ratio: float | None, brings: str = "") -> Outcome:
        return Outcome(
            change,
            ratio,
            fresh(Status.FAILS),
            fresh(Status.NOT_CHECKED),
            brings,
            after.stuff.wood - before.stuff.wood,
            after.stuff.concrete - before.stuff.concrete,
            after.stuff.weight - before.stuff.weight,
        )

    same = after.of(name)
    if any(check.status is Status.FAILS for check in same):
        return told(max(check.severity for check in same))
    if any(check.status is Status.NOT_CHECKED for check in same):
        return Outcome(change, None)
    if same:
        return told(max(check.severity for check in same))
    return told(0.0, _came(before, after))


def _came(before: Tried, after: Tried) -> str:
    """The worst of the checks that were not there before, in words."""
    known = {name for name, _ in before.checks}
    came = [check for name, check in after.checks if name not in known and not math.isnan(check.ratio)]
    worst = max(came, key=lambda c: c.ratio, default=None)
    return f"{_amount(worst.ratio)} ({worst.part}, {worst.limit_state})" if worst else ""


def name_of(trials: Trials, check: Check) -> Name:
    """The name that a check of the results goes by."""
    return next(name for name, own in trials.before.checks if own is check)


def try_out(data: Data, results: Results, check: Check, change: Change) -> Outcome:
    """Run all checks with a change and see what became of one of them."""
    trials = Trials(data, results)
    return outcome_of(trials, name_of(trials, check), change)


def _amount(ratio: float) -> str:
    return numbers.ratio(ratio) if ratio < _FAR else "far over 1.00"


def find_changes(data: Data, results: Results, check: Check, most: int = MOST) -> Iterator[Outcome | None]:
    """Changes for a check that fails or can't be made, one trial a step; None where no trial made it pass.

    Each way (a larger size, closer spacing ...) is followed until it passes. When none does, the best that was
    tried comes last.
    """
    from bolewright.changes.ways import ways  # the ways are made of changes

    if check.status is Status.PASSES:
        return
    trials = Trials(data, results)
    name = name_of(trials, check)
    found = 0
    best: Outcome | None = None
    for way in ways(data, results, check):
        for change in way:
            outcome = outcome_of(trials, name, change)
            if outcome.changes:
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
