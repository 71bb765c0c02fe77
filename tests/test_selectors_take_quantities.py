"""Selectors and solvers, which print nothing, take pint quantities as the formulas do; scalar equals array element."""

import numpy as np
import pytest

from bolewright import Q, fasteners, mechanics, timber
from bolewright.fasteners.connectors import plain_nail
from bolewright.fasteners.general_dowel import general_dowel
from bolewright.fasteners.yield_limit import double_shear, single_shear
from bolewright.formulas import DimensionError
from bolewright.ground.embedded_post import (
    largest_post_moment_depth,
    solve_embedment_constrained,
    solve_embedment_nonconstrained,
)
from bolewright.timber.bearing import bearing_area_factor_for, bearing_plate_wanted
from bolewright.timber.bending import BendingCase, effective_length_coefficients
from bolewright.timber.sections import parse_section
from bolewright.timber.shear import compression_notch_reach, connection_near_end
from bolewright.tree.embedment import largest_moment_depth, largest_shear_depth, turning_depth
from bolewright.tree.sway import scaled_sway
from bolewright.units import DEGREE, FOOT, INCH, POUND, PSF, PSF_PER_FOOT, PSI, Quantity


def coefficients_of_any_case(l_u, d):
    return effective_length_coefficients(BendingCase.OTHER, l_u, d)


LENGTH, FEET, FORCE = (INCH, "mm"), (FOOT, "inch"), (POUND, "kN")
STRESS, PER_DEPTH = (PSI, "MPa"), (PSF_PER_FOOT, "kPa/m")
BOLT_IN_WOOD = ((1000.0, FORCE), (5.0, LENGTH), (8.0, LENGTH), (1.5, LENGTH), (6.0, LENGTH))
POST = ((1740.0, FORCE), (4.17, FEET), (150.0, PER_DEPTH), (5.5, FEET))
CASES = [  # what it is given, and the unit of what it gives back
    (bearing_area_factor_for, ((1.5, LENGTH), (12.0, LENGTH)), None),
    (bearing_plate_wanted, ((751.0, STRESS), (1000.0, STRESS)), None),
    (coefficients_of_any_case, ((120.0, LENGTH), (9.25, LENGTH)), None),
    (connection_near_end, ((24.0, LENGTH), (9.25, LENGTH)), None),
    (compression_notch_reach, ((10.0, LENGTH), (7.25, LENGTH)), INCH),
    (largest_post_moment_depth, ((6.0, FEET), (4.0, FEET)), FOOT),
    (solve_embedment_nonconstrained, POST, FOOT),
    (solve_embedment_constrained, POST, FOOT),
    (turning_depth, BOLT_IN_WOOD, INCH),
    (largest_moment_depth, BOLT_IN_WOOD, INCH),
    (largest_shear_depth, BOLT_IN_WOOD, INCH),
    (scaled_sway, ((2.0, LENGTH), (108.0, LENGTH), (240.0, LENGTH)), INCH),
]


@pytest.mark.parametrize(("function", "given", "unit"), CASES)
def test_metric_quantities_give_what_plain_numbers_give(function, given, unit):
    plain = function(*(value for value, _ in given))
    metric = function(*(of.of(value).to(other) for value, (of, other) in given))
    assert isinstance(metric, Quantity) is (unit is not None)
    found = metric.m_as(unit.pint) if unit else metric
    assert np.asarray(found, dtype=float) == pytest.approx(np.asarray(plain, dtype=float), rel=1e-9)


@pytest.mark.parametrize(("function", "given", "unit"), CASES)
def test_an_array_gives_what_its_elements_give(function, given, unit):
    plain = function(*(value for value, _ in given))
    twice = np.asarray(function(*(np.array([value, value]) for value, _ in given)), dtype=float)
    assert twice[..., 1] == pytest.approx(np.asarray(plain, dtype=float), rel=1e-12)


# 16d common nail and 1/2 in. bolt: on either side of the 1/4 in. at which R_d changes (NDS 2018, Table 12.3.1B)
@pytest.mark.parametrize("run", [single_shear, double_shear, general_dowel])
@pytest.mark.parametrize(("D", "F_yb"), [(0.162, 90000.0), (0.5, 45000.0)])
@pytest.mark.parametrize("other", ["mm", "foot"])
def test_a_dowel_in_other_units_is_the_same_dowel(run, D, F_yb, other):
    plain = run(D=D, l_m=1.62, l_s=1.5, F_em=4650.0, F_es=4650.0, F_yb=F_yb, theta=30.0)
    lengths = {name: INCH.of(x).to(other) for name, x in (("D", D), ("l_m", 1.62), ("l_s", 1.5))}
    strengths = {
        name: PSI.of(x).to("MPa") for name, x in (("F_em", 4650.0), ("F_es", 4650.0), ("F_yb", F_yb))
    }
    found = run(**lengths, **strengths, theta=DEGREE.of(30.0))
    assert found.Z.m_as("lbf") == pytest.approx(plain.Z, rel=1e-9)
    assert found.mode == plain.mode
    assert {n: v.m_as("lbf") for n, v in found.modes.items()} == pytest.approx(plain.modes, rel=1e-9)
    assert found.steps()[-1].result == pytest.approx(plain.Z, rel=1e-9)  # printed in inches and pounds


