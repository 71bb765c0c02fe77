"""The tree bolt sheet by statics: a rigid bar in wood that yields evenly, and the hinge in the steel."""

from __future__ import annotations

import math

import pypdf
import pytest

from bolewright.part_sheets.document import write
from bolewright.part_sheets.inputs import PartError
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import part_sheet

BOLT = KINDS["tree-bolt"]


def test_yield_limits_by_hand():
    """White oak green (Wood Handbook Table 5-3b): G 0.60, 3,560 psi. F_e = min(0.7 x 11,200 x 0.60, 3,560) = 3,560;
    q = 3,560 x 1.25 = 4,450 lb/in. Rotation: q L (sqrt(a² + 1) - a), a = 2 e/L + 1; over 3.6 (NDS Table 12.3.1B)."""
    sheet = part_sheet(BOLT, {})
    q, L, e = 4450.0, 7.0, 3.0
    a = 2 * e / L + 1
    assert float(sheet.values["Z_II"].m_as("lbf")) == pytest.approx(q * L * (math.sqrt(a**2 + 1) - a) / 3.6)
    M_y = (92_000 + 120_000) / 2 * 1.25**3 / 6
    hinge = q * (math.sqrt(e**2 + 2 * M_y / q) - e) / 3.2
    assert float(sheet.values["Z_IV"].m_as("lbf")) == pytest.approx(hinge)


def test_steel_by_hand():
    """AISC 360-16: M_a = F_y π D³/32 / 1.67; V_a = 0.6 F_y π D²/4 / 1.67."""
    sheet = part_sheet(BOLT, {})
    assert float(sheet.values["M_a"].m_as("lbf*inch")) == pytest.approx(
        92_000 * math.pi * 1.25**3 / 32 / 1.67
    )
    assert float(sheet.values["V_a"].m_as("lbf")) == pytest.approx(
        0.6 * 92_000 * math.pi * 1.25**2 / 4 / 1.67
    )


def test_moment_in_the_wood_is_more_than_at_its_face():
    sheet = part_sheet(BOLT, {})
    assert float(sheet.values["M"].m_as("lbf*inch")) > 1150 * 3.0


def test_a_rated_load_is_held_against_the_load():
    sheet = part_sheet(BOLT, {"rated": "1000 lb"})
    assert next(j for j in sheet.limits if j.limit.words == "Rated load").ratio == pytest.approx(1.15)


@pytest.mark.parametrize(
    ("texts", "field"),
    [
        ({"tree": "plastic palm"}, "tree"),
        ({"embedment": "2 in"}, "embedment"),
        ({"tensile_strength": "50000 psi"}, "tensile_strength"),
        ({"dead": "0 lb", "live": "0 lb"}, "live"),
    ],
)
def test_faulty_input_is_one_sentence_at_its_field(texts, field):
    with pytest.raises(PartError) as caught:
        part_sheet(BOLT, texts)
    assert list(caught.value.faults) == [field]


def test_the_blank_form_leaves_out_the_sum_of_the_loads_and_the_depth_of_the_largest_moment(tmp_path):
    """300 + 850 = 1,150 lb and x_M 0.9711 in. are worked out: they stand in the key alone."""
    pages = pypdf.PdfReader(write(part_sheet(BOLT, {}), tmp_path / "blank.pdf", blank=True)).pages
    before, _, key = " ".join(page.extract_text() for page in pages).partition("Key")
    for found in ("1,150 lb", "0.9711 in"):
        assert found in key
        assert found not in before
    assert "300 lb" in before
