"""A guard's post, a cantilever on two bolts, tied back at the top; its rails and infill. Levers by the joint."""

from __future__ import annotations

from numpy import cos, maximum, pi, sqrt, tan

from bolewright.formulas import Limit, formula
from bolewright.units import Angle, Force, Length, LineLoad, LineLoadInch, Moment, Ratio, Stress

_SKEW = Limit(0, 45, "The angle off the square of the edge is outside 0 to 45 degrees.")


@formula("IRC 2021, Table R301.5; ASCE 7-16, 4.5.1", homogeneous=False)
def guard_load_at_post(P_1: Force, w: LineLoad, l: Length) -> Force:
    """Load at the top of one post: the concentrated one, or the line load on what the post holds, not both.

    Parameters: P_1 concentrated load (lb); w line load (plf), 0 where it is not asked; l length of rail that the post
    holds (in). Returns: P (lb). Source: IRC 2021, Table R301.5: 200 lb; ASCE 7-16, 4.5.1: or 50 plf.

    >>> float(guard_load_at_post(200.0, 50.0, 60.0))
    250.0
    """
    P: Force = maximum(P_1, w * l / 12)
    return P


@formula("Statics (rail over its last two posts, pushed at its free end)")
def push_at_end_post(P_1: Force, l: Length, a: Length) -> Force:
    """What a post gets of a push at the free end of a rail that runs past it: more than the push itself.

    Parameters: P_1 push (lb); l the rail's last bay, a how far it runs past the post (in). Returns: P_e (lb).
    Source: statics.

    >>> push_at_end_post(200.0, 44.0, 22.0)
    300.0
    """
    P_e: Force = P_1 * (l + a) / l
    return P_e


@formula("Statics (cantilever)")
def guard_moment(P: Force, H: Length, a: Length) -> Moment:
    """Moment of a push at the top of a guard about a place below the deck.

    Parameters: P push (lb); H height of the guard over the deck (in); a how far the place is below the deck's surface
    (in), 0 for the deck. Returns: M (lb·in). Source: statics.

    >>> guard_moment(200.0, 36.0, 3.0)
    7800.0
    """
    M: Moment = P * (H + a)
    return M


@formula("Statics (post tied at its upper bolt, turning about the lower edge: a lower bound)")
def tie_by_edge_lever(P: Force, H: Length, t: Length, d: Length, e: Length) -> Force:
    """Tension at the upper bolt, were the post pressed against the lower edge alone.

    Parameters: P push outward (lb); H height over the deck (in); t from the deck's surface to the top of what the post
    stands against (in); d depth of that, e of the bolt below its top (in). Returns: T (lb). Source: statics.

    >>> round(tie_by_edge_lever(200.0, 36.0, 1.0, 7.25, 2.0), 1)
    1685.7
    """
    T: Force = P * (H + t + d) / (d - e)
    return T


@formula("Statics (post pressed against the framing; NDS 2018, 3.10.2)")
def post_bearing(M: Moment, d: Length, e: Length, b: Length, F_c_perp_p: Stress) -> Force:
    """Force with which a post presses against the framing beyond its tied bolt, over as much wood as it takes.

    Pushed outward it presses at the framing's lower edge and the upper bolt is tied; inward at the upper edge, and the
    lower one is. From C z = M with z = d - e - C / (2 b F), from the bolt to the middle of the pressed wood, which is
    as long as the wood's own strength asks. Parameters: M moment of the push about the tied bolt (lb·in); d depth of
    the framing, e of that bolt from its other edge (in); b width that stands behind the post (in); F_c_perp_p bearing
    strength across the grain, of the softer of post and framing (psi). Returns: C (lb). Source: statics.

    4 in. past the bolt 2 in. of 1000 lb/in press: 2000 lb on a lever of 5 - 1 in.

    >>> round(float(post_bearing(8000.0, 7.0, 2.0, 4.0, 250.0)), 3)
    2000.0
    """
    k: LineLoadInch = b * F_c_perp_p
    z_e: Length = d - e
    C: Force = k * (z_e - sqrt(z_e**2 - 2 * M / k))
    return C


@formula("Statics (sum of lateral forces)")
def tie_with_bearing(C: Force, P: Force) -> Force:
    """Tension at the upper bolt of a post that is pushed outward and pressed against the framing below.

    Parameters: C force of the pressed wood; P push (lb). Returns: T (lb). Source: statics.

    >>> round(tie_with_bearing(1500.0, 200.0), 3)
    1700.0
    """
    T: Force = C + P
    return T


