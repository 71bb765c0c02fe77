"""Plain concrete footings by ACI 318-19 chapter 14: strength design, so factored loads and phi = 0.60.

Never feed these with service loads. The soil area itself stays with allowable stress (ground.soil).
"""

from __future__ import annotations

from dataclasses import dataclass

from numpy import maximum, minimum, pi, sqrt

from bolewright.formulas import Limit, formula
from bolewright.units import Area, Force, Length, Moment, Ratio, SectionModulus, Stress

FROM_MEMORY = "from memory, confirm against the printed document"
LEAST_THICKNESS = Limit(8.0, 1e6, "ACI 318-19 14.3.2.1 wants a plain concrete footing at least 8 in. thick.")
LEAST_STRENGTH = Limit(2500.0, 1e6, "ACI 318-19 Table 19.2.1.1 wants concrete of at least 2500 psi.")


@formula("ACI 318-19, 5.3.1a")
def factored_load_dead(D: Force) -> Force:
    """Factored load, dead load alone.

    Parameters
    ----------
    D : dead load [lb]

    Returns
    -------
    U : factored load [lb]

    Source
    ------
    ACI 318-19 Table 5.3.1, equation (5.3.1a).
    """
    U: Force = 1.4 * D
    return U


@formula("ACI 318-19, 5.3.1b")
def factored_load_live(D: Force, L: Force, S: Force) -> Force:
    """Factored load, live load leading.

    Parameters
    ----------
    D, L, S : dead, live and snow load [lb]

    Returns
    -------
    U : factored load [lb]

    Source
    ------
    ACI 318-19 Table 5.3.1, equation (5.3.1b).
    """
    U: Force = 1.2 * D + 1.6 * L + 0.5 * S
    return U


@formula("ACI 318-19, 5.3.1c")
def factored_load_snow(D: Force, L: Force, S: Force) -> Force:
    """Factored load, snow leading.

    Parameters
    ----------
    D, L, S : dead, live and snow load [lb]

    Returns
    -------
    U : factored load [lb]

    Source
    ------
    ACI 318-19 Table 5.3.1, equation (5.3.1c).
    """
    U: Force = 1.2 * D + 1.6 * S + 1.0 * L
    return U


@formula("Largest of the factored combinations")
def factored_load(D: Force, L: Force, S: Force) -> Force:
    """Largest factored gravity load on a footing, in one line.

    Parameters
    ----------
    D, L, S : dead, live and snow load [lb]

    Returns
    -------
    P_u : factored load [lb]

    Source
    ------
    ACI 318-19 Table 5.3.1, (5.3.1a), (5.3.1b), (5.3.1c).
    """
    U_a: Force = 1.4 * D  # 5.3.1a
    U_b: Force = 1.2 * D + 1.6 * L + 0.5 * S  # 5.3.1b
    U_c: Force = 1.2 * D + 1.6 * S + 1.0 * L  # 5.3.1c
    P_u: Force = maximum(maximum(U_a, U_b), U_c)
    return P_u


@formula("ACI 318-19, 13.2.7.3 (circle as a square of equal area)")
def equal_area_square(d_c: Length) -> Length:
    """Side of the square that a round column or footing counts as.

    Parameters
    ----------
    d_c : diameter [in]

    Returns
    -------
    s : side of the square of equal area [in]

    Source
    ------
    ACI 318-19 13.2.7.3; for the outline of a round base, common practice.

    >>> round(float(equal_area_square(20.0)), 2)
    17.72
    """
    s: Length = sqrt(pi * d_c**2 / 4)
    return s


@formula("ACI 318-19, 14.5.1.7", limits={"h": LEAST_THICKNESS})
def effective_thickness(h: Length) -> Length:
    """Thickness that counts where concrete is cast against soil.

    Parameters
    ----------
    h : overall thickness of the footing [in]

    Returns
    -------
    h_e : thickness for flexure, shear and combined stress [in]

    Source
    ------
    ACI 318-19 14.5.1.7 (2 in. less), 14.3.2.1 (8 in. at least).
    """
    h_e: Length = h - 2
    return h_e


@formula("Statics (factored soil pressure, footing's own weight left out)")
def factored_soil_pressure(P_u: Force, B: Length) -> Stress:
    """Factored net pressure that bends a square footing; its own weight lies on the soil and bends nothing.

    Parameters
    ----------
    P_u : factored load from the column [lb]
    B : side of the square footing, or of the square of equal area [in]

    Returns
    -------
    q_u : pressure [psi]

    Source
    ------
    ACI 318-19 13.2.6.
    """
    q_u: Stress = P_u / B**2
    return q_u


@formula("ACI 318-19, 14.5.2.1 and Table 14.4.3.2 (moment at the column's face)")
def footing_moment(q_u: Stress, B: Length, c: Length) -> Moment:
    """Factored moment in a square footing at the face of the column.

    Parameters
    ----------
    q_u : factored net pressure [psi]
    B : side of the footing [in]
    c : side of a square column, post or pedestal [in]; halfway to the plate's edge under a steel plate

    Returns
    -------
    M_u : moment over the whole breadth [lb in]

    Source
    ------
    ACI 318-19 13.2.7.1, 14.5.
    """
    a: Length = (B - c) / 2
    M_u: Moment = q_u * B * a**2 / 2
    return M_u


