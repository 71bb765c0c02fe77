"""Hardware and concrete of the demonstration counted by hand, and the rules the counts rest on."""

import math

import pytest

from bolewright.platform.layout.pieces import cut_pieces
from bolewright.setting_out.decking import deck_rows
from bolewright.take_off.in_frame import bolt_length, packing, ply_nails


def items(demo, name):
    return [item for item in demo.hardware if item.name == name]


def count(demo, name):
    return sum(item.count for item in items(demo, name))


@pytest.mark.parametrize(
    ("length", "plies", "nails"),
    [
        (144.0, 2, 20),  # 9 spaces of 16 in., 10 nails in each of two rows
        (145.0, 2, 22),  # 10 spaces
        (123.1875, 2, 18),  # C1: 7.7, so 8 spaces
        (144.0, 3, 40),  # two planes between three plies
        (16.0, 2, 4),
    ],
)
def test_nails_between_plies(length, plies, nails):
    """IRC R507.5: 10d, two rows at 16 in., one along each edge; from memory."""
    assert ply_nails(length, plies) == nails


@pytest.mark.parametrize(
    ("name", "number"),
    [
        ("tree bolt main", 2),
        ("bracket main", 2),
        ("cap P6", 2),
        ("rotation tie P6", 4),  # one on each side of each post's beam
        ("hanger HJ", 16),  # 8 joists, two ends
        ("angle, beam on beam", 4),  # S1 and S2 on C1, one on each side
        ("nail between plies", 22 + 22 + 18),
        ("bolt", 8),  # 2 braces, 2 ends, 2 bolts
        ("washer", 16),
        ("nut", 8),
        ("strap in plan", 2),
    ],
)
def test_counts_of_the_demonstration(demo, name, number):
    assert count(demo, name) == number


def test_hangers_are_listed_by_angle_and_hand_as_they_are_set_out(demo):
    """S1 runs off 41 1/16 in 139 (16.5 deg), S2 57 15/16 in 139 (22.6 deg); the hands are the setting-out's."""
    sizes = {item.size: item.count for item in items(demo, "hanger HJ")}
    first, second = (math.degrees(math.atan(run / 139)) for run in (41.0625, 57.9375))
    j1 = next(piece for piece in cut_pieces(demo.results.path.layout) if piece.mark == "J1")
    hands = (j1.start.hanger_skew.value, j1.end.hanger_skew.value)
    lateral = demo.results.project.connections["HJ"].rated_lateral
    assert sizes == {
        f"for 2x8; rated 620 lb down, {lateral:,.0f} lb lateral, skewed {first:.1f}° {hands[0]}": 8,
        f"for 2x8; rated 620 lb down, {lateral:,.0f} lb lateral, skewed {second:.1f}° {hands[1]}": 8,
    }


def test_bolt_passes_both_plies_and_the_post():
    """5.5 + 2 x 1.5 = 8.5 in. of timber, nut 0.5, washers 0.25, threads 0.125: 9 3/8, so 9 1/2 in."""
    assert float(math.ceil((8.5 + 0.5 + 0.375) * 2) / 2) == 9.5


def test_bolts_of_the_demonstration(demo):
    layout = demo.results.path.layout
    for brace in layout.project.braces:
        assert bolt_length(layout, brace) == 9.5
        assert packing(layout, brace) == pytest.approx((5.5 - 3.0) / 2)
    (item,) = items(demo, "bolt")
    assert item.size.startswith("1/2 in. x 9 1/2 in.")


def test_two_screws_where_a_board_lies_on_a_member(demo):
    """Rows of 5 1/2 in. at the middle of each: a joist counts where the row's middle is between the stringers."""
    layout = demo.results.path.layout
    (field,) = deck_rows(layout)
    crossings = 0
    for row in field.rows:
        x = -58.25 + (row.near + row.far) / 2
        for y in range(20, 133, 16):
            left, right = -15.25 - 41.0625 / 139 * (y + 6), 14.5 + 57.9375 / 139 * (y + 6)
            crossings += left - 0.75 <= x <= right + 0.75
        for foot, run in ((-15.25, -41.0625), (14.5, 57.9375)):
            y = (x - foot) / run * 139 - 6
            low, high = row.stretches[0][0] + 18, row.stretches[-1][1] + 18
            past = (
                0.75 * 139 / math.hypot(run, 139)
            )  # a stringer ends at y = 133; 3/4 in. past it still bears
            crossings += low - 0.75 <= y <= min(high + 0.75, 133 + past)
    assert count(demo, "deck screw") == 2 * crossings


def test_every_item_says_a_material_that_goes_with_treated_lumber(demo):
    for item in demo.hardware:
        assert "galvanized" in item.material
        assert "stainless" in item.material
        assert "electro" not in item.material


def test_concrete_of_the_demonstration_by_hand(demo):
    """Hole 22 in., pad 10 in., post 5 1/2 square in 44 in. of filling: pi (22/12)^2 / 4 = 2.6398 sq ft,
    2.6398 x 10/12 + (2.6398 - 0.21007) x 44/12 = 11.109 cu ft each; 22.218 x 1.1 / 0.60 = 40.7 bags.
    """
    concrete = demo.concrete
    assert [hole.concrete_volume for hole in concrete.holes] == pytest.approx([11.109, 11.109], abs=5e-4)
    assert concrete.volume == pytest.approx(22.218, abs=5e-4)
    assert concrete.ordered == pytest.approx(22.218 * 1.1, abs=1e-3)
    assert (concrete.bags, concrete.weight) == (41, 41 * 80)
    assert concrete.gravel == 0


def test_the_users_bag_and_overbreak_count(demo_with):
    """22.218 x 1.25 / 0.45 = 61.7, so 62 bags of 60 lb."""
    found = demo_with('[stock]\nbag_yield = "0.45 ft3"\nbag_weight = "60 lb"\noverbreak = "25 %"').concrete
    assert (found.bags, found.weight) == (62, 3720)
    assert [hole.bags for hole in found.holes] == [
        31,
        31,
    ]  # 30.9 each: the setting-out sheet counts with them too


def test_cost_by_hand_and_what_has_no_price(demo_with):
    """Sticks 60 ft of 2x8 in one length of 20 ft at 21.00, 16 hangers at 2.50, 41 bags at 6.00."""
    lines = '[stock]\ncurrency = "USD"\n' + "\n".join(
        f'[[price]]\nitem = "{item}"\n{length}each = {each}'
        for item, length, each in (
            ("2x8", 'length = "20 ft"\n', 21.0),
            ("Hanger  hj", "", 2.5),
            ("concrete, bag", "", 6.0),
            ("wishing well", "", 99.0),
        )
    )
    cost = demo_with(lines).cost
    totals = {line.item.split(",")[0]: 0.0 for line in cost.lines}
    for line in cost.lines:
        totals[line.item.split(",")[0]] += line.total
    assert totals["hanger HJ"] == pytest.approx(16 * 2.5)
    assert totals["concrete"] == pytest.approx(41 * 6.0)
    lumber = next(line for line in cost.lines if line.item.startswith("2x8"))
    assert lumber.total == pytest.approx(lumber.count * 21.0)
    assert cost.total == pytest.approx(40 + 246 + lumber.total)
    assert cost.unused == ("wishing well",)
    assert any(name.startswith("2x12") for name in cost.unpriced)
    assert "deck screw" in cost.unpriced


def test_without_prices_there_is_no_cost(demo):
    assert demo.cost is None
