"""Keystroke to updated ratios, and to a sheet printed anew, against a bare widget's round trip in the same run.

Measured and printed, never asserted as a time: aims are at most 5 and 12 bare round trips (p95).
"""

from __future__ import annotations

import json
import statistics
from typing import Any

BARE = """
import ipywidgets as w
text, echo = w.Text(value='60 psf', description='bare'), w.HTML('<p class="bw-state">60 psf</p>')
text.observe(lambda change: setattr(echo, 'value', f'<p class="bw-state">{change["new"]}</p>'), 'value')
w.VBox([text, echo])
"""
COUNT = 30

WATCH = """({target, label}) => {
  const input = [...document.querySelectorAll('input')].find(e => e.labels[0]?.textContent.trim() === label);
  window.bwInput = input;
  window.bwTimes = [];
  window.bwSince = 0;
  input.addEventListener('keydown', () => { window.bwSince = performance.now(); }, true);
  new MutationObserver(() => {
    if (window.bwSince) { window.bwTimes.push(performance.now() - window.bwSince); window.bwSince = 0; }
  }).observe(document.querySelector(target), {subtree: true, childList: true, characterData: true});
}"""
SELECT = "() => { window.bwInput.focus(); window.bwInput.setSelectionRange(1, 2); }"
DONE = "count => window.bwTimes.length >= count"


def times(page: Any, target: str, label: str) -> list[float]:
    """Milliseconds from a key's press to the change it makes, for one digit after the other."""
    page.evaluate(WATCH, {"target": target, "label": label})
    for i in range(COUNT):
        page.evaluate(SELECT)
        page.keyboard.press(str(1 + i % 4))
        page.wait_for_function(DONE, arg=i + 1)
    return list(page.evaluate("() => window.bwTimes"))


def p95(found: list[float]) -> float:
    return statistics.quantiles(found, n=20)[-1]


def test_keystroke_to_ratios(page_server, opened, start_notebook, capsys, record_property):
    cell = {"cell_type": "code", "id": "bare", "metadata": {}, "execution_count": None, "outputs": []}
    kernel = {"name": "python3", "display_name": "Python 3", "language": "python"}
    notebook = {"nbformat": 4, "nbformat_minor": 5, "metadata": {"kernelspec": kernel}}
    bare_server = start_notebook(json.dumps(notebook | {"cells": [cell | {"source": BARE}]}))
    bare = times(opened(bare_server, fresh=False), ".jp-OutputArea-output", "bare")

    page = opened(page_server)
    page.get_by_role("button", name="▸ Loads", exact=True).click()
    page.get_by_label("live", exact=True).first.wait_for()
    ratios = times(page, ".bw-live > :nth-child(2)", "live")
    page.get_by_role("button", name="Sheet by sheet").click()
    page.get_by_role("button", name="joists", exact=True).click()
    page.get_by_label("J: section", exact=True).wait_for()
    sheet = times(page, ".bw-page", "live")

    rows = {"bare widget": bare, "keystroke to ratios": ratios, "keystroke to sheet": sheet}
    for name, found in rows.items():
        assert len(found) >= COUNT
        record_property(f"{name}, p95 ms", round(p95(found), 1))
    with capsys.disabled():
        print()
        for name, found in rows.items():
            print(
                f"  {name:20s} median {statistics.median(found):6.1f} ms   p95 {p95(found):6.1f} ms   "
                f"p95 / bare p95 {p95(found) / p95(bare):5.1f}"
            )
