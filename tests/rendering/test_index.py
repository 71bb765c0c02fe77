from pathlib import Path

from bolewright.rendering.index import PAGE, holding_tests, load_all, page


def test_the_formula_index_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(load_all()), (
        "run: python -m bolewright.rendering.index --write"
    )


def test_a_test_holds_what_it_names_itself_or_through_its_tables_and_helpers(tmp_path: Path) -> None:
    (tmp_path / "test_one.py").write_text(
        """
import pytest
from somewhere import direct, tabled, helped, only_imported, deep

TABLE = [(tabled, 1)]

def helper():
    return deeper() + helped(2)

def deeper():
    return deep

@pytest.mark.parametrize("case", TABLE)
def test_table(case):
    assert case

def test_direct():
    assert direct(1) and "spoken_of" and helper()
""",
        encoding="utf-8",
    )
    names = {"direct", "tabled", "helped", "only_imported", "deep", "spoken_of"}
    assert holding_tests(names, tmp_path) == {
        "direct": ["test_one.py::test_direct"],
        "helped": ["test_one.py::test_direct"],
        "deep": ["test_one.py::test_direct"],
        "tabled": ["test_one.py::test_table"],
    }


def test_a_formula_that_no_test_names_is_listed(tmp_path: Path) -> None:
    record = load_all()[0]
    text = page([record], tmp_path)
    assert record.clause in text
    assert text.endswith(f"## Held by no test of their own\n\n`{record.name}`.\n")
