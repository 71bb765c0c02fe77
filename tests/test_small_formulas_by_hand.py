"""Short formulas of statics and geometry, each at one place where the answer is worked out by hand.

The numbers are chosen so that the hand needs no calculator: right triangles 3-4-5 and 5-12-13, round lengths. Where
an answer comes from a printed document it is named in the row's comment; the others are plain statics and geometry.
"""

from collections.abc import Callable
from math import pi, sqrt
from typing import Any

import pytest

from bolewright.bracing import (
    beam,
    blocking,
    building,
    crossed,
    guard,
    joint,
    knee,
    lapped,
    plan,
    rotation,
    seismic,
    standing,
    stiffness,
    tee,
    tie,
    together,
    upright,
    wind,
)
from bolewright.bracing import beam as bracing_beam
from bolewright.fasteners import loaded_ply, plies
from bolewright.fasteners.rated import hanger_capacity
from bolewright.ground import embedded_post, footing, snow
from bolewright.mechanics import beam_cases, lever, serviceability, statics
from bolewright.platform.checks.rims import rim_moment
from bolewright.platform.limit_states.check import demand_capacity_ratio
from bolewright.platform.verification import comparison
from bolewright.setting_out import beams, braces, ground, levels, trunk
from bolewright.take_off import concrete, in_frame, weights
from bolewright.timber import (
    adjusted_values,
    bevel,
    combined,
    deflection,
    net_section,
    section_properties,
    stairs,
)
from bolewright.tree import embedment, working
from bolewright.tree import trunk as tree_trunk

Case = tuple[Callable[..., Any], dict[str, float], float]

