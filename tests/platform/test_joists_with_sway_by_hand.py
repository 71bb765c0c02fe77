"""Joists under weight with wind and sway: three platforms of our own, the lookout and two_trees, by statics.

What the lateral forces leave to weight (their moment about the heights at which supports take them) lies on the deck as
a plane of pressure without a sum; joists, boards and patterns of live load and snow are done by `joists_by_statics`.
Lateral loads and the forces on the supports are as the program finds them (other tests hold those). NDS 2018, 3.3,
3.4.3.1(a), 3.10.2; ASCE 7-16, 2.4.1. The plane is an idealisation: force at the top of joists along them turns each on
its own seats, with the same reactions, and force across them goes into their ends. What joists that keep a beam upright
get at their ends from it is not in these rows.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
from boards_under_a_plane import Boards
from joists_by_statics import Deck, Seated, bending_value
from platforms_of_joists import TOP, beam, head, joists, post, tree

from bolewright.paths import shipped
from bolewright.platform.analysis.lateral import LateralAnalysis, range_in
from bolewright.platform.file.reading import parse_project, read_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import member_envelope
from bolewright.platform.results.results import Results, find_results

E_MIN = 510_000 * 0.9  # psi, Southern Pine No.2, wet (NDS 2018 Supplement, Table 4B)
F_V, F_C_PERP = 175 * 0.97, 565 * 0.67  # psi, the same
F_B = {7.25: 925.0, 9.25: 800.0}  # psi, the same, by depth; F_b C_F of 1150 or less: C_M 1.0
BOARD, BEAM_DEPTH = 1.5, 11.25  # in
ROWS = {
    "bending": "joist.bending_lateral",
    "shear": "joist.shear_lateral",
    "bearing": "joist.bearing_lateral",
    "under": "beam.bearing_under_lateral",
}


@dataclass(frozen=True)
class Platform:
    """A file and its deck, where its beams end (x), and the heights at which supports take a force."""

    text: str
    deck: Deck
    beams: tuple[float, float]
    hung: bool = False

    @property
    def levels(self) -> dict[str, float]:
        """A bolt under the beam; a post at the beam's top: it is bent there across it, and along it the beam tips."""
        top = TOP - BOARD - (0.0 if self.hung else self.deck.size[1])
        return {"P": top, "T": top - BEAM_DEPTH}


def _two_beams(x: tuple[float, float], ys: tuple[float, float]) -> str:
    return beam("C1", x, ys[0]) + beam("C2", x, ys[1])


def _four_trees() -> Platform:
    """Joists 2x8 on bolts in four trees, running out past both beams."""
    lines = (4.75, 19.25, 35.25, 51.25, 67.25, 83.25, 99.25, 115.25)
    text = head((4, 116), (-2, 124), guard=10) + joists("2x8", lines, 16, "resting")
    text += _two_beams((-2, 122), (22, 98))
    places = [(x, y, trunk) for y in (22, 98) for x, trunk in ((0, -17), (120, 137))]
    text += "".join(tree(n, (tx, y), (x, y), 0) for n, (x, y, tx) in enumerate(places, start=1))
    return Platform(
        text, Deck((4, 116), (-2, 124), lines, (-2, 124), (22, 98), (1.5, 7.25), 60, 25, 10), (-2, 122)
    )


def _hung() -> Platform:
    """Joists 2x10 hung between two beams on fixed posts, behind guards that catch all wind."""
    lines = (0.75, 17.25, 33.25, 49.25, 65.25, 81.25, 97.25, 113.25, 129.25)
    text = head((0, 130), (-2.25, 122.25), snow=20, solid=0.9)
    text += joists("2x10", lines, 16, "hung", 'hanger = "H"') + _two_beams((0, 130), (0, 120))
    text += "".join(
        post(n, (x, y)) for n, (x, y) in enumerate(((12, 0), (118, 0), (12, 120), (118, 120)), start=1)
    )
    deck = Deck((0, 130), (-2.25, 122.25), lines, (0, 120), (0, 120), (1.5, 9.25), 60, 20)
    return Platform(text, deck, (0, 130), hung=True)


def _mixed() -> Platform:
    """Joists 2x8 at 12 in. from two trees that sway to two posts, and 30 in. past these."""
    lines = (-5.25, 5.25, 17.25, 29.25, 41.25, 53.25, 65.25, 77.25, 89.25, 101.25, 113.25, 125.25)
    text = head((-6, 126), (20, 132), snow=40, live=40, guard=16, solid=0.5)
    text += joists("2x8", lines, 12, "resting") + _two_beams((-8, 128), (23, 102))
    text += "".join(tree(n, (x, 6), (x, 23), 0.5) for n, x in ((1, 0), (2, 120)))
    text += post(3, (4, 102)) + post(4, (116, 102))
    return Platform(
        text, Deck((-6, 126), (20, 132), lines, (20, 132), (23, 102), (1.5, 7.25), 40, 40, 16), (-8, 128)
    )


PLATFORMS = {"four trees": _four_trees(), "hung": _hung(), "mixed": _mixed()}


