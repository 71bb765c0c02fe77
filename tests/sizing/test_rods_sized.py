"""Crossed rods in ``size``: thinner, thicker or left out, all like ones at once; their price is that of their steel."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.sizing.amounts import amounts_of
from bolewright.sizing.finding import find_choices
from bolewright.sizing.stock import Stock

TEXT = (Path(__file__).parents[1] / "platform" / "arrangements" / "crossed_rods.toml").read_text(
    encoding="utf-8"
)
STOCK = Stock()


def test_like_rods_are_one_choice() -> None:
    found = find_choices(tomllib.loads(TEXT), parse_project(TEXT), STOCK, ())
    (rods,) = [c for c in found.all if c.kind == "rods"]
    assert rods.name == "XR1, XR2, thickness"
    assert [r.words for r in rods.rungs] == ["left out", '1/2"', '5/8"', '3/4"', '7/8"', '1"']
    assert rods.rungs[rods.start].words == '5/8"'
    state = [c.start for c in found.all]
    state[found.all.index(rods)] = 0
    assert "crossed_rods" not in found.made(tuple(state))
    state[found.all.index(rods)] = 3
    assert [r["diameter"] for r in found.made(tuple(state))["crossed_rods"]] == ["0.75 in", "0.75 in"]


def test_kept_rods_are_no_choice() -> None:
    found = find_choices(tomllib.loads(TEXT), parse_project(TEXT), STOCK, ("XR1", "XR2"))
    assert not [c for c in found.all if c.kind == "rods"]


def test_thicker_rods_cost_their_steel() -> None:
    """Four rods of 120.22 in: pi/4 (0.75² - 0.625²) x 120.22 x 0.284 lb/cu in x 4 more steel."""
    thicker = TEXT.replace('diameter = "5/8 in"\nrated', 'diameter = "3/4 in"\nrated')
    one, two = (amounts_of(find_layout(parse_project(t)), STOCK).cost for t in (TEXT, thicker))
    pounds = 4 * math.pi / 4 * (0.75**2 - 0.625**2) * 120.217 * 0.284
    assert two - one == pytest.approx(pounds * STOCK.steel, rel=1e-4)
