"""The package works from its wheel alone, in an empty folder, without the checkout."""

import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest

ROOT = Path(__file__).resolve().parents[2]
SMALL = ROOT / "tests" / "platform" / "arrangements" / "one_tree_one_post.toml"


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
    shutil.copy(SMALL, tmp_path / "small.toml")
    done = _run(installed, tmp_path, "package", "small.toml", "--out", "out")
    assert done.returncode == 0, done.stderr
    assert {path.name for path in (tmp_path / "out").iterdir()} >= {
        "package.pdf",
        "package.html",
        "results.json",
    }


def test_from_install_to_a_beam_sheet_of_ones_own(installed, tmp_path):
    """README's own words: installing is one command, this the second, of three; in a notebook two lines of six."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    command = next(
        line for line in readme.splitlines() if "bolewright part beam --span" in line and "--out" in line
    )
    words = shlex.split(command, comments=True)
    program = shutil.which("bolewright", path=installed / "bin")  # the command that installing puts there
    assert program, list((installed / "bin").iterdir())
    environment = os.environ | {"PYTHONPATH": str(installed), "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(
        [program, *words[1:]], cwd=tmp_path, env=environment, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert "This part under the loads typed" in done.stdout
    assert [path.name for path in tmp_path.iterdir()] == ["beam.pdf"]
    text = "".join(page.extract_text() for page in pypdf.PdfReader(tmp_path / "beam.pdf").pages)
    assert "12 ft" in text
    assert "60 plf" in text
    (tmp_path / "beam.pdf").unlink()
    lines = [line.strip() for line in readme.splitlines() if "open_part" in line]
    assert len(lines) == 2
    subprocess.run([sys.executable, "-c", "\n".join(lines)], cwd=tmp_path, env=environment, check=True)
    text = "".join(page.extract_text() for page in pypdf.PdfReader(tmp_path / "beam.pdf").pages)
    assert "60 plf" in text
    assert "12 ft" in text


def test_the_wheel_brings_its_own_tables_and_sheets(installed):
    data = installed / "bolewright" / "data"
    assert list((data / "reference_tables").glob("*.csv"))
    assert list((data / "calcsheets").glob("*.ipynb"))
    assert list((data / "calcsheets").glob("*.toml"))
    assert (data / "calcsheets" / "parts" / "beam.ipynb").exists()
