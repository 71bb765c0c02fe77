"""Trunk of the tree as a beam: net section with holes and a cavity, stress, screening of hollow trunks."""

from __future__ import annotations

from numpy import pi, sqrt

from bolewright.formulas import formula
from bolewright.units import Area, Force, Length, Moment, Ratio, SecondMoment, SectionModulus, Stress

SCREENING = "screening rule, a qualified arborist decides"


@formula("Geometry (hole drilled across the trunk, in the plane of bending)")
def hole_second_moment(d_h: Length, d: Length, L_h: Length) -> SecondMoment:
    """Second moment that one blind hole takes from the trunk when it lies in the plane of bending, its worst.

    Parameters: d_h diameter of the hole (in); d diameter of sound wood (in); L_h depth of the hole from the sound wood
    face (in). Returns: I_h second moment of the strip, about the trunk's centre (in⁴). Source: geometry: strip of width
    d_h from the face inward.

    >>> round(hole_second_moment(1.0, 12.0, 3.0), 3)
    63.0
    """
    r: Length = d / 2
    r_i: Length = r - L_h
    I_h: SecondMoment = d_h * (r**3 - r_i**3) / 3
    return I_h


@formula("Geometry (hole whose line passes the trunk's axis)")
def hole_second_moment_beside(d_h: Length, d: Length, L_h: Length, a: Length) -> SecondMoment:
    """Second moment that a blind hole beside the trunk's axis takes from it, whichever way the trunk bends.

    The second moment of its strip about the trunk's centre as a point: no direction of bending takes more.

    Parameters: d_h diameter of the hole (in); d diameter of sound wood (in); L_h depth of the hole from the sound wood
    face, along its line (in); a distance of its line from the trunk's axis (in). Returns: I_h second moment of the
    strip (in⁴); with a = 0 that of a hole straight at the axis. Source: geometry: the strip's squared distances from
    the centre, summed from the face to the tip.

    >>> round(float(hole_second_moment_beside(1.5, 22.0, 7.0, 0.0) - hole_second_moment(1.5, 22.0, 7.0)), 9)
    0.0

    Six inches beside the axis, from 8 to 2 in.: 6 x 36, and (512 - 8)/3.

    >>> round(float(hole_second_moment_beside(1.0, 20.0, 6.0, 6.0)), 3)
    384.0
    """
    r: Length = d / 2
    y_f: Length = sqrt(r**2 - a**2)  # from the middle of the chord to the face
    I_h: SecondMoment = d_h * L_h * (r**2 - y_f * L_h + L_h**2 / 3)
    return I_h


@formula("Geometry (section with a cavity and holes)")
def trunk_net_section_modulus(
    d: Length,
    d_c: Length,
    a_c: Length,
    n_h: Ratio,
    n_1: Ratio,
    d_h: Length,
    L_h: Length,
    I_h: SecondMoment,
) -> SectionModulus:
    """Section modulus of a round trunk with a round cavity off centre and holes at one height.

    Holes are taken in the plane of bending. The cavity and the holes with none opposite shift the centroid, both
    the same way.

    Parameters: d diameter of sound wood (in); d_c diameter of the cavity (in), 0 when sound; a_c distance of the
    cavity's centre from the trunk's (in); n_h number of holes at this height; 0 for none; n_1 number of them on one
    side with none opposite; d_h, L_h diameter and depth of a hole (in); I_h second moment of one hole (in⁴). Returns:
    S_n section modulus to the edge farther from the shifted centroid (in³). Source: geometry.

    A hollow of 10 in. 5 in. off the axis leaves 75 pi in² and shifts it by 5/3 in.: 1510.4 pi/11.667. One hole, 1 x 8
    in., shifts it by 48/306.16 in.: (7854.0 - 330.7 - 7.5)/10.157.

    >>> round(trunk_net_section_modulus(20.0, 10.0, 5.0, 0.0, 0.0, 1.0, 8.0, 330.667), 2)
    406.72
    >>> round(trunk_net_section_modulus(20.0, 0.0, 0.0, 1.0, 1.0, 1.0, 8.0, 330.667), 2)
    739.98
    """
    A_c: Area = pi * d_c**2 / 4
    A_h: Area = d_h * L_h
    A_n: Area = pi * d**2 / 4 - A_c - n_h * A_h
    y_h: Length = d / 2 - L_h / 2  # middle of a hole from the trunk's centre
    y_n: Length = (A_c * a_c + n_1 * A_h * y_h) / A_n  # shift of the centroid
    I_s: SecondMoment = pi * d**4 / 64
    I_c: SecondMoment = pi * d_c**4 / 64 + A_c * a_c**2
    I_n: SecondMoment = I_s - I_c - n_h * I_h - A_n * y_n**2
    S_n: SectionModulus = I_n / (d / 2 + y_n)
    return S_n


