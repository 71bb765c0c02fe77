"""Layout: where every joist, beam and support is, and what rests on what, found by geometry.

Plan coordinates in inches, heights in inches above grade. Members are analysed along their centre lines:
a hung joist runs from beam centre line to beam centre line, which is a little longer than face to face
(NDS 2018, 3.2.1) and keeps the moments of all forces in balance.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from shapely import LineString, Polygon
from shapely import Point as PlanPoint

from bolewright.platform.layout.beams import find_beams
from bolewright.platform.layout.blocking import find_blocking, top_of
from bolewright.platform.layout.coupling import gives_way
from bolewright.platform.layout.ends import check_bearing, gaps, idle_hangers, with_cuts, with_ends
from bolewright.platform.layout.joists import field_axes, field_region, find_joists, joist_positions
from bolewright.platform.layout.levels import find_tops, in_order
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.meeting import check_levels
from bolewright.platform.layout.overlaps import check_room
from bolewright.platform.layout.parts import (
    CLOSE,
    STEP,
    Bearing,
    Kind,
    Layout,
    LayoutError,
    Member,
    Seat,
    gather,
)
from bolewright.platform.layout.tees import find_tees
from bolewright.platform.layout.trunk_braces import brace_faults
from bolewright.platform.project import Diagonal, Project, Tree
from bolewright.units import feet_inches

FASTENED = 1.0  # in: a diagonal that ends this near to a timber's side is fastened to it

__all__ = [
    "CLOSE",
    "STEP",
    "Bearing",
    "Kind",
    "Layout",
    "LayoutError",
    "Line",
    "Member",
    "Seat",
    "Vector",
    "field_axes",
    "field_region",
    "find_layout",
    "joist_positions",
]


def find_layout(project: Project) -> Layout:
    """Layout of a project.

    Raises :class:`LayoutError` for an arrangement that cannot stand.
    """
    deck = _deck(project)
    beams = find_beams(project)
    found = gather(partial(find_joists, field, beams, deck) for field in project.joists)
    joists = [joist for own, _ in found for joist in own]
    framing = find_blocking(project, (*joists, *beams.values()), deck)
    members = (*framing.pieces, *joists, *beams.values())
    gather(
        (
            *(partial(_deck_clear, tree, deck) for tree in project.trees),
            *(partial(_member_clear, tree, member) for tree in project.trees for member in members),
            *(partial(_clear_of_hatch, project, beam) for beam in beams.values()),
            *(partial(_on_timber, diagonal, members) for diagonal in project.diagonals),
        )
    )
    hung = {s.below for m in members for s in m.seats if s.bearing is Bearing.HANGS}
    ordered = in_order(members)
    tops = find_tops(project, beams, joists)
    tops |= {piece.mark: top_of(piece, tops) for piece in framing.pieces}
    placed = tuple(replace(m, top=tops[m.mark], hung_loads=m.mark in hung) for m in ordered)
    check_room(placed)
    placed = with_cuts(with_ends(project, placed), framing.cuts)
    notes = [
        *(note for _, own in found for note in own),
        *framing.notes,
        *gaps(placed),
        *idle_hangers(placed),
    ]
    layout = Layout(project, placed, project.supports, deck, tuple(notes))
    check_levels(layout)
    if faults := brace_faults(layout):
        raise LayoutError(*faults)
    check_bearing(layout)
    _tees_by_statics(layout)
    _entries_on_timber(layout)
    gather((lambda: layout.stairs, lambda: layout.ladder))  # LayoutError where they do not fit
    measured = (replace(m, section=project.section_of(m.mark, m.section)) for m in placed)
    return replace(layout, members=tuple(measured))


def _entries_on_timber(layout: Layout) -> None:
    """LayoutError for a measured entry of a joist that the layout does not have."""
    known = {m.mark for m in layout.members} | {s.mark for s in layout.supports}
    for entry in layout.project.as_built:
        if entry.mark not in known:
            field = next(f for f in layout.project.joists if entry.mark.startswith(f.mark))
            last = [m.mark for m in layout.joists if m.field == field.mark][-1]
            raise LayoutError(
                f"{entry.mark} has an entry as built, but the joists of field {field.mark} are {field.mark}1 to {last}."
            )


def _tees_by_statics(layout: Layout) -> None:
    """LayoutError where statics alone does not say what a beam on one post carries, and what its knees do."""
    tees = find_tees(layout)
    if not tees:
        return
    for tee in tees:
        for knee, room in zip(tee.knees, (tee.own, tee.beam.line.length - tee.own), strict=True):
            if knee.run > room:
                raise LayoutError(
                    f"Brace {knee.mark} meets nothing: its run of {feet_inches(knee.run)} goes past the {knee.towards} "
                    f"of {tee.beam.mark}, which is {feet_inches(room)} from post {tee.mark}."
                )
        if len(layout.on_support(tee.mark)) > 1:
            raise LayoutError(
                f"Beam {tee.beam.mark} stands on {tee.mark} alone: put no other beam on this post."
            )
    if gives_way(layout):
        many = next(m for m in layout.members if len(m.seats) > 2)
        raise LayoutError(
            f"Beam {tees[0].beam.mark} stands on {tees[0].mark} alone, so every member above is to rest on two "
            f"supports: {many.mark} rests on {len(many.seats)}; cut it over one of them."
        )


def _deck(project: Project) -> Polygon:
    deck = Polygon(project.platform.outline, project.platform.openings)
    if not deck.is_valid or deck.area < 144:
        raise LayoutError(
            "The platform outline is no simple polygon of at least 1 sq ft: its edges cross, an opening "
            "lies outside it, or it has no area."
        )
    return deck


def trunk_radius(tree: Tree) -> float:
    """Radius of a trunk over the bark at the bolts (in)."""
    return (tree.diameter if tree.diameter is not None else (tree.girth or 0.0) / math.pi) / 2


def _deck_clear(tree: Tree, deck: Polygon) -> None:
    """LayoutError when the deck would run into a trunk."""
    r = trunk_radius(tree)
    if deck.distance(PlanPoint(tree.at)) < r - STEP:
        raise LayoutError(
            f"The deck runs into the trunk of {tree.mark} ({feet_inches(2 * r)} across): leave an opening round "
            "it, or move the outline off it."
        )


def _member_clear(tree: Tree, member: Member) -> None:
    """LayoutError when a joist or a beam would run through a trunk."""
    gap = member.line.distance(tree.at) - trunk_radius(tree) - member.width / 2
    if gap < -STEP:
        raise LayoutError(
            f"{member.mark} runs {feet_inches(-gap)} into the trunk of {tree.mark}: move it, or end it at a header."
        )


def _on_timber(diagonal: Diagonal, members: Sequence[Member]) -> None:
    """LayoutError when an end of a plan diagonal has no joist or beam to be fastened to."""
    for end, point in (("from", diagonal.start), ("to", diagonal.end)):
        nearest = min(members, key=lambda member: member.line.distance(point) - member.width / 2)
        gap = nearest.line.distance(point) - nearest.width / 2
        if gap > FASTENED:
            raise LayoutError(
                f"Diagonal {diagonal.mark} ends on nothing: its {end} at {feet_inches(point[0])}, "
                f"{feet_inches(point[1])} is {feet_inches(gap)} off the side of {nearest.mark}, the nearest joist "
                f"or beam; put it on one, at most {FASTENED:g} in. off its side."
            )


def _clear_of_hatch(project: Project, beam: Member) -> None:
    """LayoutError when a beam crosses an opening that no trunk stands in."""
    for number, opening in enumerate(project.platform.openings, start=1):
        hatch = Polygon(opening)
        if any(hatch.contains(PlanPoint(tree.at)) for tree in project.trees):
            continue
        line = LineString([beam.line.start, beam.line.end])
        if hatch.buffer(-beam.width).intersects(line):
            raise LayoutError(
                f"Opening {number} is cut by beam {beam.mark}: move one of them, or end the beam at a header."
            )
