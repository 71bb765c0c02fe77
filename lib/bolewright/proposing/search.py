"""Every arrangement that fits the requirements is tried; what passes is made cheaper, and the best are kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from bolewright.proposing.fit import Arrangement, Bench, BudgetSpent, Failed, Fit, Fitted
from bolewright.proposing.ground import Ground, ground_of
from bolewright.proposing.needs import Needs
from bolewright.proposing.on_posts import OnPosts
from bolewright.proposing.on_trunks import on_trunks
from bolewright.proposing.sized import sized

BUDGET = 400  # sets of checks for a whole search
SHOWN = 3  # proposals side by side
_CLOSE = 16  # sets of checks to fit guard and way up to one proposal
_SIZE = 90  # sets of checks to make one proposal cheaper
Say = Callable[[str], None]


@dataclass
class Found:
    """What a search found: proposals that pass, cheapest first, and what stopped the others."""

    ground: Ground
    passed: list[Fitted] = field(default_factory=list)
    failed: list[Failed] = field(default_factory=list)
    count: int = 0
    stopped: str = ""

    @property
    def best(self) -> list[Fitted]:
        """The proposals to be shown: the cheapest of each family, then others; guarded ones first, then by cost."""
        ordered = sorted(self.passed, key=_order)
        firsts: dict[str, Fitted] = {}
        for one in ordered:
            firsts.setdefault(one.arrangement.family, one)
        rest = [one for one in ordered if one not in firsts.values()]
        chosen = [*firsts.values(), *rest[: max(SHOWN - len(firsts), 0)]]
        return sorted(chosen, key=_order)


def _order(one: Fitted) -> tuple[bool, float, str]:
    return one.is_open, round(one.cost, 3), one.arrangement.key


def arrangements(ground: Ground) -> Iterator[list[Arrangement]]:
    """Families of arrangements, the sure answer first; within one, the next is tried where those before fail."""
    yield [OnPosts(2, 2, False), OnPosts(2, 2, True)]
    yield [OnPosts(2, 2, False, rods=True), OnPosts(2, 2, True, rods=True)]
    yield list(on_trunks(ground))
    yield [OnPosts(2, 3, False), OnPosts(2, 3, True)]
    yield [OnPosts(3, 2, False), OnPosts(3, 2, True), OnPosts(3, 3, False), OnPosts(3, 3, True)]


def has_place(ground: Ground) -> bool:
    """Whether any arrangement finds places for its posts: geometry alone, nothing is checked."""
    for family in arrangements(ground):
        for one in family:
            sizes = one.start(ground)
            if sizes is not None and one.draw(ground, sizes) is not None:
                return True
    return False


def search(
    needs: Needs,
    *,
    budget: int = BUDGET,
    say: Say = lambda words: None,
    enough: int = SHOWN,
    closing: bool = True,
    cheaper: bool = True,
) -> Found:
    """Proposals for requirements. The same requirements give the same proposals: the budget counts sets of checks.

    ``enough`` proposals end the search for more; ``closing`` gives those that are shown guard and way up, ``cheaper``
    makes them cheaper. Stopped by hand
    (KeyboardInterrupt) or by its budget it keeps what it found so far and says so.
    """
    ground = ground_of(needs)
    found = Found(ground)
    bench = Bench(budget)
    try:
        _fit_all(found, bench, say, enough)
        if closing:
            _close_all(found, bench, say)
        if cheaper:
            _make_cheaper(found, bench, say)
    except BudgetSpent:
        found.stopped = f"The budget of {budget} sets of checks was used up: the best so far is kept."
    except KeyboardInterrupt:
        found.stopped = "Stopped by hand: the best so far is kept."
    found.count = bench.count
    return found


def _fit_all(found: Found, bench: Bench, say: Say, enough: int) -> None:
    if found.ground.floor_over_line:
        return
    for family in arrangements(found.ground):
        if len(found.best) >= enough and all(isinstance(a, OnPosts) for a in family):
            continue
        for arrangement in family:
            if enough == 1 and found.passed:
                return
            if not isinstance(arrangement, OnPosts) and arrangement.family in {
                p.arrangement.family for p in found.passed
            }:
                continue  # one of its kind passes
            say(f"{arrangement.name}: sized ...")
            outcome = Fit(arrangement, found.ground, bench).run()
            if isinstance(outcome, Fitted):
                found.passed.append(outcome)
                say(f"{arrangement.name}: passes, {outcome.stuff.wood:,.0f} board ft of wood")
            else:
                found.failed.append(outcome)
                say(f"{arrangement.name}: {outcome.why[0]}")


def _close_all(found: Found, bench: Bench, say: Say) -> None:
    """The proposals that will be shown with guard and way up, or guard alone, where they pass with these too."""
    ways: tuple[Literal["guard and way up", "guard"], ...] = ("guard and way up", "guard")
    for one in found.best[:SHOWN]:
        own = Bench(min(_CLOSE, bench.budget - bench.count))
        try:
            for what in ways if found.ground.needs.access.kind != "none" else ways[:1]:
                say(f"{one.arrangement.name}: {what} ...")
                fit = Fit(one.arrangement, found.ground, own, dict(one.ratings), closing=what)
                outcome = fit.run(one.sizes)
                if isinstance(outcome, Fitted):
                    found.passed[found.passed.index(one)] = outcome
                    break
                say(f"{one.arrangement.name}: not with {what}: {outcome.why[0]}")
        except BudgetSpent:
            if own.budget < _CLOSE:
                raise
        finally:
            bench.count += own.count


def _make_cheaper(found: Found, bench: Bench, say: Say) -> None:
    """The proposals that will be shown, each with its share of the budget."""
    for i, one in enumerate(shown := found.best[:SHOWN]):
        left = bench.budget - bench.count
        own = Bench(min(_SIZE, left // (len(shown) - i)))
        say(f"{one.arrangement.name}: made cheaper ...")
        try:
            better = sized(one, found.ground, own)
        except BudgetSpent:
            if own.budget < _SIZE:
                raise
            continue
        finally:
            bench.count += own.count
        if better is not None:
            found.passed[found.passed.index(one)] = better
