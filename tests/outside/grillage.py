"""A grillage of beams on rigid supports: own stiffness matrix, plain arrays.

Each member is a line of Euler beams with a deflection and a turn at every node. Where one sits on another both have
one deflection and turn freely of each other (no torsion); on a support the deflection is nought. Down is positive for
loads and deflections. Seat forces come from the stiffness; moments and shears from them by statics along the member.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import lu_factor, lu_solve
from scipy.sparse import csc_array

from outside.boards import Share
from outside.drawing import Beam

SAME = 0.01  # in: nodes nearer than this are one: shorter elements spoil the numbers, and move nothing
TINY = 1e-7  # in
ON = 2e-5  # in: a load this near to a place stands on it
PIECES = 10  # even pieces of each span
AT_TIP = 3  # and of each overhang, where all is greatest at its ends


@dataclass(frozen=True)
class Joint:
    """Beam ``upper`` sits at ``at``; on beam ``lower`` at ``place``, or on a support (lower is -1)."""

    upper: int
    at: float
    lower: int
    place: float
    support: str


def joints_of(beams: tuple[Beam, ...]) -> list[Joint]:
    number = {beam.mark: i for i, beam in enumerate(beams)}
    return [
        Joint(i, at, number.get(below, -1), place, "" if below in number else below)
        for i, beam in enumerate(beams)
        for at, below, place in beam.seats
    ]


def hermite(x: np.ndarray, a: np.ndarray, h: np.ndarray) -> np.ndarray:
    """Parts of unit loads at x on elements from a, h long, as equivalent loads (rows): w, turn, w, turn."""
    r = np.clip((x - a) / h, 0.0, 1.0)
    return np.array(
        [1 - 3 * r**2 + 2 * r**3, h * (r - 2 * r**2 + r**3), 3 * r**2 - 2 * r**3, h * (r**3 - r**2)]
    )


class Grillage:
    """Members as beams, solved for a unit load at any place."""

    def __init__(self, beams: tuple[Beam, ...]) -> None:
        self.beams = beams
        self.joints = joints_of(beams)
        self.nodes = [self._nodes(i) for i in range(len(beams))]
        self.joints = [self._on_nodes(joint) for joint in self.joints]
        self.base = np.cumsum([0, *(2 * len(n) for n in self.nodes)])
        self._solve()

    def _nodes(self, i: int) -> np.ndarray:
        beam = self.beams[i]
        places = [j.at for j in self.joints if j.upper == i] + [j.place for j in self.joints if j.lower == i]
        bays = sorted({0.0, beam.length, *(at for at, _, _ in beam.seats)})
        seats = [at for at, _, _ in beam.seats]
        for a, b in zip(bays, bays[1:], strict=False):
            span = a >= min(seats) and b <= max(seats)
            places += np.linspace(a, b, (PIECES if span else AT_TIP) + 1).tolist()
        kept: list[float] = []
        for x in sorted(min(max(x, 0.0), beam.length) for x in places):
            if not kept or x - kept[-1] > SAME:
                kept.append(x)
        kept[-1] = beam.length
        return np.array(kept)

    def _on_nodes(self, j: Joint) -> Joint:
        at = float(self.nodes[j.upper][self.node(j.upper, j.at)])
        place = float(self.nodes[j.lower][self.node(j.lower, j.place)]) if j.lower >= 0 else 0.0
        return replace(j, at=at, place=place)

    def node(self, i: int, x: float) -> int:
        return int(np.argmin(np.abs(self.nodes[i] - x)))

    def _solve(self) -> None:
        size = self.base[-1]
        K = np.zeros((size, size))
        for i, beam in enumerate(self.beams):
            for n, h in enumerate(np.diff(self.nodes[i])):
                at = self.base[i] + 2 * n + np.arange(4)
                k = np.array(
                    [
                        [12, 6 * h, -12, 6 * h],
                        [6 * h, 4 * h**2, -6 * h, 2 * h**2],
                        [-12, -6 * h, 12, -6 * h],
                        [6 * h, 2 * h**2, -6 * h, 4 * h**2],
                    ]
                )
                K[np.ix_(at, at)] += beam.EI / h**3 * k
        owner = np.arange(size)
        fixed = np.zeros(size, dtype=bool)

        def root(k: int) -> int:
            while owner[k] != k:
                k = owner[k]
            return k

        self.upper_dof = []
        for j in self.joints:
            up = self.base[j.upper] + 2 * self.node(j.upper, j.at)
            self.upper_dof.append(int(up))
            if j.lower < 0:
                fixed[root(up)] = True
            else:
                low = root(self.base[j.lower] + 2 * self.node(j.lower, j.place))
                fixed[low] |= fixed[root(up)]
                owner[root(up)] = low
        roots = np.array([root(k) for k in range(size)])
        free = np.unique(roots[~fixed[roots]])
        T = np.zeros((size, free.size))
        rows = np.flatnonzero(~fixed[roots])
        T[rows, np.searchsorted(free, roots[rows])] = 1.0
        flexible = _solved(T.T @ K @ T, T.T)
        self.displacement = T @ flexible  # at every freedom, by a unit load at every freedom
        unbalanced = np.eye(size)[self.upper_dof] - K[self.upper_dof] @ self.displacement
        self.force = np.zeros_like(unbalanced)  # joints x freedoms: force from upper on what is below, down
        for k, j in enumerate(self.joints):
            self.force[k] = unbalanced[k]
            for other, o in enumerate(self.joints):
                if o.lower == j.upper and self.node(j.upper, o.place) == self.node(j.upper, j.at):
                    self.force[k] += self.force[other]

    def spread(self, i: int, x: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Freedoms (four rows) and equivalent loads of unit loads at places of a member."""
        nodes = self.nodes[i]
        n = np.clip(np.searchsorted(nodes, x, side="right") - 1, 0, len(nodes) - 2)
        rows = self.base[i] + 2 * n + np.arange(4)[:, None]
        return rows, hermite(x, nodes[n], np.diff(nodes)[n])


