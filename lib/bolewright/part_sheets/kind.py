"""What a kind of part is: its inputs, the steps of its calculation as text, its limits, what it does not check.

The steps are cells of the worked grammar (:mod:`bolewright.worked.grammar`). The notebook holds the same text that
the command line and the form run, so that no sheet says what another one would not compute.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from bolewright.part_sheets.inputs import Inputs
from bolewright.rendering.blocks import Block, Figure
from bolewright.units import NONE, Unit, magnitude


@dataclass(frozen=True)
class Symbol:
    """A value that the steps begin with: ``b`` = 1.5 in, and where it comes from.

    ``value`` is a number in ``unit``; ``found`` where statics worked it out, so that the blank form leaves it out;
    one without ``words`` stands in no table.
    """

    name: str
    value: Any
    unit: Unit = NONE
    words: str = ""
    found: bool = False

    @property
    def sized(self) -> Any:
        """The value with its unit."""
        return self.value if self.unit is NONE else self.unit.of(float(self.value))


@dataclass(frozen=True)
class Given:
    """What the steps begin with, what comes before them on the sheet under its title, and what must be said of it."""

    symbols: tuple[Symbol, ...]
    before: tuple[Block, ...] = ()
    notes: tuple[str, ...] = ()
    drawn: Any = None
    title: str = "Statics"

    def __getitem__(self, name: str) -> Any:
        return next(s.value for s in self.symbols if s.name == name)


@dataclass(frozen=True)
class Step:
    """One cell of the calculation; left out where the symbol ``when`` is 0."""

    title: str
    text: str
    when: str = ""


@dataclass(frozen=True)
class Limit:
    """A ratio that the steps work out, in words, its clause, and what would change it."""

    symbol: str
    words: str
    demand: str
    capacity: str
    clause: str
    change: str
    when: str = ""


@dataclass(frozen=True)
class Published:
    """A published value of a symbol, half of its last digit, and what it is called there.

    ``by`` is the arithmetic where it is no published value but one worked by hand, each number in the unit's inches
    and pounds; a test works it out again.
    """

    symbol: str
    value: float
    half: float
    unit: Unit = NONE
    says: str = ""
    by: str = ""

    def comes_out(self, found: Any) -> bool:
        """Whether what was worked out is the published value within half its last digit."""
        return abs(float(magnitude(found, self.unit)) - self.value) <= self.half * (1 + 1e-9)


@dataclass(frozen=True)
class Example:
    """Published values that must come out of these inputs.

    ``lone`` says what kind of value the first is where it is no worked example of such a part, and what else the sheet
    is held against; ``but`` where the publication goes another way than the sheet.
    """

    source: str
    inputs: Mapping[str, str]
    values: tuple[Published, ...]
    lone: str = ""
    but: str = ""

    @property
    def name(self) -> str:
        """What the switch that loads it is called."""
        return "Published value" if self.lone else "Published example"


# What no sheet of a single part can check, in the words of every sheet.
LATERAL_SYSTEM = "lateral loads on the structure, and its lateral stability"
TREE = "the tree and the ground that everything stands on in the end"


@dataclass(frozen=True)
class Kind:
    """A kind of part."""

    name: str
    title: str
    about: str
    model: type[Inputs]
    given: Callable[[Any], Given]
    steps: tuple[Step, ...]
    limits: tuple[Limit, ...]
    figures: Callable[[Any, Given, Mapping[str, Any], bool], tuple[Figure, ...]]
    example: Example
    not_checked: tuple[str, ...]
    results: tuple[str, ...] = field(default=())
