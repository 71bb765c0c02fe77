"""A package made again over an old one: what it no longer has goes, what is the user's stays."""

import json

import pytest

from bolewright.documents.manifest import MANIFEST, manifest_of, stale_files
from bolewright.documents.package import write_whole

OLD = {"package.pdf": b"old", "drawings/01-plan.svg": b"plan", "drawings/09-knee-brace.svg": b"brace"}
NEW = {"package.pdf": b"new", "drawings/01-plan.svg": b"other plan"}


def make(folder, files):
    write_whole(folder, {**files, MANIFEST: manifest_of(files)})


def names(folder):
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_a_drawing_that_there_is_no_more_is_taken_away(tmp_path):
    make(tmp_path, OLD)
    make(tmp_path, NEW)
    assert names(tmp_path) == {*NEW, MANIFEST}
    assert (tmp_path / "package.pdf").read_bytes() == b"new"


def test_files_of_the_user_stay_also_under_a_name_of_ours(tmp_path):
    make(tmp_path, OLD)
    (tmp_path / "drawings/photo.jpg").write_bytes(b"mine")
    (tmp_path / "drawings/09-knee-brace.svg").write_bytes(b"marked up by hand")
    make(tmp_path, NEW)
    assert names(tmp_path) == {*NEW, MANIFEST, "drawings/photo.jpg", "drawings/09-knee-brace.svg"}


def test_a_folder_left_empty_goes_too(tmp_path):
    make(tmp_path, OLD)
    make(tmp_path, {"package.pdf": b"new"})
    assert not (tmp_path / "drawings").exists()


@pytest.mark.parametrize("name", ["../notes.txt", "/notes.txt", "drawings/../../notes.txt"])
def test_a_list_that_points_outside_takes_nothing_away(tmp_path, name):
    out = tmp_path / "out"
    out.mkdir()
    note = tmp_path / "notes.txt"
    note.write_bytes(b"mine")
    sums = json.loads(manifest_of({"x": b"mine"}))["files"]
    listed = name if name != "/notes.txt" else str(note)
    (out / MANIFEST).write_text(
        json.dumps({"schema": "bolewright package files 1", "files": {listed: sums["x"]}})
    )
    assert stale_files(out, {}) == []
    make(out, NEW)
    assert note.read_bytes() == b"mine"


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"files": {"package.pdf": "x"}}', '{"schema": 1, "files": []}']
)
def test_a_list_that_is_none_of_ours_takes_nothing_away(tmp_path, text):
    (tmp_path / MANIFEST).write_text(text)
    (tmp_path / "package.pdf").write_bytes(b"somebody's")
    assert stale_files(tmp_path, {}) == []


def test_the_list_is_the_same_for_the_same_files():
    assert manifest_of(OLD) == manifest_of(dict(reversed(OLD.items())))
