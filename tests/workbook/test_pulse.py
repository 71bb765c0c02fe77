"""What a browser kept while no kernel took it is put where it belongs, and nothing else a browser says is believed."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from bolewright.workbook.desk import Desk
from bolewright.workbook.pulse import part_name, place_class, placed, read_kept


@pytest.fixture(scope="module")
def desk(tmp_path_factory) -> Desk:
    folder: Path = tmp_path_factory.mktemp("pulse")
    shutil.copy(Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml", folder)
    return Desk(folder / "lookout.toml")


def kept(desk: Desk, where, **more):
    at = place_class(desk, where).removeprefix("bw-at-")
    return {"label": "a label", "value": "600 psf", "at": at, "store": "bolewright/x/y", **more}


def test_an_entry_goes_where_it_was_typed(desk):
    (typed,) = read_kept([kept(desk, ("loads", "live"))])
    assert placed(desk, typed) == ("loads", "live")
    assert typed.value == "600 psf"


def test_an_entry_follows_its_part_and_never_goes_to_another(desk):
    where = ("support", 1, "at")
    (typed,) = read_kept([kept(desk, where)])
    assert typed.part == part_name(desk, where) != ""
    assert placed(desk, typed) == where
    desk.draft.remove("support", 0)
    assert placed(desk, typed) == ("support", 0, "at")
    desk.draft.remove("support", 0)
    assert placed(desk, typed) is None
    desk.draft.undo()
    desk.draft.undo()


@pytest.mark.parametrize(
    "items",
    [
        None,
        "kept",
        [None, 3, {}],
        [{"label": 1, "value": "x", "store": "s"}],
        [{"label": "a", "value": ["x"], "store": "s"}],
    ],
)
def test_what_is_no_kept_entry_is_passed_over(items):
    assert read_kept(items) == []


@pytest.mark.parametrize(
    "at", ["", "zz", "5b5d", b'[["nowhere","x"],""]'.hex(), b'[["loads",{}],""]'.hex(), 7]
)
def test_a_place_that_the_file_has_not_is_none(at):
    (typed,) = read_kept([{"label": "a", "value": "x", "store": "s", "at": at}])
    assert typed.where is None
