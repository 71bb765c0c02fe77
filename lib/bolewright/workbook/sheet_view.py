"""Sheet by sheet: the inputs of one calc sheet over its hand calculation, for the governing part or any other."""

from __future__ import annotations

import hashlib
from html import escape
from typing import Any

import ipywidgets as w

from bolewright.platform.file.reading import Location
from bolewright.platform.limit_states.check import Topic
from bolewright.platform.results.results import Results
from bolewright.sheets.sheet import Sheet
from bolewright.workbook.desk import Desk
from bolewright.workbook.field import FieldRow
from bolewright.workbook.html import html_of
from bolewright.workbook.notes import Notes
from bolewright.workbook.schema import section

GOVERNING = "the governing parts"
_TIMBER = ("section", "species", "grade", "wet")
_FIELDS: dict[Topic, dict[str, tuple[str, ...]]] = {
    Topic.DECKING: {"decking": _TIMBER, "joists": ("spacing",), "loads": ("live", "person")},
    Topic.JOISTS: {"joists": (*_TIMBER, "spacing"), "loads": ("live",), "site": ("ground_snow",)},
    Topic.BEAMS: {"beam": ("plies", *_TIMBER), "loads": ("live",)},
    Topic.HANGERS: {
        "connection": ("rated_load", "rated_uplift", "rated_lateral", "load_duration", "wet_included")
    },
    Topic.TREE_BOLTS: {
        "bolt": ("diameter", "embedment", "F_y", "F_u", "seat_length", "rated_load"),
        "tree": ("species", "girth", "diameter", "bark"),
    },
    Topic.POSTS: {"post": (*_TIMBER, "K_e", "eccentricity"), "platform": ("floor_height",)},
    Topic.FOOTINGS: {
        "footing": ("shape", "width", "depth", "pad", "f_c"),
        "site": ("soil", "soil_bearing", "frost_depth"),
    },
    Topic.BRACES: {
        "brace": (*_TIMBER, "rise", "run", "bolts", "bolt_diameter", "rated_load"),
        "crossed_rods": ("diameter", "below_beam", "above_grade", "rated_load"),
    },
    Topic.GUARDS: {
        "guard": (*_TIMBER, "spacing", "hold_down", "lower_tie", "gap"),
        "loads": ("guard_height", "guard"),
    },
    Topic.ACCESS: {
        "ladder": (
            *_TIMBER,
            "kind",
            "edge",
            "opening",
            "clear",
            "pitch",
            "spacing",
            "step",
            "rails_over",
            "pad",
        ),
        "stairs": (
            *_TIMBER,
            "edge",
            "width",
            "stringers",
            "cut",
            "tread_run",
            "tread_section",
            "hanger",
            "pad_length",
        ),
    },
    Topic.CLEARANCE: {
        "tree": ("sway_seen", "sway_seen_at", "crown_area", "crown_center", "growth", "service", "margin"),
        "support": ("lateral", "slot"),
    },
    Topic.STABILITY: {
        "site": ("wind_speed", "exposure"),
        "loads": ("sway_share", "guard_solidity"),
        "post": ("base", "constrained"),
        "support": ("lateral",),
    },
}


