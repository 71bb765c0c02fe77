"""What is not yet true of the program, and whose it is to mend. Lines come out as it is mended; none comes in."""

from __future__ import annotations

# Relation -> platforms on which it does not hold yet.
RELATIONS: dict[str, tuple[str, ...]] = {}
# Platforms on which the load path and statics differ.
PLATFORMS: tuple[str, ...] = ()
# Platform and what moves by 1/16 in. that makes a ratio jump.
NUDGES: tuple[tuple[str, str], ...] = ()
