"""What an arrangement takes and costs, from its layout alone: no check is run for it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.rod_ends import rod_ends
from bolewright.setting_out.holes import holes
from bolewright.sizing.stock import Stock
from bolewright.take_off.cut_list import framing_cuts
from bolewright.timber.sections import parse_section

Least = Literal["cost", "wood", "concrete"]
_STEEL = 0.284  # lb/cu in
_BOARD_FOOT = 144.0  # cu in


@dataclass(frozen=True)
class Amounts:
    """Cost in the prices' currency, wood (board feet as dressed) and concrete (cu ft)."""

    cost: float
    wood: float
    concrete: float

    def by(self, least: Least) -> tuple[float, float]:
        """What is to be least, then cost; rounded so that sums in another order compare alike."""
        return (round(getattr(self, least), 6), round(self.cost, 6))


def amounts_of(layout: Layout, stock: Stock) -> Amounts:
    """What a layout takes: timber by the foot as cut, concrete, digging, bolts and hangers."""
    wood = cost = 0.0
    for cut in framing_cuts(layout):
        section = parse_section(cut.lumber.section)
        wood += section.b * section.d * cut.buy / _BOARD_FOOT
        cost += stock.foot(cut.lumber.section) * cut.buy / 12
    boards = parse_section(layout.project.decking.section)
    deck = layout.deck.area
    wood += deck * boards.b / _BOARD_FOOT
    cost += stock.foot(boards.single) * deck / boards.d / 12
    concrete = 0.0
    for hole in holes(layout):
        concrete += hole.concrete_volume
        across = math.pi / 4 if hole.shape == "round" else 1.0
        cost += stock.digging * across * (hole.width / 12) ** 2 * hole.dig / 12
    cost += stock.concrete * concrete
    return Amounts(cost + _hardware(layout, stock), wood, concrete)


def _hardware(layout: Layout, stock: Stock) -> float:
    project = layout.project
    cost = stock.hanger * sum(seat.connection is not None for m in layout.members for seat in m.seats)
    for support in project.supports:
        if support.bolt is not None:
            bolt = project.bolts[support.bolt]
            long = bolt.embedment + bolt.seat_length + 3.0  # what is in the bark and past the seat
            cost += stock.steel * _STEEL * math.pi / 4 * bolt.diameter**2 * long
        if support.post is not None:
            post = project.posts[support.post]
            thick = parse_section(post.section).b
            cost += _bolts(stock, post.foot_bolts or 0, post.foot_bolt_diameter or 0.5, thick + 6.0)
    for brace in project.braces:
        if brace.bolts is not None:
            kind = next(s.post for s in project.supports if s.mark == brace.support)
            thick = parse_section(project.posts[kind or ""].section).b + 1.5 * brace.plies
            cost += 2 * _bolts(stock, brace.bolts, brace.bolt_diameter or 0.5, thick + 1.0)
    for rods in project.crossed_rods:
        for ends in rod_ends(layout, rods):
            long = math.hypot(ends.run, ends.high - ends.low)
            cost += stock.steel * _STEEL * math.pi / 4 * rods.diameter**2 * long
            cost += 3 * stock.hanger  # two ends and a turnbuckle, each taken as a hanger
    return cost


def _bolts(stock: Stock, count: int, diameter: float, long: float) -> float:
    return count * (stock.bolt + stock.bolt_inch * math.pi / 4 * diameter**2 * long)
