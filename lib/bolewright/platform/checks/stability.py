"""Standing still sideways: what this edition shows of it, and what it does not."""

from __future__ import annotations

from bolewright.platform.check import Check, Topic, not_checked
from bolewright.platform.load_path import LoadPath

CLAUSE = "ASCE 7-16, 2.4.1 (wind, occupant sway)"


def stability_checks(path: LoadPath) -> list[Check]:
    """One statement for the whole platform: gravity only, sway is not shown."""
    return [
        not_checked(
            "platform",
            Topic.STABILITY,
            "sideways",
            "Gravity only: that the platform does not rack, roll or sway is not shown by these sheets. Knee braces, "
            "a stop or slide at the tree and straps at the post caps need their own calculation by an engineer.",
            CLAUSE,
        )
    ]
