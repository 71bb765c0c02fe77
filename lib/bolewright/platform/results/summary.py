"""The outcome of a project in lines of text, for the command line."""

from __future__ import annotations

from bolewright.metric import amount, amount_of
from bolewright.platform.file.demonstration import unconfirmed
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.conditions import SHOWN as LISTED
from bolewright.platform.results.results import Results
from bolewright.platform.results.verdict import beside_verdict, verdict_lines
from bolewright.status import Status

SHOWN = 12


def summary_lines(results: Results, *, metric: bool = False) -> list[str]:
    """Verdict, everything that fails or is not checked, and the checks that govern; amounts in SI with ``metric``."""
    title = results.project.title
    lines = [
        f"{title.project}{f', revision {title.revision}' if title.revision else ''}",
        f"Building code: {results.project.code.words or 'not named in the file'}.",
        *verdict_lines(results),
        *(f"Note: {said}" for said in beside_verdict(results)),
        *_unconfirmed(results),
        "",
    ]
    open_ones = [c for c in results.governing if c.status is not Status.PASSES]
    holding = [c for c in results.governing if c.status is Status.PASSES][:SHOWN]
    lines += check_rows([*open_ones, *holding], metric=metric)
    left = results.count(Status.PASSES) - len(holding)
    if left > 0:
        lines.append(f"       and {left} more that hold")
    lines += ["", "Sentences:"] if open_ones else []
    lines += [f"  {check.sentence}" for check in open_ones]
    return lines


def _unconfirmed(results: Results) -> list[str]:
    """All values that equal the demonstration's, where the note beside the verdict names only the first of them."""
    same = unconfirmed(results.project)
    return [f"Not confirmed: {', '.join(one.words for one in same)}."] if len(same) > LISTED else []


def check_rows(checks: list[Check], *, metric: bool = False) -> list[str]:
    """One line a check, in columns as wide as what stands in them."""
    rows = [_row(check, metric) for check in checks]
    widths = [max((len(row[column]) for row in rows), default=0) for column in range(5)]
    return [
        f"{mark:{widths[0]}s} {ratio:>{widths[1]}s}  {part:{widths[2]}s}  {state:{widths[3]}s}  "
        f"{sizes:{widths[4]}s}  {combination}".rstrip()
        for mark, ratio, part, state, sizes, combination in rows
    ]


def _row(check: Check, metric: bool) -> tuple[str, str, str, str, str, str]:
    mark = {Status.PASSES: "ok", Status.FAILS: "FAIL", Status.NOT_CHECKED: "OPEN"}[check.status]
    if check.status is Status.NOT_CHECKED:
        return mark, "-", check.part, check.limit_state, "", ""
    sizes = ""
    if check.asks_nothing:
        sizes = (
            f"none, least {amount(check.capacity, check.unit, metric=metric)}" if check.capacity else "none"
        )
    elif check.has_sizes:
        sizes = amount_of(check.demand, check.capacity, check.unit, metric=metric)
    return mark, check.shown_ratio, check.part, check.limit_state, sizes, check.combination
