"""The command ``size``: what it writes, what it says, and bad input."""

from __future__ import annotations

from pathlib import Path

import pytest
from decks import cases, text_of

from bolewright.cli import main


@pytest.fixture
def deck(tmp_path: Path) -> Path:
    file = tmp_path / "deck.toml"
    file.write_text(text_of(cases(2)[1]))
    return file


def test_the_command_writes_a_copy_and_leaves_the_file(
    deck: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before, out = deck.read_text(), deck.parent / "sized.toml"
    words = [
        "size",
        str(deck),
        "--out",
        str(out),
        "--keep",
        "J",
        "--keep",
        "C1",
        "--keep",
        "C2",
        "--keep",
        "F",
    ]
    assert main([*words, "--keep", "decking", "--budget", "30", "--jobs", "1"]) == 0
    said = capsys.readouterr().out
    assert "Everything passes at the least cost found." in said
    assert "Nobody has approved them" in said
    assert deck.read_text() == before
    assert 'section = "6x6"' in out.read_text()
    assert main(["check", str(out)]) == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--only", "2y8"], "--only: '2y8' is no size of lumber"),
        (["--keep", "C9"], "--keep: nothing in the file is called 'C9'"),
        (["--out", "."], "--out: . is a folder"),
    ],
)
def test_bad_input_gets_one_sentence(
    deck: Path, words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["size", str(deck), "--jobs", "1", *words]) == 2
    told = capsys.readouterr().err
    assert said in told
    assert "Traceback" not in told


def test_a_file_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["size", str(tmp_path / "none.toml"), "--jobs", "1"]) == 2
    assert "There is no file" in capsys.readouterr().err
