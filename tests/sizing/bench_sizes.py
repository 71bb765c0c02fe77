"""Cost found against the best of all combinations, on demand: ``python tests/sizing/bench_sizes.py 1 20`` (from, to).

Sizes that matter are varied together: joists, spacing, beams, plies, posts, hole width and depth, legs of knees. What
is kept (boards, pad, bolts in the foot, knees' section) is kept in both. A line for each case: combinations, those
cheaper than what was found, those run in full, sets of checks of the search, cost found over the best.
"""

from __future__ import annotations

import os
import sys
import time
from concurrent.futures import Executor, ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from decks import Deck, cases, text_of
from exhaustive import Judged, cheapest

from bolewright.platform.file.reading import parse_project, parse_toml
from bolewright.sizing import Sized, size
from bolewright.sizing.candidates import Candidates
from bolewright.sizing.finding import find_choices
from bolewright.sizing.stock import Stock

STOCK = Stock(
    sections=("2x6", "2x8", "2x10", "6x6", "8x8", "10x10"),
    spacings=(24.0, 16.0, 12.0),
    hole_widths=(16.0, 20.0, 24.0, 28.0),
    hole_depths=(36.0, 48.0, 60.0),
    legs=(24.0, 36.0),
)
KEEP = ("decking", "F, concrete under the post", "P, bolts in the foot")
KEEP_KNEES = tuple(f"K1, K2, K3, K4, {what}" for what in ("size", "plies", "bolts at each end"))
WITHIN = 1.03


@dataclass(frozen=True)
class Outcome:
    """What the search found, and what is cheaper and passes too."""

    found: Sized
    judged: Judged
    seconds: tuple[float, float]

    @property
    def over(self) -> float:
        """Cost found over the best of all; 1 where nothing cheaper passes."""
        assert self.found.after is not None
        return self.found.after.cost / self.judged.cost if self.judged.best else 1.0


def judge(deck: Deck, executor: Executor | None = None, within: float = 1.0) -> Outcome:
    """Search, then all combinations that are cheaper than what was found divided by ``within``."""
    text, keep = text_of(deck), (*KEEP, *(KEEP_KNEES if deck.knees else ()))
    start = time.perf_counter()
    found = size(text, stock=STOCK, keep=keep, executor=executor)
    middle = time.perf_counter()
    assert found.passes, found.fails
    assert found.after is not None
    choices = find_choices(parse_toml(text, ""), parse_project(text), STOCK, keep)
    every = Candidates(choices, STOCK, "cost", 1_000_000, executor)
    judged = cheapest(every, found.after.cost / within - 1e-6)
    return Outcome(found, judged, (middle - start, time.perf_counter() - middle))


def main(first: int, last: int) -> None:
    """A line for each case."""
    with ProcessPoolExecutor(os.cpu_count(), get_context("spawn")) as executor:
        for deck in cases(last)[first - 1 :]:
            one = judge(deck, executor)
            j, s = one.judged, one.seconds
            print(
                f"{deck.name}: {j.all} combinations, {j.cheaper} cheaper, {j.full} run in full; "
                f"search {one.found.evaluations} sets of checks, {s[0]:.0f} s, all {s[1]:.0f} s; "
                f"cost {one.found.after.cost if one.found.after else 0:.0f}, over the best {one.over:.4f}",
                flush=True,
            )


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
