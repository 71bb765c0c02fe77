"""Deck corners against the geometry of the outline, by ways that the program does not go."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.platform.layout.layout import Bearing
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.setting_out.corners import along_beam, deck_corners
from bolewright.setting_out.fall import fall_of


def crossed(one, other, from_one, from_other):
    """Both places where two tapes cross (two circles)."""
    (ax, ay), (bx, by) = one, other
    d = math.dist(one, other)
    a = (from_one**2 - from_other**2 + d * d) / (2 * d)
    h = math.sqrt(max(from_one**2 - a * a, 0.0))
    ux, uy = (bx - ax) / d, (by - ay) / d
    return [(ax + a * ux - s * h * uy, ay + a * uy + s * h * ux) for s in (1, -1)]


def test_two_tapes_cross_at_every_corner_of_the_outline(arrangement):
    found = deck_corners(arrangement)
    platform = arrangement.project.platform
    outline = [point for ring in (platform.outline, *platform.openings) for point in ring]
    assert len(found.corners) == len(outline)
    for corner, point in zip(found.corners, outline, strict=True):
        places = crossed(*found.pegs, corner.from_a, corner.from_b)
        assert min(math.dist(place, point) for place in places) < 1e-3, corner.name


def test_edges_add_up_to_the_outline_of_the_deck(arrangement):
    found = deck_corners(arrangement)
    deck = arrangement.deck
    whole = deck.exterior.length + sum(ring.length for ring in deck.interiors)
    assert sum(edge.length for edge in found.edges) == pytest.approx(whole)


def test_four_edges_and_two_diagonals_give_the_area_of_the_demonstrations_deck(demo):
    """A quadrilateral's area by its sides and diagonals (Bretschneider) is that of its corners (shoelace)."""
    found = deck_corners(demo)
    a, b, c, d = (edge.length for edge in found.edges)
    p, q = (closing.wanted for closing in found.diagonals)
    area = math.sqrt(4 * p * p * q * q - (b * b + d * d - a * a - c * c) ** 2) / 4
    points = demo.project.platform.outline
    shoelace = sum(x * v - u * y for (x, y), (u, v) in zip(points, [*points[1:], points[0]], strict=True)) / 2
    assert area == pytest.approx(abs(shoelace))


def test_corners_of_the_demonstration_by_hand(demo):
    """Pegs A and B stand at x -17 and 17; corner 1 at y 18 lies on the drawing's left, 4 ft 2 in. from corner 2."""
    found = deck_corners(demo)
    (ax, ay), (bx, by) = found.pegs
    assert (ax, bx) == (-17.0, 17.0)
    assert ay == by
    first, point = found.corners[0], demo.project.platform.outline[0]
    assert first.from_a == pytest.approx(math.hypot(point[0] + 17.0, point[1] - ay))
    assert found.edges[0].length == pytest.approx(50.0)


def test_places_along_a_beam_run_from_its_start_to_its_length(arrangement):
    pieces = {piece.mark: piece for piece in cut_pieces(arrangement)}
    for beam in arrangement.beams:
        places = [at for _, at in along_beam(arrangement, pieces, beam.mark)]
        assert places[0] == 0.0
        assert places[-1] == pieces[beam.mark].centre
        assert places == pytest.approx(sorted(places))
        rests = [seat for seat in beam.seats if seat.bearing is Bearing.RESTS]
        assert len(places) == 2 + len(rests)


@given(
    slope=st.floats(0.001, 0.5),
    way=st.floats(0.0, 2 * math.pi),
    base=st.floats(-100.0, 100.0),
)
def test_fall_of_a_plane_is_that_plane(slope, way, base):
    down = (math.cos(way), math.sin(way))
    spots = [(0.0, 0.0), (100.0, 0.0), (0.0, 80.0), (70.0, 90.0)]
    fall = fall_of([(x, y, base - slope * (x * down[0] + y * down[1])) for x, y in spots])
    assert fall.slope == pytest.approx(slope, rel=1e-6)
    assert fall.down == pytest.approx(down, abs=1e-6)


def test_levels_in_one_line_or_too_few_fix_no_fall():
    assert fall_of([(0, 0, 0), (100, 0, -5)]) is None
    assert fall_of([(0, 0, 0), (100, 100, -5), (200, 200, -10)]) is None
    assert fall_of([(0, 0, 3), (100, 0, 3), (0, 100, 3)]).level
