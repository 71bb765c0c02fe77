"""A part sheet on paper: the content of its page, as PDF or as one HTML file."""

from __future__ import annotations

import datetime
import hashlib
import tempfile
from collections.abc import Sequence
from pathlib import Path

from bolewright import __version__
from bolewright.documents.content import Markdown, PackageError, Paper, SheetContent, TitleBlock
from bolewright.documents.convert import convert
from bolewright.documents.html import html_of
from bolewright.documents.in_si import si_beside
from bolewright.documents.pdf import pdf_of
from bolewright.documents.readback import check_paper
from bolewright.part_sheets.blank import blanked, key_of
from bolewright.part_sheets.sheet import (
    LEFT_BLANK,
    PartSheet,
    changed_block,
    example_block,
    given_block,
    input_block,
    limit_block,
    not_checked_block,
    notes_block,
    verdict_block,
)
from bolewright.rendering.blocks import Block, Equations, KeyValues, Table

SUFFIXES = (".pdf", ".html")


def content_of(sheet: PartSheet, *, blank: bool = False, metric: bool = False) -> SheetContent:
    """What stands on the sheet, in order; ``blank`` leaves out what is worked out and puts a key at the end.

    ``metric`` has SI beside.
    """
    content = _content(sheet, blank)
    return si_beside(content, equations=not blank) if metric else content


def _content(sheet: PartSheet, blank: bool) -> SheetContent:
    kind = sheet.kind
    shown = blanked if blank else _as_it_is
    before = (sheet.given.title, sheet.given.before)
    titled = [*([before] if sheet.given.before else []), *sheet.steps]
    items: list[Markdown | Block] = [Markdown(kind.about), *changed_block(sheet)]
    items += [] if blank else [verdict_block(sheet.limits)]
    made = (("Program", f"bolewright {__version__}"), ("Fingerprint", fingerprint(sheet)))
    typed = input_block(sheet)
    items.append(KeyValues((*typed.pairs, *made), typed.caption))
    items += kind.figures(sheet.inputs, sheet.given, sheet.values, blank)
    items += [given_block(sheet, blank=blank), *notes_block(sheet)]
    for title, blocks in titled:
        items += [Markdown(f"## {title}"), *(shown(block) for block in blocks)]
    items.append(Markdown("## Result"))
    if blank:
        items += [
            _blank_limits(sheet),
            not_checked_block(kind),
            Markdown("## Key"),
            key_of(sheet.given.symbols, sheet.given.before, sheet.steps),
        ]
    items += [limit_block(sheet.limits), verdict_block(sheet.limits), *example_block(sheet)]
    if not blank:
        items.append(not_checked_block(kind))
    return SheetContent(f"{kind.title} {sheet.texts['mark']}".strip(), "", tuple(items))


def _as_it_is(block: Block) -> Block:
    return block


def _blank_limits(sheet: PartSheet) -> Table:
    rows = tuple((j.limit.words, LEFT_BLANK, LEFT_BLANK, LEFT_BLANK, j.limit.clause) for j in sheet.limits)
    return Table(("limit state", "demand", "allowed", "ratio", "clause"), rows, "Ratios to fill in", "lrrrl")


def fingerprint(sheet: PartSheet) -> str:
    """Version and a short sum of the inputs, and of the calculation where it was changed by hand.

    Equal inputs on equal versions have equal ones.
    """
    text = "\n".join(f"{name}={value}" for name, value in sorted(sheet.texts.items()))
    if sheet.changed:
        alts = (getattr(b, "alt", "") for _, blocks in sheet.steps for b in blocks)
        text = "\n".join((text, sheet.changed, *alts))
    found = hashlib.sha256(f"{sheet.kind.name} {text}".encode()).hexdigest()
    return f"{__version__}-{found[:10]}"


def title_block(sheet: PartSheet, day: datetime.date, paper: Paper = Paper.LETTER) -> TitleBlock:
    """The sheet's title block."""
    return TitleBlock(
        project=sheet.inputs.project or "Single part",
        site=sheet.inputs.site,
        revision="",
        date=sheet.inputs.date or day,
        prepared_by=sheet.inputs.by,
        checked_by="",
        fingerprint=fingerprint(sheet),
        subtitle=f"{sheet.kind.title} {sheet.texts['mark']}".strip(),
        paper=paper,
        single=True,
    )


def write(
    sheet: PartSheet, out: Path, *, blank: bool = False, paper: Paper = Paper.LETTER, metric: bool = False
) -> Path:
    """Write the sheet as ``out`` says by its suffix, .pdf or .html.

    Raises :class:`PackageError` in one sentence; then nothing was written.
    """
    if out.suffix.lower() not in SUFFIXES:
        raise PackageError(f"{out.name} is no PDF or HTML file: end its name with .pdf or .html")
    contents = [content_of(sheet, blank=blank, metric=metric)]
    data = data_of(contents, title_block(sheet, datetime.date.today(), paper), out.suffix.lower())
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".bolewright-", dir=out.parent) as place:
            whole = Path(place, out.name)
            whole.write_bytes(data)
            whole.replace(out)  # whole or not at all
    except OSError as error:
        raise PackageError(f"{out} can't be written: {error.strerror or error}") from None
    return out


def data_of(contents: Sequence[SheetContent], block: TitleBlock, suffix: str) -> bytes:
    """The bytes of the sheets; every equation of the PDF is read back from it."""
    converted = convert(contents)
    if suffix == ".html":
        return html_of(contents, converted, block).encode("utf-8")
    pdf = pdf_of(contents, converted, block, None)
    check_paper(pdf, [i for s in contents for i in s.items if isinstance(i, Equations) and i.formula])
    return pdf