BRACING: list[Case] = [
    # 3-4-5: 300 lb along x and 400 along y are 500 along (0.6, 0.8), and nothing across that
    (plan.force_across_deck, {"F_x": 300, "F_y": 400, "c": 0.6, "s": 0.8}, 500),
    # 20 lb along y at x = 50: 1,000 lb·in about the origin, 400 about x = 30; 10 lb along x at y = 0 is 40 under y = 4
    (plan.moment_about_middle, {"M_z": 1000, "F_x": 10, "F_y": 20, "x": 30, "y": 4}, 440),
    # 40 lb before it, 100 at a cosine of 0.6 and 50 the other way at 0.8
    (plan.support_force_before_cut, {"V_b": 40, "V_1": 100, "V_2": -50, "c_1": 0.6, "c_2": 0.8}, 60),
    (beam.force_across_beam, {"V_1": 300, "V_2": 400, "c_1": 0.6, "c_2": 0.8}, 500),
    # 12 in. per pound: 20 lb the other way take 240 off 1,000
    (beam.lateral_moment_from_seat, {"M_b": 1000, "m": 12, "V": -20}, 760),
    # lever rule: 100 lb 12 in. past the first of two joists 16 in. apart put 175 there, on 40 the other way
    (beam.force_at_end, {"F_b": -40, "r": 1.75, "V": 100}, 135),
    (beam.force_at_end_with_push, {"F_b": 135, "T": 15}, 150),
    # 240 lb along a beam with eight ends on it
    (beam.share_along_beam, {"H": 240, "n": 8}, 30),
    # a brace that pulls with 200 lb in that pattern: half of it over the 600 lb that the pattern shears
    (knee.shear_with_brace_force, {"V": 600, "t": 0.5, "F": 200}, 700),
    # 1 1/4 in. of sway along (0.6, -0.8)
    (tie.trunk_movement, {"s": 1.25, "c": -0.8}, -1.0),
    (tie.movement_against, {"Delta": 0.5, "s": 0.75}, 1.25),
    # 100 lb of wind along 40 in. of a brace, six tenths of it: w l²/8 is (60/40) 40²/8, half of it at each end
    (wind.moment_by_wind, {"w": 0.6, "F": 100, "l": 40}, 300),
    (wind.wind_at_one_end, {"w": 0.6, "F": 100}, 30),
    # 300 lb 24 in. past a seat, 96 in. from the next: a quarter of it lifts that one, six tenths of 50 lb hold it down
    (building.uplift_by_worker, {"W": 300, "r": 0.25, "k": 0.6, "R_D": 50}, 45),
    # a quarter of the worker's 300 lb lifts it: of 90 lb on that seat 15 are left
    (building.weight_left_by_worker, {"R": 90, "W": 300, "r": 0.25}, 15),
    # 200 lb one way, 30 lb of wind the same way at worst
    (wind.with_wind_on_braces, {"H": -200, "H_w": 30}, 230),
    # a post's 200 lb and 5 ft of 10 plf; half of it on each of two bolts; beside 150 lb of the rim's own
    (guard.load_down_on_bolts, {"P": 200, "w_g": 10, "l": 60}, 250),
    (guard.load_down_on_one_bolt, {"F_d": 250, "n": 2}, 125),
    (guard.shear_beside_post, {"V": 150, "F_d": 250}, 400),
    # a joist 45 degrees off the square of an edge: cos 45 is half the root of 2, tan 45 is 1
    (guard.tie_along_skew, {"T": 1000, "theta": 45}, 1000 * sqrt(2)),
    (guard.skew_force, {"T": 1000, "theta": 45}, 1000),
    (crossed.modulus_in_soft_ground, {"E": 1_200_000, "f": 0.5}, 600_000),
    # post bent where rods go through: 400 lb come in 100 in. up, 500 lb leave at 80 in.; at 20 in. 32,000 - 30,000
    (crossed.post_moment_at_lower_rod, {"V": 400, "h": 100, "H_r": 500, "c": 80, "z": 20}, 2_000),
    (crossed.post_moment_at_rods, {"M_k": 8_000, "M_z": 2_000}, 8_000),
    (crossed.post_moment_at_rods, {"M_k": 1_000, "M_z": 2_000}, 2_000),
    # half the square of the diameter: 50 in2 in a circle of 10 in.
    (footing.square_in_round, {"d_c": 10}, sqrt(50)),
    # a post bored both ways through its middle (NDS 2018, 3.1.2.1): 4 x 5 in. are left of 5 x 6 in.; the modulus is
    # that of 4 x 6 in. without the middle inch: 4 x (216 - 1) / 36
    (net_section.net_area_at_rods, {"b": 5, "d": 6, "D_h": 1}, 20),
    (net_section.net_modulus_at_rods, {"b": 5, "d": 6, "D_h": 1}, 860 / 36),
    # the loaded ply: a load a quarter of the characteristic length off counts three quarters, one past it nothing;
    # a third of 24,000 lb in. and 1,500 lb in. of its own
    (loaded_ply.share_of_load_beside, {"a": 6, "l_s": 24}, 0.75),
    (loaded_ply.share_of_load_beside, {"a": 30, "l_s": 24}, 0),
    (loaded_ply.moment_of_loaded_ply, {"M": 24_000, "n": 3, "M_t": 1_500}, 9_500),
    # a beam 3 in. wide on a post 5.5 in. wide that stands 1 in. off its line: 5.5 - 2 = 3.5, so all 3; 2 in. off: 1.5
    (beam.bearing_width_on_post, {"b": 3, "b_p": 5.5, "o": 1}, 3),
    (beam.bearing_width_on_post, {"b": 3, "b_p": 5.5, "o": 2}, 1.5),
    (beam.bending_stress_sum, {"f_b1": 700, "f_b2": 150}, 850),
    # two plies 12 x 1.5 each bent flat by itself: 2 x 12 x 2.25 / 6
    (beam.flatwise_section_modulus, {"n": 2, "d": 12, "t": 1.5}, 9),
    # 1,000 lb·in, and 300 lb 2 in. off, with 8 in. between the edges
    (rotation.joist_edge_force, {"M_j": 1000, "R": 300, "e": 2, "d_j": 8}, 200),
    # half of 80,000 lb/in at each of two edges 10 in. apart, each slips 5 in. times the turn: 2 x 40,000 x 5 x 5
    (upright.joist_rotation_stiffness, {"k_j": 80_000, "d_j": 10}, 2e6),
    # a bar of 2e6 lb·in² over 20 in. is 1e5 lb·in in a radian: behind 1e5 it is half of that, beside 3e5
    (upright.stiffness_with_beyond, {"k_r": 3e5, "K_b": 1e5, "G": 1e5, "J": 20, "l": 20}, 3.5e5),
    (upright.share_of_side, {"K_1": 3e5, "K_2": 1e5}, 0.75),
    # of 0.8 three quarters stay, a quarter goes on; of two joists each takes half at least
    (upright.share_passed_on, {"s_b": 0.8, "k_r": 3e5, "K": 4e5}, 0.2),
    (upright.share_of_joist, {"s_b": 0.8, "k_r": 3e5, "K": 4e5, "n": 10}, 0.6),
    (upright.share_of_joist, {"s_b": 0.8, "k_r": 1e5, "K": 4e5, "n": 2}, 0.5),
    (upright.torque_at_joist, {"M_b": 50, "s": 0.5, "V": 100, "d": 11}, 600),
    # 0.6 of 100 lb one way, 0.8 of 200 lb the other
    (bracing_beam.force_across_either_way, {"V_1": 100, "V_2": -200, "c_1": 0.6, "c_2": 0.8}, 100),
    (beam.off_line_sum, {"e_0": 0.75, "o": 0.5}, 1.25),
    # 2 % of 25,000 lb·in (AISC 360-16, Appendix 6.3.2, from memory); two such moments over 20 in.; 50 and 70 lb
    (blocking.blocking_moment, {"M_r": 25_000}, 500),
    (blocking.blocking_shear, {"M_1": 500, "M_2": 500, "s": 20}, 50),
    (blocking.end_force, {"R": 70, "V_br": 50}, 120),
    (rim_moment, {"M_s": 800, "M_c": 450}, 1250),
    # a quarter, a half and an eighth of three ratings
    (
        together.three_ratings_together,
        {"V": 250, "Z_V": 1000, "H": 400, "Z_H": 800, "T": 100, "Z_T": 800},
        0.875,
    ),
    # two seats at x = +-50: 100 lb along y shared 50 each, a couple of 1,000 lb·in adds 1,000 x 50 / 5,000 = 10
    (
        beam.seat_force_along,
        {"H_x": 0, "H_y": 100, "n": 2, "T": 1000, "x": 50, "y": 0, "J": 5000, "c": 0, "s": 1},
        60,
    ),
    # the other seat of the same pair, and a seat above the centre, which the couple pushes towards -x
    (
        beam.seat_force_along,
        {"H_x": 0, "H_y": 100, "n": 2, "T": 1000, "x": -50, "y": 0, "J": 5000, "c": 0, "s": 1},
        40,
    ),
    (
        beam.seat_force_along,
        {"H_x": 100, "H_y": 0, "n": 2, "T": 1000, "x": 0, "y": 50, "J": 5000, "c": 1, "s": 0},
        40,
    ),
    (knee.brace_end_force, {"F_b": -300, "F_w": 120}, 420),
    (knee.brace_length, {"a": 30, "r": 40}, 50),
    # three quarters of 800 lb laterally; a 3-4-5 knee: 5/4 of that along itself, 3/4 of it upright
    (knee.brace_axial_force, {"Q": 800, "q": 0.75, "a": 30, "r": 40}, 750),
    (knee.brace_reaction, {"Q": 800, "q": 0.75, "a": 30, "r": 40}, 450),
    (stiffness.share_of_a_knee, {"k_i": 3000, "k_o": 1000}, 0.75),
    (stiffness.share_of_a_knee, {"k_i": 2000, "k_o": 2000}, 0.5),
    (stiffness.share_of_a_knee, {"k_i": 5000, "k_o": -1000}, 1.25),  # the beam turns the other one against it
    # a beam that the other knees push towards this one: 1/5000 - 0.36/3600 is 1/10,000
    (stiffness.knee_stiffness_with_beam, {"k_b": 5000, "k_v": -3600, "a": 30, "r": 40}, 10000),
    (knee.brace_tension, {"F_b": 300, "F_w": 120}, 300),  # weight that pushes does not help against the pull
    (knee.brace_tension, {"F_b": 300, "F_w": -120}, 420),
    (knee.brace_compression, {"F_b": -300, "F_w": 120}, 420),
    (knee.brace_compression, {"F_b": -300, "F_w": -120}, 300),
    # the horizontal part of 500 lb in a 3-4-5 knee is 400; on a post 120 high, hinged at both ends, the knee 30 below
    # its top: 400 x 90 / 120 at the top, the rest at the foot
    (knee.cap_force_from_weight, {"F_w": 500, "h": 120, "a": 30, "r": 40}, 300),
    (knee.foot_force_from_weight, {"F_w": 500, "h": 120, "a": 30, "r": 40}, 100),
    # base fixed, 400 lb level in the middle of 60 in.: 5/16 of it at the propped top, 11/16 at the base
    (knee.cap_force_from_weight_held, {"F_w": 500, "l": 60, "a": 30, "r": 40}, 125),
    (knee.foot_force_from_weight_held, {"F_w": 500, "l": 60, "a": 30, "r": 40}, 275),
    (knee.post_moment_from_weight_held, {"F_w": 500, "l": 60, "a": 30, "r": 40}, 3750),
    # 12 in. higher, at grade: 400 x 18 - 125 x 48
    (knee.grade_moment_from_weight, {"F_w": 500, "h": 48, "l": 60, "a": 30, "r": 40}, 1200),
    (knee.lateral_force_sum, {"V": -250, "V_w": 50}, 300),
    (knee.with_more_by_knees, {"V": -250, "T": 40}, 290),
    # statics, superposition: 1.0 x 40 + 0.75 x 80 + 0.75 x 60 + 2 x 7
    (
        knee.push_by_knees,
        {"c_D": 1, "T_D": 40, "c_L": 0.75, "T_L": 80, "c_S": 0.75, "T_S": 60, "c_G": 2, "T_G": 7},
        159,
    ),
    (knee.post_moment_cantilever, {"V": -250, "l": 96}, 24000),
    (knee.post_moment_sum, {"M_k": 9000, "M_w": 1500}, 10500),
    (lapped.distance_in_diameters, {"k": 7, "D": 0.75}, 5.25),
    # three holes 4 in. apart stand at -4, 0 and 4; of two, the second stands 2 in. past the middle
    (lapped.hole_from_middle, {"k": 3, "n": 3, "s": 4}, 4),
    (lapped.hole_from_middle, {"k": 2, "n": 3, "s": 4}, 0),
    (lapped.hole_from_middle, {"k": 2, "n": 2, "s": 4}, 2),
    # bolts 6 in. above the working point of a knee that rises 30: the brace runs on by a fifth of its length
    (lapped.lapped_bolt_distance, {"L_b": 50, "a": 30, "h": 6}, 60),
    (lapped.lapped_length, {"l_b": 60, "g_l": 2, "g_u": 4, "e": 5.25}, 76.5),
    (lapped.part_by_rise, {"x": 10, "a": 30, "r": 40}, 6),
    (lapped.part_by_run, {"x": 10, "a": 30, "r": 40}, 8),
    # a diagonal whose direction counts by C = 0.8 on the force
    (plan.plan_diagonal_force, {"H": 400, "C": 0.8}, 500),
    (plan.support_lateral_force, {"k": 2000, "delta": 0.15, "g": 0.05}, 200),
    # a plate moved 0.1 along x and turned by 0.001: at (60, -40) x moves 0.1 + 0.04, y moves 0.06
    (
        plan.support_movement,
        {"u_x": 0.1, "u_y": 0, "theta": 0.001, "x": 60, "y": -40, "c": 1, "s": 0},
        0.14,
    ),
    (
        plan.support_movement,
        {"u_x": 0.1, "u_y": 0, "theta": 0.001, "x": 60, "y": -40, "c": 0, "s": 1},
        0.06,
    ),
    (standing.drift_limit, {"h": 96, "n": 200}, 0.48),
    (standing.load_with_sway, {"R": 1000, "R_o": -300, "R_k": 50}, 750),
    (standing.resultant_lateral_force, {"V_1": 300, "V_2": -400}, 500),
    (standing.resultant_movement, {"delta_1": 0.05, "delta_2": 0.12}, 0.13),
    (rotation.rotation_moment, {"V": 200, "d": 11.25, "M_e": 750}, 3000),
    # weight 5,000 lb on 0.2 in. of drift against 250 lb on 100 in.
    (standing.second_order_ratio, {"P": 5000, "Delta": 0.2, "H": 250, "h": 100}, 0.04),
    (stiffness.soft_foot_stiffness, {"k": 1200, "f": 0.6}, 720),
    (stiffness.spring_of, {"P": 100, "delta": 0.25}, 400),
    # 200 lb lateral and 3,000 lb·in at the head, knees 30 in. below: 200 + 100; with the force the other way the couple
    # alone is the greater, |-200 + 100| < 100 is a tie
    (tee.tee_cap_force, {"V": 200, "M_t": 3000, "a": 30}, 300),
    (tee.tee_cap_force, {"V": -150, "M_t": 3000, "a": 30}, 100),
    (tee.tee_cap_moment, {"M_h": 1000, "V": 200, "d": 10}, 3000),
    (tee.tee_beam_axial_force, {"F_w": -500, "a": 30, "r": 40}, 400),
    # couple M on two knees 80 in. apart along the beam: each gives M / 80 upright, so M / 80 x 5/3 along itself,
    # shortens by that over k, and the beam over it sinks by 5/3 of the shortening: 2 x 640 / 80^2 x (25 / 9) / 1,000
    (
        tee.tee_knee_turn,
        {"M_h": 640, "r_1": 40, "r_2": 40, "a": 30, "k_1": 1000, "k_2": 1000},
        2 * 0.1 * (25 / 9) / 1000,
    ),
    # a cantilever with a couple at its end: M l^2 / 2 E I, and the turn M l / E I times the depth above it
    (
        tee.tee_lean,
        {"M_h": 1000, "E": 1e6, "I": 50, "l": 100, "d": 10, "f": 1},
        1000 * (5000 + 1000) / 5e7,
    ),
    (tee.tee_moment_sum, {"M_w": 900, "M_o": -400}, 500),
    (tee.tee_post_moment, {"V": 100, "l": 80, "M_h": 1000}, 9000),
    (tee.tee_post_moment, {"V": -10, "l": 80, "M_h": 1000}, 1000),
    # below the knees the couple is whole over l - a; within the knees' rise it grows from nothing along a, whose mean
    # against a unit couple that grows alike is a / 3: l - a + a / 3
    (tee.tee_post_turn, {"M_h": 1000, "E": 1e6, "I": 50, "l": 90, "a": 30}, 1000 * 70 / 5e7),
    (tie.greater_movement, {"s": 1.5, "u": 2.25}, 2.25),
    (tie.greater_movement, {"s": 2.5, "u": 2.25}, 2.5),
    (tie.moment_off_axis, {"M_v": 5000, "H": -300, "z_s": 2}, 5600),
    (tie.movement_apart, {"delta": -0.5, "g": 1.25}, 1.75),
    (tie.resultant_moment, {"M_v": 3000, "M_h": 4000}, 5000),
    (wind.area_facing, {"h": 3, "w": 12, "epsilon": 0.5}, 18),
    # ASCE 7-16 Table 26.9-1: 1,000 ft 0.96, 3,000 ft 0.90, 6,000 ft 0.80 (two decimals printed; from memory)
    (wind.occupant_sway, {"s_L": 0.1, "L": 6000}, 600),
]

