import ast
import importlib.metadata
import math
import re
from collections import deque

import numpy as np
import pypandoc
import pytest
from handcalcs import handcalcs as engine
from hypothesis import assume, given
from hypothesis import strategies as st
from latex2mathml.converter import convert

from bolewright.calculation import Calculation
from bolewright.rendering.body import RenderError
from bolewright.rendering.handcalc import render, render_steps
from bolewright.rendering.numbers import fmt_latex
from bolewright.rendering.printback import check_step
from bolewright.rendering.printed import read_equation
from bolewright.rendering.symbols import symbol_latex
from bolewright.rendering.template import template
from bolewright.rendering.tree import value_of
from bolewright.timber.columns import critical_buckling_compression

COLUMN = '''
@formula("NDS 2018, 3.7.1.5", confidence="from memory", limits={"c": Limit(0.8, 0.9, "c is out of range.")})
def stability(F_c_star: Stress, E_min_p: Stress, l_e: Length, d: Length, c: Ratio) -> Ratio:
    """Column stability factor ``C_P``."""
    F_cE: Stress = 0.822 * E_min_p / (l_e / d) ** 2  # 3.7.1.5
    alpha_c: Ratio = F_cE / F_c_star
    beta_c: Ratio = (1 + alpha_c) / (2 * c)
    C_P: Ratio = beta_c - sqrt(beta_c**2 - alpha_c / c)
    return C_P
'''
HEAD = """
from numpy import sqrt
from bolewright.formulas import Limit, formula
from bolewright.units import *
"""
NUMBERS = {"F_c_star": 1500, "E_min_p": 510_000, "l_e": 86.5, "d": 5.5, "c": 0.8}


def test_a_step_prints_symbol_expression_numbers_and_result(formula_from) -> None:
    step = render(formula_from(COLUMN, HEAD), **NUMBERS)
    assert step.title == "Column stability factor C_P"
    assert step.clause == "NDS 2018, 3.7.1.5"
    first = step.lines[0]
    assert _close_up(first.symbol_latex) == r"F_{\text{cE}}"
    assert _close_up(first.symbolic_latex) == _close_up(
        r"\frac{0.822 \cdot E'_{\text{min}}}{\left(\frac{l_{e}}{d}\right)^{2}}"
    )
    assert _close_up(first.numeric_latex) == _close_up(
        r"\frac{0.822 \cdot \text{510,000}\ \text{psi}}"
        r"{\left(\frac{86.5\ \text{in}}{5.5\ \text{in}}\right)^{2}}"
    )
    assert first.result_latex == r"\text{1,695}\ \text{psi}"
    assert r"\text{(3.7.1.5)}" in step.latex
    assert first.value == pytest.approx(0.822 * 510_000 / (86.5 / 5.5) ** 2)
    assert [line.symbol for line in step.lines] == ["F_cE", "alpha_c", "beta_c", "C_P"]
    assert step.notes == ("Column stability factor C_P: from memory.",)
    assert step.alt.splitlines()[0] == "F_cE = 0.822 * E_min_p / (l_e / d) ** 2 = 1,695 psi"
    assert step.block().displays == (step.latex,)


def test_changing_a_number_in_the_source_changes_the_print_and_the_result(formula_from) -> None:
    before = render(formula_from(COLUMN, HEAD), **NUMBERS)
    after = render(formula_from(COLUMN.replace("0.822", "0.3"), HEAD), **NUMBERS)
    assert "0.822" in before.latex
    assert "0.822" not in after.latex
    assert after.lines[0].symbolic_latex == before.lines[0].symbolic_latex.replace("0.822", "0.3")
    assert after.lines[-1].value < before.lines[-1].value
    check_step(after)


def test_outside_its_range_a_step_says_so(formula_from) -> None:
    step = render(formula_from(COLUMN, HEAD), **(NUMBERS | {"c": 0.5}))
    assert "c is out of range." in step.notes


def test_steps_of_a_calculation_print_once_each() -> None:
    calculation = Calculation(shape=(2,))
    for _ in range(2):
        calculation.run(critical_buckling_compression, E_min_p=510_000.0, l_e=np.array([86.5, 90.0]), d=5.5)
    (step,) = render_steps(calculation.at((1,)))
    assert step.arguments["l_e"] == 90
    assert r"90\ \text{in}" in step.latex
    check_step(step)


