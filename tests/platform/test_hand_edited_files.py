"""The demonstration edited by hand in the ways people do: what still reads, and what the sentence says to write."""

from __future__ import annotations

import re

import pytest
from arrangement_files import DEMO, file_of

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.layout import LayoutError, find_layout

TEXT = file_of(DEMO).read_text(encoding="utf-8")
LIVE = 'live = "60 psf"'
FLOOR = 'floor_height = "7\'"'
CORNER = '["74 1/2 in", "134 in"],'


def line_of(text: str) -> int:
    """Line of the demonstration on which this stands first."""
    return TEXT[: TEXT.index(text)].count("\n") + 1


STILL_READS = [
    ("tabs", (LIVE, 'live\t=\t"60 psf"\t# with a remark')),
    ("prime marks", (FLOOR, 'floor_height = "7′ 0½″"')),
    ("triple quotes", (FLOOR, "floor_height = '''7' 0 1/2\"'''")),
    ("backslashed mark", (FLOOR, r'floor_height = "7' + "'" + r' 0 1/2\""')),
    ("metric", (FLOOR, 'floor_height = "2134 mm"')),
    ("capital section", ('section = "2x8"', 'section = "2X8"')),
    ("grade by its sign", ('grade = "No.2"', 'grade = "#2"')),
    ("date in quotes", ("date = 2026-11-25", 'date = "2026-11-25"')),
    ("spaced header", ("[site]", "[ site ]  # the place")),
]
# One change each; a sentence has the line on which it stands and every one of the parts.
SAYS = [
    (LIVE, "live = 60 psf", LIVE, ["not valid TOML", "lacks quotes", 'live = "60 psf"']),
    (LIVE, "live = “60 psf”", "live = “", ["curly quotes", 'live = "60 psf"']),
    (LIVE, 'live = "60 psf', 'live = "60 psf', ["lacks the quote that closes it", 'live = "60 psf"']),
    (LIVE, 'live : "60 psf"', "live :", ["a colon", 'write live = "60 psf"']),
    (LIVE, 'live "60 psf"', 'live "60', ["neither a header nor a key", "key = value"]),
    (LIVE, "live = ", "live = ", ["has no value"]),
    (LIVE, 'li ve = "60 psf"', "li ve", ["one word", "li_ve"]),
    (LIVE, f"{LIVE}\n{LIVE}", "live_note", ["the key 'live' is given already"]),
    (LIVE, 'live = "60 \\psf"', "live =", ["a backslash"]),
    (LIVE, 'live = "60 psf"\0', "live =", ["no such file may have", "number 0"]),
    (LIVE, "live = [60 psf]", "live =", ["the list 'live'", "in quotes", "comma"]),
    ("[post.P6]", "[post.Stütze]", "[post.", ["a letter beyond a to z", "[post.Stutze]"]),
    ('section = "2x8"', 'section = "45x195"', 'section = "2x8"', ["45x195 has no unit", "45x195 mm"]),
    (LIVE, "live = 60", "live =", ["loads, live: 60 has no unit", '"60 psf"', "in quotes"]),
    (LIVE, 'lve = "60 psf"', "lve =", ["loads, lve", "the nearest is live"]),
    (LIVE, f'{LIVE}\nfrost_depth = "1 ft"', "live_note", ["loads, frost_depth", "belongs under [site]"]),
    (FLOOR, 'floor_height = "7\' 2 1/2""', "floor_height", ["quotes within quotes", '"7\' 2 1/2 in"']),
    (FLOOR, "floor_height = '7' 2\"'", "floor_height", ["quotes within quotes", '"7\' 2 in"']),
    (FLOOR, "floor_height = 7' 2\"", "floor_height", ["lacks quotes", '"7\' 2 in"']),
    (FLOOR, 'floor_height = "2\\" 7\'"', "floor_height", ["feet come first", "2' 7\""]),
    ('exposure = "B"', 'exposure = "B",', "exposure", ["',' after its text", 'write exposure = "B"']),
    ('exposure = "B"', 'exposure == "B"', "exposure", ["two = signs"]),
    ('exposure = "B"', '// exposure = "B"', "exposure", ["write # before a remark"]),
    ('exposure = "B"', 'exposure = "B" // woods', "exposure", ["'// woods' after its text"]),
    ('site = "Demo', 'site = "a "good" Demo', 'site = "Demo', ["quotes within quotes"]),
    ("format = 2", "format: 2", "format", ["a colon", "write format = 2."]),
    ("date = 2026-11-25", "date = Nov 25 2026", "date =", ["no date", "date = 2026-11-25"]),
    ("[bolt.main]", "[bolt main]", "[bolt.main]", ["a space in its name", "[bolt.main]"]),
    (
        '"134 in"],\n]',
        '"134 in"],\n',
        FLOOR,
        [f"the list 'outline' of line {line_of('outline = [')}", "] after the last"],
    ),
    ('"134 in"],\n]', '"134 in"],\n]]', None, ["closes more than was opened"]),
    ('girth = "75 3/8 in"', 'girth = """75 3/8 in"', "girth", ["three quotes that nothing closes"]),
    ('girth = "75 3/8 in"', 'girth = "75 3/0 in"', "girth", ["girth: '75 3/0 in' divides by zero"]),
    (
        'girth = "75 3/8 in"',
        'girth = "75 \\u0000in"',
        "girth",
        ["'75 \\u0000in'", "'\\u0000in' that is not known"],
    ),
    ("[connection.HJ]", "[connection]", "[connection.HJ]", ["connection: its header lacks a name"]),
    (
        "[footing.F22]",
        "[foundation.F22]",
        None,
        ["foundation: there is no such key here; known here: as_built"],
    ),
    ("wet = true", "wet = yes", "wet =", ["write wet = true"]),
    ("wet = true", "wet = False", "wet =", ["write wet = false"]),
    ("wet = true", 'wet = "true"', "wet =", ["'true'", "without quotes"]),
    ("plies = 2", 'plies = "2"', "plies =", ["beam S1, plies: '2' is no whole number", "without quotes"]),
    ("plies = 2", "plies = 2.5", "plies =", ["2.5 is no whole number"]),
    ("date = 2026-11-25", "date = 0", "date =", ["0 is no date", "2026-11-25"]),
    ("date = 2026-11-25", "date = 25-11-2026", "date =", ["year, month and day"]),
    ("date = 2026-11-25", "date = 11/25/2026", "date =", ["year, month and day"]),
    ("live = 360", 'live = "36000 %"', "live = 360", ["'36000 %' is a share", "without %"]),
    ("format = 2", "format = true", "format", ["true is no number"]),
    ("[site]", "[site", "[site", ["no header of a table", "closed by as many brackets"]),
    ("[site]", "[Site]", "[site]", ["Site: there is no such key here", "the nearest is [site]"]),
    ("[site]", "[[site]]", "[site]", ["written once", "[site] in single brackets"]),
    (
        "[limits]",
        "[site]",
        "[limits]",
        [f"[site] stands in line {line_of('[site]')} already", "under one header"],
    ),
    ("[[support]]", "[support]", None, ["[[support]] stands in line", "double brackets, each time"]),
    ("[[support]]", "[[supports]]", "[[support]]", ["the nearest is [[support]]"]),
    ("[[support]]", "[[support]", "[[support]]", ["closed by as many brackets"]),
    ("[post.P6]", "[post]", "[post.P6]", ["lacks a name", "[post.NAME]"]),
    ("[post.P6]", "[[post]]", "[post.P6]", ["[post.NAME]", "in place of [[post]]"]),
    ("[post.P6]", "[[post.P6]]", None, ["[post.P6] in single brackets"]),
    ("[post.P6]", '[post."P 6"]', "[post.P6]", ["'P 6' is no mark"]),
    ("[site]\n", "", None, ["code, frost_depth", "belongs under [site]"]),
    ("format = 2\n", "", None, ["format: this key is missing", "format = 2"]),
    ('hardware = "1 psf"\n', 'hardware = ""\n', "hardware", ["loads, hardware: '' is empty"]),
    (CORNER, '["74 1/2 in" "134 in"],', CORNER, ["the list 'outline'", "comma"]),
    (CORNER, '["74 1/2 in", "134"],', CORNER, ["platform, outline, corner 3, y: '134' has no unit"]),
    (CORNER, '["74 1/2 in"],', CORNER, ["outline, corner 3: ['74 1/2 in'] is no point", "x and y"]),
    (CORNER, '["7 ft", "9 ft", "1 ft"],', CORNER, ["corner 3", "is no point", "two lengths"]),
    (
        'at = ["0 in", "0 in"]',
        'at = "0 in, 0 in"',
        'at = ["0 in", "0',
        ["tree OAK, at: '0 in, 0 in' is no point"],
    ),
    (
        'at = ["-17 in", "0 in"]',
        'at = ["-17", "0 in"]',
        'at = ["-17',
        ["support T1, at, x: '-17' has no unit"],
    ),
    ("guard_edges = [2, 3, 4]", "guard_edges = 3", "guard_edges", ["3 is no list", "in brackets"]),
    ("guard_edges = [2, 3, 4]", 'guard_edges = ["3"]', "guard_edges", ["no. 1: '3' is no whole number"]),
    ('"Bur oak lookout"', '"   "', 'project = "Bur', ["title, project: '   ' is blank"]),
    ('"Bur oak lookout"', '"a\\u0000b"', 'project = "Bur', ["'a\\u0000b'", "can't be printed"]),
    ('"Bur oak lookout"', f'"{"x" * 300}"', 'project = "Bur', ["a text of 300 characters; at most 80"]),
    ('from = ["-15 1/4', 'start = ["-15 1/4', 'from = ["-15', ["beam S1, start", "the nearest is from"]),
    ('mark = "T2"', 'mark = "T\\u0000"', 'mark = "T2"', ["support no. 2, mark: 'T\\u0000' is no mark"]),
    ('species = "Southern Pine"', 'species = "Doug fir"', "species", ["use one of: Douglas Fir-Larch"]),
    ('species = "bur oak"', 'species = "oak"', 'species = "bur', ["near names are", "white oak", "bur oak"]),
    ('species = "bur oak"', 'species = "xyz"', 'species = "bur', ["names are such as", "sugar maple"]),
    ('grade = "No.2"', 'grade = "Number 2"', 'grade = "No.2"', ["use one of: No.2"]),
    ('section = "2x8"', "section = 2x8", 'section = "2x8"', ["lacks quotes", 'section = "2x8"']),
    ('spacing = "16 in"', 'spacing = "4000 mm"', 'spacing = "16 in"', ["'4000 mm' is more than 1524 mm"]),
    ('bearing = "hung"', 'bearing = "Hung up"', "bearing", ["'Hung up'", "'hung' or 'resting'"]),
]


