"""Walks every registered formula: what holds for one must hold for all of them.

The arguments are drawn from the units and limits of validity, always the same for the same formula.
"""

import importlib
import inspect
import math
import pkgutil
import random

import numpy as np
import pint
import pytest

import bolewright
from bolewright import units
from bolewright.formulas import REGISTRY, Formula, formula_of
from bolewright.rendering import tex
from bolewright.rendering.body import body_of
from bolewright.rendering.handcalc import render
from bolewright.rendering.lint import check, docstring_problems
from bolewright.rendering.printback import check_step
from bolewright.units import Quantity, Unit

MODULES = [module.name for module in pkgutil.walk_packages(bolewright.__path__, "bolewright.")]
IMPORT_ERRORS: dict[str, str] = {}
for name in MODULES:
    try:
        importlib.import_module(name)
    except (ImportError, ValueError) as error:  # told by test_every_module_imports
        IMPORT_ERRORS[name] = str(error)

FORMULAS = sorted(
    (record for record in REGISTRY.values() if record.module.startswith("bolewright.")),
    key=lambda record: (record.module, record.name),
)
every_formula = pytest.mark.parametrize("record", FORMULAS, ids=lambda record: record.name)

# Where a builder's values lie, by unit.
RANGES = {
    units.INCH: (1, 48),
    units.FOOT: (1, 16),
    units.SQUARE_INCH: (2, 100),
    units.SQUARE_FOOT: (1, 40),
    units.CUBIC_INCH: (5, 200),
    units.CUBIC_FOOT: (1, 40),
    units.INCH_FOURTH: (10, 1000),
    units.POUND: (100, 12_000),
    units.POUND_INCH: (1000, 90_000),
    units.POUND_FOOT: (100, 8000),
    units.PSI: (100, 3000),
    units.PSF: (20, 3000),
    units.PSF_PER_FOOT: (100, 400),
    units.PLF: (20, 600),
    units.PLI: (10, 5000),
    units.PCI: (100, 30_000),
    units.PCF: (30, 150),
    units.MPH: (30, 120),
    units.DEGREE: (5, 60),
    units.YEAR: (1, 30),
    units.INCH_PER_YEAR: (0.02, 0.5),
    units.HERTZ: (2, 20),
    units.PERCENT: (5, 30),
    units.NONE: (0.2, 1.5),
}
MODULUS = (400_000, 2_000_000)  # psi, a symbol that starts with E

# Metric twins. Angles and percents stay numbers inside a body, which turns them itself.
METRIC = {
    units.INCH: "mm",
    units.FOOT: "m",
    units.SQUARE_INCH: "mm**2",
    units.SQUARE_FOOT: "m**2",
    units.CUBIC_INCH: "cm**3",
    units.CUBIC_FOOT: "m**3",
    units.INCH_FOURTH: "cm**4",
    units.POUND: "kN",
    units.POUND_INCH: "kN*m",
    units.POUND_FOOT: "kN*m",
    units.PSI: "MPa",
    units.PSF: "kPa",
    units.PSF_PER_FOOT: "kPa/m",
    units.PLF: "kN/m",
    units.PLI: "N/mm",
    units.PCI: "N/mm**3",
    units.PCF: "kN/m**3",
    units.MPH: "m/s",
    units.YEAR: "day",
    units.INCH_PER_YEAR: "mm/year",
    units.HERTZ: "1/minute",
}
POINTS = 4


def _draw(record: Formula, symbol: str, unit: Unit, dice: random.Random) -> float:
    low, high = MODULUS if symbol.startswith("E") and unit is units.PSI else RANGES[unit]
    if limit := record.limits.get(symbol):
        low, high = max(low, limit.low), min(high, limit.high)
        if low > high:
            low, high = limit.low, limit.high
        low, high = max(low, -1e3), min(high, 1e9)
    value = math.exp(dice.uniform(math.log(low), math.log(high))) if low > 0 else dice.uniform(low, high)
    return float(f"{value:.{dice.choice((2, 3, 9))}g}")


def _works(record: Formula, arguments: dict[str, float]) -> bool:
    """Whether every line of the body is a finite number, and none hides behind a zero."""
    with np.errstate(all="ignore"):
        try:
            values = body_of(record.body).run(arguments)
        except ZeroDivisionError:
            return False
    return all(np.isrealobj(value) and np.isfinite(value) for value in values.values())


