"""Rules of PDF/A-3a (ISO 19005-3:2012) and PDF/UA-1 (ISO 14289-1:2014), asserted on a made package with a PDF library.

No validator of the two standards runs from a Python registry alone, so the machine-checkable rules are asserted here.
The typesetter checks its own output too (it refuses to write otherwise). **Not covered**: widths of glyphs against the
embedded font programs and missing glyphs (19005-3 6.2.11.5, 6.2.11.8), the ICC profile's own validity (6.2.3), colour
of images and blend modes (6.2.4.3, 6.2.10), syntax of the file below objects (6.1.5 to 6.1.9), and what only a person
can judge: reading order, whether an alternative text says what the figure shows, contrast (14289-1 7.1, 7.3).
"""

import re
from collections.abc import Iterator
from typing import Any

import pypdf
import pytest
from pypdf.generic import ContentStream, DictionaryObject, StreamObject
from sample_sheets import TITLE_BLOCK, sheets

from bolewright.documents.content import Attachment
from bolewright.documents.package import build

FILES = {"project.toml", "results.json"}
TYPES = """
Document DocumentFragment Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H
H1 H2 H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot Span Quote Note Reference BibEntry
Code Link Annot Ruby RB RT RP Warichu WT WP Figure Formula Form
"""
STANDARD = set(TYPES.split())
SHOWS = {b"Tj", b"TJ", b"'", b'"', b"Do", b"f", b"f*", b"S", b"s", b"B", b"B*", b"b", b"b*", b"sh"}


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> pypdf.PdfReader:
    results = Attachment("results.json", b"{}", "application/json", "Results")
    folder = tmp_path_factory.mktemp("rules")
    return pypdf.PdfReader(build(sheets(), TITLE_BLOCK, 'name = "demo"\n', folder, attached=[results]).pdf)


@pytest.fixture(scope="module")
def root(made: pypdf.PdfReader) -> Any:
    return made.trailer["/Root"]


@pytest.fixture(scope="module")
def every(made: pypdf.PdfReader) -> list[Any]:
    """Every object of the file."""
    return [
        made.get_object(number) for number in range(1, int(made.trailer["/Size"])) if _there(made, number)
    ]


def _there(made: pypdf.PdfReader, number: int) -> bool:
    return any(number in table for table in made.xref.values()) or number in made.xref_objStm


@pytest.fixture(scope="module")
def elements(root: Any) -> list[Any]:
    """Structure elements in their order."""
    return list(_elements(root["/StructTreeRoot"]))


def _elements(node: Any) -> Iterator[Any]:
    kids = node.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        found = kid.get_object()
        if isinstance(found, DictionaryObject) and "/S" in found:
            yield found
            yield from _elements(found)


def _role(root: Any, element: Any) -> str:
    """Standard structure type of an element, through the role map."""
    roles, name = root["/StructTreeRoot"].get("/RoleMap", {}), element["/S"]
    for _ in range(9):
        if name[1:] in STANDARD or name not in roles:
            break
        name = roles[name]
    return str(name[1:])


def test_file_header_and_trailer(made):
    """19005-3, 6.1.2 and 6.1.3: version 1.n, four bytes over 127 in the second line, an ID, nothing encrypted."""
    made.stream.seek(0)
    first, second = made.stream.read(40).split(b"\n")[:2]
    assert re.fullmatch(rb"%PDF-1\.[0-7]", first.strip())
    assert second.startswith(b"%")
    assert all(byte > 127 for byte in second[1:5])
    assert len(made.trailer["/ID"]) == 2
    assert "/Encrypt" not in made.trailer


def test_what_an_archive_forbids(every, root):
    """19005-3, 6.1.7.2 (LZW), 6.1.7.1 (external data), 6.5 and 6.6 (actions), 6.4 (forms), 6.2.9 (PostScript)."""
    for one in every:
        if isinstance(one, StreamObject):
            assert "LZWDecode" not in str(one.get("/Filter"))
            assert not {"/F", "/FFilter", "/FDecodeParms"} & set(one)
            assert one.get("/Subtype") != "/PS"
        if isinstance(one, DictionaryObject):
            assert "/AA" not in one
            assert one.get("/S") not in (
                "/JavaScript",
                "/Launch",
                "/Sound",
                "/Movie",
                "/ResetForm",
                "/ImportData",
            )
    assert not {"/OpenAction", "/AcroForm", "/NeedsRendering", "/Requirements"} & set(root)


def test_it_says_what_it_is(root):
    """19005-3, 6.6.4: part 3, level A; 14289-1, clause 5: part 1. 14289-1, 7.1: a title, and the reader shows it."""
    said = root["/Metadata"].get_object().get_data().decode("utf-8")
    for name, value in (("pdfaid:part", "3"), ("pdfaid:conformance", "A"), ("pdfuaid:part", "1")):
        assert re.search(rf"{name}(?:>|=\")\s*{value}\b", said), name
    assert re.search(r"<dc:title>.*<rdf:li[^>]*>[^<]+</rdf:li>", said, re.DOTALL)
    assert root["/ViewerPreferences"]["/DisplayDocTitle"].value is True


