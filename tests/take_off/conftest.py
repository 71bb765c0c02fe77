"""The demonstration and its take-off, and variants of it with lines added to the project file."""

from functools import cache
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import find_results
from bolewright.take_off.take_off import find_take_off

DEMO = (Path(__file__).parents[1] / "projects" / "lookout_braced.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def demo():
    return find_take_off(find_results(parse_project(DEMO)))


@pytest.fixture(scope="session")
def demo_with(demo):
    """Take-off of the demonstration with more lines in its project file."""

    def take_off(more):
        return find_take_off(find_results(parse_project(f"{DEMO}\n{more}")))

    return take_off


@pytest.fixture(scope="session")
def least_by_brute_force():
    return _least_by_brute_force


def _least_by_brute_force(pieces, sticks):
    """Least cost over all ways to part the pieces into sticks: every subset is tried as one stick."""
    everything = (1 << len(pieces)) - 1

    def one_stick(group):
        length = sum(piece for i, piece in enumerate(pieces) if group >> i & 1)
        return min((cost for room, cost in sticks.items() if room >= length), default=None)

    @cache
    def least(left):
        if not left:
            return 0
        first = left & -left
        best, group = None, left
        while group:
            if group & first and (cost := one_stick(group)) is not None:
                total = cost + least(left ^ group)
                best = total if best is None else min(best, total)
            group = (group - 1) & left
        return best

    return least(everything)
