"""What the platform needs and these lists do not count: said with what the project file tells of it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.platform.layout.guard_ways import covered_edges
from bolewright.platform.layout.layout import Layout, Line
from bolewright.platform.layout.stair_rails import stair_rail
from bolewright.platform.project import Wall
from bolewright.platform.project.bearing import SupportKind
from bolewright.setting_out.ground import ground_plan
from bolewright.setting_out.plan import posts_of
from bolewright.setting_out.stacks import stacks
from bolewright.take_off.cut_list import run_of
from bolewright.take_off.in_frame import packing

GUARD_ABOVE = 30.0  # in: a floor higher than this wants a guard (IRC 2021, R312.1.1)
REACH = 2 / 3  # of a post's height, at which its temporary braces hold it, at 45 degrees (common practice)


@dataclass(frozen=True)
class Uncounted:
    """Something that is not counted: what, how much of it the project file tells (in, None: no length), and why."""

    what: str
    marks: str
    number: int | None
    length: float | None
    why: str


def uncounted(layout: Layout) -> tuple[Uncounted, ...]:
    """All that these lists leave out, what people fall from first."""
    return (
        *_guard(layout),
        *_walls(layout),
        *_way_up(layout),
        *_temporary(layout),
        *_ground(layout),
        *_packing(layout),
        *_blocking(layout),
        Uncounted(
            "lifting and fall protection", "", None, None, "ropes, tackle, harness, ladders or scaffold"
        ),
    )


def _blocking(layout: Layout) -> Iterator[Uncounted]:
    if not layout.blocking:
        why = "the file describes none ([[blocking]]): count it where the sheets ask for it"
        yield Uncounted("blocking and rim", "", None, None, why)


def _guard(layout: Layout) -> Iterator[Uncounted]:
    loads, outline = layout.project.loads, layout.project.platform.outline
    left = [n for n in loads.guard_edges if n not in covered_edges(layout.project)]
    if left:
        edges = [Line.between(outline[n - 1], outline[n % len(outline)]).length for n in left]
        marks = run_of([f"edge {n}" for n in left])
        why = "posts, rails, infill and their bolts: the file gives only its height, weight and edges"
        yield Uncounted("guard", marks, len(edges), sum(edges), why)
    elif not loads.guard_edges and layout.project.platform.floor_height > GUARD_ABOVE:
        yield Uncounted(
            "guard", "", None, None, "the file has no edge with a guard, and the floor is over 30 in. up"
        )


def _walls(layout: Layout) -> Iterator[Uncounted]:
    walls = layout.project.walls
    if walls:
        lengths = [_run(layout, wall) for wall in walls]
        why = "studs, boards and fastening: the file gives only length, height and solidity"
        yield Uncounted("wall or screen", run_of([w.mark for w in walls]), len(walls), sum(lengths), why)


def _run(layout: Layout, wall: Wall) -> float:
    outline = layout.project.platform.outline
    edge = Line.between(outline[wall.edge - 1], outline[wall.edge % len(outline)]).length
    return edge - wall.start if wall.length is None else min(wall.length, edge - wall.start)


def _way_up(layout: Layout) -> Iterator[Uncounted]:
    height = layout.project.platform.floor_height
    if layout.ladder is not None:
        return
    if layout.stairs is not None:
        posts = "" if stair_rail(layout) else "posts, "
        why = (
            f"{posts}rails and infill of the stairs, and what fastens them: the file gives only their height"
        )
        yield Uncounted("handrail and guard of the stairs", "stair", 2, None, why)
        return
    yield Uncounted(
        "stairs or ladder", "", None, height, "the file describes none; the length is the floor's height"
    )


def _temporary(layout: Layout) -> Iterator[Uncounted]:
    posts = posts_of(layout)
    if posts:
        high = max(stack.top for stack in stacks(layout) if stack.kind == SupportKind.POST)
        why = "two to each post, with a stake each, until the frame holds itself (setting out, stages)"
        long = math.ceil(REACH * high * math.sqrt(2) / 12) * 12.0
        yield Uncounted(
            "temporary brace", run_of([p.mark for p in posts]), 2 * len(posts), 2 * len(posts) * long, why
        )


def _ground(layout: Layout) -> Iterator[Uncounted]:
    if (plan := ground_plan(layout)) is not None:
        strings = len(plan.strings)
        length = sum(string.length for string in plan.strings)
        why = "two to each string, with stakes; the length is that of the strings"
        yield Uncounted("batter board", "", 2 * strings, length, why)


def _packing(layout: Layout) -> Iterator[Uncounted]:
    marks = [brace.mark for brace in layout.project.braces if packing(layout, brace) > 0]
    if marks:
        why = "between the plies of lapped braces, where post and beam differ in width"
        yield Uncounted("packing", run_of(marks), 2 * len(marks), None, why)
