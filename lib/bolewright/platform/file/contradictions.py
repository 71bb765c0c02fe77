"""Values of a project that contradict each other, or leave nothing: each would give a number that means nothing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from bolewright.platform.file.bolt_faults import LEFT_OF_TRUNK, bolt_faults, diameter_over_bark
from bolewright.platform.file.gussets import gusset_faults
from bolewright.platform.file.plausible import Location
from bolewright.platform.project import Point, Project, Tree
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.sections import SectionError, parse_section
from bolewright.units import feet_inches

APART = 1 / 16  # in: corners nearer than this are one
HELD_IN_GROUND = 12.0  # in: the least depth below grade at which a post in the ground is taken as held


def contradictions(project: Project) -> Iterator[tuple[Location, str]]:
    """Where in the file two values can't both be true, or leave nothing, and what is allowed."""
    yield from _footings(project)
    yield from _steel(project)
    yield from gusset_faults(project)
    for i, field in enumerate(project.joists):
        if field.edge_load is not None and not field.restrains_beam:
            yield (
                ("joists", i, "edge_load"),
                "rates what restrains_beam leaves out: set restrains_beam = true.",
            )
    for i, gate in enumerate(project.gates):
        if gate.wheel is not None and not gate.wheeled:
            yield ("gate", i, "wheel"), "rates what on_wheel leaves out: set on_wheel = true."
    for index, tree in enumerate(project.trees):
        yield from _tree(project, index, tree)
    yield from bolt_faults(project)
    yield from _trunks_apart(project)
    yield from _guards(project)
    yield from _corners(project)


def _footings(project: Project) -> Iterator[tuple[Location, str]]:
    """What a post and the concrete under it leave of a hole."""
    holes = {built.mark: built.hole for built in project.as_built if built.hole is not None}
    seen: set[tuple[str, str]] = set()
    for support in project.supports:
        footing = project.footings.get(support.footing or "")
        post = project.posts.get(support.post or "")
        if support.kind != SupportKind.POST or footing is None or post is None:
            continue
        wanted = HELD_IN_GROUND if post.base == "fixed" else 0.0
        why = f"{feet_inches(wanted)} of a held post must stand in the ground"
        why = why if wanted else "more would stand out of the ground"
        hole = holes.get(support.mark)
        if hole is not None and hole - footing.pad < wanted:
            index = [built.mark for built in project.as_built].index(support.mark)
            yield (
                ("as_built", index, "hole"),
                f"{feet_inches(hole)} is too shallow for a pad of {feet_inches(footing.pad)}: {why}; at least "
                f"{feet_inches(footing.pad + wanted)}.",
            )
        if (support.footing or "", support.post or "") in seen:
            continue
        seen.add((support.footing or "", support.post or ""))
        where = ("footing", support.footing or "")
        most = footing.depth - wanted
        if most < 4.0:
            yield (
                (*where, "depth"),
                f"{feet_inches(footing.depth)} is too shallow for post {support.post}: {why}, and the pad under it "
                f"is 4 in. or more; at least {feet_inches(wanted + 4.0)}.",
            )
        elif footing.pad > most:
            yield (
                (*where, "pad"),
                f"{feet_inches(footing.pad)} of concrete under post {support.post}: at most {feet_inches(most)} of a "
                f"{feet_inches(footing.depth)} hole, since {why}.",
            )
        yield from _post_in_hole(project, support.post or "", support.footing or "")


def _post_in_hole(project: Project, post: str, name: str) -> Iterator[tuple[Location, str]]:
    """A post that does not go into its hole, or stands out over the edge of its concrete."""
    footing = project.footings[name]
    try:
        section = parse_section(project.posts[post].section)
    except SectionError:
        return  # said elsewhere
    across = math.hypot(section.b, section.d) if footing.shape == "round" else max(section.b, section.d)
    if across >= footing.width:
        yield (
            ("footing", name, "width"),
            f"{feet_inches(footing.width)} is no wider than post {post}, which measures {feet_inches(across)} across: "
            "nothing is left round it.",
        )


