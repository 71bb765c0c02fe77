"""The kinds of part that have a sheet, by name."""

from __future__ import annotations

from bolewright.part_sheets.kind import Kind
from bolewright.part_sheets.kinds.beam import BEAM
from bolewright.part_sheets.kinds.bolted_joint import BOLTED
from bolewright.part_sheets.kinds.footing import FOOTING
from bolewright.part_sheets.kinds.lag_joint import LAG
from bolewright.part_sheets.kinds.nailed_joint import NAILED
from bolewright.part_sheets.kinds.post import POST
from bolewright.part_sheets.kinds.tree_bolt import TREE_BOLT

KINDS: dict[str, Kind] = {kind.name: kind for kind in (BEAM, POST, FOOTING, BOLTED, LAG, NAILED, TREE_BOLT)}
