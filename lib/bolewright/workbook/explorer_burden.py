"""The explorer's fields: a person, a crowd or a snow drift as typed, each with what is wrong beside it."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape
from typing import Any

import ipywidgets as w

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.lines import Vector
from bolewright.platform.tracing.tracing import Burden, Crowd, Drift, Person
from bolewright.units import INCH, POUND, PSF, ReadError, Unit, feet_inches, read
from bolewright.workbook.explorer_drag import Rectangle

PERSON, CROWD, DRIFT = "a person", "a crowd", "a snow drift"
_CORNERS = ("x0", "y0", "x1", "y1")
_HELP = "feet-inches or metric"
_KILOGRAMS = re.compile(r"kg\s*$")  # what scales say of a person is a weight here


class BurdenFields:
    """What lies on the deck, as the learner types it. ``changed`` is called when it may be something else."""

    def __init__(self, layout: Layout, changed: Callable[[], None]) -> None:
        self._changed = changed
        self._quiet = False
        self.kind = w.ToggleButtons(description="Load", options=(PERSON, CROWD, DRIFT))
        self.kind.add_class("bw-choices")
        self.fields: dict[str, w.Text] = {}
        self.notes: dict[str, w.HTML] = {}
        self.edge = w.Dropdown(description="Edge of the outline")
        rows = {
            PERSON: (("weight", "Weight", "180 lb"), ("x", "Place, x", ""), ("y", "Place, y", "")),
            CROWD: (
                ("psf", "Crowd", "60 psf"),
                ("x0", "From x", ""),
                ("y0", "From y", ""),
                ("x1", "To x", ""),
                ("y1", "To y", ""),
            ),
            DRIFT: (("depth", "Drift at the edge", "40 psf"), ("width", "Ends at", "4 ft")),
        }
        self._rows: dict[str, w.HBox] = {}
        for kind, described in rows.items():
            boxes: list[Any] = [self._field(*row) for row in described]
            if kind == DRIFT:
                boxes.insert(0, self.edge)
            self._rows[kind] = w.HBox(boxes)
            self._rows[kind].add_class("bw-bar")
        self.problem = w.HTML()
        self.place = w.VBox()
        self.box = w.VBox([self.kind, self.place, self.problem])
        self.reset(layout)
        self.kind.observe(self._kind_chosen, "value")
        self.edge.observe(lambda _: self._heard(), "value")
        self._kind_chosen(None)

    def _field(self, key: str, label: str, text: str) -> w.VBox:
        field = w.Text(description=label, value=text, placeholder=_HELP, continuous_update=True)
        field.observe(lambda _: self._heard(), "value")
        note = w.HTML()
        self.fields[key], self.notes[key] = field, note
        box = w.VBox([field, note])
        box.add_class("bw-field")
        return box

    def reset(self, layout: Layout) -> None:
        """Take up another layout: a person in the middle of it, a crowd on its far half."""
        west, south, east, north = layout.deck.bounds
        middle = layout.deck.representative_point()
        outline = layout.project.platform.outline
        self._quiet = True
        self.put((round(middle.x), round(middle.y)))
        for key, value in (("x0", west), ("x1", east), ("y0", (south + north) / 2), ("y1", north)):
            self.fields[key].value = feet_inches(value)
        self.edge.options = [
            (f"edge {i + 1}, from {_corner(a)} to {_corner(outline[(i + 1) % len(outline)])}", i + 1)
            for i, a in enumerate(outline)
        ]
        self.edge.value = 1
        self._quiet = False

    def put(self, at: Vector) -> None:
        """Write a person's place without calling back."""
        self._put({"x": feet_inches(at[0]), "y": feet_inches(at[1])})

    def rectangle(self) -> Rectangle | None:
        """The crowd's corners as typed; None where one can't be read."""
        try:
            x0, y0, x1, y1 = (read(self.fields[key].value, INCH) for key in _CORNERS)
        except ReadError:
            return None
        return (x0, y0, x1, y1)

    def put_crowd(self, corners: Rectangle) -> None:
        """Write a crowd's corners without calling back."""
        self._put(dict(zip(_CORNERS, map(feet_inches, corners), strict=True)))

    def put_drift(self, edge: int, width: float | None) -> None:
        """Write a drift's edge, and its width where there is one, without calling back."""
        quiet, self._quiet = self._quiet, True
        self.edge.value = edge
        self._quiet = quiet
        if width is not None:
            self._put({"width": feet_inches(width)})

    def _put(self, values: dict[str, str]) -> None:
        quiet, self._quiet = self._quiet, True
        for key, text in values.items():
            self.fields[key].value = text
            self.notes[key].value = ""
        self._quiet = quiet

    def _kind_chosen(self, _: Any) -> None:
        self.place.children = (self._rows[self.kind.value],)
        self._heard()

    def _heard(self) -> None:
        if not self._quiet:
            self._changed()

    def say(self, words: str) -> None:
        """Say what is wrong with the burden as a whole; nothing clears it."""
        self.problem.value = f'<p class="bw-wrong" role="alert">{escape(words)}</p>' if words else ""

    def read(self) -> Burden | None:
        """The burden as typed; None when a field can't be read, with the sentence beside that field."""
        if self.kind.value == PERSON:
            weight, x, y = self._number("weight", POUND), self._number("x", INCH), self._number("y", INCH)
            return None if weight is None or x is None or y is None else Person((x, y), weight)
        if self.kind.value == CROWD:
            psf = self._number("psf", PSF)
            x0, y0, x1, y1 = (self._number(key, INCH) for key in ("x0", "y0", "x1", "y1"))
            if psf is None or x0 is None or y0 is None or x1 is None or y1 is None:
                return None
            return Crowd(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), psf)
        depth, width = self._number("depth", PSF), self._number("width", INCH)
        return None if depth is None or width is None else Drift(self.edge.value, depth, width)

    def _number(self, key: str, unit: Unit) -> float | None:
        note = self.notes[key]
        try:
            value = read(_KILOGRAMS.sub("kgf", self.fields[key].value), unit)
        except ReadError as error:
            note.value = f'<p class="bw-wrong" role="alert">{escape(str(error))}.</p>'
            return None
        note.value = ""
        return value


def _corner(point: Vector) -> str:
    return f"{feet_inches(point[0])}, {feet_inches(point[1])}"
