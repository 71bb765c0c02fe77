"""Wind, sway and trunks from any direction: by hand, and the same answers however the platform is drawn.

ASCE 7-16, 26.5.1: the wind comes from any horizontal direction; 29.4 and the notes of Figure 29.4-2: its force runs
along it, on the area projected on a plane square to it.
"""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from arrangement_files import file_of, project_of
from shapely import box

from bolewright.bracing.plan import PlanSpring, loose_direction
from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project, read_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.limit_states.check import Status, Topic
from bolewright.platform.loads.lateral_loads import (
    HALVES,
    WHOLE,
    WIND_DIRECTIONS,
    directions,
    main_direction,
    sway_patterns,
)
from bolewright.platform.loads.lateral_wind import find_winds
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.project import Project
from bolewright.platform.results.results import Results, find_results
from bolewright.platform.verification.independent_lateral import DRIFT, FORCE
from outside.relations import beam_ends_swapped, moved, turn

PROJECTS = [
    "lookout",
    "hickory_perch",
    "round_the_trunk",
    "two_trees",
    "one_tree_one_post_knee",
    "parallel_bolts",
]
LATERAL = (Topic.POSTS, Topic.FOOTINGS, Topic.TREE_BOLTS, Topic.BRACES, Topic.STABILITY, Topic.CLEARANCE)
CASES = Path(__file__).parent / "cases"


def project(name: str) -> Project:
    return read_project(shipped("calcsheets") / f"{name}.toml") if name == "two_trees" else project_of(name)


def path_of(text: str) -> LoadPath:
    return find_load_path(find_layout(parse_project(text)))


DEMO = file_of("lookout").read_text(encoding="utf-8")
PLAIN = DEMO.replace("guard_edges = [", "guard_edges = [] #")


def wall(edge: int) -> str:
    return f'\n[[wall]]\nmark = "W{edge}"\nedge = {edge}\nheight = "7 ft"\n'


def test_a_wall_aslant_catches_the_wind_by_the_width_that_it_shows():
    """The far edge of the lookout runs along x: wind towards 30° from +x meets sin 30° of its width."""
    winds = find_winds(path_of(PLAIN + wall(3)))
    square = next(f for f in winds.towards((0.0, 1.0)).faces if f.name == "wall W3")
    aslant = next(f for f in winds.towards((math.cos(math.pi / 6), 0.5)).faces if f.name == "wall W3")
    assert aslant.force == pytest.approx(square.force / 2)
    assert all(f.name != "wall W3" for f in winds.towards((1.0, 0.0)).faces)


def test_force_times_place_is_the_moment_about_the_origin():
    """Wind towards +y on a wall whose middle is at x: F x; towards +x at y: - F y (right hand, z up)."""
    path = path_of(PLAIN + wall(3))
    (x, y) = np.mean([path.layout.project.platform.outline[i] for i in (2, 3)], axis=0)
    face = next(f for f in find_winds(path).towards((0.0, 1.0)).faces if f.name == "wall W3")
    assert face.across == pytest.approx(x)
    aslant = find_winds(path).towards((0.6, 0.8))
    face = next(f for f in aslant.faces if f.name == "wall W3")
    assert face.across == pytest.approx(x * 0.8 - y * 0.6)


@pytest.mark.parametrize("name", PROJECTS)
def test_no_direction_between_gives_half_a_percent_more(name):
    """Any effect of wind: a share of its force in some direction, and of its moment about some place.

    Both factors go with the cosine of some angle, so their product with that of twice the angle, and
    1 - cos(360°/64 / 2 x 2) = 0.48 %.
    """
    winds = find_winds(find_load_path(find_layout(project(name))))
    rng = np.random.default_rng(9)

    def effect(d: np.ndarray, a: np.ndarray, at: np.ndarray, share: float) -> float:
        force, across, _, width = winds.sums(d)
        right = np.stack([d[:, 1], -d[:, 0]], axis=1)
        turning = force * (np.abs(across - right @ at) + 0.15 * width)
        return float((force * (d @ a) + share * turning).max())

    first = main_direction(find_layout(project(name)))
    for _ in range(40):
        angle = rng.uniform(0, 2 * np.pi)
        a, at = np.array([np.cos(angle), np.sin(angle)]), winds.rim.mean(axis=0) + rng.normal(size=2) * 20
        share = rng.choice([0.0, rng.uniform(0, 0.02)])
        fine = effect(directions(3600), a, at, share)
        assert effect(directions(WIND_DIRECTIONS, first), a, at, share) > 0.995 * fine


