"""Which way a bracket on a tree bolt holds what sits on it."""

from __future__ import annotations


def held_ways(how: str | None) -> tuple[bool, bool]:
    """Whether a bracket on a tree bolt holds along the bolt, and across it.

    >>> held_ways("slides"), held_ways("slides across"), held_ways(None)
    ((False, True), (True, False), (False, False))
    """
    return how in ("tied", "slides across"), how in ("tied", "slides")


def slides(how: str | None) -> bool:
    """Whether it lets its beam slide, along the bolt, across it or both ways.

    >>> slides("slides across"), slides("tied"), slides(None)
    (True, False, False)
    """
    return how is not None and not all(held_ways(how))
