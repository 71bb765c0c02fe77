"""A hatch: the hole makes headers and trimmers; the same framing as by hand, and the statics of the worked example."""

import re
from pathlib import Path

import pytest

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.layout import LayoutError, find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.results import find_results
from bolewright.status import Status
from bolewright.take_off.cut_list import find_cuts

SHIPPED = Path(__file__).parents[2] / "calcsheets"
HATCH = """
[hatch]
at = ["72 in", "72 in"]
length = "40 in"
width = "40 in"
header_plies = 2
ply_spacing = "12 in"
hanger = "HD"
lateral_tie = "830 lb"
rotation_tie = "1750 lb"
uplift_tie = "70 lb"
edge_load = "80 lb"
tie_note = "Invented"
"""


def by_hand() -> str:
    """The platform round a trunk, whose opening has headers and trimmers of the file."""
    text = (SHIPPED / "round_the_trunk.toml").read_text(encoding="utf-8")
    bare = re.sub(r"(?ms)^\[(stairs|ladder|hatch)\].*?(?=^\[|\Z)", "", text)
    return bare.replace('["J11", "J12"]', '["J10", "J11"]')  # its hatch cuts one joist more in two


def by_hatch(*lines: str) -> str:
    """The same without its opening, headers and trimmers, with a hatch as large in its place."""
    text = re.sub(r"(?ms)^openings = \[\[.*?^\]\]\n", "", by_hand())
    for mark in ("M1", "M2", "H1", "H2"):
        text = re.sub(rf'(?ms)^\[\[beam\]\]\nmark = "{mark}".*?(?=^\[)', "", text)
    keys = {line.split(" ")[0] for line in lines}
    kept = [line for line in HATCH.splitlines() if line.split(" ")[0] not in keys]
    return text + "\n".join([*kept, *lines]) + "\n"


def checks_of(text: str) -> dict[str, Check]:
    found = find_results(parse_project(text, "hatch.toml"))
    return {
        check.key.removeprefix("hatch."): check for check in found.checks if check.key.startswith("hatch.")
    }


def test_hole_makes_the_framing_that_was_drawn_by_hand() -> None:
    """Trimmers and headers, joists cut and tails left: place by place those of the file that names each."""
    hand, made = (find_layout(parse_project(text, "x.toml")) for text in (by_hand(), by_hatch()))
    same = {"HT1": "M2", "HT2": "M1", "HH1": "H1", "HH2": "H2"}
    for own, other in same.items():
        one, two = made.member(own), hand.member(other)
        assert one.section == two.section
        ends = [[xy for end in sorted([m.line.start, m.line.end]) for xy in end] for m in (one, two)]
        assert ends[0] == pytest.approx(ends[1])
        assert sorted(same.get(s.below, s.below) for s in one.seats) == sorted(s.below for s in two.seats)
    lines = [sorted((j.line.start, j.line.end) for j in layout.joists) for layout in (hand, made)]
    assert len(lines[0]) == len(lines[1])
    for one, two in zip(*lines, strict=True):
        assert [*one[0], *one[1]] == pytest.approx([*two[0], *two[1]])
    assert made.deck.equals(hand.deck)


def test_cover_comes_onto_both_trimmers() -> None:
    """Statics: 40 by 40 in. under 40 psf, half on each trimmer, and the sum goes to the ground."""
    hand, made = (find_load_path(find_layout(parse_project(t, "x.toml"))) for t in (by_hand(), by_hatch()))
    area = 40 * 40 / 144
    (live, carried), (before, _) = made.balance()["L"], hand.balance()["L"]
    assert live - before == pytest.approx(40 * area, rel=1e-6)
    assert carried == pytest.approx(live, rel=1e-6)
    others = [a.down for a in hand.layout.actions if a.kind.value == "live"]  # the hammock's
    shares = [a.down for a in made.layout.actions if a.kind.value == "live" and a.down not in others]
    assert shares == pytest.approx([20 * area, 20 * area])


