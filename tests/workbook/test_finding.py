"""What to change, size it and start from requirements, without a browser; the commands run as the page runs them."""

from __future__ import annotations

import asyncio
import shutil
from pathlib import Path

import pytest

from bolewright.changes.change import Change
from bolewright.paths import shipped
from bolewright.workbook import proposer
from bolewright.workbook.desk import Desk
from bolewright.workbook.live import Live
from bolewright.workbook.proposer import Proposer
from bolewright.workbook.sizer import Sizer


@pytest.fixture
def lookout(tmp_path: Path) -> Desk:
    shutil.copy(shipped("calcsheets") / "lookout.toml", tmp_path)
    return Desk(tmp_path / "lookout.toml")


@pytest.fixture
def empty(tmp_path: Path) -> Desk:
    return Desk(tmp_path / "mine.toml")


def ran(pane: Sizer | Proposer) -> str:
    """What a pane says after its button was pressed and its command has ended."""

    async def run() -> None:
        pane.start()
        if pane.running._task is not None:
            await pane.running._task

    asyncio.run(run())
    return str(pane.running.said.value)


def test_a_change_is_made_by_its_button_once_and_undone(lookout: Desk) -> None:
    live = Live(lookout)
    assert live.offers.children == ()
    change = Change("revision B", ((("title", "revision"), "B"),))
    live._offer(change)
    live._offer(change)
    (button,) = live.offers.children
    assert button.description == "Change it: revision B"
    before = lookout.draft.text
    button.click()
    assert lookout.draft.get(("title", "revision")) == "B"
    assert "# A birdwatching lookout" in lookout.draft.text  # remarks stay
    assert (
        live.offers.children == ()
    )  # what was tried on the file before does not stand by the file as it is now
    lookout.undo()
    assert lookout.draft.text == before


def test_requirements_that_say_nothing_yet_are_answered_field_by_field(empty: Desk) -> None:
    pane = Proposer(empty)
    said = ran(pane)
    assert "bw-wrong" in said
    assert "requirements.toml, line 5: floor, width" in said
    assert pane.running.found.value == ""
    assert (empty.folder / "requirements.toml").read_text(encoding="utf-8") == proposer.NEW


def test_requirements_never_overwrite_another_file(empty: Desk) -> None:
    own = empty.folder / "requirements.toml"
    own.write_text("# somebody's own\n", encoding="utf-8")
    pane = Proposer(empty)
    assert "was changed on disk" in ran(pane)
    for name, words in (("mine", "is the project file that is open"), ("../a", "is no file name")):
        pane.file.value = name
        assert words in ran(pane)
    assert own.read_text(encoding="utf-8") == "# somebody's own\n"
    pane.file.value = "requirements"
    pane.load.click()
    assert pane.text.value == "# somebody's own\n"


def test_a_name_for_proposals_is_one_that_no_file_has(empty: Desk) -> None:
    pane = Proposer(empty)
    assert pane._free("oak").name == "oak-a.toml"
    (empty.folder / "oak-a-2.toml").touch()
    assert pane._free("oak").name == "oak-b.toml"


def test_a_size_that_can_not_be_bought_is_answered_in_words(lookout: Desk) -> None:
    pane = Sizer(lookout)
    pane.only.value = "2x99"
    assert "2x99" in ran(pane)
    assert pane.takes.children == ()


def test_the_search_ends_after_as_many_sets_of_checks_as_the_pane_says(lookout: Desk, monkeypatch) -> None:
    pane = Sizer(lookout)
    asked: list[list[str]] = []
    monkeypatch.setattr(pane.running, "run", lambda arguments, done: asked.append(arguments))
    pane.most.value = 7
    pane.start()
    (arguments,) = asked
    assert arguments[arguments.index("--budget") + 1] == "7"


def test_sizes_are_taken_as_one_step_and_not_after_another_change(lookout: Desk) -> None:
    pane = Sizer(lookout)
    pane._began, pane._out = lookout.draft.text, lookout.folder / "sized.toml"
    pane._out.write_text(lookout.draft.text.replace("2x10", "2x12"), encoding="utf-8")
    lookout.type(("joists", 0, "spacing"), "12 in")
    pane.take.click()
    assert "size it again" in pane.running.said.value
    lookout.undo()
    pane.take.click()
    assert "2x10" not in lookout.draft.text
    assert lookout.draft.can_undo == "sizes chosen"
    assert lookout.unsaved
