"""What rests on ratings: each value with its part, its source as it was typed, and what the checks ask of it."""

from __future__ import annotations

import math

from bolewright.platform.file.ratings import Rating, ratings_of
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results
from bolewright.rendering import numbers
from bolewright.rendering.blocks import Cell, Statement, StatementKind, Table
from bolewright.sheets.places import derivation_place


def asked_table(results: Results) -> Table | Statement:
    """Every rating with the check that asks most of it, the most used first."""
    ratings = ratings_of(results.project)
    if not ratings:
        return Statement(StatementKind.NOTE, ("The file gives no rating.",))
    found = [(rating, checks_on(results, rating)) for rating in ratings]
    found.sort(key=lambda pair: -max((c.severity for c in pair[1]), default=0.0))
    columns = ("rating", "value", "source as typed", "checks that use it, and what they ask", "ratio", "page")
    caption = "Ratings typed into the file: nobody here has seen them printed"
    return Table(columns, tuple(_row(*pair) for pair in found), caption, "lrllrl", (0, 0, 2, 3, 0, 0))


def _row(rating: Rating, checks: list[Check]) -> tuple[str | Cell, ...]:
    kind = _KINDS.get(rating.table, "")
    name = f"{kind} {rating.part}: {rating.key.replace('_', ' ')}".strip()
    source = rating.source or "no source given"
    if not checks:
        return (name, f"{rating.load:,.0f} lb", source, "none: no check asks anything of it", "", "")
    most = checks[0]
    said: dict[str, str] = {}
    for check in checks:
        asks = (
            f" {numbers.fmt(check.demand, check.unit)} at {check.part}"
            if check.has_sizes and check.unit.label
            else ""
        )
        said.setdefault(check.key, f"{check.limit_state}{asks}")
    return (
        name,
        f"{rating.load:,.0f} lb",
        source,
        "; ".join(said.values()),
        Cell(most.shown_ratio, most.status),
        Cell("", to=derivation_place(most)),
    )


_KINDS = {"bolt": "bolt and bracket", "connection": "hanger", "post": "post", "diagonal": "strap"}
# What the keys of a rating's checks say: two ratings of one part may have the same value.
_WORDS = {
    "uplift_tie": ("uplift", "together"),
    "rated_uplift": ("uplift", "together", "head_up"),
    "edge_load": ("edge", "rotation", "bracing"),
    "rotation_tie": ("rotation", "together"),
    "lateral_tie": ("fastening_lateral", ".lateral", "together"),
    "cap_lateral": ("lateral", "together"),
    "hold_down": ("hold_down",),
    "lower_tie": ("lower_tie",),
    "down_tie": ("load_down",),
    "rail_fastening": ("rail_fastening",),
    "infill_load": ("infill",),
    "grip_rating": ("ladder.grip",),
    "step_fixing": ("ladder.step_fixing",),
    "head_fixing": ("ladder.head",),
    "tread_bracket": ("stairs.tread_bracket",),
    "rail_tie": ("stairs.rail_load",),
}
# Keys of checks that count on a rating without its value: that ask nothing of it yet, or only whether it is given.
_COUNTS = {"uplift_tie": "uplift", "edge_load": "bracing"}
DECK_END = ("joist.lateral", "beam.lateral")
HUNG = ("joist.", "beam.", "blocking.", "hanger.", "stairs.")
DIAGONALS = "platform.in_plane"


def checks_on(results: Results, rating: Rating) -> list[Check]:
    """Checks of a rating's parts that run on its value, the worst first; else those that ask nothing of it yet."""
    parts = _parts(results, rating)
    own = [
        check
        for check in results.checks
        if (check.rests_on_rating or "bracing" in check.key)
        and (not parts or parts & set(_marks(check)))
        and _of_its_kind(check, rating)
    ]
    found = [check for check in own if _runs_on(check, rating.load)]
    if not found and (word := _COUNTS.get(rating.key)):
        found = [check for check in own if word in check.key]
    return sorted(found, key=lambda check: -check.severity)


def _of_its_kind(check: Check, rating: Rating) -> bool:
    """Whether a check is of what the rating is for, by its key."""
    if rating.table == "diagonal":
        return check.key == DIAGONALS
    if rating.table == "connection":
        if not check.key.startswith(HUNG):
            return False
        if rating.key == "rated_lateral" or check.key in DECK_END:
            return rating.key == "rated_lateral" and check.key in DECK_END
    return any(word in check.key for word in _WORDS.get(rating.key, ("",)))


def _marks(check: Check) -> list[str]:
    """Marks of the pieces that a check is of: of a numbered piece its letters too, where one entry gives them all."""
    marks = [*check.part.replace(",", " ").split(), *check.at.replace(",", " ").split()]
    return [*marks, *(mark.rstrip("0123456789") for mark in marks)]


def _parts(results: Results, rating: Rating) -> set[str]:
    """Marks that a rating's checks are of; empty where any part may be."""
    layout = results.path.layout
    match rating.table:
        case "bolt":
            return {s.mark for s in layout.supports if s.bolt == rating.part}
        case "post":
            return {s.mark for s in layout.supports if s.post == rating.part}
        case "strut":
            return {s.mark for s in layout.supports if s.strut == rating.part}
        case "joists" if rating.key == "edge_load":
            beams = {s.below for m in layout.joists if m.field == rating.part for s in m.seats}
            return {rating.part} | beams
        case "joists":
            return {m.mark for m in layout.joists if m.field == rating.part} | {rating.part}
        case "connection" | "diagonal":
            return set()
        case "stairs":
            return {"stair"}
    return {rating.part}


def _runs_on(check: Check, load: float) -> bool:
    """Whether a step of the check takes the rating's value, or its capacity is that."""
    values = [check.capacity, *(v for step in check.steps for v in step.arguments.values())]
    return any(math.isclose(value, load, rel_tol=1e-9) for value in values if not math.isnan(value))
