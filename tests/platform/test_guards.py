"""Guards: levers, sections and framing by the worked examples of the reference folder, statics by hand, and laws."""

from __future__ import annotations

import math

import numpy as np
import pytest
from arrangement_files import file_of
from hypothesis import given
from hypothesis import strategies as st

from bolewright.bracing.guard import (
    baluster_moment,
    bolt_force_along_rail,
    guard_load_at_post,
    guard_moment,
    lower_tie,
    plate_bearing,
    post_bearing,
    rail_moment,
    tie_by_bolts,
    tie_by_edge_lever,
    tie_with_bearing,
)
from bolewright.paths import shipped
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.actions import ActionKind
from bolewright.platform.layout.guard_joints import behind_post, contact_width, gap_behind, pieces_behind
from bolewright.platform.layout.guards import push_on
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.layout.parts import LayoutError
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import envelope, strength_cases
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.results import find_results
from bolewright.status import Status
from bolewright.timber.adjusted_values import adjusted_bending
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bending import bending_stress
from bolewright.timber.material import reference_values
from bolewright.timber.net_section import net_modulus_along_holes
from bolewright.timber.section_properties import section_modulus
from bolewright.timber.sections import parse_section

SQUARE = (file_of("over_three_posts").parents[2] / "projects" / "round_the_trunk_revision_a.toml").read_text(
    encoding="utf-8"
)
LOOKOUT = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
NO_CODE = SQUARE.split("\n[[guard]]")[0]
SQUARE = NO_CODE.replace("\n[site]", '\n[code]\nbasis = "IRC"\nedition = "2021"\n\n[site]', 1)
RIMS = "".join(
    f'\n[[blocking]]\nmark = "{mark}"\nkind = "rim"\nend = "{end}"\nfasteners = 5\n'
    for mark, end in (("RS", "start"), ("RE", "end"))
)
WET = 565.0 * 0.67  # psi, southern pine across the grain, wet (NDS Supplement 2018, Table 4B)
# Pushed at the rail's free end 15 1/4 in. past the post on J10, the next post 35 1/4 in. on: by moments about that one.
AT_END = 200.0 * (35.25 + 15.25) / 35.25
G1 = {"P": 200.0, "H": 36.0, "t": 1.0, "d": 7.25, "e": 2.0}


def outward(P: float, H: float, t: float, d: float, e: float, b: float, F_c_perp_p: float) -> float:
    """What a post pushed outward presses with: the push's lever is to the upper bolt."""
    return float(post_bearing(guard_moment(P, H, t + e), d, e, b, F_c_perp_p))


def pushed_in(P: float, H: float, t: float, d: float, e: float, b: float, F_c_perp_p: float) -> float:
    """What one pushed inward presses with: to the lower bolt."""
    return float(post_bearing(guard_moment(P, H, t + d - e), d, e, b, F_c_perp_p))


def guard(**keys: object) -> str:
    own = {"mark": "G", "edges": [1, 3], "species": "Southern Pine", "grade": "No.2", "incised": False} | keys
    said = {True: "true", False: "false"}
    lines = [
        f"{key} = {said[value]}"
        if isinstance(value, bool)
        else f'{key} = "{value}"'
        if isinstance(value, str)
        else f"{key} = {value}"
        for key, value in own.items()
    ]
    return "\n[[guard]]\n" + "\n".join(lines) + "\n"


def block(along: str, between: str = '["J1", "J2"]', mark: str = "BA") -> str:
    keys = f'mark = "{mark}"\nkind = "blocking"\nbetween = {between}\nalong = "{along}"\nfasteners = 5\n'
    return f"\n[[blocking]]\n{keys}"


def checks_of(text: str) -> dict[tuple[str, str], Check]:
    return {(c.part, c.key): c for c in find_results(parse_project(text)).checks}


# ---------------------------------------------------------------------------------------------------------
# Levers and sections


def test_levers_of_the_worked_post() -> None:
    """Reference G1: 4x4 southern pine, 36 in., 2x8 rim, bolts 2 in. from its edges."""
    assert guard_moment(200.0, 36.0, 0.0) == 7200
    assert guard_moment(200.0, 36.0, 3.0) == 7800
    assert guard_moment(200.0, 36.0, 1.0 + 7.25 / 2) == 8125
    assert tie_by_edge_lever(**G1) == pytest.approx(1685.7, abs=0.05)
    C = outward(**G1, b=3.5, F_c_perp_p=WET)
    assert pytest.approx(1691.3, abs=0.05) == C
    assert tie_with_bearing(C, 200.0) == pytest.approx(1891.3, abs=0.05)
    assert pytest.approx(1.2766, abs=5e-5) == C / (3.5 * WET)
    assert tie_by_bolts(**G1) == pytest.approx(2600.0)
    inward = pushed_in(**G1, b=3.5, F_c_perp_p=WET)
    assert lower_tie(inward, 200.0) == pytest.approx(1657.6, abs=0.05)


