"""Deck boards: bending and deflection between joists, one heavy person on one board, the end beyond a joist."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from bolewright.calculation import Calculation
from bolewright.mechanics.serviceability import deflection_limit
from bolewright.platform.checks.board_limit import MARK, board_limit_checks
from bolewright.platform.layout.boards import board_spans
from bolewright.platform.limit_states.check import Check, judge
from bolewright.platform.loads.combine import PERSON, strength_cases
from bolewright.platform.loads.load_areas import heaviest
from bolewright.platform.loads.load_path import LoadPath, deck_dead
from bolewright.timber.adjusted_values import adjusted_bending, adjusted_modulus
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bending import bending_stress
from bolewright.timber.deflection import (
    line_load,
    moment_of_both,
    overhang_moment,
    point_load_moment,
    simple_span_deflection,
    simple_span_moment,
)
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section, parse_section
from bolewright.units import INCH, PSI

SPAN_NOTE = (
    "Boards are taken as simple spans from joist to joist, although most run over several: on the safe side for "
    "bending and deflection."
)

ASLANT_NOTE = (
    "Boards at 45° to the joists span 1.41 times the distance between these (geometry). IRC 2021, Table R507.7, has "
    "joists under them at most 12 in. on centre for boards of 5/4, 16 in. for boards of 2 in. nominal (from memory)."
)


def decking_checks(path: LoadPath) -> list[Check]:
    """Checks of the deck boards: of their timber, or by the limits of their maker's sheet."""
    decking = path.layout.project.decking
    if decking.span_limit is not None:
        return board_limit_checks(path, decking.span_limit)
    section = parse_section(decking.section)
    values = decking.values(section)
    span, overhang = board_spans(path.layout)
    checks = [*_bending(path, section, values, span, overhang), _deflection(path, section, values, span)]
    notes = (SPAN_NOTE, ASLANT_NOTE) if decking.direction != "square" else (SPAN_NOTE,)
    return [replace(check, part=MARK, remarks=(*notes, *check.remarks)) for check in checks]


def _bending(
    path: LoadPath, section: Section, values: DesignValues, span: float, overhang: float
) -> list[Check]:
    project = path.layout.project
    cases = strength_cases()
    board = Calculation((1, len(cases)))
    run = board.run
    dead = deck_dead(path.layout)
    dead += heaviest(project, "dead")
    live = project.loads.live + heaviest(project, "live")
    snow = project.site.ground_snow + heaviest(project, "snow")
    q = np.array([c.D * dead + c.L * live + c.S * snow for c in cases])
    group = factors(
        values, Service(wet=project.decking.wet, incised=project.decking.counts_incised), flat=True
    )
    w = run(line_load, q=q, s=section.d)
    M_w = run(simple_span_moment, w=w, l=span)
    person = np.array([c.person * project.loads.person for c in cases])
    M_P = run(point_load_moment, P=person, l=span)
    M = run(moment_of_both, M_w=M_w, M_P=M_P)
    f_b = run(bending_stress, M=M, S=section.S_flat)
    C_D = np.array([c.C_D for c in cases])
    F_b_p = run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **group.bending)
    names = [c.name for c in cases]
    checks = judge(
        board,
        [MARK],
        names,
        key="decking.bending",
        demand=f_b,
        capacity=F_b_p,
        unit=PSI,
        says="bending of a board between joists",
    )
    end = Calculation((1, 1))
    M_end = end.run(
        overhang_moment,
        w=end.run(line_load, q=dead, s=section.d),
        P=project.loads.person,
        a=overhang,
    )
    f_b_end = end.run(bending_stress, M=M_end, S=section.S_flat)
    F_b_end = end.run(adjusted_bending, F_b=values.F_b, C_D=1.0, C_L=1.0, **group.bending)
    checks += judge(
        end,
        [MARK],
        [PERSON],
        key="decking.end_bending",
        demand=f_b_end,
        capacity=F_b_end,
        unit=PSI,
        says="one person on the end of a board",
    )
    return checks


def _deflection(path: LoadPath, section: Section, values: DesignValues, span: float) -> Check:
    project = path.layout.project
    group = factors(
        values, Service(wet=project.decking.wet, incised=project.decking.counts_incised), flat=True
    )
    calculation = Calculation((1, 1))
    run = calculation.run
    live = project.loads.live + heaviest(project, "live")
    w = run(line_load, q=max(live, project.site.ground_snow + heaviest(project, "snow")), s=section.d)
    E_p = run(adjusted_modulus, E=values.E, **group.modulus)
    delta = run(simple_span_deflection, w=w, l=span, E_p=E_p, I=section.I_flat)
    allowed = run(deflection_limit, l=span, n=project.limits.deck_live)
    (check,) = judge(
        calculation,
        [MARK],
        ["L or S"],
        key="decking.live_deflection",
        demand=delta,
        capacity=allowed,
        unit=INCH,
        says="the deflection of a board under live load",
    )
    return check