def test_a_wrong_dimension_or_a_bare_number_among_quantities_is_refused_by_name():
    with pytest.raises(DimensionError, match="d of connection_near_end wants a length, got 3 psf"):
        connection_near_end(INCH.of(24.0), PSF.of(3.0))
    with pytest.raises(
        DimensionError, match=r"d of connection_near_end wants a length, got 9\.25 without a unit"
    ):
        connection_near_end(INCH.of(24.0), 9.25)


# ---------------------------------------------------------------------------------------------------------
# Fasteners, own values, span tables, beams: what plain inches, pounds and psi give, quantities give

BENT = {"F_yb": (60_000.0, "psi")}
DOWELS = [
    (fasteners.bolt, {"D": (0.5, "in"), "length": (6.0, "in")} | BENT),
    (fasteners.bolt, {"D": (0.75, "in"), "length": (8.0, "in")}),
    (fasteners.lag_screw, {"D": (0.375, "in"), "length": (4.0, "in"), "thread": (2.5, "in")} | BENT),
    (fasteners.wood_screw, {"length": (3.0, "in"), "thread": (2.0, "in")} | BENT),
    (plain_nail, {"D": (0.162, "in"), "length": (3.5, "in"), "D_H": (0.344, "in")} | BENT),
]
METRIC = {"in": "mm", "psi": "MPa"}


@pytest.mark.parametrize(("make", "given"), DOWELS, ids=lambda x: getattr(x, "__name__", ""))
@pytest.mark.parametrize("metric", [False, True])
def test_a_fastener_of_quantities_is_the_one_of_plain_inches(make, given, metric):
    gage = (10,) if make is fasteners.wood_screw else ()
    plain = make(*gage, **{name: value for name, (value, _) in given.items()})
    sized = {name: Q(f"{value} {unit}") for name, (value, unit) in given.items()}
    if metric:  # 12.7 mm is the 1/2 in. row of NDS Appendix L, with its root diameter and thread
        sized = {name: one.to(METRIC[given[name][1]]) for name, one in sized.items()}
    found = make(*gage, **sized)
    numbers = ("D", "length", "F_yb", "D_r", "E_tip", "thread", "D_H")
    assert [getattr(found, n) for n in numbers] == pytest.approx(
        [getattr(plain, n) for n in numbers], rel=1e-9
    )
    assert (found.name, found.notes) == (plain.name, plain.notes)


OWN = {"F_b": 1000.0, "F_v": 175.0, "F_c_perp": 400.0, "E": 1.2e6, "F_c": 1100.0, "E_min": 440_000.0}


def test_own_values_in_other_units_are_the_same_values():
    section = parse_section("2x8")
    more = {"F_t": 600.0} | OWN
    plain = timber.own_values("oak", "own", section, **more, G=0.6, source="tests")
    sized = {name: Q(f"{value} psi").to("MPa") for name, value in more.items()}
    found = timber.own_values("oak", "own", section, **sized, G=0.6, source="tests")
    assert [getattr(found, n) for n in more] == pytest.approx([getattr(plain, n) for n in more], rel=1e-9)
    own = timber.OwnValues(
        **{name: Q(f"{value} psi").to("MPa") for name, value in OWN.items()}, source="tests"
    )
    assert [getattr(own, n) for n in OWN] == pytest.approx(list(OWN.values()), rel=1e-9)


PINE = timber.Stock("Southern Pine", "No.2")


@pytest.mark.parametrize("inches", [[12.0, 16.0, 24.0], [24.0]])
@pytest.mark.parametrize("as_array", [False, True])
def test_spans_of_quantities_are_those_of_inches(inches, as_array):
    """24 in. is 609.6 mm: still repetitive (NDS 2018, 4.3.9)."""
    lengths = np.array(inches) * Q("1 in")
    given = lengths.to("mm") if as_array else [one.to("mm") for one in lengths]
    sizes = [parse_section("2x8")]
    loads = timber.SpanLoads(live=Q("40 psf").to("kPa"), dead=Q("10 psf"), overhang_point=Q("220 lb"))
    plain = timber.joist_spans([PINE], sizes, inches)
    assert [row.exact for row in timber.joist_spans([PINE], sizes, given, loads=loads)] == pytest.approx(
        [row.exact for row in plain], rel=1e-6
    )


