"""Uplift of a post into its concrete: bolts through its foot by the yield limit, or a rated anchor."""

from __future__ import annotations

from typing import Any

import numpy as np

from bolewright.fasteners.adjusted import connection_value
from bolewright.fasteners.bearing_lengths import Shear
from bolewright.fasteners.connectors import bolt
from bolewright.fasteners.lateral import lateral_design_value
from bolewright.fasteners.members import Concrete, Wood
from bolewright.platform.check import Check, not_checked, nothing_asked
from bolewright.platform.checks.level import judge_level, run_load, start
from bolewright.platform.checks.seats import LIFTS
from bolewright.platform.level_supports import PostFrame
from bolewright.platform.project import Footing
from bolewright.platform.sideways import Sideways
from bolewright.units import POUND

KEY = "post.foot_uplift"
LEAST_F_C = 2500.0  # psi: F_e of 7500 psi wants as much (NDS 2018, Table 12E)
BOLT_NOTE = (
    "Bolts through the post stick out into the concrete on both sides, six diameters at least (NDS 2018, 12.3.1, Table "
    "12E), and stand seven diameters or more above its end, four apart, 1 1/2 from its sides (Tables 12.5.1A to C); "
    "bond of the concrete to the wood is not counted. Wet."
)


def post_foot_checks(sideways: Sideways) -> list[Check]:
    """Uplift of every post into its concrete with wind and sway."""
    if sideways.loose:
        return []
    return [
        _foot(sideways, i, frame) for i, frame in enumerate(sideways.frames) if isinstance(frame, PostFrame)
    ]


def _foot(sideways: Sideways, i: int, frame: PostFrame) -> Check:
    mark, post = frame.support.mark, frame.post
    footing = sideways.path.layout.project.footings[frame.support.footing or ""]
    found = []
    for state in sideways.states:
        calculation = start(sideways)
        found.append((state, calculation, run_load(calculation.run, state, i, sideways.least[i], foot=True)))
    state, calculation, P = min(found, key=lambda item: float(item[2].min()))
    least = float(P.min())
    if least >= -LIFTS and post.foot_tie is None and post.foot_bolts is None:
        sentence = f"{mark} stays down in its concrete: its least load is {least:,.0f} lb."
        return nothing_asked(mark, KEY, sentence, least=least, unit=POUND)
    reason = _unknown(frame, footing, -least)
    if reason:
        return not_checked(mark, KEY, reason)
    capacity, notes = _capacity(sideways, frame, footing, calculation)
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        key=KEY,
        demand=np.maximum(-P, 0.0),
        capacity=capacity,
        unit=POUND,
        says="uplift of its foot",
        notes=notes,
        clause="" if post.foot_bolts else "Rated load, entered by the user",
    )


def _unknown(frame: PostFrame, footing: Footing, lift: float) -> str:
    """Why the uplift of a foot cannot be checked; empty where it can."""
    post, mark = frame.post, frame.support.mark
    if post.foot_bolts is not None and post.foot_tie is None:
        if footing.fill != "concrete":
            return (
                f"The foot of {mark} stands in soil on its pad: bolts through it hold nothing there. Fill the hole "
                "with concrete, or enter foot_tie, the rated uplift of its anchor in the pad."
            )
        if footing.f_c < LEAST_F_C:
            return f"Bolts in the foot of {mark} want concrete of {LEAST_F_C:,.0f} psi or more (NDS 2018, Table 12E)."
        return ""
    if post.foot_tie is None:
        return (
            f"{mark} is lifted by up to {lift:,.0f} lb out of its concrete: enter foot_bolts and foot_bolt_diameter, "
            "bolts through the post that stick out into the concrete, or foot_tie, the rated uplift of an anchor."
        )
    return ""


def _capacity(
    sideways: Sideways, frame: PostFrame, footing: Footing, calculation: Any
) -> tuple[Any, tuple[str, ...]]:
    post = frame.post
    if post.foot_tie is not None:
        return post.foot_tie, ()
    D = post.foot_bolt_diameter or 0.5
    side = max((footing.width - frame.section.d) / 2, 0.5)
    fastener = bolt(D, frame.section.d + 12 * D)
    one = lateral_design_value(
        fastener,
        Concrete(min(side, 6 * D), footing.f_c),
        Wood(min(frame.section.b, frame.section.d), frame.values.G, theta=0.0, name="post"),
        shear=Shear.DOUBLE,
        C_D=sideways.cases.C_D,
        calculation=calculation,
    )
    total = calculation.run(connection_value, n=float(post.foot_bolts or 0), Z_p=one.Z_adj)
    return total, (BOLT_NOTE, *one.notes)
