"""Setting-out sheets: ``out = open_setting_out(project, "trunk")``, then one call a cell.

The topics are ``trunk``, ``ground``, ``framing``, ``deck``, ``as built`` and ``over the years``.
"""

from __future__ import annotations

from pathlib import Path

from bolewright.sheets.lengths import Lengths, Tape, read_tape
from bolewright.sheets.opening import results_of
from bolewright.sheets.setting_out.built import BuiltSheet
from bolewright.sheets.setting_out.deck import DeckSheet
from bolewright.sheets.setting_out.framing import FramingSheet
from bolewright.sheets.setting_out.ground import GroundSheet
from bolewright.sheets.setting_out.opening import SettingOutSheet
from bolewright.sheets.setting_out.trunk import TrunkSheet
from bolewright.sheets.setting_out.years import YearsSheet

__all__ = [
    "BuiltSheet",
    "DeckSheet",
    "FramingSheet",
    "GroundSheet",
    "Tape",
    "TrunkSheet",
    "YearsSheet",
    "open_setting_out",
]

_SHEETS: dict[str, type[SettingOutSheet]] = {
    "trunk": TrunkSheet,
    "ground": GroundSheet,
    "framing": FramingSheet,
    "deck": DeckSheet,
    "as built": BuiltSheet,
    "over the years": YearsSheet,
}


def open_setting_out(project: str | Path, topic: str, tape: str = Tape.FEET) -> SettingOutSheet:
    """Setting-out sheet of a project file: ``trunk``, ``ground``, ``framing``, ``deck``, ``as built`` or
    ``over the years``.

    ``tape`` is the one in hand: ``feet and inches``, or ``millimetres``. Raises ValueError for another topic or tape.
    """
    if topic not in _SHEETS:
        raise ValueError(f"{topic!r} is no setting-out sheet; there are: {', '.join(_SHEETS)}")
    return _SHEETS[topic](results_of(project), Lengths(read_tape(tape)))
