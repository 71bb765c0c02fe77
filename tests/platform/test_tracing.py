"""Where a weight goes: by hand, by another library, and against the influence that the sheets use."""

import math
from collections.abc import Iterator
from functools import cache
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from anastruct import SystemElements
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point as PlanPoint

from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.actions import through_boards
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.balance import middle
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.tracing.tracing import Crowd, Drift, Person, Tracer, TracingError
from bolewright.platform.tracing.tracing_burden import nearest_on_deck
from bolewright.platform.tracing.tracing_maps import moment_map, reaction_map
from bolewright.platform.tracing.tracing_path import path_steps
from bolewright.rendering.handcalc import render_steps
from bolewright.rendering.printback import check_step

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
FILES = [DEMO, *sorted((Path(__file__).parent / "arrangements").glob("*.toml"))]
every_platform = pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)


@cache
def tracer(file: Path) -> Tracer:
    return Tracer(find_load_path(find_layout(read_project(file))))


def around(t: Tracer, point: tuple[float, float]) -> Iterator[dict[str, float]]:
    """Reactions to a person of 100 lb at a place, and a thousandth of an inch from it each way."""
    yield t.trace(Person(point, 100.0)).reactions
    for x in (-1e-3, 0.0, 1e-3):
        for y in (-1e-3, 0.0, 1e-3):
            yield t.trace(Person((point[0] + x, point[1] + y), 100.0)).reactions


def same_place(t: Tracer, point: tuple[float, float]) -> list[int]:
    """Sources of all spots at a place: where the boards are borne otherwise on either side of it there are two."""
    spots = enumerate(t.path.spots, start=t.path.first_spot)
    return [i for i, spot in spots if math.dist(spot.point, point) < 1e-6]


@every_platform
def test_person_at_every_spot_of_the_sheets_agrees_with_their_influence(file: Path) -> None:
    t = tracer(file)
    compared = tips = 0
    for spot in t.path.spots:
        # where one stands on either of two members, or on one alone instead of by the boards, both are right
        on = [m.mark for m in t.layout.flush if m.line.distance(spot.point) < 0.01]
        plain = not on or on == [
            share.member
            for share in spot.shares
            if abs(t.layout.member(share.member).line.along(spot.point) - middle(share.load)) < 0.01
        ]
        away_from = [t.layout.member(share.member).line.distance(spot.point) for share in spot.shares]
        tied = len(away_from) > 1 and max(away_from) - min(away_from) < 1e-3  # as near to either of two
        if plain and not tied and t.layout.deck.distance(PlanPoint(spot.point)) < 0.01:
            # Right on the end of a member or a corner of the deck the boards of either side are meant.
            # Where a board may lie to either side the sheets look at each, the explorer shows the mean of both.
            same = same_place(t, spot.point)
            meant = [[other] for other in same] + [list(pair) for pair in combinations(same, 2)]
            # a person just beside a seat stands 0.01 in. off it: 1.3e-4 of a span of 79 in.
            assert any(
                max(abs(found[mark] / 100 - row[some].mean()) for mark, row in t.path.reactions.items())
                < 2e-4
                for found in around(t, spot.point)
                for some in meant
            )
            compared += 1
            tips += len(spot.shares) > 1
    assert compared >= 20
    assert tips >= 2 or not any(len(spot.shares) > 1 for spot in t.path.spots)


@pytest.mark.parametrize(
    ("place", "shares"),
    [
        ((40.0, 65.8), {"J8": 14 / 16, "J7": 2 / 16}),
        ((40.0, 66.2), {"K4": 11 / 16, "K3": 5 / 16}),
        ((40.0, 66.0), {"J8": 7 / 16, "J7": 1 / 16, "K4": 5.5 / 16, "K3": 2.5 / 16}),  # half on each
        ((90.0, 66.0), {"J5": 12 / 16, "J4": 4 / 16}),  # the corner is at x = 84: here the field goes on
    ],
)
def test_beside_a_seam_one_stands_on_the_field_that_is_there(place, shares) -> None:
    """Joists J up to y = 66 at x = 38, 54, 86 and 102 in., K from there on at 35 and 51 in.: simple spans of board.

    Half an inch on either side of the seam J5, 46 in. off, got 387 lb of 100 and J4 was lifted by 287.
    """
    t = tracer(Path(__file__).parent / "arrangements" / "skewed_and_reentrant.toml")
    carried = t.trace(Person(place, 100.0)).carried
    found = {
        mark: load.total / 100
        for mark, one in carried.items()
        for load in one.arriving
        if load.source == "boards"
    }
    assert found == pytest.approx(shares, abs=1e-9)
    # a stove that stands there, too, but on one field whole: boards end at the seam
    ways = through_boards(t.layout, place)
    for way in ways:
        assert sum(share.part for share in way) == pytest.approx(1.0)
        assert {s.member: s.part / len(ways) for s in way} == pytest.approx(
            {mark: part for mark, part in shares.items() if mark in {s.member for s in way}}, abs=1e-9
        )
    assert len(ways) == len({mark[0] for mark in shares})


