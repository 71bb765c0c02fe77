"""Random weaker variants of the shipped projects, made to stand by applying what is offered; counts how each ends.

python tests/changes/many_variants.py 500
"""

from __future__ import annotations

import copy
import random
import sys
import time
from collections import Counter
from typing import Any

from bolewright.changes.advice import find_help
from bolewright.changes.trials import Trials, tried_of
from bolewright.paths import shipped
from bolewright.platform.file.reading import find_faults, parse_toml
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status

SHEETS = shipped("calcsheets")
PROJECTS = ("lookout", "round_the_trunk", "two_trees", "hickory_perch")
Data = dict[str, Any]


def data_of(name: str) -> Data:
    return parse_toml((SHEETS / f"{name}.toml").read_text(encoding="utf-8"), name)


def results_of(data: Data) -> Results:
    project, faults = find_faults(data)
    assert project is not None, faults
    return find_results(project)


WEAKER = (  # what a variant may be given: a smaller or weaker thing, or a rating far too low
    lambda d, r: d["joists"][0].update(section=r.choice(["2x6", "2x8"])),
    lambda d, r: d["joists"][0].update(spacing=r.choice(["24 in", "32 in"])),
    lambda d, r: r.choice(d["beam"]).update(section=r.choice(["2x6", "2x8"])),
    lambda d, r: r.choice(d["beam"]).update(plies=r.choice([1, 2])),
    lambda d, r: r.choice(list(d["footing"].values())).update(width=r.choice(["12 in", "14 in"])),
    lambda d, r: r.choice(list(d["footing"].values())).update(depth=r.choice(["30 in", "36 in"])),
    lambda d, r: r.choice(list(d["bolt"].values())).update(rated_load="600 lb"),
    lambda d, r: r.choice(list(d["connection"].values())).update(rated_load="250 lb"),
)


def variant(seed: int) -> Data:
    """A shipped project with one to three things made weaker; some check of it fails."""
    chance = random.Random(seed)
    while True:
        data = copy.deepcopy(data_of(chance.choice(PROJECTS)))
        try:
            for weaken in chance.sample(WEAKER, chance.randint(1, 3)):
                weaken(data, chance)
            project, _ = find_faults(data)
            if project is not None and any(c.status is Status.FAILS for c in find_results(project).checks):
                return data
        except (LayoutError, KeyError):  # KeyError: this project has no such part
            continue


def settled(data: dict, most: int = 12) -> tuple[str, int]:
    """Apply the cheapest clean offer for the worst check again and again: how it ends, and after how many."""
    results = results_of(data)
    for done in range(most):
        trials = Trials(data, results)
        failing = trials.before.names(Status.FAILS)
        if not failing:
            return "passes", done
        found = find_help(trials, most=1)
        clean = [
            offer
            for one in found.advice
            if one.check.status is Status.FAILS
            for offer in one.offers
            if offer.outcome.changes
        ]
        if not clean:
            assert all(one.singles or one.sentences for one in found.advice)
            return "none of the changes", done
        data = clean[0].outcome.change.made(data)
        results = results_of(data)
        assert set(tried_of(results).names(Status.FAILS)) < set(failing)
    return "not done", most


if __name__ == "__main__":
    ends: Counter[str] = Counter()
    started = time.perf_counter()
    for number in range(int(sys.argv[1])):
        how, steps = settled(variant(number))
        ends[how] += 1
        print(number, how, steps, dict(ends), f"{time.perf_counter() - started:.0f} s", flush=True)
