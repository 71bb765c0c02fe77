"""Solves a span table: the checks of all members as arrays, and the greatest span that meets them.

The same formulas as the checks, over combinations x stocks x sizes x widths.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from bolewright.timber.adjusted_values import (
    adjusted_bearing,
    adjusted_bending,
    adjusted_modulus,
    adjusted_shear,
)
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.basis import DesignBasis, LoadType
from bolewright.timber.bearing import bearing_length_wanted
from bolewright.timber.bending import bending_stress
from bolewright.timber.deflection import (
    creep_factor,
    line_load,
    overhang_moment,
    overhang_tip_deflection,
    simple_span_deflection,
    simple_span_moment,
    simple_span_shear,
    total_deflection,
)
from bolewright.timber.greatest import Array, greatest_length, nearest_inch, whole_inch
from bolewright.timber.sections import Section
from bolewright.timber.shear import shear_at_depth, shear_stress
from bolewright.timber.span_terms import Governs, Rounding, SpanLimits, SpanLoads, SpanRow, Stock


@dataclass(frozen=True)
class SpanQuestion:
    """What a table is asked: stocks, sizes, widths, and how a width loads a member."""

    stock: Sequence[Stock]
    sizes: Sequence[Section]
    widths: Array
    tributary: Callable[[Array], Any]  # width of floor (in) on the member
    repetitive: Callable[[Section, float], bool]
    loads: SpanLoads
    service: Service
    limits: SpanLimits
    basis: DesignBasis
    shear_at_depth: bool = False
    C_r: float | None = None  # over what NDS 4.3.9 gives


@dataclass(frozen=True)
class _Arrays:
    """Loads and adjusted values, broadcasting to combinations x stocks x sizes x widths."""

    b: Array
    d: Array
    S: Array
    I: Array
    w: Array  # per combination, lb/in
    w_live: Array
    w_dead: Array
    w_dead_factor: Array  # dead load of each combination, lb/in
    F_b_p: Array
    F_v_p: Array
    F_c_perp_p: Array
    E_p: Array
    K_cr: Array
    confidence: list[list[str]] = field(default_factory=list)


def span_table(question: SpanQuestion) -> tuple[SpanRow, ...]:
    """Rows of the table, sizes then widths, the weakest stock governing each."""
    arrays = _arrays(question)
    limits = question.limits
    shape = np.broadcast_shapes(arrays.F_b_p.shape, arrays.w.shape)[1:]

    def checks(l: Array) -> dict[Governs, Array]:
        return _span_ratios(arrays, limits, l, at_depth=question.shear_at_depth)

    exact = greatest_length(lambda l: _largest(checks(l)), shape, limits.longest)
    quarter = limits.overhang_share * exact
    if limits.share_down:
        quarter = whole_inch(quarter)
    weakest = np.argmin(exact, axis=0)  # sizes x widths
    round_off = nearest_inch if limits.rounding is Rounding.NEAREST else whole_inch

    def at_weakest(values: Array) -> Array:
        taken: Array = np.take_along_axis(values, weakest[None], axis=0)[0]
        return taken

    # each stock at its own span, the least overhang governing: as IRC Table R507.6 does, and on the safe side
    def tips(a: Array) -> dict[Governs, Array]:
        return _overhang_ratios(arrays, question.loads.overhang_point, limits, exact, quarter, a)

    overhangs = greatest_length(lambda a: _largest(tips(a)), shape, limits.longest)
    overhang_weakest = np.argmin(overhangs, axis=0)
    overhang = np.take_along_axis(overhangs, overhang_weakest[None], axis=0)[0]
    governs, tip_governs = checks(exact), tips(overhangs)
    reaction = np.max(simple_span_shear(w=arrays.w, l=at_weakest(exact)), axis=0)
    bearing = np.max(
        np.broadcast_to(bearing_length_wanted(R=reaction, b=arrays.b, F_c_perp_p=arrays.F_c_perp_p), shape),
        axis=0,
    )
    exact_of_weakest = at_weakest(exact)
    rows = []
    for i, section in enumerate(question.sizes):
        for j, width in enumerate(question.widths):
            k = int(weakest[i, j])
            capped = exact_of_weakest[i, j] >= limits.longest
            rows.append(
                SpanRow(
                    section=section,
                    width=float(width),
                    span=float(round_off(exact_of_weakest)[i, j]),
                    exact=float(exact_of_weakest[i, j]),
                    governs=Governs.LONGEST if capped else _governing(governs, (k, i, j)),
                    overhang=float(round_off(overhang)[i, j]),
                    overhang_governs=_governing(tip_governs, (int(overhang_weakest[i, j]), i, j)),
                    bearing=float(bearing[i, j]),
                    weakest=question.stock[k],
                    confidence=arrays.confidence[k][i],
                )
            )
    return tuple(rows)


def _arrays(question: SpanQuestion) -> _Arrays:
    basis = question.basis.with_loads([LoadType.DEAD, question.loads.live_kind])
    values = [[s.values(size) for size in question.sizes] for s in question.stock]
    service = [s.service or question.service for s in question.stock]
    adjusted = [
        [
            [
                factors(v, lives, repetitive=question.repetitive(v.section, float(width)))
                for width in question.widths
            ]
            for v in row
        ]
        for row, lives in zip(values, service, strict=True)
    ]
    creep = np.array([creep_factor(wet=lives.wet) for lives in service])[:, None, None]

    def of_value(symbol: str) -> Array:
        return np.array([[[getattr(v, symbol)] for v in row] for row in values])

    def of_size(symbol: str) -> Array:
        return np.array([[getattr(size, symbol)] for size in question.sizes])

    def of_factors(name: str) -> dict[str, Array]:
        return _stacked(adjusted, lambda f: getattr(f, name))

    C_D = basis.C_D[:, None, None, None]
    bending = of_factors("bending")
    if question.C_r is not None:
        bending = bending | {"C_r": np.full_like(bending["C_r"], question.C_r)}
    tributary = np.asarray(question.tributary(question.widths))
    w_live = line_load(q=question.loads.live, s=tributary)
    w_dead = line_load(q=question.loads.dead, s=tributary)
    dead, live = (
        np.array([c.factor(kind) for c in basis.combinations])[:, None, None, None]
        for kind in (LoadType.DEAD, question.loads.live_kind)
    )
    return _Arrays(
        b=of_size("b"),
        d=of_size("d"),
        S=of_size("S"),
        I=of_size("I"),
        w=dead * w_dead + live * w_live,
        w_live=w_live,
        w_dead=w_dead,
        w_dead_factor=dead * w_dead,
        F_b_p=adjusted_bending(F_b=of_value("F_b"), C_D=C_D, C_L=1.0, **bending),
        F_v_p=adjusted_shear(F_v=of_value("F_v"), C_D=C_D, **of_factors("shear")),
        F_c_perp_p=adjusted_bearing(F_c_perp=of_value("F_c_perp"), C_b=1.0, **of_factors("bearing")),
        E_p=adjusted_modulus(E=of_value("E"), **of_factors("modulus")),
        K_cr=creep,
        confidence=[[v.confidence for v in row] for row in values],
    )


def _stacked(adjusted: list[list[list[Factors]]], pick: Callable[[Factors], Any]) -> dict[str, Array]:
    names = pick(adjusted[0][0][0])
    return {
        name: np.array([[[pick(f)[name] for f in row] for row in block] for block in adjusted])
        for name in names
    }


def _span_ratios(m: _Arrays, limits: SpanLimits, l: Array, *, at_depth: bool) -> dict[Governs, Array]:
    M = simple_span_moment(w=m.w, l=l)
    V = simple_span_shear(w=m.w, l=l)
    if at_depth:
        V = np.maximum(shear_at_depth(V=V, w=m.w, d=m.d), 0.0)
    live = simple_span_deflection(w=m.w_live, l=l, E_p=m.E_p, I=m.I)
    ratios = {
        Governs.BENDING: np.max(bending_stress(M=M, S=m.S) / m.F_b_p, axis=0),
        Governs.SHEAR: np.max(shear_stress(V=V, b=m.b, d=m.d) / m.F_v_p, axis=0),
    }
    dead = simple_span_deflection(w=m.w_dead, l=l, E_p=m.E_p, I=m.I)
    if limits.live is not None:
        counted = live + limits.live_dead_share * dead
        ratios[Governs.LIVE_DEFLECTION] = counted * limits.live / np.maximum(l, _TINY)
    if limits.total is not None:
        total = total_deflection(K_cr=m.K_cr, delta_LT=dead, delta_ST=live)
        ratios[Governs.TOTAL_DEFLECTION] = total * limits.total / np.maximum(l, _TINY)
    return ratios


def _overhang_ratios(
    m: _Arrays, P: float, limits: SpanLimits, l: Array, quarter: Array, a: Array
) -> dict[Governs, Array]:
    full = overhang_moment(w=m.w, P=0.0, a=a)
    point = overhang_moment(w=m.w_dead_factor, P=P, a=a)
    reach = a + limits.tip_allowance
    tip = overhang_tip_deflection(P=P, a=reach, l=l, E_p=m.E_p, I=m.I)
    return {
        Governs.SHARE_OF_SPAN: a / np.maximum(quarter, _TINY),
        Governs.TIP_DEFLECTION: tip * limits.overhang_tip / np.maximum(reach, _TINY),
        Governs.BENDING: np.max(
            np.maximum(bending_stress(M=full, S=m.S), bending_stress(M=point, S=m.S)) / m.F_b_p, axis=0
        ),
    }


_TINY = 1e-12


def _largest(ratios: dict[Governs, Array]) -> Array:
    largest: Array = np.max(np.broadcast_arrays(*ratios.values()), axis=0)
    return largest


def _governing(ratios: dict[Governs, Array], index: tuple[int, int, int]) -> Governs:
    arrays = np.broadcast_arrays(*ratios.values())
    at = [float(array[index]) for array in arrays]
    # ties go to the first named: live before total deflection
    return next(name for name, value in zip(ratios, at, strict=True) if value >= max(at) - 1e-9)
