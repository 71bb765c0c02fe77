"""Pictures of the brief: plan and elevation with the supports' loads, the paths of weight and of lateral load."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from bolewright.drawings.bodies import View
from bolewright.drawings.elevations import VIEWS, elevation
from bolewright.drawings.measures import Measures
from bolewright.drawings.plan_framing import plan_of_framing
from bolewright.metric import amount
from bolewright.platform.analysis.support_loads import SupportLoads, support_loads
from bolewright.platform.checks.support_forces import SupportForces, support_forces
from bolewright.platform.layout.layout import Layout
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Figure, Table
from bolewright.rendering.drawing import Dimension, Drawing, Item, Leader, Mark
from bolewright.rendering.numbers import digits
from bolewright.rendering.svg import to_svg
from bolewright.sheets.figures import ground_below, load_path_figure, path_figure
from bolewright.sheets.support_tables import with_wind_and_sway
from bolewright.units import POUND

_PLAN, _ELEVATION = 92.0, 66.0  # mm of height: both stand on one page with their tables
_OUT = 12.0  # mm from a support to the words of its load


def loads_blocks(results: Results, measures: Measures = Measures.IMPERIAL) -> tuple[Figure | Table, ...]:
    """Plan and elevation with the greatest load on every support, and the reactions as tables."""
    loads, forces = support_loads(results.path, results.lateral), support_forces(results.lateral)
    labels = _labels(loads, forces)
    more = (with_wind_and_sway(forces),) if forces else ()
    return (
        _plan(results, labels, measures),
        _elevation(results, labels, measures),
        reactions_table(loads),
        *more,
    )


@dataclass(frozen=True)
class Label:
    """What is written at a support: the greatest load and lateral force anywhere on it, and the least load (lb)."""

    mark: str
    most: float
    least: float
    lateral: float | None

    def down(self, measures: Measures) -> str:
        """The greatest load, and uplift where there is any."""
        words = f"{self.mark}: {_force(self.most, measures)}"
        return words if self.least >= 0 else f"{words}, uplift {_force(-self.least, measures)}"

    def words(self, measures: Measures) -> str:
        """Load and lateral force."""
        words = f"{self.mark}: {_force(self.most, measures)}"
        return words if self.lateral is None else f"{words}, lateral {_force(self.lateral, measures)}"


def _force(pounds: float, measures: Measures) -> str:
    return amount(pounds, POUND, metric=True) if measures is Measures.METRIC else f"{digits(pounds)} lb"


def _labels(loads: tuple[SupportLoads, ...], forces: tuple[SupportForces, ...]) -> tuple[Label, ...]:
    """The greatest of weight alone and of weight with wind, sway and braces, at the top of a support or its foot."""
    found = []
    for load in loads:
        own = [force for force in forces if force.mark == load.mark]
        across = [force.lateral[0] for force in own if force.lateral is not None]
        found.append(
            Label(
                load.mark,
                max(load.most[0], *(force.most[0] for force in own)) if own else load.most[0],
                min(load.least[0], *(force.least[0] for force in own)) if own else load.least[0],
                max(across, default=None),
            )
        )
    return tuple(found)


def _lateral(load: SupportLoads) -> float:
    assert load.lateral is not None
    return math.hypot(load.lateral.x, load.lateral.y)


def _plan(results: Results, labels: tuple[Label, ...], measures: Measures) -> Figure:
    layout = results.path.layout
    drawing = plan_of_framing(results, measures, brief=True)
    middle = layout.deck.centroid.x
    more: list[Item] = []
    for label in labels:
        at = next(s.at for s in layout.supports if s.mark == label.mark)
        side = 1.0 if at[0] >= middle else -1.0
        more.append(Leader(at, label.words(measures), (side * _OUT, -8.0)))
    caption = (
        "Plan of framing with the greatest load and lateral force on every support, of weight, wind, sway and braces; "
        "they do not act all at once."
    )
    alt = f"{drawing.alt} {'; '.join(label.words(measures) for label in labels)}."
    return _figure(_marked(drawing, layout), more, caption, alt, _PLAN, measures)


def _elevation(results: Results, labels: tuple[Label, ...], measures: Measures) -> Figure:
    layout = results.path.layout
    letter, look = VIEWS[0]
    drawing = elevation(results, letter, look, measures)
    view = View(look)
    more: list[Item] = []
    for label in labels:
        support = next(s for s in layout.supports if s.mark == label.mark)
        at = (view.across(support.at), layout.seat_level(label.mark))
        if support.kind == SupportKind.POST:
            at = (at[0], at[1] / 3)
        side = 1.0 if at[0] >= 0 else -1.0
        more.append(Leader(at, label.down(measures), (side * _OUT, -5.0)))
    alt = f"{drawing.alt} {'; '.join(label.down(measures) for label in labels)}."
    return _figure(
        _marked(drawing, layout),
        more,
        f"{drawing.title}, with the greatest load and uplift on every support.",
        alt,
        _ELEVATION,
        measures,
    )


def _marked(drawing: Drawing, layout: Layout) -> Drawing:
    """The drawing with marks of trees, beams and braces only: a support is named at its load, joists elsewhere."""
    left_out = {joist.mark for joist in layout.joists} | {support.mark for support in layout.supports}
    left_out |= {diagonal.mark for diagonal in layout.project.diagonals}
    items = (item for item in drawing.items if not (isinstance(item, Mark) and item.text in left_out))
    return replace(drawing, items=tuple(items))


def _figure(
    drawing: Drawing, more: list[Item], caption: str, alt: str, height: float, measures: Measures
) -> Figure:
    plain = (item for item in drawing.items if not isinstance(item, Dimension))
    bare = replace(drawing, items=(*plain, *more), heading=())
    return Figure(to_svg(bare, height=height, scales=measures.scales), caption, alt)


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
        columns,
        rows,
        "Reactions of weight alone (lb), down positive; lateral of the platform at the top of each support",
        "lrrrrlrrl",
    )


def path_blocks(results: Results, measures: Measures) -> tuple[Figure, Figure]:
    """The path of the weight, and that of lateral load."""
    loads = support_loads(results.path, results.lateral)
    weight = load_path_figure(
        results, texts={load.mark: f"{load.mark}: {_force(load.most[0], measures)}" for load in loads}
    )
    labels = _labels(loads, support_forces(results.lateral))
    return replace(
        weight,
        once="",
        caption="Path of the weight, from the floor down, with the greatest load of weight alone on each support.",
    ), _lateral_path(results, {label.mark: label for label in labels}, measures)


def _lateral_path(results: Results, labels: dict[str, Label], measures: Measures) -> Figure:
    layout, project = results.path.layout, results.project
    wind = max(results.lateral.winds.towards(d).force for d in ((1.0, 0.0), (0.0, 1.0)))
    sway = project.loads.sway_share * project.loads.live * layout.deck.area / 144
    pushes = [f"wind, {_force(wind, measures)}", f"people swaying, {_force(sway, measures)}"]
    floor = "floor and frame, stiff in plan"
    links = [(push, floor) for push in pushes]
    braces = list(project.braces)
    texts: dict[str, str] = {}
    ground: list[str] = []
    for mark, label in labels.items():
        texts[mark] = (
            f"{mark}: slides" if label.lateral is None else f"{mark}: {_force(label.lateral, measures)}"
        )
        below = ground_below(layout, mark)
        ground.append(below)
        own = [b.mark for b in braces if b.support == mark]
        links += [(floor, mark), *((floor, brace) for brace in own), *((brace, mark) for brace in own)]
        if label.lateral is not None:
            links.append((mark, below))
    rows = [pushes, [floor], [b.mark for b in braces], list(labels), list(dict.fromkeys(ground))]
    caption = (
        "Path of lateral load, with the greatest lateral force on each support, at a post's foot with what weight on "
        "its braces adds; they do not act all at once."
    )
    return path_figure([row for row in rows if row], links, texts, caption, "Path of lateral load")
