"""The few colours of sheets, drawings and widgets; each text colour has 4.5:1 contrast on white, or more.

Colour never carries a meaning alone: a status is always a word and a mark too, and reads in grey.
"""

from __future__ import annotations

from enum import Enum

INK = "#1f2a30"
SOFT_INK = "#55626a"
RULE = "#aab4b9"
WASH = "#f1f4f3"
PAPER = "#ffffff"
ACCENT = "#1c5a6b"
LIT = "#b4561a"


class Status(Enum):
    """State of a check as every sheet, table and widget shows it."""

    PASSES = "passes"
    FAILS = "fails"
    NOT_CHECKED = "not checked"

    @property
    def mark(self) -> str:
        """One character that tells the states apart without colour."""
        return {"passes": "✓", "fails": "✗", "not checked": "?"}[self.value]

    @property
    def colour(self) -> str:
        """Text colour on paper white (for FAILS also the fill under white text)."""
        return {"passes": "#1d6243", "fails": "#a01f2b", "not checked": "#75510a"}[self.value]
