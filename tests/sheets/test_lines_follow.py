"""A number that goes into a line is the one that the line above it gave, for the same part."""

from __future__ import annotations

import math

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.limit_states import LIMIT_STATES
from bolewright.platform.results.results import Results, find_results
from bolewright.setting_out.ground import ground_plan
from bolewright.sheets.brief.arborist import inches
from bolewright.sheets.brief.holds import hold_points
from bolewright.sheets.brief.ratings import asked_table
from bolewright.sheets.brief.ten import governing_checks
from bolewright.sheets.least import LEAST_ASKED, outcome, sizes


@pytest.fixture(scope="module")
def lookout() -> Results:
    return find_results(read_project(shipped("calcsheets") / "lookout.toml"))


def test_force_along_a_skew_joist_comes_from_the_bolts_of_the_same_post(lookout: Results) -> None:
    """F_s = T tan(theta) (statics), T the greater tension of that post's own two bolts, not of the first post's."""
    checks = [
        check for check in lookout.checks if check.key == "guard.twist" and check.calculation is not None
    ]
    assert len({check.demand for check in checks}) > 2
    for check in checks:
        names = [step.formula.name for step in check.steps]
        force = check.steps[names.index("skew_force")]
        above = [
            step.result
            for step in check.steps
            if step.formula.name in ("tie_with_bearing", "lower_tie", "tie_by_bolts")
        ]
        assert force.arguments["T"] == pytest.approx(max(above), rel=1e-9)
        assert force.result == pytest.approx(check.demand, rel=1e-9)


def test_a_least_is_not_printed_as_a_most(lookout: Results) -> None:
    """Frost asks for 3' 6" at least and 5' 2" are there; 9 1/3 in. of rise are a most of 9 1/2."""
    frost = next(c for c in lookout.checks if c.key == "footing.frost")
    assert sizes(frost) == ("least 3.5 ft", "5.167 ft there")
    assert outcome(frost).startswith("At least 3.5 ft asked, 5.167 ft there, ratio = 0.68")
    rise = next(c for c in lookout.checks if c.key == "ladder.spacing")
    assert outcome(rise).startswith("9.333 in of 9.5 in allowed")
    assert set(LIMIT_STATES) >= LEAST_ASKED


def test_pressures_are_added_as_pressures(lookout: Results) -> None:
    for check in lookout.checks:
        if check.key == "tree_bolt.wood_pressure_lateral":
            (step,) = (step for step in check.steps if step.formula.name == "resultant_pressure")
            assert step.result == pytest.approx(math.hypot(*step.arguments.values()), rel=1e-9)
            assert not [step for step in check.steps if step.formula.name == "resultant_load"]


def test_one_length_has_one_tolerance(lookout: Results) -> None:
    """The posts' distance on the hold point and on the ground's sheet."""
    (point,) = (row for row in hold_points(lookout).rows if "P1 to P2, middle to middle" in str(row[1]))
    plan = ground_plan(lookout.path.layout)
    assert plan is not None
    (closing,) = (c for c in plan.closings if c.what == "P1 to P2, centres")
    assert str(point[3]) == f"± {inches(closing.allowed)}"


def test_what_bears_load_comes_before_sizes_that_a_code_sets(lookout: Results) -> None:
    """A ladder 20 in. wide where 20 are asked is as it should be; a joist at 0.99 is what to look at."""
    found = governing_checks(lookout)
    assert len(found) == 10
    assert all(check.combination not in ("", "any") for check in found)
    assert found[0].ratio == max(c.ratio for c in lookout.checks if c.combination not in ("", "any"))


def test_a_rating_names_the_hardware_it_is_of(lookout: Results) -> None:
    names = " ".join(str(row[0]) for row in asked_table(lookout).rows)
    assert "bolt and bracket main: rated lateral" in names
    assert "hanger HJ: rated load" in names
