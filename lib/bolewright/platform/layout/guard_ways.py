"""Ways through a guard: where stairs, a ladder or a gate stand on an edge, which the guard leaves open by itself.

The stairs' own guard goes on from the guard's ends; a ladder's head wants a gate; a gate is a part of the guard.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.platform.layout.lines import Line
from bolewright.platform.project import Gate, Guard, Project
from bolewright.timber.sections import parse_section

STRIP = 36.0  # in beside the edge, IRC 2021, R312.1.1
SPHERE = 4.0  # in, IRC 2021, R312.1.3
LADDER_CLEAR = {
    True: 16.0,
    False: 20.0,
}  # in: of a ladder, of a ship's ladder (OSHA 1910.23; IRC 2021, R311.7.12)


@dataclass(frozen=True)
class Way:
    """A way through the guard of an edge: what it is, and from where to where along the edge (in)."""

    what: str
    low: float
    high: float

    @property
    def width(self) -> float:
        """Its width (in)."""
        return self.high - self.low


def edge_length(project: Project, edge: int) -> float:
    """Length of an edge of the outline (in)."""
    outline = project.platform.outline
    return math.dist(outline[edge - 1], outline[edge % len(outline)])


def ladder_way(project: Project, edge: int) -> Way | None:
    """The ladder at an edge of the outline, over its rails; None where there is none."""
    ladder = project.ladder
    if ladder.edge != edge or ladder.opening is not None:
        return None
    middle = edge_length(project, edge) / 2 if ladder.along is None else ladder.along
    half = (ladder.clear or LADDER_CLEAR[ladder.steep]) / 2 + parse_section(ladder.section).b
    return Way("ladder", middle - half, middle + half)


def stair_way(project: Project, edge: int) -> Way | None:
    """The stairs at an edge of the outline, over their stringers; None where there are none."""
    stairs = project.stairs
    if stairs.edge != edge:
        return None
    middle = edge_length(project, edge) / 2 if stairs.along is None else stairs.along
    return Way("stairs", middle - stairs.width / 2, middle + stairs.width / 2)


def gate_way(project: Project, gate: Gate) -> Way:
    """A gate: where it stands along its edge."""
    middle = gate.along
    if middle is None:
        behind = ladder_way(project, gate.edge) or stair_way(project, gate.edge)
        middle = edge_length(project, gate.edge) / 2 if behind is None else (behind.low + behind.high) / 2
    return Way(gate.mark, middle - gate.width / 2, middle + gate.width / 2)


def ways_on(project: Project, edge: int) -> tuple[Way, ...]:
    """Every way through the guard of an edge: stairs, ladder, gates."""
    gates = [gate_way(project, gate) for gate in project.gates if gate.edge == edge]
    return tuple(w for w in (stair_way(project, edge), ladder_way(project, edge), *gates) if w is not None)


def closed_on(project: Project, edge: int) -> tuple[Way, ...]:
    """Those that need nothing more across them: the stairs, which have a guard of their own, and gates."""
    return tuple(way for way in ways_on(project, edge) if way.what != "ladder")


def gate_before(project: Project, way: Way, edge: int) -> Gate | None:
    """The gate that stands before a way, over all of its width."""
    for gate in project.gates:
        here = gate_way(project, gate)
        if gate.edge == edge and here.low <= way.low + SPHERE and here.high >= way.high - SPHERE:
            return gate
    return None


def stretches(project: Project, guard: Guard, edge: int, length: float) -> Iterator[tuple[float, float]]:
    """What is left of a guard's part of an edge between the ways through it: from where to where (in)."""
    low = guard.start
    end = length if guard.length is None else guard.start + guard.length
    ways = () if guard.opening is not None else ways_on(project, edge)
    for way in sorted(ways, key=lambda w: w.low):
        if way.high <= low or way.low >= end:
            continue
        if way.low - low >= SPHERE:  # a shorter piece is a gap that no sphere passes
            yield low, way.low
        low = max(low, way.high)
    if end - low >= SPHERE:
        yield low, end


def posts_in_ways(project: Project) -> Iterator[tuple[Guard, int, float, Way]]:
    """Posts that the file puts where a gate, stairs or a ladder leave the guard open, so that none stands there."""
    for guard in project.guards:
        for edge in guard.edges if guard.opening is None else ():
            length = edge_length(project, edge)
            parts = list(stretches(project, guard, edge, length))
            ways = ways_on(project, edge)
            for place in guard.places:
                if ways and not any(low - 0.01 <= place <= high + 0.01 for low, high in parts):
                    middle = min(ways, key=lambda way: abs((way.low + way.high) / 2 - place))
                    yield guard, edge, place, middle


def covered_edges(project: Project) -> set[int]:
    """Edges that guards as parts close from end to end, with their gates and the stairs between them."""
    return {e for e in range(1, len(project.platform.outline) + 1) if _covered(project, e)}


def _covered(project: Project, edge: int) -> bool:
    guards = [g for g in project.guards if edge in g.edges and g.opening is None]
    if not guards:
        return False
    length = edge_length(project, edge)
    parts = [part for guard in guards for part in stretches(project, guard, edge, length)]
    parts += [(way.low, way.high) for way in closed_on(project, edge)]
    reached = 0.0
    for low, high in sorted(parts):
        if low > reached + SPHERE:  # a gap of 4 in. lets no sphere through
            return False
        reached = max(reached, high)
    return reached >= length - SPHERE


def open_heads(project: Project) -> list[int]:
    """Edges whose guard is open at the head of a ladder: no gate stands before it."""
    found = []
    for edge in range(1, len(project.platform.outline) + 1):
        way = ladder_way(project, edge)
        guarded = any(edge in g.edges for g in project.guards if g.opening is None)
        if way is not None and guarded and gate_before(project, way, edge) is None:
            found.append(edge)
    return found


def edge_of(project: Project, guard: Guard, edge: int) -> Line:
    """The edge of the outline, or of the opening, that a guard stands on."""
    ring = project.platform.outline if guard.opening is None else project.platform.openings[guard.opening - 1]
    return Line.between(ring[edge - 1], ring[edge % len(ring)])


def ground_beside(project: Project, edge: int) -> tuple[float, str]:
    """Lowest ground within 36 in. of an edge (in above grade), and the place that decides."""
    outline = project.platform.outline
    line = Line.between(outline[edge - 1], outline[edge % len(outline)])
    lowest = min(
        ((g.level, g.mark) for g in project.ground if line.distance(g.at) <= STRIP), default=(0.0, "")
    )
    return lowest if lowest[0] < 0 else (0.0, "")
