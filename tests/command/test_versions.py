"""A fresh install next year gives the same program: every version pinned, every package with a reason and a licence."""

from __future__ import annotations

import importlib.metadata
import re
import tomllib
from pathlib import Path

import pytest
from packaging.markers import Marker
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
WANTED = [Requirement(text) for text in PROJECT["dependencies"]]
TESTS = [Requirement(text) for extra in PROJECT["optional-dependencies"].values() for text in extra]
PINS = {
    canonicalize_name(name): Version(version)
    for name, _, version in (
        line.partition("==")
        for line in (ROOT / "binder" / "constraints.txt").read_text(encoding="utf-8").splitlines()
        if line and not line.startswith("#")
    )
}
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")

# By SPDX names or the classifiers' words. MPL-2.0 asks only that changed files of it stay open: none is changed here.
ALLOWED = re.compile(
    r"0BSD|MIT(-0|-CMU)?( License)?|BSD([ -].*)?|Apache.*|ISC.*|PSF.*|Python Software Foundation License|"
    r"Zlib|CC0-1\.0|MPL-2\.0|Mozilla Public License 2\.0.*|dependency licenses"
)
GPL_IN_TESTS = {"anastruct"}  # compared with in tests, never shipped nor imported by the program


@pytest.mark.parametrize("requirement", [*WANTED, *TESTS], ids=lambda r: r.name)
def test_every_dependency_is_pinned_has_a_reason_and_fits(requirement):
    pin = PINS[canonicalize_name(requirement.name)]
    assert pin in requirement.specifier
    assert f"| `{requirement.name}` | " in DEVELOPERS


def test_the_table_names_nothing_else():
    rows = re.findall(r"^\| `([\w-]+)` \| [^|]+ \| [^|]+ \|$", DEVELOPERS, re.MULTILINE)
    assert sorted(rows) == sorted(r.name for r in (*WANTED, *TESTS))


def _installs(marker: Marker | None, extras: set[str]) -> bool:
    return marker is None or any(marker.evaluate({"extra": extra}) for extra in (extras or {""}))


def test_nothing_that_is_installed_floats():
    """Everything that the dependencies pull in on this machine is pinned."""
    seen: set[str] = set()
    queue = [*WANTED, *TESTS]
    for requirement in queue:
        name = canonicalize_name(requirement.name)
        if name in seen:
            continue
        seen.add(name)
        for text in importlib.metadata.requires(name) or ():
            inner = Requirement(text)
            if _installs(inner.marker, requirement.extras):
                queue.append(inner)
    assert seen <= set(PINS) | {"pip", "setuptools"}


@pytest.mark.parametrize("name", sorted(PINS))
def test_licence(name):
    try:
        meta = importlib.metadata.metadata(name)
    except importlib.metadata.PackageNotFoundError:
        pytest.skip("not installed here")
    classified = [
        c.rpartition("::")[2].strip() for c in meta.get_all("Classifier") or () if "License ::" in c
    ]
    given = meta.get("License-Expression") or "; ".join(c for c in classified if c != "OSI Approved")
    given = given or (meta.get("License") or "").splitlines()[0]
    parts = [part.strip(" ()") for part in re.split(r" AND | OR |; |, (?!Version)", given)]
    assert given
    if name in GPL_IN_TESTS:
        assert name not in {canonicalize_name(r.name) for r in WANTED}
        return
    assert [part for part in parts if not ALLOWED.fullmatch(part)] == []


def test_both_commands_of_the_readme_use_the_pins_and_any_python():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    install = next(line for line in readme.splitlines() if "pip install" in line)
    assert "-c binder/constraints.txt" in install
    assert "python3 -m venv" in install
    gate = (ROOT / "tests" / "run").read_text(encoding="utf-8")
    assert "bash tests/run" in readme
    assert "--constraint binder/constraints.txt" in gate
    assert "python3.11 -m venv" not in gate
    assert "-c constraints.txt" in (ROOT / "binder" / "requirements.txt").read_text(encoding="utf-8")
