"""Ratings that act together on one connector."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Force, Ratio


@formula("Common practice (linear unity equation)", confidence="common practice")
def ratings_together(V: Force, Z_V: Force, H: Force, Z_H: Force) -> Ratio:
    """Sum of the shares of two ratings that act at once on one bracket or cap; a ratio over 1.0 fails.

    When it applies: where the maker does not say that each rating holds in full beside the other.
    Parameters: V load down or up, or the pull of a tie, Z_V its rating (lb); H lateral load, Z_H its rating (lb).
    Returns: r_t.
    Source: common practice; a straight line between the two ratings, the safe one of the usual interactions.

    >>> ratings_together(500.0, 1000.0, 200.0, 800.0)
    0.75
    """
    r_t: Ratio = V / Z_V + H / Z_H
    return r_t


@formula("Common practice (linear unity equation)", confidence="common practice")
def three_ratings_together(V: Force, Z_V: Force, H: Force, Z_H: Force, T: Force, Z_T: Force) -> Ratio:
    """Sum of the shares of three ratings that act at once on one bracket, cap or angle; a ratio over 1.0 fails.

    When it applies: where the maker does not say that each rating holds in full beside the others.
    Parameters: V load down or up, Z_V its rating (lb); H lateral load, Z_H its rating (lb); T pull that keeps the beam
    upright, Z_T its rating (lb). Returns: r_t. Source: common practice, as for two.

    >>> three_ratings_together(100.0, 1000.0, 200.0, 800.0, 300.0, 1200.0)
    0.6
    """
    r_t: Ratio = V / Z_V + H / Z_H + T / Z_T
    return r_t
