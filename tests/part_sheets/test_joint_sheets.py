"""Joint sheets against NDS tables, and against the library's own connection."""

from __future__ import annotations

import re

import pytest

from bolewright.documents.content import Markdown
from bolewright.fasteners import Distances, Geometry, Pattern, Steel, Wood, bolt, lateral_design_value
from bolewright.fasteners.bearing_lengths import Shear
from bolewright.part_sheets.document import content_of
from bolewright.part_sheets.inputs import PartError
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.mode_figures import SINGLE, SLIP, crushed
from bolewright.part_sheets.sheet import part_sheet
from bolewright.rendering.blocks import Figure

BOLTED, LAG, NAILED = (KINDS[f"{name}-joint"] for name in ("bolted", "lag", "nailed"))


def Z(kind, symbol="Z", **texts):
    return float(part_sheet(kind, texts).values[symbol].m_as("lbf"))


TABLE_12A = [  # NDS 2018, Table 12A: G, t_m, t_s, D, angle side, angle main, Z
    ("0.55", "1 1/2 in", "1 1/2 in", "1/2 in", "0°", "0°", 530),
    ("0.55", "1 1/2 in", "1 1/2 in", "3/4 in", "0°", "0°", 800),
    ("0.55", "3 1/2 in", "1 1/2 in", "1/2 in", "90°", "0°", 400),
    ("0.55", "3 1/2 in", "1 1/2 in", "1/2 in", "0°", "90°", 470),
    ("0.50", "1 1/2 in", "1 1/2 in", "1/2 in", "0°", "0°", 480),
    ("0.50", "1 1/2 in", "1 1/2 in", "3/4 in", "0°", "0°", 720),
]


@pytest.mark.parametrize("row", TABLE_12A)
def test_bolts_of_table_12a(row):
    """The table rounds F_e to 50 psi and Z to 10 lb; the sheet rounds neither: 10 lb at most between them."""
    G, t_m, t_s, D, side, main, published = row
    places = {"end_distance": "12 in", "edge_distance": "6 in", "in_row": "1"}
    found = Z(
        BOLTED, main_gravity=G, side_gravity=G, main_thickness=t_m, side_thickness=t_s, diameter=D,
        side_angle=side, main_angle=main, **places,
    )  # fmt: skip
    assert found == pytest.approx(published, abs=10)


TABLE_12N = [
    ("8d", 106),
    ("10d", 128),
    ("16d", 154),
    ("20d", 185),
]  # NDS 2018, Table 12N: G 0.55, t_s 1-1/2 in.


@pytest.mark.parametrize(("size", "published"), TABLE_12N)
def test_common_nails_of_table_12n(size, published):
    """The table takes 10 D of penetration; an 8d nail falls short of that here."""
    if size == "8d":
        with pytest.raises(PartError, match="wants 6 D"):
            part_sheet(NAILED, {"size": "8d", "side_thickness": "2 in"})
        return
    assert Z(NAILED, size=size) == pytest.approx(published, abs=1)


@pytest.mark.parametrize("shear", ["single", "double"])
@pytest.mark.parametrize("side", ["wood", "steel"])
def test_the_sheet_gives_what_the_library_gives(shear, side):
    texts = {"shear": shear, "side": side, "side_thickness": "1/4 in" if side == "steel" else "1 1/2 in"}
    sheet = part_sheet(BOLTED, texts)
    member = Steel(0.25, width=5.5) if side == "steel" else Wood(1.5, 0.55, 0, E=1.4e6, width=5.5)
    places = Distances(end=4, edge_loaded=2.25, edge=2.25)
    found = lateral_design_value(
        bolt(0.5, 8),
        member,
        Wood(3.5, 0.55, 90, E=1.4e6, width=7.25),
        shear=Shear(f"{shear} shear"),
        geometry=Geometry(Pattern(2, 1, 4, 3), places, places if side == "wood" else None),
    )
    assert float(sheet.values["Z_j"].m_as("lbf")) == pytest.approx(found.Z_total, rel=1e-9)


@pytest.mark.parametrize("kind", [BOLTED, LAG, NAILED], ids=lambda k: k.name)
def test_six_modes_are_drawn_and_the_least_governs(kind):
    sheet = part_sheet(kind, {})
    _, figure = kind.figures(sheet.inputs, sheet.given, sheet.values, False)
    assert isinstance(figure, Figure)
    modes = {n: float(sheet.values[f"Z_{n}"].m_as("lbf")) for n in ("Im", "Is", "II", "IIIm", "IIIs", "IV")}
    least = min(modes, key=lambda name: modes[name])
    assert f"Mode {least} governs" in figure.caption
    assert float(sheet.values["Z"].m_as("lbf")) == pytest.approx(min(modes.values()))
    assert all(f"{name}: " in figure.svg for name in modes)
    _, blank = kind.figures(sheet.inputs, sheet.given, sheet.values, True)
    assert "governs" not in blank.caption


