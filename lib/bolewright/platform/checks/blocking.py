"""Fastening of rims, blocking and spacers: nails or screws in end grain, and what keeps joists from turning."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.bracing.blocking import blocking_moment, blocking_shear, end_force
from bolewright.calculation import Calculation
from bolewright.fasteners.adjusted import connection_value
from bolewright.fasteners.connectors import Connector, nail, wood_screw
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.lateral import lateral_design_value
from bolewright.fasteners.members import Wood
from bolewright.fasteners.rated import hanger_capacity
from bolewright.fasteners.service import DRY, OUTDOORS
from bolewright.platform.analysis.braced import braces, unrated
from bolewright.platform.checks.members import BENT, C_D, CASES, NAMES, Look
from bolewright.platform.checks.seats import wet_factor
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.parts import Member
from bolewright.platform.limit_states.check import Check, judge, not_checked, worst
from bolewright.platform.loads.combine import Array, Envelope, envelope, uplift_cases
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Blocking
from bolewright.units import POUND

END_GRAIN_NOTE = (
    "Nails or screws along the grain of the piece that holds their points: C_eg = 0.67 laterally (NDS 2018, 12.5.2.2), "
    "and no value in withdrawal (12.2): nothing here pulls on them. They take load down and up alike."
)
TOE_NOTE = (
    "Toe-nails, 30 degrees off the piece and a third of their length from its end: C_tn = 0.83 laterally (NDS 2018, "
    "12.5.4.2). They take load down and up alike."
)
BRACING_NOTE = (
    "2 % of the moment of each joist or beam that it keeps from turning; the moment itself goes into the piece by "
    "pressure at one edge and the boards at the other."
)
_SCREW = 3.5  # in
_ONE = 1e-6  # in


@dataclass(frozen=True)
class Held:
    """What one end of a piece can carry in every case, with the steps to it; ``open`` says why it can't be told."""

    calculation: Calculation
    capacity: Array | float
    notes: tuple[str, ...] = ()
    open: str = ""


def connector_of(entry: Blocking) -> Connector:
    """The nail or screw that an entry names (NDS 2018, Appendix L)."""
    kind, size = entry.fastener.split(" ")[-1], entry.fastener.split(" ")
    if kind == "nail":
        return nail(size[0])
    return wood_screw(int(size[1]), entry.fastener_length or _SCREW)


def driven(entry: Blocking) -> str:
    """The nails or screws of one end in words: "5 16d common nails"; empty where none are given."""
    if not entry.fasteners:
        return ""
    name = connector_of(entry).name
    return f"{entry.fasteners} {name}{'s' if entry.fasteners > 1 else ''}"


def blocking_checks(looks: Sequence[Look], members: Sequence[Look]) -> list[Check]:
    """Fastening of every piece that no hanger holds, and of every piece that keeps a joist or beam from turning."""
    checks: list[Check] = []
    known = {look.member.mark: look for look in members}
    for look in looks:
        if entry_of(look.member).hanger is None:
            checks.append(_fastening(look))
        held = braces(look.path.layout, look.member)
        meant = unrated(look.path.layout, look.member)
        if any(float(turning(known[m.mark]).max()) > BENT for m in meant):
            checks.append(_unrated(look.member, meant))
        elif held:
            checks += _bracing(look, [known[m.mark] for m in held])
    return checks


def _unrated(piece: Member, meant: Sequence[Member]) -> Check:
    """What a piece on one side alone is to hold upright, which nothing in the file says that it can."""
    reason = (
        f"{piece.mark} is to keep {' and '.join(m.mark for m in meant)} from turning (restrains_beam): enter "
        "edge_load, the rated load of its connections at the upper and lower edge. Until then it does not count."
    )
    return not_checked(piece.mark, "blocking.bracing", reason)


def _fastening(look: Look) -> Check:
    """Load on each end, down or up, against the nails or screws there; the worse of both."""
    return worst([_end(look, i) for i in range(len(look.member.seats))])[0]


def _end(look: Look, i: int) -> Check:
    mark, held, below = look.member.mark, by_fasteners(look.path, look.member, i), look.member.seats[i].below
    if held.open:
        return not_checked(mark, "blocking.fastening", held.open)
    (check,) = judge(
        held.calculation,
        [mark],
        NAMES,
        key="blocking.fastening",
        demand=end_load(look, i)[None, :],
        capacity=held.capacity,
        unit=POUND,
        says=f"the load on its fasteners at {below}",
        where=lambda row, column: f"at {below}",
        notes=held.notes,
    )
    return check


def end_load(look: Look, i: int) -> Array:
    """Greatest load on an end's fasteners in every case."""
    at_end = sum(
        look.path.effects[piece.mark].reactions[row] for piece, row in on_fasteners(look.path, look.member, i)
    )
    return either_way(envelope(look.path, np.asarray(at_end)[None, :]))


def either_way(found: Envelope) -> Array:
    """Greatest load on fasteners in every case, down or up; lifted, with 0.6 of the dead load too."""
    either = np.maximum(found.most(CASES), -found.least(CASES))[:, 0]
    lifts = -found.least(uplift_cases())[:, 0]
    pushed = np.array([case.guard > 0 for case in uplift_cases()])
    lift, push = max(float(lifts[~pushed].max()), 0.0), max(float(lifts[pushed].max()), 0.0)
    lifted = np.where(C_D >= 1.0, lift, 0.0)
    lifted = np.where([case.guard > 0 for case in CASES], np.maximum(lifted, push), lifted)
    return np.asarray(np.maximum(either, lifted), dtype=float)


