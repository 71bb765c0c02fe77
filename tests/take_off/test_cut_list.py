"""The cut list of the demonstration by hand, and laws that every arrangement's list keeps."""

from collections import Counter
from pathlib import Path

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.loads.load_path import line_weight
from bolewright.platform.results.results import find_results
from bolewright.take_off.boards import deck_boards
from bolewright.take_off.cut_list import Use, cut_lines, find_cuts, run_of
from bolewright.take_off.weights import board_measure, people_to_lift
from bolewright.timber.sections import parse_section

ARRANGEMENTS = sorted((Path(__file__).parents[1] / "platform" / "arrangements").glob("*.toml"))
SIXTEENTH = 1 / 32  # half a sixteenth: lengths are rounded to one


def cut_of(demo, label):
    return next(cut for cut in demo.cuts if cut.label == label)


@pytest.mark.parametrize(
    ("label", "long", "short"),
    [
        # post: floor 84 - board 1.5 - S 11.25 - C 11.25 = 60 above grade, and 54 - 10 = 44 below it
        ("P1", 104.0, 104.0),
        # C1 from x = -54 11/16 to 68 1/2
        ("C1/2", 123.1875, 123.1875),
        # S1: sqrt(41 1/16^2 + 139^2)
        ("S1/1", 144.938, 144.938),
        # J1 at y = 20 by similar triangles: centre lines at x = -22.9307 and 25.3371, faces 1.56408 and 1.62509
        # in from them, points 0.75 (0.29541 + 0.41682) = 0.53417 out and in
        ("J1", 45.613, 44.544),
        # board 7: the deck's left edge is at x = -24.226 where its right side is, at y = 18
        ("D8", 116.0, 116.0),
    ],
)
def test_lengths_of_the_demonstration_by_hand(demo, label, long, short):
    cut = cut_of(demo, label)
    assert cut.long == pytest.approx(long, abs=SIXTEENTH)
    assert cut.short == pytest.approx(short, abs=SIXTEENTH)


def test_counts_of_the_demonstration(demo):
    """2 posts; 3 beams of 2 plies; 8 joists; 2 braces of 2 plies; 24 rows of boards, each in one piece."""
    counts = Counter(cut.use for cut in demo.cuts)
    assert counts == {Use.POST: 2, Use.BEAM: 6, Use.JOIST: 8, Use.BRACE: 4, Use.DECKING: 24}


@pytest.mark.parametrize(
    ("label", "pounds"),
    [
        # 62.4 x 0.55 / (1 + 0.55 x 0.009 x 28) x 1.28 = 38.582 pcf (NDS Supplement 2018, 3.1.3)
        ("P1", 38.582 * 5.5 * 5.5 * 104 / 1728),
        ("C1/1", 38.582 * 1.5 * 11.25 * 123.1875 / 1728),
        ("J1", 38.582 * 1.5 * 7.25 * 45.625 / 1728),
        ("D8", 38.582 * 1.5 * 5.5 * 116 / 1728),
    ],
)
def test_weights_of_the_demonstration_by_hand(demo, label, pounds):
    assert cut_of(demo, label).weight == pytest.approx(pounds, rel=2e-5)


@pytest.mark.parametrize(
    ("section", "inches", "feet"),
    [
        ("2x8", 144, 16.0),  # 2 x 8 x 12 / 12
        ("6x6", 104, 26.0),  # 6 x 6 x 8.6667 / 12
        ("5/4x6", 120, 6.25),  # 1.25 x 6 x 10 / 12
        ("2x12", 123.1875, 20.53125),  # 2 x 12 x 10.265625 / 12
    ],
)
def test_board_feet_by_hand(section, inches, feet):
    """Nominal thickness x width x feet / 12: American Softwood Lumber Standard PS 20, board measure."""
    assert board_measure(parse_section(section), inches) == pytest.approx(feet, abs=1e-9)


def test_the_heaviest_lift_is_the_longest_beam_with_both_plies(demo):
    """S2: 2 x 38.582 x 16.875 in2 x 150.5625 in / 1728 = 113.5 lb, three people at 50 lb."""
    lift = demo.lifts[0]
    assert (lift.mark, lift.plies, lift.people) == ("S2", 2, 3)
    assert lift.weight == pytest.approx(2 * 38.582 * 16.875 * 150.5625 / 1728, rel=2e-5)
    assert demo.weight == pytest.approx(sum(lift.weight for lift in demo.lifts))


@pytest.mark.parametrize(("pounds", "people"), [(1, 1), (50, 1), (50.5, 2), (100, 2), (113.5, 3)])
def test_people_to_lift(pounds, people):
    assert people_to_lift(pounds) == people


