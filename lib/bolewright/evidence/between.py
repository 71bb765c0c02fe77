"""What lies between two results: inputs, parts, checks, reactions, what is bought, drawings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from bolewright.drawings.files import drawing_files
from bolewright.evidence.source import Evidence
from bolewright.rendering import numbers
from bolewright.take_off.tables import DataTable, take_off_tables
from bolewright.take_off.take_off import find_take_off

SAME = 1e-5  # of a ratio: less is the rounding of what is written
_POUND = 0.5  # lb: less is not told of a reaction


@dataclass(frozen=True)
class Between:
    """One difference: of what, which, and what stood and stands there; empty where there is nothing."""

    kind: str
    what: str
    before: str
    after: str


@dataclass(frozen=True)
class Moved:
    """A check that is not what it was: its name, and its outcome before and after; empty where it is not there."""

    part: str
    limit_state: str
    before: str
    after: str
    lost: bool
    """Whether it held, or was not there, and fails or is open now."""
    shift: float


def inputs(a: Evidence, b: Evidence) -> list[Between]:
    """Values of the project file that differ, in the order of the newer file."""
    old, new = dict(_leaves(a.data)), dict(_leaves(b.data))
    return [
        Between("input", place, old.get(place, ""), new.get(place, ""))
        for place in dict.fromkeys([*new, *old])
        if old.get(place) != new.get(place)
    ]


def _leaves(node: Any, place: str = "") -> Iterator[tuple[str, str]]:
    """Every value of a file's data with the words of its place: parts by their marks."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield from _leaves(value, f"{place} {key}".strip())
    elif isinstance(node, list) and node and all(isinstance(item, dict) for item in node):
        seen: Counter[str] = Counter()
        for item in node:
            name = str(item.get("mark", "")) or "no."
            seen[name] += 1
            again = f" {seen[name]}" if seen[name] > 1 or name == "no." else ""
            yield from _leaves(
                {k: v for k, v in item.items() if k != "mark"} or {"": "is there"}, f"{place} {name}{again}"
            )
    else:
        yield place, _written(node)


def _written(value: Any) -> str:
    if isinstance(value, list):
        return "[" + ", ".join(_written(item) for item in value) + "]"
    return str(value).lower() if isinstance(value, bool) else str(value)


def parts(a: Evidence, b: Evidence) -> list[Between]:
    """Members and supports that came, went or changed size."""
    old, new = ({m["mark"]: _size(m) for m in one.told["marks"]} for one in (a, b))
    return [
        Between("part", mark, old.get(mark, ""), new.get(mark, ""))
        for mark in dict.fromkeys([*old, *new])
        if old.get(mark) != new.get(mark)
    ]


def _size(mark: dict[str, Any]) -> str:
    if "section" in mark:
        return f"{mark['kind']} {mark['section']}, {mark['length_in']:.4g} in. long"
    x, y = mark["at_in"]
    return f"{mark['kind']} at {x:.5g}, {y:.5g} in."


def checks(old: dict[str, Any], new: dict[str, Any]) -> list[Moved]:
    """Checks whose outcome or ratio differs: those lost first, then by how far they moved."""
    before, after = ({(c["part"], c["limit_state"]): c for c in results["checks"]} for results in (old, new))
    found = []
    for key in dict.fromkeys([*before, *after]):
        one, other = before.get(key), after.get(key)
        if one and other and one["status"] == other["status"] and _same(one["ratio"], other["ratio"]):
            continue
        lost = (
            other is not None and other["status"] != "passes" and (one is None or one["status"] == "passes")
        )
        shift = abs(_value(other) - _value(one))
        found.append(Moved(*key, _outcome(one), _outcome(other), lost, shift))
    return sorted(found, key=lambda m: (not m.lost, -m.shift))


def _same(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= SAME * max(1.0, abs(one))


def _value(check: dict[str, Any] | None) -> float:
    return float((check or {}).get("ratio") or 0.0)


def _outcome(check: dict[str, Any] | None) -> str:
    if check is None:
        return ""
    if check["status"] == "not checked":
        return "open"
    ratio = "none left" if check["ratio"] is None else numbers.ratio(check["ratio"])
    return f"{ratio} {check['status']}"


def reactions(old: dict[str, Any], new: dict[str, Any]) -> list[Between]:
    """Greatest and least load of a support, over all combinations of weight, that differ by half a pound and more."""
    found = []
    before, after = old.get("reactions", {}), new.get("reactions", {})
    for mark in dict.fromkeys([*before, *after]):
        for end in ("most", "least"):
            one, other = (side.get(mark, {}).get(end, {}).get("lb") for side in (before, after))
            if one is None or other is None:
                if one is not other:
                    found.append(Between("reaction", f"{mark}, {end}", _pounds(one), _pounds(other)))
            elif abs(one - other) >= _POUND:
                found.append(Between("reaction", f"{mark}, {end}", _pounds(one), _pounds(other)))
    return found


def _pounds(value: float | None) -> str:
    return "" if value is None else f"{value:,.0f} lb"


def bought(a: Evidence, b: Evidence) -> list[Between]:
    """Rows of the take-off that differ, prices included."""
    old, new = (_rows(take_off_tables(find_take_off(one.results))) for one in (a, b))
    return [
        Between("take-off", what, old.get(what, ""), new.get(what, ""))
        for what in dict.fromkeys([*new, *old])
        if old.get(what) != new.get(what)
    ]


def _rows(tables: tuple[DataTable, ...]) -> dict[str, str]:
    """Rows by the words in them; what is told of each are its numbers."""
    found: dict[str, str] = {}
    for table in tables:
        for row in table.rows:
            words = ", ".join(value for value in row if isinstance(value, str) and value)
            told = ", ".join(
                f"{name} {value:g}"
                for name, value in zip(table.columns, row, strict=True)
                if isinstance(value, int | float)
            )
            key = f"{table.name}: {words}"
            found[key] = f"{found[key]}; {told}" if key in found else told or "is there"
    return found


def drawings(a: Evidence, b: Evidence) -> list[Between]:
    """Drawings that are not the same any more."""
    old, new = (
        {name: data for name, data in drawing_files(one.results).items() if name.endswith(".svg")}
        for one in (a, b)
    )
    return [
        Between("drawing", name, "is there" if name in old else "", "changed" if name in old else "new")
        for name in sorted({*old, *new})
        if old.get(name) != new.get(name)
    ]
