"""What a project answers, so that two ways of writing it can be held side by side."""

from __future__ import annotations

from collections import defaultdict
from functools import lru_cache

from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Project
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status

# Two calculations beside each other, not a check.
COMPARISONS = ("platform.comparison",)
# Past the load at which a piece buckles, equation 3.9-3 (NDS 2018) has a pole: of what lies there the program says
# "more than 100 times what is allowed", and no more can be held side by side.
MOST = 100.0


def results_of(project: Project) -> Results:
    return _results(_Same(project))


class _Same:
    """A project as a key: by identity."""

    def __init__(self, project: Project) -> None:
        self.project = project

    def __hash__(self) -> int:
        return id(self.project)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.project is other.project


@lru_cache(maxsize=4)  # the platform itself, looked at again and again, and the last of its variants
def _results(same: _Same) -> Results:
    return find_results(same.project)


def ratios(results: Results) -> dict[str, list[float]]:
    """Ratios by limit state over all parts, in order of size; what is not checked counts -1.

    Without marks: joists are numbered along them, so that a mirrored plan numbers them otherwise.
    """
    found: dict[str, list[float]] = defaultdict(list)
    for check in results.checks:
        if check.key not in COMPARISONS:
            found[check.key].append(_ratio(check))
    return {key: sorted(values) for key, values in found.items()}


def _ratio(check: Check) -> float:
    if check.status is Status.NOT_CHECKED or check.ratio != check.ratio:
        return -1.0
    return min(check.ratio, MOST)


def differences(
    one: dict[str, list[float]], other: dict[str, list[float]], share: float, least: float
) -> list[str]:
    """Where ratios differ by more than ``share`` of the larger and more than ``least``, or are not there."""
    found = []
    for key in sorted(one.keys() | other.keys()):
        a, b = one.get(key, []), other.get(key, [])
        if len(a) != len(b):
            found.append(f"{key}: {len(a)} rows, then {len(b)}")
            continue
        apart = [
            (abs(x - y) / max(abs(x), abs(y)), x, y)
            for x, y in zip(a, b, strict=True)
            if abs(x - y) > max(share * max(abs(x), abs(y)), least)
        ]
        if apart:
            _, x, y = max(apart)
            found.append(f"{key}: {x:.6g}, then {y:.6g} ({len(apart)} rows)")
    return found
