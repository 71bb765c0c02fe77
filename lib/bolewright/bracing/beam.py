"""Beams under lateral load: bent laterally between the joists that hold them, overturned on their seats."""

from __future__ import annotations

from numpy import minimum

from bolewright.formulas import formula
from bolewright.units import Area, Force, Length, Moment, Ratio, SectionModulus, Stress


@formula("Geometry (plies bent flatwise, each by itself)")
def flatwise_section_modulus(n: Ratio, d: Length, t: Length) -> SectionModulus:
    """Section modulus of a beam bent laterally, its plies not counted as one.

    Parameters: n plies; d depth, t thickness of one ply (in). Returns: S_2 (in³). Source: geometry.

    >>> flatwise_section_modulus(2, 11.25, 1.5)
    8.4375
    """
    S_2: SectionModulus = n * d * t**2 / 6
    return S_2


@formula("Statics (force between two supports)")
def lateral_point_moment(H: Force, a: Length, b: Length) -> Moment:
    """Lateral moment in a member where a force pushes across it, nothing between its two seats holding it.

    Parameters: H force (lb); a, b distances to the seats on both sides (in). Returns: M_2 (lb·in). Source: statics.

    >>> lateral_point_moment(100.0, 30.0, 60.0)
    2000.0
    """
    M_2: Moment = H * a * b / (a + b)
    return M_2


@formula("Statics (cantilever)")
def lateral_tip_moment(H: Force, a: Length) -> Moment:
    """Lateral moment in a member at its last seat, from a force across what runs out past it.

    Parameters: H force (lb); a distance past the seat (in). Returns: M_2 (lb·in). Source: statics.

    >>> lateral_tip_moment(100.0, 30.0)
    3000.0
    """
    M_2: Moment = H * a
    return M_2


@formula("Geometry (support off the line of what it carries)")
def off_line_sum(e_0: Length, o: Length) -> Length:
    """Distance off centre, or lever arm, with what a support stands off the line of the beam on it.

    Parameters: e_0 the distance on the line (in); o how far the support is off the line (in).
    Returns: e (in). Source: geometry, in its worse direction.

    >>> round(off_line_sum(0.75, 0.5), 3)
    1.25
    """
    e: Length = e_0 + o
    return e


@formula("Geometry (width of bearing on a post)")
def bearing_width_on_post(b: Length, b_p: Length, o: Length) -> Length:
    """Width of a beam that bears on a post's top, even on both sides of the load.

    Parameters: b width of the beam, b_p of the post (in); o how far the post is off the beam's line (in).
    Returns: b_b (in). Source: geometry: the nearer edge of beam or post, both sides alike.

    >>> float(bearing_width_on_post(4.5, 5.5, 1.0))
    3.5
    """
    b_b: Length = minimum(b, b_p - 2 * o)
    return b_b


@formula("Statics (bending stresses of both ways in one corner)")
def bending_stress_sum(f_b1: Stress, f_b2: Stress) -> Stress:
    """Bending stress in the corner that both ways of bending pull.

    Parameters: f_b1 edgewise, f_b2 flatwise (psi). Returns: f_b (psi). Source: statics.

    >>> round(bending_stress_sum(700.0, 150.0), 3)
    850.0
    """
    f_b: Stress = f_b1 + f_b2
    return f_b


@formula("Statics (fastener group: even share and turning share)")
def seat_force_along(
    H_x: Force, H_y: Force, n: Ratio, T: Moment, x: Length, y: Length, J: Area, c: Ratio, s: Ratio
) -> Force:
    """Lateral force in one direction that one of several seats on a beam passes to it.

    Parameters: H_x, H_y lateral force on the beam (lb); n seats; T moment of that force about their centre
    (lb·in); x, y place of the seat from the centre (in); J sum of the squared distances of all seats (in²);
    c, s direction cosines. Returns: V_a (lb). Source: seats of like stiffness, elastic method.

    Two seats 50 in. either way: 50 lb each, and 1000 x 50/5000 by the moment.

    >>> round(float(seat_force_along(0.0, 100.0, 2.0, 1000.0, 50.0, 0.0, 5000.0, 0.0, 1.0)), 3)
    60.0
    >>> round(float(seat_force_along(100.0, 0.0, 2.0, 1000.0, 0.0, 50.0, 5000.0, 1.0, 0.0)), 3)
    40.0
    """
    V_x: Force = H_x / n - T * y / J
    V_y: Force = H_y / n + T * x / J
    V_a: Force = abs(V_x * c + V_y * s)
    return V_a


