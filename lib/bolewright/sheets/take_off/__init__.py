"""Take-off sheets: ``sheet = open_take_off(project, "cut list")``, then one call a cell.

The topics are ``cut list``, ``buying list`` and ``hardware``.
"""

from __future__ import annotations

from pathlib import Path

from bolewright.sheets.lengths import Lengths, Tape, read_tape
from bolewright.sheets.opening import results_of
from bolewright.sheets.take_off.buying import BuyingSheet
from bolewright.sheets.take_off.cut_list import CutListSheet
from bolewright.sheets.take_off.hardware import HardwareSheet
from bolewright.sheets.take_off.opening import TakeOffSheet

__all__ = ["BuyingSheet", "CutListSheet", "HardwareSheet", "open_take_off"]

_SHEETS: dict[str, type[TakeOffSheet]] = {
    "cut list": CutListSheet,
    "buying list": BuyingSheet,
    "hardware": HardwareSheet,
}


def open_take_off(project: str | Path, topic: str, tape: str = Tape.FEET) -> TakeOffSheet:
    """Take-off sheet of a project file: ``cut list``, ``buying list`` or ``hardware``.

    ``tape`` is the one in hand: ``feet and inches``, or ``millimetres``. Raises ValueError for another topic or tape.
    """
    if topic not in _SHEETS:
        raise ValueError(f"{topic!r} is no take-off sheet; there are: {', '.join(_SHEETS)}")
    return _SHEETS[topic](results_of(project), Lengths(read_tape(tape)))
