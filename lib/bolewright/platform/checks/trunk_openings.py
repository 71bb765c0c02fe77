"""Openings at trunks: the 4 in. sphere, growth, the travel and the load of what closes them."""

from __future__ import annotations

import numpy as np
from shapely import Point as PlanPoint
from shapely import Polygon

from bolewright.calculation import Calculation
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.checks.tree_clearance import movement_here
from bolewright.platform.layout.limbs import limb_at, sway_of
from bolewright.platform.layout.outlines import trunk_outline
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.platform.project import TrunkOpening
from bolewright.tree.growth import growth_over_years
from bolewright.tree.opening import gap_in_storm, gap_left, travel_needed
from bolewright.units import INCH, POUND, feet_inches

SPHERE = 4.0  # in, IRC 2021, R312.1.3
BEARING = 1.0  # in of a collar left on the deck at its farthest (common practice)
SPHERE_NOTE = (
    "The rule is written for guards (IRC 2021, R312.1.3); a foot or a child goes through a wider gap in a floor "
    "as well. It is held at rest, now, where the gap is widest."
)


def trunk_opening_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every opening that the file describes."""
    return [
        check for opening in lateral.path.layout.project.trunk_openings for check in _of(lateral, opening)
    ]


def gap_of(lateral: LateralAnalysis, opening: TrunkOpening) -> float:
    """Widest gap at rest (in): as the file gives it, or from the bark to the farthest corner of the deck's own edge."""
    if opening.gap is not None:
        return opening.gap
    layout = lateral.path.layout
    tree = next((t for t in layout.project.trees if t.mark == opening.around), None)
    if tree is not None:
        bark = trunk_outline(layout.project, tree)
    else:
        limb = next(x for x in layout.project.limbs if x.mark == opening.around)
        at, radius = limb_at(limb, layout.project.platform.floor_height)
        bark = PlanPoint(at).buffer(radius)
    rings = [ring for ring in layout.deck.interiors if PlanPoint(bark.centroid).within(Polygon(ring))]
    corners = [PlanPoint(p) for ring in rings for p in ring.coords]
    return float(max((bark.distance(p) for p in corners), default=layout.deck.distance(bark)))


def _of(lateral: LateralAnalysis, opening: TrunkOpening) -> list[Check]:
    project = lateral.path.layout.project
    tree = next((t for t in project.trees if t.mark == opening.around), None)
    limb = next((x for x in project.limbs if x.mark == opening.around), None)
    if tree is None:
        assert limb is not None
        tree = next(t for t in project.trees if t.mark == limb.tree)
    growth = limb.growth if limb is not None and limb.growth is not None else tree.growth
    s = sway_of(limb) if limb is not None else movement_here(lateral, tree)
    return [
        _sphere(lateral, opening, growth, tree.service, s),
        _growth(lateral, opening, growth, tree.service),
        _travel(lateral, opening, growth, tree.service, s),
        _load(lateral, opening),
    ]


def _sphere(
    lateral: LateralAnalysis, opening: TrunkOpening, growth: float, service: float, s: float | None
) -> Check:
    key, mark = "trunk_opening.sphere", opening.mark
    if opening.gap is None and opening.cover != "boards":
        return not_checked(
            mark, key, f"{mark}: enter gap, from the bark to the inner edge of its {opening.cover} at rest."
        )
    c = gap_of(lateral, opening)
    calculation = Calculation((1, 1))
    after = float(calculation.run(gap_left, c=c, g=growth, t=service))
    said = f"{c:.2f} in. now, {max(after, 0.0):.2f} in. after {service:g} years"
    if s is not None:
        said += f", up to {float(calculation.run(gap_in_storm, c=c, s=s)):.2f} in. on one side in a storm"
    return judge(
        calculation,
        [mark],
        ["any"],
        key=key,
        demand=c,
        capacity=SPHERE,
        unit=INCH,
        says="the gap at rest",
        where=lambda row, column: said,
        notes=(SPHERE_NOTE,),
    )[0]


def _growth(lateral: LateralAnalysis, opening: TrunkOpening, growth: float, service: float) -> Check:
    key, mark = "trunk_opening.growth", opening.mark
    if opening.gap is None and opening.cover != "boards":
        return not_checked(
            mark, key, f"{mark}: enter gap, so that growth until the next service can be held to it."
        )
    calculation = Calculation((1, 1))
    w = calculation.run(growth_over_years, g=growth, t=service)
    return judge(
        calculation,
        [mark],
        ["any"],
        key=key,
        demand=w,
        capacity=gap_of(lateral, opening),
        unit=INCH,
        says="growth until the next service",
        nothing=f"the bark meets the {opening.cover} already now",
    )[0]


def _travel(
    lateral: LateralAnalysis, opening: TrunkOpening, growth: float, service: float, s: float | None
) -> Check:
    """How far a collar lies on the deck, or a mesh gives, against what trunk and platform move apart."""
    key, mark = "trunk_opening.travel", opening.mark
    if opening.cover == "boards":
        return nothing_asked(
            mark, key, f"{mark}: boards cut to the gap do not travel; their clearance is the tree's."
        )
    if s is None:
        return not_checked(
            mark, key, f"{mark}: the sway of {opening.around} is not known: enter what was seen."
        )
    calculation = Calculation((1, 1))
    w = calculation.run(growth_over_years, g=growth, t=service)
    wanted = calculation.run(travel_needed, s=s, w=w, b=BEARING if opening.cover == "collar" else 0.0)
    if opening.overlap is None:
        return not_checked(
            mark,
            key,
            f"{mark}: its {opening.cover} must {'lie on the deck' if opening.cover == 'collar' else 'give'} by "
            f"{feet_inches(float(np.max(wanted)))} on every side: enter overlap.",
        )
    return judge(
        calculation,
        [mark],
        ["storm"],
        key=key,
        demand=wanted,
        capacity=opening.overlap,
        unit=INCH,
        says="the travel required",
        nothing=f"its {opening.cover} lies on nothing",
    )[0]


def _load(lateral: LateralAnalysis, opening: TrunkOpening) -> Check:
    key, mark = "trunk_opening.load", opening.mark
    person = lateral.path.layout.project.loads.person
    if opening.cover == "boards":
        return nothing_asked(
            mark, key, f"{mark}: it has no cover beside the decking, which is checked by itself."
        )
    if opening.rated_load is None:
        return not_checked(
            mark,
            key,
            f"{mark}: people step on its {opening.cover}: enter the load of one person that it bears as rated_load "
            f"({person:,.0f} lb are asked).",
        )
    return judge(
        Calculation((1, 1)),
        [mark],
        ["one person"],
        key=key,
        demand=person,
        capacity=opening.rated_load,
        unit=POUND,
        says="one person on its cover",
    )[0]
