"""What is seen is never trusted longer than the kernel behind it: struck verdicts, kept typing, ended kernels.

Each test waits for the state; the delay is measured in the browser and printed, not asserted.
"""

from __future__ import annotations

import os
import re
import signal
from typing import Any

from .test_workbook_in_browser import field, open_section, state

DELAY = """() => new Promise(done => {
  const since = performance.now();
  const look = () => document.querySelector('.bw-cut') ? done(performance.now() - since) : setTimeout(look, 20);
  look();
})"""
STRUCK = "() => getComputedStyle(document.querySelector('.bw-state')).textDecorationLine"


def struck(page: Any, what: str, capsys: Any) -> None:
    delay = page.evaluate(DELAY)
    assert "line-through" in page.evaluate(STRUCK)
    assert "grayscale" in page.evaluate("() => getComputedStyle(document.querySelector('.bw-strip')).filter")
    with capsys.disabled():
        print(f"\n  {what}: struck after {delay:.0f} ms")


def words(page: Any) -> Any:
    return page.locator(".bw-cut-words")


def test_a_dead_kernel_strikes_the_verdict_and_what_is_typed_then_is_offered(server, opened, capsys):
    page = opened(server)
    open_section(page, "Loads")
    field(page, "live").wait_for()
    server.kill_kernels()
    field(page, "live").fill("400 psf")
    struck(page, f"{server.folder.name}, kernel killed", capsys)
    words(page).filter(has_text=re.compile("restarted, has ended|has ended")).wait_for()
    words(page).filter(has_text="Kept in this browser: live: 400 psf").wait_for()
    again = "Load the page again" if server.is_page else "Run All Cells"
    assert again in words(page).inner_text()
    server.go(page)
    page.locator(".bw-notice", has_text="live: 400 psf").wait_for()
    page.get_by_role("button", name="Put in what was typed").click()
    state(page).filter(has_text="checks fail").wait_for()
    open_section(page, "Loads")
    assert field(page, "live").input_value() == "400 psf"
    page.wait_for_function("() => Object.keys(localStorage).every(k => !k.startsWith('bolewright/'))")


def test_a_kernel_that_hangs_strikes_the_verdict_until_it_goes_on(page_server, opened, capsys):
    page = opened(page_server)
    state(page).first.wait_for()
    kernels = page_server.kernels()
    for kernel in kernels:
        os.kill(kernel, signal.SIGSTOP)
    try:
        struck(page, "kernel stopped", capsys)
    finally:
        for kernel in kernels:
            os.kill(kernel, signal.SIGCONT)
    page.wait_for_function("() => !document.querySelector('.bw-cut')")
    assert "line-through" not in page.evaluate(STRUCK)


def test_an_entry_that_cannot_be_used_greys_what_was_found_before(page_server, opened):
    page = opened(page_server)
    # What is said of the file comes before the fault.
    state(page).filter(has_text="No check fails").wait_for()
    open_section(page, "Loads")
    field(page, "live").fill("sixty")
    state(page).filter(has_text="nothing here holds now").wait_for()
    assert "Mend the fields that are marked" in state(page).inner_text()
    assert "grayscale" in page.evaluate("() => getComputedStyle(document.querySelector('.bw-strip')).filter")
    assert "grayscale" in page.evaluate("() => getComputedStyle(document.querySelector('.bw-figure')).filter")
    live = field(page, "live")
    assert live.get_attribute("aria-invalid") == "true"
    described = live.get_attribute("aria-describedby")
    assert "is not understood" in page.locator(f"#{described}").inner_text()
    # one lasting region says it, and is not made anew with what it says
    region = page.locator(".bw-said")
    assert region.get_attribute("role") == "status"
    region.filter(has_text="is not understood").wait_for()
    heading = page.get_by_role("button", name=re.compile(r"Loads(?! at one place)"))
    assert heading.get_attribute("aria-expanded") == "true"


def test_a_page_that_is_left_ends_its_kernel(page_server, opened):
    page = opened(page_server)
    page_server.wait_until(lambda: len(page_server.kernels()) == 1, "only this page has a kernel")
    for _ in range(3):
        page_server.go(page)
    page_server.wait_until(lambda: len(page_server.kernels()) == 1, "only the last load has a kernel")
    page.close()
    page_server.wait_until(lambda: not page_server.kernels(), "the last kernel has ended")


def test_a_file_changed_on_disk_is_noticed_while_nothing_is_typed(page_server, opened):
    page = opened(page_server)
    text = page_server.file.read_text(encoding="utf-8")
    page_server.file.write_text(text + "# by hand\n", encoding="utf-8")
    page.locator(".bw-notice", has_text="was changed on disk since it was opened").wait_for()


def test_letting_out_without_being_in_shows_where_to_come_in(page_server, chromium):
    context = chromium.new_context()
    try:
        answer = context.request.get(f"{page_server.address}/logout")
        assert answer.status == 200
        assert "/login" in answer.url
    finally:
        context.close()


def test_a_stopped_server_is_said_and_its_kernels_end(own_server, opened, capsys):
    page = opened(own_server)
    state(page).first.wait_for()
    kernels = own_server.kernels()
    assert kernels
    os.kill(own_server.process.pid, signal.SIGTERM)  # the command's process alone
    struck(page, "server stopped", capsys)
    words(page).filter(has_text="The server does not answer").wait_for()
    own_server.wait_until(lambda: own_server.process.poll() is not None, "the command has ended")
    own_server.wait_until(
        lambda: not any(os.path.exists(f"/proc/{pid}") for pid in kernels), "no kernel is left"
    )
