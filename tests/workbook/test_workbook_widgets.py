"""The widgets without a browser: fields, undo, sheets, notes, and the package's command."""

from __future__ import annotations

import asyncio
import re
import shutil
import sys
from pathlib import Path

import ipywidgets as w
import nbformat
import pytest

from bolewright.documents.notebook import read_sheet
from bolewright.paths import shipped
from bolewright.platform.limit_states.check import Topic
from bolewright.rendering import palette
from bolewright.workbook import links
from bolewright.workbook.app import Workbook
from bolewright.workbook.desk import Desk
from bolewright.workbook.form import Form
from bolewright.workbook.live import Live
from bolewright.workbook.maker import run_package
from bolewright.workbook.notes import Notes, read_note, write_note
from bolewright.workbook.schema import section as section_named
from bolewright.workbook.values import default_words


@pytest.fixture
def book(tmp_path: Path) -> Workbook:
    shutil.copy(Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml", tmp_path)
    return Workbook(Desk(tmp_path / "lookout.toml"))


def row(book: Workbook, key: str, field: str):
    return next(r for r in book.form.sections[key].rows if r.spec.key == field)


def test_every_section_opens_with_every_part(book):
    for key, section in book.form.sections.items():
        section.open()
        for which, _ in book.desk.draft.parts(key):
            section.open(which)
            assert {r.where[-1] for r in section.rows} == {f.key for f in section.spec.fields}
    assert book.desk.draft.can_undo == ""


def test_no_field_clamps_silently(book):
    for section in book.form.sections.values():
        section.open()
        for made in section.rows:
            assert isinstance(made.input, w.Text | w.Textarea | w.Dropdown)
            assert made.input.description


def test_a_field_says_what_it_understood_and_what_is_wrong(book):
    book.form.open("loads")
    live = row(book, "loads", "live")
    live.input.value = "2 kPa"
    assert "41.77 psf (2 kPa)" in live.note.value
    live.input.value = "2 kP"
    assert "has a unit &#x27;kP&#x27; that is not known" in live.note.value
    assert "bw-wrong" in live.note.value
    assert "✗ 1 to mend" in book.form.sections["loads"].heading.description
    book.undo.click()
    assert live.input.value == "60 psf"


def test_an_empty_field_shows_its_default(book):
    book.form.open("post")
    assert "default: 2.1" in row(book, "post", "K_e").note.value


def test_grades_follow_species_and_size(book):
    book.form.open("joists")
    row(book, "joists", "species").input.value = "Hem-Fir"
    grade = row(book, "joists", "grade").input
    assert "No.1 & Btr" in grade.options or "No.1 & better" in " ".join(grade.options)
    assert "Dense Select Structural" not in grade.options


def test_a_renamed_mark_is_followed(book):
    book.form.open("tree")
    row(book, "tree", "mark").input.value = "BUR"
    assert [s.tree for s in book.desk.draft.project.supports if s.kind == "tree bolt"] == ["BUR", "BUR"]


def test_a_mark_that_is_taken_is_said(book):
    book.form.open("support", 0)
    row(book, "support", "mark").input.value = "P1"
    assert "marks are unique" in row(book, "support", "mark").note.value


def test_other_sheets_are_marked_when_they_change(book):
    book.views.value = "Sheet by sheet"
    book.sheets.chooser.value = Topic.JOISTS
    size = next(r for r in book.sheets.rows if r.where == ("joists", 0, "section"))
    size.input.value = "2x10"
    labels = {topic: label for label, topic in book.sheets.chooser.options}
    assert labels[Topic.FOOTINGS] == "footings • changed"
    assert labels[Topic.JOISTS] == "joists"
    book.sheets.chooser.value = Topic.FOOTINGS
    assert {t: label for label, t in book.sheets.chooser.options}[Topic.FOOTINGS] == "footings"


def test_the_part_chosen_is_calculated(book):
    book.views.value = "Sheet by sheet"
    book.sheets.chooser.value = Topic.JOISTS
    book.sheets.part.value = "J2"
    headings = re.findall(r"<h3[^>]*>(.*?)</h3>", book.sheets.page.value)
    assert headings
    assert {heading.split(":")[0] for heading in headings} == {"J2"}


def test_a_note_is_a_cell_of_the_sheet_and_prints(tmp_path):
    path = tmp_path / "04_joists.ipynb"
    shutil.copy(shipped("calcsheets") / "04_joists.ipynb", path)
    write_note(path, "Hangers are on order.")
    write_note(path, "Hangers came on Monday.")
    assert read_note(path) == "Hangers came on Monday."
    assert [i.text for i in read_sheet(path).items if hasattr(i, "text")][-1] == "Hangers came on Monday."
    write_note(path, "")
    kept = nbformat.read(path, as_version=4)
    assert kept == nbformat.read(shipped("calcsheets") / "04_joists.ipynb", as_version=4)


def test_a_note_that_is_not_kept_yet_is_not_lost_on_another_sheet(tmp_path):
    for name in ("lookout.toml", "04_joists.ipynb", "08_posts.ipynb"):
        shutil.copy(shipped("calcsheets") / name, tmp_path)
    notes = Notes(Desk(tmp_path / "lookout.toml"))
    notes.show(Topic.JOISTS)
    notes.text.value = "Crown up."
    assert "Not kept yet" in notes.said.value
    notes.show(Topic.POSTS)
    assert (notes.text.value, notes.said.value) == ("", "")
    notes.show(Topic.JOISTS)
    assert notes.text.value == "Crown up."
    assert read_note(tmp_path / "04_joists.ipynb") == ""
    notes.keep.click()
    assert read_note(tmp_path / "04_joists.ipynb") == "Crown up."
    assert "Kept in 04_joists.ipynb" in notes.said.value


def test_a_command_is_heard_line_by_line_and_its_errors_kept():
    heard: list[str] = []
    program = "import sys; print('  Sheet 1 of 2: 00_a'); print('done'); print('no good', file=sys.stderr); sys.exit(2)"
    code, errors = asyncio.run(run_package([sys.executable, "-c", program], heard.append))
    assert (code, heard, errors) == (2, ["  Sheet 1 of 2: 00_a", "done"], ["no good"])


def test_links_are_those_of_the_server(tmp_path, monkeypatch):
    monkeypatch.setenv(links.ROOT, str(tmp_path))
    monkeypatch.setenv("JUPYTERHUB_SERVICE_PREFIX", "/user/ann/")
    assert links.address_of(tmp_path / "build" / "a b.pdf") == "/user/ann/files/build/a%20b.pdf"
    assert links.address_of(tmp_path.parent / "out.pdf") is None


def test_an_arrangement_that_can_not_stand_is_drawn_as_typed_with_the_part_at_fault_highlighted(tmp_path):
    path = tmp_path / "lookout.toml"
    path.write_text(
        (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(
            encoding="utf-8"
        ),
        encoding="utf-8",
    )
    desk = Desk(path)
    live = Live(desk)
    assert "As typed" not in live.plan.value
    desk.type(("support", 2, "at"), "-36 in, 90 in")
    assert "P1" in desk.problem
    svg = live.plan.value
    assert "As typed, not worked out yet" in svg
    assert 'x="-36.00"' in svg  # the post's mark, where it was moved
    assert svg.count(palette.HIGHLIGHT) == 2  # the post, and the beam that the message names
    assert live.worst.value == ""
    desk.undo()
    assert "As typed" not in live.plan.value
    assert "three worst" in live.worst.value


def test_a_section_opens_at_its_first_part(tmp_path):
    shutil.copy(Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml", tmp_path)
    desk = Desk(tmp_path / "lookout.toml")
    form = Form(desk)
    form.open("beam")
    assert form.sections["beam"].which == 0


def test_what_an_empty_field_means_stands_beside_it():
    assert default_words(section_named("bolt").field("seat_rise")) == "half the diameter"
    assert default_words(section_named("stock").field("lengths")) == "8 ft to 20 ft by 2 ft"
    assert default_words(section_named("brace").field("rated_load")) == "none"


def test_while_a_question_is_asked_nothing_that_answers_it_is_seen(book):
    def away() -> set[bool]:
        return {"bw-away" in box._dom_classes for box in (book.live.strip, book.live.side)}

    assert away() == {False}
    book.views.value = "Lessons"
    assert away() == {True}
    lessons = book.learning.lessons
    question = lessons.question
    lessons.predict(question.choices[0] if question.choices else "1")
    assert away() == {False}
    lessons.next.click()
    assert away() == {True}
    book.views.value = "Form"
    assert away() == {False}


def test_a_new_project_opens_in_every_pane_and_section(tmp_path):
    book = Workbook(Desk(tmp_path / "mine.toml"))
    for name in book.panes:
        book.views.value = name
    for section in book.form.sections.values():
        section.open()
    assert "is new and empty" in " ".join(getattr(row, "value", "") for row in book.notice.children)
    assert "nothing here holds now" in book.live.state.value
    assert book.live.ratios.value == ""
