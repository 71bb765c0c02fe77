"""Greatest heights of posts by the floor area they carry (NDS 2018, 3.7), gravity load only.

Sway and the eccentricity of the load are not in such a table: the posts are held sideways at both ends
(K_e = 1) by bracing that is shown elsewhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.timber.adjusted_values import (
    adjusted_compression,
    adjusted_minimum_modulus,
    compression_before_stability,
)
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.basis import DesignBasis, LoadType, asd_basis
from bolewright.timber.columns import (
    COLUMN_C,
    SLENDERNESS_LIMIT,
    column_slenderness,
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
    effective_column_length,
)
from bolewright.timber.greatest import Array, greatest_length, nearest_inch, whole_inch
from bolewright.timber.material import DesignValues, reference_values
from bolewright.timber.sections import Section
from bolewright.timber.spans import Rounding, SpanLoads, Stock


@dataclass(frozen=True)
class PostRow:
    """One line of a post table: section, area carried (ft²), height rounded and exact (in), provenance."""

    section: Section
    area: float
    height: float
    exact: float
    stock: Stock
    confidence: str


def post_heights(
    stock: Stock,
    sizes: Sequence[Section],
    areas: Sequence[float],
    *,
    K_e: float = 1.0,
    loads: SpanLoads | None = None,
    service: Service | None = None,
    longest: float = 14 * 12.0,
    rounding: Rounding = Rounding.DOWN,
    basis: DesignBasis | None = None,
) -> tuple[PostRow, ...]:
    """Greatest heights of posts by section and floor area carried (ft²), up to ``longest`` (in).

    Buckling about the thinner side, held to l_e/d = 50. Loads in psf, from floor alone.
    """
    loads, service, basis = loads or SpanLoads(), service or Service(), basis or asd_basis()
    area = np.asarray(areas, dtype=float)
    round_off = nearest_inch if rounding is Rounding.NEAREST else whole_inch
    rows = []
    for section in sizes:
        values = reference_values(stock.species, stock.grade, section)
        exact = _heights(values, area, K_e, loads, service, basis, longest)
        rows += [
            PostRow(section, float(a), float(h), float(x), stock, values.confidence)
            for a, h, x in zip(area, round_off(exact), exact, strict=True)
        ]
    return tuple(rows)


def _heights(
    values: DesignValues,
    area: Array,
    K_e: float,
    loads: SpanLoads,
    service: Service,
    basis: DesignBasis,
    longest: float,
) -> Array:
    """Exact greatest heights (in) for the areas; axes combinations x areas inside."""
    chosen = basis.with_loads([LoadType.DEAD, loads.live_kind])
    C_D = chosen.C_D[:, None]
    dead, live = (
        np.array([c.factor(kind) for c in chosen.combinations])[:, None]
        for kind in (LoadType.DEAD, loads.live_kind)
    )
    adjusted = factors(values, service)
    d = min(values.section.b, values.section.d)
    F_c_star = compression_before_stability(F_c=values.F_c, C_D=C_D, **adjusted.compression)
    E_min_p = adjusted_minimum_modulus(E_min=values.E_min, **adjusted.modulus)
    f_c = compression_stress(P=(dead * loads.dead + live * loads.live) * area, A=values.section.A)

    def ratio(l: Array) -> Array:
        l_e = effective_column_length(K_e=K_e, l=l)
        F_cE = critical_buckling_compression(E_min_p=E_min_p, l_e=l_e, d=d)
        C_P = column_stability_factor(F_cE=F_cE, F_c_star=F_c_star, c=COLUMN_C["sawn"])
        F_c_p = adjusted_compression(F_c=values.F_c, C_D=C_D, C_P=C_P, **adjusted.compression)
        stress: Array = np.max(f_c / F_c_p, axis=0)
        limit: Array = np.maximum(stress, column_slenderness(l_e=l_e, d=d) / SLENDERNESS_LIMIT)
        return limit

    return greatest_length(ratio, area.shape, longest)
