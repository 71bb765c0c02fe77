"""Over the years: girths by geometry, dates by the calendar, and no part that nobody looks at."""

from collections.abc import Callable

import pytest

from bolewright.platform.layout.layout import Layout
from bolewright.platform.results.results import Results
from bolewright.setting_out.upkeep import crowd_of_design, dues, girth_to_expect, rounds
from bolewright.tree.growth import girth_after, radial_growth


def test_girth_grows_by_two_pi_of_the_radius(demo: Layout) -> None:
    """75-3/8 in. today and 0.1 in. a year: 75.375 + 2 pi 0.8 = 80.40 in. after eight years, by hand."""
    assert girth_to_expect(demo.project.trees[0], 8.0) == pytest.approx(80.40, abs=0.005)


@pytest.mark.parametrize(("C_1", "g", "t"), [(30.0, 0.25, 3.0), (120.0, 0.05, 12.0)])
def test_girth_after_and_radial_growth_are_each_other_s_inverse(C_1: float, g: float, t: float) -> None:
    assert radial_growth(C_1, girth_after(C_1, g, t), t) == pytest.approx(g)


def test_crowd_by_hand() -> None:
    assert crowd_of_design(40.0, 100.0, 160.0) == 25.0


def test_dates_by_the_calendar(results_with: Callable[[str], Results]) -> None:
    """Sheets of 25 November 2026 (0.90 of the year gone); T1's bark meets its bracket 35.04 years on: 2061.94."""
    found = dues(results_with(""))
    assert [due.years for due in found] == sorted(due.years for due in found)
    contact = next(due for due in found if due.part == "T1" and "meets the bracket" in due.what)
    assert contact.years == pytest.approx(35.04, abs=0.01)
    assert contact.year == 2061


def test_every_part_is_looked_at(arrangement: Layout) -> None:
    seen = {mark for look in rounds(arrangement) for mark in look.marks}
    project = arrangement.project
    parts = {s.mark for s in arrangement.supports} | {m.mark for m in arrangement.beams}
    parts |= {b.mark for b in project.braces} | {d.mark for d in project.diagonals}
    assert parts <= seen
    assert {tree.mark for tree in project.trees} <= seen
    assert ("guard" in seen) == bool(project.loads.guard_edges)
    assert all(look.what and look.when and look.then for look in rounds(arrangement))
