"""Hangers against their rated loads, and uplift: does every seat stay down under every pattern?

A piece that keeps what it hangs between from turning presses one of its ends down and lifts the other by as much.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from bolewright.bracing.blocking import blocking_moment, blocking_shear, end_force
from bolewright.calculation import Calculation
from bolewright.fasteners.rated import hanger_capacity
from bolewright.mechanics.ties import first_most
from bolewright.platform.analysis.braced import braces, unrated
from bolewright.platform.checks.members import BENT, CASES, NAMES, Look, prefix
from bolewright.platform.layout.layout import Bearing, Kind, Layout, Member, Seat
from bolewright.platform.limit_states.check import Check, Effect, judge, not_checked, nothing_asked
from bolewright.platform.loads.combine import Array, Case, envelope, member_envelope, uplift_cases
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Connection
from bolewright.platform.project.bearing import SupportKind
from bolewright.units import POUND

WET_CONNECTION = 0.7
UPRIGHT_NOTE = (
    "2 % of the greatest moment of each joist or beam that it keeps from turning, whichever way these lean: it lifts "
    "one end as it presses the other."
)
LIFTS = 0.5  # lb: an uplift of no more is the noise of statics
SQUARE = 1.0  # degrees: a hanger nearer to square than this is not skewed


def hanger_checks(looks: Sequence[Look]) -> list[Check]:
    """Every hung end against the rated load that the user entered."""
    ends = [
        (look, i, seat)
        for look in looks
        for i, seat in enumerate(look.member.seats)
        if seat.bearing is Bearing.HANGS and not held_by_fasteners(look.member)
    ]
    checks: list[Check] = []
    rated: list[tuple[Look, int, Seat, Connection]] = []
    for look, i, seat in ends:
        connection = look.path.layout.project.connections.get(seat.connection or "")
        if connection is None or connection.rated_load is None:
            checks.append(
                not_checked(
                    look.member.mark,
                    "hanger.rated",
                    f"{look.member.mark} hangs from {seat.below}, but no rated load is given for its hanger: "
                    "name a connection with a rated_load.",
                    at=seat.below,
                )
            )
        else:
            rated.append((look, i, seat, connection))
    if not rated:
        return checks
    R = np.stack([np.maximum(look.reactions.most(CASES)[:, i], 0.0) for look, i, _, _ in rated])
    calculation = Calculation((len(rated), len(CASES)))
    Z_p = calculation.run(
        hanger_capacity,
        Z_rated=np.array([[connection.rated_load] for *_, connection in rated]),
        C_D=np.array([min(case.C_D, 1.0) for case in CASES]),
        C_M=np.array([[wet_factor(look.member, connection)] for look, _, _, connection in rated]),
    )
    found = judge(
        calculation,
        [look.member.mark for look, *_ in rated],
        NAMES,
        key="hanger.rated",
        at=[seat.below for _, _, seat, _ in rated],
        demand=R,
        capacity=Z_p,
        unit=POUND,
        says=[f"the load on its hanger at {seat.below}" for _, _, seat, _ in rated],
        where=lambda row, column: _skew(rated[row][0], rated[row][2]),
        effect=lambda row, column: Effect("reaction", rated[row][0].member.mark, rated[row][1], 1),
    )
    angles: dict[str, set[float]] = {}
    for look, _, seat, _ in rated:
        angles.setdefault(seat.connection or "", set()).add(
            round(skew_of(look.path.layout, look.member, seat), 1)
        )
    return checks + [
        replace(check, remarks=(*check.remarks, *_skew_note(seat.connection or "", connection, angles)))
        for check, (_, _, seat, connection) in zip(found, rated, strict=True)
    ]


def _skew_note(name: str, connection: Connection, angles: dict[str, set[float]]) -> tuple[str, ...]:
    """At which skew a rating is used, where a hanger is set at one."""
    skewed = sorted(angle for angle in angles[name] if angle > SQUARE)
    if not skewed:
        return ()
    degrees = ", ".join(f"{angle:g}°" for angle in skewed)
    said = (
        "the file names no skew that it holds at"
        if connection.rated_skew is None
        else f"by the file it holds up to {connection.rated_skew:g}° (engineer to confirm)"
    )
    return (
        f"Hanger {name} is set at a skew of {degrees}: its rating has to be its maker's for that skew, mostly "
        f"less than straight (common practice); {said}.",
    )


def skew_of(layout: Layout, member: Member, seat: Seat) -> float:
    """Degrees by which a hung member is off square to what it hangs from."""
    below, u = layout.member(seat.below).line.u, member.line.u
    return math.degrees(math.asin(min(1.0, abs(u[0] * below[0] + u[1] * below[1]))))


def _skew(look: Look, seat: Seat) -> str:
    angle = skew_of(look.path.layout, look.member, seat)
    return f"skewed {angle:.0f}° off square" if angle > SQUARE else "square"


def uplift_checks(path: LoadPath) -> list[Check]:
    """Least reaction of every support and of every end on a beam; below zero it lifts and needs a tie."""
    layout = path.layout
    checks = []
    keys = {
        SupportKind.TREE_BOLT: "tree_bolt.uplift",
        SupportKind.POST: "post.uplift",
        SupportKind.KNEE_BRACE: "trunk_brace.uplift",
    }
    for support in layout.supports:
        influence = path.load_on(support.mark)
        checks.append(
            _uplift(path, support.mark, keys[support.kind], influence, support.uplift_tie, "uplift_tie")
        )
    cases = uplift_cases()
    for member in layout.members:
        key = f"{prefix(member)}.uplift"
        upright = _Upright.of(path, member, cases)
        for i, seat in enumerate(member.seats):
            if seat.below in path.reactions or held_by_fasteners(member):
                continue
            tie, entered, C_M = tie_of(layout, member, seat)
            influence = path.effects[member.mark].reactions[i]
            check = _uplift(path, member.mark, key, influence, tie, entered, seat.below, C_M, upright)
            checks.append(
                replace(check, effect=Effect("reaction", member.mark, i, -1)) if check.steps else check
            )
    return checks


def braced_by(path: LoadPath, piece: Member) -> tuple[Member, ...]:
    """Members whose bracing asks a force of the ends of a piece of blocking."""
    blocks = piece.kind is Kind.BLOCKING and not unrated(path.layout, piece)
    return braces(path.layout, piece) if blocks else ()


def bending_of(path: LoadPath, member: Member, cases: tuple[Case, ...]) -> Array:
    """Greatest moment of a member in every case, either way (lb·in)."""
    moment = member_envelope(path, member.mark, "moment")
    return np.asarray(np.maximum(moment.most(cases), -moment.least(cases)).max(axis=1), dtype=float)


@dataclass(frozen=True)
class _Upright:
    """What a piece keeps from turning: ``marks``, their greatest moments in every case (lb·in), ``s`` apart (in)."""

    marks: tuple[str, ...]
    M: tuple[Array, ...]
    s: float

    @classmethod
    def of(cls, path: LoadPath, piece: Member, cases: tuple[Case, ...]) -> _Upright | None:
        """What a piece keeps or is meant to keep from turning (a rating that lacks takes no lift away)."""
        if piece.kind is not Kind.BLOCKING:
            return None
        marks = {member.mark for of in (braces, unrated) for member in of(path.layout, piece)}
        held = [
            path.layout.member(mark) for mark in dict.fromkeys(s.below for s in piece.seats) if mark in marks
        ]
        M = tuple(bending_of(path, member, cases) for member in held)
        if max((float(m.max()) for m in M), default=0.0) <= BENT:
            return None
        return cls(tuple(member.mark for member in held), M, piece.line.length)

    def run(self, calculation: Calculation, R: Array, some: slice) -> Array:
        """Lift of an end in some of the cases, with what lifts it already (``R``, up; below zero it presses)."""
        ends = [calculation.run(blocking_moment, M_r=M[some]) for M in self.M]
        V_br = calculation.run(blocking_shear, M_1=ends[0], M_2=ends[1] if len(ends) > 1 else 0.0, s=self.s)
        return np.asarray(calculation.run(end_force, R=R[some], V_br=V_br), dtype=float)


def held_by_fasteners(member: Member) -> bool:
    """Whether nails or screws hold an end down as they hold it up: checked with what comes onto them."""
    return member.kind is Kind.BLOCKING and getattr(member.timber, "hanger", None) is None


def tie_of(layout: Layout, member: Member, seat: Seat) -> tuple[float | None, str, float]:
    """Rated uplift of what holds an end down on a beam (lb), where it is entered, and its wet service factor."""
    if seat.bearing is Bearing.HANGS:
        connection = layout.project.connections.get(seat.connection or "")
        rated = connection.rated_uplift if connection else None
        return rated, "rated_uplift of its hanger", wet_factor(member, connection)
    return getattr(member.timber, "uplift_tie", None), "uplift_tie", 1.0


def wet_factor(member: Member, connection: Connection | None) -> float:
    """Wet service factor of a hanger's ratings, down and up: 1 where its maker's rating holds for wet wood."""
    dry = connection is None or connection.wet_included or not member.timber.wet
    return 1.0 if dry else WET_CONNECTION


def _uplift(
    path: LoadPath,
    part: str,
    key: str,
    influence: np.ndarray,
    tie: float | None,
    entered: str,
    at: str = "",
    C_M: float = 1.0,
    upright: _Upright | None = None,
) -> Check:
    cases = uplift_cases()
    R = -envelope(path, influence[None, :]).least(cases)[:, 0]
    lifts = R if upright is None else upright.run(Calculation((len(cases),)), R, slice(None))
    worst = first_most(lifts)
    lift, least = max(0.0, float(lifts[worst])), max(0.0, -float(lifts[worst]))
    end = f" at {at}" if at else ""
    keeping = "" if upright is None else f" with what keeps {' and '.join(upright.marks)} upright"
    case = cases[worst].name
    if lift <= LIFTS:
        what = part if at else f"What bears on {part}"  # its foot may want more: that is a row of its own
        sentence = f"{what} stays down{end}{keeping}: its least load is {least:,.0f} lb ({case})."
        return nothing_asked(part, key, sentence, at=at, least=least, unit=POUND, case=case)
    if tie is None:
        return not_checked(
            part,
            key,
            f"{part} can be lifted{end}{keeping} by {lift:,.0f} lb ({case}): it needs a tie whose rated uplift is "
            f"entered as {entered}, or a layout with less overhang.",
            at=at,
        )
    calculation = Calculation((1, 1))
    if upright is not None:
        upright.run(calculation, R, slice(worst, worst + 1))
    Z_p = calculation.run(hanger_capacity, Z_rated=tie, C_D=1.0, C_M=C_M) if C_M < 1 else tie
    return judge(
        calculation,
        [part],
        [case],
        key=key,
        at=at,
        demand=lift,
        capacity=Z_p,
        unit=POUND,
        says=f"uplift on its tie{end}{keeping}",
        notes=() if upright is None else (UPRIGHT_NOTE,),
    )[0]
