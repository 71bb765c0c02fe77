"""What the questions stand on: one person tried all over the deck, and moments about an axis of the plan."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from shapely import Point as PlanPoint

from bolewright.calculation import Calculation
from bolewright.mechanics.lever import moment_of_force, moments_left_over
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.tees import find_tees
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.platform.tracing.tracing import Person, Trace, Tracer
from bolewright.platform.tracing.tracing_burden import nearest_on_deck
from bolewright.rendering.blocks import Block, Figure, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.printing import printed
from bolewright.units import feet_inches
from bolewright.workbook.explorer_bodies import Force, free_body
from bolewright.workbook.questions import NoQuestion

GRID = 11
_STRAIGHT = 0.05  # in: a burden that moved less than this on its way to the members counts as where it stands


@dataclass(frozen=True)
class Ground:
    """The open platform, with a person tried at every place of a grid."""

    results: Results
    weight: float

    @cached_property
    def tracer(self) -> Tracer:
        """Follows burdens over the platform."""
        return Tracer(self.results.path)

    @cached_property
    def marks(self) -> tuple[str, ...]:
        """Marks of the supports."""
        return tuple(s.mark for s in self.results.path.layout.supports)

    @cached_property
    def places(self) -> dict[str, Vector]:
        """Where each support's reaction acts, in plan; and the knees of a T-frame's beam."""
        found = {}
        for tee in find_tees(self.results.path.layout):
            for knee, at in zip(tee.knees, tee.places, strict=True):
                found[knee.mark] = tee.beam.line.at(at)
        for mark in self.marks:
            held = self.results.path.layout.on_support(mark)
            if not held:
                raise NoQuestion(
                    f"{mark} carries knee braces, no member of its own: this question wants supports that members "
                    "lie on."
                )
            member, seat = held[0]
            found[mark] = member.line.at(seat.at)
        return found

    @cached_property
    def tried(self) -> tuple[Trace, ...]:
        """One person at each place of a grid over the deck, where boards carry them straight down."""
        deck = self.results.path.layout.deck
        west, south, east, north = deck.bounds
        traces = []
        for y in np.linspace(south, north, GRID + 2)[1:-1]:
            for x in np.linspace(west, east, GRID + 2)[1:-1]:
                place = (_whole(x), _whole(y))
                if deck.buffer(-2.0).contains(PlanPoint(place)):
                    traces.append(self.tracer.trace(Person(place, self.weight)))
        return tuple(t for t in traces if t.aside < _STRAIGHT)

    def couple(self, trace: Trace) -> dict[str, float]:
        """Upright forces of knees that keep a beam on one post from tipping (lb); they balance with reactions."""
        return {mark: force for carried in trace.carried.values() for mark, _, force in carried.knees}

    def only_carry(self) -> None:
        """NoQuestion where a support takes moment as well: forces on supports alone do not balance there."""
        for tee in find_tees(self.results.path.layout):
            raise NoQuestion(
                f"{tee.mark} keeps {tee.beam.mark} from tipping as well as carrying it: this question wants "
                "supports that only carry."
            )

    def spot(self, column: int) -> Vector:
        """Plan point of one of the sheets' spots, drawn onto the deck."""
        return nearest_on_deck(self.results.path.layout, self.results.path.spots[column].point)

    def dead(self, mark: str) -> float:
        """Dead load on a support (lb)."""
        return float(self.results.path.reactions[mark] @ self.results.path.dead)

    def bolts(self, tree: str | None = None) -> tuple[str, ...]:
        """Tree bolts, of one tree or of any."""
        supports = self.results.path.layout.supports
        return tuple(s.mark for s in supports if s.kind == SupportKind.TREE_BOLT and tree in (None, s.tree))


def _whole(value: float) -> float:
    return float(round(value))


def at_words(place: Vector) -> str:
    """A place in plan in words: ``x = 1' 8", y = 3' 4"``."""
    return f"x = {feet_inches(place[0])}, y = {feet_inches(place[1])}"


@dataclass(frozen=True)
class Axis:
    """A line in plan about which moments are taken: through ``point``; ``u`` is the direction of the arms."""

    point: Vector
    u: Vector
    name: str

    @classmethod
    def through(cls, mark: str, other: str, places: Mapping[str, Vector]) -> Axis:
        """Axis through a support, square to the line from it to another."""
        (x0, y0), (x1, y1) = places[mark], places[other]
        length = math.hypot(x1 - x0, y1 - y0)
        name = f"a line through {mark}, square to the line from {mark} to {other}"
        return cls((x0, y0), ((x1 - x0) / length, (y1 - y0) / length), name)

    @classmethod
    def along(cls, one: str, other: str, places: Mapping[str, Vector], towards: Vector) -> Axis:
        """Axis along the line through two supports, arms positive on the side of a place."""
        (x0, y0), (x1, y1) = places[one], places[other]
        length = math.hypot(x1 - x0, y1 - y0)
        n = (-(y1 - y0) / length, (x1 - x0) / length)
        side = math.copysign(1.0, (towards[0] - x0) * n[0] + (towards[1] - y0) * n[1])
        return cls((x0, y0), (n[0] * side, n[1] * side), f"the line from {one} to {other}")

    def arm(self, place: Vector) -> float:
        """Distance of a place from the axis (in)."""
        return (place[0] - self.point[0]) * self.u[0] + (place[1] - self.point[1]) * self.u[1]


def left_over(
    axis: Axis, weight: float, at: Vector, held: Mapping[str, float], places: Mapping[str, Vector]
) -> float:
    """Moment about an axis that supposed reactions leave over (lb·in)."""
    return weight * axis.arm(at) - sum(force * axis.arm(places[mark]) for mark, force in held.items())


def balance_blocks(
    axis: Axis,
    weight: float,
    at: Vector,
    held: Mapping[str, float],
    places: Mapping[str, Vector],
    caption: str,
) -> tuple[Block, ...]:
    """Moments about an axis line by line: the load's, each support's, and what is left over."""
    calculation = Calculation()
    M_load = calculation.run(moment_of_force, R=weight, e=axis.arm(at))
    moments = {mark: force * axis.arm(places[mark]) for mark, force in held.items()}
    calculation.run(moments_left_over, M_load=M_load, M_held=sum(moments.values()))
    rows = [("the load, down", digits(weight), digits(axis.arm(at)), digits(weight * axis.arm(at)))]
    for mark, moment in moments.items():
        rows.append((f"{mark}, up", _plain(held[mark]), _plain(axis.arm(places[mark])), _plain(-moment)))
    total = left_over(axis, weight, at, held, places)
    noise = 1e-3 * max(abs(M_load), 1.0)
    rows.append(("left over", "", "", "0" if abs(total) < noise else digits(total)))
    table = Table(("force", "lb", "arm (in)", "moment (lb·in)"), tuple(rows), caption, "lrrr")
    return (table, *printed(calculation.at(())))


def _plain(value: float) -> str:
    return "0" if abs(value) < 1e-4 else digits(value)


def side_view(
    axis: Axis,
    weight: float,
    at: Vector,
    held: Mapping[str, float],
    places: Mapping[str, Vector],
    title: str,
) -> Figure:
    """Free body of the whole platform seen along an axis: arms are true, depth is not seen."""
    arms = [axis.arm(at), *(axis.arm(places[mark]) for mark in held)]
    low, high = min(arms), max(arms)
    margin = 0.04 * max(high - low, 12.0)
    supports = [Force(axis.arm(places[mark]) - low + margin, force, mark) for mark, force in held.items()]
    load = Force(axis.arm(at) - low + margin, weight, "load")
    return free_body(title, high - low + 2 * margin, [load], supports)