@formula("Statics (sum of lateral forces)")
def lower_tie(C_2: Force, P: Force) -> Force:
    """Tension at the lower bolt of a post that is pushed inward.

    Parameters: C_2 force of the pressed wood; P push (lb). Returns: T_2 (lb). Source: statics.

    >>> round(lower_tie(2000.0, 200.0), 3)
    1800.0
    """
    T_2: Force = C_2 - P
    return T_2


@formula("Statics (tension square to the edge, taken along a joist that is not)", limits={"theta": _SKEW})
def tie_along_skew(T: Force, theta: Angle) -> Force:
    """Tension of a tie along a joist that lies off the square of the edge: its part square to the edge is the bolt's.

    Parameters: T tension of the bolt, square to the edge (lb); theta angle of the joist off the square of the edge
    (degrees). Returns: T_s (lb). Source: statics.

    >>> float(round(tie_along_skew(1732.05, 30.0), 1))
    2000.0
    """
    alpha: Ratio = theta * pi / 180
    T_s: Force = T / cos(alpha)
    return T_s


@formula("Statics (tension square to the edge, taken along a joist that is not)", limits={"theta": _SKEW})
def skew_force(T: Force, theta: Angle) -> Force:
    """Force along the edge between a joist that lies off its square and the member along the edge, at one bolt.

    The couple of the bolts bends the joist about its own axis alone; the rest of the moment, both bolts' forces along
    the edge times their distance, bends the member along the edge. Parameters: T tension of the bolt, square to the
    edge (lb); theta angle of the joist off the square of the edge (degrees). Returns: F_s (lb). Source: statics.

    >>> float(round(skew_force(1732.05, 30.0), 1))
    1000.0
    """
    alpha: Ratio = theta * pi / 180
    F_s: Force = T * tan(alpha)
    return F_s


@formula("Statics (post on two bolts alone, as on spacers)")
def tie_by_bolts(P: Force, H: Length, t: Length, d: Length, e: Length) -> Force:
    """Tension at the upper bolt where the post touches nothing below: the lower bolt presses.

    Parameters: P push outward (lb); H height over the deck, t from the deck's surface to the framing's top, d its
    depth, e of both bolts from its edges (in). Returns: T (lb). Source: statics.

    >>> tie_by_bolts(200.0, 36.0, 1.0, 7.25, 2.0)
    2600.0
    """
    s: Length = d - 2 * e
    T: Force = P * (H + t + e + s) / s
    return T


@formula("Statics (moments about the upper bolt)")
def lower_bolt_force(M: Moment, s: Length) -> Force:
    """Force on the lower of a post's two bolts, where the post touches nothing but its bolts.

    Parameters: M moment of the push about the upper bolt (lb·in); s distance of the bolts (in). Returns: T_2 (lb), the
    other way than the upper bolt's. Source: statics.

    >>> lower_bolt_force(7600.0, 5.0)
    1520.0
    """
    T_2: Force = M / s
    return T_2


@formula("Statics (sum of lateral forces)")
def upper_bolt_force(T_2: Force, P: Force) -> Force:
    """Tension at the upper of a post's two bolts, where the post touches nothing but its bolts.

    Parameters: T_2 force on the lower bolt, P push outward at the top (lb). Returns: T_1 (lb). Source: statics.

    >>> upper_bolt_force(1520.0, 200.0)
    1720.0
    """
    T_1: Force = T_2 + P
    return T_1


@formula("Statics (push along the rail, shared by the posts that a continuous rail ties)")
def bolt_force_along_rail(P: Force, n: Ratio, H: Length, t: Length, d: Length, e: Length) -> Force:
    """Force on the upper of a post's two bolts, across the post's grain, from a push along the rail.

    Parameters: P push (lb); n posts that share it; H height over the deck, t from the deck's surface to the framing's
    top, d its depth, e of both bolts from its edges (in). Returns: Z_a (lb). Source: statics: couple on the bolts and
    half of the push.

    >>> bolt_force_along_rail(200.0, 1.0, 36.0, 1.0, 7.25, 2.0)
    2600.0
    >>> round(bolt_force_along_rail(200.0, 2.0, 36.0, 1.0, 7.25, 2.0), 3)
    1300.0
    """
    s: Length = d - 2 * e
    M: Moment = P / n * (H + t + d / 2)
    Z_a: Force = M / s + P / (2 * n)
    return Z_a


