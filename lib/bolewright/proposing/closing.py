"""What closes a proposal: guards on every edge that takes their posts, a gate, and a ladder or stairs behind it."""

from __future__ import annotations

import copy
import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from bolewright.platform.file.ratings import TO_BUY
from bolewright.platform.file.reading import find_faults
from bolewright.platform.layout.layout import LayoutError, find_layout
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import Layout, Member
from bolewright.proposing.needs import Needs
from bolewright.proposing.parts import Draft
from bolewright.proposing.sizes import Sizes
from bolewright.proposing.taken import FROST
from bolewright.proposing.writing import inches

_AT_EDGE = 3.5  # in, from a joist's end or side to the edge whose guard it takes
_CORNER = 6.0  # in, of a guard's outermost block from the corner
_APART = 54.0  # in, from block to block at most
_NEXT = 26.0  # in, to the joist that a block goes to, at most
_GATE = 26.0  # in, width of the way: a ladder of 16 in. clear between rails of 1 1/2 in.
_STAIRS = 36.0  # in, width of stairs (IRC 2021, R311.7.1)
_POST = 2.75  # in, half of a 6x6
_CORNER_ROOM = 1.1  # in, from a post's face to the end of its guard
_CLEAR = 24.0  # in, from the bark of any trunk to the middle of the way up


@dataclass(frozen=True)
class Edge:
    """An edge of the outline: joists end at ``places`` of it, or ``outer`` runs along it, ``inner`` next to it."""

    number: int
    line: Line
    places: tuple[float, ...] = ()
    outer: Member | None = None
    inner: Member | None = None


def closed(draft: Draft, needs: Needs, sizes: Sizes, *, way_up: bool = True) -> Draft | None:
    """The draft with a guard on the edges that take it and, where asked, a way up; None where no edge takes either."""
    project, _ = find_faults(draft.data)
    if project is None:
        return None
    try:
        layout = find_layout(project)
    except LayoutError:
        return None
    edges = [e for e in _edges(layout) if e.places or e.outer]
    if not edges:
        return None
    found = copy.deepcopy(draft)
    at = _way_up(found, layout, edges, needs) if way_up else None
    if way_up and at is None and needs.access.kind != "none":
        return None
    number = 0
    for edge in edges:
        if edge.outer is None or edge.inner is None:
            continue
        for place in _blocks(edge, at):
            number += 1
            _block(found, edge, place, number, f"{sizes.block}{sizes.joist.split('x')[1]}")
    for end in sorted({end for e in edges for end in _ends(layout, e)}):
        _rim(found, end)
    _guard(found, tuple(e.number for e in edges))
    return found


def _ends(layout: Layout, edge: Edge) -> Iterator[str]:
    """Which ends of the joists lie along an edge whose posts stand there."""
    if edge.places:
        for member in layout.joists:
            yield from (
                name
                for name, end in (("start", member.line.start), ("end", member.line.end))
                if edge.line.off(end) <= _AT_EDGE
                and abs(edge.line.u[0] * member.line.u[0] + edge.line.u[1] * member.line.u[1]) < 0.01
            )


def _edges(layout: Layout) -> Iterator[Edge]:
    outline = layout.project.platform.outline
    for i, start in enumerate(outline):
        line = Line.between(start, outline[(i + 1) % len(outline)])
        yield _edge(layout, i + 1, line)


def _edge(layout: Layout, number: int, line: Line) -> Edge:
    n = (line.u[1], -line.u[0])
    places = []
    beside: list[tuple[float, Member]] = []
    for member in layout.joists:
        turned = abs(member.line.u[0] * n[0] + member.line.u[1] * n[1])
        if turned > 0.99:
            ends = (member.line.start, member.line.end)
            places += [line.along(e) for e in ends if line.off(e) <= _AT_EDGE]
        elif turned < 0.01:
            beside.append((line.off(member.line.at(member.line.length / 2)), member))
    inside = sorted(p for p in places if 0 <= p <= line.length)
    if len(inside) > 1 and max(b - a for a, b in pairwise(inside)) <= _APART:
        return Edge(number, line, tuple(inside))
    beside.sort(key=lambda item: item[0])
    for (off, outer), (far, inner) in pairwise(beside):
        if off <= _AT_EDGE and 6 < far - off <= _NEXT and outer.line.length > 0.9 * line.length:
            if inner.line.length > 0.9 * outer.line.length:
                return Edge(number, line, (), outer, inner)
            break
    return Edge(number, line)


