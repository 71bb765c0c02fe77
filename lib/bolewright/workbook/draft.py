"""The project file while it is being filled in: what was typed, what is wrong with it, undo and redo.

No widget in here. The text of the file is the draft, so its comments stay; a field that can't be used keeps
what was typed in it, with the sentence that the file's own reading has for it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from bolewright.platform.file.follow import follow, is_relation, relations, renamed
from bolewright.platform.file.reading import Location, ProjectError, find_faults
from bolewright.platform.project import Project
from bolewright.workbook import tables, values
from bolewright.workbook.schema import FieldSpec, Shape, section, sections
from bolewright.workbook.starts import start_of

_DEPTH = 500
Which = int | str


@dataclass(frozen=True)
class _Step:
    text: str
    label: str


class Draft:
    """One project file in the making. Change it through its methods only."""

    def __init__(self, text: str, name: str = "project") -> None:
        self._doc = _parsed(text, name)
        self._text = tomlkit.dumps(self._doc)
        self._undo: list[_Step] = []
        self._redo: list[_Step] = []
        self._running: Location | None = None
        self._found: tuple[Project | None, dict[Location, str]] | None = None

    # -- what it holds ------------------------------------------------------------------------------------

    @property
    def text(self) -> str:
        """The file's text as it would be saved."""
        return self._text

    @property
    def data(self) -> dict[str, Any]:
        """The file's data."""
        return dict(self._doc.unwrap())

    @property
    def project(self) -> Project | None:
        """The project, when nothing in the file is wrong."""
        return self._checked()[0]

    @property
    def faults(self) -> dict[Location, str]:
        """What is wrong, by place; empty when all can be used."""
        return self._checked()[1]

    def _checked(self) -> tuple[Project | None, dict[Location, str]]:
        if self._found is None:
            project, faults = find_faults(self.data)
            merged: dict[Location, str] = {}
            for fault in faults:
                merged.setdefault(fault.where, values.beside_a_field(fault.message))
            self._found = project, merged
        return self._found

    def message(self, where: Location) -> str:
        """What is wrong with a field, or with something inside it; empty when nothing is."""
        found = self.faults
        if where in found:
            return found[where]
        return next((said for place, said in found.items() if place[: len(where)] == where), "")

    def messages_elsewhere(self) -> dict[Location, str]:
        """What is wrong with no field of the form: a part as a whole, an unknown key, a missing section."""
        return {place: said for place, said in self.faults.items() if not self._has_field(place)}

    def _has_field(self, place: Location) -> bool:
        try:
            spec = section(str(place[0]))
        except (KeyError, IndexError):
            return False
        at = 1 if spec.shape is Shape.ONE else 2
        return len(place) > at and any(place[at] == field.key for field in spec.fields)

    def get(self, where: Location) -> Any:
        """Value of a field in the file; None when it is left out."""
        node: Any = self._doc
        for key in where:
            try:
                node = node[key]
            except (KeyError, IndexError, TypeError):
                return None
        return node.unwrap() if hasattr(node, "unwrap") else node

    def shown(self, where: Location) -> str:
        """Text that stands in the form for a field."""
        return values.shown(self.field(where), self.get(where))

    def understood(self, where: Location) -> str:
        """What a field is understood as, in both systems of units."""
        value = self.get(where)
        if is_relation(value):
            found = next((f for f in follow(self.data)[1] if f.where == where), None)
            return "" if found is None else values.place_words(found.place)
        return values.understood(str(where[0]), self.field(where), value)

    def field(self, where: Location) -> FieldSpec:
        """What the form knows of a field."""
        return section(str(where[0])).field(str(where[-1]))

    def parts(self, key: str) -> list[tuple[Which, str]]:
        """Parts of a section in the order of the file: how they are addressed, and their names."""
        held = self._doc.get(key)
        spec = section(key)
        if held is None or spec.shape is Shape.ONE:
            return []
        if spec.shape is Shape.NAMED:
            return [(name, name) for name in held] if hasattr(held, "keys") else []
        if not isinstance(held, list):
            return []
        has_mark = any(field.key == "mark" for field in spec.fields)
        default = spec.field("mark").default if has_mark else None
        named = [part.get("mark", default) if hasattr(part, "get") else None for part in held]
        return [(i, str(name) if name else f"no. {i + 1}") for i, name in enumerate(named)]

    def names(self, key: str) -> list[str]:
        """Names that another part may refer to."""
        return [name for _, name in self.parts(key)]

    # -- changing it --------------------------------------------------------------------------------------

    def type(self, where: Location, text: str) -> None:
        """Take what was typed in a field. A run of changes of one field is undone as one."""
        self.set(where, values.typed(self.field(where), text))

    def set(self, where: Location, value: Any) -> None:
        """Set a field's value; None leaves the key out."""
        if _same(self.get(where), value):
            return
        fresh = self._running != where
        self._change(f"{where[-1]} of {self._part_name(where)}", lambda: self._put(where, value), keep=fresh)
        self._running = where

    def settle(self) -> None:
        """The next change of the same field is a step of undo of its own: the field was left."""
        self._running = None

    def _put(self, where: Location, value: Any) -> None:
        table: Any = self._doc
        for key in where[:-1]:
            if isinstance(key, str) and key not in table:
                table[key] = tomlkit.table()
            table = table[key]
        key = str(where[-1])
        if value is None:
            if key in table:
                table.remove(key)
        elif isinstance(value, list) and key in table and _merged(table[key], value):
            return
        else:
            table[key] = _item(value)

    def add(self, key: str) -> Location:
        """Add a part with plausible values, its place left for the user to give; where it is."""
        spec = section(key)
        name = self._fresh(key)
        lines = [f"{k} = {_toml(v)}" for k, v in start_of(key, self.data).items()]
        if spec.shape is Shape.LIST:
            lines.insert(0, f"mark = {_toml(name)}")
        return self._insert(key, name, self._header(key, name) + "".join(f"{line}\n" for line in lines), None)

    def copy(self, key: str, which: Which) -> Location:
        """Copy a part under a fresh name, right after it; where the copy is."""
        name = self._fresh(key, like=str(dict(self.parts(key))[which]))
        span = self._span(key, which)
        if span is None:
            value = self.get((key, which))
            lines = [f"{k} = {_toml(v)}\n" for k, v in value.items() if k != "mark"]
            block = self._header(key, name) + "".join(lines)
        else:
            keys = tables.body(self._text, span).partition("\n")[2]
            block = self._header(key, name) + keys
        if section(key).shape is Shape.LIST:
            block = tables.with_key(block, "mark", f"mark = {_toml(name)}")
        return self._insert(key, name, block, which)

    def remove(self, key: str, which: Which) -> None:
        """Take a part out."""
        name = dict(self.parts(key))[which]
        wanted = self.data
        del wanted[key][which]
        if not wanted[key]:
            del wanted[key]
        span = self._span(key, which)
        text = None if span is None else tables.without(self._text, span)
        self._change(f"removal of {name}", lambda: self._settle_on(text, wanted))

    def rename(self, key: str, which: Which, name: str) -> None:
        """Give a part another name; what refers to it follows."""
        old = dict(self.parts(key))[which]
        if old == name:
            return
        if section(key).shape is Shape.LIST and name in (marks := self._marks()):
            raise ValueError(f"{name!r} already names a {section(marks[name]).part}; marks are unique.")

        def change() -> None:
            if section(key).shape is Shape.NAMED:
                self._rename_table(key, str(which), name)
            else:
                self._doc[key][which]["mark"] = name
            self._follow(key, old, name)

        self._change(f"name of {old}", change)

    def _rename_table(self, key: str, old: str, name: str) -> None:
        if not re.fullmatch(r"[A-Za-z0-9_-]+", name):
            raise ValueError(f"{name!r} is no name: a name has letters and digits only.")
        if name in self._doc[key]:
            raise ValueError(f"{name!r} already names a {section(key).part}; names are unique.")
        wanted = self.data
        wanted[key] = {name if k == old else k: v for k, v in wanted[key].items()}
        span = self._span(key, old)
        text = None
        if span is not None:
            lines = self._text.splitlines(keepends=True)
            lines[span.start] = re.sub(r"\[.*?\]", f"[{key}.{name}]", lines[span.start], count=1)
            text = "".join(lines)
        self._settle_on(text, wanted)

    def _follow(self, key: str, old: str, name: str) -> None:
        for spec in sections():
            for field in (f for f in spec.fields if f.refers_to == key):
                for which, _ in self.parts(spec.key):
                    where: Location = (spec.key, which, field.key)
                    value = self.get(where)
                    if value == old:
                        self._put(where, name)
                    elif isinstance(value, list) and old in value:
                        self._put(where, [name if item == old else item for item in value])
        for where, words in relations(self.data):
            if (said := renamed(words, old, name)) != words:
                self._put(where, said)

    # -- undo ---------------------------------------------------------------------------------------------

    @property
    def can_undo(self) -> str:
        """What the next undo takes back; empty when there is nothing."""
        return self._undo[-1].label if self._undo else ""

    @property
    def can_redo(self) -> str:
        """What the next redo brings back; empty when there is nothing."""
        return self._redo[-1].label if self._redo else ""

    def undo(self) -> str:
        """Take back the last change; what it was."""
        return self._swap(self._undo, self._redo)

    def redo(self) -> str:
        """Bring back what was taken back; what it was."""
        return self._swap(self._redo, self._undo)

    def _swap(self, source: list[_Step], target: list[_Step]) -> str:
        if not source:
            return ""
        step = source.pop()
        target.append(_Step(self._text, step.label))
        self._take(step.text)
        self._running = None
        return step.label

    def replace(self, text: str, label: str, name: str = "project") -> None:
        """Put another text in place of all of it, as one step of undo. Raises ProjectError for no TOML."""
        doc = _parsed(text, name)
        self._change(label, lambda: self._take(tomlkit.dumps(doc)))

    def take(self, wanted: dict[str, Any], label: str) -> None:
        """Take other data as one step of undo; comments stay where the parts do."""

        def change() -> None:
            for where, value in _leaves(self.data, wanted):
                self._put(where, value)
            self._settle_on(None, wanted)

        self._change(label, change)

    # -- inside -------------------------------------------------------------------------------------------

    def _change(self, label: str, change: Callable[[], None], *, keep: bool = True) -> None:
        before = self._text
        try:
            change()
            self._text = tomlkit.dumps(self._doc)
        except BaseException:  # whatever happened, nothing is half changed
            self._take(before)
            raise
        finally:
            self._found = None
        if self._text == before:
            return
        if keep or not self._undo:
            self._undo = [*self._undo[-_DEPTH:], _Step(before, label)]
        self._redo.clear()
        self._running = None

    def _take(self, text: str) -> None:
        self._doc = tomlkit.parse(text)
        self._text = text
        self._found = None

    def _settle_on(self, text: str | None, wanted: dict[str, Any]) -> None:
        """Take an edited text when it says what is wanted; else write the data, and lose comments beside it."""
        if text is not None:
            try:
                doc = tomlkit.parse(text)
            except TOMLKitError:
                doc = None
            if doc is not None and doc.unwrap() == wanted:
                self._doc = doc
                return
        for key in [key for key in self._doc if key not in wanted]:
            self._doc.remove(key)
        for key, value in wanted.items():
            if key not in self._doc or _bare(self._doc[key]) != value:
                self._doc[key] = _rebuilt(key, value)

    def _insert(self, key: str, name: str, block: str, after: Which | None) -> Location:
        spec = section(key)
        value = tomlkit.parse(block).unwrap()[key]
        wanted = self.data
        if spec.shape is Shape.LIST:
            held = wanted.setdefault(key, [])
            place = len(held) if after is None else int(after) + 1
            held.insert(place, value[0])
            where: Location = (key, place)
        else:
            wanted.setdefault(key, {})[name] = value[name]
            where = (key, name)
        whole = [which for which, _ in self.parts(key)]
        anchor = after if after is not None else (whole[-1] if whole else None)
        span = self._span(key, anchor) if anchor is not None else None
        text = None if anchor is not None and span is None else tables.inserted(self._text, span, block)
        self._change(f"{spec.part} {name}", lambda: self._settle_on(text, wanted))
        return where

    def _span(self, key: str, which: Which) -> tables.Span | None:
        found = tables.spans(self._text)
        if isinstance(which, str):
            return next((s for s in found if s.name == f"{key}.{which}"), None)
        own = [s for s in found if s.name == key]
        return own[which] if which < len(own) else None

    @staticmethod
    def _header(key: str, name: str) -> str:
        return f"[[{key}]]\n" if section(key).shape is Shape.LIST else f"[{key}.{name}]\n"

    def _fresh(self, key: str, like: str = "") -> str:
        """A mark or name that nothing in the file has yet."""
        spec = section(key)
        taken = set(self.names(key))
        if spec.shape is Shape.LIST:
            taken = set(self._marks())
        trunk = re.sub(r"\d+$", "", like) or _TRUNKS.get(key, key[:1].upper())
        if key in ("joists", "blocking"):
            letters = [trunk, *(f"{trunk}{chr(c)}" for c in range(ord("A"), ord("Z") + 1))]
            return next(name for name in letters if name not in taken)
        return next(f"{trunk}{n}" for n in range(1, 10_000) if f"{trunk}{n}" not in taken)

    def _marks(self) -> dict[str, str]:
        """Every part's mark, with the section it stands in."""
        listed = [s.key for s in sections() if s.shape is Shape.LIST]
        return {name: key for key in reversed(listed) for name in self.names(key)}

    def _part_name(self, where: Location) -> str:
        if len(where) < 3:
            return str(where[0])
        return dict(self.parts(str(where[0]))).get(where[1], str(where[1]))


