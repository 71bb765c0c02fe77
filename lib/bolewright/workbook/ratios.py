"""Ratios as the live view shows them: the worst of each part and each kind of part, as mark, word and number."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from bolewright.platform.limit_states.check import Check, Topic, worst
from bolewright.platform.results.results import Results
from bolewright.rendering.shades import FAILING, OPEN, SHADES, Shade, shade_of


def band(check: Check) -> Shade:
    """Shade of a check."""
    return shade_of(check.status, check.ratio)


def worst_of_parts(results: Results) -> dict[str, Check]:
    """The check that governs each part."""
    found: dict[str, Check] = {}
    for check in results.governing:
        found.setdefault(check.part, check)
    return found


def number(check: Check) -> str:
    """Ratio as written, or that there is none."""
    return check.shown_ratio


def strip(results: Results) -> str:
    """The governing ratio of each kind of part in load-path order, as an HTML list."""
    rows = [worst(checks)[0] for topic in Topic if (checks := results.of(topic))]
    return f'<ol class="bw-strip">{"".join(_row(check) for check in rows)}</ol>'


def _row(check: Check) -> str:
    shade, who = band(check), f"{check.part}, {check.limit_state}"
    full = min(check.severity, 1.0) * 100
    return (
        f'<li class="bw-{check.status.name.lower()}"><span class="bw-kind">{escape(check.topic.value)}</span>'
        f'<span class="bw-ratio" style="color:{check.status.colour}">'
        f'<span aria-hidden="true">{check.status.mark}</span> {number(check)}'
        f'<span class="bw-hidden"> {check.status.value}</span></span>'
        f'<span class="bw-meter" aria-hidden="true"><span style="width:{full:.0f}%;background:{shade.fill}"></span>'
        f'</span><span class="bw-who" title="{escape(who)}">{escape(who)}</span></li>'
    )


def key() -> str:
    """What the shades of the plan mean."""
    return '<p class="bw-key">' + "".join(_swatch(shade) for shade in (*SHADES, FAILING, OPEN)) + "</p>"


def _swatch(shade: Shade) -> str:
    return (
        f'<span><span class="bw-swatch" style="background:{shade.fill}" aria-hidden="true"></span>'
        f"{shade.words}</span>"
    )


def three_worst(checks: Iterable[Check]) -> list[Check]:
    """The three worst checks, of each part and kind of part once."""
    found: dict[tuple[str, str], Check] = {}
    for check in worst(list(checks)):
        found.setdefault((check.topic, check.limit_state), check)
    return list(found.values())[:3]
