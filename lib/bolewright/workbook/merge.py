"""Two versions of a project file: what differs, in words, and a merge by what each changed since they were one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

Data = dict[str, Any]
Path = tuple[str, ...]
_GONE = object()


def differences(old: Data, new: Data) -> list[str]:
    """What another version changes, a sentence for each field or part."""
    before, after = _parts(old), _parts(new)
    said = []
    for where in (*before, *(w for w in after if w not in before)):
        a, b = before.get(where), after.get(where)
        if a is None:
            said.append(f"{_words(where)} is added")
        elif b is None:
            said.append(f"{_words(where)} is removed")
        else:
            said += [
                f"{key} of {_words(where)}: {_shown(a.get(key, _GONE))} becomes {_shown(b.get(key, _GONE))}"
                for key in (*a, *(k for k in b if k not in a))
                if a.get(key, _GONE) != b.get(key, _GONE)
            ]
    return said


def merged(base: Data, mine: Data, theirs: Data) -> tuple[Data, list[str]]:
    """Both versions' changes since ``base``; where both changed one thing, mine stays and a sentence says so."""
    old, own, other = _parts(base), _parts(mine), _parts(theirs)
    kept: dict[Path, Data] = {}
    clashes: list[str] = []
    for where in (*own, *(w for w in other if w not in own)):
        a, m, t = old.get(where), own.get(where), other.get(where)
        if m is None or t is None:
            part, clash = _one_has_it(a, m, t)
            if clash:
                clashes.append(f"{_words(where)} was removed by one and changed by the other: it stays")
        else:
            part, keys = _both_have_it(a or {}, m, t)
            clashes += [
                f"{key} of {_words(where)}: yours is {_shown(m.get(key, _GONE))}, the other is "
                f"{_shown(t.get(key, _GONE))}; yours stays"
                for key in keys
            ]
        if part is not None:
            kept[where] = part
    return _whole(kept, mine, theirs), clashes


def _one_has_it(old: Data | None, mine: Data | None, theirs: Data | None) -> tuple[Data | None, bool]:
    held = theirs if mine is None else mine
    if old is None:
        return held, False
    return (None, False) if held == old else (held, True)


def _both_have_it(old: Data, mine: Data, theirs: Data) -> tuple[Data, list[str]]:
    part, clashes = {}, []
    for key in (*mine, *(k for k in theirs if k not in mine)):
        a, m, t = (version.get(key, _GONE) for version in (old, mine, theirs))
        value = t if m == a else m
        if value is m and t not in (a, m):
            clashes.append(key)
        if value is not _GONE:
            part[key] = value
    return part, clashes


def _parts(data: Data) -> dict[Path, Data]:
    """A file by its parts: a table's own keys, a list's entries by mark, a kind's by name, what stands above all."""
    found: dict[Path, Data] = {}
    for key, value in data.items():
        if isinstance(value, dict) and value and all(isinstance(v, dict) for v in value.values()):
            found |= {(key, name): dict(v) for name, v in value.items()}
        elif isinstance(value, dict):
            found[key,] = value
        elif isinstance(value, list) and value and all(isinstance(v, dict) for v in value):
            found |= dict(_marked(key, value))
        else:
            found.setdefault((), {})[key] = value
    return found


def _marked(key: str, entries: list[Data]) -> Iterator[tuple[Path, Data]]:
    seen: dict[str, int] = {}
    for entry in entries:
        name = str(entry.get("mark", ""))
        seen[name] = seen.get(name, 0) + 1
        yield (key, name if name and seen[name] == 1 else f"{name}#{seen[name]}"), entry


def _whole(parts: dict[Path, Data], mine: Data, theirs: Data) -> Data:
    whole: Data = {}
    for key in (*mine, *(k for k in theirs if k not in mine)):
        model = mine.get(key, theirs.get(key))
        own = {where: part for where, part in parts.items() if where and where[0] == key}
        if isinstance(model, list) and any(len(where) == 2 for where in own):
            whole[key] = list(own.values())
        elif any(len(where) == 2 for where in own):
            whole[key] = {where[1]: part for where, part in own.items()}
        elif own:
            whole[key] = own[key,]
        elif key in parts.get((), {}):
            whole[key] = parts[()][key]
    return whole


def _words(where: Path) -> str:
    return " ".join(where) or "the file"


def _shown(value: Any) -> str:
    if value is _GONE:
        return "left out"
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)
