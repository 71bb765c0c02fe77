"""Details of the joints: hangers with their skew, post caps, brace ends, the boss of a tree bolt."""

from __future__ import annotations

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
        *cap_details(results, measures),
        *brace_details(results, measures),
        *boss_details(results, measures),
    ]
