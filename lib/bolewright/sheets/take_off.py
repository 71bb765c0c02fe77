"""The take-off sheets: what to cut, what to buy, how each stick is cut, hardware, concrete, what to lift."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from bolewright.fasteners.plies import ply_schedule
from bolewright.platform.results import Results
from bolewright.reference import load
from bolewright.rendering.blocks import Block, KeyValues, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits, percent
from bolewright.sheets.opening import Blocks, Shown, results_of
from bolewright.sheets.printing import printed
from bolewright.sheets.stick_figures import alike, stick_figures
from bolewright.take_off.buying import Purchase, near_misses
from bolewright.take_off.concrete import CUBIC_YARD
from bolewright.take_off.cut_list import CutLine, Lumber, Use, run_of
from bolewright.take_off.hardware import PROTECTION, packing
from bolewright.take_off.take_off import TakeOff, find_take_off
from bolewright.take_off.weights import FRESH, ONE_PERSON, board_measure
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

_FROM_MEMORY = "from memory, confirm against the printed document"
_MOST_LIFTS = 8


def open_take_off(project: str | Path) -> TakeOffSheet:
    """Take-off sheets of a project file."""
    return TakeOffSheet(results_of(project))


@dataclass(frozen=True)
class TakeOffSheet:
    """The take-off of one project's results; every method gives a block to display."""

    results: Results

    @cached_property
    def take_off(self) -> TakeOff:
        """The take-off, found once."""
        return find_take_off(self.results)

    # Cut list

    def overview(self) -> KeyValues:
        """How much there is of it."""
        found = self.take_off
        feet = sum(board_measure(parse_section(c.lumber.section), c.long) for c in found.cuts)
        heaviest = found.lifts[0]
        return KeyValues(
            (
                ("Sticks to cut", f"{len(found.cuts)}"),
                ("Sticks to buy", f"{sum(len(p.sticks) for p in found.purchases)}"),
                ("Timber as cut", f"{feet:,.0f} board feet, {found.weight:,.0f} lb"),
                ("Heaviest part", f"{heaviest.mark}, {heaviest.weight:,.0f} lb with all its plies"),
            ),
            "In all",
        )

    def cut_list(self) -> Blocks:
        """Every stick once, by part and kind of lumber."""
        groups: dict[tuple[Use, Lumber], list[CutLine]] = {}
        for line in self.take_off.lines:
            groups.setdefault((line.cut.use, line.cut.lumber), []).append(line)
        return Blocks(tuple(_cut_table(use, lumber, lines) for (use, lumber), lines in groups.items()))

    def treatment(self) -> Statement:
        """What the treatment means and where it comes from."""
        table = load("treatment_by_use")
        used = {cut.use.value for cut in self.take_off.cuts}
        groups: dict[tuple[str, str], list[str]] = {}
        for row in table:
            if row["use"] in used:
                groups.setdefault((row["category"], row["why"]), []).append(f"{row['use']}s")
        said = [f"{category}: {', '.join(uses)}, {why}." for (category, why), uses in groups.items()]
        said.append(f"Treatment by {table.provenance['document']}, {_FROM_MEMORY}.")
        said.append(
            "Heartwood of a naturally durable species needs none above ground. Every fresh cut is brushed with the "
            "preservative that the treater names for it."
        )
        return Statement(StatementKind.NOTE, tuple(said))

    def lifts(self) -> Table:
        """What is heavy, with all plies fastened together."""
        rows = tuple(
            (lift.mark, lift.use.value, f"{lift.plies}", f"{lift.weight:,.0f}", f"{lift.people}")
            for lift in self.take_off.lifts[:_MOST_LIFTS]
        )
        return Table(
            ("mark", "part", "sticks", "weight (lb)", "people"),
            rows,
            f"The heaviest parts to lift, at {ONE_PERSON:g} lb a person on level ground (common practice)",
            "llrrr",
        )

    def weighing(self) -> Blocks:
        """Weight of the heaviest single stick, line by line."""
        cut = max(self.take_off.cuts, key=lambda c: c.weight)
        head = Statement(StatementKind.NOTE, (f"Heaviest single stick: {cut.label}, {cut.lumber.name}.",))
        return Blocks((head, *printed(cut.steps)))

    def lifting(self) -> Statement:
        """The heaviest lift in plain words."""
        heaviest, single = self.take_off.lifts[0], max(self.take_off.cuts, key=lambda c: c.weight)
        said = [
            f"The heaviest lift is {heaviest.mark}: {heaviest.weight:,.0f} lb with its {heaviest.plies} plies fastened "
            f"together, {heaviest.people} people on level ground, more on a ladder or rope and tackle."
            if heaviest.plies > 1
            else f"The heaviest lift is {heaviest.mark}: {heaviest.weight:,.0f} lb, {heaviest.people} people on level "
            "ground.",
            f"The heaviest single stick is {single.label}: {single.weight:,.0f} lb.",
            f"Lumber fresh from the treating plant weighs up to {FRESH:g} times as much (from memory): weigh one.",
        ]
        return Statement(StatementKind.READING, tuple(said))

    def cut_cautions(self) -> Statement:
        """What to mind before cutting."""
        loose = [c.label for c in self.take_off.cuts if c.use is Use.DECKING and len(c.under) < 2]
        return Statement(
            StatementKind.CAUTION,
            (
                *(
                    [
                        f"On fewer than two members: {run_of(loose)}. Fasten these to their neighbours by a cleat "
                        "underneath, or leave the strip to the rim."
                    ]
                    if loose
                    else []
                ),
                "Measure what stands before cutting: lengths here are of the plan. Posts are cut on the day, carriers "
                "and joists after the bolts and posts are measured.",
                "Left and right of a bevel are seen standing on the piece and facing that end.",
                "Not in these lists: guard, stairs or ladder, temporary bracing, packing, blocking and templates.",
                "Nobody stands under a lift, and no limb of the tree is an anchor before an arborist has looked at it.",
            ),
        )

    # Buying list

    def stock(self) -> KeyValues:
        """What the list counts with."""
        stock = self.results.project.stock
        car = feet_inches(stock.longest) if stock.longest is not None else "any length"
        return KeyValues(
            (
                ("Saw cut", feet_inches(stock.kerf)),
                ("Trimmed off each end", feet_inches(stock.end_trim)),
                ("Spare on a post", feet_inches(stock.post_spare)),
                ("The car carries", car),
                ("Prices", "from the project file" if self.results.project.prices else "none given"),
            ),
            "What the list counts with",
        )

    def buying_list(self) -> Table:
        """How many sticks of each length."""
        priced = bool(self.results.project.prices)
        rows = tuple(
            (
                purchase.lumber.name,
                _counts(purchase),
                f"{purchase.bought / 12:,.0f} ft",
                percent(purchase.waste),
                *((self._money(purchase.cost),) if priced else ()),
                "least possible" if purchase.proven else f"within {percent(purchase.gap)} of it",
            )
            for purchase in self.take_off.purchases
        )
        columns = ("lumber", "buy", "in all", "waste", *(("price",) if priced else ()), "least?")
        align, widths = ("llrrrl", (3.0, 4.0, 0, 0, 0, 0)) if priced else ("llrrl", (3.0, 4.0, 0, 0, 0))
        return Table(columns, rows, "Buying list", align, widths)

    def _money(self, amount: float | None) -> str:
        return "" if amount is None else f"{amount:,.2f} {self.results.project.stock.currency}".strip()

    def proof(self) -> Statement:
        """Whether a better list can be, and what would be longer than any stick."""
        found = self.take_off.purchases
        aim = "price" if all(p.priced for p in found) and found else "length bought, or price where given"
        said = [f"Sticks are chosen for the least {aim}; waste is saw cuts, end trims and offcuts."]
        open_ones = [p for p in found if not p.proven]
        if not open_ones:
            said.append("Every line is proven: no choice of these lengths takes less.")
        said += [
            f"{p.lumber.name}: at most {percent(p.gap)} could be saved; the search stopped there."
            for p in open_ones
        ]
        for purchase in found:
            for miss in near_misses(self.results.project, purchase):
                marks = run_of(list(dict.fromkeys(cut.mark for cut in miss.cuts)))
                said.append(
                    f"{marks} ({purchase.lumber.section}): {feet_inches(miss.over)} too long for a "
                    f"{miss.stick / 12:g} ft stick with its end trims."
                )
        delivered = [o for p in found for o, _ in p.counts if o.delivered]
        if delivered:
            said.append(
                "Longer than the car carries, to be delivered: "
                + ", ".join(_feet(o.length) for o in delivered)
            )
        return Statement(StatementKind.READING, tuple(said))

    def too_long(self) -> Blocks:
        """Pieces that no stick gives, loud."""
        marks = [
            f"{cut.label}, {cut.lumber.name}: {feet_inches(cut.buy)} is longer than any stick. Order it specially; a "
            "carrier is spliced only over a support, after the checks were run for that."
            for purchase in self.take_off.purchases
            for cut in purchase.too_long
        ]
        return Blocks((Statement(StatementKind.FAILURE, tuple(marks)),) if marks else ())

    def sticks(self) -> Blocks:
        """How each stick is cut, drawn to scale, and as a table."""
        shown: list[Shown] = []
        for purchase in self.take_off.purchases:
            shown += stick_figures(purchase, self.results.project.stock)
        return Blocks(tuple(shown))

    def stick_table(self) -> Blocks:
        """What is cut from each stick, in order from one end."""
        return Blocks(tuple(_stick_table(purchase) for purchase in self.take_off.purchases))

    def cost(self) -> Blocks:
        """What it costs, as far as there are prices."""
        cost = self.take_off.cost
        if cost is None:
            said = "The project file has no prices: the list takes the least length. A price table buys by price."
            return Blocks((Statement(StatementKind.NOTE, (said,)),))
        rows = [
            (line.item, digits(line.count), f"{line.each:,.2f}", f"{line.total:,.2f}") for line in cost.lines
        ]
        rows.append(("All that has a price", "", "", f"{cost.total:,.2f}"))
        head = ("item", "count", f"each {cost.currency}".strip(), f"total {cost.currency}".strip())
        blocks: list[Block] = [Table(head, tuple(rows), "Cost", "lrrr", (1.0, 0, 0, 0))]
        notes = []
        if cost.unpriced:
            notes.append("No price given: " + "; ".join(cost.unpriced) + ".")
        if cost.unused:
            notes.append("In the price table, but nothing asks for it: " + "; ".join(cost.unused) + ".")
        if notes:
            blocks.append(Statement(StatementKind.NOTE, tuple(notes)))
        return Blocks(tuple(blocks))

    # Hardware and concrete

    def hardware(self) -> Table:
        """Hardware by number."""
        rows = tuple(
            (item.name, item.size, "" if item.count is None else f"{item.count:,}", item.where)
            for item in self.take_off.hardware
        )
        return Table(("item", "size", "count", "where"), rows, "Hardware", "llrl", (2.4, 4.0, 0, 2.6))

    def materials(self) -> Table:
        """Material and coating that go with treated lumber."""
        table = load(PROTECTION)
        rows = tuple((row["kind"], row["material"], row["where_salt_or_always_wet"]) for row in table)
        caption = f"Material with treated lumber outdoors: {table.source}, {_FROM_MEMORY}"
        return Table(
            ("hardware", "material", "near salt water or always wet"), rows, caption, "lll", (1.4, 4.0, 1.6)
        )

    def hardware_notes(self) -> Statement:
        """What goes with the hardware list."""
        said = [
            "Hangers, caps, ties and angles are bought by the rated load in the project file, with their maker's "
            "fasteners: nails are not counted here, screws take their place only where the maker says so.",
            "Skewed hangers are ordered by angle and hand: left or right is where the joist comes off the carrier as "
            "you face the carrier.",
            "One metal for a connector and its fasteners: no stainless with zinc, no aluminium in copper-treated wood.",
            f"Plies: {ply_schedule().source}. Where the carrier's sheet asks for closer fastening, that stands.",
            "Buy one in twenty more of screws and nails.",
        ]
        gaps: dict[float, list[str]] = {}
        for brace in self.results.project.braces:
            gaps.setdefault(packing(self.results.path.layout, brace), []).append(brace.mark)
        said += [
            f"{run_of(marks)}: post and carrier differ in width, so the plies want packing of {feet_inches(gap)} on "
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
                f"{hole.shape}, {feet_inches(hole.width)}",
                feet_inches(hole.dig),
                f"{hole.concrete_volume:.2f}",
                f"{hole.gravel_volume:.2f}",
            )
            for hole in concrete.holes
        )
        table = Table(
            ("post", "hole", "dig", "concrete (cu ft)", "gravel (cu ft)"), rows, "Holes, as drawn", "llrrr"
        )
        return Blocks((table, *printed(own), *printed(concrete.steps)))

    def concrete_reading(self) -> Statement:
        """What to order, in plain words."""
        concrete = self.take_off.concrete
        stock = self.results.project.stock
        if not concrete.holes:
            return Statement(StatementKind.READING, ("No concrete to order.",))
        said = [
            f"Concrete: {concrete.volume:.1f} cu ft as drawn, {concrete.ordered:.1f} cu ft "
            f"({concrete.ordered / CUBIC_YARD:.2f} cu yd) to order with {percent(stock.overbreak)} for overbreak.",
            f"In bags of {stock.bag_weight:g} lb that make {stock.bag_yield:g} cu ft: {concrete.bags} bags, "
            f"{concrete.weight:,.0f} lb to carry.",
        ]
        by_hole = sum(hole.bags for hole in concrete.holes)
        if by_hole != concrete.bags:
            said.append(
                f"Counted hole by hole, as on the setting-out sheet, each rounded up: {by_hole} bags."
            )
        if concrete.gravel:
            said.append(f"Gravel: {concrete.gravel_ordered:.1f} cu ft with overbreak.")
        return Statement(StatementKind.READING, tuple(said))

    def hardware_cautions(self) -> Statement:
        """What to mind."""
        return Statement(
            StatementKind.CAUTION,
            (
                "Read the tag: treatment, coating and rated load must be the ones the sheets count with.",
                "No concrete before somebody has looked at the bottom of every hole. Mix with the water on the bag, "
                "no more.",
                "No load on the posts for 7 days after the concrete, longer below 50 °F (common practice).",
            ),
        )


