"""The package works from its wheel alone, in an empty folder, without the checkout."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    pip = [sys.executable, "-m", "pip", "--quiet", "--disable-pip-version-check"]
    subprocess.run([*pip, "wheel", "--no-deps", "--wheel-dir", str(folder), str(ROOT)], check=True)
    (wheel,) = folder.glob("bolewright-*.whl")
    target = folder / "site"
    subprocess.run([*pip, "install", "--no-deps", "--target", str(target), str(wheel)], check=True)
    return target


def _run(installed, folder, *arguments):
    environment = os.environ | {"PYTHONPATH": str(installed), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        [sys.executable, "-m", "bolewright.cli", *arguments],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )


def test_new_check_and_package_in_an_empty_folder(installed, tmp_path):
    assert _run(installed, tmp_path, "new", "mine.toml", "--copy-demonstration").returncode == 0
    assert _run(installed, tmp_path, "check", "mine.toml").returncode in (0, 1)
    done = _run(installed, tmp_path, "package", "mine.toml", "--out", "out")
    assert done.returncode == 0, done.stderr
    assert {path.name for path in (tmp_path / "out").iterdir()} >= {
        "package.pdf",
        "package.html",
        "results.json",
    }


def test_from_install_to_a_beam_sheet_of_ones_own(installed, tmp_path):
    """Installing is one command, this the second, of three allowed; in a notebook it takes three lines of six."""
    done = _run(
        installed, tmp_path, "part", "beam", "--span", "12 ft", "--section", "2x12", "--out", "beam.pdf"
    )
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "beam.pdf").read_bytes().startswith(b"%PDF")
    lines = """
from bolewright.part_sheets import open_part
part = open_part("beam", span="12 ft", section="2x12", live="60 plf")
part.print_to("mine.html")
"""
    environment = os.environ | {"PYTHONPATH": str(installed), "PYTHONDONTWRITEBYTECODE": "1"}
    subprocess.run([sys.executable, "-c", lines], cwd=tmp_path, env=environment, check=True)
    assert "60 plf" in (tmp_path / "mine.html").read_text("utf-8")


def test_the_wheel_brings_its_own_tables_and_sheets(installed):
    data = installed / "bolewright" / "data"
    assert list((data / "reference_tables").glob("*.csv"))
    assert list((data / "calcsheets").glob("*.ipynb"))
    assert list((data / "calcsheets").glob("*.toml"))
    assert (data / "calcsheets" / "parts" / "beam.ipynb").exists()
