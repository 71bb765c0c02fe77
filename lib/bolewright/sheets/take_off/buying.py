"""The buying list: which sticks to buy, how each is cut, and what it costs."""

from __future__ import annotations

from bolewright.rendering.blocks import Block, KeyValues, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits, percent
from bolewright.sheets.lengths import Tape
from bolewright.sheets.opening import Blocks, Shown
from bolewright.sheets.stick_figures import alike, stick_figures, stock_length
from bolewright.sheets.take_off.opening import TakeOffSheet
from bolewright.take_off.buying import Purchase, near_misses
from bolewright.take_off.cut_list import run_of


class BuyingSheet(TakeOffSheet):
    """Sticks to buy for the least price or length, proven or with the gap, and each as it is cut."""

    def stock(self) -> KeyValues:
        """What the list counts with."""
        stock = self.results.project.stock
        car = self.length(stock.longest) if stock.longest is not None else "any length"
        return KeyValues(
            (
                ("Saw cut", self.length(stock.kerf)),
                ("Trimmed off each end", self.length(stock.end_trim)),
                ("Spare on a post", self.length(stock.post_spare)),
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
                self._counts(purchase),
                self._bought(purchase.bought),
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
                    f"{marks} ({purchase.lumber.section}): {self.length(miss.over)} too long for a "
                    f"{self._yard(miss.stick)} stick with its end trims."
                )
        delivered = [o for p in found for o, _ in p.counts if o.delivered]
        if delivered:
            said.append(
                "Longer than the car carries, to be delivered: "
                + ", ".join(self._yard(o.length) for o in delivered)
            )
        return Statement(StatementKind.READING, tuple(said))

    def too_long(self) -> Blocks:
        """Pieces that no stick gives, and what no list counts, loud."""
        marks = [
            f"{cut.label}, {cut.lumber.name}: {self.length(cut.buy)} is longer than any stick. Order it specially; a "
            "beam is spliced only over a support, after the checks were run for that."
            for purchase in self.take_off.purchases
            for cut in purchase.too_long
        ]
        loud = [Statement(StatementKind.FAILURE, tuple(marks))] if marks else []
        return Blocks((*loud, self.not_counted()))

    def sticks(self) -> Blocks:
        """How each stick is cut, drawn to scale, and as a table."""
        shown: list[Shown] = []
        for purchase in self.take_off.purchases:
            shown += stick_figures(purchase, self.results.project.stock, self.length)
        return Blocks(tuple(shown))

    def stick_table(self) -> Blocks:
        """What is cut from each stick, in order from one end."""
        return Blocks(tuple(self._stick_table(purchase) for purchase in self.take_off.purchases))

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

    def _bought(self, inches: float) -> str:
        """Length of all sticks of one kind together."""
        return f"{inches / 12:,.0f} ft" if self.length.tape is Tape.FEET else f"{inches * 0.0254:,.1f} m"

    def _yard(self, inches: float) -> str:
        return stock_length(inches, self.length)

    def _counts(self, purchase: Purchase) -> str:
        return ", ".join(
            f"{count} of {self._yard(offer.length)}{' (delivered)' if offer.delivered else ''}"
            for offer, count in purchase.counts
        )

    def _stick_table(self, purchase: Purchase) -> Table:
        rows = tuple(
            (
                run_of([str(stick.number) for stick in group]),
                self._yard(group[0].offer.length),
                "; ".join(
                    f"{run_of([stick.cuts[i].label for stick in group])} {self.length(cut.buy)}"
                    for i, cut in enumerate(group[0].cuts)
                ),
                self.length(group[0].left),
            )
            for group in alike(purchase)
        )
        columns = ("stick", "length", "cut, from one end", "left")
        return Table(columns, rows, purchase.lumber.name, "lrlr", (0, 0, 1.0, 0))
