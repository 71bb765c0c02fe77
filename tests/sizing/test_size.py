"""Sizes for a given arrangement: they pass the plain checks, and nothing single and smaller does."""

from __future__ import annotations

import re
import tomllib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from decks import Deck, cases, text_of

from bolewright.platform.file.reading import parse_project, parse_toml
from bolewright.reference import load
from bolewright.setting_out.complete import complete_results
from bolewright.sizing import Sized, size
from bolewright.sizing.finding import find_choices
from bolewright.sizing.look import look
from bolewright.sizing.report import report
from bolewright.sizing.stock import Stock, StockError, stock_of

ARRANGEMENTS = Path(__file__).parents[1] / "platform" / "arrangements"
# Few sizes of holes and spacings, so that a whole search is short.
STOCK = Stock(
    hole_widths=(16.0, 20.0, 24.0, 28.0), hole_depths=(36.0, 48.0, 60.0), spacings=(24.0, 16.0, 12.0)
)
TEXT = text_of(cases(2)[1])
HANGER = """
[connection.H]
rated_load = "2000 lb"
rated_uplift = "1000 lb"
rated_lateral = "1500 lb"
wet_included = true
seat_length = "1 1/2 in"
note = "Invented"
"""
BUT_POSTS = ("J", "C1", "C2", "F", "decking")


@pytest.fixture(scope="module")
def sized() -> Sized:
    return size(TEXT, stock=STOCK, keep=("decking",), budget=160)


def test_what_is_found_passes_the_plain_check_and_is_cheaper_than_the_file(sized: Sized) -> None:
    assert complete_results(parse_project(sized.text)).all_pass
    assert sized.passes
    assert not sized.stopped
    assert sized.before is not None
    assert sized.after is not None
    assert sized.after.cost < sized.before.cost


def test_no_single_smaller_step_passes(sized: Sized) -> None:
    """Each next smaller size that saves anything, in the file itself, with all checks."""
    assert sized.proved
    data, project = parse_toml(sized.text, "sized"), parse_project(sized.text)
    choices = find_choices(data, project, STOCK, ("decking",))
    stopped = {c.name: c.next for c in sized.chosen if c.next}
    assert stopped
    for c, choice in enumerate(choices.all):
        if choice.name in stopped:
            smaller = list(choices.start)
            smaller[c] -= 1
            assert choice.rungs[smaller[c]].words == stopped[choice.name]
            assert look(choices.made(tuple(smaller))).misses, choice.name


def test_the_file_keeps_its_remarks_and_all_but_sizes(sized: Sized) -> None:
    assert "# the size of all four" in sized.text
    assert "# on top of both beams" in sized.text
    before, after = tomllib.loads(TEXT), tomllib.loads(sized.text)
    for key in ("site", "loads", "platform", "support", "diagonal", "title"):
        assert before[key] == after[key]
    for key in ("cap_lateral", "rotation_tie", "species", "grade", "base"):
        assert before["post"]["P"][key] == after["post"]["P"][key]


def test_the_report_says_what_stops_each_next_smaller_size_and_that_nobody_approved(sized: Sized) -> None:
    lines = "\n".join(report(sized))
    assert "No single smaller step passes." in lines
    assert "invented" in lines
    assert "Nobody has approved them" in lines
    for chosen in sized.chosen:
        if chosen.next:
            assert f"{chosen.next}: {chosen.stops}" in lines
            assert re.search(r": (\d+\.\d\d|open)$", chosen.stops)


def test_the_same_input_gives_the_same_bytes_whatever_the_executor() -> None:
    one = size(TEXT, stock=STOCK, keep=("decking", "C1", "C2", "J"), budget=30)
    with ThreadPoolExecutor(2) as executor:
        other = size(TEXT, stock=STOCK, keep=("decking", "C1", "C2", "J"), budget=30, executor=executor)
    assert one.text == other.text
    assert list(report(one)) == list(report(other))


def test_ctrl_c_keeps_the_best_so_far_and_says_so() -> None:
    def stop(count: int, budget: int, best: object) -> None:
        if best is not None and count >= 8:
            raise KeyboardInterrupt

    found = size(TEXT, stock=STOCK, keep=("decking", "C1", "C2"), budget=100, say=stop)
    assert found.stopped == "interrupted"
    assert found.evaluations < 20
    assert found.passes
    assert complete_results(parse_project(found.text)).all_pass
    assert any(line.startswith("Stopped by Ctrl+C") for line in report(found))


def test_a_spent_budget_is_said_and_the_best_so_far_passes() -> None:
    found = size(TEXT, stock=STOCK, keep=("decking", "C1", "C2"), budget=12)
    assert found.stopped == "budget"
    assert found.evaluations <= 12
    assert found.passes
    assert any("budget of" in line for line in report(found))


