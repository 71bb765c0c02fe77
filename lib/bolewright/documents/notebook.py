"""Reads an executed notebook into the content of a sheet. Code is never printed."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from bolewright.documents.content import (
    Content,
    Html,
    Markdown,
    Picture,
    Preformatted,
    SheetContent,
    SheetError,
    Vector,
)
from bolewright.rendering.blocks import BLOCK_MIME, BlockError, block_from_output

PARAMETERS = "parameters"
EQUATIONS = (
    "equations"  # a reader's cells: not printed, and run for the project only that they were stored with
)
NOT_PRINTED = frozenset({PARAMETERS, "hidden", "injected-parameters", EQUATIONS})
_WIDGET = "application/vnd.jupyter.widget-view+json"
_ANSI = re.compile(r"\x1b\[[0-9;]*[A-Za-z]")
_HEADING = re.compile(r"\s*#\s+(?P<title>[^\n]+?)\s*#*\s*(?:\n|$)")
_PICTURES = {"image/png": "png", "image/jpeg": "jpg"}


def read_sheet(path: Path) -> SheetContent:
    """Content of the executed notebook at ``path``; :class:`SheetError` when it can't be read."""
    import nbformat  # slow to import, and not needed for the sheets that ship

    try:
        notebook = nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]
    except (OSError, ValueError, nbformat.ValidationError) as error:
        raise SheetError(
            f"the sheet {path.name} can't be read as a notebook: {_first_line(error)}"
        ) from error
    return sheet_of(notebook, path.stem)


def sheet_of(notebook: Any, name: str) -> SheetContent:
    """Content of an executed notebook named ``name`` (``03_joists``: its file's name).

    The first ``# heading`` is the title; the leading number of the name is the sheet's number. Cells tagged
    ``parameters`` or ``hidden`` are not printed. Raises :class:`SheetError` for a cell that was not run, or
    that ended in an error.
    """
    items: list[Content] = []
    attachments: list[tuple[str, Picture]] = []
    for position, cell in enumerate(notebook.cells, start=1):
        if NOT_PRINTED & set(cell.metadata.get("tags", ())):
            continue
        if cell.cell_type == "markdown":
            items.append(Markdown(cell.source))
            attachments += _attachments(cell)
        elif cell.cell_type == "code" and cell.source.strip():
            items += _outputs(cell, f"cell {position} of the sheet {name}")
    return numbered(name, items, attachments)


def numbered(
    name: str, items: Iterable[Content], attachments: Iterable[tuple[str, Picture]] = ()
) -> SheetContent:
    """A sheet named ``name`` of its content; the first ``# heading`` of it is the title."""
    number = re.match(r"\d+", name)
    title = ""
    kept: list[Content] = []
    for item in items:
        if isinstance(item, Markdown):
            text = item.text
            if not title and (match := _HEADING.match(text)):
                title, text = match["title"], text[match.end() :]
            if not text.strip():
                continue
            item = Markdown(text)
        kept.append(item)
    return SheetContent(
        title=title or re.sub(r"^\d+[-_ ]*", "", name).replace("_", " ").capitalize() or name,
        number=str(int(number[0])) if number else "",
        items=tuple(kept),
        attachments=tuple(attachments),
    )


def _outputs(cell: Any, where: str) -> Iterator[Content]:
    if cell.execution_count is None:
        raise SheetError(f"{where} has not been run")
    for output in cell.outputs:
        match output.output_type:
            case "error":
                raise SheetError(f"{where} ended in an error: {output.ename}: {output.evalue}")
            case "stream" if output.name == "stdout" and output.text.strip():
                yield Preformatted(_ANSI.sub("", output.text).rstrip())
            case "display_data" | "execute_result":
                yield from _display(output.data, where)


def _display(data: Mapping[str, Any], where: str) -> Iterator[Content]:
    """The best of an output's forms; a widget belongs to the screen and is left out."""
    if BLOCK_MIME in data:
        try:
            yield block_from_output(data)
        except BlockError as error:
            raise SheetError(f"{where}: {error}") from error
    elif _WIDGET in data:
        return
    elif "image/svg+xml" in data:
        yield Vector("".join(data["image/svg+xml"]))
    elif picture := next((mime for mime in _PICTURES if mime in data), None):
        yield Picture(base64.b64decode("".join(data[picture])), _PICTURES[picture])
    elif "text/markdown" in data:
        yield Markdown("".join(data["text/markdown"]))
    elif "text/latex" in data:
        yield Markdown("".join(data["text/latex"]).replace(r"\displaystyle ", ""))
    elif "text/html" in data:
        yield Html("".join(data["text/html"]))
    elif "text/plain" in data:
        yield Preformatted(_ANSI.sub("", "".join(data["text/plain"])))


def _attachments(cell: Any) -> Iterator[tuple[str, Picture]]:
    for name, bundle in sorted(cell.get("attachments", {}).items()):
        for mime, suffix in _PICTURES.items():
            if mime in bundle:
                yield name, Picture(base64.b64decode("".join(bundle[mime])), suffix)


def _first_line(error: BaseException) -> str:
    return (str(error).splitlines() or [type(error).__name__])[0]
