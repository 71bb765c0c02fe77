"""Two knees of one post under unlike beam share its lateral force by stiffness: a plane frame of our own beside it.

Over one knee of an end post the beam runs on to the next support, over the other to its free end: the end gives way,
and the knee under it takes less than half. Their vertical parts cancel no more at the post: what is left goes through
beam and knee into its axial force, and through the beam onto caps far and near. Like beam on both sides: half each.

Platforms of two like beams side by side, mirrored about y = 65 in., so that a lateral force along them at the deck's
centre goes to each by half. The deck moves both alike and all posts of a beam by as much; a beam does not stretch.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from plane_frame import Bar, PlaneFrame

from bolewright.platform.analysis.knee_weight import Way
from bolewright.platform.analysis.lateral import LateralAnalysis, State, answer, find_lateral
from bolewright.platform.checks.beam_added import added_effect
from bolewright.platform.checks.brace_ends import run_brace_forces
from bolewright.platform.checks.lateral import run_lateral_force, unprinted
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.results import Results, find_results
from bolewright.platform.verification.comparison import judged_by_worse
from bolewright.platform.verification.independent_knees import BRACE, IN_BEAM, IN_POST
from bolewright.platform.verification.independent_lateral import (
    CAP,
    CAP_LIFT,
    _both,
    _corners,
    compare_lateral,
)
from bolewright.rendering.blocks import Table
from bolewright.sheets import open_sheet

HEAD = """
format = 2
[title]
project = "Two knees of a post"
date = 2026-12-01
note = "Invented for a test"
[site]
frost_depth = "36 in"
soil = "class 4"
ground_snow = "0 psf"
wind_speed = "107 mph"
exposure = "B"
[loads]
live = "60 psf"
guard_solidity = 0.5
guard = "8 plf"
guard_edges = [1, 2, 3, 4]
sway_share = "10 %"
[platform]
outline = [["{x0} in", "11 in"], ["{x1} in", "11 in"], ["{x1} in", "119 in"], ["{x0} in", "119 in"]]
floor_height = "80 in"
[decking]
section = "2x6"
species = "Southern Pine"
grade = "No.2"
wet = true
[post.fixed]
section = "6x6"
species = "Southern Pine"
grade = "No.2"
incised = false
base = "fixed"
cap_lateral = "3000 lb"
[post.pinned]
section = "6x6"
species = "Southern Pine"
grade = "No.2"
incised = false
base = "pinned"
cap_lateral = "3000 lb"
[footing.F]
shape = "round"
width = "24 in"
depth = "60 in"
pad = "10 in"
fill = "concrete"
f_c = "2500 psi"
[[joists]]
mark = "J"
section = "2x8"
species = "Southern Pine"
grade = "No.2"
direction = "90 deg"
first = "{first} in"
last = "{last} in"
spacing = "6 in"
bearing = "resting"
"""
SUPPORT = """[[support]]
mark = "{mark}"
kind = "post"
post = "{kind}"
footing = "F"
at = ["{x} in", "{y} in"]
"""
BEAM = """[[beam]]
mark = "{mark}"
plies = 3
section = "2x12"
species = "Southern Pine"
grade = "No.2"
from = ["{x0} in", "{y} in"]
to = ["{x1} in", "{y} in"]
"""
KNEE = """[[brace]]
mark = "{mark}"
support = "{post}"
beam = "{beam}"
towards = "{towards}"
rise = "{rise} in"
run = "{run} in"
plies = {plies}
section = "2x6"
species = "Southern Pine"
grade = "No.2"
bolts = {bolts}
bolt_diameter = "5/8 in"
"""
LINES = {"A": 17, "B": 113}
HIGH, DEPTH, BELOW = 80 - 1.5 - 7.25 - 11.25, 11.25, 12.0
WET = 1.4e6 * 0.9  # Southern Pine No.2, wet (NDS 2018 Supplement, Table 4B)
BEAM_EI = WET * 4.5 * DEPTH**3 / 12
POST_EI = 1.2e6 * 5.5**4 / 12  # 6x6 No.2 (Table 4D, C_M 1.0)
HEAVY = 62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28 / 1728  # lb/in3 at 28 % (NDS 2018 Supplement, 3.1.3)
STIFF = 1e12  # lb: posts and beams do not stretch


@dataclass(frozen=True)
class Knee:
    """A knee of a post: 1 towards the beam's end, -1 towards its start; 2x6 plies and 5/8 in. bolts at each end."""

    post: str
    side: int
    plies: int = 2
    bolts: int = 2

    @property
    def mark(self) -> str:
        return f"{self.post}{'e' if self.side > 0 else 's'}"