def test_the_dry_model_is_the_published_hold_down() -> None:
    """DCA 6 asks a hold-down of 1,800 lb at 36 in. on a 2x8 (second-hand): the dry model within 1 %."""
    dry = tie_with_bearing(outward(**G1, b=3.5, F_c_perp_p=565.0), 200.0)
    assert dry == pytest.approx(1810.7, abs=0.05)
    assert dry == pytest.approx(1800.0, rel=0.01)
    assert tie_by_edge_lever(**G1) < 1800 < tie_by_bolts(**G1)


@pytest.mark.parametrize(("H", "d", "pull"), [(42.0, 7.25, 2203.0), (36.0, 9.25, 1344.0)])
def test_higher_guards_and_deeper_rims(H: float, d: float, pull: float) -> None:
    """SUPERSTRUCTURE notes, section 1: 42 in. on a 2x8, 36 in. on a 2x10, wet."""
    given_ = {**G1, "H": H, "d": d}
    found = tie_with_bearing(outward(**given_, b=3.5, F_c_perp_p=WET), 200.0)
    assert found == pytest.approx(pull, abs=1.0)


def test_sections_of_the_worked_posts() -> None:
    """G1: gross and net stress; the public permit sheet's 1,008 psi is the gross one at the deck."""
    net = net_modulus_along_holes(3.5, 3.5, 1.0, 9 / 16)
    assert net == pytest.approx(5.997, abs=5e-4)
    assert bending_stress(7200.0, section_modulus(3.5, 3.5)) == pytest.approx(1007.6, abs=0.05)
    assert bending_stress(7800.0, net) == pytest.approx(1301.0, abs=0.5)


@pytest.mark.parametrize(
    ("species", "H", "d", "ratio_1_0", "ratio_1_6"),
    [("Hem-Fir", 42.0, 7.25, 1.7309, 1.0818), ("Douglas Fir-Larch", 36.0, 9.25, 1.4167, 0.88546)],
)
def test_incised_posts(species: str, H: float, d: float, ratio_1_0: float, ratio_1_6: float) -> None:
    """G2 and G3: incised No.2 posts, wet, net at the upper bolt, by both load durations."""
    section = parse_section("4x4")
    values = reference_values(species, "No.2", section)
    own = factors(values, Service(wet=True, incised=True), repetitive=False)
    f_b = bending_stress(guard_moment(200.0, H, 3.0), net_modulus_along_holes(3.5, 3.5, 1.0, 9 / 16))
    for C_D, ratio in ((1.0, ratio_1_0), (1.6, ratio_1_6)):
        F_b = adjusted_bending(F_b=values.F_b, C_D=C_D, C_L=1.0, **own.bending)
        assert f_b / F_b == pytest.approx(ratio, abs=5e-4)


def test_plate_and_washer() -> None:
    """G4: a 3 in. plate under 1,891.3 lb: 8.7515 sq in."""
    assert 1891.3 / plate_bearing(1891.3, 3.0, 0.5625) == pytest.approx(8.7515, abs=5e-5)


def test_along_the_rail() -> None:
    """G5: 2,600 lb on the top bolt of one post; five posts take a fifth each."""
    one = bolt_force_along_rail(200.0, 1.0, 36.0, 1.0, 7.25, 2.0)
    assert one == pytest.approx(2600.0)
    assert bolt_force_along_rail(200.0, 5.0, 36.0, 1.0, 7.25, 2.0) == pytest.approx(one / 5)


def test_rails_and_balusters() -> None:
    """G6: 3,600 and 2,700 lb·in at 72 in.; 50 plf governs above 96 in. only. G7: 412.5 lb·in on one baluster."""
    assert rail_moment(200.0, 0.0, 72.0, 0.0) == 3600
    assert rail_moment(0.0, 50.0, 72.0, 0.0) == 2700
    assert rail_moment(200.0, 50.0, 96.0, 0.0) == pytest.approx(4800)
    assert rail_moment(200.0, 50.0, 97.0, 0.0) > 200 * 97 / 4
    assert bending_stress(3600.0, section_modulus(1.5, 5.5)) == pytest.approx(476.03, abs=5e-3)
    assert bending_stress(3600.0, section_modulus(3.5, 1.5)) == pytest.approx(2742.9, abs=0.05)
    assert baluster_moment(50.0, 33.0) == 412.5
    assert bending_stress(412.5, section_modulus(1.5, 1.5)) == pytest.approx(733.33, abs=5e-3)


