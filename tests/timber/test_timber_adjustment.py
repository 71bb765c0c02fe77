"""Which factor applies: C_D, C_M, C_t, C_F, C_fu, C_i, C_r, with their conditions."""

import pytest

from bolewright.timber.adjustment import (
    LoadDuration,
    Service,
    Temperature,
    factors,
    load_duration_factor,
    normally_incised,
    repetitive_use,
)
from bolewright.timber.material import own_values, reference_values

DRY, WET = Service(wet=False), Service(wet=True)


def of(species, grade, size, service=DRY, **use):
    return factors(reference_values(species, grade, size), service, **use)


@pytest.mark.parametrize(
    ("duration", "C_D"),
    [  # NDS 2018 Table 2.3.2
        (LoadDuration.PERMANENT, 0.9),
        (LoadDuration.TEN_YEARS, 1.0),
        (LoadDuration.TWO_MONTHS, 1.15),
        (LoadDuration.SEVEN_DAYS, 1.25),
        (LoadDuration.TEN_MINUTES, 1.6),
        (LoadDuration.IMPACT, 2.0),
    ],
)
def test_load_duration(duration, C_D):
    assert load_duration_factor(duration) == C_D


@pytest.mark.parametrize(
    ("species", "grade", "size", "C_M"),
    [  # NDS Supplement 2018, wet service factors beside Tables 4A, 4B, 4D: F_b, F_t, F_v, F_c_perp, F_c, E
        # F_b C_F = 900 x 1.3 = 1170 > 1150
        ("DFL", "No.2", "2x6", (0.85, 1.0, 0.97, 0.67, 0.8, 0.9)),
        # 900 x 1.2 = 1080 <= 1150: no reduction of F_b
        ("DFL", "No.2", "2x8", (1.0, 1.0, 0.97, 0.67, 0.8, 0.9)),
        # 850 x 1.3 = 1105 <= 1150
        ("HF", "No.2", "2x6", (1.0, 1.0, 0.97, 0.67, 0.8, 0.9)),
        # F_c C_F = 650 x 1.1 = 715 <= 750, F_b C_F = 700 x 1.3 = 910
        ("Western Cedars", "No.2", "2x6", (1.0, 1.0, 0.97, 0.67, 1.0, 0.9)),
        # F_c C_F = 650 x 1.15 = 747.5 <= 750
        ("Western Cedars", "No.2", "2x4", (1.0, 1.0, 0.97, 0.67, 1.0, 0.9)),
        ("Southern Pine", "No.2", "2x8", (1.0, 1.0, 0.97, 0.67, 0.8, 0.9)),
        ("Southern Pine", "No.1", "2x8", (0.85, 1.0, 0.97, 0.67, 0.8, 0.9)),
        ("DFL", "No.1", "6x12", (1.0, 1.0, 1.0, 0.67, 0.91, 1.0)),
        ("DFL", "No.1", "6x6", (1.0, 1.0, 1.0, 0.67, 0.91, 1.0)),
        ("Southern Pine", "No.2", "6x6", (1.0, 1.0, 1.0, 1.0, 1.0, 1.0)),  # tabulated wet or dry
    ],
)
def test_wet_service(species, grade, size, C_M):
    f = of(species, grade, size, WET)
    found = (f.bending, f.tension, f.shear, f.bearing, f.compression, f.modulus)
    assert tuple(p["C_M"] for p in found) == C_M
    dry = of(species, grade, size, DRY)
    assert {p["C_M"] for p in (dry.bending, dry.shear, dry.bearing, dry.compression, dry.modulus)} == {1.0}


@pytest.mark.parametrize(
    ("temperature", "wet", "E_and_F_t", "others"),
    [  # NDS 2018 Table 2.3.3
        (Temperature.UP_TO_100F, False, 1.0, 1.0),
        (Temperature.UP_TO_100F, True, 1.0, 1.0),
        (Temperature.UP_TO_125F, False, 0.9, 0.8),
        (Temperature.UP_TO_125F, True, 0.9, 0.7),
        (Temperature.UP_TO_150F, False, 0.9, 0.7),
        (Temperature.UP_TO_150F, True, 0.9, 0.5),
    ],
)
def test_temperature(temperature, wet, E_and_F_t, others):
    f = of("DFL", "No.2", "2x8", Service(wet=wet, temperature=temperature))
    assert (f.modulus["C_t"], f.tension["C_t"]) == (E_and_F_t, E_and_F_t)
    assert {p["C_t"] for p in (f.bending, f.shear, f.bearing, f.compression)} == {others}


