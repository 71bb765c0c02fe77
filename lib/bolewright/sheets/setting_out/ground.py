"""The sheet for the ground: pegs, strings, diagonals and holes."""

from __future__ import annotations

import math
from functools import cached_property

from bolewright.platform.project.bearing import SupportKind
from bolewright.rendering.blocks import Statement, Table
from bolewright.setting_out.ground import GroundPlan, ground_plan
from bolewright.setting_out.holes import holes
from bolewright.setting_out.plan import BaseLine
from bolewright.setting_out.trunk import girth_of
from bolewright.sheets.lengths import Tape
from bolewright.sheets.opening import Blocks
from bolewright.sheets.setting_out.ground_figure import ground_figure
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
        return Blocks((ground_figure(self.layout, self.plan, self.length),))

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
                f"The trunk stands in the base line, so pegs A and B go {self.length(working)} square in front "
                "of it "
                f"towards the posts, A opposite {base.a} and B opposite {base.b}. Measure everything else from "
                "A and B."
            )
        return note(*said)

    def _base_words(self, base: BaseLine) -> str:
        kinds = {s.mark: s.kind for s in self.layout.supports}
        if SupportKind.TREE_BOLT in (kinds[base.a], kinds[base.b]):
            return (
                f"The base line runs from {base.a} to {base.b}, the plumb points of the middles of their bearings: "
                "hang a plumb bob from each and mark the ground."
            )
        trunks = [
            t for t in self.layout.project.trees if t.mark not in {s.tree for s in self.layout.supports}
        ]
        placed = (
            f" Its place comes from {trunks[0].mark}: the shortest distance from the bark to each peg stands in the "
            "check table; shift both pegs until theirs come out."
            if trunks
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
                "Where the trunk is in the way of a tape, the strings give the peg",
                "lrrrr",
            )
        )

    def _tape(self, length: float, clear: bool) -> str:
        return self.length(length) if clear else f"{self.length(length)}, trunk in the way"

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
            "A trunk stands in the diagonals: tapes from the corners to marks a to d on the strings decide, equal in "
            "pairs. The places of the marks are in the table of strings."
        )

    def check(self) -> Table:
        """Measurements that must come out."""
        found = self.plan.closings if self.plan else ()
        return self.length.closings(
            found, "Must come out: places before anything is dug, depths before concrete goes in"
        )

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
                if s.kind == SupportKind.POST
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
                f"{near[1]} stands nearer to {near[2]} than three trunk diameters: its hole cuts holding roots "
                "(common "
                "practice; the arborist decides)."
            )
        return caution(*said)