GROUND_AND_STATICS: list[Case] = [
    # IBC 2018 1807.3.2.2, d^2 = 4.25 M / (S_3 b): 300 psf x 2 ft x 17 ft^2 / 4.25, d = sqrt(17)
    (embedded_post.moment_capacity_constrained, {"S_3": 300, "b": 2, "d": sqrt(17)}, 2400),
    # 400 of D, L and S, 1.6 of 100 lb that lift
    (lever.load_with_one_more, {"P_w": 400, "f": 1.6, "Q": -100}, 240),
    (lever.load_in_combination, {"f_D": 1, "D": 400, "f_L": 0.75, "L": 800, "f_S": 0.75, "S": 200}, 1150),
    (lever.moment_of_force, {"R": -40, "e": 12}, -480),
    (lever.moments_left_over, {"M_load": 5000, "M_held": 4990}, 10),
    (lever.pressure_added, {"R": 3000, "A": 2}, 1500),
    (lever.reaction_left, {"W": 1000, "R_others": 640}, 360),
    (lever.share_by_lever, {"P": 300, "a": 40, "l": 120}, 100),
    (lever.still_held_down, {"D": 250, "U": 300}, -50),
    (lever.times_as_much, {"M_new": 9000, "M_old": 6000}, 1.5),
    (lever.weight_spread, {"q": 40, "A": 100}, 4000),
    # Clapeyron by moment distribution: 2,400 and 1,200 lb·in at a fixed middle support, spans 100 and 50 in.: shared as
    # 1/l, the support keeps (2,400 x 100 + 1,200 x 50) / 150
    (
        beam_cases.three_moments,
        {"M_1": 0, "M_3": 0, "M_f1": 2400, "M_f2": 1200, "l_1": 100, "l_2": 50},
        -2000,
    ),
    # a moment of -300 lb·in over the first support alone brings half of it, turned round, to a fixed middle: 150 of
    # which a like span takes half
    (
        beam_cases.three_moments,
        {"M_1": -300, "M_3": 0, "M_f1": 0, "M_f2": 0, "l_1": 100, "l_2": 100},
        75,
    ),
    # elastic beams, E I = 50e6 lb·in²: 5 w l⁴/(384 E I) at mid-span of 100 in. under 3.84 lb/in
    (beam_cases.uniform_load_deflection, {"w": 3.84, "x": 50, "l": 100, "E": 1e6, "I": 50}, 0.1),
    # growing from 0 to 7.68 lb/in: w l⁴/(360 E I) x 1/2 x (7 - 10/4 + 3/16) at mid-span is 5 w l⁴/(768 E I)
    (beam_cases.growing_load_deflection, {"w": 7.68, "x": 50, "l": 100, "E": 1e6, "I": 50}, 0.1),
    # P a² b²/(3 E I l) under the load at 40 of 100 in.: 1600 x 3600 / (3 x 50e6 x 100) of P = 1000 lb
    (
        beam_cases.point_load_deflection,
        {"P": 1000, "b": 60, "x": 40, "l": 100, "E": 1e6, "I": 50},
        0.384,
    ),
    # a moment at one end: M l²/(16 E I) at mid-span
    (
        beam_cases.end_moment_deflection,
        {"M_1": 0, "M_2": -8000, "x": 50, "l": 100, "E": 1e6, "I": 50},
        -0.1,
    ),
    # P at the end of an overhang, by the support's turn: P a² l/(3 E I), M = -P a
    (
        beam_cases.overhang_turned_deflection,
        {"M_f": 0, "M_s": -6000, "M_t": 0, "l": 100, "a": 25, "E": 1e6, "I": 50},
        0.1,
    ),
    # w a⁴/8, P a³/3, C a²/2 over E I at the end of 100 in.
    (beam_cases.cantilever_deflection, {"w": 4, "a": 100, "E": 1e6, "I": 50}, 1.0),
    # at the fixed end alone w a⁴/(30 E I), at the free end alone 11 w a⁴/(120 E I): 3 and 12 lb/in
    (beam_cases.cantilever_growing_deflection, {"w_r": 3, "w_t": 12, "a": 100, "E": 1e6, "I": 50}, 0.2 + 2.2),
    (beam_cases.cantilever_point_deflection, {"P": 15, "b": 100, "a": 100, "E": 1e6, "I": 50}, 0.1),
    (beam_cases.cantilever_couple_deflection, {"C": 1000, "b": 100, "a": 100, "E": 1e6, "I": 50}, 0.1),
    (serviceability.deflection_in_service, {"delta_E": 0.2, "E": 1.4e6, "E_p": 1.26e6}, 0.2 * 14 / 12.6),
    # IRC Table R301.7: floors L/360 under live load
    (serviceability.deflection_limit, {"l": 144, "n": 360}, 0.4),
    (statics.other_reaction, {"W": 1000, "R_B": 350}, 650),
    (statics.reaction_by_moments, {"M_A": 36000, "l": 120}, 300),
    # at mid-span of 120 in. under 10 lb/in: 600 x 60 - 600 x 30
    (statics.section_moment, {"R_A": 600, "a": 60, "R_B": 0, "b": 0, "M_left": 18000}, 18000),
    # past the second support of an overhanging beam both reactions stand on the left
    (statics.section_moment, {"R_A": 100, "a": 150, "R_B": 500, "b": 30, "M_left": 33000}, -3000),
    (statics.section_shear, {"R_left": 600, "W_left": 450}, 150),
    (demand_capacity_ratio, {"demand": 1.5, "capacity": 2}, 0.75),
    # NDS 2018 11.3.2 and Table 11.3.3: the duration of the combination and the wet factor, both on the rated load
    (hanger_capacity, {"Z_rated": 800, "C_D": 1.15, "C_M": 0.7}, 644),
]

