"""The door for checks: factors and conditions of NDS 2018 Table 11.3.1, penetration, toe-nails, end grain, groups."""

import numpy as np
import pytest

from bolewright.fasteners.bearing_lengths import Shear
from bolewright.fasteners.connectors import bolt, lag_screw, nail, plain_nail, wood_screw
from bolewright.fasteners.errors import FastenerError, PenetrationError
from bolewright.fasteners.geometry import Distances, Geometry, Pattern
from bolewright.fasteners.group_action import group_action_factor, slip_modulus_metal
from bolewright.fasteners.lateral import lateral_design_value
from bolewright.fasteners.members import Concrete, Steel, Wood
from bolewright.fasteners.pulling import withdrawal_design_value
from bolewright.fasteners.service import (
    DRY,
    Arrangement,
    Loading,
    Moisture,
    Service,
    temperature_factor,
    wet_service_factor,
)
from bolewright.fasteners.yield_limit import double_shear, single_shear
from bolewright.rendering.handcalc import render_step

SP = Wood(1.5, 0.55)
POST = Wood(5.5, 0.55)
DRIES = Service(Moisture.WET, Moisture.DRY)
GETS_WET = Service(Moisture.DRY, Moisture.WET)
STAYS_WET = Service(Moisture.WET, Moisture.WET)
HALF, SIXTEEN = bolt(0.5, 8.0), nail("16d")


# NDS 2018 Table 11.3.3 with its footnotes: connector, loading, service, arrangement, C_M.
@pytest.mark.parametrize(
    ("connector", "loading", "service", "arrangement", "C_M"),
    [
        (HALF, Loading.LATERAL, DRY, Arrangement.OTHER, 1.0),
        (HALF, Loading.LATERAL, DRIES, Arrangement.OTHER, 0.4),
        (HALF, Loading.LATERAL, DRIES, Arrangement.SINGLE, 1.0),
        (HALF, Loading.LATERAL, DRIES, Arrangement.ROW_PARALLEL, 1.0),
        (HALF, Loading.LATERAL, DRIES, Arrangement.SPLICE_PLATES, 1.0),
        (SIXTEEN, Loading.LATERAL, DRIES, Arrangement.OTHER, 0.7),
        (HALF, Loading.LATERAL, GETS_WET, Arrangement.SINGLE, 0.7),
        (HALF, Loading.LATERAL, STAYS_WET, Arrangement.SINGLE, 0.7),
        (SIXTEEN, Loading.LATERAL, STAYS_WET, Arrangement.OTHER, 0.7),
        (lag_screw(0.5, 6.0), Loading.WITHDRAWAL, DRIES, Arrangement.OTHER, 1.0),
        (lag_screw(0.5, 6.0), Loading.WITHDRAWAL, STAYS_WET, Arrangement.OTHER, 0.7),
        (wood_screw(10, 3.0), Loading.WITHDRAWAL, GETS_WET, Arrangement.OTHER, 0.7),
        (SIXTEEN, Loading.WITHDRAWAL, DRY, Arrangement.OTHER, 1.0),
        (SIXTEEN, Loading.WITHDRAWAL, DRIES, Arrangement.OTHER, 0.25),
        (SIXTEEN, Loading.WITHDRAWAL, GETS_WET, Arrangement.OTHER, 0.25),
        (SIXTEEN, Loading.WITHDRAWAL, STAYS_WET, Arrangement.OTHER, 1.0),
    ],
)
def test_wet_service_factor(connector, loading, service, arrangement, C_M):
    assert wet_service_factor(connector, service, loading, arrangement) == C_M


def test_toe_nails_in_withdrawal_take_no_wet_service_factor():  # NDS 2018, 12.5.4.1
    assert wet_service_factor(SIXTEEN, DRIES, Loading.WITHDRAWAL, toe_nailed=True) == 1.0


# NDS 2018 Table 11.3.4
@pytest.mark.parametrize(
    ("moisture", "temperature", "C_t"),
    [
        ("dry", 70, 1.0),
        ("wet", 100, 1.0),
        ("dry", 101, 0.8),
        ("wet", 125, 0.7),
        ("dry", 126, 0.7),
        ("wet", 150, 0.5),
    ],
)
def test_temperature_factor(moisture, temperature, C_t):
    assert temperature_factor(Service(Moisture.DRY, Moisture(moisture), temperature)) == C_t


