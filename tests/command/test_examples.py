"""Nothing fails in an example project file that ships, but for the one made to fail; only the guard is open."""

import json

import pytest

from bolewright.cli import main
from bolewright.paths import shipped

MADE_TO_FAIL = "lookout_too_small.toml"
EXAMPLES = sorted(p for p in shipped("calcsheets").glob("*.toml") if p.name != MADE_TO_FAIL)


# Hand calculation and frame model differ by more than 0.05 in these, so their rows are open: not yet settled.
OPEN_BY_COMPARISON = {
    # By hand a board that ends 7 in. past J4, with J5 13 in. on, brings 300 (13 + 7)/13 = 461.5 lb to J4 a depth off
    # its seat, as the hand calculation has it; the frame model's strips of 6 in. end to either side of that place.
    "hickory_perch": "shear of J4 to J6 under one person at a tapering edge",
}


def _marked(path):
    why = OPEN_BY_COMPARISON.get(path.stem)
    return pytest.param(path, marks=[pytest.mark.xfail(strict=True, reason=why)] if why else [], id=path.stem)


@pytest.mark.parametrize("path", [_marked(path) for path in EXAMPLES])
def test_nothing_of_an_example_fails_and_the_guard_alone_is_open(path, capsys):
    """Exit 1 means that it is not done: nothing calculates yet what a guard lays on the framing."""
    assert main(["check", str(path), "--json"]) == 1
    data = json.loads(capsys.readouterr().out)
    assert len(data["checks"]) > 100
    left = [(c["key"], c["part"], c["ratio"]) for c in data["checks"] if c["status"] != "passes"]
    assert [key for key, _, _ in left] == ["platform.guard"], left


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_no_check_of_an_example_fails(path, capsys):
    main(["check", str(path), "--json"])
    data = json.loads(capsys.readouterr().out)
    assert not [(c["key"], c["part"], c["ratio"]) for c in data["checks"] if c["status"] == "fails"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_the_verdict_of_an_example_says_that_it_is_a_demonstration_and_what_it_rests_on(path, capsys):
    main(["check", str(path)])
    said = capsys.readouterr().out
    for words in (
        "A demonstration: place, tree, loads and ratings are invented",
        "By calculation:",
        "By ratings that were typed into the file",
        "Not calculated:",
        "not an approval",
    ):
        assert words in said
    assert "checks pass" not in said


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_an_example_says_that_it_is_a_demonstration(path):
    text = path.read_text(encoding="utf-8")
    assert "A DEMONSTRATION of the workbook, not a design" in text
    assert "invented" in text
