"""Names of the places in a package that rows and tables link to."""

from __future__ import annotations

from bolewright.platform.limit_states.check import Check


def derivation_place(check: Check) -> str:
    """Name of the place in a package where a limit state is worked out for the part that governs it."""
    return f"derivation {check.topic.value} {check.key}"


def row_place(check: Check) -> str:
    """Name of the row of a check in the table of its sheet."""
    return f"row {check.topic.value} {check.key} {check.part} {check.at}"
