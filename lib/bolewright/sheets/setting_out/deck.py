"""The sheet for the deck: rows of boards, and the cut-out round the trunk."""

from __future__ import annotations

from functools import cached_property

from bolewright.platform.checks.trunk_openings import gap_of
from bolewright.rendering.blocks import Block, Figure, Statement, StatementKind, Table
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Mark, Pen, Polygon
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.cutout import CutOut, board_cuts, cut_outs, room_needed
from bolewright.setting_out.decking import DeckRows, Row, deck_rows
from bolewright.setting_out.tolerance import Allowed, Closing
from bolewright.sheets.opening import Blocks, Shown
from bolewright.sheets.setting_out.access import access_blocks
from bolewright.sheets.setting_out.ends import plan_side
from bolewright.sheets.setting_out.guards import guard_blocks
from bolewright.sheets.setting_out.opening import SettingOutSheet, caution, filled, hand, note
from bolewright.sheets.setting_out.things import limb_blocks
from bolewright.tree.opening import gap_left


class DeckSheet(SettingOutSheet):
    """Rows of boards, and clearance for the trunk."""

    @cached_property
    def cut_outs(self) -> tuple[CutOut, ...]:
        """Room for every trunk."""
        return cut_outs(self.results)

    @cached_property
    def fields(self) -> tuple[DeckRows, ...]:
        """Rows of boards of every joist field."""
        return deck_rows(self.layout, room_needed(self.cut_outs))

    def figure(self) -> Figure:
        """Plan of the boards with the trunk and the line to cut along."""
        items: list[Item] = []
        for field in self.fields:
            for row in field.rows:
                for low, high in row.stretches:
                    items.append(_board(field, row, low, high))
        items.append(Polygon(tuple(self.layout.project.platform.outline), Layer.OUTLINE))
        for cut in self.cut_outs:
            items.append(Polygon(cut.outline, Layer.TRUNK, Fill.TRUNK))
            items.append(Polygon(cut.line, Layer.HIDDEN, Fill.NONE, Pen.DASHED))
            centre = next(t for t in self.layout.project.trees if t.mark == cut.tree).at
            items.append(Mark(centre, cut.tree))
        for field in self.fields:
            for row in (field.rows[0], field.rows[-1]):
                low, high = row.stretches[0]
                items.append(Mark(_place(field, (row.near + row.far) / 2, (low + high) / 2), str(row.number)))
        alt = "Plan of the deck boards: " + "; ".join(
            f"field {f.field}, {f.count} rows, first {self.length(f.first)}, last {self.length(f.last)}"
            for f in self.fields
        )
        drawing = Drawing("Deck boards", tuple(items), alt)
        caption = "Deck boards by rows; the dashed line round the trunk is the gap it needs."
        return Figure(to_svg(drawing, height=110.0, scales=self.length.scales), caption, alt)

    def guards(self) -> Blocks:
        """Rails, infill and gates of the guards."""
        return guard_blocks(self.layout, self.length)

    def stairs(self) -> Blocks:
        """Stairs, ladder and hatch: where they stand, and how they are marked."""
        return access_blocks(self.layout, self.length)

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
            f"Rows of boards, counted from the first edge: {self._first_edges()}",
            "lrrrrrrl",
        )

    def row_table(self) -> Table:
        """Where each row starts, and the board it takes."""
        rows = tuple(
            (
                f"{f.field} {row.number}" if len(self.fields) > 1 else str(row.number),
                self.length(row.near),
                self.length(row.width),
                ", ".join(self.length(high - low) for low, high in row.stretches),
            )
            for f in self.fields
            for row in f.rows
        )
        return filled(
            Table(
                (
                    "row",
                    "near edge from the first edge",
                    "width",
                    "boards, long point to long point",
                ),
                rows,
                "Every row: strike a line at each fifth near edge and true the gaps up to it",
                "lrrr",
            )
        )

    def _first_edges(self) -> str:
        """Side of the plan that each field's rows are counted from."""
        sides = {f.field: plan_side(f.across) for f in self.fields}
        if len(set(sides.values())) == 1:
            return f"the {next(iter(sides.values()))} side on the plan of decking"
        return (
            ", ".join(f"{field} from the {side} side" for field, side in sides.items())
            + " on the plan of decking"
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
        for cut in self.cut_outs:
            what = f"From the bark of {cut.tree} to the nearest board, all round: a block that thick passes"
            found.append(Closing(what, cut.gap.needed, Allowed.TAPED.value, least=True))
        return self.length.closings(found, "Must come out as boards go down")

    def room(self) -> Blocks:
        """Gap that each trunk needs, what it is made of, and whether the deck keeps it."""
        blocks: list[Shown] = []
        for cut in self.cut_outs:
            gap = cut.gap
            sway = "not known" if gap.sway is None else f"{self.length(gap.sway)}, {gap.how}"
            if gap.apart > (gap.sway or 0.0):
                sway += f" (the platform moves too: {self.length(gap.apart)} apart)"
            said = [
                f"{cut.tree} needs a gap of {self.length(gap.needed)} at the floor: sway {sway}, growth and "
                "margin. The "
                f"nearest edge of the deck as drawn is {self.length(cut.clearance)} from the bark"
                + (" as measured." if cut.measured else ", taken as a circle of its girth."),
                "No part of the deck is cut."
                if not cut.cut
                else "Cut the deck along the dashed line: slide a block as thick as the gap round the bark, pencil on "
                "it, and hold the line against the marks below.",
            ]
            blocks.append(note(*said))
            if gap.sway is None:
                blocks.append(
                    Statement(
                        StatementKind.FAILURE,
                        (
                            f"The sway of {cut.tree} is not known, so the gap leaves it out and is too small: "
                            "watch the "
                            "trunk in strong wind at the height of the floor and enter sway_seen and sway_seen_at.",
                        ),
                    )
                )
        if not blocks:
            blocks.append(note("No tree in this project."))
        return Blocks((*blocks, *self._covers(), *limb_blocks(self.layout, self.length)))

    def _covers(self) -> tuple[Block, ...]:
        """What closes each opening at a trunk: its inner edge now and after years, how far it lies on the deck."""
        project = self.layout.project
        rows = []
        for opening in project.trunk_openings:
            limb = next((x for x in project.limbs if x.mark == opening.around), None)
            tree = next(t for t in project.trees if t.mark == (limb.tree if limb else opening.around))
            growth = limb.growth if limb is not None and limb.growth is not None else tree.growth
            c = gap_of(self.results.lateral, opening)
            after = max(0.0, float(gap_left(c=c, g=growth, t=tree.service)))
            lies = "not given" if opening.overlap is None else self.length(opening.overlap)
            given = opening.gap is not None or opening.cover == "boards"
            rows.append(
                (
                    opening.mark,
                    opening.around,
                    opening.cover,
                    self.length(c) if given else "not given",
                    f"{self.length(after)} in {tree.service:g} years" if given else "not given",
                    "" if opening.cover == "boards" else lies,
                )
            )
        if not rows:
            return ()
        columns = (
            "opening",
            "around",
            "cover",
            "bark to its inner edge",
            "after growth",
            "on the deck, or slack",
        )
        return (
            Table(columns, tuple(rows), "Openings at trunks: set by the bark at rest, widest side", "lllrrr"),
        )

    def cut_line(self) -> Block:
        """Marks on the boards for the cut-out."""
        rows = []
        for f in self.fields:
            spans = [(row.number, row.near, row.far) for row in f.rows]
            for cut in board_cuts(self.cut_outs, f.origin, f.along, f.across, spans, self.layout.deck):
                near = ", ".join(self.length(at) for at in cut.near_edge) or "clear"
                far = ", ".join(self.length(at) for at in cut.far_edge) or "clear"
                rows.append((f"{f.field} {cut.row}", plan_side(f.along), near, far))
        if not rows:
            return note("The line to cut along crosses no board: there is nothing to mark.")
        return Table(
            ("row", "tape from the deck's edge", "on its near edge", "on its far edge"),
            tuple(rows),
            "Line to cut along: marks on both edges of each row, taped along that edge of the board from the deck's "
            "edge on the side of the plan named",
            "llrr",
        )

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
            "The clearance at the trunk is cut back as the tree grows: look every year.",
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
