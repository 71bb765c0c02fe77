"""The platform as a stiff plate in plan on the level springs of its supports."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import Area, Force, Length, LineLoadInch, Moment, Ratio

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


def loose_direction(springs: list[PlanSpring], reach: float) -> str:
    """Words for the way in which a plate of half-size ``reach`` (in) can move freely; empty when it is held.

    Turning is looked at about the middle of the springs, so that it does not hang on where the plan's origin lies.
    """
    middle = np.mean([(s.x, s.y) for s in springs], axis=0)
    K = plan_stiffness([replace(s, x=s.x - middle[0], y=s.y - middle[1]) for s in springs])
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

    Parameters: u_x, u_y movement of the deck at the origin of the plan (in); theta its turn (radians); x, y place of
    the support in plan (in); c, s cosine and sine of the direction looked at.
    Returns: delta (in). Source: geometry of a small movement.
    """
    delta_x: Length = u_x - theta * y
    delta_y: Length = u_y + theta * x
    delta: Length = delta_x * c + delta_y * s
    return delta


@formula("Statics (spring that stands on moving ground)")
def support_level_force(k: LineLoadInch, delta: Length, g: Length) -> Force:
    """Level force that the platform puts on a support.

    Parameters: k stiffness of the support (lb/in); delta movement of the platform over it, g of the stem under
    it, or lean of a T-frame's post (in). Returns: V (lb). Source: Hooke's law.
    """
    V: Force = k * (delta - g)
    return V


@formula("Statics (fastener group: even share and turning share)")
def seat_level_force(H_x: Force, H_y: Force, n: Ratio, T: Moment, x: Length, y: Length, J: Area) -> Force:
    """Level force that one of several seats on a carrier passes to it.

    Parameters: H_x, H_y level force on the carrier (lb); n seats; T moment of that force about their centre
    (lb·in); x, y place of the seat from the centre (in); J sum of the squared distances of all seats (in²).
    Returns: V_s (lb). Source: seats of like stiffness, elastic method of a fastener group.
    """
    V_x: Force = H_x / n - T * y / J
    V_y: Force = H_y / n + T * x / J
    V_s: Force = sqrt(V_x**2 + V_y**2)
    return V_s


@formula("Statics (push spread in a straight line along the deck)")
def level_load_before_cut(F: Force, M: Moment, L: Length, c: Length) -> Force:
    """Part of a level push across the deck that acts before a cut through it.

    When it applies: the push rises or falls evenly along the deck, so that its sum and its moment are right.
    Parameters: F push across the deck (lb); M its moment about the middle of the deck's length, with that of the
    push along it (lb·in); L length of the deck, c distance of the cut from its end (in). Returns: w (lb).
    Source: statics, the integral of a straight-line load.

    >>> level_load_before_cut(1000.0, 0.0, 120.0, 30.0)
    250.0
    """
    m: Length = c - L / 2
    w: Force = F * c / L + 6 * M / L**3 * (m**2 - L**2 / 4)
    return w


@formula("Statics (shear of the deck in plan)")
def plan_shear(V: Force, w: Force) -> Force:
    """Level force that the deck passes on through a cut across it.

    Parameters: V level force of the supports before the cut, w level push on the deck before it (lb).
    Returns: H (lb), without sign. Source: statics of one part.
    """
    H: Force = abs(V - w)
    return H


@formula("Statics (diagonals that keep the deck square)")
def plan_diagonal_force(H: Force, C: Ratio) -> Force:
    """Pull in each plan diagonal that leans one way, from the level force that the deck passes on across itself.

    When it applies: straps that only pull, a crossed pair at least; the boards with their open gaps not counted.
    Parameters: H level force passed on in plan (lb); C sum of the cosines between the diagonals that lean this
    way and the force. Returns: F_d (lb). Source: statics of a truss in plan.
    """
    F_d: Force = H / C
    return F_d
