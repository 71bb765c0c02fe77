"""The steps of the beam sheet, and its limits."""

from __future__ import annotations

from bolewright.part_sheets.kind import Limit, Step

STEPS = (
    Step(
        "Bending",
        """\
f_b = bending_stress(M, S)
l_e = effective_length(l_u, d, k_l, k_d)
R_B = slenderness_ratio(l_e, d, b_s)
E_min_p = adjusted_minimum_modulus(E_min, C_M_E, C_t, C_i_E, C_fu_E)
F_bE = critical_buckling_bending(E_min_p, R_B)
F_b_star = bending_before_stability(F_b, C_D, C_M_b, C_t, C_F_b, C_i_b, C_r)
C_L = beam_stability_factor(F_bE, F_b_star)
F_b_p = adjusted_bending(F_b, C_D, C_M_b, C_t, C_L, C_F_b, C_fu, C_i_b, C_r)
ratio_b = f_b / F_b_p
ratio_R = R_B / 50  # 3.3.3.7""",
        when="M",
    ),
    Step(
        "Negative bending",
        """\
f_bn = bending_stress(M_n, S)
l_e = effective_length(l_un, d, k_ln, k_dn)
R_B = slenderness_ratio(l_e, d, b_s)
E_min_p = adjusted_minimum_modulus(E_min, C_M_E, C_t, C_i_E, C_fu_E)
F_bE = critical_buckling_bending(E_min_p, R_B)
F_b_star = bending_before_stability(F_b, C_Dn, C_M_b, C_t, C_F_b, C_i_b, C_r)
C_L = beam_stability_factor(F_bE, F_b_star)
F_bn_p = adjusted_bending(F_b, C_Dn, C_M_b, C_t, C_L, C_F_b, C_fu, C_i_b, C_r)
ratio_bn = f_bn / F_bn_p
ratio_Rn = R_B / 50  # 3.3.3.7""",
        when="M_n",
    ),
    Step(
        "Longest span by bending",
        """\
# Simple span under the even load alone: the span at which bending is all used.
L_b = span_by_bending(F_b_p, S, w)""",
        when="w",
    ),
    Step(
        "Shear",
        """\
f_v = shear_stress(V, b, d)
F_v_p = adjusted_shear(F_v, C_Dv, C_M_v, C_t, C_i_v)
ratio_v = f_v / F_v_p""",
    ),
    Step(
        "Bearing",
        """\
f_c_perp = bearing_stress(R, b, l_b)
F_c_perp_p = adjusted_bearing(F_c_perp, C_M_perp, C_t, C_i_perp, C_b)
ratio_c = f_c_perp / F_c_perp_p""",
    ),
    Step(
        "Deflection under live load",
        """\
E_p = adjusted_modulus(E, C_M_E, C_t, C_i_E, C_fu_E)
delta_L = deflection_in_service(delta_LE, E, E_p)
delta_Lmax = deflection_limit(l_L, n_L)
ratio_L = delta_L / delta_Lmax""",
    ),
    Step(
        "Deflection under all loads",
        """\
delta_D = deflection_in_service(delta_DE, E, E_p)
delta_S = deflection_in_service(delta_SE, E, E_p)
Delta_T = total_deflection(K_cr, delta_D, delta_S)
delta_Tmax = deflection_limit(l_T, n_T)
ratio_T = Delta_T / delta_Tmax""",
    ),
)
_DEEPER = "a deeper section, more plies, a shorter span or a better grade"
_BRACE = "hold the compression edge at shorter distances"
LIMITS = (
    Limit("ratio_b", "Bending", "f_b", "F_b_p", "NDS 2018, 3.3", _DEEPER, "M"),
    Limit("ratio_R", "Slenderness in bending", "", "", "NDS 2018, 3.3.3.7", _BRACE, "M"),
    Limit("ratio_bn", "Negative bending", "f_bn", "F_bn_p", "NDS 2018, 3.3", _DEEPER, "M_n"),
    Limit("ratio_Rn", "Slenderness, negative bending", "", "", "NDS 2018, 3.3.3.7", _BRACE, "M_n"),
    Limit("ratio_v", "Shear", "f_v", "F_v_p", "NDS 2018, 3.4", "a deeper section or more plies"),
    Limit("ratio_c", "Bearing", "f_c_perp", "F_c_perp_p", "NDS 2018, 3.10", "a longer bearing or more plies"),
    Limit("ratio_L", "Deflection, live load", "delta_L", "delta_Lmax", "IRC 2021, Table R301.7", _DEEPER),
    Limit("ratio_T", "Deflection, all loads", "Delta_T", "delta_Tmax", "IRC 2021, Table R301.7", _DEEPER),
    Limit(
        "ratio_up",
        "Uplift at a support",
        "R_up",
        "",
        "statics, worst pattern; 0.6D + L, 0.6D + S as common practice, 0.6D + 0.6W by ASCE 7-16, 2.4.1",
        "a hold-down, a shorter overhang, or spans that differ less",
        "R_up",
    ),
)
