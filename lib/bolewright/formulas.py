"""The ``@formula`` decorator and the registry of engineering formulas.

A formula is a plain function of a few ``symbol: Type = expression`` lines. Its annotations carry the unit of
every symbol, so one body serves floats, numpy arrays and pint quantities, and can be printed line by line.
"""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Annotated, Any, ParamSpec, TypeVar, cast, get_args, get_origin, get_type_hints

import numpy as np
import pint

from bolewright.said_plainly import said_plainly
from bolewright.units import Unit, describe, magnitude, shown, unit_of

_P = ParamSpec("_P")
_T = TypeVar("_T")


@said_plainly
class DimensionError(TypeError):
    """A formula was given a value of the wrong dimension; the message names symbol, formula and value."""


@dataclass(frozen=True)
class Limit:
    """Range of a symbol in which the source of a formula is valid, with the sentence printed when outside."""

    low: float
    high: float
    says: str

    def broken_by(self, value: Any) -> bool:
        """Whether any element of ``value`` lies outside the range."""
        numbers = np.asarray(value, dtype=float)
        return bool(np.any(numbers < self.low) or np.any(numbers > self.high))


@dataclass(frozen=True)
class Formula:
    """What is known of one registered formula."""

    name: str
    module: str
    clause: str
    body: Callable[..., Any]
    parameters: dict[str, Unit]
    result: Unit
    limits: dict[str, Limit] = field(default_factory=dict)
    confidence: str = ""
    homogeneous: bool = True

    @property
    def title(self) -> str:
        """First line of the docstring, as plain text."""
        return (inspect.getdoc(self.body) or self.name).splitlines()[0].rstrip(".").replace("`", "")

    def outside(self, **arguments: Any) -> list[str]:
        """Sentences for the arguments that lie outside the formula's range of validity."""
        return [
            limit.says
            for symbol, limit in self.limits.items()
            if symbol in arguments and limit.broken_by(magnitude(arguments[symbol], self.parameters[symbol]))
        ]


REGISTRY: dict[str, Formula] = {}


def formula(
    clause: str,
    *,
    limits: dict[str, Limit] | None = None,
    confidence: str = "",
    homogeneous: bool = True,
) -> Callable[[Callable[_P, Any]], Callable[_P, Any]]:
    """Register a function as an engineering formula printed under ``clause``.

    ``limits`` gives the range of validity by symbol, ``confidence`` is "from memory" or "judgement" where the
    clause was not read in print, ``homogeneous=False`` marks an equation whose constants hide units. The
    decorated function takes bare numbers or arrays in the annotated units, or pint quantities (then it
    returns one). A wrong dimension raises :class:`DimensionError`.
    """

    def register(body: Callable[_P, Any]) -> Callable[_P, Any]:
        hints = get_type_hints(body, include_extras=True)
        result = unit_of(hints.pop("return"))
        parameters = {symbol: unit_of(hints[symbol]) for symbol in inspect.signature(body).parameters}
        record = Formula(
            name=body.__name__,
            module=body.__module__,
            clause=clause,
            body=body,
            parameters=parameters,
            result=result,
            limits=limits or {},
            confidence=confidence,
            homogeneous=homogeneous,
        )
        if record.name in REGISTRY and REGISTRY[record.name].module != record.module:
            raise ValueError(f"two formulas are named {record.name}")
        REGISTRY[record.name] = record
        signature = inspect.signature(body)

        @functools.wraps(body)
        def checked(*args: _P.args, **kwargs: _P.kwargs) -> Any:
            odd = [value for value in (*args, *kwargs.values()) if not isinstance(value, _NUMBERS)]
            if not any(_is_quantity(value) for value in odd):
                if any(isinstance(value, _NO_NUMBERS) for value in odd):
                    _refuse(record.name, record.parameters, signature.bind(*args, **kwargs).arguments)
                return body(*args, **kwargs)
            bound = signature.bind(*args, **kwargs).arguments
            bare = {
                symbol: _bare(record.name, symbol, record.parameters[symbol], value)
                for symbol, value in bound.items()
            }
            return record.result.of(body(**bare))  # type: ignore[call-arg]

        checked.formula = record  # type: ignore[attr-defined]
        return checked

    return register


def formula_of(function: Callable[..., Any]) -> Formula:
    """Record of a decorated function; TypeError when it is not a formula."""
    record = getattr(function, "formula", None)
    if not isinstance(record, Formula):
        raise TypeError(f"{function!r} is not a registered formula")
    return record


