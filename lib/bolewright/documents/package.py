"""Builds a calc package: package.pdf and package.html, both whole or neither."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from bolewright.documents.content import Attachment, Extract, PackageError, SheetContent, TitleBlock
from bolewright.documents.convert import convert
from bolewright.documents.html import html_of
from bolewright.documents.pdf import pdf_of
from bolewright.documents.places import places_of
from bolewright.documents.readback import check_paper, pages_led_to
from bolewright.documents.transaction import PackageFolder, Written, package_folder
from bolewright.rendering.blocks import Equations

PDF_NAME = "package.pdf"
HTML_NAME = "package.html"

Progress = Callable[[str], None]


@dataclass(frozen=True)
class PackagePaths:
    """Where the package was written, and what of the user's stayed in its folder."""

    pdf: Path
    html: Path
    written: Written


def build(
    sheets: Sequence[SheetContent],
    title_block: TitleBlock,
    project_text: str | None,
    out: Path | PackageFolder,
    progress: Progress = lambda said: None,
    beside: Mapping[str, bytes] | None = None,
    attached: Sequence[Attachment] = (),
    extracts: Mapping[str, Extract] | None = None,
) -> PackagePaths:
    """Write package.pdf and package.html of ``sheets`` into the folder ``out``, which is made if need be.

    Files ``beside`` them (name and bytes) are written with them: all or none.

    ``extracts`` are documents of their own, by file name; they name the pages of the package.

    ``project_text`` travels inside the PDF, and what is ``attached``. ``progress`` is told in a few words what is
    going on. The same input gives the same bytes. Raises :class:`PackageError` in one sentence; then nothing was
    written.
    """
    if not sheets:
        raise PackageError("a package needs one sheet at least")
    progress("Converting equations and text")
    converted = convert(sheets)
    progress("Setting the PDF")
    pdf = pdf_of(sheets, converted, title_block, project_text, attached)
    check_paper(pdf, [i for s in sheets for i in s.items if isinstance(i, Equations) and i.formula])
    pages = pages_led_to(pdf, sheets) if extracts else {}
    apart = {name: _extract(own, title_block, pages) for name, own in (extracts or {}).items()}
    progress("Writing the HTML page")
    html = html_of(sheets, converted, title_block).encode("utf-8")
    files = {PDF_NAME: pdf, HTML_NAME: html, **apart, **(beside or {})}
    written = write_whole(out, files)
    return PackagePaths(written.paths[PDF_NAME], written.paths[HTML_NAME], written)


def _extract(own: Extract, block: TitleBlock, package: Mapping[str, int]) -> bytes:
    """A document of its own, leading to the pages of the package where it has not what it speaks of itself."""
    here = places_of(own.sheets)
    pages = tuple((place, page) for place, page in package.items() if place not in here)
    single = replace(
        block,
        single=True,
        pages=pages,
        subtitle=own.subtitle or block.subtitle,
        size=own.size,
        grey=own.grey,
    )
    return pdf_of(own.sheets, convert(own.sheets), single, None)


def write_whole(out: Path | PackageFolder, files: Mapping[str, bytes]) -> Written:
    """Write files into a package's folder, taken for that if it is not yet (:mod:`.transaction`)."""
    if isinstance(out, PackageFolder):
        return out.write(files)
    with package_folder(out) as folder:
        return folder.write(files)
