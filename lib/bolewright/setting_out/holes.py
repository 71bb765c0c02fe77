"""Holes for the posts: width, depth to dig, gravel, concrete and bags."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.calculation import Calculation, Step
from bolewright.ground.concrete import (
    bags_of_concrete,
    concrete_volume_round,
    concrete_volume_square,
    whole_bags,
)
from bolewright.platform.layout.layout import Layout
from bolewright.setting_out.plan import posts_of
from bolewright.timber.sections import parse_section


@dataclass(frozen=True)
class Hole:
    """A hole for a post: lengths in inches, volumes in cubic feet. ``dig`` is below grade, gravel included."""

    post: str
    shape: str
    width: float
    dig: float
    gravel: float
    gravel_volume: float
    pad: float
    foot: float
    fill: str
    concrete_volume: float
    bags: int
    steps: tuple[Step, ...]


def holes(layout: Layout) -> tuple[Hole, ...]:
    """Hole of every post. ``foot`` is how far the post's foot stands below grade, on top of the pad."""
    found = []
    stock = layout.project.stock
    for support in posts_of(layout):
        footing = layout.project.footings[support.footing or ""]
        section = parse_section(layout.project.posts[support.post or ""].section)
        collar = footing.depth - footing.pad if footing.fill == "concrete" else 0.0
        calculation = Calculation()
        run = calculation.run
        d = footing.width / 12
        post_area = section.b * section.d / 144
        if footing.shape == "round":
            volume = float(run(concrete_volume_round, d_h=d, H=footing.pad / 12, A_post=0.0))
            if collar > 0:
                volume += float(run(concrete_volume_round, d_h=d, H=collar / 12, A_post=post_area))
            area = math.pi * d**2 / 4
        else:
            volume = float(run(concrete_volume_square, B=d, H=footing.pad / 12))
            if collar > 0:
                volume += float(run(concrete_volume_square, B=d, H=collar / 12)) - post_area * collar / 12
            area = d**2
        n = float(run(bags_of_concrete, V=volume, y=stock.bag_yield, w=stock.overbreak))
        found.append(
            Hole(
                post=support.mark,
                shape=footing.shape,
                width=footing.width,
                dig=footing.depth + footing.gravel,
                gravel=footing.gravel,
                gravel_volume=area * footing.gravel / 12,
                pad=footing.pad,
                foot=footing.depth - footing.pad,
                fill=footing.fill,
                concrete_volume=volume,
                bags=whole_bags(n),
                steps=calculation.at(()),
            )
        )
    return tuple(found)
