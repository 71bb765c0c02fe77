"""The cut list: every stick of timber once, and what to lift."""

from __future__ import annotations

from bolewright.reference import load
from bolewright.rendering.blocks import KeyValues, Statement, StatementKind, Table
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.opening import Blocks
from bolewright.sheets.printing import printed
from bolewright.sheets.take_off.opening import FROM_MEMORY, TakeOffSheet
from bolewright.take_off.cut_list import CutLine, Lumber, Use, run_of
from bolewright.take_off.weights import FRESH, ONE_PERSON, board_measure
from bolewright.timber.sections import parse_section

_MOST_LIFTS = 8


class CutListSheet(TakeOffSheet):
    """Every stick as it is cut, its treatment and its weight."""

    def overview(self) -> KeyValues:
        """How much there is of it."""
        found = self.take_off
        feet = sum(board_measure(parse_section(c.lumber.section), c.long) for c in found.cuts)
        heaviest = found.lifts[0]
        return KeyValues(
            (
                ("Sticks to cut", f"{len(found.cuts)}"),
                ("Sticks to buy", f"{sum(len(p.sticks) for p in found.purchases)}"),
                ("Timber as cut", f"{feet:,.0f} board feet, {self.length.weight(found.weight)}"),
                (
                    "Heaviest part",
                    f"{heaviest.mark}, {self.length.weight(heaviest.weight)} with all its plies",
                ),
            ),
            "In all",
        )

    def cut_list(self) -> Blocks:
        """Every stick once, by part and kind of lumber."""
        groups: dict[tuple[Use, Lumber], list[CutLine]] = {}
        for line in self.take_off.lines:
            groups.setdefault((line.cut.use, line.cut.lumber), []).append(line)
        return Blocks(
            tuple(_cut_table(self.length, use, lumber, lines) for (use, lumber), lines in groups.items())
        )

    def treatment(self) -> Statement:
        """What the treatment means and where it comes from."""
        table = load("treatment_by_use")
        used = {cut.use.value for cut in self.take_off.cuts}
        groups: dict[tuple[str, str], list[str]] = {}
        for row in table:
            if row["use"] in used:
                groups.setdefault((row["category"], row["why"]), []).append(f"{row['use']}s")
        said = [f"{category}: {', '.join(uses)}, {why}." for (category, why), uses in groups.items()]
        said.append(f"Treatment by {table.provenance['document']}, {FROM_MEMORY}.")
        said.append(
            "Heartwood of a naturally durable species needs none above ground. Every fresh cut is brushed with the "
            "preservative that the treater names for it."
        )
        return Statement(StatementKind.NOTE, tuple(said))

    def lifts(self) -> Table:
        """What is heavy, with all plies fastened together."""
        rows = tuple(
            (lift.mark, lift.use.value, f"{lift.plies}", self.length.weight(lift.weight), f"{lift.people}")
            for lift in self.take_off.lifts[:_MOST_LIFTS]
        )
        return Table(
            ("mark", "part", "sticks", "weight", "people"),
            rows,
            f"The heaviest parts to lift, at {self.length.weight(ONE_PERSON)} a person on level ground "
            "(common practice)",
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
        lift = f"The heaviest lift is {heaviest.mark}: {self.length.weight(heaviest.weight)}"
        said = [
            f"{lift} with its {heaviest.plies} plies fastened together, {heaviest.people} people on level ground, more "
            "on a ladder or rope and tackle."
            if heaviest.plies > 1
            else f"{lift}, {heaviest.people} people on level ground.",
            f"The heaviest single stick is {single.label}: {self.length.weight(single.weight)}.",
            f"Lumber fresh from the treating plant weighs up to {FRESH:g} times as much (from memory): weigh one.",
        ]
        return Statement(StatementKind.READING, tuple(said))

    def cut_cautions(self) -> Blocks:
        """What none of the lists counts, and what to mind before cutting."""
        return Blocks((self.not_counted(), self._cautions()))

    def _cautions(self) -> Statement:
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
                "Measure what stands before cutting: lengths here are of the plan. Posts are cut on the day, beams "
                "and joists after the bolts and posts are measured.",
                "Left and right of a bevel are seen standing on the piece and facing that end.",
                "Nobody stands under a lift, and no limb of the tree is an anchor before an arborist has looked at it.",
            ),
        )


def _cut_table(length: Lengths, use: Use, lumber: Lumber, lines: list[CutLine]) -> Table:
    rows = tuple(
        (
            line.marks,
            f"{line.count}",
            length(line.cut.long),
            length(line.cut.short) if line.cut.short != line.cut.long else "",
            *line.cut.ends,
            length.weight(line.cut.weight, 1),
        )
        for line in lines
    )
    columns = ("mark", "count", "long point", "short point", "start", "end", "each")
    return Table(columns, rows, f"{use.value.capitalize()}s: {lumber.name}", "lrrrllr")
