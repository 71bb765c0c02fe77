"""Quantities as builders write them: what they mean, and one sentence for what could mean several things.

Values: exact definitions (1 in. = 25.4 mm, 1 lb = 0.45359237 kg, standard gravity 9.80665 m/s2: NIST SP 811, App. B).
"""

from __future__ import annotations

import pytest

from bolewright.platform.project import Measure
from bolewright.unit_words import _EXACT
from bolewright.units import (
    DEGREE,
    INCH,
    INCH_PER_YEAR,
    MPH,
    NONE,
    PLF,
    POUND,
    PSF,
    PSI,
    Quantity,
    ReadError,
    Unit,
    quantity,
    read,
    shown,
)

KG = 1 / 0.45359237  # lb
KN = 1000 / 0.45359237 / 9.80665  # lb
SAME = [
    ("7 Ft", INCH, 84),
    ("7 FT", INCH, 84),
    ("3 IN", INCH, 3),
    ("3 In.", INCH, 3),
    ("7 FT 2 IN", INCH, 86),
    ("7 ft. 2 in.", INCH, 86),
    ("7 feet 2 inches", INCH, 86),
    ("7'-2 1/2\"", INCH, 86.5),
    ("7' 2 1/2''", INCH, 86.5),
    ("7′ 2 1⁄2″", INCH, 86.5),
    ("7’ 2½”", INCH, 86.5),
    ("7‘ 2 ½“", INCH, 86.5),
    ("7´ 2´´", INCH, 86),
    ("¼ in", INCH, 0.25),
    ("3⅜ in", INCH, 3.375),
    ("5⅝″", INCH, 5.625),
    ("1⅓ ft", INCH, 16),
    ("7\u00a0ft\u00a02\u202fin", INCH, 86),
    ("−6 in", INCH, -6),
    ("– 6 in", INCH, -6),
    ("7. ft", INCH, 84),
    (".5 in", INCH, 0.5),
    ("2540 MM", INCH, 100),
    ("2.54 Metres", INCH, 100),
    ("40 PSF", PSF, 40),
    ("40 lbs/ft2", PSF, 40),
    ("40 lb/ft²", PSF, 40),
    ("40 lb./sq.ft.", PSF, 40),
    ("40 lb / ft^2", PSF, 40),
    ("40 pounds per square foot", PSF, 40),
    ("40 p.s.f.", PSF, 40),
    ("40 #/sqft", PSF, 40),
    ("40 lbs per sq ft", PSF, 40),
    ("1 kPa", PSF, KN * 0.3048**2),
    ("1 KPA", PSF, KN * 0.3048**2),
    ("1 kN/m²", PSF, KN * 0.3048**2),
    ("100 kg/m2", PSF, 100 * KG * 0.3048**2),
    ("100 LBS", POUND, 100),
    ("1 kN", POUND, KN),
    ("1 KN", POUND, KN),
    ("100 kg", POUND, 100 * KG),
    ("2 Kips", POUND, 2000),
    ("8 lb/ft", PLF, 8),
    ("1 kN/m", PLF, KN * 0.3048),
    ("1 MPa", PSI, KN * 1000 * 0.0254**2),
    ("1 N/mm2", PSI, KN * 1000 * 0.0254**2),
    ("1 N/mm²", PSI, KN * 1000 * 0.0254**2),
    ("36 KSI", PSI, 36_000),
    ("115 MPH", MPH, 115),
    ("0.44704 m/s", MPH, 1),
    ("1.609344 km/h", MPH, 1),
    ("100 miles/hour", MPH, 100),
    ("0.44704 Metres per Second", MPH, 1),
    ("1/10 inch per year", INCH_PER_YEAR, 0.1),
    ("2.54 mm/year", INCH_PER_YEAR, 0.1),
    ("30°", DEGREE, 30),
    ("30 Degrees", DEGREE, 30),
    ("10 %", NONE, 0.1),
    ("0", INCH, 0),
    (0, INCH, 0),
    ("0.0", PSF, 0),
]
REFUSED = [
    ("42", INCH, ["'42'", "no unit", '"42 in", "42 ft" or "42 mm"']),
    (42, INCH, ["42", "no unit", '"42 in", "42 ft" or "42 mm"', "in quotes"]),
    (300, POUND, ["300", "no unit", '"300 lb", "300 kg" or "300 kN"']),
    (60, PSF, ["60", "no unit", '"60 psf" or "60 kPa"']),
    ("1,5 ft", INCH, ["'1,5 ft'", "without a comma", '"1.5 ft"']),
    ("1,500 lb", POUND, ["'1,500 lb'", "without a comma", '"1500 lb" or "1.500 lb"']),
    ("0,5", NONE, ["'0,5'", "without a comma", '"0.5"']),
    ("7' 2", INCH, ['"7\' 2"', "no mark after the inches", "7' 2\""]),
    ("7' 14\"", INCH, ["14 inches after the feet", "8' 2\""]),
    ("2\" 7'", INCH, ["feet come first", "2' 7\""]),
    ("2 in 7 ft", INCH, ["feet come first"]),
    ("1e3 ft", INCH, ["'1e3 ft'", "without powers of ten"]),
    ("2 tons", POUND, ["'2 tons'", "not clear", "2000 lb", "620 lb"]),
    ("2 T", POUND, ["'2 T'", "not clear"]),
    ("5 mils", INCH, ["'5 mils'", "not clear"]),
    ("30 psf", DEGREE, ["a load per area", "an angle such as 30 deg"]),
    ("30 deg", INCH, ["'30 deg' is an angle", "a length such as"]),
    ("5 cubits", INCH, ["'cubits'", "not known", "a length such as"]),
    ("5 ft", NONE, ["'5 ft'", "plain number"]),
    ("", INCH, ["''", "empty", "a length such as"]),
    ("a\0b", INCH, ["'a\\u0000b'", "not understood"]),
    ("x" * 500, INCH, ["xxx...", "too long"]),
    (True, INCH, ["true", "not understood"]),
    ({"ft": 1}, INCH, ["a table", "not understood"]),
    (float("nan"), NONE, ["nan", "finite"]),
    (float("-inf"), NONE, ["-inf", "finite"]),
    (10**400, NONE, ["30 digits", "finite"]),
]