@given(st.floats(30, 48), st.floats(0.5, 2), st.floats(7.0, 14.0), st.floats(1.5, 2.5))
def test_bound_below_model_below_bolts(H: float, t: float, d: float, e: float) -> None:
    """The lower edge is the longest lever, the bolts alone the shortest; harder wood comes nearer the longest."""
    own = {"P": 200.0, "H": H, "t": t, "d": d, "e": e}
    b = 3.5
    if (d - e) ** 2 <= 2 * 200 * (H + t + e) / (b * 400) or d - e - 0.5 * 4000 / (b * 400) < d - 2 * e:
        return  # pressed wood would reach past the lower bolt
    soft, hard = (float(tie_with_bearing(outward(**own, b=b, F_c_perp_p=F), 200.0)) for F in (400.0, 4e5))
    low = float(tie_by_edge_lever(**own))
    assert low < hard < soft
    assert hard == pytest.approx(low, rel=0.01)
    assert low < tie_by_bolts(**own)


@given(st.floats(1e-3, 0.1))
def test_the_couple_grows_without_bound(gap: float) -> None:
    """As the depth comes down to twice the bolts' distance from the edges, there is no lever left."""
    near, nearer = (tie_by_bolts(200.0, 36.0, 1.0, 4.0 + g, 2.0) for g in (gap, gap / 2))
    assert nearer > 1.9 * near


def test_line_load_where_the_ibc_governs() -> None:
    assert guard_load_at_post(200.0, 50.0, 40.0) == 200
    assert guard_load_at_post(200.0, 50.0, 72.0) == pytest.approx(300)


# ---------------------------------------------------------------------------------------------------------
# On the framing


def test_r2_moment_into_an_overhang() -> None:
    """R2 by statics, at the rail's last post: P_e (H + t + d/2) in the whole overhang; the far end lifts by M/L."""
    path = find_load_path(find_layout(parse_project(SQUARE + guard())))
    pushes = [a for a in path.layout.actions if a.kind is ActionKind.PUSH]
    one = next(i for i, a in enumerate(pushes) if a.member == "J10" and "outward" in a.what)
    column = path.first_push + one
    own = path.effects["J10"]
    M = AT_END * (36 + 1.5 + 7.25 / 2)
    at = [s.at for s in own.member.seats]
    x = own.stations
    over = np.flatnonzero((x > 0.5) & (x < at[0] - 0.5))
    moments = np.array([own.moment[int(i)][column] for i in over])
    assert over.size > 2
    assert np.abs(moments + M).max() < 1e-6
    near, far = (float(own.reactions[i][column]) for i in (0, 1))
    assert far == pytest.approx(-M / (at[1] - at[0]))
    assert near == pytest.approx(M / (at[1] - at[0]))


def test_the_post_before_the_last_is_pulled_back_by_the_same_push() -> None:
    """By moments about the last post: 200 x 15.25 / 35.25 lb on the next one, backwards, in the same load; down too."""
    path = find_load_path(find_layout(parse_project(SQUARE + guard())))
    pushes = [a for a in path.layout.actions if a.kind is ActionKind.PUSH]
    back = 200 * 15.25 / 35.25
    for what, M, down in (("outward", back * (36 + 1.5 + 7.25 / 2), 0.0), ("down", 0.0, -back)):
        one = next(i for i, a in enumerate(pushes) if a.part == "G1" and what in a.what)
        column = path.first_push + one
        own = path.effects["M1"]
        at = [s.at for s in own.member.seats]
        over = np.flatnonzero((own.stations > 0.5) & (own.stations < at[0] - 0.5))
        if M:
            found = np.array([own.moment[int(i)][column] for i in over])
            assert found.size > 2
            assert np.abs(found - M).max() < 1e-6
        else:
            total = sum(float(row[column]) for row in path.reactions.values())
            assert total == pytest.approx(200.0)
            held = [float(own.reactions[i][column]) for i in range(len(at))]
            assert sum(held) == pytest.approx(down, abs=1e-6)


