"""Signs that can't be printed, turn the reading direction or hide: refused in fields, files and names, never echoed.

C0 and C1 control signs: ISO/IEC 6429; signs that turn the direction: Unicode Standard Annex 9, table 1 (embeddings,
overrides, isolates, marks).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from bolewright import cli
from bolewright.platform.file.reading import ProjectError, parse_project

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
TURNING = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
HIDING = "\u200b\u2060\ufeff\u00ad\u2028\u2029"
CONTROL = "\x80\x85\x9b\x9f\x7f"
ESCAPED = ("\\u001b", "\\u0007", "\\u0008")


@pytest.mark.parametrize("sign", [*TURNING, *HIDING, *CONTROL], ids=lambda s: f"{ord(s):04x}")
def test_refused_in_a_text_and_named_by_number(sign):
    text = DEMO.read_text(encoding="utf-8").replace('client = ""', f'client = "Ann{sign}e"')
    with pytest.raises(ProjectError) as caught:
        parse_project(text, "demo.toml")
    (said,) = caught.value.sentences
    assert sign not in said
    assert f"number {ord(sign)}" in said


@pytest.mark.parametrize("escape", ESCAPED)
def test_refused_where_the_file_writes_it_as_an_escape(escape):
    text = DEMO.read_text(encoding="utf-8").replace('client = ""', f'client = "Ann{escape}e"')
    with pytest.raises(ProjectError, match=r"title, client: .* holds a sign that can't be printed"):
        parse_project(text, "demo.toml")


@pytest.mark.parametrize("sign", [*TURNING, "\x9b"], ids=lambda s: f"{ord(s):04x}")
def test_refused_in_a_remark_too_with_its_line(sign):
    """A remark with such a sign can make the line read otherwise than it is."""
    text = DEMO.read_text(encoding="utf-8").replace('live = "60 psf"', f'live = "60 psf" # {sign}psf 04')
    line = text[: text.index(sign)].count("\n") + 1
    with pytest.raises(ProjectError, match=f"demo.toml, line {line}: .* number {ord(sign)}"):
        parse_project(text, "demo.toml")


@pytest.mark.parametrize("client", ["Zoë Müller", "نور‌الدین", "木村", "O'Neil & Co. <x>", "a\u00a0b"])
def test_names_of_people_pass(client):
    text = DEMO.read_text(encoding="utf-8").replace('client = ""', f'client = "{client}"')
    assert parse_project(text).title.client == client


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    code = cli.main(list(words))
    out, err = capsys.readouterr()
    return code, out + err


@pytest.mark.parametrize("sign", ["\x1b", "\u202e", "\x9b", "\u200b", "\n"], ids=lambda s: f"{ord(s):04x}")
def test_file_names_are_refused_and_not_echoed(sign, tmp_path, capsys):
    """On every command that takes a name; a terminal that is shown ESC or CSI obeys it."""
    there = tmp_path / f"a{sign}b.toml"
    there.write_bytes(DEMO.read_bytes())
    free = tmp_path / f"c{sign}d.toml"
    commands = (
        ["check", str(there)],
        ["package", str(there)],
        ["package", str(DEMO), "--out", str(tmp_path / f"out{sign}put")],
        ["new", str(free)],
        ["workbook", str(there), "--lay-out"],
        ["workbook", str(free), "--new", "--lay-out"],
    )
    for words in commands:
        code, said = run(capsys, *words)
        assert code == 2, words
        assert said.count("\n") == 1, words
        assert sign not in said.removesuffix("\n"), words
    assert not free.exists()
    assert not list(tmp_path.glob("out*"))


def test_arguments_are_not_echoed_raw(capsys):
    with pytest.raises(SystemExit):
        cli.main(["check", "a.toml", "--pa\x1b[31m\u202eper"])
    said = capsys.readouterr().err
    assert "\x1b" not in said
    assert "\u202e" not in said
    assert cli.main(["spans", "--species", "o\x9bak"]) == 2
    assert "\x9b" not in capsys.readouterr().err


def test_a_key_that_hides_is_shown_by_number(capsys, tmp_path):
    file: Path = tmp_path / "a.toml"
    file.write_text(
        DEMO.read_text(encoding="utf-8").replace("hardware =", '"hard\\u202eware" ='), encoding="utf-8"
    )
    code, said = run(capsys, "check", str(file))
    assert code == 2
    assert "\u202e" not in said