@pytest.mark.parametrize(("text", "unit", "number"), SAME, ids=[repr(text) for text, _, _ in SAME])
def test_it_means(text: object, unit: Unit, number: float) -> None:
    assert read(text, unit) == pytest.approx(number, rel=1e-9)


@pytest.mark.parametrize(("text", "unit", "parts"), REFUSED, ids=[shown(text)[:20] for text, _, _ in REFUSED])
def test_it_is_refused_in_one_sentence(text: object, unit: Unit, parts: list[str]) -> None:
    with pytest.raises(ReadError) as caught:
        read(text, unit)
    said = str(caught.value)
    assert [part for part in parts if part not in said] == [], said
    assert "\n" not in said
    assert not said.endswith(".")


@pytest.mark.parametrize(
    ("measure", "text", "says"),
    [
        (Measure(INCH, most=60), "4000 mm", "'4000 mm' is more than 1524 mm, the most allowed"),
        (Measure(INCH, most=60), "9 Ft", "'9 Ft' is more than 5 Ft, the most allowed"),
        (Measure(INCH, most=60), "9' 6\"", "'9' 6\"' is more than 5' 0\", the most allowed"),
        (Measure(INCH, least=4), "2″", "'2″' is less than 4\", the least allowed"),
        (Measure(PSF, least=10), "0.1 kPa", "'0.1 kPa' is less than 0.478803 kPa, the least allowed"),
        (Measure(NONE, most=1), "150 %", "'150 %' is more than 100 %, the most allowed"),
        (Measure(NONE, most=1), 1.5, "1.5 is more than 1, the most allowed"),
        (
            Measure(NONE, most=2000),
            "36000 %",
            "'36000 %' is a share, but a plain number is wanted, without %",
        ),
        (Measure(INCH, positive=True), "0", "'0' is not more than zero"),
    ],
)
def test_limits_stand_in_the_unit_that_was_typed(measure: Measure, text: object, says: str) -> None:
    with pytest.raises(ValueError, match="is") as caught:
        measure.read(text)
    assert str(caught.value) == says


@pytest.mark.parametrize("word", _EXACT)
def test_every_unit_word_is_a_quantity(word: str) -> None:
    of = Quantity(3.0, _EXACT[word].pint)
    for given in (quantity(f"3 {word}"), quantity(3, word)):
        assert given.units == of.units
        assert given.magnitude == 3.0


@pytest.mark.parametrize(
    ("text", "other", "number"),
    [
        ("60 ft2", "inch**2", 60 * 144),
        ("60 FT2", "inch**2", 60 * 144),
        ("3.5 ft3", "inch**3", 3.5 * 1728),
        ("3.5 ft³", "inch**3", 3.5 * 1728),
        ("2 ksf", "lbf/foot**2", 2000),
        ("5 ft 2 in", "inch", 62),
        ("5' 3\"", "inch", 63),
    ],
)
def test_areas_and_volumes_in_feet_are_not_feet_and_inches(text: str, other: str, number: float) -> None:
    assert quantity(text).m_as(other) == pytest.approx(number, rel=1e-12)


@pytest.mark.parametrize("text", ["5 ft 2", "5ft2", "5 ft 3", "5' 2"])
def test_inches_without_their_mark_stay_refused(text: str) -> None:
    with pytest.raises(ReadError, match="no mark after the inches"):
        quantity(text)
