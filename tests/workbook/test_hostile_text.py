"""Text that would be markup, script or a formula stays text: in the form's own HTML, on sheets, in every file."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import ipywidgets as w
import pytest

from bolewright.drawings.files import drawing_files
from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import find_results, to_json
from bolewright.take_off.export import take_off_files
from bolewright.workbook.app import Workbook
from bolewright.workbook.desk import Desk

HOSTILE = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "<svg/onload=alert(1)>",
    "</title><iframe src=javascript:alert(1)>",
    "&lt;b&gt; <b>bold</b>",
    "]]><!--",
    "{{7*7}} ${x} %s",
    '=HYPERLINK("https://example.org")',
)
ALL = " ".join(HOSTILE)
DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")


def hostile(words: str) -> str:
    quoted, short = json.dumps(words), json.dumps(words[:80])  # the title block has room for 80
    text = DEMO.replace('project = "Bur oak lookout"', f"project = {short}")
    text = text.replace('client = ""', f"client = {short}").replace(
        'note = "A demonstration, not a design"', f"note = {quoted}"
    )
    text = re.sub(r'(cap_note|rated_note|live_note) = ".*?"', lambda m: f"{m[1]} = {quoted}", text)
    return re.sub(r'condition = ".*?"', lambda m: f"condition = {quoted}", text)


class Seen(HTMLParser):
    """Tags, and attributes that a browser would act on, of a piece of HTML."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.acts: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.acts += [f"{tag} {k}" for k, v in attrs if k.startswith("on") or "javascript:" in (v or "")]


def pieces(widget: Any) -> list[str]:
    """HTML of a tree of widgets."""
    own = [widget.value] if isinstance(widget, w.HTML) else []
    return own + [text for child in getattr(widget, "children", ()) for text in pieces(child)]


def assert_inert(html: str) -> None:
    seen = Seen(html)
    assert not seen.tags & {"script", "img", "iframe", "b"}
    assert seen.acts == []


def test_the_forms_own_html(tmp_path):
    path = tmp_path / "a.toml"
    path.write_text(hostile(ALL), encoding="utf-8")
    book = Workbook(Desk(path))
    for section in book.form.sections.values():
        section.open()
    for html in pieces(book.box):
        assert_inert(html)


def test_what_is_refused_is_shown_as_text(tmp_path):
    """Typed where it is not allowed: a mark, a quantity, a species, a name of a kind."""
    path = tmp_path / "a.toml"
    path.write_text(DEMO, encoding="utf-8")
    desk = Desk(path)
    book = Workbook(desk)
    for section in book.form.sections.values():
        section.open()
    places = (
        ("beam", 0, "section"),
        ("tree", 0, "species"),
        ("loads", "live"),
        ("support", 0, "tree"),
        ("joists", 0, "hanger"),
        ("platform", "floor_height"),
        ("footing", "F22", "shape"),
        ("decking", "grade"),
    )
    for where, words in zip(places, HOSTILE, strict=True):
        desk.type(where, words)
    for html in pieces(book.box):
        assert_inert(html)


@pytest.mark.parametrize("words", [ALL, HOSTILE[-1]])
def test_files_hold_it_as_text(words):
    """SVG is one well-formed tree of no script; JSON reads back; no cell of the take-off is a formula."""
    text = hostile(words)
    results = find_results(parse_project(text))
    assert json.loads(to_json(results, text))["project"] == words[:80]
    for name, data in drawing_files(results).items():
        if name.endswith(".svg"):
            tree = ElementTree.fromstring(data.decode())
            tags = {element.tag.rpartition("}")[2] for element in tree.iter()}
            assert not tags & {"script", "foreignObject", "image", "iframe", "img"}, name
            assert not [k for e in tree.iter() for k in e.attrib if k.lower().startswith("on")], name
    csv = take_off_files(results)["take_off.csv"].decode("utf-8-sig")
    assert not re.search(r'(^|,)"?[=+@]', csv, re.MULTILINE)