def samples(record: Formula) -> list[dict[str, float]]:
    """Arguments inside the formula's limits on which its body gives finite numbers."""
    dice = random.Random(record.name)
    found: list[dict[str, float]] = []
    for _ in range(3000):
        arguments = {symbol: _draw(record, symbol, unit, dice) for symbol, unit in record.parameters.items()}
        if _works(record, arguments):
            found.append(arguments)
            if len(found) == POINTS:
                return found
    pytest.fail(f"{record.name}: no arguments found on which it is finite, limits are missing")


@pytest.mark.parametrize("module", MODULES)
def test_every_module_imports(module: str) -> None:
    assert module not in IMPORT_ERRORS, IMPORT_ERRORS.get(module)


@every_formula
def test_body_keeps_to_what_can_be_printed(record: Formula) -> None:
    assert check(record) == []


@every_formula
def test_docstring_has_units_and_source(record: Formula) -> None:
    assert docstring_problems(record) == []


@every_formula
def test_a_source_from_memory_is_printed_as_such(record: Formula) -> None:
    source = (inspect.getdoc(record.body) or "").partition("Source")[2]
    if "from memory" in source:
        assert record.confidence


@every_formula
def test_print_reads_back_to_what_was_computed(record: Formula) -> None:
    for arguments in samples(record):
        step = render(record, **arguments)
        assert len(step.lines) == len(body_of(record.body).lines)
        check_step(step)


@every_formula
def test_print_fits_the_sheet(record: Formula) -> None:
    for arguments in samples(record):
        step = render(record, **arguments)
        left = max(tex.width(line.symbol_latex) for line in step.lines)
        for row in tex.rows_of(step.latex):
            assert left + tex.width(row.partition("&")[2]) <= tex.TEXT_WIDTH, row


@every_formula
def test_array_gives_the_same_as_its_elements(record: Formula) -> None:
    points = samples(record)
    arrays = {symbol: np.array([point[symbol] for point in points]) for symbol in record.parameters}
    together = np.broadcast_to(record.body(**arrays), (POINTS,))
    apart = [record.body(**point) for point in points]
    np.testing.assert_allclose(together, apart, rtol=1e-12)


@every_formula
def test_quantities_give_the_same_as_numbers(record: Formula) -> None:
    function = getattr(importlib.import_module(record.module), record.name)
    assert formula_of(function) is record
    for arguments in samples(record):
        metric = {symbol: record.parameters[symbol].of(value) for symbol, value in arguments.items()}
        for symbol, unit in record.parameters.items():
            if unit in METRIC:
                metric[symbol] = metric[symbol].to(METRIC[unit])
        result = function(**metric).m_as(record.result.pint or "dimensionless")
        assert result == pytest.approx(function(**arguments), rel=1e-9)


@pytest.mark.parametrize(
    "record", [record for record in FORMULAS if record.homogeneous], ids=lambda record: record.name
)
def test_every_line_is_dimensionally_right(record: Formula) -> None:
    """The body itself runs on metric quantities; each line is then of its annotated dimension and size."""
    assert _hidden_unit(record) is None


@pytest.mark.parametrize(
    "record", [record for record in FORMULAS if not record.homogeneous], ids=lambda record: record.name
)
def test_a_formula_marked_for_hidden_units_has_some(record: Formula) -> None:
    assert _hidden_unit(record) is not None, f"{record.name} is homogeneous: take the mark away"


def _hidden_unit(record: Formula) -> str | None:
    """The first line that metric quantities don't bring to its annotated dimension and size."""
    body = body_of(record.body)
    for arguments in samples(record):
        plain = body.run(arguments)
        metric = {symbol: _metric(value, record.parameters[symbol]) for symbol, value in arguments.items()}
        for line in body.lines:
            told = f"{line.symbol} = {line.text}"
            try:
                value = eval(line.code, body.names, metric)
                if _has_unit(value) and line.unit is units.DEGREE:
                    value = value.m_as(
                        "dimensionless"
                    )  # arctan gives radians, which the body has turned itself
                number = value.m_as(line.unit.pint or "dimensionless") if _has_unit(value) else value
            except pint.DimensionalityError as error:
                return f"{told}: {error}; is a unit hidden in a constant?"
            if line.unit in METRIC and not _has_unit(value):
                return f"{told} is a bare number, not a {line.unit.dimension}"
            if number != pytest.approx(float(plain[line.symbol]), rel=1e-9):
                return f"{told} is {number} and {plain[line.symbol]}"
            metric[line.symbol] = value
    return None


def _has_unit(value: object) -> bool:
    return isinstance(value, Quantity)


def _metric(value: float, unit: Unit) -> object:
    return unit.of(value).to(METRIC[unit]) if unit in METRIC else value
