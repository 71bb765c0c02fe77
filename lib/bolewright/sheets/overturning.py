"""Overturning behind R_o: its moment in every lateral case, and what a part of it adds to every support and seat."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from bolewright.platform.analysis.brace_compression import with_feet
from bolewright.platform.analysis.lateral import LateralAnalysis, levels_of
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.analysis.tipping import Tipped
from bolewright.platform.loads.combine import Array
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.lateral_cases import Place
from bolewright.sheets.lateral_weight import seats_of

LEAST_PUSH = 0.05  # lb or lb·in: less is no push that a reader could find again
THOUSAND = 1000.0  # lb·in: one would print as zeros
NOTE = (
    "M_x and M_y are the sums of force times height over grade along x and y, less the lateral forces of the supports "
    "times the heights at which they take them; knees that push the deck act at their own heights. R_o of a support or "
    "seat in a case is M_x and M_y times its row, over 1,000, with the couple over each post of the beam on it times "
    "its column: that couple is V of the post along the beam (first way) times d. A seat of two members is their sum."
)


def overturning_table(lateral: LateralAnalysis, found: Sequence[Place], names: dict[Place, str]) -> Table:
    """Moment of overturning in every case, and what it pushes the deck with through the knees of posts."""
    rows, pushes = [], []
    for case, number in found:
        state = lateral.every[number]
        moment = state.turn[:, case]
        push, at_supports = np.zeros(3), np.zeros(2)
        for i, (frame, spring) in enumerate(zip(lateral.frames, state.springs, strict=True)):
            push += spring.rows.T @ state.push[i, :, case]
            at_supports += (np.array(levels_of(frame)) * state.force[i, :, case]) @ spring.axes
        rows.append([digits(round(float(v), 3)) for v in (*(moment + at_supports), *moment)])
        pushes.append([digits(round(float(v), 3)) if abs(v) > LEAST_PUSH else "0" for v in push])
    columns = [
        "force times height along x (lb·in)",
        "along y (lb·in)",
        "left to weight: M_x (lb·in)",
        "M_y (lb·in)",
    ]
    caption = "Overturning in every lateral case"
    if any(cell != "0" for row in pushes for cell in row):
        columns = ["F_x (lb)", "F_y (lb)", "M_z (lb·in)", *columns]
        rows = [[*one, *other] for one, other in zip(pushes, rows, strict=True)]
        caption = (
            "What overturning pushes the deck with by the knees of posts, beside that lateral load: the part of the "
            "knees' lateral forces that the feet take (F_x, F_y, M_z; the same by weight is T in the rows of the "
            "supports); and the moment of overturning"
        )
    said = tuple((names[place], *row) for place, row in zip(found, rows, strict=True))
    return Table(("case", *columns), said, caption, "l" + "r" * len(columns))


def overturning_units(results: Results) -> Iterator[Block]:
    """Heights of the supports, and what 1,000 lb·in of overturning adds to each support and seat."""
    yield _units(results)
    yield Statement(StatementKind.NOTE, (NOTE,))


def _units(results: Results) -> Table:
    lateral = results.lateral
    tipped = [(t, i) for t in lateral.tipped.values() for i in range(len(t.posts))]
    marks = [lateral.frames[t.posts[i]].support.mark for t, i in tipped]
    lying = with_feet(
        lateral.frames,
        np.array([lateral.path.reactions[f.support.mark] for f in lateral.frames]) @ lateral.tilt,
    )
    couples = [with_feet(lateral.frames, t.supports)[:, i] for t, i in tipped]
    rows = []
    for i, frame in enumerate(lateral.frames):
        depth = digits(frame.depth) if isinstance(frame, PostFrame) and frame.depth else ""
        heights = [digits(v) for v in levels_of(frame)]
        rows.append((frame.support.mark, *heights, depth, *_units_of(lying[i], [c[i] for c in couples])))
    for mark, n, below in seats_of(results):
        of_seat = np.asarray(lateral.path.effects[mark].reactions[n] @ lateral.tilt)
        over_posts = [_on_seat(lateral, t, i, mark, n) for t, i in tipped]
        rows.append((f"{mark} on {below}", "", "", "", *_units_of(of_seat, over_posts)))
    columns = (
        "on",
        "takes V at (in), first way",
        "second way",
        "d (in)",
        "of M_x",
        "of M_y",
        *(f"of a couple over {mark}" for mark in marks),
    )
    caption = "What 1,000 lb·in of overturning adds to a support or seat (lb)"
    return Table(columns, tuple(rows), caption, "l" + "r" * (len(columns) - 1))


def _on_seat(lateral: LateralAnalysis, tipped: Tipped, i: int, mark: str, n: int) -> float:
    return float(tipped.seats[n, i]) if tipped is lateral.tipped.get(mark) else 0.0


def _units_of(lying: Array, couples: Iterable[float]) -> list[str]:
    return [digits(round(THOUSAND * float(v), 6)) for v in (*lying, *couples)]
