"""Pictures of the brief: plan and elevation with the supports' loads, the paths of weight and of lateral load."""

from __future__ import annotations

import math
from dataclasses import replace

from bolewright.drawings.bodies import View
from bolewright.drawings.elevations import VIEWS, elevation
from bolewright.drawings.plan_framing import plan_of_framing
from bolewright.platform.analysis.support_loads import SupportLoads, support_loads
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Figure, Table
from bolewright.rendering.drawing import Dimension, Drawing, Item, Leader
from bolewright.rendering.numbers import digits
from bolewright.rendering.svg import to_svg
from bolewright.sheets.figures import ground_below, load_path_figure, path_figure

_PLAN, _ELEVATION = 92.0, 102.0  # mm of height
_OUT = 12.0  # mm from a support to the words of its load


def loads_blocks(results: Results) -> tuple[Figure | Table, ...]:
    """Plan and elevation with the greatest load on every support, and the reactions as a table."""
    loads = support_loads(results.path, results.lateral)
    return (_plan(results, loads), _elevation(results, loads), reactions_table(loads))


def _said(load: SupportLoads) -> str:
    words = f"{load.mark}: {digits(load.most[0])} lb"
    return words if load.lateral is None else f"{words}, lateral {digits(_lateral(load))} lb"


def _lateral(load: SupportLoads) -> float:
    assert load.lateral is not None
    return math.hypot(load.lateral.x, load.lateral.y)


def _plan(results: Results, loads: tuple[SupportLoads, ...]) -> Figure:
    layout = results.path.layout
    drawing = plan_of_framing(results, brief=True)
    middle = layout.deck.centroid.x
    more: list[Item] = []
    for load in loads:
        at = next(s.at for s in layout.supports if s.mark == load.mark)
        side = 1.0 if at[0] >= middle else -1.0
        more.append(Leader(at, _said(load), (side * _OUT, -8.0)))
    caption = "Plan of framing with the greatest load on every support, and the greatest lateral force."
    alt = f"{drawing.alt} {'; '.join(map(_said, loads))}."
    return _figure(drawing, more, caption, alt, _PLAN)


def _elevation(results: Results, loads: tuple[SupportLoads, ...]) -> Figure:
    layout = results.path.layout
    letter, look = VIEWS[0]
    drawing = elevation(results, letter, look)
    view = View(look)
    more: list[Item] = []
    for load in loads:
        support = next(s for s in layout.supports if s.mark == load.mark)
        at = (view.across(support.at), layout.seat_level(load.mark))
        if support.kind == "post":
            at = (at[0], at[1] / 3)
        side = 1.0 if at[0] >= 0 else -1.0
        more.append(Leader(at, f"{load.mark}: {digits(load.most[0])} lb", (side * _OUT, -5.0)))
    alt = f"{drawing.alt} {'; '.join(map(_said, loads))}."
    return _figure(
        drawing, more, f"{drawing.title}, with the greatest load on every support.", alt, _ELEVATION
    )


def _figure(drawing: Drawing, more: list[Item], caption: str, alt: str, height: float) -> Figure:
    plain = (item for item in drawing.items if not isinstance(item, Dimension))
    bare = replace(drawing, items=(*plain, *more), heading=())
    return Figure(to_svg(bare, height=height), caption, alt)


def reactions_table(loads: tuple[SupportLoads, ...]) -> Table:
    """Loads on every support, by kind and in the combinations that govern."""
    rows = tuple(
        (
            load.mark,
            digits(load.D),
            digits(load.L_most),
            digits(load.S_most),
            f"{digits(load.most[0])} lb",
            load.most[1],
            f"{digits(load.least[0])} lb",
            "slides" if load.lateral is None else f"{digits(_lateral(load))} lb",
            "" if load.lateral is None else load.lateral.combination,
        )
        for load in loads
    )
    columns = ("support", "D", "L most", "S most", "greatest", "in", "least", "lateral", "in ")
    return Table(
        columns, rows, "Reactions (lb), down positive; lateral is the greatest in any direction", "lrrrrlrrl"
    )


def path_blocks(results: Results) -> tuple[Figure, Figure]:
    """The path of the weight, and that of lateral load."""
    loads = {load.mark: load for load in support_loads(results.path, results.lateral)}
    weight = load_path_figure(results, texts={m: f"{m}: {digits(x.most[0])} lb" for m, x in loads.items()})
    return replace(
        weight,
        once="",
        caption="Path of the weight, from the floor down, with the greatest load on each support.",
    ), _lateral_path(results, loads)


def _lateral_path(results: Results, loads: dict[str, SupportLoads]) -> Figure:
    layout, project = results.path.layout, results.project
    wind = max(results.lateral.winds.towards(d).force for d in ((1.0, 0.0), (0.0, 1.0)))
    sway = project.loads.sway_share * project.loads.live * layout.deck.area / 144
    pushes = [f"wind, {digits(wind)} lb", f"people swaying, {digits(sway)} lb"]
    floor = "floor and frame, stiff in plan"
    links = [(push, floor) for push in pushes]
    braces = list(project.braces)
    texts: dict[str, str] = {}
    ground: list[str] = []
    for mark, load in loads.items():
        texts[mark] = f"{mark}: slides" if load.lateral is None else f"{mark}: {digits(_lateral(load))} lb"
        below = ground_below(layout, mark)
        ground.append(below)
        own = [b.mark for b in braces if b.support == mark]
        links += [(floor, mark), *((floor, brace) for brace in own), *((brace, mark) for brace in own)]
        if load.lateral is not None:
            links.append((mark, below))
    rows = [pushes, [floor], [b.mark for b in braces], list(loads), list(dict.fromkeys(ground))]
    caption = (
        "Path of lateral load, with the greatest lateral force on each support; they do not act all at once."
    )
    return path_figure([row for row in rows if row], links, texts, caption, "Path of lateral load")