_TRUNKS = {
    "support": "P",
    "tree": "TREE",
    "beam": "C",
    "joists": "J",
    "blocking": "BL",
    "brace": "K",
    "crossed_rods": "XR",
}


def _parsed(text: str, name: str) -> tomlkit.TOMLDocument:
    try:
        return tomlkit.parse(text)
    except TOMLKitError as error:
        raise ProjectError([f"{name} is not valid TOML: {error}."]) from None


def _leaves(old: Any, new: Any, where: Location = ()) -> Iterator[tuple[Location, Any]]:
    """Fields that differ in parts that stand in the same place."""
    if isinstance(old, dict) and isinstance(new, dict) and len(where) < 3:
        for key in old.keys() & new.keys():
            yield from _leaves(old[key], new[key], (*where, key))
    elif (
        isinstance(old, list)
        and len(where) == 1
        and len(old) == len(new)
        and all(isinstance(p, dict) for p in old)
    ):
        for i, (a, b) in enumerate(zip(old, new, strict=True)):
            if isinstance(b, dict) and a.get("mark") == b.get("mark"):
                yield from _leaves(a, b, (*where, i))
    elif len(where) > 1 and old != new:
        yield where, new


def _same(old: Any, new: Any) -> bool:
    return type(old) is type(new) and bool(old == new)


def _merged(array: Any, value: list[Any]) -> bool:
    """Change an array item by item where the shape stays, so that its layout and comments stay."""
    if not isinstance(array, list) or len(array) != len(value):
        return False
    for i, item in enumerate(value):
        if isinstance(item, list):
            if not _merged(array[i], item):
                return False
        elif not _same(_bare(array[i]), item):
            array[i] = item
    return True


def _bare(item: Any) -> Any:
    return item.unwrap() if hasattr(item, "unwrap") else item


def _item(value: Any) -> Any:
    if isinstance(value, list):
        array = tomlkit.array()
        for item in value:
            array.append(_item(item))
        if value and isinstance(value[0], list):
            array.multiline(True)
        return array
    return tomlkit.item(value)


def _toml(value: Any) -> str:
    return str(_item(value).as_string())


def _rebuilt(key: str, value: Any) -> Any:
    if isinstance(value, list) and section(key).shape is Shape.LIST:
        array = tomlkit.aot()
        for part in value:
            array.append(tomlkit.item(part))
        return array
    return tomlkit.item(value)
