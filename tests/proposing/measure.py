"""How often the search finds something for the drawn requirements: run on demand, stored with the program's version.

    python tests/proposing/measure.py --first 0 --count 200 --out counts.jsonl

Counted apart: a proposal passes; a requirement is proved to be in the way (lifted, an arrangement passes); gave up.
Of the requirements with a trunk 76 in. round and more: how many get an arrangement on bolts. ``--every`` takes every
n-th, so that two processes share the work.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections import Counter
from pathlib import Path
from typing import Any

from bolewright import __version__
from bolewright.proposing.blockers import proved
from bolewright.proposing.reading import find_need_faults
from bolewright.proposing.search import search

sys.path.insert(0, str(Path(__file__).parent))
from requirements200 import COUNT, SEED, one

STOUT = 76.0  # in


def measured(number: int, budget: int, lift_budget: int) -> dict[str, Any]:
    """What the search finds for one of the requirements."""
    needs, faults = find_need_faults(one(number))
    assert needs is not None, faults
    start = time.process_time()
    found = search(needs, budget=budget, cheaper=False)
    on_bolts = [p for p in found.passed if p.draft.bearing]
    lift = () if found.passed else proved(needs, budget=lift_budget)
    return {
        "number": number,
        "version": __version__,
        "seed": SEED,
        "outcome": "pass" if found.passed else "blocker" if lift else "gave up",
        "proposals": [p.arrangement.key for p in found.best],
        "on_bolts": bool(on_bolts),
        "stout": any(t.girth >= STOUT for t in needs.trees),
        "failed": {f.arrangement.key: f.why[0][:120] for f in found.failed},
        "blocker": " and ".join(one_.words for one_ in lift),
        "sets": found.count,
        "stopped": found.stopped,
        "seconds": round(time.process_time() - start, 1),
    }


def main() -> None:
    """Measure some of the requirements and print the counts."""
    parser = argparse.ArgumentParser(description="How often the search finds something.")
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--count", type=int, default=COUNT)
    parser.add_argument("--every", type=int, default=1)
    parser.add_argument("--budget", type=int, default=120)
    parser.add_argument("--lift-budget", type=int, default=30)
    parser.add_argument("--out", type=Path, default=Path("counts.jsonl"))
    given = parser.parse_args()
    rows = []
    with given.out.open("a", encoding="utf-8") as file:
        for number in range(given.first, min(given.first + given.count, COUNT), given.every):
            rows.append(measured(number, given.budget, given.lift_budget))
            file.write(json.dumps(rows[-1]) + "\n")
            file.flush()
    print(len(rows), "requirements:", dict(Counter(row["outcome"] for row in rows)))
    stout = [row for row in rows if row["stout"]]
    print(len(stout), "with a trunk of 76 in. and more:", sum(row["on_bolts"] for row in stout), "on bolts")


if __name__ == "__main__":
    main()