def _way_up(draft: Draft, layout: Layout, edges: list[Edge], needs: Needs) -> tuple[int, float, float] | None:
    """What leads up, with a gate before a ladder; edge, middle of it along that and width of the way, or None.

    Stairs and ladders are fixed to one piece of wood: an outermost joist.
    """
    kind = needs.access.kind
    asked = {needs.access.edge} if "edge" in needs.access.model_fields_set else {e.number for e in edges}
    for edge in edges:
        place = _middle(layout, edge, _STAIRS if kind == "stairs" else _GATE)
        if kind == "none" or edge.outer is None or edge.number not in asked or place is None:
            continue
        if kind == "stairs":
            _stairs(draft, needs, edge, place)
        else:
            _ladder(draft, edge, place)
        return edge.number, place, _STAIRS if kind == "stairs" else _GATE
    return None


def _ladder(draft: Draft, edge: Edge, middle: float) -> None:
    draft.data["gate"] = [
        {
            "edge": edge.number,
            "along": inches(middle),
            "width": inches(_GATE),
            "self_closing": True,
            "hinge": "600 lb",
            "latch": "300 lb",
            "wheel": "300 lb",
            "hardware_note": TO_BUY,
        }
    ]
    draft.say(("gate", 0), "opens over the deck")
    draft.data["ladder"] = {
        "edge": edge.number,
        "along": inches(middle),
        "pad": "16 in",
        "step_fixing": "400 lb",
        "head_fixing": "600 lb",
        "fixing_note": TO_BUY,
        "grip": True,
        "grip_rating": "300 lb",
        "closed_by": "gate",
    }
    draft.say(("ladder",), "its foot slides on the pad as the floor moves")


def _stairs(draft: Draft, needs: Needs, edge: Edge, middle: float) -> None:
    frost = FROST if needs.place.frost_depth is None else needs.place.frost_depth
    draft.data["stairs"] = {
        "edge": edge.number,
        "along": inches(middle),
        "section": "2x12",
        "cut": "closed",
        "stringers": 3,
        "riser_strip": "2 1/2 in",
        "tread_bracket": "500 lb",
        "tread_note": TO_BUY,
        "hanger": "HS",
        "head_edge": "500 lb",
        "face": "16 in",
        "face_tie": "1500 lb",
        "face_note": TO_BUY,
        "pad_length": "24 in",
        "pad_thickness": "10 in",
        "pad_depth": inches(max(frost, 12.0)),
        "landing": "36 in",
        "handrail": "both sides",
        "handrail_height": "36 in",
        "guard_height": "36 in",
        "guard_opening": "4 in",
        "rail_post": "4x4",
        "rail_blocks": True,
        "rail_tie": "3000 lb",
        "rail_note": TO_BUY,
    }
    draft.say(("stairs", "cut"), "whole stringers: a rail's post finds no hold on what is left of cut ones")
    draft.data.setdefault("connection", {})["HS"] = {
        "rated_load": "1500 lb",
        "rated_uplift": "1500 lb",
        "load_duration": "normal",
        "wet_included": True,
        "note": TO_BUY,
    }
    draft.say(("connection", "HS"), "hanger of the stairs' stringers, made for their slope")


