"""The sheet for the frame: cut heights, beams and joists as they are cut and marked, braces, stages."""

from __future__ import annotations

from bolewright.calculation import Step
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.layout import Kind
from bolewright.platform.layout.pieces import EndCut, Piece, Side
from bolewright.rendering.blocks import Block, Statement, Table
from bolewright.setting_out.beams import joist_marks, seat_marks
from bolewright.setting_out.braces import BraceCut, brace_cuts
from bolewright.setting_out.closing import framing_closings
from bolewright.setting_out.crossed import rod_cuts
from bolewright.setting_out.levels import find_levels
from bolewright.setting_out.stacks import DRY, WET, stacks
from bolewright.setting_out.stages import TWO_PEOPLE, stages
from bolewright.setting_out.trunk_braces import trunk_brace_cuts
from bolewright.sheets.opening import Blocks
from bolewright.sheets.setting_out.bevels import bevel_table
from bolewright.sheets.setting_out.brace_holes import brace_holes
from bolewright.sheets.setting_out.ends import end_words
from bolewright.sheets.setting_out.framing_figures import joist_end_figure, stack_figure
from bolewright.sheets.setting_out.opening import SettingOutSheet, caution, filled, hand, note
from bolewright.sheets.setting_out.trunk_braces import trunk_brace_tables
from bolewright.take_off.blocking import all_sticks