def edited(old: str, new: str) -> str:
    assert old in TEXT, old
    return TEXT.replace(old, new, 1)


@pytest.mark.parametrize(
    "change", [change for _, change in STILL_READS], ids=[name for name, _ in STILL_READS]
)
def test_it_still_reads(change: tuple[str, str]) -> None:
    assert parse_project(edited(*change), "demo.toml").format == 2


def test_line_ends_of_other_systems() -> None:
    assert parse_project(TEXT.replace("\n", "\r\n"), "demo.toml").format == 2
    text = edited(LIVE, "live = 60 psf").replace("\n", "\r\n")
    sentence = rf'line {line_of(LIVE)} is not valid TOML: .* lacks quotes: write live = "60 psf"\.'
    with pytest.raises(ProjectError, match=sentence):
        parse_project(text, "demo.toml")


@pytest.mark.parametrize(("old", "new", "at", "parts"), SAYS, ids=[new[:30] for _, new, _, _ in SAYS])
def test_the_sentence_says_where_and_what_to_write(
    old: str, new: str, at: str | None, parts: list[str]
) -> None:
    with pytest.raises(ProjectError) as caught:
        parse_project(edited(old, new), "demo.toml")
    found = caught.value.sentences
    named = [sentence for sentence in found if all(part in sentence for part in parts)]
    assert named, found
    assert re.search(r"[^.]\.$", named[0])
    assert named[0].isprintable()
    if at is not None:
        line = line_of(at if at in TEXT else old)
        assert f"demo.toml, line {line}" in named[0]


