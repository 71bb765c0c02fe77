"""A proposal's sizes chosen from what can be bought, as ``bolewright size`` does it, and its ratings fitted to them."""

from __future__ import annotations

from dataclasses import replace

from bolewright.changes.trials import tried_of
from bolewright.platform.file.reading import parse_toml
from bolewright.platform.results.results import Results
from bolewright.proposing.fit import Bench, Fit, Fitted
from bolewright.proposing.ground import Ground
from bolewright.proposing.needs import AtHand
from bolewright.proposing.sizes import BOARDS, POSTS
from bolewright.proposing.writing import file_text
from bolewright.sizing import size
from bolewright.sizing.stock import Stock
from bolewright.timber.sections import parse_section

_SETTLING = 4  # sets of checks to fit ratings to sizes


def sized(one: Fitted, ground: Ground, bench: Bench) -> Fitted | None:
    """The proposal with the cheapest sizes found; None where none is cheaper, or hardware at hand binds its ratings.

    Ratings are no size: they are left out of the search and set to what is required of them in the end.
    """
    budget = bench.budget - bench.count - _SETTLING
    if budget < 2 or ground.needs.hardware != AtHand():
        return None
    data = one.draft.data
    kept = ["decking", *(("J, spacing",) if "blocking" in data else ())]
    found = size(
        file_text([], data, {}),
        "the proposal",
        stock=stock_of_needs(ground),
        keep=[name for name in kept if name == "decking" or len(data["joists"]) == 1],
        budget=budget,
        free_ratings=True,
    )
    bench.count += found.evaluations
    if not found.passes or found.before is None or found.after is None:
        return None
    if found.after.cost > found.before.cost + 1e-6:
        return None
    fit = Fit(one.arrangement, ground, bench, dict(one.ratings), fresh=False)
    draft = fit.with_ratings(replace(one.draft, data=parse_toml(found.text, "the proposal")))
    results = bench.run(draft.data)
    if not isinstance(results, Results):
        return None
    better = fit.settled(one.sizes, draft, results, drawn=False)
    if not isinstance(better, Fitted):
        return None
    stops = {
        place: f"{chosen.next} does not pass: {chosen.stops}"
        for chosen in found.chosen
        if chosen.next and chosen.stops != "not looked at"
        for place in sorted(chosen.places, key=str)[:1]
    }
    return replace(better, stops=stops, stuff=tried_of(better.results).stuff)


def stock_of_needs(ground: Ground) -> Stock:
    """What the requirements let be bought."""
    own = ground.needs.timber
    most = {2: parse_section(own.largest_board).d}
    thick = parse_section(own.largest_post).d
    every = Stock()

    def can(section: str) -> bool:
        if section in POSTS:
            return parse_section(section).d <= thick
        if section in BOARDS:
            return parse_section(section).d <= most[2]
        return True

    return replace(every, sections=tuple(s for s in every.sections if can(s)))
