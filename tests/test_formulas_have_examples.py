"""Every formula shows an example that a reader can check by hand, in the one form of DEVELOPERS.md; no exceptions.

The examples themselves run as doctests with their modules.
"""

import ast
import doctest
from pathlib import Path

import bolewright
from bolewright.formulas import REGISTRY

ROOT = Path(bolewright.__file__).parent


def _formulas(source: str) -> list[ast.FunctionDef]:
    """Functions under ``@formula(...)``, at the top of a module."""
    return [
        node
        for node in ast.parse(source).body
        if isinstance(node, ast.FunctionDef)
        and any(
            isinstance(mark, ast.Call) and ast.unparse(mark.func) == "formula" for mark in node.decorator_list
        )
    ]


FORMULAS = {
    ".".join((*path.relative_to(ROOT).with_suffix("").parts, node.name)): node
    for path in sorted(ROOT.rglob("*.py"))
    for node in _formulas(path.read_text(encoding="utf-8"))
}


def _says_its_answer(node: ast.FunctionDef) -> bool:
    """Whether an example in the docstring calls the formula and says what it gives."""
    examples = doctest.DocTestParser().get_examples(ast.get_docstring(node) or "")
    calls = {
        part.id
        for e in examples
        if e.want
        for part in ast.walk(ast.parse(e.source))
        if isinstance(part, ast.Name)
    }
    return node.name in calls


def _lacks(node: ast.FunctionDef) -> list[str]:
    """What the compact form asks of a docstring and this one has not."""
    text = ast.get_docstring(node) or ""
    words = ["Returns:", "Source:", *(["Parameter"] if node.args.args else [])]
    return [word for word in words if word not in text] + ["no ruled headings"] * ("\n---" in text)


def test_all_registered_formulas_are_found() -> None:
    found = {name.rpartition(".")[2] for name in FORMULAS}
    assert {record.name for record in REGISTRY.values() if record.module.startswith("bolewright.")} <= found
    assert len(FORMULAS) > 500


def test_every_formula_has_an_example_with_its_answer() -> None:
    assert [name for name, node in FORMULAS.items() if not _says_its_answer(node)] == []


def test_every_docstring_is_in_the_compact_form() -> None:
    assert {name: lacks for name, node in FORMULAS.items() if (lacks := _lacks(node))} == {}


def test_a_formula_without_an_example_and_another_form_are_told() -> None:
    source = '@formula("statics")\ndef load(w, l):\n    """Load.\n\n    Returns\n    -------\n    W\n\n    {}\n    """'
    (bare,) = _formulas(source.format(">>> 1 + 1\n    2"))
    assert not _says_its_answer(bare)
    assert _lacks(bare) == ["Returns:", "Source:", "Parameter", "no ruled headings"]
    (told,) = _formulas(source.format(">>> load(2, 3)\n    6"))
    assert _says_its_answer(told)
