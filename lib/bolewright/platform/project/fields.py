"""What a value in the file may be: quantities with their limits, marks, texts, points.

Quantities are text with a unit in the file; here each stands as a number in the unit of its annotation.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, GetCoreSchemaHandler, StringConstraints
from pydantic_core import CoreSchema, core_schema

from bolewright import units
from bolewright.units import INCH, NONE, PLF, POUND, PSF, PSI, Unit


class Strict(BaseModel):
    """Base of all parts of the file: unknown keys are errors, values do not change after reading."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, populate_by_name=True, use_attribute_docstrings=True
    )


@dataclass(frozen=True)
class Measure:
    """Reads text with a unit as a number in ``unit``, which must lie in [least, most] (``positive``: above 0)."""

    unit: Unit
    least: float | None = None
    most: float | None = None
    positive: bool = False

    def read(self, text: object) -> float:
        """Number that ``text`` means; ValueError says what is allowed."""
        number = units.read(text, self.unit)
        label = f" {self.unit.label}" if self.unit.label else ""
        if self.positive and number <= 0:
            raise ValueError(f"{text} is not more than zero")
        if self.least is not None and number < self.least:
            raise ValueError(f"{text} is less than {self.least:g}{label}, the least allowed")
        if self.most is not None and number > self.most:
            raise ValueError(f"{text} is more than {self.most:g}{label}, the most allowed")
        return number

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)


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
Text = Annotated[str, StringConstraints(max_length=400)]
Point = tuple[Coordinate, Coordinate]
Ring = Annotated[tuple[Point, ...], Field(min_length=3, max_length=60)]
