"""Amounts in SI: the unit's own factor, the file's own units as the default, the same checks either way."""

import math
import re
from typing import get_args

import pytest

from bolewright import cli, units
from bolewright.drawings.hangers import hanger_details
from bolewright.drawings.measures import Measures
from bolewright.metric import amount, in_si, is_metric
from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import find_results
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.take_off.hardware import HardwareSheet
from bolewright.units import Unit

LOOKOUT = shipped("calcsheets") / "lookout.toml"
METRIC = re.compile(r"\d (?:N|kN|N·m|kN·m|kPa|MPa|mm|m|N/m|kN/m)\b")
CUSTOMARY = re.compile(r"\d (?:lb|psi|psf|in|ft|lb·in|lb·ft|plf)\b")


@pytest.mark.parametrize(
    ("value", "unit", "number", "label"),
    [
        (1.0, units.INCH, 25.4, "mm"),
        (1.0, units.FOOT, 0.3048, "m"),
        (1000.0, units.POUND, 4.4482216152605, "kN"),
        (1.0, units.POUND, 4.4482216152605, "N"),
        (1000.0, units.PSI, 6.894757293168361, "MPa"),
        (40.0, units.PSF, 1.915210359213433, "kPa"),
        (12_000.0, units.POUND_INCH, 1.3558179483314, "kN·m"),
        (100.0, units.PLF, 1.4593902937206, "kN/m"),
        (150.0, units.PCF, 23.563120, "kN/m³"),
        (115.0, units.MPH, 51.4096, "m/s"),
        (30.0, units.DEGREE, 30.0, "°"),
    ],
)
def test_factors(value, unit, number, label):
    """NIST SP 811, Appendix B.8: 25.4 mm, 4.4482216 N, 6.894757 kPa, 47.88026 Pa, 14.59390 N/m, 0.44704 m/s exactly."""
    found, shown = in_si(value, unit)
    assert found == pytest.approx(number, rel=1e-6)
    assert shown == label


def test_every_unit_with_a_dimension_of_length_or_force_has_its_own():
    every = [u for u in vars(units).values() if isinstance(u, Unit)]
    same = {"degree", "year", "hertz", "percent", ""}
    assert {u.pint for u in every if in_si(1.0, u)[1] == u.label} == same
    assert all(math.isfinite(in_si(1.0, u)[0]) for u in every)
    assert get_args(units.Length)[1] is units.INCH


def test_three_figures_or_whole():
    assert amount(790.0, units.POUND, metric=True) == "3.51 kN"
    assert amount(585.3, units.PSI, metric=False) == "585 psi"


@pytest.mark.parametrize(
    ("text", "metric"),
    [
        ('a = "900 mm"\nb = "1.5 kPa"\nc = "3/4 in"', True),
        ('a = "3\' 6\\""\nb = "40 psf"\nc = "19 mm"', False),
        ('note = "no quantity"', False),
        ("a = 900", False),
        ("no = toml = at all", False),
    ],
)
def test_the_files_own_units(text, metric):
    assert is_metric(text) is metric


def _said(capsys, *words: str) -> str:
    cli.main(list(words))
    return capsys.readouterr().out


def test_check_in_either(capsys):
    """One check by hand: the hanger or post that takes 1,000 lb takes 4.45 kN."""
    plain, metric = _said(capsys, "check", str(LOOKOUT)), _said(capsys, "check", str(LOOKOUT), "--metric")
    assert CUSTOMARY.search(plain)
    assert not METRIC.search(plain)
    rows = [line for line in metric.splitlines() if line.startswith("ok")]
    assert len(rows) > 5
    assert not any(CUSTOMARY.search(line.split("  D")[0]) for line in rows)
    ratios = [
        [line.split()[1] for line in said.splitlines() if line.startswith("ok")] for said in (plain, metric)
    ]
    assert ratios[0] == ratios[1]
    assert METRIC.search(_said(capsys, "check", str(LOOKOUT), "--metric", "--explain", "P1"))


def test_a_metric_file_is_told_in_metric(capsys, tmp_path):
    """The lookout with its quantities in millimetres, kilopascals and kilonewtons; --no-metric stands over it."""
    text = LOOKOUT.read_text(encoding="utf-8")

    def to_metric(match: re.Match[str]) -> str:
        try:
            inches = units.read(match[1].replace('\\"', '"'), units.INCH)
        except units.ReadError:
            return match[0]
        return f'"{inches * 25.4:.4f} mm"'

    path = tmp_path / "metric.toml"
    path.write_text(re.sub(r'"((?:[^"\\\n]|\\.)*\d(?:[^"\\\n]|\\.)*)"', to_metric, text), encoding="utf-8")
    assert is_metric(path.read_text(encoding="utf-8"))
    assert not is_metric(text)
    said = _said(capsys, "check", str(path))
    assert METRIC.search(said)
    assert not METRIC.search(_said(capsys, "check", str(path), "--no-metric"))


def test_ratings_of_details_and_what_is_asked_of_joints():
    """Ratings typed as pounds in newtons: 4.4482216 N each (NIST SP 811); no pound is left on either."""
    results = find_results(parse_project(LOOKOUT.read_text(encoding="utf-8"), LOOKOUT.name))
    rated = {c.rated_load for c in results.project.connections.values() if c.rated_load}
    said = " ".join(line for d in hanger_details(results, Measures.METRIC) for line in d.heading)
    found = {float(n) for n in re.findall(r"rated ([\d.]+) kN", said)}
    assert found
    assert all(any(abs(4.4482216e-3 * lb - kn) <= 0.005 * kn for lb in rated) for kn in found)
    sheet = HardwareSheet(results, Lengths(Tape.METRIC)).connections()
    asked = [row[3] for row in sheet.rows]
    assert any(" kN of " in words for words in asked)
    assert not CUSTOMARY.search(" ".join([said, *asked]))


def test_spans_in_metres(capsys):
    """AWC DCA 6 (2015) Table 2: Southern Pine 2x8 at 16 in. spans 11-10, 3.60 m by 141.88 in. to the nearest 10 mm."""
    said = _said(capsys, "spans", "--sizes", "2x8", "--spacings", "406.4 mm", "--metric")
    header, row = (line.split() for line in said.splitlines()[:2])
    assert header[1:4] == ["spacing_mm", "span", "span_mm"]
    assert row[:3] == ["2x8", "406", "3.60"]
    assert row[4] == f"{141.88 * 25.4:.0f}"
    assert "1.92 kPa live + 0.479 kPa dead" in said
    assert "979 N at its end" in said
    assert not re.search(r"\d (?:in|ft|lb|psf)\b", said)
    posts = _said(capsys, "spans", "--of", "posts", "--sizes", "4x4", "--areas", "10 m2", "--metric")
    _, _, metres, _, millimetres, *_ = posts.splitlines()[1].split()
    assert 0 <= float(millimetres) + 0.5 - 1000 * float(metres) < 11
