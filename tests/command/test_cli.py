"""The commands as a user runs them: exit codes, sentences, files."""

import json
import os
import re
import stat
import tomllib
from pathlib import Path

import pytest

from bolewright.cli import main
from bolewright.paths import shipped
from bolewright.workbook.schema import sections

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
TOO_SMALL = shipped("calcsheets") / "lookout_too_small.toml"


def test_check_of_the_failing_twin_says_so_and_exits_1(capsys):
    assert main(["check", str(TOO_SMALL)]) == 1
    said = capsys.readouterr().out
    assert "checks fail" in said
    table = [line for line in said.splitlines() if line.split(" ")[0] in ("FAIL", "OPEN", "ok")]
    assert table[0].startswith("FAIL")


def test_check_prints_json(capsys):
    main(["check", "--json", str(DEMO)])
    data = json.loads(capsys.readouterr().out)
    assert data["schema"] == "bolewright results 2"
    assert {
        "part",
        "limit_state",
        "demand",
        "capacity",
        "unit",
        "ratio",
        "combination",
        "clause",
        "status",
    } <= set(data["checks"][0])


@pytest.mark.parametrize("command", ["check", "package"])
@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"not toml [", "TOML"),
        (b"\xff\xfe\x00", "UTF-8"),
        (b"", "is empty"),
        (b"format = 3", "format"),
    ],
)
def test_a_bad_file_gets_sentences_and_exit_2(command, content, says, tmp_path, capsys):
    path = tmp_path / "bad.toml"
    path.write_bytes(content)
    out = ["--out", str(tmp_path / "out")] if command == "package" else []
    assert main([command, str(path), *out]) == 2
    said = capsys.readouterr()
    assert says in said.err
    assert "Traceback" not in said.err
    assert said.out == ""
    assert not (tmp_path / "out").exists()


def test_a_folder_and_a_missing_file_are_named(tmp_path, capsys):
    assert main(["check", str(tmp_path)]) == 2
    assert "is a folder" in capsys.readouterr().err
    assert main(["check", str(tmp_path / "none.toml")]) == 2
    assert "There is no file" in capsys.readouterr().err


def test_package_into_a_path_that_is_a_file(tmp_path, capsys):
    blocked = tmp_path / "build"
    blocked.write_text("a file")
    assert main(["package", str(DEMO), "--out", str(blocked)]) == 2
    assert "can't be written" in capsys.readouterr().err
    assert blocked.read_text() == "a file"


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_package_into_a_folder_without_write_permission(tmp_path, capsys):
    tmp_path.chmod(stat.S_IRUSR | stat.S_IXUSR)
    try:
        assert main(["package", str(DEMO), "--out", str(tmp_path / "build")]) == 2
    finally:
        tmp_path.chmod(stat.S_IRWXU)
    assert "can't be written" in capsys.readouterr().err


def test_new_starts_a_file_that_checks_and_never_overwrites(tmp_path, capsys):
    path = tmp_path / "mine.toml"
    assert main(["new", str(path), "--copy-demonstration"]) == 0
    assert main(["check", str(path)]) == main(["check", str(shipped("calcsheets") / "lookout.toml")])
    path.write_text("my work")
    assert main(["new", str(path)]) == 2
    assert path.read_text() == "my work"


def test_new_starts_empty_and_check_names_what_to_give(tmp_path, capsys):
    path = tmp_path / "mine.toml"
    assert main(["new", str(path)]) == 0
    given = tomllib.loads(path.read_text(encoding="utf-8"))
    assert {key: value for key, value in given.items() if value not in ({}, [{}])} == {
        "format": given["format"]
    }
    capsys.readouterr()
    assert main(["check", str(path)]) == 2
    said = capsys.readouterr().err.splitlines()
    for key in (
        "site, frost_depth",
        "loads, live",
        "platform, outline",
        "platform, floor_height",
        "support no. 1, at",
    ):
        assert any(f"{key}: this key is missing and must be given: " in line for line in said), key


def test_an_empty_project_names_every_key_of_its_sections(tmp_path):
    """Each key as a remark: with all remarks of a section's keys taken away, the model knows every one."""
    path = tmp_path / "mine.toml"
    assert main(["new", str(path)]) == 0
    text = path.read_text(encoding="utf-8")
    for section in (s for s in sections() if s.needed):
        part = text.partition(f"[{section.key}]")[2].partition("\n\n")[0]
        keys = set(re.findall(r"(?m)^#(\w+) = ", part))
        assert keys == {field.key for field in section.fields}, section.key


def test_wrong_usage_exits_2():
    with pytest.raises(SystemExit) as stopped:
        main(["package"])
    assert stopped.value.code == 2


def test_spans_runs_from_the_command_line(capsys):
    assert main(["spans", "--sizes", "2x8", "--spacings", "16 in"]) == 0
    assert "11-10" in capsys.readouterr().out  # AWC DCA 6 (2015) Table 2: Southern Pine 2x8 at 16 in.


def test_main_takes_its_own_arguments_by_default(monkeypatch, capsys):
    monkeypatch.setattr("sys.argv", ["bolewright", "check", str(Path("nowhere.toml"))])
    assert main() == 2
