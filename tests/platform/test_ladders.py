"""Ladders and ship's ladders: rungs and rails against worked examples by statics ([L1], [L2] of the reference)."""

import math
import re
from pathlib import Path

import numpy as np
import pytest

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.actions import ActionKind
from bolewright.platform.layout.ladders import ladder_actions
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status
from bolewright.take_off.access import ladder_lengths
from bolewright.timber.bending import bending_stress
from bolewright.timber.deflection import point_load_moment
from bolewright.timber.ladders import head_force, ladder_load, rail_top_moment, round_modulus

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
DFL = 'species = "Douglas Fir-Larch"\ngrade = "No.2"\nincised = false\nwet = true\n'


def ladder_text(*lines: str) -> str:
    text = DEMO.read_text(encoding="utf-8")
    bare = re.sub(r"(?ms)^\[(stairs|ladder)\].*?(?=^\[|\Z)", "", text)
    return bare + "\n[ladder]\nedge = 3\n" + DFL + "\n".join(lines) + "\n"


def checks_of(*lines: str) -> dict[str, Check]:
    found = find_results(parse_project(ladder_text(*lines), "ladder.toml"))
    return {
        check.key.removeprefix("ladder."): check for check in found.checks if check.key.startswith("ladder.")
    }


def test_rung_example() -> None:
    """[L1]: 300 lb at the middle of a flat 2x4, 17 1/2 in. from rail to rail: 1,000 psi against 1,262.

    Beside it the rung's own weight, which the example leaves off: 35.5 lb/ft3 (NDS Supplement 2018, 3.1.3, G 0.50).
    """
    found = checks_of()["step_bending"]
    wet = 62.4 * 0.50 / (1 + 0.50 * 0.009 * 28) * 1.28
    own = wet * 5.25 / 1728 * 17.5**2 / 8 / 1.3125
    assert found.demand - own == pytest.approx(1000.0, rel=1e-6)
    assert found.capacity == pytest.approx(1262.2, rel=2e-4)
    assert 1000.0 / found.capacity == pytest.approx(0.79224, rel=2e-4)


def test_a_round_rung_weighs_as_a_round_rung() -> None:
    """1 1/4 in. across: pi/4 x 1.25^2 of wood (35.5 pcf), 16 in. of it, beside the person at one of its ends."""
    found = checks_of('rung_diameter = "1 1/4 in"', 'rung_rating = "500 lb"', 'step_fixing = "400 lb"')[
        "step_fixing"
    ]
    wet = 62.4 * 0.50 / (1 + 0.50 * 0.009 * 28) * 1.28 / 1728
    assert found.demand == pytest.approx(300 + math.pi / 4 * 1.25**2 * wet * 17.5 / 2, rel=1e-6)


def test_its_own_weight_counts() -> None:
    """Statics: two 2x6 rails of 87 in. and six rungs weigh on rails, fixings and foot beside the person (35.5 pcf)."""
    found = checks_of('step_fixing = "400 lb"', 'pad = "12 in"')
    wet = 62.4 * 0.50 / (1 + 0.50 * 0.009 * 28) * 1.28 / 1728
    length, across = 84 / math.sin(math.radians(75)), math.cos(math.radians(75))
    rung = wet * 5.25 * 17.5
    assert found["step_fixing"].demand == pytest.approx(300 + rung / 2, rel=1e-6)
    W = wet * 2 * 8.25 * length + 6 * rung
    assert found["soil"].demand == pytest.approx(300 + W + 144 * 8 / 12, rel=2e-3)
    steps = {step.formula.name: step.result for step in found["rail"].steps}
    bent = (300 * across * length / 4 + W / 2 * across * length / 8) / 7.5625
    assert steps["bending_stress"] == pytest.approx(bent, rel=1e-3)


@pytest.mark.parametrize(("diameter", "stress"), [(1.25, 6844.9), (1.5, 3961.2), (2.0, 1671.1)])
def test_round_rungs_live_by_their_rating(diameter: float, stress: float) -> None:
    """[L1]: what round rungs come to; NDS has no value for dowels, so that they are open without a rating."""
    M = point_load_moment(P=300.0, l=17.5)
    assert float(bending_stress(M=M, S=round_modulus(D=diameter))) == pytest.approx(stress, rel=2e-5)
    open_ = checks_of(f'rung_diameter = "{diameter} in"')["step_bending"]
    assert open_.status is Status.NOT_CHECKED
    assert f"{stress:,.0f} psi" in open_.sentence
    rated = checks_of(f'rung_diameter = "{diameter} in"', 'rung_rating = "400 lb"')["step_bending"]
    assert rated.ratio == pytest.approx(0.75)


