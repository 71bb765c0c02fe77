"""The buying programme against first-fit decreasing, on waste and time, in one run.

Run it by itself: ``python tests/bench/bench_buying.py``. Nothing gates on times. First-fit decreasing is given both
ways: the plain one with the longest stick only, and the best of one run per stick length. Ratios below 1 are better.
"""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Callable

from bolewright.take_off.cutting import Solved, solve
from bolewright.take_off.packing import Cutting, Plan, best_first_fit, cost_of, first_fit_decreasing

UNIT = 16  # to the inch
KERF, TRIM = 2, 8  # sixteenths: 1/8 in. saw cut, 1/2 in. off each end
FEET = tuple(range(8, 21, 2))

CASES: tuple[tuple[str, int, Callable[[random.Random], int]], ...] = (
    ("framing, whole inches, 2 to 16 ft", 300, lambda r: 16 * r.randrange(24, 193)),
    ("framing, few lengths", 300, lambda r: 16 * r.choice((14, 30, 46, 69, 93, 116, 141, 165))),
    ("joists of a skewed deck, 4 to 12 ft", 300, lambda r: r.randrange(48 * 16, 144 * 16)),
    ("any sixteenth, 1 to 16 ft", 300, lambda r: r.randrange(12 * 16, 192 * 16)),
    ("short blocks, any sixteenth, 1 to 5 ft", 300, lambda r: r.randrange(12 * 16, 60 * 16)),
    ("a small platform, any sixteenth, 2 to 12 ft", 40, lambda r: r.randrange(24 * 16, 144 * 16)),
)


def problem(count: int, piece: Callable[[random.Random], int], seed: int) -> Cutting:
    """Random pieces against sticks of 8 to 20 ft; cost is the length bought."""
    numbers = random.Random(seed)
    wanted = Counter(piece(numbers) + KERF for _ in range(count))
    sizes = tuple(sorted(wanted, reverse=True))
    rooms = tuple(12 * UNIT * feet - 2 * TRIM + KERF for feet in FEET)
    return Cutting(sizes, tuple(wanted[size] for size in sizes), rooms, tuple(12 * UNIT * f for f in FEET))


def waste(cutting: Cutting, bought: int) -> float:
    """Share of the length bought that is not in the pieces."""
    used = sum((size - KERF) * count for size, count in zip(cutting.sizes, cutting.wanted, strict=True))
    return 1 - used / bought


def timed(run: Callable[[], Plan | Solved]) -> tuple[Plan | Solved, float]:
    """Result and seconds."""
    start = time.perf_counter()
    found = run()
    return found, time.perf_counter() - start


def main() -> None:
    """Print one line a case: waste of the three, ratios, seconds, and whether the optimum is proven."""
    head = (
        f"{'pieces':44s}{'n':>5s}{'FFD':>8s}{'best FFD':>10s}{'ours':>8s}{'ours/FFD':>10s}{'ours/best':>10s}"
    )
    print(f"{head}{'FFD s':>9s}{'ours s':>9s}{'time ratio':>12s}  proven")
    for name, count, piece in CASES:
        for seed in (1, 2):
            cutting = problem(count, piece, seed)
            plain, t_plain = timed(lambda c=cutting: first_fit_decreasing(c))
            best, _ = timed(lambda c=cutting: best_first_fit(c))
            ours, t_ours = timed(lambda c=cutting: solve(c))
            assert isinstance(plain, dict)
            assert isinstance(best, dict)
            assert isinstance(ours, Solved)
            shares = [waste(cutting, b) for b in (cost_of(cutting, plain), cost_of(cutting, best), ours.cost)]
            words = "yes" if ours.proven else f"gap {100 * ours.gap:.2f} %"
            print(
                f"{name:44s}{count:5d}{shares[0]:8.2%}{shares[1]:10.2%}{shares[2]:8.2%}"
                f"{shares[2] / shares[0]:10.2f}{shares[2] / shares[1]:10.2f}"
                f"{t_plain:9.3f}{t_ours:9.2f}{t_ours / t_plain:12.0f}  {words}",
                flush=True,
            )


if __name__ == "__main__":
    main()
