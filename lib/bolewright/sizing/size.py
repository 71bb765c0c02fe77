"""Sizes of a project file chosen from what can be bought, so that everything passes at the least cost."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass

import tomlkit

from bolewright.platform.file.reading import Location, parse_project, parse_toml
from bolewright.platform.project import Project
from bolewright.sizing.amounts import Amounts, Least
from bolewright.sizing.bound import Bound, find_bound
from bolewright.sizing.candidates import BudgetSpentError, Candidates, Ratings, Say
from bolewright.sizing.choices import Choices, State, Values, put
from bolewright.sizing.finding import find_choices
from bolewright.sizing.look import Miss, Seen
from bolewright.sizing.required import Need, given_ratings, lowered, needs, raised
from bolewright.sizing.search import large_start, mend, next_smaller, shrink
from bolewright.sizing.stock import Stock, stock_of
from bolewright.sizing.together import improve

BUDGET = 400


@dataclass(frozen=True)
class Chosen:
    """One choice as it came out: the file's size, the one chosen, and what stops the next smaller one."""

    name: str
    was: str
    now: str
    next: str
    """The next smaller size; empty where there is none that saves anything."""
    stops: str
    """The check that fails with it, and its ratio."""
    places: frozenset[Location] = frozenset()
    """Values of the file that it sets."""


@dataclass(frozen=True)
class Sized:
    """What sizing found.

    ``text`` is the file with the sizes, comments kept. ``passes``: no check fails or is open but for ratings in
    ``needs`` and what was open whatever the sizes (``open_anyway``). ``fails`` says what is left where nothing passes.
    ``evaluations`` are sets of all checks. ``stopped`` is empty, "budget" or "interrupted". ``proved``: every next
    smaller size was looked at, and none passes.
    """

    text: str
    passes: bool
    chosen: tuple[Chosen, ...]
    fails: tuple[str, ...]
    open_anyway: tuple[str, ...]
    needs: tuple[Need, ...]
    ratings_written: bool
    before: Amounts | None
    after: Amounts | None
    least: Least
    bound: Bound | None
    invented: bool
    evaluations: int
    stopped: str
    proved: bool


def size(
    text: str,
    name: str = "project",
    *,
    stock: Stock | None = None,
    least: Least = "cost",
    only: Sequence[str] = (),
    keep: Iterable[str] = (),
    budget: int = BUDGET,
    executor: Executor | None = None,
    free_ratings: bool = False,
    write_ratings: bool = False,
    say: Say | None = None,
) -> Sized:
    """Choose sizes for the arrangement in ``text``.

    ``only`` restricts sizes of a thickness, ``keep`` names parts that stay as they are. Ratings in the file bind; with
    ``free_ratings`` none does, and what they have to be is said. ``write_ratings`` writes what they have to be into the
    text. ``budget`` is how many sets of checks may be run; the same input gives the same text whatever the
    ``executor`` (any :class:`concurrent.futures.Executor` whose workers can import this package). Ctrl+C ends the
    search with the best found so far. Raises ProjectError for a file that can't be read, StockError for what
    ``only`` or ``keep`` can't be.
    """
    project = parse_project(text, name)
    offered = stock_of(project, only, stock)
    data = parse_toml(text, name)
    choices = find_choices(data, project, offered, keep)
    found = Candidates(choices, offered, least, budget, executor, say)
    run = _Run(found, project, free_ratings)
    stopped = ""
    try:
        run.search()
        stopped = "budget" if run.spent else ""
    except BudgetSpentError:
        stopped = "budget"
    except KeyboardInterrupt:
        stopped = "interrupted"
    return _sized(run, text, name, write_ratings, stopped)


