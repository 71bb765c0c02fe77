"""Which checks of a sheet are worked out line by line: the worst of each limit state."""

from __future__ import annotations

from collections.abc import Sequence

from bolewright.platform.check import Check, worst


def governing_of(made: Sequence[Check]) -> list[Check]:
    """The worst check of each limit state, in the order in which they were made."""
    found: dict[str, Check] = {}
    for check in worst(made):
        found.setdefault(limit_state(check), check)
    order = {id(check): i for i, check in enumerate(made)}
    return sorted(found.values(), key=lambda check: order[id(check)])


def limit_state(check: Check) -> str:
    """Limit state without the name of the other part: ``bearing on S1`` counts as ``bearing``."""
    for word in (" on ", " under ", " at ", " to the tip"):
        head, found, _ = check.limit_state.partition(word)
        if found and head in ("bearing", "uplift", "hanger", "wood left"):
            return head
    return check.limit_state
