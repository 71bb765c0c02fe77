"""The kinds of part that have a sheet, by name."""

from __future__ import annotations

from bolewright.part_sheets.kind import Kind
from bolewright.part_sheets.kinds.beam import BEAM
from bolewright.part_sheets.kinds.bolted_joint import BOLTED
from bolewright.part_sheets.kinds.decking import DECKING
from bolewright.part_sheets.kinds.footing import FOOTING
from bolewright.part_sheets.kinds.guard_post import GUARD
from bolewright.part_sheets.kinds.lag_joint import LAG
from bolewright.part_sheets.kinds.nailed_joint import NAILED
from bolewright.part_sheets.kinds.notch import NOTCH
from bolewright.part_sheets.kinds.post import POST
from bolewright.part_sheets.kinds.rated import RATED
from bolewright.part_sheets.kinds.span import SPAN
from bolewright.part_sheets.kinds.tree_bolt import TREE_BOLT
from bolewright.part_sheets.kinds.withdrawal import WITHDRAWAL

_ALL = (
    *(BEAM, POST, FOOTING, BOLTED, LAG, NAILED, WITHDRAWAL),
    *(TREE_BOLT, RATED, GUARD, DECKING, NOTCH, SPAN),
)
KINDS: dict[str, Kind] = {kind.name: kind for kind in _ALL}
