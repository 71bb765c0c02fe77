"""The buying list: every piece from one stick with its saw cuts and trims, prices, the car, and what is too long."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.platform.file.reading import ProjectError, parse_project, read_project
from bolewright.platform.results.results import find_results
from bolewright.take_off.buying import buying_list, near_misses, stick_needed
from bolewright.take_off.cut_list import Cut, Lumber, Use, find_cuts
from bolewright.take_off.stock import USUAL_LENGTHS, offers
from bolewright.units import INCH, feet_inches, read

DEMO = (Path(__file__).parents[1] / "projects" / "lookout_braced.toml").read_text(encoding="utf-8")
ARRANGEMENTS = sorted((Path(__file__).parents[1] / "platform" / "arrangements").glob("*.toml"))


def assert_feasible(purchases, cuts, stock):
    """Every cut from one stick, none over length: saw cut after each piece but the last, trim at both ends."""
    bought = [cut.label for purchase in purchases for stick in purchase.sticks for cut in stick.cuts]
    too_long = [cut.label for purchase in purchases for cut in purchase.too_long]
    assert sorted(bought + too_long) == sorted(cut.label for cut in cuts)
    for purchase in purchases:
        for stick in purchase.sticks:
            assert stick.cuts
            assert {cut.lumber for cut in stick.cuts} == {purchase.lumber}
            sawn = sum(cut.buy for cut in stick.cuts) + stock.kerf * (len(stick.cuts) - 1)
            assert sawn + 2 * stock.end_trim <= stick.offer.length + 1e-9
            assert stick.left <= stick.offer.length - 2 * stock.end_trim - sawn + 1e-9


@pytest.mark.parametrize("path", ARRANGEMENTS, ids=lambda path: path.stem)
def test_every_arrangement_is_bought_feasibly_and_proven(path):
    project = read_project(path)
    cuts = find_cuts(find_results(project))
    purchases = buying_list(project, cuts)
    assert_feasible(purchases, cuts, project.stock)
    for purchase in purchases:
        assert purchase.proven
        assert purchase.bought >= purchase.used
        assert 0 <= purchase.waste < 1


def test_the_demonstration_by_hand(demo):
    """C1 fits 12 ft once each; S1 (12' 0 15/16") and S2 want 14 ft each; both posts come out of one 18 ft stick."""
    counts = {
        (p.lumber.section, p.lumber.treatment): [(offer.length / 12, n) for offer, n in p.counts]
        for p in demo.purchases
    }
    assert counts["2x12", "UC4A"] == [(12, 2), (14, 4)]
    assert counts["6x6", "UC4B"] == [(18, 1)]  # 2 x 107 + 1/8 + 2 x 1/2 = 215 1/8 <= 216
    assert counts["2x6", "UC4A"] == [(20, 1)]  # 4 x 57 3/8 + 3/8 + 1 = 230 7/8 <= 240
    assert (
        sum(n * feet for feet, n in counts["2x8", "UC4A"]) == 60
    )  # J1 to J8 are 57 ft: 58 ft leaves no saw cuts


@pytest.mark.parametrize("section", ["2x8", "2x12", "6x6"])
def test_the_demonstration_cannot_be_bought_in_fewer_feet(demo, least_by_brute_force, section):
    """Every way to part the pieces into sticks of 8 to 20 ft, in 32nds: pieces and 1/8 in., sticks less 1 in."""
    purchase = next(p for p in demo.purchases if p.lumber.section == section)
    cuts = tuple(round(cut.buy * 32) + 4 for stick in purchase.sticks for cut in stick.cuts)
    sticks = {384 * feet - 32 + 4: feet for feet in range(8, 21, 2)}
    assert purchase.bought == 12 * least_by_brute_force(cuts, sticks)
    assert purchase.reached == purchase.bound == purchase.bought


def test_a_piece_a_little_too_long_for_a_stick_is_named(demo):
    purchase = next(p for p in demo.purchases if p.lumber.section == "2x12")
    (miss,) = near_misses(demo.results.project, purchase)
    assert {cut.mark for cut in miss.cuts} == {"S1"}
    assert miss.stick == 144
    assert miss.over == pytest.approx(144.9375 + 1 - 144)


def pieces(lengths):
    lumber = Lumber("2x8", "Southern Pine", "No.2", "UC4A")
    return [
        Cut(f"A{i}", Use.JOIST, lumber, long, long, long, ("square", "square"), 1.0)
        for i, long in enumerate(lengths, start=1)
    ]


def with_stock(lines):
    return parse_project(f"{DEMO}\n{lines}")


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(4 * 16, 190 * 16).map(lambda n: n / 16), min_size=1, max_size=14),
    st.sampled_from(["0 in", "3/32 in", "1/8 in", "3 mm"]),
    st.sampled_from(["0 in", "1/2 in", "10 mm"]),
)
def test_any_pieces_fit_their_sticks_with_any_saw(lengths, kerf, trim):
    project = with_stock(f'[stock]\nkerf = "{kerf}"\nend_trim = "{trim}"')
    cuts = pieces(lengths)
    assert_feasible(buying_list(project, cuts, seconds=2), cuts, project.stock)


