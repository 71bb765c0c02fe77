"""Writes a package as one HTML page: no request, MathML, drawings inline; a script only where a figure turns."""

from __future__ import annotations

import base64
import re
from collections import Counter
from collections.abc import Sequence
from functools import cache
from html import escape
from importlib import resources

from bolewright.documents.content import (
    EMPTY_AREA,
    NOT_AN_APPROVAL,
    Content,
    Html,
    Index,
    Markdown,
    Picture,
    Preformatted,
    Review,
    SheetContent,
    TitleBlock,
    Vector,
)
from bolewright.documents.convert import Converted
from bolewright.documents.embed import svg_for_html
from bolewright.documents.markdown import data_uri
from bolewright.documents.places import equation_place, figure_place, places_of
from bolewright.rendering import palette
from bolewright.rendering.blocks import (
    Cell,
    Equations,
    Figure,
    Heading,
    KeyValues,
    Statement,
    StatementKind,
    Table,
    turning_script,
)
from bolewright.rendering.palette import Status
from bolewright.rendering.wording import html_symbols, html_words

# sheets of a package that are unfolded when it is opened; a link to a place in another unfolds that
OPEN = 2
_HEADING = re.compile(r"<(/?)h([2-5])\b")


_REVIEW = f"""<div class="review">
<div><span class="label">Reviewed by, date, remarks</span></div>
<div><span class="label">Stamp and signature</span></div>
</div>
<p class="small">{escape(EMPTY_AREA)}</p>
"""


def html_of(sheets: Sequence[SheetContent], converted: Converted, title_block: TitleBlock) -> str:
    """The package as one self-contained HTML page."""
    block = title_block
    title = f"{block.project}, {block.subtitle}"
    contents = "".join(
        f'<li><a href="#sheet-{row}">{escape(sheet.heading)}</a></li>\n'
        for row, sheet in enumerate(sheets, 1)
    )
    ids = _Ids(sheets)
    signed = any(isinstance(item, Review) for sheet in sheets for item in sheet.items)
    body = "\n".join(
        _sheet(sheet, row, len(sheets), converted, block, ids) for row, sheet in enumerate(sheets, start=1)
    )
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{escape(title)}</title>
<style>
{_style()}
</style>
</head>
<body>
<a class="skip" href="#main">Skip to the sheets</a>
<header class="cover">
<p class="label">{escape(block.subtitle)}</p>
<h1>{escape(block.project)}</h1>
<p>{escape(block.site)}</p>
{_outcome(block)}<dl>
<div><dt>Revision</dt><dd>{escape(block.revision)}</dd></div>
<div><dt>Date</dt><dd>{block.date.isoformat()}</dd></div>
<div><dt>Prepared by</dt><dd>{escape(block.prepared_by)}</dd></div>
<div><dt>Checked by</dt><dd>{escape(block.checked_by)}</dd></div>
<div><dt>Fingerprint</dt><dd>{escape(block.fingerprint)}</dd></div>
{_more_facts(block, ids)}</dl>
{"" if signed else _REVIEW}<p class="small">{escape(NOT_AN_APPROVAL)}</p>
</header>
{_nav(block, contents)}<main id="main">
{body}
</main>
<footer class="small">{escape(NOT_AN_APPROVAL)}</footer>{_script(sheets)}
</body>
</html>
"""


def _more_facts(block: TitleBlock, ids: _Ids) -> str:
    """Version, the package before, and the check nearest to its limit, where they are given."""
    facts = [("Version", escape(block.version)), ("Takes the place of", escape(block.supersedes))]
    if block.governing is not None:
        facts.append(("Nearest to its limit", ids.link(block.governing.to, html_words(block.governing.text))))
    return "".join(f"<div><dt>{name}</dt><dd>{value}</dd></div>\n" for name, value in facts if value)


def _nav(block: TitleBlock, contents: str) -> str:
    """The list of sheets; none where one stands by itself."""
    if block.single:
        return ""
    return f"""<nav aria-label="Contents">
