"""SI beside the units of the calculation: the right number, beside every quantity, and beside nothing else."""

import re

import pytest

from bolewright.documents.in_si import si_beside, with_si
from bolewright.part_sheets.command import run
from bolewright.part_sheets.document import content_of
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import part_sheet
from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import find_results
from bolewright.rendering.blocks import Cell, Equations, KeyValues, Statement, StatementKind, Table
from bolewright.sheets.brief import brief_sheets

# NIST SP 811, Appendix B.8: 1 in = 25.4 mm, 1 lbf = 4.4482216 N, 1 psi = 6.894757 kPa, 1 psf = 47.88026 Pa
INCH, POUND = 25.4, 4.4482216
FACTORS = {
    ("in", "mm"): INCH,
    ("in.", "mm"): INCH,
    ("ft", "m"): 0.3048,
    ("in²", "mm²"): INCH**2,
    ("in³", "cm³"): INCH**3 / 1e3,
    ("in⁴", "cm⁴"): INCH**4 / 1e4,
    ("ft²", "m²"): 0.3048**2,
    ("ft³", "m³"): 0.3048**3,
    ("lb", "N"): POUND,
    ("lb", "kN"): POUND / 1e3,
    ("lb·in", "N·m"): POUND * 0.0254,
    ("lb·in", "kN·m"): POUND * 0.0254 / 1e3,
    ("lb·ft", "N·m"): POUND * 0.3048,
    ("lb·ft", "kN·m"): POUND * 0.3048 / 1e3,
    ("psi", "kPa"): 6.894757,
    ("psi", "MPa"): 6.894757e-3,
    ("psf", "kPa"): 0.04788026,
    ("psf/ft", "kPa/m"): 0.04788026 / 0.3048,
    ("plf", "N/m"): 14.59390,
    ("plf", "kN/m"): 14.59390e-3,
    ("lb/in", "N/m"): 175.1268,
    ("lb/in", "kN/m"): 0.1751268,
    ("lb/in³", "MN/m³"): 0.2714471,
    ("pcf", "kN/m³"): 0.1570875,
    ("mph", "m/s"): 0.44704,
}
PAIR = re.compile(r"(?<![\w.,/])([\d,]+(?:\.\d+)?) (\S+) \((-?[\d,]+(?:\.\d+)?(?:e-?\d+)?) ([^\s()]+)\)")
BARE = re.compile(
    r"(?<![\w.,/])\d[\d,]*(?:\.\d+)? (?:lb|psi|psf|plf|pcf|lb·in|lb·ft|in²|in³|in⁴|ft²)(?![\w·/²³⁴]| \(|\s?-?ft| in)"
)


def texts(sheet):
    for item in sheet.items:
        match item:
            case Table():
                yield from (c.text if isinstance(c, Cell) else c for row in item.rows for c in row)
            case KeyValues():
                yield from (c.text if isinstance(c, Cell) else c for _, c in item.pairs)
            case Statement() if item.kind is not StatementKind.CLAUSES:
                yield from item.items


def hold(sheet):
    """Every pair is right by the factors above to its three figures, and no quantity is left alone."""
    pairs = 0
    for text in texts(sheet):
        assert not BARE.search(text), text
        for number, unit, found, si in PAIR.findall(text):
            if (unit, si) in FACTORS:
                exact = float(number.replace(",", "")) * FACTORS[unit, si]
                assert abs(float(found.replace(",", ""))) == pytest.approx(exact, rel=6e-3, abs=0.5e-3), text
                pairs += 1
    return pairs


@pytest.mark.parametrize("name", KINDS)
def test_every_quantity_of_a_part_sheet(name):
    sheet = content_of(part_sheet(KINDS[name], KINDS[name].example.inputs), metric=True)
    assert hold(sheet) > 5


def test_every_equation_of_a_part_sheet_says_its_result_in_si():
    """NIST SP 811: 1,000 lb at mid-span of 10 ft on a 2x10: M = 30,000 lb·in, 3.39 kN·m; f_b on 21.39 in³, 9.67 MPa."""
    texts = {"span": "10 ft", "dead": "0 plf", "live": "0 plf", "loads": "live 1000 lb at 5 ft"}
    plain, metric = (content_of(part_sheet(KINDS["beam"], texts), metric=m) for m in (False, True))
    before, after = ([i for i in s.items if isinstance(i, Equations)] for s in (plain, metric))
    assert [i.latex for i in before] == [i.latex for i in after]  # what was read back stays
    stress = next(i for i in after if i.formula == "bending_stress")
    assert stress.notes[0] == "In SI: M = 3.39 kN·m; S = 351 cm³; f_b = 9.67 MPa."
    for one in after:
        if re.search(r" (psi|lb|lb·in|in|in²)$", one.alt, re.M):
            assert one.notes[0].startswith("In SI: "), one.alt


def test_a_blank_form_tells_no_result():
    sheet = content_of(part_sheet(KINDS["beam"], {}), blank=True, metric=True)
    assert not any("In SI" in note for i in sheet.items if isinstance(i, Equations) for note in i.notes)


def test_the_brief():
    lookout = shipped("calcsheets") / "lookout.toml"
    results = find_results(parse_project(lookout.read_text(encoding="utf-8"), lookout.name))
    brief, annex = brief_sheets(results)
    assert hold(si_beside(brief)) > 30
    if annex is not None:
        hold(si_beside(annex))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("5 in the row, 2 in total", None),
        ('the post "C 2" and 2-2x12', None),
        ("1,234 psi (8.51 MPa)", None),
        ("live 1500 lb ft moment", None),
        ("No.2, Table 4B, 45°, 2 yr", None),
        ("12' 0\"", "12' 0\" (3,658 mm)"),
        ("7' 2 1/2\" up", "7' 2 1/2\" (2,197 mm) up"),
        ("12 ft 6 in long", "12 ft 6 in (3,810 mm) long"),
        ("1 1/2 in. of bearing", "1 1/2 in. (38.1 mm) of bearing"),
        ('8"', '8" (203 mm)'),
        ('C 8" on', None),
        ("72.0 sq ft", "72.0 sq ft (6.69 m²)"),
        ("16-24 in. apart", "16-24 in. (610 mm) apart"),
        ("-300 lb", "-300 lb (-1.33 kN)"),
        ("1.234 × 10⁻⁵ in⁴", "1.234 × 10⁻⁵ in⁴ (0.000514 cm⁴)"),
        ("620 lb of 800 lb", "620 lb (2.76 kN) of 800 lb (3.56 kN)"),
    ],
)
def test_by_hand(text, said):
    assert with_si(text) == (said or text)


def test_the_command_says_both(capsys):
    """Statics: 800 lb at mid-span of 10 ft, 24,000 lb·in on the 21.39 in³ of a 2x10, is 1,122 psi."""
    run(
        [
            "beam",
            "--span",
            "10 ft",
            "--dead",
            "0 plf",
            "--live",
            "0 plf",
            "--loads",
            "live 800 lb at 5 ft",
            "--metric",
        ]
    )
    assert "1,122 psi (7.74 MPa) of 79" in capsys.readouterr().out
