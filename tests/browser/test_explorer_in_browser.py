"""Where does my weight go, and the lessons, in a real browser: by mouse and by keyboard alone."""

from __future__ import annotations

import re
import statistics
import time
from typing import Any

import pytest

PLAN = ".bw-explorer-plan"


def open_explorer(page: Any) -> None:
    page.get_by_role("button", name="Where does my weight go?").click()
    page.locator(f"{PLAN} svg").wait_for()
    page.locator(PLAN).evaluate("plan => plan.scrollIntoView({block: 'center'})")  # all of it under the mouse


def reactions(page: Any) -> dict[str, float]:
    rows = page.locator(".bw-explorer table tbody tr")
    found = {}
    for i in range(rows.count()):
        cells = [rows.nth(i).locator("th").inner_text(), rows.nth(i).locator("td").first.inner_text()]
        found[cells[0]] = float(cells[1].replace(",", ""))
    return found


def said(page: Any) -> Any:
    return page.locator(".bw-explorer p[role=status]").first


def test_drag_type_and_step_to_the_ground(server, opened, picture):
    page = opened(server)
    open_explorer(page)
    box = page.locator(f"{PLAN} svg").bounding_box()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + 0.3 * box["height"])
    page.mouse.down()
    for i in range(12):
        page.mouse.move(box["x"] + box["width"] / 2 + i, box["y"] + (0.3 + 0.02 * i) * box["height"])
    page.mouse.up()
    page.wait_for_timeout(500)
    dragged = reactions(page)
    assert abs(dragged["sum"] - 180) < 1
    assert page.get_by_label("Place, y", exact=True).input_value() not in ("", "6' 9\"")

    page.get_by_label("Place, x", exact=True).fill("0 in")
    page.get_by_label("Place, y", exact=True).fill("40 in")
    said(page).filter(has_text='180 lb at 0", 3\' 4"').wait_for()
    assert reactions(page) == {"T1": 63, "T2": 54, "P1": 34, "P2": 29, "sum": 180}  # tests/platform, by hand
    page.get_by_label("Weight", exact=True).fill("much")
    page.locator(".bw-wrong", has_text="'much' is not understood").wait_for()
    page.get_by_label("Weight", exact=True).fill("80 kg")
    said(page).filter(has_text="176 lb at").wait_for()
    page.get_by_label("Weight", exact=True).fill("540 lb")
    said(page).filter(has_text="540 lb at").wait_for()

    heads = page.locator(".bw-explorer h3")
    heads.filter(has_text="Step 1 of 10: boards").wait_for()
    for number in range(2, 11):
        page.get_by_role("button", name="Next step").click()
        heads.filter(has_text=f"Step {number} of 10").wait_for()
    assert page.get_by_role("button", name="Next step").is_disabled()
    assert page.locator(".bw-explorer math").count() >= 1
    picture(page, f"explorer-{server.folder.name}")

    page.get_by_label("Shade the plan by").select_option("what comes to T1")
    page.locator(".bw-key", has_text="share of the weight that T1 takes").wait_for()
    picture(page, f"influence-{server.folder.name}")
    page.get_by_role("button", name="a snow drift").click()
    page.get_by_label("Edge of the outline").select_option(index=2)
    said(page).filter(has_text="T1 lifted by").wait_for()


def test_keyboard_alone_moves_the_person(page_server, opened):
    page = opened(page_server)
    open_explorer(page)
    page.get_by_label("Place, y", exact=True).fill("40 in")
    page.get_by_label("Place, x", exact=True).fill("0 in")
    said(page).filter(has_text='at 0", 3\' 4"').wait_for()
    page.locator(PLAN).focus()
    assert "Arrow keys" in page.locator(PLAN).get_attribute("aria-label")
    page.keyboard.press("ArrowUp")
    said(page).filter(has_text='at 0", 3\' 5"').wait_for()
    page.keyboard.press("Shift+ArrowRight")
    said(page).filter(has_text="at 1' 0\", 3' 5\"").wait_for()
    assert page.get_by_label("Place, x", exact=True).input_value() == "1' 0\""


def test_predict_first_then_see(server, opened, picture):
    page = opened(server)
    page.get_by_role("button", name="Lessons").click()
    page.locator(".bw-lessons h2", has_text="Question 1 of 8").wait_for()
    lessons = page.locator(".bw-lessons")
    assert lessons.locator("math").count() == 0, "nothing is given away before the prediction"
    page.get_by_role("button", name="See whether it holds").click()
    page.get_by_role("alert").filter(has_text="Predict first").wait_for()
    lessons.get_by_label("T1", exact=True).check()
    page.get_by_role("button", name="See whether it holds").click()
    lessons.locator("p[role=status]", has_text="Not T1. P1 takes").wait_for()
    assert "would be out by" in lessons.inner_text()
    picture(page, f"lesson-{server.folder.name}")
    for _ in range(3):
        page.get_by_role("button", name="Next question").click()
    page.locator(".bw-lessons h2", has_text="Question 4 of 8").wait_for()
    page.get_by_label("Your prediction (lb)").fill("44 lb")
    page.get_by_role("button", name="See whether it holds").click()
    lessons.locator("p[role=status]", has_text=re.compile(r"Right: 4\d lb go to OAK")).wait_for()
    lessons.get_by_text("2 of 8 predicted, 1 of them right.").wait_for()


