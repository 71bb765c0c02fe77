"""Bolted knees: shear at the bolts (NDS 2018, 3.4.3.3) and tear-out (Appendix E), by hand and by statics."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from arrangement_files import DEMO, file_of
from durations import load_duration
from scipy.optimize import linprog

from bolewright.platform.analysis.knee_force import knee_reaction
from bolewright.platform.analysis.knee_weight import Way
from bolewright.platform.checks.beam_added import added_effect, less, lifted_by_knees
from bolewright.platform.checks.joint_shear import shear_in_beam
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status

TEXT = (Path(__file__).parents[1] / "projects" / "lookout_revision_a.toml").read_text(encoding="utf-8")
"""The demo as it was before its beam's bolts were looked at by 3.4.3.3: 30 in. knees on a 2-2x12 of 123 3/16 in."""


@cache
def results(text: str = TEXT) -> Results:
    return find_results(parse_project(text))


def check(part: str, limit_state: str, text: str = TEXT) -> Check:
    return next(c for c in results(text).checks if (c.part, c.limit_state) == (part, limit_state))


def argument(found: Check, formula: str, name: str) -> float:
    return next(float(s.arguments[name]) for s in found.steps if s.formula.name == formula)


def C_D(found: Check) -> float:
    return load_duration(found.combination)


def test_beam_between_post_and_knee_is_overloaded_by_3_4_3_3() -> None:
    """(2) 2x12 Southern Pine No.2, wet: F'_v = 175 x 0.97 = 169.75 psi at C_D 1.0 (NDS Supplement 2018, 4B).

    Bolts at mid-depth: d_e = 11.25 - 5.625. The nearest stands 18 11/16 + 34 9/32 = 52 31/32 in. from the end of the
    beam, less than 5 x 11.25 = 56.25: V'_r = 2/3 x 169.75 x 3 x 5.625 x (1/2)^2 = 477 lb (3.4.3.3(a)), an eighth of the
    whole section, 3820 lb, at C_D 1.0. The shear beside the knee is more: a ratio of 1.1 to 1.4.
    """
    V_r = 2 / 3 * 169.75 * 3 * 5.625 * 0.25
    for mark, least, most in (("K1", 1.10, 1.28), ("K2", 1.20, 1.40)):
        for force in ("compression", "tension"):
            found = check("C1", f"shear at the bolts of {mark}, brace in {force}")
            assert found.status is Status.FAILS
            assert found.clause == "NDS 2018, 3.4.3.3(a)"
            assert found.capacity == pytest.approx(V_r * C_D(found), rel=1e-6)
            assert least < found.ratio < most
    assert check("C1", "shear with wind and sway").ratio == pytest.approx(0.55, abs=0.01)


def test_shear_beside_a_knee_is_what_its_post_and_the_loads_outside_leave() -> None:
    """Dead load, knees without slack: right of P1 the shear of C1 is the cap's load less all that lies left of it."""
    found = results()
    lateral, path = found.lateral, found.path
    brace_reactions = lateral.brace_reactions["C1"]
    effects = path.effects["C1"]
    row = int(np.searchsorted(effects.stations, brace_reactions.knees[0].at)) - 1  # between P1 and K1
    taken = brace_reactions.shear_right @ lifted_by_knees(lateral.knee_influence, brace_reactions.knees)
    V = float(less(effects.shear_right, taken)[row] @ path.dead)
    cap = float(lateral.knee_influence.caps[lateral.row("P1")] @ path.dead)
    seat = next(s for s in path.layout.member("S1").seats if s.below == "C1")
    i = path.layout.member("S1").seats.index(seat)
    assert seat.below_at < effects.stations[row]
    from_S1 = float(path.effects["S1"].reactions[i] @ path.dead)
    own = path.own_weight["C1"] * effects.stations[row] / path.layout.member("C1").line.length
    assert pytest.approx(cap - from_S1 - own, abs=0.01) == V