@every_platform
def test_crowd_over_the_whole_deck_gives_the_live_load_reactions_of_the_sheets(file: Path) -> None:
    """Of the deck alone: the people on a ladder or on stairs stand on no board."""
    t = tracer(file)
    live = t.layout.project.loads.live
    found = t.trace(Crowd(t.layout.project.platform.outline, live))
    on_deck = np.zeros_like(t.path.live)
    on_deck[: len(t.path.panels)] = t.path.live[: len(t.path.panels)]
    assert found.total == pytest.approx(on_deck.sum(), rel=1e-9)
    for (
        mark,
        row,
    ) in t.path.reactions.items():  # simple spans of board against strips half-way to the next joist
        assert found.reactions[mark] == pytest.approx(row @ on_deck, abs=0.001 * found.total)


def demo_by_hand(place: tuple[float, float], pounds: float) -> dict[str, float]:
    """The demonstration lookout by the lever alone, from the coordinates in its file (nothing of ours)."""
    s1 = ((-15.25, -6.0), (-56.3125, 133.0))
    s2 = ((14.5, -6.0), (72.4375, 133.0))
    joists = [20.0 + 16 * i for i in range(8)]
    x, y = place
    on = {joists[0]: 1.0}
    if y >= joists[-1]:
        past = (y - joists[-1]) / 16
        on = {joists[-1]: 1 + past, joists[-2]: -past}
    elif y > joists[0]:
        low = max(j for j in joists if j <= y)
        on = {low: 1 - (y - low) / 16, low + 16: (y - low) / 16}

    def across(line, at):
        (x0, y0), (x1, y1) = line
        return x0 + (at - y0) / (y1 - y0) * (x1 - x0)

    def along(line, point):  # distance from the start of the line to the foot of the perpendicular
        (x0, y0), (x1, y1) = line
        return ((point[0] - x0) * (x1 - x0) + (point[1] - y0) * (y1 - y0)) / math.dist(*line)

    back: dict[str, float] = {}
    c1 = {}
    for name, line, bolt, tree in (("S1", s1, "T1", (-17.0, 0.0)), ("S2", s2, "T2", (17.0, 0.0))):
        near, far = along(line, tree), along(line, (across(line, 114.0), 114.0))
        force = moment = 0.0
        for j, share in on.items():
            left, right = across(s1, j), across(s2, j)
            part = pounds * share * ((right - x) if name == "S1" else (x - left)) / (right - left)
            force += part
            moment += part * (along(line, (across(line, j), j)) - near)
        c1[name] = moment / (far - near)
        back[bolt] = force - c1[name]
    load = sum(c1.values())
    moment = c1["S1"] * (across(s1, 114.0) + 36) + c1["S2"] * (across(s2, 114.0) + 36)
    back["P2"] = moment / 84
    back["P1"] = load - back["P2"]
    return back


@pytest.mark.parametrize(
    "place",
    [
        (0.0, 40.0),
        (-3.0, 20.0),
        (10.0, 28.0),
        (-25.0, 70.0),
        (30.0, 113.0),
        (55.0, 131.0),
        (-40.0, 132.0),
        (0.0, 133.0),
    ],
)
def test_demo_against_the_lever_by_hand(place: tuple[float, float]) -> None:
    found = tracer(DEMO).trace(Person(place, 180.0)).reactions
    assert found == pytest.approx(demo_by_hand(place, 180.0), abs=1e-4)


