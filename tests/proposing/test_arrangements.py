"""Every arrangement at a place that suits it: laid out, sized, and its file passes the plain check as it stands."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any, Literal

import pytest
from requirements200 import one

from bolewright.platform.file.reading import parse_project
from bolewright.proposing.edge_beam import EdgeBeam
from bolewright.proposing.effects import asked_for, not_measured
from bolewright.proposing.fit import LEFT_OPEN, Bench, Failed, Fit, Fitted
from bolewright.proposing.ground import Ground, ground_of
from bolewright.proposing.needs import Access
from bolewright.proposing.on_posts import OnPosts
from bolewright.proposing.on_trunks import on_trunks
from bolewright.proposing.one_trunk import OneTrunk
from bolewright.proposing.parts import even_spacing
from bolewright.proposing.reading import find_need_faults
from bolewright.proposing.round_trunk import RoundTrunk
from bolewright.proposing.sketch import plan_lines
from bolewright.proposing.told import proposal_text, shopping
from bolewright.proposing.two_edges import TwoEdges
from bolewright.setting_out.complete import complete_results
from bolewright.status import Status

PLACE = {
    "ground_snow": "20 psf",
    "wind_speed": "105 mph",
    "exposure": "B",
    "S_DS": 0.2,
    "frost_depth": "30 in",
    "soil": "class 4",
}
TREE = {
    "species": "white oak",
    "girth": "80 in",
    "bark": "3/4 in",
    "height": "60 ft",
    "sway_seen": "1/8 in",
    "sway_seen_at": "6 ft",
    "crown_area": "330 ft2",
    "crown_center": "36 ft",
    "growth": "0.08 in/yr",
    "condition": "Sound to the mallet, full crown",
}


def ground(
    width: int, depth: int, at: tuple[int, int], trees: dict[str, tuple[int, int]], **rules: Any
) -> Ground:
    data = {
        "format": 2,
        "floor": {
            "width": f"{width} in",
            "depth": f"{depth} in",
            "at": [f"{x} in" for x in at],
            "height": "60 in",
        },
        "place": PLACE,
        "tree": [TREE | {"mark": mark, "at": [f"{x} in" for x in spot]} for mark, spot in trees.items()],
        "rules": {"root_zone": 2, **rules},
    }
    needs, faults = find_need_faults(data)
    assert needs is not None, faults
    return ground_of(needs)


def assert_its_file_passes(found: Fitted, place: Ground) -> None:
    results = complete_results(parse_project(proposal_text(found, place, ()), "mine.toml"))
    wrong = [
        (c.part, c.key, c.shown_ratio)
        for c in results.checks
        if c.status is Status.FAILS or (c.status is Status.NOT_CHECKED and c.key not in LEFT_OPEN)
    ]
    assert not wrong


def test_posts_round_a_free_trunk() -> None:
    place = ground(144, 120, (0, 0), {"OAK": (72, 60)}, root_zone=1.5)
    found = Fit(OnPosts(2, 2, False), place, Bench(20)).run()
    assert isinstance(found, Fitted)
    assert found.draft.bearing == ()
    assert len(found.results.project.platform.openings) == 1
    assert_its_file_passes(found, place)


@pytest.mark.parametrize("side", ["below", "above", "left", "right"])
def test_one_trunk_is_laid_out_alike_on_every_side(side: str) -> None:
    """Turned by a quarter or mirrored it is the same platform: first sizes, same wood, by symmetry."""
    spots = {"below": (48, -18), "above": (48, 114), "left": (-18, 48), "right": (114, 48)}
    place = ground(96, 96, (0, 0), {"OAK": spots[side]})
    one = next(a for a in on_trunks(place) if isinstance(a, OneTrunk))
    sizes = one.start(place)
    assert sizes is not None
    fit = Fit(one, place, Bench(1))
    draft = fit.drawn(sizes)
    assert draft is not None
    results = fit.bench.run(draft.data)
    assert not isinstance(results, tuple), results
    supports = {s.mark: s for s in results.project.supports}
    middle = tuple((a + b) / 2 for a, b in zip(supports["T1"].at, supports["T2"].at, strict=True))
    assert middle == pytest.approx(spots[side], abs=0.1)
    assert [m.line.length for m in results.path.layout.members if m.mark == "S1"] == pytest.approx(
        [118.5], abs=1
    )


def test_one_trunk_and_two_posts() -> None:
    place = ground(96, 96, (-48, 18), {"OAK": (0, 0)})
    one = next(a for a in on_trunks(place) if isinstance(a, OneTrunk))
    found = Fit(one, place, Bench(25)).run()
    assert isinstance(found, Fitted), found.why
    assert found.draft.bearing == ("OAK",)
    plan = "\n".join(plan_lines(found.results))
    assert plan.count("P") == 2
    assert plan.count("T") == 2
    assert plan.index("P") < plan.index("O")  # the trunk lies below the floor, the posts at its far edge
    assert any("a bracket on each of T1 and T2" in line for line in shopping(found))
    assert_its_file_passes(found, place)


def test_two_trunks_one_slides_one_floats() -> None:
    place = ground(144, 108, (-12, 18), {"A": (0, 0), "B": (120, 0)}, may_tie=False)
    one = next(a for a in on_trunks(place) if isinstance(a, EdgeBeam) and a.ways == ("slides", "floats"))
    found = Fit(one, place, Bench(25)).run()
    assert isinstance(found, Fitted), found.why
    ways = {s.lateral for s in found.results.project.supports if s.kind == "tree bolt"}
    assert ways == {"slides", "floats"}
    assert_its_file_passes(found, place)


def test_no_trunk_is_tied_against_the_arborists_word() -> None:
    place = ground(96, 96, (-48, 18), {"OAK": (0, 0)}, may_tie=False)
    found = on_trunks(place)
    assert {type(a) for a in found} == {OneTrunk, EdgeBeam}
    assert all(isinstance(a, OneTrunk | EdgeBeam) and "tied" not in a.ways for a in found)


def test_one_trunk_that_is_not_tied_is_held_along_its_bolts_alone() -> None:
    """Across them nothing holds the trunk: the two posts take all of that, and the trunk sways under the floor."""
    place = ground(96, 96, (-48, 18), {"OAK": (0, 0)}, may_tie=False)
    one = next(a for a in on_trunks(place) if isinstance(a, OneTrunk))
    found = Fit(one, place, Bench(25)).run()
    assert isinstance(found, Fitted), found.why
    ways = [s.lateral for s in found.results.project.supports if s.kind == "tree bolt"]
    assert ways == ["slides across", "slides across"]
    assert_its_file_passes(found, place)


def test_a_trunk_at_either_edge_bears_a_beam() -> None:
    place = ground(120, 96, (0, 0), {"A": (20, -18), "B": (100, 114)}, root_zone=1.5, may_tie=False)
    one = next(a for a in on_trunks(place) if isinstance(a, TwoEdges))
    found = Fit(one, place, Bench(25)).run()
    assert isinstance(found, Fitted), found.why
    assert set(found.draft.bearing) == {"A", "B"}
    beams = {m.mark: {s.below for s in m.seats} for m in found.results.path.layout.beams}
    assert sorted(beams.values(), key=sorted) == [{"P1", "T1"}, {"P2", "T2"}]
    assert_its_file_passes(found, place)


def test_three_trunks_are_held_in_three_directions_and_no_more() -> None:
    """A floor in plan has three ways to move: three trunks hold one each, so that none is forced by another."""
    place = ground(120, 96, (0, 0), {"A": (12, -18), "B": (108, -18), "C": (20, 114)}, root_zone=1.5)
    first, other = (a for a in on_trunks(place) if isinstance(a, TwoEdges))
    assert (first.near_ways, first.far_ways) == (("slides", "slides across"), ("slides",))
    assert (other.near_ways, other.far_ways) == (("slides", "floats"), ("floats",))
    for way in (first, other):
        sizes = way.start(place)
        assert sizes is not None
        draft = way.draw(place, sizes)
        assert draft is not None
        results = Bench(1).run(draft.data)
        assert not isinstance(results, tuple), results


def test_the_beam_on_the_posts_is_as_deep_as_what_hangs_in_its_face() -> None:
    place = ground(96, 96, (-48, 18), {"OAK": (0, 0)})
    one = next(a for a in on_trunks(place) if isinstance(a, OneTrunk))
    sizes = one.start(place)
    assert sizes is not None
    draft = one.draw(place, replace(sizes, beam=(3, "2x8"), hung=(3, "2x12")))
    assert draft is not None
    sections = {b["mark"]: b["section"] for b in draft.data["beam"]}
    assert sections["C1"] == sections["S1"] == "2x12"
    assert not isinstance(Bench(1).run(draft.data), tuple)


def test_that_a_trunk_may_be_tied_is_asked_for_where_nothing_is_said_of_it() -> None:
    place = ground(96, 96, (-48, 18), {"OAK": (0, 0)})
    fit = Fit(on_trunks(place)[0], place, Bench(25))
    found = fit.run()
    assert isinstance(found, Fitted)
    assert asked_for(found, place) == ("OAK may be tied to the platform (an arborist's word)",)
    assert "an arborist's word" in not_measured((), asked_for(found, place))


def test_a_thin_trunk_bears_nothing() -> None:
    place = ground(96, 96, (-48, 18), {"OAK": (0, 0)})
    thin = place.needs.trees[0].model_copy(update={"girth": 45.0})
    needs = place.needs.model_copy(update={"trees": (thin,)})
    assert on_trunks(ground_of(needs)) == []


def test_a_floor_round_one_trunk_on_knee_braces() -> None:
    """Nothing stands on the ground: all weight goes into the trunk through two upper and two lower bolts."""
    place = ground(90, 80, (-44, -38), {"OAK": (0, 0)}, root_zone=3)
    one = next(a for a in on_trunks(place) if isinstance(a, RoundTrunk))
    fit = Fit(one, place, Bench(25))
    found = fit.run()
    assert isinstance(found, Fitted), found.why
    kinds = [s.kind for s in found.results.project.supports]
    assert (kinds.count("tree bolt"), kinds.count("knee brace"), kinds.count("post")) == (4, 4, 0)
    assert_its_file_passes(found, place)


@pytest.mark.parametrize("kind", ["none", "ladder", "stairs"])
def test_with_guard_and_way_up_nothing_is_left_open(kind: Literal["none", "ladder", "stairs"]) -> None:
    place = ground(96, 84, (0, 0), {})
    needs = place.needs.model_copy(update={"access": Access(kind=kind)})
    found = Fit(OnPosts(2, 2, False), ground_of(needs), Bench(25), closing="guard and way up").run()
    assert isinstance(found, Fitted), found.why
    assert found.draft.data["guard"][0]["edges"] == [1, 2, 3, 4]
    assert {"ladder", "stairs"} & found.draft.data.keys() == ({kind} if kind != "none" else set())
    assert ("gate" in found.draft.data) == (kind == "ladder")
    assert not [c for c in found.results.checks if c.status is not Status.PASSES]
    assert any("guard" in line for line in shopping(found))
    assert_its_file_passes(found, place)


def test_a_beam_on_one_trunk_and_a_post() -> None:
    """A trunk by the corner bears one end of the edge's beam, a post the other."""
    place = ground(132, 96, (0, 0), {"OAK": (20, -20)}, root_zone=1.5, may_tie=False)
    one = next(a for a in on_trunks(place) if isinstance(a, EdgeBeam))
    found = Fit(one, place, Bench(25)).run()
    assert isinstance(found, Fitted), found.why
    beams = {m.mark: [s.below for s in m.seats] for m in found.results.path.layout.beams}
    assert beams["S1"] == ["T1", "P1"]
    assert_its_file_passes(found, place)