@pytest.mark.parametrize(("height", "stress", "ratio"), [(36, 1745.5, 0.95386), (42, 2036.4, 1.1128)])
def test_rails_over_the_floor(height: int, stress: float, ratio: float) -> None:
    """[L2]: 100 lb across the weak axis of a 2x6: it passes at 36 in., it fails at 42."""
    assert rail_top_moment(100.0, 36.0, 90.0) == 3600.0
    found = checks_of(f'rails_over = "{height} in"', 'pitch = "90 deg"')["rail_over"]
    assert found.demand == pytest.approx(stress, rel=5e-5)
    assert found.ratio == pytest.approx(ratio, rel=2e-4)
    tied = checks_of(f'rails_over = "{height} in"', "rails_tied = true")["rail_over"]
    assert tied.status is Status.PASSES


@pytest.mark.parametrize("pitch", [59, 75, 82])
def test_rails_over_the_floor_run_on_along_their_slope(pitch: int) -> None:
    """Statics: 100 lb along the edge at the top of a rail that leans: its lever is the rail's own length, H / sin.

    A force square to the plane of the rail has the moment P |r| about where it is held, r along the rail.
    """
    top = np.array([-30.0 / math.tan(math.radians(pitch)), 0.0, 30.0])
    moment = np.linalg.norm(np.cross(top, [0.0, 100.0, 0.0]))
    found = checks_of('rails_over = "30 in"', f'pitch = "{pitch} deg"')["rail_over"]
    assert found.demand == pytest.approx(moment / (5.5 * 1.5**2 / 6), rel=1e-6)


def test_sticks_of_a_rail_reach_from_its_long_point_to_its_top() -> None:
    """Geometry: a parallelogram whose foot is cut level: slope to the floor, on over it, and d / tan of the foot."""
    layout = find_results(parse_project(ladder_text('rails_over = "36 in"'), "ladder.toml")).path.layout
    rail = next(piece for piece in ladder_lengths(layout) if piece.use == "ladder rail")
    a = math.radians(75)
    foot, head = np.array([5.5 / math.sin(a), 0.0]), np.array([-(84 + 36) / math.tan(a), 84.0 + 36.0])
    along = np.array([-math.cos(a), math.sin(a)])
    assert rail.length == pytest.approx(float((head - foot) @ along), rel=1e-9)


def test_a_grab_bar_holds_by_its_rating() -> None:
    """ASCE 7-16, 4.5.2 (from memory): 250 lb at any place of a grab bar, in any direction."""
    assert checks_of("grip = true")["grip"].status is Status.NOT_CHECKED
    assert "250 lb" in checks_of("grip = true")["grip"].sentence
    assert checks_of("grip = true", 'grip_rating = "500 lb"')["grip"].ratio == pytest.approx(0.5)
    assert checks_of("grip = true", 'grip_rating = "240 lb"')["grip"].status is Status.FAILS
    assert "grip" not in checks_of('rails_over = "36 in"')


def test_all_people_on_a_high_ladder_come_to_the_framing() -> None:
    """ASCE 7-16, 4.5.4: 300 lb, and 300 lb more for each full 10 ft; on the safe side all of it at the head."""
    for foot, people in ((0, 300.0), (-60, 600.0)):
        layout = find_results(parse_project(ladder_text(f'foot = "{foot} in"'), "ladder.toml")).path.layout
        live = [a.down for a in ladder_actions(layout) if a.kind is ActionKind.LIVE]
        assert sum(live) == pytest.approx(people)


def test_treads_of_a_ship_s_ladder_are_deep_enough_by_themselves() -> None:
    """IRC 2021, R311.7.12.1: 5 in. of tread in plan; at 60 degrees 60 / 7 in. of riser leave 4.95 in., at 59 5.15."""
    low = ('kind = "ship\'s ladder"', 'foot = "24 in"')
    found = checks_of(*low)["tread_run"]
    assert found.capacity == pytest.approx(60 / 7 / math.tan(math.radians(59)))
    assert found.status is Status.PASSES
    assert checks_of(*low, 'pitch = "60 deg"')["tread_run"].status is Status.FAILS


def test_one_person_more_for_each_full_ten_feet() -> None:
    """ASCE 7-16, 4.5.4: 300 lb, and 300 lb more for each full 10 ft."""
    assert [float(ladder_load(300.0, n)) for n in (0, 1, 2)] == [300.0, 600.0, 900.0]
    low, high = (checks_of(f'foot = "{foot} in"')["rail"] for foot in (0, -60))
    people = [{step.formula.name: step.result for step in c.steps}["ladder_load"] for c in (low, high)]
    assert people == [300.0, 600.0]


