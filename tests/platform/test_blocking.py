"""Rims, blocking and spacers: where they lie, what comes onto them and goes on, by statics by hand and NDS 2018."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from case_files import CASES, moment, reaction

from bolewright.platform.checks.members import look_at
from bolewright.platform.checks.rims import through_moments
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.layout import Layout, LayoutError, find_layout
from bolewright.platform.layout.parts import Bearing, Cut
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.balance import assert_members_balance
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.project import Project
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status

SQUARE = '[["0 in", "0 in"], ["170 in", "0 in"], ["170 in", "132 in"], ["0 in", "132 in"]]'
SKEW = '[["0 in", "0 in"], ["90 in", "0 in"], ["170 in", "80 in"], ["170 in", "132 in"], ["0 in", "132 in"]]'
RIM = '[[blocking]]\nmark = "R"\nkind = "rim"\nfasteners = 5\n'
ROW = '[[blocking]]\nmark = "BL"\nbetween = ["J2", "J5"]\nalong = "30 in"\nfasteners = 5\n'


@cache
def project(extra: str, *, case: str = "b02_guard16", outline: str = "", guards: str = "") -> Project:
    """A case of the load path with rims or blocking added, and another outline or other guards."""
    lines = (CASES / f"{case}.toml").read_text().splitlines()
    text = []
    for line in lines:
        if outline and line.startswith("outline ="):
            line = f"outline = {outline}"
        if line.startswith("guard_edges ="):
            line = f"guard_edges = [{guards}]" if guards or outline else line
        text.append(line)
    return parse_project("\n".join(text) + "\n" + extra)


@cache
def path(extra: str, **changes: str) -> LoadPath:
    return find_load_path(find_layout(project(extra, **changes)))


@cache
def results(extra: str, **changes: str) -> Results:
    return find_results(project(extra, **changes))


def layout(extra: str, **changes: str) -> Layout:
    return path(extra, **changes).layout


# Where they lie


def test_a_rim_goes_from_joist_to_joist_half_its_thickness_in_from_the_edge() -> None:
    found = layout(RIM, outline=SQUARE)
    pieces = found.blocking
    assert len(pieces) == len(found.joists) - 1
    for piece in pieces:
        assert piece.line.start[0] == piece.line.end[0] == pytest.approx(170 - 0.75)
        assert [seat.bearing for seat in piece.seats] == [Bearing.HANGS] * 2
        assert piece.top == found.under_deck
    assert [s.below for s in pieces[0].seats] == [found.joists[0].mark, found.joists[1].mark]


def test_joists_are_cut_to_the_rims_inner_face() -> None:
    found = layout(RIM, outline=SQUARE)
    for joist in found.joists:
        assert joist.cuts[1].at == pytest.approx(joist.line.length - 1.5)
        assert joist.cuts[1].meets.startswith("R")


def test_a_rim_at_a_corner_of_45_degrees_is_mitred_and_follows_the_edge() -> None:
    # the edge from (90, 0) to (170, 80): half of 1 1/2 in. square to it, joists end 0.75 x sqrt 2 along them
    found = layout(RIM, outline=SKEW)
    skew = [p for p in found.blocking if abs(abs(p.line.u[0]) - math.sqrt(0.5)) < 1e-6]
    assert len(skew) >= 3
    for piece in skew:
        for x, y in (piece.line.start, piece.line.end):
            assert (x - 90 - y) / math.sqrt(2) == pytest.approx(-0.75, abs=1e-6)
        for seat in piece.seats:
            joist = found.member(seat.below)
            assert joist.line.length - seat.below_at == pytest.approx(0.75 * math.sqrt(2))
    assert any(cut.cut is Cut.MITRE for p in found.blocking for cut in p.cuts)


def test_a_row_of_blocking_is_staggered_so_that_each_end_is_nailed_through_the_joist() -> None:
    found = layout(ROW, outline=SQUARE)
    xs = [piece.line.start[0] for piece in found.blocking]
    assert len(xs) == 3
    assert [round(x - 30.0, 3) for x in xs] == [-0.75, 0.75, -0.75]


def test_blocking_has_the_joists_timber_where_none_is_given() -> None:
    joists, block = project(RIM).joists[0], project(RIM).blocking[0]
    assert (block.section, block.species, block.grade) == (joists.section, joists.species, joists.grade)


# What comes onto them and goes on


def test_a_person_in_the_middle_of_a_rim_goes_half_to_each_tip() -> None:
    # a bay of 16 in. along y is 16 sqrt 2 = 22.6 in. along the edge at 45 degrees: P l / 4 = 300 x 22.63 / 4 = 1,697;
    # at the edge itself the board's end is 0.75 sqrt 2 = 1.06 in. past the rim, its next joist there 8 in. in
    found = path(RIM, outline=SKEW)
    piece = next(p for p in found.layout.blocking if p.line.u[0] * p.line.u[1] > 0.4 and p.line.length < 24)
    bent = moment(found, piece.mark)
    hand = 300 * 16 * math.sqrt(2) / 4
    assert hand * 0.98 <= bent.person_most.max() <= hand * (1 + 0.75 * math.sqrt(2) / 8) * 1.02
    forces = found.effects[piece.mark].reactions
    on_piece = found.effects[piece.mark].delivered.combined(np.ones(len(found.effects[piece.mark].delivered)))
    assert np.allclose(forces[0] + forces[1], on_piece)


def test_with_a_rim_no_joist_takes_the_lever_of_boards_past_it() -> None:
    # without: the joist before gets 300 (1 + 16/16) lb, 16 in. back from the next tip (test_boards_by_hand);
    # with: what the person leaves to one tip is at most the person and the board's end past the rim
    bare, held = path("", outline=SKEW), path(RIM, outline=SKEW)
    joist = next(j for j in held.layout.joists if abs(j.line.start[1] - 50.0) < 0.01)
    tip = joist.line.length
    without = moment(bare, joist.mark).person_least.min()
    found = moment(held, joist.mark).person_least.min()
    assert without <= -300 * 2 * (tip - 16 - 90) * 0.999
    most = 300 * (1 + 0.75 * math.sqrt(2) / 8) * (tip - 90)
    assert -most <= found <= -300 * (tip - 90) * 0.95


@pytest.mark.parametrize("outline", [SQUARE, SKEW])
@pytest.mark.parametrize("extra", [RIM, ROW, RIM + ROW])
def test_all_that_is_put_on_is_carried_and_every_member_is_in_balance(extra: str, outline: str) -> None:
    with_them, without = path(extra, outline=outline), path("", outline=outline)
    assert_members_balance(with_them.layout, with_them.effects, dict.fromkeys(with_them.effects))
    for kind, (laid, carried) in with_them.balance().items():
        assert laid == pytest.approx(carried, rel=1e-9)
        if kind != "D":
            assert laid == pytest.approx(without.balance()[kind][0], rel=1e-9)
    own = sum(with_them.own_weight.values()) - sum(without.own_weight.values())
    assert with_them.balance()["D"][0] - without.balance()["D"][0] == pytest.approx(own, rel=1e-9)
    assert own > 0


def test_a_guard_along_the_rim_goes_to_the_tips() -> None:
    # b02: 30 plf on edge 2, which the joists end at: each tip gets 16 in. of it, 40 lb, straight or by the rim
    found, bare = path(RIM, outline=SQUARE, guards="2"), path(RIM, outline=SQUARE)
    for joist in found.layout.joists[2:-2]:
        by_rim = sum(
            (found.own_weight[p.mark] - bare.own_weight[p.mark]) / 2
            for p in found.layout.blocking
            for seat in p.seats
            if seat.below == joist.mark
        )
        straight = found.own_weight[joist.mark] - bare.own_weight[joist.mark]
        assert by_rim > 0
        assert straight + by_rim == pytest.approx(30 * 16 / 12, rel=1e-6)


def test_a_spacer_gives_half_of_its_weight_to_each_beam() -> None:
    spacer = (
        '[[blocking]]\nmark = "SP"\nkind = "spacer"\nbetween = ["S1", "S2"]\nalong = "62 in"\ndrop = "1 in"\n'
    )
    spacer += 'section = "2x6"\nfasteners = 4\n'
    found, bare = path(spacer, case="b01_walkway"), path("", case="b01_walkway")
    piece = found.layout.member("SP1")
    assert [seat.below for seat in piece.seats] == ["S1", "S2"]
    assert piece.line.length == pytest.approx(37.0)
    for mark, share in (
        ("P1", 42 / 68),
        ("P2", 42 / 68),
        ("P3", 26 / 68),
        ("P4", 26 / 68),
    ):  # 62 of 36 to 104
        more = reaction(found, mark).D[0] - reaction(bare, mark).D[0]
        assert more == pytest.approx(found.own_weight["SP1"] / 2 * share, rel=1e-6)


# Checks


def test_nails_in_end_grain_carry_what_nds_gives_them() -> None:
    # 16d common nail, 1 1/2 in. Southern Pine both, NDS 2018 Table 12N: Z = 154 lb; x 0.7 wet x 0.67 end grain x 5
    check = next(c for c in results(RIM, outline=SQUARE).checks if c.key == "blocking.fastening")
    case = {"D + L": 1.0, "D": 0.9}.get(check.combination, 1.0)
    assert check.capacity == pytest.approx(5 * 154 * 0.7 * 0.67 * case, rel=0.01)


def test_blocking_without_a_fastening_is_open() -> None:
    found = [c for c in results(ROW.replace("fasteners = 5\n", ""), outline=SQUARE).checks if c.part == "BL1"]
    fastening = next(c for c in found if c.key == "blocking.fastening")
    assert fastening.status is Status.NOT_CHECKED
    assert "no fastening is given" in fastening.sentence


def test_every_piece_has_its_checks() -> None:
    found = results(RIM + ROW, outline=SQUARE)
    for piece in found.path.layout.blocking:
        keys = {check.key for check in found.checks if check.part == piece.mark}
        assert {"blocking.bending", "blocking.shear", "blocking.fastening", "blocking.slenderness"} <= keys


def test_a_row_holds_joists_from_turning_and_its_fastening_is_checked_for_it() -> None:
    rows = ROW.replace("30 in", "50 in") + ROW.replace("BL", "BM").replace(
        "30 in", "130 in"
    )  # of both 80 in. lengths
    found = results(rows, outline=SQUARE)
    held = {check.part for check in found.checks if check.key == "blocking.bracing"}
    assert held  # 2 % of the joists' moment (AISC 360-16, App. 6.3.2), over the span between joists
    bare = results("", outline=SQUARE)

    def slender(of: Results, mark: str) -> float:
        return next(c.demand for c in of.checks if c.key == "joist.slenderness" and c.part == mark)

    assert slender(found, "J3") < slender(bare, "J3")  # blocks on both its sides
    assert slender(found, "J2") == pytest.approx(slender(bare, "J2"))  # on one side alone: not counted


def _edge(text: str, at: str) -> Check:
    found = results(text, outline=SQUARE).checks
    return next(c for c in found if c.key == "blocking.bracing_edges" and c.at == at)


def test_a_rating_at_the_edges_that_alone_keeps_a_joist_upright_is_held_to_what_that_asks() -> None:
    """2 % of the joist's moment (AISC 360-16, Appendix 6.3.2, by analogy) and the block's own load half a joist beside
    its middle, as a couple on the block's depth of 9 1/4 in. (statics). A rating of 2 lb braced a joist before."""
    row = ROW.replace("30 in", "50 in").replace("fasteners = 5", "fasteners = 5\nrestrains_beam = true")
    weak, strong = row + 'edge_load = "2 lb"\n', row + 'edge_load = "400 lb"\n'
    check, other = _edge(weak, "J2"), _edge(strong, "J2")
    joist = path(weak, outline=SQUARE).layout.member("J2")
    block = path(weak, outline=SQUARE).layout.member(check.part)
    bent = moment(path(weak, outline=SQUARE), "J2")
    M = max(float((bent.D + bent.person_most).max()), -float((bent.D + bent.person_least).min()))
    R = next(float(s.arguments["R"]) for s in check.steps if s.formula.name == "brace_edge_force")
    assert R >= 0
    assert other.combination == "D + one person"
    assert other.demand == pytest.approx((0.02 * M + R * joist.width / 2) / block.section.d, rel=1e-6)
    assert (check.demand, check.capacity) == (pytest.approx(other.demand), 2.0)
    assert (check.status, other.status) == (Status.FAILS, Status.PASSES)