class SheetView:
    """One calc sheet at a time."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.topic = Topic.DECKING
        self._seen: dict[Topic, str] = {}
        self._quiet = False
        self.rows: list[FieldRow] = []
        self._places: list[Location] = []
        self.chooser = w.ToggleButtons(
            description="Sheet", options=[(t.value, t) for t in self._topics()], value=self.topic
        )
        self.chooser.add_class("bw-choices")
        self.chooser.observe(self._topic_chosen, "value")
        self.part = w.Dropdown(description="Calculation for")
        self.part.observe(self._part_chosen, "value")
        self.inputs = w.VBox()
        self.inputs.add_class("bw-fields")
        self.page = w.HTML()
        self.page.add_class("bw-page")
        self.notes = Notes(desk)
        self.box = w.VBox([self.chooser, self.inputs, self.part, self.page, self.notes.box])
        self.is_shown = False
        desk.on_change(self.refresh)
        desk.on_replace(self._reload)

    def show(self) -> None:
        """Bring the sheet up to date and keep it so."""
        if not self.is_shown:
            self.is_shown = True
            for topic in Topic:
                self._seen[topic] = self._print(topic)
        self._lay_out()
        self.refresh()

    def hide(self) -> None:
        """Stop following changes; what changes meanwhile is marked."""
        self.is_shown = False

    def _reload(self) -> None:
        if self.is_shown:
            self._lay_out()
            for row in self.rows:
                row.reload()

    def _topic_chosen(self, change: Any) -> None:
        if not self._quiet:
            self.topic = change["new"]
            self._lay_out()
            self.refresh()

    def _part_chosen(self, _: Any) -> None:
        if not self._quiet:
            self._write()

    def _lay_out(self) -> None:
        """The inputs of the sheet, made anew when they are others."""
        places = list(self._wanted())
        if places != self._places:
            self._places = places
            self.rows = [FieldRow(self.desk, place, self._label(place)) for place in places]
            self.inputs.children = tuple(row.box for row in self.rows)
        self.notes.show(self.topic)

    def _wanted(self) -> list[Location]:
        found: list[Location] = []
        for key, fields in _FIELDS.get(self.topic, {}).items():
            heads: list[Location] = [(key, which) for which, _ in self.desk.draft.parts(key)]
            if not heads and not self.desk.draft.parts(key):
                heads = [(key,)] if section(key).shape.name == "ONE" else []
            known = {field.key for field in section(key).fields}
            found += [(*head, field) for head in heads for field in fields if field in known]
        return found

    def _topics(self) -> list[Topic]:
        """Sheets on which something is checked, and the one shown."""
        results = self.desk.results
        return [t for t in Topic if t is self.topic or (results is not None and results.of(t))]

    def _label(self, place: Location) -> str:
        label = self.desk.draft.field(place).label
        if len(place) < 3:
            return label
        return f"{dict(self.desk.draft.parts(str(place[0])))[place[1]]}: {label}"

    def refresh(self) -> None:
        """Follow a change: this sheet at once, a mark on each other sheet that changed since it was looked at."""
        if not self.is_shown:
            return
        for row in self.rows:
            row.refresh()
        self._write()
        self._mark()

    def _write(self) -> None:
        results = self.desk.results
        if results is None:
            self.page.value = (
                '<p class="bw-wrong">There are no results yet: mend what is wrong in the form.</p>'
            )
            return
        sheet = Sheet(results, self.topic)
        parts = list(dict.fromkeys(check.part for check in results.of(self.topic)))
        self._quiet = True
        try:
            options = [GOVERNING, *parts]
            if list(self.part.options) != options:
                chosen = self.part.value if self.part.value in options else GOVERNING
                self.part.options = options
                self.part.value = chosen
        finally:
            self._quiet = False
        part = None if self.part.value in (None, GOVERNING) else str(self.part.value)
        stale = f'<p class="bw-wrong">{escape(self.desk.problem)}</p>' if self.desk.problem else ""
        blocks = [*sheet.calculation(part).items, sheet.table(), *sheet.reading().items]
        blocks += [sheet.clauses(), sheet.cautions()]
        self.page.value = stale + html_of(blocks)
        self._seen[self.topic] = self._print(self.topic)

    def _mark(self) -> None:
        options = [
            (f"{topic.value}{'' if self._seen.get(topic) == self._print(topic) else ' • changed'}", topic)
            for topic in self._topics()
        ]
        if list(self.chooser.options) != options:
            self._quiet = True
            try:
                self.chooser.options = options
                self.chooser.value = self.topic
            finally:
                self._quiet = False

    def _print(self, topic: Topic) -> str:
        results = self.desk.results
        return "" if results is None else _print_of(results, topic)


def _print_of(results: Results, topic: Topic) -> str:
    """Fingerprint of what a sheet says."""
    said = [(c.part, c.limit_state, c.combination, c.demand, c.capacity) for c in results.of(topic)]
    return hashlib.sha256(repr(said).encode()).hexdigest()