<details>
<summary>Contents</summary>
<ol class="plain">
{contents}</ol>
</details>
</nav>
"""


def _outcome(block: TitleBlock) -> str:
    """The outcome of all checks, loud on the cover."""
    outcome = block.outcome
    if outcome is None:
        return ""
    name = outcome.status.name.lower().replace("_", "-")
    return (
        f'<div class="outcome {name}"><p><strong><span aria-hidden="true">{outcome.status.mark}</span> '
        f"{outcome.words}</strong></p><p>{outcome.advice}</p></div>\n"
    )


def _script(sheets: Sequence[SheetContent]) -> str:
    """The one script of the page, where a figure turns; it stands still without."""
    turns = any(isinstance(item, Figure) and item.scene for sheet in sheets for item in sheet.items)
    return f"\n<script>\n{turning_script()}</script>" if turns else ""


class _Ids:
    """Names in the page of the places that are led to; each is given once, where it stands first."""

    def __init__(self, sheets: Sequence[SheetContent]) -> None:
        self._ids: dict[str, str] = {}
        self._given: set[str] = set()
        used: Counter[str] = Counter()
        for row, sheet in enumerate(sheets, start=1):
            if sheet.place:
                self._ids.setdefault(sheet.place, f"sheet-{row}")
        for place in sorted(places_of(sheets), key=str):
            # the same from one revision to the next, so that a link to a row that was sent still leads to it
            name = re.sub(r"[^\w.]+", "-", place).strip("-")
            used[name] += 1
            self._ids.setdefault(place, f"{name}~{used[name]}" if used[name] > 1 else name)

    def here(self, place: str) -> str:
        """Attribute of the element at a place, the first time."""
        if not place or place in self._given or place not in self._ids:
            return ""
        self._given.add(place)
        return f' id="{self._ids[place]}"'

    def link(self, place: str, html: str) -> str:
        """What leads there."""
        return f'<a href="#{self._ids[place]}">{html}</a>' if place in self._ids else html


def _sheet(
    sheet: SheetContent, row: int, count: int, converted: Converted, block: TitleBlock, ids: _Ids
) -> str:
    unfolded = " open" if block.single or row <= OPEN else ""
    place = " · ".join(
        escape(words)
        for words in (
            block.project,
            block.site,
            f"Sheet {row} of {count}",
            f"Revision {block.revision}",
            block.date.isoformat(),
            f"Prepared {block.prepared_by}",
            f"Checked {block.checked_by}",
            block.fingerprint,
            f"{block.outcome.words}. Not approved by anyone" if block.outcome else "",
        )
        if words
    )
    items = "\n".join(
        _item(item, converted, (row - 1, column), f"s{row}i{column}", ids)
        for column, item in enumerate(sheet.items)
    )
    return (
        f'<article aria-labelledby="sheet-{row}-title">\n<details{unfolded}>\n'
        f'<summary><h2 id="sheet-{row}-title">{escape(sheet.heading)}</h2></summary>\n'
        f'<p class="place" id="sheet-{row}">{place}</p>\n{items}\n</details>\n</article>'
    )


def _item(item: Content, converted: Converted, place: tuple[int, int], key: str, ids: _Ids) -> str:
    match item:
        case Equations():
            return _equations(item, converted, ids)
        case Table():
            return _table(item, ids)
        case Heading():
            back = f' <span class="small">{ids.link(item.back, "table")}</span>' if item.back else ""
            level = item.level + 1
            return f"<h{level}{ids.here(item.anchor)}>{html_words(item.text)}{back}</h{level}>"
        case Review():
            return _REVIEW
        case Index():
            entries = "".join(
                f"<li>{html_words(words)} "
                + ", ".join(ids.link(at, str(i)) for i, at in enumerate(places, start=1))
                + "</li>\n"
                for words, places in item.entries
            )
            return f'<h3>{escape(item.title)}</h3>\n<ul class="index">\n{entries}</ul>'
        case KeyValues():
            rows = "".join(
                f'<tr><th scope="row">{html_words(name)}</th>{_cell(value, "l", ids)}</tr>\n'
                for name, value in item.pairs
            )
            return _scrolling(
                f'<table class="values">{_caption(item.caption)}<tbody>\n{rows}</tbody></table>'
            )
        case Statement():
            return _statement(item)
        case Figure():
            caption = f"<figcaption>{escape(item.caption)}</figcaption>" if item.caption else ""
            scene = f' data-scene="{escape(item.scene)}"' if item.scene else ""
            here = ids.here(figure_place(item.once)) if item.once else ""
            return f"<figure{here}{scene}>{svg_for_html(item.svg, item.alt, key)}{caption}</figure>"
        case Vector():
            return f"<figure>{svg_for_html(item.svg, item.alt, key)}</figure>"
        case Picture():
            return f'<figure><img src="{data_uri(item)}" alt="{escape(item.alt)}"></figure>'
        case Preformatted():
            return f'<pre tabindex="0">{escape(item.text)}</pre>'
        case Markdown() | Html():
            # the page has h1 for the package and h2 for a sheet; tables scroll on a narrow screen
            html = _HEADING.sub(lambda m: f"<{m[1]}h{int(m[2]) + 1}", converted.texts[place].html)
            html = html.replace("<table", '<div class="scroll" tabindex="0"><table')
            return f'<div class="text">{html.replace("</table>", "</table></div>")}</div>'


def _equations(item: Equations, converted: Converted, ids: _Ids) -> str:
    here = ids.here(equation_place(item.number)) if item.number else ""
    number = f'<span class="clause">({item.number})</span> ' if item.number else ""
    clause = f' <span class="clause">{html_words(item.clause)}</span>' if item.clause else ""
    notes = "".join(f'<p class="note">{html_words(note)}</p>' for note in item.notes)
    if item.given:
        given = "; ".join(f"{html_symbols(symbols)} {html_words(words)}" for symbols, words in item.given)
        notes = f'<p class="given">Here {given}.</p>{notes}'
    displays = "\n".join(_scrolling(display.mathml, "maths") for display in converted.displays[item])
    return (
        f'<section class="equations"{here}><p class="head">{number}<strong>{html_words(item.title)}</strong>'
        f"{clause}</p>\n"
        f"{displays}\n{notes}</section>"
    )


def _table(item: Table, ids: _Ids) -> str:
    letters = item.alignment
    head = "".join(
        f'<th scope="col" class="{letter}">{html_words(column)}</th>'
        for column, letter in zip(item.columns, letters, strict=True)
    )
    tails = [max((_decimals(row[i]) for row in item.rows), default=0) for i in range(len(item.columns))]
    rows = "".join(
        "<tr>"
        + "".join(
            _cell(cell, letter, ids, tail - _decimals(cell) if letter == "d" else 0)
            for cell, letter, tail in zip(row, letters, tails, strict=True)
        )
        + "</tr>\n"
        for row in item.rows
    )
    return _scrolling(
        f"<table>{_caption(item.caption)}<thead><tr>{head}</tr></thead>\n<tbody>\n{rows}</tbody></table>"
    )


def _cell(cell: str | Cell, letter: str, ids: _Ids, tail: int = 0) -> str:
    """One cell; ``tail`` digits' room on the right brings decimal points under each other."""
    one = cell if isinstance(cell, Cell) else Cell(cell)
    room = f' style="padding-right:calc(.45em + {tail}ch)"' if tail else ""
    words = html_words(one.text)
    name, mark = "", ""
    if one.status is not None:
        name = f" {one.status.name.lower().replace('_', '-')}"
        mark = f'<span aria-hidden="true">{one.status.mark}</span> '
    shown = ids.link(one.to, words or "derivation") if one.to else words
    return f'<td class="{letter}{name}"{ids.here(one.anchor)}{room}>{mark}{shown}</td>'


