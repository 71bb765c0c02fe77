"""What one part of a project file says of another: names that must exist, marks used once, materials with values."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.contradictions import contradictions
from bolewright.platform.materials import material_faults, named_in_file
from bolewright.platform.plausible import Location, implausible
from bolewright.platform.project import Blocking, Brace, Carrier, Diagonal, JoistField, Project, Support, Tree
from bolewright.timber.sections import SectionError, parse_section
from bolewright.tree.species import SpeciesError, stem_wood


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
            stem_wood(tree.species)
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


_A_PART = {"joists": "field of joists", "blocking": "row of blocking or rim"}


def _duplicates(project: Project) -> Iterator[tuple[Location, str]]:
    seen: dict[str, str] = {}
    marked: tuple[
        tuple[str, tuple[Tree | Support | Carrier | JoistField | Blocking | Brace | Diagonal, ...]], ...
    ] = (
        ("tree", project.trees),
        ("support", project.supports),
        ("carrier", project.carriers),
        ("joists", project.joists),
        ("blocking", project.blocking),
        ("brace", project.braces),
        ("diagonal", project.diagonals),
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
    carriers = {carrier.mark for carrier in project.carriers}

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
        else:
            yield from wanted((*at, "post"), support.post, set(project.posts), "post")
            yield from wanted((*at, "footing"), support.footing, set(project.footings), "footing")
        others = ("post", "footing") if support.kind == "tree bolt" else ("tree", "bolt")
        for key in (key for key in others if getattr(support, key) is not None):
            yield (
                (*at, key),
                f"{support.mark} is a {support.kind}, which takes no {key}: leave this line out.",
            )
    posts = {support.mark for support in project.supports if support.kind == "post"}
    for index, brace in enumerate(project.braces):
        yield from wanted(("brace", index, "support"), brace.support, posts, "post")
        yield from wanted(("brace", index, "carrier"), brace.carrier, carriers, "carrier")
        if (brace.bolts is None) != (brace.bolt_diameter is None):
            yield ("brace", index, "bolts"), "bolts and bolt_diameter must be given together."
        if brace.bolts is not None and brace.rated_load is not None:
            yield ("brace", index, "rated_load"), "give either bolts or a rated load, and not both."
    supports = {support.mark for support in project.supports}
    for index, reading in enumerate(project.readings):
        yield from wanted(("reading", index, "mark"), reading.mark, supports | {"GRADE"}, "support")
    for index, outline in enumerate(project.outlines):
        yield from wanted(("outline", index, "tree"), outline.tree, trees, "tree")
        if not (len(outline.points) >= 3) ^ (len(outline.widths) >= 2):
            yield ("outline", index, "points"), "give either 3 points or more, or 2 widths or more."
    yield from _as_built_faults(project, supports | carriers)
    for index, diagonal in enumerate(project.diagonals):
        if diagonal.start == diagonal.end:
            yield ("diagonal", index, "to"), f"{diagonal.mark} starts and ends at one point."
    for index, field in enumerate(project.joists):
        for mark in field.carriers:
            yield from wanted(("joists", index, "carriers"), mark, carriers, "carrier")
        for mark in dict.fromkeys(m for m in field.carriers if field.carriers.count(m) > 1):
            yield ("joists", index, "carriers"), f"{mark!r} is named more than once; name each once."
        if field.hanger is not None:
            yield from wanted(
                ("joists", index, "hanger"), field.hanger, set(project.connections), "connection"
            )
        if field.last < field.first:
            yield ("joists", index, "last"), "the last joist lies before the first."
    yield from _blocking_faults(project)
    for index, carrier in enumerate(project.carriers):
        if carrier.start == carrier.end:
            yield ("carrier", index, "to"), f"{carrier.mark} starts and ends at one point."
        if carrier.top is not None and carrier.drop is not None:
            yield ("carrier", index, "drop"), "give either top or drop, and not both."
        if carrier.hanger is not None:
            yield from wanted(
                ("carrier", index, "hanger"), carrier.hanger, set(project.connections), "connection"
            )


def _blocking_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """Rims, rows and spacers that do not say where they are; which joists there are is known once they are laid out."""
    carriers = {carrier.mark for carrier in project.carriers}
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
        beams = [mark in carriers for mark in entry.between]
        if not entry.between:
            yield (*where, "between"), f"a {entry.kind} needs the first and the last of what it runs between."
        elif entry.kind == "spacer" and not all(beams):
            yield (
                (*where, "between"),
                f"{' and '.join(entry.between)}: a spacer stands between two beams of this file.",
            )
        elif any(beams) and not all(beams):
            yield (*where, "between"), f"{' and '.join(entry.between)}: name two joists, or two beams."
        if (entry.over is None) == (entry.along is None):
            yield (
                (*where, "along"),
                "give either over, a beam under the row, or along, its place, and not both.",
            )
        if entry.over is not None and entry.over not in carriers:
            listed = named_in_file(carriers, "carrier")
            yield (*where, "over"), f"{entry.over!r} is no carrier of this file; {listed}."


def _as_built_faults(project: Project, marks: set[str]) -> Iterator[tuple[Location, str]]:
    """Entries of what was built that no part can have: a joist's mark is known only once they are laid out."""
    joists = tuple(field.mark for field in project.joists)
    kinds = {support.mark: support.kind for support in project.supports}
    for index, built in enumerate(project.as_built):
        where = ("as_built", index)
        kind = kinds.get(built.mark, "member")
        numbered = any(built.mark.startswith(mark) and built.mark[len(mark) :].isdigit() for mark in joists)
        if built.mark not in marks and not numbered:
            yield (*where, "mark"), f"{built.mark!r} is no support, carrier or joist of this file."
            continue
        allowed = {
            "tree bolt": ("at", "projection", "level", "embedment"),
            "post": ("at", "level", "hole"),
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
