"""The statics behind a demand, line by line: every load in the governing pattern, reactions, moment, shear."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from bolewright.bracing.tee import tee_knee_couple, tee_knee_prop
from bolewright.calculation import Calculation
from bolewright.mechanics.lever import load_in_combination, load_with_one_more
from bolewright.mechanics.loads import CoupleLoad, PointLoad, SpreadLoad, UnitLoad
from bolewright.mechanics.statics import other_reaction, reaction_by_moments, section_moment, section_shear
from bolewright.platform.analysis.pattern import case_of, influence_row
from bolewright.platform.analysis.post_values import post_weight
from bolewright.platform.layout.tees import TEE_NOTE, stands_alone, tee_of
from bolewright.platform.limit_states.check import Check, Effect
from bolewright.platform.loads.balance import BalanceError, middle
from bolewright.platform.loads.combine import Array, Case, support_envelope, worst_loads
from bolewright.platform.loads.load_path import Effects
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.pattern import pattern_figure
from bolewright.sheets.printing import Page, printed
from bolewright.units import feet_inches

LONGEST = 14  # rows of loads; of more, neighbours of one kind are taken together
# Places of loads are listed to a millionth of an inch; nearer than what is looked at beside a couple (in).
ONE_PLACE = 2e-6
SHARE = 3  # groups that loads of one kind on one side of the section are taken together in


@dataclass(frozen=True)
class Acting:
    """Load on a member in one case: what it is, where its centre is (in), and how much (lb).

    From ``start`` to ``end`` it lies in a straight line, or stands at one place. A ``couple`` (lb·in) has no weight: it
    deflects the member before it and hogs it past it.
    """

    label: str
    at: float
    pounds: float
    start: float
    end: float
    couple: float = 0.0

    def about(self, x: float) -> float:
        """Moment about a place, of loads past it positive (lb·in)."""
        return self.pounds * (self.at - x) - self.couple

    @property
    def shown(self) -> str:
        """How much it is, in its table."""
        return f"{_one(self.couple)} lb·in" if self.couple else _one(self.pounds)

    def left_of(self, x: float) -> tuple[float, float]:
        """How much of a load that a section cuts lies left of it, and the moment of that about it."""
        length = self.end - self.start
        rising = 3 * self.pounds * (self.at - self.start) / length - self.pounds
        falling, f = self.pounds - rising, (x - self.start) / length
        moment = length * (falling * (f**2 - f**3 / 3) + rising * f**3 / 3)
        return falling * (2 * f - f**2) + rising * f**2, moment


def acting_on(effects: Effects, loads: Array) -> list[Acting]:
    """Loads on a member, those of one kind at one place as one, in order along it."""
    found: dict[tuple[str, float, float], tuple[float, float]] = {}
    couples: dict[tuple[str, float], float] = {}
    for load, label, share in zip(effects.loads, effects.labels, effects.delivered @ loads, strict=True):
        start, end = _ends(load)
        if isinstance(load, CoupleLoad):
            couples[label, round(start, 6)] = couples.get((label, round(start, 6)), 0.0) + float(share)
            continue
        key = (label, round(start, 6), round(end, 6))
        pounds, moment = found.get(key, (0.0, 0.0))
        found[key] = (pounds + float(share), moment + float(share) * (middle(load) - start))
    acting = [x for key, (pounds, moment) in found.items() for x in _acting(*key, pounds, moment)]
    acting += [
        Acting(f"{label}, couple", at, 0.0, at, at, C) for (label, at), C in couples.items() if abs(C) > 1e-6
    ]
    return sorted(acting, key=lambda x: (x.at, x.label))


def _acting(label: str, start: float, end: float, pounds: float, moment: float) -> Iterator[Acting]:
    """A load by its centre; one without weight that turns all the same as a pair at its ends."""
    if abs(pounds) > 1e-9:
        yield Acting(label, start + (moment / pounds if end > start else 0.0), pounds, start, end)
    elif end > start and abs(moment) > 1e-6:
        pair = moment / (end - start)
        yield Acting(label, start, -pair, start, start)
        yield Acting(label, end, pair, end, end)


def _ends(load: UnitLoad) -> tuple[float, float]:
    match load:
        case PointLoad(x) | CoupleLoad(x):
            return x, x
        case SpreadLoad(start, end):
            return start, end
    return min(load.zero, load.peak), max(load.zero, load.peak)


def statics_blocks(results: Results, check: Check, page: Page | None = None) -> tuple[Block, ...]:
    """The governing pattern, the loads in it, and reactions, moment or shear by hand; nothing for other demands.

    Raises BalanceError when what comes out by hand is not what was checked; a fault of the program.
    """
    page = page if page is not None else Page()
    effect = check.effect
    if effect is None:
        return _support_load(results, check, page)
    row, case = influence_row(results.path, check), case_of(check)
    if row is None or case is None:
        return ()
    figure = pattern_figure(results.path, check) if effect.quantity.endswith("moment") else None
    shown: tuple[Block, ...] = (figure,) if figure else ()
    effects = results.path.effects[effect.member]
    loads = worst_loads(results.path, case, row)
    if stands_alone(effects.member):
        return (*shown, *_tee(results, effects, loads, acting_on(effects, loads), check, page))
    if len(effects.member.seats) != 2:
        return (*shown, *continuous(effects, acting_on(effects, loads), check))
    hand = Hand(effects, effect, acting_on(effects, loads))
    blocks = hand.blocks(check, page)
    by_hand, checked = effect.sign * hand.result, float(row @ loads)
    if not math.isclose(by_hand, checked, rel_tol=1e-6, abs_tol=1.0):
        raise BalanceError(f"{check.part}: {by_hand:.1f} by hand, {checked:.1f} checked")
    return (*shown, *blocks)


def _tee(
    results: Results, effects: Effects, loads: Array, acting: Sequence[Acting], check: Check, page: Page
) -> tuple[Block, ...]:
    """Statics of a beam on one post: weight, its moment about the post, and the couple of the knees."""
    tee = tee_of(results.project, effects.member)
    rows = [
        (
            x.label,
            feet_inches(x.at),
            x.shown,
            _one(x.at - tee.own),
            _one(x.about(tee.own)),
        )
        for x in gathered(acting, tee.own)
    ]
    R, M = (
        sum(x.pounds for x in acting),
        sum(x.about(tee.own) for x in acting),
    )
    carried = float((effects.reactions @ loads)[0])
    turned = float((effects.head @ loads)[0]) if effects.head is not None else 0.0
    if not (math.isclose(R, carried, abs_tol=0.5) and math.isclose(M, turned, rel_tol=1e-6, abs_tol=1.0)):
        raise BalanceError(
            f"{tee.mark}: {R:.1f} lb, {M:.1f} lb·in by hand; {carried:.1f}, {turned:.1f} checked"
        )
    rows.append(("total", "", digits(R), "", digits(M)))
    columns = ("load", "centre from start", "pounds", "past the post (in)", "moment about it (lb·in)")
    table = Table(columns, tuple(rows), _caption(effects, check), "lrrrr")
    calculation = Calculation()
    r_1, r_2 = tee.runs
    calculation.run(tee_knee_couple, M_s=M, r=r_2, r_o=r_1)
    for side, (r, r_o) in ((1, (r_2, r_1)), (-1, (r_1, r_2))):
        calculation.run(tee_knee_prop, R=R, M_s=side * M, r=r, r_o=r_o)
    facts = {"M_s": "total in the table above, towards the knee", "R": "total in the table above"}
    note = (
        f"{effects.member.mark} stands on {tee.mark} alone. Forces close: {tee.mark} carries {digits(carried)} lb, all "
        f"that is applied. Moments close: its knees {tee.knees[1].mark} and {tee.knees[0].mark} hold the moment about "
        f"the post by their couple, or as props by the difference of theirs, {digits(r_1 + r_2)} in apart, and bring "
        f"{digits(turned)} lb·in into the post's head."
    )
    equations = printed(calculation.at(()), page, facts)
    return (table, *equations, Statement(StatementKind.NOTE, (note, TEE_NOTE)))


def continuous(
    effects: Effects, acting: Sequence[Acting], check: Check, caption: str | None = None
) -> tuple[Block, ...]:
    """Loads on a beam over more than two supports, whose forces are not of statics alone."""
    member = effects.member
    rows = tuple(
        (x.label, feet_inches(x.at), x.shown if x.couple else digits(x.pounds))
        for x in gathered(acting, math.nan)
    )
    table = Table(("load", "centre from start", "pounds"), rows, caption or _caption(effects, check), "lrr")
    note = (
        f"{member.mark} runs over {len(member.seats)} supports: its forces are those of a continuous beam "
        "(three-moment equations), not of statics alone."
    )
    return (table, Statement(StatementKind.NOTE, (note,)))


def _caption(effects: Effects, check: Check) -> str:
    wherever = "only where it lifts" if check.key.endswith(".uplift") else "wherever it makes it greater"
    live = f", live load {wherever}" if "L" in check.combination else ""
    return f"Loads on {effects.member.mark} in {check.combination}{live}"


def gathered(acting: Sequence[Acting], section: float) -> list[Acting]:
    """Loads as they are listed: of a long list neighbours of one kind on one side of the section as their resultant.

    A load that the section cuts stands by itself: a resultant does not say how much of it lies left.
    """
    if len(acting) <= LONGEST:
        return list(acting)
    kinds: dict[tuple[str, bool], list[Acting]] = {}
    rows: list[Acting] = []
    for load in acting:
        if load.couple or load.start < section < load.end:
            rows.append(load)
        else:
            kinds.setdefault((load.label, load.end <= section), []).append(load)
    for loads in kinds.values():
        size = max(1, math.ceil(len(loads) / SHARE))
        rows += [_resultant(loads[i : i + size]) for i in range(0, len(loads), size)]
    return sorted(rows, key=lambda x: (x.at, x.label))


def _resultant(loads: Sequence[Acting]) -> Acting:
    if len(loads) == 1:
        return loads[0]
    total = sum(load.pounds for load in loads)
    at = sum(load.pounds * load.at for load in loads) / total if total else loads[0].at
    name = f"{loads[0].label}, {len(loads)} pieces"
    return Acting(name, at, total, min(x.start for x in loads), max(x.end for x in loads))


class Hand:
    """Statics of a member on two supports at the section that a check looks at."""

    def __init__(
        self, effects: Effects, effect: Effect, acting: Sequence[Acting], caption: str | None = None
    ) -> None:
        self.effects = effects
        self.effect = effect
        self.first, self.second = (seat.at for seat in effects.member.seats)
        self.acting = acting
        self.caption = caption
        self.at_seat = effect.quantity == "reaction"
        self.x = math.nan if self.at_seat else float(effects.stations[effect.row])
        self.result = math.nan

    def left(self, load: Acting) -> tuple[float, float]:
        """Part of a load that lies left of the section, and its moment about it."""
        if self.at_seat:
            return 0.0, 0.0
        if load.couple:
            return 0.0, load.couple if load.at <= self.x + ONE_PLACE else 0.0
        if load.start == load.end:
            whole = self._is_left(load.at)
            return (load.pounds, load.pounds * (self.x - load.at)) if whole else (0.0, 0.0)
        if load.start > self.x:
            return 0.0, 0.0
        if load.end <= self.x:
            return load.pounds, load.pounds * (self.x - load.at)
        return load.left_of(self.x)

    def _is_left(self, at: float) -> bool:
        """Whether a point load or a support lies left of the section; one in it only where its right side is meant."""
        if abs(at - self.x) <= ONE_PLACE:
            return self.effect.quantity == "shear right"
        return at < self.x

    def blocks(self, check: Check, page: Page) -> tuple[Block, ...]:
        """Table of the loads with their moments, and the equations."""
        calculation = Calculation()
        W = sum(load.pounds for load in self.acting)
        M_A = sum(load.about(self.first) for load in self.acting)
        W_left, M_left = (sum(column) for column in zip(*map(self.left, self.acting), strict=True))
        R_B = calculation.run(reaction_by_moments, M_A=M_A, l=self.second - self.first)
        self.result = R_B
        last_seat = self.at_seat and self.effect.row == 1
        if not last_seat:
            R_A = calculation.run(other_reaction, W=W, R_B=R_B)
            self.result = R_A
            if self.effect.quantity == "moment":
                a, b = (max(0.0, self.x - place) for place in (self.first, self.second))
                self.result = calculation.run(section_moment, R_A=R_A, a=a, R_B=R_B, b=b, M_left=M_left)
            elif not self.at_seat:
                R_left = R_A * self._is_left(self.first) + R_B * self._is_left(self.second)
                self.result = calculation.run(section_shear, R_left=R_left, W_left=W_left)
        seats = self.effects.member.seats
        facts = {
            "M_A": "total in the table above",
            "W": "total in the table above",
            "W_left": "total in the table above",
            "M_left": "total in the table above",
            "l": f"{seats[0].below} to {seats[1].below}",
            "R_left": "support by support, 0 where none lies left of it",
        }
        return (self._table(check, W, M_A, W_left, M_left), *printed(calculation.at(()), page, facts))

    def _table(self, check: Check, W: float, M_A: float, W_left: float, M_left: float) -> Table:
        columns = [
            "load",
            "centre from start",
            "pounds",
            "past the first support (in)",
            "moment about it (lb·in)",
        ]
        if self.effect.quantity == "moment":
            columns.append("moment about the section, of what lies left (lb·in)")
        elif not self.at_seat:
            columns.append("of it left of the section (lb)")
        rows = []
        for load in gathered(self.acting, self.x):
            past = load.at - self.first
            row = [load.label, feet_inches(load.at), load.shown, _one(past), _one(load.about(self.first))]
            rows.append(tuple(row + self._of_section(*self.left(load))))
        total = ["total", "", digits(W), "", digits(M_A), *self._of_section(W_left, M_left)]
        if not self.at_seat:
            total[-1] = digits(M_left if self.effect.quantity == "moment" else W_left)
        return Table(
            tuple(columns),
            (*rows, tuple(total)),
            self.caption or _caption(self.effects, check),
            "l" + "r" * (len(columns) - 1),
        )

    def _of_section(self, pounds: float, moment: float) -> list[str]:
        if self.at_seat:
            return []
        return [_one(moment if self.effect.quantity == "moment" else pounds)]


def _one(value: float) -> str:
    """Number to a tenth: a column of them can be added up."""
    return f"{value + 0.0:,.1f}".replace("-0.0", "0.0")


# ---------------------------------------------------------------------------------------------------------


def _support_load(results: Results, check: Check, page: Page) -> tuple[Block, ...]:
    """Load on a bolt or post in the combination that governs, where the check starts from it."""
    case = case_of(check)
    if case is None or check.part not in results.path.reactions:
        return ()
    wanted = {abs(value) for s in check.steps for value in s.arguments.values()}
    for most, own in product((True, False), (0.0, _own_weight(results, check.part))):
        P, calculation = _combined(results, check.part, case, own, most=most)
        if any(math.isclose(abs(P), value, rel_tol=1e-9) for value in wanted if value):
            way = "most" if most else "least"
            facts = {
                "D": f"load on {check.part}, sheet Load path and reactions",
                "L": f"{way} that it brings to {check.part}, same table",
                "S": "same table",
                "f_D": f"{check.combination}, sheet Basis of design",
                "Q": f"own weight of the post; of a guard or one person the {way} in the same table",
            }
            return tuple(printed(calculation.at(()), page, facts))
    return ()


def _own_weight(results: Results, mark: str) -> float:
    """Own weight of a post (lb); 0 of another support."""
    support = next(s for s in results.path.layout.supports if s.mark == mark)
    return post_weight(results.path, support) if support.kind == SupportKind.POST else 0.0


def _combined(
    results: Results, mark: str, case: Case, own: float, *, most: bool
) -> tuple[float, Calculation]:
    """Greatest or least load of a support in a case, with its own weight."""
    env = support_envelope(results.path, mark)
    calculation = Calculation()
    P = calculation.run(
        load_in_combination,
        f_D=case.D,
        D=float((env.D if most else env.D_least)[0]),
        f_L=case.L,
        L=float((env.L_most if most else env.L_least)[0]),
        f_S=case.S,
        S=float((env.S_most if most else env.S_least)[0]),
    )
    more = (
        (case.D if own else 0.0, np.array([own])),
        (case.guard, env.guard_most if most else env.guard_least),
        (case.person, env.person_most if most else env.person_least),
    )
    for f, Q in more:
        if f:
            P = calculation.run(load_with_one_more, P_w=P, f=f, Q=float(Q[0]))
    return float(P), calculation
