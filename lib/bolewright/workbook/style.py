"""The workbook's looks, as one style sheet."""

from __future__ import annotations

import base64
from functools import cache
from importlib import resources

from bolewright.rendering import palette
from bolewright.status import Status


@cache
def style() -> str:
    """The style sheet with its maths font, as an HTML element."""
    here = resources.files("bolewright.workbook") / "workbook.css"
    font = resources.files("bolewright.documents") / "templates" / "maths.woff2"
    css = here.read_text(encoding="utf-8")
    names = {
        "INK": palette.INK,
        "SOFT": palette.SOFT_INK,
        "RULE": palette.RULE,
        "WASH": palette.WASH,
        "PAPER": palette.PAPER,
        "ACCENT": palette.ACCENT,
        "PASSES": Status.PASSES.colour,
        "FAILS": Status.FAILS.colour,
        "UNCHECKED": Status.NOT_CHECKED.colour,
        "FONT": base64.b64encode(font.read_bytes()).decode("ascii"),
    }
    for name, value in names.items():
        css = css.replace(f"@{name}@", value)
    return f"<style>{css}</style>"
