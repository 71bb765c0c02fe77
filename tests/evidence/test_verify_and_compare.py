"""A package checked again from its PDF alone, each kind of falsification found; two projects side by side."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from pypdf import PdfReader, PdfWriter

from bolewright import errata
from bolewright.cli import main
from bolewright.evidence import between, verify
from bolewright.evidence.source import Evidence, EvidenceError, attached, open_evidence
from bolewright.sheets.package import make_package

LOOKOUT = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
SMALL = Path(__file__).parents[1] / "platform" / "arrangements" / "one_tree_one_post.toml"


@pytest.fixture(scope="module")
def package(tmp_path_factory) -> Path:
    out = tmp_path_factory.mktemp("package")
    make_package(SMALL, out)
    return out / "package.pdf"


def changed(
    package: Path, out: Path, *, files: dict[str, bytes] | None = None, leave_out: int | None = None
) -> Path:
    """The package with other attached files, or without a page, as anybody with a PDF tool can make it."""
    reader, writer = PdfReader(package), PdfWriter()
    for number, page in enumerate(reader.pages):
        if number != leave_out:
            writer.add_page(page)
    for name, data in {**attached(package.read_bytes(), package.name), **(files or {})}.items():
        writer.add_attachment(name, data)
    writer.write(out)
    return out


def test_what_is_attached_makes_the_same_package_again(package):
    files = attached(package.read_bytes(), "package.pdf")
    assert set(files) == {"project.toml", "results.json", "about.json", "licences.txt"}
    assert files["project.toml"] == SMALL.read_bytes()
    assert files["results.json"] == (package.parent / "results.json").read_bytes()
    found = verify.verify(open_evidence(package.parent))
    assert found.stands
    assert "the same to the byte" in found.compared
    assert verify.lines(found)[2].startswith(f"{len(open_evidence(package).told['checks'])} of ")


def test_a_page_left_out_is_found(package, tmp_path, monkeypatch):
    monkeypatch.setattr(verify, "_made_again", lambda evidence: open_evidence(package))
    found = verify.verify(open_evidence(changed(package, tmp_path / "p.pdf", leave_out=5)))
    assert not found.stands
    assert "pages; made again it has" in found.altered[0]


def test_a_word_changed_is_found_with_its_page_and_its_place():
    wanted = ("S1 rotation 201 lb 250 lb 0.81", "J8 bending 0.98 passes")
    given = ("S1 rotation 201 lb 250 lb 0.81", "J8 bending 0.78 passes")
    assert verify._words_changed(given, wanted) == [
        'Page 2: "0.98" was printed after "J8 bending", and "0.78" stands there.'
    ]


def test_a_ratio_lowered_in_the_results_is_found(package, tmp_path, monkeypatch):
    monkeypatch.setattr(verify, "_made_again", lambda evidence: open_evidence(package))
    results = json.loads((package.parent / "results.json").read_text(encoding="utf-8"))
    lowered = next(c for c in results["checks"] if c["ratio"] and c["ratio"] > 0.9)
    lowered["ratio"] = 0.5
    path = changed(package, tmp_path / "p.pdf", files={"results.json": json.dumps(results).encode()})
    found = verify.verify(open_evidence(path))
    assert [(m.part, m.limit_state) for m in found.moved] == [(lowered["part"], lowered["limit_state"])]
    assert not found.stands
    assert "was changed" in found.why[0]


def test_another_project_file_under_the_same_sheets_is_found(package, tmp_path, monkeypatch):
    monkeypatch.setattr(verify, "_made_again", lambda evidence: open_evidence(package))
    text = SMALL.read_text(encoding="utf-8").replace('live = "', 'live = "1', 1)
    path = changed(package, tmp_path / "p.pdf", files={"project.toml": text.encode()})
    found = verify.verify(open_evidence(path))
    said = " ".join(found.altered)
    assert "one of the two was changed" in said
    assert "print the fingerprint" in said


def test_of_a_package_by_another_version_the_reason_is_the_program(package, monkeypatch):
    given = open_evidence(package)
    results = json.loads(json.dumps(given.printed))
    results["version"] = "0.1.0"
    moved = next(c for c in results["checks"] if c["ratio"] and c["ratio"] > 0.9)
    moved["ratio"] = 0.9
    found = verify.verify(Evidence(given.name, given.text, results, given.about, given.pdf))
    assert not found.altered
    assert "version 0.1.0 made it" in found.compared
    assert len(found.moved) == 1
    assert "the program changed from 0.1.0" in found.why[0]
    touching = [e for e in errata.errata() if e.touches("0.1.0")]
    assert len(found.why) == 1 + len(touching)


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("x.pdf", b"no pdf", "is no PDF"),
        ("missing.pdf", None, "There is no file"),
        ("cut.pdf", b"%PDF-1.7\n", "is no PDF"),
    ],
)
def test_what_is_no_package_gets_a_sentence(name, data, says, tmp_path, capsys):
    path = tmp_path / name
    if data is not None:
        path.write_bytes(data)
    assert main(["verify", str(path)]) == 2
    said = capsys.readouterr().err
    assert says in said
    assert "Traceback" not in said


def test_a_plain_pdf_and_a_broken_attachment_get_a_sentence(package, tmp_path):
    plain = PdfWriter()
    plain.add_blank_page(100, 100)
    plain.write(tmp_path / "plain.pdf")
    with pytest.raises(EvidenceError, match="no package of this program"):
        open_evidence(tmp_path / "plain.pdf")
    for broken in (b"{", b"[]", b'{"version": "x"}', b'{"version": "0.1.0", "checks": [1]}', b"[" * 9000):
        path = changed(package, tmp_path / "p.pdf", files={"results.json": broken})
        with pytest.raises(EvidenceError, match="can't be read"):
            open_evidence(path)
    with pytest.raises(EvidenceError, match=r"holds no package\.pdf"):
        open_evidence(tmp_path)


def test_attached_files_are_taken_out_and_nothing_is_written_over(package, tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(verify, "_made_again", lambda evidence: open_evidence(package))
    out = tmp_path / "out"
    assert main(["verify", str(package), "--take-out", str(out)]) == 0
    assert (out / "project.toml").read_bytes() == SMALL.read_bytes()
    (out / "project.toml").write_text("mine", encoding="utf-8")
    assert main(["verify", str(package), "--take-out", str(out)]) == 2
    assert (out / "project.toml").read_text(encoding="utf-8") == "mine"
    assert "was left as it is" in capsys.readouterr().err


def test_a_larger_joist_is_told_in_every_kind(tmp_path, capsys):
    text = LOOKOUT.read_text(encoding="utf-8")
    at = text.index("[[joists]]")
    other = tmp_path / "new.toml"
    other.write_text(
        text[:at] + text[at:].replace('section = "2x8"', 'section = "2x10"', 1), encoding="utf-8"
    )
    out = tmp_path / "sheet.pdf"
    assert main(["compare", str(LOOKOUT), str(other), "--out", str(out)]) == 1
    said = capsys.readouterr().out
    assert "joists J section: 2x8 -> 2x10" in said
    assert "J8: joist 2x8" in said
    assert "J8, bending: 0." in said
    assert "cut list" in said or "Cut list" in said
    assert "01-plan-of-framing.svg" in said
    text_of = " ".join(page.extract_text() for page in PdfReader(out).pages)
    assert "2x8" in text_of
    assert "Δ" in text_of


def test_a_file_beside_itself_differs_in_nothing(tmp_path, capsys):
    assert main(["compare", str(SMALL), str(SMALL)]) == 0
    assert "Nothing differs" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["nowhere.toml", "nowhere.toml"], "There is no file"),
        ([str(SMALL), str(SMALL), "--out", "x.docx"], "neither a .pdf nor an .html"),
    ],
)
def test_bad_arguments_of_compare_get_a_sentence(arguments, says, capsys):
    assert main(["compare", *arguments]) == 2
    assert says in capsys.readouterr().err


def test_a_check_that_came_out_worse_stands_first():
    def results(*rows):
        keys = ("part", "limit_state", "status", "ratio")
        return {"checks": [dict(zip(keys, row, strict=True)) for row in rows]}

    old = results(("A", "x", "passes", 0.2), ("B", "x", "passes", 0.99), ("C", "x", "fails", 1.5))
    new = results(("A", "x", "passes", 0.9), ("B", "x", "fails", 1.01), ("D", "x", "not checked", None))
    found = between.checks(old, new)
    assert [(m.part, m.before, m.after) for m in found] == [
        ("B", "0.99 passes", "1.01 fails"),
        ("D", "", "open"),
        ("C", "1.50 fails", ""),
        ("A", "0.20 passes", "0.90 passes"),
    ]
