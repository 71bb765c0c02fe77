"""The deck under 1,000 lb at one place: the movements from which P-delta and the restraint of a trunk are checked."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.analysis.lateral_supports import BoltFrame, PostFrame
from bolewright.platform.analysis.unit_push import UnitPush, restraint_push, softest_push
from bolewright.platform.checks.tree_clearance import tying
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block, Table
from bolewright.rendering.numbers import digits

P_DELTA, RESTRAINT = "platform.p_delta", "tree.restraint"
BY_ONE_PLACE = (P_DELTA, RESTRAINT)  # checks whose movement is under this load, in no case of wind or sway


def unit_push_blocks(results: Results) -> list[Block]:
    """Movement of the deck and forces on its supports for each of these checks that was made."""
    pushes = list(_pushes(results))
    if not pushes:
        return []
    moved = tuple(
        (
            words,
            *(digits(v) for v in (*push.at, *push.way)),
            *(digits(v) for v in push.movement),
            digits(push.delta),
        )
        for words, push in pushes
    )
    columns = ("for", "at x (in)", "y (in)", "c", "s", "u_x (in)", "u_y (in)", "θ (rad)", "δ (in)")
    caption = "Movement of the deck under 1,000 lb at one place, the trunks at rest"
    return [Table(columns, moved, caption, "lrrrrrrrr"), _held(results.lateral, pushes)]


def _pushes(results: Results) -> Iterator[tuple[str, UnitPush]]:
    lateral = results.lateral
    for check in results.checks:
        if not check.steps:
            continue
        if check.key == P_DELTA:
            posts = [i for i, f in enumerate(lateral.frames) if isinstance(f, PostFrame)]
            on = posts or list(range(len(lateral.frames)))
            state = next((s for s in lateral.states if s.words in check.where), lateral.states[0])
            push = softest_push(lateral, state, on)
            yield f"P-delta amplification, at the middle of the weight; {state.words}", push
        if check.key == RESTRAINT and (found := _restraint(lateral, check)).is_held:
            words = f"{check.part}: restraint force, at the middle of its bolts, without them; {found.state.words}"
            yield words, found


def _restraint(lateral: LateralAnalysis, check: Check) -> UnitPush:
    bolts = [f for f in lateral.frames if isinstance(f, BoltFrame) and f.tree.mark == check.part]
    return restraint_push(lateral, tying(bolts))


def _held(lateral: LateralAnalysis, pushes: list[tuple[str, UnitPush]]) -> Table:
    rows = []
    for words, push in pushes:
        for n, i in enumerate(push.held):
            V, y = push.force[n], push.lag[n]
            cells = (V[0], y[0], V[1], y[1])
            mark = lateral.frames[i].support.mark
            rows.append((words.partition(",")[0], mark, *(digits(float(v)) for v in cells)))
    columns = ("for", "support", "V, first way", "y (in)", "V, second way", "y (in)")
    return Table(columns, tuple(rows), "What these 1,000 lb bring to each support (lb)", "llrrrr")
