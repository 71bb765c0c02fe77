"""Project files of format 1: their keys, the keys of format 2 in their place, and the sentence that says so.

The words changed and nothing else: every value means what it meant, so the ratios stay.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

TABLES = {"carrier": "beam"}
"""Tables of format 1 with another name in format 2."""

KEYS: dict[str, dict[str, str]] = {
    "joists": {"carriers": "beams"},
    "brace": {"carrier": "beam"},
    "support": {"sideways": "lateral"},
    "bolt": {"rated_side": "rated_lateral", "rated_side_note": "rated_lateral_note"},
    "post": {"foot": "base", "cap_side": "cap_lateral", "roll_tie": "rotation_tie"},
    "point_load": {"sideways": "lateral"},
    "hatch": {"side_tie": "lateral_tie", "roll_tie": "rotation_tie"},
    "carrier": {"side_tie": "lateral_tie", "roll_tie": "rotation_tie"},
}
"""Keys of format 1 with another name in format 2, by their table of format 1."""

VALUES = {("post", "foot", "held"): "fixed"}
"""Values with another word: table, key and value of format 1."""


def parts(table: Any, named: bool) -> Iterator[dict[str, Any]]:
    """The tables of one name in a file: one, a list of them, or one by each name (``named``)."""
    if named and isinstance(table, dict):
        yield from (part for part in table.values() if isinstance(part, dict))
    elif isinstance(table, list):
        yield from (part for part in table if isinstance(part, dict))
    elif isinstance(table, dict):
        yield table


def is_named(table: str) -> bool:
    """Whether a table is written with a name of its own, as ``[post.P6]``."""
    return table in ("bolt", "post")


def is_format_1(raw: dict[str, Any]) -> bool:
    """Whether a file's data says that it is of format 1."""
    return type(raw.get("format")) is int and raw["format"] == 1


def renamed(raw: dict[str, Any]) -> list[tuple[str, str]]:
    """Old and new words of every key that a file holds and that format 2 calls otherwise, in the order of the list.

    >>> renamed({"format": 1, "carrier": [{"roll_tie": "500 lb"}], "post": {"P": {"foot": "held"}}})
    [('[[carrier]]', '[[beam]]'), ('foot = "held"', 'base = "fixed"'), ('roll_tie', 'rotation_tie')]
    """
    found = [(f"[[{old}]]", f"[[{new}]]") for old, new in TABLES.items() if old in raw]
    for table, keys in KEYS.items():
        held = list(parts(raw.get(table), is_named(table)))
        for old, new in keys.items():
            for part in held:
                if old in part:
                    value = part[old] if isinstance(part[old], str) else ""
                    said = VALUES.get((table, old, value))
                    found.append((f'{old} = "{value}"', f'{new} = "{said}"') if said else (old, new))
    return list(dict.fromkeys(found))


def sentence(raw: dict[str, Any], name: str = "FILE") -> str:
    """What is said of a file of format 1: every new key for each old one that it holds, and what rewrites it."""
    told = ", ".join(f"{old} is {new}" for old, new in renamed(raw))
    return f"1 is the old format; in format 2 {told or 'no key of it changes'}: bolewright update {name} rewrites it"


def confirmed(path: str) -> str:
    """The path of a confirmed value in the words of format 2.

    >>> confirmed("bolt.main.rated_side"), confirmed("carrier.S1.roll_tie"), confirmed("site.frost_depth")
    ('bolt.main.rated_lateral', 'beam.S1.rotation_tie', 'site.frost_depth')
    """
    table, dot, rest = path.partition(".")
    middle, last_dot, key = rest.rpartition(".")
    return f"{TABLES.get(table, table)}{dot}{middle}{last_dot}{KEYS.get(table, {}).get(key, key)}"
