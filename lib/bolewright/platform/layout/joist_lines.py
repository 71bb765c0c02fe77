"""Where the lines of a field's joists lie: their positions across, and the stretches of deck that each crosses."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from shapely import LineString, Polygon

from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import STEP, LayoutError, Member, Note
from bolewright.platform.project import Decking, JoistField
from bolewright.platform.project.timber import BOARD_TURN
from bolewright.timber.sections import Section, parse_section
from bolewright.units import feet_inches

SHORTEST = 6.0  # in: a stretch of joist shorter than this is left out
_TOUCH = 0.01  # in: stretches this near are one, such as those along an edge and past its corner


def joist_positions(field: JoistField) -> list[float]:
    """Positions of a field's joists across their direction: first, then by the spacing, the last included.

    Where the last would lie in the one before, that one moves to it: the last is where the file has it.
    """
    count = math.floor((field.last - field.first) / field.spacing + 1e-6)
    positions = [field.first + i * field.spacing for i in range(count + 1)]
    if field.last - positions[-1] > section_of(field).b:
        return [*positions, field.last]
    return [*positions[:-1], field.last] if count else positions


def moved_joist(field: JoistField, joists: Sequence[Member]) -> Iterator[Note]:
    """What is said of a last joist that would lie in the one before it."""
    count = math.floor((field.last - field.first) / field.spacing + 1e-6)
    before = field.first + count * field.spacing
    off = feet_inches(field.last - before)
    if STEP < field.last - before <= section_of(field).b and joists:
        said = (
            f"The last joist of field {field.mark} would be {off} from the one before it, less than its width: "
            + (
                f"that one was moved to it, {feet_inches(field.spacing + field.last - before)} from its neighbour."
                if count
                else f"one joist is laid, at {feet_inches(field.first)}; the last was left out."
            )
        )
        yield Note(joists[-1].mark, said)


def section_of(field: JoistField) -> Section:
    """Section of a field's joists."""
    return parse_section(field.section)


def counts_along(field: JoistField) -> str:
    """In words, which way the positions of a field's joists count: to the left of the way they run."""
    _, (x, y) = field_axes(field)
    if abs(x) < 1e-9 or abs(y) < 1e-9:
        axis, size = ("x", x) if abs(x) > abs(y) else ("y", y)
        return (
            f"along {axis}" if size > 0 else f"along minus {axis}: a joist at {axis} = 16 in counts as -16 in"
        )
    return f"square to the joists, to the left of the way they run (towards {x:+.2f} x, {y:+.2f} y)"


def field_axes(field: JoistField) -> tuple[Vector, Vector]:
    """Direction of the joists and the direction across them, in which their positions count."""
    angle = math.radians(field.direction)
    u = (round(math.cos(angle), 12), round(math.sin(angle), 12))
    return u, (-u[1], u[0])


def board_axes(field: JoistField, decking: Decking) -> tuple[Vector, Vector]:
    """Direction across the boards of a field and that along them: those of its joists, turned where boards lie aslant.

    Boards ``diagonal left`` run 45 degrees to the left of the way the joists run: their axes are turned back by that.
    """
    turn = BOARD_TURN[decking.direction]
    if not turn:
        return field_axes(field)
    angle = math.radians(field.direction - turn)
    u = (round(math.cos(angle), 12), round(math.sin(angle), 12))
    return u, (-u[1], u[0])


def field_region(field: JoistField, deck: Polygon) -> Polygon:
    """Part of the deck that a field of joists carries."""
    if field.region is None:
        return deck
    wanted = Polygon(field.region)
    region = deck.intersection(wanted) if wanted.is_valid else Polygon()
    if region.is_empty or region.geom_type != "Polygon":
        raise LayoutError(
            f"Joist field {field.mark}: its region is no simple polygon that overlaps the platform in one piece."
        )
    return region


def segments(region: Polygon, u: Vector, n: Vector, t: float) -> list[tuple[float, float]]:
    """Stretches of a joist's line that lie inside the region or on its edge, as distances along ``u``."""
    far = 5000.0
    ends = [(u[0] * s + n[0] * t, u[1] * s + n[1] * t) for s in (-far, far)]
    inside = region.intersection(LineString(ends))
    spans: list[tuple[float, float]] = []
    for part in getattr(inside, "geoms", [inside]):
        if part.geom_type == "LineString" and not part.is_empty:
            along = [x * u[0] + y * u[1] for x, y in part.coords]
            spans.append((min(along), max(along)))
    joined: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if joined and low - joined[-1][1] < _TOUCH:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return [(low, high) for low, high in joined if high - low > SHORTEST]
