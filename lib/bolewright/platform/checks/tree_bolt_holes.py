"""Room in the trunk for the holes of its bolts: their size, the wood beside and past them, and between them."""

from __future__ import annotations

import shapely
from shapely import LineString

from bolewright.calculation import Calculation
from bolewright.platform.analysis.bolts import BoltInPlace
from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.file.bolt_faults import LEFT_OF_TRUNK
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.limit_states.check import Check, judge
from bolewright.platform.loads.load_path import LoadPath
from bolewright.tree.seating import (
    ACROSS_SPACING,
    ALONG_GRAIN_SPACING,
    EDGE_DISTANCE,
    LOADED_EDGE_DISTANCE,
    TIP_SPACING,
    diameters,
    hole_limit,
    holes_apart,
    tip_clearance,
    wood_along_bolt,
    wood_beside_hole,
)
from bolewright.units import INCH, feet_inches

OPPOSITE = 0.97  # cosine of the angle between bolts that count as pointing at each other
BESIDE_NOTE = (
    "The bolt's line passes the trunk's axis: keep it level and parallel as set out; bored straight at the axis it has "
    "another lever arm and other bearings."
)


def hole_checks(path: LoadPath, placed: BoltInPlace, bolts: list[BoltInPlace]) -> list[Check]:
    """Checks of the room that a bolt's hole has in its trunk, and of those between it and the bolts after it."""
    checks = [_hole(placed)]
    if placed.line.a:
        checks += [_along(placed), _beside(placed)]
    for other in bolts:
        if other.tree is placed.tree and other.support.mark > placed.support.mark:
            checks += _pair(path, placed, other)
    return checks


def _room(
    calculation: Calculation,
    placed: BoltInPlace,
    key: str,
    wanted: float,
    found: float,
    says: str,
    where: str = "",
    notes: tuple[str, ...] = (),
    *,
    at: str = "",
    clause: str = "",
) -> Check:
    return judge(
        calculation,
        [placed.support.mark],
        ["any"],
        key=key,
        at=at,
        demand=wanted,
        capacity=found,
        unit=INCH,
        clause=clause,
        says=says,
        where=lambda row, column: where,
        notes=notes,
    )[0]


def _hole(placed: BoltInPlace) -> Check:
    calculation = Calculation((1, 1))
    d_max = float(calculation.run(hole_limit, r=placed.r))
    D = placed.bolt.diameter
    return _room(calculation, placed, "tree_bolt.hole", D, d_max, "the hole in the trunk")


def _along(placed: BoltInPlace) -> Check:
    """Thread and the wood past its tip, on the chord that the bolt's line cuts off the trunk."""
    calculation = Calculation((1, 1))
    l = float(calculation.run(wood_along_bolt, r=placed.r, a=placed.a))
    return _room(
        calculation,
        placed,
        "tree_bolt.hole_line",
        placed.bolt.embedment + LEFT_OF_TRUNK,
        l,
        "the length of thread, with the wood past its tip,",
        f"{feet_inches(placed.a)} beside the trunk's axis",
        (BESIDE_NOTE,),
        clause=f"Common practice ({LEFT_OF_TRUNK:g} in. past the tip)",
    )


def _beside(placed: BoltInPlace) -> Check:
    """Wood to the side where the face is nearer: more of it where the bearing passes lateral force across the bolt."""
    loaded = held_ways(placed.support.lateral)[1]
    n = LOADED_EDGE_DISTANCE if loaded else EDGE_DISTANCE
    calculation = Calculation((1, 1))
    w = float(calculation.run(diameters, n=n, D=placed.bolt.diameter))
    c_e = float(calculation.run(wood_beside_hole, r=placed.r, a=placed.a, L=placed.bolt.embedment))
    why = "pushed to the side" if loaded else "not pushed to the side"
    return _room(
        calculation,
        placed,
        "tree_bolt.hole_edge",
        w,
        c_e,
        "the wood needed beside the bolt",
        f"halfway down the hole; a bolt {why} wants {n:g} diameters",
        (
            "The standard knows no edge of a round trunk: its distances are taken halfway down the hole (judgement).",
        ),
    )