def test_both_follow_a_change_in_the_form_and_fit_a_phone(page_server, opened, picture):
    page = opened(page_server, width=390, height=844, guard=False)
    page.get_by_role("button", name=re.compile("^▸ Joists")).click()
    page.get_by_label("spacing", exact=True).first.fill("12 in")
    page.locator(".bw-state", has_text="checks").wait_for()
    open_explorer(page)
    page.locator(f"{PLAN} text", has_text="J11").first.wait_for(state="attached")
    wide = page.evaluate("document.scrollingElement.scrollWidth")
    assert wide <= 390
    picture(page, "explorer-phone")
    page.get_by_role("button", name="Lessons").click()
    page.locator(".bw-lessons h2", has_text="Question 1 of 8").wait_for()
    assert page.evaluate("document.scrollingElement.scrollWidth") <= 390
    picture(page, "lesson-phone")


def test_speed_of_a_drag(page_server, opened, capsys):
    """Arrow key to changed plan, in the browser; printed, never asserted as a time."""
    page = opened(page_server)
    open_explorer(page)
    page.locator(PLAN).focus()
    times = []
    for i in range(20):
        before = page.locator(PLAN).get_attribute("aria-label")
        start = time.perf_counter()
        page.keyboard.press("ArrowUp" if i % 2 else "ArrowDown")
        page.wait_for_function(
            "was => document.querySelector('.bw-explorer-plan').getAttribute('aria-label') !== was",
            arg=before,
        )
        times.append(1000 * (time.perf_counter() - start))
    with capsys.disabled():
        print(f"\nkey to changed plan: median {statistics.median(times):.0f} ms, most {max(times):.0f} ms")
    assert len(times) == 20


def at_plan(page: Any, x: float, y: float) -> tuple[float, float]:
    """Where a place of the plan (in) is on the screen."""
    return tuple(page.evaluate(ON_SCREEN, [x, y]))


ON_SCREEN = """([x, y]) => {
  const p = new DOMPoint(x, -y).matrixTransform(document.querySelector('.bw-explorer-plan svg').getScreenCTM());
  return [p.x, p.y];
}"""


REACHES = """start => [...document.querySelectorAll('.bw-explorer input')]
  .some(e => e.labels[0]?.textContent.trim() === 'Ends at' && e.value.startsWith(start))"""


def drag(page: Any, start: tuple[float, float], end: tuple[float, float]) -> None:
    page.locator(PLAN).evaluate("plan => plan.scrollIntoView({block: 'center'})")
    page.mouse.move(*at_plan(page, *start))
    page.mouse.down()
    for share in (0.25, 0.5, 0.75, 1.0):
        x, y = (a + share * (b - a) for a, b in zip(start, end, strict=True))
        page.mouse.move(*at_plan(page, x, y))
    page.mouse.up()


@pytest.mark.xfail(
    reason="not held since the page grew longer: a drag may come before the kind that was chosen; step by step it works"
)
def test_a_crowd_and_a_drift_are_drawn_by_mouse(page_server, opened, picture):
    page = opened(page_server)
    open_explorer(page)
    page.get_by_role("button", name="a crowd").click()
    said(page).filter(has_text=re.compile(r"^\d,\d{3} lb")).wait_for()  # the crowd that lies there at first
    drag(page, (-10, 30), (20, 60))
    said(page).filter(has_text="375 lb at").wait_for()  # 60 psf on 30 in. by 30 in.
    picture(page, "crowd")
    drag(page, (5, 45), (5, 95))
    said(page).filter(has_text=re.compile(r"37\d lb at 5\", 7' 11\"")).wait_for()
    page.locator(PLAN).focus()
    page.keyboard.press("Shift+ArrowDown")
    said(page).filter(has_text=re.compile(r"at 5\", 6' 11\"")).wait_for()
    before = said(page).inner_text()
    page.get_by_role("button", name="a snow drift").click()
    page.wait_for_function(
        "was => document.querySelector('.bw-explorer p[role=status]').innerText !== was", arg=before
    )
    drag(page, (0, 131), (0, 104))
    page.wait_for_function(REACHES, arg="2' 6")
    picture(page, "drift")


def test_the_steps_stand_beside_the_plan(page_server, opened, picture):
    page = opened(page_server)
    open_explorer(page)
    plan = page.locator(f"{PLAN} svg").bounding_box()
    step = page.locator(".bw-explorer h2", has_text="Part by part").bounding_box()
    assert step["x"] > plan["x"] + plan["width"] - 1
    assert step["y"] < plan["y"] + plan["height"] / 2
    picture(page, "explorer-beside")
