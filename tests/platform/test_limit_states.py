"""The limit states of each kind of part: the list is pinned, so that none can vanish unseen; checks must name one."""

from __future__ import annotations

import math

import numpy as np
import pytest

from bolewright.calculation import Calculation
from bolewright.platform.check import judge, not_checked, nothing_asked, worst
from bolewright.platform.limit_states import LIMIT_STATES, PartKind, limit_state
from bolewright.status import Status
from bolewright.units import POUND

# Kind of part: what of it is checked. Take nothing out of this list without saying in the commit where it went.
PINNED = {
    "decking": "incising bending end_bending live_deflection span_limit load_limit end_limit",
    "joist": "incising place stage_bending bending negative_bending shear bearing least_bearing slenderness edge_load "
    "live_deflection total_deflection uplift",
    "beam": "incising place stage_bending stage_rotation bending negative_bending shear bearing least_bearing "
    "slenderness edge_load live_deflection total_deflection uplift plies torsion rotation_hanger bearing_under "
    "bending_lateral shear_lateral bending_at_bolts bearing_lateral fastening_lateral rotation rotation_joists "
    "row_tear_out shear_at_bolts",
    "hanger": "rated rated_lateral",
    "tree_bolt": "place steel_bending steel_shear wood_yield wood_pressure rated uplift hole hole_line hole_edge tips "
    "hole_spacing held_lateral steel_biaxial wood_yield_lateral wood_pressure_lateral thread washer "
    "withdrawal rated_lateral bracket_lateral uplift_lateral contact_years overgrown_years slot",
    "tree": "place trunk trunk_wind trunk_torsion sway clearance clearance_years restraint",
    "post": "incising place stage_alone buckling slenderness one_arm uplift lateral at_knee net_section "
    "net_tension foot_uplift in_ground shear shear_below cap_lateral cap_bearing_lateral cap_rotation "
    "uplift_lateral row_tear_out shear_at_bolts",
    "footing": "place soil frost thickness concrete_bending concrete_shear concrete_punching embedment_one_arm "
    "embedment soil_lateral uplift_lateral",
    "brace": "incising place above_beam lateral distances buckling net_compression tension row_tear_out group_tear_out "
    "ends end_on_post end_on_beam",
    "wall": "weight",
    "platform": "place lateral drift p_delta in_plane restrained_trunks comparison as_built",
}


def test_no_limit_state_vanishes() -> None:
    pinned = {f"{kind}.{name}" for kind, names in PINNED.items() for name in names.split()}
    assert set(LIMIT_STATES) == pinned


@pytest.mark.parametrize("key", LIMIT_STATES)
def test_each_says_what_it_is_by_which_clause_and_what_would_change_it(key: str) -> None:
    state = limit_state(key)
    assert state.label
    assert state.clause
    assert state.change.endswith(".")
    assert state.kind in PartKind


def _judge(demand: float, capacity: float, key: str = "joist.bending") -> tuple[Calculation, list]:
    calculation = Calculation((1, 1))
    return calculation, judge(
        calculation,
        ["J1"],
        ["D + L"],
        key=key,
        demand=demand,
        capacity=capacity,
        unit=POUND,
        says="bending",
        nothing="nothing is left of it",
    )


def test_a_limit_state_that_is_not_listed_is_refused() -> None:
    with pytest.raises(KeyError, match=r"joist\.vanished"):
        _judge(1.0, 2.0, "joist.vanished")
    with pytest.raises(KeyError, match=r"joist\.vanished"):
        not_checked("J1", "joist.vanished", "no reason")
    with pytest.raises(KeyError, match=r"joist\.vanished"):
        nothing_asked("J1", "joist.vanished", "no reason")


def test_the_ratio_is_the_last_step_that_is_printed() -> None:
    _, (check,) = _judge(3.0, 4.0)
    assert check.ratio == check.steps[-1].result == 0.75
    assert check.steps[-1].arguments == {"demand": check.demand, "capacity": check.capacity}


@pytest.mark.parametrize("capacity", [0.0, -12.0])
@pytest.mark.filterwarnings("error")
def test_nothing_left_of_a_capacity_fails_in_words_and_has_no_number(capacity: float) -> None:
    _, (check,) = _judge(3.0, capacity)
    assert check.status is Status.FAILS
    assert check.sentence == "J1 fails: nothing is left of it."
    assert math.isnan(check.ratio)
    assert check.shown_ratio == "none left"
    assert not check.has_sizes
    assert worst([*_judge(9.0, 1.0)[1], check])[0] is check  # it stands before one that has a number


@pytest.mark.parametrize("demand", [-1.0, math.nan, math.inf])
def test_a_demand_below_nothing_or_without_end_is_a_fault_of_the_program(demand: float) -> None:
    with pytest.raises(AssertionError, match=r"joist\.bending of J1"):
        _judge(demand, 2.0)


def test_a_case_with_nothing_left_governs_over_one_with_a_number() -> None:
    calculation = Calculation((1, 2))
    (check,) = judge(
        calculation,
        ["S1"],
        ["D + L", "0.6D + 0.6W"],
        key="beam.rotation",
        at="C1",
        demand=np.array([[50.0, 1.0]]),
        capacity=np.array([[10.0, 0.0]]),
        unit=POUND,
        says="the rotation on C1",
    )
    assert (check.status, check.combination) == (Status.FAILS, "0.6D + 0.6W")
    assert check.sentence == "S1 fails: next to nothing is left to bear the rotation on C1."
