"""The sheet as built: the checks again with what was really built, and what a slip of the day does to them."""

from __future__ import annotations

from bolewright.rendering import numbers
from bolewright.rendering.blocks import Cell, Statement, StatementKind, Table
from bolewright.setting_out.as_built import Changed, Outcome, as_built, slips
from bolewright.setting_out.levels import find_levels
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.opening import Blocks
from bolewright.sheets.setting_out.opening import SettingOutSheet, filled, note

SHOWN = 12  # changed checks in a table


class BuiltSheet(SettingOutSheet):
    """What was built otherwise than planned, and how much a slip matters."""

    def built(self) -> Blocks:
        """The checks again with what was built, where that was entered."""
        outcome = as_built(self.results)
        if outcome is None:
            return Blocks(
                (
                    note(
                        "Nothing that changes a check is entered under [[as_built]]: at, projection, embedment, hole."
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
        bolts = [s.mark for s in self.layout.supports if s.kind == "tree bolt"]
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
    return f"shim {length(shim)}" if shim > 0 else f"cut {length(-shim)} off"


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
