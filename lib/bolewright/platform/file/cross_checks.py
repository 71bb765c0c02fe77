"""What one part of a project file says of another: names that must exist, marks used once, materials with values."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from bolewright.platform.file.access_faults import hatch_faults, ladder_faults, stair_faults
from bolewright.platform.file.contradictions import contradictions
from bolewright.platform.file.materials import material_faults, named_in_file
from bolewright.platform.file.plausible import Location, implausible
from bolewright.platform.layout.guard_ways import edge_length, gate_way
from bolewright.platform.project import (
    Beam,
    Blocking,
    Brace,
    CrossedRods,
    Diagonal,
    Guard,
    JoistField,
    Limb,
    PointLoad,
    Project,
    Support,
    Tree,
    TrunkOpening,
)
from bolewright.timber.sections import SectionError, parse_section
from bolewright.tree.species import SpeciesError, trunk_wood
from bolewright.units import feet_inches

LEAST_HAMMOCK = 36.0  # in between its ends: less is a slip of the pen (judgement)


def cross_checks(project: Project) -> Iterator[tuple[Location, str]]:
    """Where in the file the parts do not fit each other, and why."""
    yield from _duplicates(project)
    yield from _references(project)
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


_NOT_OF = {
    "tree bolt": ("post", "footing", "foot", "strut", "rise"),
    "post": ("tree", "bolt", "foot", "strut", "rise"),
    "knee brace": ("tree", "bolt", "post", "footing", "lateral", "slot"),
}  # keys of a support that one of a kind does not take
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


def _references(project: Project) -> Iterator[tuple[Location, str]]:
    trees = {tree.mark for tree in project.trees}
    beams = {beam.mark for beam in project.beams}

    def wanted(
        where: Location, name: str | None, names: set[str], what: str
    ) -> Iterator[tuple[Location, str]]:
        listed = named_in_file(names, what)
        if name is None:
            yield where, f"a {what} must be named here; {listed}."
        elif name not in names:
            yield where, f"{name!r} is no {what} of this file; {listed}."

    for index, support in enumerate(project.supports):
        at = ("support", index)
        if support.kind == "tree bolt":
            yield from wanted((*at, "tree"), support.tree, trees, "tree")
            yield from wanted((*at, "bolt"), support.bolt, set(project.bolts), "bolt")
        elif support.kind == "knee brace":
            tree_bolts = {s.mark for s in project.supports if s.kind == "tree bolt"}
            yield from wanted((*at, "foot"), support.foot, tree_bolts, "tree bolt")
            yield from wanted((*at, "strut"), support.strut, set(project.struts), "strut")
            if support.rise is None:
                yield (
                    (*at, "rise"),
                    f"{support.mark} needs a rise: how far its foot is below the beam's underside.",
                )
        else:
            yield from wanted((*at, "post"), support.post, set(project.posts), "post")
            yield from wanted((*at, "footing"), support.footing, set(project.footings), "footing")
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
    posts = {support.mark for support in project.supports if support.kind == "post"}
    for index, brace in enumerate(project.braces):
        yield from wanted(("brace", index, "support"), brace.support, posts, "post")
        yield from wanted(("brace", index, "beam"), brace.beam, beams, "beam")
        if (brace.bolts is None) != (brace.bolt_diameter is None):
            yield ("brace", index, "bolts"), "bolts and bolt_diameter must be given together."
        if brace.bolts is not None and brace.rated_load is not None:
            yield ("brace", index, "rated_load"), "give either bolts or a rated load, and not both."
    for index, rods in enumerate(project.crossed_rods):
        yield from wanted(("crossed_rods", index, "from_post"), rods.from_post, posts, "post")
        yield from wanted(("crossed_rods", index, "to_post"), rods.to_post, posts, "post")
        if rods.from_post == rods.to_post:
            yield (
                ("crossed_rods", index, "to_post"),
                f"{rods.mark} starts and ends at {rods.to_post}: name two posts.",
            )
    for index, load in enumerate(project.point_loads):
        if fault := point_load_fault(load):
            yield ("point_load", index, fault[0]), fault[1]
    yield from guard_faults(project)
    yield from gate_faults(project)
    supports = {support.mark for support in project.supports}
    for index, reading in enumerate(project.readings):
        yield from wanted(("reading", index, "mark"), reading.mark, supports | {"GRADE"}, "support")
    grown = trees | {limb.mark for limb in project.limbs}
    for index, opening in enumerate(project.trunk_openings):
        yield from wanted(("trunk_opening", index, "around"), opening.around, grown, "tree or limb")
    for index, limb in enumerate(project.limbs):
        yield from wanted(("limb", index, "tree"), limb.tree, trees, "tree")
        if limb.start == limb.end and limb.start_level == limb.end_level:
            yield ("limb", index, "to"), f"{limb.mark} starts and ends at one point."
    for index, outline in enumerate(project.outlines):
        yield from wanted(("outline", index, "tree"), outline.tree, trees, "tree")
        if not (len(outline.points) >= 3) ^ (len(outline.widths) >= 2):
            yield ("outline", index, "points"), "give either 3 points or more, or 2 widths or more."
    yield from _as_built_faults(project, supports | beams)
    for index, diagonal in enumerate(project.diagonals):
        if diagonal.start == diagonal.end:
            yield ("diagonal", index, "to"), f"{diagonal.mark} starts and ends at one point."
    for index, field in enumerate(project.joists):
        for mark in field.beams:
            yield from wanted(("joists", index, "beams"), mark, beams, "beam")
        for mark in dict.fromkeys(m for m in field.beams if field.beams.count(m) > 1):
            yield ("joists", index, "beams"), f"{mark!r} is named more than once; name each once."
        if field.hanger is not None:
            yield from wanted(
                ("joists", index, "hanger"), field.hanger, set(project.connections), "connection"
            )
        if field.last < field.first:
            yield ("joists", index, "last"), "the last joist lies before the first."
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
            yield from wanted(("beam", index, "hanger"), beam.hanger, set(project.connections), "connection")


def _blocking_faults(project: Project) -> Iterator[tuple[Location, str]]:
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


def _as_built_faults(project: Project, marks: set[str]) -> Iterator[tuple[Location, str]]:
    """Entries of what was built that no part can have: a joist's mark is known only once they are laid out."""
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
            "tree bolt": ("at", "projection", "level", "embedment"),
            "post": ("at", "level", "hole", "depth", "width"),
            "knee brace": ("at",),
            "member": ("depth", "width"),
        }[kind]
        for key in ("at", "projection", "level", "embedment", "hole", "depth", "width"):
            if getattr(built, key) is not None and key not in allowed:
                yield (*where, key), f"{built.mark} is a {kind}, which takes {', '.join(allowed)}."
        if built.at is not None and built.projection is not None:
            yield (*where, "projection"), "give either at or projection, and not both."


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


