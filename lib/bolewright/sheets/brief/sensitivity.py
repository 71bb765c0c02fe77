"""What a tenth does: the governing ratio again, with one formula's result or some inputs a tenth less or more.

The check's own formulas are run again in order, so this is the check itself; where a value is picked from many on the
way (the worst of patterns, the greater of two models) the way is broken and there is no answer.
"""

from __future__ import annotations

import math
from collections.abc import Collection

from bolewright.calculation import Flow, Step
from bolewright.platform.limit_states.check import Check

TENTH = (0.9, 1.1)
_SAME = 1e-6


def with_a_tenth(check: Check, formulas: Collection[str] = (), inputs: Collection[str] = ()) -> float | None:
    """The worse ratio with the results of ``formulas`` and the given ``inputs`` a tenth less, or a tenth more.

    None where the check's ratio does not come out by its formulas alone, or does not depend on them.
    """
    if check.calculation is None or math.isnan(check.ratio):
        return None
    flow, steps = check.calculation.flow(), check.steps
    plain = _ratio(flow, steps, (), (), 1.0)
    if plain is None or not math.isclose(plain, check.ratio, rel_tol=_SAME):
        return None
    found = [_ratio(flow, steps, formulas, inputs, factor) for factor in TENTH]
    ratios = [ratio for ratio in found if ratio is not None]
    worse = max(ratios, default=plain)
    moved = any(not math.isclose(ratio, plain, rel_tol=_SAME) for ratio in ratios)
    return worse if moved else None


def with_inputs(check: Check, inputs: Collection[str], factor: float) -> float | None:
    """The ratio with the given inputs times a factor; None where it does not come out by the check's formulas alone."""
    if check.calculation is None or math.isnan(check.ratio):
        return None
    flow, steps = check.calculation.flow(), check.steps
    plain = _ratio(flow, steps, (), (), 1.0)
    if plain is None or not math.isclose(plain, check.ratio, rel_tol=_SAME):
        return None
    return _ratio(flow, steps, (), inputs, factor)


def _ratio(
    flow: tuple[Flow, ...],
    steps: tuple[Step, ...],
    formulas: Collection[str],
    inputs: Collection[str],
    factor: float,
) -> float | None:
    results: list[float] = []
    for run, step in zip(flow, steps, strict=True):
        arguments = dict(step.arguments)
        for name in arguments:
            if name not in run.from_run:
                arguments[name] *= factor if name in inputs else 1.0
            elif math.isclose(
                steps[run.from_run[name]].result, arguments[name], rel_tol=_SAME, abs_tol=1e-12
            ):
                arguments[name] = results[run.from_run[name]]
        try:
            result = float(step.formula.body(**arguments))
        except (ArithmeticError, ValueError):
            return None
        results.append(result * (factor if step.formula.name in formulas else 1.0))
    last = results[-1] if results else math.nan
    return last if math.isfinite(last) else None
