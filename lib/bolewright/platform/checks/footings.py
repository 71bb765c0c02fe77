"""Footings: pressure on the soil (allowable stress), frost depth, thickness of the concrete."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np

from bolewright.calculation import Calculation
from bolewright.ground.concrete import BACKFILL, PLAIN_CONCRETE, weight_of_volume, weight_with_backfill
from bolewright.ground.footing import minimum_footing_thickness
from bolewright.ground.soil import footing_depth_required, round_footing_area, soil_pressure_gross
from bolewright.platform.analysis.post_values import post_timber, post_weight
from bolewright.platform.checks.concrete import concrete_checks
from bolewright.platform.checks.members import CASES, NAMES
from bolewright.platform.checks.posts import support_load
from bolewright.platform.limit_states.check import Check, judge
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Footing, Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.sections import Section
from bolewright.units import FOOT, INCH, PSF

LEAST_DEPTH = 12.0  # in, IRC R403.1.4
LEAST_PAD = 8.0  # in, ACI 318-19 14.3.2.1
GROSS_NOTE = (
    "Gross pressure: all that fills the hole counts and no soil displaced is deducted; the stricter of the two "
    "readings of a presumptive value."
)


def footing_checks(path: LoadPath) -> list[Check]:
    """Checks of the footing under every post."""
    checks: list[Check] = []
    for support in path.layout.supports:
        if support.kind == SupportKind.POST:
            footing = path.layout.project.footings[support.footing or ""]
            checks += [_soil(path, support, footing), _frost(path, support, footing)]
            checks += [_thickness(support, footing), *_projection(path, support, footing)]
            checks += concrete_checks(path, support, footing)
    return checks


def concrete_weight_volume(footing: Footing) -> float:
    """Volume of concrete in and round a footing (cu ft); the post inside is not deducted."""
    plan = math.pi / 4 if footing.shape == "round" else 1.0
    height = footing.depth if footing.fill == "concrete" else footing.pad
    return plan * footing.width**2 * height / 1728


def concrete_held_down(footing: Footing, post: Section) -> float:
    """Volume of concrete that holds a post down (cu ft): without the post, which stands in it down to the pad."""
    inside = post.b * post.d * max(footing.depth - footing.pad, 0.0) if footing.fill == "concrete" else 0.0
    return concrete_weight_volume(footing) - inside / 1728


def weight_on_soil(run: Callable[..., Any], footing: Footing) -> Any:
    """Weight of a footing on the soil (lb): of its concrete, and of the soil that fills the hole over a pad."""
    W_c = run(weight_of_volume, V=concrete_weight_volume(footing), gamma=PLAIN_CONCRETE)
    if footing.fill == "concrete":
        return W_c
    plan = math.pi / 4 if footing.shape == "round" else 1.0
    over = plan * footing.width**2 * max(footing.depth - footing.pad, 0.0) / 1728
    return run(weight_with_backfill, W_c=W_c, W_s=run(weight_of_volume, V=over, gamma=BACKFILL))


def allowable_bearing(path: LoadPath) -> float:
    """Allowable soil bearing (psf): the user's own, or the presumptive value of the class."""
    site = path.layout.project.site
    return site.soil_bearing or site.soil.values.vertical


def _soil(path: LoadPath, support: Support, footing: Footing) -> Check:
    D = np.array([c.D for c in CASES])
    P = support_load(path, support.mark)[None, :] + D * post_weight(path, support)
    calculation = Calculation(P.shape)
    run = calculation.run
    W_f = weight_on_soil(run, footing)
    side = footing.width / 12
    A = run(round_footing_area, d_f=side) if footing.shape == "round" else side**2
    q = run(soil_pressure_gross, P=P, W_f=W_f, A=A)
    allowed = allowable_bearing(path)
    own = path.layout.project.site.soil_bearing is not None
    return judge(
        calculation,
        [support.mark],
        NAMES,
        key="footing.soil",
        demand=q,
        capacity=allowed,
        unit=PSF,
        clause="User's own value" if own else "",
        says="pressure on the soil",
        notes=(GROSS_NOTE,),
    )[0]


def _frost(path: LoadPath, support: Support, footing: Footing) -> Check:
    calculation = Calculation((1, 1))
    wanted = calculation.run(
        footing_depth_required, d_frost=path.layout.project.site.frost_depth / 12, d_min=LEAST_DEPTH / 12
    )
    return judge(
        calculation,
        [support.mark],
        ["any"],
        key="footing.frost",
        demand=wanted,
        capacity=footing.depth / 12,
        unit=FOOT,
        says="the depth that frost asks for",
    )[0]


def _thickness(support: Support, footing: Footing) -> Check:
    calculation = Calculation((1, 1))
    return judge(
        calculation,
        [support.mark],
        ["any"],
        key="footing.thickness",
        demand=LEAST_PAD,
        capacity=footing.pad,
        unit=INCH,
        says="the thickness that plain concrete must have",
    )[0]


def _projection(path: LoadPath, support: Support, footing: Footing) -> list[Check]:
    """A pad's thickness beside what runs out past the post; a hole filled with concrete is as thick as it is deep."""
    if footing.fill == "concrete":
        return []
    section, _ = post_timber(path, support)
    calculation = Calculation((1, 1))
    h_min = calculation.run(minimum_footing_thickness, B=footing.width, c=min(section.b, section.d))
    return judge(
        calculation,
        [support.mark],
        ["any"],
        key="footing.projection",
        demand=h_min,
        capacity=footing.pad,
        unit=INCH,
        says="the thickness that a footing of its projection must have",
    )