@pytest.mark.parametrize("x", [5.0, 54.0, 96.0, 140.0, 190.0])
def test_beam_over_three_posts_against_anastruct(x: float) -> None:
    t = tracer(Path(__file__).parent / "arrangements" / "over_three_posts.toml")
    found = t.trace(Person((x, 14.0), 180.0))
    ends = sorted({0.0, 12.0, 96.0, 180.0, 192.0, *(load.at[0] for load in found.carried["C1"].arriving)})
    beam = SystemElements(EI=1e6, EA=1e9)
    for a, b in zip(ends, ends[1:], strict=False):
        beam.add_element([[a, 0], [b, 0]])
    nodes = {round(place, 6): i + 1 for i, place in enumerate(ends)}
    beam.add_support_hinged(nodes[12.0])
    for post in (96.0, 180.0):
        beam.add_support_roll(nodes[post])
    for load in found.carried["C1"].arriving:
        beam.point_load(nodes[round(float(load.at[0]), 6)], Fy=-load.total)
    beam.solve()
    expected = [-beam.get_node_results_system(nodes[place])["Fy"] for place in (12.0, 96.0, 180.0)]
    assert [found.reactions[m] for m in ("P1", "P2", "P3")] == pytest.approx(expected, abs=0.02)


@every_platform
@settings(max_examples=15, deadline=None)
@given(data=st.data())
def test_weight_and_moments_balance_anywhere_and_shares_scale_with_the_weight(file: Path, data) -> None:
    t = tracer(file)
    west, south, east, north = t.layout.deck.bounds
    drawn = (data.draw(st.floats(west, east)), data.draw(st.floats(south, north)))
    at = nearest_on_deck(t.layout, drawn)
    one = t.trace(Person(at, 1.0))  # raises ImbalanceError when forces or moments do not balance
    assert sum(one.reactions.values()) == pytest.approx(1.0, abs=1e-9)
    three = t.trace(Person(at, 540.0))
    for mark, force in one.reactions.items():
        assert three.reactions[mark] == pytest.approx(540 * force, abs=1e-6)
    for step in path_steps(t.path, three):
        for rendered in render_steps(step.steps):
            check_step(rendered)
        assert step.sentence.endswith(".")
        assert "nan" not in step.sentence


def test_person_half_way_between_two_joists_splits_evenly() -> None:
    carried = tracer(DEMO).trace(Person((0.0, 44.0), 180.0)).carried
    assert {m: c.total for m, c in carried.items() if m.startswith("J")} == pytest.approx(
        {"J2": 90.0, "J3": 90.0}
    )


def test_person_past_the_last_joist_loads_it_with_more_and_lifts_the_next() -> None:
    """J8 of the demo is at y = 132 in., J7 16 in. back; the deck ends at 134: 180 (1 + 2/16) = 202.5 lb, 22.5 lb up."""
    t = tracer(DEMO)
    found = t.trace(Person((0.0, 134.0), 180.0))
    assert {m: c.total for m, c in found.carried.items() if m.startswith("J")} == pytest.approx(
        {"J7": -22.5, "J8": 202.5}
    )
    assert found.aside == pytest.approx(0.0, abs=1e-9)
    said = path_steps(t.path, found)[0].sentence
    assert said.startswith("You stand past J8")
    assert "J7, 1' 4\" back, is lifted by 22 lb" in said


def test_an_opening_is_not_spanned_by_boards() -> None:
    t = tracer(Path(__file__).parent / "arrangements" / "round_a_trunk.toml")
    opening = t.layout.project.platform.openings[0]
    west, east = min(x for x, _ in opening), max(x for x, _ in opening)
    south, north = min(y for _, y in opening), max(y for _, y in opening)
    middle = ((west + east) / 2, (south + north) / 2)
    with pytest.raises(TracingError, match="not on the deck"):
        t.trace(Person(middle, 180.0))
    for beside in (
        (west - 0.2, middle[1]),
        (east + 0.2, middle[1]),
        (middle[0], south - 0.2),
        (middle[0], north + 0.2),
    ):
        found = t.trace(Person(beside, 180.0))
        landed = [c.member for c in found.carried.values() if c.arriving[0].source == "boards"]
        assert all(m.line.distance(beside) < 30 for m in landed)
        assert found.aside < 6


