"""Knee braces from a trunk: buckling, bearing and bolts at both ends, the tie of what they push outwards, clearance."""

from __future__ import annotations

from bolewright.calculation import Calculation
from bolewright.platform.analysis.brace_compression import ties
from bolewright.platform.analysis.brace_wind import timber_of
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BoltFrame, BraceFrame
from bolewright.platform.checks.brace_wind import bent_by_wind
from bolewright.platform.checks.caps import uplift_against_tie
from bolewright.platform.checks.lateral import judge_lateral, run_load, start, weight_on, worse
from bolewright.platform.checks.posts import SAWN
from bolewright.platform.checks.trunk_brace_bolts import bolt_checks
from bolewright.platform.checks.trunk_brace_forces import run_force, run_head_load
from bolewright.platform.layout.trunk_brace_ends import foot_clearance
from bolewright.platform.layout.trunk_braces import TrunkBrace
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.timber.adjusted_values import (
    adjusted_bearing,
    adjusted_compression,
    adjusted_minimum_modulus,
    compression_before_stability,
)
from bolewright.timber.bearing import bearing_at_angle, bearing_stress
from bolewright.timber.columns import (
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
    effective_column_length,
)
from bolewright.timber.net_section import net_area
from bolewright.tree.growth import gap_needed
from bolewright.units import INCH, POUND, PSI

CLEARANCE = 1 / 16  # in, a bolt hole is wider than its bolt
HINGE_NOTE = (
    "Hinged at both ends, so its force lies along it; its own weight bends it by next to nothing. The beam rests on "
    "its brackets and braces as on supports that do not give."
)
PAIR_NOTE = (
    "On the safe side, two braces of one beam that lean apart also take all lateral force along that beam, as if the "
    "bracket between them took none; that bracket is checked for all of it as well."
)
SWAY_NOTE = (
    "Its foot and the tie of its beam are in one trunk and sway alike, so growth and the margin count alone."
)


def trunk_brace_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every knee brace from a trunk."""
    checks: list[Check] = []
    for frame in lateral.frames:
        if not isinstance(frame, BraceFrame):
            continue
        checks.append(_clearance(lateral, frame.brace))
        if lateral.loose:
            continue
        checks.append(_tie(lateral, frame.brace))
        checks.append(_uplift(lateral, frame.brace))
        checks += worse(c for state in lateral.states for c in _brace(lateral, state, frame.brace))
    return checks


def _brace(lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> list[Check]:
    return [
        _buckling(lateral, state, brace),
        _with_wind(lateral, state, brace),
        _net(lateral, state, brace),
        _head(lateral, state, brace),
        *bolt_checks(lateral, state, brace),
        _foot_rated(lateral, state, brace),
    ]


def _buckling(lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> Check:
    cases, group = lateral.cases, brace.factors
    calculation = start(lateral)
    run = calculation.run
    F = run_force(run, lateral, state, brace)
    l_e = run(effective_column_length, K_e=1.0, l=brace.length)
    thin = min(brace.section.b, brace.section.d)
    E_min_p = run(adjusted_minimum_modulus, E_min=brace.values.E_min, **group.modulus)
    F_cE = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=thin)
    F_c_star = run(compression_before_stability, F_c=brace.values.F_c, C_D=cases.C_D, **group.compression)
    C_P = run(column_stability_factor, F_cE=F_cE, F_c_star=F_c_star, c=SAWN)
    F_c_p = run(adjusted_compression, F_c=brace.values.F_c, C_D=cases.C_D, C_P=C_P, **group.compression)
    f_c = run(compression_stress, P=F, A=brace.section.A)
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key="trunk_brace.buckling",
        demand=f_c,
        capacity=F_c_p,
        unit=PSI,
        says="compression against buckling",
        notes=(HINGE_NOTE, PAIR_NOTE),
    )


def _with_wind(lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> Check:
    calculation = start(lateral)
    F = run_force(calculation.run, lateral, state, brace)
    own = timber_of(brace)
    key = "trunk_brace.with_wind"
    return bent_by_wind(calculation, lateral, state, own, key, F, notes=(HINGE_NOTE, PAIR_NOTE))


def _net(lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> Check:
    """Compression on the net section, and on the end grain of its foot in the shoe."""
    calculation = start(lateral)
    run = calculation.run
    F = run_force(run, lateral, state, brace)
    D = brace.strut.bolt_diameter
    A = run(
        net_area,
        b=brace.section.b,
        d=brace.section.d,
        n=1.0 if D else 0.0,
        D_h=D + CLEARANCE if D else 0.0,
    )
    f_c = run(compression_stress, P=F, A=A)
    F_c_star = run(
        compression_before_stability,
        F_c=brace.values.F_c,
        C_D=lateral.cases.C_D,
        **brace.factors.compression,
    )
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key="trunk_brace.net_compression",
        demand=f_c,
        capacity=F_c_star,
        unit=PSI,
        says="compression on the net section",
    )


def _head(lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> Check:
    """The level cut of its head on the beam: the load comes square to the cut, aslant to the brace's grain."""
    calculation = start(lateral)
    run, group = calculation.run, brace.factors
    R = run_head_load(run, lateral, state, brace)
    f = run(bearing_stress, R=R, b=min(brace.section.b, brace.beam.width), l_b=brace.cut)
    F_c_star = run(
        compression_before_stability, F_c=brace.values.F_c, C_D=lateral.cases.C_D, **group.compression
    )
    F_c_perp_p = run(adjusted_bearing, F_c_perp=brace.values.F_c_perp, C_b=1.0, **group.bearing)
    theta = 90.0 - brace.to_beam
    F_theta = run(bearing_at_angle, F_c_star=F_c_star, F_c_perp_p=F_c_perp_p, theta=theta)
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key="trunk_brace.head_bearing",
        demand=f,
        capacity=F_theta,
        unit=PSI,
        says="pressure on its head",
    )