def test_between_two_blocks_no_edge_is_pulled_and_without_a_rating_it_is_open() -> None:
    row = ROW.replace("30 in", "50 in").replace("fasteners = 5", "fasteners = 5\nrestrains_beam = true")
    rated = results(row + 'edge_load = "400 lb"\n', outline=SQUARE).checks
    assert {c.at for c in rated if c.key == "blocking.bracing_edges"} == {"J2", "J5"}  # the ends of the row
    bare = results(row, outline=SQUARE).checks
    edges = [c for c in bare if c.key == "blocking.bracing_edges"]
    assert {(c.at, c.status) for c in edges} == {("J2", Status.NOT_CHECKED), ("J5", Status.NOT_CHECKED)}
    assert all("edge_load" in c.sentence for c in edges)
    asked = [c for c in bare if c.key == "blocking.bracing" and c.status is Status.NOT_CHECKED]
    assert asked
    assert all("enter edge_load" in c.sentence for c in asked)


def test_without_them_nothing_of_a_check_changes() -> None:
    assert all(not check.key.startswith("blocking") for check in results("").checks)


def test_a_rim_over_three_joists_evens_out_their_deflection_and_bends_by_it() -> None:
    """Statics: beam of two spans l on three springs 1/c, the middle one sinking by d alone without it. Held up there by
    F = kappa d / (1 + 3/2 kappa c), kappa = 6 EI / l^3 (48 EI over the cube of both spans), it bends by F l / 2."""
    extra = RIM.replace("fasteners", 'between = ["J3", "J5"]\nfasteners')
    found = path(extra, outline=SQUARE)
    looks = [look_at(found, piece, repetitive=False) for piece in found.layout.blocking]
    assert len(looks) == 2
    middle = found.layout.member("J4")
    spot = next(
        i for i, s in enumerate(found.spots) if [x.member for x in s.shares] == ["J4"] and s.point[0] > 169
    )
    source = found.first_spot + spot
    effects = found.effects["J4"]
    at = looks[0].member.seats[1].below_at
    d = effects.deflection[int(np.argmin(np.abs(effects.stations - at)))][source]
    a, back = at - 90.0, 80.0  # on its beams at 10 and 90 in.: a^2 (a + l) / (3 EI)
    EI = effects.values.E * middle.section.I
    c = a**2 * (a + back) / (3 * EI)
    kappa = 6 * looks[0].effects.values.E * looks[0].member.section.I / 16.0**3
    hand = kappa * d / (1 + 1.5 * kappa * c) * 16.0 / 2
    assert abs(through_moments(looks)[1][source]) == pytest.approx(hand, rel=0.01)
    assert any(c.key == "blocking.bending_through" for c in results(extra, outline=SQUARE).checks)


