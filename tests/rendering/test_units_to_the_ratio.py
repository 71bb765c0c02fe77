"""Demand and capacity print in the unit that they have, down to the ratio."""

from __future__ import annotations

import numpy as np

from bolewright.calculation import Calculation
from bolewright.platform.limit_states.check import judge
from bolewright.platform.verification.comparison import demand_by_frame
from bolewright.rendering.handcalc import render_step
from bolewright.rendering.printback import check_step
from bolewright.units import NONE, POUND, Unit


def last_line(unit: Unit) -> str:
    demand, capacity = np.array([[600.0]]), np.array([[800.0]])
    check = judge(
        Calculation((1, 1)),
        ["J1"],
        ["D"],
        key="joist.shear",
        demand=demand,
        capacity=capacity,
        unit=unit,
        says="shear",
    )[0]
    step = render_step(check.steps[-1])
    check_step(step)
    return step.latex


def test_a_ratio_of_forces_prints_pounds_over_pounds() -> None:
    assert r"\frac{ 600\ \text{lb} }{ 800\ \text{lb} } = 0.75" in last_line(POUND)


def test_a_ratio_of_numbers_prints_bare() -> None:
    assert r"\frac{ 600 }{ 800 } = 0.75" in last_line(NONE)


def test_the_frame_model_s_demand_is_in_the_same_unit() -> None:
    calculation = Calculation((1, 1))
    demand = calculation.run(demand_by_frame, demand=np.array([[500.0]]), f_m=np.array([[1.2]]))
    check = judge(
        calculation, ["J1"], ["D"], key="joist.shear", demand=demand, capacity=800.0, unit=POUND, says="shear"
    )[0]
    step = render_step(check.steps[0])
    check_step(step)
    assert step.latex.count(r"\text{lb}") == 2
    assert r"= 600\ \text{lb}" in step.latex