def test_a_list_over_several_lines_has_the_line_of_its_item() -> None:
    text = edited(CORNER, '["74 1/2 in", # a remark with ] and , in it\n     "134"],')
    line = line_of(CORNER) + 1
    with pytest.raises(ProjectError, match=f"line {line}: platform, outline, corner 3, y: '134' has no unit"):
        parse_project(text, "demo.toml")


def test_a_coordinate_on_a_line_of_its_own_has_that_line() -> None:
    text = edited(CORNER, '[\n"74 1/2 in",\n# between\n"134",\n],')
    line = line_of(CORNER) + 3
    with pytest.raises(ProjectError, match=f"line {line}: platform, outline, corner 3, y: '134' has no unit"):
        parse_project(text, "demo.toml")


def test_both_spellings_of_a_key_are_not_taken_silently() -> None:
    text = TEXT + '\n[[supports]]\nmark = "P9"\n'
    with pytest.raises(
        ProjectError, match=r"supports: there is no such key here; the nearest is \[\[support\]\]"
    ):
        parse_project(text, "demo.toml")


def test_joists_counted_the_wrong_way_are_told_where_the_deck_lies() -> None:
    """At 90 deg the left of the joists is minus x: the demo's deck, x from -58-1/4 to 74-1/2 in, lies the other way."""
    text = edited('direction = "0 deg"', 'direction = "90 deg"').replace(
        'first = "20 in"', 'first = "100 in"'
    )
    with pytest.raises(LayoutError, match=r"deck lies from -6' 2 1/2\" to 4' 10 1/4\", counted to the left"):
        find_layout(parse_project(text, "demo.toml"))
