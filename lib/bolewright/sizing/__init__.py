"""Sizes for a given arrangement: the cheapest that can be bought with which every check passes."""

from bolewright.sizing.size import Sized, size

__all__ = ["Sized", "size"]
