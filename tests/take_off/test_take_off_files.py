"""CSV and XLSX opened again say what the tables say; nothing a user typed becomes a formula; same bytes each time."""

import csv
import datetime
import io
import re
import zipfile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from bolewright.take_off.export import CSV_NAME, XLSX_NAME, take_off_files, to_csv, to_xlsx
from bolewright.take_off.tables import DataTable, take_off_tables
from bolewright.units import INCH, read

DAY = datetime.date(2026, 11, 25)
DANGEROUS = "=+-@\t\r\n"


def csv_tables(data):
    """Tables of a CSV: name, header and rows, with the apostrophe that marks a text taken off."""
    tables, block = {}, []
    for row in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")):
        if row:
            block.append([cell[1:] if cell.startswith("'") else cell for cell in row])
        elif block:
            tables[block[0][0]] = (block[1], block[2:])
            block = []
    return tables


def raw_cells(data):
    return [
        cell for row in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")) for cell in row if cell
    ]


def workbook(data):
    return load_workbook(io.BytesIO(data))


@pytest.fixture(scope="module")
def files(demo):
    return take_off_files(demo.results)


def test_csv_opened_again_is_the_tables(demo, files):
    found = csv_tables(files[CSV_NAME])
    tables = take_off_tables(demo)
    assert list(found) == [table.name for table in tables]
    for table in tables:
        header, rows = found[table.name]
        assert header == list(table.columns)
        assert len(rows) == len(table.rows)
        for row, wanted in zip(rows, table.rows, strict=True):
            for cell, value in zip(row, wanted, strict=True):
                assert (float(cell) if isinstance(value, int | float) else cell) == (
                    "" if value is None else value
                )


def test_xlsx_opened_again_is_the_tables(demo, files):
    book = workbook(files[XLSX_NAME])
    tables = take_off_tables(demo)
    assert book.sheetnames == [table.name for table in tables]
    for table in tables:
        rows = [tuple(row) for row in book[table.name].iter_rows(values_only=True)]
        assert rows[0] == table.columns
        assert rows[1:] == list(table.rows)


def test_csv_and_xlsx_are_equal(files):
    found = csv_tables(files[CSV_NAME])
    for sheet in workbook(files[XLSX_NAME]):
        header, rows = found[sheet.title]
        for row, cells in zip([header, *rows], sheet.iter_rows(values_only=True), strict=True):
            for text, value in zip(row, cells, strict=True):
                assert (float(text) if isinstance(value, int | float) else text) == (
                    "" if value is None else value
                )


def test_lengths_as_the_tape_reads_them_are_the_lengths(demo):
    for table in take_off_tables(demo):
        for name in ("long point", "short point", "cut to", "length"):
            if name in table.columns and f"{name} in" in table.columns:
                text, number = table.columns.index(name), table.columns.index(f"{name} in")
                for row in table.rows:
                    assert read(row[text], INCH) == row[number]


def test_two_runs_give_the_same_bytes_and_no_time_is_in_them(demo, files):
    assert take_off_files(demo.results) == files
    archive = zipfile.ZipFile(io.BytesIO(files[XLSX_NAME]))
    assert {entry.date_time[:3] for entry in archive.infolist()} == {(2026, 11, 25)}
    core = archive.read("docProps/core.xml").decode()
    assert set(re.findall(r">(\d{4}-\d\d-\d\dT[^<]*)<", core)) == {"2026-11-25T00:00:00Z"}


text = st.one_of(
    st.text(max_size=30),
    st.builds(lambda lead, tail: lead + tail, st.sampled_from(list(DANGEROUS)), st.text(max_size=12)),
    st.sampled_from(
        ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", '"=1"', "'=1", "=cmd|' /C calc'!A0"]
    ),
)


@settings(max_examples=150, deadline=None)
@given(st.lists(text, min_size=1, max_size=5))
def test_no_text_becomes_a_formula(cells):
    table = DataTable("Items", ("item",), tuple((cell,) for cell in cells))
    for cell in raw_cells(to_csv([table])):
        assert cell[0] not in DANGEROUS
    sheet = workbook(to_xlsx([table], DAY))["Items"]
    for row in sheet.iter_rows():
        for cell in row:
            assert cell.data_type != "f"
    xml = zipfile.ZipFile(io.BytesIO(to_xlsx([table], DAY))).read("xl/worksheets/sheet1.xml")
    assert b"<f>" not in xml


@settings(max_examples=100, deadline=None)
@given(st.text(st.characters(categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=30))
def test_text_comes_back_as_it_was(words):
    table = DataTable("Items", ("item",), ((words,),))
    assert csv_tables(to_csv([table]))["Items"][1] == [[words]]
    assert workbook(to_xlsx([table], DAY))["Items"]["A2"].value == words


def test_a_number_below_zero_stays_a_number():
    table = DataTable("Items", ("item",), ((-3.5,),))
    assert "-3.5" in raw_cells(to_csv([table]))
    assert workbook(to_xlsx([table], DAY))["Items"]["A2"].value == -3.5


def test_what_a_user_types_in_the_project_file_is_harmless(demo_with):
    """Currency and names of the price table are the user's own words, and stand in the cost table."""
    found = demo_with('[stock]\ncurrency = "=1+1"\n[[price]]\nitem = "=cmd|\' /C calc\'!A0"\neach = 4.0\n')
    tables = take_off_tables(found)
    assert any("=cmd" in str(value) for table in tables for row in table.rows for value in row)
    assert all(cell[0] not in "=+@" for cell in raw_cells(to_csv(tables)))
    for sheet in workbook(to_xlsx(tables, DAY)):
        assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)
