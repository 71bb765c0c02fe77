"""Parts of a project file that name others: each name must be there, of the kind that is meant."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator

from bolewright.platform.file.access_faults import hatch_faults, ladder_faults, stair_faults
from bolewright.platform.file.guard_faults import gate_faults, guard_faults
from bolewright.platform.file.materials import named_in_file
from bolewright.platform.file.plausible import Location
from bolewright.platform.file.point_load_faults import point_load_fault
from bolewright.platform.project import Diagonal, Project
from bolewright.platform.project.bearing import SupportKind

TOGETHER = 1.0  # in: ends of two straps nearer than this are at one place
Faults = Iterator[tuple[Location, str]]
_NOT_OF = {
    SupportKind.TREE_BOLT: ("post", "footing", "foot", "strut", "rise"),
    SupportKind.POST: ("tree", "bolt", "foot", "strut", "rise"),
    SupportKind.KNEE_BRACE: ("tree", "bolt", "post", "footing", "lateral", "slot"),
}  # keys of a support that one of a kind does not take


def references(project: Project) -> Faults:
    """Where a part names another that is not there, or is left without one that it needs; by kind of part."""
    yield from _support_faults(project)
    yield from _brace_faults(project)
    for index, load in enumerate(project.point_loads):
        if fault := point_load_fault(load):
            yield ("point_load", index, fault[0]), fault[1]
    yield from guard_faults(project)
    yield from gate_faults(project)
    yield from _tree_faults(project)
    yield from _as_built_faults(project)
    yield from _joist_faults(project)
    yield from _blocking_faults(project)
    yield from stair_faults(project)
    yield from ladder_faults(project)
    yield from hatch_faults(project)
    for index, beam in enumerate(project.beams):
        if beam.start == beam.end:
            yield ("beam", index, "to"), f"{beam.mark} starts and ends at one point."
        if beam.top is not None and beam.drop is not None:
            yield ("beam", index, "drop"), "give either top or drop, and not both."
        if beam.hanger is not None:
            yield from _wanted(("beam", index, "hanger"), beam.hanger, project.connections, "connection")


def _wanted(where: Location, name: str | None, names: Collection[str], what: str) -> Faults:
    if name is None:
        yield where, f"a {what} must be named here; {named_in_file(names, what)}."
    elif name not in names:
        yield where, f"{name!r} is no {what} of this file; {named_in_file(names, what)}."


def _marks_of(project: Project, kind: SupportKind | None = None) -> set[str]:
    return {support.mark for support in project.supports if kind in (None, support.kind)}


def _support_faults(project: Project) -> Faults:
    """Supports without what one of their kind stands on or hangs from, or with a key of another kind."""
    trees, tree_bolts = {tree.mark for tree in project.trees}, _marks_of(project, SupportKind.TREE_BOLT)
    for index, support in enumerate(project.supports):
        at = ("support", index)
        if support.kind == SupportKind.TREE_BOLT:
            yield from _wanted((*at, "tree"), support.tree, trees, "tree")
            yield from _wanted((*at, "bolt"), support.bolt, project.bolts, "bolt")
        elif support.kind == SupportKind.KNEE_BRACE:
            yield from _wanted((*at, "foot"), support.foot, tree_bolts, "tree bolt")
            yield from _wanted((*at, "strut"), support.strut, project.struts, "strut")
            if support.rise is None:
                yield (
                    (*at, "rise"),
                    f"{support.mark} needs a rise: how far its foot is below the beam's underside.",
                )
        else:
            yield from _wanted((*at, "post"), support.post, project.posts, "post")
            yield from _wanted((*at, "footing"), support.footing, project.footings, "footing")
        for key in (key for key in _NOT_OF[support.kind] if getattr(support, key) is not None):
            yield (
                (*at, key),
                f"{support.mark} is a {support.kind}, which takes no {key}: leave this line out.",
            )
        if support.mark in project.feet:
            for key in (key for key in ("lateral", "slot") if getattr(support, key) is not None):
                yield (
                    (*at, key),
                    f"{support.mark} bears knee braces, which are hinged on it: leave this line out.",
                )


def _brace_faults(project: Project) -> Faults:
    """Braces, rods and diagonals without the posts and beams that they are to join."""
    posts, beams = _marks_of(project, SupportKind.POST), {beam.mark for beam in project.beams}
    for index, brace in enumerate(project.braces):
        yield from _wanted(("brace", index, "support"), brace.support, posts, "post")
        yield from _wanted(("brace", index, "beam"), brace.beam, beams, "beam")
        if (brace.bolts is None) != (brace.bolt_diameter is None):
            yield ("brace", index, "bolts"), "bolts and bolt_diameter must be given together."
        if brace.bolts is not None and brace.rated_load is not None:
            yield ("brace", index, "rated_load"), "give either bolts or a rated load, and not both."
    for index, rods in enumerate(project.crossed_rods):
        yield from _wanted(("crossed_rods", index, "from_post"), rods.from_post, posts, "post")
        yield from _wanted(("crossed_rods", index, "to_post"), rods.to_post, posts, "post")
        if rods.from_post == rods.to_post:
            yield (
                ("crossed_rods", index, "to_post"),
                f"{rods.mark} starts and ends at {rods.to_post}: name two posts.",
            )


def _tree_faults(project: Project) -> Faults:
    """Readings, limbs, outlines and openings of trees that are not there."""
    trees = {tree.mark for tree in project.trees}
    measured = _marks_of(project) | {"GRADE"}
    for index, reading in enumerate(project.readings):
        yield from _wanted(("reading", index, "mark"), reading.mark, measured, "support")
    grown = trees | {limb.mark for limb in project.limbs}
    for index, opening in enumerate(project.trunk_openings):
        yield from _wanted(("trunk_opening", index, "around"), opening.around, grown, "tree or limb")
    for index, limb in enumerate(project.limbs):
        yield from _wanted(("limb", index, "tree"), limb.tree, trees, "tree")
        if limb.start == limb.end and limb.start_level == limb.end_level:
            yield ("limb", index, "to"), f"{limb.mark} starts and ends at one point."
    for index, outline in enumerate(project.outlines):
        yield from _wanted(("outline", index, "tree"), outline.tree, trees, "tree")
        if not (len(outline.points) >= 3) ^ (len(outline.widths) >= 2):
            yield ("outline", index, "points"), "give either 3 points or more, or 2 widths or more."


def _joist_faults(project: Project) -> Faults:
    """Fields of joists whose beams or hanger are not there, and diagonals of no length."""
    beams = {beam.mark for beam in project.beams}
    for index, diagonal in enumerate(project.diagonals):
        if diagonal.start == diagonal.end:
            yield ("diagonal", index, "to"), f"{diagonal.mark} starts and ends at one point."
        for other in project.diagonals[:index]:
            if _in_one_place(diagonal, other):
                said = (
                    f"{diagonal.mark} lies in the place of {other.mark} from end to end, and would count beside it: "
                    "leave one out, or give one with the rated load of both."
                )
                yield ("diagonal", index, "from"), said
    for index, field in enumerate(project.joists):
        for mark in field.beams:
            yield from _wanted(("joists", index, "beams"), mark, beams, "beam")
        for mark in dict.fromkeys(m for m in field.beams if field.beams.count(m) > 1):
            yield ("joists", index, "beams"), f"{mark!r} is named more than once; name each once."
        if field.hanger is not None:
            yield from _wanted(("joists", index, "hanger"), field.hanger, project.connections, "connection")
        if field.last < field.first:
            yield ("joists", index, "last"), "the last joist lies before the first."


def _in_one_place(one: Diagonal, other: Diagonal) -> bool:
    """Whether two diagonals have both their ends together, whichever way each is drawn."""
    ends = (other.start, other.end), (other.end, other.start)
    return any(max(math.dist(one.start, a), math.dist(one.end, b)) < TOGETHER for a, b in ends)


def _blocking_faults(project: Project) -> Faults:
    """Rims, rows and spacers that do not say where they are; which joists there are is known once they are laid out."""
    beams = {beam.mark for beam in project.beams}
    fields = {field.mark for field in project.joists}
    for index, entry in enumerate(project.blocking):
        where = ("blocking", index)
        if entry.joists is not None and entry.joists not in fields:
            listed = named_in_file(fields, "field of joists")
            yield (*where, "joists"), f"{entry.joists!r} is no field of joists of this file; {listed}."
        if entry.hanger is not None and entry.hanger not in project.connections:
            listed = named_in_file(set(project.connections), "connection")
            yield (*where, "hanger"), f"{entry.hanger!r} is no connection of this file; {listed}."
        if entry.hanger is not None and entry.fasteners is not None:
            yield (*where, "fasteners"), "give either hanger or fasteners, and not both."
        if len(entry.between) == 1 or len(set(entry.between)) < len(entry.between):
            yield (*where, "between"), f"{', '.join(entry.between)}: name two, the first and the last."
        if entry.kind == "rim":
            for key in ("over", "along"):
                if getattr(entry, key) is not None:
                    yield (*where, key), "a rim runs along the ends of its joists: leave this line out."
            continue
        are_beams = [mark in beams for mark in entry.between]
        if not entry.between:
            yield (*where, "between"), f"a {entry.kind} needs the first and the last of what it runs between."
        elif entry.kind == "spacer" and not all(are_beams):
            yield (
                (*where, "between"),
                f"{' and '.join(entry.between)}: a spacer stands between two beams of this file.",
            )
        elif any(are_beams) and not all(are_beams):
            yield (*where, "between"), f"{' and '.join(entry.between)}: name two joists, or two beams."
        if (entry.over is None) == (entry.along is None):
            yield (
                (*where, "along"),
                "give either over, a beam under the row, or along, its place, and not both.",
            )
        if entry.over is not None and entry.over not in beams:
            listed = named_in_file(beams, "beam")
            yield (*where, "over"), f"{entry.over!r} is no beam of this file; {listed}."


def _as_built_faults(project: Project) -> Faults:
    """Entries of what was built that no part can have: a joist's mark is known only once they are laid out."""
    marks = _marks_of(project) | {beam.mark for beam in project.beams}
    joists = tuple(field.mark for field in project.joists)
    kinds = {support.mark: support.kind for support in project.supports}
    for index, built in enumerate(project.as_built):
        where = ("as_built", index)
        kind = kinds.get(built.mark, "member")
        numbered = any(built.mark.startswith(mark) and built.mark[len(mark) :].isdigit() for mark in joists)
        if built.mark not in marks and not numbered:
            yield (*where, "mark"), f"{built.mark!r} is no support, beam or joist of this file."
            continue
        allowed = {
            SupportKind.TREE_BOLT: ("at", "projection", "level", "embedment"),
            SupportKind.POST: ("at", "level", "hole", "depth", "width"),
            SupportKind.KNEE_BRACE: ("at",),
            "member": ("depth", "width"),
        }[kind]
        for key in ("at", "projection", "level", "embedment", "hole", "depth", "width"):
            if getattr(built, key) is not None and key not in allowed:
                yield (*where, key), f"{built.mark} is a {kind}, which takes {', '.join(allowed)}."
        if built.at is not None and built.projection is not None:
            yield (*where, "projection"), "give either at or projection, and not both."
