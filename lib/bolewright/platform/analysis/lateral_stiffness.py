"""Lateral stiffness of the supports, each number run through a :class:`Calculation` so that the sheet can print it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from bolewright.bracing.crossed import (
    GROUND,
    footing_stiffness,
    in_series,
    modulus_in_soft_ground,
    post_foot_stiffness,
    rod_area,
    rod_braced_stiffness,
    rod_braced_stiffness_hinged,
    rod_length,
    rod_share,
    rod_share_hinged,
    rod_spring,
)
from bolewright.bracing.plan import PlanSpring
from bolewright.bracing.stiffness import (
    SOFT_FOOT,
    brace_stiffness,
    cantilever_stiffness,
    knee_braced_stiffness,
    knee_braced_stiffness_held,
    knee_force_ratio,
    knee_spring,
    knee_stiffness_with_beam,
    share_of_a_knee,
    soft_foot_stiffness,
    spring_of,
    tied_bolt_stiffness,
    trunk_share,
)
from bolewright.calculation import Calculation
from bolewright.platform.analysis.crossed import Rod
from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.analysis.knees import Knee
from bolewright.platform.analysis.lateral_supports import (
    Bed,
    BoltFrame,
    BraceFrame,
    Foot,
    LateralFrame,
    PostAxis,
    PostFrame,
    axes_of,
)
from bolewright.platform.analysis.trunk_sway import run_trunk
from bolewright.platform.layout.tees import FIXITY, SLIP_AT_RATING, UNRATED, knee_stiffness
from bolewright.timber.adjusted_values import adjusted_modulus
from bolewright.tree.embedment import (
    STEEL_MODULUS,
    bolt_drop,
    bolt_pressure,
    bolt_slope,
    characteristic_length,
    foundation_modulus_across,
)

Run = Callable[..., Any]
SOFTER_ACROSS = 10.0  # k_0 along the grain over that across it; judgement, engineer to confirm
ACROSS_NOTE = (
    "Across the grain the wood is taken ten times softer than along it: judgement, engineer to confirm."
)


def run_post_modulus(run: Run, frame: PostFrame) -> float:
    """Modulus of the post in service."""
    return float(run(adjusted_modulus, E=frame.values.E, **frame.factors.modulus))


def run_knee_stiffness(run: Run, knee: Knee) -> float:
    """Stiffness of a knee along itself."""
    return knee_stiffness(run, knee.brace)


def run_knee_with_beam(run: Run, axis: PostAxis, knee: Knee, foot: Foot) -> float:
    """Stiffness of a knee along itself with its beam, while the deck moves along that."""
    k_b = run_knee_stiffness(run, knee)
    give = axis.when_moved(foot)[axis.knees.index(knee)].give
    k_v = run(spring_of, P=1.0, delta=give)
    return float(run(knee_stiffness_with_beam, k_b=k_b, k_v=k_v, a=axis.a, r=axis.r))


def run_knee_share(run: Run, axis: PostAxis, knee: Knee, foot: Foot) -> float:
    """Share of a knee in the lateral force of all knees of its post in that direction; all of it where it is alone."""
    if axis.n == 1:
        return 1.0
    other = next(k for k in axis.knees if k is not knee)
    k_i, k_o = (run_knee_with_beam(Calculation().run, axis, k, foot) for k in (knee, other))
    return float(run(share_of_a_knee, k_i=k_i, k_o=k_o))


def run_knee_spring(run: Run, axis: PostAxis, foot: Foot) -> float:
    """Lateral stiffness of all knees of a post in one direction."""
    k_1, k_2 = (*(run_knee_with_beam(run, axis, knee, foot) for knee in axis.knees), 0.0)[:2]
    return float(run(knee_spring, k_1=k_1, k_2=k_2, a=axis.a, r=axis.r))


def run_knee_ratio(run: Run, frame: PostFrame, axis: PostAxis, E: float) -> float:
    """Force at the top over that at the knee, base fixed."""
    kappa = run_knee_spring(run, axis, Foot.HELD)
    return float(run(knee_force_ratio, E=E, I=frame.I, l=frame.h + FIXITY, a=axis.a, kappa=kappa))


def run_rod_spring(run: Run, rod: Rod, foot: Foot) -> float:
    """Lateral stiffness of a crossed rod with its ends and the post that it pulls at."""
    L_r = run(rod_length, L=rod.L, b=rod.b)
    A = run(rod_area, D=rod.rods.diameter)
    k_e = (rod.rods.rated_load or UNRATED) / SLIP_AT_RATING
    k_r = run(brace_stiffness, E=STEEL_MODULUS, A=A, L_b=L_r, k_e=k_e)
    E = run(adjusted_modulus, E=rod.values.E, **rod.factors.modulus)
    k_f = run(post_foot_stiffness, E=E, I=rod.I, l=rod.z + FIXITY)
    if foot is Foot.GIVES:
        k_f = run(in_series, k_p=k_f, k_g=run(footing_stiffness, n_h=GROUND, d=rod.depth, z=rod.z))
    return float(run(rod_spring, k_r=k_r, L=rod.L, L_r=L_r, k_f=k_f))


def run_rod_share(run: Run, frame: PostFrame, which: int, foot: Foot, pulled: Any) -> tuple[Any, Any]:
    """Share of the rod at a post's head in the lateral force on it, and the post's stiffness; arrays as ``pulled``.

    ``pulled``: whether the rod is stretched, in every case or as one value.
    """
    rod = frame.axes[which].rod
    assert rod is not None
    k_x = np.where(pulled, run_rod_spring(run, rod, foot), 0.0)
    E, d = run_post_modulus(run, frame), frame.arm(which)
    if frame.post.base != "fixed":
        q = np.where(pulled, run(rod_share_hinged, h=frame.h, d=d, c=rod.c), 0.0)
        k = run(
            rod_braced_stiffness_hinged,
            E=E,
            I=frame.I,
            h=frame.h,
            d=d,
            c=rod.c,
            q=np.where(q, q, 1.0),
            k_x=k_x,
        )
        return q, k
    if foot is Foot.GIVES:
        E = run(modulus_in_soft_ground, E=E, f=SOFT_FOOT)
    held = {"E": E, "I": frame.I, "l": frame.h + FIXITY, "d": d, "c": rod.c + FIXITY}
    q = run(rod_share, k_x=k_x, **held)
    return q, run(rod_braced_stiffness, q=q, **held)


def run_post_stiffness(run: Run, frame: PostFrame, which: int, foot: Foot, pulled: Any = False) -> Any:
    """Lateral stiffness of a post in one of its directions; as many as ``pulled`` where it has a rod that way."""
    axis = frame.axes[which]
    if axis.rod is not None:
        return run_rod_share(run, frame, which, foot, pulled)[1]
    held = frame.post.base == "fixed"
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
    kappa = run_knee_spring(run, axis, foot)
    return float(run(knee_braced_stiffness, E=E, I=frame.I, h=frame.h, a=axis.a, kappa=kappa))


def run_bolt_stiffness(run: Run, frame: BoltFrame, which: int, bed: Bed = Bed.ANY) -> float:
    """Lateral stiffness along (0) or across (1) a bolt; 0 where its bearing slides."""
    if not held_ways(frame.support.lateral)[which]:
        return 0.0
    bolt, e = frame.placed.bolt, frame.placed.e
    _, k_t = run_trunk(run, frame)
    if which == 0:
        return float(run(trunk_share, k_t=k_t, n=frame.others))
    k_0 = run(
        foundation_modulus_across, E_g=frame.wood.MOE, D=bolt.diameter, kappa=bed.kappa, n=SOFTER_ACROSS
    )
    D, L = bolt.diameter, bolt.embedment
    l_c = run(characteristic_length, k_0=k_0, D=D, D_r=D, E_s=STEEL_MODULUS)
    p_0 = run(bolt_pressure, P=1.0, e=e, L=L, D=D, l_c=l_c, x=0.0)
    theta_0 = run(bolt_slope, P=1.0, e=e, L=L, D=D, k_0=k_0, l_c=l_c)
    delta = run(bolt_drop, P=1.0, e=e, p_0=p_0, k_0=k_0, theta_0=theta_0, E_s=STEEL_MODULUS, D=D)
    k_d = run(spring_of, P=1.0, delta=delta)
    return float(run(tied_bolt_stiffness, k_d=k_d, k_t=k_t, n=frame.others))


def is_pulled(frame: LateralFrame, which: int, towards: Mapping[str, Any] | None) -> Any:
    """Whether the rod at a post's head in one of its directions is stretched; False where there is none."""
    rod = frame.axes[which].rod if isinstance(frame, PostFrame) else None
    if rod is None:
        return False
    return (1 if towards is None else towards[rod.rods.mark]) == rod.sense


def spring_of_frame(
    frame: LateralFrame, foot: Foot, towards: Mapping[str, int] | None = None, bed: Bed = Bed.ANY
) -> PlanSpring:
    """A support as a spring of the plan.

    ``towards``: which way the platform moves at each pair of crossed rods, by mark; None for the first to the second
    post of each.
    """
    run = Calculation().run
    if isinstance(frame, BraceFrame):
        k = [0.0, 0.0]
    elif isinstance(frame, PostFrame):
        k = [
            float(run_post_stiffness(run, frame, which, foot, is_pulled(frame, which, towards)))
            for which in (0, 1)
        ]
    else:
        k = [run_bolt_stiffness(run, frame, which, bed) for which in (0, 1)]
    return PlanSpring(*frame.support.at, axes_of(frame), np.array(k))
