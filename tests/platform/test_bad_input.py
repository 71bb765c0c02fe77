"""Files that can't be used: one sentence each, which names line, key, value and what is allowed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from arrangement_files import DEMO, FOLDER, file_of

from bolewright.platform.file.reading import ProjectError, parse_project, read_project
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.results.results import find_results

TEXT = file_of(DEMO).read_text(encoding="utf-8")


def changed(old: str, new: str, text: str = TEXT) -> str:
    assert text.count(old) >= 1, old
    return text.replace(old, new, 1)


def sentences(text: str) -> list[str]:
    with pytest.raises(ProjectError) as caught:
        parse_project(text, "demo.toml")
    return caught.value.sentences


def line_of(text: str, part: str) -> int:
    return text[: text.index(part)].count("\n") + 1


# One change to the demo each; the sentence has every one of the parts.
ONE_FAULT = [
    (
        "unknown key",
        ('frost_depth = "42 in"', 'frost_deph = "42 in"'),
        ["site, frost_deph", "no such key", "frost_depth"],
    ),
    ("unknown table", ("[limits]", "[limit]"), ["limit", "no such key", "limits"]),
    (
        "missing unit",
        ('frost_depth = "42 in"', 'frost_depth = "42"'),
        ["site, frost_depth", "'42'", "no unit", '"42 in", "42 ft" or "42 mm"'],
    ),
    (
        "bare number",
        ('frost_depth = "42 in"', "frost_depth = 42"),
        ["site, frost_depth", "42", "no unit", "in quotes"],
    ),
    (
        "unknown unit",
        ('frost_depth = "42 in"', 'frost_depth = "42 cubits"'),
        ["frost_depth", "cubits", "not known"],
    ),
    (
        "wrong dimension",
        ('frost_depth = "42 in"', 'frost_depth = "42 psf"'),
        ["frost_depth", "load per area", "a length such as"],
    ),
    (
        "negative",
        ('frost_depth = "42 in"', 'frost_depth = "-42 in"'),
        ["frost_depth", "-42 in", "0 in", "least"],
    ),
    ("zero size", ('height = "58 ft"', 'height = "0 ft"'), ["tree OAK, height", "0 ft", "more than zero"]),
    (
        "not a number",
        ('height = "58 ft"', 'height = "nan ft"'),
        ["tree OAK, height", "nan ft", "not understood", "a length such as"],
    ),
    ("infinite", ('height = "58 ft"', 'height = "inf ft"'), ["tree OAK, height", "inf ft", "not understood"]),
    ("bare nan", ("live = 360", "live = nan"), ["limits, live", "nan", "finite"]),
    ("power", ('height = "58 ft"', 'height = "1e9 ft"'), ["tree OAK, height", "1e9 ft"]),
    (
        "absurd length",
        ('at = ["-17 in", "0 in"]', 'at = ["-400 ft", "0 in"]'),
        ["support T1, at, x", "-400 ft", "-100 ft", "least"],
    ),
    ("absurd load", ('live = "60 psf"', 'live = "6000 psf"'), ["loads, live", "6000 psf", "500 psf", "most"]),
    (
        "duplicate mark",
        ('mark = "T2"', 'mark = "T1"'),
        ["support T1, mark", "'T1'", "already names a support", "unique"],
    ),
    ("mark of a joist", ('mark = "T2"', 'mark = "J2"'), ["support J2, mark", "'J2'", "joist of field 'J'"]),
    ("no mark", ('mark = "T2"', 'mark = "2 T"'), ["support 2 T, mark", "'2 T'", "starts with a letter"]),
    (
        "unknown species of timber",
        ('species = "Southern Pine"', 'species = "Southern Spine"'),
        ["decking, species", "Southern Spine", "use one of", "Douglas Fir-Larch"],
    ),
    (
        "unknown species of tree",
        ('species = "bur oak"', 'species = "burr oak"'),
        ["tree OAK, species", "burr oak", "bur oak"],
    ),
    ("unknown grade", ('grade = "No.2"', 'grade = "No.9"'), ["decking, grade", "No.9", "use one of", "No.2"]),
    (
        "no stock size",
        ('section = "2x8"', 'section = "2x9"'),
        ["joists J, section", "2x9", "not a standard nominal width"],
    ),
    (
        "plies in the section",
        ('section = "2x12"', 'section = "(2) 2x12"'),
        ["beam S1, section", "plies = 2"],
    ),
    ("built-up post", ('section = "6x6"', 'section = "(3) 2x6"'), ["post, P6, section", "one piece"]),
    ("no such bolt", ('bolt = "main"', 'bolt = "mian"'), ["support T1, bolt", "'mian'", "no bolt", "main"]),
    ("no such tree", ('tree = "OAK"', 'tree = "ELM"'), ["support T1, tree", "'ELM'", "no tree", "OAK"]),
    (
        "no such hanger",
        ('hanger = "HJ"', 'hanger = "HQ"'),
        ["joists J, hanger", "'HQ'", "no connection", "HJ"],
    ),
    (
        "no such guard edge",
        ("guard_edges = [2, 3, 4]", "guard_edges = [2, 3, 5]"),
        ["loads, guard_edges", "5 is no edge", "1 to 4"],
    ),
    ("other soil", ('soil = "class 4"', 'soil = "class 6"'), ["site, soil", "'class 6'", "class 5"]),
    (
        "girth and diameter",
        ('girth = "75 3/8 in"', 'girth = "75 3/8 in"\ndiameter = "24 in"'),
        ["tree OAK", "either girth or diameter"],
    ),
    ("joists backwards", ('last = "132 in"', 'last = "13 in"'), ["joists J, last", "lies before the first"]),
    ("thousands of joists", ('last = "132 in"', 'last = "1200 in"\nspacing = "4 in"\n#'), None),
    ("a mark too few", ('mark = "C1"\n', ""), ["beam", "mark", "missing"]),
    (
        "point of one number",
        ('at = ["-17 in", "0 in"]', 'at = ["-17 in"]'),
        ["support T1, at", "a point is two lengths"],
    ),
    (
        "outline of two points",
        ('    ["74 1/2 in", "134 in"],\n    ["-58 1/4 in", "134 in"],\n', ""),
        ["platform, outline", "at least 3"],
    ),
    (
        "opening of two points",
        ('floor_height = "7\'"', 'floor_height = "7\'"\nopenings = [[["0 in", "40 in"], ["9 in", "40 in"]]]'),
        ["platform, openings", "at least 3"],
    ),
    ("other format", ("format = 2", "format = 3"), ["format", "3 is not allowed", "2"]),
    ("text for a switch", ("wet = true", 'wet = "soaked"'), ["decking, wet", "soaked"]),
    (
        "beam of no length",
        ('to = ["68 1/2 in", "114 in"]', 'to = ["-54 11/16 in", "114 in"]'),
        ["beam C1, to", "starts and ends at one point"],
    ),
    (
        "beam of 90 ft",
        ('to = ["68 1/2 in", "114 in"]', 'to = ["90 ft", "114 in"]'),
        ["beam C1, to", "94' 6 11/16\"", "60'"],
    ),
]


@pytest.mark.parametrize(
    ("change", "parts"), [(c, p) for _, c, p in ONE_FAULT if p], ids=[n for n, _, p in ONE_FAULT if p]
)
def test_one_fault_is_one_sentence(change: tuple[str, str], parts: list[str]) -> None:
    text = changed(*change)
    found = sentences(text)
    named = [sentence for sentence in found if all(part in sentence for part in parts)]
    assert named, found
    (sentence,) = named[:1]
    assert re.match(r"demo\.toml(, line \d+)?: ", sentence)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert "pydantic" not in sentence
    if line := re.match(r"demo\.toml, line (\d+): ", sentence):
        assert 1 <= int(line[1]) <= text.count("\n") + 1


def test_the_line_is_that_of_the_key() -> None:
    text = changed('soil = "class 4"', 'soil = "class 9"')
    assert sentences(text)[0].startswith(f"demo.toml, line {line_of(text, 'soil = ')}: site, soil: ")
    text = changed('at = ["48 in", "114 in"]', 'at = ["48 in", "114 psf"]')
    line = line_of(text, 'at = ["48 in')
    assert sentences(text)[0].startswith(f"demo.toml, line {line}: support P2, at, y: ")


def test_every_fault_is_listed_up_to_a_few_dozen() -> None:
    text = changed('soil = "class 4"', 'soil = "class 9"')
    text = changed('live = "60 psf"', 'live = "60"', text)
    assert len(sentences(text)) == 2
    text = TEXT + "".join(f"\n[x{i}]\n" for i in range(200))
    found = sentences(text)
    assert len(found) < 40
    assert "more faults are not listed" in found[-1]


TOO_MANY = [
    (
        "joists",
        changed(
            'last = "132 in"', 'last = "1200 in"', changed('spacing = "16 in"', 'spacing = "4 in"')
        ).replace('first = "20 in"', 'first = "-1200 in"'),
        ["joists J, spacing", "601 joists", "at most 400"],
    ),
    (
        "posts",
        TEXT
        + '\n[[support]]\nmark = "Q{i}"\nkind = "post"\npost = "P6"\nfooting = "F22"\nat = ["36 in", "114 in"]\n',
        None,
    ),
    (
        "deck",
        changed(
            '["-58 1/4 in", "134 in"]',
            '["-1200 in", "1200 in"]',
            changed('["74 1/2 in", "134 in"]', '["1200 in", "1200 in"]'),
        ),
        ["platform, outline", "most allowed is 4,000 sq ft"],
    ),
]


@pytest.mark.parametrize("kind", ["joists", "posts", "deck"])
def test_too_much_is_refused_before_it_is_worked_on(kind: str) -> None:
    _, text, parts = next(row for row in TOO_MANY if row[0] == kind)
    if kind == "posts":
        block = text[len(TEXT) :]
        text = TEXT + "".join(block.replace("{i}", str(i)) for i in range(70))
        parts = ["support", "at most 60"]
    assert any(all(part in sentence for part in parts) for sentence in sentences(text)), sentences(text)


# ---------------------------------------------------------------------------------------------------------
# Files


def unreadable(path: Path) -> str:
    with pytest.raises(ProjectError) as caught:
        read_project(path)
    (sentence,) = caught.value.sentences
    assert sentence.endswith(".")
    return sentence


def written(folder: Path, content: bytes) -> Path:
    path = folder / "some.toml"
    path.write_bytes(content)
    return path


def test_a_folder(tmp_path: Path) -> None:
    assert "is a folder" in unreadable(tmp_path)


def test_no_file(tmp_path: Path) -> None:
    assert "There is no file" in unreadable(tmp_path / "none.toml")


def test_a_name_too_long(tmp_path: Path) -> None:
    assert "can't be read" in unreadable(tmp_path / ("x" * 5000))


def test_a_loop_of_links(tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    assert unreadable(tmp_path / "a")


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = written(tmp_path, b"format = 2\n")

    def refuse(*args: object, **kwargs: object) -> str:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_text", refuse)
    assert "can't be read: Permission denied" in unreadable(path)


def test_an_endless_device() -> None:
    zero = Path("/dev/zero")
    if not zero.exists():
        pytest.skip("no such device here")
    assert "no ordinary file" in unreadable(zero)


def test_a_huge_file(tmp_path: Path) -> None:
    assert "larger than 1 MB" in unreadable(written(tmp_path, b"# " + b"x" * 2_000_000))


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "is empty"),
        (b"# nothing but a comment\n", "is empty"),
        (b"\xff\xfe\x00\x01", "UTF-8"),
        ("straße = 1".encode("latin-1"), "UTF-8"),
        (b"\x7fELF\x02\x01\x01\x00\x00", "not valid TOML"),
        (b'{"json": true}', "not valid TOML"),
        (b"format = 2\nformat = 1\n", "not valid TOML"),
        (b"a = " + b"[" * 20_000, "nested too deeply"),
        (b"a = " + b"9" * 5000, "not valid TOML"),
        (b"date = 2026-13-45\n", "not valid TOML"),
    ],
    ids=["empty", "comment", "binary", "latin", "program", "json", "twice", "deep", "digits", "date"],
)
def test_content_that_is_no_project(tmp_path: Path, content: bytes, words: str) -> None:
    assert words in unreadable(written(tmp_path, content))


def test_a_mark_of_byte_order_does_no_harm(tmp_path: Path) -> None:
    assert read_project(written(tmp_path, b"\xef\xbb\xbf" + TEXT.encode())).format == 2


# ---------------------------------------------------------------------------------------------------------
# Arrangements that cannot stand


def refused(text: str) -> str:
    with pytest.raises(LayoutError) as caught:
        find_results(parse_project(text))
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    return sentence


def arrangement(name: str) -> str:
    return (FOLDER / f"{name}.toml").read_text(encoding="utf-8")


RING = """
[[beam]]
mark = "{mark}"
section = "2x12"
species = "Southern Pine"
grade = "No.2"
hanger = "H"
from = {start}
to = {end}
"""

STAND = [
    (
        "post that carries nothing",
        changed('at = ["48 in", "114 in"]', 'at = ["48 in", "90 in"]'),
        ["Support P2", "carries nothing", "S2", '6" away'],
    ),
    (
        "diagonal that ends far outside the deck",
        changed('to = ["72 in", "132 in"]', 'to = ["272 in", "332 in"]'),
        ["Diagonal X1 ends on nothing", "its to at 22' 8\"", "nearest joist or beam", "at most 1 in."],
    ),
    (
        "diagonal that ends between the joists",
        changed('from = ["25 1/4 in", "20 in"]', 'from = ["20 in", "28 in"]'),
        ["Diagonal X2 ends on nothing", "its from at 1' 8\""],
    ),
    (
        "post far outside the plan",
        changed('at = ["48 in", "114 in"]', 'at = ["300 in", "300 in"]'),
        ["Support P2", "carries nothing", "move it under a beam"],
    ),
    (
        "beam with one support",
        changed('to = ["-56 5/16 in", "133 in"]', 'to = ["-46.5 in", "100 in"]'),
        ["S1", "only on T1", "two supports"],
    ),
    (
        "joist that reaches no beam",
        arrangement("over_three_posts")
        .replace('first = "-191 in"', 'first = "-191 in"')
        .replace(
            'outline = [["0 in", "0 in"], ["192 in", "0 in"]',
            'outline = [["0 in", "0 in"], ["300 in", "0 in"]',
        )
        .replace('first = "-191 in"', 'first = "-290 in"'),
        ["Joist J1", "reaches", "two"],
    ),
    (
        "bolt inside the bark",
        changed('seat_length = "3 in"', 'seat_length = "12 in"'),
        ["tree bolt T1", "bark of OAK", "or more from the axis"],
    ),
    (
        "deck into the trunk",
        changed('["-24 in", "18 in"]', '["-24 in", "6 in"]').replace(
            '["26 in", "18 in"]', '["26 in", "6 in"]'
        ),
        ["deck", "trunk of OAK", "opening"],
    ),
    (
        "trunk in the middle of the deck without an opening",
        arrangement("over_three_posts")
        + '\n[[tree]]\nmark = "ASH"\nspecies = "white ash"\nat = ["60 in", "60 in"]\ndiameter = "14 in"\n'
        + 'bark = "1/2 in"\nheight = "50 ft"\n',
        ["deck runs into the trunk of ASH", "leave an opening round it"],
    ),
    (
        "deck not covered by joists",
        changed('last = "132 in"', 'last = "84 in"'),
        ["The deck near", "the nearest member under it", "last joist"],
    ),
    (
        "field that leaves part of the deck out",
        arrangement("two_fields_square").replace(
            '["90 in", "108 in"], ["0 in", "108 in"]]', '["90 in", "60 in"], ["0 in", "60 in"]]'
        ),
        ["joist fields cover", "sq ft"],
    ),
    (
        "outline that crosses itself",
        changed('["26 in", "18 in"]', '["26 in", "150 in"]').replace(
            '["74 1/2 in", "134 in"]', '["-50 in", "100 in"]'
        ),
        ["outline", "edges cross"],
    ),
    (
        "beams that cross in one layer",
        changed("layer = 2 ", "layer = 1 "),
        ["Beams", "cross in one layer", "layer 2"],
    ),
    (
        "guard on boards that nothing bears",  # as far as boards may reach a guard comes to the members by their lever
        arrangement("over_three_posts")
        .replace('spacing = "16 in"', 'spacing = "60 in"')
        .replace('first = "-191 in"', 'first = "-154 in"'),
        ["The deck near", "the nearest member under it"],
    ),
    (
        "joist of 50 ft",
        arrangement("over_three_posts").replace('"112 in"]', '"610 in"]').replace('"98 in"]', '"600 in"]'),
        ["Joist J1", "50' 10\"", "most allowed is 40'"],
    ),
    (
        "hatch cut by a beam",
        arrangement("over_three_posts").replace(
            "floor_height",
            'openings = [[["177 in", "4 in"], ["189 in", "4 in"], ["189 in", "26 in"], ["177 in", "26 in"]]]\n'
            "floor_height",
        ),
        ["Opening 1", "cut by beam C1"],
    ),
    (
        "beam through the trunk",
        arrangement("two_trees")
        .replace('from = ["-6 in", "15 in"]', 'from = ["-6 in", "9 in"]')
        .replace('to = ["138 in", "15 in"]', 'to = ["138 in", "9 in"]')
        .replace('at = ["0 in", "15 in"]', 'at = ["0 in", "9 in"]')
        .replace('at = ["132 in", "15 in"]', 'at = ["132 in", "9 in"]'),
        ["C1", "trunk of ASH"],
    ),
    (
        "floor below the beams",
        changed('floor_height = "7\'"', 'floor_height = "2\'"'),
        ["below grade", "raise the floor"],
    ),
]


@pytest.mark.parametrize(("text", "parts"), [(t, p) for _, t, p in STAND], ids=[n for n, _, _ in STAND])
def test_arrangements_that_cannot_stand_say_which_part_and_why(text: str, parts: list[str]) -> None:
    sentence = refused(text)
    assert all(part in sentence for part in parts), sentence


def test_beams_in_a_ring() -> None:
    # Four beams in a square, each on one post and hung from the next.
    corners = [(40, 37), (60, 37), (60, 53), (40, 53)]
    text = arrangement("hung_beams")
    for i, (a, b) in enumerate(zip(corners, [*corners[1:], corners[0]], strict=True)):
        start = (a[0] - 0.4 * (b[0] - a[0]), a[1] - 0.4 * (b[1] - a[1]))
        from_, to = ('["{:.3f} in", "{:.3f} in"]'.format(*point) for point in (start, b))
        text += RING.format(mark=f"R{i}", start=from_, end=to)
        text += f'[[support]]\nmark = "Q{i}"\nkind = "post"\npost = "P6"\nfooting = "F"\nat = {from_}\n'
    sentence = refused(text)
    assert "in a ring" in sentence
    assert all(f"R{i}" in sentence for i in range(4))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [  # common practice, and ICC A117.1-2017, 302.3 for the gap: at most 1/2 in
        ('gap = "1/8 in"', 'gap = "24 in"', "'24 in' is more than 0.5 in, the most allowed"),
        ('seat_length = "1 1/2 in"', 'seat_length = "10 in"', "'10 in' is more than 6 in, the most allowed"),
        ('cap_lateral = "900 lb"', 'cap_length = "10 ft"', "'10 ft' is more than 2 ft, the most allowed"),
        ('cap_lateral = "900 lb"', 'cap_seat = "4 in"', "'4 in' is more than 2 in, the most allowed"),
    ],
)
def test_sizes_that_no_builder_would_recognise(old, new, said):
    assert said in " ".join(sentences(changed(old, new)))
