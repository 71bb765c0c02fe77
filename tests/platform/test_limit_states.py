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

# What is checked, a key a line, sorted. Take nothing out of this list without saying in the commit where it went.
PINNED = """
beam.bearing
beam.bearing_lateral
beam.bearing_under
beam.bending
beam.bending_at_bolts
beam.bending_lateral
beam.edge_load
beam.fastening_lateral
beam.incising
beam.least_bearing
beam.live_deflection
beam.negative_bending
beam.place
beam.plies
beam.rotation
beam.rotation_hanger
beam.rotation_joists
beam.row_tear_out
beam.shear
beam.shear_at_bolts
beam.shear_lateral
beam.slenderness
beam.stage_bending
beam.stage_rotation
beam.stage_slenderness
beam.together
beam.torsion
beam.total_deflection
beam.uplift
beam.uplift_lateral
blocking.bearing
blocking.bending
blocking.bending_through
blocking.bracing
blocking.edge_load
blocking.fastening
blocking.fastening_lateral
blocking.incising
blocking.live_deflection
blocking.negative_bending
blocking.place
blocking.shear
blocking.slenderness
blocking.total_deflection
blocking.uplift
brace.above_beam
brace.buckling
brace.distances
brace.end_on_beam
brace.end_on_post
brace.ends
brace.group_tear_out
brace.incising
brace.lateral
brace.net_compression
brace.place
brace.row_tear_out
brace.tension
decking.bending
decking.end_bending
decking.end_limit
decking.incising
decking.live_deflection
decking.load_limit
decking.span_limit
footing.concrete_bending
footing.concrete_punching
footing.concrete_shear
footing.embedment
footing.embedment_one_arm
footing.frost
footing.place
footing.soil
footing.soil_lateral
footing.thickness
footing.uplift_lateral
hanger.rated
hanger.rated_lateral
joist.bearing
joist.bending
joist.edge_load
joist.incising
joist.least_bearing
joist.live_deflection
joist.negative_bending
joist.place
joist.shear
joist.slenderness
joist.stage_bending
joist.stage_slenderness
joist.total_deflection
joist.uplift
joist.uplift_lateral
platform.as_built
platform.board_ends
platform.comparison
platform.drift
platform.guard
platform.in_plane
platform.lateral
platform.p_delta
platform.place
platform.restrained_trunks
platform.seismic
post.at_knee
post.buckling
post.cap_bearing_lateral
post.cap_lateral
post.cap_rotation
post.cap_together
post.foot_net_tension
post.foot_tear_out
post.foot_uplift
post.in_ground
post.incising
post.lateral
post.net_section
post.net_tension
post.one_arm
post.place
post.row_tear_out
post.shear
post.shear_at_bolts
post.shear_below
post.slenderness
post.stage_alone
post.uplift
post.uplift_lateral
tree.clearance
tree.clearance_years
tree.condition
tree.place
tree.restraint
tree.sway
tree.trunk
tree.trunk_torsion
tree.trunk_wind
tree_bolt.bracket_lateral
tree_bolt.contact_years
tree_bolt.held_lateral
tree_bolt.hole
tree_bolt.hole_edge
tree_bolt.hole_line
tree_bolt.hole_spacing
tree_bolt.overgrown_years
tree_bolt.place
tree_bolt.rated
tree_bolt.rated_lateral
tree_bolt.slot
tree_bolt.steel_bending
tree_bolt.steel_biaxial
tree_bolt.steel_shear
tree_bolt.thread
tree_bolt.tips
tree_bolt.together
tree_bolt.uplift
tree_bolt.uplift_lateral
tree_bolt.washer
tree_bolt.withdrawal
tree_bolt.wood_pressure
tree_bolt.wood_pressure_lateral
tree_bolt.wood_yield
tree_bolt.wood_yield_lateral
wall.weight
"""


def test_no_limit_state_vanishes() -> None:
    assert set(LIMIT_STATES) == set(PINNED.split())


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
