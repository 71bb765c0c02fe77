"""The desk: results follow the draft, work is kept and taken up again, no file is overwritten unasked."""

from __future__ import annotations

from pathlib import Path

import pytest
import shapely.errors

from bolewright.platform.file.reading import ProjectError
from bolewright.workbook import storage
from bolewright.workbook.desk import Desk

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    (tmp_path / "mine.toml").write_text(DEMO, encoding="utf-8")
    return Desk(tmp_path / "mine.toml")


def joist_bending(desk: Desk) -> float:
    assert desk.results is not None
    return max(c.ratio for c in desk.results.checks if (c.topic, c.limit_state) == ("joists", "bending"))


def test_results_follow_the_draft(desk):
    before = joist_bending(desk)
    desk.type(("joists", 0, "section"), "2x6")
    # bending goes with 1 / S: 2x8 13.14 in³, 2x6 7.563 in³ (NDS Supplement 2018, Table 1B), F_b 925 and 1000 psi (4B)
    assert joist_bending(desk) == pytest.approx(before * 13.14 / 7.563 * 925 / 1000, rel=0.01)
    desk.undo()
    assert joist_bending(desk) == before


def test_the_last_results_stay_while_an_entry_cannot_be_used(desk):
    before = joist_bending(desk)
    desk.type(("loads", "live"), "sixty")
    assert joist_bending(desk) == before
    assert desk.problem == "One entry can't be used yet. The ratios are those from before."


def test_an_arrangement_that_cannot_stand_is_said(desk):
    desk.type(("support", 2, "at"), "-36 in, 60 in")
    assert "P1" in desk.problem
    assert desk.problem.endswith("The ratios are those from before.")


@pytest.mark.parametrize(
    "fault", [shapely.errors.GEOSException("side location"), AssertionError("out of balance")]
)
def test_a_fault_of_the_program_is_said_and_the_work_stays(desk, monkeypatch, fault):
    """Also when the file is opened again: it must never keep the workbook from opening."""

    def fails(project):
        raise fault

    monkeypatch.setattr("bolewright.workbook.desk.find_results", fails)
    desk.type(("loads", "live"), "61 psf")
    assert str(fault) in desk.problem
    assert "a fault of the program" in desk.problem
    assert desk.draft.get(("loads", "live")) == "61 psf"
    again = Desk(desk.path)
    assert again.results is None
    assert again.draft.get(("loads", "live")) == "61 psf"


def test_work_survives_a_killed_kernel(desk):
    desk.type(("joists", 0, "section"), "2x")
    again = Desk(desk.path)
    assert again.draft.shown(("joists", 0, "section")) == "2x"
    assert "Unsaved work from before was taken up" in again.notice
    assert again.results is not None
    again.undo()
    assert again.draft.text == DEMO


def test_work_on_an_older_file_waits_to_be_asked_for(desk):
    desk.type(("joists", 0, "section"), "2x10")
    desk.path.write_text(DEMO + "# by hand\n", encoding="utf-8")
    again = Desk(desk.path)
    assert again.draft.text == DEMO + "# by hand\n"
    assert again.left_work is not None
    assert not again.left_work.same_file
    again.take_up()
    assert again.draft.get(("joists", 0, "section")) == "2x10"


def test_a_file_changed_on_disk(desk):
    desk.type(("joists", 0, "section"), "2x10")
    desk.path.write_text(DEMO + "# by hand\n", encoding="utf-8")
    assert desk.changed_on_disk
    with pytest.raises(storage.ChangedOnDisk):
        desk.save()
    desk.load_again()
    assert not desk.changed_on_disk
    desk.undo()
    assert desk.draft.get(("joists", 0, "section")) == "2x10"


def test_save_as_wants_a_free_name(desk):
    other = desk.folder / "other.toml"
    other.write_text("format = 2\n", encoding="utf-8")
    with pytest.raises(storage.StorageError, match=r"other.toml exists already"):
        desk.save_as(other)
    assert desk.path.name == "mine.toml"
    desk.save_as(desk.folder / "third.toml")
    assert (desk.folder / "third.toml").read_text(encoding="utf-8") == DEMO
    assert desk.path.name == "third.toml"


def test_a_file_that_is_no_toml_leaves_the_open_one(desk):
    (desk.folder / "bad.toml").write_text("a = = b", encoding="utf-8")
    with pytest.raises(ProjectError, match=r"bad.toml is not valid TOML"):
        desk.open(desk.folder / "bad.toml")
    assert desk.path.name == "mine.toml"
    assert desk.draft.text == DEMO