def _steel(project: Project) -> Iterator[tuple[Location, str]]:
    for name, bolt in project.bolts.items():
        if bolt.F_y > bolt.F_u:
            yield (
                ("bolt", name, "F_y"),
                f"steel yields at {bolt.F_y:,.0f} psi, above the {bolt.F_u:,.0f} psi at which it breaks (F_u): no "
                "steel does; read both off the mill certificate again.",
            )


def _tree(project: Project, index: int, tree: Tree) -> Iterator[tuple[Location, str]]:
    """Heights of a tree over one another, and what its bark and hollow leave of the trunk."""
    floor = project.platform.floor_height
    if tree.height <= floor:
        yield (
            ("tree", index, "height"),
            f"{tree.mark} is {feet_inches(tree.height)} tall, no taller than the floor at {feet_inches(floor)}.",
        )
    if tree.crown_center is not None:
        if tree.crown_center >= tree.height:
            yield (
                ("tree", index, "crown_center"),
                f"the middle of the crown at {feet_inches(tree.crown_center)} lies above the top of the tree at "
                f"{feet_inches(tree.height)}.",
            )
        elif tree.crown_center <= floor:
            yield (
                ("tree", index, "crown_center"),
                f"the middle of the crown at {feet_inches(tree.crown_center)} lies below the floor at "
                f"{feet_inches(floor)}; a platform in the crown is a job for an engineer.",
            )
    if tree.sway_seen_at is not None and tree.sway_seen_at >= tree.height:
        yield (
            ("tree", index, "sway_seen_at"),
            f"{feet_inches(tree.sway_seen_at)} lies above the top of the tree at {feet_inches(tree.height)}.",
        )
    d = diameter_over_bark(tree)
    if not d:
        return  # said elsewhere
    if tree.height < d:
        yield (
            ("tree", index, "height"),
            f"{tree.mark} is {feet_inches(tree.height)} tall and {feet_inches(d)} thick: that is a stump.",
        )
    sound = d - 2 * tree.bark
    if sound - tree.cavity < 2 * LEFT_OF_TRUNK:
        key, what = ("cavity", "hollow") if tree.cavity else ("bark", "bark")
        yield (
            ("tree", index, key),
            f"the {what} leaves less than {LEFT_OF_TRUNK:g} in. of sound wood all round in a "
            f"trunk {feet_inches(d)} across.",
        )


def _trunks_apart(project: Project) -> Iterator[tuple[Location, str]]:
    for (_, one), (index, other) in combinations(enumerate(project.trees), 2):
        apart = math.dist(one.at, other.at)
        least = (diameter_over_bark(one) + diameter_over_bark(other)) / 2
        if apart < least:
            yield (
                ("tree", index, "at"),
                f"{other.mark} stands {feet_inches(apart)} from {one.mark}, inside its trunk: by their girths the two "
                f"axes are {feet_inches(least)} apart or more.",
            )


def _guards(project: Project) -> Iterator[tuple[Location, str]]:
    edges = project.loads.guard_edges
    for edge in dict.fromkeys(e for e in edges if edges.count(e) > 1):
        yield (
            ("loads", "guard_edges"),
            f"edge {edge} is named {edges.count(edge)} times; name each edge once.",
        )


def _corners(project: Project) -> Iterator[tuple[Location, str]]:
    """Corners given twice: the edge between them has no direction."""
    rings: list[tuple[Location, Sequence[Point]]] = [(("platform", "outline"), project.platform.outline)]
    rings += [(("platform", "openings", i), ring) for i, ring in enumerate(project.platform.openings)]
    rings += [(("joists", i, "region"), f.region) for i, f in enumerate(project.joists) if f.region]
    rings += [(("load_area", i, "corners"), area.corners) for i, area in enumerate(project.load_areas)]
    for where, ring in rings:
        for index, corner in enumerate(ring):
            before = (index or len(ring)) - 1
            if math.dist(corner, ring[before]) < APART:
                yield (
                    (*where, index),
                    f"it is the same point as corner {before + 1}: leave one of the two out.",
                )