def test_too_hot_is_an_error():
    with pytest.raises(FastenerError, match=r"151 deg F: NDS Table 11\.3\.4 ends at 150 deg F"):
        temperature_factor(Service(temperature=151))


def test_outdoors_is_the_default_and_every_factor_is_there():
    result = lateral_design_value(HALF, SP, POST, C_D=1.15)
    assert result.factors == {
        "C_D": 1.15, "C_M": 0.7, "C_t": 1.0, "C_g": 1.0, "C_Delta": 1.0, "C_eg": 1.0, "C_di": 1.0, "C_tn": 1.0
    }  # fmt: skip
    assert result.Z_adj == pytest.approx(result.Z_ref * 1.15 * 0.7)
    assert result.count == 1
    assert result.Z_total == result.Z_adj
    assert result.steps()[-1].formula.name == "adjusted_lateral_value"
    assert result.steps()[-1].result == result.Z_adj


@pytest.mark.parametrize("C_D", [2.0, 0.5])
def test_load_duration_that_connections_may_not_take(C_D):  # NDS 2018, 11.3.2
    with pytest.raises(FastenerError, match=f"C_D is {C_D:g}: connections take 0.9 to 1.6"):
        lateral_design_value(HALF, SP, POST, C_D=C_D)


def test_load_duration_is_held_to_one_where_metal_governs():  # NDS 2018, 11.2.3
    thin = Steel(0.036, F_e=61850)
    result = lateral_design_value(bolt(1.0, 8.0), thin, Wood(7.5, 0.73), C_D=1.6)
    assert result.mode == "Is"
    assert result.factors["C_D"] == 1.0
    assert any("load duration factor is held to 1.0" in note for note in result.notes)
    wood_governs = lateral_design_value(HALF, Steel(0.25), Wood(1.5, 0.5), C_D=1.6)
    assert wood_governs.factors["C_D"] == 1.6


def test_arrays_of_angles_and_durations_equal_their_elements():
    theta, C_D = np.array([0.0, 30.0, 90.0]), np.array([0.9, 1.15, 1.6])
    together = lateral_design_value(HALF, Wood(1.5, 0.55, theta), Wood(5.5, 0.55, theta[::-1]), C_D=C_D)
    for i in range(3):
        side, main = Wood(1.5, 0.55, float(theta[i])), Wood(5.5, 0.55, float(theta[2 - i]))
        apart = lateral_design_value(HALF, side, main, C_D=float(C_D[i]))
        assert together.Z_adj[i] == pytest.approx(apart.Z_adj, rel=1e-12)
        assert together.mode[i] == apart.mode
        assert together.steps((i,))[-1].result == pytest.approx(apart.Z_adj, rel=1e-12)


def test_largest_angle_of_any_member_sets_R_d():  # NDS 2018, Table 12.3.1B
    result = lateral_design_value(HALF, Wood(1.5, 0.55, 90.0), Wood(5.5, 0.55, 0.0))
    step = next(step for step in result.steps() if step.formula.name == "angle_coefficient")
    assert step.result == 1.25


# Penetration: least 4 D (lag, tip out), 6 D (screw, nail): NDS 2018, 12.1.4.6, 12.1.5.6, 12.1.6.5.
@pytest.mark.parametrize(
    ("make", "least", "clause"),
    [
        (lambda L: lag_screw(0.5, L), 1.5 + 4 * 0.5 + 0.3125, "12.1.4.6"),
        (lambda L: wood_screw(10, L), 1.5 + 6 * 0.190, "12.1.5.6"),
        (lambda L: plain_nail(0.148, L), 1.5 + 6 * 0.148, "12.1.6.5"),
    ],
)
def test_least_penetration(make, least, clause):
    assert lateral_design_value(make(least), SP, POST).Z_adj > 0
    with pytest.raises(PenetrationError, match=rf"NDS 2018, {clause} wants"):
        lateral_design_value(make(least - 0.02), SP, POST)


def bearing_in_main(result):
    return next(step.arguments["l_m"] for step in result.steps() if step.formula.name == "yield_mode_Im")


