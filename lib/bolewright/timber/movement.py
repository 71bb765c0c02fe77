"""Shrinkage of timber across its grain as it dries."""

from __future__ import annotations

from bolewright.formulas import Limit, formula
from bolewright.reference import load
from bolewright.timber.material import species_named
from bolewright.units import Length, Ratio

_FIBRE_SATURATION = Limit(
    0, 30, "Wood shrinks only below about 30 % moisture content: count the change from 30 % down."
)


@formula(
    "Wood Handbook, ch. 4",
    limits={"dMC": _FIBRE_SATURATION},
    confidence="common practice: shrinkage linear below 30 % moisture content",
)
def cross_grain_shrinkage(S_t: Ratio, H: Length, dMC: Ratio) -> Length:
    """Loss of height of timber as it dries, across the grain.

    Parameters: S_t shrinkage green to oven dry as a ratio, from :func:`shrinkage_ratio`; H height of timber
    (in); dMC fall of the moisture content below 30 % (per cent). Returns: dH (in).
    Source: linear between 30 % and oven dry, Wood Handbook (FPL-GTR-190) ch. 4.

    22-1/2 in. of wet timber drying from 30 to 12 % at 6.5 %:

    >>> round(cross_grain_shrinkage(0.065, 22.5, 18), 2)
    0.88
    """
    dH: Length = S_t * H * dMC / 30
    return dH


def shrinkage_ratio(species: str) -> float:
    """Tangential shrinkage green to oven dry of the worst species in a combination, as a ratio.

    >>> shrinkage_ratio("Douglas Fir-Larch")
    0.076
    """
    return float(load("species").row(name=species_named(species))["shrinkage_pct"]) / 100


def greatest_shrinkage_ratio() -> float:
    """The same of the species that shrinks most, for timber whose own is not known.

    >>> greatest_shrinkage_ratio() >= shrinkage_ratio("Douglas Fir-Larch")
    True
    """
    return max(float(row["shrinkage_pct"]) for row in load("species")) / 100