@pytest.mark.parametrize(
    ("species", "grade", "size", "F_b", "F_t", "F_c"),
    [  # NDS Supplement 2018, size factors beside Table 4A
        ("DFL", "No.2", "2x4", 1.5, 1.5, 1.15),
        ("DFL", "No.2", "2x5", 1.4, 1.4, 1.1),
        ("DFL", "No.2", "2x6", 1.3, 1.3, 1.1),
        ("DFL", "No.2", "2x8", 1.2, 1.2, 1.05),
        ("DFL", "No.2", "3x8", 1.2, 1.2, 1.05),
        ("DFL", "No.2", "4x8", 1.3, 1.2, 1.05),
        ("DFL", "No.2", "2x10", 1.1, 1.1, 1.0),
        ("DFL", "No.2", "4x10", 1.2, 1.1, 1.0),
        ("DFL", "No.2", "2x12", 1.0, 1.0, 1.0),
        ("DFL", "No.2", "4x12", 1.1, 1.0, 1.0),
        ("DFL", "No.2", "2x14", 0.9, 0.9, 0.9),
        ("DFL", "No.2", "4x14", 1.0, 0.9, 0.9),
        ("DFL", "No.2", "4x16", 1.0, 0.9, 0.9),
        ("DFL", "No.2", "4x4", 1.5, 1.5, 1.15),
        ("DFL", "Stud", "2x4", 1.1, 1.1, 1.05),
        ("DFL", "Stud", "2x6", 1.0, 1.0, 1.0),
        ("DFL", "Stud", "2x8", 1.2, 1.2, 1.05),  # as No.3
        ("DFL", "Construction", "2x4", 1.0, 1.0, 1.0),
        ("DFL", "Utility", "2x4", 1.0, 1.0, 1.0),
        ("DFL", "Utility", "2x3", 0.4, 0.4, 0.6),
        # beside Table 4B: in the values, but for 4 in. thick and 8 in. wide, and wider than 12 in.
        ("Southern Pine", "No.2", "2x8", 1.0, 1.0, 1.0),
        ("Southern Pine", "No.2", "4x6", 1.0, 1.0, 1.0),
        ("Southern Pine", "No.2", "4x8", 1.1, 1.0, 1.0),
        ("Southern Pine", "No.2", "2x14", 0.9, 0.9, 0.9),
        ("Southern Pine", "No.2", "4x14", 0.99, 0.9, 0.9),
        # beside Table 4D: (12/d)^(1/9) over 12 in., F_b only
        ("DFL", "No.1", "6x12", 1.0, 1.0, 1.0),
        ("DFL", "No.1", "6x14", (12 / 13.5) ** (1 / 9), 1.0, 1.0),
        ("Southern Pine", "No.2", "8x16", (12 / 15.5) ** (1 / 9), 1.0, 1.0),
    ],
)
def test_size(species, grade, size, F_b, F_t, F_c):
    f = of(species, grade, size)
    assert (f.bending["C_F"], f.tension["C_F"], f.compression["C_F"]) == pytest.approx((F_b, F_t, F_c))


@pytest.mark.parametrize(
    ("species", "grade", "size", "C_fu", "C_fu_E"),
    [  # NDS Supplement 2018, flat use factors beside Tables 4A, 4B and 4D
        ("DFL", "No.2", "2x3", 1.0, 1.0),
        ("DFL", "No.2", "2x4", 1.1, 1.0),
        ("DFL", "No.2", "2x6", 1.15, 1.0),
        ("DFL", "No.2", "2x8", 1.15, 1.0),
        ("DFL", "No.2", "2x12", 1.2, 1.0),
        ("DFL", "No.2", "4x4", 1.0, 1.0),
        ("DFL", "No.2", "4x8", 1.05, 1.0),
        ("DFL", "No.2", "4x12", 1.1, 1.0),
        ("Southern Pine", "No.2", "2x6", 1.15, 1.0),
        ("DFL", "Select Structural", "6x12", 0.86, 1.0),
        ("DFL", "No.1", "6x12", 0.74, 0.9),
        ("DFL", "Dense No.1", "6x12", 0.74, 0.9),
        ("DFL", "No.2", "6x12", 1.0, 1.0),
        ("DFL", "No.1", "6x6", 1.0, 1.0),  # posts and timbers have none
    ],
)
def test_flat_use(species, grade, size, C_fu, C_fu_E):
    flat = of(species, grade, size, flat=True)
    assert (flat.bending["C_fu"], flat.modulus["C_fu"]) == (C_fu, C_fu_E)
    edge = of(species, grade, size)
    assert (edge.bending["C_fu"], edge.modulus["C_fu"]) == (1.0, 1.0)
    assert "C_fu" not in flat.bending_star  # 3.3.3.8


