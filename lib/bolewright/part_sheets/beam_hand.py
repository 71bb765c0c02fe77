"""Lines of a hand calculation tried one way after the other, and what stands where none of them holds."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from bolewright.rendering.blocks import Block, Statement, StatementKind
from bolewright.units import Unit
from bolewright.worked import WorkedError, work

MODEL = "the beam model (elastic beam theory, all supports and sections of the beam solved at once)"
_SAME = 2e-3  # between a worked line and the beam model, whose greatest value is that of the nearest section looked at


def aside(words: str) -> Statement:
    """A sentence between the lines."""
    return Statement(StatementKind.ASIDE, (words,))


def by_hand(
    ways: Sequence[Sequence[str]], names: Mapping[str, Any], title: str, value: float, unit: Unit
) -> tuple[Block, ...]:
    """The shortest of several ways whose last line comes to a value of the beam model; empty where none does.

    A way is left where its printed numbers are too nearly alike to give the result (:class:`WorkedError`).
    """
    for lines in sorted(ways, key=lambda way: sum(len(line.partition("#")[0]) for line in way)):
        try:
            done = work("\n".join(lines), names, title)
        except WorkedError:
            continue
        found = float(list(done.values.values())[-1].m_as(unit.pint))
        if math.isclose(found, value, rel_tol=_SAME, abs_tol=1e-6):
            return done.blocks
    return ()


def from_model(what: str, why: str) -> Statement:
    """The sentence that stands in place of a line."""
    return aside(f"{what}: the value above is that of {MODEL}; {why}.")
