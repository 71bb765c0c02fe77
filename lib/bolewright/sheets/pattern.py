"""The worst pattern of live load as a shaded plan: darker where a pound does more to the effect."""

from __future__ import annotations

from bolewright.platform.analysis.pattern import pattern_of
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.load_path import LoadPath
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import Circle, Drawing, Fill, Item, Layer, Pen, Polygon, Text
from bolewright.rendering.svg import to_svg

HEIGHT = 62.0


def pattern_figure(path: LoadPath, check: Check) -> Figure | None:
    """Plan with the loaded panels filled and the person marked; None when the check has no pattern."""
    pattern = pattern_of(path, check)
    if pattern is None or not (pattern.panels or pattern.person):
        return None
    loaded = set(pattern.panels)
    items: list[Item] = [
        Polygon(
            panel.corners,
            Layer.HIGHLIGHT if i in loaded else Layer.DECKING,
            Fill.HIGHLIGHT if i in loaded else Fill.PAPER,
        )
        for i, panel in enumerate(path.panels)
    ]
    member = path.layout.member(check.effect.member) if check.effect else None
    if member:
        line = (member.line.start, member.line.end)
        items.append(Polygon(line, Layer.BEAMS, Fill.NONE, Pen.SOLID))
        items.append(Text(member.line.at(member.line.length / 2), member.mark, 2.6, bold=True))
    if pattern.person:
        items.append(Circle(pattern.person, 5.0, Layer.HIGHLIGHT, Fill.HIGHLIGHT))
        items.append(Text(pattern.person, "person", 2.3, shift=(0.0, 4.0)))
    area = sum(path.panels[i].area for i in loaded) / 144
    where = "one person where it does most" if pattern.person else f"{area:.1f} sq ft of the deck"
    alt = f"Worst pattern for {check.limit_state} of {check.part}: {where}."
    drawing = Drawing("Worst pattern", tuple(items), alt, scale_bar=False)
    return Figure(to_svg(drawing, height=HEIGHT), alt, alt)
