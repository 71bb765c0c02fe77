"""Turns the LaTeX and the markdown of a whole package into Typst and HTML, a few pandoc calls for all of it.

Markdown is read into pandoc's syntax tree, cleaned there (no raw HTML, no picture from elsewhere, headings
one below the other, links to the web only) and written twice. Equations join the same tree, so PDF and HTML
show what one converter read.
"""

from __future__ import annotations

import hashlib
import json
import re
import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pypandoc

from bolewright.documents.content import Html, Markdown, PackageError, SheetContent
from bolewright.documents.latex import normalised, rows, spoken, stacked
from bolewright.documents.markdown import Cleaner, softened
from bolewright.documents.readback import check_display, check_spoken
from bolewright.rendering.blocks import Equations

_READ_MARKDOWN = "gfm+tex_math_dollars-yaml_metadata_block-autolink_bare_uris"
_READ_HTML = "html-raw_html-native_divs-native_spans-line_blocks"
_ANNOTATION = re.compile(r"<semantics>(.*?)<annotation\b.*?</annotation></semantics>", re.S)
_WIDTHS = (120, 90, 60)  # rows of an equation broken for paper, characters of plain text
_SIGNED_NUMBER = re.compile(r'((?:[=(,&$]|dot\.op)\s*)- upright\("(?=\d)')
_SCREEN_WIDTH = 75


@dataclass(frozen=True)
class Display:
    """One displayed equation: its forms from wide to narrow as Typst, its MathML, its plain text."""

    typst: tuple[str, ...]
    mathml: str
    alt: str


@dataclass(frozen=True)
class Piece:
    """One markdown text, as Typst markup and as HTML."""

    typst: str
    html: str


@dataclass(frozen=True)
class Converted:
    """Converted pieces by the content they came from, and the pictures their Typst names."""

    displays: Mapping[Equations, tuple[Display, ...]]
    texts: Mapping[tuple[int, int], Piece]
    pictures: Mapping[str, bytes]


def convert(sheets: Sequence[SheetContent]) -> Converted:
    """Typst and HTML of every equation and every markdown or HTML text on the sheets.

    Raises :class:`PackageError` for an equation whose LaTeX is not understood, naming its title, and for one of a
    formula that any of its forms says otherwise than it was computed.
    """
    equations = list(dict.fromkeys(i for s in sheets for i in s.items if isinstance(i, Equations)))
    forms = [[_forms(display) for display in block.displays] for block in equations]
    texts = [
        ((row, column), item)
        for row, sheet in enumerate(sheets)
        for column, item in enumerate(sheet.items)
        if isinstance(item, Markdown | Html)
    ]
    cleaner = Cleaner()
    trees = [
        cleaner.clean(tree, row, dict(sheets[row].attachments))
        for ((row, _), _), tree in zip(texts, _trees([item for _, item in texts]), strict=True)
    ]
    maths = [form for block in forms for display in block for form in display]
    typst, html = _written([*trees, *([_paragraph(form)] for form in maths)])
    pieces = {key: Piece(t, h) for (key, _), t, h in zip(texts, typst, html, strict=False)}
    written = iter(zip(typst[len(texts) :], html[len(texts) :], strict=True))
    displays = {
        block: tuple(
            _display(block, place, display_forms, [next(written) for _ in display_forms])
            for place, display_forms in enumerate(block_forms)
        )
        for block, block_forms in zip(equations, forms, strict=True)
    }
    for block in equations:
        check_spoken(block)
    return Converted(displays, pieces, cleaner.pictures)


def _forms(latex: str) -> list[str]:
    """The display as it came, then broken at each ``=``, then also at outer plus and minus signs."""
    clean = normalised(latex)
    return list(dict.fromkeys([clean, stacked(clean), *(stacked(clean, width) for width in _WIDTHS)]))


