"""What is not yet true of the program, and whose it is to mend. Lines come out as it is mended; none comes in."""

from __future__ import annotations

# Relation -> platforms on which it does not hold yet.
RELATIONS: dict[str, tuple[str, ...]] = {}
# Platforms on which the load path and statics differ.
PLATFORMS: tuple[str, ...] = ()
# Platform and what moves by 1/16 in. that makes a ratio jump. BC's seat is right over a seat of the joist that it hangs
# in: beside it all of the block's load is shear of the joist over that 1/16 in. The others' outer faces are flush with
# the deck's edge: farther in, the guard's line load is off their wood and the joists have it.
NUDGES: tuple[tuple[str, str], ...] = tuple(
    ("shipped_two_trees", f"{mark} along") for mark in ("BC", "BN", "BO", "BP", "BQ", "BR", "BS")
)
