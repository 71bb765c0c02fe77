"""What the file says of guards and gates that does not fit its edges, or themselves."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from bolewright.platform.file.plausible import Location
from bolewright.platform.layout.guard_ways import edge_length, gate_way
from bolewright.platform.project import Guard, Project
from bolewright.timber.sections import SectionError, parse_section
from bolewright.units import feet_inches


def guard_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """What is wrong with guards as parts."""
    count = len(project.platform.outline)
    for index, guard in enumerate(project.guards):
        at = ("guard", index)
        openings = project.platform.openings
        if guard.opening is not None and guard.opening > len(openings):
            have = f"its openings are numbered 1 to {len(openings)}" if openings else "it has none"
            yield (*at, "opening"), f"{guard.opening} is no opening of the deck; {have}."
        for edge in guard.edges:
            if guard.opening is not None:
                if guard.opening <= len(openings) and not 1 <= edge <= len(openings[guard.opening - 1]):
                    yield (*at, "edges"), f"edge {edge} is none of opening {guard.opening}'s edges."
            elif not 1 <= edge <= count:
                yield (*at, "edges"), f"edge {edge} is none of the outline's edges, 1 to {count}."
            elif edge not in project.loads.guard_edges:
                yield (
                    (*at, "edges"),
                    f"edge {edge} is not among guard_edges of loads: add it there, so that the guard's weight and wind "
                    "are counted.",
                )
        if len(guard.edges) > 1 and (guard.start or guard.length is not None or guard.places):
            yield (
                (*at, "start"),
                f"{guard.mark} is on {len(guard.edges)} edges: start, length and places go with one.",
            )
        yield from _posts_in_one_place(guard, at)
        if guard.notched:
            yield (
                (*at, "notched"),
                "a notched post is refused: half a 4x4 has a quarter of its strength left and splits at the corner.",
            )
        for key in ("section", "cap", "top_rail", "bottom_rail", "baluster"):
            try:
                parse_section(getattr(guard, key))
            except SectionError as error:
                if key != "section":
                    yield (*at, key), str(error)


def _posts_in_one_place(guard: Guard, at: Location) -> Iterator[tuple[Location, str]]:
    """Posts that are given nearer to each other than they are wide."""
    try:
        width = parse_section(guard.section).b
    except SectionError:
        return
    for one, other in pairwise(sorted(guard.places)):
        if other - one < width:
            yield (
                (*at, "places"),
                f"posts of {guard.mark} at {feet_inches(one)} and {feet_inches(other)} stand in one place: a post is "
                f"{width:g} in. wide.",
            )


def gate_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """What is wrong with gates: edges without a guard, a way that runs off its edge or meets another gate."""
    count = len(project.platform.outline)
    for index, gate in enumerate(project.gates):
        at = ("gate", index)
        if gate.edge > count:
            yield (*at, "edge"), f"edge {gate.edge} is none of the outline's edges, 1 to {count}."
            continue
        if not any(gate.edge in guard.edges and guard.opening is None for guard in project.guards):
            yield (*at, "edge"), f"no guard stands on edge {gate.edge}: a gate is a part of one ([[guard]])."
        way, length = gate_way(project, gate), edge_length(project, gate.edge)
        if way.low < -0.01 or way.high > length + 0.01:
            yield (
                (*at, "along"),
                f"{gate.mark} reaches past the ends of edge {gate.edge}, which is {feet_inches(length)} long.",
            )
        for other in project.gates[:index]:
            there = gate_way(project, other) if other.edge == gate.edge else None
            if there is not None and way.low < there.high and there.low < way.high:
                yield (*at, "along"), f"{gate.mark} and {other.mark} stand in one place of edge {gate.edge}."
        if gate.side_gap * 2 + 6 > gate.width:
            yield (*at, "side_gap"), f"{gate.mark} is left with no leaf between its gaps."