def test_a_rating_that_is_too_low_is_reported_and_written_only_when_asked() -> None:
    text = TEXT.replace('cap_lateral = "5000 lb"', 'cap_lateral = "50 lb"')
    plain = size(text, stock=STOCK, keep=BUT_POSTS, budget=60)
    (need,) = plain.needs
    assert (need.table, need.part) == ("post", "P")
    ((key, asked, own),) = need.pounds
    assert (key, own) == ("cap_lateral", 50)
    assert asked > 50
    assert f"{asked:,} lb lateral" in need.words
    assert 'cap_lateral = "50 lb"' in plain.text
    assert any("not written into the file" in line for line in report(plain))
    written = size(text, stock=STOCK, keep=BUT_POSTS, budget=60, write_ratings=True)
    assert f'cap_lateral = "{asked} lb"' in written.text
    assert complete_results(parse_project(written.text)).all_pass
    assert asked < 1000
    less = written.text.replace(f'cap_lateral = "{asked} lb"', f'cap_lateral = "{0.85 * asked:.0f} lb"')
    failing = [c for c in complete_results(parse_project(less)).checks if c.severity > 1]
    assert failing
    assert all(c.key.startswith("post.cap") for c in failing)


def test_only_and_keep() -> None:
    project = parse_project(TEXT)
    stock = stock_of(project, ("2x8", "6x6"), STOCK)
    choices = find_choices(parse_toml(TEXT, ""), project, stock, ("C1", "P1"))
    names = [c.name for c in choices.all]
    assert "C2, plies" in names
    assert not any(name.startswith(("P,", "F,", "C1", "C1, C2")) for name in names)
    sizes = {rung.words for c in choices.all if c.what == "size" and c.kind != "decking" for rung in c.rungs}
    assert sizes <= {"2x8"}
    with pytest.raises(StockError, match="2y8"):
        stock_of(project, ("2y8",), STOCK)


def test_a_rated_bolt_keeps_its_thickness_and_is_not_set_shallower() -> None:
    text = (ARRANGEMENTS / "overhang.toml").read_text()
    rated = find_choices(parse_toml(text, ""), parse_project(text), STOCK)
    assert not [c for c in rated.all if c.what == "bolt thickness"]
    (embedment,) = [c for c in rated.all if c.what == "embedment"]
    assert embedment.start == 0
    assert embedment.rungs[0].size == 7
    given_for = text.replace('rated_load = "4000 lb"', 'rated_load = "4000 lb"\nrated_bolt = "1 3/4 in"')
    other = find_choices(parse_toml(given_for, ""), parse_project(given_for), STOCK)
    (thick,) = [c for c in other.all if c.what == "bolt thickness"]
    assert [rung.size for rung in thick.rungs] == [1.5, 1.75]


def test_prices_of_the_file_are_taken() -> None:
    text = TEXT + '\n[[price]]\nitem = "2x8"\nlength = "10 ft"\neach = 30\n'
    assert stock_of(parse_project(text)).foot("2x8") == pytest.approx(3.0)


@pytest.mark.parametrize(("span", "least"), [(96, "2x6"), (130, "2x8"), (158, "2x10")])
def test_joists_of_a_plain_rectangle_are_those_of_the_code_s_span_table(span: int, least: str) -> None:
    """IRC 2018, Table R507.6 (40 psf live, 10 psf dead, wet, No.2, 16 in.): the least joist whose span suffices.

    Hung between two beams: past a beam the deflection of the overhang's tip would govern, which that table leaves out.
    The nails between the plies of the beams are too few in the file: more of them are chosen too.
    """
    deck = Deck("a plain rectangle", 96, span + 7, 48, 0, 95, 4, knees=False, inset=2)
    text = text_of(deck).replace('uplift_tie = "1000 lb"', 'hanger = "H"').replace('"resting"', '"hung"')
    text = text.replace('section = "2x10"', 'section = "2x12"') + HANGER
    keep = ("P", "F", "decking", "C1, C2, size", "C1, C2, plies")
    found = size(text, stock=Stock(spacings=(16.0,)), keep=keep, budget=40)
    allowed = {
        r["size"]: float(r["span_in"])
        for r in load("irc2018_table_R507_6").rows
        if r["species_group"] == "Southern pine" and r["spacing_in"] == 16
    }
    assert least == next(size for size in ("2x6", "2x8", "2x10", "2x12") if allowed[size] >= span)
    assert found.passes, found.fails
    now = {c.name: (c.was, c.now) for c in found.chosen}
    assert now["J, size"][1] == least
    assert now["C1, C2, nails between the plies"][0] != now["C1, C2, nails between the plies"][1]
