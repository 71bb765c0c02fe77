"""What the program says of the same effects, by its own load path and envelopes."""

from __future__ import annotations

import numpy as np

from bolewright.platform.loads.combine import envelope
from bolewright.platform.loads.load_path import LoadPath
from outside.model import Worst


def worst(path: LoadPath, influence) -> Worst:
    found = envelope(path, influence)
    snow = getattr(found, "S_most", found.S), getattr(found, "S_least", found.S)
    return Worst(
        found.D, (found.L_most, found.L_least), (found.person_most, found.person_least), found.S, snow
    )


def reaction(path: LoadPath, mark: str) -> Worst:
    return worst(path, path.reactions[mark][None, :])


def member(path: LoadPath, mark: str) -> dict[str, Worst]:
    effects = path.effects[mark]
    left, right = (worst(path, shear) for shear in (effects.shear_left, effects.shear_right))
    return {
        "moment": worst(path, effects.moment),
        "shear": Worst(
            *(_joined(getattr(left, name), getattr(right, name)) for name in Worst.__annotations__)
        ),
        "deflection": worst(path, effects.deflection),
    }


def _joined(a, b):
    if isinstance(a, tuple):
        return tuple(np.concatenate(pair) for pair in zip(a, b, strict=True))
    return np.concatenate([a, b])
