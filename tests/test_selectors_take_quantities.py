"""Selectors and solvers, which print nothing, take pint quantities as the formulas do; scalar equals array element."""

import numpy as np
import pytest

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
