"""No piece in the place of another: found by the bodies that the drawings show."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from bolewright.calculation import Calculation
from bolewright.platform.layout.layout import Layout
from bolewright.platform.limit_states.check import Check, judge
from bolewright.platform.solids.bodies import BodyKind
from bolewright.platform.solids.clashes import TIP, TOLERANCE, Clash, above_beam, clashes
from bolewright.units import INCH, feet_inches

NOTE = (
    "Found by the bodies of the pieces as they are cut: trunks, footings, posts, joists, beams, tree bolts out of the "
    "bark, knee braces, crossed rods, decking, posts of guards, ladder, stairs. 1/4 in. is left for what a tape reads "
    "and a plane takes off. Not looked at: straps, hangers, bolts of braces and of guards, the rails of guards. The "
    "head of stairs or of a ladder may be scribed round a beam by 1 in."
)
TIP_NOTE = "The tip of a square end is cut off flush with the beam's top where it stands above by no more than 1/2 in."
_KEYS = {
    BodyKind.TRUNK: "tree.place",
    BodyKind.FOOTING: "footing.place",
    BodyKind.GRAVEL: "footing.place",
    BodyKind.POST: "post.place",
    BodyKind.CAP: "post.place",
    BodyKind.JOIST: "joist.place",
    BodyKind.BLOCKING: "blocking.place",
    BodyKind.BEAM: "beam.place",
    BodyKind.BOLT: "tree_bolt.place",
    BodyKind.BRACE: "brace.place",
    BodyKind.ROD: "crossed_rods.place",
    BodyKind.GUARD_POST: "guard.clash",
    BodyKind.LADDER: "ladder.clash",
    BodyKind.STAIRS: "stairs.clash",
    BodyKind.STAIR_PAD: "stairs.clash",
}


def clash_checks(layout: Layout) -> list[Check]:
    """One check of the whole platform, one for every two pieces in one place, and one for every bolted knee brace."""
    found = clashes(layout)
    return [_whole(found), *(_pair(clash) for clash in found), *_brace_tips(layout)]


def _depth(part: str, key: str, depth: float, says: str, at: str = "", most: float = TOLERANCE) -> Check:
    note = TIP_NOTE if most == TIP else NOTE
    (check,) = judge(
        Calculation((1, 1)),
        [part],
        ["any"],
        key=key,
        at=at,
        demand=depth,
        capacity=most,
        unit=INCH,
        says=says,
        notes=(note,),
    )
    return check


def _whole(found: Sequence[Clash]) -> Check:
    deepest = found[0].depth if found else 0.0
    check = _depth("platform", "platform.place", deepest, "how far its pieces lie in each other")
    if not found:
        return replace(check, sentence="Platform holds: no piece lies in the place of another.")
    pairs = "; ".join(clash.sentence for clash in found[:_LISTED])
    more = f"; and {len(found) - _LISTED} more" if len(found) > _LISTED else ""
    return replace(check, sentence=f"Platform fails: {pairs}{more}.", calculation=None)


_LISTED = 4  # clashes in one sentence; each has a check of its own


def _pair(clash: Clash) -> Check:
    check = _depth(clash.piece.mark, _KEYS[clash.piece.kind], clash.depth, "it", clash.other.name)
    return replace(
        check,
        calculation=None,
        sentence=f"{_capital(clash.piece.name)} fails: it lies {_tape(clash.depth)} in the place of "
        f"{clash.other.name}: move, shorten or cut one of them, or leave one out.",
    )


def _tape(depth: float) -> str:
    """A depth as a tape reads it: to the next sixteenth, so that none reads as what is left."""
    return feet_inches(math.ceil(depth * 16 - 1e-6) / 16)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _brace_tips(layout: Layout) -> list[Check]:
    """Upper ends of knee braces that are lapped on their beam: none stands above its top."""
    return [
        _depth(
            brace.mark,
            "brace.above_beam",
            above_beam(layout, brace),
            f"how far its upper end stands above {brace.beam}",
            brace.beam,
            TIP,
        )
        for brace in layout.project.braces
        if brace.bolts is not None
    ]
