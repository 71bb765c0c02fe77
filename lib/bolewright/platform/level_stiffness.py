"""Level stiffness of the supports, each number run through a :class:`Calculation` so that the sheet can print it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from bolewright.bracing.plan import PlanSpring
from bolewright.bracing.stiffness import (
    SOFT_FOOT,
    cantilever_stiffness,
    knee_braced_stiffness,
    knee_braced_stiffness_held,
    knee_force_ratio,
    knee_spring,
    soft_foot_stiffness,
    spring_of,
    tied_bolt_stiffness,
)
from bolewright.calculation import Calculation
from bolewright.platform.checks.posts import FIXITY
from bolewright.platform.knees import Knee
from bolewright.platform.level_supports import BoltFrame, Foot, LevelFrame, PostAxis, PostFrame, axes_of
from bolewright.platform.stem_sway import run_stem
from bolewright.platform.tees import knee_stiffness
from bolewright.timber.adjusted_values import adjusted_modulus
from bolewright.tree.embedment import (
    STEEL_MODULUS,
    bolt_drop,
    bolt_pressure,
    bolt_slope,
    characteristic_length,
    foundation_modulus,
)

Run = Callable[..., Any]
KAPPA_ACROSS = (
    100.0  # E along the grain over k_0 D across it: ten times softer; judgement, engineer to confirm
)
ACROSS_NOTE = (
    "Across the grain the wood is taken ten times softer than along it: judgement, engineer to confirm."
)


def run_post_modulus(run: Run, frame: PostFrame) -> float:
    """Modulus of the post in service."""
    return float(run(adjusted_modulus, E=frame.values.E, **frame.factors.modulus))


def run_knee_stiffness(run: Run, knee: Knee) -> float:
    """Stiffness of a knee along itself."""
    return knee_stiffness(run, knee.brace)


def run_knee_spring(run: Run, axis: PostAxis) -> float:
    """Level stiffness of all knees of a post in one direction."""
    k_b = min(run_knee_stiffness(run, knee) for knee in axis.knees)
    return float(run(knee_spring, n=axis.n, k_b=k_b, a=axis.a, r=axis.r, k_v=axis.k_v))


def run_knee_ratio(run: Run, frame: PostFrame, axis: PostAxis, E: float) -> float:
    """Force at the top over that at the knee, foot held."""
    kappa = run_knee_spring(run, axis)
    return float(run(knee_force_ratio, E=E, I=frame.I, l=frame.h + FIXITY, a=axis.a, kappa=kappa))


def run_post_stiffness(run: Run, frame: PostFrame, which: int, foot: Foot) -> float:
    """Level stiffness of a post in one of its directions."""
    axis = frame.axes[which]
    held = frame.post.foot == "held"
    if not axis.n and not held:
        return 0.0
    E = run_post_modulus(run, frame)
    l = frame.h + FIXITY
    if not axis.n:
        k = float(run(cantilever_stiffness, E=E, I=frame.I, l=l, d=frame.arm(which)))
        return k if foot is Foot.HELD else float(run(soft_foot_stiffness, k=k, f=SOFT_FOOT))
    if held and foot is Foot.HELD:
        rho = run_knee_ratio(run, frame, axis, E)
        return float(run(knee_braced_stiffness_held, E=E, I=frame.I, l=l, a=axis.a, rho=rho))
    kappa = run_knee_spring(run, axis)
    return float(run(knee_braced_stiffness, E=E, I=frame.I, h=frame.h, a=axis.a, kappa=kappa))


def run_bolt_stiffness(run: Run, frame: BoltFrame, which: int) -> float:
    """Level stiffness along (0) or across (1) a bolt; 0 where its bearing slides."""
    how = frame.support.sideways
    if how in (None, "floats") or (how == "slides" and which == 0):
        return 0.0
    bolt, e = frame.placed.bolt, frame.placed.e
    _, k_t = run_stem(run, frame)
    if which == 0:
        return k_t / frame.others
    k_0 = run(foundation_modulus, E_g=frame.wood.MOE, D=bolt.diameter, kappa=KAPPA_ACROSS)
    D, L = bolt.diameter, bolt.embedment
    l_c = run(characteristic_length, k_0=k_0, D=D, D_r=D, E_s=STEEL_MODULUS)
    p_0 = run(bolt_pressure, P=1.0, e=e, L=L, D=D, l_c=l_c, x=0.0)
    theta_0 = run(bolt_slope, P=1.0, e=e, L=L, D=D, k_0=k_0, l_c=l_c)
    delta = run(bolt_drop, P=1.0, e=e, p_0=p_0, k_0=k_0, theta_0=theta_0, E_s=STEEL_MODULUS, D=D)
    k_d = run(spring_of, P=1.0, delta=delta)
    return float(run(tied_bolt_stiffness, k_d=k_d, k_t=k_t, n=frame.others))


def spring_of_frame(frame: LevelFrame, foot: Foot) -> PlanSpring:
    """A support as a spring of the plan."""
    run = Calculation().run
    if isinstance(frame, PostFrame):
        k = [run_post_stiffness(run, frame, which, foot) for which in (0, 1)]
    else:
        k = [run_bolt_stiffness(run, frame, which) for which in (0, 1)]
    return PlanSpring(*frame.support.at, axes_of(frame), np.array(k))