def _display(block: Equations, place: int, forms: list[str], written: list[tuple[str, str]]) -> Display:
    said = [" ".join(block.alt.split())] if len(block.latex) == 1 and block.alt else block.alt.splitlines()
    alt = said[place] if len(said) == len(block.latex) else spoken(forms[0])
    for typst, mathml in written:
        if not (typst.startswith("$") and typst.endswith("$")) or "<math" not in mathml:
            raise PackageError(
                f"an equation of {block.title!r} is not LaTeX that can be set: {forms[0][:80]}"
            )
    if block.formula:
        check_display(block, place, [typst for typst, _ in written], [mathml for _, mathml in written])
    fits = (i for i, form in enumerate(forms) if _longest_row(form) <= _SCREEN_WIDTH)
    mathml = written[next(fits, len(written) - 1)][1]
    return Display(tuple(typst for typst, _ in written), mathml, alt)


def _longest_row(form: str) -> int:
    return max((len(spoken(row)) for row in rows(form)), default=0)


def _paragraph(latex: str) -> dict[str, Any]:
    return {"t": "Para", "c": [{"t": "Math", "c": [{"t": "DisplayMath"}, latex]}]}


def _trees(texts: Sequence[Markdown | Html]) -> list[list[Any]]:
    """Syntax tree of each text: all markdown in one call, each text on its own so that none spills over."""
    found: dict[int, list[Any]] = {}
    for reader, kind in ((_READ_MARKDOWN, Markdown), (_READ_HTML, Html)):
        chosen = [index for index, text in enumerate(texts) if isinstance(text, kind)]
        if chosen:
            trees = _read_apart([texts[index].text for index in chosen], reader)
            found |= dict(zip(chosen, trees, strict=True))
    return [found[index] for index in range(len(texts))]


def _read_apart(texts: list[str], reader: str) -> list[list[Any]]:
    fence = "piece" + hashlib.sha256("\0".join(texts).encode()).hexdigest()[:20]
    with tempfile.TemporaryDirectory() as folder:
        paths = []
        between = Path(folder, "between")
        between.write_text(f"<p>{fence}</p>" if reader is _READ_HTML else fence, encoding="utf-8")
        for index, text in enumerate(texts):
            path = Path(folder, f"{index}.txt")
            path.write_text(text, encoding="utf-8")
            paths += [path, between]
        document = json.loads(_pandoc(["--file-scope", "-f", reader, "-t", "json", *map(str, paths)]))
    trees: list[list[Any]] = [[]]
    for block in document["blocks"]:
        if block == {"t": "Para", "c": [{"t": "Str", "c": fence}]}:
            trees.append([])
        else:
            trees[-1].append(block)
    return trees[:-1]


def _written(trees: list[list[Any]]) -> tuple[list[str], list[str]]:
    """Typst and HTML of each tree, one pandoc call a format."""
    if not trees:
        return [], []
    digest = hashlib.sha256(json.dumps(trees).encode()).hexdigest()[:20]
    marks = {"typst": f"// piece {digest}\n", "html": f"<!-- piece {digest} -->\n"}
    blocks: list[Any] = []
    for tree in trees:
        blocks += [{"t": "RawBlock", "c": [target, mark.strip()]} for target, mark in marks.items()]
        blocks += tree
    document = json.dumps({"pandoc-api-version": [1, 23, 1], "meta": {}, "blocks": blocks})
    options = ["-f", "json", "--wrap=none", "--mathml", "--syntax-highlighting=none"]
    softer = json.dumps(softened(json.loads(document)))
    typst = _pandoc([*options, "-t", "typst"], softer).split(marks["typst"].strip())[1:]
    html = _pandoc([*options, "-t", "html5"], document).split(marks["html"].strip())[1:]
    return (
        [_tightened(piece.strip()) for piece in typst],
        [_ANNOTATION.sub(r"\1", piece.strip()) for piece in html],
    )


def _tightened(typst: str) -> str:
    """Typst without what pandoc gets wrong: a space of no width, and one after the sign of a number."""
    return _SIGNED_NUMBER.sub(r'\1-upright("', typst).replace("#h(0em)", "thin")


def _pandoc(arguments: list[str], text: str = "") -> str:
    command = [pypandoc.get_pandoc_path(), "--sandbox", *arguments]
    done = subprocess.run(command, input=text.encode("utf-8"), capture_output=True, check=False)
    if done.returncode:
        said = done.stderr.decode("utf-8", "replace").strip().splitlines() or ["no reason given"]
        raise PackageError(f"pandoc could not convert the sheets: {said[-1]}")
    return done.stdout.decode("utf-8")
