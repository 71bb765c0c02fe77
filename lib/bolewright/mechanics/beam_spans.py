"""The equations of a beam cut into spans: deflection and moment where the spans meet."""

from __future__ import annotations

import numpy as np

from bolewright.mechanics.beam_model import CLOSE, Beam
from bolewright.mechanics.loads import Array, Integers
from bolewright.mechanics.stability import UnstableError

_SINGULAR = 1e12  # condition number of the scaled system above which the beam counts as a mechanism


class Spans:
    """The beam cut at supports, hinges and ends, in lengths divided by the mean span (``scale``)."""

    def __init__(self, beam: Beam) -> None:
        self.beam = beam
        close = CLOSE * beam.length
        places = [0.0, beam.length]
        for x in (*beam.supports, *beam.hinges):
            if all(abs(x - other) > close for other in places):
                places.append(x)
        ordered = np.sort(np.array(places))
        self.scale = beam.length / (ordered.size - 1)
        self.nodes: Array = ordered / self.scale
        self.length: Array = np.diff(self.nodes)
        self.support_node = self._nearest(beam.supports)
        self.hinge_node = self._nearest(beam.hinges)

    def _nearest(self, places: tuple[float, ...]) -> Integers:
        scaled = np.array(places, dtype=float) / self.scale
        return np.asarray(np.abs(scaled[:, None] - self.nodes).argmin(axis=1), dtype=np.int64)

    def holding(self, x: Array) -> Integers:
        """Span that holds each place; at a node the one to its right."""
        found = self.nodes[1:-1].searchsorted(x, side="right")
        return np.asarray(found, dtype=np.int64)

    def solve(
        self, reaction_a: Array, reaction_b: Array, slope_a: Array, slope_b: Array
    ) -> tuple[Array, Array]:
        """EI times deflection, and moment, at each node for each load."""
        n = self.nodes.size
        matrix = np.zeros((2 * n, 2 * n))
        right = np.zeros((2 * n, reaction_a.shape[1]))
        self._vertical(matrix[0::2], right[0::2], reaction_a, reaction_b)
        self._turning(matrix[1::2], right[1::2], slope_a, slope_b)
        try:
            solved = np.linalg.solve(matrix, np.hstack((right, np.eye(2 * n))))
        except np.linalg.LinAlgError:
            raise self._moving(matrix) from None
        inverse = solved[:, -2 * n :]
        if not np.abs(matrix).sum(axis=0).max() * np.abs(inverse).sum(axis=0).max() < _SINGULAR:
            raise self._moving(matrix)
        unknowns = np.asarray(solved[:, : -2 * n], dtype=np.float64)
        return unknowns[0::2], unknowns[1::2]

    def _vertical(self, rows: Array, right: Array, reaction_a: Array, reaction_b: Array) -> None:
        """Rows: the spans' end shears balance the reaction; a rigid support does not move."""
        inner = np.arange(self.length.size)
        W, M = rows[:, 0::2], rows[:, 1::2]
        per = 1 / self.length
        M[inner, inner] -= per
        M[inner, inner + 1] += per
        M[inner + 1, inner + 1] -= per
        M[inner + 1, inner] += per
        right[:-1] -= reaction_a
        right[1:] -= reaction_b
        springs = self.beam.springs or (None,) * len(self.beam.supports)
        for node, k in zip(self.support_node, springs, strict=True):
            if k is None:
                rows[node] = 0.0
                right[node] = 0.0
                W[node, node] = 1.0
            else:
                stiffness = k * self.scale**3 / self.beam.EI
                rows[node] /= max(1.0, stiffness)
                right[node] /= max(1.0, stiffness)
                W[node, node] -= stiffness / max(1.0, stiffness)

    def _turning(self, rows: Array, right: Array, slope_a: Array, slope_b: Array) -> None:
        """Rows: the slope passes through a node unbroken; no moment at a hinge or a free end."""
        inner = np.arange(self.length.size)
        W, M = rows[:, 0::2], rows[:, 1::2]
        per, sixth = 1 / self.length, self.length / 6
        W[inner + 1, inner + 1] += per  # slope at the right end of the span on the left
        W[inner + 1, inner] -= per
        M[inner + 1, inner] -= sixth
        M[inner + 1, inner + 1] -= 2 * sixth
        W[inner, inner + 1] -= per  # less the slope at the left end of the span on the right
        W[inner, inner] += per
        M[inner, inner] -= 2 * sixth
        M[inner, inner + 1] -= sixth
        right[1:] -= slope_b
        right[:-1] += slope_a
        for node, k in ((0, self.beam.clamps[0]), (self.nodes.size - 1, self.beam.clamps[1])):
            if k is not None:  # else the clamp is rigid and the row above says: slope = 0
                stiffness = k * self.scale / self.beam.EI
                rows[node] *= stiffness / max(1.0, stiffness)
                right[node] *= stiffness / max(1.0, stiffness)
                M[node, node] -= 1 / max(1.0, stiffness)
        for node in self.hinge_node:
            rows[node] = 0.0
            right[node] = 0.0
            M[node, node] = 1.0

    def _moving(self, matrix: Array) -> UnstableError:
        motion = np.abs(np.linalg.svd(matrix)[2][-1][0::2])
        x = float(self.nodes[motion.argmax()] * self.scale)
        held = ", ".join(f"{support:g}" for support in self.beam.supports) or "nowhere"
        hinges = f" and hinges at {', '.join(f'{h:g}' for h in self.beam.hinges)}" if self.beam.hinges else ""
        return UnstableError(
            f"the beam can move up and down at x = {x:g} in: supports at {held}{hinges} do not hold it",
            where=f"x = {x:g} in",
            direction="vertical",
        )
