"""The view in a real browser: it turns, tells a part's checks by pointer and keyboard, and needs no network."""

import pytest

from bolewright.drawings.view3d import turning_view
from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.results.results import find_results

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def html():
    results = find_results(read_project(shipped("calcsheets") / "lookout.toml"))
    bundle = turning_view(results)._repr_mimebundle_()
    return f"<!DOCTYPE html><title>View</title><body>{bundle['text/html']}</body>"


@pytest.fixture
def page(html, tmp_path, chromium):
    (tmp_path / "view.html").write_text(html, encoding="utf-8")
    context = chromium.new_context()
    page = context.new_page()
    page.requests, page.faults = [], []
    page.on("request", lambda request: page.requests.append(request.url))
    page.on("pageerror", lambda error: page.faults.append(str(error)))
    page.goto((tmp_path / "view.html").as_uri())
    yield page
    assert page.faults == []
    assert all(url.startswith("file:") for url in page.requests)
    context.close()


def corners(page):
    return page.locator("svg polygon").first.get_attribute("points")


def test_arrow_keys_turn_it(page):
    before = corners(page)
    page.locator("svg").focus()
    page.keyboard.press("ArrowLeft")
    page.wait_for_function(
        "before => document.querySelector('svg polygon').getAttribute('points') !== before", arg=before
    )


def test_dragging_turns_it(page):
    before = corners(page)
    box = page.locator("svg").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 60, y + 20)
    page.mouse.up()
    page.wait_for_function(
        "before => document.querySelector('svg polygon').getAttribute('points') !== before", arg=before
    )


def test_a_finger_turns_it_and_the_page_stays(html, tmp_path, chromium):
    """Down the screen, the way that would scroll; beside the view the same finger scrolls."""
    high = (
        html.replace("<body>", "<body><p style='height:20vh'>above</p>") + "<p style='height:200vh'>below</p>"
    )
    (tmp_path / "view.html").write_text(high, encoding="utf-8")
    context = chromium.new_context(viewport={"width": 390, "height": 800}, has_touch=True)
    page = context.new_page()
    page.goto((tmp_path / "view.html").as_uri())
    hand = context.new_cdp_session(page)

    def drag(x: float, y: float, far: float) -> None:
        for step in range(6):
            kind = "touchMove" if step else "touchStart"
            at = [{"x": x, "y": y + far * step / 5}]
            hand.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": at})
        hand.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})

    before, box = corners(page), page.locator("svg").bounding_box()
    drag(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, -120)
    page.wait_for_function(
        "before => document.querySelector('svg polygon').getAttribute('points') !== before", arg=before
    )
    assert page.evaluate("scrollY") == 0
    drag(200, 80, -60)
    page.wait_for_function("scrollY > 0")
    context.close()


def test_a_part_chosen_from_the_list_tells_its_checks(page):
    options = page.locator("select option").all_inner_texts()
    label = next(words for words in options if words.startswith("S1 "))
    page.locator("select").select_option(label=label)
    said = page.locator("[role=status]").inner_text()
    assert said.startswith("S1, beam")
    assert "passes" in said


def test_pointing_at_a_part_tells_its_checks(page):
    page.evaluate(
        """() => { const shape = [...document.querySelectorAll('svg polygon')].pop();
        shape.dispatchEvent(new MouseEvent('click', { bubbles: true })); }"""
    )
    assert page.locator("[role=status] strong").inner_text()
    assert page.locator("select").input_value() != "-1"


def test_decking_can_be_laid_on(page):
    before = page.locator("svg polygon").count()
    page.locator("input[type=checkbox]").check()
    page.wait_for_function("before => document.querySelectorAll('svg polygon').length > before", arg=before)
