"""Details of the joints: hangers, rims and blocking, caps, brace ends, collars of bolts, stringers."""

from __future__ import annotations

from bolewright.drawings.blocking_ends import blocking_details
from bolewright.drawings.brace_ends import brace_details
from bolewright.drawings.caps import cap_details
from bolewright.drawings.collars import collar_details
from bolewright.drawings.gates import gate_details
from bolewright.drawings.guards import guard_details
from bolewright.drawings.hangers import hanger_details
from bolewright.drawings.ladders import ladder_details
from bolewright.drawings.measures import Measures
from bolewright.drawings.stairs import stair_details
from bolewright.drawings.trunk_brace_ends import trunk_brace_details
from bolewright.platform.results.results import Results
from bolewright.rendering.drawing import Drawing


def details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Every joint of a platform that differs from the others, once each."""
    return [
        *hanger_details(results, measures),
        *blocking_details(results, measures),
        *cap_details(results, measures),
        *brace_details(results, measures),
        *trunk_brace_details(results, measures),
        *collar_details(results, measures),
        *stair_details(results, measures),
        *ladder_details(results, measures),
        *guard_details(results, measures),
        *gate_details(results, measures),
    ]