def test_rail_by_hand() -> None:
    """A 2x6 rail, 84 in. up at 75 degrees: 77.6 lb across it at the middle of 87 in., 290 lb along it."""
    found = checks_of('step_fixing = "400 lb"')["rail"]
    steps = {step.formula.name: step.result for step in found.steps}
    assert steps["rail_length"] == pytest.approx(84 / math.sin(math.radians(75)))
    assert steps["point_load_moment"] == pytest.approx(
        300 * math.cos(math.radians(75)) * steps["rail_length"] / 4
    )
    assert found.status is Status.PASSES
    loose = checks_of()["rail_slenderness"]
    assert (
        loose.status is Status.FAILS
    )  # without a fixing nothing holds a 2x6 rail across its weak axis: 87 / 1.5 = 58
    assert loose.demand == pytest.approx(steps["rail_length"] / 1.5)


def test_head_leans_outwards() -> None:
    """Statics: the flatter the ladder, the more its head is pulled on; upright it carries weight alone."""
    forces = [float(head_force(300.0, 0.0, theta)) for theta in (90.0, 75.0, 60.0, 50.0)]
    assert forces[0] == pytest.approx(300.0)
    assert forces == sorted(forces)


def test_what_is_left_out_is_open() -> None:
    found = checks_of()
    for key in ("step_fixing", "head", "soil", "closed", "rail_over"):
        assert found[key].status is Status.NOT_CHECKED, key
    assert "access, not egress" in found["use"].sentence


def test_a_fixed_foot_would_prop_a_platform_on_a_tree() -> None:
    assert checks_of("foot_fixed = true")["foot"].status is Status.NOT_CHECKED
    assert checks_of()["foot"].status is Status.PASSES


def test_ships_ladder_by_the_code() -> None:
    """IRC 2021, R311.7.12: 9 1/2 in. risers, 5 in. treads, 8 1/2 in. with nosing, 20 in. clear, 200 sq ft at most."""
    found = checks_of('kind = "ship\'s ladder"', 'handrail_height = "32 in"')
    for key in ("use", "spacing", "tread_run", "tread_depth", "clear", "handrail"):
        assert found[key].status is Status.PASSES, key
    assert found["spacing"].capacity == 9.5
    steep = checks_of('kind = "ship\'s ladder"', 'pitch = "70 deg"')
    assert steep["tread_run"].status is Status.FAILS
    assert steep["handrail"].status is Status.NOT_CHECKED
    narrow = checks_of('kind = "ship\'s ladder"', 'clear = "18 in"', 'step = "2x8"')
    assert narrow["clear"].status is narrow["tread_depth"].status is Status.FAILS


def test_half_of_it_and_one_person_come_onto_the_platform() -> None:
    """Statics: what the head brings, added to the live load and the dead load of the path."""
    path = find_results(parse_project(ladder_text(), "ladder.toml")).path
    down = sum(action.down for action in path.layout.actions)
    assert down > 300.0
    assert {action.member for action in path.layout.actions} == {"J8"}
    path.balance()


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("opening = 1", "no opening of the deck; it has none"),
        ('step = "2x"', "2x"),
        ('rung_rating = "300 lb"', "round rungs"),
        ('foot = "83 in"', "below the floor"),
    ],
)
def test_faults_are_said_in_one_sentence(line: str, words: str) -> None:
    with pytest.raises(ProjectError, match=re.escape(words)):
        parse_project(ladder_text(line), "ladder.toml")


@pytest.mark.parametrize(("basis", "psf"), [("IRC", 40.0), ("IBC", 100.0)])
def test_a_ship_s_ladder_bears_the_live_load_of_stairs_too(basis: str, psf: float) -> None:
    """Treads are loaded as stairs (ASCE 7-16, 4.5.4 with Table 4.3-1, from memory): half of the width over the rails,
    20 + 2 x 1 1/2 in., over a level run of 82 / tan 59 deg; half of that is its reaction and bends as a load mid-way.
    """
    text = ladder_text('kind = "ship\'s ladder"', 'pitch = "59 deg"', 'foot = "2 in"')
    assert 'basis = "IRC"' in text
    found = {
        check.key: check
        for check in find_results(parse_project(text.replace('basis = "IRC"', f'basis = "{basis}"'))).checks
    }
    check = found["ladder.stairs_load"]
    run = 82 / math.tan(math.radians(59))
    assert check.demand == pytest.approx(psf / 144 * 23 / 2 * run / 2, rel=1e-6)
    assert check.capacity == 300
    # The moment of the whole, spread over the level run, is that of its half at the middle.
    W = psf / 144 * 23 / 2 * run
    assert W * run / 8 == pytest.approx(check.demand * run / 4)
    assert "ladder.stairs_load" not in {f"ladder.{key}" for key in checks_of()}
