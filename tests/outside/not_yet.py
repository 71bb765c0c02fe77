"""What is not yet true of the program, and whose it is to mend. Lines come out as it is mended; none comes in."""

from __future__ import annotations

# Relation -> platforms on which it does not hold yet.
RELATIONS: dict[str, tuple[str, ...]] = {}
# Platforms on which the load path and statics differ.
PLATFORMS: tuple[str, ...] = ()
# Platform and what moves by 1/16 in. that makes a ratio jump: a sliver of deck, 1/16 in. wide, runs on past a member
# for as long as the edge is; where deck beside it, elsewhere along the boards, is borne by the same members it counts
# as a whole board's end (layout/boards.depth does not ask at which place along the board): too much, and loud. In g38
# a slope of beam.rotation as in g08, but two of its rows change places on the way, so that the halves can't tell it.
NUDGES: tuple[tuple[str, str], ...] = (
    ("shipped_round_the_trunk", "opening 1 corner 1 y"),
    ("g02_hung", "B1 end y"),
    ("g38_stringers", "C1 end y"),
)
