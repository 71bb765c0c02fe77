"""Earthquake: settled where it asks for less than wind and sway in every direction, open where it does not."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from bolewright.bracing.seismic import (
    HEAVY_SNOW,
    IMPORTANCE,
    RESPONSE_MODIFICATION,
    SNOW_SHARE,
    seismic_force_allowable,
    seismic_response_coefficient,
    seismic_weight_with_snow,
)
from bolewright.calculation import Calculation
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.analysis.post_values import post_weight
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.lateral_loads import compass, main_direction
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project.bearing import SupportKind
from bolewright.units import POUND

KEY = "platform.seismic"
WHO = "the licensed engineer decides"
NOTE = (
    "Only the total lateral force is compared, each row with the least of all directions nearer to its axis; R = 1.5 "
    "for timber frames as cantilevered columns (ASCE 7-16, Table 12.2-1), I_e = 1.0; the tree moves in an earthquake "
    "as well, which no clause covers."
)
AXIS = {0.0: "x", 90.0: "y"}
A_HAIR = 1.0  # degrees: an axis that leans less is called by that of the plan
QUARTER = 16  # directions in a quarter of the plan, as many as wind is looked at from


def seismic_checks(lateral: LateralAnalysis) -> list[Check]:
    """0.7 C_s W beside the lateral load of wind and sway, along the platform's own main direction and across it."""
    if lateral.loose:
        return []
    first = main_direction(lateral.path.layout)
    axes = sorted(((first + quarter) % 180.0 for quarter in (0.0, 90.0)), key=lambda a: (a + A_HAIR) % 180.0)
    return [_axis(lateral, f"along {_name(angle)}", angle) for angle in axes]


def _name(angle: float) -> str:
    """Words for an axis (degrees from +x)."""
    near = min((0.0, 90.0, 180.0), key=lambda axis: abs(axis - angle))
    return AXIS[near % 180.0] if abs(near - angle) < A_HAIR else compass(angle)


def seismic_weight(path: LoadPath, calculation: Calculation) -> float:
    """Effective seismic weight: dead load, posts above grade, and a fifth of heavy snow (lb)."""
    posts = sum(post_weight(path, s) for s in path.layout.supports if s.kind == SupportKind.POST)
    D = path.balance()["D"][0] + posts
    snow = path.layout.project.site.ground_snow
    if snow <= HEAVY_SNOW:
        return float(D)
    A = path.layout.deck.area / 144
    return float(calculation.run(seismic_weight_with_snow, D=D, s_S=SNOW_SHARE, p_f=snow, A=A))


def settling_share(lateral: LateralAnalysis) -> float:
    """Share of the live load as sway that is not less than the earthquake's force; 0 without an S_DS."""
    project = lateral.path.layout.project
    if project.site.S_DS is None:
        return 0.0
    run = Calculation((1, 1)).run
    C_s = run(seismic_response_coefficient, S_DS=project.site.S_DS, R=RESPONSE_MODIFICATION, I_e=IMPORTANCE)
    E = float(run(seismic_force_allowable, C_s=C_s, W=seismic_weight(lateral.path, Calculation((1, 1)))))
    return E / (project.loads.live * float(lateral.path.layout.deck.area) / 144)


def lateral_design_load(lateral: LateralAnalysis, angle: float) -> float:
    """Larger of 0.6W and sway in a direction (degrees from +x), the least of all nearer to this axis.

    Combinations of both at their shares do not count: in them live load holds down what an earthquake tips with 0.6 of
    the dead load alone (ASCE 7-16, 2.4.5).
    """
    cases = lateral.cases
    alone = ~((cases.W > 0) & (cases.L > 0)) & (cases.G == 0)
    turn = np.radians(np.linspace(-45.0, 45.0, QUARTER + 1) + angle)
    u = np.column_stack([np.cos(turn), np.sin(turn)])
    force = u @ cases.load[:2, alone]
    return float(min(force.max(axis=1).min(), (-force).max(axis=1).min()))


def _axis(lateral: LateralAnalysis, name: str, angle: float) -> Check:
    S_DS = lateral.path.layout.project.site.S_DS
    has = lateral_design_load(lateral, angle)
    calculation = Calculation((1, 1))
    W = seismic_weight(lateral.path, calculation)
    if S_DS is None:
        enough = has / (0.7 * W) * RESPONSE_MODIFICATION / IMPORTANCE if W > 0 else 0.0
        return not_checked(
            "platform",
            KEY,
            f"Earthquake {name} is not settled: enter the site's S_DS. Up to S_DS = {_down(enough):.2f} the "
            f"{has:,.0f} lb of wind or sway would be more than 0.7 C_s W (W = {W:,.0f} lb).",
            at=name,
        )
    C_s = calculation.run(seismic_response_coefficient, S_DS=S_DS, R=RESPONSE_MODIFICATION, I_e=IMPORTANCE)
    E = float(calculation.run(seismic_force_allowable, C_s=C_s, W=W))
    if has < E:
        return not_checked(
            "platform",
            KEY,
            f"Earthquake governs {name}: 0.7 C_s W = {E:,.0f} lb is more than the {has:,.0f} lb of wind or sway that "
            f"the platform is checked for; {WHO}.",
            at=name,
        )
    check = judge(
        calculation,
        ["platform"],
        ["0.7E"],
        key=KEY,
        at=name,
        demand=E,
        capacity=has,
        unit=POUND,
        says=f"the earthquake's lateral force {name}, beside that of wind and sway,",
        notes=(NOTE,),
    )[0]
    said = (
        f"Earthquake is settled {name}: 0.7 C_s W = {E:,.0f} lb, less than the {has:,.0f} lb of wind or sway."
    )
    return replace(check, sentence=said)


def _down(value: float) -> float:
    """Two places, rounded down, so that what is printed is enough."""
    return float(np.floor(value * 100) / 100)
