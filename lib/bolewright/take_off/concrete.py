"""Concrete, bags and gravel for all holes, and what was dug out."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.ground.concrete import bags_of_concrete, whole_bags
from bolewright.platform.layout.layout import Layout
from bolewright.setting_out.holes import Hole, holes
from bolewright.units import Ratio, VolumeFeet

CUBIC_YARD = 27.0  # cu ft


@formula("Geometry (volume with overbreak)")
def volume_to_order(V: VolumeFeet, w: Ratio) -> VolumeFeet:
    """Volume to order for a drawn volume.

    Parameters: V drawn volume (ft³); w overbreak and loss, 0.10 for 10 %. Returns: V_o (ft³).
    Source: common practice.

    >>> round(volume_to_order(10.0, 0.10), 3)
    11.0
    """
    V_o: VolumeFeet = V * (1 + w)
    return V_o


@dataclass(frozen=True)
class Concrete:
    """All holes: drawn volumes and what to order (cu ft), bags, and their weight (lb)."""

    holes: tuple[Hole, ...]
    volume: float
    ordered: float
    bags: int
    bag_weight: float
    gravel: float
    gravel_ordered: float
    steps: tuple[Step, ...]

    @property
    def weight(self) -> float:
        """Weight of all bags to carry (lb)."""
        return self.bags * self.bag_weight


def concrete_of(layout: Layout) -> Concrete:
    """Concrete and gravel of a layout, with the user's bag and overbreak."""
    stock = layout.project.stock
    found = holes(layout)
    volume = sum(hole.concrete_volume for hole in found)
    gravel = sum(hole.gravel_volume for hole in found)
    calculation = Calculation()
    run = calculation.run
    ordered = float(run(volume_to_order, V=volume, w=stock.overbreak))
    bags = float(run(bags_of_concrete, V=volume, y=stock.bag_yield, w=stock.overbreak))
    gravel_ordered = float(run(volume_to_order, V=gravel, w=stock.overbreak)) if gravel else 0.0
    return Concrete(
        holes=found,
        volume=volume,
        ordered=ordered,
        bags=whole_bags(bags),
        bag_weight=stock.bag_weight,
        gravel=gravel,
        gravel_ordered=gravel_ordered,
        steps=calculation.at(()),
    )
