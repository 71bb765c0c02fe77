"""Where does my weight go? A person, a crowd or a drift on the plan, followed to the soil and into the trunk."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Any

import anywidget
import ipywidgets as w
import numpy as np
import traitlets as t

from bolewright.platform.results.results import Results
from bolewright.platform.tracing.tracing import Person, Trace, Tracer, TracingError
from bolewright.platform.tracing.tracing_burden import nearest_on_deck
from bolewright.platform.tracing.tracing_maps import InfluenceMap, moment_map, reaction_map
from bolewright.platform.tracing.tracing_path import PathStep, path_steps, pounds
from bolewright.rendering.blocks import Block, Figure, Statement, StatementKind
from bolewright.sheets.opening import Blocks, results_of
from bolewright.sheets.printing import printed
from bolewright.units import INCH, POUND, feet_inches, read
from bolewright.workbook.explorer_bodies import body_of
from bolewright.workbook.explorer_burden import CROWD, DRIFT, PERSON, BurdenFields
from bolewright.workbook.explorer_drag import Rectangle, dragged_crowd, dragged_drift
from bolewright.workbook.explorer_flow import flow_figure
from bolewright.workbook.explorer_plan import heat_plan, plan_words, traced_plan
from bolewright.workbook.html import html_of
from bolewright.workbook.style import style

_HERE = Path(__file__).parent
OWN_PATH = "the way of this load"


class PlanWidget(anywidget.AnyWidget):
    """The plan that a person is moved on; its front end comes through the kernel and asks nothing of any host."""

    _esm = _HERE / "explorer_plan.js"
    _css = _HERE / "explorer_plan.css"
    svg = t.Unicode("").tag(sync=True)
    label = t.Unicode("").tag(sync=True)
    press = t.List(t.Float(), default_value=[0.0, 0.0]).tag(sync=True)
    at = t.List(t.Float(), default_value=[0.0, 0.0]).tag(sync=True)
    gesture = t.Int(0).tag(sync=True)
    movable = t.Bool(True).tag(sync=True)
    asked = t.Int(0).tag(sync=True)
    answered = t.Int(0).tag(sync=True)


@dataclass(frozen=True)
class _Map:
    """A choice of the list of influences: a support, a place along a member, or neither."""

    support: str = ""
    member: str = ""
    x: float = 0.0


class Explorer:
    """The explorer over one platform; :meth:`update` takes another one up."""

    def __init__(self, results: Results) -> None:
        self.results = results
        self.tracer = Tracer(results.path)
        self.trace: Trace | None = None
        self.steps: tuple[PathStep, ...] = ()
        self.number = 0
        self._gesture = 0
        self._held: Rectangle | None = None
        self._filling = True
        self.plan = PlanWidget()
        self.plan.observe(self._moved, "asked")
        self.said = w.HTML()
        self.table = w.HTML()
        self.flow = w.HTML()
        self.body = w.HTML()
        self.member = w.Dropdown(description="Bending of")
        self.influence = w.Dropdown(description="Shade the plan by")
        self.back = w.Button(description="Back")
        self.next = w.Button(description="Next step")
        self.step = w.HTML()
        self.fields = BurdenFields(results.path.layout, self._changed)
        self._fill()
        self.member.observe(lambda _: self._show_body(), "value")
        self.influence.observe(lambda _: self._show_plan(), "value")
        self.back.on_click(lambda _: self._go(-1))
        self.next.on_click(lambda _: self._go(1))
        self.box = self._laid_out()
        self._filling = False
        self._changed()

    def _laid_out(self) -> w.VBox:
        help_words = (
            '<p class="bw-help">On the plan, click or drag: a person goes there; a crowd goes along when taken inside, '
            "and is drawn anew, corner to corner, from beside it; a drift lies at the edge that is nearest, and reaches"
            " as far as you drag. Or give the plan the focus and use the arrow keys (1 in., with Shift 1 ft); or type. "
            "x runs to the right, y up, as in the project file.</p>"
        )
        stepping = w.HBox([self.back, self.next])
        stepping.add_class("bw-bar")
        left = w.VBox([self.influence, self.plan, self.said, w.HTML(help_words)])
        right = w.VBox([w.HTML("<h2>Part by part</h2>"), stepping, self.step])
        left.add_class("bw-beside")
        right.add_class("bw-beside")
        under = w.VBox([self.table, self.member, self.body])
        under.add_class("bw-beside")
        flowing = w.VBox([self.flow])
        flowing.add_class("bw-beside")
        rows = [w.HBox([left, right]), w.HBox([under, flowing])]
        for row in rows:
            row.add_class("bw-columns")
        box = w.VBox([self.fields.box, *rows])
        box.add_class("bw-explorer")
        return box

    def _fill(self) -> None:
        layout = self.results.path.layout
        maps = [(OWN_PATH, _Map())]
        maps += [(f"what comes to {s.mark}", _Map(support=s.mark)) for s in layout.supports]
        for member in layout.members:
            effects = self.results.path.effects[member.mark]
            whole = effects.moment @ (self.results.path.dead + self.results.path.live)
            x = float(effects.stations[int(np.abs(whole).argmax())])
            maps.append((f"moment of {member.mark} at {feet_inches(x)}", _Map(member=member.mark, x=x)))
        self.influence.options = maps
        self.influence.value = _Map()
        self.member.options = [m.mark for m in layout.members]

    def update(self, results: Results) -> None:
        """Take up another platform, or this one changed; the person stays if the deck still is there."""
        if results is self.results:
            return
        before = self.fields.read()
        same_outline = results.project.platform == self.results.project.platform
        self.results, self.tracer = results, Tracer(results.path)
        self._filling = True
        self._fill()
        if not same_outline:
            self.fields.reset(results.path.layout)
            if isinstance(before, Person):
                self.fields.put(nearest_on_deck(results.path.layout, before.at))
        self._filling = False
        self._changed()

    def follow(self, x: str, y: str, weight: str) -> Blocks:
        """A person at a place, drawn and worked out step by step, as a sheet prints it."""
        trace = self.tracer.trace(Person((read(x, INCH), read(y, INCH)), read(weight, POUND)))
        blocks: list[Block] = [*traced_figures(self.results, trace)]
        for step in path_steps(self.results.path, trace):
            blocks += [Statement(StatementKind.READING, (step.sentence,)), *printed(step.steps)]
        return Blocks(tuple(blocks))

    # -- the learner's doings ------------------------------------------------------------------------------

    def _moved(self, _: Any) -> None:
        """A place asked for on the plan: what lies there is moved or drawn, and the plan answered."""
        layout, kind = self.results.path.layout, self.fields.kind.value
        (a, b), (x, y) = self.plan.press, self.plan.at
        press, at = (float(a), float(b)), (float(x), float(y))
        if kind == PERSON:
            self.fields.put(nearest_on_deck(layout, at))
        else:
            if self.plan.gesture != self._gesture:
                self._gesture, self._held = self.plan.gesture, self.fields.rectangle()
            if kind == CROWD:
                self.fields.put_crowd(dragged_crowd(layout, self._held, press, at))
            else:
                self.fields.put_drift(*dragged_drift(layout, press, at))
        self._changed()
        self.plan.answered = self.plan.asked

    def _changed(self) -> None:
        if self._filling:
            return
        burden = self.fields.read()
        if burden is None:
            return
        try:
            trace = self.tracer.trace(burden)
        except TracingError as error:
            self.fields.say(str(error))
            return
        self.fields.say("")
        self.trace, self.steps = trace, path_steps(self.results.path, trace)
        self.number = min(self.number, len(self.steps) - 1)
        if self.member.value not in trace.carried:
            self._filling = True
            self.member.value = next(iter(trace.carried))
            self._filling = False
        self._show_plan()
        self._show_step()
        self._show_body()
        self.table.value = reactions_html(self.results, trace)
        self.flow.value = f'<figure class="bw-figure">{flow_figure(self.results.path.layout, trace)}</figure>'

    def _go(self, by: int) -> None:
        self.number = min(max(self.number + by, 0), len(self.steps) - 1)
        self._show_step()
        self._show_plan()

    # -- what is shown -------------------------------------------------------------------------------------

    def chosen_map(self) -> InfluenceMap | None:
        """The influence that the plan is shaded by, if one is chosen."""
        choice = self.influence.value
        if choice.support:
            return reaction_map(self.results.path, choice.support)
        if choice.member:
            return moment_map(self.results.path, choice.member, choice.x)
        return None

    def _show_plan(self) -> None:
        if self.trace is None or self._filling:
            return
        layout, found = self.results.path.layout, self.chosen_map()
        highlighted = self.steps[self.number].part if self.number else ""
        with self.plan.hold_sync():
            self.plan.movable = self.fields.kind.value != DRIFT
            if found is not None:
                self.plan.svg = heat_plan(layout, found, self.trace)
            else:
                self.plan.svg = traced_plan(layout, self.trace, highlighted=highlighted)
            self.plan.at = list(self.trace.pieces.centre)
            keys = f" Arrow keys move {self.fields.kind.value}." if self.plan.movable else ""
            self.plan.label = f"{plan_words(self.trace)}{keys}"
        extra = ""
        if found is not None:
            unit = " in percent" if not found.unit.label else ", lb·in for each lb"
            extra = (
                f'<p class="bw-key">Shaded: {escape(found.what)}{unit}. Darker is more; hatched lifts or bends the '
                "other way; the number stands on each piece of deck.</p>"
            )
        self.said.value = f'<p role="status">{escape(summary(self.trace))}</p>{extra}'

    def _show_step(self) -> None:
        step = self.steps[self.number]
        self.back.disabled, self.next.disabled = self.number == 0, self.number == len(self.steps) - 1
        head = f"<h3>Step {self.number + 1} of {len(self.steps)}: {escape(step.part)}</h3>"
        self.step.value = f'{head}<p role="status">{escape(step.sentence)}</p>{html_of(printed(step.steps))}'

    def _show_body(self) -> None:
        if self.trace is None or self._filling:
            return
        mark = self.member.value
        carried = self.trace.carried.get(mark)
        if carried is None:
            self.body.value = f"<p>None of this load comes to {escape(str(mark))}.</p>"
            return
        figure = body_of(carried, self.tracer.diagram(self.trace, mark))
        self.body.value = html_of([figure])

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, Any]:
        return shown_widget(self.box, "The explorer, to be used with the notebook open and running.")


def shown_widget(box: w.Widget, words: str) -> dict[str, Any]:
    """What a cell displays for a widget: the widget where it lives, the same words in every run where not."""
    return {**box._repr_mimebundle_(), "text/plain": words}


def summary(trace: Trace) -> str:
    """A burden and its reactions in one sentence."""
    x, y = trace.pieces.centre
    ordered = sorted(trace.reactions.items(), key=lambda item: -item[1])
    said = [
        f"{mark} {'lifted by ' if force < 0 else ''}{pounds(force)}"
        for mark, force in ordered
        if abs(force) >= 0.05
    ]
    return f"{trace.total:,.0f} lb at {feet_inches(x)}, {feet_inches(y)}: {', '.join(said)}."


def reactions_html(results: Results, trace: Trace) -> str:
    """Table of the reactions: of the burden, its share, and with the platform's own weight."""
    rows = []
    for mark, force in trace.reactions.items():
        dead = float(results.path.reactions[mark] @ results.path.dead)
        left = dead + force
        off = " <strong>lifts off without a tie</strong>" if left < 0 else ""
        rows.append(
            f'<tr><th scope="row">{escape(mark)}</th><td>{force:,.0f}</td><td>{trace.share(mark):.0%}</td>'
            f"<td>{left:,.0f}{off}</td></tr>"
        )
    total = f'<tr><th scope="row">sum</th><td>{sum(trace.reactions.values()):,.0f}</td><td>100%</td><td></td></tr>'
    heads = ("support", "of this load (lb)", "share", "with the platform's own weight (lb)")
    head = "".join(f'<th scope="col">{words}</th>' for words in heads)
    return (
        '<div class="bw-scroll bw-page" tabindex="0"><table style="text-align:right"><caption>What each support takes'
        f"</caption><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}{total}</tbody></table></div>"
    )


def open_explorer(project: str | Path) -> Explorer:
    """The explorer for a project file, with the style it needs in a notebook."""
    explorer = Explorer(results_of(project))
    explorer.box = with_style(explorer.box)
    return explorer


def with_style(box: w.Widget) -> w.VBox:
    """A pane with the workbook's style, for a notebook of its own."""
    whole = w.VBox([w.HTML(style()), box])
    whole.add_class("bw-app")
    return whole


def traced_figures(results: Results, trace: Trace) -> tuple[Figure, Figure]:
    """Plan and flow of a burden as figures that print."""
    layout = results.path.layout
    plan = traced_plan(layout, trace).replace("<svg ", '<svg width="120mm" ', 1)
    flow = flow_figure(layout, trace).replace("<svg ", '<svg width="150mm" ', 1)
    words = summary(trace)
    return (
        Figure(plan, "What each part gets of the load", words),
        Figure(flow, "Arrows as wide as the force they stand for", f"Path of the load: {words}"),
    )
