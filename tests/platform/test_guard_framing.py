"""What a guard's posts do to the rim or edge joist behind them: tables of the NDS and statics by hand."""

from __future__ import annotations

import numpy as np
import pytest
from test_guards import SQUARE, block, checks_of, guard

from bolewright.paths import shipped
from bolewright.platform.checks.guard_framing import guard_framing_checks
from bolewright.platform.file.reading import parse_project, read_project
from bolewright.platform.layout.guard_joints import places_in_framing
from bolewright.platform.layout.guards import find_guards
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.combine import envelope, strength_cases
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.results import find_results
from bolewright.status import Status

AT = (20.0, 60.0, 130.0)  # in along edge 2, which joist J1, 144 in. long, runs along
POSTS = SQUARE + "".join(
    block(f"{at:g} in", mark=mark) for at, mark in zip(AT, ("BA", "BB", "BC"), strict=True)
)
OLDER = POSTS.replace('edition = "2021"', 'edition = "2018"')
RIM = '\n[[blocking]]\nmark = "R"\nkind = "rim"\nend = "start"\nsection = "2x8"\nfasteners = 5\n'
F_v = 175 * 0.97  # psi, southern pine No.2, wet (NDS Supplement 2018, Table 4B)


def test_load_down_by_the_table() -> None:
    """NDS 2018, Table 12A (from memory): 1/2 in. bolt, 1 1/2 in. side across the grain, southern pine: 400 lb.

    Rounded to 10 lb; times C_D 1.6 and C_M 0.7. On both bolts, 3 1/4 in. apart: 200 lb and the weight of its rail.
    """
    check = checks_of(POSTS + guard(edges=[2]))["G2", "guard.load_down"]
    assert check.capacity == pytest.approx(400 * 1.6 * 0.7, abs=5 * 1.6 * 0.7)
    weight = parse_project(SQUARE).loads.guard * (130 - 20) / 2 / 12
    assert check.demand == pytest.approx((200 + weight) / 2)


def test_bolts_far_apart_do_not_share() -> None:
    """NDS 2018, 12.5.1.3: outer rows 5 in. apart at most; bolts 2 in. from the edges of a 2x10: 5 1/4."""
    deep = POSTS.replace('"2x8"', '"2x10"')
    assert "2x10" in deep
    one = checks_of(deep + guard(edges=[2]))["G2", "guard.load_down"]
    two = checks_of(POSTS + guard(edges=[2]))["G2", "guard.load_down"]
    assert one.demand == pytest.approx(2 * two.demand)


def test_a_joists_end_alone_holds_nothing_down() -> None:
    """Bolts in end grain that a hold-down pulls on have no value down here: open, until it is rated, then 200 lb."""
    found = checks_of(SQUARE + guard())["G2", "guard.load_down"]
    assert found.status is Status.NOT_CHECKED
    assert "down_tie" in found.sentence
    rated = checks_of(SQUARE + guard(down_tie="400 lb", hold_down_note="invented"))["G2", "guard.load_down"]
    weight = parse_project(SQUARE).loads.guard * 39.125 / 12
    assert rated.ratio == pytest.approx((200 + weight) / 400)


def test_net_section_of_the_edge_joist() -> None:
    """Two 9/16 in. holes 2 in. from the edges of a 2x8: I = 47.635 - 2 (0.022 + 2.228), S = 11.899 in.3."""
    path = find_load_path(find_layout(parse_project(POSTS + guard(edges=[2]))))
    own = path.effects["J1"]
    row = int(abs(own.stations - 60).argmin())
    M = envelope(path, own.moment[np.array([row])])
    cases = strength_cases()
    greatest = max(abs(M.most(cases)).max(), abs(M.least(cases)).max())
    check = checks_of(POSTS + guard(edges=[2]))["G2", "guard.framing_bending"]
    assert check.demand == pytest.approx(float(greatest) / 11.899, rel=2e-4)


@pytest.mark.parametrize(("mark", "near"), [("G1", True), ("G2", False), ("G3", True)])
def test_shear_at_the_bolts(mark: str, near: bool) -> None:
    """NDS 2018, 3.4.3.3: d_e = 7 1/4 - 2; 20 and 14 in. to the end are less than 5d, 60 in. is not."""
    check = checks_of(POSTS + guard(edges=[2]))[mark, "guard.framing_shear"]
    C_D = 1.6 if "guard" in check.combination else 1.0
    whole = 2 / 3 * F_v * C_D * 1.5 * 5.25
    assert check.capacity == pytest.approx(whole * (5.25 / 7.25) ** 2 if near else whole)
    assert check.clause == f"NDS 2018, 3.4.3.3({'a' if near else 'b'})"


def test_a_rim_gets_what_its_post_brings() -> None:
    """No boards on the rim: its shear is the post's 200 lb and the weight of its rail, and its own few."""
    light = SQUARE.replace('person = "300 lb"', 'person = "50 lb"', 1)
    found = checks_of(light + RIM + guard(edges=[1]))
    check = found["G2", "guard.framing_shear"]
    weight = parse_project(SQUARE).loads.guard * 39.125 / 12
    assert check.at.startswith("R")
    assert 0 <= check.demand - (200 + weight) < 10
    assert check.combination == "D + L + guard"


