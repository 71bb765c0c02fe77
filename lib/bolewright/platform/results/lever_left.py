"""How much farther out of its trunk than drawn a tree bolt's bearing may end up before a check of it comes over 1."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.checks.posts import support_load
from bolewright.platform.checks.tree_bolt_service import pressure_checks
from bolewright.platform.checks.tree_bolts import lever_checks
from bolewright.platform.checks.tree_lateral import lever_checks_lateral
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results
from bolewright.status import Status

STEP = 0.25  # in: what the lever arm is made longer by, to see how the ratios rise


@dataclass(frozen=True)
class LeverLeft:
    """What is left of a bolt's projection (in), and the limit state that it is left by; nothing where one fails."""

    left: float
    limit_state: str


def lever_left(results: Results, mark: str) -> LeverLeft:
    """What the checks leave of the projection of a tree bolt: more, and the least of them comes over 1.

    Every check that hangs on the lever arm is made again with one that is 1/4 in. longer, and its ratio taken to rise
    evenly; the forces stay as they are. Open checks leave nothing.
    """
    frame = next(f for f in results.lateral.frames if isinstance(f, BoltFrame) and f.support.mark == mark)
    drawn, longer = (_checks(results, frame, more) for more in (0.0, STEP))
    judged = {check.key: check for check in results.checks if check.part == mark}
    found = [
        LeverLeft(_left(judged[key], check.ratio, longer[key].ratio), judged[key].limit_state)
        for key, check in drawn.items()
        if key in judged
    ]
    return min(found, key=lambda one: one.left, default=LeverLeft(0.0, ""))


def _left(check: Check, drawn: float, longer: float) -> float:
    if check.status is not Status.PASSES or math.isnan(longer):
        return 0.0
    rise = longer / drawn - 1 if drawn else 0.0
    return STEP * (1 / check.ratio - 1) / rise if rise > 0 and check.ratio else math.inf


def _checks(results: Results, frame: BoltFrame, more: float) -> dict[str, Check]:
    """The checks that hang on the lever arm, by key, with one that is longer (in)."""
    placed = frame.placed
    moved = replace(placed, e=placed.e + more, line=replace(placed.line, y=placed.line.y + more))
    P = support_load(results.path, frame.support.mark)[None, :]
    checks = lever_checks(moved, P)
    if not results.lateral.loose:
        i, out = results.lateral.row(frame.support.mark), replace(frame, placed=moved)
        checks += [
            *lever_checks_lateral(results.lateral, i, out),
            *pressure_checks(results.lateral, i, out),
        ]
    return {check.key: check for check in checks}