def test_a_step_whose_result_is_not_its_print_is_refused() -> None:
    calculation = Calculation()
    calculation.run(critical_buckling_compression, E_min_p=510_000.0, l_e=86.5, d=5.5)
    (step,) = calculation.at(())
    wrong = type(step)(step.formula, step.arguments, step.result * 1.001)
    with pytest.raises(RenderError, match="critical_buckling_compression printed gives"):
        render_steps([wrong])


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ({"d": 0}, "divides by zero with F_c_star = 1,500 psi"),
        ({"F_c_star": math.inf}, "no finite number"),
        ({"c": math.nan}, "no finite number"),
    ],
)
def test_no_finite_number_is_said_plainly(formula_from, arguments: dict[str, float], said: str) -> None:
    with pytest.raises(RenderError, match=said):
        render(formula_from(COLUMN, HEAD), **(NUMBERS | arguments))


def test_wrong_arguments_are_said_plainly(formula_from) -> None:
    with pytest.raises(RenderError, match="stability takes F_c_star, E_min_p, l_e, d, c: missing"):
        render(formula_from(COLUMN, HEAD), F_c_star=1500)


@pytest.mark.parametrize(
    ("name", "latex"),
    [
        ("F_c_p", r"F'_{c}"),
        ("F_c_prime", r"F'_{c}"),
        ("F_c_perp_p", r"F'_{c\perp}"),
        ("F_b_star", r"F_{b}^{*}"),
        ("F_b_dstar", r"F_{b}^{**}"),
        ("E_min_p", r"E'_{\text{min}}"),
        ("F_e_theta", r"F_{e\,\theta}"),
        ("alpha_c", r"\alpha_{c}"),
        ("Omega", r"\Omega"),
        ("C_D", "C_{D}"),
        ("phiM_n", r"\phi M_{n}"),
        ("l_p", "l_{p}"),
        ("Z_I", r"Z_{\text{I}}"),
        ("S1", "S_{1}"),
        ("ratio", r"\text{ratio}"),
        ("d", "d"),
    ],
)
def test_symbol(name: str, latex: str) -> None:
    assert symbol_latex(name) == latex


# Shapes the engine by itself prints wrongly or not at all: the adapter keeps them from it.
SHAPES = [
    "P / maximum(b, d) * ((c / d) - b)",
    "a / (-b) * (c + d)",
    "-a**2",
    "(-a) ** 2",
    "a - (b - c) - d",
    "a - (b + c) * d",
    "a / b / c / d",
    "a / (b / c)",
    "a / (b * c) * d",
    "(a + b) / (c - P)",
    "(a / b) ** (c / d)",
    "(a**b) ** c",
    "a ** (b**c)",
    "a ** -b",
    "2 ** (1 + 1) * (a + b) ** 2 / c",
    "sqrt((a + b) ** 2 + sqrt(c)) / d",
    "minimum(minimum(a, b), maximum(c, d)) * 2",
    "exp(-a) + log(b) * sin(c) / cos(d) - tan(a)",
    "180 / pi * arctan(a / b) + c",
    "abs(a - b) ** 1.5",
    "11200 * a * 1e-06 + 0.25",
    "3 * pi / 4 - a * (b * (c * (d + P)))",
    "a * -b",
    "a - -b",
]
VALUES = {"a": 1.2, "b": 0.7, "c": 3.1, "d": 2.3, "P": 5.9}


def _printed_value(expression: str, values: dict[str, float]) -> tuple[float, float]:
    made = template(ast.parse(expression, mode="eval").body, "tried")
    symbolic = read_equation(f"y = {made.symbolic}").parts[0]
    numeric = read_equation(f"y = {made.numeric({name: fmt_latex(values[name]) for name in values})}").parts[
        0
    ]
    return value_of(symbolic, values), value_of(numeric, {})


def _computed(expression: str, values: dict[str, float]) -> float:
    functions = {
        "sqrt": math.sqrt,
        "exp": math.exp,
        "log": math.log,
        "minimum": min,
        "maximum": max,
        "abs": abs,
    }
    functions |= {"sin": math.sin, "cos": math.cos, "tan": math.tan, "arctan": math.atan, "pi": math.pi}
    value = eval(expression, functions, dict(values))
    if isinstance(value, complex) or not math.isfinite(value):
        raise ValueError("no real number")
    return float(value)