def test_a_saved_file_with_an_entry_that_cannot_be_used_says_so(desk):
    desk.type(("loads", "live"), "sixty")
    assert desk.save() == "Saved as mine.toml. One entry in it can't be used yet."
    assert storage.last_good_path(desk.path).read_text(encoding="utf-8") == DEMO


def test_side_files_are_not_offered(desk):
    desk.type(("loads", "live"), "sixty")
    desk.save()
    desk.type(("loads", "live"), "70 psf")
    assert desk.files() == ["mine.toml"]


def test_two_learners_files_stay_apart(tmp_path):
    """Two homes with a file of the same name: neither's work, saved or not, is found in the other's."""
    desks = {}
    for name in ("ann", "ben"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "lookout.toml").write_text(DEMO, encoding="utf-8")
        desks[name] = Desk(tmp_path / name / "lookout.toml")
    for name, desk in desks.items():
        desk.type(("title", "project"), f"Platform of {name}")
    for name, desk in desks.items():
        others = set(desks) - {name}
        texts = [path.read_text(encoding="utf-8") for path in (tmp_path / name).iterdir()]
        assert len(texts) == 2
        assert any(f"Platform of {name}" in text for text in texts)
        assert not any(f"Platform of {other}" in text for other in others for text in texts)
        desk.save()
    for name in desks:
        again = Desk(tmp_path / name / "lookout.toml")
        assert again.draft.get(("title", "project")) == f"Platform of {name}"


def test_two_on_one_file_do_not_overwrite_each_other(tmp_path):
    path = tmp_path / "lookout.toml"
    path.write_text(DEMO, encoding="utf-8")
    ann, ben = Desk(path), Desk(path)
    ann.type(("title", "project"), "Platform of ann")
    ann.save()
    ben.type(("title", "project"), "Platform of ben")
    assert ben.changed_on_disk
    with pytest.raises(storage.ChangedOnDisk):
        ben.save()
    assert "Platform of ann" in path.read_text(encoding="utf-8")
    ben.save_as(tmp_path / "bens.toml")
    assert "Platform of ben" in (tmp_path / "bens.toml").read_text(encoding="utf-8")


def test_a_page_s_unsaved_work_is_its_own(tmp_path):
    """One page saves: what another has not saved stays, here and on disk, and the two can be merged."""
    path = tmp_path / "lookout.toml"
    path.write_text(DEMO, encoding="utf-8")
    ann, cid = Desk(path), Desk(path)
    cid.type(("joists", 0, "section"), "2x10")
    ann.type(("loads", "live"), "70 psf")
    ann.save()
    assert storage.autosave_path(path, cid.tab).exists()
    assert ann.draft.get(("joists", 0, "section")) == "2x8"
    assert cid.changed_on_disk
    assert cid.differs_by(path.read_text(encoding="utf-8")) == [
        "live of loads: 60 psf becomes 70 psf",
        "section of joists J: 2x10 becomes 2x8",
    ]
    cid.merge_disk()
    assert (cid.draft.get(("loads", "live")), cid.draft.get(("joists", 0, "section"))) == ("70 psf", "2x10")
    assert "# A birdwatching lookout" in cid.draft.text
    cid.save()
    assert Desk(path).draft.text == cid.draft.text
    assert not list(tmp_path.glob("*.autosave*"))


def test_notices_do_not_hide_each_other(desk):
    desk.notice = "The first."
    desk.notice = "Taken back: a thing."
    desk.notice = "The second."
    assert desk.notices == ["The first.", "The second."]


def test_a_new_project_is_empty_and_passes_nothing(tmp_path):
    """Nobody's invented tree, place or rating may stand in a project as if it had been measured."""
    desk = Desk(tmp_path / "mine.toml")
    assert desk.results is None
    assert "can't be used yet" in desk.problem
    assert {key for key in desk.draft.data if desk.draft.data[key]} == {"format"}
    faults = desk.draft.faults
    assert {("support",), ("beam",), ("joists",)} <= faults.keys()
    desk.add("post")
    desk.type(("loads", "live"), "60 psf")
    assert desk.results is None
    assert Desk(tmp_path / "mine.toml").draft.get(("loads", "live")) == "60 psf"