# What is refused


@pytest.mark.parametrize(
    ("extra", "words"),
    [
        ('[[blocking]]\nmark = "BL"\nalong = "30 in"\n', "first and the last"),
        ('[[blocking]]\nmark = "BL"\nbetween = ["J1", "J3"]\n', "either over"),
        ('[[blocking]]\nmark = "R"\nkind = "rim"\njoists = "Q"\n', "no field of joists"),
        ('[[blocking]]\nmark = "R"\nkind = "rim"\nalong = "3 in"\n', "leave this line out"),
        (
            '[[blocking]]\nmark = "S"\nkind = "spacer"\nbetween = ["J1", "J2"]\nalong = "30 in"\n',
            "between two beams",
        ),
        (
            '[[blocking]]\nmark = "BL"\nbetween = ["J1", "J3"]\nalong = "30 in"\nhanger = "Z"\n',
            "no connection",
        ),
    ],
)
def test_a_file_that_does_not_say_where_is_told_so(extra: str, words: str) -> None:
    with pytest.raises(ProjectError, match=words):
        project(extra, outline=SQUARE)


@pytest.mark.parametrize(
    ("extra", "words"),
    [
        (ROW.replace("J5", "J99"), "J99, which is no joist or beam"),
        (ROW.replace("30 in", "400 in"), "misses J2"),
        (RIM.replace("fasteners", 'end = "start"\nsection = "2x12"\nfasteners'), "deeper than"),
    ],
)
def test_what_nothing_holds_is_refused_in_words(extra: str, words: str) -> None:
    with pytest.raises(LayoutError, match=words):
        find_layout(project(extra, outline=SQUARE))


def test_joists_that_hang_at_their_ends_take_no_rim() -> None:
    with pytest.raises(LayoutError, match="joists that hang there have none"):
        find_layout(project(RIM, case="b01_walkway"))


def test_a_fault_of_the_joists_timber_is_said_once_not_again_of_the_rim_that_takes_it() -> None:
    text = (CASES / "b02_guard16.toml").read_text().replace('grade = "No.2"', 'grade = "No.9"') + RIM
    with pytest.raises(ProjectError) as caught:
        parse_project(text)
    assert not any("blocking" in fault for fault in caught.value.args[0])
