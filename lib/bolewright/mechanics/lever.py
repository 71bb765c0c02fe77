"""The lever and its kin: the one equation of each step that a weight takes on its way to the ground."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import AreaFeet, AreaLoad, Force, Length, Moment, Ratio


@formula("statics: moments about the near support")
def share_by_lever(P: Force, a: Length, l: Length) -> Force:
    """What the far one of two supports takes of a load between them.

    Parameters: P load (lb); a its distance past the near support (in); l distance between the supports (in).
    Returns: R_far (lb). Source: statics, sum of moments about the near support is zero.

    >>> share_by_lever(180.0, 4.0, 16.0)
    45.0
    """
    R_far: Force = P * a / l
    return R_far


@formula("statics: sum of vertical forces")
def weight_spread(q: AreaLoad, A: AreaFeet) -> Force:
    """Weight of a load that lies evenly on an area.

    Parameters: q load per area (psf); A area (ft²). Returns: P (lb). Source: statics.

    >>> round(weight_spread(40.0, 100.0), 3)
    4000.0
    """
    P: Force = q * A
    return P


@formula("statics: sum of vertical forces")
def reaction_left(W: Force, R_others: Force) -> Force:
    """What is left for one support when the others have their part.

    Parameters: W sum of the loads (lb); R_others sum of the other supports' reactions (lb). Returns: R (lb).
    Source: statics, sum of vertical forces is zero.

    >>> round(reaction_left(4000.0, 2500.0), 3)
    1500.0
    """
    R: Force = W - R_others
    return R


@formula("statics: sum of vertical forces")
def still_held_down(D: Force, U: Force) -> Force:
    """What still presses on a support that a load lifts; less than nothing: it lifts off.

    Parameters: D dead load on the support (lb); U lift of the load (lb). Returns: R (lb). Source: statics.

    >>> round(still_held_down(500.0, 800.0), 3)
    -300.0
    """
    R: Force = D - U
    return R


@formula("statics: force over area")
def pressure_added(R: Force, A: AreaFeet) -> AreaLoad:
    """Pressure that a force adds on the soil under a footing.

    Parameters: R force (lb); A area of the footing's base (ft²). Returns: q (psf). Source: statics.

    >>> pressure_added(100.0, 2.0)
    50.0
    """
    q: AreaLoad = R / A
    return q


@formula("statics: moment of a force")
def moment_of_force(R: Force, e: Length) -> Moment:
    """Moment of a force about a place.

    Parameters: R force (lb); e its distance from the place, square to it (in). Returns: M (lb·in).
    Source: statics.

    >>> round(moment_of_force(500.0, 20.0), 3)
    10000.0
    """
    M: Moment = R * e
    return M


@formula("statics: sum of moments")
def moments_left_over(M_load: Moment, M_held: Moment) -> Moment:
    """What is left of the moments of the loads when those of the supports are taken off; nothing if they balance.

    Parameters: M_load moments of the loads about an axis (lb·in); M_held moments of the supports' reactions about
    it (lb·in). Returns: M_left (lb·in). Source: statics, sum of moments is zero.

    >>> round(moments_left_over(10_000.0, 9000.0), 3)
    1000.0
    """
    M_left: Moment = M_load - M_held
    return M_left


@formula("ASCE 7-16, 2.4.1")
def load_in_combination(f_D: Ratio, D: Force, f_L: Ratio, L: Force, f_S: Ratio, S: Force) -> Force:
    """Load of one combination on one part.

    Parameters: f_D, f_L, f_S factors of the combination; D dead, L live, S snow load on the part (lb).
    Returns: P (lb). Source: ASCE 7-16, 2.4.1.

    >>> round(load_in_combination(1.0, 1000.0, 0.75, 2000.0, 0.75, 800.0), 3)
    3100.0
    """
    P: Force = f_D * D + f_L * L + f_S * S
    return P


@formula("ASCE 7-16, 2.4.1; common practice (a guard's push, one person)")
def load_with_one_more(P_w: Force, f: Ratio, Q: Force) -> Force:
    """Load of one combination with one load more: own weight of a post, the push on a guard's post, or one person.

    Parameters: P_w load of D, L and S (lb); f factor of the load more; Q that load at its worst place (lb).
    Returns: P (lb). Source: ASCE 7-16, 2.4.1; common practice.

    >>> load_with_one_more(1000.0, 1.0, -250.0)
    750.0
    """
    P: Force = P_w + f * Q
    return P


@formula("definition")
def times_as_much(M_new: Moment, M_old: Moment) -> Ratio:
    """How many times one moment is another.

    Parameters: M_new, M_old moments (lb·in). Returns: k. Source: definition.

    >>> round(times_as_much(9000.0, 6000.0), 3)
    1.5
    """
    k: Ratio = M_new / M_old
    return k
