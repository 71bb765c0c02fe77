"""What the calc sheets show: each cell of a sheet calls one of these and displays a block.

A sheet opens with ``sheet = open_sheet(project, "joists")``; then ``sheet.where()``, ``sheet.inputs()``,
``sheet.calculation()``, ``sheet.table()``, ``sheet.reading()``, ``sheet.clauses()``, ``sheet.cautions()``.
"""

from bolewright.sheets.front import Front, open_front
from bolewright.sheets.sheet import Sheet, open_sheet

__all__ = ["Front", "Sheet", "open_front", "open_sheet"]
