"""The draft: nothing typed is lost, comments stay, undo takes back exactly, faults are those of reading."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.platform.file.reading import ProjectError, find_faults, parse_project
from bolewright.workbook.draft import Draft
from bolewright.workbook.schema import FieldKind, Shape, sections

DEMO = (Path(__file__).parents[1] / "projects" / "lookout_gravity.toml").read_text(encoding="utf-8")


def comments(text: str) -> list[str]:
    return [line.split("#", 1)[1] for line in text.splitlines() if "#" in line]


@pytest.fixture
def draft() -> Draft:
    return Draft(DEMO, "lookout.toml")


def test_demo_is_untouched_and_without_fault(draft):
    assert draft.text == DEMO
    assert draft.faults == {}
    assert draft.project == parse_project(DEMO)


def test_every_field_has_a_help():
    assert [(s.key, f.key) for s in sections() for f in s.fields if not f.help] == []


def test_sections_stand_in_load_path_order():
    keys = [s.key for s in sections()]
    path = ["decking", "joists", "connection", "beam", "support", "tree", "bolt", "post", "footing"]
    assert [key for key in keys if key in path] == path


def test_a_changed_size_leaves_every_other_character(draft):
    draft.type(("beam", 0, "section"), "2x10")
    assert draft.text == DEMO.replace('section = "2x12"', 'section = "2x10"', 1)


def test_a_comment_beside_a_changed_value_stays(draft):
    draft.type(("footing", "F20", "pad"), "12 in")
    assert 'pad = "12 in"             # plain concrete under the foot of the post' in draft.text


def test_one_changed_corner_keeps_the_layout_of_the_outline(draft):
    text = draft.shown(("platform", "outline"))
    draft.type(("platform", "outline"), text.replace("26 in", "30 in"))
    assert draft.text == DEMO.replace('["26 in", "18 in"]', '["30 in", "18 in"]')


def test_a_fifth_corner(draft):
    where = ("platform", "outline")
    draft.type(where, draft.shown(where) + "\n-60 in, 100 in")
    assert draft.project is not None
    assert draft.project.platform.outline[-1] == (-60.0, 100.0)


@pytest.mark.parametrize(
    ("where", "text", "sentence"),
    [
        (("loads", "live"), "40", '\'40\' has no unit: write "40 psf" or "40 kPa".'),
        (("loads", "live"), "5 psf", "'5 psf' is less than 10 psf, the least allowed."),
        (
            ("loads", "live"),
            "sixty",
            "'sixty' is not understood: write a load per area such as 40 psf or 1.9 kPa.",
        ),
        (("loads", "live"), "", "this key is missing and must be given: live load of people and things."),
        (("beam", 0, "plies"), "two", "'two' is no whole number: write one such as 2"),
        (("support", 0, "at"), "3 ft", "a point is two lengths, x and y, such as"),
        (("support", 0, "at"), "3 ft, wide", "'wide' is not understood: write a length such as"),
        (("support", 2, "post"), "P9", "'P9' is no post of this file; the file has: P6."),
        (("title", "date"), "soon", "'soon' is no date: write year, month and day"),
        (("loads", "guard_edges"), "2, 9", "9 is no edge of the outline; its edges are numbered 1 to 4"),
        (("joists", 0, "section"), "2x", "'2x'"),
        (("tree", 0, "species"), "bur okra", "species 'bur okra' is not in Wood Handbook Table 5-3b;"),
    ],
)
def test_what_is_wrong_is_said_at_the_field_and_the_text_stays(draft, where, text, sentence):
    draft.type(where, text)
    assert draft.shown(where) == text
    assert sentence in draft.message(where)
    assert draft.project is None
    assert "lookout.toml" not in draft.message(where)


def test_messages_are_those_of_reading(draft):
    draft.type(("loads", "live"), "5 psf")
    with pytest.raises(ProjectError) as caught:
        parse_project(draft.text, "lookout.toml")
    assert caught.value.sentences[0].endswith(draft.message(("loads", "live")))


@pytest.mark.parametrize(
    ("where", "text", "words"),
    [
        (("platform", "floor_height"), "7' 2 1/2\"", "7' 2 1/2\" (86.5 in, 2,197 mm)"),
        (("platform", "floor_height"), "2200 mm", "7' 2 5/8\" (86.61 in, 2,200 mm)"),
        (("loads", "live"), "1.9 kPa", "39.68 psf (1.9 kPa)"),
        (("bolt", "main", "F_y"), "36 ksi", "36,000 psi (248.2 MPa)"),
        (("beam", 0, "section"), "2x12", "1.5 x 11.25 in (38 x 286 mm)"),
        (("tree", 0, "species"), "bur oak", "Oak, white - bur"),
        (("support", 0, "at"), "-17 in, 0 in", 'x -1\' 5" (-17 in, -431.8 mm); y 0" (0 in, 0 mm)'),
    ],
)
def test_what_a_value_is_understood_as(draft, where, text, words):
    # 1 in = 25.4 mm, 1 psf = 47.88 Pa, 1 psi = 6.895 kPa: NIST SP 811, Appendix B.8
    draft.type(where, text)
    assert draft.understood(where) == words


def test_undo_and_redo(draft):
    draft.type(("beam", 0, "section"), "2x10")
    changed = draft.text
    assert draft.can_undo == "section of S1"
    assert draft.undo() == "section of S1"
    assert draft.text == DEMO
    assert draft.redo() == "section of S1"
    assert draft.text == changed


def test_a_run_of_keystrokes_is_one_step(draft):
    for text in ("6", "60", "60 ", "60 p", "60 ps", "61 psf"):
        draft.type(("loads", "live"), text)
    draft.type(("site", "ground_snow"), "35 psf")
    draft.undo()
    assert draft.get(("loads", "live")) == "61 psf"
    draft.undo()
    assert draft.text == DEMO


def test_leaving_a_field_begins_a_new_step(draft):
    draft.type(("loads", "live"), "61 psf")
    draft.settle()
    draft.type(("loads", "live"), "62 psf")
    draft.undo()
    assert draft.get(("loads", "live")) == "61 psf"


def test_an_emptied_field_leaves_the_key_out_and_has_its_default(draft):
    draft.type(("decking", "gap"), "")
    assert "gap" not in draft.data["decking"]
    assert draft.project is not None
    assert draft.project.decking.gap == 0.125


def test_a_section_that_was_left_out_is_made(draft):
    text = DEMO.replace("[limits]", "").replace("live = 360                # span divided by this", "")
    draft = Draft(text.replace("total = 240\ndeck_live = 180\n", ""))
    draft.type(("limits", "live"), "480")
    assert draft.project is not None
    assert draft.project.limits.live == 480


def test_an_added_support_wants_its_place_and_nothing_else(draft):
    where = draft.add("support")
    assert where == ("support", 4)
    assert [name for _, name in draft.parts("support")] == ["T1", "T2", "P1", "P2", "P3"]
    assert draft.faults == {
        (
            "support",
            4,
            "at",
        ): "this key is missing and must be given: where the load comes down, in plan: x, y."
    }
    draft.type((*where, "at"), "6 in, 114 in")
    assert draft.project is not None
    assert draft.project.supports[4].at == (6.0, 114.0)


def test_an_added_part_stands_with_its_own_kind(draft):
    draft.add("support")
    headers = [line for line in draft.text.splitlines() if line.startswith("[[")]
    assert headers[:7] == ["[[tree]]", *["[[support]]"] * 5, "[[beam]]"]
    assert comments(draft.text) == comments(DEMO)


def test_a_copy_is_the_same_but_for_its_mark(draft):
    where = draft.copy("beam", 2)
    assert where == ("beam", 3)
    parts = draft.data["beam"]
    assert parts[3] == {**parts[2], "mark": "C2"}
    assert draft.text.count("# under the upper beams") == 2


def test_a_copied_kind_has_its_own_name(draft):
    assert draft.copy("footing", "F20") == ("footing", "F1")
    assert draft.data["footing"]["F1"] == draft.data["footing"]["F20"]


def test_removing_a_part_says_who_misses_it(draft):
    draft.remove("tree", 0)
    assert (
        draft.message(("support", 0, "tree"))
        == "'OAK' is no tree of this file; the file has none: write [[tree]] with its keys."
    )
    draft.undo()
    assert draft.text == DEMO


def test_removing_keeps_the_comment_that_leads_to_the_next_section():
    text = DEMO.replace("[[beam]]\n", "# The beams, two stringers and a beam\n[[beam]]\n", 1)
    draft = Draft(text)
    draft.remove("support", 3)
    assert comments(draft.text) == comments(text)
    assert len(draft.data["support"]) == 3


def test_a_new_name_is_followed_by_all_who_use_it(draft):
    draft.rename("tree", 0, "BUR")
    draft.rename("footing", "F20", "HOLE")
    draft.rename("connection", "HJ", "H2")
    assert draft.project is not None
    assert [s.tree for s in draft.project.supports[:2]] == ["BUR", "BUR"]
    assert [s.footing for s in draft.project.supports[2:]] == ["HOLE", "HOLE"]
    assert draft.project.joists[0].hanger == "H2"
    assert comments(draft.text) == comments(DEMO)


def test_a_name_that_is_taken_is_refused_and_nothing_changes(draft):
    draft.copy("bolt", "main")
    before = draft.text
    with pytest.raises(ValueError, match="'main' already names a kind of bolt"):
        draft.rename("bolt", "B1" if "B1" in draft.names("bolt") else "main1", "main")
    assert draft.text == before


def test_a_part_as_a_whole_that_is_wrong(draft):
    draft.type(("tree", 0, "diameter"), "24 in")
    assert draft.messages_elsewhere() == {("tree", 0): "give either girth or diameter, and not both."}


def test_one_wrong_entry_is_one_fault(draft):
    draft.type(("joists", 0, "spacing"), "16 inchworms")
    assert list(draft.faults) == [("joists", 0, "spacing")]


def test_an_unknown_key_is_said_and_stays():
    draft = Draft(DEMO.replace('exposure = "B"', 'exposure = "B"\nweather = "fine"'))
    assert list(draft.messages_elsewhere()) == [("site", "weather")]
    assert 'weather = "fine"' in draft.text


def test_no_toml_is_refused_with_a_sentence():
    with pytest.raises(ProjectError, match=r"project is not valid TOML"):
        Draft("beam = = 2")


def test_parts_written_in_one_line_can_be_changed_too():
    head, _, _ = DEMO.partition("[[support]]")
    rest = DEMO[DEMO.index("[[beam]]") :]
    parts = tomllib.loads(DEMO)["support"]
    inline = ", ".join(
        "{" + ", ".join(f"{k} = {v!r}".replace("'", '"') for k, v in part.items()) + "}" for part in parts
    )
    text = head.replace("format = 2\n", f"format = 2\nsupport = [{inline}]\n") + rest
    draft = Draft(text)
    assert draft.project == parse_project(DEMO)
    draft.type(("support", 0, "at"), "-16 in, 0 in")
    assert draft.data["support"][0]["at"] == ["-16 in", "0 in"]
    draft.remove("support", 1)
    draft.add("support")
    assert tomllib.loads(draft.text) == draft.data
    assert [p["mark"] for p in draft.data["support"]] == ["T1", "P1", "P2", "P3"]


# ---------------------------------------------------------------------------------------------------------
# Laws

TEXTS = st.one_of(
    st.sampled_from(["2x10", "6 ft", "", "3' 2 1/2\"", "40 psf", "yes", "12, 3", "a\nb, c", "0.5", "P1"]),
    st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), max_size=12),
)


def places(draft: Draft) -> list[tuple]:
    found = []
    for spec in sections():
        parts = [()] if spec.shape is Shape.ONE else [(which,) for which, _ in draft.parts(spec.key)]
        found += [(spec.key, *part, field.key) for part in parts for field in spec.fields]
    return found


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_any_run_of_changes_keeps_comments_reads_back_and_undoes_exactly(data):
    draft = Draft(DEMO)
    removed = False
    texts = [draft.text]
    for _ in range(data.draw(st.integers(1, 6))):
        what = data.draw(st.sampled_from(["type", "type", "type", "add", "copy", "remove"]))
        listed = [s.key for s in sections() if s.shape is not Shape.ONE and draft.parts(s.key)]
        key = data.draw(st.sampled_from(listed))
        which = data.draw(st.sampled_from([w for w, _ in draft.parts(key)]))
        draft.settle()
        if what == "type":
            where = data.draw(st.sampled_from(places(draft)))
            text = data.draw(TEXTS)
            draft.type(where, text)
            if draft.field(where).kind in (FieldKind.TEXT, FieldKind.QUANTITY) and text.strip():
                assert draft.shown(where).strip() == text.strip()
            removed |= draft.field(where).kind in (FieldKind.CORNERS, FieldKind.RINGS) or not text.strip()
        elif what == "add":
            draft.add(key)
        elif what == "copy":
            draft.copy(key, which)
        else:
            draft.remove(key, which)
            removed = True
        assert tomllib.loads(draft.text) == draft.data
        assert find_faults(draft.data)[0] == draft.project
        if draft.text != texts[-1]:
            texts.append(draft.text)
    if not removed:
        assert [c for c in comments(DEMO) if c not in draft.text] == []
    for text in reversed(texts[:-1]):
        draft.undo()
        assert draft.text == text
    for text in texts[1:]:
        draft.redo()
        assert draft.text == text


def test_a_bare_number_of_the_file_is_told_of_its_unit_without_a_word_of_quotes():
    draft = Draft(
        (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml")
        .read_text()
        .replace('live = "60 psf"', "live = 60")
    )
    assert draft.message(("loads", "live")) == "60 has no unit: write 60 psf or 60 kPa."


SOURCE = re.compile(
    r"\((?:NDS|IRC|IBC|ASCE|ACI|AISC|AWC|ANSI|OSHA|Wood Handbook|Wagener|common practice|from memory)"
    r"|\((?:statics|mechanics)[;)]|maker|off the bag"
)


@pytest.mark.parametrize("spec", sections(), ids=lambda spec: spec.key)
def test_every_field_says_what_it_rests_on(spec):
    """A clause, common practice, statics, or the maker's sheet, in one sentence."""
    for item in spec.fields:
        assert SOURCE.search(item.help), (item.key, item.help)
        assert item.help.endswith("."), item.help
        assert "\n" not in item.help
