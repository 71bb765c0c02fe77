"""The limit states of each kind of part: the list is pinned, so that none can vanish unseen; checks must name one."""

from __future__ import annotations

import math

import numpy as np
import pytest

from bolewright.calculation import Calculation
from bolewright.platform.limit_states import LIMIT_STATES, PartKind, limit_state
from bolewright.platform.limit_states.check import judge, not_checked, nothing_asked, worst
from bolewright.status import Status
from bolewright.units import POUND

# What is checked, a key a line, sorted. Take nothing out of this list without saying in the commit where it went.
PINNED = """
beam.bearing
beam.bearing_lateral
beam.bearing_under
beam.bearing_under_lateral
beam.bending
beam.bending_at_bolts
beam.bending_lateral
beam.bending_of_ply
beam.bolts_below_middle
beam.edge_load
beam.edge_together
beam.fastening_lateral
beam.incising
beam.least_bearing
beam.lateral
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
beam.stage_uplift
beam.together
beam.torsion
beam.total_deflection
beam.uplift
beam.uplift_lateral
blocking.bearing
blocking.bearing_lateral
blocking.bending
blocking.bending_lateral
blocking.bending_through
blocking.bending_through_lateral
blocking.bracing
blocking.bracing_edges
blocking.edge_load
blocking.edge_together
blocking.fastening
blocking.fastening_lateral
blocking.incising
blocking.live_deflection
blocking.negative_bending
blocking.place
blocking.shear
blocking.shear_lateral
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
brace.with_wind
crossed_rods.ends
crossed_rods.lateral
crossed_rods.place
crossed_rods.tension
decking.bending
decking.end_bending
decking.end_limit
decking.incising
decking.live_deflection
decking.load_limit
decking.span_limit
footing.concrete_bearing
footing.concrete_bending
footing.concrete_lateral
footing.concrete_punching
footing.concrete_shear
footing.embedment
footing.embedment_one_arm
footing.frost
footing.place
footing.projection
footing.soil
footing.soil_lateral
footing.thickness
footing.uplift_lateral
gate.brace_fastening
gate.closing
gate.hinge
gate.joint
gate.latch
gate.opening
gate.post
gate.posts
gate.rail
gate.swing
gate.way
gate.wheel
guard.along
guard.bending
guard.bending_at_bolts
guard.bolt
guard.cable_joint
guard.cable_post
guard.cable_rail
guard.cable_rail_end
guard.clash
guard.framing_bending
guard.framing_bending_lateral
guard.framing_shear
guard.framing_shear_lateral
guard.framing_tear_out
guard.gap
guard.height
guard.hold_down
guard.infill
guard.infill_fastening
guard.load_down
guard.lower_tie
guard.missing
guard.opening
guard.plate
guard.rail_down
guard.rail_fastening
guard.rail_outward
guard.receiver
guard.shear
guard.spacing
guard.twist
guard.weight
hanger.rated
hanger.rated_lateral
hatch.cover
hatch.fall
hatch.held
hatch.weight
joist.bearing
joist.bearing_lateral
joist.bending
joist.bending_lateral
joist.edge_load
joist.edge_together
joist.incising
joist.lateral
joist.least_bearing
joist.live_deflection
joist.negative_bending
joist.place
joist.shear
joist.shear_lateral
joist.slenderness
joist.stage_bending
joist.stage_slenderness
joist.stage_uplift
joist.total_deflection
joist.uplift
joist.uplift_lateral
ladder.clash
ladder.clear
ladder.closed
ladder.foot
ladder.grip
ladder.handrail
ladder.head
ladder.height
ladder.incising
ladder.over
ladder.pitch
ladder.place
ladder.rail
ladder.rail_over
ladder.rail_slenderness
ladder.soil
ladder.spacing
ladder.stairs_load
ladder.step_bending
ladder.step_fixing
ladder.tread_depth
ladder.tread_run
ladder.use
limb.clearance
limb.way_up
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
point_load.across
point_load.boards
point_load.compression
point_load.fastening
post.at_knee
post.at_rods
post.buckling
post.cap_bearing_lateral
post.cap_lateral
post.cap_rotation
post.cap_together
post.end_bearing
post.end_bearing_lateral
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
stairs.clash
stairs.face_tie
stairs.flight
stairs.foot_bearing
stairs.foot_shear
stairs.frost
stairs.guard_height
stairs.guard_opening
stairs.handrail
stairs.handrail_height
stairs.head
stairs.head_face
stairs.head_room
stairs.head_rotation
stairs.incising
stairs.landing
stairs.least_riser
stairs.live_deflection
stairs.nosing
stairs.opening
stairs.pad
stairs.place
stairs.rail_head
stairs.rail_head_up
stairs.rail_load
stairs.rail_post
stairs.rail_stringer
stairs.riser
stairs.soil
stairs.stringer_bending
stairs.stringer_person
stairs.stringer_shear
stairs.total_deflection
stairs.tread_bending
stairs.tread_bracket
stairs.tread_depth
stairs.tread_shear
stairs.tread_span
stairs.width
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
tree_bolt.fastening
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
trunk_brace.beam_tension
trunk_brace.buckling
trunk_brace.clearance
trunk_brace.foot_bolts
trunk_brace.foot_rated
trunk_brace.head_bearing
trunk_brace.head_bolts_beam
trunk_brace.head_bolts_brace
trunk_brace.incising
trunk_brace.net_compression
trunk_brace.place
trunk_brace.row_tear_out
trunk_brace.tie
trunk_brace.uplift
trunk_brace.uplift_lateral
trunk_brace.with_wind
trunk_opening.growth
trunk_opening.load
trunk_opening.sphere
trunk_opening.travel
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