@dataclass(frozen=True)
class Shape:
    """Posts along a beam, its ends, its knees and the posts whose base is pinned at grade; the others are fixed.

    A file may give the knees of one post other plies and bolts, but one rise and run (in).
    """

    posts: tuple[float, ...]
    ends: tuple[float, float]
    knees: tuple[Knee, ...]
    pinned: tuple[str, ...] = ()
    rise: float = 24.0
    run: float = 24.0

    @property
    def at(self) -> dict[str, float]:
        return {str(n + 1): x for n, x in enumerate(self.posts)}

    @property
    def slope(self) -> float:
        return math.hypot(self.rise, self.run)

    def top(self, knee: Knee) -> float:
        return self.at[knee.post] + knee.side * self.run

    @property
    def joists(self) -> list[float]:
        """Every 6 in. from 2 in. within the beam's ends."""
        return [float(x) for x in np.arange(self.ends[0] + 2, self.ends[1] - 1, 6.0)]

    def of(self, post: str) -> list[Knee]:
        return [knee for knee in self.knees if knee.post == post]

    @property
    def mirrored(self) -> Shape:
        """The same seen from the other side: the posts count from the other end."""
        last = len(self.posts) + 1
        return replace(
            self,
            posts=tuple(-x for x in reversed(self.posts)),
            ends=(-self.ends[1], -self.ends[0]),
            knees=tuple(replace(k, post=str(last - int(k.post)), side=-k.side) for k in self.knees),
        )

    @property
    def text(self) -> str:
        """The project file."""
        x0, x1 = self.ends[0] + 2, self.ends[1] - 2
        parts = [HEAD.format(x0=x0, x1=x1, first=-x1, last=-x0)]
        for line, y in LINES.items():
            parts += [
                SUPPORT.format(mark=line + p, kind="pinned" if p in self.pinned else "fixed", x=x, y=y)
                for p, x in self.at.items()
            ]
            parts.append(BEAM.format(mark=f"C{line}", x0=self.ends[0], x1=self.ends[1], y=y))
            parts += [
                KNEE.format(
                    mark=f"K{line}{knee.mark}",
                    post=line + knee.post,
                    beam=f"C{line}",
                    towards="end" if knee.side > 0 else "start",
                    rise=self.rise,
                    run=self.run,
                    plies=knee.plies,
                    bolts=knee.bolts,
                )
                for knee in self.knees
            ]
        return "".join(parts)


def stiffness(shape: Shape, knee: Knee) -> float:
    """Of a knee along itself (lb/in): its wood and at each end its bolts, 180,000 D^1.5 a plane (NDS 2018, 11.3.6)."""
    ends = knee.plies * knee.bolts * 180_000 * 0.625**1.5
    return 1 / (shape.slope / (WET * 8.25 * knee.plies) + 2 / ends)


@dataclass(frozen=True)
class Answer:
    """What a load does, of one beam line: lateral force on each post, compression in each knee, load at each post's
    foot and cap, moment in the beam at each knee (sagging above 0); and how far the deck moves (frame only).
    """

    post: dict[str, float]
    knee: dict[str, float]
    foot: dict[str, float]
    cap: dict[str, float]
    bent: dict[str, float]
    moved: float = np.nan


@cache
def model(shape: Shape, held: bool) -> tuple[list[float], PlaneFrame]:
    """Places along the beam, and the plane frame of one beam line.

    Bases fixed 12 in. below grade (``held``) or hinged at it. A post without knees is a cantilever, half as stiff in
    ground that gives (the program's judgement), none on a pinned base.
    """
    xs = sorted({*shape.ends, *shape.joists, *shape.posts, *(shape.top(knee) for knee in shape.knees)})
    nodes = {f"{x:g}": (x, HIGH) for x in xs}
    bars = {f"{a:g}": Bar(f"{a:g}", f"{b:g}", BEAM_EI, STIFF) for a, b in zip(xs, xs[1:], strict=False)}
    fixed: list[tuple[str, int]] = []
    springs: dict[tuple[str, int], float] = {}
    for post, x in shape.at.items():
        if not shape.of(post):
            fixed.append((f"{x:g}", 1))
            if post not in shape.pinned:
                springs[f"{x:g}", 0] = (1.0 if held else 0.5) * 3 * POST_EI / (HIGH + BELOW) ** 3
            continue
        foot, at_knee, firm = f"foot {post}", f"knee {post}", held and post not in shape.pinned
        nodes |= {foot: (x, -BELOW if firm else 0.0), at_knee: (x, HIGH - shape.rise)}
        bars[f"low {post}"] = Bar(foot, at_knee, POST_EI, STIFF)
        bars[f"high {post}"] = Bar(at_knee, f"{x:g}", POST_EI, STIFF, (f"{x:g}",))
        fixed += [(foot, d) for d in ((0, 1, 2) if firm else (0, 1))]
    for knee in shape.knees:
        EA = stiffness(shape, knee) * shape.slope
        bars[knee.mark] = Bar(f"knee {knee.post}", f"{shape.top(knee):g}", 0.0, EA)
    return xs, PlaneFrame(nodes, bars, fixed, springs)


