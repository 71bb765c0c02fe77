"""Parts that follow each other: places by hand (plane geometry), the same answers as in numbers, faults in words."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import pytest

from bolewright.cli import main
from bolewright.platform.file.follow import follow, relations, renamed
from bolewright.platform.file.reading import ProjectError, find_faults, parse_project, parse_toml
from bolewright.platform.results.results import find_results, to_json
from bolewright.workbook.draft import Draft

LOOKOUT = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(
    encoding="utf-8"
)
FIELD = {
    "platform": {"outline": [["0 in", "0 in"], ["120 in", "0 in"], ["120 in", "80 in"], ["0 in", "80 in"]]},
    "tree": [{"mark": "OAK", "at": ["60 in", "200 in"]}],
    "support": [
        {"mark": "P1", "at": ["30 in", "40 in"]},
        {"mark": "P2", "at": ["90 in", "40 in"]},
        {"mark": "P3", "at": "middle of P1 and P2, 24 in along y"},
    ],
    "beam": [
        {"mark": "C1", "from": ["10 in", "40 in"], "to": ["110 in", "40 in"]},
        {"mark": "S1", "from": ["60 in", "10 in"], "to": ["90 in", "50 in"]},  # 3-4-5: 30 right, 40 up
    ],
}


def place_of(words: str, key: str = "beam", name: str = "from"):
    """Where a part would lie that says this."""
    data = {**FIELD, key: [*FIELD[key], {"mark": "X", name: words}]}
    _, found, wrong = follow(data)
    assert not wrong, wrong
    return next(f.place for f in found if f.where == (key, len(FIELD[key]), name))


@pytest.mark.parametrize(
    ("words", "place"),
    [
        ("on P1", (30, 40)),
        ("on OAK", (60, 200)),
        ("start of C1", (10, 40)),
        ("end of S1", (90, 50)),
        ("corner 3", (120, 80)),
        ("middle of P1 and P2", (60, 40)),
        ("middle of corner 1 and end of C1", (55, 20)),
        ("middle of edge 2", (120, 40)),
        ("on P3", (60, 64)),  # itself by others
        ("crossing of C1 and S1", (82.5, 40)),  # S1: 30 up of its 40, so 30 x 30/40 = 22.5 right
        ("crossing of edge 1 and S1", (52.5, 0)),  # carried on backwards
        ("edge 3 at 24 in", (96, 80)),  # from corner 3 towards corner 4
        ("on P1, 6 in toward P2", (36, 40)),
        ("on P1, 6 in away from P2", (24, 40)),
        ("on P1, 12 in along S1", (37.2, 49.6)),
        ("on P1, 1 ft along S1, 5 in right of S1", (37.2 + 4, 49.6 - 3)),
        ("on P1, 5 in left of S1", (26, 43)),
        ("on P1, -5 in left of S1", (34, 37)),
        ("middle of edge 1, 12 in inside edge 1", (60, 12)),
        ("middle of edge 4, 12 in inside edge 4", (12, 40)),
        ("corner 2, 3 in along x, 1 1/2 in along y", (123, 1.5)),
    ],
)
def test_a_place_by_hand(words, place):
    assert place_of(words) == pytest.approx(place, abs=1e-12)


def test_inside_is_the_same_side_however_the_outline_runs():
    turned = {**FIELD, "platform": {"outline": FIELD["platform"]["outline"][::-1]}}
    beam = [*FIELD["beam"], {"mark": "X", "from": "middle of edge 3, 12 in inside edge 3"}]
    found = follow({**turned, "beam": beam})[1]
    (place,) = [f.place for f in found if f.where[0] == "beam"]
    assert place == pytest.approx((60, 12))  # edge 3 runs from (120, 0) to (0, 0) now


@pytest.mark.parametrize(
    ("direction", "words", "distance"),
    [
        ("0 deg", "in line with P1", 40.0),
        ("0 deg", "in line with corner 3, -2 in along y", 78.0),
        ("90 deg", "in line with P1", -30.0),  # counted along minus x
        ("-90 deg", "in line with P1", 30.0),
        ("45 deg", "in line with P1", (40 - 30) / math.sqrt(2)),
    ],
)
def test_a_line_of_joists_in_line_with_something(direction, words, distance):
    data = {**FIELD, "joists": [{"mark": "J", "direction": direction, "first": words}]}
    found = [f for f in follow(data)[1] if f.where[0] == "joists"]
    assert found[0].place == pytest.approx(distance, abs=1e-9)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("on Q9", "no support or tree of the file has the mark Q9"),
        ("start of P1", "no beam or diagonal of the file has the mark P1"),
        ("corner 9", "the outline has corners 1 to 4, not 9"),
        ("edge 0 at 2 in", "the outline has corners 1 to 4, not 0"),
        ("crossing of C1 and edge 1", "run the same way and never cross"),
        ("on P1, 6 in toward P1", "there is no direction to P1"),
        ("on P1, 6 in laterally", "is no step from a place"),
        ("on P1, 6 along x", "6"),
        ("on P1, 40 psf along x", "40 psf"),
        ("middle of P1", "no beam or diagonal of the file has the mark P1"),
        ("on", "is no place"),
        ("start of X", "it goes round in a circle: beam X from -> beam X from"),
    ],
)
def test_what_is_wrong_gets_one_sentence(words, says):
    data = {**FIELD, "beam": [*FIELD["beam"], {"mark": "X", "from": words, "to": ["1 in", "2 in"]}]}
    changed, _, wrong = follow(data)
    assert len(wrong) == 1
    assert wrong[0][0] == ("beam", 2, "from")
    assert says in wrong[0][1]
    assert "\n" not in wrong[0][1]
    assert changed["beam"][2]["from"] == words


def test_a_circle_of_three_is_told_with_its_chain():
    beams = [
        {"mark": "A", "from": "end of B", "to": ["1 in", "1 in"]},
        {"mark": "B", "from": ["0 in", "0 in"], "to": "start of C, 2 in along x"},
        {"mark": "C", "from": "start of A", "to": ["1 in", "1 in"]},
    ]
    wrong = follow({**FIELD, "beam": beams})[2]
    assert len(wrong) == 3
    assert "beam A from -> beam B to -> beam C from -> beam A from" in wrong[0][1]


def test_data_without_relations_is_given_back_as_it_is():
    data = parse_toml(LOOKOUT, "x")
    assert follow(data)[0] is data
    assert list(relations(data)) == []


BY_OTHERS = (  # what stands in the demonstration, and the same said by other parts
    ('from = ["-54 11/16 in", "114 in"]', 'from = "on P1, 18 11/16 in away from P2"'),
    ('to = ["68 1/2 in", "114 in"]', 'to = "on P2, 20 1/2 in away from P1"'),
    ('first = "20 in"           # y of the first joist', 'first = "in line with corner 2, 2 in along y"'),
    ('last = "132 in"', 'last = "in line with corner 3, -2 in along y"'),
)


def by_others() -> str:
    text = LOOKOUT
    for old, new in BY_OTHERS:
        assert old in text, old
        text = text.replace(old, new)
    return text


def without_input(results: str) -> dict:
    return {key: value for key, value in json.loads(results).items() if key != "input"}


def test_the_same_platform_said_by_relations_gives_the_same_results():
    one, other = (without_input(to_json(find_results(parse_project(t)), t)) for t in (LOOKOUT, by_others()))
    assert one == other


def test_what_hangs_on_the_posts_moves_with_them():
    """Both posts 10 in. to the right: the beam's ends, 10 in. to the right."""
    text = by_others().replace('at = ["-36 in", "114 in"]', 'at = ["-26 in", "114 in"]')
    text = text.replace('at = ["48 in", "114 in"]', 'at = ["58 in", "114 in"]')
    project = find_faults(parse_toml(text, "x"))[0]
    before = parse_project(LOOKOUT)
    assert project is not None
    moved, old = (next(c for c in p.beams if c.mark == "C1") for p in (project, before))
    assert moved.start == pytest.approx((old.start[0] + 10, old.start[1]))
    assert moved.end == pytest.approx((old.end[0] + 10, old.end[1]))


