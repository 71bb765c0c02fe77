"""The platform as a stiff plate in plan on the lateral springs of its supports."""

from __future__ import annotations

from collections.abc import Sequence
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
    """A lateral spring: place in plan (in), the two unit directions (rows), and the stiffness along each (lb/in)."""

    x: float
    y: float
    axes: Array
    k: Array

    @property
    def rows(self) -> Array:
        """Movement along its two axes per movement (u_x, u_y, theta) of the plate, (2, 3)."""
        turn = self.axes[:, 1] * self.x - self.axes[:, 0] * self.y
        return np.column_stack([self.axes, turn])


def all_rows(springs: Sequence[PlanSpring]) -> Array:
    """Movement of every spring along its two axes, one after another, per movement of the plate (2 n, 3)."""
    return np.concatenate([s.rows for s in springs]) if springs else np.zeros((0, 3))


def passed_on(springs: Sequence[PlanSpring], give: Array | None = None) -> Array:
    """Share of every force that is left as what lies between plate and springs gives too (2 n, 2 n).

    Parameters: ``give`` movement between plate and springs from a pound at each of them, along the axes of all springs
    (2 n, 2 n), in/lb; none where the plate sits on the springs. A spring passes on k (R u - F f - g), so that all
    pass on f = (1 + k F)⁻¹ k (R u - g).
    """
    k = np.concatenate([s.k for s in springs]) if springs else np.zeros(0)
    eye = np.eye(len(k))
    return np.asarray(eye if give is None else np.linalg.inv(eye + k[:, None] * give), dtype=np.float64)


def plan_stiffness(springs: Sequence[PlanSpring], give: Array | None = None) -> Array:
    """Stiffness of the plate against moving along x, along y and turning about the origin, (3, 3).

    ``give``: as in :func:`passed_on`.
    """
    rows = all_rows(springs)
    k = np.concatenate([s.k for s in springs]) if springs else np.zeros(0)
    return np.asarray(rows.T @ passed_on(springs, give) @ (k[:, None] * rows))


def loose_direction(springs: Sequence[PlanSpring], reach: float, give: Array | None = None) -> str:
    """Words for the way in which a plate of half-size ``reach`` (in) can move freely; empty when it is held.

    Turning is looked at about the middle of the springs, so that it does not hang on where the plan's origin lies.
    """
    middle = np.mean([(s.x, s.y) for s in springs], axis=0)
    K = plan_stiffness([replace(s, x=s.x - middle[0], y=s.y - middle[1]) for s in springs], give)
    scale = np.array([1.0, 1.0, 1.0 / reach])
    values, vectors = np.linalg.eigh(K * np.outer(scale, scale))
    if values[0] >= LOOSE:
        return ""
    x, y, turn = np.abs(vectors[:, 0])
    if turn > max(x, y):
        return "turning in plan"
    return "along x" if x > 2 * y else "along y" if y > 2 * x else "laterally"


def plan_movement(
    springs: Sequence[PlanSpring],
    load: Array,
    ground: Array,
    give: Array | None = None,
    dragged: Array | None = None,
) -> Array:
    """Movement (u_x, u_y in in; theta in radians, about the origin) under each case.

    Parameters: ``load`` forces and moment about the origin (3, cases), lb and lb·in; ``ground`` movement of what
    each spring stands on, along its axes, (springs, 2, cases), in; ``give`` as in :func:`passed_on`; ``dragged``
    force with which a moving trunk drags a bearing that slides (springs, 2, cases), lb.
    """
    k = np.concatenate([s.k for s in springs])
    held = k[:, None] * ground.reshape(len(k), -1)
    if dragged is not None:
        held = held + dragged.reshape(len(k), -1)
    total = load + all_rows(springs).T @ passed_on(springs, give) @ held
    return np.asarray(np.linalg.solve(plan_stiffness(springs, give), total))


def plan_force(
    springs: Sequence[PlanSpring],
    movement: Array,
    ground: Array,
    give: Array | None = None,
    dragged: Array | None = None,
) -> Array:
    """Force of the plate on every spring along its axes (springs, 2, cases), lb; arguments as :func:`plan_movement`."""
    k = np.concatenate([s.k for s in springs])
    sprung = k[:, None] * (all_rows(springs) @ movement - ground.reshape(len(k), -1))
    if dragged is not None:
        sprung = sprung - dragged.reshape(len(k), -1)
    return np.asarray((passed_on(springs, give) @ sprung).reshape(ground.shape))


@formula("Compatibility (what lies between deck and support gives)")
def seat_movement(delta: Length, y: Length) -> Length:
    """Movement of what sits on a support, in one direction.

    Parameters: delta movement of the deck over the support (in); y how much less its seat moves, as the joists'
    fastenings slip and the beam on it bends laterally between them (in). Returns: delta_s (in).
    Source: compatibility, two movements one after another.

    >>> round(seat_movement(0.5, 0.2), 6)
    0.3
    """
    delta_s: Length = delta - y
    return delta_s


@formula("Geometry (stiff plate in plan)")
def support_movement(
    u_x: Length, u_y: Length, theta: Ratio, x: Length, y: Length, c: Ratio, s: Ratio
) -> Length:
    """Movement of the plate over a support, in one direction.

    Parameters: u_x, u_y movement of the deck at the origin of the plan (in); theta its turn (radians); x, y place of
    the support in plan (in); c, s cosine and sine of the direction looked at.
    Returns: delta (in). Source: geometry of a small movement.

    >>> round(support_movement(0.1, 0.0, 0.001, 60.0, -40.0, 1.0, 0.0), 6)
    0.14
    >>> round(support_movement(0.1, 0.0, 0.001, 60.0, -40.0, 0.8, 0.6), 6)
    0.148
    """
    delta_x: Length = u_x - theta * y
    delta_y: Length = u_y + theta * x
    delta: Length = delta_x * c + delta_y * s
    return delta