def unit_aware(
    attach: Callable[[Any], Any] | None = None,
) -> Callable[[Callable[..., _T]], Callable[..., _T]]:
    """Let a selector or solver, which is no printed formula, take pint quantities as a formula does.

    Arguments whose annotation carries a unit are brought to it, so that the body sees bare numbers only;
    ``attach`` gives the units to a result made from quantities. Without quantities nothing changes.
    """

    def wrap(function: Callable[..., _T]) -> Callable[..., _T]:
        units = _units_of(function)
        signature = inspect.signature(function)

        @functools.wraps(function)
        def door(*args: Any, **kwargs: Any) -> _T:
            given = (*args, *kwargs.values())
            if not any(_is_quantity(value) for value in given):
                if any(isinstance(value, str | bytes) for value in given):
                    bound = signature.bind(*args, **kwargs)
                    texts = {n: v for n, v in bound.arguments.items() if isinstance(v, str | bytes)}
                    _refuse(function.__name__, units, texts)
                return function(*args, **kwargs)
            bound = signature.bind(*args, **kwargs)
            for name, value in bound.arguments.items():
                if name in units and value is not None:
                    bound.arguments[name] = _bare(function.__name__, name, units[name], value)
            result = function(*bound.args, **bound.kwargs)
            return cast(_T, attach(result)) if attach is not None else result

        return door

    return wrap


def bare(function: str, symbol: str, unit: Unit, value: Any) -> Any:
    """The number of a quantity in ``unit``, of each in a list of them; what is plain stands as it is.

    Raises :class:`DimensionError` for a quantity of another dimension, and for a plain number but 0 among quantities.

    >>> from bolewright.units import INCH, Quantity
    >>> bare("Beam", "supports", INCH, (0, Quantity(1, "foot"), Quantity(3.5, "inch")))
    (0.0, 12.0, 3.5)
    """
    if not _is_quantity(value) and not isinstance(value, str):
        return value
    if isinstance(value, list | tuple):
        return tuple(
            None if one is None else 0.0 if _is_nought(one) else _bare(function, symbol, unit, one)
            for one in value
        )
    return _bare(function, symbol, unit, value)


def make_bare(record: Any, units: Mapping[str, Unit]) -> None:
    """Bring a frozen dataclass's quantities to the units of its fields, when it is made; errors as :func:`bare`."""
    for name, unit in units.items():
        value = getattr(record, name)
        if type(value) is float:  # the usual, and many are made
            continue
        if _is_quantity(value) or isinstance(value, str):
            plain = bare(type(record).__name__, name, unit, value)
            object.__setattr__(
                record, name, tuple(plain.tolist()) if isinstance(plain, np.ndarray) else plain
            )


def _units_of(function: Callable[..., Any]) -> dict[str, Unit]:
    units = {}
    for name, annotation in get_type_hints(function, include_extras=True).items():
        for part in (annotation, *get_args(annotation)):  # Length, or Length | None
            if name != "return" and get_origin(part) is Annotated:
                units[name] = unit_of(part)
    return units


_NUMBERS = (float, np.ndarray, int, np.generic)
_NO_NUMBERS = (str, bytes, list, tuple, dict, set, type(None))


def _is_quantity(value: Any) -> bool:
    """A quantity, or a list of them."""
    if isinstance(value, list | tuple):
        return any(isinstance(one, pint.Quantity) for one in value)
    return isinstance(value, pint.Quantity)


def _is_nought(value: Any) -> bool:
    """A plain 0, which is 0 in every unit."""
    return not isinstance(value, pint.Quantity | bool) and isinstance(value, int | float) and value == 0


def _refuse(function: str, units: dict[str, Unit], given: Mapping[str, Any]) -> None:
    """One sentence for the first argument that is no number, no array and no quantity."""
    for symbol, value in given.items():
        if symbol in units and isinstance(value, _NO_NUMBERS):
            raise DimensionError(_no_number(_wants(function, symbol, units[symbol]), units[symbol], value))


def _wants(function: str, symbol: str, unit: Unit) -> str:
    article = "an" if unit.dimension[0] in "aeiou" else "a"
    return f"{symbol} of {function} wants {article} {unit.dimension}, got"


def _no_number(wants: str, unit: Unit, value: Any) -> str:
    if isinstance(value, str | bytes):
        return f"{wants} text, {shown(value)}: write it as a quantity, Q({str(value)[:40]!r})"
    if value is None:
        return f"{wants} None"
    times = f' * Q("1 {unit.label}")' if unit.label else ""
    many = f"a {type(value).__name__} of {len(value)}"
    return f"{wants} {many}: give several as one array, such as numpy.array([1, 2]){times}"


def _bare(function: str, symbol: str, unit: Unit, value: Any) -> Any:
    wants = _wants(function, symbol, unit)
    if isinstance(value, _NO_NUMBERS):
        raise DimensionError(_no_number(wants, unit, value))
    if not isinstance(value, pint.Quantity) and unit.dimension != "ratio":
        raise DimensionError(f"{wants} {describe(value)} without a unit")
    try:
        return magnitude(value, unit)
    except pint.DimensionalityError as error:
        raise DimensionError(f"{wants} {describe(value)}") from error
