"""Hardware by number with its material, and the concrete of every hole."""

from __future__ import annotations

from bolewright.fasteners.plies import ply_schedule
from bolewright.platform.limit_states.check import Check
from bolewright.reference import load
from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.rendering.numbers import percent
from bolewright.sheets.lengths import Tape
from bolewright.sheets.opening import Blocks
from bolewright.sheets.printing import printed
from bolewright.sheets.take_off.opening import FROM_MEMORY, TakeOffSheet
from bolewright.status import Status
from bolewright.take_off.concrete import CUBIC_YARD
from bolewright.take_off.connections import connection_schedule
from bolewright.take_off.cut_list import run_of
from bolewright.take_off.in_frame import packing
from bolewright.take_off.items import PROTECTION


class HardwareSheet(TakeOffSheet):
    """What to buy besides timber."""

    def hardware(self) -> Table:
        """Hardware by number."""
        rows = tuple(
            (item.name, item.size, "" if item.count is None else f"{item.count:,}", item.where)
            for item in self.take_off.hardware
        )
        return Table(("item", "size", "count", "where"), rows, "Hardware", "llrl", (2.4, 4.0, 0, 2.6))

    def connections(self) -> Table:
        """The connection schedule: every joint once, like joints in one row."""
        rows = tuple(
            (
                str(joint.number),
                f"{joint.kind}; {len(joint.parts)}: {joint.parts[0]}"
                + (f" to {joint.parts[-1]}" if len(joint.parts) > 1 else ""),
                f"{joint.fastener}; {joint.each}; {joint.pattern}",
                "; ".join(self._asked(check) for check in joint.governing if _says(check)) or "nothing",
                f"{joint.basis}; {joint.protection}",
            )
            for joint in connection_schedule(self.results)
        )
        columns = (
            "no.",
            "joint; places",
            "fastener; how many; pattern",
            "asked of allowed",
            "by; protection",
        )
        caption = "Connections: protection by the table of materials; ratings are typed in, never chosen here"
        return Table(columns, rows, caption, "rllll", (0.3, 1.6, 2.6, 3.6, 1.2))

    def _asked(self, check: Check) -> str:
        """What a check asks of its joint, and what is allowed."""
        if not check.has_sizes:
            return f"{check.limit_state}: {check.shown_ratio}"
        demand, allowed = self.length.both(check.demand, check.capacity, check.unit)
        return f"{check.limit_state}: {demand} of {allowed}"

    def materials(self) -> Table:
        """Material and coating that go with treated lumber."""
        table = load(PROTECTION)
        rows = tuple((row["kind"], row["material"], row["where_salt_or_always_wet"]) for row in table)
        caption = f"Material with treated lumber outdoors: {table.source}, {FROM_MEMORY}"
        return Table(
            ("hardware", "material", "near salt water or always wet"), rows, caption, "lll", (1.4, 4.0, 1.6)
        )

    def hardware_notes(self) -> Statement:
        """What goes with the hardware list."""
        said = [
            "Hangers, caps, ties and angles are bought by the rated load in the project file, with their maker's "
            "fasteners: nails are not counted here, screws take their place only where the maker says so.",
            "Skewed hangers are ordered by angle and hand: left or right is where the joist comes off the beam as "
            "you face the beam. Their rating has to be the maker's for that skew, not the one for a square end.",
            "One metal for a connector and its fasteners: no stainless with zinc, no aluminium in copper-treated wood.",
            f"Plies: {ply_schedule().source}, or closer where the project file says so.",
            "Buy one in twenty more of screws and nails.",
        ]
        gaps: dict[float, list[str]] = {}
        for brace in self.results.project.braces:
            gaps.setdefault(packing(self.results.path.layout, brace), []).append(brace.mark)
        said += [
            f"{run_of(marks)}: post and beam differ in width, so the plies want packing of {self.length(gap)} on "
            "both sides of the narrower one, fastened as the engineer says."
            for gap, marks in gaps.items()
            if gap > 0
        ]
        return Statement(StatementKind.NOTE, tuple(said))

    def concrete(self) -> Blocks:
        """Concrete of one hole and of all, line by line."""
        concrete = self.take_off.concrete
        if not concrete.holes:
            return Blocks((Statement(StatementKind.NOTE, ("No holes: there is no concrete.",)),))
        first = concrete.holes[0]
        own = [step for step in first.steps if "bag" not in step.formula.name]
        rows = tuple(
            (
                hole.post,
                f"{hole.shape}, {self.length(hole.width)}",
                self.length(hole.dig),
                self.length.volume(hole.concrete_volume),
                self.length.volume(hole.gravel_volume),
            )
            for hole in concrete.holes
        )
        table = Table(("post", "hole", "dig", "concrete", "gravel"), rows, "Holes, as drawn", "llrrr")
        return Blocks((table, *printed(own), *printed(concrete.steps)))

    def concrete_reading(self) -> Statement:
        """What to order, in plain words."""
        concrete = self.take_off.concrete
        stock = self.results.project.stock
        if not concrete.holes:
            return Statement(StatementKind.READING, ("No concrete to order.",))
        volume = self.length.volume
        feet = self.length.tape is Tape.FEET
        yards = f" ({concrete.ordered / CUBIC_YARD:.2f} cu yd)" if feet else ""
        said = [
            f"Concrete: {volume(concrete.volume)} as drawn, {volume(concrete.ordered)}{yards} to order "
            f"with {percent(stock.overbreak)} for overbreak.",
            f"In bags of {self.length.weight(stock.bag_weight)} that make {volume(stock.bag_yield)}: {concrete.bags} "
            f"bags, {self.length.weight(concrete.weight)} to carry.",
        ]
        by_hole = sum(hole.bags for hole in concrete.holes)
        if by_hole != concrete.bags:
            said.append(
                f"Counted hole by hole, as on the setting-out sheet, each rounded up: {by_hole} bags."
            )
        if concrete.gravel:
            said.append(f"Gravel: {volume(concrete.gravel_ordered)} with overbreak.")
        return Statement(StatementKind.READING, tuple(said))

    def hardware_cautions(self) -> Blocks:
        """What none of the lists counts, and what to mind."""
        mind = Statement(
            StatementKind.CAUTION,
            (
                "Read the tag: treatment, coating and rated load must be the ones the sheets count with.",
                "No concrete before somebody has looked at the bottom of every hole. Mix with the water on the bag, "
                "no more.",
                "No load on the posts for 7 days after the concrete, longer below 50 °F (10 °C; common practice).",
            ),
        )
        return Blocks((self.not_counted(), mind))


def _says(check: Check) -> bool:
    return check.status is Status.NOT_CHECKED or check.demand > 0