def test_worked_example_by_statics() -> None:
    """[H1]: joists of 10 ft at 16 in., 50 psf, a hole from 2 to 5 ft, trimmers 32 in. apart, one joist cut.

    Tail joists bring 66.7 and 166.7 lb to the headers, the trimmer gets half of each, half a bay outside, half a bay
    beside the tails, and half of the cover: 466.7 and 416.7 lb at its ends, 15,000 lb in. under the longer header. A
    single 2x8 comes to 1,141 psi against 925, without the factor for repetitive use.
    """
    q, L, a, b, bay = 50 / 144, 120.0, 24.0, 60.0, 16.0
    short, long = q * bay * a / 2, q * bay * (L - b) / 2
    assert (short, long) == pytest.approx((66.667, 166.67), rel=1e-4)
    w_out = q * bay / 2
    w_cover = q * 32 / 2
    spread = [(w_out, 0.0, L), (w_out, 0.0, a), (w_out, b, L), (w_cover, a, b)]
    points = [(short / 2, a), (long / 2, b)]
    loads = [(w * (hi - lo), (lo + hi) / 2) for w, lo, hi in spread] + points
    R2 = sum(P * x for P, x in loads) / L
    R1 = sum(P for P, _ in loads) - R2
    assert pytest.approx((466.67, 416.67), rel=1e-4) == (R1, R2)
    M = R2 * (L - b) - (w_out + w_out) * (L - b) ** 2 / 2
    assert pytest.approx(15000.0, rel=1e-4) == M
    assert pytest.approx(1.2341, rel=1e-4) == M / (1.5 * 7.25**2 / 6) / 925


def test_single_trimmers_are_bent_harder() -> None:
    """IRC 2021, R502.10 doubles by a rule of thumb; here the ratio decides: of one ply it is higher."""
    double, single = (
        {
            c.part: c
            for c in find_results(parse_project(by_hatch(f"trimmer_plies = {n}"), "x.toml")).checks
            if c.key == "beam.bending"
        }
        for n in (2, 1)
    )
    for mark in ("HT1", "HT2"):
        assert single[mark].ratio > 1.2 * double[mark].ratio


def test_framing_is_in_the_cut_list() -> None:
    marks = [cut.label for cut in find_cuts(find_results(parse_project(by_hatch(), "x.toml")))]
    assert {"HT1/1", "HT1/2", "HT2/1", "HT2/2", "HH1/1", "HH1/2", "HH2/1", "HH2/2"} <= set(marks)


def test_what_is_left_out_is_open_and_the_fall_is_said() -> None:
    found = checks_of(by_hatch())
    assert found["held"].status is Status.NOT_CHECKED
    assert found["fall"].status is Status.NOT_CHECKED
    assert "a fall of 6' 0\"" in found["fall"].sentence
    assert found["weight"].status is Status.FAILS  # 11 sq ft of 2x6 are more than one hand lifts
    given = checks_of(
        by_hatch('held_open = "200 lb"', 'open_guard = "three sides"', 'cover_weight = "28 lb"')
    )
    assert {given[key].status for key in ("held", "fall", "weight")} == {Status.PASSES}


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (('hanger = "ZZ"',), "no connection of this file"),
        (('joists = "Q"',), "no field of joists"),
        (('at = ["140 in", "72 in"]',), "reaches over the edge of the deck"),
        (('at = ["72 in", "24 in"]',), "the hole lies over C1"),
        (("trimmer_plies = 9",), "trimmer_plies"),
        (('at = "here"',), "hatch"),
    ],
)
def test_holes_that_cannot_be_are_refused_in_words(lines: tuple[str, ...], words: str) -> None:
    with pytest.raises((ProjectError, LayoutError), match=re.escape(words)):
        find_layout(parse_project(by_hatch(*lines), "hatch.toml"))
