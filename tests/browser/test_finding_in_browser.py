"""From requirements to an open proposal, its sizes chosen, and what to change: by clicks in a real browser."""

from __future__ import annotations

import re
import tomllib

SMALL = """format = 2
project = "Small deck"
[floor]
width = "8 ft"
depth = "7 ft"
height = "5 ft"
[place]
ground_snow = "20 psf"
wind_speed = "100 mph"
exposure = "B"
soil = "class 3"
frost_depth = "30 in"
S_DS = 0.2
"""
LONG = 300_000  # ms: a search runs some dozen sets of checks, on whatever machine


def state(page):
    return page.locator(".bw-state").first


def test_from_requirements_to_a_sized_proposal(page_server, opened, picture):
    page = opened(page_server)
    page.get_by_role("button", name="Start from requirements").click()
    text = page.get_by_label("Text of the requirements")
    assert 'width = ""' in text.input_value()
    page.get_by_role("button", name="Propose", exact=True).click()
    page.locator(".bw-wrong", has_text="floor, width").wait_for()
    text.fill(SMALL)
    page.get_by_label("Sets of checks at most").fill("12")
    page.get_by_role("button", name="Propose", exact=True).click()
    page.locator(".bw-found", has_text="Sizes were found which pass these checks").wait_for(timeout=LONG)
    page.locator(".bw-found", has_text="4 posts, 2 beams along x").wait_for()
    picture(page, "proposals")
    page.get_by_role("button", name=re.compile("Open proposal 1")).click()
    page.locator("h1", has_text="Small deck").wait_for()
    state(page).filter(has_text="No check fails").wait_for()

    page.get_by_role("button", name="Size it").first.click()
    page.get_by_label("Sets of checks at most").fill("6")
    page.locator("button.bw-main", has_text="Size it").click()
    page.locator(".bw-found", has_text="sets of checks were run").wait_for(timeout=LONG)
    picture(page, "sized")
    page.get_by_role("button", name="Take these sizes").click()
    page.locator(".bw-meant", has_text="The sizes are in the form").wait_for()
    state(page).filter(has_text="No check fails").wait_for()
    page.get_by_role("button", name="Save", exact=True).click()
    page.locator(".bw-notice", has_text="Saved as").wait_for()
    saved = tomllib.loads((page_server.folder / "requirements-a.toml").read_text(encoding="utf-8"))
    assert saved["title"]["project"] == "Small deck"


def test_what_to_change_is_changed_by_its_button(page_server, opened):
    page = opened(page_server)
    page.get_by_role("button", name=re.compile("^▸ Joists(?! at one place)")).click()
    page.get_by_label("section", exact=True).first.fill("2x6")
    page.get_by_role("button", name=re.compile("^Change it: .*2x10.* for J")).click()
    page.wait_for_function("document.querySelector('.bw-state').textContent.includes('No check fails')")
    assert page.get_by_label("section", exact=True).first.input_value() == "2x10"
