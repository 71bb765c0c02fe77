"""Lateral force from the deck through the ends of joists and hung beams, by the springs and by the frame model."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.through_joists import friction_on, through_ends, worst_ends
from bolewright.platform.checks.deck_ends import key_and_place
from bolewright.platform.loads.combine import Array
from bolewright.platform.verification.compared import Compared
from bolewright.platform.verification.independent import row

FROM_DECK = "lateral force from the deck through its end"
_BETWEEN = " / "


def at_ends(
    lateral: LateralAnalysis, state: State, forces: Array
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    """Part, place and unit with both models' force, of every end that a row is of.

    Parameters: ``forces`` of the platform on every support by the frame model (supports, 2, cases).
    """
    more, rubs = forces - lateral.with_push(state), friction_on(lateral)
    for end, _ in worst_ends(lateral):
        by_hand = through_ends(lateral, state, end.parts, rubs)
        by_frame = by_hand + np.tensordot(end.parts, more, axes=2)
        key, at = key_and_place(end)
        one, other = (float(np.hypot(*force).max()) for force in (by_hand, by_frame))
        yield (end.member.mark, _BETWEEN.join((end.beam.mark, key, at)), "lb"), (one, other)


def compared_end(part: str, where: str, unit: str, by_hand: float, by_frame: float) -> Compared:
    """The greatest in all states of an end of :func:`at_ends`, for its row."""
    beam, key, at = where.split(_BETWEEN)
    return Compared(part, f"{FROM_DECK} on {beam}", by_hand, by_frame, unit, (row(part, key, at),))