@cache
def results(name: str) -> Results:
    return find_results(parse_project(PLATFORMS[name].text))


def turns(platform: Platform, lateral: LateralAnalysis) -> Iterator[np.ndarray]:
    """Moments along x and y that the lateral forces leave to weight in every state (2, cases), about grade."""
    for state in lateral.states:
        left = lateral.cases.over.copy()
        for frame, spring, V in zip(lateral.frames, state.springs, state.force, strict=True):
            left -= platform.levels[frame.support.mark[0]] * (spring.axes.T @ V)
        yield left


@dataclass
class Worst:
    """The greatest ratio of a kind, with the combination and the joist that it is of."""

    ratio: float = 0.0
    combination: str = ""
    line: int = -1

    def see(self, ratios: np.ndarray, names: tuple[str, ...], line: int) -> None:
        case = int(np.argmax(ratios))
        if ratios[case] > self.ratio:
            self.ratio, self.combination, self.line = float(ratios[case]), names[case], line


@cache
def by_hand(name: str) -> dict[str, Worst]:
    """The worst joist of the platform in every kind of row."""
    platform, lateral = PLATFORMS[name], results(name).lateral
    deck, cases = platform.deck, lateral.cases
    (b, d), joist = deck.size, deck.joist
    S, F_b = b * d**2 / 6, F_B[d]
    l_u = max(joist.seats[0], joist.seats[1] - joist.seats[0], joist.length - joist.seats[1])
    sagging = bending_value(F_b, cases.C_D, 0, b, d, E_MIN) * S
    hogging = bending_value(F_b, cases.C_D, l_u, b, d, E_MIN) * S
    found = {row: Worst() for row in ROWS}
    for line in range(len(deck.lines)):
        effects = deck.effects(line)
        for turn in turns(platform, lateral):
            factors = cases.D, cases.L, cases.S, turn
            for moment in effects["moment"]:
                found["bending"].see(moment.most(*factors) / sagging, cases.names, line)
                found["bending"].see(-moment.least(*factors) / hogging, cases.names, line)
            for shear in effects["shear"]:
                V = np.maximum(shear.most(*factors), -shear.least(*factors))
                found["shear"].see(1.5 * V / (b * d) / (F_V * cases.C_D), cases.names, line)
            for reaction in effects["reaction"]:
                R = reaction.most(*factors)
                found["bearing"].see(R / bearing_capacity(platform), cases.names, line)
                found["under"].see(R / under_capacity(platform, line), cases.names, line)
    return found


def bearing_capacity(platform: Platform) -> float:
    """F_c,perp' times the area: 2 in. of a hanger at the joist's very end, or 4 1/2 in. of beam 3 in. from it or more.

    C_b (l_b + 3/8)/l_b by NDS 2018, 3.10.4.
    """
    b = platform.deck.size[0]
    return F_C_PERP * b * 2.0 if platform.hung else F_C_PERP * b * (4.5 + 0.375)


def under_capacity(platform: Platform, line: int) -> float:
    """That of the beam under a joist, over all its breadth; C_b where it is 3 in. or more from the beam's end."""
    b, at = platform.deck.size[0], platform.deck.lines[line]
    to_end = min(at - platform.beams[0], platform.beams[1] - at) - b / 2
    return F_C_PERP * 4.5 * (b + (0.375 if to_end >= 3 else 0.0))


def row(checks: tuple[Check, ...], kind: str) -> Check:
    """The worst of a kind of row."""
    rows = [c for c in checks if c.key == ROWS[kind]]
    assert rows, f"no row {ROWS[kind]}"
    return max(rows, key=lambda c: c.severity)


@pytest.mark.parametrize("name", PLATFORMS)
def test_the_moment_left_to_weight_is_that_of_forces_at_their_heights(name: str) -> None:
    platform, lateral = PLATFORMS[name], results(name).lateral
    for state, turn in zip(lateral.states, turns(platform, lateral), strict=True):
        np.testing.assert_allclose(state.turn, turn, atol=1e-3)


def test_sway_alone_by_numbers() -> None:
    """Four trees: 60 psf on 112 by 126 in. is 5880 lb, and 588 lb sway at the floor.

    From there down to the underside of the beams, on the bolts: 1.5 + 7.25 + 11.25 = 20 in.: 588 x 20 = 11760 lb.in.
    """
    cases, states = results("four trees").lateral.cases, results("four trees").lateral.states
    some = [
        i
        for i, (n, w) in enumerate(zip(cases.names, cases.words, strict=True))
        if n == "D + L" and "whole" in w
    ]
    for state in states:
        assert np.hypot(*state.turn[:, some]) == pytest.approx(588 * 20, rel=1e-6)


@pytest.mark.parametrize("kind", ROWS)
@pytest.mark.parametrize("name", PLATFORMS)
def test_rows_with_sway_are_those_of_statics(name: str, kind: str) -> None:
    if kind == "under" and PLATFORMS[name].hung:
        assert not [c for c in results(name).checks if c.key == ROWS[kind]]
        return
    worst, check = by_hand(name)[kind], row(results(name).checks, kind)
    assert check.ratio == pytest.approx(worst.ratio, rel=0.01)
    assert check.combination == worst.combination


