"""Details of rims, blocking and spacers that nails or screws hold: an end from the side, once for each entry."""

from __future__ import annotations

import math

from bolewright.drawings.chains import chain
from bolewright.drawings.joints import NEAR, STUB, box, plies
from bolewright.drawings.measures import Measures
from bolewright.drawings.words import listed, titled
from bolewright.platform.checks.blocking import connector_of, driven, toe_nailed
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.layout import Layout, Member
from bolewright.platform.project import Blocking
from bolewright.platform.results.results import Results
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Leader, Line, Pen, Polygon

_TOE = math.radians(30)  # of a toe-nail off the piece's length (NDS 2018, 12.1.6.3)


def blocking_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """An end of each rim, row of blocking or spacer that nails or screws hold."""
    found = []
    for entry in results.project.blocking:
        own = [m for m in results.path.layout.blocking if entry_of(m).mark == entry.mark]
        if own and entry.hanger is None:
            found.append(_detail(results, entry, own, measures))
    return found


def _detail(results: Results, entry: Blocking, own: list[Member], measures: Measures) -> Drawing:
    layout = results.path.layout
    piece, below = _shown(layout, own)
    d, w = piece.section.d, below.width
    drop = piece.top - below.top
    slanted = toe_nailed(piece, below)
    if entry.kind == "rim":
        items = _rim(piece, below, measures)
    else:
        items = [
            Polygon(box(-w, -below.section.d, 0.0, 0.0), Layer.BEAMS, Fill.END_GRAIN),
            *plies(-w, -below.section.d, 0.0, 0.0, below.section.plies),
            Polygon(box(0.0, drop - d, STUB, drop), Layer.BLOCKING, Fill.TIMBER),
            *chain([(-w, -below.section.d), (-w, 0.0)], measures, NEAR),
            *chain([(STUB, drop - d), (STUB, drop)], measures, -NEAR),
            *chain([(-w, 0.0), (0.0, 0.0)], measures, NEAR),
            Leader((-w / 2, -0.3 * below.section.d), f"{below.mark}, {below.section.name}", (-12.0, 8.0)),
            Leader((0.7 * STUB, drop - d / 3), f"{piece.mark}, {piece.section.name}", (8.0, 10.0)),
        ]
    items += _nails(entry, piece, below, slanted=slanted)
    several = any(toe_nailed(m, layout.member(seat.below)) for m in own for seat in m.seats)
    marks = listed(m.mark for m in own)
    name = {"rim": "Rim", "blocking": "Blocking", "spacer": "Spacer"}[entry.kind]
    title = f"{name} {marks}, its fastening"
    notes = [
        f"{_fastening(entry, slanted=slanted, several=several)} Seen from the side; boards are left out."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)


def _shown(layout: Layout, own: list[Member]) -> tuple[Member, Member]:
    """The end that is drawn: one at a joist or beam of one ply where there is one."""
    ends = [(piece, layout.member(seat.below)) for piece in own for seat in piece.seats]
    return min(ends, key=lambda end: end[1].section.plies)


def _rim(piece: Member, below: Member, measures: Measures) -> list[Item]:
    """The rim cut across at the end of a joist, which comes from the left."""
    b, d, drop = piece.width, piece.section.d, piece.top - below.top
    depth = below.section.d
    return [
        Polygon(box(-STUB, -depth, 0.0, 0.0), Layer.JOISTS, Fill.TIMBER),
        Polygon(box(0.0, drop - d, b, drop), Layer.BLOCKING, Fill.END_GRAIN),
        *chain([(-STUB, -depth), (-STUB, 0.0)], measures, NEAR),
        *chain([(b, drop - d), (b, drop)], measures, -NEAR),
        *chain([(0.0, 0.0), (b, 0.0)], measures, NEAR),
        Leader((-0.7 * STUB, -depth / 3), f"{below.mark}, {below.section.name}", (-12.0, 8.0)),
        Leader((b / 2, drop - d / 3), f"{piece.mark}, {piece.section.name}", (10.0, 10.0)),
    ]


def _nails(entry: Blocking, piece: Member, below: Member, *, slanted: bool) -> list[Item]:
    """Nails or screws one below the other, evenly over what both pieces share of their depth."""
    if not entry.fasteners:
        return []
    length, d, drop = connector_of(entry).length, piece.section.d, piece.top - below.top
    items: list[Item] = []
    for i in range(entry.fasteners):
        y = drop - d * (i + 0.5) / entry.fasteners
        if slanted:
            x, run, fall = length / 3, -length * math.cos(_TOE), -length * math.sin(_TOE) / 3
        elif entry.kind == "rim":
            x, run, fall = piece.width, -length, 0.0
        else:
            x, run, fall = -below.width, length, 0.0
        items.append(Line((x, y), (x + run, y + fall), Layer.HARDWARE, Pen.SOLID))
        items.append(Line((x, y - 0.15), (x, y + 0.15), Layer.HARDWARE, Pen.SOLID))
    return items


def _fastening(entry: Blocking, *, slanted: bool, several: bool) -> str:
    """What is driven where, in one sentence."""
    if not entry.fasteners:
        return "The file gives no fastening: enter fasteners or a hanger."
    at = "at each joist, through the rim" if entry.kind == "rim" else "at each end, through what it meets"
    if slanted:
        return f"{driven(entry)} at each end, at a slant from the piece (toe-nails)."
    beside = " At a beam of several plies: toe-nails." if several else ""
    return f"{driven(entry)} {at}, into end grain.{beside}"
