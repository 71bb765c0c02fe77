"""Every example project file that ships passes all of its checks, but for the one made to fail."""

import json

import pytest

from bolewright.cli import main
from bolewright.paths import shipped

MADE_TO_FAIL = "lookout_too_small.toml"
EXAMPLES = sorted(p for p in shipped("calcsheets").glob("*.toml") if p.name != MADE_TO_FAIL)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_check_of_an_example_exits_0(path, capsys):
    assert main(["check", str(path)]) == 0
    assert "checks pass" in capsys.readouterr().out


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_package_of_an_example_says_that_every_check_passes(path, tmp_path):
    assert main(["package", str(path), "--out", str(tmp_path)]) == 0
    checks = json.loads((tmp_path / "results.json").read_text(encoding="utf-8"))["checks"]
    assert len(checks) > 100
    assert [c for c in checks if c["status"] != "passes"] == []
    assert all(c["ratio"] <= 1 for c in checks)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_an_example_says_that_it_is_a_demonstration(path):
    text = path.read_text(encoding="utf-8")
    assert "A DEMONSTRATION of the workbook, not a design" in text
    assert "invented" in text