@cache
def frame(shape: Shape, held: bool) -> tuple[Answer, Answer]:
    """By the plane frame: under a pound along the beam, and under a pound inch of overturning laid on the deck.

    That is a straight-line pressure without a sum; boards hand it to joists every 6 in.
    """
    xs, plane = model(shape, held)
    first, last = shape.joists[0], shape.joists[-1]
    fine = np.linspace(first, last, 20_001)
    off = fine - (first + last) / 2
    pressure = off / (off @ off)
    down = {
        (f"{x:g}", 1): -float(pressure @ np.interp(fine, shape.joists, np.eye(len(shape.joists))[n]))
        for n, x in enumerate(shape.joists)
    }
    solved = plane.solve([{(f"{xs[0]:g}", 0): 1.0}, down])
    found = []
    for n in (0, 1):
        by_push, foot_load, cap_load = {}, {}, {}
        for post, x in shape.at.items():
            if shape.of(post):
                by_push[post] = -float(solved.back[f"foot {post}", 0][n])
                foot_load[post] = float(solved.back[f"foot {post}", 1][n])
                cap_load[post] = float(solved.ends[f"high {post}"][0][n])
            else:
                by_push[post] = plane.springs.get((f"{x:g}", 0), 0.0) * float(solved.moved[f"{x:g}", 0][n])
                foot_load[post] = cap_load[post] = float(solved.back[f"{x:g}", 1][n])
        knees = {k.mark: -float(solved.tension(k.mark)[n]) for k in shape.knees}
        bent = {k.mark: float(solved.moment(f"{shape.top(k):g}")[n]) for k in shape.knees}
        moved = float(solved.moved[f"{xs[0]:g}", 0][n])
        found.append(Answer(by_push, knees, foot_load, cap_load, bent, moved))
    return found[0], found[1]


@cache
def lateral(shape: Shape) -> LateralAnalysis:
    return find_lateral(find_load_path(find_layout(parse_project(shape.text))))


@cache
def results(shape: Shape) -> Results:
    return find_results(parse_project(shape.text))


def sheets(shape: Shape) -> tuple[Check, ...]:
    return tuple(results(shape).checks)


def states(shape: Shape) -> Iterator[tuple[State, bool]]:
    """Every state of the program, and whether it has the bases fixed."""
    for state in lateral(shape).states:
        yield state, state.foot.value == "fixed base"


def program(shape: Shape, state: State) -> Answer:
    """By the program: a pound along each beam, so high that no overturning is left to weight.

    The couple of that height over the beam's underside, which the program gives to the seats of the bare beam, is left
    out here as in the frame. Knees by their lateral and vertical parts on the post.
    """
    whole = lateral(shape)
    found = answer(whole, state, np.array([[2.0], [0.0], [-130.0]]), np.array([[2 * (HIGH + DEPTH)], [0.0]]))
    assert np.abs(found.turn).max() < 1e-6
    row = {post: whole.row(f"A{post}") for post in shape.at}
    foot = {post: float(found.brace_reaction[i, 0]) for post, i in row.items()}
    cap = {post: float(found.cap[i, 0]) for post, i in row.items()}
    knees: dict[str, float] = {}
    for post in shape.at:
        across = float(found.Q[row[post], 0, 0]) * shape.slope / shape.run
        up = (foot[post] - cap[post]) * shape.slope / shape.rise
        own = shape.of(post)
        for knee in own:  # pushed towards the end: the knee on that side is pulled
            knees[knee.mark] = (up - knee.side * across) / 2
            assert len(own) == 2 or knees[knee.mark] == pytest.approx(up, abs=1e-6)
    beam = whole.path.layout.member("CA")
    stations = whole.path.effects["CA"].stations
    bent = {}
    for knee in shape.knees:
        rows = np.array([int(np.argmin(np.abs(stations - (shape.top(knee) - shape.ends[0]))))])
        moment = added_effect(whole, found, beam, "moment", rows).total[0, 0]
        if (tipped := whole.tipped.get("CA")) is not None:
            moment -= (tipped.moment[rows] @ tipped.couples(whole.frames, found.force))[0, 0]
        bent[knee.mark] = float(moment)
    return Answer({p: float(found.force[i, 0, 0]) for p, i in row.items()}, knees, foot, cap, bent)


