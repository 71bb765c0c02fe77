"""The statics behind a demand: every load on the member in the governing pattern, and the moments by hand."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.calculation import Calculation, Step
from bolewright.mechanics.loads import PointLoad
from bolewright.mechanics.statics import other_reaction, reaction_by_moments, section_moment
from bolewright.platform.check import Check
from bolewright.platform.combine import Array, worst_loads
from bolewright.platform.load_path import BalanceError, Effects
from bolewright.platform.pattern import case_of, influence_row
from bolewright.platform.results import Results
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.pattern import pattern_figure
from bolewright.sheets.printing import printed
from bolewright.units import feet_inches


@dataclass(frozen=True)
class Acting:
    """A load on a member in one case: what it is, where its centre is (in), and how much (lb)."""

    label: str
    at: float
    pounds: float
    start: float
    end: float


def acting_on(effects: Effects, loads: Array) -> list[Acting]:
    """Loads on a member, those of one kind at one place as one, in order along it."""
    found: dict[tuple[str, float, float], float] = {}
    for load, label, share in zip(effects.loads, effects.labels, effects.delivered @ loads, strict=True):
        place = (load.x, load.x) if isinstance(load, PointLoad) else _ends(load)
        key = (label, round(place[0], 3), round(place[1], 3))
        found[key] = found.get(key, 0.0) + float(share)
    acting = [Acting(label, (a + b) / 2, pounds, a, b) for (label, a, b), pounds in found.items()]
    return sorted((x for x in acting if abs(x.pounds) > 1e-9), key=lambda x: (x.at, x.label))


def _ends(load: object) -> tuple[float, float]:
    return (load.start, load.end)  # type: ignore[attr-defined]


def statics_blocks(results: Results, check: Check) -> tuple[Block, ...]:
    """The governing pattern, the loads in it, the reactions and the moment by hand; nothing for other demands.

    Raises BalanceError when the moment by hand is not the one that was checked; a fault of the program.
    """
    path = results.path
    row, case = influence_row(path, check), case_of(check)
    figure = pattern_figure(path, check)
    shown: tuple[Block, ...] = (figure,) if figure else ()
    if row is None or case is None or check.effect is None or check.effect.quantity != "moment":
        return shown
    effects = path.effects[check.effect.member]
    loads = worst_loads(path, case, row)
    acting = acting_on(effects, loads)
    member = effects.member
    table = Table(
        ("what", "centre from start", "load (lb)"),
        tuple((x.label, feet_inches(x.at), digits(x.pounds)) for x in acting),
        f"Loads on {member.mark} in {check.combination}, live load where it makes the moment greater",
        "lrr",
    )
    if len(member.seats) != 2:
        note = (
            f"{member.mark} runs over {len(member.seats)} supports: its moments are those of a continuous beam "
            "(three-moment equations), not of statics alone."
        )
        return (*shown, table, Statement(StatementKind.NOTE, (note,)))
    steps = _by_hand(effects, acting, float(effects.stations[check.effect.row]))
    by_hand, checked = check.effect.sign * steps[-1].result, float(row @ loads)
    if not math.isclose(by_hand, checked, rel_tol=1e-6, abs_tol=1.0):
        raise BalanceError(f"{check.part}: {by_hand:.1f} lb·in by hand, {checked:.1f} lb·in checked")
    return (*shown, table, *printed(steps))


def _by_hand(effects: Effects, acting: list[Acting], x: float) -> tuple[Step, ...]:
    first, second = (seat.at for seat in effects.member.seats)
    calculation = Calculation()
    M_A = sum(load.pounds * (load.at - first) for load in acting)
    R_B = calculation.run(reaction_by_moments, M_A=M_A, l=second - first)
    R_A = calculation.run(other_reaction, W=sum(load.pounds for load in acting), R_B=R_B)
    left = 0.0
    for load in acting:
        if load.end <= x:
            left += load.pounds * (x - load.at)
        elif load.start < x:
            part = (x - load.start) / (load.end - load.start)
            left += load.pounds * part * (x - load.start) / 2
    calculation.run(
        section_moment, R_A=R_A, a=max(0.0, x - first), R_B=R_B, b=max(0.0, x - second), M_left=left
    )
    return calculation.at(())
