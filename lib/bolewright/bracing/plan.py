"""The platform as a stiff plate in plan on the level springs of its supports."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from bolewright.formulas import formula
from bolewright.units import Force, Length, LineLoadInch, Moment, Ratio

Array = npt.NDArray[np.float64]
LOOSE = 5.0  # lb/in: a direction with less than this is not held


@dataclass(frozen=True)
class PlanSpring:
    """A level spring: place in plan (in), the two unit directions (rows), and the stiffness along each (lb/in)."""

    x: float
    y: float
    axes: Array
    k: Array

    @property
    def rows(self) -> Array:
        """Movement along its two axes per movement (u_x, u_y, theta) of the plate, (2, 3)."""
        turn = self.axes[:, 1] * self.x - self.axes[:, 0] * self.y
        return np.column_stack([self.axes, turn])


def plan_stiffness(springs: list[PlanSpring]) -> Array:
    """Stiffness of the plate against moving along x, along y and turning about the origin, (3, 3)."""
    return np.asarray(sum((s.rows.T @ (s.k[:, None] * s.rows) for s in springs), np.zeros((3, 3))))


def loose_direction(K: Array, reach: float) -> str:
    """Words for the way in which a plate of half-size ``reach`` (in) can move freely; empty when it is held."""
    scale = np.array([1.0, 1.0, 1.0 / reach])
    values, vectors = np.linalg.eigh(K * np.outer(scale, scale))
    if values[0] >= LOOSE:
        return ""
    x, y, turn = np.abs(vectors[:, 0])
    if turn > max(x, y):
        return "turning in plan"
    return "along x" if x > 2 * y else "along y" if y > 2 * x else "sideways"


def plan_movement(springs: list[PlanSpring], load: Array, ground: Array) -> Array:
    """Movement (u_x, u_y in in; theta in radians, about the origin) under each case.

    Parameters: ``load`` forces and moment about the origin (3, cases), lb and lb·in; ``ground`` movement of what
    each spring stands on, along its axes, (springs, 2, cases), in.
    """
    K = plan_stiffness(springs)
    total = load.astype(float)
    for spring, moved in zip(springs, ground, strict=True):
        total = total + spring.rows.T @ (spring.k[:, None] * moved)
    return np.asarray(np.linalg.solve(K, total))


@formula("Geometry (stiff plate in plan)")
def support_movement(
    u_x: Length, u_y: Length, theta: Ratio, x: Length, y: Length, c: Ratio, s: Ratio
) -> Length:
    """Movement of the plate over a support, in one direction.

    Parameters: u_x, u_y movement at the origin (in); theta turn (radians); x, y place of the support (in);
    c, s direction cosines. Returns: delta (in). Source: geometry of a small movement.
    """
    delta_x: Length = u_x - theta * y
    delta_y: Length = u_y + theta * x
    delta: Length = delta_x * c + delta_y * s
    return delta


@formula("Statics (spring that stands on moving ground)")
def support_level_force(k: LineLoadInch, delta: Length, g: Length) -> Force:
    """Level force that the platform puts on a support.

    Parameters: k stiffness of the support (lb/in); delta movement of the platform over it, g of the stem under
    it (in). Returns: V (lb). Source: Hooke's law.
    """
    V: Force = k * (delta - g)
    return V


@formula("Statics (stiff plate, supports in proportion to their stiffness)")
def direct_share(H: Force, k: LineLoadInch, K: LineLoadInch) -> Force:
    """Share of a level force through the centre of stiffness.

    Parameters: H level force (lb); k stiffness of the support, K of all in that direction (lb/in).
    Returns: V_d (lb). Source: rigid diaphragm, textbook.
    """
    V_d: Force = H * k / K
    return V_d


@formula("Statics (stiff plate that turns about its centre of stiffness)")
def torsion_share(T: Moment, k: LineLoadInch, d: Length, J: Moment) -> Force:
    """Share of the turning moment of a level force that misses the centre of stiffness.

    Parameters: T moment about the centre (lb·in); k stiffness of the support (lb/in); d its distance across
    its direction from the centre (in); J sum of k d² over all supports and directions (lb·in per radian).
    Returns: V_t (lb). Source: rigid diaphragm, textbook.
    """
    V_t: Force = T * k * d / J
    return V_t


@formula("Statics (boards as couples on the joists)")
def board_racking_strength(Z_p: Force, s: Length, a: Length, w: Length) -> LineLoadInch:
    """Shear per length of deck that the couples of the board screws resist in plan.

    When it applies: two screws in every board at every joist, boards with open gaps.
    Parameters: Z_p adjusted value of one screw (lb); s distance between the two screws of a board (in);
    a spacing of the joists, w of the boards (in). Returns: v_a (lb/in).
    Source: statics: the couple Z' s of each crossing spread over its a w of deck.
    """
    v_a: LineLoadInch = Z_p * s / (a * w)
    return v_a


@formula("Statics (shear per length of deck)")
def plan_shear(H: Force, W: Length) -> LineLoadInch:
    """Shear per length of deck across its narrowest width.

    Parameters: H level force passed on in plan (lb); W width of the deck along the force (in).
    Returns: v (lb/in). Source: statics.
    """
    v: LineLoadInch = H / W
    return v
