"""Short formulas of guards, stairs, ladders, knee braces from the trunk and openings at it, each worked out by hand.

Numbers that need no calculator: right triangles 3-4-5, angles of 30, 45 and 60 degrees. Plain statics and geometry.
"""

from collections.abc import Callable
from math import sqrt
from typing import Any

import pytest

from bolewright.bracing import guard, hanging, tie, trunk_brace
from bolewright.ground import concrete, embedded_post, soil
from bolewright.ground.factored_load import factored_load_lateral, service_load
from bolewright.platform.layout import trunk_brace_ends
from bolewright.setting_out import trunk_braces
from bolewright.timber import bearing, deflection, ladders, shear, simple_spans, stairs
from bolewright.tree import opening

Case = tuple[Callable[..., Any], dict[str, float], float]

PARTS: list[Case] = [
    # 300 lb on a rail 60 degrees from level: half of it across, sqrt(3)/2 along
    (ladders.across_rail, {"P": 300, "theta": 60}, 150),
    (ladders.along_rail, {"P": 300, "theta": 30}, 150),
    # 100 in. of height at 30 degrees: twice as long
    (ladders.rail_length, {"H": 100, "theta": 30}, 200),
    # ASCE 7-16, 2.4.1: 0.6 W; half of it at the edge that is held
    (ladders.wind_on_cover, {"F": 200}, 60),
    # 120 lb over 60 in. of a rail 60 degrees from level: 2 lb/in, half of it across
    (ladders.weight_across_rail, {"W": 120, "l": 60, "theta": 60}, 1),
    # ASCE 7-16, 2.4.1: 0.6 of 100 lb lies there always
    (stairs.lifted_head, {"V": 500, "R_D": 100}, 440),
    # 30 in. past the last post, 60 in. between: moments about the other one, 200 x 90 / 60
    (guard.push_at_end_post, {"P_1": 200, "l": 60, "a": 30}, 300),
    # NDS 2018, 3.10.1.3: three quarters of F_c*
    (bearing.end_bearing_without_plate, {"F_c_star": 1200}, 900),
    # ACI 318-19, Table 5.3.1, (5.3.1d): 1.2 x 1000 + 1.0 x 2000 + 0.5 x 400 + 300 / 0.6
    (
        factored_load_lateral,
        {"D": 1000, "L": 2000, "S": 400, "R_h": 300, "gamma_L": 1, "gamma_S": 0.5, "gamma_h": 1 / 0.6},
        3900,
    ),
    # 2 in. apart where the slide of 1 in. is counted in: 1 in. more
    (tie.lever_of_sliding, {"e": 5, "s_u": 2, "s_l": 1}, 6),
    (tie.lever_of_sliding, {"e": 5, "s_u": 0.5, "s_l": 1}, 5),
    # even load on a simple span: w L²/8 = F S; 3/2 (w L/2)/(b d) = F; w L/2 = F b l_b; 5 w L⁴/384 EI = L/n
    (simple_spans.span_by_bending, {"F_b_p": 900, "S": 20, "w": 10}, 120),
    (simple_spans.span_by_shear, {"F_v_p": 90, "b": 2, "d": 10, "w": 20}, 120),
    (simple_spans.span_by_bearing, {"F_c_perp_p": 300, "b": 2, "l_b": 3, "w": 30}, 120),
    (simple_spans.span_by_deflection, {"E_p": 1.5e6, "I": 90, "w": 8, "n": 750}, 120),
    # NDS 2018, 3.5.2: dead load counts twice in wet service
    (simple_spans.load_with_creep, {"K_cr": 2, "w_D": 1, "w_L": 4}, 6),
    (deflection.point_load_shear, {"P": 200}, 100),
    # NDS 2018, 4.4.3.1: a quarter of the depth
    (shear.end_notch_limit, {"d": 12}, 3),
    # 200 lb 38 in. over the upper bolt, the lower one 5 in. below it: 7600 / 5; the upper takes the push as well
    (guard.lower_bolt_force, {"M": 7600, "s": 5}, 1520),
    (guard.upper_bolt_force, {"T_2": 1520, "P": 200}, 1720),
    # ASCE 7-16, 2.4.1 with all of live and snow load
    (service_load, {"D": 500, "L": 2000, "S": 300}, 2800),
    (soil.square_footing_area, {"B": 2}, 4),
    (concrete.soil_volume_on_footing, {"A": 4, "A_p": 0.5, "H_s": 2}, 7),
    # pressure n x (1 - x/a): at a load at grade a is 3/4 d, n d² is 18 P, its resultant n a²/6 is 27/16 P
    (embedded_post.turning_depth, {"h": 0, "d": 4}, 3),
    (embedded_post.soil_force_above_turn, {"P": 160, "d": 4, "a": 3}, 270),
    (embedded_post.soil_force_below_turn, {"R_u": 270, "P": 160}, 110),
    (stairs.couple_between, {"M": 7200, "s": 36}, 200),
    # stairs of 45 degrees: riser and run alike; d / cos 60 and V = R cos 60; 5 in. less half of 4 in.
    (stairs.stair_angle, {"h_r": 8, "r": 8}, 45),
    (stairs.plumb_cut, {"d_t": 5, "theta": 60}, 10),
    (stairs.slope_span, {"L": 60, "theta": 60}, 120),
    (stairs.shear_on_slope, {"R": 400, "theta": 60}, 200),
    (stairs.depth_over_bearing, {"d_t": 5, "l_b": 4, "theta": 30}, 3),
    (stairs.stair_going_flush, {"n": 9, "r": 10}, 90),
    (stairs.stair_opening, {"h_r": 7, "t": 1.5, "c": 2}, 3.5),
    # 5 lb/in over 80 in.: 200 lb at each end, and one person of 300 lb there
    (stairs.stair_reaction, {"w": 5, "L": 80, "P": 300}, 500),
    (guard.drop_at_edge, {"h": 84, "g": -6}, 90),
    # 120 lb over 10 ft
    (guard.guard_weight, {"W": 120, "L": 120}, 12),
    (hanging.fastening_pull, {"V": 400, "H": 300}, 500),
    # 250 lb twice as heavy by impact, shared by two ends
    (hanging.hammock_pull, {"W": 250, "f": 2}, 250),
    # a brace with 4 of rise on 3 of run: 1,200 lb upright is 1,500 along it and 900 level
    (trunk_brace.trunk_brace_force, {"R": 1200, "a": 40, "r": 30}, 1500),
    (trunk_brace.trunk_brace_compression, {"R": 1200, "a": 40, "r": 30}, 900),
    (trunk_brace.brace_head_load, {"R": 1200, "R_H": 300}, 1500),
    # two braces of 45 degrees share 600 lb along the beam: 300 lb upright at each head, one up, one down
    (trunk_brace.brace_load_from_lateral, {"H_b": -600, "a_1": 30, "r_1": 30, "a_2": 30, "r_2": 30}, 300),
    (trunk_brace.brace_load_from_lateral, {"H_b": 600, "a_1": 20, "r_1": 30, "a_2": 20, "r_2": 10}, 300),
    (trunk_brace.opposed_thrust, {"T_1": 900, "T_2": 650}, 250),
    (trunk_brace.part_along, {"T": 900, "c": -0.5}, -450),
    # 400 lb half of 10 in. off the axis
    (trunk_brace.thrust_moment, {"M": 1000, "T_b": 400, "d": 10}, 3000),
    (trunk_brace.with_brace_compression, {"H": 100, "T": -300}, -200),
    (trunk_brace.with_thrust_either_way, {"H": -100, "T": 300}, 400),
    # 3-4-5: a brace 8 in. deep and 50 in. long from the point; cut level at its head the edges differ by 8 x 3/4 in all
    (trunk_braces.level_head_long_edge, {"a": 40, "r": 30, "s_f": 2, "d": 8}, 51),
    (trunk_braces.level_head_short_edge, {"a": 40, "r": 30, "s_f": 2, "d": 8}, 45),
    (trunk_braces.slope_from_plumb, {"a": 40, "r": 30}, 0.75),
    # two braces 6 in. deep at 3-4-5 side by side: half the depth by the sine of the angle from plumb, 3 x 4/3
    (trunk_brace_ends.paired_standoff, {"d": 6, "a": 40, "r": 30, "g": 0}, 4),
    (opening.gap_in_storm, {"c": 3, "s": 0.75}, 3.75),
    (opening.gap_left, {"c": 3, "g": 0.125, "t": 8}, 2),
    (opening.travel_needed, {"s": 1.5, "w": 0.75, "b": 1}, 3.25),
    # and once off the round numbers, at 45 degrees
    (ladders.across_rail, {"P": 100, "theta": 45}, 100 / sqrt(2)),
]


@pytest.mark.parametrize(
    ("formula", "arguments", "answer"), PARTS, ids=lambda value: getattr(value, "__name__", None) or ""
)
def test_a_short_formula_of_a_part_gives_what_the_hand_gives(
    formula: Callable[..., Any], arguments: dict[str, float], answer: float
) -> None:
    assert float(formula(**arguments)) == pytest.approx(answer, rel=1e-12)
