"""Candidates looked at: each once, several at a time, as many as the budget allows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, field
from functools import cached_property

from bolewright.platform.file.reading import Location, find_faults
from bolewright.platform.layout.layout import LayoutError, find_layout
from bolewright.sizing.amounts import Amounts, Least, amounts_of
from bolewright.sizing.choices import Choices, State, Values
from bolewright.sizing.look import Miss, Name, Seen, look
from bolewright.sizing.stock import Stock

Say = Callable[[int, int, Amounts | None], None]


class BudgetSpentError(Exception):
    """No more candidates may be looked at."""


@dataclass(frozen=True)
class Ratings:
    """Which checks are left out of every comparison.

    Those that rest on a rating in ``free``, or on any where ``all_free``; and ``accepted``: open ones that the file
    has whatever its sizes. ``trial`` are values that free ratings have during the search.
    """

    all_free: bool = False
    free: frozenset[Location] = frozenset()
    accepted: frozenset[Name] = frozenset()
    trial: Values = ()


@dataclass
class Candidates:
    """States of the choices, what they take and what their checks say.

    Of the ``budget`` so many looks are ``kept`` for later.
    """

    choices: Choices
    stock: Stock
    least: Least
    budget: int
    executor: Executor | None = None
    say: Say | None = None
    ratings: Ratings = field(default_factory=Ratings)
    count: int = 0
    kept: int = 0
    best: State | None = None
    _seen: dict[State, Seen] = field(default_factory=dict)
    _amounts: dict[State, Amounts | None] = field(default_factory=dict)

    def rerated(self, ratings: Ratings) -> None:
        """Leave other checks out from now on; what was looked at with other trial ratings is forgotten."""
        if ratings.trial != self.ratings.trial:
            self._seen.clear()
        self.ratings, self.best = ratings, None

    def amounts(self, state: State) -> Amounts | None:
        """What a state takes; None where the file or the arrangement can't be used."""
        if state not in self._amounts:
            project, _ = find_faults(self.choices.made(state))
            try:
                found = None if project is None else amounts_of(find_layout(project), self.stock)
            except LayoutError:
                found = None
            self._amounts[state] = found
        return self._amounts[state]

    def worth(self, state: State) -> tuple[float, float]:
        """What is to be least, then cost; endless where the state can't be used."""
        found = self.amounts(state)
        return found.by(self.least) if found else (float("inf"), float("inf"))

    def look(self, states: Iterable[State]) -> list[Seen]:
        """What the checks say of some states. Raises BudgetSpentError when too few looks are left for any."""
        wanted = list(states)
        fresh = [s for s in dict.fromkeys(wanted) if s not in self._seen]
        for state in [s for s in fresh if self.amounts(s) is None]:
            self._seen[state] = Seen({}, (), "the arrangement can't be laid out")
        fresh = [s for s in fresh if s not in self._seen][: max(0, self.budget - self.kept - self.count)]
        self.count += len(fresh)
        data = [self.choices.made(s, self._trial(s)) for s in fresh]
        found = self.executor.map(look, data) if self.executor else map(look, data)
        for state, seen in zip(fresh, found, strict=True):
            self._seen[state] = seen
            self._keep_best(state)
            if self.say:
                self.say(self.count, self.budget, self.amounts(self.best) if self.best else None)
        if any(s not in self._seen for s in wanted):
            raise BudgetSpentError
        for state in wanted:
            self._keep_best(state)
        return [self._seen[s] for s in wanted]

    def _keep_best(self, state: State) -> None:
        if not self.passes(self._seen[state]):
            return
        if self.best is None or self.worth(state) < self.worth(self.best):
            self.best = state

    def known(self, state: State) -> Seen | None:
        """What the checks said of a state that was looked at."""
        return self._seen.get(state)

    def _trial(self, state: State) -> Values:
        """Trial ratings of the parts that are there."""
        out = set(self.choices.left_out(state))
        return tuple((w, v) for w, v in self.ratings.trial if (w[0], w[1]) not in out)

    def blocking(self, seen: Seen) -> tuple[Miss, ...]:
        """Checks that stand in the way: those left out of comparisons not among them."""
        return tuple(m for m in seen.misses if not self._free(m))

    def _free(self, miss: Miss) -> bool:
        if miss.name in self.ratings.accepted and miss.open:
            return True
        places = [where for where, _ in miss.ratings if where[-1] != "restrains_beam"]
        return bool(places) and (self.ratings.all_free or all(where in self.ratings.free for where in places))

    def passes(self, seen: Seen) -> bool:
        """Whether nothing stands in the way."""
        return not seen.refused and not self.blocking(seen)

    def penalty(self, seen: Seen) -> float:
        """How far a candidate is from passing; 0 where it passes."""
        if seen.refused:
            return 1e3
        return sum(1.0 if m.open else min(m.severity - 1, 3.0) + 0.3 for m in self.blocking(seen))

    @cached_property
    def by_place(self) -> dict[Location, int]:
        """The choice that sets a value of the file."""
        return {where: v for v, choice in enumerate(self.choices.all) for where in choice.places}


def stepped(state: State, moves: Sequence[tuple[int, int]], choices: Choices) -> State | None:
    """A state with some choices moved by so many rungs; None beyond a ladder's end."""
    rungs = list(state)
    for choice, by in moves:
        rungs[choice] += by
        if not 0 <= rungs[choice] < len(choices.all[choice].rungs):
            return None
    return tuple(rungs)
