"""Bolts on a round trunk: level, place round the bark, direction and depth of the hole, projection of the collar.

A bolt points straight out from the trunk's axis, as the checks take it, or its line passes the axis at a
distance ``a`` where holes are bored parallel. Girth and radius are over the bark at the height of the bolts.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from numpy import arctan, pi, sin, sqrt

from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.platform.layout.bolt_lines import RADIAL, bolt_line
from bolewright.platform.layout.layout import Layout, Vector
from bolewright.platform.project import Bolt, Support, Tree
from bolewright.platform.project.bearing import SupportKind
from bolewright.setting_out.plan import facing
from bolewright.tree.seating import lever_arm, sound_radius
from bolewright.units import Angle, Length

ROUND = "Geometry (round trunk)"


@formula(ROUND)
def bark_radius(C: Length) -> Length:
    """Radius of a trunk over the bark.

    Parameters: C girth over the bark (in). Returns: R (in). Source: geometry.

    >>> round(float(bark_radius(75.375)), 2)
    12.0
    """
    R: Length = C / (2 * pi)
    return R


@formula(ROUND)
def entry_angle(R: Length, a: Length) -> Angle:
    """Angle round the trunk from where a bolt through the axis would enter to where one beside it does.

    Parameters: R radius over the bark (in); a distance of the bolt's line from the axis (in), signed.
    Returns: theta_a (°). Source: geometry, sin(theta_a) = a / R.

    >>> round(float(entry_angle(12.0, 6.0)), 6)
    30.0
    """
    theta_a: Angle = 180 / pi * arctan(a / sqrt(R**2 - a**2))
    return theta_a


@formula(ROUND)
def arc_round_bark(C: Length, theta: Angle) -> Length:
    """Distance round the bark for an angle at the axis: a tape laid round the trunk reads it.

    Parameters: C girth over the bark (in); theta angle (°). Returns: s (in). Source: geometry.

    >>> arc_round_bark(72.0, 90.0)
    18.0
    """
    s: Length = C * theta / 360
    return s


@formula(ROUND)
def chord_across(R: Length, theta: Angle) -> Length:
    """Straight distance between two marks on the bark, as a pair of callipers reads it.

    Parameters: R radius over the bark (in); theta angle between the marks at the axis (°). Returns: c (in).
    Source: geometry.

    >>> float(chord_across(12.0, 180.0))
    24.0
    """
    c: Length = 2 * R * sin(pi / 180 * theta / 2)
    return c


@formula(ROUND)
def drill_depth(R: Length, r: Length, a: Length, L: Length) -> Length:
    """Depth of the hole along the drill from the face of the bark, for the thread to stand in sound wood.

    Parameters: R radius over the bark, r radius of sound wood (in); a distance of the bolt's line from the axis
    (in); L thread in sound wood (in). Returns: d_b (in). Source: geometry.

    >>> float(drill_depth(12.0, 11.0, 0.0, 7.0))
    8.0
    """
    d_b: Length = sqrt(R**2 - a**2) - sqrt(r**2 - a**2) + L
    return d_b


@formula(ROUND)
def collar_projection(y: Length, R: Length, a: Length) -> Length:
    """Projection of the collar: from the bark to the middle of the bearing, along the bolt.

    With one ``y`` for all bolts that point one way, their bearing points lie on one line square to the bolts, although
    the trunk is round.

    Parameters: y distance of the bearing from the axis, along the bolt (in); R radius over the bark (in); a distance
    of the bolt's line from the axis (in). Returns: p (in). Source: geometry.

    >>> float(collar_projection(17.0, 13.0, 0.0)), float(collar_projection(17.0, 13.0, 5.0))
    (4.0, 5.0)
    """
    p: Length = y - sqrt(R**2 - a**2)
    return p


@dataclass(frozen=True)
class BoltMark:
    """A tree bolt as it is set out. Lengths in inches, angles in degrees.

    ``centre_level`` and ``seat_level`` are above grade. ``angle`` is where the hole enters the bark, counter-clockwise
    from above, from the front mark: the point of the bark that faces the posts; ``arc`` the same round the bark.
    ``turn`` is the direction the bolt points, from the front's. ``a`` is how far its line passes the axis, to the left
    seen along the bolt from the trunk; ``template`` the angle at the mark between the hole and the line to the axis.
    """

    mark: str
    tree: str
    centre_level: float
    seat_level: float
    angle: float
    arc: float
    turn: float
    a: float
    template: float
    hole_depth: float
    projection: float
    lever: float
    bearing: Vector
    entry: Vector
    steps: tuple[Step, ...]

    @property
    def tip(self) -> Vector:
        """Bottom of the hole, in plan."""
        share = self.hole_depth / self.projection
        return (
            self.entry[0] - share * (self.bearing[0] - self.entry[0]),
            self.entry[1] - share * (self.bearing[1] - self.entry[1]),
        )


def girth_of(tree: Tree) -> float:
    """Girth of a trunk over the bark (in)."""
    return tree.girth if tree.girth is not None else math.pi * float(tree.diameter or 0.0)


def seat_rise(bolt: Bolt) -> float:
    """Height of the bearing above the bolt's centre (in): the bracket's, or half the diameter."""
    return bolt.seat_rise if bolt.seat_rise is not None else bolt.diameter / 2


def bolt_marks(layout: Layout) -> tuple[BoltMark, ...]:
    """Every tree bolt as it is set out."""
    trees = {tree.mark: tree for tree in layout.project.trees}
    return tuple(
        _bolt_mark(layout, support, trees[support.tree or ""])
        for support in layout.supports
        if support.kind == SupportKind.TREE_BOLT
    )


def _bolt_mark(layout: Layout, support: Support, tree: Tree) -> BoltMark:
    bolt = layout.project.bolts[support.bolt or ""]
    return place_bolt(
        support.mark,
        tree,
        bolt,
        bearing=support.at,
        points=direction_of(support, tree),
        front=facing(layout, tree),
        seat_level=layout.seat_level(support.mark),
    )


def direction_of(support: Support, tree: Tree) -> Vector:
    """Unit vector in plan along a bolt, out of the trunk: as the checks take it."""
    return bolt_line(support, tree).u


def bearing_at(support: Support, tree: Tree, projection: float) -> Vector:
    """Bearing point of a bolt that stands out of the bark by a projection, along its own line."""
    line, R = bolt_line(support, tree), girth_of(tree) / (2 * math.pi)
    return line.point(tree, math.sqrt(R**2 - line.a**2) + projection)


def place_bolt(
    mark: str, tree: Tree, bolt: Bolt, *, bearing: Vector, points: Vector, front: Vector, seat_level: float
) -> BoltMark:
    """A bolt whose bearing stands at ``bearing`` and which ``points`` in a direction, on a round trunk.

    ``front`` is the direction from the axis to the front mark; both directions are unit vectors in plan.
    """
    calculation = Calculation()
    run = calculation.run
    C = girth_of(tree)
    R = float(run(bark_radius, C=C))
    r = float(run(sound_radius, C=C, t_b=tree.bark, t_d=0.0))
    dx, dy = bearing[0] - tree.at[0], bearing[1] - tree.at[1]
    y = dx * points[0] + dy * points[1]
    a = points[0] * dy - points[1] * dx
    turn = _turn(front, points)
    template = float(run(entry_angle, R=R, a=a)) if abs(a) > RADIAL else 0.0
    angle = turned(turn + template)
    arc = float(run(arc_round_bark, C=C, theta=angle))
    hole = float(run(drill_depth, R=R, r=r, a=a, L=bolt.embedment))
    projection = float(run(collar_projection, y=y, R=R, a=a))
    lever = float(lever_arm(x_b=y, r=r, a=a, Delta_e=0.0, s=0.0))
    entry = (bearing[0] - projection * points[0], bearing[1] - projection * points[1])
    return BoltMark(
        mark=mark,
        tree=tree.mark,
        centre_level=seat_level - seat_rise(bolt),
        seat_level=seat_level,
        angle=angle,
        arc=arc,
        turn=turn,
        a=a,
        template=template,
        hole_depth=hole,
        projection=projection,
        lever=lever,
        bearing=bearing,
        entry=entry,
        steps=calculation.at(()),
    )


def _turn(front: Vector, points: Vector) -> float:
    """Angle from the front to a direction, counter-clockwise from above, in (-180, 180]."""
    cross = front[0] * points[1] - front[1] * points[0]
    dot = front[0] * points[0] + front[1] * points[1]
    turn = math.degrees(math.atan2(cross, dot))
    return 180.0 if abs(turn + 180) < 1e-9 else turn


def turned(degrees: float) -> float:
    """The same angle in (-180, 180], so that the tape goes round the bark the short way."""
    return degrees - 360.0 if degrees > 180 else degrees + 360.0 if degrees <= -180 else degrees


@dataclass(frozen=True)
class BoltPair:
    """Two bolts in one trunk: what lies between them, as it is measured on the day (in).

    ``square`` is the distance of two parallel holes square to them; None where they are not parallel.
    """

    first: str
    second: str
    arc: float
    arc_back: float
    chord: float
    bearings: float
    rise: float
    square: float | None
    steps: tuple[Step, ...]


def bolt_pairs(layout: Layout, marks: tuple[BoltMark, ...]) -> tuple[BoltPair, ...]:
    """Every two bolts in one trunk: arcs both ways round (they add up to the girth), chord, bearing to bearing."""
    trees = {tree.mark: tree for tree in layout.project.trees}
    pairs = []
    for i, one in enumerate(marks):
        for other in marks[i + 1 :]:
            if one.tree != other.tree:
                continue
            C = girth_of(trees[one.tree])
            theta = abs(other.angle - one.angle)
            theta = min(theta, 360 - theta)
            calculation = Calculation()
            arc = float(calculation.run(arc_round_bark, C=C, theta=theta))
            R = calculation.run(bark_radius, C=C)
            chord = float(calculation.run(chord_across, R=R, theta=theta))
            pairs.append(
                BoltPair(
                    first=one.mark,
                    second=other.mark,
                    arc=arc,
                    arc_back=C - arc,
                    chord=chord,
                    bearings=math.dist(one.bearing, other.bearing),
                    rise=other.centre_level - one.centre_level,
                    square=_square(one, other),
                    steps=calculation.at(()),
                )
            )
    return tuple(pairs)


def _square(one: BoltMark, other: BoltMark) -> float | None:
    """Distance between two holes that point one way or against each other beside the axis; None for others."""
    same, against = abs(turned(one.turn - other.turn)) < 0.01, abs(turned(one.turn - other.turn - 180)) < 0.01
    if not (same or against) or (abs(one.a) <= RADIAL and abs(other.a) <= RADIAL):
        return None
    return abs(one.a - other.a) if same else abs(one.a + other.a)
