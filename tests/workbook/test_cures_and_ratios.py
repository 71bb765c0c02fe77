"""Cures: what is said is what comes out when the change is made. Ratios: shade, mark, word and number agree."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from bolewright.paths import shipped
from bolewright.platform.reading import find_faults
from bolewright.platform.results import Results, find_results
from bolewright.rendering import numbers
from bolewright.status import Status
from bolewright.workbook import ratios
from bolewright.workbook.cures import find_cures
from bolewright.workbook.draft import Draft
from bolewright.workbook.shaded import shaded_plan

DEMO = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
WEAK = [
    (("joists", 0, "section"), "2x6"),
    (("joists", 0, "spacing"), "32 in"),
    (("connection", "HJ", "rated_load"), "300 lb"),
    (("carrier", 2, "plies"), "1"),
    (("loads", "live"), "100 psf"),
]


def results_of(draft: Draft) -> Results:
    assert draft.project is not None
    return find_results(draft.project)


@pytest.mark.parametrize(("where", "text"), WEAK)
def test_a_cure_does_what_it_says(where, text):
    draft = Draft(DEMO)
    draft.type(where, text)
    results = results_of(draft)
    failing = [check for check in ratios.three_worst(results.checks) if check.status is Status.FAILS]
    assert failing
    for check in failing:
        for outcome in find_cures(draft.data, results, check):
            if outcome is None or not outcome.cures:
                continue
            project, _ = find_faults(outcome.change.made(draft.data))
            assert project is not None
            after = [c for c in find_results(project).checks if c.limit_state == check.limit_state]
            alike = [
                c
                for c in after
                if c.topic is check.topic and (c.part == check.part or c.part[0] == check.part[0] == "J")
            ]
            assert max(c.ratio for c in alike if c.ratio == c.ratio) <= 1
            assert outcome.ratio is not None
            assert numbers.ratio(outcome.ratio) in outcome.sentence


def test_a_larger_joist_cures_a_small_one():
    draft = Draft(DEMO)
    draft.type(("joists", 0, "section"), "2x6")
    results = results_of(draft)
    worst = ratios.three_worst(results.checks)[0]
    said = [outcome.sentence for outcome in find_cures(draft.data, results, worst) if outcome]
    assert said[0].startswith("2x8 for J would bring it to 0.")


def test_a_check_that_passes_needs_no_cure():
    draft = Draft(DEMO)
    results = results_of(draft)
    assert [o for c in results.checks[:5] if c.ratio <= 1 for o in find_cures(draft.data, results, c)] == []


def test_trying_cures_leaves_the_draft_alone():
    draft = Draft(DEMO)
    draft.type(("joists", 0, "section"), "2x6")
    text, results = draft.text, results_of(draft)
    list(find_cures(draft.data, results, ratios.three_worst(results.checks)[0]))
    assert draft.text == text


def light(colour: str) -> float:
    """Relative luminance (WCAG 2.2, definition)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_shades_darken_step_by_step_so_that_grey_tells_them_apart():
    fills = [light(band.fill) for band in (*ratios.BANDS, ratios.FAILING)]
    steps = [(a + 0.05) / (b + 0.05) for a, b in zip(fills, fills[1:], strict=False)]
    assert min(steps) > 1.2


def test_every_part_of_the_plan_is_marked_with_its_ratio():
    draft = Draft(DEMO)
    draft.type(("joists", 0, "section"), "2x6")
    results = results_of(draft)
    svg = ET.fromstring(shaded_plan(results))
    texts = {node.text for node in svg.iter("{http://www.w3.org/2000/svg}text")}
    governing = ratios.worst_of_parts(results)
    layout = results.path.layout
    for mark in [*(m.mark for m in layout.members), *(s.mark for s in layout.supports)]:
        check = governing[mark]
        fails = "✗ " if check.status is Status.FAILS else ""
        assert f"{fails}{mark} {ratios.number(check)}" in texts
    assert f"J7 {ratios.number(governing['J7'])}" in (svg.get("aria-label") or "")


def test_strip_names_every_kind_of_part_with_its_worst():
    results = results_of(Draft(DEMO))
    html = ratios.strip(results)
    for topic in {check.topic for check in results.checks}:
        worst = max((c for c in results.of(topic) if c.ratio == c.ratio), key=lambda c: c.ratio)
        assert numbers.ratio(worst.ratio) in html
        assert topic.value in html
