"""Files of format 1: what is said of them, and ``bolewright update``, which loses nothing and changes no ratio."""

from __future__ import annotations

import os
import re
import shutil
import tomllib
from pathlib import Path

import pytest
from old_ratios import OLD, ratios, stored, twin

from bolewright.changes.update import update, updated
from bolewright.cli import main
from bolewright.platform.file.format_1 import KEYS, TABLES, renamed
from bolewright.platform.file.reading import ProjectError, parse_project, read_project

every_old_file = pytest.mark.parametrize("old", OLD, ids=lambda path: path.stem)
LOOKOUT = next(path for path in OLD if path.stem == "lookout")


@every_old_file
def test_every_ratio_is_what_it_was(old, tmp_path):
    """To 1e-9, against the ratios stored with the words of format 1 (and made again from the files of format 2)."""
    file = Path(shutil.copy(old, tmp_path))
    update(file)
    before = stored()[old.stem]
    after = ratios(read_project(file))
    assert len(before) > 100
    assert [row[:3] for row in before] == [list(row[:3]) for row in after]
    for then, now in zip(before, after, strict=True):
        assert now[3] == (then[3] if then[3] is None else pytest.approx(then[3], rel=1e-9, abs=1e-9)), now[:3]


def _remarks(text: str) -> list[str]:
    return [remark for line in text.splitlines() if (remark := re.sub(r"^[^#]*", "", line))]


@every_old_file
def test_remarks_and_lines_stay(old):
    """As many lines, the same remarks in the same order, the data of the file in format 2."""
    text = old.read_text("utf-8")
    made = updated(text)
    assert _remarks(made) == _remarks(text)
    assert len(made.splitlines()) == len(text.splitlines())
    mine, theirs = parse_project(made), read_project(twin(old))
    assert mine.model_dump(exclude={"title"}) == theirs.model_dump(exclude={"title"})


@every_old_file
def test_the_refusal_names_each_new_key_for_each_old_one(old):
    text = old.read_text("utf-8")
    with pytest.raises(ProjectError) as caught:
        parse_project(text, old.name)
    (said,) = caught.value.sentences
    assert f"bolewright update {old.name}" in said
    raw = tomllib.loads(text)
    pairs = renamed(raw)
    assert ("[[carrier]]", "[[beam]]") in pairs
    for before, after in pairs:
        assert f"{before} is {after}" in said
        assert before.strip("[]").partition(" ")[0] in text


def test_a_copy_is_kept_and_the_command_says_where(tmp_path, capsys):
    file = Path(shutil.copy(LOOKOUT, tmp_path / "mine.toml"))
    file.chmod(0o640)
    assert main(["update", str(file)]) == 0
    kept = tmp_path / "mine.format-1.toml"
    assert kept.read_bytes() == LOOKOUT.read_bytes()
    assert kept.name in capsys.readouterr().out
    assert file.stat().st_mode & 0o777 == 0o640
    assert main(["check", str(file)]) == main(["check", str(twin(LOOKOUT))])
    capsys.readouterr()
    assert main(["update", str(file)]) == 2
    assert "nothing to update" in capsys.readouterr().err
    shutil.copy(LOOKOUT, file)
    assert main(["update", str(file)]) == 0
    assert (tmp_path / "mine.format-1-2.toml").exists()


@pytest.mark.parametrize("fails_at", [1, 2])
@pytest.mark.parametrize("call", ["replace", "fsync"])
def test_cut_off_it_loses_nothing(fails_at, call, tmp_path, monkeypatch):
    """Stopped at either write, before or at the exchange: the file is the old one, whole, with no scrap beside it."""
    file = Path(shutil.copy(LOOKOUT, tmp_path / "mine.toml"))
    real, count = getattr(os, call), 0

    def stops(*given):
        nonlocal count
        count += 1
        if count == fails_at:
            raise KeyboardInterrupt
        return real(*given)

    monkeypatch.setattr(os, call, stops)
    with pytest.raises(KeyboardInterrupt):
        update(file)
    assert file.read_bytes() == LOOKOUT.read_bytes()
    for beside in tmp_path.iterdir():
        assert beside.read_bytes() == LOOKOUT.read_bytes()
        assert not beside.name.startswith(".")


