"""Tables of the load path's sheet: loads on the supports, and the ends of boards that members take by lever."""

from __future__ import annotations

from collections.abc import Sequence

from bolewright.platform.analysis.support_loads import SupportLoads, sums
from bolewright.platform.checks.support_forces import SupportForces
from bolewright.platform.checks.whole import LOOSE
from bolewright.platform.layout.parts import Layout
from bolewright.platform.loads.free_ends import FreeEnd, free_ends
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.units import feet_inches


def loads_by_kind(results: Results, loads: Sequence[SupportLoads]) -> Table:
    """Each kind of load on every support at most and least, and the line: sum = what was put on."""
    kinds: tuple[str, ...] = (
        "D",
        "L",
        "L_most",
        "L_least",
        "S",
        "S_most",
        "S_least",
        "person_most",
        "person_least",
    )
    if any(s.guard_most or s.guard_least for s in loads):
        kinds = (*kinds, "guard_most", "guard_least")
    rows = [(s.mark, *(digits(getattr(s, kind)) for kind in kinds)) for s in loads]
    total = {s.load: f"{digits(s.carried)} = {digits(s.put_on)}" for s in sums(results.path)}
    rows.append(
        ("sum = what was put on", total["D"], total["L"], "", "", total["S"], *[""] * (len(kinds) - 5))
    )
    columns = (
        "support",
        "D",
        "L everywhere",
        "L most",
        "L least",
        "S everywhere",
        "S most",
        "S least",
        "person most",
        "person least",
        *(("guard most", "guard least") if "guard_most" in kinds else ()),
    )
    caption = "Load on the supports by kind (lb); negative is uplift"
    return Table(columns, tuple(rows), caption, "l" + "r" * (len(columns) - 1))


def loads_combined(loads: Sequence[SupportLoads]) -> Table:
    """Greatest and least load on every support over all combinations, and the greatest lateral force."""
    rows = []
    for s in loads:
        lateral = (
            (digits(s.lateral.x), digits(s.lateral.y), s.lateral.combination)
            if s.lateral
            else ("not held", "not held", "")
        )
        rows.append((s.mark, digits(s.most[0]), s.most[1], digits(s.least[0]), s.least[1], *lateral))
    columns = ("support", "greatest", "in", "least", "in ", "lateral x", "lateral y", "in  ")
    return Table(
        columns,
        tuple(rows),
        "Load on the supports in combinations of weight alone, and the greatest lateral force of the platform on each, "
        "along x and y (lb); what wind, sway and braces add is in the next table",
        "lrlrlrrl",
    )


def with_wind_and_sway(forces: Sequence[SupportForces]) -> Table:
    """What every support has to hold with wind, sway and its braces: the loads that a footing or a tie is sized by."""
    rows = tuple(
        (
            force.mark,
            force.at,
            digits(force.most[0]),
            force.most[1],
            digits(force.least[0]),
            force.least[1],
            *(("none", "") if force.lateral is None else (digits(force.lateral[0]), force.lateral[1])),
        )
        for force in forces
    )
    columns = ("support", "at its", "greatest", "in", "least", "in ", "lateral", "in  ")
    caption = (
        "With wind, sway of people and the forces of braces, by hand calculation (lb), where checks take the worse of "
        "it and of the frame model: for footings, ties and anchors; negative is uplift, lateral the "
        "greatest in any direction, without regard to what acts with it"
    )
    return Table(columns, rows, caption, "llrlrlrl")


def held_down(end: FreeEnd) -> str:
    """Who holds the ends of boards down, in words: what is open, and what is let be, said as the checks say it."""
    if end.held:
        return ", ".join(end.held)
    if end.past <= LOOSE:
        return f"nothing: let be up to {feet_inches(LOOSE)} (common practice)"
    return "nothing: open, see the ends of boards"


def ends_table(layout: Layout) -> Table | Statement:
    """Edges at which boards end past the last member, and who takes their lever."""
    ends = free_ends(layout)
    if not ends:
        return Statement(StatementKind.NOTE, ("All boards end on a member, or lie along one.",))
    rows = tuple((end.edge, end.member, feet_inches(end.past), held_down(end)) for end in ends)
    caption = (
        "Ends of boards past the last member, with no rim or blocking in the file: that member takes the lever of "
        "deck, guard and one person there"
    )
    return Table(("edge", "member", "past it, at most", "held down by"), rows, caption, "llrl")