def _middle(layout: Layout, edge: Edge, wide: float) -> float | None:
    """Where along an edge the way up has room, the nearest to the edge's middle."""
    project = layout.project
    out = _out(layout, edge.line)

    def clear(at: float) -> bool:
        x, y = edge.line.at(at)
        foot = (x + 30 * out[0], y + 30 * out[1])
        return all(
            min(math.dist(p, tree.at) for p in ((x, y), foot)) > _CLEAR + (tree.girth or 0) / (2 * math.pi)
            for tree in project.trees
        )

    half = edge.line.length / 2
    room = int(half - wide / 2 - 2 * _CORNER)
    tried = (half + way * step for step in range(0, room + 1, 2) for way in (1, -1))
    return next((at for at in tried if clear(at)), None)


def _out(layout: Layout, line: Line) -> Vector:
    n = (line.u[1], -line.u[0])
    x, y = line.at(line.length / 2)
    centre = layout.deck.centroid
    inward = (centre.x - x) * n[0] + (centre.y - y) * n[1] > 0
    return (-n[0], -n[1]) if inward else n


def _blocks(edge: Edge, way: tuple[int, float, float] | None) -> list[float]:
    """Places of blocks along an edge: near its corners, right beside the gate, and between no farther than allowed."""
    fixed = [_CORNER, edge.line.length - _CORNER]
    if way is not None and way[0] == edge.number:
        off = way[2] / 2 + _POST + _CORNER_ROOM
        fixed += [way[1] - off, way[1] + off]
    fixed.sort()
    found = [fixed[0]]
    for a, b in pairwise(fixed):
        through = way is not None and way[0] == edge.number and a < way[1] < b
        parts = 1 if through else max(1, math.ceil((b - a) / _APART - 1e-9))
        found += [a + (b - a) * k / parts for k in range(1, parts + 1)]
    return [p for k, p in enumerate(found) if not k or p - found[k - 1] > 5]


def _block(draft: Draft, edge: Edge, place: float, number: int, section: str) -> None:
    assert edge.outer is not None
    assert edge.inner is not None
    ordered = sorted((edge.outer, edge.inner), key=lambda m: int(m.mark.lstrip("JKLMNOPQRSTUVWXYZABCDEFGHI")))
    x, y = edge.line.at(place)
    first = ordered[0].line
    along = (x - first.start[0]) * first.u[0] + (y - first.start[1]) * first.u[1]
    entry = {
        "mark": f"B{_letter(number)}",
        "kind": "blocking",
        "section": section,
        "between": [m.mark for m in ordered],
        "along": inches(round(along, 3)),
        "hanger": "HG",
    }
    draft.add("blocking", entry, "takes a post of the guard along the outermost joist" if number == 1 else "")
    draft.data.setdefault("connection", {}).setdefault(
        "HG",
        {
            "rated_load": "1500 lb",
            "rated_uplift": "1500 lb",
            "load_duration": "normal",
            "wet_included": True,
            "seat_length": "1 1/2 in",
            "note": TO_BUY,
        },
    )
    draft.say(("connection", "HG"), "hanger of the blocks that the guard's posts are tied to")


def _rim(draft: Draft, end: str) -> None:
    first = not any(b["kind"] == "rim" for b in draft.data.get("blocking", ()))
    entry = {"mark": "R" if end == "start" else "RS", "kind": "rim", "end": end, "fasteners": 5}
    draft.add("blocking", entry, "rims: a post presses on more than the end of a joist" if first else "")


def _letter(number: int) -> str:
    tens, ones = divmod(number - 1, 26)
    return (chr(64 + tens) if tens else "") + chr(65 + ones)


def _guard(draft: Draft, edges: tuple[int, ...]) -> None:
    entry: dict[str, Any] = {
        "mark": "G",
        "edges": list(edges),
        "section": "6x6",
        "hold_down": "4000 lb",
        "lower_tie": "4000 lb",
        "down_tie": "800 lb",
        "hold_down_note": TO_BUY,
        "top_rail": "2x6",
        "rail_fastening": "400 lb",
        "rail_note": TO_BUY,
        "baluster_strength": "1000 psi",
        "infill_load": "100 lb",
        "infill_note": TO_BUY,
    }
    draft.add("guard", entry, "posts at joists' ends and at blocks")
    draft.say(("guard", 0, "baluster_strength"), "balusters are sold ungraded: those bought must have this")
