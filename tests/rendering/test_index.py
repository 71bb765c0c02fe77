from pathlib import Path

from bolewright.rendering.index import (
    PAGE,
    engineering_functions,
    held_page,
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
from somewhere import direct, tabled, unasserted, helped, only_imported, deep

TABLE = [(tabled, 1)]

def helper():
    return deeper() + helped(2)

def deeper():
    return deep

@pytest.mark.parametrize("case", TABLE)
def test_table(case):
    assert case == 1

def test_direct():
    assert direct(1) == 2 and "spoken_of" and helper()

def test_that_asserts_no_number():
    assert unasserted()
""",
        encoding="utf-8",
    )
    names = {"direct", "tabled", "helped", "only_imported", "deep", "spoken_of", "unasserted"}
    assert holding_tests(names, tmp_path) == {
        "direct": ["test_one.py::test_direct"],
        "helped": ["test_one.py::test_direct"],
        "deep": ["test_one.py::test_direct"],
        "tabled": ["test_one.py::test_table"],
    }


def test_a_formula_is_held_through_the_function_that_runs_it(tmp_path: Path) -> None:
    (tmp_path / "test_two.py").write_text(
        "def test_value():\n    assert design_value(1) == 1\n\ndef test_more():\n    assert design_value(2) == 1\n",
        encoding="utf-8",
    )
    functions = {"all_modes": {"mode_IV", "least"}, "design_value": {"all_modes"}, "print_it": {"unseen"}}
    assert held_through({"mode_IV", "unseen"}, functions, tmp_path) == {
        "mode_IV": ["through `design_value`: `test_two.py`"]
    }


def test_yield_modes_are_held_by_the_tables_of_connections() -> None:
    held = held_through({"yield_mode_IV"}, engineering_functions())
    assert any("test_nds_connection_tables.py" in line for line in held["yield_mode_IV"])


def test_a_test_in_the_browser_holds_nothing(tmp_path: Path) -> None:
    (tmp_path / "browser").mkdir()
    (tmp_path / "browser" / "test_it.py").write_text(
        "def test_a():\n    assert direct(1) == 1\n", encoding="utf-8"
    )
    assert holding_tests({"direct"}, tmp_path) == {}


def test_what_runs_a_whole_project_holds_no_formula() -> None:
    assert not {"find_results", "find_lateral", "find_load_path"} & set(engineering_functions())


def test_the_page_names_what_runs_a_formula_and_no_test() -> None:
    text = page(load_all())
    assert "test_" not in text.replace("tests/test_registry.py", "")
    row = next(line for line in text.splitlines() if line.startswith("| `critical_buckling_compression`"))
    assert "kinds of checks; part sheets; spans" in row


def test_a_formula_that_no_test_holds_is_listed(tmp_path: Path) -> None:
    record = load_all()[0]
    assert held_page([record], tmp_path).endswith(f"held by no test: {record.name}\n")


def test_every_formula_is_held_by_a_test_that_asserts_its_value() -> None:
    last = held_page(load_all()).splitlines()[-1]
    assert last == "held by no test: none", (
        f"{last}: write a test with a number from outside, its source beside it"
    )
