"""The formulas of a check as lines to edit: the same calls, in the same order, on inputs that can be changed.

``given = sheet.given()`` holds the inputs of the check that governs; the lines that :func:`code_of` writes call the
engineering functions on them, and ``given.against(ratio)`` says whether the outcome is the check's. Which result goes
into which call is read from the check's own calculation, so that the lines hold for every part of the limit state.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import import_module
from itertools import count
from typing import Any

from pint import DimensionalityError

from bolewright.calculation import Flow
from bolewright.formulas import Formula
from bolewright.platform.limit_states.check import Check
from bolewright.rendering.blocks import KeyValues, Statement, StatementKind
from bolewright.rendering.body import body_of
from bolewright.rendering.meanings import meaning
from bolewright.rendering.numbers import fmt, ratio
from bolewright.said_plainly import said_plainly
from bolewright.sheets.printing import RATIO
from bolewright.status import Status
from bolewright.units import NONE, Unit

SUBJECTS = ("fasteners", "ground", "mechanics", "timber", "tree")
COMPARISONS = (RATIO, "demand_by_frame")  # their arguments stand in the unit of the check
_SAME = 1e-9
_FEW = 6  # digits of a number that two quantities may have in common
_WIDE = 100  # characters of a written line


@said_plainly
class EquationsError(ValueError):
    """A part, limit state or symbol that the equations of a sheet don't have; one sentence."""


@dataclass(frozen=True)
class Line:
    """``symbol = formula(argument=source, ...)``; a source is an earlier symbol, or an input's name."""

    symbol: str
    formula: Formula
    sources: dict[str, str]
    inputs: frozenset[str]


@dataclass(frozen=True)
class Input:
    """One input: its name, value in a unit, and what it is."""

    name: str
    value: float
    unit: Unit
    meaning: str


@dataclass(frozen=True)
class Chain:
    """A check's formulas as lines, and the inputs they take."""

    check: Check
    lines: tuple[Line, ...]
    inputs: tuple[Input, ...]


def chain_of(check: Check) -> Chain:
    """The lines that lead to a check's ratio, those that don't left out."""
    calculation = check.calculation
    if calculation is None or not check.steps or math.isnan(check.ratio):
        raise EquationsError(f"{check.part}: {check.limit_state} has no equations: {check.sentence}")
    flow = calculation.flow()
    before = _sources(check, flow)
    wanted = _leading_to(before, len(flow) - 1)
    symbols: dict[int, str] = {}
    inputs: dict[tuple[str, int], Input] = {}
    own_names = {name for i in wanted for name in check.steps[i].arguments}
    lines = []
    for i in sorted(wanted):
        run, formula = flow[i], flow[i].formula
        step = check.steps[i]
        sources, own = {}, set()
        for name in step.arguments:
            if name in before[i]:
                sources[name] = symbols[before[i][name]]
                continue
            compared = formula.name == RATIO
            unit = check.unit if compared else formula.parameters[name]
            words = check.says if compared and name == "demand" else meaning(formula, name)
            which = run.given[name]
            if (name, which) not in inputs:
                # a second V is V_2, unless a formula has a V_2 of its own
                taken = own_names | {given.name for given in inputs.values()}
                called = (
                    next(n for k in count(which + 1) if (n := f"{name}_{k}") not in taken) if which else name
                )
                inputs[name, which] = Input(called, step.arguments[name], unit, words)
            sources[name] = inputs[name, which].name
            own.add(name)
        symbols[i] = _unused(body_of(formula.body).result, set(symbols.values()))
        lines.append(Line(symbols[i], formula, sources, frozenset(own)))
    return Chain(check, tuple(lines), tuple(inputs.values()))


def _sources(check: Check, flow: tuple[Flow, ...]) -> list[dict[str, int]]:
    """For every run, which of its arguments are results of earlier runs.

    What a check picks out of a result, such as the worst of several cases, is no longer that array: it is known by its
    number, but for rounding. One of few digits may be alike by chance: only what is compared at the end is found so.
    """
    found: list[dict[str, int]] = []
    for i, run in enumerate(flow):
        sources = dict(run.from_run)
        for name, value in check.steps[i].arguments.items():
            picked = [
                j
                for j in range(i)
                if _alike(check.steps[j].result, value) and _same_unit(check, flow, j, i, name)
            ]
            compared = run.formula.name in COMPARISONS and name in ("demand", "capacity")
            if name not in sources and picked and (compared or not _alike(float(f"{value:.{_FEW}g}"), value)):
                sources[name] = picked[-1]
        found.append(sources)
    return found


