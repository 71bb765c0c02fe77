"""Builds a calc package: package.pdf and package.html, both whole or neither."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from bolewright.documents.content import PackageError, SheetContent, TitleBlock
from bolewright.documents.convert import convert
from bolewright.documents.html import html_of
from bolewright.documents.manifest import MANIFEST, manifest_of, remove_files, stale_files
from bolewright.documents.pdf import pdf_of
from bolewright.documents.readback import check_paper
from bolewright.rendering.blocks import Equations

PDF_NAME = "package.pdf"
HTML_NAME = "package.html"

Progress = Callable[[str], None]


@dataclass(frozen=True)
class PackagePaths:
    """Where the package was written."""

    pdf: Path
    html: Path


def build(
    sheets: Sequence[SheetContent],
    title_block: TitleBlock,
    project_text: str | None,
    out_dir: Path,
    progress: Progress = lambda said: None,
    beside: Mapping[str, bytes] | None = None,
) -> PackagePaths:
    """Write package.pdf and package.html of ``sheets`` into ``out_dir``, which is made if need be.

    Files ``beside`` them (name and bytes) are written with them: all or none.

    ``project_text`` travels inside the PDF. ``progress`` is told in a few words what is going on. The same
    input gives the same bytes. Raises :class:`PackageError` in one sentence; then nothing was written.
    """
    if not sheets:
        raise PackageError("a package needs one sheet at least")
    progress("Converting equations and text")
    converted = convert(sheets)
    progress("Setting the PDF")
    pdf = pdf_of(sheets, converted, title_block, project_text)
    check_paper(pdf, [i for s in sheets for i in s.items if isinstance(i, Equations) and i.formula])
    progress("Writing the HTML page")
    html = html_of(sheets, converted, title_block).encode("utf-8")
    files = {PDF_NAME: pdf, HTML_NAME: html, **(beside or {})}
    write_whole(out_dir, {**files, MANIFEST: manifest_of(files)})
    return PackagePaths(out_dir / PDF_NAME, out_dir / HTML_NAME)


def write_whole(out_dir: Path, files: dict[str, bytes]) -> None:
    """Write all ``files`` into ``out_dir``: beside their names first, then moved over, none half written.

    A name may lie in a folder of its own (``drawings/plan.svg``). What an earlier package left there and this one does
    not have is taken away, unless it was changed since (:mod:`bolewright.documents.manifest`).

    Raises :class:`PackageError` when the folder can't be written.
    """
    try:
        out_dir.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=out_dir, prefix=".package-") as folder:
            for name, data in files.items():
                Path(folder, name).parent.mkdir(parents=True, exist_ok=True)
                Path(folder, name).write_bytes(data)
            blocked = next((name for name in files if (out_dir / name).is_dir()), None)
            if blocked:
                raise PackageError(
                    f"{out_dir / blocked} is a folder, a file of that name is to be written there"
                )
            stale = stale_files(out_dir, files)
            for name in files:
                (out_dir / name).parent.mkdir(parents=True, exist_ok=True)
                os.replace(Path(folder, name), out_dir / name)
            remove_files(out_dir, stale)
    except OSError as error:
        raise PackageError(f"the folder {out_dir} can't be written: {error.strerror or error}") from error