def test_r1_blocks_turn_it_into_a_couple() -> None:
    """R1: at an edge joist the block turns the moment into M/s down on the edge joist and up on the next."""
    text = SQUARE + block("60 in") + guard(edges=[2])
    path = find_load_path(find_layout(parse_project(text)))
    column = next(
        path.first_push + i
        for i, a in enumerate(a for a in path.layout.actions if a.kind is ActionKind.PUSH)
        if a.member == "BA1" and "outward" in a.what
    )
    own = path.effects["BA1"]
    M = 200 * (36 + 1.5 + 7.25 / 2)
    on = {s.below: float(own.reactions[i][column]) for i, s in enumerate(own.member.seats)}
    assert on["J1"] == pytest.approx(M / 16)
    assert on["J2"] == pytest.approx(-M / 16)


def test_the_reference_couple() -> None:
    """R1's own numbers: 42 in., 1 in. of decking, 2x10 at 16 in.: 9,525 lb·in, 595.31 lb."""
    assert guard_moment(200.0, 42.0, 1.0 + 9.25 / 2) == 9525
    assert pytest.approx(595.31, abs=5e-3) == 9525 / 16


def test_a_joist_off_the_square_is_bent_and_so_is_the_beam_along_the_edge() -> None:
    """Moments as vectors by hand: joist along x, edge 22.7 degrees off y; M / cos bends it, M tan the beam S2.

    At GB2 of the lookout, M = 200 x (36 + 1.5 + 9.25 / 2) about the edge; none of it twists the joist or the beam.
    """
    layout = find_layout(parse_project(LOOKOUT))
    theta = math.atan2(74 - 26.5, 132.75 - 19.25)
    M = 200 * (36 + 1.5 + 9.25 / 2)
    one = next(a for a in layout.actions if a.part == "GB2" and a.what == "push outward on the guard")
    (on_beam,) = one.also
    assert (one.member[0], on_beam.member) == ("J", "S2")
    assert math.hypot(*one.moment) == pytest.approx(
        M / math.cos(theta), rel=2e-3
    )  # S2 lies 0.1 degrees off the edge
    assert one.moment[0] == pytest.approx(0.0, abs=1e-6)  # along x it would twist the joist
    s_2 = layout.member("S2").line.u
    assert on_beam.moment[0] * s_2[0] + on_beam.moment[1] * s_2[1] == pytest.approx(0.0, abs=1e-6)
    assert math.hypot(*on_beam.moment) == pytest.approx(
        M * math.tan(theta), rel=2e-3
    )  # S2 lies 0.1 degrees off the edge
    # a push square to the edge, its moment along the edge: outward is the clockwise side of the edge's direction
    total = [a + b for a, b in zip(one.moment, on_beam.moment, strict=True)]
    assert total == pytest.approx([M * math.sin(theta), M * math.cos(theta)], abs=1e-6)


def test_either_of_two_pieces_of_a_rim_takes_what_would_twist_the_joist() -> None:
    """Where pieces of a rim meet behind a post, rounding must not say which of them its moment bends.

    At J4 and J8 of two_trees the skew rim is 3.053 degrees (atan 0.0534) off square to the joists. By statics a couple
    at the end of a piece on two seats is its greatest moment: 200 x (36 + 1.5 + 9.25 / 2) x tan = 450 lb in.
    """
    path = find_load_path(
        find_layout(parse_project((shipped("calcsheets") / "two_trees.toml").read_text(encoding="utf-8")))
    )
    couple = 200 * (36 + 1.5 + 9.25 / 2) * 0.05332957 / 0.99857697
    for mark in ("R3", "R4", "R7", "R8"):
        least = envelope(path, path.effects[mark].moment).least(strength_cases()).min()
        assert least == pytest.approx(-couple, rel=0.02), mark


def test_ties_at_a_joist_off_the_square() -> None:
    """The bolts pull square to the edge: T / cos in the joist's tie, T tan along the edge, T as on a square joist."""
    found = checks_of(LOOKOUT)
    theta = math.atan2(74 - 26.5, 132.75 - 19.25)
    C = outward(200.0, 36.0, 1.5, 9.25, 2.0, 3.5, WET)
    T = float(tie_with_bearing(C, 200.0))
    assert found["GB2", "guard.hold_down"].demand == pytest.approx(T / math.cos(theta))
    assert found["GB2", "guard.twist"].demand == pytest.approx(T * math.tan(theta))
    assert found["GB2", "guard.bolt"].demand == pytest.approx(T)


