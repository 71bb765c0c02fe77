"""For every check that fails or is open: the changes that make it pass, tried for real, cheapest first."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations

from bolewright.changes.change import Change
from bolewright.changes.search import MOST, Outcome, outcome_of
from bolewright.changes.trials import Name, Trials
from bolewright.changes.ways import ways
from bolewright.platform.file.reading import Location
from bolewright.platform.limit_states import limit_state
from bolewright.platform.limit_states.check import Check
from bolewright.status import Status

ASKED = "No size or rating of the file settles it: do what its sentence says."
_AT_MOST = 2.0  # times what is asked: a rating that only helps when typed still higher is no help
_MENDED = 3  # checks that may fail for a change and still be mended by another
_PARTNERS = 6  # changes that are tried in pairs for one check, the likeliest ones
_POUNDS = re.compile(r"(\d+(?:\.\d+)?) lb")
Say = Callable[[int, int], None]


@dataclass(frozen=True)
class Offer:
    """A change that was tried, with the number by which it is applied."""

    number: int
    outcome: Outcome


@dataclass(frozen=True)
class Advice:
    """What would help one check: ``offers`` cheapest first, and how many changes and pairs were tried for it."""

    check: Check
    offers: tuple[Offer, ...]
    singles: int
    pairs: int

    @property
    def sentences(self) -> list[str]:
        """The offers in words; where there is none, what was tried."""
        said = []
        for offer in self.offers:
            takes = f" ({offer.outcome.takes})" if offer.outcome.takes else ""
            said.append(f"{offer.number:3d}  {offer.outcome.sentence.removesuffix('.')}{takes}.")
        if any(offer.outcome.changes for offer in self.offers):
            return said
        tried = f"None of the {self.singles} changes and {self.pairs} pairs tried makes it pass without harm."
        return [
            f"     {tried if self.singles else ASKED}",
            f"     {limit_state(self.check.key).change}",
            *said,
        ]


@dataclass(frozen=True)
class Help:
    """All advice on a project: ``ratings`` sets every rating to what is asked at once, where ratings are wanted."""

    ratings: Offer | None
    advice: tuple[Advice, ...]

    @property
    def offers(self) -> dict[int, Offer]:
        """Every offer by its number."""
        found = [self.ratings] if self.ratings else []
        found += [offer for one in self.advice for offer in one.offers]
        return {offer.number: offer for offer in found}


def find_help(trials: Trials, *, most: int = MOST, say: Say = lambda done, of: None) -> Help:
    """Try what would help every check that fails or is open, worst first; ``say`` is told how far it is."""
    numbers: dict[str, int] = {}

    def offer(outcome: Outcome) -> Offer:
        return Offer(numbers.setdefault(outcome.change.key, len(numbers) + 1), outcome)

    wanted = wanting(trials)
    together = all_ratings(trials, wanted)
    first = offer(together) if together else None
    advice = []
    for i, (name, check) in enumerate(wanted):
        say(i, len(wanted))
        advice.append(_advice(trials, name, check, most, offer))
    return Help(first, tuple(advice))


def wanting(trials: Trials) -> list[tuple[Name, Check]]:
    """Names of checks that fail, worst first, then of those that are open."""
    before = trials.before
    fails = sorted(before.names(Status.FAILS).items(), key=lambda item: -item[1].severity)
    return [*fails, *before.names(Status.NOT_CHECKED).items()]


def all_ratings(trials: Trials, wanted: list[tuple[Name, Check]]) -> Outcome | None:
    """Every rating that helps a check by itself, at the greatest value that any wants, as one change."""
    values: dict[Location, tuple[int, Change]] = {}
    helped: list[Name] = []
    for name, check in wanted:
        for way in ways(trials.data, trials.results, check):
            for change in way:
                if not change.only_rates:
                    break
                found = outcome_of(trials, name, change)
                if found.helps and not _typed_upward(as_asked(trials, name, found)):
                    helped.append(name)
                    for where, value in as_asked(trials, name, found).change.values:
                        pounds = _pounds(value)
                        if where not in values or pounds > values[where][0]:
                            values[where] = (pounds, as_asked(trials, name, found).change)
                    break
    if len(dict.fromkeys(helped)) < 2:
        return None
    words = list(dict.fromkeys(change.words for _, change in values.values()))
    chosen = {where: dict(change.values)[where] for where, (_, change) in values.items()}
    whole = Change(f"All ratings at what is asked ({'; '.join(words)})", tuple(chosen.items()))
    return outcome_of(trials, helped[0], whole)


def as_asked(trials: Trials, name: Name, outcome: Outcome) -> Outcome:
    """A rating that helps, brought down to what is asked: rounded up to ten pounds."""
    change = outcome.change
    rated = {_pounds(value) for _, value in change.values} - {0}
    if not change.only_rates or len(rated) != 1 or outcome.ratio is None or not 0 < outcome.ratio < 1:
        return outcome
    (pounds,) = rated
    asked = math.ceil(pounds * outcome.ratio / 10) * 10
    if asked >= pounds:
        return outcome
    less = Change(
        change.words.replace(f"{pounds:,} lb", f"{asked:,} lb"),
        tuple((where, f"{asked} lb" if _pounds(value) else value) for where, value in change.values),
    )
    found = outcome_of(trials, name, less)
    return found if found.helps else outcome


def _typed_upward(outcome: Outcome) -> bool:
    """Whether a rating helps only far above what is asked, as where two models differ: no ground to buy it."""
    return outcome.change.only_rates and 0 < (outcome.ratio or 0.0) < 1 / _AT_MOST


def _pounds(value: object) -> int:
    found = _POUNDS.fullmatch(str(value))
    return round(float(found[1])) if found else 0


def _advice(trials: Trials, name: Name, check: Check, most: int, offer: Callable[[Outcome], Offer]) -> Advice:
    tried: list[Outcome] = []
    reached: list[Outcome] = []
    for way in ways(trials.data, trials.results, check):
        best: Outcome | None = None
        for change in way:
            outcome = outcome_of(trials, name, change)
            tried.append(outcome)
            outcome = as_asked(trials, name, outcome) if outcome.helps else outcome
            if outcome.ratio is None or _typed_upward(outcome):
                continue
            best = outcome if best is None or outcome.ratio < (best.ratio or 0.0) else best
            if outcome.helps:
                break
        if best is not None:
            reached.append(best)
    clean = [outcome for outcome in reached if outcome.changes]
    pairs = (
        [] if clean else list(_pairs(trials, name, [o for o in reached if o.fails or o.opens or not o.helps]))
    )
    clean += [outcome for outcome in pairs if outcome.changes]
    if clean:
        chosen = sorted(clean, key=_order)[:most]
    else:
        better = [
            o for o in (*reached, *pairs) if o.ratio is not None and (o.helps or o.ratio < check.severity)
        ]
        chosen = sorted(better, key=lambda o: o.badness)[:1]
    return Advice(check, tuple(offer(outcome) for outcome in chosen), len(tried), len(pairs))


def _pairs(trials: Trials, name: Name, reached: list[Outcome]) -> Iterator[Outcome]:
    """Two at a time: what helps with what mends the check that fails for it, then the likeliest ways' best steps."""
    best = sorted(reached, key=lambda o: o.badness)[:_PARTNERS]
    for one in best:
        if one.helps and len(one.fails) + len(one.opens) <= _MENDED:
            yield from _mended(trials, name, one)
    for one, other in combinations(best, 2):
        if change := one.change.with_(other.change):
            yield outcome_of(trials, name, change)


def _mended(trials: Trials, name: Name, one: Outcome) -> Iterator[Outcome]:
    """A change that helps, with each way to help the first check that fails or is open for it."""
    after = trials.run(one.change)
    assert after is not None
    known = trials.before
    fresh = [
        check
        for status in (Status.FAILS, Status.NOT_CHECKED)
        for own, check in after.names(status).items()
        if own not in known.names(status)
    ]
    for way in ways(trials.data, trials.results, fresh[0]):
        for change in way:
            both = one.change.with_(change)
            if both is None:
                break
            outcome = outcome_of(trials, name, both)
            yield outcome
            if outcome.changes:
                break


def _order(outcome: Outcome) -> tuple[float, float]:
    """Cheapest first: by what is bought by volume, then the deeper ratio."""
    assert outcome.ratio is not None
    return (round(outcome.weight, 1), outcome.ratio)
