"""Sets a package as PDF: our own Typst template fed with JSON, so that no text is read as markup."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from importlib import resources
from typing import Any

import typst

from bolewright.documents.content import (
    ATTACHED_PROJECT,
    EMPTY_AREA,
    NOT_AN_APPROVAL,
    Attachment,
    Content,
    Html,
    Index,
    Markdown,
    PackageError,
    Picture,
    Preformatted,
    Review,
    SheetContent,
    TitleBlock,
    Vector,
)
from bolewright.documents.convert import Converted
from bolewright.documents.embed import greyed, svg_for_pdf
from bolewright.documents.markdown import picture_name, soft, typst_string
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
)
from bolewright.rendering.palette import Status
from bolewright.rendering.wording import SYMBOL, shown

KEPT_WITH_NEXT = 900  # characters: a text no longer stays on the page of what it introduces
STANDARDS = ["a-3a", "ua-1"]


def pdf_of(
    sheets: Sequence[SheetContent],
    converted: Converted,
    title_block: TitleBlock,
    project_text: str | None,
    attached: Sequence[Attachment] = (),
) -> bytes:
    """The package as PDF, tagged for readers (PDF/UA-1) and for archives (PDF/A-3a).

    Where a user's text or drawing can't meet those standards the same pages are written without them. Raises
    :class:`PackageError` when the sheets can't be set at all.
    """
    source = _Source(converted)
    source.add(sheets, title_block, project_text, attached)
    try:
        return _compiled(source.files, STANDARDS)
    except typst.TypstError:
        try:
            return _compiled(source.files, [])
        except typst.TypstError as error:
            said = str(error).strip().splitlines() or ["no reason given"]
            raise PackageError(f"the PDF could not be set: {said[0]}") from error


def _project(text: str) -> Attachment:
    says = "Project file these sheets were calculated from"
    return Attachment(ATTACHED_PROJECT, text.encode("utf-8"), "application/toml", says)


def _compiled(files: dict[str, bytes], standards: list[str]) -> bytes:
    compile_files: Any = typst.compile  # its annotations leave out the form with files by name
    done: bytes = compile_files(files, format="pdf", ignore_system_fonts=True, pdf_standards=standards)
    return done


class _Source:
    """The files the typesetter reads, by name."""

    def __init__(self, converted: Converted) -> None:
        templates = resources.files("bolewright.documents") / "templates"
        self.converted = converted
        self.files: dict[str, bytes] = {
            "main.typ": (templates / "package.typ").read_bytes(),
            "markdown.typ": (templates / "markdown.typ").read_bytes(),
            **converted.pictures,
        }
        self._maths: dict[Equations, str] = {}
        self._places: frozenset[str] = frozenset()
        self._named: set[str] = set()
        self._colour: Callable[[str], str] = str

    def add(
        self,
        sheets: Sequence[SheetContent],
        block: TitleBlock,
        project_text: str | None,
        attached: Sequence[Attachment] = (),
    ) -> None:
        own = [] if project_text is None else [_project(project_text)]
        colour = self._colour = greyed if block.grey else str
        self._places = places_of(sheets) | {place for place, _ in block.pages}
        content = {
            "lang": "en",
            "size": block.size,
            "symbol": SYMBOL,
            "look": {
                "ink": colour(palette.INK),
                "soft": colour(palette.SOFT_INK),
                "rule": colour(palette.RULE),
                "wash": colour(palette.WASH),
                "accent": colour(palette.ACCENT),
                "status": {s.value: {"mark": s.mark, "colour": colour(s.colour)} for s in Status},
            },
            "paper": dict(zip(("name", "width", "height"), block.paper.value, strict=True)),
            "day": {"year": block.date.year, "month": block.date.month, "day": block.date.day},
            "title-block": {
                "project": block.project,
                "site": block.site,
                "subtitle": block.subtitle,
                "revision": block.revision,
                "date": block.date.isoformat(),
                "prepared": block.prepared_by,
                "checked": block.checked_by,
                "fingerprint": block.fingerprint,
                "version": block.version,
                "supersedes": block.supersedes,
                "author": block.prepared_by,
                "attached": f"{ATTACHED_PROJECT}, attached to this document"
                if project_text
                else "not attached",
            },
            "outcome": {
                "status": block.outcome.status.value,
                "words": block.outcome.words,
                "advice": block.outcome.advice,
            }
            if block.outcome
            else None,
            "governing": self._cell(block.governing) if block.governing else None,
            "single": block.single,
            "signed": any(isinstance(item, Review) for sheet in sheets for item in sheet.items),
            "pages": dict(block.pages),
            "not-an-approval": NOT_AN_APPROVAL,
            "empty-area": EMPTY_AREA,
            "attached": [
                {"name": file.name, "mime": file.mime, "says": file.says, "source": file in own}
                for file in (*own, *attached)
            ],
            "sheets": [
                {
                    "heading": sheet.heading,
                    "follows": sheet.follows,
                    "place": self._place(sheet.place),
                    "listed": sheet.listed,
                    "items": [self._item(item, (row, column)) for column, item in enumerate(sheet.items)],
                }
                for row, sheet in enumerate(sheets)
            ],
        }
        self.files |= {file.name: file.data for file in (*own, *attached)}
        self.files["content.json"] = json.dumps(content, ensure_ascii=False).encode("utf-8")
        self.files["maths.typ"] = self._maths_file().encode("utf-8")

    def _item(self, item: Content, place: tuple[int, int]) -> dict[str, Any]:
        match item:
            case Equations():
                key = self._maths.setdefault(item, f"m{len(self._maths)}")
                return {
                    "type": "equations",
                    "title": shown(item.title),
                    "clause": shown(item.clause),
                    "notes": [shown(note) for note in item.notes],
                    "given": [[symbols.split(", "), shown(words)] for symbols, words in item.given],
                    "key": key,
                    "number": item.number,
                    "place": self._place(equation_place(item.number)) if item.number else None,
                }
            case Heading():
                return {
                    "type": "heading",
                    "text": shown(item.text),
                    "level": item.level,
                    "new-page": item.new_page,
                    "place": self._place(item.anchor),
                    "back": item.back if item.back in self._places else None,
                }
            case Review():
                return {"type": "review"}
            case Index():
                entries = [
                    [shown(words), [place for place in places if place in self._places]]
                    for words, places in item.entries
                ]
                return {"type": "index", "title": item.title, "entries": entries}
            case Table():
                return {
                    "type": "table",
                    "columns": [shown(column) for column in item.columns],
                    "rows": [[self._cell(cell) for cell in row] for row in item.rows],
                    "caption": shown(item.caption),
                    "align": item.alignment,
                    "widths": list(item.widths),
                }
            case KeyValues():
                pairs = [[shown(name), self._cell(value)] for name, value in item.pairs]
                return {"type": "key-values", "pairs": pairs, "caption": item.caption}
            case Statement():
                return {
                    "type": "statement",
                    "heading": item.kind.value,
                    "items": [shown(words) for words in item.items],
                    "colour": self._colour(item.colour),
                    "loud": item.kind in (StatementKind.FAILURE, StatementKind.OPEN),
                }
            case Figure():
                named = self._place(figure_place(item.once)) if item.once else None
                return {**self._drawing(item.svg, item.alt, item.caption, place), "place": named}
            case Vector():
                return self._drawing(item.svg, item.alt, "", place)
            case Picture():
                name = picture_name(item)
                self.files[name] = item.data
                return {"type": "figure", "path": f"/{name}", "alt": item.alt, "caption": "", "place": None}
            case Preformatted():
                return {"type": "preformatted", "text": soft(item.text)}
            case Markdown() | Html():
                return self._text(place)

    def _drawing(self, svg: str, alt: str, caption: str, place: tuple[int, int]) -> dict[str, Any]:
        name = "drawing-{}-{}.svg".format(*place)
        self.files[name] = self._colour(svg_for_pdf(svg, caption or alt)).encode("utf-8")
        return {"type": "figure", "path": f"/{name}", "alt": alt, "caption": caption, "place": None}

    def _place(self, name: str) -> str | None:
        """The name, the first time it is asked for: two places of one name would be none."""
        if not name or name in self._named:
            return None
        self._named.add(name)
        return name

    def _cell(self, cell: str | Cell) -> Any:
        if isinstance(cell, str):
            return shown(cell)
        return {
            "text": shown(cell.text),
            "status": cell.status.value if cell.status else None,
            "to": cell.to if cell.to in self._places else None,
            "place": self._place(cell.anchor),
        }

    def _text(self, place: tuple[int, int]) -> dict[str, Any]:
        name = "text-{}-{}.typ".format(*place)
        body = self.converted.texts[place].typst
        self.files[name] = f'#import "/markdown.typ": *\n{body}\n'.encode()
        return {"type": "text", "path": f"/{name}", "short": len(body) < KEPT_WITH_NEXT}

    def _maths_file(self) -> str:
        lines = ['#import "/markdown.typ": eq', "#let maths = ("]
        for block, key in self._maths.items():
            lines.append(f"  {key}: (")
            for display in self.converted.displays[block]:
                forms = "".join(f"    eq({typst_string(display.alt)}, {form}),\n" for form in display.typst)
                lines.append(f"  (\n{forms}  ),")
            lines.append("  ),")
        return "\n".join([*lines, ")", ""])
