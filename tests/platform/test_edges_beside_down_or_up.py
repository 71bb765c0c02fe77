"""A connection's rating at its edges beside that down or up, of one state, by statics: a guard's push on what hangs.

Two beams 96 in. apart; seven 2x10 hung between them every 16 in. Weight and pushes by simple beams from axis to axis,
as the program prints it; a hanger's load stands half of its seat past the face it hangs on, and turns the connection
about the middle of the beam by that much: at its edges a couple on the depth. ASCE 7-16, 2.4.1: D + L and 0.6D; a push
on a guard comes with weight and people, one at a time (the program's combinations as printed). Ratings add by their
shares (unity, common practice). IRC 2021, Table R301.5: 200 lb on top of a guard in any direction.
"""

from __future__ import annotations

from functools import cache

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

HEAD = """
format = 2
[title]
project = "Edges of hangers"
date = 2026-12-01
note = "Invented for a test"
[site]
frost_depth = "36 in"
soil = "class 4"
ground_snow = "0 psf"
wind_speed = "60 mph"
exposure = "B"
[loads]
live = "40 psf"
sway_share = "0 %"
hardware = "1 psf"
guard = "8 plf"
guard_solidity = 0.1
guard_edges = [1, 2, 3, 4]
guard_height = "36 in"
[platform]
outline = [["-0.75 in", "-1.5 in"], ["96.75 in", "-1.5 in"], ["96.75 in", "97.5 in"], ["-0.75 in", "97.5 in"]]
floor_height = "60 in"
[decking]
section = "2x6"
species = "Southern Pine"
grade = "No.2"
[post.P]
section = "6x6"
species = "Southern Pine"
grade = "No.2"
incised = false
base = "fixed"
cap_lateral = "3000 lb"
[footing.F]
shape = "round"
width = "24 in"
depth = "60 in"
pad = "10 in"
[connection.HJ]
rated_load = "1000 lb"
rated_uplift = "{up}"
load_duration = "normal"
wet_included = true
seat_length = "2 in"
note = "Invented"
[[support]]
mark = "P1"
kind = "post"
post = "P"
footing = "F"
at = ["8 in", "0 in"]
[[support]]
mark = "P2"
kind = "post"
post = "P"
footing = "F"
at = ["88 in", "0 in"]
[[support]]
mark = "P3"
kind = "post"
post = "P"
footing = "F"
at = ["8 in", "96 in"]
[[support]]
mark = "P4"
kind = "post"
post = "P"
footing = "F"
at = ["88 in", "96 in"]
[[beam]]
mark = "B1"
plies = 2
section = "2x12"
species = "Southern Pine"
grade = "No.2"
from = ["-0.75 in", "0 in"]
to = ["96.75 in", "0 in"]
[[beam]]
mark = "B2"
plies = 2
section = "2x12"
species = "Southern Pine"
grade = "No.2"
from = ["-0.75 in", "96 in"]
to = ["96.75 in", "96 in"]
[[joists]]
mark = "J"
section = "2x10"
species = "Southern Pine"
grade = "No.2"
direction = "90 deg"
first = "-96 in"
last = "0 in"
spacing = "16 in"
bearing = "hung"
hanger = "HJ"
{keeps}"""
GUARD = """
[[guard]]
mark = "GA"
{where}
section = "4x4"
species = "Southern Pine"
grade = "No.2"
incised = false
bolt_diameter = "3/8 in"
hold_down = "1900 lb"
lower_tie = "1600 lb"
hold_down_note = "Invented"
rail_fastening = "270 lb"
rail_note = "Invented"
baluster_strength = "1000 psi"
infill_load = "60 lb"
infill_note = "Invented"
"""
BLOCKS = """
[connection.HG]
rated_load = "1500 lb"
rated_uplift = "{block_up}"
load_duration = "normal"
wet_included = true
seat_length = "1 1/2 in"
note = "Invented"
[[blocking]]
mark = "BA"
kind = "blocking"
between = ["J1", "J2"]
along = "24 in"
hanger = "HG"
restrains_beam = true
edge_load = "400 lb"{alone}
tie_note = "Invented"
[[blocking]]
mark = "BB"
kind = "blocking"
between = ["J1", "J2"]
along = "72 in"
hanger = "HG"
restrains_beam = true
edge_load = "400 lb"{alone}
tie_note = "Invented"
"""
HUNG_BEAMS = """
[[beam]]
mark = "H1"
plies = 2
section = "2x10"
species = "Southern Pine"
grade = "No.2"
hanger = "HJ"
restrains_beam = true
edge_load = "400 lb"
tie_note = "Invented"{alone}
from = ["8 in", "0 in"]
to = ["8 in", "96 in"]
[[beam]]
mark = "H2"
plies = 2
section = "2x10"
species = "Southern Pine"
grade = "No.2"
hanger = "HJ"
restrains_beam = true
edge_load = "400 lb"
tie_note = "Invented"{alone}
from = ["60 in", "0 in"]
to = ["60 in", "96 in"]
[[joists]]
mark = "J"
section = "2x6"
species = "Southern Pine"
grade = "No.2"
direction = "0 deg"
first = "0 in"
last = "96 in"
spacing = "12 in"
bearing = "resting"
uplift_tie = "900 lb"
tie_note = "Invented"
"""
WET = 62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28 / 1728  # lb/in3 at 28 % (NDS 2018 Supplement, 3.1.3)
SPAN, STEP, DEPTH = 96.0, 16.0, 9.25
LEVER = 36 + 1.5 + DEPTH / 2  # of a push at the guard's height over the middle of joist or block (in)
LIVE, DECK, OWN = 40 / 144, 1.5 * WET + 1 / 144, 1.5 * DEPTH * WET
OUT = 1.5 + 2 / 2  # of a joist's load past the middle of two plies: their face, half the seat of 2 in.
AT_JOISTS = 'edges = [3]\nplaces = ["0.75 in", "48.75 in", "96.75 in"]'
AT_BLOCKS = 'edges = [2]\nplaces = ["25.5 in", "73.5 in"]'
KEEPS = 'restrains_beam = true\nedge_load = "400 lb"\ntie_note = "Invented"\n'


