"""A user's own note on a calc sheet: a markdown cell in the user's copy of it, printed with the package."""

from __future__ import annotations

from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as w
import nbformat

from bolewright.platform.limit_states.check import Topic
from bolewright.workbook import storage
from bolewright.workbook.desk import Desk

NOTE_ID = "workbook-note"
_NO_COPY = "No copy of this sheet lies beside the project file; the shipped sheet is used."


class Notes:
    """The note of the sheet shown. Only a sheet whose copy lies beside the project file can take one."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.topic: Topic | None = None
        self.typed: dict[Topic, str] = {}
        self.text = w.Textarea(description="Your note on this sheet (it is printed)", rows=3)
        self.keep = w.Button(description="Keep the note")
        self.keep.on_click(self._keep)
        self.text.observe(self._typing, "value")
        self.said = w.HTML()
        self.box = w.VBox([self.text, self.keep, self.said])
        self.box.add_class("bw-field")

    def show(self, topic: Topic) -> None:
        """Show the note of a sheet, as it was typed last though it isn't kept yet."""
        if topic is self.topic:
            return
        self.topic = None
        path = sheet_path(self.desk.folder, topic)
        kept = read_note(path) if path is not None else ""
        self.text.disabled = self.keep.disabled = path is None
        self.text.value = self.typed.get(topic, kept)
        self.topic = topic
        self._say()
        if path is None:
            self.said.value = f'<p class="bw-help">{_NO_COPY}</p>'

    def _say(self) -> None:
        waits = self.topic is not None and self.topic in self.typed
        self.said.value = '<p class="bw-wrong">Not kept yet.</p>' if waits else ""

    def _typing(self, change: Any) -> None:
        if self.topic is not None:
            self.typed[self.topic] = change["new"]
            self._say()

    def _keep(self, _: Any) -> None:
        path = None if self.topic is None else sheet_path(self.desk.folder, self.topic)
        if path is None or self.topic is None:
            return
        try:
            write_note(path, self.text.value)
        except storage.StorageError as error:
            self.said.value = f'<p class="bw-wrong bw-loud">✗ {escape(str(error))}</p>'
        else:
            self.typed.pop(self.topic, None)
            self.said.value = f'<p class="bw-meant bw-loud">Kept in {escape(path.name)}.</p>'


def sheet_path(folder: Path, topic: Topic) -> Path | None:
    """The user's copy of the sheet of a topic, where there is one."""
    return next(iter(sorted(folder.glob(f"[0-9]*_{topic.value.replace(' ', '_')}.ipynb"))), None)


def read_note(path: Path) -> str:
    """The note in a sheet; empty for none, and for a sheet that can't be read."""
    try:
        notebook: Any = nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]
    except (OSError, ValueError, nbformat.ValidationError):
        return ""
    return next((str(cell.source) for cell in notebook.cells if cell.get("id") == NOTE_ID), "")


def write_note(path: Path, text: str) -> None:
    """Put a note at the end of a sheet, or take it away with an empty text. Raises StorageError."""
    try:
        notebook: Any = nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]
    except (OSError, ValueError, nbformat.ValidationError) as error:
        raise storage.StorageError(f"{path.name} can't be read as a notebook: {error}.") from None
    notebook.cells = [cell for cell in notebook.cells if cell.get("id") != NOTE_ID]
    if text.strip():
        notebook.cells.append(nbformat.v4.new_markdown_cell(text, id=NOTE_ID))  # type: ignore[no-untyped-call]
    storage.write_whole(path, nbformat.writes(notebook) + "\n")  # type: ignore[no-untyped-call]
