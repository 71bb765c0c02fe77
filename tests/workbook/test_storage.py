"""Files: whole or not at all, a last good copy, a file changed by another never overwritten silently."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from bolewright.platform.results.results import fingerprint
from bolewright.workbook import storage

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")
BROKEN = DEMO.replace('live = "60 psf"', 'live = "sixty"')


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(DEMO, encoding="utf-8")
    return path


def test_saving_keeps_the_last_text_that_could_be_used(file):
    opened = storage.disk_fingerprint(file)
    opened = storage.save(file, BROKEN, opened)
    storage.save(file, BROKEN + "\n# again\n", opened)
    assert storage.last_good_path(file).read_text(encoding="utf-8") == DEMO


def test_a_file_changed_on_disk_is_not_overwritten(file):
    opened = storage.disk_fingerprint(file)
    file.write_text(DEMO + "# by hand\n", encoding="utf-8")
    with pytest.raises(storage.ChangedOnDisk, match=r"mine.toml was changed on disk since it was opened"):
        storage.save(file, DEMO + "# mine\n", opened)
    assert file.read_text(encoding="utf-8").endswith("# by hand\n")
    storage.save(file, DEMO + "# mine\n", opened, overwrite=True)
    assert file.read_text(encoding="utf-8").endswith("# mine\n")
    assert storage.last_good_path(file).read_text(encoding="utf-8").endswith("# by hand\n")


def test_a_new_name_that_is_taken_is_not_overwritten(file):
    with pytest.raises(storage.ChangedOnDisk):
        storage.save(file, DEMO, "")


def test_unsaved_work_is_found_again(file):
    opened = storage.disk_fingerprint(file)
    storage.keep(file, BROKEN, opened, "one")
    assert [(u.text, u.same_file) for u in storage.unsaved(file)] == [(BROKEN, True)]
    file.write_text(DEMO + "# by hand\n", encoding="utf-8")
    assert [(u.text, u.same_file) for u in storage.unsaved(file)] == [(BROKEN, False)]


def test_unsaved_work_that_says_what_the_file_says_is_none(file):
    storage.keep(file, DEMO, storage.disk_fingerprint(file), "one")
    assert storage.unsaved(file) == []


def test_saving_leaves_the_unsaved_work_of_other_pages(file):
    opened = storage.disk_fingerprint(file)
    storage.keep(file, BROKEN, opened, "one")
    assert storage.save(file, DEMO + "# another page\n", opened) == fingerprint(DEMO + "# another page\n")
    assert [u.text for u in storage.unsaved(file)] == [BROKEN]


def test_work_of_a_process_that_runs_is_an_open_page_s(file, tmp_path):
    storage.keep(file, BROKEN, "none", "one")
    side = storage.autosave_path(file, "one")
    for process, is_open in ((os.getppid(), True), (os.getpid(), False)):
        side.write_text(
            side.read_text(encoding="utf-8").replace(f"process {os.getpid()}", f"process {process}")
        )
        assert [u.is_open for u in storage.unsaved(file)] == [is_open]
        storage.keep(file, BROKEN, "none", "one")


def test_unsaved_work_on_a_file_that_does_not_exist_yet(tmp_path):
    path = tmp_path / "new.toml"
    storage.keep(path, DEMO, "", "one")
    assert [(u.text, u.same_file) for u in storage.unsaved(path)] == [(DEMO, True)]


def test_a_side_file_of_something_else_is_left_alone(file):
    storage.autosave_path(file, "one").write_text("not ours\n", encoding="utf-8")
    assert storage.unsaved(file) == []


def test_a_folder_that_cannot_be_written(tmp_path):
    with pytest.raises(storage.StorageError, match=r"no.toml can't be written: No such file or directory"):
        storage.save(tmp_path / "nowhere" / "no.toml", DEMO, "")


def test_a_failed_write_leaves_the_old_file(file, monkeypatch):
    def refuse(source: str, target: Path) -> None:
        raise OSError(28, "No space left on device")

    opened = storage.disk_fingerprint(file)
    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(storage.StorageError, match="No space left on device"):
        storage.save(file, BROKEN, opened)
    assert file.read_text(encoding="utf-8") == DEMO
    assert [p.name for p in file.parent.iterdir()] == ["mine.toml"]
