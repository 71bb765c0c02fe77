"""Every reference table loads with its provenance, and is read by the package or by a test."""

from pathlib import Path

import pytest

import bolewright
from bolewright.paths import shipped
from bolewright.reference import CONFIDENCE, load

TABLES = sorted(path.stem for path in shipped("reference_tables").iterdir())
TESTS = Path(__file__).parent
PACKAGE = Path(bolewright.__file__).parent


def readers(name: str, folder: Path) -> list[str]:
    """Files that name the table as a text of its own."""
    return [
        str(path.relative_to(folder))
        for path in folder.rglob("*.py")
        if f'"{name}"' in path.read_text(encoding="utf-8")
    ]


@pytest.mark.parametrize("name", TABLES)
def test_table_says_where_it_is_from_and_how_far_it_is_known(name: str) -> None:
    table = load(name)
    assert table.rows
    assert {table.confidence(row) for row in table} <= set(CONFIDENCE)


@pytest.mark.parametrize("name", TABLES)
def test_table_is_read_by_something(name: str) -> None:
    assert readers(name, PACKAGE) or readers(name, TESTS)


@pytest.mark.parametrize("name", [name for name in TABLES if name.startswith("check_")])
def test_a_check_table_feeds_no_calculation(name: str) -> None:
    assert [file for file in readers(name, PACKAGE) if file != "reference.py"] == []  # its doctest names one
