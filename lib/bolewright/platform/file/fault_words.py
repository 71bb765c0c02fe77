"""Faults of a file's data in plain words: where in the file, what stands there, what is allowed."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterator
from typing import Any, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from bolewright.platform.file.file_lines import Location
from bolewright.platform.project import Project
from bolewright.platform.project.point_load import refused
from bolewright.signs import begun_small
from bolewright.units import shown

Fault = Any  # one of pydantic's: its type, place, input and context

# Lists of points by key: how deep a point lies under it, and what an item of each depth is called.
_POINTS: dict[str, tuple[str, ...]] = {
    "at": (),
    "from": (),
    "to": (),
    "outline": ("corner",),
    "region": ("corner",),
    "corners": ("corner",),
    "points": ("point",),
    "openings": ("opening", "corner"),
}
_A_POINT = 'a point is two lengths, x and y, such as ["3 ft", "18 in"]'


def in_words(fault: Fault) -> tuple[Location, str]:
    """Place of a fault, and what is wrong there, without the full stop."""
    where: Location = tuple(fault["loc"])
    top = str(where[0]) if where else ""
    shape = get_origin(_annotation(Project, top))
    if shape is dict and fault["type"] in ("model_type", "model_attributes_type") and len(where) == 2:
        return _named_table(where, fault)
    kind = fault["type"]
    if kind == "missing" and isinstance(where[-1], int):
        return where[:-1], f"{shown(list(fault['input']))} is no point; {_A_POINT}"
    if kind in ("too_long", "tuple_type") and _depth(where) == 0:
        return where, f"{shown(fault['input'])} is no point; {_A_POINT}"
    if where and where[-1] == "[key]":
        return where[:-1], _no_mark(str(where[-2]))
    return where, _WORDS.get(kind, _not_allowed)(fault)


# ---------------------------------------------------------------------------------------------------------
# By kind of fault


def _named_table(where: Location, fault: Fault) -> tuple[Location, str]:
    """A kind of part ([post.P6]) that is no table: its header lacks the name, or has one bracket too many."""
    key, name = where
    if isinstance(fault["input"], list):
        return where, f"it is written once: write [{key}.{name}] in single brackets"
    return where[
        :1
    ], f"its header lacks a name: write [{key}.NAME], with a name of your own, in place of [{key}]"


def _no_table(fault: Fault) -> str:
    where, given = fault["loc"], fault["input"]
    header = f"[{where[0]}]" if len(where) == 1 else f"[[{where[0]}]]"
    if len(where) == 1 and isinstance(given, list):
        return f"it is written once: write {header} in single brackets"
    return f"{shown(given)} is no table: write {header}, and its keys in the lines below"


def _no_list(fault: Fault) -> str:
    where, given = fault["loc"], fault["input"]
    if len(where) == 1 and get_origin(_annotation(Project, str(where[0]))) is tuple:
        return (
            f"there may be several of it: write [[{where[0]}]] in double brackets"
            if isinstance(given, dict)
            else f"{shown(given)} is no table: write [[{where[0]}]], and its keys in the lines below"
        )
    depth = _depth(where)
    if depth == 1:
        return f'{shown(given)} is no list of points: write them as [["0 in", "0 in"], ["8 ft", "0 in"], ...]'
    if depth == 2:
        return f"{shown(given)} is no list of openings: write each as a list of its corners"
    return f"{shown(given)} is no list: write its items in brackets with commas between them"


def _no_named_tables(fault: Fault) -> str:
    key = fault["loc"][0]
    if isinstance(fault["input"], list):
        return f"each has a name in its header: write [{key}.NAME], with a name of your own, in place of [[{key}]]"
    return f"{shown(fault['input'])} is no table: write [{key}.NAME], and its keys in the lines below"


def _missing(fault: Fault) -> str:
    where = fault["loc"]
    if len(where) == 1 and where[0] != "format":
        header = f"[[{where[0]}]]" if get_origin(_annotation(Project, where[0])) is tuple else f"[{where[0]}]"
        return f"this section is missing: write {header}, and its keys in the lines below"
    if len(where) == 1:
        return "this key is missing: write format = 2 above the first header"
    info = _info(_model_at(where[:-1]), str(where[-1]))
    what = (info.description or "") if info else ""
    what = what.partition(" (")[0].rstrip(".").replace("\n", " ")
    return f"this key is missing and must be given{f': {begun_small(what)}' if what else ''}"


def _unknown(fault: Fault) -> str:
    where: Location = tuple(fault["loc"])
    key = str(where[-1])
    model = _model_at(where[:-1])
    if model is Project and (why := refused(key)):
        return f"it is refused: {why}"
    by_any_name = {n: info.alias or n for n, info in model.model_fields.items()}
    by_any_name |= {written: written for written in by_any_name.values()}
    names = sorted(set(by_any_name.values()))
    near = difflib.get_close_matches(key.lower(), [n.lower() for n in by_any_name], n=1, cutoff=0.7)
    nearest = next((w for n, w in by_any_name.items() if near and n.lower() == near[0]), "")
    if nearest:
        return f"there is no such key here; the nearest is {header(nearest) if model is Project else nearest}"
    tables = () if isinstance(fault["input"], dict | list) else _tables()
    at_home = [header(name) for name, other in tables if key in _written(other)]
    hint = f"it belongs under {' or '.join(at_home)}; " if at_home else ""
    return f"there is no such key here; {hint}known here: {', '.join(names)}"


def _no_mark(text: str) -> str:
    return f"{shown(text)} is no mark; a mark starts with a letter from a to z and has at most 12 of them and digits"


def _pattern(fault: Fault) -> str:
    if fault["loc"][0] == "joists" and fault["loc"][-1] == "mark":
        return f"{shown(fault['input'])} is no mark of joists; write one to four letters, such as J"
    return _no_mark(fault["input"])


def _whole_number(fault: Fault) -> str:
    given = fault["input"]
    digits = given.strip() if isinstance(given, str) and given.strip().isdecimal() else "2"
    return f"{shown(given)} is no whole number: write one such as {digits}, without quotes"


def _switch(fault: Fault) -> str:
    return f"{shown(fault['input'])} is not allowed: write true or false, without quotes"


def _too_long(fault: Fault) -> str:
    given, most = fault["input"], fault["ctx"]["max_length"]
    if isinstance(given, str):
        return f"{shown(given)} is a text of {len(given)} characters; at most {most} are allowed"
    return f"{shown(given)} is too many; at most {most} can be given"


def _not_allowed(fault: Fault) -> str:
    return f"{shown(fault['input'])} is not allowed here"


def _no_choice(fault: Fault) -> str:
    if fault["loc"][0] == "support" and (why := refused(str(fault["input"]))):
        return f"{shown(fault['input'])} is refused: {why}"
    return f"{shown(fault['input'])} is not allowed; choose {fault['ctx']['expected']}"


_WORDS: dict[str, Callable[[Fault], str]] = {
    "value_error": lambda f: str(f["ctx"]["error"]),
    "extra_forbidden": _unknown,
    "missing": _missing,
    "literal_error": _no_choice,
    "enum": _no_choice,
    "string_pattern_mismatch": _pattern,
    "greater_than_equal": lambda f: f"{shown(f['input'])} is too small; the least is {f['ctx']['ge']}",
    "less_than_equal": lambda f: f"{shown(f['input'])} is too large; the most is {f['ctx']['le']}",
    "too_short": lambda f: f"{shown(f['input'])} is too few; at least {f['ctx']['min_length']} must be given",
    "too_long": _too_long,
    "string_too_long": _too_long,
    "string_type": lambda f: f"{shown(f['input'])} is no text: write it in quotes",
    "int_type": _whole_number,
    "int_from_float": _whole_number,
    "bool_type": _switch,
    "tuple_type": _no_list,
    "dict_type": _no_named_tables,
    "model_type": _no_table,
    "model_attributes_type": _no_table,
}


# ---------------------------------------------------------------------------------------------------------
# Where


def path_words(where: Location, raw: Any) -> str:
    """A place in words: ``beam C1, section`` or ``platform, outline, corner 2, y``."""
    words: list[str] = []
    node = raw
    point_key, depth = "", 0
    for step, key in enumerate(where):
        node = _step(node, key)
        if isinstance(key, str):
            words.append(_clean(key))
            point_key, depth = (key, 0) if step and key in _POINTS else ("", 0)
        elif point_key:
            names = _POINTS[point_key]
            words.append(f"{names[depth]} {key + 1}" if depth < len(names) else ("x", "y")[min(key, 1)])
            depth += 1
        else:
            mark = node.get("mark") if isinstance(node, dict) else None
            named = (
                mark if isinstance(mark, str) and _clean(mark) == mark and mark.strip() else f"no. {key + 1}"
            )
            words[-1:] = [f"{words[-1]} {named}"] if words else [named]
    return ", ".join(words) or "the file"


def _clean(text: str) -> str:
    """A key or mark that can stand in a sentence as it is; else between quotes, shortened."""
    return text if text.isprintable() and 0 < len(text) <= 24 else shown(text[:24])


def _depth(where: Location) -> int | None:
    """How many lists lie between this place and a point: 0 for a point itself, None where no points are."""
    for place in range(len(where) - 1, 0, -1):
        key = where[place]
        if isinstance(key, str):
            return len(_POINTS[key]) - (len(where) - 1 - place) if key in _POINTS else None
    return None


def _step(node: Any, key: str | int) -> Any:
    try:
        return node[key]
    except (KeyError, IndexError, TypeError):
        return None


# ---------------------------------------------------------------------------------------------------------
# The model


def _annotation(model: type[BaseModel], key: str) -> Any:
    info = _info(model, key)
    return info.annotation if info else None


def _info(model: type[BaseModel], key: str) -> FieldInfo | None:
    return next((f for n, f in model.model_fields.items() if key == (f.alias or n)), None)


def _model_at(where: Location) -> type[BaseModel]:
    """Model of the table at a place."""
    return next((model for name, model in _tables() if where and name == where[0]), Project)


def _tables() -> Iterator[tuple[str, type[BaseModel]]]:
    for name, info in Project.model_fields.items():
        for candidate in (info.annotation, *get_args(info.annotation)):
            if isinstance(candidate, type) and issubclass(candidate, BaseModel):
                yield info.alias or name, candidate


def _written(model: type[BaseModel]) -> set[str]:
    return {info.alias or name for name, info in model.model_fields.items()}


def header(key: str) -> str:
    """Header of a top-level key as it stands in the file."""
    shape = get_origin(_annotation(Project, key))
    if shape is tuple:
        return f"[[{key}]]"
    if shape is dict:
        return f"[{key}.NAME]"
    return key if key == "format" else f"[{key}]"