def test_bearing_length_of_a_nail_counts_half_its_tip_below_ten_diameters():  # NDS 2018, 12.3.5.3
    assert bearing_in_main(lateral_design_value(plain_nail(0.148, 3.25), SP, POST)) == pytest.approx(1.75)
    short = lateral_design_value(plain_nail(0.162, 3.0), SP, POST)  # p = 1.5 in. < 1.62 in.
    assert bearing_in_main(short) == pytest.approx(1.5 - 0.162)
    out_at_the_back = lateral_design_value(plain_nail(0.162, 3.5), SP, Wood(1.5, 0.55))  # the tip is outside
    assert bearing_in_main(out_at_the_back) == pytest.approx(1.5)


def test_bearing_length_of_a_lag_screw_leaves_the_tip_out():  # NDS 2018, 12.1.4.6
    result = lateral_design_value(lag_screw(0.5, 5.0), SP, POST)
    assert bearing_in_main(result) == pytest.approx(5.0 - 1.5 - 0.3125)
    assert (
        bearing_in_main(lateral_design_value(lag_screw(0.5, 5.0), SP, Wood(2.5, 0.55))) == 2.5
    )  # held by the thickness


def test_a_bolt_that_is_too_short():
    with pytest.raises(PenetrationError, match=r"is 4 in. long but the members measure 7 in."):
        lateral_design_value(bolt(0.5, 4.0), SP, POST)


def test_root_or_full_body_of_a_lag_screw():  # NDS 2018, 12.3.7
    screw = lag_screw(0.5, 6.0)
    root = lateral_design_value(screw, SP, POST)
    full = lateral_design_value(screw.with_full_body(thread_in_bearing=0.5, bearing=4.0), SP, POST)
    assert root.Z_ref < full.Z_ref
    assert {step.arguments["D"] for step in root.steps() if step.formula.name.startswith("yield_mode")} == {
        0.371
    }
    with pytest.raises(FastenerError, match=r"1.5 in. of thread bears in 4 in.: .* up to 1 in."):
        screw.with_full_body(thread_in_bearing=1.5, bearing=4.0)


def test_a_bolt_with_its_thread_in_the_bearing_takes_its_root_but_keeps_nominal_bearing_strength():
    across = Wood(1.5, 0.55, 90.0)
    plain, threaded = HALF, HALF.with_thread_in_bearing()
    weaker = lateral_design_value(threaded, across, POST)
    assert weaker.Z_ref < lateral_design_value(plain, across, POST).Z_ref
    step = next(step for step in weaker.steps() if step.formula.name == "dowel_bearing_perpendicular")
    assert step.arguments["D"] == 0.5


def test_toe_nail():  # NDS 2018, 12.1.6.3, 12.5.4.2: l_s = L/3, l_m = L cos 30 - L/3, C_tn = 0.83
    result = lateral_design_value(SIXTEEN, SP, POST, toe_nailed=True, service=DRY)
    l_s, l_m = 3.5 / 3, 3.5 * np.cos(np.pi / 6) - 3.5 / 3
    F_e = 16600 * 0.55**1.84
    by_hand = single_shear(D=0.162, l_m=l_m, l_s=l_s, F_em=F_e, F_es=F_e, F_yb=90000).Z
    assert result.Z_adj == pytest.approx(0.83 * by_hand, rel=1e-12)
    with pytest.raises(FastenerError, match="toe-nail factor is for nails"):
        lateral_design_value(lag_screw(0.375, 4.0), SP, POST, toe_nailed=True)


def test_end_grain():  # NDS 2018, 12.3.3.4 and 12.5.2.2
    along = Wood(5.5, 0.55, end_grain=True)
    result = lateral_design_value(lag_screw(0.5, 6.0), SP, along)
    assert result.factors["C_eg"] == 0.67
    names = [step.formula.name for step in result.steps()]
    assert "dowel_bearing_perpendicular" in names
    assert next(step.result for step in result.steps() if step.formula.name == "angle_coefficient") == 1.25
    assert lateral_design_value(SIXTEEN, SP, along).factors["C_eg"] == 0.67


def test_diaphragm_factor_is_for_nails():  # NDS 2018, 12.5.3
    assert lateral_design_value(SIXTEEN, Wood(0.75, 0.5), POST, diaphragm=True).factors["C_di"] == 1.1
    assert lateral_design_value(HALF, SP, POST, diaphragm=True).factors["C_di"] == 1.0


