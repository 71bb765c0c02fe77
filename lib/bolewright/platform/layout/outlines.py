"""Outline of a trunk's bark at the floor: as it was measured, or a circle of its girth."""

from __future__ import annotations

import math

from shapely import Point, Polygon

from bolewright.platform.project import Project, Tree, TrunkOutline

CORNERS = 16  # corners to a quarter circle of an offset outline: within 1/16 in. up to a trunk of 4 ft


def measured_outline(project: Project, tree: Tree) -> TrunkOutline | None:
    """Outline that was measured of a tree, if one was."""
    return next((outline for outline in project.outlines if outline.tree == tree.mark), None)


def trunk_outline(project: Project, tree: Tree) -> Polygon:
    """The trunk's bark in plan: through measured points, from widths across stations, or a circle of its girth."""
    measured = measured_outline(project, tree)
    x, y = tree.at
    if measured is None:
        girth = tree.girth if tree.girth is not None else math.pi * float(tree.diameter or 0.0)
        return Point(tree.at).buffer(girth / (2 * math.pi), quad_segs=4 * CORNERS)
    if measured.points:
        return Polygon(measured.points)
    radii = [width / 2 for width in (*measured.widths, *measured.widths)]
    turn = 2 * math.pi / len(radii)
    return Polygon([(x + r * math.cos(i * turn), y + r * math.sin(i * turn)) for i, r in enumerate(radii)])
