"""What people in one place, areas with a load of their own, and a support that goes down do to the supports."""

from __future__ import annotations

import numpy as np

from bolewright.mechanics.ties import first_most, least_of, most_of
from bolewright.platform.layout.actions import ActionKind
from bolewright.platform.layout.coupling import settle
from bolewright.platform.loads.combine import Array, member_envelope, strength_cases
from bolewright.platform.loads.load_areas import on_deck, pounds_of
from bolewright.platform.loads.load_path import LoadPath, member_values
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.units import feet_inches

CROWD = 48.0  # in: side of the square in a corner where a crowd stands
SMALL = 0.5  # lb: a change that is no change


def people_table(results: Results) -> Table:
    """For every support: one heavy person where it presses most, a crowd in the corner that presses or lifts most."""
    path = results.path
    corners = crowds(path)
    rows = []
    for mark, row in path.reactions.items():
        spots = row[path.first_spot :] * path.layout.project.loads.person
        best = first_most(spots)
        place = path.spots[best].point
        loads = {name: float(row @ load) for name, load in corners.items()}
        most, least = most_of(loads, loads.__getitem__), least_of(loads, loads.__getitem__)
        lifted = loads[least] < -SMALL
        rows.append(
            (
                mark,
                digits(float(row @ path.dead)),
                digits(float(spots[best])),
                f"{feet_inches(place[0])}, {feet_inches(place[1])}",
                digits(loads[most]),
                most,
                digits(loads[least]) if lifted else "none",
                least if lifted else "",
            )
        )
    caption = (
        f"One person of {path.layout.project.loads.person:g} lb at the worst spot, and a crowd at the live load on "
        f"{feet_inches(CROWD)} by {feet_inches(CROWD)} in one corner (lb); negative lifts"
    )
    columns = (
        "support",
        "D",
        "one person",
        "standing at",
        "crowd, most",
        "in corner",
        "crowd lifts",
        "in corner ",
    )
    return Table(columns, tuple(rows), caption, "lrrlrlrl")


def crowds(path: LoadPath) -> dict[str, Array]:
    """Live load on the panels near each corner of the outline, by the corner's number."""
    at = np.array([p.centroid for p in path.panels])
    found = {}
    for number, corner in enumerate(path.layout.project.platform.outline, start=1):
        near = (np.abs(at - np.array(corner)) <= CROWD).all(axis=1)
        load = np.zeros_like(path.live)
        load[: len(at)] = np.where(near, path.live[: len(at)], 0.0)
        found[str(number)] = load
    return found


def areas_table(results: Results) -> Table | None:
    """The areas with a load of their own, and what comes of each to the supports; None without any."""
    path = results.path
    areas = path.layout.project.load_areas
    if not areas:
        return None
    rows = []
    for area in areas:
        part = on_deck(path.layout, area)
        alone = np.zeros_like(path.dead)
        alone[: len(path.panels)] = path.deck.on_panels(pounds_of(area, path.layout, path.deck))
        shares = ", ".join(
            f"{mark} {digits(float(row @ alone))}"
            for mark, row in path.reactions.items()
            if abs(float(row @ alone)) > SMALL
        )
        rows.append(
            (
                area.mark,
                area.note,
                area.kind,
                digits(area.load),
                f"{part.area / 144:.1f}",
                digits(float(alone.sum())),
                shares,
            )
        )
    columns = ("area", "what", "kind", "psf", "sq ft", "lb", "to the supports (lb)")
    return Table(columns, tuple(rows), "Areas with a load of their own; they count in every check", "lllrrrl")


