"""What is said once of all checks: notes of the layout, and one check where a joist sits on one beam in many places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bolewright.platform.layout.layout import Layout
from bolewright.platform.limit_states.check import Check, worst


def said_once(layout: Layout, checks: Sequence[Check]) -> tuple[Check, ...]:
    """The checks, of like ones the worst alone, with the layout's notes."""
    return tuple(_noted(layout, _one_each(checks)))


def _one_each(checks: Sequence[Check]) -> list[Check]:
    """Of checks of one part in one limit state, such as the seats of a joist that lies along a beam, the worst."""
    alike: dict[tuple[str, str], list[Check]] = {}
    for check in checks:
        alike.setdefault((check.part, check.limit_state), []).append(check)
    found = []
    for group in alike.values():
        first, *others = worst(group)
        words = (f"The worst of {len(group)} such places.",) if others else ()
        found.append(replace(first, remarks=(*first.remarks, *words)))
    return found


def _noted(layout: Layout, checks: list[Check]) -> list[Check]:
    """The checks, and what the layout did that the file does not say as a remark on the first check of the part."""
    for part in dict.fromkeys(note.part for note in layout.notes):
        first = next(i for i, check in enumerate(checks) if check.part == part)
        words = tuple(note.words for note in layout.notes if note.part == part)
        checks[first] = replace(checks[first], remarks=(*checks[first].remarks, *words))
    return checks
