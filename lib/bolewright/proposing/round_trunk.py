"""A floor round one trunk that bears all of it: two beams on bolts, each on two knee braces from a bolt below."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from bolewright.platform.file.ratings import TO_BUY
from bolewright.proposing.ground import Ground, Turn
from bolewright.proposing.needs import NeededTree
from bolewright.proposing.on_posts import deck_framing
from bolewright.proposing.one_trunk import LEAST_GIRTH, bolt_kind, start_sizes, wood_radius
from bolewright.proposing.parts import TIED, Draft, beam, begun, crossed, ended, strut_kind
from bolewright.proposing.rows import Box
from bolewright.proposing.sizes import Sizes
from bolewright.proposing.writing import eighth, inches, point

_MOST = 84.0  # in, of a beam past the trunk's axis: farther out nothing passed
_FOOT = 15.0  # in: least level of a lower bolt over grade
_LEAST_RISE = 24.0
_SHARE = 0.68  # of a beam's length beside the trunk: where its knee brace bears it
_DECK = 1.5
_STEEP = 2.2  # of a brace's rise to its run, where there is room: a steep one pushes less outwards


@dataclass(frozen=True)
class RoundTrunk:
    """Two beams beside a trunk that goes through the floor, on bolts and knee braces; nothing stands on the ground."""

    mark: str
    turn: Turn

    @property
    def name(self) -> str:
        """What the arrangement is called."""
        return f"round trunk {self.mark}, on knee braces, beams along {'y' if self.turn.swapped else 'x'}"

    @property
    def family(self) -> str:
        """Arrangements alike to look at."""
        return f"knee braces on {self.mark}"

    @property
    def key(self) -> str:
        """Short name."""
        return f"round-{self.mark}-{'y' if self.turn.swapped else 'x'}"

    def _tree(self, own: Ground) -> NeededTree:
        return next(t for t in own.needs.trees if t.mark == self.mark)

    def bolt_room(self, ground: Ground) -> tuple[float, float]:
        """Two bolts that face each other leave wood between their tips."""
        return math.inf, wood_radius(self._tree(ground))

    def start(self, ground: Ground) -> Sizes | None:
        """First sizes."""
        own = self.turn.of(ground)
        sizes = start_sizes(own, 20.0, (2, "2x10"))
        deep = min(8.0, max(5.0, self.bolt_room(ground)[1] // 1 - 3.0))
        sizes = replace(sizes, gap=2.0, trimmer_nails=6.0)
        return replace(sizes, beam=sizes.hung, joist="2x8", bolt=2.25, embedment=deep)

    def draw(self, ground: Ground, sizes: Sizes) -> Draft | None:
        """The project with these sizes; None where it can't be laid out."""
        own = self.turn.of(ground)
        tree = self._tree(own)
        tx, ty = own.at(tree)
        half = tree.radius + sizes.gap
        opening: Box = (eighth(tx - half), eighth(ty - half), eighth(tx + half), eighth(ty + half))
        off = 0.75 * sizes.beam[0]
        lines = (eighth(opening[1] - off), eighth(opening[3] + off))
        chords = [own.chord(y) for y in lines]
        if any(c is None for c in chords):
            return None
        x0 = max(c[0] for c in chords if c)
        x1 = min(c[1] for c in chords if c)
        if max(tx - x0, x1 - tx) > _MOST or min(tx - x0, x1 - tx) < half + 8:
            return None
        heads = (eighth(tx - _SHARE * (tx - x0)), eighth(tx + _SHARE * (x1 - tx)))
        deep = {"2x8": 7.25, "2x10": 9.25, "2x12": 11.25}
        below = own.height - _DECK - deep[sizes.joist] - deep[sizes.beam[1]]
        run = max(tx - heads[0], heads[1] - tx)
        rise = min(max(36.0, 6 * round(_STEEP * run / 6)), 6 * ((below - _FOOT) // 6))
        if rise < max(_LEAST_RISE, 0.75 * run):
            return None
        why = (
            f"{self.mark} bears all of it on two bolts and four knee braces from two bolts below; nothing stands on "
            "the ground."
        )
        draft = begun(self.name, why, own, sizes)
        draft.bearing = (self.mark,)
        bolt_kind(draft, sizes, max(3.0, 1.5 * sizes.beam[0]))
        bolt_kind(draft, sizes, 3.0 if sizes.strut == "4x4" else 3.5, name="L")
        strut_kind(draft, own, sizes)
        self._supports(draft, tree, lines, tx, heads, rise)
        for i, y in enumerate(lines):
            entry = beam(own, f"C{i + 1}", sizes.beam, (eighth(x0), y), (eighth(x1), y), layer=1, **TIED)
            draft.add("beam", entry, "beside the trunk, on its bolt and knee braces" if i == 0 else "")
        if not deck_framing(draft, own, opening, sizes):
            return None
        low, high = lines
        for a, b in ((x0 + 2, opening[0] - 1.5), (opening[2] + 1.5, x1 - 2)):
            crossed(draft, eighth(a), eighth(b), low, high)
        ends = own.across(tx)
        assert ends is not None
        crossed(draft, opening[0] - 1.5, opening[2] + 1.5, eighth(ends[0] + 0.75), low)
        crossed(draft, opening[0] - 1.5, opening[2] + 1.5, high, eighth(ends[1] - 0.75))
        return ended(draft, self.turn)

    def _supports(
        self,
        draft: Draft,
        tree: NeededTree,
        lines: tuple[float, float],
        tx: float,
        heads: tuple[float, float],
        rise: float,
    ) -> None:
        common = {"uplift_tie": "500 lb", "uplift_note": TO_BUY}
        bolt = {"kind": "tree bolt", "tree": tree.mark, **common}
        for i, y in enumerate(lines):
            draft.add(
                "support",
                {"mark": f"T{i + 1}", "lateral": "tied", "bolt": "B", "at": point(tx, y), **bolt},
                "the bracket is bolted to its bolt: a stop both ways" if i == 0 else "",
            )
        for i, y in enumerate(lines):
            draft.add(
                "support",
                {"mark": f"B{i + 1}", "bolt": "L", "at": point(tx, y), **bolt},
                f"{inches(rise)} below the beam: two knee braces stand on it" if i == 0 else "",
            )
        for i, y in enumerate(lines):
            for k, x in enumerate(heads):
                entry = {
                    "mark": f"K{2 * i + k + 1}",
                    "kind": "knee brace",
                    "foot": f"B{i + 1}",
                    "strut": "S",
                    "rise": inches(rise),
                    "at": point(x, y),
                    **common,
                }
                draft.add("support", entry)


def round_trunks(ground: Ground) -> Iterator[RoundTrunk]:
    """Both ways to lay the beams, round each trunk that goes through the floor alone and may be tied."""
    inside = ground.trunks_in()
    if ground.needs.rules.may_tie is False or len(inside) != 1:
        return
    [tree] = inside
    if tree.may_bear and tree.girth >= LEAST_GIRTH:
        x0, y0, x1, y1 = ground.box
        order = (False, True) if x1 - x0 >= y1 - y0 else (True, False)
        yield from (RoundTrunk(tree.mark, Turn(swapped)) for swapped in order)
