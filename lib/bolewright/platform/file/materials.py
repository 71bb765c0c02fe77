"""Timber of a project file that has no values: sizes, species and grades, and materials of the user's own."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from bolewright.platform.file.fault_words import header
from bolewright.platform.file.plausible import Location
from bolewright.platform.project import Decking, Project, Timber
from bolewright.reference import TableError
from bolewright.timber.material import MaterialError
from bolewright.timber.sections import SectionError, parse_section
from bolewright.units import shown


def named_in_file(names: Collection[str], key: str) -> str:
    """What of a kind the file has, or the header to write where it has none of it.

    >>> named_in_file({"P6"}, "post"), named_in_file((), "tree")
    ('the file has: P6', 'the file has none: write [[tree]] with its keys')
    """
    if names:
        return f"the file has: {', '.join(sorted(names))}"
    return f"the file has none: write {header(key)} with its keys"


def material_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """Where in the file a piece of timber has no values, and why."""
    for where, piece in project.timbers:
        limited = isinstance(piece, Decking) and piece.span_limit is not None
        if isinstance(piece, Decking):
            yield from _limit_faults(piece)
        try:
            section = parse_section(piece.section)
        except SectionError as error:
            yield (*where, "section"), f"{error}."
            continue
        if limited:
            continue
        if piece.material is None:
            yield from _named(where, piece)
        elif piece.species is not None or piece.grade is not None:
            yield (*where, "material"), "give either a material or species and grade, and not both."
        elif piece.material not in project.materials:
            listed = named_in_file(project.materials, "material")
            yield (*where, "material"), f"{shown(piece.material)} is no material of this file; {listed}."
        if None in (piece.species, piece.grade) and piece.material not in project.materials:
            continue
        try:
            piece.values(section)
        except (MaterialError, TableError) as error:
            yield (*where, "grade" if "grade" in str(error) else "species"), f"{error}."
    for name, material in project.materials.items():
        if material.E_min is not None and material.E_min > material.E:
            yield (
                ("material", name, "E_min"),
                f"{material.E_min:,.0f} psi is more than E, {material.E:,.0f} psi: it is the lower one.",
            )


def _named(where: Location, piece: Timber) -> Iterator[tuple[Location, str]]:
    """Species and grade that are not given, where no material is named either."""
    for key in ("species", "grade"):
        if getattr(piece, key) is None:
            yield (*where, key), f"this key is missing: give the {key}, or name a material of your own."


def _limit_faults(decking: Decking) -> Iterator[tuple[Location, str]]:
    """Boards by their maker's sheet, of which half is left out or that are calculated as well."""
    wanted = ("span_load", "weight", "span_note")
    if decking.span_limit is None:
        for key in ("span_load", "end_limit", "weight", "span_note"):
            if getattr(decking, key) not in (None, ""):
                yield ("decking", key), "it goes with a span_limit, which is not given."
        return
    for key in wanted:
        if getattr(decking, key) in (None, ""):
            yield ("decking", key), f"this key is missing and goes with span_limit: {_OF_SHEET[key]}."
    if decking.material is not None:
        yield ("decking", "material"), "give either a material or a span_limit, and not both."


_OF_SHEET = {
    "span_load": "the load that the limit holds for",
    "weight": "the weight of the boards, such as 3 psf",
    "span_note": "where that limit is printed",
}
