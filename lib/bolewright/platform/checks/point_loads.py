"""Loads at one place: the boards under them, and what fastens them."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.bracing.hanging import fastening_pull
from bolewright.calculation import Calculation
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.point_loads import HANGS, impact_of, run_force
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.platform.project import PointLoad
from bolewright.units import POUND

ANY = "any"
PULL = "the pull on its fastening"
WEAR = "Wear and fatigue of hangers and ropes are not calculated: look at them every season, and replace what is worn."


def point_load_checks(layout: Layout) -> list[Check]:
    """All checks of all loads at one place; what they do to the framing stands in the rows of the framing."""
    return [check for load in layout.project.point_loads for check in _of(layout, load)]


def _of(layout: Layout, load: PointLoad) -> Iterator[Check]:
    if load.member is None:
        yield from _boards(layout, load)
    yield from _fastening(load)


def _boards(layout: Layout, load: PointLoad) -> Iterator[Check]:
    """Boards under a load are at most as much loaded as under the one heavy person, or open."""
    person = layout.project.loads.person
    down = run_force(Calculation().run, load).down
    if down > person:
        yield not_checked(
            load.mark,
            "point_load.boards",
            f"{load.mark} bears on the boards with {down:,.0f} lb, more than the {person:g} lb of one person that they "
            "are checked for: set it on a member, or give its load over an area as [[load_area]].",
        )
    elif down > 0:
        yield nothing_asked(
            load.mark,
            "point_load.boards",
            f"{load.mark} bears on the boards with no more than the one person that they are checked for anywhere.",
            least=person,
            unit=POUND,
            case=ANY,
        )


def _fastening(load: PointLoad) -> Iterator[Check]:
    calculation = Calculation((1, 1))
    force = run_force(calculation.run, load)
    if load.form not in HANGS and force.down >= 0 and not force.level:
        return
    R = calculation.run(fastening_pull, V=abs(force.down), H=force.level)
    if load.fastener_load is None:
        yield not_checked(
            load.mark,
            "point_load.fastening",
            f"{load.mark} pulls on its fastening with {float(np.max(R)):,.0f} lb: enter the rated load of the "
            "fastening as fastener_load, off its maker's sheet.",
        )
        return
    f, source = impact_of(load)
    notes = [f"Impact factor {f:g}: {source}."] if f > 1 else []
    yield from judge(
        calculation,
        [load.mark],
        [ANY],
        key="point_load.fastening",
        demand=R,
        capacity=load.fastener_load,
        unit=POUND,
        says=PULL,
        notes=(*notes, WEAR) if load.form in HANGS else tuple(notes),
    )
