"""Hatches: the cover under people, its weight, what holds it open, and what keeps people from falling through."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.bracing.wind import solid_force_coefficient
from bolewright.calculation import Calculation
from bolewright.platform.layout.hatches import MARK, cover_weight
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.platform.loads.combine import PERSON
from bolewright.platform.loads.lateral_wind import Face, run_face
from bolewright.platform.loads.load_path import LoadPath, deck_weight
from bolewright.timber.adjusted_values import adjusted_bending
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bending import bending_stress
from bolewright.timber.deflection import line_load, moment_of_both, point_load_moment, simple_span_moment
from bolewright.timber.ladders import wind_on_cover
from bolewright.timber.sections import parse_section
from bolewright.units import POUND, PSI, feet_inches

ONE_HAND = 30.0  # lb (common practice)
SHUT_NOTE = (
    "Wind square to the open cover, as on a sign, 0.6 of it against the latch at its edge (ASCE 7-16, 29.3)."
)


def hatch_checks(path: LoadPath) -> list[Check]:
    """All checks of the hatch's cover; its headers and trimmers are beams HH1, HH2, HT1 and HT2."""
    if path.layout.project.hatch.at is None:
        return []
    return [*_cover(path), _weight(path), _held(path), *_fall(path)]


def _cover(path: LoadPath) -> Iterator[Check]:
    """One board of the cover, across the hole, under people or one person."""
    project = path.layout.project
    decking, hatch = project.decking, project.hatch
    if decking.span_limit is not None:
        why = f"The boards of the cover go {hatch.width:g} in. across the hole: hold them to their maker's limit."
        yield not_checked(MARK, "hatch.cover", why)
        return
    section = parse_section(decking.section)
    values = decking.values(section)
    group = factors(values, Service(wet=decking.wet, incised=decking.counts_incised), flat=True)
    names = ("D + L", "D + S", PERSON)
    C_D = np.array([1.0, 1.15, 1.0])
    q = deck_weight(decking) + np.array([project.loads.live, project.site.ground_snow, 0.0])
    calculation = Calculation((1, len(names)))
    run = calculation.run
    w = run(line_load, q=q, s=section.d)
    M_w = run(simple_span_moment, w=w, l=hatch.width)
    M_P = run(point_load_moment, P=np.array([0.0, 0.0, project.loads.person]), l=hatch.width)
    M = run(moment_of_both, M_w=M_w, M_P=M_P)
    yield from judge(
        calculation,
        [MARK],
        names,
        key="hatch.cover",
        demand=run(bending_stress, M=M, S=section.S_flat),
        capacity=run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **group.bending),
        unit=PSI,
        says="bending of a board of the cover",
    )


def _weight(path: LoadPath) -> Check:
    return judge(
        Calculation((1, 1)),
        [MARK],
        ["any"],
        key="hatch.weight",
        demand=cover_weight(path.layout),
        capacity=ONE_HAND,
        unit=POUND,
        says="the weight of the cover, lifted with one hand,",
    )[0]


def _held(path: LoadPath) -> Check:
    """Wind that shuts the open cover, against what holds it open."""
    project = path.layout.project
    hatch, floor = project.hatch, project.platform.floor_height
    calculation = Calculation((1, 1))
    size = (hatch.width, hatch.length, 1.0)
    face = Face("cover", 0.0, 0.0, floor, size, solid_force_coefficient(), floor + hatch.width)
    F = run_face(calculation.run, path, face)
    F_h = calculation.run(wind_on_cover, F=F)
    if hatch.held_open is None:
        why = (
            f"Wind shuts the open cover with {float(F_h):,.0f} lb at its edge; what holds it open has no rated load "
            "(hatch.held_open). A cover that falls shut breaks hands and heads."
        )
        return not_checked(MARK, "hatch.held", why)
    return judge(
        calculation,
        [MARK],
        ["0.6W"],
        key="hatch.held",
        demand=F_h,
        capacity=hatch.held_open,
        unit=POUND,
        says="the wind on the open cover",
        notes=(SHUT_NOTE,),
    )[0]


def _fall(path: LoadPath) -> Iterator[Check]:
    project = path.layout.project
    floor, how = project.platform.floor_height, project.hatch.open_guard
    fall = f"A fall through the open hatch is a fall of {feet_inches(floor)}"
    if how is None:
        why = (
            f"{fall}. The file does not say whether a guard stands on three sides of it while it is open, or whoever "
            "passes closes it behind (hatch.open_guard)."
        )
        yield not_checked(MARK, "hatch.fall", why)
    elif how == "three sides":
        yield nothing_asked(
            MARK, "hatch.fall", f"{fall}: a guard stands on three sides of it while it is open."
        )
    else:
        said = f"{fall}: whoever passes closes it behind; write that on the cover (common practice)."
        yield nothing_asked(MARK, "hatch.fall", said)