def _alike(one: float, other: float) -> bool:
    """Whether two numbers are one but for rounding, which is not the same on every machine."""
    return math.isclose(one, other, rel_tol=_SAME)


def _same_unit(check: Check, flow: tuple[Flow, ...], of: int, into: int, name: str) -> bool:
    """Whether a run's result stands in the unit in which another takes an argument."""

    def unit(formula: Formula, plain: Unit) -> Unit:
        return check.unit if formula.name in COMPARISONS else plain

    taken = flow[into].formula
    return flow[of].formula.name != RATIO and unit(flow[of].formula, flow[of].formula.result) == unit(
        taken, taken.parameters[name]
    )


def _leading_to(sources: list[dict[str, int]], last: int) -> set[int]:
    """The runs that a run rests on, itself too."""
    wanted, ask = set[int](), [last]
    while ask:
        i = ask.pop()
        if i not in wanted:
            wanted.add(i)
            ask += sources[i].values()
    return wanted


def _unused(name: str, taken: set[str]) -> str:
    number = 1
    while (asked := name if number == 1 else f"{name}_{number}") in taken:
        number += 1
    return asked


def code_of(chain: Chain) -> str:
    """The lines as Python to edit, ending with the comparison with the check."""
    lines = list(_imports(chain))
    for line in chain.lines:
        lines += _written(line)
    last = chain.lines[-1].symbol
    return "\n".join([*lines, f"given.against({last})"])


def _imports(chain: Chain) -> Iterator[str]:
    doors = {_door(line.formula) for line in chain.lines if line.formula.name != RATIO}
    subjects = sorted(door for door in doors if door in SUBJECTS)
    if subjects:
        yield f"from bolewright import {', '.join(subjects)}"
    by_module: dict[str, set[str]] = {}
    for line in chain.lines:
        if line.formula.name != RATIO and _door(line.formula) not in SUBJECTS:
            by_module.setdefault(line.formula.module, set()).add(line.formula.name)
    for module, names in sorted(by_module.items()):
        yield from _import(module, sorted(names))
    if doors:
        yield ""


def _import(module: str, names: list[str]) -> Iterator[str]:
    whole = f"from {module} import {', '.join(names)}"
    if len(whole) <= _WIDE:
        yield whole
        return
    yield f"from {module} import ("
    yield from (f"    {name}," for name in names)
    yield ")"


def _door(formula: Formula) -> str:
    """The subject whose door has the formula, or its module."""
    room = formula.module.split(".")[1]
    if room in SUBJECTS and formula.name in import_module(f"bolewright.{room}").__all__:
        return room
    return formula.module


def _written(line: Line) -> list[str]:
    values = {
        name: f"given.{source}" if name in line.inputs else source for name, source in line.sources.items()
    }
    if line.formula.name == RATIO:
        return [f"{line.symbol} = {values['demand']} / {values['capacity']}"]
    door = _door(line.formula)
    called = f"{door}.{line.formula.name}" if door in SUBJECTS else line.formula.name
    arguments = [f"{name}={value}" for name, value in values.items()]
    remark = f"  # {line.formula.clause}"
    whole = f"{line.symbol} = {called}({', '.join(arguments)})"
    if len(whole + remark) <= _WIDE:
        return [whole + remark]
    rows = [f"    {argument}," for argument in arguments]
    opening = f"{line.symbol} = {called}("
    if len(opening + remark) > _WIDE:
        return [remark.strip(), opening, *rows, ")"]
    return [f"{opening}{remark}", *rows, ")"]


