"""What the file says of stairs that does not fit the rest of it."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import LineString, Polygon

from bolewright.platform.file.materials import named_in_file
from bolewright.platform.file.plausible import Location
from bolewright.platform.project import Project
from bolewright.platform.project.hatch import HEADERS, TRIMMERS
from bolewright.timber.sections import SectionError, parse_section


def edge_fault(project: Project, where: Location, edge: int | None) -> Iterator[tuple[Location, str]]:
    """An edge that the outline does not have."""
    edges = len(project.platform.outline)
    if edge is not None and edge > edges:
        yield (
            where,
            f"{edge} is no edge of the outline; its edges are numbered 1 to {edges} "
            "(edge 1 runs from the first corner to the second).",
        )


def stair_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """Edge, hanger and boards of stairs that are not there, and keys that go with others."""
    stairs = project.stairs
    yield from edge_fault(project, ("stairs", "edge"), stairs.edge)
    if stairs.hanger is not None and stairs.hanger not in project.connections:
        listed = named_in_file(project.connections, "connection")
        yield ("stairs", "hanger"), f"{stairs.hanger!r} is no connection of this file; {listed}."
    if stairs.given:
        try:
            parse_section(stairs.tread_section)
        except SectionError as error:
            yield ("stairs", "tread_section"), f"{error}."
    if stairs.given and project.platform.floor_height - stairs.landing_level < 2.0:
        yield ("stairs", "foot"), "the landing at the foot of the stairs is to lie below the floor."
    if stairs.edge is None and stairs.along is not None:
        yield ("stairs", "along"), "it goes with an edge, which is not given (stairs.edge)."


def ladder_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """Edge, opening and sizes of a ladder that are not there."""
    ladder, openings = project.ladder, project.platform.openings
    if ladder.edge is None:
        for key in ("opening", "along"):
            if getattr(ladder, key) is not None:
                yield ("ladder", key), "it goes with an edge, which is not given (ladder.edge)."
        return
    if ladder.opening is not None and ladder.opening > len(openings):
        have = f"its openings are numbered 1 to {len(openings)}" if openings else "it has none"
        yield ("ladder", "opening"), f"{ladder.opening} is no opening of the deck; {have}."
    elif ladder.opening is None:
        yield from edge_fault(project, ("ladder", "edge"), ladder.edge)
    elif ladder.edge > len(openings[ladder.opening - 1]):
        yield ("ladder", "edge"), f"{ladder.edge} is no edge of opening {ladder.opening}."
    if project.platform.floor_height - ladder.foot < 12.0:
        yield ("ladder", "foot"), "the foot of the ladder is to lie 12 in. at least below the floor."
    try:
        parse_section(ladder.step_size)
    except SectionError as error:
        yield ("ladder", "step"), f"{error}."
    if ladder.rung_rating is not None and ladder.rung_diameter is None:
        yield ("ladder", "rung_rating"), "it goes with round rungs (ladder.rung_diameter)."


def hatch_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """Joists and hanger of a hatch that are not there, a hole off the joists, marks that its framing takes."""
    hatch = project.hatch
    if hatch.at is None:
        return
    fields = {field.mark for field in project.joists}
    if hatch.joists is not None and hatch.joists not in fields:
        yield (
            ("hatch", "joists"),
            f"{hatch.joists!r} is no field of joists of this file; {named_in_file(fields, 'joists')}.",
        )
    if hatch.hanger is not None and hatch.hanger not in project.connections:
        listed = named_in_file(project.connections, "connection")
        yield ("hatch", "hanger"), f"{hatch.hanger!r} is no connection of this file; {listed}."
    made = [beam.mark for beam in project.beams if beam.mark in (*TRIMMERS, *HEADERS)]
    if len(made) < len(TRIMMERS) + len(HEADERS):
        yield (
            ("hatch", "at"),
            "its trimmers find no beam on both sides to go to: put the hole between two beams that the joists meet.",
        )
    elif len(made) > len(TRIMMERS) + len(HEADERS):
        yield (
            ("hatch", "at"),
            "HT1, HT2, HH1 and HH2 name its trimmers and headers: give your own beams other marks.",
        )
    hole, outline = (
        Polygon(project.platform.openings[-1]) if project.platform.openings else Polygon(),
        project.platform,
    )
    if not Polygon(outline.outline).buffer(-1.0).contains(hole):
        yield ("hatch", "at"), "the hole reaches over the edge of the deck: move it, or make it smaller."
    for beam in project.beams:
        if beam.mark not in made and LineString([beam.start, beam.end]).intersects(hole.buffer(-0.5)):
            yield (
                ("hatch", "at"),
                f"the hole lies over {beam.mark}: a hatch cuts joists, never a beam; move it.",
            )
