"""A calc sheet that is opened in JupyterLab, neither trusted nor run: its drawings, tables and equations are there."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

import pytest

from bolewright.paths import shipped
from bolewright.workbook.network import free_port

SHEETS = ("40_plans", "08_posts")


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of a JupyterLab, with data of its own so that nothing in it was ever trusted."""
    folder = tmp_path_factory.mktemp("plain")
    for name in SHEETS:
        shutil.copy(shipped("calcsheets") / f"{name}.ipynb", folder)
    port = free_port("127.0.0.1", 8990)
    words = [sys.executable, "-m", "jupyterlab", "--no-browser", f"--port={port}", "--allow-root"]
    words += ["--IdentityProvider.token=", "--ServerApp.password=", f"--ServerApp.root_dir={folder}"]
    own = {name: str(folder / name.lower()) for name in ("JUPYTER_DATA_DIR", "JUPYTER_CONFIG_DIR")}
    server = subprocess.Popen(
        words, env=os.environ | own, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    yield f"http://127.0.0.1:{port}/lab/tree"
    server.kill()  # it holds nothing that is to be kept, and on a busy machine it takes its time to end by itself
    server.wait(timeout=60)


def shown(page: Any, lab: str, name: str) -> Any:
    for _ in range(60):
        try:
            page.goto(f"{lab}/{name}.ipynb")
            break
        except Exception:
            page.wait_for_timeout(500)
    page.locator(".jp-OutputArea-output").first.wait_for(timeout=60_000)
    return page.locator(".jp-OutputArea-output")


def test_drawings_show_at_once(lab: str, chromium: Any) -> None:
    page = chromium.new_page()
    shown(page, lab, "40_plans")
    pictures = page.locator(".jp-OutputArea-output img")
    pictures.nth(2).wait_for(state="attached")
    widths = pictures.evaluate_all("all => all.map(one => one.naturalWidth)")
    assert len(widths) == 3, "the view, the plan of framing, the plan of decking"
    assert min(widths) > 100
    assert all(pictures.nth(i).get_attribute("alt") for i in range(3))


def test_equations_and_tables_show_at_once(lab: str, chromium: Any) -> None:
    page = chromium.new_page()
    shown(page, lab, "08_posts")
    page.locator(".jp-OutputArea-output table").first.wait_for()
    page.locator(".jp-OutputArea-output mjx-container").first.wait_for(timeout=60_000)