def _solved(A: np.ndarray, b: np.ndarray) -> np.ndarray:
    """A x = b, scaled and refined: pieces of a sixteenth beside pieces of feet cost four digits else."""
    scale = 1.0 / np.sqrt(np.diag(A))
    factors = lu_factor(scale[:, None] * A * scale)
    x = scale[:, None] * lu_solve(factors, scale[:, None] * b)
    for _ in range(2):
        x += scale[:, None] * lu_solve(factors, scale[:, None] * (b - A @ x))
    return np.asarray(x)


class Loads:
    """Many loads at once, each shared out: their forces at joints and what they do to members."""

    def __init__(self, grillage: Grillage, points: list[list[Share]]) -> None:
        self.grillage = grillage
        self.count = len(points)
        entries: list[list[np.ndarray]] = [[], [], []]
        flat = np.array([(c, i, x, part) for c, shares in enumerate(points) for i, x, part in shares])
        self.direct: dict[int, tuple[np.ndarray, np.ndarray, np.ndarray]] = {}
        for i in range(len(grillage.beams)):
            column, _, x, part = flat[flat[:, 1] == i].T
            rows, parts = grillage.spread(i, x)
            columns = column.astype(int)
            for kept, new in zip(entries, (rows, np.tile(columns, (4, 1)), part * parts), strict=True):
                kept.append(new.ravel())
            self.direct[i] = columns, x, part
        rows, columns, parts = (np.concatenate(kept) for kept in entries)
        self.p = csc_array((parts, (rows, columns)), shape=(grillage.base[-1], self.count))
        self.joint = grillage.force @ self.p

    def on_support(self, mark: str) -> np.ndarray:
        rows = [k for k, j in enumerate(self.grillage.joints) if j.support == mark]
        return self.joint[rows].sum(axis=0)

    def stations(self, i: int) -> np.ndarray:
        """Places that are looked at: the nodes and the middles between them."""
        nodes = self.grillage.nodes[i]
        return np.sort(np.concatenate([nodes, (nodes[1:] + nodes[:-1]) / 2]))

    def moment_and_shear(
        self, i: int, under: np.ndarray | None = None
    ) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Moment (sagging positive), and shear left and right of every station, by every load.

        ``under``: more places that are looked at, those under single loads.
        """
        X = self.stations(i) if under is None else np.union1d(self.stations(i), under)
        M = np.zeros((X.size, self.count))
        left, right = np.zeros_like(M), np.zeros_like(M)
        for k, j in enumerate(self.grillage.joints):
            if i not in (j.upper, j.lower):
                continue
            a, sign = (j.at, 1.0) if j.upper == i else (j.place, -1.0)
            F = sign * self.joint[k]
            M += np.outer(np.maximum(X - a, 0), F)
            left += np.outer(a + TINY < X, F)
            right += np.outer(a - TINY <= X, F)
        columns, x, part = self.direct[i]
        past = X[:, None] - x[None, :]
        for matrix, what in ((M, np.maximum(past, 0)), (left, past > ON), (right, past >= -ON)):
            np.subtract.at(matrix.T, columns, (what * part).T)
        return M, left, right

    def deflection(self, i: int) -> np.ndarray:
        """Deflection off the straight line through the outer seats at the stations, by every load.

        Between nodes by Hermite's cubics: a load inside a piece adds a thousandth of the span's at most.
        """
        g = self.grillage
        x, h = g.nodes[i], np.diff(g.nodes[i])[:, None]
        rows = g.base[i] + 2 * np.arange(x.size)
        w, turn = g.displacement[rows] @ self.p, g.displacement[rows + 1] @ self.p
        middles = (w[1:] + w[:-1]) / 2 + h / 8 * (turn[:-1] - turn[1:])
        seats = sorted(at for at, _, _ in g.beams[i].seats)
        first, last = g.node(i, seats[0]), g.node(i, seats[-1])
        along = ((self.stations(i) - x[first]) / (x[last] - x[first]))[:, None]
        both = np.empty((2 * x.size - 1, self.count))
        both[::2], both[1::2] = w, middles
        return both - (1 - along) * w[first] - along * w[last]