@dataclass
class _Run:
    """One search over a file's choices, from two starts."""

    found: Candidates
    project: Project
    free_ratings: bool
    nearest: State | None = None
    bound: Bound | None = None
    spent: bool = False

    def search(self) -> None:
        """The best from several starts; with ratings that can't be met by sizes left out at last."""
        found = self.found
        own, large = found.choices.start, large_start(found)
        self.nearest = own
        found.kept = min(found.budget // 3, 2 * len(own) + 10)
        try:
            self._rate(own, large)
            self._from(own)
            if found.best is None or found.count < found.budget // 2:
                self._from(large)
            if found.best is None and not self.free_ratings:
                self.free_ratings = True
                self._rate(self.nearest, large)
                self._from(self.nearest)
                self._from(large)
        except BudgetSpentError:
            if found.best is None:
                raise
            self.spent = True
        found.kept = 0
        if found.best is not None:
            self._end(found.best)

    def _rate(self, own: State, large: State) -> None:
        """Fill in ratings that the file leaves out, or any that fail where none binds, generously for the search."""
        found = self.found
        seen = found.look([own])[0]
        accepted = frozenset(m.name for m in seen.misses if m.open and not m.ratings and not m.helps)
        missing = {where for m in seen.misses if m.open for where, _ in m.ratings}
        allowed = None if self.free_ratings else missing
        trial: dict[Location, object] = {}
        if self.free_ratings or missing:
            for state in (own, large):
                if found.amounts(state) is None:
                    continue
                values, looks = raised(found.choices.made(state), allowed, spare=2.0)
                found.count += looks
                trial |= dict(values)
        free = frozenset(missing)
        found.rerated(Ratings(self.free_ratings, free, accepted, tuple(trial.items())))

    def _from(self, start: State) -> None:
        """From one start to a state that passes, smaller by single values, then by several at once."""
        found = self.found
        passed = mend(found, start)
        if passed is None:
            return
        self.nearest = passed
        end = shrink(found, passed)
        while (better := improve(found, end)) != end:
            end = shrink(found, better)

    def _end(self, state: State) -> None:
        """From the best on: no single smaller size passes, and how far below it the cost can't be."""
        found = self.found
        end = shrink(found, state)
        while found.best is not None and found.worth(found.best) < found.worth(end):
            end = shrink(found, found.best)
        self.bound = find_bound(found, end)


def _sized(run: _Run, text: str, name: str, write_ratings: bool, stopped: str) -> Sized:
    found = run.found
    state = found.best if found.best is not None else run.nearest or found.choices.start
    seen = found.known(state)
    passes = seen is not None and found.passes(seen)
    ratings: Values = ()
    asked: tuple[Need, ...] = ()
    if passes and found.ratings.trial:
        ratings, looks = lowered(found.choices.made(state), found._trial(state))
        found.count += looks
        given = given_ratings(found.choices.data, (where for where, _ in ratings))
        asked = needs(found.choices.made(state), ratings, given)
    wanted = {(n.table, n.part, key) for n in asked for key, _, _ in n.pounds}
    written = _written(text, found.choices, state, ratings if write_ratings and wanted else ())
    before = found.amounts(found.choices.start)
    chosen, proved = _chosen(found, state)
    fails = () if passes or seen is None else tuple(_said(m) for m in found.blocking(seen))
    if seen is not None and seen.refused:
        fails = (seen.refused,)
    accepted = tuple(
        m.words for m in (seen.misses if seen else ()) if m.open and m.name in found.ratings.accepted
    )
    return Sized(
        text=written,
        passes=passes,
        chosen=chosen,
        fails=fails,
        open_anyway=accepted,
        needs=asked,
        ratings_written=write_ratings and bool(wanted),
        before=before,
        after=found.amounts(state),
        least=found.least,
        bound=run.bound,
        invented=found.stock.invented,
        evaluations=found.count,
        stopped=stopped,
        proved=passes and proved,
    )


def _said(miss: Miss) -> str:
    return f"{miss.words}: open" if miss.open else f"{miss.words}: {miss.severity:.2f}"


def _chosen(found: Candidates, state: State) -> tuple[tuple[Chosen, ...], bool]:
    """Every choice with what stops its next smaller size, and whether all were looked at and none passes."""
    smaller = dict(next_smaller(found, state))
    chosen, proved = [], True
    for c, choice in enumerate(found.choices.all):
        words, stops = "", ""
        if c in smaller:
            words = choice.rungs[smaller[c][c]].words
            seen = found.known(smaller[c])
            proved = proved and seen is not None and not found.passes(seen)
            stops = _stop(found, seen)
        chosen.append(
            Chosen(
                choice.name,
                choice.rungs[choice.start].words,
                choice.rungs[state[c]].words,
                words,
                stops,
                choice.places,
            )
        )
    return tuple(chosen), proved


def _stop(found: Candidates, seen: Seen | None) -> str:
    if seen is None:
        return "not looked at"
    if seen.refused:
        return seen.refused
    misses = sorted(found.blocking(seen), key=lambda m: (-m.severity, m.name))
    return _said(misses[0]) if misses else "passes"


def _written(text: str, choices: Choices, state: State, ratings: Values) -> str:
    """The text with the sizes of a state in it; comments stay where they are."""
    doc = tomlkit.parse(text)
    gone = choices.left_out(state)
    for where, value in (*choices.values(state), *_beside(ratings, gone)):
        put(doc, where, value)
    for key, row in sorted(gone, reverse=True):
        del doc[key][row]
    for key in {key for key, _ in gone}:
        if not doc[key]:
            del doc[key]
    return tomlkit.dumps(doc)


def _beside(ratings: Values, gone: tuple[tuple[str, int], ...]) -> Values:
    """Ratings of parts that are there, in the places that the file has before any part is left out."""
    return tuple((where, value) for where, value in ratings if (where[0], where[1]) not in gone)