SETTING_OUT: list[Case] = [
    (bevel.bevel_from_square, {"t": -1}, 45),
    (bevel.bevel_from_square, {"t": sqrt(3)}, 60),
    (bevel.bevel_offset, {"b": 1.5, "t": -2}, 3),
    (bevel.face_to_face, {"l_c": 120, "c_1": 1.5, "c_2": 2}, 116.5),
    # half of 3 in. along a piece at 3-4-5: 1.5 x 5 / 4
    (bevel.half_width_on_skew, {"w": 3, "t": 0.75}, 1.875),
    (bevel.left_edge, {"L": 100, "b": 2, "t_1": 0.5, "t_2": 1}, 100.5),
    (bevel.right_edge, {"L": 100, "b": 2, "t_1": 0.5, "t_2": 1}, 99.5),
    (bevel.long_points, {"L": 100, "b": 2, "t_1": 0.5, "t_2": -1}, 101.5),
    (bevel.skew_tangent, {"r": 30, "q": 40}, 0.75),
    (braces.brace_slope, {"a": 30, "r": 40}, 0.75),
    (beams.face_mark, {"x_c": 50, "w": 3, "t": 0.5}, 50.75),
    (beams.spacing_along, {"s": 16, "t": 0.75}, 20),
    (beams.width_on_face, {"b": 1.5, "t": 0.75}, 1.875),
    (ground.taped_distance, {"s": 96, "o": 72}, 120),
    # a point 12 in. lower than another is read 12 in. further below the line
    (levels.line_to_point, {"h_1": 30, "z_1": 84, "z_2": 72}, 42),
    (levels.post_length, {"h_f": 100, "h_c": 12.5}, 87.5),
    (levels.shim_under_bearing, {"h": 84.25, "h_0": 84}, 0.25),
    (stairs.foot_of_stringer, {"h_r": 7.5, "t": 1.5}, 6),
    (stairs.stair_going, {"n": 9, "r": 10}, 80),
    # risers of 7.5 on goings of 10 make slopes of 12.5
    (stairs.stringer_slope_length, {"n": 9, "h_r": 7.5, "r": 10}, 100),
    # the notch is 7.5 x 10 / 12.5 = 6 deep, so 5.25 of a 2x12 is left (DCA 6 asks 5 in., from memory)
    (stairs.stringer_throat, {"d": 11.25, "h_r": 7.5, "r": 10}, 5.25),
    (trunk.arc_round_bark, {"C": 72, "theta": 90}, 18),
    (trunk.bark_radius, {"C": 24 * pi}, 12),
    # a hole 5 in. beside the axis of a trunk of 13 in. radius meets the bark 12 in. forward
    (trunk.collar_projection, {"y": 15, "R": 13, "a": 5}, 3),
    (trunk.chord_across, {"R": 12, "theta": 60}, 12),
    # bark at 12 forward (5-12-13), sound wood of radius sqrt(25 + 121) at 11 forward: an inch of bark, then the thread
    (trunk.drill_depth, {"R": 13, "r": sqrt(146), "a": 5, "L": 7}, 8),
    (trunk.entry_angle, {"R": 10, "a": sqrt(50)}, 45),
]