def test_a_skew_joint_is_open_until_it_is_rated_and_without_a_member_along_the_edge() -> None:
    """What passes the force along the edge is typed; where nothing lies along the edge the joist would be twisted."""
    unrated = "\n".join(line for line in LOOKOUT.splitlines() if not line.startswith("skew_tie"))
    check = checks_of(unrated)["GB2", "guard.twist"]
    assert check.status is Status.NOT_CHECKED
    assert "skew_tie" in check.sentence
    deck = (file_of("over_three_posts").parents[1] / "cases" / "b02_guard16.toml").read_text(encoding="utf-8")
    cut = deck.replace(
        '["120 in", "132 in"]', '["114 in", "132 in"]'
    )  # edge 2, 2.6 degrees off; the file has no rim
    alone = checks_of(cut + guard(edges=[2], skew_tie="500 lb", lever="bolts only"))
    twisted = [c for (_, key), c in alone.items() if key == "guard.twist"]
    assert twisted
    assert all(
        c.status is Status.NOT_CHECKED and "nothing lies along the edge" in c.sentence for c in twisted
    )


def test_a_beam_under_the_joists_is_not_behind_a_post() -> None:
    """Between two oaks a post stands at a joist's end over C1, whose top is the joists' underside: no bolt is in C1."""
    layout = find_layout(
        parse_project((shipped("calcsheets") / "two_trees.toml").read_text(encoding="utf-8"))
    )
    post = next(p for run in layout.guards for p in run.posts if p.mark == "GA2")
    assert post.receiver is not None
    assert layout.member("C1").top == pytest.approx(post.receiver.bottom)
    assert layout.member("C1").line.distance(post.at) < 3
    assert "C1" not in [piece.mark for piece in pieces_behind(layout, post)]
    assert (
        behind_post(layout, next(p for run in layout.guards for p in run.posts if p.mark == "GF1"))
        is not None
    )


def test_framing_is_run_with_the_push() -> None:
    """Hogging of a joist under a post is judged with it, in a case of its own."""
    found = checks_of(SQUARE + guard())
    check = found["J10", "joist.negative_bending"]
    assert check.combination == "D + L + guard"
    plain = checks_of(SQUARE)["J10", "joist.negative_bending"]
    assert check.ratio > plain.ratio + 0.1


def test_lateral_force_in_the_lateral_cases_once() -> None:
    """The greatest lateral force rises by 200 lb, not by 200 lb for each post."""
    from bolewright.platform.analysis.lateral import find_lateral

    plain = find_lateral(find_load_path(find_layout(parse_project(SQUARE)))).cases
    pushed = find_lateral(find_load_path(find_layout(parse_project(SQUARE + guard())))).cases
    own = pushed.G > 0
    assert np.array_equal(pushed.load[:, ~own], plain.load)
    most = np.hypot(*plain.load[:2, np.array(plain.names) == "D + L"]).max()
    assert np.hypot(*pushed.load[:2, own]).max() == pytest.approx(most + 200, abs=1.0)


def test_a_push_at_a_rails_end_turns_the_platform_with_its_lever() -> None:
    """200 lb at the rail's end, 15 1/4 in. past G1: 286.5 lb at G1 less 86.5 at G2 is 200 at the end itself."""
    layout = find_layout(parse_project(SQUARE + guard()))
    push = next(a for a in layout.actions if a.part == "G1" and "outward" in a.what)
    run = layout.guards[0]
    tip, out = run.line.start, run.posts[0].out
    F_x, F_y, M, over_x, over_y = push.lateral
    assert (F_x, F_y) == pytest.approx((200 * out[0], 200 * out[1]))
    assert pytest.approx(200 * (tip[0] * out[1] - tip[1] * out[0])) == M
    assert (over_x, over_y) == pytest.approx((F_x * push.height, F_y * push.height))


def test_a_rail_on_one_post_alone() -> None:
    """Pushed at either end, 72 in. from the post: 200 lb there turn the platform; that it twists the post is open."""
    text = SQUARE + block("72 in") + guard(edges=[2], places=["72 in"])
    layout = find_layout(parse_project(text))
    (run,) = layout.guards
    out = run.posts[0].out
    moments = sorted(a.lateral[2] for a in layout.actions if "outward" in a.what and a.part == "G1")
    middle = 200 * (run.posts[0].at[0] * out[1] - run.posts[0].at[1] * out[0])
    assert moments == pytest.approx([middle - 200 * 72, middle, middle + 200 * 72])
    assert checks_of(text)["G on edge 2", "guard.spacing"].status is Status.NOT_CHECKED


