"""The tests' own model against small platforms worked out by hand and with a second grillage."""

from __future__ import annotations

import numpy as np
import pytest

from outside.model import Model
from outside.platforms import model_of
from outside.timber import density, weight_of


def number(model: Model, mark: str) -> int:
    return [beam.mark for beam in model.drawing.beams].index(mark)


def hogging(model: Model, mark: str) -> float:
    moment = model.member(number(model, mark))["moment"]
    return -(moment.D + moment.L[1]).min()


@pytest.mark.parametrize("name", ["case_c01_nine_on", "case_c02_nine_off"])
def test_nine_posts(name: str) -> None:
    """D 315, L 2,234 and 14,390 lb·in: a grillage made for these cases by others, boards in half-inch strips.

    Its 2,234 lb is live load on whole boards from joist to joist or on none; on any part of them it is more.
    """
    model = model_of(name)
    middle = model.reaction("P22")
    assert middle.D[0] == pytest.approx(315, rel=0.01)
    influence = model.loads.on_support("P22")
    cells = 2 * model.live.size
    boards = (influence[:cells:2] + influence[1:cells:2]) / 2 * model.live
    assert boards.clip(min=0).sum() == pytest.approx(2234, rel=0.01)
    assert 2234 < middle.L[0][0] < 1.03 * 2234
    assert hogging(model, "C2") == pytest.approx(14390, rel=0.01)


def test_walkway() -> None:
    """Person at the end of a stringer 36 in. past its post, boards along it: 300 x 36 + D of 991 lb·in."""
    model = model_of("case_b01_walkway")
    moment = model.member(number(model, "S1"))["moment"]
    assert moment.P[1].min() == pytest.approx(-300 * 36, rel=1e-6)
    assert moment.D.min() == pytest.approx(-991, rel=0.001)
    assert (moment.D + moment.P[1]).min() == pytest.approx(-11790, rel=0.001)
    post = model.reaction("P3")
    assert 0.6 * post.D[0] + post.P[1][0] == pytest.approx(-95, abs=0.5)


@pytest.mark.parametrize(
    ("name", "plf", "spacing"),
    [("b02_guard16", 30, 16), ("b03_guard23", 30, 23), ("b04_guard23_8plf", 8, 23)],
)
def test_guard_on_joists_ends(name: str, plf: float, spacing: float) -> None:
    """Equal joists carry equal parts of a guard along their ends: plf times the spacing (40 lb at 16 in.)."""
    model = model_of(f"case_{name}")
    always = [(i, x, pounds) for i, x, pounds in model.always if model.drawing.beams[i].joist]
    tips = {beam.mark: beam.length for beam in model.drawing.beams if beam.joist}
    marks = list(tips)
    carried = dict.fromkeys(marks, 0.0)
    for i, x, pounds in always:
        beam = model.drawing.beams[i]
        own = beam.weight * beam.length / np.ceil(beam.length / 0.5)
        if x > beam.length - 1e-4 and abs(pounds - own) > 1e-9:
            carried[beam.mark] += pounds
    for mark in marks[2:-2]:
        assert carried[mark] == pytest.approx(plf / 12 * spacing, rel=1e-3)
    assert sum(carried.values()) == pytest.approx(plf / 12 * model.drawing.guards[0][1][1], rel=1e-6)


def test_weight_of_wet_southern_pine() -> None:
    """38.6 pcf: NDS Supplement 2018, 3.1.3, with G = 0.55 and 28 % moisture, by hand: 62.4 x 0.55 / 1.1386 x 1.28."""
    assert density(0.55, 28.0) == pytest.approx(62.4 * 0.55 / 1.1386 * 1.28, rel=1e-9)
    assert weight_of("Southern Pine", wet=True) == pytest.approx(38.6, abs=0.05)


@pytest.mark.parametrize("name", ["case_c01_nine_on", "case_b01_walkway", "g03_stringers", "g06_three_beams"])
def test_the_model_is_in_balance(name: str) -> None:
    """All supports together bear every load once; every member's moment comes to nought at its far end."""
    model = model_of(name)
    total = sum(model.loads.on_support(mark) for mark in model.drawing.supports)
    shares = np.array([sum(part for _, _, part in shares) for shares in [*model.points, model.always]])
    assert np.abs(total - shares).max() < 1e-6 * np.abs(shares).max()
    assert shares[model.people] == pytest.approx(1.0, abs=1e-9)
    for i in range(len(model.drawing.beams)):
        moment = model.loads.moment_and_shear(i)[0]
        assert np.abs(moment[-1]).max() < 1e-4 * max(1.0, np.abs(moment).max())


def test_area_of_the_strips_is_the_deck() -> None:
    for name in ("g00_two_beams", "g02_hung", "g10_two_beams"):
        model = model_of(name)
        assert sum(cell[0] for cell in model.deck.cells()) == pytest.approx(model.drawing.deck.area, rel=1e-5)
