"""The sheet for the deck: rows of boards, the cut-out round the stem, and what was built otherwise than planned."""

from __future__ import annotations

from functools import cached_property

from bolewright.rendering import numbers
from bolewright.rendering.blocks import Block, Cell, Figure, Statement, StatementKind, Table
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Mark, Pen, Polygon, Text
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.as_built import Changed, Outcome, as_built, slips
from bolewright.setting_out.cutout import CutOut, board_cuts, cut_outs, room_needed
from bolewright.setting_out.decking import DeckRows, Row, deck_rows
from bolewright.setting_out.tolerance import Allowed, Closing
from bolewright.sheets.opening import Blocks, Shown
from bolewright.sheets.setting_out.opening import SettingOutSheet, caution, hand, note

SHOWN = 12  # changed checks in a table


class DeckSheet(SettingOutSheet):
    """Rows of boards, room for the tree, and the checks with what was really built."""

    @cached_property
    def cut_outs(self) -> tuple[CutOut, ...]:
        """Room for every stem."""
        return cut_outs(self.layout)

    @cached_property
    def fields(self) -> tuple[DeckRows, ...]:
        """Rows of boards of every joist field."""
        return deck_rows(self.layout, room_needed(self.cut_outs))

    def figure(self) -> Figure:
        """Plan of the boards with the stem and the line to cut along."""
        items: list[Item] = []
        for field in self.fields:
            for row in field.rows:
                for low, high in row.stretches:
                    items.append(_board(field, row, low, high))
        items.append(Polygon(tuple(self.layout.project.platform.outline), Layer.OUTLINE))
        for cut in self.cut_outs:
            items.append(Polygon(cut.outline, Layer.STEM, Fill.STEM))
            items.append(Polygon(cut.line, Layer.HIDDEN, Fill.NONE, Pen.DASHED))
            centre = next(t for t in self.layout.project.trees if t.mark == cut.tree).at
            items.append(Text(centre, cut.tree, 2.6, layer=Layer.MARKS))
        for field in self.fields:
            for row in (field.rows[0], field.rows[-1]):
                low, high = row.stretches[0]
                items.append(Mark(_place(field, (row.near + row.far) / 2, (low + high) / 2), str(row.number)))
        alt = "Plan of the deck boards: " + "; ".join(
            f"field {f.field}, {f.count} rows, first {self.length(f.first)}, last {self.length(f.last)}"
            for f in self.fields
        )
        drawing = Drawing("Deck boards", tuple(items), alt)
        caption = "Deck boards by rows; the dashed line round the stem is the gap it needs."
        return Figure(to_svg(drawing, height=110.0), caption, alt)

    def rows(self) -> Table:
        """Boards, gaps, first and last rip of every field."""
        rows = tuple(
            (
                f.field,
                self.length(f.cover),
                self.length(f.board),
                self.length(f.gap),
                str(f.count),
                self.length(f.first),
                self.length(f.last),
                "first and last alike" if f.shared else "first board whole",
            )
            for f in self.fields
        )
        return Table(
            ("over joists", "width to cover", "board", "gap", "rows", "first row", "last row", "so"),
            rows,
            "Rows of boards, counted along the joists from the low end of the outline",
            "lrrrrrrl",
        )

    def row_table(self) -> Table:
        """Where each row starts, and the board it takes."""
        rows = tuple(
            (
                f"{f.field} {row.number}" if len(self.fields) > 1 else str(row.number),
                self.length(row.near),
                self.length(row.width),
                self.length(row.longest) if row.stretches else "",
                _stretches(row, self.length),
            )
            for f in self.fields
            for row in f.rows
        )
        return Table(
            ("row", "near edge from the first edge", "width", "board, long point to long point", "in pieces"),
            rows,
            "Every row: strike a line at each fifth near edge and true the gaps up to it",
            "lrrrl",
        )

    def check(self) -> Table:
        """Measurements that must come out."""
        found = []
        for f in self.fields:
            fifth = f.rows[min(5, len(f.rows) - 1)]
            found.append(
                Closing(f"First edge to near edge of row {fifth.number}", fifth.near, Allowed.MARK.value)
            )
            found.append(Closing("First edge to far edge of the last row", f.cover, Allowed.DIAGONAL.value))
        return self.length.closings(found, "Must come out as boards go down")

    def room(self) -> Blocks:
        """Gap that each stem needs, what it is made of, and whether the deck keeps it."""
        blocks: list[Shown] = []
        for cut in self.cut_outs:
            gap = cut.gap
            sway = "not known" if gap.sway is None else f"{self.length(gap.sway)}, {gap.how}"
            said = [
                f"{cut.tree} needs a gap of {self.length(gap.needed)} at the floor: sway {sway}, growth and "
                "margin. The "
                f"nearest edge of the deck as drawn is {self.length(cut.clearance)} from the bark"
                + (" as measured." if cut.measured else ", taken as a circle of its girth."),
                "No part of the deck is cut." if not cut.cut else "Cut the deck along the dashed line.",
            ]
            blocks.append(note(*said))
            if gap.sway is None:
                blocks.append(
                    Statement(
                        StatementKind.FAILURE,
                        (
                            f"The sway of {cut.tree} is not known, so the gap leaves it out and is too small: "
                            "watch the "
                            "stem in strong wind at the height of the floor and enter sway_seen and sway_seen_at.",
                        ),
                    )
                )
        if not blocks:
            blocks.append(note("No tree in this project."))
        return Blocks(tuple(blocks))

    def cut_line(self) -> Block:
        """Marks on the boards for the cut-out."""
        rows = []
        for f in self.fields:
            spans = [(row.number, row.near, row.far) for row in f.rows]
            for cut in board_cuts(self.cut_outs, f.origin, f.along, f.across, spans):
                near = ", ".join(self.length(at) for at in cut.near_edge) or "clear"
                far = ", ".join(self.length(at) for at in cut.far_edge) or "clear"
                rows.append((f"{f.field} {cut.row}", near, far))
        if not rows:
            return note("The line to cut along crosses no board: there is nothing to mark.")
        return Table(
            ("row", "on its near edge", "on its far edge"),
            tuple(rows),
            "Line to cut along, marked on the edges of the rows from the field's lowest point",
            "lrr",
        )

    def built(self) -> Blocks:
        """The checks again with what was built, where that was entered."""
        outcome = as_built(self.results)
        if outcome is None:
            return Blocks(
                (
                    note(
                        "Nothing built otherwise is entered. Write it in the project file under [[as_built]], "
                        "one entry a "
                        "part: at, projection, embedment, hole, level, depth. This sheet then runs all checks again."
                    ),
                )
            )
        if outcome.fault:
            return Blocks((Statement(StatementKind.FAILURE, (f"{outcome.what}: {outcome.fault}",)),))
        kind, words = _verdict(outcome)
        return Blocks((Statement(kind, (words,)), _changes(outcome)))

    def slips(self) -> Table:
        """What the usual slips of the day do to the checks."""
        rows = []
        for outcome in slips(self.results):
            worst = outcome.worst
            if outcome.fault:
                rows.append((outcome.what, "cannot stand", "", "", outcome.fault))
                continue
            lost = ", ".join(f"{c.check.part} {c.check.limit_state}" for c in outcome.lost)
            rows.append(
                (
                    outcome.what,
                    "checks fail" if lost else "all that held holds",
                    f"{worst.check.part} {worst.check.limit_state}" if worst else "no ratio rises",
                    f"{_ratio(worst, True)} to {_ratio(worst, False)}" if worst else "",
                    lost,
                )
            )
        return Table(
            ("slip", "outcome", "highest ratio that rises", "ratio", "fails"),
            tuple(rows),
            "If it comes out different: every check run again",
            "lllll",
            (3, 2, 3, 0, 2),
        )

    def level_slip(self) -> Statement:
        """What a seat that is off level does."""
        continuous = [m.mark for m in self.layout.members if len(m.seats) > 2]
        said = [
            "A seat 1/2 in. low is shimmed with steel or treated hardwood over the whole bearing, so its load "
            "and bearing "
            "stay as checked. Left out, the floor leans, or a member over three seats sheds its load to the others.",
        ]
        if continuous:
            said.append(
                f"Over three seats or more: {', '.join(continuous)}. Shim these to 1/16 in. before they are loaded."
            )
        return note(*said)

    def calculation(self) -> Blocks:
        """Formulas of the rows and of the gap."""
        steps = [step for f in self.fields[:1] for step in f.steps]
        return hand([*steps, *(step for cut in self.cut_outs[:1] for step in cut.gap.steps)])

    def cautions(self) -> Statement:
        """What to mind with boards."""
        return caution(
            "Wet boards shrink in width: laid tight when wet they open by themselves; the gap given is for the "
            "boards as "
            "they lie.",
            "The gap round the stem is cut back as the tree grows: look every year.",
            "Two fasteners at every joist; ends of boards meet over a joist, on a doubled one where they can.",
        )