def test_lines_end_as_they_did(tmp_path):
    """A file written on another system keeps its line ends, in the rewritten one as in the copy."""
    file = tmp_path / "mine.toml"
    file.write_bytes(LOOKOUT.read_bytes().replace(b"\n", b"\r\n"))
    kept = update(file)
    assert file.read_bytes().replace(b"\r\n", b"\n") == updated(LOOKOUT.read_text("utf-8")).encode()
    assert (
        file.read_bytes().count(b"\r\n")
        == kept.read_bytes().count(b"\r\n")
        == LOOKOUT.read_bytes().count(b"\n")
    )


def test_a_full_disk_is_one_sentence(tmp_path, monkeypatch, capsys):
    file = Path(shutil.copy(LOOKOUT, tmp_path / "mine.toml"))

    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    assert main(["update", str(file)]) == 2
    assert "No space left" in capsys.readouterr().err
    assert file.read_bytes() == LOOKOUT.read_bytes()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (
            '[post]\nP6 = { foot = "held", cap_side = "9 lb" } # r',
            '[post]\nP6 = { base = "fixed", cap_lateral = "9 lb" } # r',
        ),
        ('post.P6.foot = "held" # kept', 'post.P6.base = "fixed" # kept'),
        ('[[carrier]]\nmark = "C1"\nroll_tie="5 lb"# a\n', '[[beam]]\nmark = "C1"\nrotation_tie="5 lb"# a\n'),
        ('support = [{ mark = "T1", sideways = "tied" }]', 'support = [{ mark = "T1", lateral = "tied" }]'),
        ('confirmed = ["bolt.main.rated_side"]', 'confirmed = ["bolt.main.rated_lateral"]'),
        (
            '[[joists]]\ncarriers = [\n  "C1", # one\n  "C2",\n]\n',
            '[[joists]]\nbeams = [\n  "C1", # one\n  "C2",\n]\n',
        ),
        ('[stairs]\nfoot = "2 in"\n', '[stairs]\nfoot = "2 in"\n'),
    ],
)
def test_ways_to_write_a_file(old, new):
    assert updated(f"# head\nformat = 1 # of the file\n{old}") == f"# head\nformat = 2 # of the file\n{new}"


def test_parts_of_a_list_apart_from_one_another():
    """Beams in two groups with other tables between them: every line stays where it is, each remark with its table."""
    text = """# head
format = 1
# the first beam
[[carrier]]
mark = "A" # of A
[site]
soil = "class 4"
# joists in between
[[joists]]
carriers = ["A", "B"]
# the second beam, after them
[[carrier]]
mark = "B" # of B
side_tie = "1 lb" # of B's tie
[title]
note = '''side_tie = [[carrier]]
[[carrier]]
'''
"""
    expected = text.replace("format = 1", "format = 2").replace("[[carrier]]\nmark", "[[beam]]\nmark")
    assert updated(text) == expected.replace("carriers =", "beams =").replace(
        'side_tie = "', 'lateral_tie = "'
    )


@every_old_file
def test_nothing_but_the_words_differs(old):
    """What is left when the words of both formats are taken away is the same, sign for sign."""
    pairs = [*TABLES.items(), *(pair for keys in KEYS.values() for pair in keys.items()), ("held", "fixed")]
    either = "|".join(sorted({re.escape(word) for pair in pairs for word in pair}, key=len, reverse=True))
    text = old.read_text("utf-8")
    first, second = (re.sub(rf"\b({either})\b|format = [12]", "", which) for which in (text, updated(text)))
    assert first == second
