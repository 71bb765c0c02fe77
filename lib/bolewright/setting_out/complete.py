"""The results of a project with those of what was really built: what holds on paper only is not done."""

from __future__ import annotations

from dataclasses import replace

from bolewright.platform.layout.layout import Layout
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.project import Project
from bolewright.platform.results.results import Results, find_results
from bolewright.setting_out.as_built import Outcome, as_built
from bolewright.setting_out.levels import low_words, too_low
from bolewright.units import feet_inches


def complete_results(project: Project) -> Results:
    """All checks of a project and, where as-built entries change them, those that what was built no longer passes;
    seats that came out too low for a shim, by entries or readings.

    Raises LayoutError for an arrangement that cannot stand.
    """
    results = find_results(project)
    outcome = as_built(results)
    more = [*_low(results.path.layout), *(() if outcome is None else _lost(outcome))]
    return replace(results, checks=(*results.checks, *more)) if more else results


def _low(layout: Layout) -> list[Check]:
    """Seats that no shim brings up to the others."""
    return [
        not_checked(
            "platform",
            "platform.as_built",
            low_words(level, feet_inches(level.shim or 0.0)),
            at=f"level of {level.support}, as built",
        )
        for level in too_low(layout)
    ]


def _lost(outcome: Outcome) -> list[Check]:
    if outcome.fault:
        return [
            not_checked(
                "platform",
                "platform.as_built",
                f"As built it cannot be checked. {outcome.fault}",
                at=outcome.what,
            )
        ]
    return [
        replace(
            change.check,
            limit_state=f"{change.check.limit_state}, as built",
            sentence=f"As built: {change.check.sentence}",
        )
        for change in outcome.lost
    ]