def _place(field: DeckRows, across: float, along: float) -> tuple[float, float]:
    return (
        field.origin[0] + across * field.across[0] + along * field.along[0],
        field.origin[1] + across * field.across[1] + along * field.along[1],
    )


def _board(field: DeckRows, row: Row, low: float, high: float) -> Polygon:
    corners = ((row.near, low), (row.far, low), (row.far, high), (row.near, high))
    return Polygon(tuple(_place(field, a, b) for a, b in corners), Layer.DECKING, Fill.TIMBER)


def _stretches(row: Row, length: object) -> str:
    if len(row.stretches) < 2 or not callable(length):
        return ""
    return ", ".join(str(length(high - low)) for low, high in row.stretches)


def _verdict(outcome: Outcome) -> tuple[StatementKind, str]:
    if outcome.lost:
        parts = "; ".join(f"{c.check.part} {c.check.limit_state}" for c in outcome.lost)
        return (
            StatementKind.FAILURE,
            f"{outcome.what[0].upper()}{outcome.what[1:]}: no longer holds: {parts}.",
        )
    return (
        StatementKind.READING,
        f"{outcome.what[0].upper()}{outcome.what[1:]}: every check that held still holds.",
    )


def _ratio(change: Changed, before: bool) -> str:
    check = change.before if before else change.after
    return "" if check is None or check.ratio != check.ratio else numbers.ratio(check.ratio)


def _changes(outcome: Outcome) -> Table:
    rows = tuple(
        (
            c.check.part,
            c.check.limit_state,
            _ratio(c, True),
            Cell(_ratio(c, False), c.after.status if c.after else None),
            Cell(c.check.status.value, c.check.status),
        )
        for c in outcome.changed[:SHOWN]
    )
    more = len(outcome.changed) - len(rows)
    caption = "Checks that change with what was built" + (f"; {more} more change less" if more > 0 else "")
    return Table(("part", "limit state", "as planned", "as built", "status"), rows, caption, "llrrl")
