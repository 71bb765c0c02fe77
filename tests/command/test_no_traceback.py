"""Named cases that once ended in a traceback, and the last net under all others."""

import re
from pathlib import Path

import pytest

from bolewright import cli

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
BEAM = re.compile(r"\[\[beam\]\]\nmark = \"C1\".*?(?=\n\n)", re.DOTALL)


def said(tmp_path, capsys, text):
    path = tmp_path / "mine.toml"
    path.write_text(text)
    code = cli.main(["check", str(path)])
    return code, capsys.readouterr().err


@pytest.mark.parametrize("more", [0, 0.01, 0.5, 1, 1.5, 2.9, 3, 4, 6])
def test_a_beam_pasted_again_names_both_beams(tmp_path, capsys, more):
    """C1 once more, some inches on: two 2x12 are 3 in. wide and can't stand in each other."""
    text = DEMO.read_text()
    again = BEAM.search(text)[0].replace('"C1"', '"C1b"').replace('"114 in"', f'"{114 + more} in"')
    code, err = said(tmp_path, capsys, text.replace("[[joists]]", f"{again}\n\n[[joists]]"))
    assert code == 2
    assert "C1b" in err
    assert "Traceback" not in err


@pytest.mark.parametrize("more", [0, 1, 2.5, 4])
def test_joists_hang_between_no_two_beams_that_touch(tmp_path, capsys, more):
    """S2 of the hung deck once more: between the faces of two beams 4 in. on centre and 3 in. wide lies 1 in."""
    from bolewright.platform.layout.layout import LayoutError
    from bolewright.platform.layout.lines import Line
    from bolewright.platform.layout.overlaps import check_room
    from bolewright.platform.layout.parts import Bearing, Kind, Member, Seat
    from bolewright.timber.sections import parse_section

    def beam(mark, x):
        return Member(
            mark,
            Kind.BEAM,
            Line((x, 0.0), (0.0, 1.0), 120.0),
            None,
            parse_section("2x10").of_plies(2),
            1,
            (Seat(0.0, "P", 0.0, Bearing.RESTS, (x, 0.0)), Seat(120.0, "Q", 0.0, Bearing.RESTS, (x, 120.0))),
            60.0,
        )

    length = 3.0 + more
    joist = Member(
        "J1",
        Kind.JOIST,
        Line((0.0, 60.0), (1.0, 0.0), length),
        None,
        parse_section("2x8"),
        0,
        (
            Seat(0.0, "A", 60.0, Bearing.HANGS, (0.0, 60.0)),
            Seat(length, "B", 60.0, Bearing.HANGS, (length, 60.0)),
        ),
        60.0,
    )
    parts = [joist, beam("A", 0.0), beam("B", length)]
    if more >= 1:
        check_room(parts)
    else:
        with pytest.raises(LayoutError, match=r"^J1 has no room between A and B"):
            check_room(parts)


def test_a_joist_field_that_names_a_beam_twice(tmp_path, capsys):
    code, err = said(
        tmp_path, capsys, DEMO.read_text().replace('hanger = "HJ"', 'hanger = "HJ"\nbeams = ["S1", "S1"]')
    )
    assert code == 2
    assert "joists J, beams: 'S1' is named more than once" in err


@pytest.mark.parametrize("name", ["NOPE", "F22"])
def test_a_footing_of_a_tree_bolt(tmp_path, capsys, name):
    text = DEMO.read_text().replace('mark = "T1"', f'mark = "T1"\nfooting = "{name}"')
    code, err = said(tmp_path, capsys, text)
    assert code == 2
    assert "support T1, footing: T1 is a tree bolt, which takes no footing" in err


def test_a_corner_given_twice(tmp_path, capsys):
    text = DEMO.read_text().replace('["26 in", "18 in"],', '["26 in", "18 in"], ["26 in", "18.01 in"],')
    code, err = said(tmp_path, capsys, text)
    assert code == 2
    assert "platform, outline, corner 3: it is the same point as corner 2" in err


def test_a_sign_that_turns_the_reading_direction_is_not_echoed(tmp_path, capsys):
    code, err = said(tmp_path, capsys, DEMO.read_text().replace('"bur oak"', "\u202ebur oak"))
    assert code == 2
    assert "\u202e" not in err


def test_the_last_net_says_one_sentence_and_saves_a_report(tmp_path, capsys, monkeypatch):
    def broken(text, name):
        raise ZeroDivisionError("of nobody's making")

    monkeypatch.setattr("bolewright.platform.file.reading.parse_project", broken)
    monkeypatch.chdir(tmp_path)
    for number in (1, 2):
        assert cli.main(["check", str(DEMO)]) == 3
        err = capsys.readouterr().err
        report = tmp_path / f"bolewright-fault-{number}.txt"
        assert err.count("\n") == 1
        assert str(report) in err
        assert "Traceback" not in err
        assert "ZeroDivisionError: of nobody's making" in report.read_text()
        assert "command: bolewright check" in report.read_text()


def test_a_net_with_no_place_to_write(tmp_path, capsys, monkeypatch):
    def full(*given, **named):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("bolewright.platform.file.reading.read_text", lambda path: 1 / 0)
    monkeypatch.setattr("bolewright.unforeseen.Path.open", full)
    monkeypatch.chdir(tmp_path)
    assert cli.main(["check", str(DEMO)]) == 3
    assert "no report could be saved" in capsys.readouterr().err


@pytest.mark.parametrize("folder", ["", " "])
def test_a_package_into_a_folder_without_a_name(tmp_path, capsys, monkeypatch, folder):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as stopped:
        cli.main(["package", str(DEMO), "--out", folder])
    assert stopped.value.code == 2
    assert "is no folder: a name such as build is wanted" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_list_of_files_with_its_brackets_too_deep(tmp_path, capsys, monkeypatch):
    """The list of an earlier package is read before the sheets run, not a minute later."""
    (tmp_path / "build").mkdir()
    (tmp_path / "build/files.json").write_text("[" * 200_000)
    monkeypatch.chdir(tmp_path)
    assert cli.main(["package", str(DEMO)]) == 2
    said = capsys.readouterr()
    assert "build/files.json is no list of a package's files" in said.err
    assert "Sheet 1" not in said.out


def test_a_package_into_the_folder_one_works_in(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert cli.main(["package", str(DEMO), "--out", "."]) == 2
    assert "no folder of the package's own" in capsys.readouterr().err


def test_every_rating_that_a_file_may_hold_has_a_load_beyond_which_it_is_asked_about():
    """A joist's edge_load in a file stopped ``check`` with a KeyError."""
    from bolewright.platform.file.ratings import PLAUSIBLE, RATINGS

    assert {key for keys in RATINGS.values() for key in keys} == set(PLAUSIBLE)
