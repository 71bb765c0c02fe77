"""Supports as level springs: posts with and without knees, foot held or hinged, and bolts tied to a stem.

Each support has two directions at a right angle: a post along and across the carrier on it, a tree bolt along
and across itself. Every number is run through a :class:`Calculation`, so that the sheet can print it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

import numpy as np

from bolewright.bracing.plan import PlanSpring
from bolewright.bracing.stiffness import (
    brace_stiffness,
    cantilever_stiffness,
    knee_braced_stiffness,
    knee_braced_stiffness_held,
    knee_force_ratio,
    knee_spring,
    spring_of,
    tied_bolt_stiffness,
)
from bolewright.calculation import Calculation
from bolewright.platform.checks.posts import FIXITY, post_timber
from bolewright.platform.checks.tree_bolts import BoltInPlace, bolt_in_place
from bolewright.platform.combine import Array
from bolewright.platform.knees import Kicks, Knee
from bolewright.platform.load_path import LoadPath
from bolewright.platform.parts import LayoutError
from bolewright.platform.project import Post, Support, Tree
from bolewright.timber.adjusted_values import adjusted_modulus
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section
from bolewright.tree.embedment import (
    STEEL_MODULUS,
    bolt_drop,
    bolt_pressure,
    bolt_slope,
    characteristic_length,
    foundation_modulus,
)
from bolewright.tree.seating import sound_radius
from bolewright.tree.species import StemWood, stem_wood
from bolewright.tree.sway import (
    crown_wind_force,
    stem_second_moment,
    stem_stiffness,
    sway_from_crown_wind,
    sway_linear,
    sway_quadratic,
)

Run = Callable[..., Any]
KAPPA_ACROSS = (
    100.0  # E along the grain over k_0 D across it: ten times softer; judgement, engineer to confirm
)
LEVEL_WIND = math.sqrt(0.6)  # the wind of 0.6 W: strength wind speed times this
SURE = 2.0  # an estimate of sway is uncertain by a factor of two, and doubled
ACROSS_NOTE = (
    "Across the grain the wood is taken ten times softer than along it: judgement, engineer to confirm."
)
SQUARE = 0.985  # sine: knees in two directions of a post stand square to each other, within 10 degrees


class Foot(StrEnum):
    """How the feet of knee-braced posts are taken."""

    HELD = "feet held in the ground"
    HINGED = "feet hinged at grade"


@dataclass(frozen=True)
class PostAxis:
    """One direction of a post: its knees (none: a cantilever), rise and run, and the carrier's stiffness.

    ``k_v`` is the carrier's stiffness against the post's knees while all knees under it kick alike.
    """

    knees: tuple[Knee, ...]
    a: float = 0.0
    r: float = 0.0
    k_v: float = 0.0

    @property
    def n(self) -> int:
        """How many knees."""
        return len(self.knees)


@dataclass(frozen=True)
class PostFrame:
    """A post as a level support; ``u`` is the direction of the carrier on it."""

    support: Support
    post: Post
    section: Section
    values: DesignValues
    factors: Factors
    h: float
    u: tuple[float, float]
    axes: tuple[PostAxis, PostAxis]

    @property
    def I(self) -> float:  # noqa: E743
        """Least second moment of the section (in⁴), taken for both directions."""
        b, d = sorted((self.section.b, self.section.d))
        return d * b**3 / 12

    @property
    def S(self) -> float:
        """Least section modulus (in³), taken for both directions."""
        b, d = sorted((self.section.b, self.section.d))
        return d * b**2 / 6

    @property
    def braced(self) -> bool:
        """Whether it has a knee."""
        return any(axis.n for axis in self.axes)


@dataclass(frozen=True)
class BoltFrame:
    """A tree bolt as a level support."""

    placed: BoltInPlace
    tree: Tree
    wood: StemWood
    level: float
    others: int

    @property
    def support(self) -> Support:
        """The support."""
        return self.placed.support

    @property
    def u(self) -> tuple[float, float]:
        """Direction along the bolt, outward from the stem."""
        (x, y), (X, Y) = self.support.at, self.tree.at
        return ((x - X) / self.placed.x_b, (y - Y) / self.placed.x_b)


LevelFrame = PostFrame | BoltFrame


def axes_of(frame: LevelFrame) -> Array:
    """The two unit directions of a support, as rows."""
    x, y = frame.u
    return np.array([(x, y), (-y, x)])


# ---------------------------------------------------------------------------------------------------------
# Posts


def post_frame(path: LoadPath, support: Support, kicks: dict[str, Kicks]) -> PostFrame:
    """A post with its knees. Raises :class:`LayoutError` where its knees do not fit one another."""
    carrier = path.layout.on_support(support.mark)[0][0]
    knees = [k for found in kicks.values() for k in found.knees if k.brace.support == support.mark]
    u = knees[0].carrier.line.u if knees else carrier.line.u
    along = tuple(k for k in knees if k.carrier.mark == (knees[0].carrier.mark))
    across = tuple(k for k in knees if k not in along)
    for knee in across:
        if abs(u[0] * knee.carrier.line.u[1] - u[1] * knee.carrier.line.u[0]) < SQUARE:
            raise LayoutError(
                f"Brace {knee.brace.mark} and {along[0].brace.mark} on post {support.mark} do not stand square to each "
                "other: give this post knees in one direction only."
            )
    post = path.layout.project.posts[support.post or ""]
    section, values = post_timber(path, support)
    return PostFrame(
        support=support,
        post=post,
        section=section,
        values=values,
        factors=factors(values, Service(wet=post.wet, incised=post.incised)),
        h=path.layout.seat_level(support.mark),
        u=u,
        axes=(_post_axis(support, along, kicks), _post_axis(support, across, kicks)),
    )


def _post_axis(support: Support, knees: tuple[Knee, ...], kicks: dict[str, Kicks]) -> PostAxis:
    if not knees:
        return PostAxis(())
    first = knees[0].brace
    if any((k.brace.rise, k.brace.run) != (first.rise, first.run) for k in knees):
        raise LayoutError(
            f"The knees of post {support.mark} differ in rise or run: give both sides of the post the same."
        )
    if len({k.side for k in knees}) != len(knees):
        raise LayoutError(
            f"Post {support.mark} has two knees on one side: give one, with two plies if need be."
        )
    found = kicks[knees[0].carrier.mark]
    own = [found.knees.index(k) for k in knees]
    signs = np.array([k.side for k in found.knees])
    give = float(signs[own] @ found.sag[own] @ signs)
    return PostAxis(knees, first.rise, first.run, 1 / max(give, 1e-12))


def run_post_modulus(run: Run, frame: PostFrame) -> float:
    """Modulus of the post in service."""
    return float(run(adjusted_modulus, E=frame.values.E, **frame.factors.modulus))


def run_knee_stiffness(run: Run, knee: Knee) -> float:
    """Stiffness of a knee along itself."""
    E_p = run(adjusted_modulus, E=knee.values.E, **knee.factors.modulus)
    length = math.hypot(knee.brace.rise, knee.brace.run)
    return float(
        run(brace_stiffness, E=E_p, A=knee.section.A * knee.brace.plies, L_b=length, k_e=knee.end_stiffness)
    )


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
        return float(run(cantilever_stiffness, E=E, I=frame.I, l=l))
    if held and foot is Foot.HELD:
        rho = run_knee_ratio(run, frame, axis, E)
        return float(run(knee_braced_stiffness_held, E=E, I=frame.I, l=l, a=axis.a, rho=rho))
    kappa = run_knee_spring(run, axis)
    return float(run(knee_braced_stiffness, E=E, I=frame.I, h=frame.h, a=axis.a, kappa=kappa))


# ---------------------------------------------------------------------------------------------------------
# Tree bolts


def bolt_frame(path: LoadPath, support: Support) -> BoltFrame:
    """A tree bolt with its stem, and how many bolts share the stem."""
    placed = bolt_in_place(path, support)
    others = [s for s in path.layout.supports if s.tree == support.tree and s.sideways in ("tied", "slides")]
    level = path.layout.seat_level(support.mark)
    return BoltFrame(placed, placed.tree, placed.wood, level, max(1, len(others)))


def run_stem(run: Run, frame: BoltFrame) -> tuple[float, float]:
    """Radius of sound wood (in) and level stiffness of the stem at the bolts (lb/in)."""
    r = float(run(sound_radius, C=frame.placed.girth, t_b=frame.tree.bark, t_d=0.0))
    I = run(stem_second_moment, d=2 * r)
    return r, float(run(stem_stiffness, E_g=frame.wood.MOE, I=I, z=frame.level))


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


def run_sway(run: Run, path: LoadPath, tree: Tree, level: float) -> float | None:
    """Sway of the stem to one side at a level: from what was seen, else from crown wind, doubled; None unknown."""
    if tree.sway_seen is not None:
        seen_at = tree.sway_seen_at if tree.sway_seen_at is not None else level
        law = sway_linear if level <= seen_at else sway_quadratic
        return float(run(law, s_o=tree.sway_seen, z=level, z_o=seen_at))
    if tree.crown_area is None or tree.crown_center is None:
        return None
    return SURE * run_crown_sway(run, path, tree, level)


def run_crown_force(run: Run, path: LoadPath, tree: Tree) -> float:
    """Force of the wind of 0.6 W on the crown."""
    V = path.layout.project.site.wind_speed * LEVEL_WIND
    return float(run(crown_wind_force, V=V, C_w=tree.crown_drag, A_c=tree.crown_area or 0.0))


def run_crown_sway(run: Run, path: LoadPath, tree: Tree, level: float) -> float:
    """Sway at a level by bending of the stem under crown wind."""
    girth = tree.girth if tree.girth is not None else math.pi * float(tree.diameter or 0.0)
    r = run(sound_radius, C=girth, t_b=tree.bark, t_d=0.0)
    F_c = run_crown_force(run, path, tree)
    return float(
        run(
            sway_from_crown_wind,
            F_c=F_c,
            z_c=tree.crown_center or 0.0,
            z=level,
            E_g=stem_wood(tree.species).MOE,
            I=run(stem_second_moment, d=2 * r),
        )
    )


# ---------------------------------------------------------------------------------------------------------


def spring_of_frame(frame: LevelFrame, foot: Foot) -> PlanSpring:
    """A support as a spring of the plan."""
    run = Calculation().run
    if isinstance(frame, PostFrame):
        k = [run_post_stiffness(run, frame, which, foot) for which in (0, 1)]
    else:
        k = [run_bolt_stiffness(run, frame, which) for which in (0, 1)]
    return PlanSpring(*frame.support.at, axes_of(frame), np.array(k))
