"""A gate's leaf, 200 lb down at its free edge: the couple on its hinges, the post it hangs on, its brace, its wheel."""

from __future__ import annotations

from numpy import maximum, sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, Moment, Ratio


@formula("Statics (moment about the hinges)")
def hinge_pull(P: Force, W: Force, w: Length, s: Length) -> Force:
    """Lateral force on each of two hinges from a load at the leaf's free edge and its weight.

    Parameters: P load at the free edge, W weight of the leaf (lb); w width of the leaf, s distance of the hinges (in).
    Returns: F_h (lb). Source: statics.

    >>> hinge_pull(200.0, 40.0, 30.0, 24.0)
    275.0
    """
    F_h: Force = (P * w + W * w / 2) / s
    return F_h


@formula("Statics (moment about the lower hinge)")
def hinge_push(P_o: Force, h: Length, s: Length) -> Force:
    """Force across the leaf on the upper hinge, pushed outward at the leaf's top over it.

    Parameters: P_o push (lb); h height of the leaf, s distance of its hinges, which stand in the middle of its height
    (in). Returns: F_o (lb). Source: statics, P_o ((h - s)/2 + s)/s; never less than the push.

    >>> round(float(hinge_push(200.0, 34.0, 10.0)), 6)
    440.0
    """
    F_o: Force = P_o * (1 + maximum(h - s, 0) / (2 * s))
    return F_o


@formula("Statics (resultant)")
def hinge_load(F_h: Force, F_o: Force, P: Force, W: Force) -> Force:
    """Load on one hinge that takes all that hangs as well as its lateral forces.

    Parameters: F_h lateral force in the leaf's plane, F_o across it; P load down on the leaf, W its weight (lb).
    Returns: R_h (lb). Source: statics; one hinge carries the weight, as two never share it evenly (common practice).

    >>> round(float(hinge_load(275.0, 0.0, 200.0, 40.0)), 1)
    365.0
    >>> round(float(hinge_load(200.0, 300.0, 500.0, 100.0)), 3)
    700.0
    """
    R_h: Force = sqrt(F_h**2 + F_o**2 + (P + W) ** 2)
    return R_h


@formula("Statics (moment about the post's axis)")
def gate_moment(P: Force, W: Force, w: Length, b: Length) -> Moment:
    """Moment along the guard on the post that a gate hangs on.

    Parameters: P load at the free edge, W weight of the leaf (lb); w width of the leaf, b twice the distance from the
    post's middle to the leaf, its gap and packing counted (in). Returns: M_g (lb·in). Source: statics.

    >>> gate_moment(200.0, 40.0, 30.0, 3.5)
    7020.0
    """
    M_g: Moment = P * (w + b / 2) + W * (w + b) / 2
    return M_g


@formula("Statics (triangle of the leaf's brace)")
def leaf_brace_force(P: Force, W: Force, w: Length, h: Length) -> Force:
    """Force along the brace of a leaf, from the lower hinge up to the free edge.

    Parameters: P load at the free edge, W weight of the leaf (lb); w width, h height of the leaf (in).
    Returns: F_d (lb). Source: statics.

    >>> float(leaf_brace_force(200.0, 40.0, 30.0, 40.0))
    275.0
    """
    F_d: Force = (P + W / 2) * sqrt(w**2 + h**2) / h
    return F_d


@formula("Statics (half of the leaf's weight)")
def wheel_load(P: Force, W: Force) -> Force:
    """Load on a wheel under the free edge of a leaf.

    Parameters: P load at the free edge, W weight of the leaf (lb). Returns: R_w (lb). Source: statics.

    >>> wheel_load(200.0, 40.0)
    220.0
    """
    R_w: Force = P + W / 2
    return R_w


@formula("Statics (couple on two bolts, shared by the posts that a continuous rail ties)")
def gate_bolt_force(M_g: Moment, n: Ratio, s: Length) -> Force:
    """Lateral force on each of two bolts of a post, along the rail, from a gate's moment.

    Parameters: M_g moment (lb·in); n posts that share it; s distance of the bolts (in). Returns: Z_g (lb).
    Source: statics.

    >>> gate_bolt_force(6500.0, 2.0, 3.25)
    1000.0
    """
    Z_g: Force = M_g / n / s
    return Z_g


@formula("Statics (resultant)")
def inclined_bolt_force(Z_g: Force, P: Force, W: Force) -> Force:
    """Force on one of two bolts: level couple, and half of what hangs.

    Parameters: Z_g lateral force; P load on the leaf, W its weight (lb). Returns: R_b (lb). Source: statics.

    >>> round(float(inclined_bolt_force(400.0, 500.0, 100.0)), 3)
    500.0
    """
    R_b: Force = sqrt(Z_g**2 + ((P + W) / 2) ** 2)
    return R_b