def test_a_fault_names_its_line():
    text = by_others().replace('"on P1, 18 11/16 in away from P2"', '"on P7, 18 11/16 in away from P2"')
    line = next(i for i, row in enumerate(text.splitlines(), 1) if "on P7" in row)
    with pytest.raises(ProjectError) as caught:
        parse_project(text, "mine.toml")
    (sentence,) = caught.value.sentences
    assert sentence.startswith(f"mine.toml, line {line}: beam C1, from: ")
    assert "no support or tree of the file has the mark P7" in sentence


def test_explain_shows_what_was_worked_out(tmp_path, capsys):
    path = tmp_path / "mine.toml"
    path.write_text(by_others(), encoding="utf-8")
    main(["check", str(path), "--explain", "C1"])
    said = capsys.readouterr().out
    assert re.search(r"from = on P1, 18 11/16 in away from P2, that is x -4' 6 11/16\", y 9' 6\"", said), said
    assert "C1 lies from x -4' 6 11/16\"" in said
    assert main(["check", str(path), "--explain", "C77"]) == 2
    assert "no part has the mark C77" in capsys.readouterr().err
    main(["check", str(path), "--explain", "J3"])
    assert "joists J" in capsys.readouterr().out


def test_the_form_keeps_shows_and_renames_it():
    draft = Draft(LOOKOUT)
    row = next(i for i, part in enumerate(draft.data["beam"]) if part["mark"] == "C1")
    where = ("beam", row, "from")
    draft.type(where, "on P1, 18 11/16 in away from P2")
    assert draft.shown(where) == "on P1, 18 11/16 in away from P2"
    assert draft.project is not None
    assert draft.understood(where).startswith("x -4' 6 11/16\"")
    post = next(i for i, part in enumerate(draft.data["support"]) if part["mark"] == "P2")
    draft.rename("support", post, "EAST")
    assert draft.shown(where) == "on P1, 18 11/16 in away from EAST"
    assert draft.project is not None
    draft.type(where, "on P1, 18 11/16 in away from NOBODY")
    assert "no support or tree" in draft.message(where)
    assert draft.shown(where) == "on P1, 18 11/16 in away from NOBODY"


def test_another_mark_that_begins_alike_is_not_renamed():
    assert (
        renamed("middle of P1 and P12, 2 in along P1-a", "P1", "Q") == "middle of Q and P12, 2 in along P1-a"
    )
