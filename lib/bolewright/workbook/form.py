"""The form: sections in load-path order, each opened when it is wanted, parts added, copied and removed."""

from __future__ import annotations

from html import escape
from typing import Any

import ipywidgets as w

from bolewright.signs import plain
from bolewright.workbook.desk import Desk
from bolewright.workbook.draft import Which
from bolewright.workbook.field import FieldRow, NameRow, fields_of
from bolewright.workbook.schema import SectionSpec, Shape, sections


class Form:
    """All sections of the project file."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.elsewhere = w.HTML()
        self.sections = {spec.key: SectionForm(desk, spec) for spec in sections()}
        self.box = w.VBox([self.elsewhere, *(s.box for s in self.sections.values())])
        self.box.add_class("bw-form")
        desk.on_change(self.refresh)
        desk.on_replace(self.reload)
        self.refresh()

    def refresh(self) -> None:
        """Say anew what each field is understood as."""
        said = self.desk.draft.messages_elsewhere()
        self.elsewhere.value = "".join(
            f'<div class="bw-wrong bw-loud">✗ {escape(self._place(where))}: {escape(words)}</div>'
            for where, words in said.items()
        )
        for section in self.sections.values():
            section.refresh()

    def _place(self, where: tuple[int | str, ...]) -> str:
        if len(where) > 1 and isinstance(where[1], int):
            names = dict(self.desk.draft.parts(str(where[0])))
            where = (where[0], names.get(where[1], f"no. {where[1] + 1}"), *where[2:])
        return plain(", ".join(str(word) for word in where)) or "the file"

    def reload(self) -> None:
        """Show the values that the file has now."""
        for section in self.sections.values():
            section.reload()

    def open(self, key: str, which: Which | None = None) -> None:
        """Open a section, at one of its parts."""
        self.sections[key].open(which)


class SectionForm:
    """One section with its heading button; its fields are made when it is first opened."""

    def __init__(self, desk: Desk, spec: SectionSpec) -> None:
        self.desk, self.spec = desk, spec
        self.which: Which | None = None
        self.rows: list[FieldRow] = []
        self.is_open = False
        self.heading = w.Button()
        self.heading.add_class("bw-heading")
        self.heading.on_click(lambda _: self.close() if self.is_open else self.open())
        self.fields = w.VBox()
        self.fields.add_class("bw-fields")
        self.inside = w.VBox([self.fields])
        self.box = w.VBox([self.heading])
        self.box.add_class("bw-section")
        self._quiet = False
        if spec.shape is not Shape.ONE:
            self._part_bar()

    def _part_bar(self) -> None:
        self.chooser = w.Dropdown(description=self.spec.part)
        self.chooser.observe(self._chosen, "value")
        self.add_button = _button(f"Add a {self.spec.part}", self._add)
        self.copy_button = _button("Copy it", self._copy)
        self.remove_button = _button("Remove it", self._remove)
        bar = w.HBox([self.chooser, self.add_button, self.copy_button, self.remove_button])
        bar.add_class("bw-bar")
        self.inside.children = (bar, self.fields)

    def open(self, which: Which | None = None) -> None:
        """Open the section, at one of its parts."""
        self.is_open = True
        if which is not None:
            self.which = which
        self._show()
        self.box.children = (self.heading, self.inside)
        self.refresh()

    def close(self) -> None:
        """Close the section."""
        self.is_open = False
        self.box.children = (self.heading,)
        self.refresh()

    def _show(self) -> None:
        """The chosen part's fields, made anew."""
        if self.spec.shape is Shape.ONE:
            if not self.rows:
                self._fill(fields_of(self.desk, self.spec.key, None))
            return
        parts = self.desk.draft.parts(self.spec.key)
        addresses = [which for which, _ in parts]
        if self.which not in addresses:
            self.which = addresses[0] if addresses else None
        self._quiet = True
        try:
            options = [(plain(name), which) for which, name in parts]
            if list(self.chooser.options) != options:
                self.chooser.options = options
            self.chooser.value = self.which
        finally:
            self._quiet = False
        for button in (self.copy_button, self.remove_button):
            button.disabled = self.which is None
        shown = self.rows[0].where[:-1] if self.rows else None
        if self.which is None:
            self._fill([])
        elif shown != (self.spec.key, self.which):
            self._fill(fields_of(self.desk, self.spec.key, self.which))

    def _fill(self, rows: list[FieldRow]) -> None:
        self.rows = rows
        boxes = [row.box for row in rows]
        if self.spec.shape is Shape.NAMED and rows:
            boxes.insert(0, NameRow(self.desk, self.spec.key, str(self.which)).box)
        self.fields.children = tuple(boxes)

    def _chosen(self, change: Any) -> None:
        if not self._quiet:
            self.which = change["new"]
            self._show()

    def _add(self, _: Any) -> None:
        self.which = None
        self.which = self.desk.add(self.spec.key)[1]
        self._show()

    def _copy(self, _: Any) -> None:
        if self.which is not None:
            self.which = self.desk.copy(self.spec.key, self.which)[1]
            self._show()

    def _remove(self, _: Any) -> None:
        if self.which is not None:
            self.desk.remove(self.spec.key, self.which)

    def refresh(self) -> None:
        """Say anew what is understood, and in the heading what is wrong."""
        wrong = sum(1 for place in self.desk.draft.faults if place and place[0] == self.spec.key)
        count = len(self.desk.draft.parts(self.spec.key))
        words = [self.spec.title]
        if self.spec.shape is not Shape.ONE:
            words.append(f"({count})")
        if wrong:
            words.append(f"✗ {wrong} to mend")
        heading = f"{'▾' if self.is_open else '▸'} {' '.join(words)}"
        if self.heading.description != heading:
            self.heading.description = heading
        if self.is_open:
            for row in self.rows:
                row.refresh()

    def reload(self) -> None:
        """Show what the file has now."""
        if not self.is_open:
            self.rows = []
            self.fields.children = ()
            return
        self._show()
        for row in self.rows:
            row.reload()


def _button(words: str, act: Any) -> w.Button:
    button = w.Button(description=words)
    button.on_click(act)
    return button
