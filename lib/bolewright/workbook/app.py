"""The workbook as it is shown: file bar, ratios, and the panes. ``show(file)`` is the one line of its notebook."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as w

from bolewright.platform.file.reading import ProjectError, unnamable
from bolewright.signs import plain
from bolewright.workbook import storage
from bolewright.workbook.desk import Desk
from bolewright.workbook.explorer_panes import Learning
from bolewright.workbook.form import Form
from bolewright.workbook.live import Live
from bolewright.workbook.maker import Maker
from bolewright.workbook.proposer import Proposer
from bolewright.workbook.pulse import Pulse, Typed, placed
from bolewright.workbook.sheet_view import SheetView
from bolewright.workbook.sizer import Sizer
from bolewright.workbook.style import style

_FEW = 6  # differences that a notice lists
FILE = "BOLEWRIGHT_FILE"


def show(file: str | Path = "lookout.toml") -> w.VBox:
    """The workbook on a project file; the file that the command line named has precedence."""
    named = os.environ.get(FILE)
    return Workbook(Desk(Path(named or file).resolve())).box


@dataclass(frozen=True)
class Pane:
    """One view of the workbook: its name on the button, its widget, what to do when it is shown and left.

    A ``wide`` one has the whole width: it has a plan of its own.
    """

    name: str
    box: Any
    shown: Callable[[], None] = lambda: None
    left: Callable[[], None] = lambda: None
    wide: bool = False


class Workbook:
    """All panes over one desk. ``add_pane`` takes further ones."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.live = Live(desk)
        self.form = Form(desk)
        self.sheets = SheetView(desk)
        self.maker = Maker(desk)
        self.sizer = Sizer(desk)
        self.proposer = Proposer(desk)
        self.learning = Learning(desk)
        self.panes: dict[str, Pane] = {}
        self.pane = w.VBox()
        self.pane.add_class("bw-pane")
        self.views = w.ToggleButtons(description="Show", options=())
        self.views.observe(self._chosen, "value")
        self.current: Pane | None = None
        self._file_bar()
        self.columns = w.HBox([self.pane, self.live.side])
        self.columns.add_class("bw-columns")
        self.pulse = Pulse(desk, self._offer, self._look)
        self.box = w.VBox(
            [
                *(w.HTML(style()), self.title, self.bar, self.pulse, self.notice),
                *(self.live.strip, self.views, self.columns),
            ]
        )
        self.box.add_class("bw-app")
        self.add_pane(Pane("Form", self.form.box))
        self.add_pane(Pane("Sheet by sheet", self.sheets.box, self.sheets.show, self.sheets.hide))
        self.add_pane(Pane("Size it", self.sizer.box))
        self.add_pane(Pane("Start from requirements", self.proposer.box, self.proposer.shown, wide=True))
        self.add_pane(Pane("Make the package", self.maker.box))
        learning = self.learning
        weight = Pane(
            "Where does my weight go?", learning.weight, learning.show_weight, learning.hide, wide=True
        )
        self.add_pane(weight)
        self.add_pane(Pane("Lessons", learning.course, learning.show_course, learning.hide))
        learning.on_turn = self._hide_answers
        desk.on_change(self.refresh)
        self.refresh()

    def _hide_answers(self) -> None:
        """While a question is asked, nothing that answers it is seen: strip, marks of the plan, worst checks."""
        for box in (self.live.strip, self.live.side):
            (box.add_class if self.learning.is_asking else box.remove_class)("bw-away")

    # -- panes --------------------------------------------------------------------------------------------

    def add_pane(self, pane: Pane) -> None:
        """Add a view; the first one added is shown."""
        self.panes[pane.name] = pane
        shown = self.current or pane
        self.views.options = tuple(self.panes)
        self.views.value = shown.name

    def _chosen(self, change: Any) -> None:
        if change["new"] in self.panes:
            self._switch(self.panes[change["new"]])

    def _switch(self, pane: Pane) -> None:
        if pane is self.current:
            return
        if self.current is not None:
            self.current.left()
        self.current = pane
        self.pane.children = (pane.box,)
        self.columns.children = (self.pane,) if pane.wide else (self.pane, self.live.side)
        pane.shown()

    # -- files --------------------------------------------------------------------------------------------

    def _file_bar(self) -> None:
        self.title = w.HTML()
        self.notice = w.VBox()
        self.file = w.Combobox(
            description="File", value=self.desk.path.name, options=self.desk.files(), ensure_option=False
        )
        self.undo = _button("Undo", self.desk.undo)
        self.redo = _button("Redo", self.desk.redo)
        self.save = _button("Save", lambda: self._files(self.desk.save))
        others = (
            _button("Open", lambda: self._files(lambda: self.desk.open(self._there()))),
            _button("Save as", lambda: self._files(lambda: self.desk.save_as(self._named()))),
            _button("New", lambda: self._files(lambda: self.desk.new(self._named()))),
        )
        self.bar = w.HBox([self.undo, self.redo, self.save, self.file, *others])
        self.bar.add_class("bw-bar")
        self.load = _button("Load it from disk", lambda: self._files(self.desk.load_again))
        self.overwrite = _button(
            "Overwrite it with mine", lambda: self._files(lambda: self.desk.save(overwrite=True))
        )
        self.merge = _button("Merge both", lambda: self._files(self.desk.merge_disk))
        self.take_up = _button("Take up the unsaved work", lambda: self._files(self.desk.take_up))
        self.merge_work = _button("Merge it with this", lambda: self._files(self.desk.merge_work))
        self.leave_work = _button("Drop the unsaved work", lambda: self._files(self.desk.leave_work))
        self.dismiss = _button("Dismiss", self._dismiss)
        self.put_in = _button("Put in what was typed", self._put_in)
        self.drop = _button("Drop it", self._drop)
        self._told: tuple[str, ...] = ()
        self._seen: tuple[Any, ...] = ()
        self.offered: list[Typed] = []

    def _there(self) -> Path:
        path = self._named()
        if not path.exists():
            raise storage.StorageError(
                f"There is no {path.name} in {path.parent.name or path.parent}, so nothing was opened: New starts it."
            )
        return path

    def _named(self) -> Path:
        name = self.file.value.strip()
        if not name or name != Path(name).name:
            raise storage.StorageError(
                f"{name!r} is no file name: give one without a folder, such as mine.toml."
            )
        if words := unnamable(Path(name)):
            raise storage.StorageError(words)
        return self.desk.folder / (name if name.endswith(".toml") else f"{name}.toml")

    def _files(self, act: Callable[[], Any]) -> None:
        try:
            act()
        except (storage.StorageError, ProjectError) as error:
            self.desk.notice = str(error)
        self.file.options = self.desk.files()
        self.file.value = self.desk.path.name
        self.refresh()

    # -- what a browser kept --------------------------------------------------------------------------------

    def _offer(self, found: list[Typed]) -> None:
        self.offered = found
        self.refresh()

    def _put_in(self) -> None:
        left = []
        for typed in self.offered:
            where = placed(self.desk, typed)
            if where is None:
                left.append(f"{typed.label}: {typed.value}")
            elif where[-1] == "mark":
                self.desk.name(str(where[0]), where[1], typed.value)
            else:
                self.desk.put(where, typed.value)
        lost = f" No place was found for: {'; '.join(left)}." if left else ""
        self.desk.notice = f"What was typed before was put in.{lost}"
        self._drop()

    def _drop(self) -> None:
        self.pulse.drop({typed.store for typed in self.offered})
        self.offered = []
        self.refresh()

    def _look(self) -> None:
        """Notice a file that was changed on disk, also while nothing is typed."""
        desk = self.desk
        if not desk.unsaved and not desk.draft.can_undo:
            desk.resume()
        if self._beside() != self._seen:
            self.refresh()

    def _beside(self) -> tuple[Any, ...]:
        return (self.desk.changed_on_disk, *self.desk.others)

    def refresh(self) -> None:
        """Show the state of the file."""
        desk = self.desk
        name = plain(str(desk.draft.get(("title", "project")) or "No name yet"))
        state = "changes not saved" if desk.unsaved else "saved"
        title = f'<h1>{escape(name)}</h1><p class="bw-help">{escape(desk.path.name)}: {state}</p>'
        if self.title.value != title:
            self.title.value = title
        for button, label, word in (
            (self.undo, desk.draft.can_undo, "Undo"),
            (self.redo, desk.draft.can_redo, "Redo"),
        ):
            button.disabled = not label
            button.description = f"{word}: {label}" if label else word
        self._notices()

    def _dismiss(self) -> None:
        self.desk.notice = ""
        self.refresh()

    def _notices(self) -> None:
        """All that is to be known, one under the other: none hides another."""
        desk = self.desk
        self._seen = self._beside()
        shown: list[tuple[str, tuple[Any, ...]]] = []
        if self.offered:
            kept = "; ".join(f"{t.part + ': ' if t.part else ''}{t.label}: {t.value}" for t in self.offered)
            words = f"This browser kept what was typed while no kernel took it: {kept}."
            shown.append((words, (self.put_in, self.drop)))
        if self._seen[0]:
            words = (
                f"{desk.path.name} was changed on disk since it was opened here. Saving won't overwrite it unasked. "
                f"{self._differences(desk.path)}"
            )
            shown.append((words, (self.load, self.merge, self.overwrite)))
        if left := desk.left_work:
            older = (
                ""
                if left.same_file
                else f" It was begun on an older {desk.path.name}, which was changed since."
            )
            words = (
                f"There is unsaved work of a page that is gone, in {left.side.name}.{older} "
                f"{self._differences(left.side)}"
            )
            shown.append((words, (self.take_up, self.merge_work, self.leave_work)))
        if any(found.is_open for found in desk.others):
            shown.append((f"Another open page has unsaved work on {desk.path.name}.", ()))
        if desk.notices:
            shown += [(words, ()) for words in desk.notices[:-1]]
            shown.append((desk.notices[-1], (self.dismiss,)))
        key = tuple(words for words, _ in shown)
        if key == self._told:
            return
        self._told = key
        rows: list[Any] = []
        for words, buttons in shown:
            rows.append(w.HTML(f'<p class="bw-notice">{escape(words)}</p>'))
            if buttons:
                bar = w.HBox(buttons)
                bar.add_class("bw-bar")
                rows.append(bar)
        self.notice.children = tuple(rows)

    def _differences(self, path: Path) -> str:
        try:
            said = self.desk.differs_by(storage.own_text(path))
        except ProjectError as error:
            said = list(error.sentences)
        more = f"; and {len(said) - _FEW} more" if len(said) > _FEW else ""
        return f"It has otherwise than this page: {'; '.join(said[:_FEW])}{more}."


def _button(words: str, act: Callable[[], Any]) -> w.Button:
    button = w.Button(description=words)
    button.on_click(lambda _: act())
    return button
