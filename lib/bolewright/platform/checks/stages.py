"""Stages of building in which a part can fall over or give way before the platform is whole.

Beams before the joists, joists before the decking, posts before the knee braces: each with its own weight, one worker
anywhere on it, and the lateral push of one at its top, held only by what stands by then. A stage deck of 20 psf on
planks is no more than the live load that the finished frame is checked for, so it is not run again.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from bolewright.bracing.building import construction_push, push_with_arm, weight_left_by_worker
from bolewright.calculation import Calculation
from bolewright.ground.embedded_post import lateral_capacity_nonconstrained, lateral_pressure_third_depth
from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import PointLoad, SpreadLoad, UnitLoad
from bolewright.platform.analysis.embedded import embedded_depth
from bolewright.platform.checks.footings_lateral import soil_breadth
from bolewright.platform.checks.members import (
    MOST_SLENDER,
    Look,
    bending_capacity,
    look_at,
    run_slenderness,
)
from bolewright.platform.checks.rotation import Together, bearing_of, run_rotation
from bolewright.platform.checks.worker import CASE, WORKER, beams_alone, lifted_seats
from bolewright.platform.file.gussets import gusset_tie
from bolewright.platform.layout.layout import Bearing, Kind, Layout, Member, Seat
from bolewright.platform.layout.tees import stands_alone
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath, line_weight
from bolewright.platform.project import Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.adjustment import LoadDuration, load_duration_factor
from bolewright.timber.bending import bending_stress
from bolewright.timber.sections import parse_section
from bolewright.units import NONE, POUND, POUND_INCH, PSI

PUSH = "one worker's push"
BEND_NOTE = (
    "Nothing but its seats holds a beam's edge in compression, before its joists are on; a joist is held by its seats "
    "and by boards tacked across all joists in the middle of every span, and shares no load with them. One worker of "
    "300 lb stands anywhere on it, C_D = 1.25 (NDS 2018, Table 2.3.2, construction)."
)
TEE_NOTE = (
    "The knees of a beam on one post are bolted before anyone stands on it, and props hold it until then; a worker "
    "stands at the end of its longer arm, and its post alone holds that."
)
SLENDER_NOTE = (
    "Before the joists are on, the edge of a beam is held at its seats only; the edge of a joist is held at its seats "
    "and by boards tacked across all joists in the middle of every span."
)
ROTATION_NOTE = (
    "A worker's push comes in at the top, and his weight on the edge that it turns about holds nothing; the weight of "
    "the beams on the seat, less what he lifts of it from the beam's end, and a tie on the side that lifts do. Joists "
    "that hold it upright later are not on yet."
)
POST_NOTE = (
    "A worker pushes at the post's top while it stands in its concrete, cured, and nothing else holds it."
)


def stage_checks(path: LoadPath) -> list[Check]:
    """Checks of the states on the way that can fall over."""
    layout = path.layout
    beams = layout.beams
    return [
        *_bending(path, beams, "beam", "before its joists are on"),
        *_bending(path, layout.joists, "joist", "before the decking is on"),
        *(check for beam in beams for check in _rotation(path, beam)),
        *(check for support in layout.supports for check in _post(path, support)),
    ]


def _bending(path: LoadPath, members: Sequence[Member], kind: str, when: str) -> list[Check]:
    """Bending of members by a worker, and their slenderness while nothing but seats holds their edges."""
    if not members:
        return []
    looks = [look_at(path, member, repetitive=False) for member in members]
    alone = beams_alone(path)
    M = np.array([[_moment(path, look, alone)] for look in looks])
    l_u = np.array([[_free(member)] for member in members])
    calculation, slender = Calculation(M.shape), Calculation(M.shape)
    F_b_p = bending_capacity(calculation.run, looks, l_u, C_D=_duration())
    S = np.array([[member.section.S] for member in members])
    f_b = calculation.run(bending_stress, M=M, S=S)
    marks = [member.mark for member in members]
    return [
        *judge(
            calculation,
            marks,
            [CASE],
            key=f"{kind}.stage_bending",
            demand=f_b,
            capacity=F_b_p,
            unit=PSI,
            says=f"bending {when}",
            notes=(BEND_NOTE, TEE_NOTE) if any(stands_alone(m) for m in members) else (BEND_NOTE,),
        ),
        *judge(
            slender,
            marks,
            ["any"],
            key=f"{kind}.stage_slenderness",
            demand=run_slenderness(slender.run, looks, l_u),
            capacity=MOST_SLENDER,
            unit=NONE,
            says=f"its slenderness ratio {when}",
            notes=(SLENDER_NOTE,),
        ),
    ]


def _duration() -> float:
    return load_duration_factor(LoadDuration.SEVEN_DAYS)


def _free(member: Member) -> float:
    """Greatest length over which nothing holds the edges (in): between seats or past the last one.

    The boards tacked across the joists halve what is between their seats.
    """
    seats = [seat.at for seat in member.seats]
    if member.kind is Kind.JOIST:
        seats += [(a + b) / 2 for a, b in pairwise(seats)]
    return max(b - a for a, b in pairwise(sorted({0.0, *seats, member.line.length})))


def _moment(path: LoadPath, look: Look, alone: Array) -> float:
    """Greatest moment, either way, by what weighs on it by then and one worker anywhere on it (lb·in).

    On one post a beam is a cantilever both ways, as its knees may have slack: the other arm holds nothing.
    """
    member, effects, length = look.member, look.effects, look.member.line.length
    if stands_alone(member):
        return _moment_of_arm(path, member, alone)
    above = alone.copy()
    above[len(path.panels) + path.layout.members.index(member)] = 0.0  # its own weight is laid on below
    stations = effects.stations
    beam = Beam(length, tuple(seat.at for seat in member.seats), effects.values.E * member.section.I)
    loads: list[UnitLoad] = [SpreadLoad(0.0, length), *(PointLoad(float(x)) for x in stations)]
    moment = respond(beam, loads, stations).moment
    weight = effects.moment @ above + moment[:, 0] * line_weight(member) * length
    worker = moment[:, 1:] * WORKER
    sagging = weight + worker.max(axis=1, initial=0.0)
    hogging = -weight - worker.min(axis=1, initial=0.0)
    return float(max(sagging.max(), hogging.max(), 0.0))


def _moment_of_arm(path: LoadPath, member: Member, alone: Array) -> float:
    """Moment over the post of a T-frame: a worker at the end of the longer arm, and what is on that arm (lb·in)."""
    arm = _arm(member)
    w = line_weight(member)
    own = path.layout.members.index(member)
    others = alone.copy()
    others[len(path.panels) + own] = 0.0
    hung = np.abs(path.effects[member.mark].moment @ others).max(initial=0.0)
    return WORKER * arm + w * arm**2 / 2 + float(hung)


def _arm(member: Member) -> float:
    """The longer arm of a beam on one post (in)."""
    return max(member.seats[0].at, member.line.length - member.seats[0].at)


@dataclass(frozen=True)
class _Seated:
    """A beam on one seat, pushed at its top: the moments that turn it over and hold it, and whether a tie is named."""

    at: str
    on_post: bool
    calculation: Calculation
    V: float
    M_r: float
    M_a: float
    tied: bool

    @property
    def loose(self) -> bool:
        """Whether its weight alone does not hold it, and the file names no tie."""
        return not self.tied and self.M_a < self.M_r


def _rotation(path: LoadPath, beam: Member) -> list[Check]:
    """A beam pushed at its top before joists hold it, on each of its seats; where it hangs, its hanger holds it."""
    seats = [s for s in beam.seats if s.bearing is not Bearing.HANGS and not _crossed(path.layout, beam, s)]
    return [_rotation_at(beam, _seated(path, beam, seat)) for seat in seats]


def _rotation_at(beam: Member, seated: _Seated) -> Check:
    if seated.loose:
        post = " of the post, or nail a gusset to each side" if seated.on_post else ""
        reason = (
            f"{beam.mark} is {beam.section.d:g} in. tall and {beam.width:g} in. wide, and until its joists are on a "
            f"worker's push of {seated.V:.0f} lb at its top turns it over on {seated.at}: its weight holds "
            f"{seated.M_a:,.0f} of {seated.M_r:,.0f} lb·in. Tie each side down before it is let go and enter the tie's "
            f"rated load as rotation_tie{post}."
        )
        return not_checked(beam.mark, "beam.stage_rotation", reason, at=seated.at)
    return judge(
        seated.calculation,
        [beam.mark],
        [PUSH],
        key="beam.stage_rotation",
        at=seated.at,
        demand=seated.M_r,
        capacity=seated.M_a,
        unit=POUND_INCH,
        says=f"overturning on {seated.at} by a worker's push",
        notes=(ROTATION_NOTE,),
    )[0]


def _seated(path: LoadPath, beam: Member, seat: Seat) -> _Seated:
    calculation = Calculation((1, 1))
    run = calculation.run
    R = _weight_on(path, beam, seat)
    V = run(construction_push, n=1.0, W=R + WORKER)
    lifted = [] if stands_alone(beam) else lifted_seats(path, beam, beams_alone(path))
    r = lifted[beam.seats.index(seat)].share if lifted else 0.0
    if r > 0:
        R = float(run(weight_left_by_worker, R=R, W=WORKER, r=r))
    support = next(
        (s for s in path.layout.supports if s.mark == seat.below and s.kind == SupportKind.POST), None
    )
    tie, tied = _side_tie(path, beam, support, calculation)
    alone = Together(np.zeros(1), np.full(1, R))
    at = bearing_of(path, beam, seat)
    M_r, M_a = run_rotation(calculation, path, at, np.full((1, 1), V), alone, np.full((1, 1), R), tie)
    return _Seated(
        seat.below, support is not None, calculation, float(V), float(M_r[0, 0]), float(M_a[0, 0]), tied
    )


def _crossed(layout: Layout, beam: Member, seat: Seat) -> bool:
    """Whether another beam meets this one over the seat at an angle: each keeps the other upright."""
    return any(
        other.mark != beam.mark
        and other.line.sine(beam.line) > _ACROSS
        and math.dist(beside.point, seat.point) < _MEETS
        for other, beside in layout.on_support(seat.below)
    )


_MEETS = 6.0  # in: beams that sit nearer than this on one seat meet there
_ACROSS = 0.5  # sine of 30 degrees: a beam at less of an angle turns over with the other


def _weight_on(path: LoadPath, beam: Member, seat: Seat) -> float:
    """Least weight on a seat when all beams are on and nothing else: their own (lb)."""
    row = path.effects[beam.mark].reactions[beam.seats.index(seat)]
    return max(0.0, float(row @ beams_alone(path)))


def _side_tie(
    path: LoadPath, beam: Member, support: Support | None, calculation: Calculation
) -> tuple[float, bool]:
    """Rated load of what ties each side of a beam down, on a post or elsewhere (lb), and whether any is named."""
    if support is None:
        rated = getattr(beam.timber, "rotation_tie", None)
        return rated or 0.0, rated is not None
    post = path.layout.project.posts[support.post or ""]
    if post.gusset is not None:
        return float(np.min(gusset_tie(post, np.array([_duration()]), calculation))), True
    return post.rotation_tie or 0.0, post.rotation_tie is not None


def _post(path: LoadPath, support: Support) -> list[Check]:
    """A post in its cured concrete before knee braces and beams tie it to the others; only one held in the ground."""
    project = path.layout.project
    kind = project.posts.get(support.post or "")
    if support.kind != SupportKind.POST or kind is None or kind.base != "fixed":
        return []
    footing = project.footings[support.footing or ""]
    calculation = Calculation((1, 1))
    run = calculation.run
    weight = float(path.seat_force(support.mark)[: path.first_spot] @ path.dead[: path.first_spot])
    P = run(construction_push, n=1.0, W=max(weight, 0.0) + WORKER)
    h = path.layout.seat_level(support.mark)
    alone = [m for m, _ in path.layout.on_support(support.mark) if stands_alone(m)]
    if alone:
        P = run(push_with_arm, P=P, W=WORKER, a=_arm(alone[0]), h=h)
    d = embedded_depth(footing) / 12
    S = project.site.soil.values.lateral
    S_1 = run(lateral_pressure_third_depth, S=S, d=d, m=2.0 if kind.doubled else 1.0)
    b = soil_breadth(footing, parse_section(kind.section))
    P_a = run(lateral_capacity_nonconstrained, S_1=S_1, b=b, d=d, h=h / 12)
    return judge(
        calculation,
        [support.mark],
        [PUSH],
        key="post.stage_alone",
        demand=P,
        capacity=P_a,
        unit=POUND,
        says="a worker's push at its top before it is braced",
        notes=(POST_NOTE, TEE_NOTE) if alone else (POST_NOTE,),
    )
