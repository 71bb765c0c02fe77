"""The take-off as CSV and XLSX: the same tables, the same bytes every time, no text that becomes a formula.

A spreadsheet takes text that starts with ``= + - @`` (or a tab or a carriage return before one) for a formula. In
the CSV such text gets an apostrophe in front, the mark for text; in the XLSX its cell is text by type.
"""

from __future__ import annotations

import csv
import datetime
import io
import re
import zipfile
from collections.abc import Iterable

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from bolewright.platform.results.results import Results
from bolewright.take_off.tables import DataTable, Value, take_off_tables
from bolewright.take_off.take_off import find_take_off

CSV_NAME, XLSX_NAME = "take_off.csv", "take_off.xlsx"
RISKY = ("=", "+", "-", "@", "\t", "\r", "\n", "|", "%", "＝", "＋", "－", "＠")  # the wide forms too
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ufffe\uffff]")
_LONGEST = 48  # letters a column is made wide for


def take_off_files(results: Results) -> dict[str, bytes]:
    """``take_off.csv`` and ``take_off.xlsx`` of a project's results, by name."""
    tables = take_off_tables(find_take_off(results))
    return {CSV_NAME: to_csv(tables), XLSX_NAME: to_xlsx(tables, results.project.title.date)}


def harmless(text: str) -> str:
    """Text with an apostrophe in front where a spreadsheet would take it for a formula.

    >>> harmless("=1+1"), harmless("J1 to J8"), harmless("-")
    ("'=1+1", 'J1 to J8', "'-")
    """
    return f"'{text}" if text.lstrip(" '\"").startswith(RISKY) or text.startswith("'") else text


def to_csv(tables: Iterable[DataTable]) -> bytes:
    """Tables one under the other, UTF-8 with its mark: a line with the name, the header, rows, an empty line."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    for table in tables:
        writer.writerow([harmless(table.name)])
        writer.writerow([harmless(column) for column in table.columns])
        writer.writerows([_csv_cell(value) for value in row] for row in table.rows)
        writer.writerow([])
    return text.getvalue().encode("utf-8-sig")


def _csv_cell(value: Value) -> str:
    if value is None:
        return ""
    if isinstance(value, str):
        return harmless(_clean(value))
    return repr(value)


def _clean(text: str) -> str:
    """Text without characters that no file of either kind can hold."""
    return _CONTROL.sub(" ", text)


def to_xlsx(tables: Iterable[DataTable], date: datetime.date) -> bytes:
    """Workbook with a sheet for each table; ``date`` stands for the time of making, so that the bytes are the same."""
    book = Workbook()
    book.remove(book.active)
    for table in tables:
        _fill(book.create_sheet(table.name), table)
    made = datetime.datetime(date.year, date.month, date.day)
    book.properties.creator = "Bolewright"
    book.properties.created = made
    stream = io.BytesIO()
    book.save(stream)
    return _dated(stream.getvalue(), made)


def _fill(sheet: Worksheet, table: DataTable) -> None:
    for number, row in enumerate((table.columns, *table.rows), start=1):
        for column, value in enumerate(row, start=1):
            if value is None:
                continue
            cell = sheet.cell(number, column)
            if isinstance(value, str):
                cell.value = _clean(value)
                cell.data_type = "s"  # a text that starts with = would be a formula
                cell.quotePrefix = harmless(value) != value
                cell.alignment = Alignment(wrap_text=len(value) > _LONGEST, vertical="top")
            else:
                cell.value = value
                cell.alignment = Alignment(vertical="top")
            if number == 1:
                cell.font = Font(bold=True)
    for column in range(1, len(table.columns) + 1):
        values = [row[column - 1] for row in (table.columns, *table.rows)]
        longest = max(len(str(value)) for value in values if value is not None)
        sheet.column_dimensions[get_column_letter(column)].width = min(longest, _LONGEST) + 2
    sheet.freeze_panes = "A2"


def _dated(data: bytes, made: datetime.datetime) -> bytes:
    """The workbook's archive with every time in it set to one date."""
    out = io.BytesIO()
    stamp = f"{made:%Y-%m-%dT%H:%M:%S}Z".encode()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for entry in old.infolist():
            content = old.read(entry)
            if entry.filename == "docProps/core.xml":
                content = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>" + stamp, content)
            info = zipfile.ZipInfo(entry.filename, (made.year, made.month, made.day, 0, 0, 0))
            info.compress_type = zipfile.ZIP_DEFLATED
            info.external_attr = 0o600 << 16
            new.writestr(info, content)
    return out.getvalue()