@cache
def checks(text: str) -> tuple[Check, ...]:
    return find_results(parse_project(text)).checks


def hung(up: str = "600 lb", alone: bool = False) -> str:
    """Joists that keep the beams upright, guard's posts at the ends of three of them."""
    keeps = KEEPS + ("rated_alone = true\n" if alone else "")
    return HEAD.format(keeps=keeps, up=up) + GUARD.format(where=AT_JOISTS)


def blocked(block_up: str = "1500 lb", alone: bool = False) -> str:
    """Guard's posts along the outer joist, each at a block that keeps it upright."""
    said = "\nrated_alone = true" if alone else ""
    text = HEAD.format(keeps='uplift_tie = "600 lb"\ntie_note = "Invented"\n', up="600 lb")
    return text + BLOCKS.format(block_up=block_up, alone=said) + GUARD.format(where=AT_BLOCKS)


def row(text: str, part: str, key: str, at: str) -> Check:
    (found,) = [c for c in checks(text) if (c.part, c.key, c.at) == (part, key, at)]
    return found


OUTER, NEXT = ("J1", "J7"), ("J2", "J6")


def weights(mark: str) -> tuple[float, float]:
    """Dead and live load on either hanger of a joist: boards by the lever, with the guard past the outer joists."""
    wide = {**dict.fromkeys(OUTER, 16.75**2 / 32), **dict.fromkeys(NEXT, STEP - 0.75**2 / 32)}.get(mark, STEP)
    rail = {**dict.fromkeys(OUTER, 16.75 / STEP), **dict.fromkeys(NEXT, -0.75 / STEP)}.get(mark, 0.0)
    half = SPAN / 2
    return (wide * DECK + OWN + rail * 8 / 12) * half, LIVE * wide * half


def share(R: float, rated: float) -> float:
    return R / rated + R * OUT / DEPTH / 400


