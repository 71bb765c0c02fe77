"""How much of a piece of deck lies under the part of an influence that is positive.

The influence on a square piece is known at its four corners. It is taken as straight over the four triangles between
two neighbouring corners and the middle, so that neither diagonal is preferred. A load stands on the part where the
influence is positive, and is reckoned at the corners by the lever within each triangle.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]

_SIDES = ((0, 1), (1, 3), (3, 2), (2, 0))  # corners of a piece, in order round it


def loaded_parts(values: Array) -> Array:
    """Share of the load of each corner (first axis, four) that stands where the influence is positive; 0 to 1.

    >>> loaded_parts(np.array([[1.0], [1.0], [-1.0], [-1.0]])).ravel()  # positive over one half of the square
    array([0.75, 0.75, 0.25, 0.25])
    """
    middle = values.mean(axis=0)
    found = np.zeros_like(values)
    centre = np.zeros_like(middle)
    for i, j in _SIDES:
        one, other, inner = _triangle(values[i], values[j], middle)
        found[i] += one
        found[j] += other
        centre += inner
    return np.asarray(found + centre / 4)


def _triangle(a: Array, b: Array, c: Array) -> tuple[Array, Array, Array]:
    """Parts of a triangle's load at its corners that stand where the influence is positive; 1/3 each where all is."""
    corners = np.stack([a, b, c])
    above = corners > 0
    count = above.sum(axis=0)
    whole = np.where(count == 3, 1 / 3, 0.0) * np.ones_like(corners)
    for k in range(3):
        for lone, sign in ((1, above[k]), (2, ~above[k])):
            here = (count == lone) & sign
            if not here.any():
                continue
            tip = corners[k, here]
            others = [m for m in range(3) if m != k]
            r, q = (tip / (tip - corners[m, here]) for m in others)
            area = r * q
            parts = {k: area * (3 - r - q) / 3, others[0]: area * r / 3, others[1]: area * q / 3}
            for m, part in parts.items():
                whole[m, here] = part if lone == 1 else 1 / 3 - part
    return whole[0], whole[1], whole[2]
