"""C_D of a combination from its loads alone: NDS 2018, 2.3.2.1 with Table 2.3.2, the shortest of them governs.

Dead load 0.9, occupancy live load 1.0 (a person's weight is one), snow 1.15, construction load 1.25 (a worker), wind
1.6; a push on a guard lasts ten minutes at most (1.6: common practice).
"""

from __future__ import annotations

import re

SHORTEST = {
    "D": 0.9,
    "L": 1.0,
    "one person": 1.0,
    "S": 1.15,
    "one worker": 1.25,
    "W": 1.6,
    "guard": 1.6,
}


def load_duration(combination: str) -> float:
    """C_D of a combination as it is printed: ``D + 0.75L + 0.75(0.6W)`` has 1.6. A load not listed is a KeyError."""
    return max(SHORTEST[re.sub(r"[\d.()]", "", load).strip()] for load in combination.split("+"))