# The rail ends 3/4 in. past the outer posts: a push there is levered over the next post.
PUSHES = {"J1": 200 * (48 + 0.75) / 48, "J4": 200.0, "J7": 200 * (48 + 0.75) / 48}
JOISTS = [f"J{n}" for n in range(1, 8)]


def most_down(mark: str, at: str) -> float:
    """Greatest load of a hanger: people, one person of 300 lb at its end, or all with the push or load on a guard."""
    D, L = weights(mark)
    person = 300 * (STEP + 0.75) / STEP if mark in OUTER else 300.0
    found = [D + L, D + person]
    if mark in PUSHES:
        P = PUSHES[mark]
        found += [D + L + P * LEVER / SPAN, D + L + (P if at == "B2" else 0.0)]
    return max(found)


@pytest.mark.parametrize("at", ["B1", "B2"])
@pytest.mark.parametrize("mark", JOISTS)
def test_a_joists_edges_with_its_hanger_down(mark: str, at: str) -> None:
    """Outward a push presses the hanger by the guard, inward the far one; 200 lb down on the guard is in the near."""
    R = most_down(mark, at)
    check = row(hung(), mark, "joist.edge_together", at)
    assert 0.999 * share(R, 1000) < check.ratio < 1.01 * share(R, 1000)
    for key, rated in (("hanger.rated", 1000.0), ("joist.edge_load", 400.0)):  # neither tells alone
        assert row(hung(), mark, key, at).ratio < 0.65 * check.ratio, (key, rated)


@pytest.mark.parametrize("at", ["B1", "B2"])
@pytest.mark.parametrize("mark", sorted(PUSHES))
def test_a_joists_edges_with_its_hanger_up(mark: str, at: str) -> None:
    """Rated 60 lb up: 0.6D against the push, outward at the far hanger, inward at the near one, nobody on the joist."""
    D, _ = weights(mark)
    up = PUSHES[mark] * LEVER / SPAN - 0.6 * D
    wanted = share(up, 60)
    assert wanted > share(most_down(mark, at), 1000)  # the lift governs
    check = row(hung(up="60 lb"), mark, "joist.edge_together", at)
    assert check.combination == "0.6D + L + guard"
    assert 0.99 * wanted < check.ratio < 1.03 * wanted


def test_what_nothing_lifts_is_not_changed_by_a_rating_up() -> None:
    for mark in ("J3", "J5"):
        rows = [row(text, mark, "joist.edge_together", "B2") for text in (hung(), hung(up="60 lb"))]
        assert rows[0].ratio == pytest.approx(rows[1].ratio, rel=1e-9)


# Blocks: posts at 24 and 72 in. along J1, the rail 25 1/2 in. past each, so 200 lb at its end is 306 at the post.
PUSH = 200 * (48 + 25.5) / 48


def block_weight() -> tuple[float, float]:
    """Dead and live load on a block's end: itself, and the deck on its own breadth."""
    return OWN * STEP / 2 + 1.5 * DECK * STEP / 2, 1.5 * LIVE * STEP / 2


def turning(mark: str, *, live: bool = True) -> float:
    """Moment of J1 or J2 at the block that a push bends it by, the other block levered back; weight on top (lb in)."""
    couple = PUSH * LEVER / STEP, 200 * 25.5 / 48 * LEVER / STEP
    pushed = couple[0] * 24 * 72 / SPAN - couple[1] * 24 * 24 / SPAN
    D, L = weights(mark)
    w = (D + (L if live else 0.0)) * 2 / SPAN
    return pushed + w * 24 * 72 / 2


