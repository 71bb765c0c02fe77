"""Uplift of ends on beams: with wind and sway as well, and ratings lowered in wet service (NDS 2018, Table 11.3.3)."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bolewright.platform.checks.joint_shear import NEAR_NOTE
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")
STORM = re.sub(r'wind_speed = "[^"]*"', 'wind_speed = "200 mph"', DEMO)


def results_of(text: str) -> Results:
    return find_results(parse_project(text))


def rows(results: Results, key: str) -> list[Check]:
    return [check for check in results.checks if check.key == key]


def dead_load_on(results: Results, mark: str, row: int) -> float:
    path = results.path
    influence: Array = path.effects[mark].reactions[row]
    return float(influence @ path.dead)


def test_every_beams_end_on_a_beam_has_its_row() -> None:
    """S1 and S2 rest on C1, which stands on posts: two rows, and one for the hung joists."""
    results = results_of(DEMO)
    assert {(c.part, c.at) for c in rows(results, "beam.uplift_lateral")} == {("S1", "C1"), ("S2", "C1")}
    assert [c.at for c in rows(results, "joist.uplift_lateral")] == ["HJ"]


def test_what_is_left_under_wind_is_six_tenths_of_dead_load_less_what_overturning_takes() -> None:
    """ASCE 7-16, 2.4.1, 0.6D + 0.6W: like steps of wind pressure, which goes as the speed squared (26.10.2), take like
    loads off the seat, beside what the moving trunk takes in any wind."""
    taken = []
    for share in (1.0, 1.15, 1.3):  # above the least pressure of 16 psf (29.7)
        speed = round(107 * share**0.5, 3)
        results = results_of(re.sub(r'wind_speed = "[^"]*"', f'wind_speed = "{speed} mph"', DEMO))
        check = next(c for c in rows(results, "beam.uplift_lateral") if c.part == "S1")
        assert check.combination == "0.6D + 0.6W"
        row = next(i for i, s in enumerate(results.path.layout.member("S1").seats) if s.below == "C1")
        taken.append(0.6 * dead_load_on(results, "S1", row) - check.capacity)
    assert taken[0] > 0
    assert taken[2] - taken[1] == pytest.approx(taken[1] - taken[0], rel=0.02)


def test_a_beam_that_wind_lifts_off_a_beam_is_open_until_its_tie_is_rated() -> None:
    open_row = next(
        c for c in rows(results_of(STORM), "beam.uplift_lateral") if c.status is not Status.PASSES
    )
    assert open_row.status is Status.NOT_CHECKED
    assert "with wind and sway" in open_row.sentence
    assert "uplift_tie" in open_row.sentence
    lift = float(re.search(r"by up to ([\d,]+) lb", open_row.sentence)[1].replace(",", ""))  # type: ignore[index]
    tied = STORM.replace(f'mark = "{open_row.part}"\n', f'mark = "{open_row.part}"\nuplift_tie = "1000 lb"\n')
    check = next(c for c in rows(results_of(tied), "beam.uplift_lateral") if c.part == open_row.part)
    assert check.ratio == pytest.approx(lift / 1000, abs=0.001)


def test_a_hangers_uplift_rating_for_dry_wood_counts_seven_tenths_in_the_weather() -> None:
    """C_M = 0.7 (NDS 2018, Table 11.3.3, dowel-type fasteners and nails, wet in service), as for its load down."""
    dry = results_of(DEMO.replace("wet_included = true", "wet_included = false"))
    wet = results_of(DEMO)
    for key in ("joist.uplift", "joist.uplift_lateral"):
        found = [(a, b) for a, b in zip(rows(dry, key), rows(wet, key), strict=True) if b.demand > 0]
        assert found
        for lowered, whole in found:
            assert lowered.capacity == pytest.approx(0.7 * whole.capacity)


def test_five_depths_from_a_posts_top_go_by_its_greater_side() -> None:
    """NDS 2018, 3.4.3.3(a): bolts about 31 in. below the top of a 6x8 are within 5 x 7.5 = 37.5 in., not 5 x 5.5."""
    text = DEMO.replace('section = "6x6"', 'section = "6x8"').replace('rise = "30 in"', 'rise = "34 in"')
    found = rows(results_of(text), "post.shear_at_bolts")
    assert found
    for check in found:
        assert NEAR_NOTE in check.remarks
        assert check.clause == "NDS 2018, 3.4.3.3(a)"
