"""What was built, beside what was planned, entry by entry, and the marks on the beams that move with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.platform.layout.layout import Layout, LayoutError, Vector, find_layout
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.project import AsBuilt, Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.setting_out.as_built import built_project
from bolewright.setting_out.beams import seat_marks
from bolewright.setting_out.tolerance import SIXTEENTH
from bolewright.setting_out.trunk import bolt_marks
from bolewright.timber.sections import parse_section


@dataclass(frozen=True)
class Difference:
    """One thing that came out otherwise: the part, what of it, planned and built (in), where it is a place in plan."""

    mark: str
    what: str
    planned: float
    built: float


@dataclass(frozen=True)
class Shifted:
    """A support that stands elsewhere in plan."""

    mark: str
    planned: Vector
    built: Vector


def shifted(layout: Layout) -> tuple[Shifted, ...]:
    """Supports that stand elsewhere than planned, by their entries."""
    built = {s.mark: s.at for s in built_project(layout).supports}
    return tuple(
        Shifted(s.mark, s.at, built[s.mark])
        for s in layout.supports
        if s.mark in built and built[s.mark] != s.at
    )


def differences(layout: Layout) -> tuple[Difference, ...]:
    """Every entry under ``as_built`` beside the plan, places in plan left to :func:`shifted`."""
    return tuple(found for entry in layout.project.as_built for found in _of(layout, entry))


def _of(layout: Layout, entry: AsBuilt) -> Iterator[Difference]:
    support = next((s for s in layout.supports if s.mark == entry.mark), None)
    if support is None:
        if entry.depth is not None:
            yield Difference(entry.mark, "depth", layout.member(entry.mark).section.d, entry.depth)
        if entry.width is not None:
            planned = layout.member(entry.mark).section.ply_thickness
            yield Difference(entry.mark, "thickness of a ply", planned, entry.width)
        return
    if entry.level is not None:
        seat = layout.seat_level(entry.mark)
        what = "seat above grade" if support.kind == SupportKind.TREE_BOLT else "cut top above grade"
        yield Difference(entry.mark, what, seat, seat + entry.level)
    yield from _bolt(layout, support, entry)
    if support.post is not None:
        section = parse_section(layout.project.posts[support.post].section)
        for what, planned, built in (("width", section.b, entry.width), ("depth", section.d, entry.depth)):
            if built is not None:
                yield Difference(entry.mark, what, planned, built)
    if entry.hole is not None and support.footing is not None:
        depth = layout.project.footings[support.footing].depth
        yield Difference(entry.mark, "underside of the concrete below grade", depth, entry.hole)


def _bolt(layout: Layout, support: Support, entry: AsBuilt) -> Iterator[Difference]:
    if entry.projection is not None:
        bolt = next(b for b in bolt_marks(layout) if b.mark == support.mark)
        yield Difference(entry.mark, "bark to middle of bearing", bolt.projection, entry.projection)
    if entry.embedment is not None and support.bolt is not None:
        planned = layout.project.bolts[support.bolt].embedment
        yield Difference(entry.mark, "thread in sound wood", planned, entry.embedment)


def moved_seats(layout: Layout) -> tuple[Difference, ...]:
    """Where beams sit now on what stands elsewhere, from their starts; none where the built cannot stand."""
    try:
        built = find_layout(built_project(layout))
    except LayoutError:
        return ()
    old, new = (
        {(m.beam, m.below): m.at for m in seat_marks(each, {p.mark: p for p in cut_pieces(each)})}
        for each in (layout, built)
    )
    return tuple(
        Difference(beam, f"middle of {below} underneath, from its start", at, new[beam, below])
        for (beam, below), at in old.items()
        if (beam, below) in new and abs(new[beam, below] - at) > SIXTEENTH / 2
    )
