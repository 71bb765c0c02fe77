"""Forces along knee braces, and the bolts or the rated connection at their ends."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from bolewright.bracing.knee import (
    brace_axial_force,
    brace_end_force,
)
from bolewright.bracing.standing import load_with_sway
from bolewright.bracing.tee import (
    tee_cap_moment,
    tee_knee_compression,
    tee_knee_couple,
    tee_knee_prop,
    tee_knee_tension,
)
from bolewright.fasteners.adjusted import adjusted_lateral_value, connection_value
from bolewright.fasteners.connectors import bolt
from bolewright.fasteners.dowel_bearing import wood_bearing_strength
from bolewright.fasteners.general_dowel import general_dowel
from bolewright.fasteners.geometry import geometry_factor
from bolewright.fasteners.group_action import axial_stiffness, group_action_factor, slip_modulus_wood
from bolewright.fasteners.service import OUTDOORS, wet_service_factor
from bolewright.fasteners.yield_limit import double_shear, single_shear
from bolewright.platform.analysis.knee_weight import Way
from bolewright.platform.analysis.knees import Knee
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import run_knee_share
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.checks.lateral import Run, judge_lateral, run_lateral_force, start, unprinted
from bolewright.platform.checks.post_forces import run_head_moment, run_knee_force
from bolewright.platform.layout.brace_bolts import BraceBolts
from bolewright.platform.layout.tees import TEE_NOTE, stands_alone
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.units import POUND

END_NOTE = (
    "The bolts stand along the grain of post and beam, on their middle line, as the setting-out says; C_Delta by "
    "the distances there (NDS 2018, 12.5.1). Fill between the plies where beam and post differ in thickness."
)
PACKING_NOTE = (
    "The packing between ply and timber carries no load of its own: it counts as a gap that the bolts cross, half of "
    "what beam and post differ in thickness (AWC TR12)."
)
RATED_NOTE = "The rated load counts as it was entered, without any increase for short loads."
FORCE_NOTE = "The force from weight is worked out under buckling and tension."
WEIGHT_NOTE = (
    "The brace is taken as fixed, without slack, before the platform is loaded, so it bears weight as well."
)


def weight_note(knee: Knee) -> str:
    """How weight on a knee is taken."""
    return TEE_NOTE if stands_alone(knee.beam) else WEIGHT_NOTE


def place_of(lateral: LateralAnalysis, knee: Knee) -> tuple[int, PostFrame, int]:
    """Row of a knee's post, the post, and its direction in which the knee stands."""
    i = lateral.row(knee.brace.support)
    frame = lateral.frames[i]
    assert isinstance(frame, PostFrame)
    return i, frame, next((w for w, axis in enumerate(frame.axes) if knee in axis.knees), 0)


def run_brace_forces(
    run: Run, lateral: LateralAnalysis, state: State, knee: Knee, way: Way, *, full: bool = False
) -> tuple[Array, Array]:
    """Force along a brace from lateral load, and from weight (compression above 0); ``full`` prints how they come
    about.
    """
    i, frame, which = place_of(lateral, knee)
    if frame.tee:
        return _tee_forces(run, lateral, state, knee, way, full=full)
    axis = frame.axes[which]
    V = run_lateral_force(run if full else unprinted(), lateral, state, i, which)
    Q = np.abs(run_knee_force(run if full else unprinted(), state, frame, which, V))
    q = run_knee_share(run, axis, knee, state.foot)
    F_b = run(brace_axial_force, Q=Q, q=q, a=axis.a, r=axis.r)
    return F_b, lateral.weight(state).force(run if full else unprinted(), knee, way)


def _tee_forces(
    run: Run, lateral: LateralAnalysis, state: State, knee: Knee, way: Way, *, full: bool
) -> tuple[Array, Array]:
    """The same in a T-frame, where all of it comes from the moment about the post, and counts as weight."""
    i, frame, which = place_of(lateral, knee)
    assert frame.tee is not None
    V = run_lateral_force(run if full else unprinted(), lateral, state, i, which)
    run = run if full else unprinted()
    M_h = run_head_moment(run, lateral, state, frame)
    M_s = knee.side * run(tee_cap_moment, M_h=M_h, V=V, d=frame.depth)
    load, over = lateral.on_tees.load[i][None, :], state.over[i][None, :]
    R = run(load_with_sway, R=load, R_o=over, R_k=0.0)
    r, r_o = frame.tee.runs[:: -knee.side]
    V_c = run(tee_knee_couple, M_s=M_s, r=r, r_o=r_o)
    V_n = run(tee_knee_prop, R=R, M_s=M_s, r=r, r_o=r_o)
    push = run(tee_knee_compression, V_c=V_c, V_n=V_n, a=frame.tee.a, r=r) if way is not Way.PULL else -np.inf
    pull = run(tee_knee_tension, V_c=V_c, V_n=V_n, a=frame.tee.a, r=r) if way is not Way.PUSH else np.inf
    return np.zeros_like(V), np.asarray(np.where(push >= -pull, push, pull), dtype=float)


