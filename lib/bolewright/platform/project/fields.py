"""What a value in the file may be: quantities with their limits, marks, texts, points.

Quantities are text with a unit in the file; here each stands as a number in the unit of its annotation.
"""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    StringConstraints,
)
from pydantic_core import CoreSchema, core_schema

from bolewright import units
from bolewright.signs import hidden_sign
from bolewright.units import INCH, NONE, PLF, POUND, PSF, PSI, Unit


class Strict(BaseModel):
    """Base of all parts of the file: unknown keys are errors, values do not change after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, use_attribute_docstrings=True)


@dataclass(frozen=True)
class Measure:
    """Reads text with a unit as a number in ``unit``, which must lie in [least, most] (``positive``: above 0)."""

    unit: Unit
    least: float | None = None
    most: float | None = None
    positive: bool = False

    def read(self, text: object) -> float:
        """Number that ``text`` means; ValueError says what is allowed, in the unit it was written in."""
        found = units.understood(text, self.unit)
        number = found.number
        if found.word == "%" and not self.is_share:
            raise ValueError(f"{units.shown(text)} is a share, but a plain number is wanted, without %")
        if self.positive and number <= 0:
            raise ValueError(f"{units.shown(text)} is not more than zero")
        if self.least is not None and number < self.least:
            raise ValueError(
                f"{units.shown(text)} is less than {found.like_it(self.least, self.unit)}, the least allowed"
            )
        if self.most is not None and number > self.most:
            raise ValueError(
                f"{units.shown(text)} is more than {found.like_it(self.most, self.unit)}, the most allowed"
            )
        return number

    @property
    def is_share(self) -> bool:
        """Whether it is a part of a whole, which may be written in per cent."""
        return self.unit is NONE and self.most is not None and self.most <= 1

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)


def _date(value: object) -> datetime.date:
    """A date as TOML or a form gives it."""
    if isinstance(value, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
        try:
            return datetime.date.fromisoformat(value)
        except ValueError:
            raise ValueError(f"{units.shown(value)} is not in the calendar") from None
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value
    raise ValueError(f"{units.shown(value)} is no date: write year, month and day such as 2026-11-25")


def _no_switch(value: object) -> object:
    """Whatever is not true or false, which count as 1 and 0 elsewhere."""
    if isinstance(value, bool):
        raise ValueError(f"{units.shown(value)} is no number")
    return value


def _printable(value: str) -> str:
    """A text that can be printed: no control signs but a new line, none that turn the reading direction."""
    if sign := hidden_sign(value, allowed="\n\t"):
        raise ValueError(
            f"{units.shown(value)} holds a sign that can't be printed, number {ord(sign)}: delete it"
        )
    return value


def _one_line(value: str) -> str:
    """A text of one line that is not blank."""
    if not value.strip():
        raise ValueError(f"{units.shown(value)} is blank: write a text")
    if "\n" in value:
        raise ValueError(f"{units.shown(value)} has more than one line: write it in one")
    return value


Coordinate = Annotated[float, Measure(INCH, least=-1200, most=1200)]
Size = Annotated[float, Measure(INCH, positive=True, most=240)]
Small = Annotated[float, Measure(INCH, least=0, most=24)]
Height = Annotated[float, Measure(INCH, positive=True, most=1200)]
AreaLoad = Annotated[float, Measure(PSF, least=0, most=500)]
LineLoad = Annotated[float, Measure(PLF, least=0, most=1000)]
Rated = Annotated[float, Measure(POUND, positive=True, most=100_000)]
Strength = Annotated[float, Measure(PSI, positive=True, most=200_000)]
Divisor = Annotated[float, Measure(NONE, least=60, most=2000)]
StockLength = Annotated[float, Measure(INCH, least=12, most=720)]
Mark = Annotated[str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_-]{0,11}$")]
Text = Annotated[str, StringConstraints(max_length=400), AfterValidator(_printable)]
Name = Annotated[str, AfterValidator(_printable), AfterValidator(_one_line)]
Format = Annotated[Literal[2], BeforeValidator(_no_switch)]
Date = Annotated[datetime.date, BeforeValidator(_date)]
Point = tuple[Coordinate, Coordinate]
Ring = Annotated[tuple[Point, ...], Field(min_length=3, max_length=60)]