# ---------------------------------------------------------------------------------------------------------
# Rows


def test_rows_of_a_guard() -> None:
    """Every row of a post: H 36, decking 1 1/2 in., 2x8 joists: bending net at the bolt P_e (36 + 1.5 + 2) / 5.997."""
    found = checks_of(
        SQUARE + RIMS + guard(hold_down="2000 lb", lower_tie="1800 lb", hold_down_note="invented")
    )
    bent = found["G1", "guard.bending_at_bolts"]
    assert bent.demand == pytest.approx(AT_END * 39.5 / 5.9974, rel=1e-4)
    assert bent.capacity == pytest.approx(
        1100 * 1.6
    )  # No.2, 2 to 4 in. wide, 4B: wet C_M 1.0 up to 1,150 psi
    T = float(tie_with_bearing(outward(AT_END, 36.0, 1.5, 7.25, 2.0, 3.5, WET), AT_END))
    assert found["G1", "guard.hold_down"].demand == pytest.approx(T)
    assert found["G1", "guard.hold_down"].ratio == pytest.approx(T / 2000)
    # The lower plate lies within 3 in. of the post's end: without C_b (NDS 2018, 3.10.4), so it governs here.
    T_2 = float(lower_tie(pushed_in(AT_END, 36.0, 1.5, 7.25, 2.0, 3.5, WET), AT_END))
    plates = max(T / 8.7515 / (1.125 * WET), T_2 / 8.7515 / WET)
    assert found["G1", "guard.plate"].ratio == pytest.approx(plates, rel=1e-4)
    assert found["G1", "guard.along"].status is Status.PASSES  # IRC 2021: waived, said in its sentence
    assert "note d" in found["G1", "guard.along"].sentence


def test_open_until_it_is_given() -> None:
    """What is not given is open: hold-down, rail's fastening, infill; and the edges that no guard stands on."""
    found = checks_of(SQUARE + RIMS + guard())
    for part, key in (
        ("G1", "guard.hold_down"),
        ("G1", "guard.lower_tie"),
        ("G on edge 1", "guard.rail_fastening"),
        ("G on edge 1", "guard.infill"),
        ("G on edge 1", "guard.infill_fastening"),
        ("guard", "platform.guard"),
    ):
        assert found[part, key].status is Status.NOT_CHECKED, key
    T = float(tie_with_bearing(outward(AT_END, 36.0, 1.5, 7.25, 2.0, 3.5, WET), AT_END))
    assert f"{T:,.0f} lb" in found["G1", "guard.hold_down"].sentence
    assert "edge 2, 4" in found["guard", "platform.guard"].sentence


def test_a_line_load_on_a_rail_past_its_last_post() -> None:
    """Posts 72 in. apart, 30 in. past the last: by moments 50 plf x (102 / 12)² / (2 x 6) = 301 lb on that one."""
    text = (
        NO_CODE + block("30 in") + block("102 in", mark="BB") + guard(edges=[2], places=["30 in", "102 in"])
    )
    layout = find_layout(parse_project(text))
    (run,) = layout.guards
    assert push_on(layout, run.posts[0]) == pytest.approx(50 * (102 / 12) ** 2 / 12, rel=1e-6)


def test_where_no_code_is_named_the_stricter_counts() -> None:
    """42 in., a push along the rail, and 50 plf on the rail that a post holds: 50 x 144/12 on one post alone."""
    found = checks_of(NO_CODE + block("60 in") + guard(edges=[2]))
    assert found["G on edge 2", "guard.height"].status is Status.FAILS
    assert found["G1", "guard.along"].status is Status.NOT_CHECKED
    assert found["G1", "guard.bending"].demand == pytest.approx(600 * 36 / 7.1458, rel=1e-4)


def test_all_edges_close_the_row() -> None:
    text = SQUARE + block("20 in") + block("100 in", mark="BB") + block("20 in", '["J10", "J11"]', "BC")
    found = checks_of(text + block("100 in", '["J10", "J11"]', "BD") + guard(edges=[1, 2, 3, 4]))
    assert ("guard", "platform.guard") not in found


def test_a_post_on_the_rim_alone_is_open() -> None:
    found = checks_of(SQUARE + guard(edges=[1], places=["23 in", "60 in"]))
    row = found["G1", "guard.receiver"]
    assert row.status is Status.NOT_CHECKED
    assert "end grain" in row.sentence
    assert ("G1", "guard.hold_down") not in found