def _foot_rated(lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> Check:
    calculation = start(lateral)
    F = run_force(calculation.run, lateral, state, brace)
    rated = brace.strut.rated_foot
    if rated is None:
        return not_checked(
            brace.mark,
            "trunk_brace.foot_rated",
            f"{brace.mark} brings up to {float(F.max()):,.0f} lb to its shoe on tree bolt {brace.foot.mark}: enter the "
            f"shoe's rating as rated_foot of its kind of strut, {brace.support.strut}.",
        )
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key="trunk_brace.foot_rated",
        demand=F,
        capacity=rated,
        unit=POUND,
        says="the force on its shoe",
    )


def _tie(lateral: LateralAnalysis, brace: TrunkBrace) -> Check:
    """Whether a bracket on a bolt of the same tree holds the beam back along itself."""
    found = ties(lateral.path, lateral.frames, brace)
    key = "trunk_brace.tie"
    if not found:
        return not_checked(
            brace.mark,
            key,
            f"{brace.mark} pushes {brace.beam.mark} away from its tree {brace.foot.tree}, and no bracket on a tree "
            "bolt there holds that beam along itself: let it sit on one that is tied, or that slides the other way.",
        )
    marks = " and ".join(f.support.mark for f in found)
    return nothing_asked(
        brace.mark,
        key,
        f"{brace.mark} is held: {marks} ties {brace.beam.mark} to {brace.foot.tree}, and is checked for all of its "
        "lateral force, along the bolt as withdrawal and tension, across it in bending.",
    )


def _uplift(lateral: LateralAnalysis, brace: TrunkBrace) -> Check:
    i = lateral.row(brace.mark)
    loads = []
    for state in lateral.states:
        for weight, slack in weight_on(lateral, i, most=False, foot=False):
            calculation = start(lateral)
            R = run_load(calculation.run, state, i, weight, foot=False, slack=slack)
            loads.append((float(R.min()), state, calculation, R))
    _, state, calculation, R = min(loads, key=lambda item: item[0])
    return uplift_against_tie(
        lateral,
        state,
        calculation,
        R,
        brace.mark,
        "trunk_brace.uplift_lateral",
        brace.support.uplift_tie,
    )


def _clearance(lateral: LateralAnalysis, brace: TrunkBrace) -> Check:
    """Room between its foot and the bark, until the next service."""
    frame = next(f for f in lateral.frames if isinstance(f, BoltFrame) and f.support.mark == brace.foot.mark)
    tree = frame.tree
    calculation = Calculation((1, 1))
    c = calculation.run(gap_needed, s=0.0, g=tree.growth, t=tree.service, m=tree.margin)
    there = foot_clearance(brace, tree, paired=len(frame.braces) > 1)
    return judge(
        calculation,
        [brace.mark],
        ["any"],
        key="trunk_brace.clearance",
        demand=c,
        capacity=there,
        unit=INCH,
        says="the clearance required from its foot to the bark",
        notes=(SWAY_NOTE, _gone(there, tree.growth)),
        nothing=f"its foot is in the bark of {tree.mark}",
    )[0]


def _gone(clearance: float, growth: float) -> str:
    """When the bark meets the foot, in words."""
    return f"The bark meets it in {max(0.0, clearance) / growth:.0f} years at {growth:g} in. a year."
