"""Sheets of a single part: inputs typed, the calculation in full view, one page to print.

from bolewright.part_sheets import open_part
part = open_part("beam", span="12 ft", section="2-2x10")
part.print_to("beam.pdf")
"""

from bolewright.part_sheets.inputs import PartError
from bolewright.part_sheets.notebook import Part, open_part

__all__ = ["Part", "PartError", "open_part"]