def _feet(length: float) -> str:
    return f"{length / 12:g} ft"


def _counts(purchase: Purchase) -> str:
    return ", ".join(
        f"{count} of {_feet(offer.length)}{' (delivered)' if offer.delivered else ''}"
        for offer, count in purchase.counts
    )


def _cut_table(use: Use, lumber: Lumber, lines: list[CutLine]) -> Table:
    rows = tuple(
        (
            line.marks,
            f"{line.count}",
            feet_inches(line.cut.long),
            feet_inches(line.cut.short) if line.cut.short != line.cut.long else "",
            *line.cut.ends,
            f"{line.cut.weight:.1f}",
        )
        for line in lines
    )
    columns = ("mark", "count", "long point", "short point", "start", "end", "each (lb)")
    return Table(columns, rows, f"{use.value.capitalize()}s: {lumber.name}", "lrrrllr")


def _stick_table(purchase: Purchase) -> Table:
    rows = tuple(
        (
            run_of([str(stick.number) for stick in group]),
            _feet(group[0].offer.length),
            "; ".join(
                f"{run_of([stick.cuts[i].label for stick in group])} {feet_inches(cut.buy)}"
                for i, cut in enumerate(group[0].cuts)
            ),
            feet_inches(group[0].left),
        )
        for group in alike(purchase)
    )
    columns = ("stick", "length", "cut, from one end", "left")
    return Table(columns, rows, purchase.lumber.name, "lrlr", (0, 0, 1.0, 0))