def two(post: str) -> tuple[Knee, Knee]:
    return Knee(post, -1), Knee(post, 1)


# An end post whose beam runs 26 to 50 in. on past it; a knee meets that overhang 24 in. out, or as far as it goes.
END = Shape((12, 108), (4, 146), two("2"))
SHAPES = {
    "end post, overhang 26 in.": replace(END, ends=(4, 134)),
    "end post, overhang 38 in.": END,
    "end post, overhang 38 in., knees of 36 in.": replace(END, run=36),
    "end post, overhang 50 in., knees of 48 in.": replace(END, posts=(12, 132), ends=(4, 182), run=48),
    "end post on a pinned base": replace(END, pinned=("2",)),
    "steep knees": replace(END, rise=36),
    "knees of 72 in., the outer one turned against": replace(
        END, posts=(12, 204), ends=(4, 278), rise=44, run=72
    ),
    "stiffer knee inside": replace(END, knees=(Knee("2", -1), Knee("2", 1, plies=1, bolts=1))),
    "stiffer knee under the overhang": replace(END, knees=(Knee("2", -1, plies=1, bolts=1), Knee("2", 1))),
    "two end posts": replace(END, posts=(42, 108), knees=(*two("1"), *two("2"))),
    "knees that nearly meet": replace(END, posts=(42, 96), ends=(4, 134), knees=(*two("1"), *two("2"))),
    "a lone knee on the other post": replace(END, knees=(Knee("1", 1), *two("2"))),
    "unlike spans": Shape((12, 72, 168), (4, 176), two("2")),
    "unlike spans, pinned, a lone knee beside": Shape(
        (12, 72, 168), (4, 176), (Knee("1", 1), *two("2")), pinned=("1", "2")
    ),
    "two end posts on one side": Shape((12, 60, 108), (4, 146), (*two("2"), *two("3"))),
    "like spans": Shape((12, 108, 204), (4, 212), two("2")),
    "like spans, pinned": Shape((12, 108, 204), (4, 212), two("2"), pinned=("2",)),
    "like spans, knees on all posts": Shape(
        (12, 108, 204), (4, 212), (Knee("1", 1), *two("2"), Knee("3", -1))
    ),
}
LIKE = [name for name in SHAPES if name.startswith("like spans")]
# Both are elastic theory of the same lines; the frame's columns and beams stretch by nothing that shows.
EACH = 0.005


def near(ours: dict[str, float], wanted: dict[str, float], scale: float = 0.0) -> None:
    """Within 1/2 % of each, or of 1/2 % of the greatest of them, or of what they are the difference of."""
    slack = EACH * max(scale, *(abs(f) for f in wanted.values()))
    for name, f in wanted.items():
        assert ours[name] == pytest.approx(f, rel=EACH, abs=slack), name


@pytest.mark.parametrize("name", ["end post, overhang 38 in.", "steep knees", "stiffer knee inside"])
def test_the_frame_by_statics(name: str) -> None:
    """An end post hinged at grade: moments about its joint with the beam, about grade; what bears on cap and foot.

    Of the shares statics says nothing, but the inner knee takes more than half.
    """
    shape = SHAPES[name]
    found, _ = frame(shape, False)
    assert sum(found.post.values()) == pytest.approx(1.0)
    V, inside, outside = found.post["2"], found.knee["2s"], -found.knee["2e"]
    assert (inside + outside) * shape.run / shape.slope == pytest.approx(V * HIGH / shape.rise)
    assert found.foot["2"] == pytest.approx(V * HIGH / 96)
    assert found.foot["1"] == found.cap["1"] == pytest.approx(-found.foot["2"])
    up = (inside - outside) * shape.rise / shape.slope
    assert found.cap["2"] == pytest.approx(found.foot["2"] - up)
    assert found.bent["2s"] == pytest.approx(found.foot["1"] * (96 - shape.run))
    assert inside > 1.4 * (inside + outside) / 2


