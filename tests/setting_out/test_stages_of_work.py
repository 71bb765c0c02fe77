"""Stages and lifts: weights by hand, and everything heavy or unbraced is named before it stands."""

import pytest

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.setting_out.stages import Lift, stages


def _lifts(layout: Layout) -> dict[str, Lift]:
    found = stages(layout, {p.mark: p for p in cut_pieces(layout)})
    return {lift.mark: lift for stage in found for lift in stage.lifts}


def test_demo_weights_by_hand(demo: Layout) -> None:
    """Wet Southern Pine 38.6 pcf (NDS Supplement 3.1.3, G 0.55, 28 %): C1 is 3 x 1.5 x 11.25 x 123.1875 in."""
    lifts = _lifts(demo)
    assert lifts["C1"].whole == pytest.approx(38.6 * 4.5 * 11.25 * 123.1875 / 1728, rel=2e-3)
    assert lifts["C1"].ply == pytest.approx(lifts["C1"].whole / 3)
    assert lifts["P1"].whole == pytest.approx(38.6 * 5.5**2 * 110 / 1728, rel=2e-3)


def test_every_piece_is_lifted_once_and_from_the_ground_up(arrangement: Layout) -> None:
    found = stages(arrangement, {p.mark: p for p in cut_pieces(arrangement)})
    lifted = [lift.mark for stage in found for lift in stage.lifts]
    assert len(lifted) == len(set(lifted))
    posts = {s.mark for s in arrangement.supports if s.kind == "post"}
    assert set(lifted) == posts | {m.mark for m in arrangement.members}
    order = {mark: i for i, mark in enumerate(lifted)}
    for member in arrangement.members:
        for seat in member.seats:
            resting = seat.below in order and seat.bearing.value == "rests on"
            assert not resting or order[seat.below] < order[member.mark]
    assert all(stage.hold for stage in found)
