"""The one idealisation of the boards: what a member under a board gets of a load on it.

The deck panels, the guards, one heavy person and the explorer all hand their loads on by this rule.
"""

from __future__ import annotations

from collections.abc import Sequence

LEVER = 6.0  # in: a hold-down nearer than this to the last member counts as so far away

IDEALISATION = (
    "Deck boards are simple spans between neighbouring members under them; past the last member a board acts by lever "
    f"over that member, held down by the next one inward. A hold-down nearer than {LEVER:g} in. to the last member "
    f"counts as {LEVER:g} in. away, and the rest of the moment is held by the member inward of it."
)
BOARD_NOTES = (
    "Boards over one member alone lie on that one, square to it; boards on the wood of a member along them on that; "
    "boards over none lie on the nearest member. Boards that run on over three members or more would load the last by "
    "up to 0.27 x/s more for a load x past it, s from the next, where the members do not give way: neglected.",
    "Deck past a beam from which the next member inward hangs lies straight on that beam, square to it: what hangs "
    "there ends there, and holds no board down past it.",
    "How near a hold-down is to the last member counts square to that one.",
    "A member is under a board where its wood is, and bears it at its centre line; where that is past the board's end, "
    "at the end, square to the member.",
    "One person stands on any member under the deck, on it alone, or anywhere at an edge. There, and under a guard, a "
    "board is as wide as it is: where less than its width of deck lies past the tip of a joist, that joist helps to "
    "bear it, by as much as is lacking.",
)


def hold_downs(past: float, distances: Sequence[float]) -> tuple[float, ...]:
    """What each member inward holds a board down with, for one pound ``past`` the last member (in).

    Parameters: ``past`` distance of the load past the last member (in); ``distances`` of the members inward from it,
    the nearest first (in). Returns: the pull on each of them (lb per lb); the last member gets 1 and all of them. Where
    the nearest is :data:`LEVER` or more away it holds all; a nearer one holds what one at that distance would, and
    those inward of it the rest of the moment, so that nothing jumps when members come close. With no member left, the
    rest of the moment is held by none.

    >>> hold_downs(8.0, [16.0, 32.0])
    (0.5, 0.0)
    >>> [round(pull, 4) for pull in hold_downs(10.0, [3.0, 20.0])]  # 10/6, then (1 - 3/6) x 10 in. over 20 in.
    [1.6667, 0.25]
    """
    left = past
    pulls = []
    for distance in distances:
        pulls.append(left / max(distance, LEVER))
        left *= max(0.0, 1.0 - distance / LEVER)
    return tuple(pulls)
