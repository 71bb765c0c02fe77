"""Trunk wood by species, and the way from the green mean to a working value."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.reference import load
from bolewright.tree.species import Advice, SpeciesError, trunk_species, trunk_wood
from bolewright.tree.working import (
    Property,
    depth_effect,
    exclusion_value,
    reduction,
    working_value,
)


@pytest.mark.parametrize(
    ("name", "handbook", "G", "MOR", "C_par"),
    [  # Wood Handbook Table 5-3b, green
        ("bur oak", "Oak, white - bur", 0.58, 7200, 3290),
        ("white oak", "Oak, white - white", 0.60, 8300, 3560),
        ("sugar maple", "Maple, sugar", 0.56, 9400, 4020),
        ("interior south Douglas-fir", "Douglas-fir, interior south", 0.43, 6800, 3110),
        ("ponderosa pine", "Pine, ponderosa", 0.38, 5100, 2450),
        ("Sitka spruce", "Spruce, Sitka", 0.37, 5700, 2670),
    ],
)
def test_green_values_by_either_name(name, handbook, G, MOR, C_par):
    wood = trunk_wood(name)
    assert wood is not None
    assert (wood.species, wood.G_green, wood.MOR, wood.C_par) == (handbook, G, MOR, C_par)
    assert trunk_wood(handbook).name == name
    assert trunk_wood(name.upper().replace("-", " ")).species == handbook


def test_every_species_of_the_table_can_be_had_and_is_whole():
    green = [row for row in load("wood_handbook_5_3b") if row["condition"] == "green"]
    names = trunk_species()
    assert len(names) == len(set(names)) == len(green) == 112
    for name in names:
        wood = trunk_wood(name)
        assert 0.05 < wood.S_vol < 0.25
        assert min(wood.MOR, wood.MOE, wood.C_par, wood.C_perp, wood.shear) > 0
        assert wood.screening_note
        assert wood.kind in ("hardwood", "softwood")


def test_unknown_species_names_near_ones():
    with pytest.raises(
        SpeciesError, match=r"'burr oak' is not in Wood Handbook Table 5-3b; near names are .*bur oak"
    ):
        trunk_wood("burr oak")


def test_confidence_and_screening_travel_to_the_sheet():
    assert trunk_wood("bur oak").confidence == "V"
    assert not any("from memory, confirm" in note for note in trunk_wood("bur oak").notes)
    silver = trunk_wood("silver maple")
    assert silver.advice is Advice.AVOID
    assert any("arborist" in note for note in silver.notes)
    assert any("from memory, confirm" in note for note in silver.notes)


def test_shrinkage_is_tabulated_or_said_to_be_estimated():
    assert trunk_wood("bur oak").S_vol == pytest.approx(0.127)  # Wood Handbook Table 4-3
    scarlet = trunk_wood("scarlet oak")
    assert scarlet.S_vol_estimated
    assert any("estimated" in note for note in scarlet.notes)


def test_working_value_of_bur_oak_step_by_step():
    wood = trunk_wood("bur oak")
    crush, bend = reduction(wood, Property.CRUSHING), reduction(wood, Property.BENDING)
    assert (crush.divisor, bend.divisor) == (2.1, 2.3)  # ASTM D245 Table 8, hardwood, from memory
    # 3290 (1 - 1.645 x 0.18) / 2.1 = 2315.8 / 2.1
    X_05 = exclusion_value(wood.C_par, crush.variation)
    assert pytest.approx(2315.8, abs=0.1) == X_05
    assert working_value(X_05, crush.divisor, 1.0) == pytest.approx(1102.8, abs=0.1)
    # 7200 (1 - 1.645 x 0.16) / 2.3
    assert working_value(exclusion_value(wood.MOR, bend.variation), bend.divisor, 1.0) == pytest.approx(
        2306.5, abs=0.1
    )


@pytest.mark.parametrize(
    ("name", "cov"),
    [("slash pine", 1127 / 8692), ("baldcypress", 1062 / 6640), ("white fir", 949 / 5854)],  # ASTM D2555
)
def test_measured_variation_stands_over_the_average(name, cov):
    cut = reduction(trunk_wood(name), Property.BENDING)
    assert cut.variation == pytest.approx(cov)
    assert cut.divisor == 2.1


def test_means_of_d2555_and_the_handbook_agree():
    for row in load("astm_d2555_green"):
        wood = trunk_wood(row["handbook_species"])
        assert row["MOR_psi"] == pytest.approx(wood.MOR, rel=0.05)
        assert row["C_par_psi"] == pytest.approx(wood.C_par, rel=0.05)


def test_depth_effect_from_the_two_inch_piece():
    assert depth_effect(2.0) == 1.0
    assert depth_effect(22.0) == pytest.approx(0.766, abs=0.0005)


@given(st.floats(2000.0, 15000.0), st.floats(0.05, 0.30), st.floats(1.9, 2.3))
def test_working_value_is_well_below_the_mean(X, V, K):
    assert 0 < working_value(exclusion_value(X, V), K, 1.0) < X / K