@pytest.mark.parametrize("expression", SHAPES)
def test_shapes_print_what_they_compute(expression: str) -> None:
    for values in (VALUES, VALUES | {"a": 12.5, "c": 0.125}):
        symbolic, numeric = _printed_value(expression, values)
        assert symbolic == pytest.approx(_computed(expression, values), rel=1e-12)
        assert numeric == pytest.approx(_computed(expression, values), rel=1e-12)


_EXPRESSIONS = st.recursive(
    st.sampled_from(["a", "b", "c", "d", "P", "2", "0.5", "1200", "pi"]),
    lambda inner: st.one_of(
        st.builds(lambda x, op, y: f"({x} {op} {y})", inner, st.sampled_from("+-*/"), inner),
        st.builds(lambda x, n: f"({x}) ** {n}", inner, st.sampled_from(["2", "0.5", "-1", "(1 / 3)"])),
        st.builds(lambda x: f"(-{x})", inner),
        st.builds(lambda x: f"sqrt({x})", inner),
        st.builds(lambda f, x, y: f"{f}({x}, {y})", st.sampled_from(["minimum", "maximum"]), inner, inner),
        st.builds(lambda f, x: f"{f}({x})", st.sampled_from(["abs", "sin", "exp"]), inner),
    ),
    max_leaves=9,
)


@given(
    _EXPRESSIONS, st.lists(st.sampled_from([-3.5, -1.0, 0.25, 2.0, 7.125, 1500.0]), min_size=5, max_size=5)
)
def test_any_expression_prints_what_it_computes(expression: str, numbers: list[float]) -> None:
    values = dict(zip("abcdP", numbers, strict=True))
    try:
        wanted = _computed(expression, values)
        symbolic, numeric = _printed_value(expression, values)
    except (ValueError, ArithmeticError, TypeError):  # a root of a negative number is complex, or refused
        assume(False)
    assume(1e-6 < abs(wanted) < 1e12)
    assert symbolic == pytest.approx(wanted, rel=1e-6)
    assert numeric == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize(
    "expression", ["a if b else c", "a > b", "a.b", "a[0]", "round(a)", "a // b", "a % b"]
)
def test_what_is_outside_the_subset_is_refused(expression: str) -> None:
    with pytest.raises(RenderError, match=r"tried: .+ is outside what can be printed"):
        template(ast.parse(expression, mode="eval").body, "tried")


def test_engine_is_the_one_the_adapter_is_written_for() -> None:
    assert importlib.metadata.version("handcalcs") == "1.11.0"
    # Its parser still makes the nested deques that the adapter makes from the syntax tree ...
    assert engine.expr_parser("y = a * (b + c) / d ** 2") == deque(
        ["y", "=", "a", "*", deque(["b", "+", "c"]), "/", deque(["d", "**", "2"])]
    )
    # ... and its renderer still lays such an expression out as the adapter does.
    line = engine.LatexRenderer(
        "y = (a*(b + c))/d**2", {}, {"precision": 4, "sci_not": None, "override": "symbolic"}
    ).render()
    theirs = re.search(r"y &= (.*?)\\end", _flat(line).replace("y &= y =", "y &="), re.DOTALL)
    ours = template(ast.parse("a * (b + c) / d**2", mode="eval").body, "tried").symbolic
    assert theirs is not None
    assert _close_up(theirs[1]).removesuffix(r"\;") == _close_up(ours).replace("d^{2}", r"\left(d\right)^{2}")


def test_commas_open_no_gap_in_pdf_or_html(formula_from) -> None:
    latex = render(formula_from(COLUMN, HEAD), **NUMBERS).latex
    assert "510,000" in latex
    typst = pypandoc.convert_text(f"$${latex}$$", "typst", format="markdown", extra_args=["--wrap=none"])
    assert '"510,000"' in typst
    assert "<mtext>510,000</mtext>" in convert(latex.replace("aligned", "align*"))


def test_long_lines_break_over_rows(formula_from) -> None:
    step = render(
        formula_from(
            '''
@formula("statics")
def moments(a: Moment, b: Moment, c: Moment) -> Moment:
    """Sum of moments."""
    M: Moment = a + b + c + a + b + c + a + b + c + a + b + c + a + b + c + a + b + c + a + b + c + a + b
    return M
'''
        ),
        a=123_456.0,
        b=234_567.0,
        c=345_678.0,
    )
    assert step.latex.count(r"\\") >= 3
    check_step(step)


def _close_up(latex: str) -> str:
    return re.sub(r"(?<!\\)\s+", "", latex)


def _flat(latex: str) -> str:
    return latex.replace("$$", "").replace("\n", " ")