@pytest.mark.parametrize("joist", ["J1", "J2"])
@pytest.mark.parametrize(
    ("mark", "block_up", "governs"), [("BA1", "1500 lb", 1500.0), ("BB1", "600 lb", 600.0)]
)
def test_a_blocks_edges_beside_its_load(joist: str, mark: str, block_up: str, governs: float) -> None:
    """Moment of the push over the block's length, up at one end and down at the other; 2 % of the joist's moment.

    AISC 360-16, Appendix 6.3.2, by analogy. The block's load stands 3/4 in. past the middle of a joist and half a seat
    of 1 1/2 in. The couple of both joists' 2 % adds to the load of its end.
    """
    D, L = block_weight()
    shear = PUSH * LEVER / STEP
    sums = []
    for R, rated, live in ((shear + D + L, 1500.0, True), (shear - 0.6 * D, governs, True)):
        braced = {m: turning(m, live=live) / 50 for m in ("J1", "J2")}
        end = R + sum(braced.values()) / STEP
        sums.append(end / rated + (braced[joist] + R * 1.5) / DEPTH / 400)
    check = row(blocked(block_up), mark, "blocking.edge_together", joist)
    assert 0.985 * max(sums) < check.ratio < 1.03 * max(sums)
    assert row(blocked(block_up), mark, "hanger.rated", joist).ratio < 0.75 * check.ratio


@pytest.mark.parametrize("joist", ["J1", "J2"])
@pytest.mark.parametrize("mark", ["BA1", "BB1"])
def test_a_block_is_lifted_by_the_push_and_by_what_keeps_its_joists_upright(joist: str, mark: str) -> None:
    """2 % of the moment of both joists over its length lifts one end as it presses the other (AISC 360-16, Appendix
    6.3.2, by analogy; statics): more than the weight of the block takes off."""
    own, _ = block_weight()
    lifts = []
    for k in (0.6, 1.0):
        moments = sum(turning(m) - (1 - k) * weights(m)[0] * 2 / SPAN * 24 * 72 / 2 for m in ("J1", "J2"))
        lifts.append(PUSH * LEVER / STEP - k * own + moments / 50 / STEP)
    check = row(blocked(), mark, "blocking.uplift", joist)
    assert "guard" in check.combination
    assert 0.985 * max(lifts) < check.demand < 1.03 * max(lifts)
    assert check.demand > 1.05 * (PUSH * LEVER / STEP - 0.6 * own)  # what was counted before


def test_a_block_that_what_it_keeps_upright_lifts_needs_a_rating_up() -> None:
    bare = row(blocked().replace('rated_uplift = "1500 lb"\n', ""), "BA1", "blocking.uplift", "J1")
    assert bare.status is Status.NOT_CHECKED
    assert "with what keeps J1 and J2 upright" in bare.sentence
    assert "rated_uplift" in bare.sentence


# Beams: two 2x10 hung 52 in. apart, 2x6 resting on them every 12 in., the last 36 3/4 in. of each past the second.
def beamed(up: str = "600 lb", alone: bool = False) -> str:
    """Two beams that keep upright what they hang on."""
    said = "\nrated_alone = true" if alone else ""
    head = HEAD[: HEAD.index("[[joists]]")].format(up=up)
    return head.replace('rated_load = "1000 lb"', 'rated_load = "3000 lb"') + HUNG_BEAMS.format(alone=said)


def on_hung_beam(mark: str) -> tuple[float, float, float]:
    """Dead load on either hanger of H1 or H2, what people add, and what one person past H2 lifts at H1 (lb).

    Seven joists rest on each between their ends: half of all on either hanger.
    """
    at, other = (8.0, 60.0) if mark == "H1" else (60.0, 8.0)
    presses, lifts = (
        (60.75, 36.75) if mark == "H1" else (88.75, 8.75)
    )  # inches of a joist, by the lever over 52 in.
    pressed, lifted = presses**2 / 104, lifts**2 / 104
    line = 12 * DECK + 1.5 * 5.5 * WET
    rails = 8 * ((-0.75 - other) + (96.75 - other)) / (at - other)
    D = 3.5 * (line * (pressed - lifted) + rails) + 3 * DEPTH * WET * SPAN / 2
    return D, 3.5 * 12 * LIVE * pressed, 300 * (96.75 - 60) / 52 * 84 / 96


