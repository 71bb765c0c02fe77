"""Blocking that alone, on one side, keeps a joist or beam from turning: the edges of its connections, one pulled."""

from __future__ import annotations

from collections.abc import Sequence

from bolewright.bracing.blocking import blocking_moment, brace_edge_force
from bolewright.calculation import Calculation
from bolewright.platform.analysis.braced import by_edges_alone
from bolewright.platform.analysis.eccentric import edge_load, off_centre
from bolewright.platform.checks.blocking import end_load, turning
from bolewright.platform.checks.members import BENT, CASES, NAMES, Look
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.units import POUND

EDGES_NOTE = (
    "2 % of the moment of what it keeps from turning (AISC 360-16, Appendix 6.3.2, by analogy), and its own load "
    "beside the middle line, as a couple on its depth: one edge of its connection is pulled, as nothing stands on the "
    "other side."
)


def blocking_edge_checks(looks: Sequence[Look], members: Sequence[Look]) -> list[Check]:
    """Of every piece that is to hold by its edges: the force there in the joist's or beam's worst bending.

    A piece whose rating is not given counts as no brace, and is open.
    """
    known = {look.member.mark: look for look in members}
    return [
        check
        for look in looks
        for i in by_edges_alone(look.path.layout, look.member)
        for check in _edges(look, i, known[look.member.seats[i].below])
    ]


def _edges(look: Look, i: int, held: Look) -> list[Check]:
    piece, rated = look.member, edge_load(look.member)
    M_r = turning(held)
    if float(M_r.max()) <= BENT:
        return []
    if rated is None:
        reason = (
            f"{piece.mark} alone is to keep {held.member.mark} from turning (restrains_beam), but edge_load, the rated "
            "load of its connection at the upper and lower edge, is not given. Until then it does not count."
        )
        return [not_checked(piece.mark, "blocking.bracing_edges", reason, at=held.member.mark)]
    layout = look.path.layout
    e = next(
        (abs(one.e) for one in off_centre(layout, held.member) if one.member is piece and one.row == i), 0.0
    )
    calculation = Calculation((1, len(CASES)))
    M_br = calculation.run(blocking_moment, M_r=M_r[None, :])
    F_br = calculation.run(brace_edge_force, M_br=M_br, R=end_load(look, i)[None, :], e=e, d=piece.section.d)
    return judge(
        calculation,
        [piece.mark],
        NAMES,
        key="blocking.bracing_edges",
        at=held.member.mark,
        demand=F_br,
        capacity=rated,
        unit=POUND,
        says=f"the force at the edges of its connection to {held.member.mark}, which it alone keeps from turning",
        notes=(EDGES_NOTE,),
    )
