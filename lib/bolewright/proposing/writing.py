"""A project's data as the text of a file, with a comment beside the values that were chosen for a reason."""

from __future__ import annotations

import datetime
import json
import math
from collections.abc import Iterator, Mapping
from typing import Any

Place = tuple[str | int, ...]
_WIDTH = 100
_FRACTIONS = {1: "1/8", 2: "1/4", 3: "3/8", 4: "1/2", 5: "5/8", 6: "3/4", 7: "7/8"}


def inches(value: float) -> str:
    """A length as it is written in a file: eighths where it is one, else decimals."""
    eighths = value * 8
    if abs(eighths - round(eighths)) > 1e-9:
        return f"{round(value, 3):g} in"
    whole, part = divmod(round(abs(eighths)), 8)
    sign = "-" if value < 0 and (whole or part) else ""
    words = " ".join(w for w in (str(whole) if whole or not part else "", _FRACTIONS.get(part, "")) if w)
    return f"{sign}{words} in"


def point(x: float, y: float) -> list[str]:
    """A point in plan, rounded to eighths of an inch."""
    return [inches(eighth(x)), inches(eighth(y))]


def eighth(value: float) -> float:
    """A length to the nearest eighth of an inch; halves go up, so that all machines agree."""
    return math.floor(value * 8 + 0.5 + 1e-9) / 8


def in_words(words: list[str]) -> str:
    """A list as it is said: the last of it after "and"."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def file_text(head: list[str], data: Mapping[str, Any], comments: Mapping[Place, str]) -> str:
    """Text of a project file: a head of remarks, then every table in its order."""
    lines = [f"# {line}".rstrip() for line in head]
    for key, value in data.items():
        if not isinstance(value, Mapping | list) or (isinstance(value, list) and not _tables(value)):
            lines += ["", *_key((key,), key, value, comments)] if lines[-1:] != [""] else []
    for key, value in data.items():
        if isinstance(value, Mapping):
            named = bool(value) and all(isinstance(v, Mapping) for v in value.values())
            if named:
                for name, entry in value.items():
                    lines += ["", *_table((key, name), f"[{key}.{name}]", entry, comments)]
            elif value:
                lines += ["", *_table((key,), f"[{key}]", value, comments)]
        elif _tables(value):
            for i, entry in enumerate(value):
                lines += ["", *_table((key, i), f"[[{key}]]", entry, comments)]
    return "\n".join(lines) + "\n"


def _tables(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(v, Mapping) for v in value)


def _table(
    place: Place, header: str, entry: Mapping[str, Any], comments: Mapping[Place, str]
) -> Iterator[str]:
    said = comments.get(place)
    yield f"{header:<25} # {said}" if said else header
    for key, value in entry.items():
        yield from _key((*place, key), key, value, comments)


def _key(place: Place, key: str, value: Any, comments: Mapping[Place, str]) -> Iterator[str]:
    said = comments.get(place)
    line = f"{key} = {_value(value)}"
    if len(line) > _WIDTH and isinstance(value, list):
        yield f"{key} = [" + (f"    # {said}" if said else "")
        yield from (f"    {_value(item)}," for item in value)
        yield "]"
    else:
        yield f"{line:<25} # {said}" if said else line


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, list | tuple):
        return f"[{', '.join(_value(v) for v in value)}]"
    if isinstance(value, datetime.date):
        return value.isoformat()
    return f"{value:g}" if isinstance(value, float) else str(value)
