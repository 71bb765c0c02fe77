"""Many drawn files, on demand: ``python tests/fuzz/many_files.py 100000 [first]`` prints what fails and a tally.

A file that fails is made again by its number: ``python -c "from drawn_files import file_text; print(file_text(N))"``.
"""

from __future__ import annotations

import sys
import traceback
from collections import Counter

from drawn_files import file_text
from drawn_outcome import BEYOND_PAPER, outcome_of


def main(count: int, first: int = 0) -> int:
    """Run files ``first`` to ``first + count``; the number that failed."""
    kinds: Counter[str] = Counter()
    failed: Counter[str] = Counter()
    slowest = (0.0, 0, 0)
    for number in range(first, first + count):
        try:
            found = outcome_of(file_text(number), everything=number % BEYOND_PAPER == 0)
        except Exception as error:
            frames = [
                f"{f.filename.rsplit('/', 1)[-1]}:{f.lineno}"
                for f in traceback.extract_tb(error.__traceback__)
            ]
            what = f"{type(error).__name__} {str(error)[:100]!r} at {' '.join(frames[-3:])}"
            key = f"{type(error).__name__} {frames[-1]}"
            if failed[key] < 2:
                print(f"file {number}: {what}", flush=True)
            failed[key] += 1
            continue
        kinds[found.kind] += 1
        if found.members <= 100:
            slowest = max(slowest, (found.seconds, number, found.members))
    print(f"{count} files from {first}: {dict(kinds)}; failed {dict(failed)}")
    print(f"slowest up to 100 members: {slowest[0]:.2f} s, file {slowest[1]} with {slowest[2]} members")
    return sum(failed.values())


if __name__ == "__main__":
    sys.exit(min(main(*map(int, sys.argv[1:])), 1))
