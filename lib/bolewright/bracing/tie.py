"""What a tree bearing passes laterally: friction, the hold-down clip, a bolt bent in two planes."""

from __future__ import annotations

from numpy import maximum, minimum, sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, Moment, Ratio

LEAST_HOLD_DOWN = 200.0  # lb, least rated uplift of what keeps a bearing on its bolt; common practice


@formula("Statics; common practice (least rated uplift of a hold-down clip)", confidence="common practice")
def hold_down_force(R: Force, U_0: Force) -> Force:
    """Uplift that a hold-down clip is asked for: what the least load lifts, and no less than common practice wants.

    Parameters: R least load on the bearing, U_0 the least that is asked in any case (lb). Returns: U (lb).
    Source: statics; common practice.

    >>> float(hold_down_force(150.0, 200.0)), float(hold_down_force(-250.0, 200.0))
    (200.0, 250.0)
    """
    U: Force = maximum(-R, U_0)
    return U


@formula("Coulomb friction, no more than a tie would bring")
def friction_force(mu: Ratio, R: Force, H_t: Force) -> Force:
    """Lateral force that a moving trunk brings to a sliding bearing by friction; counted as load, never as help.

    Parameters: mu coefficient of friction; R load on the bearing (lb); H_t force that the same movement would
    bring to a bearing that is tied (lb). Returns: F_f (lb). Source: Coulomb.

    >>> float(friction_force(0.4, 700.0, 150.0)), float(friction_force(0.4, 300.0, 150.0))
    (150.0, 120.0)
    """
    F_f: Force = minimum(mu * R, H_t)
    return F_f


@formula("Statics (moments about two axes, round bar)")
def resultant_moment(M_v: Moment, M_h: Moment) -> Moment:
    """Moment in a round bar bent in two planes.

    Parameters: M_v, M_h moments in the upright and the level plane (lb·in). Returns: M (lb·in).
    Source: statics; the largest of each, wherever they are.

    >>> round(float(resultant_moment(3000.0, 4000.0)), 3)
    5000.0
    """
    M: Moment = sqrt(M_v**2 + M_h**2)
    return M


@formula("Statics (force along the bolt above its axis)")
def moment_off_axis(M_v: Moment, H: Force, z_s: Length) -> Moment:
    """Moment in the upright plane with the lateral force along the bolt, which comes in above the bolt's axis.

    Parameters: M_v moment from the load (lb·in); H lateral force along the bolt (lb); z_s height of the bearing above
    the bolt's axis (in). Returns: M_u (lb·in). Source: statics, the force in its worse direction.

    >>> round(float(moment_off_axis(3000.0, -500.0, 2.0)), 3)
    4000.0
    """
    M_u: Moment = M_v + abs(H) * z_s
    return M_u


@formula("Geometry (platform and trunk move by themselves)")
def movement_apart(delta: Length, g: Length) -> Length:
    """How far a platform and the trunk under a bearing move apart, in one direction.

    Parameters: delta movement of the platform, g of the trunk (in). Returns: u (in). Source: geometry.

    >>> round(float(movement_apart(0.5, -0.25)), 3)
    0.75
    """
    u: Length = abs(delta - g)
    return u


@formula("Geometry (part of a movement)")
def trunk_movement(s: Length, c: Ratio) -> Length:
    """Movement of a trunk that sways, in one direction.

    Parameters: s sway of the trunk (in); c cosine between the way in which it moves and that direction.
    Returns: g (in). Source: geometry.

    >>> trunk_movement(0.5, -0.6)
    -0.3
    """
    g: Length = s * c
    return g


@formula("Geometry (a trunk that sways against the platform)")
def movement_against(Delta: Length, s: Length) -> Length:
    """How far a platform and a trunk that bears nothing of it move apart, at worst one against the other.

    Parameters: Delta movement of the platform at the trunk, s sway of the trunk (in). Returns: u (in).
    Source: geometry.

    >>> movement_against(0.5, 0.25)
    0.75
    """
    u: Length = Delta + s
    return u


@formula("Geometry (a bearing that slides, at its worst)")
def lever_of_sliding(e: Length, s_u: Length, s_l: Length) -> Length:
    """Lever arm of a bearing that slides along its bolt: past the slide counted in e, out by what is left.

    Parameters: e sound wood face to centre of bearing with the slide entered (in); s_u how far platform and trunk move
    apart along the bolt, the most of all cases, or the trunk's own sway where that is more (in); s_l slide entered
    (in). Returns: e_s (in). Source: geometry.

    >>> float(lever_of_sliding(5.0, 1.25, 1.0)), float(lever_of_sliding(5.0, 0.5, 1.0))
    (5.25, 5.0)
    """
    e_s: Length = e + maximum(s_u - s_l, 0)
    return e_s


@formula("Common practice (never less than the sway itself)", confidence="common practice")
def greater_movement(s: Length, u: Length) -> Length:
    """Movement to make room for: how far platform and trunk move apart, and no less than the trunk's own sway.

    Parameters: s sway of the trunk to one side, u movement apart (in). Returns: s_u (in). Source: common practice.

    >>> round(float(greater_movement(1.0, 0.75)), 3)
    1.0
    """
    s_u: Length = maximum(s, u)
    return s_u
