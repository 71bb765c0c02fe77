"""Greatest spans of joists and beams: what a user takes where a code table does not cover the case.

The same formulas as the checks, run over arrays (combinations x stocks x sizes x widths). A table for several
species takes the weakest. Members are simple spans under uniform load, their compression edge held by decking
or joists (C_L = 1), blocked over their supports; own weight is part of the dead load given.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from bolewright.formulas import bare
from bolewright.timber.adjustment import Service, repetitive_use
from bolewright.timber.basis import DesignBasis, asd_basis
from bolewright.timber.deflection import overhang_reaction
from bolewright.timber.sections import Section
from bolewright.timber.span_solver import SpanQuestion, span_table
from bolewright.timber.span_terms import (
    Governs,
    OwnValues,
    Rounding,
    SpanLimits,
    SpanLoads,
    SpanRow,
    Stock,
)
from bolewright.units import INCH, Length

__all__ = [
    "Governs",
    "OwnValues",
    "Rounding",
    "SpanLimits",
    "SpanLoads",
    "SpanRow",
    "Stock",
    "beam_spans",
    "joist_spans",
]


def joist_spans(
    stock: Sequence[Stock],
    sizes: Sequence[Section],
    spacings: Sequence[Length],
    *,
    loads: SpanLoads | None = None,
    service: Service | None = None,
    limits: SpanLimits | None = None,
    basis: DesignBasis | None = None,
    C_r: float | None = None,
) -> tuple[SpanRow, ...]:
    """Greatest spans of joists by size and spacing (in), the weakest of ``stock`` governing.

    Joists at most 24 in. apart are repetitive (C_r = 1.15); ``C_r`` stands over that where it is given.
    Raises :class:`~bolewright.timber.material.MaterialError` for a species, grade or size without values.

    Southern Pine No.2 2x8 at 16 in. of AWC DCA 6 Table 2, 11-10:

    >>> from bolewright.timber.sections import parse_section
    >>> joist_spans([Stock("Southern Pine", "No.2")], [parse_section("2x8")], [16])[0].span
    142.0
    """
    return span_table(
        SpanQuestion(
            stock,
            sizes,
            _inches("joist_spans", "spacings", spacings),
            tributary=lambda spacing: spacing,
            repetitive=lambda size, spacing: repetitive_use(members=3, spacing=spacing, plies=size.plies),
            loads=loads or SpanLoads(),
            service=service or Service(),
            limits=limits or SpanLimits(),
            basis=basis or asd_basis(),
            C_r=C_r,
        )
    )


def beam_spans(
    stock: Sequence[Stock],
    sizes: Sequence[Section],
    joist_lengths: Sequence[Length],
    *,
    joist_overhang_share: float = 0.25,
    loaded_on_top: bool = False,
    loads: SpanLoads | None = None,
    service: Service | None = None,
    limits: SpanLimits | None = None,
    basis: DesignBasis | None = None,
    C_r: float | None = None,
) -> tuple[SpanRow, ...]:
    """Greatest spans of beams by size (with plies) and span of the joists they carry from one side (in).

    The joists overhang the beam by ``joist_overhang_share`` of their span. Three and more plies are
    repetitive; ``C_r`` stands over that where it is given. ``loaded_on_top``: the joists rest on the beam
    and the beam on its supports, so loads within its depth of a support are left out of the
    shear (NDS 2018, 3.4.3.1a); not for joists hung on its side.

    >>> from bolewright.timber.sections import parse_section
    >>> row = beam_spans([Stock("Southern Pine", "No.2")], [parse_section("(2) 2x10")], [120])[0]
    >>> row.governs.value
    'bending'
    """
    return span_table(
        SpanQuestion(
            stock,
            sizes,
            _inches("beam_spans", "joist_lengths", joist_lengths),
            tributary=lambda l: overhang_reaction(w=1.0, l=l, a=joist_overhang_share * l),
            repetitive=lambda size, _: repetitive_use(plies=size.plies),
            loads=loads or SpanLoads(),
            service=service or Service(),
            limits=limits or SpanLimits(),
            basis=basis or asd_basis(),
            shear_at_depth=loaded_on_top,
            C_r=C_r,
        )
    )


def _inches(function: str, symbol: str, lengths: Sequence[Length]) -> npt.NDArray[np.float64]:
    """The lengths without what a conversion leaves: 609.6 mm are 24 in., still repetitive, and no hair more."""
    bare_lengths = np.asarray(bare(function, symbol, INCH, lengths), dtype=float)
    return np.atleast_1d(np.round(bare_lengths, 9))