# Laws ------------------------------------------------------------------------------------------------------


def quiet(text: str) -> str:
    """The same platform with people who stand still, and the least wind that a file may have."""
    return text.replace('sway_share = "10 %"', 'sway_share = "0 %"').replace('"107 mph"', '"60 mph"')


@pytest.mark.parametrize("kind", ["bending", "shear"])
@pytest.mark.parametrize("name", ["four trees", "hung"])
def test_with_people_who_stand_still_it_is_weight(name: str, kind: str) -> None:
    """Wind, with C_D 1.6, does not govern there: what is left is weight in the row's own combination, by statics."""
    platform = PLATFORMS[name]
    found = find_results(parse_project(quiet(platform.text)))
    check, cases, deck = row(found.checks, kind), found.lateral.cases, platform.deck
    assert "W" not in check.combination
    case = cases.names.index(check.combination)
    factors = *(v[case : case + 1] for v in (cases.D, cases.L, cases.S)), np.zeros((2, 1))
    C_D, (b, d) = float(cases.C_D[case]), deck.size
    most = 0.0
    for line in range(len(deck.lines)):
        effects = deck.effects(line)
        if kind == "bending":
            M = max(float(e.most(*factors)[0]) for e in effects["moment"])
            most = max(most, M / (b * d**2 / 6) / (F_B[d] * 1.15 * C_D))
        else:
            V = max(float(max(e.most(*factors)[0], -e.least(*factors)[0])) for e in effects["shear"])
            most = max(most, 1.5 * V / (b * d) / (F_V * C_D))
    assert check.ratio == pytest.approx(most, rel=0.01)
    if name == "four trees":  # joists on beams on bolts: 20 in. of arm; hung ones have 1 1/2
        assert row(results(name).checks, kind).ratio > 1.02 * most


# Shipped platforms: what the plane of pressure adds, by statics; what weight brings, as other tests hold it --------

SHIPPED = {"lookout": (0, ("S1", "S2")), "two_trees": (1, ())}


@pytest.fixture(scope="module", params=list(SHIPPED))
def whole(request) -> tuple[str, Results]:
    return request.param, find_results(read_project(shipped("calcsheets") / f"{request.param}.toml"))


def free_edge(results_: Results, mark: str) -> float:
    """Length of a joist's lower edge free to move, as its row by weight prints it; 0 where it has none."""
    for check in results_.checks:
        if (check.part, check.key) == (mark, "joist.negative_bending"):
            return float(
                next(s.arguments["l_u"] for s in check.steps if s.formula.name == "effective_length")
            )
    return 0.0


def test_rows_of_shipped_platforms(whole: tuple[str, Results]) -> None:
    name, found = whole
    lateral, layout, cases = found.lateral, found.lateral.path.layout, found.lateral.cases
    axis, beams = SHIPPED[name]
    lines = {m.mark: (m.line.start, m.line.end) for m in (*layout.joists, *map(layout.member, beams))}
    boards = Boards(layout.project.platform.outline, lines, axis)
    b, d = 1.5, 9.25
    S = b * d**2 / 6
    worst = {kind: Worst() for kind in ROWS}
    for line, member in enumerate(layout.joists):
        at, load = boards.along(member.mark)
        joist = Seated(member.line.length, (member.seats[0].at, member.seats[1].at))
        stations = lateral.path.effects[member.mark].stations
        by_turn = np.stack([load @ joist.moment(s, at) for s in stations])
        most, least = range_in(member_envelope(lateral.path, member.mark, "moment"), cases)
        hung_on = any(seat.below == member.mark for m in layout.members for seat in m.seats)
        from_seat = 0.0 if hung_on else d  # blocks that hang on its side: no shear at the depth (3.4.3.1(a))
        sheared = [
            i
            for i, s in enumerate(stations)
            if min(abs(s - seat) for seat in joist.seats) >= from_seat - 1e-6
        ]
        hogging = bending_value(F_B[d], cases.C_D, free_edge(found, member.mark), b, d, E_MIN) * S
        sagging = bending_value(F_B[d], cases.C_D, 0, b, d, E_MIN) * S
        for state in lateral.states:
            added = by_turn @ state.turn
            worst["bending"].see(((most + added) / sagging).max(axis=0), cases.names, line)
            worst["bending"].see((-(least + added) / hogging).max(axis=0), cases.names, line)
            for side, past in (("shear_left", False), ("shear_right", True)):
                shears = np.stack([load @ joist.shear(stations[i], at, past=past) for i in sheared])
                up, down = range_in(
                    member_envelope(lateral.path, member.mark, side).at(np.array(sheared)), cases
                )
                V = np.maximum(up + shears @ state.turn, -(down + shears @ state.turn)).max(axis=0)
                worst["shear"].see(1.5 * V / (b * d) / (F_V * cases.C_D), cases.names, line)
    for kind in ("bending", "shear"):
        check = row(found.checks, kind)
        assert check.ratio == pytest.approx(worst[kind].ratio, rel=0.01), kind
        assert check.combination == worst[kind].combination
