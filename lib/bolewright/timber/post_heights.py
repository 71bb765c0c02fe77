"""Greatest heights of posts by the floor area they carry (NDS 2018, 3.7 and 15.4), gravity load only.

Sway is not in such a table: the posts are held laterally at both ends (K_e = 1) by bracing that is shown
elsewhere. A load off the axis is (``eccentricity``): without it heights are about twice those of AWC DCA 6
Table 4, with a sixth of the width they are its own within about a foot up to 189 ft².
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.formulas import bare
from bolewright.timber.adjusted_values import (
    adjusted_bending,
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
from bolewright.timber.combined import eccentric_compression
from bolewright.timber.greatest import Array, greatest_length, nearest_inch, whole_inch
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section
from bolewright.timber.spans import Rounding, SpanLoads, Stock
from bolewright.units import INCH, SQUARE_FOOT, AreaFeet, Length


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
    areas: Sequence[AreaFeet],
    *,
    K_e: float = 1.0,
    eccentricity: float = 0.0,
    loads: SpanLoads | None = None,
    service: Service | None = None,
    longest: Length = 14 * 12.0,
    rounding: Rounding = Rounding.DOWN,
    basis: DesignBasis | None = None,
) -> tuple[PostRow, ...]:
    """Greatest heights of posts by section and floor area carried (ft²), up to ``longest`` (in).

    Buckling about the thinner side, held to l_e/d = 50. ``eccentricity`` is the distance of the load from the
    axis at the top over the thinner side of the post, such as 1/6 (NDS 2018, 15.4.1). Loads in psf, from
    floor alone. Raises ValueError for an eccentricity under 0 or over 1/2.
    """
    if not 0 <= eccentricity <= 0.5:
        raise ValueError(
            f"eccentricity is {eccentricity:g} of the width, but a share from 0 to 0.5 is wanted"
        )
    loads, service, basis = loads or SpanLoads(), service or Service(), basis or asd_basis()
    area = np.atleast_1d(np.asarray(bare("post_heights", "areas", SQUARE_FOOT, areas), dtype=float))
    round_off = nearest_inch if rounding is Rounding.NEAREST else whole_inch
    longest = float(bare("post_heights", "longest", INCH, longest))
    rows = []
    for section in sizes:
        values = stock.values(section)
        lives = stock.service or service
        exact = _heights(values, area, K_e, eccentricity, loads, lives, basis, longest)
        rows += [
            PostRow(section, float(a), float(h), float(x), stock, values.confidence)
            for a, h, x in zip(area, round_off(exact), exact, strict=True)
        ]
    return tuple(rows)


def _heights(
    values: DesignValues,
    area: Array,
    K_e: float,
    eccentricity: float,
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
    F_b_p = adjusted_bending(F_b=values.F_b, C_D=C_D, C_L=1.0, **adjusted.bending)
    f_c = compression_stress(P=(dead * loads.dead + live * loads.live) * area, A=values.section.A)

    wide = max(values.section.b, values.section.d)

    def off_axis(l_e: Array, F_cE: Array, F_c_p: Array) -> Array:
        F_cE_wide = critical_buckling_compression(E_min_p=E_min_p, l_e=l_e, d=wide)
        both = eccentric_compression(
            f_c=f_c,
            F_c_p=F_c_p,
            F_cE1=F_cE_wide,
            F_cE2=F_cE,
            f_b1=0.0,
            F_b1_p=F_b_p,
            f_b2=0.0,
            F_b2_p=F_b_p,
            F_bE=np.inf,  # nothing bends it edgewise
            e_1=0.0,
            d_1=wide,
            e_2=eccentricity * d,
            d_2=d,
        )
        most: Array = np.max(both, axis=0)
        return most

    def ratio(l: Array) -> Array:
        l_e = effective_column_length(K_e=K_e, l=np.maximum(l, 1.0))  # C_P is no number at no length
        F_cE = critical_buckling_compression(E_min_p=E_min_p, l_e=l_e, d=d)
        C_P = column_stability_factor(F_cE=F_cE, F_c_star=F_c_star, c=COLUMN_C["sawn"])
        F_c_p = adjusted_compression(F_c=values.F_c, C_D=C_D, C_P=C_P, **adjusted.compression)
        stress: Array = np.max(f_c / F_c_p, axis=0)
        if eccentricity:
            stress = np.maximum(stress, off_axis(l_e, F_cE, F_c_p))
        limit: Array = np.maximum(stress, column_slenderness(l_e=l_e, d=d) / SLENDERNESS_LIMIT)
        return limit

    return greatest_length(ratio, area.shape, longest)