@pytest.mark.parametrize("kind", [BOLTED, LAG, NAILED], ids=lambda k: k.name)
def test_the_members_apart_stand_in_equilibrium(kind):
    """Statics: in single shear each member carries the whole load, in double shear each side member half of it; an
    arrow of the load and one of the fasteners on each, opposed."""
    shears = [("single", ["600 lb", "600 lb"])]
    shears += [("double", ["300 lb", "600 lb", "300 lb"])] if kind is BOLTED else []
    for shear, loads in shears:
        texts = {"load": "600 lb"} | ({"shear": shear} if kind is BOLTED else {})
        sheet = part_sheet(kind, texts)
        for blank in (False, True):  # the load was typed
            apart, _ = kind.figures(sheet.inputs, sheet.given, sheet.values, blank)
            assert apart.caption.startswith("Free-body diagram: 600 lb on the joint")
            assert re.findall(r">(\d+ lb)<", apart.svg) == loads
            assert apart.svg.count("main member<") == 1
            assert apart.svg.count("side member<") == len(loads) - 1


@pytest.mark.parametrize(
    ("kind", "title"),
    [
        (BOLTED, "Group action and geometry"),
        (LAG, "Penetration, group action and geometry"),
        (NAILED, "Penetration"),
    ],
    ids=["bolted", "lag", "nailed"],
)
def test_what_comes_before_the_steps_of_a_joint_is_not_called_statics(kind, title):
    heads = [item.text for item in content_of(part_sheet(kind, {})).items if isinstance(item, Markdown)]
    assert f"## {title}" in heads
    assert "## Statics" not in heads


def test_each_mode_is_drawn_as_the_standard_describes_it():
    """NDS 2018, Appendix I.1: I crushes one member, II turns the dowel in both, III has a hinge in the member that
    does not crush alone, IV a hinge in each."""
    crushes = {
        name[2:]: tuple(bool(crushed(path, *place)) for place in ((0, 12, SLIP), (12, 32, 0)))
        for name, (path, _) in SINGLE.items()
    }
    assert crushes["Im"] == (False, True)
    assert crushes["Is"] == (True, False)
    assert crushes["II"] == (True, True)
    hinges = {name[2:]: [("side" if x < 12 else "main") for x, _ in at] for name, (_, at) in SINGLE.items()}
    assert hinges == {
        **{name: [] for name in ("Im", "Is", "II")},
        "IIIm": ["side"],
        "IIIs": ["main"],
        "IV": ["side", "main"],
    }
    assert len({path for path, _ in SINGLE.values()}) == 6


TABLE_12K = [  # NDS 2018, Table 12K, read in a city's permit archive: plate, D, Z along and across the grain, G 0.55
    ("0.075 in", "1/4 in", 160, 120),
    ("0.075 in", "5/16 in", 200, 140),
    ("0.075 in", "3/8 in", 200, 140),
    ("0.105 in", "1/4 in", 170, 130),
    ("0.105 in", "5/16 in", 210, 150),
    ("0.105 in", "3/8 in", 210, 140),
]


@pytest.mark.parametrize(("plate", "D", "along", "across"), TABLE_12K)
def test_lag_screws_of_table_12k(plate, D, along, across):
    texts = {"side": "steel", "side_thickness": plate, "diameter": D, "length": "4 in", "in_row": "1"}
    for angle, published in (("0°", along), ("90°", across)):
        found = Z(LAG, main_angle=angle, main_thickness="5 1/2 in", end_distance="6 in", **texts)
        assert found == pytest.approx(published, abs=5)


def test_a_lag_screw_bears_on_its_root():
    """NDS 2018, Appendix L2: a 1/2 in. lag screw has a root diameter of 0.371 in."""
    assert part_sheet(LAG, {}).given["D"] == 0.371


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ({"edge_distance": "1/2 in"}, "edge"),
        ({"end_distance": "1 in", "main_angle": "0°"}, "end distance"),
        ({"in_row": "2", "spacing": "1 in"}, "spacing"),
        ({"in_row": "1.5"}, "whole number"),
        ({"side_gravity": "0.9"}, "0.73"),
    ],
)
def test_distances_too_short_are_refused_in_words(texts, said):
    with pytest.raises(PartError, match=said):
        part_sheet(BOLTED, texts)