def test_crossed_rods_stand_where_posts_alone_drift() -> None:
    """Requirement 16 of the 200, 11 1/2 ft up with 8x8 posts at most: alone they drift five times too far."""
    needs, faults = find_need_faults(one(16))
    assert needs is not None, faults
    place = ground_of(needs)
    alone = Fit(OnPosts(2, 2, False), place, Bench(8)).run()
    assert isinstance(alone, Failed)
    assert "platform.drift" in alone.keys
    braced = Fit(OnPosts(2, 2, False, rods=True), place, Bench(12)).run()
    assert isinstance(braced, Fitted)
    rods = braced.draft.data["crossed_rods"]
    assert [(r["from_post"], r["to_post"]) for r in rods] == [
        ("P1", "P2"),
        ("P3", "P4"),
        ("P1", "P3"),
        ("P2", "P4"),
    ]
    assert all(float(r["rated_load"].removesuffix(" lb")) >= 4000 for r in rods)
    assert_its_file_passes(braced, place)


@pytest.mark.parametrize(
    ("first", "last", "wanted", "even"), [(0, 118.5, 16, 14.875), (0.75, 96.75, 16, 16), (0, 20, 24, 20)]
)
def test_joists_leave_no_short_last_bay(first: float, last: float, wanted: float, even: float) -> None:
    """118 1/2 in. in bays of 16 in. would end in one of 6 1/2 in.; eight alike take no joist more."""
    found = even_spacing(first, last, wanted)
    assert found == even
    assert math.ceil((last - first) / found - 1e-9) == math.ceil((last - first) / wanted - 1e-9)


def test_a_deck_with_beams_across_it_takes_its_guard() -> None:
    """12 ft by 10 ft, 9 ft up, 50 psf of snow: the posts of its guard turn the outermost two joists over their ends."""
    data = {
        "format": 2,
        "floor": {"width": "12 ft", "depth": "10 ft", "height": "9 ft"},
        "place": PLACE | {"ground_snow": "50 psf", "wind_speed": "110 mph"},
    }
    needs, faults = find_need_faults(data)
    assert needs is not None, faults
    place, bench = ground_of(needs), Bench(20)
    bare = Fit(OnPosts(2, 2, True), place, bench).run()
    assert isinstance(bare, Fitted)
    found = Fit(OnPosts(2, 2, True), place, bench, dict(bare.ratings), closing="guard").run(bare.sizes)
    assert isinstance(found, Fitted)
    assert {e for g in found.draft.data["guard"] for e in g["edges"]} == {1, 2, 3, 4}
    assert_its_file_passes(found, place)
