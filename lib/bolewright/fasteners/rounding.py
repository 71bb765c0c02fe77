"""Rounding as the printed NDS tables do it, halves up; only the path for tabulated values uses it."""

from __future__ import annotations

from typing import Any

import numpy as np


def round_half_up(value: Any, step: float) -> Any:
    """Nearest multiple of ``step``, halves up.

    >>> round_half_up(25.0, 10), round_half_up(24.999, 10)
    (30.0, 20.0)
    """
    rounded = np.floor(np.asarray(value, dtype=float) / step + 0.5 + 1e-12) * step
    return float(rounded) if rounded.ndim == 0 else rounded


def tabulated_bearing_strength(F_e: Any) -> Any:
    """F_e as NDS Table 12.3.3 prints it: to the nearest 50 psi.

    >>> tabulated_bearing_strength(3157.6)
    3150.0
    """
    return round_half_up(F_e, 50)


def tabulated_bolt_value(Z: Any) -> Any:
    """Z of a bolt or lag screw as the NDS tables print it: to the nearest 10 lb."""
    return round_half_up(Z, 10)


def tabulated_nail_value(Z: Any) -> Any:
    """Z of a nail or wood screw, and W of any fastener, as the NDS tables print them: to the nearest 1 lb."""
    return round_half_up(Z, 1)
