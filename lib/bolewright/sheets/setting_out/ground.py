"""The sheet for the ground: pegs, strings, diagonals and holes."""

from __future__ import annotations

import math
from functools import cached_property

from bolewright.platform.layout import Line as PlanLine
from bolewright.rendering.blocks import Figure, Statement, Table
from bolewright.rendering.drawing import (
    Circle,
    Dimension,
    Drawing,
    Fill,
    Item,
    Layer,
    Line,
    Mark,
    Pen,
    Polygon,
    Text,
)
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.ground import GroundPlan, ground_plan
from bolewright.setting_out.holes import holes
from bolewright.setting_out.plan import BaseLine
from bolewright.setting_out.stem import girth_of
from bolewright.sheets.lengths import Tape
from bolewright.sheets.opening import Blocks
from bolewright.sheets.setting_out.opening import SettingOutSheet, caution, filled, hand, note


class GroundSheet(SettingOutSheet):
    """Post holes by two tapes and by strings, with the diagonals that must be equal."""

    @cached_property
    def plan(self) -> GroundPlan | None:
        """Setting out of the posts; None without posts."""
        return ground_plan(self.layout)

    def figure(self) -> Blocks:
        """Plan of the pegs, strings and holes."""
        if self.plan is None:
            return Blocks((note("No posts: there is nothing to set out on the ground."),))
        return Blocks((self._figure(self.plan),))

    def base(self) -> Statement:
        """Where the measuring starts."""
        if self.plan is None:
            return note("No posts: there is nothing to set out on the ground.")
        base, working = self.plan.base, self.plan.working
        said = [
            self._base_words(base),
            "All lengths are level: hold the tape level and plumb its end down, or break it into level steps on "
            "a slope.",
        ]
        if working:
            said.append(
                f"The stem stands in the base line, so pegs A and B go {self.length(working)} square in front "
                "of it "
                f"towards the posts, A opposite {base.a} and B opposite {base.b}. Measure everything else from "
                "A and B."
            )
        return note(*said)

    def _base_words(self, base: BaseLine) -> str:
        kinds = {s.mark: s.kind for s in self.layout.supports}
        if "tree bolt" in (kinds[base.a], kinds[base.b]):
            return (
                f"The base line runs from {base.a} to {base.b}, the plumb points of the middles of their bearings: "
                "hang a plumb bob from each and mark the ground."
            )
        stems = [t for t in self.layout.project.trees if t.mark not in {s.tree for s in self.layout.supports}]
        placed = (
            f" Its place comes from {stems[0].mark}: the shortest distance from the bark to each peg stands in the "
            "check table; shift both pegs until theirs come out."
            if stems
            else " It lies where the platform shall stand."
        )
        ends = f"the middle of post {base.a} to that of {base.b}"
        return f"The base line runs from {ends}: drive these two pegs first.{placed}"

    def pegs(self) -> Table:
        """Every post by two tapes, and by its place along the base line and square off it."""
        if self.plan is None:
            return Table(("peg",), (), "No posts")
        first, second = self.plan.tapes
        rows = tuple(
            (
                peg.name,
                self._tape(peg.from_a, peg.clear_a),
                self._tape(peg.from_b, peg.clear_b),
                self.length(peg.along),
                self.length(peg.offset),
            )
            for peg in (*self.plan.posts, *self.plan.corners)
        )
        return filled(
            Table(
                (
                    "peg",
                    f"tape from {first}",
                    f"tape from {second}",
                    f"along the base line from {self.plan.base.a}",
                    "square off it",
                ),
                rows,
                "Pegs: two tapes crossed give each one; along the base line, a negative length lies before its start. "
                "Where the stem is in the way of a tape, the strings give the peg",
                "lrrrr",
            )
        )

    def _tape(self, length: float, clear: bool) -> str:
        return self.length(length) if clear else f"{self.length(length)}, stem in the way"

    def strings(self) -> Table:
        """Strings over batter boards, their length, and the marks on them."""
        if self.plan is None:
            return Table(("string",), (), "No posts")
        rows = tuple(
            (
                string.name,
                self.length(string.length),
                self.length(self.plan.setback),
                "; ".join(f"{name} {self.length(at)}" for name, at in string.marks),
            )
            for string in self.plan.strings
        )
        return Table(
            ("string", "between the boards", "board beyond the corner", "marks from the first corner"),
            rows,
            "Strings over batter boards",
            "lrrl",
            (0, 0, 0, 1),
        )

    def square(self) -> Statement:
        """The right angle by three sides."""
        if self.plan is None:
            return note("No posts.")
        leg = self.plan.leg
        return note(
            f"Right angle at each corner peg: mark {self.length(leg.short)} along one string and "
            f"{self.length(leg.long)} along the other; the slope between the marks is {self.length(leg.slope)} when "
            f"they are square (3-4-5). {self._decides()}"
        )

    def _decides(self) -> str:
        if (
            self.plan is not None
            and len(self.plan.squaring) == 2
            and "diagonal" in self.plan.squaring[0].what
        ):
            return "The two diagonals decide."
        return (
            "A stem stands in the diagonals: tapes from the corners to marks a to d on the strings decide, equal in "
            "pairs. The places of the marks are in the table of strings."
        )

    def check(self) -> Table:
        """Measurements that must come out."""
        found = self.plan.closings if self.plan else ()
        return self.length.closings(found, "Must come out before anything is dug")

    def holes(self) -> Table:
        """Holes: width, depth, gravel, concrete, bags."""
        stock = self.layout.project.stock
        rows = tuple(
            (
                hole.post,
                f"{self.length(hole.width)} {hole.shape}",
                self.length(hole.dig),
                self.length(hole.gravel) if hole.gravel else "none",
                self.length(hole.pad),
                self.length(hole.foot),
                self.length.volume(hole.concrete_volume),
                str(hole.bags),
            )
            for hole in holes(self.layout)
        )
        return Table(
            (
                "post",
                "hole",
                "dig below grade",
                "gravel",
                "pad",
                "post's foot below grade",
                "concrete",
                f"bags of {self.length.weight(stock.bag_weight)}",
            ),
            rows,
            f"Holes; bags with {stock.overbreak:.0%} for waste, at {self._bag()} each (common practice)",
            "llrrrrrr",
        )

    def _bag(self) -> str:
        yields = self.layout.project.stock.bag_yield
        return f"{yields:.2f} cu ft" if self.length.tape is Tape.FEET else self.length.volume(yields)

    def calculation(self) -> Blocks:
        """Formulas for the diagonal and the first post, and for its concrete."""
        steps = list(self.plan.steps[:3]) if self.plan else []
        return hand([*steps, *(step for hole in holes(self.layout)[:1] for step in hole.steps)])

    def cautions(self) -> Statement:
        """What to mind when digging."""
        near = (
            min(
                (math.dist(s.at, t.at) - 3 * girth_of(t) / math.pi, s.mark, t.mark)
                for s in self.layout.supports
                for t in self.layout.project.trees
                if s.kind == "post"
            )
            if self.layout.project.trees and self.plan
            else None
        )
        said = [
            "Have buried lines located before digging.",
            "The bottom of the hole is firm, undisturbed and dry: look at it, and have it looked at where the "
            "inspector "
            "wants to, before concrete goes in.",
            "Roots thicker than a thumb are cut only by the arborist's leave.",
        ]
        if near is not None and near[0] < 0:
            said.append(
                f"{near[1]} stands nearer to {near[2]} than three stem diameters: its hole cuts holding roots "
                "(common "
                "practice; the arborist decides)."
            )
        return caution(*said)

    def _figure(self, plan: GroundPlan) -> Figure:
        layout, text = self.layout, self.length
        base = plan.base
        items: list[Item] = []
        for tree in layout.project.trees:
            items.append(Circle(tree.at, girth_of(tree) / (2 * math.pi), Layer.STEM, Fill.STEM))
        items.append(Line(base.line.start, base.line.end, Layer.CENTRE, Pen.CENTRE))
        for mark, at in ((base.a, base.line.start), (base.b, base.line.end)):
            if mark not in {peg.name for peg in plan.posts}:
                items.append(Circle(at, 1.2, Layer.BOLTS, Fill.STEEL))
                items.append(Mark(at, mark, shift=(0.0, -8.0)))
        corners = [c.point for c in plan.corners]
        reach = plan.setback
        for one, other in zip(corners, [*corners[1:], corners[0]], strict=True):
            line = PlanLine.between(one, other)
            items.append(Line(line.at(-reach), line.at(line.length + reach), Layer.GROUND, Pen.DASHED))
            for s in (-reach, line.length + reach):
                (x, y), (ux, uy) = line.at(s), line.u
                items.append(Line((x - 9 * uy, y + 9 * ux), (x + 9 * uy, y - 9 * ux), Layer.CARRIERS))
        items += self._squaring(plan)
        for hole, peg in zip(holes(layout), plan.posts, strict=True):
            if hole.shape == "round":
                items.append(Circle(peg.point, hole.width / 2, Layer.FOOTINGS, Fill.CONCRETE))
            else:
                items.append(_square(peg.point, hole.width / 2))
            items.append(_square(peg.point, 2.75))
            items.append(Mark(peg.point, peg.name, shift=(9.0, 8.0)))
        for i, corner in enumerate(plan.corners):
            shift = (-8.0 if i in (0, 3) else 8.0, -4.5)
            items.append(Text(corner.point, corner.name.split()[-1], 2.8, shift=shift, bold=True))
        if plan.working:
            for s, name in ((0.0, "A"), (base.line.length, "B")):
                at = base.point(s, plan.working)
                items.append(Circle(at, 1.0, Layer.GROUND, Fill.PAPER))
                items.append(Text(at, name, 2.4, shift=(0.0, 3.5), bold=True))
            items.append(
                Dimension(base.line.end, base.point(base.line.length, plan.working), text(plan.working), -9.0)
            )
        items.append(Dimension(corners[3], corners[2], text(plan.width), 14.0 + reach / 4))
        items.append(Dimension(corners[1], corners[2], text(plan.height), -(16.0 + reach / 4)))
        alt = "Plan of the pegs: " + "; ".join(
            f"{p.name} {text(p.from_a)} from {plan.tapes[0]} and {text(p.from_b)} from {plan.tapes[1]}"
            for p in plan.posts
        )
        drawing = Drawing("Setting out on the ground", tuple(items), alt)
        caption = "Pegs, strings over batter boards, and the two diagonals that must be equal."
        return Figure(to_svg(drawing, height=150.0), caption, alt)

    def _squaring(self, plan: GroundPlan) -> list[Item]:
        """The tapes that prove the rectangle square, with the marks they go to."""
        items: list[Item] = []
        for closing in plan.squaring:
            if closing.ends is not None:
                items.append(Line(*closing.ends, Layer.HIDDEN, Pen.DASHED))
        corners = [c.point for c in plan.corners]
        if len(plan.squaring) == 2 and not any(
            name.startswith("mark") for s in plan.strings for name, _ in s.marks
        ):
            middle = ((corners[0][0] + corners[2][0]) / 2, (corners[0][1] + corners[2][1]) / 2)
            words = f"both diagonals {self.length(plan.diagonal)}"
            return [*items, Text(middle, words, 2.4, layer=Layer.DIMENSIONS, shift=(0.0, -7.0))]
        for closing in plan.squaring:
            if closing.ends is not None:
                name = closing.what.partition("mark ")[2][:1]
                items.append(Mark(closing.ends[1], name, shift=(7.0, 0.0)))
        return items


def _square(at: tuple[float, float], half: float) -> Polygon:
    x, y = at
    corners = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    return Polygon(corners, Layer.POSTS, Fill.END_GRAIN)