@formula(
    "ACI 318-19, 14.5.2.1a",
    limits={"f_c": LEAST_STRENGTH},
    confidence=FROM_MEMORY,
    homogeneous=False,
)
def footing_moment_strength(f_c: Stress, lam: Ratio, B: Length, h_e: Length) -> Moment:
    """Design flexural strength of plain concrete over the whole breadth.

    Parameters
    ----------
    f_c : specified strength of concrete [psi]
    lam : 1.0 for normal weight concrete
    B : breadth of the section [in]
    h_e : effective thickness [in]

    Returns
    -------
    phiM_n : design strength [lb in]

    Source
    ------
    ACI 318-19 14.5.2.1(a), 21.2.1 (phi = 0.60).
    """
    S_m: SectionModulus = B * h_e**2 / 6
    M_n: Moment = 5 * lam * sqrt(f_c) * S_m  # 14.5.2.1a
    phiM_n: Moment = 0.60 * M_n  # 21.2.1
    return phiM_n


@formula("ACI 318-19, 14.5.5.1a (one-way shear at h from the face)")
def footing_shear_one_way(q_u: Stress, B: Length, c: Length, h_e: Length) -> Force:
    """Factored one-way shear at the effective thickness from the column's face; zero when that is outside.

    Parameters
    ----------
    q_u : factored net pressure [psi]
    B : side of the footing [in]
    c : side of a square column or pedestal [in]
    h_e : effective thickness [in]

    Returns
    -------
    V_u : shear [lb]

    Source
    ------
    ACI 318-19 14.4.3.2, 14.5.5.1.
    """
    a: Length = maximum((B - c) / 2 - h_e, 0)
    V_u: Force = q_u * B * a
    return V_u


@formula(
    "ACI 318-19, 14.5.5.1a",
    limits={"f_c": LEAST_STRENGTH},
    confidence=FROM_MEMORY,
    homogeneous=False,
)
def footing_shear_strength_one_way(f_c: Stress, lam: Ratio, B: Length, h_e: Length) -> Force:
    """Design one-way shear strength of plain concrete.

    Parameters
    ----------
    f_c : specified strength of concrete [psi]
    lam : 1.0 for normal weight concrete
    B : breadth of the section [in]
    h_e : effective thickness [in]

    Returns
    -------
    phiV_n : design strength [lb]

    Source
    ------
    ACI 318-19 Table 14.5.5.1(a), 21.2.1 (phi = 0.60).
    """
    V_n: Force = 4 / 3 * lam * sqrt(f_c) * B * h_e  # 14.5.5.1a
    phiV_n: Force = 0.60 * V_n  # 21.2.1
    return phiV_n


@formula("ACI 318-19, 14.5.5.1b (two-way shear at h/2 from the face)")
def footing_shear_two_way(q_u: Stress, B: Length, c: Length, h_e: Length) -> Force:
    """Factored punching shear at half the effective thickness from the column's face.

    Parameters
    ----------
    q_u : factored net pressure [psi]
    B : side of the footing [in]
    c : side of a square column or pedestal [in]
    h_e : effective thickness [in]

    Returns
    -------
    V_u : shear [lb]; zero when the perimeter lies outside the footing

    Source
    ------
    ACI 318-19 14.4.3.2, 14.5.5.1.
    """
    s: Length = c + h_e
    V_u: Force = maximum(q_u * (B**2 - s**2), 0)
    return V_u


@formula(
    "ACI 318-19, 14.5.5.1b",
    limits={"f_c": LEAST_STRENGTH},
    confidence=FROM_MEMORY,
    homogeneous=False,
)
def footing_shear_strength_two_way(f_c: Stress, lam: Ratio, beta: Ratio, c: Length, h_e: Length) -> Force:
    """Design punching strength of plain concrete round a square column.

    Parameters
    ----------
    f_c : specified strength of concrete [psi]
    lam : 1.0 for normal weight concrete
    beta : long side over short side of the column, 1 for square and round
    c : side of the column or pedestal [in]
    h_e : effective thickness [in]

    Returns
    -------
    phiV_n : design strength [lb]

    Source
    ------
    ACI 318-19 Table 14.5.5.1(b), (c), 21.2.1 (phi = 0.60).
    """
    b_o: Length = 4 * (c + h_e)
    k: Ratio = minimum((1 + 2 / beta) * 4 / 3, 8 / 3)
    V_n: Force = k * lam * sqrt(f_c) * b_o * h_e  # 14.5.5.1b, c
    phiV_n: Force = 0.60 * V_n  # 21.2.1
    return phiV_n


