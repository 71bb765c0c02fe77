"""The kinds of part that have a sheet, by name."""

from __future__ import annotations

from bolewright.part_sheets.kind import Kind
from bolewright.part_sheets.kinds.beam import BEAM

KINDS: dict[str, Kind] = {kind.name: kind for kind in (BEAM,)}
