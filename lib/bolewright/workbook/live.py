"""The live view: governing ratios, the shaded plan, the three worst checks and what would make each pass."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

import ipywidgets as w

from bolewright.changes.change import Change
from bolewright.changes.search import find_changes
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Project
from bolewright.platform.results.results import Results
from bolewright.platform.results.verdict import beside_verdict, verdict
from bolewright.status import Status
from bolewright.workbook import ratios
from bolewright.workbook.background import Background
from bolewright.workbook.desk import Desk
from bolewright.workbook.shaded import shaded_plan
from bolewright.workbook.typed_plan import typed_plan

SLOW = 0.1  # s: work that takes longer says that it is going on


class Live:
    """What follows each change of the draft. ``strip`` stands over the form, ``side`` beside it."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.state = w.HTML()
        self.ratios = w.HTML()
        self.plan = w.HTML()
        self.worst = w.HTML()
        self.offers = w.VBox()
        self.strip = w.VBox([self.state, self.ratios])
        self.strip.add_class("bw-live")
        self.side = w.VBox([self.plan, self.worst, self.offers])
        self.side.add_class("bw-side")
        self._trials = Background()
        desk.on_work(self.before_work)
        desk.on_change(self.refresh)
        self.refresh()

    def before_work(self) -> None:
        """Say that work goes on, when the last took long enough to be noticed."""
        if self.desk.seconds > SLOW:
            self.state.value = '<p class="bw-state">Working it out …</p>'

    def refresh(self) -> None:
        """Show the results of the draft as it is."""
        results, problem = self.desk.results, self.desk.problem
        for box in (self.strip, self.side):
            (box.add_class if problem else box.remove_class)("bw-old")
        if problem:
            self.state.value = (
                f'<p class="bw-state bw-stale">✗ Not up to date, so nothing here holds now. '
                f"{escape(problem)} {self._what_to_do()}</p>"
            )
        elif results is not None:
            fails = results.count(Status.FAILS)
            kind = "bw-fails" if fails else "bw-open" if not results.all_pass else "bw-passes"
            notes = "".join(f"<li>{escape(said)}</li>" for said in beside_verdict(results))
            self.state.value = f'<p class="bw-state {kind}">{escape(verdict(results))}</p>' + (
                f'<ul class="bw-help">{notes}</ul>' if notes else ""
            )
        if problem and self.desk.draft.project is not None:
            self._show_as_typed(self.desk.draft.project, problem)
        if results is None or problem:
            return
        self.ratios.value = ratios.strip(results)
        self.plan.value = (
            f'<figure class="bw-figure">{shaded_plan(results)}'
            f"<figcaption>Governing ratio of each part. {ratios.key()}</figcaption></figure>"
        )
        three = ratios.three_worst(results.checks)
        self._tell(three, {})
        self.offers.children = ()
        if any(check.status is not Status.PASSES for check in three):
            self._trials.start(self._look_for_changes(results, three))
        else:
            self._trials.stop()

    def _what_to_do(self) -> str:
        if self.desk.draft.faults:
            return "Mend the fields that are marked ✗, or undo."
        return "Change what is named here, or undo."

    def _show_as_typed(self, project: Project, problem: str) -> None:
        """The arrangement that can't be worked out, drawn as it was typed: so that its author sees why."""
        self._trials.stop()
        self.offers.children = ()
        self.plan.value = (
            f'<figure class="bw-figure bw-typed">{typed_plan(project, problem)}<figcaption>As typed, not worked '
            "out yet. The part that the message names is highlighted.</figcaption></figure>"
        )
        self.worst.value = ""

    def _look_for_changes(self, results: Results, three: list[Check]) -> Iterator[None]:
        data = self.desk.draft.data
        found: dict[int, list[str]] = {}
        for i, check in enumerate(three):
            going_on = "" if check.status is Status.PASSES else f"Trying what would help {check.part} …"
            self._tell(three, found, going_on)
            for outcome in find_changes(data, results, check):
                if outcome is not None:
                    found.setdefault(i, []).append(outcome.sentence)
                    self._tell(three, found, going_on)
                    if outcome.changes:
                        self._offer(outcome.change)
                yield
        self._tell(three, found, "", done=True)

    def _offer(self, change: Change) -> None:
        """A button that makes a change of which a check passes and no other fails."""
        words = f"Change it: {change.words}"
        if words in {button.description for button in self.offers.children}:
            return
        button = w.Button(description=words)
        button.on_click(lambda _: self.desk.make(change))
        self.offers.children = (*self.offers.children, button)

    def _tell(
        self, three: list[Check], found: dict[int, list[str]], going_on: str = "", done: bool = False
    ) -> None:
        items = []
        for i, check in enumerate(three):
            helps = "".join(f'<li class="bw-change">{escape(words)}</li>' for words in found.get(i, ()))
            if done and check.status is Status.FAILS and not helps:
                helps = '<li class="bw-change">Nothing that was tried would help it alone.</li>'
            items.append(
                f'<li><span style="color:{check.status.colour};font-weight:bold">'
                f'<span aria-hidden="true">{check.status.mark}</span> {ratios.number(check)}</span> '
                f"{escape(check.sentence)}{f'<ul>{helps}</ul>' if helps else ''}</li>"
            )
        progress = f'<p class="bw-help">{escape(going_on)}</p>' if going_on else ""
        self.worst.value = (
            f'<h3>The three worst checks</h3><ol class="bw-worst">{"".join(items)}</ol>{progress}'
        )