def test_each_way_of_the_brace_has_the_shear_of_its_own_patterns() -> None:
    """D + L with sway: the greatest shear of all patterns that leave the brace pushing, or pulling, exactly.

    0 <= live load <= its greatest on every piece of deck, brace force >= 0: a linear program, solved by scipy. What is
    checked is no less; and no more than 3 % above the same with every corner of a piece loaded by itself, which no load
    on the deck does. A knee with slack that sway already loads that way takes any pattern.
    """
    found = results()
    lateral, path = found.lateral, found.path
    brace_reactions, state = lateral.brace_reactions["C1"], lateral.states[0]
    on = lateral.knees_in(state)
    effects, beam = path.effects["C1"], path.layout.member("C1")
    corners, pounds = path.deck.corners, path.on_pieces["live"]
    by_piece = np.zeros((path.dead.size, corners.shape[1]))
    np.add.at(by_piece, (corners, np.arange(corners.shape[1])), pounds)
    loadings = (by_piece, np.diag(path.live))
    cases = [c for c, name in enumerate(lateral.cases.names) if name == "D + L"]
    shears = {}
    for knee, case in ((k, c) for k in brace_reactions.knees for c in (cases[0], cases[len(cases) // 2])):
        assert knee.bolts is not None
        places = [knee.at, *(knee.own + knee.side * hole.x for hole in knee.bolts.holes_on("C1"))]
        low = int(np.searchsorted(effects.stations, min(places))) - 1
        rows = np.arange(low, int(np.searchsorted(effects.stations, max(places), side="right")) + 1)
        f = on.force[on.knees.index(knee)]
        sway = -(2**0.5) * float(
            knee_reaction(lateral.frames, state.Q, knee, state.foot)[case]
        )  # knees at 45 degrees
        over = float(f @ lateral.tilt @ state.turn[:, case])
        for way in (Way.PUSH, Way.PULL):
            sign, exact = way.value, [0.0, 0.0]
            for name in ("shear_left", "shear_right"):
                level = added_effect(lateral, state, beam, name, rows).total[:, case]
                weight = getattr(effects, name)[rows] @ np.eye(path.dead.size)
                taken = getattr(brace_reactions, name)[rows] @ lifted_by_knees(on, brace_reactions.knees)
                less_over = level - taken @ lateral.tilt @ state.turn[:, case]
                for v, more, slack in (
                    *((v, m, True) for v, m in zip(weight, level, strict=True)),
                    *((v, m, False) for v, m in zip(weight - taken, less_over, strict=True)),
                ):
                    loaded = slack and sign * sway > 0
                    for n, live in enumerate(loadings):
                        no_less = {"A_ub": [-sign * f @ live], "b_ub": [sign * (f @ path.dead + sway + over)]}
                        for s in (1, -1):
                            best = linprog(-s * v @ live, bounds=(0, 1), **({} if loaded else no_less))
                            if best.success:
                                exact[n] = max(exact[n], s * (float(v @ path.dead) + more) - best.fun)
            V = float(shear_in_beam(lateral, state, knee, places, way)[0, case])
            assert exact[0] * (1 - 1e-6) <= V <= 1.03 * exact[1]
            shears[knee.brace.mark, way, case] = V
    assert any(abs(shears[m, Way.PULL, c] - shears[m, Way.PUSH, c]) > 50 for m, _, c in shears)


def test_farther_than_five_depths_from_the_end_the_square_does_not_count() -> None:
    """C1 longer by 4 in. at each end: 56.97 in. to the nearest bolt, V'_r = 2/3 x 169.75 x 3 x 5.625 (3.4.3.3(b))."""
    text = TEXT.replace('["-54 11/16 in", "114 in"]', '["-58 11/16 in", "114 in"]').replace(
        '["68 1/2 in", "114 in"]', '["72 1/2 in", "114 in"]'
    )
    found = check("C1", "shear at the bolts of K1, brace in compression", text)
    assert found.clause == "NDS 2018, 3.4.3.3(b)"
    assert found.capacity == pytest.approx(2 / 3 * 169.75 * 3 * 5.625 * C_D(found), rel=1e-6)
    assert found.status is Status.PASSES


def test_post_is_loaded_across_its_grain_too() -> None:
    """6x6 Southern Pine No.2, F_v 165 psi (4D, wet): bolts 30 - 1.34 in. below the top, over 5 x 5.5 = 27.5 in.

    V'_r = 2/3 x 165 x 5.5 x 2.75 = 1664 lb at C_D 1.0.
    """
    found = check("P1", "shear at the bolts of K1")
    assert found.clause == "NDS 2018, 3.4.3.3(b)"
    assert found.capacity == pytest.approx(2 / 3 * 165 * 5.5 * 2.75 * C_D(found), rel=1e-6)


def test_brace_torn_out_by_rows_and_as_a_group() -> None:
    """Two 5/8 in. bolts at 45 degrees, 1.900 in. apart across the brace: each is a row, end distance 4.5 in.

    Appendix E, two plies of 2x6 No.2: Z'_RT = 2 x (1 x 169.75 x 3 x 4.5) = 4583 lb. E.4: the group is half of both
    rows and F'_t x 3 x (1.900 - 0.6875) of net section.
    """
    rows = check("K1", "row tear-out at P1")
    assert rows.capacity == pytest.approx(2 * 169.75 * 3 * 4.5 * C_D(rows), rel=1e-6)
    group = check("K1", "group tear-out at P1")
    F_t = argument(group, "group_tear_out", "F_t_p")
    across = 2.6875 * 0.5**0.5
    assert group.capacity == pytest.approx(
        169.75 * 3 * 4.5 * C_D(group) + F_t * 3 * (across - 0.6875), rel=1e-6
    )
    assert rows.demand == pytest.approx(group.demand)


def test_only_the_part_along_the_grain_tears_the_beam() -> None:
    """At 45 degrees F / sqrt(2); two bolts in a row 2 11/16 in. apart: Z'_RT = 2 x 169.75 x 3 x 2.6875 = 2737 lb."""
    found = check("C1", "row tear-out at K1")
    F = argument(found, "force_along_grain", "F")
    more = argument(found, "demand_by_frame", "f_m")  # the frame model's knee force over that by hand
    assert 1.0 < more < 1.01
    assert found.demand == pytest.approx(F / 2**0.5 * more, rel=1e-6)
    assert found.capacity == pytest.approx(2 * 169.75 * 3 * 2.6875 * C_D(found), rel=1e-6)


def test_a_single_bolt_needs_its_end_distance_only() -> None:
    """One bolt: no group; Z'_RT = 169.75 x 3 x 4.5 in the brace (Appendix E.3 with the end distance alone)."""
    text = re.sub(r"(?m)^bolts = 2$", "bolts = 1", TEXT)
    found = check("K1", "row tear-out at P1", text)
    assert found.capacity == pytest.approx(169.75 * 3 * 4.5 * C_D(found), rel=1e-6)
    assert not any(c.limit_state.startswith("group") for c in results(text).checks)


def test_shipped_demo_is_looked_at_in_every_joint() -> None:
    """Every lapped knee of the demo has shear at its bolts in beam and post, and tear-out of brace, beam and post."""
    found = results(file_of(DEMO).read_text(encoding="utf-8"))
    for knee in found.lateral.knees:
        for part in (knee.beam.mark, knee.brace.support):
            names = [c.limit_state for c in found.checks if c.part == part]
            assert any(name.startswith(f"shear at the bolts of {knee.brace.mark}") for name in names)
            assert f"row tear-out at {knee.brace.mark}" in names
            assert any(
                c.part == knee.brace.mark and c.limit_state == f"row tear-out at {part}" for c in found.checks
            )