@formula("Statics (spring that stands on moving ground)")
def support_lateral_force(k: LineLoadInch, delta: Length, g: Length) -> Force:
    """Lateral force that the platform puts on a support.

    Parameters: k stiffness of the support (lb/in); delta movement of what sits on it, g of the trunk under it, or
    lean of a T-frame's post (in). Returns: V (lb). Source: Hooke's law.

    >>> round(support_lateral_force(2000.0, 0.15, 0.05), 3)
    200.0
    """
    V: Force = k * (delta - g)
    return V


@formula("Statics (fastener group: even share and turning share)")
def seat_lateral_force(H_x: Force, H_y: Force, n: Ratio, T: Moment, x: Length, y: Length, J: Area) -> Force:
    """Lateral force that one of several seats on a beam passes to it.

    Parameters: H_x, H_y lateral force on the beam (lb); n seats; T moment of that force about their centre
    (lb·in); x, y place of the seat from the centre (in); J sum of the squared distances of all seats (in²).
    Returns: V_s (lb). Source: seats of like stiffness, elastic method of a fastener group.

    300 lb along, 16,000 x 20/800 = 400 lb across:

    >>> round(float(seat_lateral_force(600.0, 0.0, 2.0, 16_000.0, 20.0, 0.0, 800.0)), 3)
    500.0
    >>> round(float(seat_lateral_force(600.0, 200.0, 2.0, 16_000.0, 10.0, -5.0, 800.0)), 3)
    500.0
    """
    V_x: Force = H_x / n - T * y / J
    V_y: Force = H_y / n + T * x / J
    V_s: Force = sqrt(V_x**2 + V_y**2)
    return V_s


@formula("Statics (part of a force in one direction)")
def force_across_deck(F_x: Force, F_y: Force, c: Ratio, s: Ratio) -> Force:
    """Part across the deck of a lateral force.

    Parameters: F_x, F_y the force along x and y (lb); c, s cosines between the direction across the deck and x, y.
    Returns: F (lb). Source: statics.

    >>> round(force_across_deck(100.0, 50.0, 0.6, -0.8), 3)
    20.0
    """
    F: Force = F_x * c + F_y * s
    return F


@formula("Statics (moment of a force about another place)")
def moment_about_middle(M_z: Moment, F_x: Force, F_y: Force, x: Length, y: Length) -> Moment:
    """Moment of the lateral load about the middle of the deck.

    Parameters: M_z its moment about the origin of the plan (lb·in); F_x, F_y lateral load (lb); x, y the middle of the
    deck (in). Returns: M (lb·in). Source: statics.

    >>> moment_about_middle(5000.0, 100.0, 50.0, 20.0, 30.0)
    7000.0
    """
    M: Moment = M_z - (x * F_y - y * F_x)
    return M


@formula("Statics (push spread in a straight line along the deck)")
def lateral_load_before_cut(F: Force, M: Moment, L: Length, c: Length) -> Force:
    """Part of a lateral push across the deck that acts before a cut through it.

    When it applies: the push rises or falls evenly along the deck, so that its sum and its moment are right.
    Parameters: F push across the deck (lb); M its moment about the middle of the deck's length, with that of the
    push along it (lb·in); L length of the deck, c distance of the cut from its end (in). Returns: w (lb).
    Source: statics, the integral of a straight-line load.

    >>> lateral_load_before_cut(1000.0, 0.0, 120.0, 30.0)
    250.0

    With a moment the push rises from 4 lb/in at that end; 7 lb/in at the cut: 5.5 x 25.

    >>> round(lateral_load_before_cut(1000.0, 10_000.0, 100.0, 25.0), 3)
    137.5
    """
    m: Length = c - L / 2
    w: Force = F * c / L + 6 * M / L**3 * (m**2 - L**2 / 4)
    return w


@formula("Statics (sum of the forces before a cut)")
def support_force_before_cut(V_b: Force, V_1: Force, V_2: Force, c_1: Ratio, c_2: Ratio) -> Force:
    """Lateral force of the supports before a cut across the deck: one more of them added.

    Parameters: V_b that of those added before it, V_1 and V_2 lateral force of this support in its two directions (lb);
    c_1, c_2 cosines between these and the direction across the deck. Returns: V (lb). Source: statics.

    >>> round(support_force_before_cut(100.0, 50.0, 20.0, 0.8, -0.6), 3)
    128.0
    """
    V: Force = V_b + V_1 * c_1 + V_2 * c_2
    return V


@formula("Statics (shear of the deck in plan)")
def plan_shear(V: Force, w: Force) -> Force:
    """Lateral force that the deck passes on through a cut across it.

    Parameters: V lateral force of the supports before the cut, w lateral push on the deck before it (lb).
    Returns: H (lb), without sign. Source: statics of one part.

    >>> round(float(plan_shear(200.0, 500.0)), 3)
    300.0
    """
    H: Force = abs(V - w)
    return H


@formula("Statics (diagonals that brace the deck in its plane)")
def plan_diagonal_force(H: Force, C: Ratio) -> Force:
    """Tension in each plan diagonal that leans one way, from the lateral force that the deck passes on across itself.

    When it applies: straps that take tension only, a crossed pair at least; the boards with their open gaps not
    counted. Parameters: H lateral force passed on in plan (lb); C sum of the cosines between the diagonals that lean
    this way and the force. Returns: F_d (lb). Source: statics of a truss in plan.

    >>> round(plan_diagonal_force(400.0, 0.8), 3)
    500.0
    """
    F_d: Force = H / C
    return F_d