@pytest.mark.parametrize("name", SHAPES)
def test_both_knees_posts_and_beam_by_the_frame(name: str) -> None:
    shape = SHAPES[name]
    for state, held in states(shape):
        found, (wanted, _) = program(shape, state), frame(shape, held)
        lifts = max(abs(F) for F in wanted.knee.values()) * shape.rise / shape.slope
        near(found.post, wanted.post)
        near(found.knee, wanted.knee)
        near(found.foot, wanted.foot)
        near(found.cap, wanted.cap, lifts)
        near(found.bent, wanted.bent)


@pytest.mark.parametrize("name", LIKE)
def test_half_each_under_like_beam(name: str) -> None:
    for state, _ in states(SHAPES[name]):
        found = program(SHAPES[name], state)
        assert found.knee["2s"] == pytest.approx(-found.knee["2e"], rel=1e-6)
        assert found.cap["2"] == pytest.approx(0, abs=1e-6)


def share_outside(shape: Shape, state: State) -> float:
    """Of the lateral force of an end post's two knees, the part of the one under the overhang."""
    knee = program(shape, state).knee
    return knee["2e"] / (knee["2e"] - knee["2s"])


@pytest.mark.parametrize("grown", [{}, {"run": 36.0}])
def test_a_longer_overhang_bears_no_more(grown: dict[str, float]) -> None:
    """As it runs on past its knee nothing changes; with the knee farther out it gives way more."""
    short = replace(END, posts=(12, 132), ends=(4, 158))
    for (one, _), (other, _) in zip(
        states(short), states(replace(short, ends=(4, 170), **grown)), strict=True
    ):
        less, more = share_outside(replace(short, ends=(4, 170), **grown), other), share_outside(short, one)
        assert less < more - 0.02 if grown else less == pytest.approx(more, abs=1e-6)
        assert more < 0.45


@pytest.mark.parametrize("name", ["end post, overhang 38 in.", "stiffer knee inside", "unlike spans"])
def test_seen_from_the_other_side_the_shares_swap(name: str) -> None:
    """Pushed the same way, what was pressed is pulled; under unlike beam the shares are no halves."""
    shape = SHAPES[name]
    other = shape.mirrored
    ways = {state.words: state for state, _ in states(other)}
    back = {k.mark: m.mark for k, m in zip(shape.knees, other.knees, strict=True)}
    for state, _ in states(shape):
        one, two = program(shape, state), program(other, ways[state.words])
        for mark, mirrored in back.items():
            assert two.knee[mirrored] == pytest.approx(-one.knee[mark], rel=1e-6)
        assert abs(one.knee["2s"]) > 1.1 * abs(one.knee["2e"])


@cache
def along(shape: Shape) -> tuple[list[int], ...]:
    """Cases of lateral load along the beams: people on the whole deck, or wind off centre to either side as one."""
    cases = lateral(shape).cases
    alike: dict[tuple[str, str], list[int]] = {}
    for n, words in enumerate(cases.words):
        if words.split(",")[0].endswith((" +x", " -x")) and "half" not in words:
            alike.setdefault((cases.names[n], words), []).append(n)
    assert {words.split()[0] for _, words in alike} == {"people", "wind"}
    return tuple(alike.values())


def in_case(shape: Shape, these: list[int]) -> tuple[float, float, float, float]:
    """Of each beam: lateral force, its moment over the beam's top; and the factors of dead and live load."""
    cases = lateral(shape).cases
    H, turn, over = (
        float(np.mean(rows[these])) / 2 for rows in (cases.load[0], cases.load[2], cases.over[0])
    )
    assert np.abs(cases.load[1][these]).max() < 1e-6
    assert turn == pytest.approx(-65 * H, rel=1e-3)
    return H, over - H * (HIGH + DEPTH), float(cases.D[these[0]]), float(cases.L[these[0]])


@pytest.mark.parametrize(
    "name", ["end post, overhang 38 in.", "stiffer knee inside", "unlike spans, pinned, a lone knee beside"]
)
def test_feet_and_caps_in_wind_and_sway(name: str) -> None:
    """What lateral load along the beams adds to the load of every foot and cap, with its overturning.

    That leans on the knees too, in the frame as in the program. Forces and their heights as the program has them.
    """
    shape = SHAPES[name]
    whole = lateral(shape)
    for state, held in states(shape):
        by_push, by_tilt = frame(shape, held)
        couples = sum(t.supports @ t.couples(whole.frames, state.force) for t in whole.tipped.values())
        for these in along(shape):
            H, M, *_ = in_case(shape, these)
            lifts = abs(H) * max(abs(F) for F in by_push.knee.values()) * shape.rise / shape.slope
            for which, added in (("foot", state.brace_reaction), ("cap", state.cap)):
                found = (state.over + added - couples)[:, these].mean(axis=1)
                push, tilt = getattr(by_push, which), getattr(by_tilt, which)
                near(
                    {post: float(found[whole.row(f"A{post}")]) for post in shape.at},
                    {post: H * push[post] + M * tilt[post] for post in shape.at},
                    lifts,
                )


