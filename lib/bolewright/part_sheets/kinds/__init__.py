"""The kinds of part that have a sheet, by name."""

from __future__ import annotations

from bolewright.part_sheets.kind import Kind
from bolewright.part_sheets.kinds.beam import BEAM
from bolewright.part_sheets.kinds.footing import FOOTING
from bolewright.part_sheets.kinds.post import POST

KINDS: dict[str, Kind] = {kind.name: kind for kind in (BEAM, POST, FOOTING)}