def test_group_of_bolts():  # C_g and C_Delta together, count times Z'
    side, main = Wood(1.5, 0.5, E=1.6e6, width=9.25), Wood(3.5, 0.5, E=1.6e6, width=9.25)
    pattern = Pattern(in_row=4, rows=2, spacing=3.0, row_spacing=3.0)
    ends = Distances(end=5.25, edge=3.0)
    where = Geometry(pattern, ends, ends)
    result = lateral_design_value(
        bolt(0.75, 8.0), side, main, shear=Shear.DOUBLE, geometry=where, service=DRY
    )
    exact = group_action_factor(4, 180000 * 0.75**1.5, 3.0, 1.6e6 * 3.5 * 9.25, 1.6e6 * 3.0 * 9.25)
    assert result.factors["C_g"] == pytest.approx(exact)
    assert result.factors["C_Delta"] == 1.0
    assert result.Z_total == pytest.approx(8 * result.Z_ref * exact)
    shorter = Geometry(pattern, Distances(end=4.0, edge=3.0), ends)
    closer = lateral_design_value(
        bolt(0.75, 8.0), side, main, shear=Shear.DOUBLE, geometry=shorter, service=DRY
    )
    assert closer.factors["C_Delta"] == pytest.approx(4.0 / 5.25)


def test_group_action_wants_areas_and_moduli():
    row = Geometry(Pattern(in_row=2, spacing=3.0))
    with pytest.raises(FastenerError, match="E of wood member is not given"):
        lateral_design_value(HALF, SP, POST, geometry=row)
    with pytest.raises(FastenerError, match="width of wood member is not given"):
        lateral_design_value(HALF, SP, Wood(5.5, 0.55, E=1.4e6), geometry=row)


def test_group_action_of_nails_is_one():  # NDS 2018, 11.3.6: D < 1/4 in.
    row = Geometry(Pattern(in_row=6, spacing=3.0))
    assert lateral_design_value(SIXTEEN, SP, POST, geometry=row).factors["C_g"] == 1.0


def test_group_action_across_the_grain_takes_the_width_of_the_group():  # NDS 2018, 11.3.6.3
    main = Wood(3.5, 0.5, 90.0, E=1.6e6, width=11.25)
    plate = Steel(0.25, width=3.0)
    row = Geometry(Pattern(in_row=2, spacing=2.5))
    result = lateral_design_value(HALF, plate, main, geometry=row)
    exact = group_action_factor(2, slip_modulus_metal(0.5), 2.5, 1.6e6 * 3.5 * 1.5, 29e6 * 0.25 * 3.0)
    assert result.factors["C_g"] == pytest.approx(exact)


def test_drying_of_one_row_along_the_grain_and_of_two():
    E = {"E": 1.4e6, "width": 9.25}
    side, main = Wood(1.5, 0.55, **E), Wood(3.5, 0.55, **E)
    one = lateral_design_value(HALF, side, main, service=DRIES, geometry=Geometry(Pattern(2, 1, 3.0)))
    two = lateral_design_value(HALF, side, main, service=DRIES, geometry=Geometry(Pattern(2, 2, 3.0, 3.0)))
    assert (one.factors["C_M"], two.factors["C_M"]) == (1.0, 0.4)


def test_concrete_main_member():  # NDS 2018 Table 12E, Douglas Fir-Larch 1-1/2 in., 6 in. embedment, from memory
    sill = {theta: Wood(1.5, 0.50, theta) for theta in (0.0, 90.0)}
    found = [
        lateral_design_value(HALF, sill[theta], Concrete(6.0), tabulated=True).Z_ref for theta in (0.0, 90.0)
    ]
    assert found == [650, 380]
    with pytest.raises(FastenerError, match="2000 psi: F_e of 7500 psi wants 2500 psi or more"):
        Concrete(6.0, f_c=2000)


def test_double_shear_with_unlike_sides_is_the_lesser_symmetric_one():  # NDS 2018, 12.3.8
    thick, thin, main = Wood(3.5, 0.55), Wood(1.5, 0.43), Wood(3.5, 0.55)
    both = lateral_design_value(bolt(0.5, 10.0), thick, main, shear=Shear.DOUBLE, second_side=thin)
    mirrored = lateral_design_value(bolt(0.5, 10.0), thin, main, shear=Shear.DOUBLE, second_side=thick)
    lesser = lateral_design_value(bolt(0.5, 10.0), thin, main, shear=Shear.DOUBLE)
    assert both.Z_ref == pytest.approx(mirrored.Z_ref) == pytest.approx(lesser.Z_ref)
    assert both.mode == mirrored.mode == lesser.mode


