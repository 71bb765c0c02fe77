"""Tree bolts that can't be bored as the file says: past the trunk, through it, or into its hollow."""

from __future__ import annotations

import math
from collections.abc import Iterator

from bolewright.platform.file.plausible import Location
from bolewright.platform.layout.bolt_lines import BoltLine, bolt_line
from bolewright.platform.project import Bolt, Project, Tree
from bolewright.platform.project.bearing import SupportKind
from bolewright.tree.seating import EDGE_DISTANCE, sound_radius, wood_along_bolt, wood_to_hollow
from bolewright.units import feet_inches

LEFT_OF_TRUNK = 2.0  # in: sound wood left past the tip of a bolt or round a hollow, less of it is none


def diameter_over_bark(tree: Tree) -> float:
    """Diameter of a trunk over the bark at the bolts (in); 0 where the file gives none."""
    return tree.diameter if tree.diameter is not None else (tree.girth or 0.0) / math.pi


def bolt_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """Where in the file a bolt doesn't fit its trunk, and what is allowed."""
    trees = {tree.mark: tree for tree in project.trees}
    said: set[tuple[str, str]] = set()
    for index, support in enumerate(project.supports):
        where = ("support", index, "direction")
        if support.kind != SupportKind.TREE_BOLT:
            if support.direction is not None:
                yield where, f"{support.mark} is a {support.kind}; only a tree bolt has a direction."
            continue
        tree, bolt = trees.get(support.tree or ""), project.bolts.get(support.bolt or "")
        if tree is None or bolt is None or not diameter_over_bark(tree):
            continue  # said elsewhere
        line, r = bolt_line(support, tree), sound_radius_of(tree)
        if r <= tree.cavity / 2 or r <= EDGE_DISTANCE * bolt.diameter:
            continue  # said elsewhere
        sentence = _off_the_trunk(line, tree, bolt, r)
        if sentence:
            yield where, sentence
            continue
        most, why = longest_embedment(line, tree, bolt)
        named = (tree.mark, support.bolt or "")
        if bolt.embedment <= most or (line.a == 0 and named in said):
            continue
        place: Location = ("bolt", support.bolt or "", "embedment")
        if line.a == 0:
            said.add(named)
        else:
            why = (
                f"{why} (on the line of {support.mark}, which passes the axis by {feet_inches(line.beside)})"
            )
        yield place, f"{feet_inches(bolt.embedment)} {why}: at most {feet_inches(max(most, 0))}, {_LEFT}"


_LEFT = f"which leaves {LEFT_OF_TRUNK:g} in. of sound wood past its tip."


def sound_radius_of(tree: Tree) -> float:
    """Radius of sound wood of a trunk at its bolts (in)."""
    return float(sound_radius(C=math.pi * diameter_over_bark(tree), t_b=tree.bark, t_d=0.0))


def _off_the_trunk(line: BoltLine, tree: Tree, bolt: Bolt, r: float) -> str:
    """Why a bolt's line can't be bored into the trunk; empty where it can."""
    if line.a == 0 and line.y >= 0:
        return ""
    past = f"a hole in this direction passes the axis of {tree.mark} by {feet_inches(line.beside)}"
    least = EDGE_DISTANCE * bolt.diameter
    allowed = (
        f"at most {feet_inches(r - least)}, which leaves {EDGE_DISTANCE:g} diameters of the bolt beside it."
    )
    if line.beside >= r:
        return f"{past} and misses its sound wood, which reaches {feet_inches(r)} from it: {allowed}"
    if r - line.beside < least:
        return f"{past} and leaves {feet_inches(r - line.beside)} of sound wood beside it: {allowed}"
    if line.y <= 0:
        return (
            f"a hole in this direction is bored from the far side of {tree.mark} to where the load comes down: turn "
            "the direction by 180 deg, so that it points from the bearing into the trunk."
        )
    return ""


def longest_embedment(line: BoltLine, tree: Tree, bolt: Bolt) -> tuple[float, str]:
    """Longest thread that the sound wood on a bolt's line takes (in), and what a longer one does."""
    r, r_c = sound_radius_of(tree), tree.cavity / 2
    near = max(0.0, line.beside - bolt.diameter / 2)  # the side of the hole that is next to the axis
    if tree.cavity and near < r_c:
        reach = float(wood_to_hollow(r=r, r_c=r_c, a=near))
        reach -= math.sqrt(r**2 - near**2) - math.sqrt(r**2 - line.beside**2)
        return reach - LEFT_OF_TRUNK, f"reaches into the hollow of {tree.mark}"
    return float(
        wood_along_bolt(r=r, a=line.beside)
    ) - LEFT_OF_TRUNK, f"goes through the trunk of {tree.mark}"
