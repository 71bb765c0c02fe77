"""The tree bolt sheet by statics: a rigid bar in wood that yields evenly, and the hinge in the steel."""

from __future__ import annotations

import math

import numpy as np
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
    sheet = part_sheet(BOLT, {"live": "850 lb"})
    assert float(sheet.values["M"].m_as("lbf*inch")) > 1150 * 3.0


def pressed(kappa: float, count: int = 280) -> tuple[float, float, float]:
    """Face pressure, moment and shear of a bar of 1 1/4 in., 7 in. deep, with 1,150 lb 3 in. out.

    White oak, green: E = 1,250,000 psi (Wood Handbook, Table 5-3b). Springs of k_0 D pounds per inch and inch of bar
    on nodes, k_0 = E / (kappa D), beam elements between them (Hermite).
    """
    D, L, P, e, E_s = 1.25, 7.0, 1150.0, 3.0, 29e6
    step, inertia, k_0 = L / count, math.pi * D**4 / 64, 1_250_000 / (kappa * D)
    own = np.array(
        [
            [12, 6 * step, -12, 6 * step],
            [6 * step, 4 * step**2, -6 * step, 2 * step**2],
            [-12, -6 * step, 12, -6 * step],
            [6 * step, 2 * step**2, -6 * step, 4 * step**2],
        ]
    ) * (E_s * inertia / step**3)
    K = np.zeros((2 * count + 2, 2 * count + 2))
    for i in range(count):
        K[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += own
    share = np.full(count + 1, k_0 * D * step)
    share[[0, -1]] /= 2
    K[range(0, 2 * count + 2, 2), range(0, 2 * count + 2, 2)] += share
    load = np.zeros(2 * count + 2)
    load[0], load[1] = P, -P * e
    y = np.linalg.solve(K, load)[::2]
    shear = P - np.cumsum(share * y)
    moment = P * e + np.concatenate([[0.0], np.cumsum(shear[:-1]) * step])
    shear = np.concatenate([[P], shear])
    return k_0 * float(y[0]), float(np.abs(moment).max()), float(np.abs(shear).max())


def test_the_worse_end_of_kappa_counts():
    """Pressure and shear in the stiffest wood (kappa 5), the bolt's bending in the softest (20)."""
    sheet = part_sheet(BOLT, {"live": "850 lb"})
    (p_5, M_5, V_5), (p_20, M_20, _) = pressed(5.0), pressed(20.0)
    assert p_5 > p_20
    assert M_20 > M_5
    assert float(sheet.values["p_0"].m_as("psi")) == pytest.approx(p_5, rel=0.01)
    assert float(sheet.values["V"].m_as("lbf")) == pytest.approx(V_5, rel=0.02)
    assert float(sheet.values["M"].m_as("lbf*inch")) == pytest.approx(M_20, rel=0.01)


def test_a_rated_load_is_held_against_the_load():
    sheet = part_sheet(BOLT, {"live": "850 lb", "rated": "1000 lb"})
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
    """300 + 850 = 1,150 lb and x_M 1.095 in. are worked out: they stand in the key alone."""
    pages = pypdf.PdfReader(
        write(part_sheet(BOLT, {"live": "850 lb"}), tmp_path / "blank.pdf", blank=True)
    ).pages
    before, _, key = " ".join(page.extract_text() for page in pages).partition("Key")
    for found in ("1,150 lb", "1.095 in"):
        assert found in key
        assert found not in before
    assert "300 lb" in before
