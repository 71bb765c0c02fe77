"""The whole take-off of a project's results."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.platform.results.results import Results
from bolewright.take_off.buying import Purchase, buying_list
from bolewright.take_off.concrete import Concrete, concrete_of
from bolewright.take_off.cost import Cost, find_cost
from bolewright.take_off.cut_list import Cut, CutLine, cut_lines, find_cuts
from bolewright.take_off.hardware import hardware_list
from bolewright.take_off.items import Item
from bolewright.take_off.lifts import Lift, find_lifts
from bolewright.take_off.uncounted import Uncounted, uncounted


@dataclass(frozen=True)
class TakeOff:
    """Cuts, what to buy for them, hardware, concrete, lifts, cost where there are prices, and what is not counted."""

    results: Results
    cuts: tuple[Cut, ...]
    purchases: tuple[Purchase, ...]
    hardware: tuple[Item, ...]
    concrete: Concrete
    cost: Cost | None
    uncounted: tuple[Uncounted, ...]

    @property
    def lines(self) -> tuple[CutLine, ...]:
        """Cut list with like sticks together."""
        return cut_lines(self.cuts)

    @property
    def lifts(self) -> tuple[Lift, ...]:
        """Parts as they are lifted, the heaviest first."""
        return find_lifts(self.cuts)

    @property
    def weight(self) -> float:
        """Weight of all timber (lb)."""
        return sum(cut.weight for cut in self.cuts)


def find_take_off(results: Results) -> TakeOff:
    """Take-off of a project."""
    layout = results.path.layout
    cuts = find_cuts(results)
    purchases = buying_list(results.project, cuts)
    hardware = hardware_list(results)
    concrete = concrete_of(layout)
    cost = find_cost(results.project, purchases, hardware, concrete)
    return TakeOff(results, cuts, purchases, hardware, concrete, cost, uncounted(layout))
