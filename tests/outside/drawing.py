"""What the tests' model takes from the program: the file's numbers and where the layout put the members.

Nothing else crosses here. Weights and stiffness come from :mod:`outside.timber`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from shapely import Polygon

from outside import timber


@dataclass(frozen=True)
class Beam:
    """A joist or beam along its centre line; seats are (at, on what, where along that)."""

    mark: str
    start: np.ndarray
    u: np.ndarray
    length: float
    EI: float
    half: float
    weight: float  # lb/in
    decked: bool  # its top is level with the boards' underside
    joist: bool
    seats: tuple[tuple[float, str, float], ...]

    def at(self, x: float) -> np.ndarray:
        return self.start + x * self.u


@dataclass(frozen=True)
class Field:
    """A part of the deck with boards in one direction ``n``, square to ``u``: the joists', or at 45 degrees to it."""

    u: np.ndarray
    n: np.ndarray
    region: Polygon


@dataclass(frozen=True)
class Cover:
    """The shut cover of a hatch: a floor of its own across a hole, borne along it by a trimmer on either side."""

    at: np.ndarray
    length: float  # along the trimmers
    width: float
    trimmers: tuple[int, int]  # numbers of beams
    dead: float  # psi
    live: float  # and no less than one person on all of it
    snow: float


@dataclass(frozen=True)
class Hung:
    """A load at places of one beam, all of it at once: pounds down at each (minus lifts)."""

    kind: str  # dead, live or snow
    beam: int
    at: tuple[float, ...]  # along the beam
    down: float  # lb at each place


@dataclass(frozen=True)
class Drawing:
    beams: tuple[Beam, ...]  # each before all that it sits on
    supports: tuple[str, ...]
    fields: tuple[Field, ...]
    dead: float  # psi of deck area: boards and hardware
    live: float
    snow: float
    person: float
    guards: tuple[tuple[np.ndarray, np.ndarray, float], ...]  # from, to, lb/in
    areas: tuple[tuple[str, Polygon, float], ...]  # dead, live or snow; psi
    deck: Polygon
    board: float  # width of a board, in
    covers: tuple[Cover, ...] = ()
    hung: tuple[Hung, ...] = ()


def drawing_of(layout) -> Drawing:
    project = layout.project
    deck = Polygon(project.platform.outline, project.platform.openings)
    boards = project.decking
    thick, _ = timber.size(boards.section)
    under_boards = project.platform.floor_height - thick
    beams = []
    for m in layout.members:
        b, d = timber.size(m.timber.section)
        plies = getattr(m.timber, "plies", 1)
        E = timber.E_PSI[m.timber.species, m.timber.grade]
        rho = timber.weight_of(m.timber.species, m.timber.wet)
        beams.append(
            Beam(
                m.mark,
                np.array(m.line.start, float),
                np.array(m.line.u, float),
                m.line.length,
                E * plies * b * d**3 / 12,
                plies * b / 2,
                rho * plies * b * d / 1728,
                abs(m.top - under_boards) < 0.1,
                m.field != "",
                tuple((s.at, s.below, s.below_at) for s in m.seats),
            )
        )
    fields = []
    for f in project.joists:
        a = math.radians(f.direction)
        a -= {"square": 0.0, "diagonal left": math.pi / 4, "diagonal right": -math.pi / 4}[boards.direction]
        u = np.array([math.cos(a), math.sin(a)])
        region = deck if f.region is None else deck.intersection(Polygon(f.region))
        fields.append(Field(u, np.array([-u[1], u[0]]), region))
    outline = [np.array(p, float) for p in project.platform.outline]
    guards = [
        (outline[e - 1], outline[e % len(outline)], project.loads.guard / 12)
        for e in project.loads.guard_edges
    ]
    boards_psf = (
        boards.weight
        if boards.weight is not None
        else timber.weight_of(boards.species, boards.wet) * thick / 12
    )
    return Drawing(
        tuple(beams),
        tuple(s.mark for s in layout.supports),
        tuple(fields),
        (boards_psf + project.loads.hardware) / 144,
        project.loads.live / 144,
        project.site.ground_snow / 144,
        project.loads.person,
        tuple(guards),
        tuple((a.kind, Polygon(a.corners).intersection(deck), a.load / 144) for a in project.load_areas),
        deck,
        timber.size(boards.section)[1],
        tuple(_cover(project, beams, boards_psf)),
        tuple(_hung(project, beams)),
    )


def _hung(project, beams: list[Beam]) -> Iterator[Hung]:
    """Loads at places of joists and beams. A hammock bears half of its weight at each end, dropped into 2 (common
    practice) where the file says nothing else; a swing at the bottom of its way 3 - 2 cos a; both ropes of a sheave.
    """
    marks = [beam.mark for beam in beams]
    for load in project.point_loads:
        f = load.impact or {"hammock": 2.0, "pulley": 1.5}.get(load.form, 1.0)
        usual = {"swing": 90.0, "hanging chair": 60.0}.get(load.form, 0.0)
        share = {"hammock": 0.5, "pulley": 2.0}.get(load.form, 1.0)
        if usual:
            share = 3 - 2 * math.cos(math.radians(load.angle or usual))
        ends = [x for x in (load.along, load.other_end) if x is not None]
        if load.kind != "wind":
            down = f * (share * load.weight - load.up)
            yield Hung(load.kind, marks.index(load.member), tuple(ends), down)


def _cover(project, beams: list[Beam], boards: float) -> Iterator[Cover]:
    """Boards and a fourth of their weight more for battens and hardware (common practice), or what the file says."""
    hatch = project.hatch
    if hatch.at is None:
        return
    area = hatch.length * hatch.width
    dead = 1.25 * boards / 144 if hatch.cover_weight is None else hatch.cover_weight / area
    live = max(project.loads.live / 144, project.loads.person / area)
    marks = [beam.mark for beam in beams]
    trimmers = marks.index("HT1"), marks.index("HT2")
    yield Cover(
        np.array(hatch.at, float),
        hatch.length,
        hatch.width,
        trimmers,
        dead,
        live,
        project.site.ground_snow / 144,
    )
