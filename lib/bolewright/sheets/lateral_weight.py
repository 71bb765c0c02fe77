"""Weight behind the lateral cases: what each support gets of every kind of load, and seats that a check looks at."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from bolewright.platform.analysis.brace_compression import with_feet
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.analysis.post_values import post_weight
from bolewright.platform.checks.beam_added import seats_from_overturning
from bolewright.platform.checks.blocking import on_fasteners
from bolewright.platform.checks.seats import held_by_fasteners
from bolewright.platform.checks.upright import joists_that_hold
from bolewright.platform.layout.parts import Member
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array, envelope
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.lateral_cases import Place, places_of, push_names

NOTE = (
    "R of a check with wind and sway is D, L, S and the push on a guard's post of these rows, most or least, each "
    "times its factor in the combination: of the rows of one support with tight knees, base hinged or fixed, the "
    "worse, and at a post its own weight beside it."
)


def weight_blocks(results: Results) -> Iterator[Block]:
    """Tables of the weight on supports and seats by kind, and what overturning adds to the seats."""
    lateral = results.lateral
    seats = [
        (f"{mark} on {below}", np.asarray(lateral.path.effects[mark].reactions[i]))
        for mark, i, below in seats_of(results)
    ]
    rows = [*_supports(lateral), *(_row(lateral, name, "", row) for name, row in seats)]
    columns = (
        "on",
        "knees",
        "D most",
        "least",
        "L most",
        "least ",
        "S most",
        "least  ",
        "guard most",
        "least   ",
    )
    caption = "Weight on supports and seats by kind, for the lateral cases (lb); negative lifts"
    yield Table(columns, tuple(rows), caption, "ll" + "r" * 8)
    yield Statement(StatementKind.NOTE, (NOTE,))
    added = sorted(dict.fromkeys(_added(results)), key=lambda row: (int(row[0]), row[1:]))
    if added:
        caption = "What overturning adds to seats of members (lb)"
        yield Table(("case", "member", "on", "R_o"), tuple(added), caption, "lllr")


def _supports(lateral: LateralAnalysis) -> Iterator[tuple[str, ...]]:
    slack = np.array([lateral.path.reactions[f.support.mark] for f in lateral.frames])
    ways: list[tuple[str, Array]] = [("slack" if lateral.knees else "", with_feet(lateral.frames, slack))]
    for on, base in ((lateral.knee_influence, "hinged"), (lateral.knees_held, "fixed")):
        ways += [
            (f"tight, {base}, cap", with_feet(lateral.frames, on.caps)),
            (f"tight, {base}, foot", with_feet(lateral.frames, on.feet)),
        ]
    for i, frame in enumerate(lateral.frames):
        seen: list[Array] = []
        for words, rows in ways:
            if any(np.allclose(rows[i], other, atol=1e-9) for other in seen):
                continue
            seen.append(rows[i])
            said = words if isinstance(frame, PostFrame) else words.partition(",")[0]
            yield _row(lateral, frame.support.mark, said, rows[i])
        if isinstance(frame, PostFrame):
            own = digits(post_weight(lateral.path, frame.support))
            yield (frame.support.mark, "its own weight", own, own, *("0",) * 6)


def _row(lateral: LateralAnalysis, name: str, words: str, row: Array) -> tuple[str, ...]:
    e = envelope(lateral.path, row[None, :])
    kinds = (e.D, e.D_least, e.L_most, e.L_least, e.S_most, e.S_least, e.guard_most, e.guard_least)
    return (name, words, *(digits(float(kind[0])) for kind in kinds))


# Checks whose loads are listed one by one where they are worked out.
BY_LOADS = (
    "beam.bending",
    *(f"{kind}.{of}" for kind in ("joist", "blocking") for of in ("bending", "shear")),
)
Seat = tuple[str, int, str]  # member, number of its seat, what that sits on


def seats_of(results: Results) -> list[Seat]:
    """Seats of members on members that a row with a lateral case starts from, each once."""
    return list(dict.fromkeys(seat for _, seat in _asked(results)))


def _asked(results: Results) -> Iterator[tuple[Check, Seat]]:
    """Seats of the members that a lateral case governs: the one that a row names, else all."""
    places = places_of(results.lateral, results.checks)
    for check in results.checks:
        if id(check) not in places or check.part not in results.path.effects:
            continue
        for member, i in _looked_at(results, check, places[id(check)]):
            seat = member.seats[i]
            if seat.below not in results.path.reactions and not check.key.startswith(BY_LOADS):
                yield check, (member.mark, i, seat.below)


def _looked_at(results: Results, check: Check, place: Place) -> Iterator[tuple[Member, int]]:
    lateral, member = results.lateral, results.path.effects[check.part].member
    if check.key == "beam.rotation_joists":
        wanted = next(s.arguments["R_o"] for s in check.steps if s.formula.name == "load_with_sway")
        for joist, i in joists_that_hold(lateral, member):
            if math.isclose(_overturned(lateral, place, joist, i), wanted, rel_tol=1e-9):
                yield joist, i
        return
    if check.key == "beam.bearing_under_lateral":
        upper = results.path.effects[check.at].member
        yield from ((upper, i) for i, seat in enumerate(upper.seats) if seat.below == check.part)
        return
    named = [i for i, seat in enumerate(member.seats) if seat.below == check.at]
    for i in named or range(len(member.seats)):
        if held_by_fasteners(member) and member.seats[i].below not in lateral.path.reactions:
            yield from on_fasteners(lateral.path, member, i)
        else:
            yield member, i


def _overturned(lateral: LateralAnalysis, place: Place, member: Member, i: int) -> float:
    """R_o of a seat in a lateral case (lb)."""
    return float(seats_from_overturning(lateral, lateral.every[place[1]], member)[i, place[0]])


def _added(results: Results) -> Iterator[tuple[str, ...]]:
    lateral, names = results.lateral, push_names(results)
    places = places_of(lateral, results.checks)
    for check, (mark, i, below) in _asked(results):
        R_o = _overturned(lateral, places[id(check)], results.path.effects[mark].member, i)
        yield names[id(check)], mark, below, digits(R_o)
