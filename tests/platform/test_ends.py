"""Where pieces end: cut lengths by plain geometry, bearing up to the end of the piece, no timber in another's place."""

from __future__ import annotations

from itertools import combinations

import pytest
from arrangement_files import ARRANGEMENTS, DEMO, project_of
from cases import MEETING, case, laid_out
from shapely import Polygon

from bolewright.platform.layout.ends import bearing_length
from bolewright.platform.layout.layout import Bearing, Layout, LayoutError, find_layout
from bolewright.platform.layout.pieces import cut_pieces

# Cut lengths between the faces, or from the file's end to a face (centre line); 2-ply beams are 3 in. wide.
LENGTHS = [
    ("m_f62", "C2", 111.0, 111.0),  # 114 between post centres, less half of C1 and of C3
    ("m_f62", "C4", 111.0, 111.0),
    ("m_f62", "C1", 117.0, 117.0),  # bears the joists: through to the outer faces
    ("m_f54", "C2", 111.0, 111.0),
    ("m_f51", "E1", 113.0, 113.0),  # 116 between the centres of C1 and C2
    ("m_f48", "C2", 88.0, 88.0),  # 1/2 in. short of T1's face: as the file has it
    ("m_f48", "T1", 58.5, 58.5),
    ("c03_hung_in_face", "S1", 124.5, 124.5),
    (
        "m_f18",
        "C1",
        116.047 + 3 * 3**0.5,
        116.047 - 3 * 3**0.5,
    ),  # mitred at 30 degrees to its face: 1.5 / tan 30
]


@pytest.mark.parametrize(("name", "mark", "longest", "shortest"), LENGTHS)
def test_cut_lengths(name: str, mark: str, longest: float, shortest: float) -> None:
    piece = next(p for p in cut_pieces(laid_out(name)) if p.mark == mark)
    assert piece.longest == pytest.approx(longest, abs=1e-3)
    assert piece.shortest == pytest.approx(shortest, abs=1e-3)


BEARING = [
    ("m_f53", "J1", "C2", 1.5),  # two fields butt on the middle of a 3 in. beam
    ("m_f53", "K1", "C2", 1.5),
    ("m_f53", "J1", "C1", 3.0),
    ("m_f62", "C2", "P2", 5.5 / 2 - 1.5),  # from C1's face to the edge of the post
    ("m_f62", "C1", "P1", 5.5 / 2 + 1.5),
    ("m_f51", "C1", "P1", 5.5 / 2 + 2.0),  # the beam ends 2 in. past the middle of the post
    ("m_f18", "C1", "T1", 1.5),  # half of a 3 in. bracket
]


@pytest.mark.parametrize(("name", "mark", "below", "length"), BEARING)
def test_bearing_up_to_the_end_of_the_piece(name: str, mark: str, below: str, length: float) -> None:
    layout = laid_out(name)
    member = layout.member(mark)
    seat = next(s for s in member.seats if s.below == below)
    assert bearing_length(layout, member, seat) == pytest.approx(length, abs=1e-6)


def nothing_in_anothers_place(layout: Layout) -> None:
    """No two timbers share a place: plans of the pieces as cut, where their heights overlap."""
    pieces = [(layout.member(p.mark), Polygon(p.corners)) for p in cut_pieces(layout)]
    for (one, plan), (other, there) in combinations(pieces, 2):
        if min(one.top, other.top) - max(one.bottom, other.bottom) > 0.13:
            assert plan.intersection(there).area < 0.05, (one.mark, other.mark)


@pytest.mark.parametrize("name", MEETING)
def test_cases_build(name: str) -> None:
    nothing_in_anothers_place(laid_out(name))


@pytest.mark.parametrize("name", [DEMO, "hickory_perch", "round_the_trunk", "two_trees", *ARRANGEMENTS])
def test_arrangements_build(name: str) -> None:
    nothing_in_anothers_place(find_layout(project_of(name)))


