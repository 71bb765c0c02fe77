"""Knee braces in place: which post and beam they join, what their brace reaction does to the beam and its supports."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import PointLoad
from bolewright.platform.layout.brace_bolts import BraceBolts, brace_bolts
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.parts import LayoutError, Member
from bolewright.platform.layout.tees import stands_alone
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath, member_values
from bolewright.platform.project import Brace
from bolewright.timber.adjusted_values import adjusted_modulus
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section, parse_section
from bolewright.units import feet_inches

LEAST_FOOT = 12.0  # in: a knee lower than this above grade braces nothing


@dataclass(frozen=True)
class Knee:
    """A knee brace in place.

    ``side`` is 1 towards the beam's end, -1 towards its start; ``at`` is where it meets the beam, ``own``
    the place of its post along it; ``h`` the height of the beam's underside above grade (in); ``bolts`` those of
    a lapped one.
    """

    brace: Brace
    beam: Member
    side: int
    own: float
    at: float
    h: float
    section: Section
    values: DesignValues
    factors: Factors
    bolts: BraceBolts | None


@dataclass(frozen=True)
class BraceReactions:
    """What one pound down on a beam at each of its knees does (a column for each knee).

    ``moment`` and the shears at the stations of the load path's effects, ``deflection`` at the knees (in), ``supports``
    the load it puts on every support (lb), in the order of the layout.
    """

    beam: Member
    knees: tuple[Knee, ...]
    moment: Array
    shear_left: Array
    shear_right: Array
    deflection: Array
    supports: Array


def find_knees(layout: Layout) -> tuple[Knee, ...]:
    """All knee braces. Raises :class:`LayoutError` for one that meets nothing."""
    return tuple(_knee(layout, brace) for brace in layout.project.braces)


def _knee(layout: Layout, brace: Brace) -> Knee:
    seat = next(((m, s) for m, s in layout.on_support(brace.support) if m.mark == brace.beam), None)
    if seat is None:
        raise LayoutError(
            f"Brace {brace.mark} meets nothing: beam {brace.beam} does not rest on post {brace.support}."
        )
    beam, own = seat[0], seat[1].at
    side = 1 if brace.towards == "end" else -1
    at = own + side * brace.run
    if not 0 <= at <= beam.line.length:
        left = beam.line.length - own if side > 0 else own
        raise LayoutError(
            f"Brace {brace.mark} meets nothing: its run of {feet_inches(brace.run)} goes past the {brace.towards} of "
            f"{beam.mark}, which is {feet_inches(left)} from post {brace.support}."
        )
    if brace.rise > beam.bottom - LEAST_FOOT:
        raise LayoutError(
            f"Brace {brace.mark} has a rise of {feet_inches(brace.rise)}: under {beam.mark} at most "
            f"{feet_inches(beam.bottom - LEAST_FOOT)} is left above grade."
        )
    if any(abs(s.at - at) < 3 for s in beam.seats):
        raise LayoutError(
            f"Brace {brace.mark} meets {beam.mark} right over another support: shorten its run."
        )
    section = parse_section(brace.section)
    values = brace.values(section)
    return Knee(
        brace=brace,
        beam=beam,
        side=side,
        own=own,
        at=at,
        h=beam.bottom,
        section=section,
        values=values,
        factors=factors(values, Service(wet=brace.wet, incised=brace.counts_incised)),
        bolts=brace_bolts(layout, brace),
    )


def find_brace_reactions(path: LoadPath, knees: tuple[Knee, ...]) -> dict[str, BraceReactions]:
    """Effect of the brace reactions on every beam that has knees, by its mark; not in a T-frame, where they are
    statics.
    """
    marks = dict.fromkeys(knee.beam.mark for knee in knees if not stands_alone(knee.beam))
    return {mark: _brace_reactions(path, tuple(k for k in knees if k.beam.mark == mark)) for mark in marks}


def _brace_reactions(path: LoadPath, knees: tuple[Knee, ...]) -> BraceReactions:
    beam = knees[0].beam
    effects = path.effects[beam.mark]
    places = [knee.at for knee in knees]
    stations = np.concatenate([effects.stations, places])
    span = Beam(beam.line.length, tuple(s.at for s in beam.seats), beam_modulus(beam) * beam.section.I)
    found = respond(span, [PointLoad(at) for at in places], stations)
    own = effects.stations.size
    supports = np.zeros((len(path.layout.supports), len(knees)))
    for i, seat in enumerate(beam.seats):
        deliver_down(path, supports, seat.below, seat.below_at, found.reactions[i])
    return BraceReactions(
        beam=beam,
        knees=knees,
        moment=found.moment[:own],
        shear_left=found.shear_left[:own],
        shear_right=found.shear_right[:own],
        deflection=found.deflection[own:],
        supports=supports,
    )


def deliver_down(path: LoadPath, supports: Array, below: str, at: float, load: Array) -> None:
    """Pass a load down to the supports, through any beams on the way."""
    marks = [s.mark for s in path.layout.supports]
    if below in marks:
        supports[marks.index(below)] += load
        return
    member = path.layout.member(below)
    span = Beam(member.line.length, tuple(s.at for s in member.seats), 1.0)
    reactions = respond(span, [PointLoad(at)], [at]).reactions[:, 0]
    for seat, share in zip(member.seats, reactions, strict=True):
        deliver_down(path, supports, seat.below, seat.below_at, load * share)


def beam_modulus(beam: Member) -> float:
    """Modulus of elasticity of a beam in service (psi)."""
    values = member_values(beam)
    timber = beam.timber
    return float(
        adjusted_modulus(
            E=values.E, **factors(values, Service(timber.wet, incised=timber.counts_incised)).modulus
        )
    )
