"""Weight of timber at the moisture of its service."""

from __future__ import annotations

from bolewright.timber.material import DesignValues, density

MOISTURE = 28.0  # per cent, for the weight of timber in wet service (NDS Supplement 2018, 3.1.3)
DRY = 12.0


def timber_density(values: DesignValues, wet: bool) -> float:
    """Weight of timber (pcf) at the moisture of its service."""
    return float(density(G=values.G, m_c=MOISTURE if wet else DRY))