@formula("Statics (part of a force across a beam)")
def force_across_beam(V_1: Force, V_2: Force, c_1: Ratio, c_2: Ratio) -> Force:
    """Lateral force of a support across the beam on it.

    Parameters: V_1, V_2 lateral force of the support in its two directions (lb); c_1, c_2 cosines between these and the
    direction across the beam. Returns: V (lb). Source: statics.

    >>> round(force_across_beam(100.0, 50.0, 0.6, -0.8), 3)
    20.0
    """
    V: Force = V_1 * c_1 + V_2 * c_2
    return V


@formula("Statics (part of a force across a beam, without sign)")
def force_across_either_way(V_1: Force, V_2: Force, c_1: Ratio, c_2: Ratio) -> Force:
    """Lateral force of a tree bolt across the beam on it, either way.

    Parameters: V_1, V_2 lateral force of the support in its two directions (lb); c_1, c_2 cosines between these and the
    direction across the beam. Returns: V_a (lb). Source: statics.

    >>> force_across_either_way(100.0, -200.0, 0.6, 0.8)
    100.0
    """
    V_a: Force = abs(V_1 * c_1 + V_2 * c_2)
    return V_a


@formula("Elastic beam theory (beam held laterally where framing sits on it)")
def lateral_moment_from_seat(M_b: Moment, m: Length, V: Force) -> Moment:
    """Lateral moment of a beam at a section: that of one more support added.

    Parameters: M_b moment from the supports added before it (lb·in); m moment at the section from a pound across at the
    support, the beam held laterally wherever joists or beams sit on it (in); V lateral force of the support across the
    beam (lb). Returns: M_2 (lb·in). Source: three-moment equations.

    >>> lateral_moment_from_seat(100.0, 12.0, -50.0)
    -500.0
    """
    M_2: Moment = M_b + m * V
    return M_2


@formula("Elastic beam theory (beam held laterally where framing sits on it)")
def force_at_end(F_b: Force, r: Ratio, V: Force) -> Force:
    """Force across a beam that comes to the end of a joist or beam on it: that of one more seat added.

    Parameters: F_b what comes there from the seats added before it (lb); r what comes there of a pound across at the
    seat, the beam held laterally wherever joists or beams sit on it; V lateral force across the beam at the seat (lb).
    Returns: F_n (lb). Source: three-moment equations.

    A tip 12 in. past the first of two joists 16 in. apart: 1 + 12/16 of it there.

    >>> force_at_end(0.0, 1.75, 200.0)
    350.0
    >>> force_at_end(350.0, -0.5, 100.0)
    300.0
    """
    F_n: Force = F_b + r * V
    return F_n


@formula("Statics (force of the lateral load, and what knees push or bearings rub)")
def force_at_end_with_push(F_b: Force, T: Force) -> Force:
    """Force across a beam that comes to an end on it, with what knees under weight push and bearings that slide rub.

    Parameters: F_b by the lateral load (lb); T what these add or take in the worst pattern of weight (lb).
    Returns: F_n (lb). Source: statics.

    >>> force_at_end_with_push(-300.0, -40.0)
    -340.0
    """
    F_n: Force = F_b + T
    return F_n


@formula("Judgement (a beam is stiff along itself: an even share)")
def share_along_beam(H: Force, n: Ratio) -> Force:
    """Force along a beam that comes to each of the ends on it.

    Parameters: H lateral force along the beam, of all its seats (lb); n ends of joists and beams on it. Returns: F_u
    (lb). Source: equal springs on a bar that does not stretch; its turning in plan is left out.

    >>> share_along_beam(-800.0, 8)
    -100.0
    """
    F_u: Force = H / n
    return F_u