class FramingSheet(SettingOutSheet):
    """Levels of the posts, cuts and marks of beams, joists and braces, and the order of the work."""

    def stack(self) -> Block:
        """Elevation of the stack over every support."""
        return stack_figure(self.layout, self.length)

    def levels(self) -> Table:
        """Where each post is cut, from the bolt's seat and from the level line of the day, and its length."""
        found = find_levels(self.layout)
        reference = self._reference()
        rows = tuple(
            (
                level.support,
                self.length(level.planned),
                self.length.signed(level.below_seat, "below", "above"),
                "" if level.wanted is None else self.length.signed(level.wanted, "below", "above"),
                "" if level.length is None else self.length(level.length),
                "" if level.length is None else ("as read" if level.length_measured else "as planned"),
                "" if level.shim is None else self.length(level.shim),
            )
            for level in found.at
        )
        return filled(
            Table(
                (
                    "support",
                    "seat or cut above grade",
                    f"from the seat of {reference}",
                    "from the level line",
                    "post, concrete to cut",
                    "",
                    "shim",
                ),
                rows,
                "Cut heights of posts and seats of bolts",
                "lrrrrlr",
            )
        )

    def _reference(self) -> str:
        found = find_levels(self.layout)
        marks = [level.support for level in found.at]
        return found.reference if found.reference in marks else marks[0]

    def layers(self) -> Table:
        """Every thickness of the stack, planned and measured."""
        rows = [
            (
                stack.support if i == 0 else "",
                layer.name,
                self.length(layer.planned),
                self.length(layer.measured) if layer.measured != layer.planned else "",
                self.length(layer.dries),
            )
            for stack in stacks(self.layout)
            for i, layer in enumerate(stack.layers)
        ]
        return filled(
            Table(
                ("on", "layer, from below", "planned", "as measured", "shrinks as it dries"),
                tuple(rows),
                "The stack, from the seat or the post's cut to the floor",
                "llrrr",
            )
        )

    def shrinkage(self) -> Statement:
        """How far the floor tilts as the timber dries."""
        found = find_levels(self.layout)
        least = min(level.dries for level in found.at)
        low: dict[str, list[str]] = {}
        for level in found.at:
            if level.dries - least > 1 / 32:
                low.setdefault(self.length(level.dries - least), []).append(level.support)
        said = [
            f"Wet timber shrinks across its grain, about from {WET:g} to {DRY:g} % moisture in the open; a bolt "
            "in the trunk "
            "does not move. The cuts above are for a floor that is level on the day."
        ]
        said += [
            f"At {', '.join(marks)} the floor sinks {more} more than where it sinks least: cut the posts that much "
            "longer for a floor that is level once dry, or half of it."
            for more, marks in low.items()
        ]
        if not low:
            said.append("All supports sink alike, so the floor stays level.")
        return note(*said)

    def cuts(self) -> Table:
        """Beams and joists as they are cut."""
        rows = (*(self._cut(self.pieces[m.mark]) for m in self._members()), *self._blocking_cuts())
        return Table(
            (
                "piece",
                "section",
                "middle",
                "left edge",
                "right edge",
                "long point to long point",
                "start",
                "end",
            ),
            rows,
            "Pieces as they are cut, face to face; left and right looking from start to end, bevels from square",
            "llrrrrll",
        )

    def _members(self) -> list[Piece]:
        beams = [self.pieces[beam.mark] for beam in self.layout.project.beams]
        return [*beams, *(piece for piece in self.pieces.values() if piece.kind is Kind.JOIST)]

    def _cut(self, piece: Piece) -> tuple[str, ...]:
        return (
            piece.mark,
            piece.section,
            self.length(piece.centre),
            self.length(piece.left),
            self.length(piece.right),
            self.length(piece.longest),
            _end_words(piece.start),
            _end_words(piece.end),
        )

    def _blocking_cuts(self) -> list[tuple[str, ...]]:
        """Rims, blocks and spacers as they are cut: a rim in one stick past its joists."""
        return [
            (
                stick.mark,
                self.pieces[stick.marks[0]].section,
                self.length(stick.centre),
                "",
                "",
                self.length(stick.long),
                _end_words(stick.start),
                _end_words(stick.end),
            )
            for stick in all_sticks(self.layout, self.pieces)
        ]

    def _blocking_marks(self) -> list[Table]:
        """Where blocks and spacers meet the joists or beams that they stand between, from each one's start."""
        rows = [
            (
                m.mark,
                m.seats[0].below,
                self.length(m.seats[0].below_at),
                m.seats[1].below,
                self.length(m.seats[1].below_at),
                self.length(self.pieces[m.mark].centre),
            )
            for m in self.layout.blocking
            if entry_of(m).kind != "rim"
        ]
        columns = ("piece", "from", "middle from its start", "to", "middle from its start", "face to face")
        return [Table(columns, tuple(rows), "Blocking and spacers", "llrlrr")] if rows else []

    def bevels(self) -> Table:
        """Bevel of joist ends at each beam, as saw and square read it, and the skew of the hangers."""
        return bevel_table(self.pieces.values(), self.length)

    def bevel_note(self) -> Statement:
        """What the words mean, and what a saw cannot do."""
        said = [
            "The wide face stays up: cut square across it, with the saw tilted by the bevel. A hanger is skewed "
            "right when "
            "the joist comes off the beam towards the right of square, as you face the beam. Order skewed "
            "hangers "
            "by angle and hand.",
            "Degrees are counted from square: the saw's tilt scale and the pivot edge of a speed square read them "
            "alike.",
            f"Cut {self.length(1 / 16)} short of the lengths given at each end; the gap in a hanger is "
            f"{self.length(1 / 8)} at most (common practice; its maker's sheet decides).",
        ]
        steep = [
            f"{p.mark} at {cut.meets}"
            for p in self.pieces.values()
            for cut in (p.start, p.end)
            if cut.beyond_saw
        ]
        if steep:
            said.append(
                f"More than 45° from square, beyond a common saw's tilt: {', '.join(steep)}. Cut these by hand."
            )
        return note(*said)

    def joint(self) -> Block:
        """A joist's end at its beam from above, where the skew is greatest."""
        return joist_end_figure(self.layout, self.pieces)

    def marks(self) -> Blocks:
        """Marks along every beam: pieces that meet it, and its own seats."""
        tables = []
        seats = seat_marks(self.layout, self.pieces)
        found = joist_marks(self.layout, self.pieces)
        for beam in self.layout.project.beams:
            rows = [
                (
                    m.piece,
                    f"{m.face.value} face" if m.face is not Side.NEITHER else "on top",
                    self.length(m.near),
                    self.length(m.centre),
                    self.length(m.far),
                )
                for m in found
                if m.beam == beam.mark
            ]
            rows += [(s.below, "underneath", "", self.length(s.at), "") for s in seats if s.beam == beam.mark]
            tables.append(
                Table(
                    ("meets", "where", "near edge (X beyond)", "middle", "far edge"),
                    tuple(rows),
                    f"{beam.mark}, {end_words(self.layout, beam.mark)}",
                    "llrrr",
                )
            )
        return Blocks((*tables, *self._blocking_marks()))

    def check(self) -> Table:
        """Measurements that must come out."""
        found = framing_closings(self.layout, self.pieces)
        return self.length.closings(found, "Must come out before hangers and boards are nailed")

    def braces(self) -> Blocks:
        """Knee braces as they are cut, the holes of lapped ones, and crossed rods."""
        found = brace_cuts(self.layout, self.pieces)
        trunk = trunk_brace_cuts(self.layout, self.pieces)
        rods = self._rod_tables()
        if not found and not trunk and rods:
            return Blocks(rods)
        if not found and not trunk:
            return Blocks((note("No knee braces in this project."),))
        post = (self._brace_table(found), *brace_holes(found, self.length)) if found else ()
        return Blocks((*post, *(trunk_brace_tables(trunk, self.length) if trunk else ()), *rods))

    def _rod_tables(self) -> tuple[Table, ...]:
        rows = tuple(
            (
                rod.mark,
                self.length(rod.diameter),
                f"{rod.head}, {self.length(rod.below_beam)} below its beam",
                f"{rod.foot}, {self.length(rod.above_grade)} above grade",
                self.length(rod.length),
                f"{rod.slope:.1f}°",
            )
            for rod in rod_cuts(self.layout)
        )
        columns = ("rods", "thick", "head on", "foot on", "between middle lines", "from level")
        caption = (
            "Crossed rods, both of each pair, side by side where they cross; cut as ends and turnbuckle want"
        )
        return (Table(columns, rows, caption, "llllrr"),) if rows else ()

    def _brace_table(self, found: tuple[BraceCut, ...]) -> Table:
        rows = tuple(
            (
                b.mark,
                f"{b.plies} x {b.section}",
                f"{b.post}, {'fitted' if b.fitted else 'lapped'}",
                self.length(b.long_edge),
                self.length(b.short_edge),
                f"plumb {b.plumb:.1f}°, level {b.level:.1f}°" if b.fitted else "square",
                self.length(b.below_beam),
                self.length(b.along_beam),
            )
            for b in found
        )
        return Table(
            (
                "brace",
                "section",
                "post",
                "long edge",
                "short edge, or bolt to bolt",
                "cuts from square",
                "on the post below the beam",
                "on the beam from its start",
            ),
            rows,
            "Knee braces; on the post and fitted, marks are on centre lines; lapped, of the middle of the bolts",
            "lllrrlrr",
        )

    def stages(self) -> Table:
        """Stages of the work, what to hold in each, and the heaviest lift."""
        rows = []
        for number, stage in enumerate(stages(self.layout, self.pieces), start=1):
            lift = stage.heaviest
            heavy = self.length.weight
            weight = "" if lift is None else f"{lift.mark}, {lift.what}: {heavy(lift.whole)}"
            if lift is not None and lift.ply < lift.whole - 0.5:
                weight += f" ({heavy(lift.ply)} a ply)"
            rows.append((str(number), stage.name, stage.hold, weight))
        return Table(
            ("", "stage", "what holds it before the next", "heaviest piece"),
            tuple(rows),
            "Stages: what stands must be braced before the next (common practice)",
            "llll",
            (0, 2, 4, 2),
        )

    def calculation(self) -> Blocks:
        """Formulas for the cuts of the first joist, and for the levels of the day."""
        joist = next((p for p in self.pieces.values() if p.kind is Kind.JOIST), None)
        steps = list(joist.steps) if joist else []
        return hand([*steps, *find_levels(self.layout).steps[:4], *self._brace_steps()])

    def _brace_steps(self) -> list[Step]:
        post = [step for brace in brace_cuts(self.layout, self.pieces)[:1] for step in brace.steps]
        trunk = [step for brace in trunk_brace_cuts(self.layout, self.pieces)[:1] for step in brace.steps]
        rods = [step for rod in rod_cuts(self.layout)[:1] for step in rod.steps]
        return post + trunk + rods

    def cautions(self) -> Statement:
        """What to mind in framing."""
        return caution(
            f"Pieces over {self.length.weight(TWO_PEOPLE)} go up by rope and tackle from a sound anchor, "
            "never from a limb above people.",
            "Nobody stands or walks on a beam or joist that is not braced; no load before the plies are joined.",
            "Treat every cut end again. Crown up. Measure the real depth of every piece and enter it: "
            f"{self.length(1 / 8)} in the stack is as much in the cut.",
        )


def _end_words(cut: EndCut) -> str:
    if cut.long_point is Side.NEITHER:
        return f"square at {cut.meets}" if cut.meets else "square"
    where = f" at {cut.meets}" if cut.meets else ""
    return f"{cut.bevel:.1f}°{where}"
