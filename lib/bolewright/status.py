"""State of a check, by word, mark and colour: the same in results, sheets, drawings and widgets."""

from __future__ import annotations

from enum import StrEnum


class Status(StrEnum):
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
