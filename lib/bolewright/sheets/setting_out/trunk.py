"""The sheet for the day at the tree: bolts on the trunk."""

from __future__ import annotations

import math
from dataclasses import replace

from bolewright.platform.project.bearing import SupportKind
from bolewright.rendering.blocks import Figure, Statement, Table
from bolewright.rendering.drawing import (
    Anchor,
    Arc,
    Circle,
    Dimension,
    Drawing,
    Fill,
    Item,
    Layer,
    Leader,
    Line,
    Mark,
    Pen,
    Text,
)
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.levels import GRADE, LevelAt, find_levels, readings
from bolewright.setting_out.plan import facing, post_line
from bolewright.setting_out.projection import projection_allowed
from bolewright.setting_out.tolerance import Allowed, Closing
from bolewright.setting_out.trunk import BoltMark, bolt_marks, bolt_pairs, girth_of, seat_rise
from bolewright.sheets.opening import Blocks
from bolewright.sheets.setting_out.opening import SettingOutSheet, caution, filled, hand, note


class TrunkSheet(SettingOutSheet):
    """Bolt centres round the trunk, level, hole depth and projection of every collar."""

    @property
    def bolts(self) -> tuple[BoltMark, ...]:
        """Every tree bolt as it is set out."""
        return bolt_marks(self.layout)

    def figure(self) -> Blocks:
        """Section through every trunk at its bolts, from above."""
        trees = dict.fromkeys(bolt.tree for bolt in self.bolts)
        if not trees:
            return Blocks((note("No tree bolts: there is nothing to set out on a trunk."),))
        return Blocks(tuple(self._section(mark) for mark in trees))

    def places(self) -> Table:
        """Where each bolt goes in, which way, and how far."""
        rows = tuple(
            (
                bolt.mark,
                bolt.tree,
                self._round(bolt.arc),
                self._way(bolt),
                self.length(bolt.hole_depth),
                self.length(bolt.projection),
            )
            for bolt in self.bolts
        )
        return Table(
            (
                "bolt",
                "tree",
                "round the bark from the front mark",
                "bores",
                "hole from the bark",
                "bark to middle of bearing",
            ),
            rows,
            "Bolts on the trunk; left and right as you face it from the posts",
            "llllrr",
        )

    def levels(self) -> Table:
        """Height of each bolt's centre and seat, above grade and from the level line of the day."""
        levels = {level.support: level for level in find_levels(self.layout).at}
        bolts = {s.mark: self.layout.project.bolts[s.bolt or ""] for s in self.layout.supports if s.bolt}
        rows = []
        for bolt in self.bolts:
            level = levels.get(bolt.mark) or self._under_braces(bolt)
            rise = seat_rise(bolts[bolt.mark])
            wanted = "" if level.wanted is None else self._below(level.wanted + rise)
            read = "" if level.reading is None else self._below(level.reading)
            shim = "" if level.shim is None else self.length(level.shim)
            rows.append(
                (
                    bolt.mark,
                    self.length(bolt.centre_level),
                    self.length(bolt.seat_level),
                    wanted,
                    read,
                    shim,
                )
            )
        return filled(
            Table(
                (
                    "bolt",
                    "centre above grade",
                    "seat above grade",
                    "centre from the line",
                    "seat as read from the line",
                    "shim on the seat",
                ),
                tuple(rows),
                "Levels of the bolts; from the level line where readings are entered",
                "lrrrrr",
            )
        )

    def _under_braces(self, bolt: BoltMark) -> LevelAt:
        """Level of a bolt under knee braces, from that of the first support that a beam sits on."""
        first = find_levels(self.layout).at[0]
        drop = first.planned - bolt.seat_level
        wanted = None if first.wanted is None else first.wanted + drop
        read = readings(self.layout).get(bolt.mark)
        return replace(
            first,
            support=bolt.mark,
            kind=SupportKind.TREE_BOLT,
            planned=bolt.seat_level,
            wanted=wanted,
            reading=read,
            shim=None,
        )

    def level_note(self) -> Statement:
        """How the common level is found, and what was taken for the bracket."""
        said = [self._level_words()]
        if any(
            self.layout.project.bolts[s.bolt or ""].seat_rise is None
            for s in self.layout.supports
            if s.kind == SupportKind.TREE_BOLT
        ):
            said.append(
                "No seat_rise is entered for a bolt: the bearing is taken half a diameter above its centre. "
                "Measure your "
                "bracket from the bolt's centre to the face that the timber sits on, and enter it."
            )
        return note(*said)

    def _level_words(self) -> str:
        levels = find_levels(self.layout)
        if not levels.reference:
            return (
                f"No readings are entered yet. Read the peg at grade below your level line, enter it as {GRADE}, "
                "and this "
                "table gives each bolt's centre from the line. Once the bolts are in, read their seats and enter "
                "those: "
                "the higher bolt then holds the level, the other gets a shim."
            )
        if levels.reference == GRADE:
            return "The line stands on the reading at the grade peg. Bore to the centres given; then read the seats."
        floor = (
            "" if levels.floor is None else f" The floor comes to {self.length(levels.floor)} above the peg."
        )
        return f"{levels.reference} is the higher bolt: all levels follow its seat.{floor}"

    def check(self) -> Blocks:
        """Measurements that must come out before boring, and once the bolts are in."""
        layout = self.layout
        trees = {tree.mark: tree for tree in layout.project.trees}
        found, after = [], []
        for mark in dict.fromkeys(bolt.tree for bolt in self.bolts):
            found.append(Closing(f"Girth of {mark} at the bolts", girth_of(trees[mark]), Allowed.TAPED.value))
        for pair in bolt_pairs(layout, self.bolts):
            name = f"{pair.first} and {pair.second}"
            found += [
                Closing(f"Between {name} round the bark, the short way", pair.arc, Allowed.BOLT.value),
                Closing(f"Between {name} round the bark, the long way", pair.arc_back, Allowed.BOLT.value),
                Closing(
                    f"Straight across the trunk, mark to mark, {name} (callipers)",
                    pair.chord,
                    Allowed.BOLT.value,
                ),
            ]
            after += [
                Closing(f"Middle of bearing to middle of bearing, {name}", pair.bearings, Allowed.BOLT.value),
                Closing(
                    f"Seat of {pair.second} over seat of {pair.first}, level", pair.rise, Allowed.LEVEL.value
                ),
            ]
            if pair.square is not None:
                after.append(Closing(f"Between {name}, square to the holes", pair.square, Allowed.BOLT.value))
        for bolt in self.bolts:
            what = f"{bolt.mark}: depth of the hole and projection together, tip of the hole to middle of bearing"
            after.append(Closing(what, bolt.hole_depth + bolt.projection, Allowed.BOLT.value))
            what = f"{bolt.mark}: bark to the middle of its bearing, and no more than that over it"
            after.append(Closing(what, bolt.projection, projection_allowed(self.results, bolt.mark)))
        line = post_line(layout)
        if line is not None:
            after += [
                Closing(
                    f"Bearing of {b.mark} square to the line of the posts",
                    line.off(b.bearing),
                    Allowed.BOLT.value,
                )
                for b in self.bolts
            ]
        if not found:
            return Blocks((note("No tree bolts: there is nothing to check on a trunk."),))
        return Blocks(
            (
                self.length.closings(found, "Must come out before you bore"),
                self.length.closings(
                    after, "Must come out once the bolts are in, before anything hangs on them"
                ),
            )
        )

    def calculation(self) -> Blocks:
        """Formulas for one bolt, and for a pair."""
        steps = list(self.bolts[0].steps) if self.bolts else []
        for pair in bolt_pairs(self.layout, self.bolts)[:1]:
            steps += pair.steps[1:]
        return hand([*steps, *find_levels(self.layout).steps[:2]])

    def cautions(self) -> Statement:
        """What to look at while boring."""
        return caution(
            "A qualified arborist looks at the tree first. Move a bolt away from a union, an old wound or "
            "included bark, "
            "enter where it went, and run the checks again.",
            "Bolts one above the other cut the same fibres: stagger them.",
            "Chips come out sound and light all the way; brown or soft chips mean stop. Measure the hole before "
            "the bolt "
            "goes in, and photograph it with the tape in it.",
            "A trunk is never quite round: the tape round the bark and the callipers across it must agree before "
            "you bore.",
            *(
                [
                    "A hole beside the axis meets the bark at a slant, so that the drill runs off downhill: start it "
                    "on a wedge cut to the angle given, thick end where the bark falls away, and sight the other hole."
                ]
                if any(abs(bolt.template) > 0.05 for bolt in self.bolts)
                else []
            ),
            "Add the length of the bolt's tip without thread to the hole's depth, off the bolt in hand.",
        )

    def _round(self, arc: float) -> str:
        text = self.length.signed(arc, "to the right", "to the left")
        return "at the front mark" if abs(arc) < 1 / 32 else text

    def _below(self, h: float) -> str:
        return self.length.signed(h, "below", "above")

    def _way(self, bolt: BoltMark) -> str:
        if abs(bolt.a) < 1 / 32:
            return "straight at the trunk's axis, level"
        side = "right" if bolt.a > 0 else "left"
        return (
            f"level, {abs(bolt.template):.1f}° to the {side} of the line to the axis, which it passes by "
            f"{self.length(abs(bolt.a))}"
        )

    def _section(self, mark: str) -> Figure:
        tree = next(t for t in self.layout.project.trees if t.mark == mark)
        R = girth_of(tree) / (2 * math.pi)
        fx, fy = facing(self.layout, tree)
        (x, y), first = tree.at, math.degrees(math.atan2(fy, fx))
        items: list[Item] = [
            Circle(tree.at, R, Layer.TRUNK, Fill.TRUNK),
            Circle(tree.at, R - tree.bark, Layer.HIDDEN, Fill.NONE, Pen.DASHED),
            Line((x - 3, y), (x + 3, y), Layer.CENTRE, Pen.CENTRE),
            Line((x, y - 3), (x, y + 3), Layer.CENTRE, Pen.CENTRE),
            Leader((x + R * fx, y + R * fy), "front mark", (14.0 * (fx or 1.0), 10.0 * (fy or 1.0))),
        ]
        bolts = [bolt for bolt in self.bolts if bolt.tree == mark]
        for bolt in bolts:
            items += self._bolt(bolt, R, first)
        ends = [bolt.bearing for bolt in bolts]
        if len(ends) > 1:
            items.append(Line(ends[0], ends[-1], Layer.CENTRE, Pen.CENTRE))
            beside = all(bolt.template for bolt in bolts)
            wide = self.length(math.dist(ends[0], ends[-1]))
            items.append(
                Dimension(ends[0], ends[-1], wide, offset=_out(bolts) if beside else -(R * 0.9 + 12))
            )
        away = (-18.0 * fx, -18.0 * fy)  # off the bolts' axes, on the side away from the posts
        items.append(Mark(tree.at, mark, shift=away))
        alt = f"Section through {mark} from above: " + "; ".join(
            f"{b.mark} {self._round(b.arc)}, {self.length(b.projection)} out of the bark" for b in bolts
        )
        drawing = Drawing(f"Bolts in {mark}", tuple(items), alt)
        return Figure(
            to_svg(drawing, height=78.0, scales=self.length.scales),
            f"{mark} from above at the bolts: bark, and sound wood dashed.",
            alt,
        )

    def _bolt(self, bolt: BoltMark, R: float, first: float) -> list[Item]:
        (ex, ey), (bx, by) = bolt.entry, bolt.bearing
        ux, uy = (bx - ex) / bolt.projection, (by - ey) / bolt.projection
        tip = (ex - bolt.hole_depth * ux, ey - bolt.hole_depth * uy)
        end = (bx + 1.5 * ux, by + 1.5 * uy)
        side = math.copysign(1.0, bolt.a) if bolt.template else 0.0
        offset = 7.0 * side or (7.0 if ux * uy >= 0 else -7.0)  # beside the axis, on the side away from it
        items: list[Item] = [
            Line(tip, end, Layer.BOLTS),
            Circle(bolt.bearing, 0.9, Layer.BOLTS, Fill.STEEL),
            Dimension(bolt.entry, bolt.bearing, self.length(bolt.projection), offset=offset),
            Dimension(tip, bolt.entry, self.length(bolt.hole_depth), offset=offset),
            Mark(bolt.bearing, bolt.mark, shift=(9.0 * ux - 16.0 * side * uy, 9.0 * uy + 16.0 * side * ux)),
        ]
        if abs(bolt.angle) > 3:
            low, high = sorted((first, first + bolt.angle))
            out = R + 2.0
            middle = math.radians((low + high) / 2)
            tree = next(t for t in self.layout.project.trees if t.mark == bolt.tree)
            at = (tree.at[0] + out * math.cos(middle), tree.at[1] + out * math.sin(middle))
            anchor = Anchor.START if math.cos(middle) > 0 else Anchor.END
            items.append(Arc(tree.at, out, low, high, Layer.DIMENSIONS))
            shift = (1.5 if math.cos(middle) > 0 else -1.5, 1.5)
            items.append(
                Text(at, self.length(abs(bolt.arc)), 2.3, anchor, layer=Layer.DIMENSIONS, shift=shift)
            )
        return items


def _out(bolts: list[BoltMark]) -> float:
    """Offset of the dimension from bearing to bearing, out from the trunk beyond those that point one way."""
    (ax, ay), (bx, by), (ex, ey) = bolts[0].bearing, bolts[-1].bearing, bolts[0].entry
    left = (bx - ax) * (ay - ey) - (by - ay) * (ax - ex) > 0
    return 9.0 if left else -9.0