TAKE_OFF: list[Case] = [
    (concrete.volume_to_order, {"V": 20, "w": 0.1}, 22),
    # two 1.5 in. plies with a 3/4 in. bolt: 3 + 3/4 for the nut + 3/4 D for washers and thread, common practice
    (in_frame.least_bolt_length, {"g": 3, "D": 0.75}, 4.3125),
    # IRC Table R507.5 note: 10d nails at 16 in. along both edges; 160 in. take 11 in a row, 3 plies have 2 seams
    (in_frame.nails_in_plies, {"l": 160, "s": 16, "n_r": 2, "n_p": 3}, 44),
    # a 2x12 of 12 ft has 24 board feet (definition: nominal inches square by feet, over 12)
    (weights.board_feet, {"t": 2, "w": 12, "L": 12}, 24),
    (weights.board_weight, {"w": 3, "b": 6, "l": 144}, 18),
    (weights.piece_volume, {"A": 12, "l": 144}, 1),
    (weights.piece_weight, {"rho": 38.6, "V": 2}, 77.2),
]

TIMBER_AND_TREE: list[Case] = [
    # NDS 2018 Table 4.3.1: F_t takes C_D, C_M, C_t, C_F, C_i and nothing else
    (
        adjusted_values.adjusted_tension,
        {"F_t": 500, "C_D": 1.6, "C_M": 1, "C_t": 0.8, "C_F": 1.5, "C_i": 0.8},
        768,
    ),
    (combined.tension_stress, {"T": 4125, "A_n": 8.25}, 500),
    (deflection.deflection_of_joist_and_beam, {"delta_j": 0.12, "delta_c": 0.05}, 0.17),
    # common practice (a tenth of the live load stays on a floor that swings)
    (deflection.deflection_that_moves, {"delta_D": 0.05, "delta_L": 0.2}, 0.07),
    (deflection.moment_of_both, {"M_w": 6000, "M_P": 2500}, 8500),
    # NDS Supplement 2018 Table 1B: 2x8 has A 10.88, S_xx 13.14, I_xx 47.63
    (section_properties.section_area, {"b": 1.5, "d": 7.25}, 10.875),
    (section_properties.section_modulus, {"b": 6, "d": 10}, 100),
    (section_properties.section_second_moment, {"b": 6, "d": 10}, 500),
    # ten times softer than 2,000,000 / (10 x 2)
    (embedment.foundation_modulus_across, {"E_g": 2_000_000, "D": 2, "kappa": 10, "n": 10}, 10_000),
    (tree_trunk.trunk_allowable_stress, {"F_w": 1000, "C_d": 0.9, "C_D": 1.6}, 1440),
    (tree_trunk.trunk_moment_sum, {"M_p": 10000, "M_c": 200000, "w": 0.45}, 100000),
]


