"""Details of the collars of tree bolts as they stand out of the bark, side and end."""

from __future__ import annotations

from bolewright.drawings.chains import chain
from bolewright.drawings.joints import NEAR, box
from bolewright.drawings.measures import Measures
from bolewright.drawings.words import listed, titled
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.trunk_braces import trunk_brace
from bolewright.platform.project import Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering.drawing import Circle, Drawing, Fill, Item, Layer, Leader, Line, Pen, Polygon, Text
from bolewright.setting_out.trunk import bolt_marks


def collar_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Collar of every kind of tree bolt as it stands out of the bark, side and end; like ones in one."""
    layout = results.path.layout
    groups: dict[tuple[object, ...], list[Support]] = {}
    placed = {bolt.mark: bolt for bolt in bolt_marks(layout)}
    for support in layout.supports:
        if support.kind == SupportKind.TREE_BOLT:
            bolt = placed[support.mark]
            like = (
                support.bolt,
                round(bolt.projection, 2),
                round(bolt.lever, 2),
                support.lateral,
                support.slot,
            )
            groups.setdefault(like, []).append(support)
    return [_collar(results, group, measures) for group in groups.values()]


def _width_on(layout: Layout, support: Support) -> float:
    """Width of the beam on a bolt, or of the knee braces that stand on it (in)."""
    if braces := layout.braces_on(support.mark):
        return trunk_brace(layout, braces[0]).section.b
    return layout.on_support(support.mark)[0][0].width


def _collar(results: Results, group: list[Support], measures: Measures) -> Drawing:
    layout, support = results.path.layout, group[0]
    kind = layout.project.bolts[support.bolt or ""]
    tree = next(t for t in layout.project.trees if t.mark == support.tree)
    bolt = next(b for b in bolt_marks(layout) if b.mark == support.mark)
    r, rise = kind.diameter / 2, bolt.seat_level - bolt.centre_level
    p, half, d = bolt.projection, kind.seat_length / 2, _width_on(layout, support)
    end, low, high = p + half + kind.slide, -4.5, rise + 6.0
    inside = p - bolt.lever  # of the sound wood's face, from the bark
    x2 = end + 9.0
    items: list[Item] = [
        Polygon(box(-4.0, low, 0.0, high), Layer.TRUNK, Fill.TRUNK),
        Line((inside, low), (inside, high), Layer.TRUNK, Pen.DASHED),
        Polygon(box(-4.0, -r, end, r), Layer.BOLTS, Fill.WASH),
        Line((-4.5, 0.0), (end + 1.5, 0.0), Layer.CENTRE, Pen.CENTRE),
        Line((p, low), (p, high), Layer.CENTRE, Pen.CENTRE),
        Circle((x2, 0.0), r, Layer.BOLTS, Fill.WASH),
        Line((x2 - r - 1.5, 0.0), (x2 + r + 1.5, 0.0), Layer.CENTRE, Pen.CENTRE),
    ]
    for x, wide in ((p, half), (x2, d / 2)):
        if rise > r + 0.02:
            items.append(Polygon(box(x - wide, r, x + wide, rise), Layer.HARDWARE, Fill.END_GRAIN))
        items.append(Polygon(box(x - wide, rise, x + wide, high), Layer.BEAMS, Fill.TIMBER))
    items += [
        *chain([(0.0, low), (p, low)], measures, -NEAR),
        *chain([(inside, low), (p + kind.slide, low)], measures, -(NEAR + 8.0)),
        *chain([(p - half, high), (p + half, high)], measures, NEAR),
        *chain([(x2 + d / 2, 0.0), (x2 + d / 2, rise)], measures, -NEAR),
        *chain([(x2 - r, -r), (x2 + r, -r)], measures, -NEAR),
        Leader((-2.0, high - 2.0), tree.mark, (-8.0, 6.0)),
        Text((x2, high + 1.0), "end", 2.2),
    ]
    if kind.slide:
        items += chain([(p, high), (p + kind.slide, high)], measures, NEAR + 8.0)
    bears = "Bracket" if kind.seat == "steel bracket" else "Timber"
    slot = f" in a slot of {measures.words(support.slot)}" if support.slot else ""
    moves = {
        "tied": "tied to the bolt both ways",
        "slides": f"sliding along the bolt{slot}",
        "floats": "floating on a pad both ways",
        "slides across": f"held along the bolt, sliding across it{slot}",
    }.get(support.lateral or "", "with nothing that holds it laterally")
    if layout.braces_on(support.mark):
        moves = "under the shoe of its knee braces"
    title = f"Collar {listed(s.mark for s in group)}"
    notes = [
        f"{bears} {moves}. Upper chain: length of the bearing; lower ones: bark to the middle of the bearing, and "
        f"sound wood to it at its farthest. Drawn for {support.mark}."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)
