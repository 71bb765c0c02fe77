"""The form of a single-part sheet in a real browser: type, break, mend, load the published example, print."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
from pathlib import Path

import nbformat
import pytest

from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.stored import notebook_of


@pytest.fixture
def beam_page(chromium, tmp_path):
    (tmp_path / "beam.ipynb").write_text(nbformat.writes(notebook_of(KINDS["beam"])), encoding="utf-8")
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
    form.locator(".bw-struck").wait_for()
    assert form.locator(".bw-struck").count() == 1  # the last result
    struck = form.locator(".bw-struck").inner_text()
    assert "What this sheet does not check" not in struck
    assert form.get_by_text("What this sheet does not check").is_visible()
    assert form.get_by_text("The drawings follow when every input can be used.").is_visible()
    assert not form.locator("svg text").first.is_visible()  # no number of the last drawings
    assert form.get_by_role("button", name="Print").is_disabled()

    page.get_by_label("Span", exact=True).fill("8 ft")
    form.get_by_text("no limit on this sheet is exceeded").first.wait_for()
    assert form.locator(".bw-struck").count() == 0
    assert form.locator("svg text").first.is_visible()
    assert "span = '8 ft'" in form.locator(".bw-typed").inner_text()

    form.get_by_role("button", name="Published example").click()
    form.get_by_text("It comes out.").wait_for()
    assert page.get_by_label("Section", exact=True).input_value() == "2x10"

    form.get_by_label("File", exact=True).fill("mine.html")
    form.get_by_role("button", name="Print").click()
    form.get_by_text("Written: mine.html").wait_for()
    assert "14 ft" in Path(tmp_path, "mine.html").read_text("utf-8")


@pytest.fixture
def lab_page(chromium, tmp_path):
    """The notch sheet in JupyterLab."""
    folder = tmp_path / "lab"
    folder.mkdir()
    (folder / "notch.ipynb").write_text(nbformat.writes(notebook_of(KINDS["notch"])), encoding="utf-8")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "jupyterlab", "--no-browser", f"--port={port}", "--allow-root"]
    command += ["--IdentityProvider.token=", "--ServerApp.password=", f"--ServerApp.root_dir={folder}"]
    names = ("JUPYTER_DATA_DIR", "JUPYTER_CONFIG_DIR", "JUPYTERLAB_WORKSPACES_DIR")
    own = {name: str(tmp_path / name.lower()) for name in names}
    server = subprocess.Popen(
        command, env=os.environ | own, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    page = chromium.new_page(viewport={"width": 1200, "height": 6000})
    page.set_default_timeout(60_000)
    try:
        for _ in range(120):
            try:
                socket.create_connection(("127.0.0.1", port), 1).close()
                break
            except OSError:
                time.sleep(0.5)
        page.goto(f"http://127.0.0.1:{port}/lab/tree/notch.ipynb?reset")
        page.locator(".jp-Cell").first.wait_for()
        yield page
    finally:
        page.close()
        server.kill()
        server.wait(timeout=60)


def _run_all(page):
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_role("menuitem", name="Run All Cells", exact=True).click()


def _wait_for_the_kernel(page):
    """Until the page is connected to a kernel at rest: what is run before runs nothing, or asks for a kernel."""
    address = page.url.partition("/lab/")[0]
    for _ in range(120):
        kernels = page.request.get(f"{address}/api/kernels").json()
        if any(k["connections"] and k["execution_state"] == "idle" for k in kernels):
            break
        page.wait_for_timeout(500)
    page.locator(".jp-Notebook-ExecutionIndicator[data-status='idle']").wait_for()
    page.wait_for_timeout(1000)


def _results(page, words):
    return page.locator(".jp-OutputArea-output", has_not=page.locator(".bw-part-form")).get_by_text(words)


def test_in_jupyterlab_form_and_cells_have_one_truth(lab_page, picture):
    page = lab_page
    _wait_for_the_kernel(page)
    _run_all(page)
    form = page.locator(".bw-part-form")
    _results(page, "no limit on this sheet is exceeded").first.wait_for()

    form.get_by_label("Shear", exact=True).fill("5000 lb")
    form.get_by_text("over what is allowed").or_(form.get_by_text("times what is allowed")).first.wait_for()
    _results(page, "run all cells again").nth(2).wait_for()  # inputs, values, result
    assert _results(page, "no limit on this sheet is exceeded").count() == 0
    picture(page, "part_sheet_of_other_inputs")

    _run_all(page)
    _results(page, "what is allowed. To change").first.wait_for()
    assert form.get_by_label("Shear", exact=True).input_value() == "5000 lb"
    assert "shear = '5000 lb'" in form.locator(".bw-typed").inner_text()
    assert _results(page, "run all cells again").count() == 0
