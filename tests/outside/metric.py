"""A project file's data with every quantity written in metric units."""

from __future__ import annotations

from typing import Any

from bolewright.units import INCH, PLF, POUND, PSF, PSI, ReadError, read

# Definitions: 1 in = 25.4 mm, 1 lb = 4.4482216152605 N (NIST SP 811, B.8).
NEWTON = 4.4482216152605
WAYS = (
    (INCH, 25.4, "mm"),
    (PSF, NEWTON / 0.3048**2, "Pa"),
    (PLF, NEWTON / 0.3048, "N/m"),
    (POUND, NEWTON, "N"),
    (PSI, NEWTON / 0.0254**2 / 1e6, "MPa"),
)


def in_metric(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: in_metric(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [in_metric(inner) for inner in value]
    if not isinstance(value, str):
        return value
    for unit, factor, word in WAYS:
        try:
            return f"{read(value, unit) * factor:.9f} {word}"
        except ReadError:
            continue
    return value