def test_a_joist_table_of_dca6_comes_out_of_quantities():
    """Southern Pine No.2 2x8 at 16 in.: 11-10 (AWC DCA 6, Table 2)."""
    rows = timber.joist_spans([PINE], [parse_section("2x8")], [Q("16 in")])
    assert rows[0].span == 142.0


def test_beam_spans_and_post_heights_take_quantities():
    beams = [parse_section("(2) 2x10")]
    plain = timber.beam_spans([PINE], beams, [120.0])
    assert timber.beam_spans([PINE], beams, [Q("10 ft")])[0].exact == pytest.approx(plain[0].exact, rel=1e-9)
    posts = [parse_section("4x4")]
    plain = timber.post_heights(PINE, posts, [60.0, 120.0])
    found = timber.post_heights(PINE, posts, [Q("60 ft2"), Q("120 ft2").to("meter**2")], longest=Q("14 ft"))
    assert [row.exact for row in found] == pytest.approx([row.exact for row in plain], rel=1e-6)


def test_a_beam_of_quantities_by_statics():
    """Central load on a simple span: M = P L / 4, P L^3 / 48 EI; 1,000 lb on 12 ft, EI 1e8 lb in2; 2 kN = 449.6 lb."""
    beam = mechanics.Beam(Q("12 ft"), (Q("0 ft"), Q("144 in")), Q("1000000 psi") * Q("100 in4"))
    central = mechanics.PointLoad(Q("6 ft"))
    found = mechanics.solve(beam, [(central, Q("1000 lb"))])
    assert found.sagging.value == pytest.approx(36_000.0)
    assert found.downward.value == pytest.approx(1000 * 144**3 / 48 / 1e8)
    kilonewtons = mechanics.solve(beam, [(central, Q("2 kN"))])
    assert kilonewtons.sagging.value == pytest.approx(2000 / 4.4482216152605 * 144 / 4)
    at = mechanics.respond(beam, [central], np.array([3.0, 6.0]) * Q("1 ft"))
    assert at.moment[:, 0] == pytest.approx([18.0, 36.0])
    spread = mechanics.solve(beam, [(mechanics.SpreadLoad(Q("0 ft"), Q("12 ft")), Q("1200 lb"))])
    assert spread.sagging.value == pytest.approx(100 * 12**2 / 8 * 12)
    couple = mechanics.solve(beam, [(mechanics.CoupleLoad(Q("0 ft")), Q("100 lb ft"))])
    assert abs(couple.reactions) == pytest.approx([1200 / 144, 1200 / 144])


def frame_of(length, E, I_z, **support):
    bar = mechanics.Profile(E=E, A=Q("10 in2"), I_z=I_z)
    nodes = (mechanics.Node("wall", 0, 0), mechanics.Node("tip", length, 0))
    return mechanics.Frame(
        nodes,
        (mechanics.Member("arm", "wall", "tip", bar),),
        (mechanics.Support("wall", **support),),
        plane=True,
    )


def test_a_frame_of_quantities_by_statics():
    """Cantilever 8 ft long, E 1,200 ksi, I 10 in4: P L^3 / 3 EI at the tip, P L at the wall; 12 plf is 1 lb/in."""
    arm = frame_of(Q("8 ft"), Q("1200000 psi").to("MPa"), Q("10 in4").to("mm^4"), held=mechanics.ALL)
    tip = mechanics.NodeLoad("tip", (0, Q("-10 lb").to("N"), 0))
    middle = mechanics.MemberPoint("arm", Q("4 ft"), np.array([0.0, -10.0, 0.0]) * Q("1 lb"))
    spread = mechanics.MemberSpread("arm", 0, Q("8 ft"), (0, Q("-12 plf"), 0))
    couple = mechanics.NodeLoad("tip", moment=(0, 0, Q("5 lb ft")))
    found = mechanics.analyse(arm, [[tip], [middle], [spread], [couple]])
    EI = 1.2e6 * 10
    assert found.displacement("tip")[mechanics.Dof.DY] == pytest.approx(
        [-10 * 96**3 / 3 / EI, -10 * 48**2 * (3 * 96 - 48) / 6 / EI, -(96**4) / 8 / EI, 60 * 96**2 / 2 / EI]
    )
    assert found.reaction("wall")[mechanics.Dof.RZ] == pytest.approx([960.0, 480.0, 96**2 / 2, -60.0])


