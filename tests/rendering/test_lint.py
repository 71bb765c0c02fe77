from pathlib import Path

import pytest

from bolewright.rendering.lint import check, docstring_problems

FORMULA = '''
from math import hypot

@formula("NDS 2018, 3.3.3")
def tried(a: Length, b: Length) -> Length:
    """A length made of two.

    Parameters: a, b two lengths (in). Returns: x (in). Source: NDS 2018, 3.3.3.
    """
    {lines}
    return x
'''


def _body(*lines: str) -> str:
    return FORMULA.format(lines="\n    ".join(lines))


@pytest.mark.parametrize(
    "lines",
    [
        ("x: Length = sqrt(a**2 + b**2)  # (3.3-5)",),
        ("y: Length = a * -0.5", "x: Length = maximum(minimum(y, b), abs(a)) * exp(-pi)"),
    ],
)
def test_what_keeps_to_the_subset_has_no_problems(formula_from, lines: tuple[str, ...]) -> None:
    record = formula_from(_body(*lines))
    assert check(record) == []
    assert docstring_problems(record) == []


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (("x: Length = a if b else b",), "a choice (if ... else) can't be printed"),
        (("x: Ratio = a > b",), "a comparison can't be printed"),
        (("x: Length = a and b",), "and / or can't be printed"),
        (("x: Length = not (a + b)",), "not can't be printed"),
        (("x: Length = a.real + b",), "an attribute can't be printed"),
        (("x: Length = a[0] + b",), "a subscript can't be printed"),
        (("x: Length = a // b",), "whole division (//) can't be printed"),
        (("x: Length = a % b",), "a remainder (%) can't be printed"),
        (("x: Length = (y := a) + b",), "an assignment inside the expression can't be printed"),
        (("x: Length = [a, b]",), "List can't be printed"),
        (("x: Length = a @ b",), "MatMult can't be printed"),
        (("x: Length = a * 'b' + b",), "'b' is no number"),
        (("x: Length = a * True + b",), "True is no number"),
        (("x: Length = hypot(a, b)",), "the call of hypot is not one of sqrt"),
        (("x: Length = sqrt(a, out=b)",), "sqrt is called with 1 arguments"),
        (("x: Length = minimum(a, b, 1)",), "minimum is called with 3 arguments"),
        (("x: Length = a.conjugate() + b",), "is not of a function by its name"),
        (("x = a + b",), "x has no type annotation"),
        (("x: float = a + b",), "the type float of x is not one of bolewright.units"),
        (("x: Length = a + b", "x: Length = a"), "x is assigned a second time"),
        (("a: Length = b", "x: Length = a"), "a is assigned a second time"),
        (("x: Length = a + b; y: Length = b",), "two assignments stand on one line"),
        (("x: Length = a + b", "print(x)"), "'print(x)' is no line of the form"),
        (("if a:", "    x: Length = a + b"), "'if a:' is no line of the form"),
        (("for i in b:", "    x: Length = a + i"), "'for i in b:' is no line of the form"),
        (("x: Length = a + b + c",), "c is neither a parameter nor a line above"),
        (("x: Length = a",), "b is never used"),
        (("y: Length = a", "x: Length = a + b"), "y is never used"),
        (("x: Length = a + b  # " + "long " * 20,), "its comment has 99 letters"),
        (("S1: Length = a", "S_1: Length = b", "x: Length = S1 + S_1"), "S1 and S_1 print alike"),
        (tuple(f"y_{n}: Length = a + b" for n in range(13)), "it has 13 lines, allowed are 1 to 12"),
    ],
)
def test_what_is_outside_the_subset_is_said_in_one_sentence(
    formula_from, lines: tuple[str, ...], said: str
) -> None:
    problems = check(formula_from(_body(*lines)))
    sentence = next((problem for problem in problems if said in problem), None)
    assert sentence is not None, problems
    assert ", tried: " in sentence
    assert sentence.endswith(".")


def test_the_sentence_names_file_and_line(formula_from) -> None:
    record = formula_from(_body("y: Length = a", "x: Length = y if a else b"))
    (sentence,) = check(record)
    path, line = sentence.removesuffix(": a choice (if ... else) can't be printed.").split(", line ")
    text = Path(path).read_text(encoding="utf-8").splitlines()
    assert text[int(line.removesuffix(", tried")) - 1].strip() == "x: Length = y if a else b"


@pytest.mark.parametrize(
    ("source", "said"),
    [
        ("return x", "it does not end with 'return symbol'"),
        ("return a", "a is returned but not computed"),
    ],
)
def test_the_last_line_returns_what_was_computed(formula_from, source: str, said: str) -> None:
    text = _body("x: Length = a + b").replace("return x", "return x + 1" if source == "return x" else source)
    assert any(said in problem for problem in check(formula_from(text)))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("Source: NDS 2018, 3.3.3.", "", "names no Source"),
        ("a, b two lengths", "a two lengths", "does not say what b is"),
        ("made of two", "made of :func:`two`", "printed as a title, refers to a function"),
        ("(in)", "", "does not name the unit in of a"),
        ('"NDS 2018, 3.3.3"', '" "', "it has no clause"),
    ],
)
def test_what_a_docstring_lacks_is_said(formula_from, old: str, new: str, said: str) -> None:
    problems = docstring_problems(formula_from(_body("x: Length = a + b").replace(old, new)))
    assert any(said in problem for problem in problems), problems
