"""Generated lines of worked cells, each within the grammar, and what became of them.

A printed line is worked out again here from its own source by Python and pint, and compared with the number that it
prints. ``python tests/fuzz/worked_lines.py 5000 [first]`` prints the counts and every line that was refused.
"""

from __future__ import annotations

import math
import random
import re
import sys
from collections import Counter
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pint

from bolewright import Q, timber
from bolewright.rendering.blocks import Equations
from bolewright.units import Quantity
from bolewright.worked import WorkedError, work

NAMES = {"timber": timber, "Q": Q}
UNITS = (
    "ft", "in", "lb", "psi", "psf", "plf", "in2", "in3", "in4", "kip", "ksi", "pcf", "kN", "mm", "m", "kN/m", "MPa",
    "kPa", "lb ft", "lb in", "deg", "", "",
)  # fmt: skip
_NAMES = (
    "a b d h k w L P M S V E I q s n F_b F_v f_b F_c_perp E_min_p F_c_star sigma_1 delta_LT alpha beta_c C_D C_r K_cr",
    "l_e M_max R_1 w_live A_net gamma tau_2 phi x y",
)
_NUMBERS = ("2", "3", "8", "12", "0.5", "1.15", "384", "0.822", "1.6", "5", "48")
_TO = {"[length]": "mm", "[mass] / [length] / [time] ** 2": "MPa", "[length] * [mass] / [time] ** 2": "kN"}
_UNIT_WORDS = {"lb": "lbf", "deg": "degree", "in2": "in**2", "in3": "in**3", "in4": "in**4", "lb ft": "lbf*ft",
               "lb in": "lbf*in", "plf": "lbf/ft", "psf": "lbf/ft**2", "pcf": "lbf/ft**3"}  # fmt: skip
_PRINTED = {"lb·ft": "lbf*ft", "lb·in": "lbf*in", "kN·m": "kN*m", "N·m": "N*m", "°": "degree"}
_LOWERED = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")


@dataclass
class Tally:
    """What became of the lines: how many taken, printed wrong, vanished, refused (each with its reason)."""

    lines: int = 0
    taken: int = 0
    wrong: list[str] = field(default_factory=list)
    vanished: list[str] = field(default_factory=list)
    unnamed: list[str] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)
    reasons: Counter[str] = field(default_factory=Counter)