def test_half_of_a_deck_is_what_lies_to_its_right():
    """Against the deck cut by a half plane (areas and centroids by another library)."""
    path = path_of(DEMO)
    live, deck = path.layout.project.loads.live, path.layout.deck
    x, y = deck.centroid.coords[0]
    patterns = sway_patterns(path, np.array([[1.0, 0.0], [0.0, 1.0]]))
    far = 1e4
    for n, half in enumerate((box(-far, -far, far, y), box(x, -far, far, far))):
        part = deck.intersection(half)
        assert patterns[HALVES[0]][0][n] == pytest.approx(part.area / 144 * live)
        assert patterns[HALVES[0]][1][n] == pytest.approx((-part.centroid.y, part.centroid.x)[n])
        assert patterns[WHOLE][0][n] == pytest.approx(deck.area / 144 * live)


def ratios(results: Results) -> dict[tuple[str, str], float]:
    """Of the lateral checks. Where only the governing one of many is listed, by limit state: any of equals may be."""
    found: dict[tuple[str, str], float] = {}
    for c in results.checks:
        if c.topic in LATERAL or "wind and sway" in c.limit_state:
            governing = c.key in ("hanger.rated_lateral", "platform.seismic") or ".stage" in c.key
            key = ("governing", c.key) if governing else (c.part, c.limit_state)
            ratio = c.ratio if c.status is not Status.NOT_CHECKED else -1.0
            found[key] = max(found.get(key, ratio), ratio)
    return found


def same(one: Project, other: Project) -> None:
    before, after = ratios(find_results(one)), ratios(find_results(other))
    assert before.keys() == after.keys()
    assert len(before) > 50
    for key in before:
        assert after[key] == pytest.approx(before[key], rel=1e-6, abs=1e-9, nan_ok=True), key


@pytest.mark.parametrize("name", PROJECTS)
@pytest.mark.parametrize("degrees", [22.5, 33.7])
def test_turned_on_the_paper_every_lateral_ratio_stays(name, degrees):
    """Turned by any angle: to 3e-7 where it was measured; the rounding of coordinates, and no other pieces of deck."""
    turned = moved(project(name), turn(degrees))
    same(project(name), turned)


@pytest.mark.parametrize("name", PROJECTS)
def test_ninety_feet_away_every_lateral_ratio_stays(name):
    same(project(name), moved(project(name), np.eye(2), (1080.0, 1080.0)))


@pytest.mark.parametrize("name", PROJECTS)
def test_beams_drawn_from_the_other_end_give_the_same(name):
    """The couple that lateral force brings in over a post makes the moment step there: both sides count."""
    same(project(name), beam_ends_swapped(project(name))[1])


@pytest.mark.parametrize("name", PROJECTS)
def test_entries_in_another_order_give_the_same(name):
    kinds = ("trees", "supports", "beams", "joists", "braces", "diagonals")
    before = project(name)
    same(before, before.model_copy(update={k: tuple(reversed(getattr(before, k))) for k in kinds}))


def test_what_holds_the_platform_does_not_hang_on_the_origin():
    """Two springs along x and one along y at 10 ft: held; as well 900 ft from the origin."""
    axes = np.eye(2)
    springs = [
        PlanSpring(0.0, 0.0, axes, np.array([1000.0, 0.0])),
        PlanSpring(0.0, 120.0, axes, np.array([1000.0, 0.0])),
        PlanSpring(0.0, 60.0, axes, np.array([0.0, 1000.0])),
    ]
    far = [replace(s, x=s.x + 10800, y=s.y - 10800) for s in springs]
    assert loose_direction(springs, 60.0) == loose_direction(far, 60.0) == ""
    loose = [replace(s, k=np.array([s.k[0], 0.0])) for s in far]
    assert loose_direction(loose, 60.0) == "along y"
    pivot = [replace(springs[2], k=np.array([1000.0, 1000.0]))]
    assert loose_direction([replace(s, x=s.x + 10800) for s in pivot], 60.0) == "turning in plan"


@pytest.mark.parametrize("name", ["m_f18", "m_f51", "m_f62"])
def test_beams_that_meet_on_a_support_by_their_ends_are_solved(name):
    """Each is kept from rotating by its own seat, though another comes first there; with fixed bases."""
    text = (CASES / f"{name}.toml").read_text(encoding="utf-8")
    if 'base = "fixed"' not in text:
        text = text.replace("[post.P6]\n", '[post.P6]\nbase = "fixed"\n')
    results = find_results(parse_project(text))
    assert results.lateral.loose == ""
    assert {c.quantity for c in results.compared} >= {DRIFT, FORCE}
