"""What one part of a project file says of another: names that must exist, marks used once, materials with values."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.file.contradictions import contradictions
from bolewright.platform.file.materials import material_faults
from bolewright.platform.file.plausible import Location, implausible
from bolewright.platform.file.references import references
from bolewright.platform.project import (
    Beam,
    Blocking,
    Brace,
    CrossedRods,
    Diagonal,
    JoistField,
    Limb,
    Project,
    Support,
    Tree,
    TrunkOpening,
)
from bolewright.timber.sections import SectionError, parse_section
from bolewright.tree.species import SpeciesError, trunk_wood


def cross_checks(project: Project) -> Iterator[tuple[Location, str]]:
    """Where in the file the parts do not fit each other, and why."""
    yield from _duplicates(project)
    yield from references(project)
    yield from material_faults(project)
    yield from _price_faults(project)
    yield from implausible(project)
    yield from contradictions(project)
    for index, tree in enumerate(project.trees):
        if (tree.girth is None) == (tree.diameter is None):
            yield ("tree", index), "give either girth or diameter, and not both."
        try:
            trunk_wood(tree.species)
        except SpeciesError as error:
            yield ("tree", index, "species"), f"{error}."
    edges = len(project.platform.outline)
    for edge in project.loads.guard_edges:
        if not 1 <= edge <= edges:
            yield (
                ("loads", "guard_edges"),
                f"{edge} is no edge of the outline; its edges are numbered 1 to {edges} "
                "(edge 1 runs from the first corner to the second).",
            )


_A_PART = {
    "joists": "field of joists",
    "blocking": "row of blocking or rim",
    "crossed_rods": "pair of crossed rods",
}


def _duplicates(project: Project) -> Iterator[tuple[Location, str]]:
    seen: dict[str, str] = {}
    marked: tuple[
        tuple[
            str,
            tuple[
                Tree
                | Support
                | Beam
                | JoistField
                | Blocking
                | Brace
                | Diagonal
                | CrossedRods
                | Limb
                | TrunkOpening,
                ...,
            ],
        ],
        ...,
    ] = (
        ("tree", project.trees),
        ("support", project.supports),
        ("beam", project.beams),
        ("joists", project.joists),
        ("blocking", project.blocking),
        ("brace", project.braces),
        ("diagonal", project.diagonals),
        ("crossed_rods", project.crossed_rods),
        ("limb", project.limbs),
        ("trunk_opening", project.trunk_openings),
    )
    for kind, parts in marked:
        for index, part in enumerate(parts):
            if part.mark in seen:
                yield (
                    (kind, index, "mark"),
                    f"{part.mark!r} already names a {_A_PART.get(seen[part.mark], seen[part.mark])}; marks are unique.",
                )
            seen[part.mark] = kind
    entries: tuple[tuple[str, str, list[str]], ...] = (
        ("load_area", "mark", [entry.mark for entry in project.load_areas]),
        ("guard", "mark", [entry.mark for entry in project.guards]),
        ("gate", "mark", [entry.mark for entry in project.gates]),
        ("ground", "mark", [entry.mark for entry in project.ground]),
        ("point_load", "mark", [entry.mark for entry in project.point_loads]),
        ("as_built", "mark", [entry.mark for entry in project.as_built]),
        ("reading", "mark", [entry.mark for entry in project.readings]),
        ("outline", "tree", [entry.tree for entry in project.outlines]),
    )
    for kind, key, marks in entries:
        for index, mark in enumerate(marks):
            if mark in marks[:index]:
                yield (
                    (kind, index, key),
                    f"{mark!r} has an entry already; put all that is known of it in one.",
                )


def _price_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """A size of lumber with no length, and a line that says a price twice."""
    seen: set[tuple[str, float | None, str]] = set()
    for index, price in enumerate(project.prices):
        try:
            item = parse_section(price.item).name
        except SectionError:
            item = price.item.strip().lower()
            if price.length is not None:
                yield (
                    ("price", index, "item"),
                    f"{price.item!r} is no size of lumber, so it has no length; sizes are written such as 2x8.",
                )
        else:
            if price.length is None:
                yield (
                    ("price", index, "length"),
                    f"{price.item} is lumber: say for which length this price is.",
                )
        key = (item, price.length, price.grade.strip().lower())
        if key in seen:
            yield ("price", index, "item"), f"{price.item!r} has a price for this length already."
        seen.add(key)