@pytest.mark.parametrize("name", ["end post, overhang 38 in.", "stiffer knee inside", "unlike spans"])
def test_every_knee_has_its_share_in_every_case(name: str) -> None:
    """The force that the sheets print of a knee, over the lateral force on its post: of wind, of sway, every way."""
    shape = SHAPES[name]
    whole = lateral(shape)
    for state, held in states(shape):
        wanted, _ = frame(shape, held)
        for knee in whole.knees:
            line, mark = knee.brace.mark[1], knee.brace.mark[2:]
            post = mark[:-1]
            V = np.abs(run_lateral_force(unprinted(), whole, state, whole.row(line + post), 0))[0]
            F_b = np.abs(run_brace_forces(unprinted(), whole, state, knee, Way.EITHER)[0])[0]
            own = V > 1.0
            assert {"people", "wind"} <= {whole.cases.words[n].split()[0] for n in np.flatnonzero(own)}
            share = abs(wanted.knee[mark] / wanted.post[post])
            np.testing.assert_allclose(F_b[own] / V[own], share, rtol=EACH)


@cache
def by_weight(shape: Shape, held: bool, mark: str, at_rest: bool) -> tuple[float, float, float]:
    """Compression in a knee, the deck at rest or free: of dead load, and the most and the least that people add (lb).

    Half of the joists' load and what is past the other beam, which lifts this one; boards between joists every 6 in.
    """
    xs, plane = model(shape, held)
    stays = [(f"{xs[0]:g}", 0)] if at_rest else []
    e = -replace(plane, held=[*plane.held, *stays]).solve([{(f"{x:g}", 1): -1.0} for x in xs]).tension(mark)
    joists = np.array(shape.joists)
    at = e[[xs.index(x) for x in shape.joists]]
    up, down = 102**2 / 2 / 96, 6**2 / 2 / 96
    wide = np.full(len(joists), 6.0)
    wide[[0, -1]] = 3.0
    dead = (wide * (1.5 * HEAVY + 1 / 144) + 1.5 * 7.25 * HEAVY) * (up - down) + wide * 8 / 12
    dead[[0, -1]] += 8 / 12 * (up - down)  # guards along the joists
    own = np.zeros(len(xs))
    own[:-1] += np.diff(xs) / 2
    own[1:] += np.diff(xs) / 2
    fine = np.arange(joists[0] + 0.05, joists[-1], 0.1)
    people = np.interp(fine, joists, at) * 0.1 * 60 / 144
    more, less = float(np.maximum(people, 0).sum()), float(np.minimum(people, 0).sum())
    D = float(at @ dead + e @ own * 4.5 * DEPTH * HEAVY)
    return D, more * up - less * down, less * up - more * down