JOINTS_AND_LOADS: list[Case] = [
    # NDS 2018, 3.4.3.3: d_e is the depth less the distance from the unloaded edge to the nearest fastener
    (joint.depth_from_loaded_edge, {"d": 9.25, "u": 3.25}, 6),
    # a 30-60-90 triangle
    (joint.force_across_grain, {"F": 500, "theta": 30}, 250),
    (joint.force_along_grain, {"F": 500, "theta": 60}, 250),
    (rotation.eccentric_moment, {"R": 400, "e": 2.5}, 1000),
    (rotation.shear_with_torsion, {"f_v": 60, "f_vt": 45}, 105),
    # ASCE 7-16, 2.4.5: 0.7 E
    (seismic.seismic_force_allowable, {"C_s": 0.5, "W": 3000}, 1050),
    # ASCE 7-16, 12.7.2: 20 % of 50 psf on 120 sq ft
    (seismic.seismic_weight_with_snow, {"D": 3000, "s_S": 0.2, "p_f": 50, "A": 120}, 4200),
    # three rows at 6 in. over 12 in.
    (plies.nails_beside, {"n_rows": 3, "l": 12, "s": 6}, 6),
    # ASCE 7-16 Eq. 7.7-1: 0.13 x 100 + 14, from memory
    (snow.snow_unit_weight, {"p_g": 100}, 27),
    (comparison.demand_by_frame, {"demand": 200, "f_m": 1.05}, 210),
    (comparison.stress_by_frame, {"f_c": 150, "f_m": 1.02}, 153),
    (working.working_value_in_case, {"F_w": 500, "C_D": 1.15}, 575),
    # statics: a force at 24 of 96 in. between two seats leaves 3/4 at the near one, 150 x 24; past a seat 200 x 18
    (bracing_beam.lateral_point_moment, {"H": 200, "a": 24, "b": 72}, 3600),
    (bracing_beam.lateral_tip_moment, {"H": 200, "a": 18}, 3600),
]


