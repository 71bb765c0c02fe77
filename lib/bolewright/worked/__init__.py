"""A calculation of one's own in a notebook cell, computed and printed by the same lines (``%%worked``).

A cell holds lines ``symbol = expression``; each prints as symbol, formula, numbers with units, result, is read back
from its own print, or is refused with the reason. The grammar is in :mod:`bolewright.worked.grammar`.
"""

from bolewright.worked.cell import Worked, work
from bolewright.worked.grammar import WorkedError

__all__ = ["Worked", "WorkedError", "work"]
