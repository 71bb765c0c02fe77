"""Errata are told first, of files and packages that an affected version made, and of no others."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from bolewright import __version__, cli
from bolewright.errata import STAMP, Erratum, Severity, errata, of_file, of_package
from bolewright.platform.limit_states import LIMIT_STATES

ROOT = Path(__file__).resolve().parents[2]
DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
KNOWN = (
    Erratum(7, "0.2.0", "0.3.1", Severity.UNSAFE, ("beam.shear",), "Shear was too low."),
    Erratum(8, "0.3.0", "0.4.0", Severity.WRONG, (), "A length was wrong."),
)


def package(folder: Path, version: str, *keys: str) -> Path:
    folder.mkdir(exist_ok=True)
    checks = [{"key": key} for key in keys]
    (folder / "results.json").write_text(json.dumps({"version": version, "checks": checks}))
    return folder


@pytest.mark.parametrize(
    ("version", "numbers"),
    [("0.1.9", []), ("0.2.0", [7]), ("0.3.0", [7, 8]), ("0.3.1", [8]), ("0.3.10", [8]), ("0.4.0", [])],
)
def test_from_the_first_version_on_up_to_the_one_that_mended_it(version, numbers, tmp_path):
    said = of_package(package(tmp_path / "p", version, "beam.shear"), KNOWN, running="1.0.0")
    assert [int(n) for n in re.findall(r"Erratum (\d+)", " ".join(said))] == numbers
    begun = of_file(f"{STAMP}{version}\nformat = 1", KNOWN, "1.0.0")
    assert [int(n) for n in re.findall(r"Erratum (\d+)", " ".join(begun))] == numbers


def test_only_where_the_package_has_such_a_check(tmp_path):
    said = of_package(package(tmp_path / "p", "0.2.5", "joist.bending"), KNOWN, running="1.0.0")
    assert said == ()
    unnamed = of_package(package(tmp_path / "p", "0.2.5"), KNOWN, running="1.0.0")
    assert "Erratum 7 (unsafe): Shear was too low." in unnamed


def test_of_the_running_version_and_of_what_is_no_package_nothing_is_said(tmp_path):
    assert of_package(package(tmp_path / "p", __version__, "beam.shear_at_bolts")) == ()
    assert of_package(tmp_path / "none") == ()
    for text in ("", "[]", "{", '{"version": 3, "checks": []}', '{"version": "0.1.0", "checks": 4}', '"a"'):
        (tmp_path / "results.json").write_text(text)
        assert of_package(tmp_path) == ()
    assert of_file("format = 2\n") == ()


def test_check_and_package_say_it_first(tmp_path, capsys, monkeypatch):
    old = tmp_path / "old.toml"
    old.write_text(f"{STAMP}0.1.0\n{DEMO.read_text(encoding='utf-8')}", encoding="utf-8")
    for told in (of_file, of_package):
        monkeypatch.setattr(told, "__defaults__", (None, "9.0.0"))
    cli.main(["check", str(old)])
    err = capsys.readouterr().err
    assert err.startswith("This project was begun with version 0.1.0, whose results had the errata below")
    assert "Erratum 1 (unsafe): Shear in a beam or post at the bolts" in err
    made = package(tmp_path / "build", "0.1.0")
    assert cli.main(["check", str(made)]) == 2
    err = capsys.readouterr().err
    assert err.startswith(f"The package in {made} was made by version 0.1.0")
    bad = tmp_path / "bad.toml"
    bad.write_text("format = 2\n")
    assert cli.main(["package", str(bad), "--out", str(made)]) == 2
    assert capsys.readouterr().err.startswith(f"The package in {made} was made by version 0.1.0")


def test_a_new_file_says_with_which_version_it_was_begun(tmp_path):
    assert cli.main(["new", str(tmp_path / "a.toml")]) == 0
    assert (tmp_path / "a.toml").read_text(encoding="utf-8").startswith(f"{STAMP}{__version__}\n")


def test_every_erratum_that_ships():
    """Numbers once, keys that exist, the worst first; none unsafe without the version that mended it."""
    numbers = [e.number for e in errata()]
    assert len(set(numbers)) == len(numbers)
    assert {key for e in errata() for key in e.checks} <= set(LIMIT_STATES)
    assert [e.number for e in errata() if e.severity is Severity.UNSAFE and not e.fixed] == []
    assert all(e.says.endswith(".") and e.says.count("\n") == 0 for e in errata())
    assert errata()[0].severity is Severity.UNSAFE


def test_the_page_names_the_severities_and_the_rule():
    page = (ROOT / "SECURITY.md").read_text(encoding="utf-8")
    assert all(f"| {severity} |" in page for severity in Severity)
    assert "No release has an open unsafe one." in page
