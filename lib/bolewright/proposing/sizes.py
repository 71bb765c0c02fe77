"""The sizes that an arrangement is drawn with, and the steps by which each grows."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields, replace
from typing import Any

POSTS = ("6x6", "8x8", "10x10", "12x12")
BOARDS = ("2x6", "2x8", "2x10", "2x12")
BEAMS = (*((plies, board) for board in BOARDS[1:] for plies in (2, 3)), (4, "2x10"), (4, "2x12"))
SPACINGS = (24.0, 16.0, 12.0)
WIDTHS = tuple(float(w) for w in range(12, 49, 2))
DEPTHS = tuple(float(d) for d in range(12, 109, 6))
PADS = (8.0, 10.0, 12.0, 14.0, 16.0, 20.0)
DIAMETERS = (1.0, 1.25, 1.5, 1.75, 2.0, 2.25, 2.5, 2.75, 3.0)
EMBEDMENTS = tuple(5.0 + 0.5 * i for i in range(23))
STRUTS = ("4x4", "4x6", "6x6", "6x8")
GAPS = tuple(2.0 + 0.5 * i for i in range(33))
RODS = (0.625, 0.75, 0.875, 1.0)
NAILS = (16.0, 12.0, 8.0, 6.0, 4.0, 3.0)
SLOTS = tuple(3.0 + 0.5 * i for i in range(60))


@dataclass(frozen=True)
class Sizes:
    """All sizes of a proposal; lengths in inches. Those that an arrangement has no use for stay as they are."""

    post: str = "8x8"
    beam: tuple[int, str] = (3, "2x10")
    joist: str = "2x8"
    spacing: float = 16.0
    width: float = 24.0
    depth: float = 60.0
    pad: float = 8.0
    foot_bolts: int = 1
    hung: tuple[int, str] = (2, "2x10")
    trimmer_nails: float = 12.0
    gap: float = 5.0
    bolt: float = 1.5
    embedment: float = 7.0
    slot: float = 6.0
    strut: str = "4x6"
    strut_bolts: int = 2
    rod: float = 0.625
    """Diameter of the crossed rods, where there are any."""
    guard: float = 16.0
    """Weight that is counted for a foot of guard (lb): no size, but it has to grow to what the guard weighs."""
    block: str = "2x"
    """Thickness of the blocks that the guard's posts are tied to, as it is written before their depth."""
    sway: float = 0.10
    """Share of the live load that pushes laterally: no size, but it has to grow to what an earthquake asks."""

    def text(self) -> str:
        """All of it in one line: two equal ones are the same drawing."""
        return ";".join(f"{f.name}={getattr(self, f.name)}" for f in fields(self))


_LADDERS: dict[str, tuple[Any, ...]] = {
    "post": POSTS,
    "beam": BEAMS,
    "joist": BOARDS,
    "spacing": SPACINGS,
    "width": WIDTHS,
    "depth": DEPTHS,
    "pad": PADS,
    "foot_bolts": (1, 2, 3),
    "hung": BEAMS,
    "trimmer_nails": NAILS,
    "gap": GAPS,
    "bolt": DIAMETERS,
    "embedment": EMBEDMENTS,
    "slot": SLOTS,
    "strut": STRUTS,
    "strut_bolts": (1, 2, 3),
    "rod": RODS,
    "block": ("2x", "4x"),
    "guard": (16.0, 18.0, 20.0, 22.0, 24.0, 27.0, 30.0, 35.0, 40.0, 50.0, 60.0),
}


@dataclass(frozen=True)
class Limits:
    """The largest sizes that can be had."""

    post: str = "12x12"
    board: str = "2x12"
    embedment: float = 12.0
    """Of a tree bolt."""
    embedment_and_bolt: float = math.inf
    """Of a tree bolt, its embedment and diameter: two that face each other leave wood between their tips."""

    def allows(self, sizes: Sizes) -> bool:
        """Whether all of the sizes can be had."""
        boards = (sizes.beam[1], sizes.joist, sizes.hung[1])
        return (
            POSTS.index(sizes.post) <= POSTS.index(self.post)
            and all(BOARDS.index(board) <= BOARDS.index(self.board) for board in boards)
            and sizes.embedment <= self.embedment
            and sizes.embedment + sizes.bolt <= self.embedment_and_bolt
        )


def stepped(sizes: Sizes, name: str, steps: int, limits: Limits) -> Sizes | None:
    """The sizes with one of them so many steps stronger (weaker if negative); None past the end of its ladder.

    Beams climb past what can't be had: a ply more where no deeper board is to be had.
    """
    ladder = _LADDERS[name]
    now = getattr(sizes, name)
    at = ladder.index(now) if now in ladder else -1
    way = 1 if steps > 0 else -1
    while True:
        at += steps
        if not 0 <= at < len(ladder):
            return None
        found = replace(sizes, **{name: ladder[at]})
        if limits.allows(found):
            return found
        steps = way
