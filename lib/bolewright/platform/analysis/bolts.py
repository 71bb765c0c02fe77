"""Tree bolts in place: line and lever arm in the trunk, and the wood they stand in."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.platform.layout.bolt_lines import BoltLine, bolt_line
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.layout.lines import Vector
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Bolt, Support, Tree
from bolewright.tree.seating import lever_arm, slant_entry, sound_radius
from bolewright.tree.species import TrunkWood, trunk_wood
from bolewright.units import feet_inches


@dataclass(frozen=True)
class BoltInPlace:
    """A tree bolt with its tree, and the lever arm ``e`` from sound wood to the centre of bearing.

    ``x_b`` is the bearing's distance from the axis, along the bolt. ``off`` is how much farther out the beam's line
    passes than the bearing, ``Delta_e`` the slant of the entry; both count in the lever arm.
    """

    support: Support
    tree: Tree
    bolt: Bolt
    wood: TrunkWood
    line: BoltLine
    girth: float
    r: float
    e: float
    off: float
    Delta_e: float

    @property
    def x_b(self) -> float:
        """Distance of the bearing's centre from the axis, along the bolt (in)."""
        return self.line.y

    @property
    def u(self) -> Vector:
        """Direction along the bolt, outward from the trunk."""
        return self.line.u

    @property
    def a(self) -> float:
        """Distance of the bolt's line from the trunk's axis (in)."""
        return self.line.beside

    def from_bark(self, x: float) -> float:
        """Distance from the bark of the bearing's corner next to the axis, ``x`` out along the bolt.

        A bracket is as wide as its seat; timber runs across the bolt, past the trunk's axis.
        """
        bolt = self.bolt
        across = max(bolt.diameter, bolt.seat_across or bolt.seat_length)
        near = 0.0 if bolt.seat == "timber" else max(0.0, self.a - across / 2)
        return (math.hypot(x, near) if near else x) - self.girth / (2 * math.pi)


def bolt_in_place(path: LoadPath, support: Support) -> BoltInPlace:
    """The bolt of a support; LayoutError when its bearing lies inside the bark."""
    project = path.layout.project
    tree = next(t for t in project.trees if t.mark == support.tree)
    bolt = project.bolts[support.bolt or ""]
    girth = tree.girth if tree.girth is not None else math.pi * float(tree.diameter or 0.0)
    r = float(sound_radius(C=girth, t_b=tree.bark, t_d=0.0))
    line = bolt_line(support, tree)
    if line.beside >= r:
        raise LayoutError(
            f"The bearing on tree bolt {support.mark} is {feet_inches(line.beside)} to the side of the axis of "
            f"{tree.mark}: its bolt misses the sound wood of the trunk."
        )
    slant = float(slant_entry(D=bolt.diameter, r=r, a=line.beside)) if line.a else 0.0
    e = float(lever_arm(x_b=line.y, r=r, a=line.beside, Delta_e=0.0, s=bolt.slide))
    least = tree.bark + bolt.seat_length / 2
    if line.a:
        near = max(0.0, line.beside - bolt.diameter / 2)
        bark = math.sqrt((girth / (2 * math.pi)) ** 2 - near**2) - math.sqrt(r**2 - line.beside**2)
        least = bark + bolt.seat_length / 2
    if e < least:
        along = ", measured along the bolt" if line.a else ""
        outer = line.y - e + bolt.slide + least if line.a else r + least
        raise LayoutError(
            f"The bearing on tree bolt {support.mark} is {feet_inches(line.y)} from the trunk's axis{along}, which "
            "puts "
            f"it in the bark of {tree.mark}: it must be {feet_inches(outer)} or more from the axis."
        )
    off = _beam_farther_out(path, support, line.u)
    return BoltInPlace(
        support, tree, bolt, trunk_wood(tree.species), line, girth, r, e + slant + off, off, slant
    )


def _beam_farther_out(path: LoadPath, support: Support, u: Vector) -> float:
    """How much farther from the trunk, along the bolt, the beam's line passes than the bearing (in), at least 0."""
    if not path.layout.off_line(support.mark):
        return 0.0
    lines = [member.line for member, _ in path.layout.on_support(support.mark)]
    feet = [line.at(line.along(support.at)) for line in lines]
    return max(0.0, *((x - support.at[0]) * u[0] + (y - support.at[1]) * u[1] for x, y in feet))
