"""Intervals: what an expression can be when each of its printed numbers is only known to its last digit."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

_INF = math.inf
_WHOLE = 1e-7  # an exponent this close to a whole number is printed as one


@dataclass(frozen=True)
class Interval:
    """All numbers from ``low`` to ``high``."""

    low: float
    high: float

    def __add__(self, other: Interval) -> Interval:
        return Interval(self.low + other.low, self.high + other.high)

    def __sub__(self, other: Interval) -> Interval:
        return Interval(self.low - other.high, self.high - other.low)

    def __neg__(self) -> Interval:
        return Interval(-self.high, -self.low)

    def __mul__(self, other: Interval) -> Interval:
        return _hull(
            a * b if a and b else 0.0 for a in (self.low, self.high) for b in (other.low, other.high)
        )

    def __truediv__(self, other: Interval) -> Interval:
        if other.low <= 0 <= other.high:
            return Interval(-_INF, _INF)
        return self * Interval(1 / other.high, 1 / other.low)

    def __pow__(self, other: Interval) -> Interval:
        whole = round(other.low)
        if max(abs(other.low - whole), abs(other.high - whole)) < _WHOLE:
            return self._whole_power(whole)
        if self.high < 0:
            raise ValueError("a negative number has no broken power")
        low = max(self.low, 0.0)
        if low == 0 and other.low < 0:
            return Interval(0.0, _INF)
        return _hull(_power(a, b) for a in (low, self.high) for b in (other.low, other.high))

    def _whole_power(self, n: int) -> Interval:
        if n < 0:
            return Interval(1.0, 1.0) / self._whole_power(-n)
        ends = (_power(self.low, n), _power(self.high, n))
        if n % 2 == 0 and n and self.low < 0 < self.high:
            return Interval(0.0, max(ends))
        return Interval(min(ends), max(ends))

    def __abs__(self) -> Interval:
        if self.low < 0 < self.high:
            return Interval(0.0, max(-self.low, self.high))
        return Interval(min(abs(self.low), abs(self.high)), max(abs(self.low), abs(self.high)))


def exactly(value: float) -> Interval:
    """The interval of one number."""
    return Interval(value, value)


def _power(base: float, exponent: float) -> float:
    try:
        return math.pow(base, exponent)
    except OverflowError:
        return _INF if base > 0 or exponent % 2 == 0 else -_INF


def _hull(values: object) -> Interval:
    found = list(values)  # type: ignore[call-overload]
    return Interval(min(found), max(found))


def root(x: Interval) -> Interval:
    """Square root; a little below zero counts as zero, for the root of a small difference."""
    if x.high < 0:
        raise ValueError("a negative number has no root")
    return Interval(math.sqrt(max(x.low, 0.0)), math.sqrt(x.high))


def smallest(*xs: Interval) -> Interval:
    """Smallest of several."""
    return Interval(min(x.low for x in xs), min(x.high for x in xs))


def largest(*xs: Interval) -> Interval:
    """Largest of several."""
    return Interval(max(x.low for x in xs), max(x.high for x in xs))


def exponential(x: Interval) -> Interval:
    """The exponential function."""
    return Interval(_power(math.e, x.low), _power(math.e, x.high))


def logarithm(x: Interval) -> Interval:
    """The natural logarithm."""
    if x.high <= 0:
        raise ValueError("only a positive number has a logarithm")
    return Interval(math.log(x.low) if x.low > 0 else -_INF, math.log(x.high))


def sine(x: Interval) -> Interval:
    """The sine of an angle in radians."""
    return _wave(math.sin, x, math.pi / 2)


def cosine(x: Interval) -> Interval:
    """The cosine of an angle in radians."""
    return _wave(math.cos, x, 0.0)


def _wave(function: Callable[[float], float], x: Interval, crest: float) -> Interval:
    ends = (function(x.low), function(x.high))
    high = 1.0 if _holds(x, crest) else max(ends)
    low = -1.0 if _holds(x, crest + math.pi) else min(ends)
    return Interval(low, high)


def tangent(x: Interval) -> Interval:
    """The tangent of an angle in radians."""
    if math.floor(x.low / math.pi - 0.5) != math.floor(x.high / math.pi - 0.5):
        return Interval(-_INF, _INF)
    return Interval(math.tan(x.low), math.tan(x.high))


def arc_tangent(x: Interval) -> Interval:
    """The angle in radians that has a tangent."""
    return Interval(math.atan(x.low), math.atan(x.high))


def _holds(x: Interval, point: float) -> bool:
    """Whether the interval holds the point, or the point a number of full turns on."""
    turn = 2 * math.pi
    return point + turn * math.ceil((x.low - point) / turn) <= x.high
