"""One field of the form: what is typed, what it is understood as or what is wrong with it, and its help."""

from __future__ import annotations

from html import escape
from typing import Any

import ipywidgets as w

from bolewright.platform.file.reading import Location
from bolewright.signs import plain
from bolewright.timber.adjustment import incising_words
from bolewright.timber.material import MaterialError, grades, species_names
from bolewright.timber.sections import SectionError
from bolewright.tree.species import trunk_species
from bolewright.workbook import values
from bolewright.workbook.desk import Desk
from bolewright.workbook.pulse import place_class
from bolewright.workbook.schema import FieldKind, FieldSpec, Shape, section

SIZES = (
    *(f"2x{n}" for n in (4, 6, 8, 10, 12)),
    *(f"4x{n}" for n in (4, 6, 8, 10, 12)),
    *("6x6", "6x8", "6x10", "6x12", "8x8", "5/4x6"),
)
_IN_A_FILE = "this key is missing and "  # words for one who writes the file by hand

_INCISING = (
    "Choose yes or no: treated lumber of this species commonly is incised. Until then the check is open, and it is "
    f"counted as incised: {incising_words()} (NDS 2018, 4.3.8)."
)


class FieldRow:
    """The widgets of one field, bound to its place on the desk."""

    def __init__(self, desk: Desk, where: Location, label: str = "") -> None:
        self.desk = desk
        self.where = where
        self.spec = desk.draft.field(where)
        self._is_name = self.spec.key == "mark"
        self._refused = ""
        self._quiet = False
        self.input = self._input(label or self.spec.label)
        self.input.observe(self._typed, "value")
        self.note = w.HTML()
        self.box = w.VBox([self.input, self.note])
        self.box.add_class("bw-field")
        self.box.add_class(place_class(desk, where))
        if self._is_name:
            self.box.add_class("bw-lazy")
        self.refresh()

    def _input(self, label: str) -> Any:
        spec = self.spec
        common: dict[str, Any] = {"description": label}
        text = self.desk.draft.shown(self.where)
        if spec.kind in (FieldKind.CHOICE, FieldKind.YES_NO) or (
            spec.refers_to and spec.kind is FieldKind.TEXT
        ):
            return w.Dropdown(options=self._choices(text), value=text, **common)
        common["placeholder"] = values.default_words(spec)
        if spec.kind in (FieldKind.CORNERS, FieldKind.RINGS):
            return w.Textarea(value=text, rows=max(4, text.count("\n") + 1), **common)
        if spec.key in ("section", "species", "grade"):
            return w.Combobox(value=text, options=self._suggestions(), ensure_option=False, **common)
        return w.Text(value=text, continuous_update=not self._is_name, **common)

    def _choices(self, text: str) -> list[tuple[str, str]]:
        spec = self.spec
        if spec.refers_to:
            allowed = self.desk.draft.names(spec.refers_to)
        else:
            allowed = ["yes", "no"] if spec.kind is FieldKind.YES_NO else list(spec.choices)
        asked = spec.required or (spec.kind is FieldKind.YES_NO and spec.default is None)
        empty = "– choose –" if asked else f"{values.default_words(spec)} (default)"
        listed = [(empty, ""), *((plain(choice), choice) for choice in allowed)]
        if text and text not in allowed:
            listed.append((f"{plain(text)} (not allowed)", text))
        return listed

    def _suggestions(self) -> tuple[str, ...]:
        if self.spec.key == "section":
            return SIZES
        if self.spec.key == "species":
            return trunk_species() if self.where[0] == "tree" else species_names()
        beside = self.where[:-1]
        species = self.desk.draft.get((*beside, "species"))
        size = self.desk.draft.get((*beside, "section"))
        try:
            return grades(str(species), str(size))
        except (MaterialError, SectionError):
            return ()

    def _typed(self, change: Any) -> None:
        if self._quiet:
            return
        self._refused = ""
        if self._is_name:
            self._refused = self.desk.name(str(self.where[0]), self.where[1], change["new"])
            self.refresh()
        else:
            self.desk.type(self.where, change["new"])

    def refresh(self) -> None:
        """Say what the field is understood as now, or what is wrong with it."""
        draft = self.desk.draft
        wrong = self._refused or draft.message(self.where)
        value = draft.get(self.where)
        if wrong:
            said = f'<div class="bw-wrong">✗ {escape(_sentence(wrong.removeprefix(_IN_A_FILE)))}</div>'
        elif value is None and self._incising_open():
            said = f'<div class="bw-wrong">? {escape(_INCISING)}</div>'
        elif value is None and not self.spec.required:
            said = f'<div class="bw-default">default: {escape(values.default_words(self.spec))}</div>'
        else:
            meant = draft.understood(self.where)
            same = meant.casefold() == str(value).strip().casefold()
            said = "" if same or not meant else f'<div class="bw-meant">= {escape(meant)}</div>'
        text = f'{said}<div class="bw-help">{escape(self.spec.help)}</div>'
        if self.note.value != text:
            self.note.value = text
        if isinstance(self.input, w.Combobox) and self.spec.key == "grade":
            fresh = self._suggestions()
            if self.input.options != fresh:
                self.input.options = fresh

    def _incising_open(self) -> bool:
        """Whether this field has to be answered for lumber that commonly is incised, and is not."""
        project = self.desk.draft.project if self.spec.key == "incised" else None
        return project is not None and any(
            where == self.where[:-1] and piece.incising_open for where, piece in project.timbers
        )

    def reload(self) -> None:
        """Show the value that the file has now."""
        self._refused = ""
        self._quiet = True
        try:
            text = self.desk.draft.shown(self.where)
            if isinstance(self.input, w.Dropdown):
                choices = self._choices(text)
                if list(self.input.options) != choices:
                    self.input.options = choices
            if self.input.value != text:
                self.input.value = text
        finally:
            self._quiet = False
        self.refresh()


class NameRow:
    """The name of a kind (of bolt, post, footing, hanger): it is the key of its table, not a field of it."""

    def __init__(self, desk: Desk, key: str, which: str) -> None:
        self.desk, self.key, self.which = desk, key, which
        self.input = w.Text(value=which, description="name", continuous_update=False)
        self.input.observe(self._typed, "value")
        self.note = w.HTML(_NAME_HELP)
        self.box = w.VBox([self.input, self.note])
        self.box.add_class("bw-field")
        self.box.add_class("bw-lazy")

    def _typed(self, change: Any) -> None:
        said = self.desk.name(self.key, self.which, change["new"])
        if said:
            self.note.value = f'<div class="bw-wrong">✗ {escape(said)}</div>{_NAME_HELP}'


_NAME_HELP = '<div class="bw-help">Name by which the parts refer to it.</div>'


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def fields_of(desk: Desk, key: str, which: int | str | None) -> list[FieldRow]:
    """Rows of all fields of a section or part, its name first."""
    spec = section(key)
    head: Location = (key,) if spec.shape is Shape.ONE or which is None else (key, which)
    return [FieldRow(desk, (*head, field.key)) for field in sorted(spec.fields, key=_first)]


def _first(field: FieldSpec) -> int:
    return {"mark": 0, "kind": 1}.get(field.key, 2)