def end_checks(lateral: LateralAnalysis, state: State, knee: Knee) -> list[Check]:
    """Checks of the ends of a brace."""
    brace = knee.brace
    if brace.rated_load is not None:
        return [_rated_end(lateral, state, knee, brace.rated_load)]
    if knee.bolts is None:
        return [
            not_checked(
                brace.mark,
                "brace.ends",
                f"{brace.mark} has no end connection: enter bolts and bolt_diameter, or a rated_load.",
            )
        ]
    _, frame, _ = place_of(lateral, knee)
    a, r = brace.rise, brace.run
    beam = knee.beam
    to_post, to_beam = math.degrees(math.atan2(r, a)), math.degrees(math.atan2(a, r))
    values = lateral.path.effects[beam.mark].values
    thick = min(frame.section.b, frame.section.d)
    return [
        _bolted_end(
            lateral,
            state,
            knee,
            brace.support,
            thick,
            frame.values.G,
            to_post,
            frame.values.E * frame.section.A,
            max(0.0, (beam.width - thick) / 2),
        ),
        _bolted_end(
            lateral,
            state,
            knee,
            beam.mark,
            beam.width,
            values.G,
            to_beam,
            values.E * beam.section.A,
            max(0.0, (thick - beam.width) / 2),
        ),
    ]


def _rated_end(lateral: LateralAnalysis, state: State, knee: Knee, rated: float) -> Check:
    calculation = start(lateral)
    run = calculation.run
    F_b, F_w = run_brace_forces(run, lateral, state, knee, Way.EITHER, full=True)
    F = run(brace_end_force, F_b=F_b, F_w=F_w)
    return judge_lateral(
        calculation,
        lateral,
        state,
        knee.brace.mark,
        key="brace.ends",
        demand=F,
        capacity=rated,
        unit=POUND,
        says="the force on its ends",
        notes=(RATED_NOTE, weight_note(knee)),
    )


def _bolted_end(
    lateral: LateralAnalysis,
    state: State,
    knee: Knee,
    onto: str,
    thickness: float,
    G: float,
    theta: float,
    EA: float,
    gap: float,
) -> Check:
    """Bolts of a brace on a post or beam: yield limit at the angle to its grain, wet, as a row."""
    brace, cases = knee.brace, lateral.cases
    assert knee.bolts is not None
    count, D = float(knee.bolts.count), knee.bolts.diameter
    calculation = start(lateral)
    run = calculation.run
    F_b, F_w = run_brace_forces(run, lateral, state, knee, Way.EITHER, full=True)
    F = run(brace_end_force, F_b=F_b, F_w=F_w)
    fastener = bolt(D, thickness + knee.section.b * brace.plies)
    F_em = wood_bearing_strength(G, D, theta, run)
    F_es = wood_bearing_strength(knee.values.G, D, 0.0, run)
    members = {"l_m": thickness, "l_s": knee.section.b, "F_em": F_em, "F_es": F_es}
    bolts: dict[str, Any] = {
        "D": D,
        "F_yb": fastener.F_yb,
        "theta": theta,
        "calculation": calculation,
        **members,
    }
    if gap > 0:
        Z = general_dowel(gap=gap, double=brace.plies == 2, **bolts).Z
    else:
        Z = (double_shear if brace.plies == 2 else single_shear)(**bolts).Z
    C_g = _group(run, knee, knee.bolts, EA) if count > 1 else 1.0
    nearest = knee.bolts.least_factor(onto)
    C_Delta = run(geometry_factor, a=max(nearest.actual, 0.0), a_full=nearest.full)
    wet = wet_service_factor(fastener, OUTDOORS) if brace.wet else 1.0
    Z_p = run(
        adjusted_lateral_value,
        Z=Z,
        C_D=cases.C_D,
        C_M=wet,
        C_t=1.0,
        C_g=C_g,
        C_Delta=C_Delta,
        C_eg=1.0,
        C_di=1.0,
        C_tn=1.0,
    )
    total = run(connection_value, n=count, Z_p=Z_p)
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key="brace.end_on_post" if onto == brace.support else "brace.end_on_beam",
        demand=F,
        capacity=total,
        unit=POUND,
        says=f"the force on its bolts at {onto}",
        notes=(
            END_NOTE,
            *((PACKING_NOTE,) if gap > 0 else ()),
            FORCE_NOTE,
            weight_note(knee),
            *fastener.notes,
        ),
    )


def _group(run: Run, knee: Knee, bolts: BraceBolts, EA: float) -> float:
    gamma = run(slip_modulus_wood, D=bolts.diameter)
    EA_s = run(axial_stiffness, E=knee.values.E, A=knee.section.A * knee.brace.plies)
    n, s = float(bolts.count), bolts.spacing
    return float(run(group_action_factor, n=n, gamma=gamma, s=s, EA_m=EA, EA_s=EA_s))
