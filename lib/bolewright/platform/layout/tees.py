"""T-frames: a beam on one post alone, which two knees of this post keep from tipping.

Their statics is :mod:`bolewright.bracing.tee`.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from bolewright.bracing.joint_slip import joint_stiffness
from bolewright.bracing.stiffness import brace_stiffness, spring_of
from bolewright.bracing.tee import tee_knee_turn, tee_post_turn
from bolewright.fasteners.group_action import slip_modulus_wood
from bolewright.platform.layout.parts import Layout, LayoutError, Member
from bolewright.platform.project import Brace, Post, Project
from bolewright.timber.adjusted_values import adjusted_modulus
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.sections import parse_section

Run = Callable[..., Any]
PAST = 0.01  # in: just past a place
FIXITY = 12.0  # in below grade at which a post in concrete is held
UNRATED = 1000.0  # lb: rating by which the slip of ends without a rating is taken
SLIP_AT_RATING = 0.0625  # in, slip of an end at its rated load; judgement
LEAN_NOTE = "The deflection of the beam's ends counts how far it turns on its post, as post and knees give."
TEE_NOTE = (
    "The beam stands on one post: the foot of this post alone keeps it from tipping. Weight on both arms is taken "
    "both ways: all on the cap (the beam's bending, the cap), and all on the knees (the greatest compression in them)."
)


@dataclass(frozen=True)
class Tee:
    """A beam on one post, with its two knees, towards its start and its end; ``own`` the post's place along it."""

    beam: Member
    mark: str
    post: Post
    own: float
    knees: tuple[Brace, Brace]

    @property
    def a(self) -> float:
        """Rise of the knees (in)."""
        return self.knees[0].rise

    @property
    def runs(self) -> tuple[float, float]:
        """Runs of the knees, towards the beam's start and its end (in)."""
        return self.knees[0].run, self.knees[1].run

    @property
    def places(self) -> tuple[float, float]:
        """Where the knees meet the beam (in along it)."""
        return self.own - self.knees[0].run, self.own + self.knees[1].run

    @property
    def looked_at(self) -> tuple[float, ...]:
        """Where the beam is looked at: at the knees, and just past the post, where lateral force turns it (in)."""
        return *self.places, self.own + PAST

    @property
    def h(self) -> float:
        """Height of the post's top above grade (in)."""
        return self.beam.bottom


def stands_alone(member: Member) -> bool:
    """Whether a beam stands on one post alone."""
    return len(member.seats) == 1


def tee_of(project: Project, beam: Member) -> Tee:
    """The T-frame of a beam that stands on one post alone."""
    seat = beam.seats[0]
    support = next(s for s in project.supports if s.mark == seat.below)
    own = {b.towards: b for b in project.braces if b.support == seat.below and b.beam == beam.mark}
    return Tee(beam, seat.below, project.posts[support.post or ""], seat.at, (own["start"], own["end"]))


def find_tees(layout: Layout) -> tuple[Tee, ...]:
    """All T-frames of a layout."""
    return tuple(tee_of(layout.project, c) for c in layout.beams if stands_alone(c))


def check_tee(project: Project, beam: str, below: str) -> bool:
    """Whether a beam that has one support stands on a post with knees both ways.

    Raises :class:`LayoutError` for such knees that cannot hold it.
    """
    knees = [b for b in project.braces if b.support == below and b.beam == beam]
    support = next((s for s in project.supports if s.mark == below), None)
    if support is None or {b.towards for b in knees} != {"start", "end"}:
        return False
    if len(knees) != 2 or knees[0].rise != knees[1].rise:
        raise LayoutError(
            f"Beam {beam} stands on {below} alone, so one knee each way keeps it from tipping: give {below} two "
            "knees under it, of one rise (their runs may differ)."
        )
    if any(b.support == below and b.beam != beam for b in project.braces):
        raise LayoutError(f"Beam {beam} stands on {below} alone: give {below} no knees under another beam.")
    if project.posts[support.post or ""].base != "fixed":
        raise LayoutError(
            f"Beam {beam} stands on {below} alone, and its foot is not held: a single post under a beam must "
            'be held in the ground (base = "fixed" of its kind of post), or the beam needs a second support.'
        )
    return True


def end_stiffness(run: Run, brace: Brace) -> float:
    """Stiffness of one end connection of a knee (lb/in): its bolts' slip modulus, or its rating over a usual slip."""
    if brace.bolts is not None and brace.bolt_diameter is not None:
        gamma = run(slip_modulus_wood, D=brace.bolt_diameter)
        return float(run(joint_stiffness, n=float(brace.plies * brace.bolts), gamma=gamma))
    return float(run(spring_of, P=brace.rated_load or UNRATED, delta=SLIP_AT_RATING))


def knee_stiffness(run: Run, brace: Brace) -> float:
    """Stiffness of a knee along itself (lb/in)."""
    section = parse_section(brace.section)
    values = brace.values(section)
    E_p = run(
        adjusted_modulus,
        E=values.E,
        **factors(values, Service(brace.wet, incised=brace.counts_incised)).modulus,
    )
    length = math.hypot(brace.rise, brace.run)
    k_e = end_stiffness(run, brace)
    return float(run(brace_stiffness, E=E_p, A=section.A * brace.plies, L_b=length, k_e=k_e))


def post_bending(run: Run, tee: Tee) -> tuple[float, float]:
    """Modulus in service (psi) and least second moment (in⁴) of a T-frame's post."""
    section = parse_section(tee.post.section)
    values = tee.post.values(section)
    service = Service(wet=tee.post.wet, incised=tee.post.counts_incised)
    E_p = run(adjusted_modulus, E=values.E, **factors(values, service).modulus)
    b, d = sorted((section.b, section.d))
    return float(E_p), d * b**3 / 12


def run_turn(run: Run, tee: Tee, M_h: Any) -> Any:
    """Turn of the beam on its post from a moment of weight about the post (radians)."""
    E, I = post_bending(run, tee)
    theta_h = run(tee_post_turn, M_h=M_h, E=E, I=I, l=tee.h + FIXITY, a=tee.a)
    r_1, r_2 = tee.runs
    k_1, k_2 = (knee_stiffness(run, knee) for knee in tee.knees)
    return theta_h + run(tee_knee_turn, M_h=M_h, r_1=r_1, r_2=r_2, a=tee.a, k_1=k_1, k_2=k_2)
