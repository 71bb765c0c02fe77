"""What a stringer does to the rim or joist that it hangs on: it turns it, hung on its outer face."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from bolewright.bracing.rotation import joist_edge_force
from bolewright.calculation import Calculation
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stairs import MARK, StairPlan
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.units import POUND

ROTATION = (
    "The stringer bears on its hanger off the middle of the framing; the moment is a couple on the framing's depth, at "
    "each stringer by itself (statics). Nails into joists' end grain count for nothing in it (NDS 2018, 12.5.2)."
)


def head_rotation(
    layout: Layout, plan: StairPlan, calculation: Calculation, R: Array, cases: Sequence[str]
) -> Iterator[Check]:
    """Force at the edges of the framing from the load ``R`` of a stringer's head (lb), in every one of ``cases``."""
    mark = plan.heads[0].member
    if not mark:
        return
    framing = layout.member(mark)
    connection = layout.project.connections.get(plan.stairs.hanger or "")
    e = framing.width / 2 + (connection.seat_length if connection is not None else 0.0) / 2
    d = framing.section.d
    F_j = calculation.run(joist_edge_force, M_j=0.0, R=R, e=e, d_j=d)
    if plan.stairs.head_edge is None:
        why = (
            f"Each stringer hangs on the outer face of {mark} and turns it: {float(np.max(F_j)):,.0f} lb at its upper "
            "and lower edge. What holds these has no rated load (stairs.head_edge): the hanger's own edges, or "
            "blocking with ties behind each stringer. Nails into the end grain of joists hold nothing of it "
            "(NDS 2018, 12.5.2)."
        )
        yield not_checked(MARK, "stairs.head_rotation", why)
        return
    yield from judge(
        calculation,
        [MARK],
        cases,
        key="stairs.head_rotation",
        demand=F_j,
        capacity=plan.stairs.head_edge,
        unit=POUND,
        says=f"the force at the edges of {mark} at a stringer",
        notes=(ROTATION,),
    )