class Given:
    """The inputs of one check, each by its symbol, a number in the unit of the table that is shown.

    ``quantities`` are the same with their units, beside which ``Q("500 lb-ft")`` may stand.
    """

    def __init__(self, chain: Chain, *, sized: bool = False) -> None:
        self._chain = chain
        self._values: dict[str, Any] = {
            one.name: one.unit.of(one.value) if sized and one.unit is not NONE else one.value
            for one in chain.inputs
        }
        self._taken = set[str]()

    @property
    def check(self) -> Check:
        """The check that these are the inputs of."""
        return self._chain.check

    @property
    def quantities(self) -> Given:
        """The same inputs with their units."""
        return Given(self._chain, sized=True)

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        if name not in self._values:
            check = self.check
            raise EquationsError(
                f"{name} is no input of {check.part}: {check.limit_state}, which goes by other lines: {self._own}"
            )
        self._taken.add(name)
        return self._values[name]

    @property
    def _own(self) -> str:
        return f'sheet.equations("{self.check.part}", "{self.check.limit_state}") writes its lines'

    def __dir__(self) -> list[str]:
        return ["against", "check", "quantities", *self._values]

    def against(self, found: Any) -> Statement:
        """Whether a ratio that was found is the check's, or by how much it is another."""
        number = _ratio(found)
        check = self.check
        name = f"{check.part}: {check.limit_state}"
        if math.isclose(number, check.ratio, rel_tol=_SAME, abs_tol=1e-12):
            words = f"{name}, {check.combination}: {ratio(number)}, which is the check's."
            return Statement(StatementKind.ASIDE, (words,))
        says = "passes" if number <= 1 else "fails"
        words = (
            f"{name}: {ratio(number)} by these lines, {says}; the check of the file has {ratio(check.ratio)}."
        )
        unused = [one.name for one in self._chain.inputs if one.name not in self._taken]
        if unused:
            words += f" These lines take no {', '.join(unused)}, which the check has: {self._own}."
        return Statement(StatementKind.NOTE, (words,))

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, Any]:
        rows = tuple((one.name, f"{fmt(one.value, one.unit)}, {one.meaning}") for one in self._chain.inputs)
        caption = f"Inputs of {self.check.part}: {self.check.limit_state}"
        return KeyValues(rows, caption)._repr_mimebundle_()


def _ratio(found: Any) -> float:
    """What is held against a check, as a number; EquationsError where it has a unit left or is no number at all."""
    try:
        return float(found.to("dimensionless").magnitude if hasattr(found, "to") else found)
    except (DimensionalityError, TypeError, ValueError):
        raise EquationsError(
            f"{found} is no ratio: a check is held against a number without a unit, what is asked over what is "
            'allowed. Beside quantities such as Q("500 lb-ft") take the inputs with their units: given.quantities.S.'
        ) from None


def choose(checks: list[Check], part: str, limit: str) -> Check:
    """The check that is meant: the worst with equations, of a part and a limit state where they are named.

    Raises :class:`EquationsError` with what there is.
    """
    solved = [c for c in checks if c.steps and c.status is not Status.NOT_CHECKED and not math.isnan(c.ratio)]
    if not solved:
        raise EquationsError("There is no equation on this sheet for this project.")
    parts = list(dict.fromkeys(c.part for c in solved))
    if part and part not in parts:
        raise EquationsError(
            f"There is no part {part!r} with equations on this sheet; there is {', '.join(parts)}."
        )
    found = [c for c in solved if part in ("", c.part)]
    limits = {c.key: c.limit_state for c in found}
    if limit and limit not in [word for c in found for word in (c.limit_state, c.key)]:
        of = f" of {part}" if part else ""
        there = "; ".join(f'"{key}" ({words})' for key, words in limits.items())
        raise EquationsError(f"There is no limit state {limit!r}{of} here; there is {there}.")
    return next(c for c in found if limit in ("", c.limit_state, c.key))


class Written:
    """Lines that were written: in a notebook they stand in a new cell, ready to be changed."""

    def __init__(self, code: str) -> None:
        self.code = code

    def _ipython_display_(self) -> None:
        from IPython.core.getipython import get_ipython

        shell = get_ipython()
        if shell is not None:
            shell.set_next_input(self.code)

    def __str__(self) -> str:
        return self.code
