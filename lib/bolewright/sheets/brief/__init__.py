"""The brief: what an inspector asks first, on a few pages that lead to the derivations."""

from bolewright.sheets.brief.brief import brief_sheets
from bolewright.sheets.brief.ten import nearest

__all__ = ["brief_sheets", "nearest"]
