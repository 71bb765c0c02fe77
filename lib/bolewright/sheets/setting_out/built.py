"""The sheet as built: the checks again with what was really built, and what a slip of the day does to them."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.drawings.plan_framing import plan_of_framing
from bolewright.platform.project.bearing import SupportKind
from bolewright.rendering.blocks import Block, Cell, Figure, Statement, StatementKind, Table
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.as_built import Changed, Outcome, as_built, slips
from bolewright.setting_out.differences import differences, moved_seats, shifted
from bolewright.setting_out.levels import MOST_SHIM, find_levels, low_words, too_low
from bolewright.sheets.drawings import measures_of
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.opening import Blocks
from bolewright.sheets.setting_out.opening import SettingOutSheet, filled, note
from bolewright.status import Status

SHOWN = 12  # changed checks in a table


class BuiltSheet(SettingOutSheet):
    """What was built otherwise than planned, and how much a slip matters."""

    def built(self) -> Blocks:
        """What was built beside what was planned, on a plan too, and the checks again with it."""
        entered = self._entered()
        if not entered:
            said = (
                "Nothing is entered under [[as_built]]: at, projection, level, embedment, hole, depth, width."
            )
            return Blocks((note(said),))
        outcome = as_built(self.results)
        if outcome is None:
            said = "Nothing entered changes a check: levels change shims and cuts only."
            return Blocks((*entered, *(self._too_low() or (note(said),)), *self._follows()))
        if outcome.fault:
            fault = Statement(StatementKind.FAILURE, (f"{_begun(outcome)}: {outcome.fault}",))
            return Blocks((*entered, fault))
        kind, words = _verdict(outcome)
        return Blocks(
            (*entered, Statement(kind, (words,)), *self._too_low(), _changes(outcome), *self._follows())
        )

    def _too_low(self) -> tuple[Statement, ...]:
        """Seats that no shim brings up to the others."""
        length = self.length
        return tuple(
            Statement(StatementKind.OPEN, (low_words(level, length(level.shim or 0.0)),))
            for level in too_low(self.layout)
        )

    def _entered(self) -> tuple[Block, ...]:
        """Every entry beside the plan, and the plan with crosses where supports really stand."""
        length = self.length
        rows = [
            (
                d.mark,
                d.what,
                length(d.planned),
                length(d.built),
                length.signed(d.built - d.planned, "more", "less"),
            )
            for d in differences(self.layout)
        ]
        moved = shifted(self.layout)
        for shift in moved:
            for axis, planned, built in zip("xy", shift.planned, shift.built, strict=True):
                off = length.signed(built - planned, "more", "less")
                if abs(built - planned) > 1 / 64:
                    rows.append((shift.mark, f"{axis} in plan", length(planned), length(built), off))
        if not rows:
            return ()
        table = Table(
            ("part", "what", "planned", "built", "difference"),
            tuple(rows),
            "What came out otherwise",
            "llrrr",
        )
        if not moved:
            return (table,)
        drawing = plan_of_framing(self.results, measures_of(length.tape), [s.mark for s in moved], brief=True)
        caption = "Plan of the framing: a cross where a support stands."
        return (table, Figure(to_svg(drawing, height=110.0, scales=length.scales), caption, drawing.alt))

    def _follows(self) -> Iterator[Block]:
        """What goes with it: seats along the beams, cut heights and lengths of posts."""
        length = self.length
        seats = tuple((d.mark, d.what, length(d.planned), length(d.built)) for d in moved_seats(self.layout))
        if seats:
            yield Table(
                ("beam", "mark", "planned", "now"),
                seats,
                "Marks on the beams that move with it",
                "llrr",
            )
        levels = find_levels(self.layout)
        first = (
            levels.reference
            if levels.reference in {level.support for level in levels.at}
            else levels.at[0].support
        )
        posts = tuple(
            (
                level.support,
                length.signed(level.below_seat, f"below the seat of {first}", f"above the seat of {first}"),
                length(level.length),
                "as read" if level.length_measured else "from plan and entries",
            )
            for level in levels.at
            if level.length is not None
        )
        if posts:
            yield Table(
                ("post", "cut", "from the concrete to the cut", ""),
                posts,
                "Cut heights with what was built",
                "llrl",
            )

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
        return filled(
            Table(
                ("slip", "outcome", "highest ratio that rises", "ratio", "fails"),
                tuple(rows),
                "If it comes out different: every check run again",
                "lllll",
                (3, 2, 3, 0, 2),
            )
        )

    def shims(self) -> Table | Statement:
        """Shims under seats that came out low, by readings or entered levels."""
        found = [level for level in find_levels(self.layout).at if level.shim is not None]
        if not found:
            return note("No level is read or entered, so there is no shim to give.")
        rows = tuple((level.support, _shim_words(level.shim or 0.0, self.length)) for level in found)
        return Table(("support", "so"), rows, "Shims that bring all seats to one level", "ll")

    def level_slip(self) -> Statement:
        """What a seat that is off level does, and what it does to the cuts."""
        bolts = [s.mark for s in self.layout.supports if s.kind == SupportKind.TREE_BOLT]
        said, half = [], self.length(0.5)
        if len(bolts) > 1:
            said.append(
                f"One of {', '.join(bolts)} comes out {half} low: a shim of {half} over its whole bearing, steel or "
                "treated hardwood, and nothing else changes: the higher bolt holds the level."
            )
        if bolts and len(bolts) < len(self.layout.supports):
            said.append(
                f"All bolts come out {half} low: every post is cut {half} lower and the floor stands that much lower. "
                "Enter the readings, and the frame sheet gives the cuts."
            )
        said.append("A shimmed seat carries as checked. Without the shim the floor leans.")
        continuous = [m.mark for m in self.layout.members if len(m.seats) > 2]
        if continuous:
            marks = ", ".join(continuous)
            said.append(
                f"Over three seats or more a low seat sheds its load to the others ({marks}): shim to "
                f"{self.length(1 / 16)} before it is loaded."
            )
        return note(*said)


def _shim_words(shim: float, length: Lengths) -> str:
    if abs(shim) < 1 / 32:
        return "no shim"
    if shim > MOST_SHIM + 1e-9:
        return f"{length(shim)} low: too much for a shim"
    return f"shim {length(shim)}" if shim > 0 else f"cut {length(-shim)} off"


def _begun(outcome: Outcome) -> str:
    """What was built or slipped, at the beginning of a sentence."""
    return f"{outcome.what[:1].upper()}{outcome.what[1:]}"


def _verdict(outcome: Outcome) -> tuple[StatementKind, str]:
    if outcome.lost:
        parts = "; ".join(f"{c.check.part} {c.check.limit_state}" for c in outcome.lost)
        return (
            StatementKind.FAILURE,
            f"{_begun(outcome)}: no longer holds: {parts}.",
        )
    return (
        StatementKind.READING,
        f"{_begun(outcome)}: every check that held still holds.",
    )


def _ratio(change: Changed, before: bool) -> str:
    check = change.before if before else change.after
    return "" if check is None or check.status is Status.NOT_CHECKED else check.shown_ratio


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