def _decimals(cell: str | Cell) -> int:
    found = re.search(r"\.(\d+)", cell.text if isinstance(cell, Cell) else cell)
    return len(found[1]) + 1 if found else 0


def _statement(item: Statement) -> str:
    kind = item.kind.name.lower()
    if len(item.items) == 1:
        body = f"<p>{html_words(item.items[0])}</p>"
    else:
        body = "<ul>" + "".join(f"<li>{html_words(words)}</li>" for words in item.items) + "</ul>"
    if item.kind is StatementKind.ASIDE:
        return f'<div class="aside">{body}</div>'
    role = ' role="note"' if item.kind not in (StatementKind.FAILURE, StatementKind.OPEN) else ""
    return (
        f'<section class="statement {kind}"{role} aria-label="{item.kind.value}">'
        f'<p class="kind">{item.kind.value}</p>{body}</section>'
    )


def _caption(words: str) -> str:
    return f"<caption>{html_words(words)}</caption>" if words else ""


def _scrolling(html: str, extra: str = "") -> str:
    return f'<div class="{f"scroll {extra}".strip()}" tabindex="0">{html}</div>'


@cache
def _style() -> str:
    folder = resources.files("bolewright.documents") / "templates"
    css = (folder / "package.css").read_text(encoding="utf-8")
    font = base64.b64encode((folder / "maths.woff2").read_bytes()).decode("ascii")
    names = {
        "INK": palette.INK,
        "SOFT": palette.SOFT_INK,
        "RULE": palette.RULE,
        "WASH": palette.WASH,
        "ACCENT": palette.ACCENT,
        "HIGHLIGHT": palette.HIGHLIGHT,
        "PASSES": Status.PASSES.colour,
        "FAILS": Status.FAILS.colour,
        "UNCHECKED": Status.NOT_CHECKED.colour,
        "FONT": font,
    }
    return re.sub(r"@([A-Z]+)@", lambda m: names[m[1]], css).strip()