@pytest.mark.parametrize(
    ("formula", "arguments", "answer"),
    [*BRACING, *JOINTS_AND_LOADS, *GROUND_AND_STATICS, *SETTING_OUT, *TAKE_OFF, *TIMBER_AND_TREE],
    ids=lambda value: getattr(value, "__name__", None) or "",
)
def test_a_short_formula_gives_what_the_hand_gives(
    formula: Callable[..., Any], arguments: dict[str, float], answer: float
) -> None:
    assert float(formula(**arguments)) == pytest.approx(answer, rel=1e-12)


@pytest.mark.parametrize(("feet", "printed"), [(0, 1.00), (1000, 0.96), (3000, 0.90), (6000, 0.80)])
def test_ground_elevation_factor_of_the_table(feet: float, printed: float) -> None:
    # ASCE 7-16 Table 26.9-1, two decimals (from memory)
    assert float(wind.ground_elevation_factor(z_e=feet)) == pytest.approx(printed, abs=0.0051)


def test_shear_of_a_pole_in_the_ground_by_its_pressure() -> None:
    # parabolic pressure p(x) = k x (1 - x / a) over d, from moments and forces about grade (the pole formula's own
    # figure, IBC 2018 1807.3.2.1): its greatest shear is found here by integration in fine steps
    P, h, d = 1000.0, 4.0, 4.0
    n = 40000
    step = d / n
    places = [(i + 0.5) * step for i in range(n)]
    first = sum(x * step for x in places), sum(x**2 * step for x in places)
    second = sum(x**2 * step for x in places), sum(x**3 * step for x in places)
    # unknown k and k / a: force sums to -P, moment about grade to -P h
    determinant = first[0] * -second[1] + second[0] * first[1]
    k = (-P * -second[1] + second[0] * (P * h)) / determinant
    k_a = (first[0] * (P * h) - first[1] * -P) / determinant
    shear, most = P, P
    for x in places:
        shear += (k * x - k_a * x**2) * step
        most = max(most, abs(shear))
    assert float(embedded_post.post_shear_below_grade(P=P, h=h, d=d)) == pytest.approx(most, rel=1e-3)
