"""Knee braces: the strip of the brace clipped by post face and carrier underside with shapely, against the formulas."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon, box

from bolewright.platform.layout import Layout
from bolewright.platform.project import Brace
from bolewright.setting_out.braces import brace_cuts, knee_long_edge, knee_short_edge
from bolewright.setting_out.pieces import cut_pieces


def _clipped(a: float, r: float, w: float, d: float) -> Polygon:
    """Strip of depth d along the line (0, -a) to (r, 0), right of the post's face and below the carrier."""
    length = math.hypot(a, r)
    u, n = (r / length, a / length), (-a / length, r / length)
    far = 500.0
    corners = [
        (s * u[0] + side * d / 2 * n[0], -a + s * u[1] + side * d / 2 * n[1])
        for s, side in ((-far, 1), (far, 1), (far, -1), (-far, -1))
    ]
    return Polygon(corners).intersection(box(w / 2, -1000, 1000, 0))


@given(st.floats(18, 60), st.floats(18, 60), st.floats(3, 8), st.floats(3, 6))
def test_edges_of_a_fitted_knee(a: float, r: float, w: float, d: float) -> None:
    assume(knee_short_edge(a, r, w, d) > 2)
    shape = _clipped(a, r, w, d)
    corners = list(shape.exterior.coords[:-1])
    on_post = sorted(y for x, y in corners if abs(x - w / 2) < 1e-9)
    under = sorted(x for x, y in corners if abs(y) < 1e-9)
    assert (len(on_post), len(under)) == (2, 2)
    # The lower edge runs from the lowest point on the post to the farthest under the carrier.
    assert math.dist((w / 2, on_post[0]), (under[1], 0)) == pytest.approx(
        float(knee_long_edge(a, r, w, d)), abs=1e-6
    )
    assert math.dist((w / 2, on_post[1]), (under[0], 0)) == pytest.approx(
        float(knee_short_edge(a, r, w, d)), abs=1e-6
    )


def _with(layout: Layout, **keys: object) -> Layout:
    brace = {
        "mark": "K9", "support": "P1", "carrier": "C1", "towards": "end", "rise": "30 in", "run": "40 in",
        "section": "2x6", "species": "Southern Pine", "grade": "No.2",
    }  # fmt: skip
    project = layout.project.model_copy(update={"braces": (Brace.model_validate(brace | keys),)})
    return replace(layout, project=project)


def test_a_fitted_brace_in_the_demo(demo: Layout) -> None:
    """30 up, 40 along: slope 3 in 4, plumb cut atan(3/4) = 36.87 deg from square, level cut the rest of 90."""
    (cut,) = brace_cuts(_with(demo, rated_load="500 lb"), {p.mark: p for p in cut_pieces(demo)})
    assert cut.fitted
    assert cut.axis == pytest.approx(50)
    assert cut.plumb == pytest.approx(36.8699, abs=1e-4)
    assert cut.plumb + cut.level == pytest.approx(90)
    assert cut.along_carrier == pytest.approx(18.6875 + 40)


def test_a_lapped_brace_in_the_demo(demo: Layout) -> None:
    """Upper bolts at mid-depth of the 11 1/4 in. carrier, 5 5/8 above its underside, on the brace's own line.

    Bolt to bolt by Pythagoras over (40 + 7.5) along and (30 + 5.625) up; ends 7 D = 3 1/2 in. beyond the bolts.
    """
    cuts = brace_cuts(
        _with(demo, bolts=2, bolt_diameter="1/2 in", towards="start"), {p.mark: p for p in cut_pieces(demo)}
    )
    (cut,) = cuts
    over = 5.625 * 40 / 30
    assert cut.short_edge == pytest.approx(math.hypot(40 + over, 30 + 5.625))
    assert cut.long_edge == pytest.approx(cut.short_edge + 7)
    assert (cut.plumb, cut.level) == (0, 0)
    assert cut.along_carrier == pytest.approx(18.6875 - 40 - over)
