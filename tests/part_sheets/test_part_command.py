"""``bolewright part`` as a user runs it."""

from __future__ import annotations

import csv

import pypdf
import pytest

from bolewright import __version__
from bolewright.cli import main


def text_of(path):
    return " ".join(page.extract_text() for page in pypdf.PdfReader(path).pages)


def test_one_command_makes_a_beam_sheet_of_ones_own(tmp_path, capsys):
    """Install is one command, this is the second: within the three that are allowed."""
    out = tmp_path / "beam.pdf"
    assert (
        main(["part", "beam", "--span", "12 ft", "--section", "2x12", "--mark", "J4", "--out", str(out)]) == 0
    )
    text = text_of(out)
    for wanted in (
        "12 ft",
        "2x12",
        "J4",
        __version__,
        "This part under the loads typed",
        "does not check",
        "NDS 2018",
    ):
        assert wanted in text
    assert "passes" not in text
    assert str(out) in capsys.readouterr().out


def test_three_lines_of_a_notebook_make_it_too(tmp_path):
    """Six lines are allowed."""
    lines = f"""
from bolewright.part_sheets import open_part
part = open_part("beam", span="11 ft", section="2x10")
part.print_to({str(tmp_path / "mine.html")!r})
"""
    assert len(lines.strip().splitlines()) <= 6
    exec(lines, {})
    page = (tmp_path / "mine.html").read_text("utf-8")
    assert "11 ft" in page
    assert "<script" not in page
    assert "http://" not in page.replace("http://www.w3.org", "")


def test_the_blank_form_has_a_key(tmp_path):
    assert main(["part", "beam", "--blank", "--out", str(tmp_path / "blank.pdf")]) == 0
    text = text_of(tmp_path / "blank.pdf")
    assert "Key" in text
    before_key = text.partition("Key")[0]
    assert "14,400" not in before_key


def test_an_exceeded_limit_is_exit_1(capsys):
    assert main(["part", "beam", "--live", "500 plf"]) == 1
    assert "over what is allowed" in capsys.readouterr().out


WRONG = [
    (["part", "beem"], "no kind of part"),
    (["part", "beam", "--span", "12 fx"], "--span: '12 fx'"),
    (["part", "beam", "--grade", "No.9"], "--grade:"),
    (["part", "beam", "--out", "beam.doc"], ".pdf or .html"),
    (["part", "beam", "--from", "nowhere.csv", "--out", "there"], "can't be read"),
    (["part", "beam", "--from", "rows.csv"], "--out is wanted"),
]


@pytest.mark.parametrize(("words", "said"), WRONG, ids=[" ".join(w[1:4]) for w, _ in WRONG])
def test_bad_usage_is_a_sentence_and_exit_2(words, said, capsys):
    assert main(words) == 2
    assert said in capsys.readouterr().err


def test_a_list_of_kinds(capsys):
    assert main(["part", "--list"]) == 0
    assert "beam" in capsys.readouterr().out


def test_many_parts_from_a_csv(tmp_path, capsys):
    rows = tmp_path / "rows.csv"
    rows.write_text("mark,span,section\nJ1,9 ft,2x8\nJ2,16 ft,2x8\n", encoding="utf-8")
    assert (
        main(["part", "beam", "--from", str(rows), "--live", "55 plf", "--out", str(tmp_path / "sheets")])
        == 1
    )
    assert {p.name for p in (tmp_path / "sheets").iterdir()} == {"J1.pdf", "J2.pdf", "ratios.csv"}
    table = list(csv.DictReader((tmp_path / "sheets" / "ratios.csv").open(encoding="utf-8")))
    assert [r["verdict"] for r in table] == ["within", "over"]
    assert float(table[1]["Bending"]) > 1


def test_a_csv_with_semicolons_and_a_mark_like_a_formula(tmp_path, capsys):
    rows = tmp_path / "rows.csv"
    rows.write_text("mark;span\n=SUM(A1);9 ft\n", encoding="utf-8-sig")
    assert main(["part", "beam", "--from", str(rows), "--html", "--out", str(tmp_path / "sheets")]) == 0
    table = (tmp_path / "sheets" / "ratios.csv").read_text("utf-8")
    assert "\n'=SUM(A1)," in table


def test_what_is_typed_is_text_in_the_page(tmp_path):
    out = tmp_path / "page.html"
    assert main(["part", "notch", "--mark", "<script>alert(1)</script>", "--out", str(out)]) == 0
    assert "<script" not in out.read_text("utf-8")


def test_a_csv_row_with_more_cells_than_its_heading_is_refused(tmp_path, capsys):
    rows = tmp_path / "rows.csv"
    rows.write_text("mark,span\nJ1,9 ft\nJ2,12 ft,extra\n", encoding="utf-8")
    assert main(["part", "beam", "--from", str(rows), "--out", str(tmp_path / "sheets")]) == 2
    assert "line 3 has more cells than the heading" in capsys.readouterr().err
    assert not (tmp_path / "sheets").exists()


def test_a_csv_with_faults_writes_nothing_and_names_each_line(tmp_path, capsys):
    rows = tmp_path / "rows.csv"
    rows.write_text("mark,span\nJ1,9 ft\nJ1,9 ft\nJ3,long\n", encoding="utf-8")
    assert main(["part", "beam", "--from", str(rows), "--out", str(tmp_path / "sheets")]) == 2
    said = capsys.readouterr().err
    assert "line 3" in said
    assert "line 4" in said
    assert not (tmp_path / "sheets").exists()


def test_many_sheets_do_not_go_to_the_name_of_one(tmp_path, capsys):
    rows = tmp_path / "rows.csv"
    rows.write_text("mark,span\nJ1,12 ft\n", encoding="utf-8")
    assert main(["part", "beam", "--from", str(rows), "--out", str(tmp_path / "all.pdf")]) == 2
    assert "all.pdf names a file: with --from give a folder." in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["rows.csv"]


def test_a_fault_names_the_column_of_a_table_and_the_option_of_the_command(tmp_path, capsys):
    rows = tmp_path / "rows.csv"
    rows.write_text("mark,span,grade\nJ1,long,\n", encoding="utf-8")
    more = ["--live", "heavy", "--grade", "No.9", "--out", str(tmp_path / "sheets")]
    assert main(["part", "beam", "--from", str(rows), *more]) == 2
    said = capsys.readouterr().err
    assert "rows.csv, line 2: span: 'long'" in said
    assert "--span" not in said
    assert "--live: 'heavy'" in said