def test_output_intent(root):
    """19005-3, 6.2.3: one intent for PDF/A with an embedded profile of as many colours as it says."""
    (intent,) = [one.get_object() for one in root["/OutputIntents"].get_object()]
    assert intent["/S"] == "/GTS_PDFA1"
    profile = intent["/DestOutputProfile"].get_object()
    data = profile.get_data()
    assert data[36:40] == b"acsp"
    assert {b"GRAY": 1, b"RGB ": 3, b"CMYK": 4}[data[16:20]] == profile["/N"]


def test_fonts_are_embedded_and_can_be_read_back(every):
    """19005-3, 6.2.11.4 and 6.2.11.7: a font program for each, and what its codes mean."""
    fonts = [one for one in every if isinstance(one, DictionaryObject) and one.get("/Type") == "/Font"]
    whole = [one for one in fonts if one["/Subtype"] in ("/Type0", "/TrueType", "/Type1")]
    assert whole
    for font in fonts:
        if font["/Subtype"] == "/Type0":
            assert "/ToUnicode" in font
        elif font["/Subtype"] != "/Type3":
            described = font["/FontDescriptor"].get_object()
            assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(described)


def test_attached_files(root, made):
    """19005-3, 6.8: each named twice, with its relation, type and date, and associated with the document."""
    associated = [one.get_object() for one in root["/AF"].get_object()]
    assert {one["/UF"] for one in associated} >= FILES
    for one in associated:
        assert one["/F"] == one["/UF"]
        assert one["/AFRelationship"] in ("/Source", "/Data", "/Alternative", "/Supplement", "/Unspecified")
        file = one["/EF"]["/F"].get_object()
        assert "/" in file["/Subtype"][1:].replace("#2F", "/")
        assert "/ModDate" in file["/Params"]
    assert set(made.attachments) >= FILES


def test_annotations(made, elements, root):
    """19005-3, 6.3.2: printed, not hidden. 14289-1, 7.18: tabs by structure, links described and in the tree."""
    count = 0
    for page in made.pages:
        notes = [one.get_object() for one in page.get("/Annots", [])]
        if notes:
            assert page["/Tabs"] == "/S"
        for note in notes:
            count += 1
            assert note["/Subtype"] == "/Link"
            assert note.get("/F", 0) & 0b100
            assert not note.get("/F", 0) & 0b100011
            assert note.get("/Contents") or note.get("/Alt")
            assert "/StructParent" in note
    assert count
    assert sum(_role(root, one) == "Link" for one in elements) > 0


def test_tagged_in_a_language_with_known_roles(root, elements):
    """14289-1, 7.1 and 7.2; 19005-3, 6.7.2 to 6.7.4: marked, not suspect, language, every type a standard one."""
    assert root["/MarkInfo"]["/Marked"].value is True
    assert str(root["/MarkInfo"].get("/Suspects", False)) == "False"
    assert re.fullmatch(r"[a-z]{2}(-[A-Z]{2})?", root["/Lang"])
    assert {_role(root, one) for one in elements} <= STANDARD
    assert not {name[1:] for name in root["/StructTreeRoot"].get("/RoleMap", {})} & STANDARD


def test_all_that_is_drawn_is_told_or_an_artifact(made):
    """14289-1, 7.1: real content is tagged, the rest is marked as an artifact, neither inside the other."""
    shown = 0
    for page in made.pages:
        open_marks: list[str] = []
        for operands, operator in ContentStream(page["/Contents"].get_object(), made).operations:
            if operator in (b"BDC", b"BMC"):
                known = (
                    len(operands) > 1 and isinstance(operands[1], DictionaryObject) and "/MCID" in operands[1]
                )
                kind = "artifact" if operands[0] == "/Artifact" else "told" if known else ""
                assert not (kind and any(mark and mark != kind for mark in open_marks))
                open_marks.append(kind)
            elif operator == b"EMC":
                open_marks.pop()
            elif operator in SHOWS:
                shown += 1
                assert any(open_marks), operator
        assert not open_marks
    assert shown > 1000


def test_figures_and_formulas_have_words(root, elements):
    """14289-1, 7.3 and 7.7."""
    told = [one for one in elements if _role(root, one) in ("Figure", "Formula")]
    assert len(told) > 5
    assert all(str(one.get("/Alt", one.get("/ActualText", ""))).strip() for one in told)


def test_headings_step_down_one_at_a_time(root, elements):
    """14289-1, 7.4.2: from H1, no level left out on the way down."""
    levels = [int(role[1]) for one in elements if re.fullmatch(r"H[1-6]", role := _role(root, one))]
    assert levels[0] == 1
    assert all(later <= before + 1 for before, later in zip(levels, levels[1:], strict=False))


def test_tables_have_heads_that_say_what_they_head(root, elements):
    """14289-1, 7.5: a header cell has its scope; rows and cells stand where they belong (ISO 32000-1, 14.8.4.3.4)."""
    heads = [one for one in elements if _role(root, one) == "TH"]
    assert heads
    for one in heads:
        given = one.get("/A", [])
        scopes = [a.get_object().get("/Scope") for a in (given if isinstance(given, list) else [given])]
        assert {"/Row", "/Column", "/Both"} & set(scopes)
    for one in elements:
        if _role(root, one) in ("TH", "TD"):
            assert _role(root, one["/P"].get_object()) == "TR"