def test_nail_in_double_shear_takes_the_lesser_bearing_of_both_sides():
    side, main = Wood(1.5, 0.55), Wood(1.5, 0.55)
    result = lateral_design_value(plain_nail(0.148, 4.3), side, main, shear=Shear.DOUBLE)
    l_s = 1.3 - 0.148  # p = 1.3 in. in the last member, half the tip taken off
    F_e = 16600 * 0.55**1.84
    assert result.Z_ref == pytest.approx(
        double_shear(D=0.148, l_m=1.5, l_s=l_s, F_em=F_e, F_es=F_e, F_yb=90000).Z
    )


def test_clinched_nails():  # NDS 2018, 12.1.6.5
    board = Wood(0.75, 0.5)
    short = plain_nail(0.131, 2.75)
    with pytest.raises(PenetrationError, match="wants 6 D"):
        lateral_design_value(short, board, board, shear=Shear.DOUBLE)
    assert lateral_design_value(short, board, board, shear=Shear.DOUBLE, clinched=True).Z_adj > 0
    with pytest.raises(PenetrationError, match=r"3 D = 0\.393 in\. is the least to clinch"):
        lateral_design_value(plain_nail(0.131, 2.5), board, board, shear=Shear.DOUBLE, clinched=True)


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: Wood(0.0, 0.5), "thickness of wood member is 0 in.: it must be more than 0"),
        (lambda: Wood(1.5, 5.0), "specific gravity of wood member is 5"),
        (lambda: Wood(1.5, 0.5, 91.0), "it must be 0 to 90 degrees"),
        (lambda: lag_screw(0.55, 4.0), "no row for D 0.55"),
        (lambda: nail("9d"), "pennyweight '9d'"),
        (lambda: plain_nail(0.3, 4.0), "no bending yield strength for a nail of D = 0.3 in.: enter F_yb"),
        (lambda: lag_screw(0.5, 0.5), "1 in. is the shortest"),
    ],
)
def test_user_errors_are_one_sentence(make, said):
    with pytest.raises(ValueError, match=said):
        make()


def test_what_rests_on_memory_is_said():
    result = lateral_design_value(lag_screw(0.5, 6.0), SP, POST, geometry=Geometry(main=Distances(end=4.0)))
    said = " ".join(result.notes)
    for what in ("Root diameter", "Thread length", "F_yb", "Wet service factor", "End distance"):
        assert what in said
    assert "from memory" in said
    assert lateral_design_value(bolt(0.5, 8.0, F_yb=45000.0), SP, POST, service=DRY).notes == (
        "Bolt thread is taken to stay out of the bearing in the members (NDS 2018, 12.3.7.2).",
    )


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: lateral_design_value(SIXTEEN, SP, POST, toe_nailed=True), "Toe-nail factor"),
        (lambda: lateral_design_value(SIXTEEN, SP, Wood(5.5, 0.55, end_grain=True)), "End grain factor"),
        (lambda: lateral_design_value(SIXTEEN, SP, POST, diaphragm=True), "Diaphragm factor"),
        (lambda: withdrawal_design_value(SIXTEEN, SP, POST, toe_nailed=True), "Toe-nail factor"),
    ],
)
def test_special_factors_from_memory_are_said_where_they_are_taken(call, said):
    assert any(said in note and "from memory" in note for note in call().notes)
    plain = lateral_design_value(SIXTEEN, SP, POST).notes
    assert not any(said in note for note in plain)


@pytest.mark.parametrize(
    "call",
    [
        lambda: lateral_design_value(HALF, SP, POST, shear=Shear.SINGLE, C_D=1.15),
        lambda: lateral_design_value(SIXTEEN, SP, POST, toe_nailed=True),
        lambda: lateral_design_value(lag_screw(0.25, 4.0), Steel(0.12, F_u=45000), Wood(5.5, 0.5, 40.0)),
        lambda: lateral_design_value(
            bolt(0.75, 12.0), SP, POST, shear=Shear.DOUBLE, second_side=Wood(3.5, 0.43)
        ),
    ],
)
def test_every_step_prints_to_the_value_the_check_computed(call):
    result = call()
    printed = [render_step(step) for step in result.steps()]  # raises where print and check disagree
    assert len(printed) == len(result.steps())
