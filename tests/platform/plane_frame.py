"""A plane frame by direct stiffness, of our own: it imports nothing of the program.

x to the right, y up, turns against the clock; forces on a bar's ends are those that its nodes put on it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np


@dataclass(frozen=True)
class Bar:
    """A bar between two nodes: E I and E A over its length; ``hinged`` names the ends that pass no moment."""

    i: str
    j: str
    EI: float
    EA: float
    hinged: tuple[str, ...] = ()


@dataclass
class PlaneFrame:
    """Nodes by name, bars by name, and what is held: (node, direction 0, 1 or 2), rigidly or by a spring."""

    nodes: Mapping[str, tuple[float, float]]
    bars: Mapping[str, Bar]
    held: Sequence[tuple[str, int]]
    springs: Mapping[tuple[str, int], float] = field(default_factory=dict)

    def solve(self, loads: Sequence[Mapping[tuple[str, int], float]]) -> Solved:
        """Movements, ends' forces and reactions for every set of loads on the nodes."""
        at = {(name, d): 3 * n + d for n, name in enumerate(self.nodes) for d in range(3)}
        K = np.zeros((len(at), len(at)))
        for bar in self.bars.values():
            a, k = self._ends(bar, at), self._stiffness(bar)
            K[np.ix_(a, a)] += k
        for where, k in self.springs.items():
            K[at[where], at[where]] += k
        F = np.zeros((len(at), len(loads)))
        for n, case in enumerate(loads):
            for where, P in case.items():
                F[at[where], n] += P
        idle = {d for d in at.values() if abs(K[d, d]) < 1e-9}  # no bar turns this node
        free = [d for where, d in at.items() if where not in self.held and d not in idle]
        u = np.zeros_like(F)
        u[free] = np.linalg.solve(K[np.ix_(free, free)], F[free])
        back = K @ u - F
        ends = {
            name: self._turned(bar) @ self._stiffness(bar) @ u[self._ends(bar, at)]
            for name, bar in self.bars.items()
        }
        return Solved({w: u[d] for w, d in at.items()}, ends, {w: back[at[w]] for w in self.held})

    def _ends(self, bar: Bar, at: Mapping[tuple[str, int], int]) -> list[int]:
        return [at[end, d] for end in (bar.i, bar.j) for d in range(3)]

    def _turned(self, bar: Bar) -> np.ndarray:
        """From the frame's directions to along and square to the bar, at both ends."""
        run = np.subtract(self.nodes[bar.j], self.nodes[bar.i])
        c, s = run / np.hypot(*run)
        turn = np.array([[c, s, 0], [-s, c, 0], [0, 0, 1]])
        return np.block([[turn, np.zeros((3, 3))], [np.zeros((3, 3)), turn]])

    def _stiffness(self, bar: Bar) -> np.ndarray:
        L = float(np.hypot(*np.subtract(self.nodes[bar.j], self.nodes[bar.i])))
        k = np.zeros((6, 6))
        k[np.ix_([0, 3], [0, 3])] = bar.EA / L * np.array([[1, -1], [-1, 1]])
        bent = np.array(
            [
                [12, 6 * L, -12, 6 * L],
                [6 * L, 4 * L * L, -6 * L, 2 * L * L],
                [-12, -6 * L, 12, -6 * L],
                [6 * L, 2 * L * L, -6 * L, 4 * L * L],
            ]
        )
        k[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = bar.EI / L**3 * bent
        for end in bar.hinged:
            d = 2 if end == bar.i else 5
            if k[d, d] > 0:
                k -= np.outer(k[:, d], k[d]) / k[d, d]
        turn = self._turned(bar)
        return turn.T @ k @ turn


@dataclass(frozen=True)
class Solved:
    """Movements by node and direction; forces on each bar's ends along, square, turning (six rows); reactions."""

    moved: Mapping[tuple[str, int], np.ndarray]
    ends: Mapping[str, np.ndarray]
    back: Mapping[tuple[str, int], np.ndarray]

    def tension(self, bar: str) -> np.ndarray:
        return self.ends[bar][3]

    def shear(self, bar: str) -> np.ndarray:
        """Upward force that the bar's left part puts on its right part, for a level bar."""
        return self.ends[bar][1]

    def moment(self, bar: str) -> np.ndarray:
        """Bending at its first end: positive sags a level bar."""
        return -self.ends[bar][2]