def on_fasteners(path: LoadPath, piece: Member, i: int) -> list[tuple[Member, int]]:
    """Pieces, with the rows of their seats, that the same fasteners hold: of a rim both that meet at one joist."""
    entry, seat = entry_of(piece), piece.seats[i]
    if entry.kind != "rim":
        return [(piece, i)]
    return [
        (other, row)
        for other in path.layout.blocking
        if entry_of(other).mark == entry.mark
        for row, own in enumerate(other.seats)
        if own.below == seat.below and abs(own.below_at - seat.below_at) < _ONE
    ]


def toe_nailed(piece: Member, below: Member) -> bool:
    """Whether the nails of an end go in at a slant from the piece: what it meets is too thick to be nailed through."""
    entry = entry_of(piece)
    nails = entry.fastener.endswith("nail")
    return nails and entry.kind != "rim" and below.section.plies > 1


def by_fasteners(
    path: LoadPath, piece: Member, i: int, C_D: Array = C_D, calculation: Calculation | None = None
) -> Held:
    """Nails or screws through a rim into a joist's end, or through a joist into a block's end, by NDS 12.3 and 12.5.

    Into a beam of several plies nails are driven at a slant from the piece (toe-nails, 12.5.4).
    """
    entry = entry_of(piece)
    calculation = calculation or Calculation((1, len(CASES)))
    if entry.fasteners is None:
        reason = (
            f"{piece.mark} hangs between {piece.seats[0].below} and {piece.seats[1].below}, but no fastening is given: "
            "enter fasteners, the nails or screws at each end, or a hanger with a rated_load."
        )
        return Held(calculation, 0.0, open=reason)
    below = path.layout.member(piece.seats[i].below)
    slanted = toe_nailed(piece, below)
    own, other = (float(path.effects[mark].values.G) for mark in (piece.mark, below.mark))
    if entry.kind == "rim":
        side = Wood(piece.width, own, theta=90.0, name="rim")
        main = Wood(below.line.length, other, end_grain=True, name=below.kind.value)
    elif slanted:
        side = Wood(piece.width, own, theta=90.0, name=entry.kind)
        main = Wood(below.width, other, theta=90.0, name=below.kind.value)
    else:
        side = Wood(below.width, other, theta=90.0, name=below.kind.value)
        main = Wood(_grip(path, piece), own, end_grain=True, name=entry.kind)
    try:
        one = lateral_design_value(
            connector_of(entry),
            side,
            main,
            service=OUTDOORS if entry.wet else DRY,
            C_D=C_D,
            toe_nailed=slanted,
            calculation=calculation,
        )
    except FastenerError as error:
        reason = f"The fastening of {piece.mark} has no design value: {error}."
        return Held(calculation, 0.0, open=reason)
    total = calculation.run(connection_value, n=float(entry.fasteners), Z_p=one.Z_adj)
    return Held(calculation, np.asarray(total), (TOE_NOTE if slanted else END_GRAIN_NOTE, *one.notes))


def _grip(path: LoadPath, piece: Member) -> float:
    """Length of end grain that fasteners are driven into (in): half of the piece's, so that both ends have theirs."""
    faces = sum(path.layout.member(seat.below).width / 2 for seat in piece.seats)
    return max((piece.line.length - faces) / 2, 0.1)


def _bracing(look: Look, held: Sequence[Look]) -> list[Check]:
    """What keeps the members at its ends from turning, with the load on it, against one end's fastening."""
    piece = look.member
    moments = [turning(other) for other in held]
    if max(float(M.max()) for M in moments) <= BENT:
        return []
    ends_of = range(len(piece.seats))
    checks = [_braced_end(look, held, moments, i) for i in ends_of]
    return worst(checks)[:1]


def _braced_end(look: Look, held: Sequence[Look], moments: Sequence[Array], i: int) -> Check:
    piece = look.member
    support = by_fasteners(look.path, look.member, i) if entry_of(piece).hanger is None else _by_hanger(look)
    if support.open:
        return not_checked(piece.mark, "blocking.bracing", support.open)
    calculation = support.calculation
    ends = [calculation.run(blocking_moment, M_r=M[None, :]) for M in moments]
    V_br = calculation.run(
        blocking_shear, M_1=ends[0], M_2=ends[1] if len(ends) > 1 else 0.0, s=piece.line.length
    )
    V = calculation.run(end_force, R=end_load(look, i)[None, :], V_br=V_br)
    (check,) = judge(
        calculation,
        [piece.mark],
        NAMES,
        key="blocking.bracing",
        demand=V,
        capacity=support.capacity,
        unit=POUND,
        says=f"the load on its fastening at {piece.seats[i].below} with what keeps "
        f"{' and '.join(other.member.mark for other in held)} upright",
        notes=(BRACING_NOTE, *support.notes),
    )
    return check


def turning(look: Look) -> Array:
    """Greatest bending moment of a member in every case, either way: its compression edge is what is held."""
    return np.asarray(np.maximum(look.moment.most(CASES), -look.moment.least(CASES)).max(axis=1), dtype=float)


def _by_hanger(look: Look) -> Held:
    """Rated load of the hanger at each end, as its own check takes it."""
    piece = look.member
    connection = look.path.layout.project.connections.get(entry_of(piece).hanger or "")
    calculation = Calculation((1, len(CASES)))
    if connection is None or connection.rated_load is None:
        reason = f"{piece.mark} keeps its joists from turning, but no rated load is given for its hangers."
        return Held(calculation, 0.0, open=reason)
    capacity = calculation.run(
        hanger_capacity,
        Z_rated=connection.rated_load,
        C_D=np.minimum(C_D, 1.0),
        C_M=wet_factor(piece, connection),
    )
    return Held(calculation, np.asarray(capacity))
