"""Bounce of the floor against closed forms: report only, 8 Hz and up feels firm (common practice)."""

import math
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.bounce import find_bounce


def bounces(change=lambda text: text):
    text = change(
        (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text("utf-8")
    )
    return {b.mark: b for b in find_bounce(find_load_path(find_layout(parse_project(text))))}


def test_frequencies_add_by_dunkerley():
    """1/f² of the two together is the sum of 1/f² of each: the beam's own lies between."""
    for bounce in bounces().values():
        f_c = (1 / bounce.together**2 - 1 / bounce.alone**2) ** -0.5
        assert bounce.together < min(bounce.alone, f_c)


def test_joist_by_hand():
    """J5 of the demonstration, a simple 2x8 over 93.85 in between centre lines, under a strip of 16 in.

    Southern Pine No.2: E = 1.4e6 psi, C_M 0.9 (NDS 2018 Supplement, Table 4B); I = 47.63 in^4 (Table 1B). Boards 4.7
    psf wet at 38.6 pcf, hardware 1 psf, a tenth of 60 psf, joist 0.243 lb/in.
    """
    bounce = bounces()["J5"]
    w, l = (4.7 + 1.0 + 6.0) * 16 / 144 + 0.243, 93.85
    delta = 5 * w * l**4 / (384 * 1.26e6 * 47.63)
    assert bounce.alone == pytest.approx(0.18 * math.sqrt(386.1 / delta), rel=0.01)


def test_stiffer_joists_and_shorter_spans_swing_faster():
    plain, deep = bounces(), bounces(lambda text: text.replace('section = "2x8"', 'section = "2x10"', 1))
    assert deep["J8"].alone > plain["J8"].alone
    assert plain["J1"].alone > plain["J4"].alone > plain["J8"].alone