@formula("Geometry (solid round section)")
def trunk_section_modulus(d: Length) -> SectionModulus:
    """Section modulus of the whole round trunk.

    Parameters: d diameter of sound wood (in). Returns: S section modulus (in³). Source: geometry.

    8000/32 times pi:

    >>> round(trunk_section_modulus(20.0), 2)
    785.4
    """
    S: SectionModulus = pi * d**3 / 32
    return S


@formula("Geometry (area left by cavity and holes)")
def trunk_net_area(d: Length, d_c: Length, n_h: Ratio, d_h: Length, L_h: Length) -> Area:
    """Area of sound wood left at the height of the bolts.

    Parameters: d diameter of sound wood (in); d_c diameter of the cavity (in), 0 when sound; n_h number of holes at
    this height; 0 for none; d_h, L_h diameter and depth of a hole (in). Returns: A_n area (in²). Source: geometry.

    75 pi less 24:

    >>> round(trunk_net_area(20.0, 10.0, 2.0, 1.5, 8.0), 2)
    211.62
    """
    A_n: Area = pi * (d**2 - d_c**2) / 4 - n_h * d_h * L_h
    return A_n


@formula("Statics (bending and weight)")
def trunk_stress(M: Moment, S_n: SectionModulus, P: Force, A_n: Area) -> Stress:
    """Largest compression in the trunk from bending and the weight above.

    Parameters: M moment (lb·in); S_n net section modulus (in³); P weight above, with the platform's share (lb); A_n net
    area (in²). Returns: f stress (psi). Source: statics.

    >>> round(trunk_stress(80_000.0, 800.0, 2000.0, 200.0), 3)
    110.0
    """
    f: Stress = M / S_n + P / A_n
    return f


@formula("Statics (moment of the platform on the trunk)")
def platform_trunk_moment(P: Force, a: Length, H: Force, z: Length) -> Moment:
    """Moment at the trunk's foot that the platform adds: load off the axis, and lateral force at its height.

    Parameters: P unbalanced vertical load on one side (lb); a distance of the bearing from the trunk's axis (in); H
    lateral force of the platform on the trunk (lb); z height of the platform above the section (in). Returns: M moment
    (lb·in). Source: statics.

    >>> round(platform_trunk_moment(1000.0, 12.0, 200.0, 120.0), 3)
    36000.0
    """
    M: Moment = P * a + H * z
    return M


@formula("Statics (moment about the trunk's axis)")
def trunk_torsion(H_x: Force, H_y: Force, x: Length, y: Length) -> Moment:
    """Torque of one bolt's lateral force about the trunk's axis.

    Parameters: H_x, H_y lateral force on the bolt along x and y (lb); x, y place of its bearing from the trunk's axis,
    in plan (in). Returns: T torque, counterclockwise seen from above (lb·in). Source: statics.

    >>> trunk_torsion(0.0, 300.0, 17.0, 0.0)
    5100.0
    >>> round(trunk_torsion(200.0, 300.0, 17.0, 6.0), 3)
    3900.0
    """
    T: Moment = x * H_y - y * H_x
    return T


@formula("Statics (torsion of a round shaft)")
def trunk_torsion_stress(T: Moment, d: Length, d_c: Length) -> Stress:
    """Shear stress of a round trunk in torsion, with a round hollow round its axis.

    Parameters: T torque (lb·in); d diameter of sound wood (in); d_c diameter of the hollow (in), 0 when sound. Returns:
    f_t shear stress at the face (psi). Source: statics: T d / 2 over the polar second moment.

    >>> round(trunk_torsion_stress(10_000.0, 20.0, 0.0), 2)  # 16 T / pi d³
    6.37
    >>> round(trunk_torsion_stress(10_000.0, 20.0, 10.0), 2)
    6.79
    """
    J: SecondMoment = pi * (d**4 - d_c**4) / 32
    f_t: Stress = T * d / (2 * J)
    return f_t


@formula("Statics (platform and crown on one trunk)")
def trunk_moment_sum(M_p: Moment, M_c: Moment, w: Ratio) -> Moment:
    """Moment in the trunk from the platform and from wind in the crown.

    Parameters: M_p, M_c moment of the platform, and of the crown in the wind of 0.6 W (lb·in); w share of that wind in
    the combination: 1, 0.75 or 0. Returns: M moment (lb·in). Source: statics; both the same way.

    >>> round(trunk_moment_sum(36_000.0, 80_000.0, 0.75), 3)
    96000.0
    """
    M: Moment = M_p + w * M_c
    return M