def actions_table(results: Results) -> Table | None:
    """Loads at places that parts bring, and what comes of each to the supports; None without any."""
    path = results.path
    actions = path.layout.actions
    if not actions:
        return None
    rows: dict[tuple[str, ...], list[str]] = {}
    for number, action in enumerate(actions, start=path.first_action):
        shares = ", ".join(
            f"{mark} {digits(float(row[number]))}"
            for mark, row in path.reactions.items()
            if abs(float(row[number])) > SMALL
        )
        # what comes to several places at once stands in one row; of a push, the place where it is made
        ends = (action,) if action.kind is ActionKind.PUSH else (action, *action.also)
        pull = [sum(one.level[k] for one in ends) for k in (0, 1)]
        level = f"{digits(pull[0])}, {digits(pull[1])}" if any(pull) else ""
        moment = f"{digits(action.moment[0])}, {digits(action.moment[1])}" if any(action.moment) else ""
        row = (
            action.part,
            action.what,
            action.kind.value,
            f"{action.member or 'boards'} at "
            + " and ".join(f"{feet_inches(one.at[0])}, {feet_inches(one.at[1])}" for one in ends),
            digits(sum(one.down for one in ends)),
            level,
            moment,
        )
        ways = rows.setdefault(row, [])
        if shares not in ways:
            ways.append(shares)
    columns = (
        "part",
        "what",
        "kind",
        "place",
        "down, lb",
        "lateral x, y, lb",
        "moment x, y, lb·in",
        "to the supports, lb",
    )
    caption = (
        "Loads at places, impact included; they count in every check (push: of a guard, one place at a time; live: "
        "where it does harm; or: where two pieces of a rim meet, either may take a push's moment, and the worse "
        "counts). Lateral forces stand in the lateral cases"
    )
    return Table(columns, tuple((*row, " or ".join(ways)) for row, ways in rows.items()), caption, "llllrrrl")


def settlement_blocks(results: Results) -> tuple[Table | Statement, ...]:
    """What shifts when one support goes down by the allowance of the file beside the others."""
    path = results.path
    by = path.layout.project.site.settlement
    EI = {m.mark: member_values(m).E * m.section.I for m in path.layout.members}
    found = settle(path.layout, EI)
    if not by or np.abs(found.supports).max() * by < SMALL:
        said = "Every member is held by statics alone, so a support that goes down a little shifts no load to another."
        return (Statement(StatementKind.READING, (said if by else "No settlement is asked for.",)),)
    marks = [s.mark for s in path.layout.supports]
    rows = []
    for column, mark in enumerate(marks):
        stiff = -float(found.supports[column, column])
        if stiff * by < SMALL:
            continue
        carried = float(path.reactions[mark] @ (path.dead + path.live))
        goes = min(by, max(carried, 0.0) / stiff)
        shift = found.supports[:, column] * goes
        changes = ", ".join(
            f"{other} {change:+,.0f}"
            for other, change in zip(marks, shift, strict=True)
            if abs(change) >= SMALL
        )
        member = max(found.moment, key=lambda name: found.moment[name][column])
        M = found.moment[member][column] * goes
        free = f"{goes:.2g} in." if goes < by else "not yet"
        rows.append((mark, free, changes, member, digits(M), _beside_largest(path, member, M)))
    columns = ("down", "lets go at", "change of load (lb)", "most bent", "lb·in", "of its largest")
    caption = f"One support down by {feet_inches(by)} under D + L, until it carries nothing: common practice"
    table = Table(columns, tuple(rows), caption, "lrllrr")
    note = (
        "A support that has let go carries nothing, and its beam spans past it; one that stands high by as much "
        "takes what its neighbours lack. Supports are taken as rigid and the timber without creep: an upper bound. "
        "Wood frames are commonly shimmed level again instead of being checked for it (ASCE 7-16, 2.4.4, from memory, "
        "asks for self-straining loads where they matter), so it stands in no check here: look at the levels every "
        "year and shim, or give each beam two supports only."
    )
    return (table, Statement(StatementKind.NOTE, (note,)))


def _beside_largest(path: LoadPath, mark: str, M: float) -> str:
    env = member_envelope(path, mark, "moment")
    largest = max(float(env.most(strength_cases()).max()), -float(env.least(strength_cases()).min()))
    return f"{100 * M / largest:.0f} %"
