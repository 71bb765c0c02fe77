"""The path of a burden as a diagram: arrows as wide as the force they stand for, down to the soil and the trunk."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from bolewright.platform.layout.layout import Layout
from bolewright.platform.tracing.tracing import Trace
from bolewright.rendering import palette

_WIDE, _STEP, _BOX = 640.0, 78.0, 24.0
_WIDEST = 26.0  # stroke of all of the burden
_LEAST = 0.004  # share of the burden below which an arrow is left out
_CROWDED = 9  # boxes in a row from which its arrows carry no numbers


@dataclass(frozen=True)
class Flow:
    """A force handed from one part to the next; negative lifts."""

    upper: str
    lower: str
    pounds: float


def flows(layout: Layout, trace: Trace) -> list[Flow]:
    """All forces of a burden from the boards to the ground."""
    found = []
    for carried in trace.carried.values():
        for load in carried.arriving:
            if load.source == "boards":
                found.append(Flow("boards", carried.member.mark, load.total))
        for seat, force in zip(carried.member.seats, carried.seats, strict=True):
            found.append(Flow(carried.member.mark, seat.below, force))
    for support in layout.supports:
        found.append(Flow(support.mark, _ground(support.mark, support.tree), trace.reactions[support.mark]))
    return [flow for flow in found if abs(flow.pounds) >= _LEAST * trace.total]


def _ground(mark: str, tree: str | None) -> str:
    return f"trunk of {tree}|{mark}" if tree else f"soil|{mark}"


def flow_figure(layout: Layout, trace: Trace) -> str:
    """SVG of the path: rows of parts from the boards down, arrows scaled to force."""
    links = flows(layout, trace)
    used = {flow.upper for flow in links} | {flow.lower for flow in links}
    rows = [["boards"], [m.mark for m in layout.joists if m.mark in used]]
    for layer in sorted({m.layer for m in layout.beams}):
        same = [m for m in layout.beams if m.layer == layer and m.mark in used]
        rows.append([m.mark for m in sorted(same, key=lambda m: m.line.at(m.line.length / 2))])
    supports = sorted((s for s in layout.supports if s.mark in used), key=lambda s: s.at)
    rows += [[s.mark for s in supports], [_ground(s.mark, s.tree) for s in supports]]
    rows = [row for row in rows if row]
    places = {
        name: ((j + 0.5) * _WIDE / len(row), i * _STEP + _BOX / 2 + 4, len(row))
        for i, row in enumerate(rows)
        for j, name in enumerate(row)
    }
    body = [_arrow(flow, places, trace.total) for flow in links]
    body += [_box(name, places[name]) for row in rows for name in row]
    body += [_amount(flow, places) for flow in links]
    words = "Forces: " + "; ".join(
        f"{f.upper} {'lifts' if f.pounds < 0 else 'to'} {f.lower.split('|')[0]} {abs(f.pounds):,.0f} lb"
        for f in links
    )
    height = (len(rows) - 1) * _STEP + _BOX + 10
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bw-flow" role="img" viewBox="0 0 {_WIDE:.0f} {height:.0f}" '
        f'font-family="system-ui, sans-serif" font-size="13"><title>{escape(words)}.</title>{"".join(body)}</svg>'
    )


Places = dict[str, tuple[float, float, int]]


def _ends(flow: Flow, places: Places) -> tuple[float, float, float, float]:
    (x0, y0, _), (x1, y1, _) = places[flow.upper], places[flow.lower]
    return x0, y0 + _BOX / 2, x1, y1 - _BOX / 2


def _arrow(flow: Flow, places: Places, total: float) -> str:
    x0, y0, x1, y1 = _ends(flow, places)
    width = max(1.2, _WIDEST * min(abs(flow.pounds) / total, 1.2))
    head = max(4.0, 0.75 * width)
    colour = palette.ACCENT if flow.pounds >= 0 else palette.HIGHLIGHT
    tip, foot = ((x1, y1), (x0, y0)) if flow.pounds >= 0 else ((x0, y0), (x1, y1))
    side = 1.0 if tip[1] > foot[1] else -1.0
    neck = tip[1] - side * head
    bend = (foot[1] + neck) / 2
    dash = "" if flow.pounds >= 0 else ' stroke-dasharray="5 3"'
    path = f"M{foot[0]:.1f},{foot[1]:.1f}C{foot[0]:.1f},{bend:.1f} {tip[0]:.1f},{bend:.1f} {tip[0]:.1f},{neck:.1f}"
    points: Sequence[tuple[float, float]] = ((tip[0], tip[1]), (tip[0] - head, neck), (tip[0] + head, neck))
    corners = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    return (
        f'<path d="{path}" fill="none" stroke="{colour}" stroke-opacity=".55" stroke-width="{width:.1f}"{dash}/>'
        f'<polygon points="{corners}" fill="{colour}" fill-opacity=".8"/>'
    )


def _box(name: str, place: tuple[float, float, int]) -> str:
    x, y, count = place
    words = name.split("|")[0]
    half = min(_WIDE / count / 2 - 2, 8.0 + 4.2 * len(words))
    return (
        f'<rect x="{x - half:.1f}" y="{y - _BOX / 2:.1f}" width="{2 * half:.1f}" height="{_BOX:.0f}" rx="3" '
        f'fill="{palette.PAPER}" stroke="{palette.INK}"/>'
        f'<text x="{x:.1f}" y="{y + 4.5:.1f}" text-anchor="middle" fill="{palette.INK}">{escape(words)}</text>'
    )


def _amount(flow: Flow, places: Places) -> str:
    if max(places[flow.upper][2], places[flow.lower][2]) > _CROWDED:
        return ""
    x0, y0, x1, y1 = _ends(flow, places)
    part = 0.62  # nearer to the receiving end, where arrows have spread out
    x, y = x0 + part * (x1 - x0), y0 + part * (y1 - y0)
    words = f"{flow.pounds:,.0f} lb" if flow.pounds >= 0 else f"lifts {-flow.pounds:,.0f} lb"
    return (
        f'<text x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle" fill="{palette.INK}" stroke="{palette.PAPER}" '
        f'stroke-width="3" paint-order="stroke">{words}</text>'
    )