def test_incising_is_for_dimension_lumber_only():  # NDS 2018 Table 4.3.8
    f = of("DFL", "No.2", "2x8", Service(incised=True))
    assert {p["C_i"] for p in (f.bending, f.tension, f.shear, f.compression)} == {0.8}
    assert (f.bearing["C_i"], f.modulus["C_i"]) == (1.0, 0.95)
    timber = of("DFL", "No.1", "6x6", Service(incised=True))
    assert {p["C_i"] for p in (timber.bending, timber.bearing, timber.compression, timber.modulus)} == {1.0}


@pytest.mark.parametrize(
    ("species", "treated", "incised"),
    [  # AWC DCA 6 Table 2, groups of its footnotes
        ("Douglas Fir-Larch", True, True),
        ("Hem-Fir", True, True),
        ("Spruce-Pine-Fir", True, True),
        ("Southern Pine", True, False),
        ("Redwood", True, False),
        (
            "Northern Species",
            True,
            True,
        ),  # judgement: its stamp may hold spruces and firs of the groups above
        ("Hem-Fir", False, False),
    ],
)
def test_incised_when_treated(species, treated, incised):
    assert normally_incised(species, treated=treated) is incised


@pytest.mark.parametrize(
    ("use", "repetitive"),
    [  # NDS 2018, 4.3.9
        ({"members": 3, "spacing": 24}, True),
        ({"members": 3, "spacing": 24.5}, False),
        ({"members": 2, "spacing": 16}, False),
        ({"members": 8, "spacing": 16, "load_distributing": False}, False),
        ({"plies": 1}, False),
        ({"plies": 2}, False),
        ({"plies": 3}, True),
    ],
)
def test_repetitive_use(use, repetitive):
    assert repetitive_use(**use) is repetitive


def test_repetitive_factor_is_for_dimension_lumber_in_bending():
    assert of("DFL", "No.2", "2x8", repetitive=True).bending["C_r"] == 1.15
    assert of("DFL", "No.2", "2x8", repetitive=True).bending_star["C_r"] == 1.15
    assert of("DFL", "No.1", "6x12", repetitive=True).bending["C_r"] == 1.0
    assert "C_r" not in of("DFL", "No.2", "2x8", repetitive=True).tension


@pytest.mark.parametrize(
    ("species", "grade", "size", "service", "use", "said"),
    [
        (
            "Southern Pine",
            "No.2",
            "2x8",
            WET,
            {},
            (),
        ),  # 4B's values hold the size; its wet factors give DCA 6
        ("DFL", "No.2", "2x8", WET, {}, ("C_F",)),
        ("DFL", "No.2", "2x8", DRY, {"flat": True}, ("C_F", "C_fu")),
        ("DFL", "No.1", "6x12", WET, {"flat": True}, ("C_M", "C_fu")),
        ("DFL", "No.1", "6x6", DRY, {"flat": True}, ()),
        ("Southern Pine", "No.2", "6x6", WET, {}, ("C_M",)),
        (
            "Southern Pine",
            "No.2",
            "2x8",
            Service(wet=False, temperature=Temperature.UP_TO_125F),
            {},
            ("C_t",),
        ),
    ],
)
def test_factors_from_memory_say_so(species, grade, size, service, use, said):
    notes = of(species, grade, size, service, **use).notes
    assert sorted(note.partition(":")[0].split()[-1] for note in notes) == sorted(said)
    assert all("from memory" in note for note in notes)


def test_own_values_take_no_size_factor_and_no_wet_factor_when_they_hold_wet():
    given = {"F_b": 1500, "F_t": 1, "F_v": 1, "F_c_perp": 1, "F_c": 1, "E": 1e6, "G": 0.5, "source": "mill"}
    values = own_values("Larch", "mill", "2x6", **given)
    f = factors(values, WET, flat=True)
    assert (f.bending["C_F"], f.bending["C_fu"], f.bending["C_M"]) == (1.0, 1.0, 0.85)
    wet_values = own_values("Larch", "mill", "2x6", **given, wet_values=True)
    assert factors(wet_values, WET).bending["C_M"] == 1.0