@formula("ACI 318-19, 14.5.6.1", limits={"f_c": LEAST_STRENGTH}, confidence=FROM_MEMORY)
def concrete_bearing_strength(f_c: Stress, A_1: Area, A_2: Area) -> Force:
    """Design bearing strength of plain concrete under a post or plate.

    Parameters
    ----------
    f_c : specified strength of concrete [psi]
    A_1 : loaded area [in2]
    A_2 : area of the largest like figure inside the support, spread 2 to 1 [in2]

    Returns
    -------
    phiB_n : design strength [lb]

    Source
    ------
    ACI 318-19 Table 14.5.6.1, 21.2.1 (phi = 0.60).
    """
    k: Ratio = minimum(sqrt(A_2 / A_1), 2)
    B_n: Force = k * 0.85 * f_c * A_1  # 14.5.6.1
    phiB_n: Force = 0.60 * B_n  # 21.2.1
    return phiB_n


@formula("ACI 318-19, 14.5.3.1", limits={"f_c": LEAST_STRENGTH}, confidence=FROM_MEMORY)
def pier_axial_strength(f_c: Stress, A_1: Area, l_c: Length, h: Length) -> Force:
    """Design axial strength of a plain concrete pier or pedestal.

    Parameters
    ----------
    f_c : specified strength of concrete [psi]
    A_1 : area of the pier, or the loaded area on it if smaller [in2]
    l_c : height between lateral supports [in]; 0 to the soil's hold for a pier in undisturbed soil
    h : least width, or side of the square of equal area [in]

    Returns
    -------
    phiP_n : design strength [lb]

    Source
    ------
    ACI 318-19 14.5.3.1, 21.2.1 (phi = 0.60).
    """
    P_n: Force = 0.60 * f_c * A_1 * (1 - (l_c / (32 * h)) ** 2)  # 14.5.3.1
    phiP_n: Force = 0.60 * P_n  # 21.2.1
    return phiP_n


@formula("ACI 318-19, 14.5.4.1a", confidence=FROM_MEMORY)
def pier_axial_and_bending(P_u: Force, phiP_n: Force, M_u: Moment, phiM_n: Moment) -> Ratio:
    """Axial load and bending of a plain concrete pier on its compression face.

    Parameters
    ----------
    P_u, M_u : factored load [lb] and moment [lb in]
    phiP_n, phiM_n : design strengths, flexure in compression: 0.60 x 0.85 f'c S

    Returns
    -------
    r : ratio, at most 1

    Source
    ------
    ACI 318-19 Table 14.5.4.1(a).
    """
    r: Ratio = P_u / phiP_n + M_u / phiM_n
    return r


@formula("ACI 318-19, 14.5.4.1b", limits={"f_c": LEAST_STRENGTH}, confidence=FROM_MEMORY, homogeneous=False)
def pier_tension_ratio(
    P_u: Force, M_u: Moment, A_g: Area, S_m: SectionModulus, f_c: Stress, lam: Ratio
) -> Ratio:
    """Tension in a plain concrete pier under load and moment, as a ratio; negative when all in compression.

    Parameters
    ----------
    P_u, M_u : factored load, compression positive [lb], and moment [lb in]
    A_g, S_m : area [in2] and section modulus [in3]
    f_c : specified strength of concrete [psi]
    lam : 1.0 for normal weight concrete

    Returns
    -------
    r : ratio, at most 1

    Source
    ------
    ACI 318-19 Table 14.5.4.1(b): M_u / S_m - P_u / A_g <= phi 5 lambda sqrt(f'c).
    """
    f_t: Stress = M_u / S_m - P_u / A_g
    phif_r: Stress = 0.60 * 5 * lam * sqrt(f_c)
    r: Ratio = f_t / phif_r
    return r


@formula("ACI 318-19, 14.3.3.1 (pedestal)")
def pedestal_height_limit(b_min: Length) -> Length:
    """Greatest unsupported height of a plain concrete pedestal.

    A pier held sideways by undisturbed soil over its height is not bound by it.

    Parameters
    ----------
    b_min : least width, or side of the square of equal area [in]

    Returns
    -------
    l_max : height [in]

    Source
    ------
    ACI 318-19 14.3.3.1, 2.3 (pedestal).
    """
    l_max: Length = 3 * b_min
    return l_max


@dataclass(frozen=True)
class PadLimitStates:
    """Which limit states a plain concrete base has: names of the checks that apply, and why others do not."""

    flexure: bool
    one_way_shear: bool
    two_way_shear: bool
    says: str


def pad_limit_states(B: float, c: float, h_e: float) -> PadLimitStates:
    """Limit states of a square base of side ``B`` under a square column ``c``, all in inches.

    A full-depth pier, where the load spreads inside the concrete, has bearing and axial load only.

    >>> pad_limit_states(17.7, 5.5, 8.0).one_way_shear
    False
    """
    overhang = (B - c) / 2
    if overhang <= 0:
        return PadLimitStates(False, False, False, "the base is no wider than the post: bearing only")
    one_way, two_way = overhang > h_e, B > c + h_e
    says = "flexure at the post's face"
    if not one_way:
        says += "; the one-way shear section, one thickness off the face, lies outside the base"
    if not two_way:
        says += "; the punching perimeter lies outside the base"
    return PadLimitStates(True, one_way, two_way, says)