@formula("Statics (push down and weight on a post's bolts)", homogeneous=False)
def load_down_on_bolts(P: Force, w_g: LineLoad, l: Length) -> Force:
    """Load down that the bolts of a post hand on to what they go through.

    Parameters: P load down at the top (lb); w_g weight of the guard (plf); l length of rail that the post holds (in).
    Returns: F_d (lb). Source: statics.

    >>> load_down_on_bolts(200.0, 10.0, 60.0)
    250.0
    """
    F_d: Force = P + w_g * l / 12
    return F_d


@formula("Statics (load down shared by a post's bolts)")
def load_down_on_one_bolt(F_d: Force, n: Ratio) -> Force:
    """Load down on one of the bolts of a post.

    Parameters: F_d load down (lb); n bolts that share it. Returns: Z_d (lb). Source: statics.

    >>> load_down_on_one_bolt(250.0, 2.0)
    125.0
    """
    Z_d: Force = F_d / n
    return Z_d


@formula("Statics (shear beside the bolts of a post)")
def shear_beside_post(V: Force, F_d: Force) -> Force:
    """Shear of a rim beside the bolts of a post, were all that the post hands on to go one way.

    Parameters: V shear of the rim by its own loads; F_d load down of the post (lb). Returns: V_b (lb). Source: statics.

    >>> shear_beside_post(150.0, 250.0)
    400.0
    """
    V_b: Force = V + F_d
    return V_b


@formula("NDS 2018, 3.10.2 (square plate on side grain)")
def plate_bearing(T: Force, w: Length, D_h: Length) -> Stress:
    """Bearing stress of a square plate washer on side grain.

    Parameters: T tension of the bolt (lb); w side of the plate, D_h diameter of the hole (in).
    Returns: f_c_perp (psi). Source: statics; NDS 2018, 3.10.2.

    >>> round(plate_bearing(1891.3, 3.0, 0.5625), 1)
    216.1
    """
    f_c_perp: Stress = T / (w**2 - pi * D_h**2 / 4)
    return f_c_perp


@formula("Statics (simple span, or past the last post)", homogeneous=False)
def rail_moment(P_1: Force, w: LineLoad, l: Length, a: Length) -> Moment:
    """Greatest moment of a rail: the concentrated load anywhere, or the line load.

    Parameters: P_1 concentrated load (lb); w line load (plf), 0 where it is not asked; l between posts, a past the last
    one (in). Returns: M (lb·in). Source: statics: P l / 4, w l^2 / 8, P a.

    >>> float(rail_moment(200.0, 50.0, 72.0, 0.0))
    3600.0
    >>> round(float(rail_moment(200.0, 50.0, 120.0, 0.0)), 3)
    7500.0
    >>> round(float(rail_moment(0.0, 48.0, 60.0, 60.0)), 3)
    7200.0
    """
    M: Moment = maximum(maximum(P_1 * l / 4, P_1 * a), w / 12 * maximum(l**2 / 8, a**2 / 2))
    return M


@formula("Statics (all of it on one baluster)")
def baluster_moment(P_i: Force, l: Length) -> Moment:
    """Moment of one baluster that gets all of the infill's load at its middle.

    Parameters: P_i load on the infill (lb); l between the rails (in). Returns: M (lb·in).
    Source: statics; the area is at most a square foot, not always one (ASCE 7-16, 4.5.1.2).

    >>> baluster_moment(50.0, 33.0)
    412.5
    """
    M: Moment = P_i * l / 4
    return M


@formula("Geometry (lowest ground within 36 in. of the edge)")
def drop_at_edge(h: Length, g: Length) -> Length:
    """Height of the floor over the lowest ground beside its edge.

    Parameters: h floor above grade; g lowest ground within 36 in. of the edge, above grade, minus below (in).
    Returns: h_g (in). Source: IRC 2021, R312.1.1.

    >>> round(drop_at_edge(30.0, -6.0), 3)
    36.0
    """
    h_g: Length = h - g
    return h_g


@formula("Statics (weight for each foot of edge)", homogeneous=False)
def guard_weight(W: Force, L: Length) -> LineLoad:
    """Weight of a guard for each foot of the edge that it stands on.

    Parameters: W of posts, rails and infill (lb); L length (in). Returns: w_g (plf). Source: statics.

    >>> guard_weight(96.0, 144.0)
    8.0
    """
    w_g: LineLoad = W / L * 12
    return w_g
