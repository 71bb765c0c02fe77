"""Every part judged by the worse of two models; a row is open where they part by more than a twentieth of its capacity.

The comparison is no check and has no ratio of its own: what it finds stands in the rows of the parts.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from bolewright.calculation import Calculation
from bolewright.formulas import formula
from bolewright.mechanics.stability import UnstableError
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.checks.members import Look
from bolewright.platform.limit_states.check import Check, demand_capacity_ratio, not_checked, sentence_of
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.verification.compared import PARTED, ROUNDING, Compared
from bolewright.platform.verification.frame_gravity import frame_gravity
from bolewright.platform.verification.independent import compare_gravity
from bolewright.platform.verification.independent_lateral import compare_lateral
from bolewright.rendering.numbers import ratio as shown
from bolewright.status import Status
from bolewright.timber.combined import eccentric_compression
from bolewright.units import Ratio, Stress

Row = tuple[str, str, str]

AMPLIFIED = (
    "brace.buckling",
    "brace.with_wind",
    "trunk_brace.with_wind",
)  # their force is in 3.9-3 and 15.4-1
LIFTED = 0.5  # lb: less is the rounding of a sum
WORSE_NOTE = "The frame model of the independent check gives more than the hand calculation here, and counts."
PARTED_ADVICE = "an engineer must look at it"


@formula("Common practice (greater of two models)", confidence="common practice")
def demand_by_frame(demand: Ratio, f_m: Ratio) -> Ratio:
    """Demand where the frame model of the independent check gives more than the hand calculation.

    Parameters: demand by the hand calculation; f_m what the frame model gives over what the hand calculation gives of
    the effect that the demand comes from. Returns: demand_m, in the unit of the demand.
    Source: common practice: of two models of one structure the worse counts.

    >>> demand_by_frame(100.0, 1.03)
    103.0
    """
    demand_m: Ratio = demand * f_m
    return demand_m


@formula("Common practice (greater of two models)", confidence="common practice")
def stress_by_frame(f_c: Stress, f_m: Ratio) -> Stress:
    """Compression stress where the frame model gives more, before it goes into an equation that rises faster than it.

    Parameters: f_c by the hand calculation (psi); f_m what the frame model gives over what the hand calculation gives
    of the force. Returns: f_cm (psi). Source: common practice: of two models of one structure the worse counts.

    >>> stress_by_frame(200.0, 1.04)
    208.0
    """
    f_cm: Stress = f_c * f_m
    return f_cm


def compare(path: LoadPath, lateral: LateralAnalysis, looks: Sequence[Look]) -> tuple[list[Compared], str]:
    """What both models give, and why the frame model could not be solved; empty when it was."""
    compared: list[Compared] = []
    try:
        compared += compare_gravity(path, frame_gravity(path.layout), looks)
        compared += compare_lateral(lateral)
    except (UnstableError, np.linalg.LinAlgError) as error:
        return compared, str(error)
    return compared, ""


def unsolved_checks(unsolved: str) -> list[Check]:
    """An open line where the frame model could not be solved."""
    if not unsolved:
        return []
    reason = (
        f"The frame model of the whole platform cannot be solved ({unsolved}): an engineer must look at it."
    )
    return [not_checked("platform", "platform.comparison", reason)]


def judged_by_worse(checks: Sequence[Check], compared: Sequence[Compared]) -> list[Check]:
    """The checks, each by the worse of the two models, and those that only the frame model finds."""
    resting: dict[Row, list[Compared]] = defaultdict(list)
    for c in compared:
        for row in c.rows:
            resting[row].append(c)
    alike: dict[Row, list[Check]] = defaultdict(list)
    for one in checks:
        alike[one.part, one.key, one.limit_state].append(one)
    known = {row: some[0] for row, some in alike.items()}
    met: dict[Row, int] = defaultdict(int)
    found: list[Check] = []
    for one in checks:
        row = one.part, one.key, one.limit_state
        some = resting.get(row) or resting.get((one.part, one.key, "")) or []
        found.append(_by_worse(one, _own(some, met[row], len(alike[row]))))
        met[row] += 1
    return found + [check for c in compared if (check := _missed(c, known, resting))]


def _own(some: Sequence[Compared], number: int, count: int) -> Compared | None:
    """What one of several checks alike rests on: a member may sit on the same beam more than once, a check each time.

    Where they are not as many, the greatest of all counts.
    """
    if len(some) == count:
        return some[number]
    if not some:
        return None
    by_hand, by_frame, beside = (
        max(getattr(c, name) for c in some) for name in ("by_hand", "by_frame", "beside")
    )
    return replace(some[0], by_hand=by_hand, by_frame=by_frame, beside=beside)


def _by_worse(check: Check, c: Compared | None) -> Check:
    if c is None or check.status is Status.NOT_CHECKED or check.ratio != check.ratio:
        return check
    factor = c.factor
    if "uplift" in check.key:
        if check.calculation is None:
            least = max(LIFTED, PARTED * c.beside)  # the greatest load on a seat stands for its capacity
            return check if c.by_frame <= least or c.by_hand > LIFTED else _lifted(check, c)
        more = max(c.by_frame - c.by_hand, 0.0) if check.demand > 0 else 0.0
        factor = 1.0 + (more / check.demand if more > ROUNDING * check.capacity else 0.0)
    by_frame = _ratio(check, factor)
    if abs(by_frame - check.ratio) > PARTED and min(by_frame, check.ratio) <= 1:
        return _parted(check, factor, c)
    return _worse(check, factor, c) if by_frame > check.ratio else check


def _ratio(check: Check, factor: float) -> float:
    """What the ratio comes to by the frame model."""
    if factor <= 1 or check.calculation is None or check.key not in AMPLIFIED:
        return check.ratio * factor
    _, demand = _more(check, check.calculation, factor)
    return demand / check.capacity


def _more(check: Check, before: Calculation, factor: float) -> tuple[Calculation, float]:
    """The calculation with the frame model's demand, and that.

    Where compression amplifies bending the demand is no multiple of the force: the equation is run again with more.
    """
    calculation = before.branch()
    given = calculation.last_of(eccentric_compression) if check.key in AMPLIFIED else None
    if given is None:
        return calculation, float(calculation.run(demand_by_frame, demand=check.demand, f_m=factor))
    f_c = calculation.run(stress_by_frame, f_c=given["f_c"], f_m=factor)
    calculation.run(eccentric_compression, **{**given, "f_c": f_c})
    return calculation, calculation.at(check.index)[-1].result


def _lifted(check: Check, c: Compared) -> Check:
    reason = (
        f"{check.part} stays down by the hand calculation, but by the frame model it can be lifted by "
        f"{c.by_frame:,.0f} lb: it needs a tie whose rated uplift is entered, or less overhang."
    )
    return _open(check, reason)


def _open(check: Check, reason: str) -> Check:
    return replace(
        check, status=Status.NOT_CHECKED, ratio=float("nan"), sentence=reason, calculation=None, effect=None
    )


def _parted(check: Check, factor: float, c: Compared) -> Check:
    by_frame = _ratio(check, factor)
    both = (
        f"{check.limit_state} of {check.part} comes to {shown(check.ratio)} by the hand calculation and to "
        f"{shown(by_frame)} by the frame model ({c.quantity} {c.by_hand:,.4g} and {c.by_frame:,.4g} {c.unit})"
    )
    both = both[:1].upper() + both[1:]
    if max(by_frame, check.ratio) <= 1:
        return _open(check, f"{both}: {PARTED_ADVICE}.")
    worse = _worse(check, factor, c) if by_frame > check.ratio else check
    return replace(worse, sentence=f"{both}: {PARTED_ADVICE}; by the worse of the two it fails.")


def _worse(check: Check, factor: float, c: Compared) -> Check:
    """The check with the frame model's demand, its step added to what is printed."""
    if check.calculation is None:
        return check
    calculation, demand = _more(check, check.calculation, factor)
    value = float(calculation.run(demand_capacity_ratio, demand=demand, capacity=check.capacity))
    fails = value > 1
    sentence = check.sentence
    if sentence == sentence_of(
        check.part, check.says, check.ratio
    ):  # its share is that of the ratio beside it
        sentence = sentence_of(check.part, check.says, value)
    elif fails != (check.status is Status.FAILS):
        sentence = f"{check.part} fails by the frame model: {check.limit_state} comes to {shown(value)}."
    return replace(
        check,
        demand=demand,
        ratio=value,
        status=Status.FAILS if fails else Status.PASSES,
        sentence=sentence,
        remarks=(
            *check.remarks,
            WORSE_NOTE,
            f"f_m: {c.quantity} {c.by_frame:,.4g} {c.unit} by the frame model, {c.by_hand:,.4g} {c.unit} by hand.",
        ),
        calculation=calculation,
    )


def _missed(
    c: Compared, known: Mapping[Row, Check], resting: Mapping[Row, Sequence[Compared]]
) -> Check | None:
    """A negative moment of which the hand calculation has none, where it counts."""
    gone = next((r for r in c.rows if r[1].endswith("negative_bending") and r not in known), None)
    if gone is None:
        return None
    bending = (gone[0], gone[1].replace("negative_bending", "bending"), "bending")
    if bending not in known or resting[bending][0].by_hand <= 0.0:
        return None
    if known[bending].severity * c.by_frame / resting[bending][0].by_hand <= PARTED:
        return None
    reason = (
        f"{gone[0]} bends upwards by the frame model alone, by {c.by_frame:,.0f} {c.unit}: {PARTED_ADVICE}."
    )
    return not_checked(gone[0], gone[1], reason)
