"""Reference design values: the tables themselves, their choice by size, a user's own values, density."""

import pytest

from bolewright.reference import load
from bolewright.timber.adjusted_values import minimum_modulus
from bolewright.timber.material import (
    MaterialError,
    MemberClass,
    density,
    grades,
    own_values,
    reference_values,
    species_names,
)
from bolewright.timber.sections import parse_section

TABLES = ("nds_table_4A", "nds_table_4B", "nds_table_4D")
ROWS = [(table, row) for table in TABLES for row in load(table)]


@pytest.mark.parametrize(("table", "row"), ROWS, ids=lambda x: x if isinstance(x, str) else None)
def test_every_E_min_follows_from_E(table, row):  # NDS 2018 Appendix D.4, COV_E 0.25; printed to 10,000 psi
    assert minimum_modulus(E=row["E"], COV_E=0.25) == pytest.approx(row["E_min"], abs=5_000)


@pytest.mark.parametrize("table", TABLES)
def test_every_row_says_how_far_it_is_known(table):
    assert {load(table).confidence(row) for row in load(table)} <= {"V", "M1", "M2", "M3"}


SPECIES_G = [
    ("Douglas Fir-Larch", "Douglas Fir-Larch"),
    ("Hem-Fir", "Hem-Fir"),
    ("Spruce-Pine-Fir", "Spruce-Pine-Fir"),
    ("Spruce-Pine-Fir (South)", "Spruce-Pine-Fir (South)"),
    ("Northern Species", "Northern Species"),
    ("Western Cedars", "Western Cedars"),
    ("Southern Pine", "Southern Pine"),
]


@pytest.mark.parametrize(("species", "row"), SPECIES_G)
def test_specific_gravity_agrees_with_table_12_3_3A(species, row):  # NDS 2018 Table 12.3.3A, read in print
    grade = "No.1/No.2" if species == "Northern Species" else "No.2"
    printed = load("nds_table_12_3_3A").row(species=row)["G"]
    assert printed == reference_values(species, grade, "2x6").G


@pytest.mark.parametrize(
    ("species", "grade", "size", "F_b", "F_c", "table"),
    [  # NDS Supplement 2018, from memory; by the table and size class that the size must pick
        ("Southern Pine", "No.2", "2x4", 1100, 1450, "Table 4B"),
        ("Southern Pine", "No.2", "2x6", 1000, 1400, "Table 4B"),
        ("Southern Pine", "No.2", "2x8", 925, 1350, "Table 4B"),
        ("Southern Pine", "No.2", "2x10", 800, 1300, "Table 4B"),
        ("Southern Pine", "No.2", "2x12", 750, 1250, "Table 4B"),
        ("Southern Pine", "No.2", "2x14", 750, 1250, "Table 4B"),
        ("Southern Pine", "No.2", "4x4", 1100, 1450, "Table 4B"),
        ("Southern Pine", "No.2", "6x6", 850, 525, "Table 4D, 5 x 5 and larger"),
        ("Southern Pine", "No.2", "6x12", 850, 525, "Table 4D, 5 x 5 and larger"),
        ("SP", "#2", "45x195 mm", 800, 1300, "Table 4B"),
        ("Douglas Fir-Larch", "No.2", "2x8", 900, 1350, "Table 4A"),
        ("DFL", "ss", "4x12", 1500, 1700, "Table 4A"),
        ("DFL", "No.1", "6x6", 1200, 1000, "Table 4D, posts and timbers"),
        ("DFL", "No.1", "6x8", 1200, 1000, "Table 4D, posts and timbers"),
        ("DFL", "No.1", "6x10", 1350, 925, "Table 4D, beams and stringers"),
        ("DFL", "No.1", "8x12", 1350, 925, "Table 4D, beams and stringers"),
        ("DFL", "No.1", "8x10", 1200, 1000, "Table 4D, posts and timbers"),
        ("DFL", "No.1", "150x200 mm", 1200, 1000, "Table 4D, posts and timbers"),  # 1.97 in. wider than thick
        ("DFL", "No.1", "150x210 mm", 1350, 925, "Table 4D, beams and stringers"),  # 2.36 in.
        ("Spruce-Pine-Fir", "No.2", "2x8", 875, 1150, "Table 4A"),
        ("Spruce-Pine-Fir", "No.1", "2x8", 875, 1150, "Table 4A"),
        ("DFL", "Stud", "2x4", 700, 850, "Table 4A"),
        ("DFL", "Stud", "2x8", 525, 775, "Table 4A"),  # Stud 8 in. and wider takes No.3
    ],
)
def test_size_picks_the_table(species, grade, size, F_b, F_c, table):
    values = reference_values(species, grade, size)
    assert (values.F_b, values.F_c, values.table) == (F_b, F_c, table)
    assert values.confidence in {"M1", "M2"}
    assert "NDS Supplement" in values.source


def test_uncertain_values_are_traceable():
    assert reference_values("Western Cedars", "No.2", "6x6").confidence == "M3"
    assert reference_values("Southern Pine", "No.2", "2x8").confidence == "M1"


@pytest.mark.parametrize("species", species_names())
def test_every_listed_grade_has_values_in_its_size(species):
    for size in ("2x4", "2x8"):
        for grade in grades(species, size):
            if size == "2x8" and grade in ("Construction", "Standard", "Utility"):
                continue
            assert reference_values(species, grade, size).F_b > 0


@pytest.mark.parametrize(
    ("species", "grade", "size", "says"),
    [
        ("Oak", "No.2", "2x8", "species 'Oak' has no values here; use one of: Douglas Fir-Larch"),
        (
            "Southern Pine",
            "No.9",
            "2x8",
            "grade 'No.9' of Southern Pine has no values for 2x8; use one of: No.1",
        ),
        ("DFL", "Construction", "2x6", "for widths up to 4 in"),
        ("DFL", "No.2", "5/4x6", "under 2 in. nominal"),
        ("Redwood", "No.2", "6x6", "Redwood has no reference values for 6x6"),
    ],
)
def test_errors_name_what_is_allowed(species, grade, size, says):
    with pytest.raises(MaterialError, match=says):
        reference_values(species, grade, size)


def test_own_values():
    values = own_values(
        "Larch", "C24", parse_section("45x195 mm"), F_b=1200, F_t=700, F_v=180, F_c_perp=350, F_c=1300,
        E=1_500_000, G=0.48, source="grading report of the mill",
    )  # fmt: skip
    assert values.member_class is MemberClass.DIMENSION
    assert values.E_min == pytest.approx(minimum_modulus(E=1_500_000, COV_E=0.25))
    assert values.confidence == "J"
    with pytest.raises(MaterialError, match="F_v of Larch C24 is -1, but it must be above zero"):
        own_values("Larch", "C24", "2x8", F_b=1, F_t=1, F_v=-1, F_c_perp=1, F_c=1, E=1, G=1, source="x")


@pytest.mark.parametrize(
    ("G", "m_c", "pcf", "tolerance"),
    [  # NDS Supplement 2018 3.1.3
        (0.55, 28, 38.6, 0.05),  # recomputed by hand: 62.4 x 0.55 / 1.1386 x 1.28
        (0.50, 0, 31.2, 0.05),  # oven dry: 62.4 G
    ],
)
def test_density(G, m_c, pcf, tolerance):
    assert density(G=G, m_c=m_c) == pytest.approx(pcf, abs=tolerance)
