"""The pulse between page and kernel: while it fails, the verdict is struck; what was typed then is offered again.

The page asks for a beat all the time and the kernel answers each in turn, so an answer also says that all that was
typed before it was taken.
"""

from __future__ import annotations

import json
import os
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import anywidget
import traitlets
from ipykernel.connect import get_connection_file

from bolewright.platform.file.reading import Location
from bolewright.platform.results.results import fingerprint
from bolewright.workbook.desk import Desk
from bolewright.workbook.links import FILES
from bolewright.workbook.schema import Shape, section

_HERE = Path(__file__).parent
_MOST = 50  # entries kept by a browser that are looked at
_LONGEST = 20_000  # characters of one of them
LOOK = 2.0  # s between two looks at the file on disk


@dataclass(frozen=True)
class Typed:
    """An entry that a browser kept because no kernel had taken it."""

    label: str
    value: str
    where: Location | None
    part: str
    store: str


class Pulse(anywidget.AnyWidget):
    """The widget that beats; ``on_kept`` is called with what a browser kept, ``on_look`` every few seconds."""

    _esm = _HERE / "pulse.js"
    file = traitlets.Unicode().tag(sync=True)
    kernel = traitlets.Unicode().tag(sync=True)
    page = traitlets.Bool().tag(sync=True)

    def __init__(
        self, desk: Desk, on_kept: Callable[[list[Typed]], None], on_look: Callable[[], None]
    ) -> None:
        super().__init__(file=_file_key(desk.path), kernel=_kernel(), page=os.environ.get(FILES, "") != "")
        self.desk, self._on_kept, self._on_look = desk, on_kept, on_look
        self._looked = 0.0
        self.on_msg(self._heard)
        desk.on_change(self._named)

    def _named(self) -> None:
        self.file = _file_key(self.desk.path)

    def _heard(self, _: Any, content: Any, __: Any) -> None:
        kind = content.get("kind") if isinstance(content, dict) else None
        if kind == "beat":
            self.send({"kind": "beat", "view": content.get("view"), "number": content.get("number")})
            if time.monotonic() - self._looked > LOOK:
                self._looked = time.monotonic()
                self._on_look()
        elif kind == "kept" and (found := read_kept(content.get("items"))):
            self._on_kept(found)

    def drop(self, stores: set[str]) -> None:
        """Let the browser forget what it kept."""
        self.send({"kind": "drop", "stores": sorted(stores)})


def place_class(desk: Desk, where: Location) -> str:
    """Class by which the page knows the place in the file of a field, and the part's name there."""
    said = json.dumps([list(where), part_name(desk, where)], separators=(",", ":"))
    return f"bw-at-{said.encode().hex()}"


def part_name(desk: Desk, where: Location) -> str:
    """Name of the part that a place belongs to; empty where the section has no parts."""
    if len(where) < 3:
        return ""
    return dict(desk.draft.parts(str(where[0]))).get(where[1], "")


def read_kept(items: Any) -> list[Typed]:
    """What a browser sent as kept; what is no such thing is passed over."""
    found = []
    for item in items[:_MOST] if isinstance(items, list) else ():
        if not isinstance(item, dict):
            continue
        label, value, at, store = (item.get(key) for key in ("label", "value", "at", "store"))
        if not (isinstance(label, str) and isinstance(value, str) and isinstance(store, str)):
            continue
        where, part = _place(at)
        found.append(Typed(label[:200], value[:_LONGEST], where, part, store))
    return found


def _place(at: Any) -> tuple[Location | None, str]:
    try:
        keys, part = json.loads(bytes.fromhex(at).decode())
        section(keys[0]).field(keys[-1])
    except (KeyError, LookupError, TypeError, ValueError, AttributeError, StopIteration):
        return None, ""
    if not all(isinstance(key, str | int) for key in keys) or not isinstance(part, str):
        return None, ""
    return tuple(keys), part


def placed(desk: Desk, typed: Typed) -> Location | None:
    """Where a kept entry belongs now: the part of its name, wherever it stands; None when it is gone."""
    where = typed.where
    if where is None or len(where) < 3 or section(str(where[0])).shape is Shape.ONE:
        return where
    found = next((which for which, name in desk.draft.parts(str(where[0])) if name == typed.part), None)
    return None if found is None else (where[0], found, *where[2:])


def _file_key(path: Path) -> str:
    return fingerprint(str(path))[:16]


def _kernel() -> str:
    try:
        return Path(get_connection_file()).stem.removeprefix("kernel-")
    except RuntimeError:  # no kernel: a test, or a script
        return ""