def _pair(path: LoadPath, one: BoltInPlace, other: BoltInPlace) -> list[Check]:
    if one.line.a or other.line.a:
        return _apart(path, one, other)
    if one.u[0] * other.u[0] + one.u[1] * other.u[1] < -OPPOSITE:
        return [_tips(one, other)]
    return []


def _tips(one: BoltInPlace, other: BoltInPlace) -> Check:
    """Wood left between the tips of two bolts that point at each other on one diameter."""
    calculation = Calculation((1, 1))
    c_t = float(calculation.run(tip_clearance, r=one.r, L_1=one.bolt.embedment, L_2=other.bolt.embedment))
    if c_t <= 0:
        raise LayoutError(
            f"Tree bolts {one.support.mark} and {other.support.mark} meet inside the trunk: shorten their "
            "embedment or set them at different heights."
        )
    return _room(
        calculation,
        one,
        "tree_bolt.tips",
        2 * max(one.bolt.diameter, other.bolt.diameter),
        c_t,
        "the wood needed between the tips",
        at=other.support.mark,
        clause="Common practice (2 diameters)",
    )


def _apart(path: LoadPath, one: BoltInPlace, other: BoltInPlace) -> list[Check]:
    """Two holes at about one height, of which one at least passes the axis: side by side, or tip to tip."""
    level = abs(_level(path, one) - _level(path, other))
    if level >= ALONG_GRAIN_SPACING:
        return []
    p, q = shapely.shortest_line(_hole_line(one), _hole_line(other)).coords
    D = max(one.bolt.diameter, other.bolt.diameter)
    calculation = Calculation((1, 1))
    c = float(calculation.run(holes_apart, x=abs(q[0] - p[0]), y=abs(q[1] - p[1])))
    if c <= (one.bolt.diameter + other.bolt.diameter) / 2 and level < D:
        raise LayoutError(
            f"The holes of tree bolts {one.support.mark} and {other.support.mark} meet inside the trunk of "
            f"{one.tree.mark}: move one, give both the same direction, or shorten their embedment."
        )
    ends = _at_tip(one, p) and _at_tip(other, q) and not _side_by_side(one, other)
    n, how = (TIP_SPACING, "tip to tip") if ends else (ACROSS_SPACING, "side by side")
    w = float(calculation.run(diameters, n=n, D=D))
    return [
        _room(
            calculation,
            one,
            "tree_bolt.hole_spacing",
            w,
            c,
            "the distance needed between the holes",
            f"{how}, centre to centre",
            (f"Bolts less than {ALONG_GRAIN_SPACING:g} in. apart in height count as at one height.",),
            at=other.support.mark,
            clause=f"Common practice ({n:g} diameters)",
        )
    ]


def _level(path: LoadPath, placed: BoltInPlace) -> float:
    bolt = placed.bolt
    rise = bolt.seat_rise if bolt.seat_rise is not None else bolt.diameter / 2
    return path.layout.seat_level(placed.support.mark) - rise


def _hole_line(placed: BoltInPlace) -> LineString:
    """Centre line of the hole in plan, from the face of sound wood to its tip."""
    face = float(wood_along_bolt(r=placed.r, a=placed.a)) / 2
    ends = (face, face - placed.bolt.embedment)
    return LineString([placed.line.point(placed.tree, y) for y in ends])


def _at_tip(placed: BoltInPlace, point: tuple[float, ...]) -> bool:
    x, y = _hole_line(placed).coords[1]
    return bool(abs(point[0] - x) + abs(point[1] - y) < 1e-6)


def _side_by_side(one: BoltInPlace, other: BoltInPlace) -> bool:
    """Whether both are bored from about the same side of the trunk."""
    return one.u[0] * other.u[0] + one.u[1] * other.u[1] > 0.0