@pytest.mark.parametrize(
    ("gap", "passes"), [("3 3/4 in", True), ("3.999 in", True), ("4 in", False), ("5 in", False)]
)
def test_a_sphere_of_four_inches(gap: str, passes: bool) -> None:
    found = checks_of(SQUARE + guard(gap=gap))["G on edge 1", "guard.opening"]
    assert (found.status is Status.PASSES) == passes


def test_weight_and_height() -> None:
    """8 plf counted is less than this guard weighs: it fails until the file counts it; 36 in. holds by the IRC."""
    found = checks_of(SQUARE + guard())
    assert found["G on edge 1", "guard.weight"].status is Status.FAILS
    assert found["G on edge 1", "guard.height"].status is Status.PASSES
    low = SQUARE.replace('guard_height = "36 in"', 'guard_height = "34 in"')
    assert checks_of(low + guard())["G on edge 1", "guard.height"].status is Status.FAILS


def test_where_a_guard_is_needed() -> None:
    """An edge without one fails above 30 in.; the ground within 36 in. of the edge decides (R312.1.1)."""
    bare = SQUARE.replace("guard_edges = [1, 2, 3, 4]", "guard_edges = [1, 3]")
    high = checks_of(bare + guard())["edge 2", "guard.missing"]
    assert high.status is Status.FAILS
    assert high.demand == 72


def test_ground_beside_an_edge() -> None:
    from bolewright.platform.layout.guard_ways import ground_beside

    dip = '\n[[ground]]\nmark = "DIP"\nat = ["{}", "72 in"]\nlevel = "-10 in"\n'
    near, far = (parse_project(SQUARE + dip.format(x)) for x in ("175 in", "185 in"))
    assert ground_beside(near, 2) == (-10.0, "DIP")
    assert ground_beside(far, 2) == (0.0, "")


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ({"notched": True}, "notched"),
        ({"edges": [9]}, "none of the outline's edges"),
        ({"start": "5 in"}, "go with one"),
        ({"cap": "2xx"}, "2xx"),
    ],
)
def test_refused_in_words(keys: dict[str, object], says: str) -> None:
    with pytest.raises(ProjectError, match=says):
        parse_project(SQUARE + guard(**keys))


def test_an_edge_whose_weight_is_not_counted_is_refused() -> None:
    text = SQUARE.replace("guard_edges = [1, 2, 3, 4]", "guard_edges = [2]")
    with pytest.raises(ProjectError, match="guard_edges"):
        parse_project(text + guard())


def test_a_post_off_its_edge_is_refused() -> None:
    with pytest.raises(LayoutError, match="off its part"):
        find_load_path(find_layout(parse_project(SQUARE + guard(edges=[1], places=["150 in"]))))


def test_the_order_in_which_places_are_written_says_nothing() -> None:
    one, other = (
        checks_of(SQUARE + guard(edges=[1], places=places))
        for places in (["23 in", "60 in", "97 in"], ["97 in", "23 in", "60 in"])
    )
    assert {key: check.ratio for key, check in other.items()} == pytest.approx(
        {key: check.ratio for key, check in one.items()}, nan_ok=True
    )


def test_two_posts_in_one_place_are_refused() -> None:
    with pytest.raises(ProjectError, match="stand in one place"):
        parse_project(SQUARE + guard(edges=[1], places=["60 in", "23 in", "61 in"]))


def test_two_lines_are_enough() -> None:
    """A guard by its edges alone: 4x4 posts of the joists' timber, at joists, no further apart than 5 ft."""
    project = parse_project(SQUARE + "\n[[guard]]\nedges = [1]\n")
    run = find_layout(project).guards[0]
    assert len(run.posts) >= 3
    assert max(run.spans) <= 60.01
    assert all(post.receiver is not None for post in run.posts)
    assert project.guards[0].species == project.joists[0].species


def test_pushes_have_no_weight() -> None:
    plain, laid = (find_load_path(find_layout(parse_project(SQUARE + more))) for more in ("", guard()))
    for name, sums in plain.balance().items():
        assert laid.balance()[name] == pytest.approx(sums)
    row = next(iter(laid.reactions.values()))
    assert math.isfinite(float(envelope(laid, row[None, :]).guard_most[0]))


