"""Loads at one place on the plan: a ring with a cross where it stands or hangs, an arrow the way it pushes."""

from __future__ import annotations

import math

from bolewright.calculation import Calculation
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.point_loads import ends_of, run_force
from bolewright.rendering.drawing import Arrow, Circle, Item, Layer, Line, Mark
from bolewright.rendering.numbers import digits

_RING = 3.0  # in
_ARROW = 14.0  # in


def places_on_plan(layout: Layout) -> list[Item]:
    """Symbols and marks of all loads at one place."""
    items: list[Item] = []
    for load in layout.project.point_loads:
        force = run_force(Calculation().run, load)
        half = _RING * math.sqrt(0.5)
        for (x, y), (d_x, d_y) in ends_of(layout, load):
            items += [
                Circle((x, y), _RING, Layer.LOADS),
                Line((x - half, y - half), (x + half, y + half), Layer.LOADS),
                Line((x - half, y + half), (x + half, y - half), Layer.LOADS),
                Mark((x, y), load.mark),
            ]
            if force.level:
                angle = math.degrees(math.atan2(d_y, d_x))
                for way in (1, -1) if force.reverses else (1,):
                    tip = (x + way * _ARROW * d_x, y + way * _ARROW * d_y)
                    items.append(Arrow(tip, angle + (0.0 if way > 0 else 180.0), length=5.0))
    return items


def places_in_words(layout: Layout) -> list[str]:
    """A line for every load at one place: what it is and what it brings."""
    lines = []
    for load in layout.project.point_loads:
        force = run_force(Calculation().run, load)
        said = [f"{digits(abs(force.down))} lb {'down' if force.down >= 0 else 'up'}"] if force.down else []
        said += (
            [f"{digits(force.level)} lb lateral{', both ways' if force.reverses else ''}"]
            if force.level
            else []
        )
        if load.other_end is not None:
            said.append(f"at each of its two ends on {load.member}")
        lines.append(f"{load.mark}: {load.note or load.form}, {load.kind}, {', '.join(said)}.")
    return lines
