"""Which checks of a sheet are worked out line by line: the worst of each limit state."""

from __future__ import annotations

from collections.abc import Sequence

from bolewright.platform.limit_states.check import Check, worst


def governing_of(made: Sequence[Check]) -> list[Check]:
    """The worst check of each limit state, in the order in which they were made."""
    found: dict[str, Check] = {}
    for check in worst(made):
        found.setdefault(check.key, check)
    order = {id(check): i for i, check in enumerate(made)}
    return sorted(found.values(), key=lambda check: order[id(check)])