def test_a_beam_is_as_heavy_as_the_load_path_counts_it(demo):
    layout = demo.results.path.layout
    lifts = {lift.mark: lift.weight for lift in demo.lifts}
    for beam in layout.beams:
        own = line_weight(beam) * beam.line.length
        assert lifts[beam.mark] == pytest.approx(own, abs=line_weight(beam) / 16)


def test_marks_in_few_words():
    assert run_of(["D8", "D9", "D10", "D11", "D13"]) == "D8 to D11, D13"
    assert run_of(["P1", "P2"]) == "P1, P2"


# Every arrangement


@pytest.fixture(scope="module", params=ARRANGEMENTS, ids=lambda path: path.stem)
def results(request):
    return find_results(read_project(request.param))


def test_every_part_is_in_the_list_and_no_stick_twice(results):
    layout, cuts = results.path.layout, find_cuts(results)
    labels = Counter(cut.label for cut in cuts)
    assert max(labels.values()) == 1
    marks = {cut.mark for cut in cuts}
    wanted = {m.mark for m in layout.members} | {s.mark for s in layout.supports if s.kind == "post"}
    assert wanted | {brace.mark for brace in layout.project.braces} <= marks
    for member in layout.members:
        assert sum(cut.mark == member.mark for cut in cuts) == member.section.plies
    assert sum(line.count for line in cut_lines(cuts)) == len(cuts)


def test_lengths_are_those_of_the_setting_out(results):
    """The longest ply of every piece takes what the setting-out sheet says the whole piece takes, or less."""
    cuts = find_cuts(results)
    for piece in cut_pieces(results.path.layout):
        plies = [cut for cut in cuts if cut.mark == piece.mark]
        assert max(cut.long for cut in plies) <= piece.longest + SIXTEENTH
        mean = sum((cut.long + cut.short) / 2 for cut in plies) / len(plies)
        assert mean == pytest.approx(piece.centre, abs=SIXTEENTH)


def test_boards_cover_the_deck(results):
    """Width times mean length of all boards, and the gaps, is the deck's area; ends of slivers are a few inches."""
    layout, boards = results.path.layout, deck_boards(results, 1e4)
    regions = {board.field for board in boards}
    assert regions == {field.mark for field in layout.project.joists}
    area = sum(board.width * (board.long + board.short) / 2 for board in boards)
    gaps = sum(layout.project.decking.gap * (board.long + board.short) / 2 for board in boards)
    deck = layout.deck.area - sum(region.area for region in _room(results))
    covered = _covered(layout)
    if covered:
        assert area + gaps == pytest.approx(deck, rel=0.03)


def _room(results):
    from bolewright.setting_out.cutout import cut_outs, room_needed

    room = room_needed(cut_outs(results))
    return [] if room is None else [results.path.layout.deck.intersection(room)]


def _covered(layout):
    """Whether the joist fields' regions are the whole deck, each place once."""
    return all(field.region is None for field in layout.project.joists) and len(layout.project.joists) == 1


@pytest.mark.parametrize("longest", [96.0, 60.0])
def test_boards_are_jointed_over_members_and_no_longer_than_asked(longest, demo):
    layout = demo.results.path.layout
    whole = {board.row: board for board in deck_boards(demo.results, 1e4)}
    pieces = deck_boards(demo.results, longest)
    assert len(pieces) > len(whole)
    assert all(board.long <= longest + 1e-6 for board in pieces)
    joists = [member.line.start[1] - 18.0 for member in layout.joists]  # the boards start at y = 18
    for row, board in whole.items():
        parts = [part for part in pieces if part.row == row]
        assert sum(part.long for part in parts) == pytest.approx(board.long, abs=1e-6)
        if row in range(8, 16):  # rows that run from the deck's front to its back
            ends = [sum(part.long for part in parts[: i + 1]) for i in range(len(parts) - 1)]
            for end in ends:
                assert min(abs(end - joist) for joist in joists) < 1e-6
    even, odd = (
        {tuple(part.long for part in pieces if part.row == row) for row in rows}
        for rows in ((8, 10, 12), (9, 11, 13))
    )
    assert not even & odd  # joints of neighbouring rows lie on different joists


@pytest.mark.parametrize("name", ["hickory_perch", "lookout", "round_the_trunk", "two_trees"])
def test_no_two_sticks_have_one_label(name):
    """Beams of the perch are marked D1 and D2: its boards begin with another letter."""
    cuts = find_cuts(find_results(read_project(shipped("calcsheets") / f"{name}.toml")))
    labels = Counter(cut.label for cut in cuts)
    assert [label for label, count in labels.items() if count > 1] == []
