"""The form of a single-part sheet in a real browser: type, break, mend, load the published example, print."""

from __future__ import annotations

import shutil
import socket
import subprocess
import sys
import time
from pathlib import Path

import pytest

from bolewright.paths import shipped


@pytest.fixture
def beam_page(chromium, tmp_path):
    shutil.copy(shipped("calcsheets") / "parts" / "beam.ipynb", tmp_path)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "voila", "beam.ipynb", f"--port={port}", "--no-browser"]
    server = subprocess.Popen(command, cwd=tmp_path, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    page = chromium.new_page(viewport={"width": 1200, "height": 1600})
    try:
        for _ in range(120):
            try:
                socket.create_connection(("127.0.0.1", port), 1).close()
                break
            except OSError:
                time.sleep(0.5)
        page.goto(f"http://127.0.0.1:{port}/")
        page.get_by_label("Span", exact=True).wait_for(timeout=60_000)
        yield page
    finally:
        page.close()
        server.terminate()
        server.wait(timeout=20)


def test_type_break_mend_load_the_example_and_print(beam_page, tmp_path):
    page, form = beam_page, beam_page.locator(".bw-part-form")
    page.get_by_label("Live load", exact=True).fill("90 plf")
    form.get_by_text("over what is allowed").first.wait_for()
    assert form.locator(".bw-struck").count() == 0

    page.get_by_label("Span", exact=True).fill("12 fx")
    row = page.get_by_label("Span", exact=True).locator(
        "xpath=ancestor::*[contains(@class,'widget-hbox')][1]"
    )
    row.get_by_text("'fx' that is not known").wait_for()  # beside its field
    form.locator(".bw-struck").nth(1).wait_for()
    assert form.locator(".bw-struck").count() == 2  # the last result and its drawings
    assert form.get_by_role("button", name="Print").is_disabled()

    page.get_by_label("Span", exact=True).fill("8 ft")
    form.get_by_text("no limit on this sheet is exceeded").first.wait_for()
    assert form.locator(".bw-struck").count() == 0

    form.get_by_role("button", name="Published example").click()
    form.get_by_text("It comes out.").wait_for()
    assert page.get_by_label("Section", exact=True).input_value() == "2x8"

    form.get_by_label("File", exact=True).fill("mine.html")
    form.get_by_role("button", name="Print").click()
    form.get_by_text("Written: mine.html").wait_for()
    assert "11 ft 10 in" in Path(tmp_path, "mine.html").read_text("utf-8")
