"""How far off the projection of a tree bolt's bearing may be: no farther out than its checks leave room for."""

from __future__ import annotations

import math

from bolewright.platform.results.lever_left import lever_left
from bolewright.platform.results.results import Results
from bolewright.setting_out.tolerance import SIXTEENTH, Allowed


def projection_allowed(results: Results, mark: str) -> float:
    """Tolerance of a bolt's projection (in): that of other bolts' places, or what its lever arm leaves of a ratio of 1.

    In whole sixteenths, rounded down.
    """
    return min(Allowed.BOLT.value, math.floor(lever_left(results, mark).left / SIXTEENTH) * SIXTEENTH)