@formula("ASTM D245 (working value with depth and duration)", confidence="judgement, engineer to confirm")
def trunk_allowable_stress(F_w: Stress, C_d: Ratio, C_D: Ratio) -> Stress:
    """Allowable bending stress of a green trunk in a combination.

    Parameters: F_w working value for normal duration (psi); C_d depth effect; C_D load duration factor of the
    combination. Returns: F stress (psi). Source: ASTM D245 for lumber; for a trunk judgement.

    >>> round(trunk_allowable_stress(1500.0, 0.8, 1.6), 3)
    1920.0
    """
    F: Stress = F_w * C_d * C_D
    return F


@formula("Geometry (strength left round a centred cavity)")
def hollow_strength_ratio(t: Length, R: Length) -> Ratio:
    """Section modulus left by a centred round cavity.

    Parameters: t thickness of the sound shell (in); R radius of the trunk, without bark (in). Returns: r hollow over
    solid. Source: geometry: 1 - (1 - t/R)^4.

    >>> round(1 - hollow_strength_ratio(0.30, 1.0), 2)  # loss at t/R = 0.30
    0.24
    """
    r: Ratio = 1 - (1 - t / R) ** 4
    return r


@formula("Mattheck and Breloer 1994 (t/R about 0.32)", confidence=SCREENING)
def shell_ratio(t: Length, R: Length) -> Ratio:
    """Shell thickness over radius; failures gather below 0.30 to 0.32 in trunks with a full crown.

    Parameters: t thickness of the sound shell (in); R radius of the trunk, without bark (in). Returns: r_t ratio.
    Source: Mattheck and Breloer (1994), as discussed in two public texts; guidance, not a limit.

    >>> round(shell_ratio(3.0, 10.0), 6)
    0.3
    """
    r_t: Ratio = t / R
    return r_t


@formula("USDA Forest Service hazard tree guides (1 in. of shell per 6 in.)", confidence=SCREENING)
def shell_thickness_wanted(d: Length, k: Ratio) -> Length:
    """Shell of sound wood that hazard tree guides ask of a hollow trunk.

    Parameters: d diameter of the trunk, without bark (in); k 1 for a closed trunk, 2 where an opening or cavity takes
    over 30 % of the girth. Returns: t_min shell thickness (in). Source: USDA Forest Service NA-TP-03-03 (2003), from
    memory: 1 in. per 6 in. of diameter, 2 in. where open.

    >>> shell_thickness_wanted(24.0, 1.0)
    4.0
    """
    t_min: Length = k * d / 6
    return t_min


@formula("Wagener 1963, USDA Forest Service PSW-P1", confidence=SCREENING)
def strength_loss_wagener(d_c: Length, d: Length) -> Ratio:
    """Strength loss by decay as the cube of the diameters; about one third is the guide's limit for conifers.

    Parameters: d_c diameter of the decay (in); d diameter of the trunk, without bark (in). Returns: s loss. Source:
    Wagener (1963), from memory.

    >>> round(strength_loss_wagener(0.7, 1.0), 2)
    0.34
    >>> round(strength_loss_wagener(10.0, 20.0), 6)
    0.125
    """
    s: Ratio = d_c**3 / d**3
    return s


@formula("Coder 1989", confidence=SCREENING)
def strength_loss_coder(d_c: Length, d: Length) -> Ratio:
    """Strength loss by decay as the fourth power; caution from 20 %, danger from 44 %.

    Parameters: d_c diameter of the decay (in); d diameter of the trunk, without bark (in). Returns: s loss. Source:
    Coder (1989), from memory.

    >>> round(strength_loss_coder(10.0, 20.0), 6)
    0.0625
    """
    s: Ratio = d_c**4 / d**4
    return s


@formula("Smiley and Fraedrich 1992", confidence=SCREENING)
def strength_loss_open_cavity(d_c: Length, d: Length, R_o: Ratio) -> Ratio:
    """Strength loss by decay with an opening; caution from 20 to 33 %.

    Parameters: d_c diameter of the decay (in); d diameter of the trunk, without bark (in); R_o width of the opening
    over the girth. Returns: s loss. Source: Smiley and Fraedrich (1992), from memory.

    >>> round(strength_loss_open_cavity(10.0, 20.0, 0.2), 6)
    0.3
    """
    s: Ratio = (d_c**3 + R_o * (d**3 - d_c**3)) / d**3
    return s
