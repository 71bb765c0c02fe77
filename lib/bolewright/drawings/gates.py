"""Details of gates: the leaf as it hangs between its posts, with frame, brace, hinges, latch, wheel and gaps."""

from __future__ import annotations

from bolewright.drawings.chains import chain
from bolewright.drawings.joints import NEAR, box
from bolewright.drawings.measures import Measures
from bolewright.drawings.words import titled
from bolewright.platform.layout.gates import GateAt, find_gates
from bolewright.platform.layout.guard_sizes import baluster_places
from bolewright.platform.layout.guards import height_of
from bolewright.platform.results.results import Results
from bolewright.rendering.drawing import Circle, Drawing, Fill, Item, Layer, Leader, Line, Pen, Point, Polygon
from bolewright.timber.sections import parse_section

_FAR = 13.0  # mm
_HINGE, _WHEEL = 1.0, 1.25  # in: half the height of a hinge, radius of a wheel, as they are drawn


def gate_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Every gate from the side on which its brace is, its hinges at the left."""
    return [_gate(results, at, measures) for at in find_gates(results.path.layout)]


def _gate(results: Results, at: GateAt, measures: Measures) -> Drawing:
    gate, guard = at.gate, at.guard
    top, foot, w = height_of(results.project), gate.bottom_gap, at.leaf
    rail = parse_section(gate.section).d
    post = parse_section(guard.section).b if guard is not None else 3.5
    left, right = -gate.side_gap, w + gate.side_gap
    middle = (foot + top) / 2
    hinges = (middle - gate.hinge_spacing / 2, middle + gate.hinge_spacing / 2)
    items: list[Item] = [
        Line((left - post - 4.0, 0.0), (right + post + 4.0, 0.0), Layer.DECKING),
        Polygon(box(left - post, 0.0, left, top), Layer.POSTS, Fill.TIMBER),
        Polygon(box(right, 0.0, right + post, top), Layer.POSTS, Fill.TIMBER),
        *_leaf(at, foot, top, rail),
        *(Polygon(box(left - 1.0, z - _HINGE, rail, z + _HINGE), Layer.HARDWARE, Fill.STEEL) for z in hinges),
        Polygon(box(w - 2.0, middle - _HINGE, right + 1.0, middle + _HINGE), Layer.HARDWARE, Fill.STEEL),
    ]
    if gate.wheeled:
        items.append(Circle((w - rail / 2, _WHEEL), _WHEEL, Layer.HARDWARE, Fill.STEEL))
        items.append(Leader((w - rail / 2, _WHEEL), _rated("wheel", gate.wheel, measures), (12.0, -9.0)))
    items += [
        *chain([(left, 0.0), (0.0, 0.0), (w, 0.0), (right, 0.0)], measures, -NEAR),
        *chain([(left, 0.0), (right, 0.0)], measures, -_FAR),
        *chain([(left - post, 0.0), (left - post, foot), (left - post, top)], measures, NEAR),
        *chain([(left - post, hinges[0]), (left - post, hinges[1])], measures, _FAR),
        Leader((left, hinges[1]), _rated("hinges", gate.hinge, measures), (-16.0, 14.0)),
        Leader((right, middle), _rated("latch", gate.latch, measures), (16.0, 8.0)),
    ]
    on, to = (p.mark if p is not None else "a post to come" for p in (at.hung_on, at.closes_to))
    opens = "over the deck, away from the drop" if gate.swing == "over the deck" else "outward"
    filled = f", filled as the guard {guard.mark}" if guard is not None else ""
    closes = "It closes by itself." if gate.self_closing else "Nothing closes it by itself."
    title = f"Gate {gate.mark}"
    notes = [
        f"Hung on {on}, closing to {to}; it opens {opens}. {closes} Frame and brace {gate.section}{filled}. The brace "
        "rises from the lower hinge to the free edge. Clear gaps and heights over the deck; turn it round where its "
        "hinges are on the right."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)


def _leaf(at: GateAt, foot: float, top: float, rail: float) -> list[Item]:
    """Balusters, frame and brace."""
    w, guard = at.leaf, at.guard
    items: list[Item] = []
    if guard is not None and guard.infill == "balusters":
        b, stile = parse_section(guard.baluster).b, parse_section(at.gate.section).b
        items += [
            Polygon(box(x - b / 2, foot, x + b / 2, top), Layer.BLOCKING, Fill.WASH)
            for x in baluster_places(guard, stile, w - stile)
        ]
    slant = rail * ((top - foot - 2 * rail) ** 2 + (w - 2 * rail) ** 2) ** 0.5 / (w - 2 * rail)
    brace: tuple[Point, ...] = (
        (rail, foot + rail),
        (w - rail, top - rail - slant),
        (w - rail, top - rail),
        (rail, foot + rail + slant),
    )
    items.append(Polygon(brace, Layer.BRACES, Fill.TIMBER))
    for ring in (
        box(0.0, foot, w, foot + rail),
        box(0.0, top - rail, w, top),
        box(0.0, foot, rail, top),
        box(w - rail, foot, w, top),
    ):
        items.append(Polygon(ring, Layer.BRACES, Fill.TIMBER))
    items.append(Line((rail, foot + rail), (w - rail, top - rail), Layer.CENTRE, Pen.CENTRE))
    return items


def _rated(what: str, rating: float | None, measures: Measures) -> str:
    return f"{what}, rated {measures.force(rating)}" if rating is not None else f"{what}, no rating given"
