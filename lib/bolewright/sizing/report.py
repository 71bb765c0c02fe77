"""What sizing found, in lines."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.sizing.amounts import Amounts
from bolewright.sizing.size import Sized
from bolewright.sizing.stock import INVENTED

NOBODY = (
    "These are sizes that pass the checks made here. Nobody has approved them: have the arrangement looked at on the "
    "tree, and the sizes by whoever is licensed where you build."
)


def report(found: Sized) -> Iterator[str]:
    """Outcome, every choice with what stops the next smaller size, ratings to be bought, and what it rests on."""
    yield _outcome(found)
    if found.stopped == "interrupted":
        yield f"Stopped by Ctrl+C after {found.evaluations} sets of checks: the best so far, not the end of the search."
    if found.stopped == "budget":
        yield f"The budget of {found.evaluations} sets of checks is spent: the best so far, not the end of the search."
    for words in found.fails:
        yield f"  FAIL {words}"
    yield ""
    wide = max((len(c.name) for c in found.chosen), default=0)
    for c in found.chosen:
        now = c.now if c.now == c.was else f"{c.now} (was {c.was})"
        why = f"{c.next}: {c.stops}" if c.next else "no smaller one saves anything"
        yield f"{c.name:<{wide}}  {now:<28}  {why}" if found.passes else f"{c.name:<{wide}}  {now}"
    yield ""
    if found.proved:
        yield "Beside each size: the next smaller one and the worst check that it fails. No single smaller step passes."
    if found.bound is not None:
        yield (
            f"Lower bound of {_what(found)}: {found.bound.value:,.0f}; at most {found.bound.gap:.0%} might be saved. "
            "The bound takes each part by itself, under gravity alone, the others as they are, knees and bolts at "
            "their cheapest."
        )
    if found.before is not None and found.after is not None:
        yield f"Before: {amounts(found.before)}."
        yield f"Now:    {amounts(found.after)}."
    if found.invented:
        yield f"{INVENTED} (where the file has no price of its own)."
    yield f"{found.evaluations} sets of checks were run."
    yield from _ratings(found)
    for words in found.open_anyway:
        yield f"Open whatever the sizes: {words}."
    yield NOBODY


def amounts(found: Amounts) -> str:
    """Cost, wood and concrete in words."""
    return (
        f"cost {found.cost:,.0f}, {found.wood:,.0f} board ft of wood, {found.concrete:,.1f} cu ft of concrete"
    )


def _outcome(found: Sized) -> str:
    if not found.passes:
        return "No sizes were found with which everything passes; nearest to it:"
    if found.needs and not found.ratings_written:
        return f"Everything passes at the least {_what(found)} found, but for ratings that have to be bought (below)."
    return f"Everything passes at the least {_what(found)} found."


def _what(found: Sized) -> str:
    return {"cost": "cost", "wood": "wood (board ft)", "concrete": "concrete (cu ft)"}[found.least]


def _ratings(found: Sized) -> Iterator[str]:
    if not found.needs:
        return
    yield (
        "Ratings written into the file as required; each has to be bought and read off its maker's sheet:"
        if found.ratings_written
        else "Ratings required, not written into the file (--write-ratings writes them; no rating was loosened):"
    )
    for need in found.needs:
        yield f"  {need.words}"
