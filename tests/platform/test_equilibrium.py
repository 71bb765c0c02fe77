"""Laws that every arrangement obeys: forces and moments balance, and turning the plan round changes nothing."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from arrangement_files import ARRANGEMENTS, DEMO, FOLDER, path_of, project_of

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.balance import middle
from bolewright.platform.loads.combine import envelope, strength_cases, uplift_cases
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.loads.panels import find_deck
from outside.relations import moved, turn

EVERY = [DEMO, *ARRANGEMENTS]
RANDOM_LOADS = 200


def source_moments(path: LoadPath) -> np.ndarray:
    """Moments of every source about the y and x axes, where its load comes onto the members: (2, sources)."""
    moments = np.zeros((2, path.weights.size))
    for member in path.layout.members:
        effects = path.effects[member.mark]
        above = {m.mark for m in path.layout.members}
        for load, label, row in zip(effects.loads, effects.labels, range(len(effects.loads)), strict=True):
            if label not in above:
                moments += np.outer(member.line.at(middle(load)), effects.delivered[row])
    return moments


def support_forces(path: LoadPath) -> list[tuple[tuple[float, float], np.ndarray]]:
    """Every seat on a support: its place in plan, and the influence on its force."""
    return [
        (member.line.at(seat.at), path.effects[member.mark].reactions[i])
        for member in path.layout.members
        for i, seat in enumerate(member.seats)
        if seat.below in path.reactions
    ]


def moments_into_posts(path: LoadPath) -> np.ndarray:
    """Moments about the y and x axes that beams on one post bring into its head: (2, sources)."""
    moments = np.zeros((2, path.weights.size))
    for effects in path.effects.values():
        if effects.head is not None:
            moments += np.outer(effects.member.line.u, effects.head[0])
    return moments


@pytest.mark.parametrize("name", EVERY)
def test_forces_and_moments_balance_for_random_loads(name: str) -> None:
    path = path_of(name)
    rng = np.random.default_rng(2026)
    loads = (
        rng.uniform(-1.0, 1.0, (path.weights.size, RANDOM_LOADS))
        * rng.uniform(0, 500, path.weights.size)[:, None]
    )
    laid = source_moments(path)
    seats = support_forces(path)
    carried = np.sum([force for _, force in seats], axis=0)
    turned = np.sum([np.outer(place, force) for place, force in seats], axis=0) + moments_into_posts(path)
    size = np.abs(path.weights) @ np.abs(loads)
    assert (np.abs((carried - path.weights) @ loads) < 1e-9 * size).all()
    # A joist that ends at a beam's end may miss its line by the tolerance of the layout; none here does.
    assert (np.abs((turned - laid) @ loads) < 1e-6 * size * 100).all()


@pytest.mark.parametrize("name", EVERY)
def test_every_part_carries_what_it_gets(name: str) -> None:
    path = path_of(name)
    for member in path.layout.members:
        effects = path.effects[member.mark]
        for load in (path.dead, path.live, path.snow):
            given = float(np.sum(effects.delivered @ load))
            assert float(np.sum(effects.reactions @ load)) == pytest.approx(given, rel=1e-9, abs=1e-9)


SHIPPED = sorted(shipped("calcsheets").glob("*.toml"))
EVERY_FILE = [*SHIPPED, *sorted(FOLDER.glob("*.toml"))]


@pytest.mark.parametrize("file", EVERY_FILE, ids=lambda file: f"{file.parent.name}/{file.stem}")
def test_deck_loads_balance_in_force_and_about_both_axes_where_they_lie(file: Path) -> None:
    """Any load on the deck, reckoned at the corners of its pieces: the supports give back as much force and moment.

    What lies past the end of a joist, or on boards over one member alone, goes square to that member.
    """
    path = find_load_path(find_layout(read_project(file)))
    count = len(path.panels)
    seats = support_forces(path)
    force = np.sum([row[:count] for _, row in seats], axis=0)
    moment = np.sum([np.outer(place, row[:count]) for place, row in seats], axis=0)
    moment += moments_into_posts(path)[:, :count]
    laid = np.array([panel.centroid for panel in path.panels]).T
    area = np.array([panel.area for panel in path.panels])
    deck = path.layout.deck
    assert area.sum() == pytest.approx(deck.area, rel=1e-9)
    assert laid @ area == pytest.approx(
        np.array([deck.centroid.x, deck.centroid.y]) * deck.area, rel=1e-9, abs=1e-6
    )
    assert np.abs(force - 1).max() < 1e-9
    aside = np.hypot(*(moment - laid))
    exact = aside < 1e-9 * area.sum()
    assert aside.max() < 16.0 + 1e-6  # a sliver past the tips of all joists but one, a bay away at most
    assert area[~exact].sum() < (0.35 if file.stem.startswith("one_tree_one_post") else 0.08) * area.sum()
    for load in (path.dead[:count], path.live[:count], path.snow[:count]):
        turned = (moment - laid) @ load
        assert (
            np.hypot(*turned) <= 0.2 * load.sum()
        )  # in lb·in: the whole deck's centre moves by 0.2 in. at most


def answers(path: LoadPath) -> dict[str, np.ndarray]:
    """Greatest and least reaction of every support, and the largest moments of all members in order of size."""
    supports = envelope(path, np.array(list(path.reactions.values())))
    sagging, hogging = [], []
    for member in path.layout.members:
        found = envelope(path, path.effects[member.mark].moment)
        sagging.append(found.most(strength_cases()).max())
        hogging.append(found.least(strength_cases()).min())
    return {
        "most": supports.most(strength_cases()),
        "least": supports.least(uplift_cases()),
        "sagging": np.sort(sagging),
        "hogging": np.sort(hogging),
    }


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize(
    "way_round",
    [
        np.diag([-1.0, 1.0]),
        turn(90),
        turn(37),
        turn(123) @ np.diag([1.0, -1.0]),
    ],
    ids=["mirror", "quarter turn", "37 degrees", "mirror and turn"],
)
def test_turned_and_mirrored_plans_give_the_same_answers(name: str, way_round: np.ndarray) -> None:
    before = answers(path_of(name))
    after = answers(find_load_path(find_layout(moved(project_of(name), way_round))))
    for what, numbers in before.items():
        size = np.abs(numbers).max()
        # Stations fall elsewhere along a member that is counted from the other end: 1/2 % at most.
        assert np.abs(after[what] - numbers).max() < 5e-3 * size, what


@pytest.mark.parametrize("name", EVERY)
def test_smaller_panels_change_the_governing_effects_by_less_than_one_percent(name: str) -> None:
    coarse = answers(path_of(name))
    layout = path_of(name).layout
    fine = answers(find_load_path(layout, find_deck(layout, 3.0)))
    for what, numbers in coarse.items():
        size = np.abs(numbers).max()
        assert np.abs(fine[what] - numbers).max() < 0.01 * size, what


def small_platform() -> LoadPath:
    """Two trees, two beams and three joists, in panels as long as spans and overhangs."""
    project = project_of("two_trees")
    (field,) = project.joists
    layout = find_layout(project.model_copy(update={"joists": (field.model_copy(update={"spacing": 51.0}),)}))
    return find_load_path(layout, find_deck(layout, 500.0))


def test_worst_patterns_are_those_of_trying_all() -> None:
    """No choice of whole pieces of deck, of twelve taken here and there, does more than the pattern that is checked.

    Where no influence changes its sign on a piece the best choice is that pattern; elsewhere a piece is loaded in part.
    """
    whole = small_platform()
    count = 12
    chosen = np.linspace(0, len(whole.deck.pieces) - 1, count).astype(int)
    at = np.zeros((4, len(whole.deck.pieces)))
    at[:, chosen] = whole.on_pieces["live"][:, chosen]
    live = np.zeros_like(whole.live)
    live[: len(whole.panels)] = whole.deck.on_panels(at)
    path = replace(whole, live=live, on_pieces={**whole.on_pieces, "live": at})
    tried = (np.arange(2**count)[:, None] >> np.arange(count)) & 1
    loads = np.zeros((2**count, path.live.size))
    np.add.at(loads.T, path.deck.corners[:, chosen], at[:, chosen, None] * tried.T)
    for member in path.layout.members:
        effects = path.effects[member.mark]
        for influence in (effects.moment, effects.shear_right, effects.deflection, effects.reactions):
            by_trying = influence.values @ loads.T[influence.columns]
            found = envelope(path, influence)
            size = 1e-9 * max(1.0, np.abs(by_trying).max())
            assert (found.L_most >= by_trying.max(axis=1) - size).all()
            assert (found.L_least <= by_trying.min(axis=1) + size).all()
            for row in range(len(influence)):
                values = np.asarray(influence[row])[path.deck.corners[:, chosen]]
                if not ((values.min(axis=0) < 0) & (values.max(axis=0) > 0)).any():
                    assert found.L_most[row] == pytest.approx(by_trying[row].max(), rel=1e-9, abs=size)


def test_live_load_past_the_posts_lifts_the_tree_side_as_statics_says() -> None:
    # About the posts' line, y = 64 in: all that lies past it out to the edge at 130 in., 60 in. wide under 60 psf (what
    # stands before it presses the bolts down, through the joists at 49 and 65 in. too); the bolts are 64 in. away.
    path = path_of("overhang")
    uplift = 60 / 144 * 60 * (130 - 64) * ((64 + 130) / 2 - 64) / 64
    both = path.reactions["T1"] + path.reactions["T2"]
    assert envelope(path, both[None, :]).L_least[0] == pytest.approx(-uplift, rel=1e-9)


def test_three_people_at_the_end_of_the_overhang_lift_the_tree_side() -> None:
    # Three people of 250 lb on the last joist, 65 in. past the posts: 3 x 250 x 65 / 64 of uplift on two bolts.
    path = path_of("overhang")
    last = max(path.layout.joists, key=lambda joist: joist.line.start[1]).mark
    spots = [i for i, spot in enumerate(path.spots) if [share.member for share in spot.shares] == [last]]
    people = np.zeros_like(path.dead)
    for spot in (spots[0], spots[len(spots) // 2], spots[-1]):
        people[path.first_spot + spot] += 250.0
    both = path.reactions["T1"] + path.reactions["T2"]
    assert both @ people == pytest.approx(-3 * 250 * 65 / 64, rel=1e-9)
    assert both @ (path.dead + people) < 0


def test_one_person_in_the_middle_of_a_joist_is_a_point_load() -> None:
    # P l / 4 of a simple span (joist J4 of the demo), not the less of a person spread over a panel.
    path = path_of(DEMO)
    length = path.layout.member("J4").line.length
    found = envelope(path, path.effects["J4"].moment)
    assert found.person_most.max() == pytest.approx(300 * length / 4, rel=1e-6)


def test_one_person_past_the_last_joist_loads_it_with_more_than_the_person() -> None:
    # Boards of the demo end 2 in. past J8, J7 is 16 in. back: P (1 + 2/16) on J8 by the lever, P l / 4 of that.
    path = path_of(DEMO)
    length = path.layout.member("J8").line.length
    found = envelope(path, path.effects["J8"].moment)
    assert found.person_most.max() == pytest.approx(300 * (1 + 2 / 16) * length / 4, rel=1e-2)
    lifted = envelope(path, path.effects["J7"].moment)
    assert lifted.person_least.min() < 0


@pytest.mark.parametrize("name", EVERY)
def test_a_person_past_the_last_joist_is_in_balance_in_force_and_moment(name: str) -> None:
    path = path_of(name)
    seats = support_forces(path)
    force = np.sum([row for _, row in seats], axis=0)
    moment = np.sum([np.outer(place, row) for place, row in seats], axis=0) + moments_into_posts(path)
    tips = 0
    for i, spot in enumerate(path.spots, start=path.first_spot):
        assert force[i] == pytest.approx(1.0, abs=1e-9)
        off = np.hypot(*(moment[:, i] - spot.point))
        assert (
            off < 16.0 + 1e-6
        )  # where no second member holds the board, or the board is wider than the deck past a tip
        assert sum(share.part for share in spot.shares) == pytest.approx(1.0, abs=1e-9)
        if max(share.part for share in spot.shares) > 1 + 1e-9:
            tips += off < 1e-6
    assert tips >= 2 or not any(share.part > 1.01 for spot in path.spots for share in spot.shares)


@pytest.mark.parametrize("past", [0.0, 2.0, 6.0, 10.0])
def test_boards_past_the_last_joist_load_it_by_hand(past: float) -> None:
    """Joists 16 in. apart, w lb/in of board: w (8 + c) + w c (c / 2) / 16 on the last, w (16 - c (c / 2) / 16) next."""
    project = project_of("overhang")
    outline = tuple((x, 129.0 + past if y == 130.0 else y) for x, y in project.platform.outline)
    platform = project.platform.model_copy(update={"outline": outline})
    loads = project.loads.model_copy(update={"guard_edges": ()})
    path = find_load_path(find_layout(project.model_copy(update={"platform": platform, "loads": loads})))
    w = path.layout.project.loads.live / 144 * 60
    last, inside = (path.effects[mark].delivered @ path.live for mark in ("J8", "J7"))
    assert last.sum() == pytest.approx(w * (8 + past + past**2 / 32), rel=1e-9)
    assert inside.sum() == pytest.approx(w * (16 - past**2 / 32), rel=1e-9)
    # The worst pattern on the joist inside leaves the boards past the last one bare.
    beam = path.effects["J7"]
    share = np.sum([beam.delivered[i] for i in range(len(beam.loads))], axis=0)
    assert share.clip(min=0.0) @ path.live == pytest.approx(w * 16, rel=1e-9)


def test_one_person_at_the_tip_of_an_overhang_is_at_the_tip() -> None:
    # Joists of two_trees: seats at y = -15 and 15 in., tips at -36 and 36: P a at the seat.
    path = path_of("two_trees")
    joist = path.layout.joists[3]
    found = envelope(path, path.effects[joist.mark].moment)
    assert found.person_least.min() == pytest.approx(-300 * 21, rel=1e-6)
