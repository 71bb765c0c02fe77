"""How much of a piece of deck lies under the part of an influence that is positive.

The influence on a square piece is known at its four corners. It is taken as straight over the four triangles between
two neighbouring corners and the middle, so that neither diagonal is preferred. A load stands on the part where the
influence is positive, and is reckoned at the corners by the lever within each triangle.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]

_FIRST, _NEXT = [0, 1, 3, 2], [1, 3, 2, 0]  # corners of a piece, in order round it, and the one after each


def loaded_parts(values: Array) -> Array:
    """Share of the load of each corner (first axis, four) that stands where the influence is positive; 0 to 1.

    >>> loaded_parts(np.array([[1.0], [1.0], [-1.0], [-1.0]])).ravel()  # positive over one half of the square
    array([0.75, 0.75, 0.25, 0.25])
    """
    middle = values.mean(axis=0)
    corners = np.stack([values[_FIRST], values[_NEXT], np.broadcast_to(middle, values.shape)])
    parts = _triangles(corners.reshape(3, -1)).reshape(corners.shape)
    found = np.empty_like(values)
    found[_FIRST] = parts[0]
    found[_NEXT] += parts[1]
    return np.asarray(found + parts[2].sum(axis=0) / 4)


# By which corners are positive (a bit each): the one whose sign no other has, and then the two after it.
_LONE = np.array([0, 0, 1, 2, 2, 1, 0, 0])
_ORDER = (_LONE + np.arange(3)[:, None]) % 3
_ALONE = np.array([False, True, True, False, True, False, False, False])  # one is positive, not two
_WHOLE = np.array([0.0] * 7 + [1 / 3])


def _triangles(corners: Array) -> Array:
    """Parts of triangles' loads at their corners (rows) that stand where the influence is positive; all is 1/3."""
    above = (corners > 0).view(np.int8)
    signs = above[0] + 2 * above[1] + 4 * above[2]
    whole = np.empty_like(corners)
    whole[:] = _WHOLE[signs]
    mixed = np.flatnonzero((signs != 0) & (signs != 7))
    if not mixed.size:
        return whole
    order = _ORDER[:, signs[mixed]]
    tip, left, right = corners[order, mixed]
    r, q = tip / (tip - left), tip / (tip - right)
    area = r * q
    part = np.stack([area * (3 - r - q), area * r, area * q]) / 3
    whole[order, mixed] = np.where(_ALONE[signs[mixed]], part, 1 / 3 - part)
    return whole
