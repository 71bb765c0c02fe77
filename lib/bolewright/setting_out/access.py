"""Where stairs and a ladder stand along their edge, a ladder's rails as they are marked, a hatch and its cover."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.stairs import edge_line
from bolewright.timber.sections import parse_section


@dataclass(frozen=True)
class Stand:
    """A way up in plan (in): which edge, where its stringers or rails meet it, and how far out it stands.

    ``middles`` are from the edge's first corner; ``inset`` is from the edge in to the framing's face, from which
    ``out`` is measured level to the foot. ``pad`` is what it stands on: along the way up and across it, if given.
    """

    what: str
    edge: int
    opening: int | None
    middles: tuple[float, ...]
    inset: float
    out: float
    foot: float
    pad: tuple[float, float] | None


@dataclass(frozen=True)
class LadderCut:
    """A ladder's rails (in, degrees), along their edge next to the platform from the level cut at the foot.

    ``rail`` the stick it takes, ``to_floor`` and ``over`` the floor along it, ``pitch`` from level, ``steps`` the tops
    of its rungs or treads, ``foot_bevel`` of the level cut, from square.
    """

    rail: float
    to_floor: float
    over: float
    pitch: float
    clear: float
    steps: tuple[float, ...]
    rise: float
    foot_bevel: float


@dataclass(frozen=True)
class HatchCut:
    """A hatch (in): clear hole along and across the joists, its diagonal, boards and battens of its cover."""

    length: float
    width: float
    diagonal: float
    boards: int
    board: float
    gap: float


def stands(layout: Layout) -> tuple[Stand, ...]:
    """Stairs and ladder that have a place."""
    found = []
    project, platform = layout.project, layout.project.platform
    if (plan := layout.stairs) is not None and plan.stairs.edge is not None:
        edge = edge_line(platform.outline, plan.stairs.edge)
        stairs = plan.stairs
        pad = None if stairs.pad_length is None else (stairs.pad_length, stairs.pad_width or stairs.width)
        middles = _along(edge, [head.at for head in plan.heads])
        found.append(
            Stand("stairs", plan.stairs.edge, None, middles, plan.inset, plan.going, plan.level, pad)
        )
    ladder = layout.ladder
    if ladder is not None and ladder.ladder.edge is not None:
        given = ladder.ladder
        ring = platform.outline if given.opening is None else platform.openings[given.opening - 1]
        edge = edge_line(ring, ladder.ladder.edge)
        pad = None if given.pad is None else (given.pad, given.pad)
        found.append(
            Stand(
                project.ladder.kind,
                ladder.ladder.edge,
                given.opening,
                _along(edge, ladder.heads),
                edge.distance(ladder.heads[0]),
                ladder.run,
                ladder.level,
                pad,
            )
        )
    return tuple(found)


def _along(edge: Line, places: tuple[Vector, ...] | list[Vector]) -> tuple[float, ...]:
    return tuple(sorted(edge.along(place) for place in places))


def ladder_cut(layout: Layout) -> LadderCut | None:
    """The ladder as it is marked; None where there is none."""
    plan = layout.ladder
    if plan is None:
        return None
    sine = math.sin(math.radians(plan.pitch))
    return LadderCut(
        plan.rail_stock,
        plan.slope_length,
        plan.over_length,
        plan.pitch,
        plan.clear,
        tuple(k * plan.rise / sine for k in range(1, plan.count)),
        plan.rise,
        90.0 - plan.pitch,
    )


def hatch_cut(layout: Layout) -> HatchCut | None:
    """The hatch and its cover; None where there is none."""
    hatch, decking = layout.project.hatch, layout.project.decking
    if hatch.at is None:
        return None
    board = parse_section(decking.section).d
    count = math.ceil(hatch.length / (board + decking.gap) - 1e-6)
    return HatchCut(
        hatch.length, hatch.width, math.hypot(hatch.length, hatch.width), count, board, decking.gap
    )
