"""Command lines, files and folders that can't be used: one plain sentence each, exit 2, and nothing made."""

from __future__ import annotations

import os
import re
import socket
from pathlib import Path

import pytest

from bolewright.cli import main
from bolewright.platform.file.reading import ProjectError, read_project

DEMO = str(Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml")


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """The one sentence of a command that is refused."""
    try:
        code = main(arguments)
    except SystemExit as stopped:
        code = stopped.code
    assert code == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    assert re.search(r"[^.]\.\n$", said.err)
    assert "Traceback" not in said.err
    assert "usage:" not in said.err
    return said.err


@pytest.fixture(autouse=True)
def _in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize(
    ("arguments", "parts"),
    [
        (
            [],
            [
                "a command is wanted",
                "package, check, size, verify, compare, update, propose, new, workbook, spans or part",
            ],
        ),
        (["chek"], ["no command 'chek'", "the nearest is check", "spans"]),
        (["check"], ["bolewright check: FILE is wanted", "bolewright check --help"]),
        (["check", "a.toml", "b.toml"], ["'b.toml' is one argument too many", "quotes"]),
        (["check", "--jsn", "a.toml"], ["no option --jsn", "the nearest is --json"]),
        (["part", "beam", "--spn", "10 ft"], ["no option --spn", "the nearest is --span"]),
        (
            ["part", "tree-bolt", "--species", "oak"],
            ["no option --species. bolewright part tree-bolt --help"],
        ),
        (["part", "hanger", "--rating", "500 lb"], ["no option --rating. bolewright part hanger --help"]),
        (["check", "--json=1", "a.toml"], ["--json takes no value"]),
        (["package", DEMO, "--paper", "a5"], ["--paper is 'a5'", "letter or a4 is wanted"]),
        (["package", DEMO, "--out"], ["--out wants a value after it"]),
        (["package", DEMO, "--sheets", "nowhere"], ["--sheets", "no calc sheets", "nowhere"]),
        (["workbook", "--port", "x"], ["--port: 'x' is no port", "1 to 65535"]),
        (["workbook", "--port", "-5"], ["--port: '-5' is no port", "1 to 65535"]),
        (["workbook", "--port", "70000"], ["--port: '70000' is no port"]),
        (["workbook", "--p", "x"], ["--p may mean --page, --phone or --port"]),
        (["spans", "--of", "tables"], ["--of is 'tables'", "joists, beams or posts is wanted"]),
        (["spans", "--live-limit", "x"], ["--live-limit is 'x', but a number such as 360 is wanted"]),
        (["spans", "--spacings", "16"], ["--spacings: '16' has no unit"]),
        (["check", "nowhere.toml"], ["There is no file nowhere.toml"]),
        (["check", "."], ["is a folder"]),
        (["check", "x" * 300], ["can't be read", "too long"]),
        (["package", "x" * 300], ["can't be read", "too long"]),
        (["workbook", "x" * 300], ["can't be opened", "too long"]),
        (["new", "x" * 300], ["can't be opened", "too long"]),
        (["workbook", "nope/nope.toml"], ["no folder nope for nope.toml"]),
        (["workbook", "."], ["is a folder", "mine.toml"]),
        (["new", "nope/nope.toml"], ["no folder nope for nope.toml"]),
        (["new", "."], ["is a folder", "mine.toml"]),
        (["package", DEMO, "--out", "x" * 300], ["--out", "can't be written", "too long"]),
    ],
)
def test_arguments_that_make_no_sense(
    arguments: list[str], parts: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    said = refused(capsys, *arguments)
    assert [part for part in parts if part not in said] == [], said
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("out", ["afile", "afile/sub", "afile/sub/sub"])
def test_a_file_in_the_way_of_the_package(
    out: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "afile").write_text("mine")
    said = refused(capsys, "package", DEMO, "--out", out)
    assert said.startswith(f"bolewright package: --out: the folder {out} can't be written: ")
    assert "afile is a file" in said
    assert (tmp_path / "afile").read_text() == "mine"
    assert len(list(tmp_path.iterdir())) == 1


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_may_not_be_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    tmp_path.chmod(0o500)
    try:
        said = refused(capsys, "package", DEMO, "--out", "build")
    finally:
        tmp_path.chmod(0o700)
    assert "bolewright package: --out: the folder build can't be written: Permission denied." in said


@pytest.mark.parametrize("command", ["check", "package", "workbook"])
@pytest.mark.parametrize("kind", ["fifo", "socket", "utf-16", "binary", "huge"])
def test_files_that_are_no_text(
    command: str, kind: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "it"
    if kind == "fifo":
        os.mkfifo(path)  # read as a file it would never end
    elif kind == "socket":
        socket.socket(socket.AF_UNIX).bind("it")
    elif kind == "huge":
        with path.open("wb") as file:
            file.truncate(50_000_000)
    else:
        path.write_bytes("format = 2".encode("utf-16") if kind == "utf-16" else b"\x89PNG\r\n\x1a\n\0\0")
    said = refused(capsys, command, "it")
    assert {"fifo": "no ordinary file", "socket": "no ordinary file", "huge": "larger than 1 MB"}.get(
        kind, "not a text file in UTF-8"
    ) in said
    assert [entry.name for entry in tmp_path.iterdir()] == ["it"]


def test_a_path_with_a_sign_no_path_has() -> None:
    with pytest.raises(ProjectError, match="number 0: give it another name"):
        read_project(Path("a\0b.toml"))


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (
            ["lokout.toml"],
            ["There is no file lokout.toml", "the nearest is lookout.toml", "lokout.toml --new"],
        ),
        (["lookout"], ["the nearest is lookout.toml"]),
        (["lookout.toml", "--new"], ["lookout.toml exists already", "leave --new out"]),
    ],
)
def test_a_mistyped_project_is_not_started_silently(
    arguments: list[str], words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "lookout.toml").write_text("mine")
    said = refused(capsys, "workbook", *arguments)
    assert all(word in said for word in words), said
    assert [path.name for path in tmp_path.iterdir()] == ["lookout.toml"]


@pytest.mark.parametrize("arguments", [["beech.toml"], ["lokout.toml", "--new"]])
def test_a_new_project_says_that_it_is_one(
    arguments: list[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    (tmp_path / "lookout.toml").write_text("mine")
    started = []
    monkeypatch.setattr("bolewright.workbook.launch.run", lambda start: started.append(start) or 0)
    assert main(["workbook", *arguments]) == 0
    said = capsys.readouterr().out
    assert said == f"{arguments[0]} did not exist: a new project is started there, empty.\n"
    assert len(started) == 1