def test_overhang_lifts_the_far_support_by_the_lever() -> None:
    """S1 is 118.9 in from T1 to C1 and reaches 19.8 in past C1; a joist there hangs on S1 and S2."""
    found = tracer(DEMO).trace(Person((-50.0, 133.0), 540.0))
    assert found.reactions["T1"] == pytest.approx(demo_by_hand((-50.0, 133.0), 540.0)["T1"], abs=1e-4)
    assert found.reactions["T1"] < -50


def test_a_member_that_is_lifted_is_not_said_to_carry() -> None:
    """540 lb on J1's tip, 19 in past C2: J1 lifts C1, which is pulled up and carries nothing of it."""
    t = tracer(Path(__file__).parents[1] / "projects" / "without_guard" / "two_trees.toml")
    joist = t.layout.member("J1")
    tip = nearest_on_deck(t.layout, joist.line.at(joist.line.length))
    trace = t.trace(Person(tip, 540.0))
    assert trace.carried["C1"].total < -50
    said = {step.part: step.sentence for step in path_steps(t.path, trace)}
    assert "C1 is pulled up with" in said["C1"]
    assert "carries" not in said["C1"]
    assert "C2 carries" in said["C2"]


def test_moment_under_a_person_in_the_middle_of_a_joist() -> None:
    t = tracer(DEMO)
    joist = t.layout.member("J5")
    found = t.diagram(t.trace(Person(joist.line.at(joist.line.length / 2), 180.0)), "J5")
    assert found.largest == pytest.approx((joist.line.length / 2, 180 * joist.line.length / 4))  # PL/4


def test_drift_is_half_its_peak_on_the_average_and_heavier_at_the_edge() -> None:
    t = tracer(FILES[[f.stem for f in FILES].index("over_three_posts")])
    found = t.trace(Drift(1, 60.0, 48.0))  # edge 1 is 16 ft long
    assert found.total == pytest.approx(16 * 4 * 30)
    assert found.pieces.centre[1] == pytest.approx(48 / 3, abs=0.1)  # centroid of a triangle
    other = t.trace(Drift(3, 60.0, 48.0))
    assert other.pieces.centre[1] == pytest.approx(112 - 16, abs=0.1)


@pytest.mark.parametrize(
    ("burden", "said"),
    [
        (Person((0.0, 0.0), 180.0), "not on the deck"),
        (Person((0.0, 40.0), 0.0), "more than nothing"),
        (Crowd(((200.0, 0.0), (210.0, 0.0), (210.0, 9.0)), 40.0), "nowhere on the deck"),
        (Crowd((), 40.0), "nowhere on the deck"),
        (Drift(7, 40.0, 24.0), "4 edges"),
        (Drift(1, 40.0, 0.0), "no width"),
        (Drift(1, 0.0, 24.0), "weighs nothing"),
    ],
)
def test_what_can_not_be_traced_is_said_in_a_sentence(burden, said: str) -> None:
    with pytest.raises(TracingError, match=said):
        tracer(DEMO).trace(burden)


@every_platform
def test_maps_sum_to_the_sheets_reactions_and_to_one(file: Path) -> None:
    path = tracer(file).path
    maps = [reaction_map(path, s.mark) for s in path.layout.supports]
    np.testing.assert_allclose(np.sum([m.values for m in maps], axis=0), 1.0, atol=1e-9)
    count = len(path.panels)
    for m, s in zip(maps, path.layout.supports, strict=True):
        on_deck = np.zeros_like(path.live)  # without the people on a ladder or on stairs
        on_deck[:count] = path.live[:count]
        assert m.values @ path.live[:count] == pytest.approx(path.reactions[s.mark] @ on_deck)
        assert len(m.corners) == count


def test_moment_map_of_a_joist_is_one_quarter_span_at_most() -> None:
    path = tracer(DEMO).path
    joist = path.layout.member("J8")
    found = moment_map(path, "J8", joist.line.length / 2)
    others = [
        v
        for v, p in zip(found.values, path.panels, strict=True)
        if "J8" not in [share.member for share in p.shares]
    ]
    assert max(map(abs, others)) < 1e-9
    # boards end 2 in. past J8, J7 is 16 in. back
    assert joist.line.length / 6 < found.values.max() <= (1 + 2 / 16) * joist.line.length / 4
