"""A user's own note on a calc sheet: a markdown cell in the user's copy of it, printed with the package."""

from __future__ import annotations

from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as w
import nbformat

from bolewright.platform.check import Topic
from bolewright.workbook import storage
from bolewright.workbook.desk import Desk

NOTE_ID = "workbook-note"


class Notes:
    """The note of the sheet shown. Only a sheet whose copy lies beside the project file can take one."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.topic = Topic.DECKING
        self.text = w.Textarea(description="Your note on this sheet (it is printed)", rows=3)
        self.keep = w.Button(description="Keep the note")
        self.keep.on_click(self._keep)
        self.said = w.HTML()
        self.box = w.VBox([self.text, self.keep, self.said])
        self.box.add_class("bw-field")

    def show(self, topic: Topic) -> None:
        """Show the note of a sheet."""
        if topic is self.topic and self.text.value:
            return
        self.topic = topic
        path = sheet_path(self.desk.folder, topic)
        self.text.disabled = self.keep.disabled = path is None
        self.text.value = read_note(path) if path is not None else ""
        self.said.value = (
            ""
            if path is not None
            else '<p class="bw-help">No copy of this sheet lies beside the project file; the shipped sheet is used.</p>'
        )

    def _keep(self, _: Any) -> None:
        path = sheet_path(self.desk.folder, self.topic)
        if path is None:
            return
        try:
            write_note(path, self.text.value)
        except storage.StorageError as error:
            self.said.value = f'<p class="bw-wrong" role="alert">✗ {escape(str(error))}</p>'
        else:
            self.said.value = f'<p class="bw-meant" role="status">Kept in {escape(path.name)}.</p>'


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
