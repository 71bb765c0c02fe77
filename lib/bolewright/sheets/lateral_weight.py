"""Weight behind the lateral cases: what each support gets of every kind of load, and seats that a check looks at."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.platform.analysis.brace_compression import with_feet
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.analysis.post_values import post_weight
from bolewright.platform.checks.beam_added import seats_from_overturning
from bolewright.platform.limit_states.check import Check, Topic
from bolewright.platform.loads.combine import Array, envelope
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.governing import governing_of
from bolewright.sheets.lateral_cases import governing_pushes, lateral_place

NOTE = (
    "R of a check with wind and sway is D, L, S and the push on a guard's post of these rows, most or least, each "
    "times its factor in the combination: of the rows of one support with tight knees, base hinged or fixed, the "
    "worse, and at a post its own weight beside it."
)


def weight_blocks(results: Results) -> Iterator[Block]:
    """Tables of the weight on supports and seats by kind, and what overturning adds to the seats."""
    lateral = results.lateral
    seats = list(_seats(results))
    rows = [*_supports(lateral), *(_row(lateral, *seat) for seat in _weights(lateral, seats))]
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
    added = tuple(dict.fromkeys(_added(results, seats)))
    if added:
        caption = "What overturning adds to seats of members (lb)"
        yield Table(("case", "member", "on", "R_o"), added, caption, "lllr")


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


Seat = tuple[Check, str, int, str]  # check, member, number of the seat, what it sits on


def _seats(results: Results) -> Iterator[Seat]:
    """Seats of the members that a lateral case governs, where a check names the seat."""
    for topic in Topic:
        for check in governing_of(results.of(topic)):
            if lateral_place(results.lateral, check) is None or check.part not in results.path.effects:
                continue
            for i, seat in enumerate(results.path.effects[check.part].member.seats):
                if seat.below not in results.path.reactions and not check.key.startswith("beam.bending"):
                    yield check, check.part, i, seat.below


def _weights(lateral: LateralAnalysis, seats: list[Seat]) -> Iterator[tuple[str, str, Array]]:
    for mark, i, below in dict.fromkeys((mark, i, below) for _, mark, i, below in seats):
        yield f"{mark} on {below}", "", np.asarray(lateral.path.effects[mark].reactions[i])


def _added(results: Results, seats: list[Seat]) -> Iterator[tuple[str, ...]]:
    lateral, listed = results.lateral, governing_pushes(results)
    for check, mark, i, below in seats:
        place = lateral_place(lateral, check)
        assert place is not None
        member = results.path.effects[mark].member
        R_o = seats_from_overturning(lateral, lateral.every[place[1]], member)[i, place[0]]
        yield f"{listed.index(place) + 1}", mark, below, digits(float(R_o))
