"""The explorer and the lessons as panes of the workbook: they follow the open file while they are shown."""

from __future__ import annotations

from collections.abc import Callable

import ipywidgets as w

from bolewright.platform.results.results import Results
from bolewright.workbook.desk import Desk
from bolewright.workbook.explorer import Explorer
from bolewright.workbook.lessons import Lessons

_NONE = (
    '<p class="bw-notice" role="status">There is no platform to follow a weight through yet: the form says what is '
    "wrong.</p>"
)


class Learning:
    """Both panes over one desk: ``weight`` for the explorer, ``course`` for the lessons. Made when first shown."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.explorer: Explorer | None = None
        self.lessons: Lessons | None = None
        self.weight = w.VBox()
        self.course = w.VBox()
        self._shown: w.VBox | None = None
        self.on_turn: Callable[[], None] = lambda: None
        """Called when a question is shown, answered or left."""
        desk.on_change(self.refresh)
        desk.on_replace(self.refresh)

    def show_weight(self) -> None:
        """Show the explorer for the platform as it is now."""
        self._shown = self.weight
        self.refresh()

    def show_course(self) -> None:
        """Show the lessons for the platform as it is now."""
        self._shown = self.course
        self.refresh()

    def hide(self) -> None:
        """Rest until shown again."""
        self._shown = None
        self.on_turn()

    def refresh(self) -> None:
        """Take up the results of the desk, where the pane is seen."""
        if self._shown is None:
            return
        results = self.desk.results
        if results is None:
            self._shown.children = (w.HTML(_NONE),)
        elif self._shown is self.weight:
            self.weight.children = (self._explorer(results).box,)
        else:
            self.course.children = (self._lessons(results).box,)
            self.on_turn()

    @property
    def is_asking(self) -> bool:
        """Whether a lesson's question is seen that has no prediction yet."""
        return self._shown is self.course and self.lessons is not None and self.lessons.is_asking

    def _turned(self) -> None:
        self.on_turn()

    def _explorer(self, results: Results) -> Explorer:
        if self.explorer is None:
            self.explorer = Explorer(results)
        self.explorer.update(results)
        return self.explorer

    def _lessons(self, results: Results) -> Lessons:
        if self.lessons is None:
            self.lessons = Lessons(results)
            self.lessons.on_turn = self._turned
        self.lessons.update(results)
        self.lessons.show()
        return self.lessons