def test_springs_of_a_frame_take_quantities():
    """A stiff arm on a spring of 500 lb ft per radian turns by M / k; on one of 120 plf it sinks by P / k."""
    held = (mechanics.Dof.DX, mechanics.Dof.DY)
    turning = frame_of(96.0, 1e9, 1e3, held=held, springs=((mechanics.Dof.RZ, Q("500 lb ft")),))
    load = [[mechanics.NodeLoad("tip", (0, Q("-10 lb"), 0))]]
    assert mechanics.analyse(turning, load).displacement("wall")[mechanics.Dof.RZ] == pytest.approx(
        [-960 / 6000]
    )
    sinking = frame_of(
        96.0, 1e9, 1e3, held=(mechanics.Dof.DX, mechanics.Dof.RZ), springs=((mechanics.Dof.DY, Q("120 plf")),)
    )
    assert mechanics.analyse(sinking, load).displacement("wall")[mechanics.Dof.DY] == pytest.approx([-1.0])


def own_with(**changed):
    return timber.OwnValues(**({n: Q(f"{v} psi") for n, v in OWN.items()} | changed), source="tests")


@pytest.mark.parametrize(
    ("run", "said"),
    [
        (lambda: fasteners.bolt(Q("0.5 psf"), Q("6 in")), "D of bolt wants a length, got 0.5 psf"),
        (lambda: fasteners.bolt(Q("0.5 in"), 6), "length of bolt wants a length, got 6 without a unit"),
        (lambda: fasteners.lag_screw(Q("0.5 in"), Q("6 lb")), "length of lag_screw wants a length, got 6 lb"),
        (lambda: fasteners.wood_screw(10, Q("3 psi")), "length of wood_screw wants a length, got 3 psi"),
        (lambda: own_with(E=Q("3 in")), "E of OwnValues wants a stress, got 3 in"),
        (
            lambda: timber.joist_spans([PINE], [parse_section("2x8")], [Q("16 psf")]),
            "spacings of joist_spans wants a length, got 16 psf",
        ),
        (
            lambda: timber.beam_spans([PINE], [parse_section("2x8")], [Q("10 ft"), 120.0]),
            "joist_lengths of beam_spans wants a length, got 120 without a unit",
        ),
        (
            lambda: timber.post_heights(PINE, [parse_section("4x4")], [Q("60 ft")]),
            "areas of post_heights wants an area, got 60 ft",
        ),
        (lambda: mechanics.Beam(Q("12 psf"), (0, 144), 1e8), "length of Beam wants a length, got 12 psf"),
        (
            lambda: mechanics.Beam(144.0, (0, 144), Q("3 psi")),
            "EI of Beam wants a bending stiffness, got 3 psi",
        ),
        (lambda: mechanics.PointLoad(Q("3 lb")), "x of PointLoad wants a length, got 3 lb"),
        (
            lambda: mechanics.solve(
                mechanics.Beam(144.0, (0.0, 144.0), 1e8), [(mechanics.PointLoad(72.0), Q("40 psf"))]
            ),
            "loads of solve wants a force, got 40 psf",
        ),
        (lambda: mechanics.Node("tip", Q("8 lb"), 0), "x of Node wants a length, got 8 lb"),
        (lambda: mechanics.Profile(Q("8 in"), 1.0, 1.0), "E of Profile wants a stress, got 8 in"),
        (
            lambda: mechanics.NodeLoad("tip", (0, Q("8 lb"), 3)),
            "force of NodeLoad wants a force, got 3 without a unit",
        ),
        (
            lambda: mechanics.MemberSpread("arm", 0, 1, (0, Q("8 lb"), 0)),
            "q of MemberSpread wants a load per length, got 8 lb",
        ),
        (
            lambda: mechanics.Support("wall", springs=((mechanics.Dof.RZ, Q("8 lb/in")),)),
            "springs of Support wants a moment, got 8 lb/in",
        ),
        (
            lambda: mechanics.respond(
                mechanics.Beam(144.0, (0.0, 144.0), 1e8), [mechanics.PointLoad(72.0)], [Q("4 lb")]
            ),
            "stations of respond wants a length, got 4 lb",
        ),
    ],
)
def test_a_wrong_dimension_is_one_sentence_for_selectors_and_solvers_too(run, said):
    with pytest.raises(DimensionError) as found:
        run()
    assert str(found.value) == said
