"""Things set where two stretches of deck meet: boards end there, so each may stand on either one whole.

The layout has an action of such a thing for each stretch. Taken together they are the mean, and so they count in sums
over everything; in an effect all of the thing counts on the stretch where it makes the effect worse.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.platform.layout.actions import Action, ActionKind
from bolewright.platform.layout.influence import Array, Integers

HALF_SNOW = 0.5  # of the snow, where it would relieve (ASCE 7-16, 7.5.1, by analogy)


@dataclass(frozen=True)
class Either:
    """One thing that stands on either of some stretches: when it is there, and the numbers of its actions."""

    kind: ActionKind
    numbers: Integers


@dataclass(frozen=True)
class More:
    """What effects (rows) get beyond the mean where things stand on their worse stretch: at the most and the least."""

    most: dict[ActionKind, Array]
    least: dict[ActionKind, Array]


_FELT = {
    ActionKind.DEAD: ((1.0, 1.0), (1.0, 1.0)),
    ActionKind.LIVE: ((1.0, 0.0), (0.0, 1.0)),
    ActionKind.SNOW: ((1.0, HALF_SNOW), (HALF_SNOW, 1.0)),
}
"""Share of what adds and of what relieves that counts in the greatest effect, and in the least."""


def on_either(actions: Sequence[Action]) -> tuple[Either, ...]:
    """Things that stand on either of some stretches of deck."""
    first = (i for i, action in enumerate(actions) if action.ways > 1 and action.way == 0)
    return tuple(Either(actions[i].kind, np.arange(i, i + actions[i].ways)) for i in first)


def more_on_either(things: Sequence[Either], felt: Array) -> More:
    """By how much the worse stretch of each thing changes effects, whose parts by each action are ``felt``."""
    most = {kind: np.zeros(len(felt)) for kind in _FELT}
    least = {kind: np.zeros(len(felt)) for kind in _FELT}
    for thing in things:
        each = felt[:, thing.numbers]
        for found, (adding, relieving), worse in zip(
            (most, least), _FELT[thing.kind], (np.max, np.min), strict=True
        ):
            counted = adding * np.maximum(each, 0.0) + relieving * np.minimum(each, 0.0)
            found[thing.kind] += worse(counted, axis=1) - counted.mean(axis=1)
    return More(most, least)


def on_the_worse(things: Sequence[Either], kind: ActionKind, first: int, row: Array, loads: Array) -> Array:
    """Loads on every source with things of a kind on the stretch where they make an effect (``row``) greatest.

    ``first`` is the number of the source that is the first action.
    """
    for thing in things:
        if thing.kind is kind:
            own = first + thing.numbers
            adding, relieving = _FELT[kind][0]
            worst = own[int(np.argmax(row[own]))]
            loads = loads.copy()
            loads[own] = 0.0
            loads[worst] = adding if row[worst] > 0 else relieving
    return loads
