"""The desk: one open project file with its draft, its results and its files. No widget in here."""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable
from pathlib import Path

from shapely.errors import ShapelyError

from bolewright.changes.change import Change
from bolewright.platform.file.reading import Location, ProjectError, read_text, unnamable
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.results.results import Results, find_results, fingerprint
from bolewright.workbook import storage
from bolewright.workbook.draft import Draft, Which
from bolewright.workbook.merge import differences, merged
from bolewright.workbook.schema import Shape, section

_PASSING = ("Taken back: ", "Done again: ", "Saved as ")  # another notice may take the place of these
_GUIDE = (
    "fill in the sections from top to bottom, then add kinds of post, footing and bolt before the supports, beams and "
    "joists that need them. Nothing counts as checked until all that must be given is given."
)
Listener = Callable[[], None]
# What a fault of the program raises: the workbook says so and stays open, and so does a file that is opened with it.
FAULTS = (ArithmeticError, AssertionError, LookupError, ShapelyError)


# A new project has nothing in it that somebody else measured, chose or invented: every field asks to be filled in.
NEW = """# A new project: nothing in it is given yet. What must be given is marked in the form.
format = 2

[title]

[site]

[loads]

[platform]

[decking]
"""


class Desk:
    """What the workbook works on.

    ``results`` are the last that could be found; ``problem`` says why there are none for the draft as it
    is, and is empty when ``results`` are those of the draft. ``notice`` is what the user should know of the file.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.draft = Draft(NEW, path.name)
        self.results: Results | None = None
        self.problem = ""
        self.notices: list[str] = []
        self.seconds = 0.0
        self.tab = secrets.token_hex(3)
        self._opened = ""
        self._saved = ""
        self._base = ""  # the file's text when this page and the disk were last one
        self._working: list[Listener] = []
        self._changed: list[Listener] = []
        self._replaced: list[Listener] = []
        self.open(path)

    @property
    def notice(self) -> str:
        """What the user should know of the file, the newest; "" drops all."""
        return self.notices[-1] if self.notices else ""

    @notice.setter
    def notice(self, words: str) -> None:
        kept = [said for said in self.notices if said != words and not said.startswith(_PASSING)]
        self.notices = [*kept[-4:], words] if words else []

    def on_work(self, listener: Listener) -> None:
        """Call back before the results are worked out."""
        self._working.append(listener)

    def on_change(self, listener: Listener) -> None:
        """Call back after each change of a value, when the results are found."""
        self._changed.append(listener)

    def on_replace(self, listener: Listener) -> None:
        """Call back when parts came or went or another text was taken: fields must be shown anew."""
        self._replaced.append(listener)

    # -- changes ------------------------------------------------------------------------------------------

    def type(self, where: Location, text: str) -> None:
        """Take what was typed in a field and work everything out again."""
        self.draft.type(where, text)
        self._worked()

    def put(self, where: Location, text: str) -> None:
        """Put a text in a field from elsewhere than its field, which must be shown anew."""
        self.draft.settle()
        self.draft.type(where, text)
        self.draft.settle()
        self._replace()

    def name(self, key: str, which: Which, text: str) -> str:
        """Give a part another name, in all places; a sentence when it can't have it."""
        try:
            self.draft.rename(key, which, text.strip())
        except ValueError as error:
            return str(error)
        self._replace()
        return ""

    def add(self, key: str) -> Location:
        """Add a part; where it is."""
        where = self.draft.add(key)
        self._replace()
        return where

    def copy(self, key: str, which: Which) -> Location:
        """Copy a part; where the copy is."""
        where = self.draft.copy(key, which)
        self._replace()
        return where

    def remove(self, key: str, which: Which) -> None:
        """Take a part out."""
        self.draft.remove(key, which)
        self._replace()

    def take_text(self, text: str, label: str) -> None:
        """Take another text of the file, as one step that can be undone. Raises ProjectError for no TOML."""
        self.draft.replace(text, label, self.path.name)
        self._replace()

    def make(self, change: Change) -> None:
        """Make a change that was tried, as one step that can be undone."""
        self.draft.take(change.made(self.draft.data), change.words)
        self._replace()

    def undo(self) -> None:
        """Take back the last change."""
        if said := self.draft.undo():
            self.notice = f"Taken back: {said}."
            self._replace()

    def redo(self) -> None:
        """Bring back what was taken back."""
        if said := self.draft.redo():
            self.notice = f"Done again: {said}."
            self._replace()

    def _worked(self) -> None:
        self.work_out()
        for listener in self._changed:
            listener()
        self._keep()

    def _replace(self) -> None:
        self.work_out()
        for listener in (*self._replaced, *self._changed):
            listener()
        self._keep()

    def work_out(self) -> None:
        """Find the results of the draft; the last ones stay where there are none."""
        for listener in self._working:
            listener()
        start = time.perf_counter()
        self.problem = self._find()
        if self.problem and self.results is not None:
            self.problem += " The ratios are those from before."
        self.seconds = time.perf_counter() - start

    def _find(self) -> str:
        """Find the results; a sentence that says why there are none."""
        project = self.draft.project
        if project is None:
            return f"{self._entries()} can't be used yet."
        try:
            self.results = find_results(project)
        except LayoutError as error:
            more = len(error.sentences) - 1
            return str(error) + (f" ({more} more such fault{'s' * (more > 1)}.)" if more else "")
        except ValueError as error:
            return f"Not worked out: {error}."
        except FAULTS as error:
            return (
                f"Not worked out, by a fault of the program ({error}). Undo what was changed last and change it by "
                "a little more or less."
            )
        return ""

    def _entries(self) -> str:
        count = len(self.draft.faults)
        return "One entry" if count == 1 else f"{count} entries"

    # -- files --------------------------------------------------------------------------------------------

    @property
    def unsaved(self) -> bool:
        """Whether the draft differs from what was saved or opened last."""
        return self.draft.text != self._saved

    @property
    def folder(self) -> Path:
        """Folder of the open file."""
        return self.path.parent

    def files(self) -> list[str]:
        """Project files in the folder."""
        names = (p.name for p in self.folder.glob("*.toml") if not unnamable(p))
        return sorted(name for name in names if not storage.is_side_file(name))

    def open(self, path: Path) -> None:
        """Open a file, with unsaved work found beside it; a file that is not there starts empty.

        Raises ProjectError for a file that is no readable TOML; then the file open before stays open.
        """
        if words := unnamable(path):
            raise ProjectError([words])
        there = path.exists()
        text = read_text(path) if there else NEW
        draft = Draft(text, path.name)
        self.draft, self.path = draft, path
        self._opened = storage.disk_fingerprint(path)
        self._saved = self._base = draft.text if there else ""
        self.notice = "" if there else f"{path.name} is new and empty, not saved yet: {_GUIDE}"
        self.results = None
        self.work_out()
        self.resume()
        self._replace_without_keeping()

    def resume(self) -> None:
        """Take up the unsaved work of the one page that is gone, where it was begun on this very file."""
        left = [found for found in self.others if not found.is_open]
        if len(left) == 1 and left[0].same_file:
            self.take_up()

    @property
    def others(self) -> list[storage.Unsaved]:
        """Unsaved work on this file that is not this page's: of pages that are gone, and of others that are open."""
        return storage.unsaved(self.path, self.tab)

    @property
    def left_work(self) -> storage.Unsaved | None:
        """The newest unsaved work of a page that is gone."""
        return next((found for found in reversed(self.others) if not found.is_open), None)

    def differs_by(self, text: str) -> list[str]:
        """What another text of this file has otherwise than the draft, in sentences."""
        try:
            return differences(self.draft.data, Draft(text, self.path.name).data) or ["comments only"]
        except ProjectError as error:
            return list(error.sentences)

    def take_up(self) -> None:
        """Take up the unsaved work of a page that is gone, as one step that can be undone."""
        found = self.left_work
        if found is None:
            return
        try:
            self.draft.replace(found.text, "unsaved work taken up", found.side.name)
        except ProjectError as error:
            self.notice = str(error)
            return
        self._keep()
        storage.forget(found.side)
        self.notice = "Unsaved work from before was taken up. Undo goes back to the file as it was saved."
        self._replace_without_keeping()

    def leave_work(self) -> None:
        """Drop the unsaved work of a page that is gone."""
        if found := self.left_work:
            storage.forget(found.side)

    def merge_work(self) -> None:
        """Merge the unsaved work of a page that is gone into the draft."""
        found = self.left_work
        if found is None:
            return
        base = self._began(found.began)
        if base is None:
            raise storage.StorageError(
                f"{found.side.name} was begun on a text of {self.path.name} that is not here any more, so it can't be "
                "merged: take it up or drop it."
            )
        self._merge(base, found.text, "unsaved work merged")
        storage.forget(found.side)

    def _began(self, mark: str) -> str | None:
        """The text that unsaved work was begun from, where it is still known."""
        last_good = storage.last_good_path(self.path)
        texts = [self._base, *([read_text(last_good)] if last_good.exists() else [])]
        return next((text for text in texts if fingerprint(text) == mark), None)

    def merge_disk(self) -> None:
        """Merge the file as it is on disk now into the draft; saving is free then."""
        text = read_text(self.path)
        there = storage.disk_fingerprint(self.path)
        base, self._opened, self._saved, self._base = self._base, there, text, text
        self._merge(base, text, "changes on disk merged")

    def _merge(self, base: str, text: str, label: str) -> None:
        old, other = Draft(base, self.path.name).data, Draft(text, self.path.name).data
        data, clashes = merged(old, self.draft.data, other)
        self.draft.take(data, label)
        both = f" Both changed: {'; '.join(clashes)}." if clashes else ""
        self.notice = f"Merged: {label}.{both} Undo takes it back."
        self._replace()

    def _replace_without_keeping(self) -> None:
        self.work_out()
        for listener in (*self._replaced, *self._changed):
            listener()

    def save(self, *, overwrite: bool = False) -> str:
        """Save the file; a sentence that says what became of it. Raises ChangedOnDisk, StorageError."""
        self._opened = storage.save(self.path, self.draft.text, self._opened, overwrite=overwrite)
        self._saved = self._base = self.draft.text
        storage.forget(storage.autosave_path(self.path, self.tab))
        open_ends = f" {self._entries()} in it can't be used yet." if self.draft.faults else ""
        self.notice = f"Saved as {self.path.name}.{open_ends}"
        for listener in self._changed:
            listener()
        return self.notice

    def save_as(self, path: Path) -> str:
        """Save under another name, which must be free. Raises StorageError."""
        if path.exists() and path != self.path:
            raise storage.StorageError(f"{path.name} exists already: give a name that is free.")
        before, opened = self.path, self._opened
        self.path, self._opened = path, self._opened if path == before else ""
        try:
            said = self.save()
        except storage.StorageError:
            self.path, self._opened = before, opened
            raise
        if before != path:
            storage.forget(storage.autosave_path(before, self.tab))
        return said

    def new(self, path: Path) -> None:
        """Begin another file, empty; its name must be free. Raises StorageError."""
        if path.exists():
            raise storage.StorageError(f"{path.name} exists already: give a name that is free.")
        self.open(path)

    def load_again(self) -> None:
        """Take the file as it is on disk now, as one step that can be undone."""
        text = read_text(self.path)
        self.draft.replace(text, "file loaded again", self.path.name)
        self._opened = storage.disk_fingerprint(self.path)
        self._saved = self._base = self.draft.text
        self.notice = f"{self.path.name} loaded again from disk. Undo goes back to your own."
        self._replace_without_keeping()

    @property
    def changed_on_disk(self) -> bool:
        """Whether the file on disk is not the one that was opened or saved last."""
        try:
            there = storage.disk_fingerprint(self.path)
        except ProjectError:
            return True
        return there != self._opened

    def _keep(self) -> None:
        try:
            if self.unsaved:
                storage.keep(self.path, self.draft.text, self._opened, self.tab)
            else:
                storage.forget(storage.autosave_path(self.path, self.tab))
        except storage.StorageError as error:
            self.notice = f"Your work is not kept beside the file: {error}"

    def places(self, key: str, which: Which | None) -> list[Location]:
        """Places of the fields of a section or part."""
        spec = section(key)
        head: Location = (key,) if spec.shape is Shape.ONE or which is None else (key, which)
        return [(*head, field.key) for field in spec.fields]