@pytest.mark.parametrize(("edge", "open_"), [("3 in", False), ("3.7 in", True)])
def test_bolts_that_pass_each_other_hold_no_couple(edge: str, open_: bool) -> None:
    """Two bolts in a 2x8, each 3.7 in. from its own edge: the upper one lies under the lower (7.25 - 7.4 < 0)."""
    text = SQUARE + "".join(
        block(f"{at} in", mark=f"B{m}") for at, m in ((20, "A"), (52, "B"), (92, "C"), (124, "D"))
    )
    places = [f"{at} in" for at in (20, 52, 92, 124)]
    found = checks_of(
        text + guard(edges=[2], places=places, section="6x6", bolt_edge=edge, hold_down="9000 lb")
    )
    assert (found["G2", "guard.hold_down"].status is Status.NOT_CHECKED) is open_


def test_a_post_presses_on_what_stands_behind_it() -> None:
    """On the end of a 2x10 alone 1 1/2 in. of a 4x4 are pressed, on a block beside it all 3 1/2 in.

    By halving: C (z - C / (2 x 1.5 F)) = P (H + t + e), z = 9.25 - 2, F = 565 x 0.67 (statics; NDS 2018, 3.10.2).
    """
    text = (shipped("calcsheets") / "two_trees.toml").read_text(encoding="utf-8")
    layout = find_layout(parse_project(text))
    posts = {p.mark: p for run in layout.guards for p in run.posts}
    assert contact_width(layout, posts["GC2"]) == pytest.approx(1.5)  # on J6
    assert contact_width(layout, posts["GC1"]) == pytest.approx(3.5)  # 1/4 in. on J8, the rest on a block
    low, high = 0.0, 1.5 * WET * 7.25
    for _ in range(60):
        C = (low + high) / 2
        low, high = (C, high) if C * (7.25 - C / (3.0 * WET)) < 200 * (36 + 1.5 + 2) else (low, C)
    found = {(c.part, c.key): c for c in find_results(parse_project(text)).checks}
    assert found["GC2", "guard.hold_down"].demand == pytest.approx(low + 200, rel=1e-3)
    C = float(outward(200.0, 36.0, 1.5, 9.25, 2.0, 3.5, WET))
    assert low > 1.05 * C
    # The worked post on a 2x8's end: 2,811 lb instead of 1,691 lb.
    assert float(outward(**G1, b=1.5, F_c_perp_p=WET)) == pytest.approx(2811, abs=1)


def test_the_softer_of_post_and_rim_is_pressed() -> None:
    """Posts of Southern pine (565 psi) on blocks and joists of hem-fir (405 psi, NDS Supplement 2018, Table 4A), both
    wet: by halving, C (z - C / (2 x 3.5 x 405 x 0.67)) = P (H + t + e) (statics; NDS 2018, 3.10.2)."""
    text = (shipped("calcsheets") / "two_trees.toml").read_text(encoding="utf-8")
    start = text.index("[[joists]]")
    end = text.index("\n\n", start)
    soft = text[:start] + text[start:end].replace("Southern Pine", "Hem-Fir") + text[end:]
    given_, before = (
        {(c.part, c.key): c for c in find_results(parse_project(one)).checks} for one in (soft, text)
    )
    found = given_["GC1", "guard.hold_down"]
    P = next(
        float(s.arguments["P"]) for s in found.steps if s.formula.name == "tie_with_bearing"
    )  # an end post
    low, high = 0.0, 3.5 * 405 * 0.67 * 7.25
    for _ in range(60):
        C = (low + high) / 2
        low, high = (C, high) if C * (7.25 - C / (7.0 * 405 * 0.67)) < P * (36 + 1.5 + 2) else (low, C)
    assert found.demand == pytest.approx(low + P, rel=1e-3)
    assert found.demand > 1.01 * before["GC1", "guard.hold_down"].demand


def test_a_post_off_all_framing_is_open() -> None:
    """The deck of one oak runs 2 in. out past its edge joist's face, x = 43 1/4 + 3/4: posts touch nothing there."""
    text = (shipped("calcsheets") / "one_oak.toml").read_text(encoding="utf-8")
    wide = text.replace('    ["44 in",', '    ["46 in",')
    assert wide.count('["46 in",') == 2
    found = {(c.part, c.key): c for c in find_results(parse_project(wide)).checks}
    layout = find_layout(parse_project(wide))
    off = {p.mark for run in layout.guards if run.edge == 2 for p in run.posts}
    assert len(off) == 4
    for run in layout.guards:
        for post in run.posts:
            row = found[post.mark, "guard.receiver"]
            if post.mark in off:
                assert gap_behind(layout, post) == pytest.approx(2.0)
                assert row.status is Status.NOT_CHECKED
                assert '2" off' in row.sentence
            else:
                assert row.status is Status.PASSES
