"""Every printed timber formula: same answer in metric and in US units, scalar equals array element."""

import inspect

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import bolewright.timber.adjusted_values
import bolewright.timber.adjustment
import bolewright.timber.bearing
import bolewright.timber.bending
import bolewright.timber.built_up_columns
import bolewright.timber.columns
import bolewright.timber.combined
import bolewright.timber.deflection
import bolewright.timber.material
import bolewright.timber.movement
import bolewright.timber.net_section
import bolewright.timber.section_properties
import bolewright.timber.shear  # noqa: F401
from bolewright.formulas import REGISTRY, DimensionError
from bolewright.units import Quantity

METRIC = {
    "length": "mm",
    "area": "mm**2",
    "section modulus or volume": "mm**3",
    "second moment of area": "mm**4",
    "force": "kN",
    "moment": "kN*m",
    "stress": "MPa",
    "load per area": "kPa",
    "load per length": "kN/m",
    "weight per volume": "kN/m**3",
    "angle": "radian",
    "frequency": "hertz",
}
FORMULAS = [record for record in REGISTRY.values() if record.module.startswith("bolewright.timber.")]


def function_of(record):
    return getattr(inspect.getmodule(record.body), record.name)


def sample(record, numbers):
    return dict(zip(record.parameters, numbers, strict=False))


numbers = st.lists(st.floats(0.6, 40), min_size=14, max_size=14)


@pytest.mark.parametrize("record", FORMULAS, ids=lambda r: r.name)
@settings(max_examples=10, deadline=None)
@given(numbers=numbers)
def test_metric_in_gives_the_same_quantity(record, numbers):
    function, bare = function_of(record), sample(record, numbers)
    with np.errstate(invalid="ignore", divide="ignore"):
        expected = function(**bare)
        metric = {}
        for symbol, value in bare.items():
            unit = record.parameters[symbol]
            quantity = Quantity(value, unit.pint) if unit.pint else value
            metric[symbol] = quantity.to(METRIC[unit.dimension]) if unit.pint else value
        result = function(**metric)
    magnitude = result.m_as(record.result.pint or "dimensionless") if hasattr(result, "m_as") else result
    assert magnitude == pytest.approx(expected, rel=1e-9, nan_ok=True)


@pytest.mark.parametrize("record", FORMULAS, ids=lambda r: r.name)
@settings(max_examples=10, deadline=None)
@given(first=numbers, second=numbers)
def test_array_answers_are_the_scalar_answers(record, first, second):
    function = function_of(record)
    a, b = sample(record, first), sample(record, second)
    with np.errstate(invalid="ignore", divide="ignore"):
        both = function(**{symbol: np.array([a[symbol], b[symbol]]) for symbol in a})
        assert np.broadcast_to(both, 2).tolist() == pytest.approx([function(**a), function(**b)], nan_ok=True)


@pytest.mark.parametrize("record", FORMULAS, ids=lambda r: r.name)
def test_a_wrong_dimension_is_refused_by_name(record):
    bare = sample(record, [2.0] * 14)
    quantities = {s: Quantity(v, record.parameters[s].pint or "dimensionless") for s, v in bare.items()}
    for symbol in bare:
        with pytest.raises(DimensionError, match=f"{symbol} of {record.name} wants a"):
            function_of(record)(**(quantities | {symbol: Quantity(2.0, "kelvin")}))


@pytest.mark.parametrize("record", FORMULAS, ids=lambda r: r.name)
def test_docstring_says_parameters_result_and_source(record):
    doc = inspect.getdoc(record.body)
    assert all(symbol in doc for symbol in record.parameters)
    assert "Returns" in doc
    assert record.clause