@pytest.mark.parametrize("name", ["end post, overhang 38 in.", "stiffer knee inside", "unlike spans"])
@pytest.mark.parametrize(("key", "way"), [("brace.buckling", Way.PUSH), ("brace.tension", Way.PULL)])
def test_the_greatest_force_of_a_knee_with_weight(name: str, key: str, way: Way) -> None:
    """Weight, lateral load along the beams and its overturning at once, in one frame.

    Wind from both sides of the centre: halfway. Weight that relieves a knee counts for nothing. The program takes the
    deck at rest under weight, and puts on top what knees get more as they push it: without that both agree, and with it
    the knee has no less than in a frame whose deck is free. Nor has its sheet, for lateral load from every side.
    """
    shape, sign = SHAPES[name], way.value
    whole = lateral(shape)
    for knee in shape.knees:
        brace = next(k for k in whole.knees if k.brace.mark == f"KA{knee.mark}")
        i, greatest = whole.row(f"A{knee.post}"), 0.0
        for state, held in states(shape):
            by_push, by_tilt = (sign * found.knee[knee.mark] for found in frame(shape, held))
            weights = [by_weight(shape, held, knee.mark, at_rest) for at_rest in (True, False)]
            F_b, F_w = (rows[0] for rows in run_brace_forces(unprinted(), whole, state, brace, way))
            V = np.abs(run_lateral_force(unprinted(), whole, state, i, 0)[0])
            for these in along(shape):
                H, M, c_D, c_L = in_case(shape, these)
                if H * by_push < 0:  # the way that makes the other force
                    continue
                rest = [
                    M * by_tilt + c_D * sign * D + c_L * max(sign * F for F in people)
                    for D, *people in weights
                ]
                still, free = (H * by_push + max(part, 0.0) for part in rest)
                ours = np.abs(F_b[these])
                by_weight_too = np.maximum(sign * F_w[these], 0)
                alone = ours * np.abs(state.force[i, 0, these]) / V[these] + by_weight_too
                assert alone.mean() == pytest.approx(still, rel=0.03)
                assert (ours + by_weight_too).mean() > 0.99 * max(still, free)
                greatest = max(greatest, still, free)
        assert greatest > 200
        row = next(c for c in sheets(shape) if (c.part, c.key) == (f"KA{knee.mark}", key))
        printed = "brace_compression" if sign > 0 else "brace_tension"
        assert float(next(s.result for s in row.steps if s.formula.name == printed)) > 0.99 * greatest


@pytest.mark.parametrize("name", ["end post, overhang 38 in.", "stiffer knee inside", "unlike spans"])
def test_the_row_of_a_knee_prints_its_share(name: str) -> None:
    """The share of the frame with the row's bases, and F_b = q Q L / r with it."""
    shape = SHAPES[name]
    for knee in shape.knees:
        for row in sheets(shape):
            if row.part != f"KA{knee.mark}" or row.key not in ("brace.buckling", "brace.tension"):
                continue
            wanted, _ = frame(shape, "fixed base" in row.where)
            share = abs(wanted.knee[knee.mark]) / sum(abs(wanted.knee[k.mark]) for k in shape.of(knee.post))
            steps = {s.formula.name: s for s in row.steps}
            assert steps["share_of_a_knee"].result == pytest.approx(share, rel=EACH)
            force = steps["brace_axial_force"]
            assert force.arguments["q"] == steps["share_of_a_knee"].result
            by_hand = share * force.arguments["Q"] * shape.slope / shape.run
            assert force.result == pytest.approx(by_hand, rel=EACH)


def number(cell: object) -> float:
    return float(str(cell).replace(",", "").replace("\N{MINUS SIGN}", "-"))


def test_the_sheet_of_lateral_stability_prints_what_shares_come_from(tmp_path: Path) -> None:
    """As the deck moves an inch towards the beam's end one knee is pressed, the other pulled; q of the sum of both.

    The beam's give at a knee by the printed deflections (columns), each times the printed force there, over its own.
    """
    path = tmp_path / "pair.toml"
    path.write_text(END.text, encoding="utf-8")
    tables = [one for one in open_sheet(path, "stability").lateral_path().items if isinstance(one, Table)]
    at_knees = next(one for one in tables if one.caption.startswith("Deflection of CA at its knees"))
    deflection = np.array([[number(cell) for cell in row[-2:]] for row in at_knees.rows])
    moved = next(one for one in tables if one.caption.startswith("Knees of CA as the deck moves"))
    assert moved.columns[-3:] == ("F (lb/in)", "\u03b4", "q")
    for bases, held in (("fixed base", True), ("base on elastic soil", False)):
        rows = [row for row in moved.rows if row[2] == bases]
        assert [row[0] for row in rows] == ["KA2s", "KA2e"]
        F, delta, q = (np.array([number(row[-n]) for row in rows]) for n in (3, 2, 1))
        wanted, _ = frame(END, held)
        np.testing.assert_allclose(F, [wanted.knee[k] / wanted.moved for k in ("2s", "2e")], rtol=EACH)
        np.testing.assert_allclose(delta, deflection @ F / F, rtol=1e-3)
        np.testing.assert_allclose(q, np.abs(F) / np.abs(F).sum(), rtol=1e-3)


@cache
def tipping(shape: Shape, held: bool) -> dict[str, tuple[float, float]]:
    """Load on the caps of posts with knees as the lateral force of a pound comes in at the beam's top over each post.

    With knees that are tight, and by the bare beam.
    """
    xs, plane = model(shape, held)
    over = frame(shape, held)[0].post
    knees = {k.mark: replace(plane.bars[k.mark], EA=1e-3) for k in shape.knees}
    bare = replace(plane, bars={**plane.bars, **knees}, held=[*plane.held, (f"{xs[0]:g}", 0)])
    couples = {(f"{x:g}", 2): -DEPTH * over[post] for post, x in shape.at.items()}
    tight, slack = (one.solve([couples]) for one in (plane, bare))
    caps = [post for post in shape.at if shape.of(post)]
    return {p: (float(tight.ends[f"high {p}"][0][0]), float(slack.ends[f"high {p}"][0][0])) for p in caps}


