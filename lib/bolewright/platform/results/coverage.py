"""Which limit state of which part was checked: every one that applies is made or open, none is silently absent."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.layout.guards import edge_name, find_guards
from bolewright.platform.layout.parts import Bearing, Kind
from bolewright.platform.limit_states import LIMIT_STATES, LimitState, PartKind
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.project.bearing import SupportKind
from bolewright.status import Status


class Cover(StrEnum):
    """What became of a limit state on a part or a kind of part."""

    CHECKED = "checked"
    FAILS = "fails"
    OPEN = "open"
    NOT_APPLICABLE = "not applicable"


@dataclass(frozen=True)
class Row:
    """One limit state of one kind of part: what became of it on how many parts, and why where it does not apply."""

    state: LimitState
    cover: Cover
    parts: int
    why: str = ""


def parts_of(lateral: LateralAnalysis) -> dict[PartKind, tuple[str, ...]]:
    """The parts of a platform by their kind."""
    layout = lateral.path.layout
    project = layout.project
    hung = [
        m.mark
        for m in layout.members
        if any(seat.bearing is Bearing.HANGS for seat in m.seats)
        and (m.kind is not Kind.BLOCKING or m.seats[0].connection is not None)
    ]
    posts = tuple(s.mark for s in layout.supports if s.kind == SupportKind.POST)
    runs = find_guards(layout) if project.guards else ()
    on_deck = {
        PartKind.GUARD: tuple(post.mark for run in runs for post in run.posts),
        PartKind.GUARD_EDGE: tuple(dict.fromkeys(edge_name(run) for run in runs)),
        PartKind.GATE: tuple(gate.mark for gate in project.gates),
        PartKind.CROSSED_RODS: tuple(rods.mark for rods in project.crossed_rods),
        PartKind.POINT_LOAD: tuple(load.mark for load in project.point_loads),
        PartKind.TRUNK_OPENING: tuple(opening.mark for opening in project.trunk_openings),
        PartKind.LIMB: tuple(limb.mark for limb in project.limbs),
        PartKind.TRUNK_BRACE: tuple(s.mark for s in layout.supports if s.kind == SupportKind.KNEE_BRACE),
    }
    return {
        PartKind.DECKING: ("decking",),
        PartKind.BLOCKING: tuple(m.mark for m in layout.blocking),
        PartKind.JOIST: tuple(m.mark for m in layout.joists),
        PartKind.BEAM: tuple(m.mark for m in layout.beams),
        PartKind.HANGER: tuple(hung),
        PartKind.TREE_BOLT: tuple(s.mark for s in layout.supports if s.kind == SupportKind.TREE_BOLT),
        PartKind.TREE: tuple(t.mark for t in project.trees),
        PartKind.POST: posts,
        PartKind.FOOTING: posts,
        PartKind.BRACE: tuple(b.mark for b in project.braces),
        **{kind: marks for kind, marks in on_deck.items() if marks},
        PartKind.WALL: tuple(w.mark for w in project.walls),
        PartKind.PLATFORM: ("platform",),
        **({PartKind.HATCH: ("hatch",)} if project.hatch.given else {}),
        **({PartKind.LADDER: ("ladder",)} if project.ladder.given else {}),
        **({PartKind.STAIRS: ("stair",)} if project.stairs.given else {}),
    }


def missing_checks(lateral: LateralAnalysis, checks: Sequence[Check]) -> list[Check]:
    """An open check for each limit state that applies to every part of its kind and was not made for one.

    Where nothing holds the platform laterally, one open check of the platform and each post says so for all that
    depends on it.
    """
    made = _made(checks)
    parts = parts_of(lateral)
    return [
        not_checked(
            part,
            state.key,
            f"{part}: {state.plain} was not calculated for this arrangement: an engineer must look at it.",
        )
        for state in LIMIT_STATES.values()
        if not state.when and not (state.lateral and lateral.loose)
        for part in parts.get(state.kind, ())
        if part not in made[state.key]
    ]


def coverage(lateral: LateralAnalysis, checks: Sequence[Check]) -> tuple[Row, ...]:
    """Every limit state of every kind of part that the platform has, in the order of the load path."""
    made = _made(checks)
    parts = parts_of(lateral)
    rows = []
    for state in LIMIT_STATES.values():
        here = parts.get(state.kind, ())
        if not here:
            continue
        found = [check for checks_of in made[state.key].values() for check in checks_of]
        counts = {
            Cover.FAILS: {c.part for c in found if c.status is Status.FAILS},
            Cover.OPEN: {c.part for c in found if c.status is Status.NOT_CHECKED},
        }
        counts[Cover.CHECKED] = {c.part for c in found} - counts[Cover.FAILS] - counts[Cover.OPEN]
        rows += [Row(state, cover, len(marks)) for cover, marks in counts.items() if marks]
        if found:
            continue
        if state.lateral and lateral.loose:
            only = f"; it counts only {state.when}" if state.when else ""
            rows.append(Row(state, Cover.OPEN, len(here), f"nothing holds the platform laterally{only}"))
        else:
            rows.append(Row(state, Cover.NOT_APPLICABLE, len(here), f"only {state.when}"))
    absent = [kind for kind in PartKind if kind in parts and not parts[kind]]
    return tuple(rows) + tuple(
        Row(state, Cover.NOT_APPLICABLE, 0, f"there is no {kind.value}")
        for kind in absent
        for state in LIMIT_STATES.values()
        if state.kind is kind
    )


def _made(checks: Sequence[Check]) -> defaultdict[str, dict[str, list[Check]]]:
    """Checks by limit state and part."""
    found: defaultdict[str, dict[str, list[Check]]] = defaultdict(dict)
    for check in checks:
        found[check.key].setdefault(check.part, []).append(check)
    return found