def test_a_hanger_over_a_post_hangs_the_beam_in_the_face_of_the_other() -> None:
    """E1's line starts over the post and its hanger is named: it hangs from C1, and the post bears C1 alone."""
    layout = laid_out("m_f51")
    assert [(s.below, s.bearing) for s in layout.member("E1").seats] == [
        ("C1", Bearing.HANGS),
        ("C2", Bearing.HANGS),
    ]
    assert [m.mark for m, _ in layout.on_support("P1")] == ["C1"]


def test_a_hanger_that_is_not_used_is_said() -> None:
    notes = {note.part: note.words for note in laid_out("m_f48").notes}
    assert '1/2" short of the face of T1' in notes["C2"]
    project = case("m_f54")
    beams = tuple(
        c.model_copy(update={"hanger": "H"}) for c in project.beams
    )  # on all: none hangs from another
    said = [n.words for n in find_layout(project.model_copy(update={"beams": beams})).notes]
    assert any("hanger H named on C1 is not used" in words for words in said)
    assert any("hanger H named on the joists of field J is not used" in words for words in said)


def test_a_butt_with_a_gap_keeps_the_files_length() -> None:
    """Two beams in line over P2, each ended 1/4 in. from its middle: 89 3/4 in. long, and 2 1/2 in. of bearing."""
    project = case("m_f53")
    (beam, *_) = [c for c in project.beams if c.mark == "C2"]
    halves = (
        beam.model_copy(update={"start": (90.0, 0.0), "end": (90.0, 53.75)}),
        beam.model_copy(update={"mark": "C4", "start": (90.0, 54.25), "end": (90.0, 108.0)}),
    )
    middle = project.supports[2].model_copy(update={"mark": "P7", "at": (90.0, 54.0)})
    beams = (*(c for c in project.beams if c.mark != "C2"), *halves)
    fields = tuple(f.model_copy(update={"beams": (*f.beams, "C4")}) for f in project.joists)
    layout = find_layout(
        project.model_copy(update={"beams": beams, "joists": fields, "supports": (*project.supports, middle)})
    )
    lengths = {p.mark: p.centre for p in cut_pieces(layout)}
    assert (lengths["C2"], lengths["C4"]) == pytest.approx((53.75, 53.75))
    member = layout.member("C2")
    assert bearing_length(layout, member, member.seats[-1]) == pytest.approx(2.5)
    nothing_in_anothers_place(layout)


def test_a_cut_that_leaves_too_little_is_a_mitre() -> None:
    """Three plies on 4x4 posts: cut to C1's face, 2 1/4 in. off, C2 would leave its post (1 3/4 in. to its edge)."""
    project = case("m_f62")
    posts = {"P6": project.posts["P6"].model_copy(update={"section": "4x4"})}
    beams = tuple(c.model_copy(update={"plies": 3}) for c in project.beams)
    layout = find_layout(project.model_copy(update={"posts": posts, "beams": beams}))
    piece = next(p for p in cut_pieces(layout) if p.mark == "C2")
    assert (piece.longest, piece.shortest) == pytest.approx((114 + 4.5, 114 - 4.5))
    nothing_in_anothers_place(layout)


def test_a_beam_that_ends_at_another_off_its_post_is_refused_with_what_to_write() -> None:
    """T1 of the tee ends at C1 over a 4x4 with C1 of three plies: its end is 2 1/4 in. from the post's middle."""
    project = case("m_f48")
    posts = {"P6": project.posts["P6"].model_copy(update={"section": "4x4"})}
    beams = [
        c.model_copy(
            update={"plies": 3} if c.mark == "C1" else {"end": (90.0, 60.0)} if c.mark == "T1" else {}
        )
        for c in project.beams
    ]
    with pytest.raises(
        LayoutError, match=r"T1, cut to the face of C1, .* let it hang from C1 \(name a hanger on it\)"
    ):
        find_layout(project.model_copy(update={"posts": posts, "beams": tuple(beams)}))