@pytest.mark.parametrize(
    "name", ["end post, overhang 38 in.", "stiffer knee inside", "two end posts", "unlike spans"]
)
def test_a_cap_that_the_tipping_beam_lifts(name: str) -> None:
    """The beam's couple, of the lateral force at its top over its underside, turns an overhang away from its knee.

    The hand calculation leaves it to the seats of the bare beam, and so has up to half too little of what knees lift at
    the cap of an end post; the frame model has it, and the rows of the cap are judged by the worse.
    """
    shape = SHAPES[name]
    whole = lateral(shape)
    found = {(c.part, c.quantity): c for c in compare_lateral(whole)}
    line = [whole.row(f"A{post}") for post in shape.at]
    for post in shape.at:
        if not shape.of(post):
            continue
        i, lifts, presses = whole.row(f"A{post}"), [0.0], [0.0]
        for state, held in states(shape):
            tight, bare = tipping(shape, held)[post]
            added = state.over[i] + state.cap[i] + (tight - bare) * state.force[line, 0].sum(axis=0)
            lifts.append(float(-(whole.cap_least[i] + added).min()))
            presses.append(float((whole.cap_most[i] + added).max()))
        for quantity, wanted in ((CAP_LIFT, max(lifts)), (CAP, max(presses))):
            compared = found[f"A{post}", quantity]
            assert compared.by_frame == pytest.approx(wanted, abs=0.005 * max(presses))


def test_a_knee_turned_against_is_compared_by_its_size() -> None:
    """Its share is below 0: lateral load turns it round beside its twin, and adds to its force either way."""
    shape = SHAPES["knees of 72 in., the outer one turned against"]
    whole = lateral(shape)
    knee = next(k for k in whole.knees if k.brace.mark == "KA2e")
    most = 0.0
    for state, _ in states(shape):
        assert program(shape, state).knee["2e"] > 0 < program(shape, state).knee["2s"]
        F_b, F_w = run_brace_forces(unprinted(), whole, state, knee, Way.EITHER)
        most = max(most, float((np.abs(F_b) + np.abs(F_w)).max()))
    compared = next(c for c in compare_lateral(whole) if (c.part, c.quantity) == ("KA2e", BRACE))
    assert compared.by_hand == pytest.approx(most, rel=1e-3)
    assert most < compared.by_frame < 1.08 * most  # with what the beam's tipping on its seats presses on it


def test_beside_a_knee_the_shear_of_the_beam_steps_by_its_vertical_part() -> None:
    """Statics at the joint, in the frame model."""
    whole = lateral(END)
    for state in _corners(whole.states):
        solved = _both(whole, state)[2]
        for knee in whole.knees:
            before, past = solved.beside(knee.brace.mark)
            up = solved.end(knee.brace.mark, 0) * END.rise / END.slope
            np.testing.assert_allclose(past - before, up, atol=1e-6 * np.abs(up).max())


AT_BOLTS = {
    "brace.row_tear_out": BRACE,
    "post.row_tear_out": BRACE,
    "beam.row_tear_out": BRACE,
    "post.shear_at_bolts": IN_POST,
    "beam.shear_at_bolts": IN_BEAM,
}


@pytest.mark.parametrize("key", AT_BOLTS)
def test_rows_at_the_bolts_of_a_knee_are_judged_by_the_worse(key: str) -> None:
    """Each rests on one quantity of its own knee, and has 1 % more where the frame model gives 1 % more of that."""
    found = results(END)
    rows = [check for check in found.checks if check.key == key]
    assert {mark for check in rows for mark in check.part if mark in LINES} == set(LINES)
    for check in rows:
        (rests,) = (
            c
            for c in found.compared
            if {(check.part, key, check.limit_state), (check.part, key, "")} & {*c.rows}
        )
        assert rests.quantity.startswith(AT_BOLTS[key])
        raised = judged_by_worse([check], [replace(rests, by_hand=100.0, by_frame=101.0)])[0]
        assert raised.ratio == pytest.approx(1.01 * check.ratio, rel=1e-6)
