"""The verdict: what was checked by calculation, what rests on typed ratings, what was compared, what is open.

It never says that all passes: what is not calculated stands beside it, with who decides.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from bolewright.platform.file.ratings import TO_BUY, ratings_of
from bolewright.platform.limit_states import limit_state
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Project
from bolewright.platform.results.conditions import conditions, listed
from bolewright.platform.results.not_calculated import not_calculated
from bolewright.platform.verification.compared import Compared
from bolewright.status import Status

DEMONSTRATION = (
    "A demonstration: place, tree, loads and ratings are invented, so nothing may be built from it."
)
REVIEW = "This is a calculation for review, not an approval."


class Found(Protocol):
    """What a verdict is given on: a project, its checks, and what two ways of calculating gave."""

    @property
    def project(self) -> Project: ...  # noqa: D102
    @property
    def checks(self) -> tuple[Check, ...]: ...  # noqa: D102
    @property
    def compared(self) -> tuple[Compared, ...]: ...  # noqa: D102


@dataclass(frozen=True)
class Account:
    """How many checks hold by calculation, by a rating that was typed, or by comparison; fail; are open.

    ``unasked`` are rows without a calculation: nothing acts on the part, it holds by how it is laid out, or the code
    asks nothing of it. They are told apart, so that nobody counts them as strength.
    """

    calculated: int
    rated: int
    compared: int
    fails: int
    open: int
    unasked: int = 0

    @property
    def count(self) -> int:
        """All checks."""
        return self.calculated + self.rated + self.compared + self.fails + self.open + self.unasked


def account(checks: Iterable[Check]) -> Account:
    """The account of some checks."""
    found = list(checks)
    passing = [check for check in found if check.status is Status.PASSES]
    holds = [check for check in passing if not check.asks_nothing]
    compared = sum(limit_state(check.key).compares for check in holds)
    rated = sum(rests_on_rating(check) for check in holds)
    return Account(
        len(holds) - compared - rated,
        rated,
        compared,
        sum(check.status is Status.FAILS for check in found),
        sum(check.status is Status.NOT_CHECKED for check in found),
        len(passing) - len(holds),
    )


def rests_on_rating(check: Check) -> bool:
    """Whether what a check holds against is a rating that the user typed."""
    return check.rests_on_rating and check.calculation is not None


def verdict(results: Found) -> str:
    """The outcome in a few sentences, for one line of text."""
    told = account(results.checks)
    said = [DEMONSTRATION] if results.project.demonstration else []
    said.append(_headline(told))
    if told.fails or told.open:
        said.append("Not done yet.")
    said.append(
        f"Of the others, {_held(results, told)}." if told.fails or told.open else f"{_held(results, told)}."
    )
    said.append(f"{len(not_calculated(results.project))} matters are not calculated.")
    return " ".join([*(s[:1].upper() + s[1:] for s in said), REVIEW])


def _headline(told: Account) -> str:
    fails = f"{told.fails} of {told.count} checks {'fails' if told.fails == 1 else 'fail'}"
    if not told.fails:
        fails = f"No check fails of {told.count}"
    left = f"{told.open} {'is' if told.open == 1 else 'are'} open" if told.open else "none is open"
    return f"{fails}, {left}."


def _held(results: Found, told: Account) -> str:
    ratings = len(ratings_of(results.project))
    typed = "1 rating" if ratings == 1 else f"{ratings} ratings"
    rest = "1 rests" if told.rated == 1 else f"{told.rated} rest"
    said = f"{told.calculated} hold by calculation and {rest} on {typed} typed into the file"
    if told.unasked:
        said += f"; of {told.unasked} nothing is asked, without a calculation"
    return f"{said}; {told.compared} compares two ways of calculating" if told.compared == 1 else said


def verdict_lines(results: Found) -> tuple[str, ...]:
    """The verdict at length: what holds and by what, what is open, what is not calculated."""
    told = account(results.checks)
    typed = [rating.words for rating in ratings_of(results.project)]
    said = [DEMONSTRATION] if results.project.demonstration else []
    said.append(_headline(told))
    said.append(f"By calculation: {told.calculated} checks hold.")
    if told.unasked:
        said.append(
            f"Nothing asked: {told.unasked} rows have no calculation and are no strength: the part stays down by the "
            "least load that was found, nothing acts on it, it is laid out so that nothing can, or the code does not "
            "ask it; each says why."
        )
    if typed:
        rest = "1 check holds" if told.rated == 1 else f"{told.rated} checks hold"
        said.append(
            f"By ratings that were typed into the file, and that nobody here has seen printed: {rest}, on "
            f"{len(typed)} of them ({listed(typed)})."
        )
    to_buy = sum(rating.source == TO_BUY for rating in ratings_of(results.project))
    if to_buy:
        said.append(
            f"To be bought: {to_buy} of these ratings are what the calculation requires; no hardware is known that has "
            "them."
        )
    if results.compared:
        said.append(
            f"Compared: {len(results.compared)} values of two ways of calculating the same loads and stiffnesses; that "
            "shows slips of statics, not whether the parts are strong enough."
        )
    if told.open:
        said.append(f"Open: {told.open}; they count as not done, never as passed.")
    said.append(
        f"Not calculated: {'; '.join(f'{n.what} ({n.who})' for n in not_calculated(results.project))}."
    )
    said.append(REVIEW)
    return tuple(said)


def beside_verdict(results: Found) -> tuple[str, ...]:
    """Sentences that stand beside the verdict wherever it is shown."""
    return conditions(results.project)
