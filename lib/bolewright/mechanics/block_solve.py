"""Symmetric equations of a frame in blocks: each block touches only itself and its neighbours.

Nodes are walked outward from an end of the structure, level by level, so the work grows with the number of
nodes times the square of the width of a level, and no general sparse solver is needed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from bolewright.mechanics.loads import Array, Integers, gather

LEAST_BLOCK = 48  # equations; smaller levels are merged, for a numpy call costs as much as the arithmetic


def level_order(
    weight: Sequence[int], pairs: Sequence[Sequence[int]], least: int = LEAST_BLOCK
) -> list[list[int]]:
    """Groups of nodes such that each pair lies in one group or in two that follow one another.

    ``weight`` is the number of equations of each node; nodes without any are left out.

    >>> level_order([1, 1, 1, 1], [(0, 1), (1, 2), (2, 3)], least=2)
    [[3, 2], [1, 0]]
    """
    near: list[list[int]] = [[] for _ in weight]
    for a, b in pairs:
        if weight[a] and weight[b]:
            near[a].append(b)
            near[b].append(a)
    groups: list[list[int]] = []
    seen = [not w for w in weight]
    for first in range(len(weight)):
        if seen[first]:
            continue
        outermost = min(_levels(near, first)[-1], key=lambda node: len(near[node]))
        room = 0
        for level in _levels(near, outermost):
            if not room:
                groups.append([])
            groups[-1] += level
            for node in level:
                seen[node] = True
                room += weight[node]
            if room >= least:
                room = 0
        if 0 < room < least // 2 and len(groups) > 1:
            small = groups.pop()
            groups[-1] += small
    return groups


def _levels(near: list[list[int]], first: int) -> list[list[int]]:
    reached = {first}
    levels = [[first]]
    while True:
        following: list[int] = []
        for node in levels[-1]:
            for other in near[node]:
                if other not in reached:
                    reached.add(other)
                    following.append(other)
        if not following:
            return levels
        levels.append(following)


def _solved(block: Array, right: Array) -> Array:
    return np.asarray(np.linalg.solve(block, right), dtype=np.float64)


@dataclass(frozen=True)
class BlockMatrix:
    """A symmetric matrix of diagonal blocks and the blocks that tie each to the next."""

    starts: Integers
    diagonal: list[Array]
    upper: list[Array]

    @staticmethod
    def assemble(starts: Integers, rows: Integers, parts: Array) -> BlockMatrix:
        """Sum of small matrices ``parts`` (count, p, p) at equations ``rows`` (count, p); -1 is left out."""
        # Small integer types and steps in place: fresh memory costs more than the arithmetic.
        sizes = np.diff(starts)
        block = np.repeat(np.arange(sizes.size, dtype=np.int32), sizes)
        after = np.append(sizes[1:], 0)
        corners = np.concatenate(([0], np.cumsum(sizes * sizes)))
        ties = corners[-1] + np.concatenate(([0], np.cumsum(sizes * after)))
        size = int(ties[-1])
        own = np.arange(block.size) - starts[block]
        in_block = (corners[block] + own * sizes[block])[rows]
        in_tie = (ties[block] + own * after[block])[rows]
        where = np.where(rows >= 0, block[rows], np.int32(-9))
        step = where[:, None, :] - where[:, :, None]
        place = np.where(step == 0, in_block[:, :, None], in_tie[:, :, None])
        place += own[rows][:, None, :]
        np.copyto(place, size, where=(step < 0) | (step > 1))  # one place at the end takes what is not used
        place[rows < 0] = size
        flat = gather(place, parts, (size + 1,))
        return BlockMatrix(
            starts,
            [flat[a:b].reshape(n, n) for a, b, n in zip(corners, corners[1:], sizes, strict=False)],
            [
                flat[a:b].reshape(n, m)
                for a, b, n, m in zip(ties, ties[1:], sizes[:-1], after[:-1], strict=False)
            ],
        )

    def solve(self, right: Array) -> Array:
        """Solution for each column of ``right``; numpy's LinAlgError when a block has no inverse."""
        parts = [right[a:b] for a, b in pairwise(self.starts)]
        carried: list[Array] = []
        block = self.diagonal[0]
        for k, upper in enumerate(self.upper):
            width = upper.shape[1]
            found = _solved(block, np.hstack((upper, parts[k])))
            carried.append(found[:, :width])
            parts[k] = found[:, width:]
            block = self.diagonal[k + 1] - upper.T @ carried[k]
            parts[k + 1] = parts[k + 1] - upper.T @ parts[k]
        parts[-1] = _solved(block, parts[-1])
        for k in range(len(self.upper) - 1, -1, -1):
            parts[k] = parts[k] - carried[k] @ parts[k + 1]
        return np.concatenate(parts)

    def times(self, x: Array) -> Array:
        """Product with a matrix of columns."""
        parts = [x[a:b] for a, b in pairwise(self.starts)]
        result = [block @ part for block, part in zip(self.diagonal, parts, strict=True)]
        for k, upper in enumerate(self.upper):
            result[k] = result[k] + upper @ parts[k + 1]
            result[k + 1] = result[k + 1] + upper.T @ parts[k]
        return np.concatenate(result)

    def scaled(self, factor: Array) -> BlockMatrix:
        """The same matrix with rows and columns multiplied by ``factor`` (equations, 1)."""
        parts = [factor[a:b] for a, b in pairwise(self.starts)]
        return BlockMatrix(
            self.starts,
            [block * part * part.T for block, part in zip(self.diagonal, parts, strict=True)],
            [
                block * part * following.T
                for block, (part, following) in zip(self.upper, pairwise(parts), strict=True)
            ],
        )

    def stiffened(self, by: float) -> BlockMatrix:
        """The same matrix with ``by`` added along its diagonal."""
        added = [block + by * np.eye(len(block)) for block in self.diagonal]
        return BlockMatrix(self.starts, added, self.upper)
