"""Blocks as HTML for the screen: the same in JupyterLab and on the local page, with MathML and no script."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from html import escape

from IPython.display import Markdown
from latex2mathml.converter import convert as to_mathml

from bolewright.documents.latex import normalised, rows, spoken, stacked
from bolewright.rendering.blocks import Equations, Figure
from bolewright.sheets.opening import Shown

_WIDE = 75  # characters of plain text that a row of an equation may have on a screen
_WIDTHS = (None, 120, 90, 60)


def html_of(items: Iterable[Shown]) -> str:
    """Blocks and headings in order, as HTML."""
    return "\n".join(_one(item) for item in items)


def _one(item: Shown) -> str:
    match item:
        case Equations():
            return _equations(item)
        case Figure():
            caption = f"<figcaption>{escape(item.caption)}</figcaption>" if item.caption else ""
            return f'<figure class="bw-figure" tabindex="0">{item.svg}{caption}</figure>'
        case Markdown():
            return _heading(str(item.data))
    html = str(item._repr_mimebundle_()["text/html"])
    return f'<div class="bw-scroll" tabindex="0">{html}</div>' if "<table" in html else html


def _heading(text: str) -> str:
    """The headings that a sheet displays; other markdown as the paragraph it is."""
    match = re.fullmatch(r"(#{2,4})\s+(.*)", text.strip())
    if match is None:
        return f"<p>{escape(text)}</p>"
    level = len(match[1])
    return f"<h{level}>{escape(match[2])}</h{level}>"


def _equations(item: Equations) -> str:
    notes = "".join(f'<p class="bw-note">{escape(note)}</p>' for note in item.notes)
    displays = "".join(
        f'<div class="bw-scroll bw-maths" tabindex="0">{mathml(latex)}</div>' for latex in item.displays
    )
    return (
        f'<p class="bw-formula"><strong>{escape(item.title)}</strong> '
        f'<span class="bw-clause">{escape(item.clause)}</span></p>{displays}{notes}'
    )


@lru_cache(maxsize=2048)
def mathml(latex: str) -> str:
    """MathML of one displayed equation, its rows broken where they are too wide for a screen."""
    clean = normalised(latex)
    forms = [clean, *(stacked(clean, width) for width in _WIDTHS)]
    form = next((f for f in forms if max(len(spoken(row)) for row in rows(f)) <= _WIDE), forms[-1])
    return str(to_mathml(form.replace("{aligned}", "{align*}"), display="block"))
