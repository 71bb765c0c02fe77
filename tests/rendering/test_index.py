from pathlib import Path

from bolewright.rendering.index import (
    PAGE,
    functions_of_the_package,
    held_through,
    holding_tests,
    load_all,
    page,
)


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


def test_a_formula_is_held_through_the_function_that_runs_it(tmp_path: Path) -> None:
    (tmp_path / "test_two.py").write_text(
        "def test_value():\n    assert design_value(1)\n\ndef test_more():\n    assert design_value(2)\n",
        encoding="utf-8",
    )
    functions = {"all_modes": {"mode_IV", "least"}, "design_value": {"all_modes"}, "print_it": {"unseen"}}
    assert held_through({"mode_IV", "unseen"}, functions, tmp_path) == {
        "mode_IV": ["through `design_value`: `test_two.py`"]
    }


def test_yield_modes_are_held_by_the_tables_of_connections() -> None:
    held = held_through({"yield_mode_IV"}, functions_of_the_package())
    assert any("test_nds_connection_tables.py" in line for line in held["yield_mode_IV"])


def test_a_formula_that_no_test_names_is_listed(tmp_path: Path) -> None:
    record = load_all()[0]
    text = page([record], tmp_path)
    assert record.clause in text
    assert text.endswith(f"## Held by no test of their own\n\n`{record.name}`.\n")
