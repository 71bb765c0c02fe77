"""Details of the joints: hangers with their skew, ends of rims and blocking, caps, brace ends, the boss of a bolt."""

from __future__ import annotations

from bolewright.drawings.blocking_ends import blocking_details
from bolewright.drawings.bosses import boss_details
from bolewright.drawings.brace_ends import brace_details
from bolewright.drawings.caps import cap_details
from bolewright.drawings.hangers import hanger_details
from bolewright.drawings.measures import Measures
from bolewright.platform.results import Results
from bolewright.rendering.drawing import Drawing


def details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Every joint of a platform that differs from the others, once each."""
    return [
        *hanger_details(results, measures),
        *blocking_details(results, measures),
        *cap_details(results, measures),
        *brace_details(results, measures),
        *boss_details(results, measures),
    ]
