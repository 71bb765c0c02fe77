"""The solids behind elevations, sections and the view: sizes, hiding, and the data that the page turns."""

import json
import math
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon as Plan

from bolewright.drawings.bodies import View, prism
from bolewright.drawings.covering import Patch, painted
from bolewright.drawings.order import painting_order
from bolewright.drawings.solids import DECKING, solids_of
from bolewright.drawings.view3d import eye, scene_of, turning_view, view_from_above
from bolewright.platform.layout.guards import edge_name
from bolewright.platform.limit_states.check import Topic, worst
from bolewright.rendering.blocks import block_from_output
from bolewright.rendering.drawing import Fill, Layer, Pen, Polygon, Polyline
from bolewright.rendering.shades import FAILING, OPEN, SHADES
from bolewright.status import Status


def block(x, y, z, a=2.0, b=2.0, c=2.0):
    return prism("B", Layer.JOISTS, Fill.TIMBER, [(x, y), (x + a, y), (x + a, y + b), (x, y + b)], z, z + c)


def length(lines):
    return sum(math.dist(a, b) for line in lines for a, b in zip(line.points, line.points[1:], strict=False))


def test_a_block_is_seen_as_its_face():
    """3 x 4 x 5 seen along y shows 3 by 5, along x 4 by 5, on the diagonal (3 + 4) / sqrt 2 wide."""
    body = block(0, 0, 0, 3, 4, 5)
    assert body.seen(View((0.0, 1.0))).area == pytest.approx(15, rel=1e-4)
    assert body.seen(View((1.0, 0.0))).area == pytest.approx(20, rel=1e-4)
    diagonal = View((math.sqrt(0.5), math.sqrt(0.5)))
    assert body.seen(diagonal).area == pytest.approx(5 * 7 / math.sqrt(2), rel=1e-4)


def test_a_block_is_cut_in_its_section():
    body = block(0, 0, 0, 3, 4, 5)
    assert body.cut(View((0.0, 1.0)), -2.0).area == pytest.approx(15)
    assert body.cut(View((0.0, 1.0)), 2.0) is None


def test_what_a_nearer_part_covers_is_dashed_or_left_out():
    """A 4 x 4 square behind one that covers its right half: half the outline is seen, half hidden."""
    behind = Plan([(0, 0), (4, 0), (4, 4), (0, 4)])
    front = Plan([(2, -1), (6, -1), (6, 5), (2, 5)])
    for hidden, dashed in ((True, 8.0), (False, 0.0)):
        patches = [Patch(behind, Layer.BEAMS, hidden=hidden), Patch(front, Layer.JOISTS)]
        lines = [i for i in painted(patches) if isinstance(i, Polyline) and i.layer is Layer.BEAMS]
        assert length(i for i in lines if i.pen is Pen.SOLID) == pytest.approx(8.0)
        assert length(i for i in lines if i.pen is Pen.DASHED) == pytest.approx(dashed)


places = st.tuples(*[st.integers(-3, 3)] * 3)


@given(
    places=st.lists(places, min_size=2, max_size=7, unique=True),
    yaw=st.floats(-180, 180),
    pitch=st.floats(-80, 80),
)
def test_nearer_blocks_are_painted_later(places, yaw, pitch):
    """Blocks on a grid never meet, so along every line of sight that passes through two, the nearer comes later."""
    right, up, toward = eye(yaw, pitch)
    blocks = [block(3.0 * x, 3.0 * y, 3.0 * z) for x, y, z in places]
    order = painting_order(blocks, toward)
    assert sorted(order) == list(range(len(blocks)))
    rank = {number: place for place, number in enumerate(order)}
    centres = [(3.0 * x + 1, 3.0 * y + 1, 3.0 * z + 1) for x, y, z in places]
    for i, j in product(range(len(blocks)), repeat=2):
        apart = [a - b for a, b in zip(centres[i], centres[j], strict=True)]
        across = math.hypot(*(sum(a * b for a, b in zip(apart, axis, strict=True)) for axis in (right, up)))
        if i != j and across < 0.5 and sum(a * b for a, b in zip(apart, toward, strict=True)) > 0:
            assert rank[i] > rank[j]


def test_solids_stand_where_the_layout_has_them(results):
    layout = results.path.layout
    solids = solids_of(results)
    for member in layout.members:
        levels = [
            z for s in solids if s.mark == member.mark and s.layer is not Layer.BRACES for _, _, z in s.points
        ]
        assert (min(levels), max(levels)) == pytest.approx((member.bottom, member.top))
    boards = [z for s in solids if s.mark == DECKING for _, _, z in s.points]
    assert (min(boards), max(boards)) == pytest.approx(
        (layout.under_deck, layout.project.platform.floor_height)
    )
    for support in layout.supports:
        if support.kind == "post":
            post = next(s for s in solids if s.mark == support.mark and s.layer is Layer.POSTS)
            cap = layout.project.posts[support.post].cap_seat
            assert max(z for _, _, z in post.points) == pytest.approx(layout.seat_level(support.mark) - cap)


def test_every_part_of_the_view_has_its_checks_and_its_shade(results):
    scene = json.loads(scene_of(results))
    parts = {part["name"]: part for part in scene["parts"]}
    layout = results.path.layout
    assert {m.mark for m in layout.members} | {s.mark for s in layout.supports} <= set(parts)
    guards = {edge_name(run) for run in layout.guards} | {gate.mark for gate in layout.project.gates}
    guards |= {post.mark for run in layout.guards for post in run.posts}
    assert guards <= {name for name, part in parts.items() if part["checks"]}
    for name, part in parts.items():
        mark = name.removeprefix("footing ")
        footing = name != mark
        checks = [c for c in results.checks if c.part == mark and (c.topic is Topic.FOOTINGS) == footing]
        assert len(part["checks"]) == len(checks), name
        if checks:
            governing = worst(checks)[0]
            assert part["status"] == governing.status.value
            fills = {
                Status.FAILS: {FAILING.fill},
                Status.NOT_CHECKED: {OPEN.fill},
                Status.PASSES: {shade.fill for shade in SHADES},
            }
            assert part["fill"] in fills[governing.status]
    for solid in scene["solids"]:
        assert all(0 <= corner < len(solid["v"]) for face in solid["f"] for corner in face)


def test_the_view_fills_its_frame(results):
    """All that is shown, on the whole of the frame's width or of its height."""
    items = view_from_above(results).items
    corners = [
        p for item in items if isinstance(item, Polygon) and item.colour for p in item.points if p[1] >= 0
    ]
    wide, high = (max(p[k] for p in corners) - min(p[k] for p in corners) for k in (0, 1))
    assert max(wide / 172, high / 152) == pytest.approx(1.0, abs=1e-3)


def test_the_view_stands_still_without_a_script_and_travels_as_a_block(demo):
    figure = turning_view(demo)
    bundle = figure._repr_mimebundle_()
    # one picture for a notebook that is not trusted (no script, no drawn SVG), one that the script turns
    assert bundle["text/html"].startswith("<div data-still><img alt=")
    assert "<script>" in bundle["text/html"]
    assert block_from_output(bundle) == figure
    for mark in ("S1", "P1", "T1"):
        assert f">{mark} " in figure.svg
