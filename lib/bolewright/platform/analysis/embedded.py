"""How deep the soil holds a post."""

from __future__ import annotations

from bolewright.platform.project import Footing


def embedded_depth(footing: Footing) -> float:
    """Depth in which the soil holds a post (in): with its concrete to the underside, in soil down to its foot.

    In a hole filled with soil the post only stands on its pad, which does not turn with it.
    """
    return footing.depth if footing.fill == "concrete" else footing.depth - footing.pad
