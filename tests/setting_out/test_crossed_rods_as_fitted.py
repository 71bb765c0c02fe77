"""Crossed rods on the way to the job: length and slope by geometry, in the lists, on the drawings, in the stages.

Posts 84 in apart, beams' underside at 100 in (10 ft less boards, joists, beam), ends 6 in below it and 8 in above
grade: a rise of 86 in, a rod of sqrt(84² + 86²) = 120.22 in, 45.67 degrees from level.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from bolewright.drawings.files import drawing_files
from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.results.results import Results, find_results
from bolewright.platform.solids.bodies import BodyKind, bodies_of
from bolewright.setting_out.closing import framing_closings
from bolewright.setting_out.crossed import rod_cuts
from bolewright.setting_out.data import setting_out_data
from bolewright.setting_out.stages import stages
from bolewright.take_off.connections import connection_schedule
from bolewright.take_off.hardware import hardware_list

FILE = Path(__file__).parents[1] / "platform" / "arrangements" / "crossed_rods.toml"


@pytest.fixture(scope="module")
def found() -> Results:
    return find_results(read_project(FILE))


def test_length_and_slope(found: Results) -> None:
    cuts = rod_cuts(found.path.layout)
    assert [(c.mark, c.head, c.foot) for c in cuts] == [
        ("XR1", "P3", "P1"),
        ("XR1", "P1", "P3"),
        ("XR2", "P4", "P2"),
        ("XR2", "P2", "P4"),
    ]
    for cut in cuts:
        assert cut.length == pytest.approx(120.22, abs=0.005)
        assert cut.slope == pytest.approx(45.67, abs=0.005)


def test_in_every_list(found: Results) -> None:
    layout = found.path.layout
    rods = [item for item in hardware_list(found) if item.name == "crossed rod"]
    assert sum(item.count for item in rods) == 4
    ends = [joint for joint in connection_schedule(found) if joint.kind == "ends of crossed rods"]
    assert sorted(part for joint in ends for part in joint.parts) == [
        "XR1 at P1",
        "XR1 at P3",
        "XR2 at P2",
        "XR2 at P4",
    ]
    assert len(setting_out_data(found)["crossed_rods"]) == 4
    pieces = {p.mark: p for p in cut_pieces(layout)}
    assert sum("XR" in c.what for c in framing_closings(layout, pieces)) == 4
    assert any("XR1" in stage.name for stage in stages(layout, pieces))


def test_on_the_drawings(found: Results) -> None:
    files = drawing_files(found)
    for name in ("plan-of-framing", "elevation-b"):
        (svg,) = (data for key, data in files.items() if name in key and key.endswith(".svg"))
        assert b"XR1" in svg


def test_the_bodies_cross_beside_each_other(found: Results) -> None:
    """Each runs from a post's middle line to the other's; at the middle they lie side by side, not in one place."""
    one, two = [b for b in bodies_of(found.path.layout) if b.kind is BodyKind.ROD and b.mark == "XR1"]
    for body in (one, two):
        low, high = body.convex.low, body.convex.high
        assert low[1] == pytest.approx(14, abs=0.4)
        assert high[1] == pytest.approx(98, abs=0.4)
    apart = one.convex.points.mean(axis=0) - two.convex.points.mean(axis=0)
    assert abs(apart[0]) == pytest.approx(0.625)