@pytest.mark.parametrize("at", ["B1", "B2"])
@pytest.mark.parametrize("mark", ["H1", "H2"])
def test_a_beams_edges_with_its_hanger_down(mark: str, at: str) -> None:
    """People wherever they press it; the program's pieces of deck are some inches wide: 1/2 %."""
    D, L, _ = on_hung_beam(mark)
    wanted = share(D + L, 3000)
    check = row(beamed(), mark, "beam.edge_together", at)
    assert check.combination == "D + L"
    assert 0.994 * wanted < check.ratio < 1.01 * wanted


@pytest.mark.parametrize("at", ["B1", "B2"])
def test_a_beams_edges_with_its_hanger_up(at: str) -> None:
    """One person at the corner of the overhang, 12 in. from the hanger: rated 90 lb up, the lift governs."""
    D, L, person = on_hung_beam("H1")
    wanted = share(person - 0.6 * D, 90)
    assert wanted > 2 * share(D + L, 3000)
    check = row(beamed(up="90 lb"), "H1", "beam.edge_together", at)
    assert check.combination == "0.6D + one person"
    assert 0.995 * wanted < check.ratio < 1.02 * wanted


MAKES = {"joist": hung, "blocking": blocked, "beam": beamed}


@pytest.mark.parametrize("at", ["B1", "B2"])
@pytest.mark.parametrize("mark", JOISTS)
def test_a_joists_edges_rated_alone_are_asked_by_the_couple_of_its_load(mark: str, at: str) -> None:
    """R past the beam's middle as a couple on the joist's depth against 400 lb; its load takes no share of that."""
    hand = most_down(mark, at) * OUT / DEPTH
    check = row(hung(alone=True), mark, "joist.edge_together", at)
    assert 0.999 * hand < check.demand < 1.01 * hand
    assert check.capacity == 400


@pytest.mark.parametrize("joist", ["J1", "J2"])
@pytest.mark.parametrize("mark", ["BA1", "BB1"])
def test_a_blocks_edges_rated_alone_are_asked_by_its_load_and_2_per_cent(joist: str, mark: str) -> None:
    """The greater of pressed and lifted, with 2 % of the moment of the joist there; the couple of both joists' 2 %
    stands in the row of its load."""
    D, L = block_weight()
    R = PUSH * LEVER / STEP + D + L
    hand = (turning(joist) / 50 + R * 1.5) / DEPTH
    check = row(blocked(alone=True), mark, "blocking.edge_together", joist)
    assert 0.985 * hand < check.demand < 1.03 * hand
    assert check.capacity == 400


@pytest.mark.parametrize("at", ["B1", "B2"])
@pytest.mark.parametrize("mark", ["H1", "H2"])
def test_a_beams_edges_rated_alone_are_asked_by_the_couple_of_its_load(mark: str, at: str) -> None:
    D, L, person = on_hung_beam(mark)
    lifted = person - 0.6 * D if mark == "H1" else 0.0  # one person past H2 lifts H1
    hand = max(D + L, lifted) * OUT / DEPTH
    check = row(beamed(alone=True), mark, "beam.edge_together", at)
    assert 0.994 * hand < check.demand < 1.01 * hand
    assert check.capacity == 400


@pytest.mark.parametrize("of", sorted(MAKES))
def test_what_is_rated_alone_is_asked_less_at_the_same_places_and_nothing_else_changes(of: str) -> None:
    """The maker allows each in full beside the other, or angles of their own take the edges: the shares do not add."""
    key = f"{of}.edge_together"
    beside, alone = (checks(MAKES[of](alone=said)) for said in (False, True))
    sums, forces = ({(c.part, c.at): c for c in found if c.key == key} for found in (beside, alone))
    assert len(sums) >= 4
    assert sums.keys() == forces.keys()
    assert all(forces[end].ratio < sums[end].ratio for end in sums)
    assert all("rated by themselves" in c.says for c in forces.values())
    edges = "blocking.bracing_edges" if of == "blocking" else f"{of}.edge_load"
    for key in (edges, "hanger.rated"):
        ratios = [[c.ratio for c in found if c.key == key] for found in (beside, alone)]
        assert ratios[0] == pytest.approx(ratios[1])
        assert ratios[0]