def test_a_rim_runs_on_over_its_joists() -> None:
    """A post in the middle of a rim 144 in. long is more than 5d from its end, whatever pieces it is counted in."""
    found = checks_of(SQUARE + RIM + guard(edges=[1]))
    assert found["G2", "guard.framing_shear"].clause.endswith("(b)")
    assert found["G1", "guard.framing_shear"].clause.endswith("(a)")


def test_tear_out_towards_the_end() -> None:
    """NDS 2018, E.3: n F_v' t s, 20 in. from the end; couple on two bolts, 200 (36 + 1.5 + 3.625)/3.25 + 100."""
    check = checks_of(OLDER + guard(edges=[2]))["G1", "guard.framing_tear_out"]
    assert check.capacity == pytest.approx(F_v * 1.6 * 1.5 * 20)
    assert check.demand == pytest.approx(200 * 41.125 / 3.25 + 100)
    waived = checks_of(POSTS + guard(edges=[2]))["G1", "guard.framing_tear_out"]
    assert waived.asks_nothing


def test_end_distance_in_the_framing() -> None:
    """NDS 2018, Table 12.5.1A, across the grain: C_Delta 1.0 from 4D (2 in.) on; 1 3/4 in. gives 1.75 / 2."""
    near = SQUARE + block("4 1/2 in", mark="BD") + block("60 in", mark="BA")
    found = checks_of(near + guard(edges=[2], places=["1.75 in", "60 in"]))
    full, less = (found[mark, "guard.load_down"].capacity for mark in ("G2", "G1"))
    assert less == pytest.approx(full * 1.75 / 2)


def test_shear_at_the_bolts_counts_the_joist_that_hangs_there() -> None:
    """A beam's shear steps by the reaction of the joist that the post stands at the end of: the greater side counts."""
    project = read_project(shipped("calcsheets") / "lookout.toml")
    path = find_load_path(find_layout(project))
    post = next(p for run in path.layout.guards for p in run.posts if p.mark == "GB3")
    (seat,) = (seat for seat in post.receiver.seats if seat.below == "S2")
    beam, cases = path.effects["S2"], strength_cases()
    row = np.array([int(abs(beam.stations - seat.below_at).argmin())])
    assert beam.stations[row[0]] == pytest.approx(seat.below_at)
    sides = [envelope(path, side[row]) for side in (beam.shear_left, beam.shear_right)]
    greatest = [max(abs(e.most(cases)).max(), abs(e.least(cases)).max()) for e in sides]
    assert max(greatest) > 1.2 * min(greatest)
    (check,) = (c for c in guard_framing_checks(path) if (c.part, c.key) == ("GB3", "guard.framing_shear"))
    by_case = np.max([np.maximum(e.most(cases), -e.least(cases)) for e in sides], axis=0).ravel()
    governs = [case.name for case in cases].index(check.combination)
    assert check.demand >= by_case[governs] * (1 - 1e-9)
    assert check.demand == pytest.approx(by_case[governs], rel=0.01)


def test_the_ply_that_a_joist_near_the_bolts_hangs_on_bends_more_than_its_share() -> None:
    """S1 of the lookout at GC3, 2-2x12 with three rows of nails at 6 in. that give: by hand.

    Slip modulus 180,000 D^1.5 of a 10d nail (NDS 2018, 11.3.6, wood to wood), 8,243 lb/in. Two plies slip against each
    other on k = 4 x 3 x 8,243 / 6 x sin2(45) = 8,243 psi; a ply of E' = 1.4 x 0.9 million psi (NDS Supplement 2018,
    Table 4B, No.2, wet) and I = 178 in.4 on that foundation has l = (4 E I / k)^(1/4) = 18.16 in. (Hetenyi). Half of a
    joist's load, c of it where it hangs (1 - c) l off, bends the ply by l / 3 over its share, the ply's own bound.
    """
    results = find_results(read_project(shipped("calcsheets") / "lookout.toml"))
    path = results.path
    check = next(c for c in results.checks if c.key == "guard.framing_bending" and c.part == "GC3")
    assert check.combination == "D + L"
    run = next(r for r in find_guards(path.layout) if any(p.mark == "GC3" for p in r.posts))
    post = next(p for p in run.posts if p.mark == "GC3")
    place = next(p for p in places_in_framing(path.layout, post) if p.member.mark == "S1")
    length = (4 * 1.26e6 * 178.0 / 8243) ** 0.25
    P = 0.0
    for member, seat in path.layout.seats_on("S1"):
        share = 1 - abs(member.seats[seat].below_at - place.at) / length
        if share > 0:
            row = path.effects[member.mark].reactions[np.array([seat])]
            loads = envelope(path, row)
            P += share * float(loads.D[0] + loads.L_most[0])
    moment = envelope(path, path.effects["S1"].moment)
    assert (
        post.receiver is not None
    )  # the joist that the post is tied to: its load may be on either side of the bolts
    there = [place.at, *(seat.below_at for seat in post.receiver.seats if seat.below == "S1")]
    M = max(np.interp(there, path.effects["S1"].stations, moment.D + moment.L_most))
    I_n = 1.5 * 11.25**3 / 12 - 2 * (1.5 * 0.5625**3 / 12 + 1.5 * 0.5625 * 3.625**2)
    S_n = I_n / 5.625
    assert check.demand == pytest.approx((M / 2 + P / 2 * length / 3) / S_n, rel=5e-3)
    assert check.demand > 1.04 * M / 2 / S_n  # what the even share alone would give
