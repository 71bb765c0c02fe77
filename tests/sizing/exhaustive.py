"""All combinations of the sizes that matter, the cheapest first: the judge of the search. Run: see bench_sizes.py.

Joists and beams lie on two supports here, so what gravity asks of them does not depend on the holes: a combination
whose joists, beams or posts fail under gravity is not looked at again with every other hole.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice, product

from bolewright.platform.layout.layout import LayoutError
from bolewright.sizing.candidates import Candidates
from bolewright.sizing.choices import State
from bolewright.sizing.gravity import fails_under_gravity

BATCH = 8


@dataclass(frozen=True)
class Judged:
    """How many combinations there are, how many are cheaper than asked, how many were run in full, and the best."""

    all: int
    cheaper: int
    full: int
    best: State | None
    cost: float


def cheapest(found: Candidates, below: float) -> Judged:
    """The cheapest combination that costs less than ``below`` and passes; None where there is none."""
    ladders = [range(len(choice.rungs)) for choice in found.choices.all]
    every = list(product(*ladders))
    priced = sorted((w, s) for s in every if (w := found.worth(s)[0]) < below)
    kept = iter((w, s) for w, s in priced if not _screened(found, s))
    full = 0
    while batch := list(islice(kept, BATCH)):
        full += len(batch)
        for (worth, state), seen in zip(batch, found.look([s for _, s in batch]), strict=True):
            if found.passes(seen):
                return Judged(len(every), len(priced), full, state, worth)
    return Judged(len(every), len(priced), full, None, below)


_memo: dict[tuple[int, State], bool] = {}


def _screened(found: Candidates, state: State) -> bool:
    """Whether joists, beams or posts fail under gravity, whatever the holes."""
    frame = tuple(
        0 if c.kind == "footing" else rung for c, rung in zip(found.choices.all, state, strict=True)
    )
    key = (id(found), frame)
    if key not in _memo:
        try:
            _memo[key] = bool(fails_under_gravity(found.choices.made(state)))
        except LayoutError:
            _memo[key] = True
    return _memo[key]