class Writer:
    """Writes cells: inputs with units, then formulas on them and on each other."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)

    def cell(self) -> list[str]:
        """The lines of one cell."""
        names = self.random.sample(" ".join(_NAMES).split(), 9)
        lines, known = [], {}
        for name in names[: self.random.randint(3, 5)]:
            line, known[name] = self._input(name)
            lines.append(line)
        for name in names[5 : 5 + self.random.randint(1, 4)]:
            for _ in range(20):  # until one has a value: nothing divides by nothing, no root of a debt
                source = self._sum(known)
                value = own(source, known)
                if value is not None:
                    break
            else:
                continue
            to = _TO.get(str(value.dimensionality)) if self.random.random() < 0.3 else None
            lines.append(f'{name} = ({source}).to("{to}")' if to else f"{name} = {source}")
            known[name] = value
            if self.random.random() < 0.15:
                lines[-1] += "  # as above"
        return lines

    def _input(self, name: str) -> tuple[str, Any]:
        unit = self.random.choice(UNITS)
        size = self.random.choice([1, 1, 10, 100, 1000])
        number = round(size * self.random.uniform(0.1, 9.9), self.random.randint(0, 3)) or 1.0
        if self.random.random() < 0.1:
            number = -number
        text = f"{number:.9g}"
        line = f'{name} = Q("{text} {unit}")' if unit else f"{name} = {text}"
        if unit == "ft" and number > 0 and self.random.random() < 0.3:
            inches = self.random.randint(0, 11)
            line = f'{name} = Q("{int(number)}\' {inches}\\"")'
            return line, Quantity(12 * int(number) + inches, "inch")
        return line, Quantity(float(text), _UNIT_WORDS.get(unit, unit))

    def _sum(self, known: dict[str, Any]) -> str:
        first = self._product(known)
        kind = self.random.random()
        if kind < 0.5:
            return first
        like = self.random.choice(_NUMBERS)
        sign = self.random.choice("+-")
        if kind < 0.7:
            return f"{first} {sign} {like} * ({first})"
        if kind < 0.8:
            return f"-({first}) {sign} ({first}) / {like}"
        if kind < 0.9:
            return f"({first} {sign} ({first}) / {like}) / {like}"
        return f"max({first}, {like} * ({first}))"

    def _product(self, known: dict[str, Any]) -> str:
        word = self._factor(known)
        for _ in range(self.random.randint(0, 3)):
            operand = self._factor(known)
            if self.random.random() < 0.2:
                operand = f"({operand} * {self._factor(known)})"
            word += f" {self.random.choice('**/')} {operand}"
        return word

    def _factor(self, known: dict[str, Any]) -> str:
        name = self.random.choice(list(known))
        plain = known[name].dimensionless and known[name].units != Quantity(1, "degree").units
        kind = self.random.random()
        choose = self.random.choice
        if kind < 0.45:
            return name
        if kind < 0.57:
            return f"{name}**{choose([2, 3, 4])}" if not plain else f"(1 + {name} / {choose(_NUMBERS)})"
        if kind < 0.67:
            return choose(_NUMBERS)
        if kind < 0.75:
            return f"({name} {choose('+-')} {choose(_NUMBERS)} * {name})"
        if kind < 0.85:
            return choose(
                (f"max({name}, {choose(_NUMBERS)} * {name})", f"min({name}, {name} / 3, 2 * {name})")
            )
        if kind < 0.92:
            return f"sqrt({name}**2)" if not plain else f"sqrt(abs({name}))"
        if kind < 0.96:
            return f"abs(-{name})"
        inner = f"{name} / ({choose(_NUMBERS)} * {name})"
        return f"{choose(('sin', 'cos', 'exp', 'arctan', 'tan'))}({inner})"


def own(source: str, known: dict[str, Any]) -> Any:
    """The source worked out by Python and pint alone; None for what has no finite number."""
    functions = {name: getattr(np, name) for name in ("sqrt", "sin", "cos", "tan", "exp", "arctan")}
    with np.errstate(all="ignore"):
        try:
            found = eval(source, {**functions, "max": max, "min": min, "abs": abs}, dict(known))
        except (ZeroDivisionError, OverflowError, pint.PintError):
            return None
    found = found if isinstance(found, pint.Quantity) else Quantity(float(found), "")
    size = float(found.to_base_units().magnitude)
    return found if math.isfinite(size) and 1e-9 < abs(size) < 1e15 else None


def printed(row: str) -> Any:
    """The number at the end of a row of plain text, read by pint."""
    number, _, unit = row.split(" = ")[-1].replace(",", "").replace("−", "-").partition(" ")
    if unit.startswith("× 10"):
        power, _, unit = unit[4:].partition(" ")
        number += "e" + power.translate(_LOWERED)
    if number.endswith("°"):
        number, unit = number[:-1], "degree"
    for word, plain in _PRINTED.items():
        unit = unit.replace(word, plain)
    unit = re.sub(r"[⁻⁰¹²³⁴-⁹]+", lambda m: "**" + m[0].translate(_LOWERED), unit.replace("·", "*"))
    return Quantity(float(number), re.sub(r"(?<![a-z])lb(?![a-z])", "lbf", unit))


def try_lines(count: int, first: int = 0) -> Tally:
    """Write cells from seed ``first`` on until ``count`` lines were tried, each line by itself and each cell whole."""
    tally = Tally()
    seed = first
    while tally.lines < count:
        _try_cell(Writer(seed).cell(), tally)
        seed += 1
    return tally


def _try_cell(lines: list[str], tally: Tally) -> None:
    names: dict[str, Any] = dict(NAMES)
    values: dict[str, Any] = {}
    taken = []
    for line in lines:
        tally.lines += 1
        symbol, source = line.split("  #")[0].split(" = ", 1)
        try:
            worked = work(line, names)
        except WorkedError as error:
            tally.refused.append(f"{line}: {error}")
            tally.reasons[str(error).split(": ", 1)[-1][:40]] += 1
            if not str(error).startswith(f"line 1 ({symbol}"):
                tally.unnamed.append(str(error))
            break  # what follows may rest on it
        rows = [r for b in worked.blocks if isinstance(b, Equations) for r in b.alt.splitlines()]
        if len(rows) != 1 or not rows[0].startswith(f"{symbol} = "):
            tally.vanished.append(line)
            continue
        tally.taken += 1
        taken.append(line)
        names |= worked.values
        values[symbol] = wanted = _wanted(source, values)
        got = printed(rows[0])
        alike = got.dimensionality == wanted.dimensionality and math.isclose(
            float(got.to_base_units().magnitude),
            float(wanted.to_base_units().magnitude),
            rel_tol=5.1e-4,
            abs_tol=1e-12,
        )
        if not alike:
            tally.wrong.append(f"{line}: printed {rows[0]}, wanted {wanted}")
    whole = work("\n".join(taken), dict(NAMES))
    rows = [r for b in whole.blocks if isinstance(b, Equations) for r in b.alt.splitlines()]
    if [r.split(" = ")[0] for r in rows] != [line.split(" = ")[0] for line in taken]:
        tally.vanished.append("; ".join(taken))


def _wanted(source: str, values: dict[str, Any]) -> Any:
    """A line's own value: an input by its number and unit word, a formula by Python and pint."""
    match = re.fullmatch(r'Q\("(.*)"\)', source)
    if match is None:
        inner = re.fullmatch(r'\((.*)\)\.to\("\w+"\)', source)
        return own(inner[1] if inner else source, values)
    feet = re.fullmatch(r"(\d+)' (\d+)\\\"", match[1])
    if feet:
        return Quantity(12 * int(feet[1]) + int(feet[2]), "inch")
    number, _, unit = match[1].partition(" ")
    return Quantity(float(number), _UNIT_WORDS.get(unit, unit))


def main(count: int, first: int = 0) -> int:
    """Try ``count`` lines, print what became of them; 1 where one printed wrong or vanished."""
    tally = try_lines(count, first)
    for name in ("wrong", "vanished", "unnamed", "refused"):
        for line in getattr(tally, name):
            print(f"{name}: {line}")
    print(
        f"{tally.lines} lines: {tally.taken} taken ({tally.taken / tally.lines:.2%}), {len(tally.refused)} refused, "
        f"{len(tally.wrong)} printed wrong, {len(tally.vanished)} vanished, {len(tally.unnamed)} refused "
        "without naming the line"
    )
    for reason, times in tally.reasons.most_common():
        print(f"    {times} {reason}")
    return int(bool(tally.wrong or tally.vanished))


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
