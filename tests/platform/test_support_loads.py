"""Loads on every support by kind, as results.json and the load path's sheet give them, and their sum."""

from __future__ import annotations

import json

import pytest
from arrangement_files import file_of
from case_files import case_of, case_path

from bolewright.platform.analysis.drift import drift_edges, step_ratio
from bolewright.platform.analysis.support_loads import sums, support_loads
from bolewright.platform.file.reading import read_project
from bolewright.platform.loads.free_ends import free_ends
from bolewright.platform.results.not_calculated import not_calculated
from bolewright.platform.results.results import find_results, to_json


@pytest.mark.parametrize("name", ["lookout", "two_trees"])
def test_json_gives_every_kind_of_load_of_every_support(name: str) -> None:
    project = read_project(file_of(name))
    data = json.loads(to_json(find_results(project), ""))
    loads = data["reactions"]
    assert set(loads) == {s.mark for s in project.supports}
    for found in loads.values():
        for kind in ("L", "S", "person"):
            assert found[f"{kind}_most"] >= found[f"{kind}_least"]
        assert found["S_most"] >= found["S"] >= found["S_least"]
        assert found["lateral"] is None or set(found["lateral"]) == {"x_lb", "y_lb", "combination"}
    assert name != "lookout" or all(found["lateral"] for found in loads.values())
    for kind in ("D", "L", "S"):
        total = sum(found[kind] for found in loads.values())
        assert total == pytest.approx(data["sum"][kind]["put_on_lb"], rel=1e-4)
        assert data["sum"][kind]["carried_lb"] == pytest.approx(data["sum"][kind]["put_on_lb"], rel=1e-6)


def test_sum_is_what_was_put_on() -> None:
    # c01: 12 x 12 ft of deck, 60 psf of live load and 25 psf of snow, no guard
    path = case_path("c01_nine_on")
    put_on = {s.load: s.put_on for s in sums(path)}
    assert put_on["L"] == pytest.approx(144 * 60, rel=1e-6)
    assert put_on["S"] == pytest.approx(144 * 25, rel=1e-6)
    assert sum(s.L for s in support_loads(path)) == pytest.approx(144 * 60, rel=1e-6)


def test_edges_whose_boards_end_past_a_joist_are_named_with_the_joist() -> None:
    # b02: deck from 0 to 132 in., joists from 2 to 130 in.: edges 1 and 3, each 2 in. past the last joist
    found = {(end.edge, end.member): end for end in free_ends(case_path("b02_guard16").layout)}
    joists = sorted(case_path("b02_guard16").layout.joists, key=lambda joist: joist.line.start[1])
    first, last = found["edge 1", joists[0].mark], found["edge 3", joists[-1].mark]
    assert first.past == pytest.approx(2.0)
    assert last.past == pytest.approx(2.0)
    assert last.held == (joists[-2].mark,)
    assert {edge for edge, _ in found} == {"edge 1", "edge 3"}


def test_drift_is_named_where_a_solid_guard_stands_by_the_deck() -> None:
    # ASCE 7-16, 7.7.1: 25 psf of snow weighs 0.13 x 25 + 14 = 17.25 pcf and is 17.4 in. deep; a guard of 36 in. stands
    # 18.6 in. over it: h_c/h_b = 1.07, above 0.2.
    project = case_of("b02_guard16")
    assert step_ratio(25.0, 36.0) == pytest.approx(1.07, abs=0.005)
    open_guard = project.model_copy(
        update={"loads": project.loads.model_copy(update={"guard_solidity": 0.3})}
    )
    solid = project.model_copy(update={"loads": project.loads.model_copy(update={"guard_solidity": 1.0})})
    assert drift_edges(open_guard) == ()
    assert drift_edges(solid) == ("the guard on edge 2",)
    assert "snow drift" in {n.what for n in not_calculated(solid)}
    assert "snow drift" not in {n.what for n in not_calculated(open_guard)}


def test_a_guard_buried_in_snow_catches_no_drift() -> None:
    # 150 psf: 0.13 x 150 + 14 = 33.5, at most 30 pcf, 60 in. deep: a guard of 36 in. is under it.
    assert step_ratio(150.0, 36.0) < 0.2