def test_a_piece_of_the_whole_stick_needs_no_saw_cut_after_it():
    project = with_stock('[stock]\nend_trim = "0 in"')
    (purchase,) = buying_list(project, pieces([96.0]))
    assert [offer.length for offer, _ in purchase.counts] == [96.0]
    (purchase,) = buying_list(project, pieces([48.0, 48.0]))
    assert purchase.bought == 120.0  # two halves and a saw cut do not come out of 8 ft


PRICES = """
[[price]]
item = "2x8"
length = "8 ft"
each = 7.00
[[price]]
item = "2 x 8"
length = "16 ft"
each = 18.50
"""


def test_prices_decide_what_is_bought():
    """Four pieces of 7 ft: four sticks of 8 ft at 7.00 are 28.00, two of 16 ft at 18.50 would be 37.00."""
    cuts = pieces([84.0] * 4)
    (purchase,) = buying_list(with_stock(PRICES), cuts)
    assert [(offer.length, n) for offer, n in purchase.counts] == [(96.0, 4)]
    assert purchase.cost == pytest.approx(28.0)
    assert purchase.reached == pytest.approx(28.0)
    dear = with_stock(PRICES.replace("7.00", "9.50"))
    (purchase,) = buying_list(dear, cuts)
    assert [(offer.length, n) for offer, n in purchase.counts] == [(192.0, 2)]
    assert purchase.cost == pytest.approx(37.0)


def test_a_price_for_a_grade_stands_before_one_for_any():
    lines = PRICES + '[[price]]\nitem = "2x8"\nlength = "8 ft"\ngrade = "No. 2"\neach = 6.5\n'
    found = offers(with_stock(lines), "2x8", "No.2")
    assert [(o.length, o.price) for o in found] == [(96.0, 6.5), (192.0, 18.5)]
    assert offers(with_stock(lines), "2x8", "No.1")[0].price == 7.0
    assert [o.length for o in offers(with_stock(lines), "2x6", "No.2")] == list(USUAL_LENGTHS)


def test_the_car_sets_the_longest_stick_and_what_must_be_longer_is_delivered(demo_with):
    found = demo_with('[stock]\nlongest = "12 ft"')
    for purchase in found.purchases:
        for stick in purchase.sticks:
            if stick.offer.length > 144:
                assert stick.offer.delivered
                assert any(stick_needed(cut, found.results.project.stock) > 144 for cut in stick.cuts)
    beams = next(p for p in found.purchases if p.lumber.section == "2x12")
    assert [(o.length, o.delivered, n) for o, n in beams.counts] == [(144.0, False, 2), (168.0, True, 4)]


def test_what_no_stick_gives_is_named_and_not_left_out(demo_with):
    found = demo_with('[stock]\nlengths = ["8 ft", "10 ft"]')
    beams = next(p for p in found.purchases if p.lumber.section == "2x12")
    assert {cut.mark for cut in beams.too_long} == {"S1", "S2", "C1"}
    joists = next(p for p in found.purchases if p.lumber.section == "2x8")
    assert {cut.mark for cut in joists.too_long} == {"J8"}  # 10' 5 3/8"


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ('[[price]]\nitem = "2x8"\neach = 4', "2x8 is lumber: say for which length"),
        ('[[price]]\nitem = "hanger HJ"\nlength = "8 ft"\neach = 4', "no size of lumber"),
        ('[[price]]\nitem = "gravel"\neach = -4', "less than 0"),
        ('[[price]]\nitem = "a"\neach = 4\n[[price]]\nitem = "A "\neach = 5', "has a price"),
        ('[stock]\nkerf = "2 in"', "more than 0.5 in"),
        ('[stock]\nlengths = ["8"]', "has no unit"),
        ('[stock]\nbag_yield = "0.6 ft2"', "is a area|is an area"),
        ("[stock]\nlenghts = []", "no such key"),
    ],
)
def test_a_wrong_line_is_refused_in_one_sentence(lines, says):
    with pytest.raises(ProjectError, match=says):
        with_stock(lines)


@given(st.integers(0, 60 * 12 * 16))
def test_a_length_to_a_sixteenth_reads_back_as_it_was(sixteenths):
    assert read(feet_inches(sixteenths / 16), INCH) == sixteenths / 16


@given(st.floats(0, 5000))
def test_a_printed_length_is_within_half_a_sixteenth(inches):
    assert abs(read(feet_inches(inches), INCH) - inches) <= 1 / 32 + 1e-9
