"""Small framings of the kinds that carpenters use: each is laid out, or refused with what to write; none crashes."""

from __future__ import annotations

import pytest
from framings import FRAMINGS, REFUSED
from test_ends import nothing_in_anothers_place
from test_levels import stack_is_seat

from bolewright.drawings.files import all_drawings
from bolewright.drawings.view3d import view_from_above
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.results.results import Results, find_results
from bolewright.setting_out.data import setting_out_data
from bolewright.take_off.cut_list import Use, find_cuts
from bolewright.take_off.export import take_off_files


@pytest.fixture(scope="module", params=FRAMINGS)
def results(request: pytest.FixtureRequest) -> Results:
    return find_results(parse_project(FRAMINGS[request.param]))


def test_it_stands_in_balance_and_can_be_built(results: Results) -> None:
    layout = results.path.layout
    parts = {check.part for check in results.checks}
    assert {m.mark for m in layout.members} | {s.mark for s in layout.supports} <= parts
    for laid, carried in results.path.balance().values():
        assert carried == pytest.approx(laid, rel=1e-6)
    nothing_in_anothers_place(layout)
    rows = [(check.part, check.limit_state) for check in results.checks]
    assert len(rows) == len(set(rows))


def test_levels_are_the_same_wherever_they_are_read(results: Results) -> None:
    """Stack, seat, and the post in the cut list: concrete 10 in. thick in a hole of 48 in., floor at 108 in."""
    layout = results.path.layout
    stack_is_seat(layout)
    for cut in find_cuts(results):
        if cut.use is Use.POST:
            assert cut.long == pytest.approx(layout.seat_level(cut.mark) + 38, abs=1 / 16)


def test_every_document_is_made_of_it(results: Results) -> None:
    assert setting_out_data(results)
    assert take_off_files(results)
    assert all_drawings(results)
    assert view_from_above(results)


@pytest.mark.parametrize("name", REFUSED)
def test_refused_with_what_to_write_instead(name: str) -> None:
    text, said = REFUSED[name]
    with pytest.raises(LayoutError) as caught:
        find_results(parse_project(text))
    assert said in str(caught.value)
