"""Dimensions of the demonstration's drawings against lengths found by hand from its project file."""

import math

import pytest
from reading_svg import dimensions

from bolewright.drawings.boards import board_outlines
from bolewright.drawings.files import elevations, plans, sections
from bolewright.drawings.hangers import hung_ends
from bolewright.drawings.measures import Measures
from bolewright.drawings.sections import bolt_sections
from bolewright.drawings.solids import solids_of
from bolewright.platform.project import LoadArea, Wall
from bolewright.platform.results.results import find_results
from bolewright.rendering.drawing import Dimension, Layer, Mark
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.trunk import girth_of


def words_of(drawing):
    return [item.text for item in drawing.items if isinstance(item, Dimension)]


def test_plan_of_framing(demo):
    """Outline x -58 1/4 to 74 1/2, y 18 to 134; posts at -36 and 48; bolts at -17 and 17; joists 20 to 132."""
    words = words_of(plans(demo)[0])
    assert "11' 0 3/4\"" in words  # 74.5 + 58.25 = 132.75
    assert "9' 8\"" in words  # 134 - 18 = 116
    assert "7' 0\"" in words  # 48 + 36 = 84
    assert "2' 10\"" in words  # 17 + 17 = 34
    assert "1' 10 1/4\"" in words  # 58.25 - 36
    assert "2' 2 1/2\"" in words  # 74.5 - 48
    assert "7 at 1' 4\" = 9' 4\"" in words  # 132 - 20 = 112


def test_chains_close_on_the_whole(demo):
    """Posts and bolts each run from edge to edge: their spaces add up to the width of the deck."""
    items = [item for item in plans(demo)[0].items if isinstance(item, Dimension)]
    rows = {}
    for item in items:
        if item.start[1] == item.end[1] and item.offset < 0:
            rows.setdefault(item.offset, []).append(math.dist(item.start, item.end))
    assert len(rows) == 3
    assert [sum(row) for row in rows.values()] == pytest.approx([132.75] * 3)


def test_levels_in_elevation(demo):
    """Floor 84; decking 1 1/2; stringers 2x12 level with the joists; C1 2x12 under: 84 - 1.5 - 2 x 11.25 = 60."""
    words = words_of(elevations(demo)[0])
    assert {"5' 0\"", '11 1/4"', '1 1/2"', "7' 0\""} <= set(words)
    assert words.count("2' 6\"") == 4  # rise and run of two knee braces


def test_section_at_the_bolt(demo):
    """Girth 75 3/8: radius 12; bark 1, thread 7 in sound wood, bearing 17 from the axis: 5 off bark, 6 off wood."""
    bolt = sections(demo)[0]
    assert {'7"', '1"', '5"', '6"'} <= set(words_of(bolt))
    assert bolt.title == "Section at tree bolt T1, T2"


def test_section_at_the_post(demo):
    footing = next(iter(demo.project.footings.values()))
    post = sections(demo)[1]
    words = words_of(post)
    length = Measures.IMPERIAL.length
    assert length(footing.width) in words
    assert length(footing.pad) in words
    assert length(footing.depth - footing.pad) in words
    assert length(demo.project.site.frost_depth) in words


def test_skew_of_every_hanger_by_vectors(demo):
    """Bevel of a joist against the beam it hangs on: 90 degrees less the angle between their directions."""
    layout = demo.path.layout
    for hung in hung_ends(layout):
        u, v = hung.member.line.u, hung.beam.line.u
        between = math.degrees(math.acos(abs(u[0] * v[0] + u[1] * v[1])))
        assert hung.cut.bevel == pytest.approx(90 - between, abs=1e-6)


def test_boards_cover_the_deck_less_their_gaps(demo):
    """Area of all boards and of the gaps between rows is the area of the deck (board 5.5, gap 1/8)."""
    layout = demo.path.layout
    boards = board_outlines(demo)
    covered = sum(board.outline.area for board in boards)
    assert covered < layout.deck.area
    assert covered / layout.deck.area == pytest.approx(5.5 / 5.625, abs=0.01)


def test_svg_of_the_plan_says_the_same_as_the_model(demo):
    plan = plans(demo)[0]
    model = sorted((i.text, math.dist(i.start, i.end)) for i in plan.items if isinstance(i, Dimension))
    drawn = sorted(dimensions(to_svg(plan, height=189.5)))
    assert [words for words, _ in drawn] == [words for words, _ in model]
    for (_, length), (_, there) in zip(model, drawn, strict=True):
        assert there == pytest.approx(length, abs=0.01)


def test_a_wall_stands_in_elevation_with_its_mark_and_height(demo):
    """A wall 6 ft high on the long edge (3), 4 ft from its first corner and 5 ft long."""
    wall = Wall(mark="W1", edge=3, height="6'", start="4'", length="5'")
    project = demo.project.model_copy(update={"walls": (wall,)})
    results = find_results(project)
    face = next(s for s in solids_of(results) if s.mark == "W1")
    assert max(math.dist(a[:2], b[:2]) for a in face.points for b in face.points) == pytest.approx(60.0)
    assert {z for _, _, z in face.points} == {84.0, 156.0}
    front = elevations(results)[0]
    assert "6' 0\"" in words_of(front)
    assert "W1" in [item.text for item in front.items if isinstance(item, Mark)]


def test_an_area_with_a_load_of_its_own_is_on_the_plan_of_decking(demo):
    area = LoadArea(
        mark="TUB",
        corners=(("0 in", "60 in"), ("40 in", "60 in"), ("40 in", "100 in"), ("0 in", "100 in")),
        load="80 psf",
        kind="dead",
        note="a tub of earth",
    )
    results = find_results(demo.project.model_copy(update={"load_areas": (area,)}))
    plan = plans(results)[1]
    shape = next(i for i in plan.items if getattr(i, "layer", None) is Layer.LOADS)
    assert shape.points == ((0, 60), (40, 60), (40, 100), (0, 100))
    assert "TUB" in [item.text for item in plan.items if isinstance(item, Mark)]
    assert any("TUB: 80 psf, dead, a tub of earth." in line for line in plan.heading)


def test_every_bolt_section_measures_what_the_checks_count(results):
    """Thread in sound wood, bark, bark to bearing, and the lever arm with the bracket slid out as far as it goes."""
    layout = results.path.layout
    trees = {tree.mark: tree for tree in layout.project.trees}
    drawn = {drawing.title: words_of(drawing) for drawing in bolt_sections(results)}
    for support in layout.supports:
        if support.kind != "tree bolt":
            continue
        words = next(
            (w for title, w in drawn.items() if support.mark in title.replace(",", " ").split()), None
        )
        if words is None:  # drawn once for several in a run
            continue
        tree, bolt = trees[support.tree], layout.project.bolts[support.bolt]
        R = girth_of(tree) / (2 * math.pi)
        far, a = math.dist(support.at, tree.at), 0.0
        if support.direction is not None:  # square off the bolt's line to the axis, and along it
            turn = math.radians(support.direction)
            dx, dy = support.at[0] - tree.at[0], support.at[1] - tree.at[1]
            a = abs(dx * math.sin(turn) - dy * math.cos(turn))
        x_b, bark, sound = (math.sqrt(s**2 - a**2) for s in (far, R, R - tree.bark))
        length = Measures.IMPERIAL.length
        wanted = [bolt.embedment, bark - sound, x_b - bark, x_b - sound + bolt.slide]
        # Spaces of one chain add up in sixteenths, so one of them may be a sixteenth off its own rounding.
        near = [{length(x + off / 16) for off in (-1, 0, 1)} for x in wanted]
        assert all(n & set(words) for n in near), (support.mark, near, words)