def point_load_fault(load: PointLoad) -> tuple[str, str] | None:
    """What is wrong with a load at one place: the key, and a sentence."""
    if (load.at is None) == (load.member is None):
        return "at", f"{load.mark} needs one place: at, a point on the deck, or member with along."
    if load.member is not None and load.along is None:
        return "along", f"{load.mark} needs its distance along {load.member}, from where that starts."
    if load.at is not None and load.along is not None:
        return "along", f"{load.mark} stands at a point of the deck: leave along out."
    if load.other_end is not None:
        if load.form != "hammock" or load.member is None:
            return (
                "other_end",
                f"{load.mark} is no hammock on a member: only such a one has an other end there.",
            )
        if load.direction:
            return "direction", f"{load.mark} hangs along {load.member} by both ends: leave direction out."
        if abs(load.other_end - (load.along or 0.0)) < LEAST_HAMMOCK:
            return "other_end", f"{load.mark} has its ends less than 3 ft apart: give the place of each."
    own = load.form in ("swing", "hanging chair", "hammock")
    if load.weight == 0 and load.up == 0 and load.lateral == 0:
        return "weight", f"{load.mark} brings nothing: give its weight, or a force up or laterally."
    if load.form != "thing" and load.weight == 0:
        return "weight", f"{load.mark} is a {load.form}: give the weight on it, people and all."
    if own and (load.lateral or load.up):
        return (
            "lateral",
            f"{load.mark} is a {load.form} and makes its own lateral force: leave up and laterally out.",
        )
    if own and load.member is None:
        return "member", f"{load.mark} is a {load.form}, which hangs: give the member and the place along it."
    if load.kind == "wind" and (load.weight or load.up or load.form != "thing"):
        return "kind", f"{load.mark} is wind, which is counted laterally only: leave weight and up out."
    if load.form in ("swing", "hanging chair", "hammock", "pulley") and load.kind != "live":
        return "kind", f"{load.mark} is a {load.form}, which comes and goes: its kind is live."
    if load.impact is not None and load.impact > 1 and not load.impact_note:
        return "impact_note", f"{load.mark} has an impact factor of {load.impact:g}: say where it comes from."
    return None


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
