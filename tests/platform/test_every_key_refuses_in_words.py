"""Every key of the project file, read off its model, given values of the wrong kind: a sentence each, or none.

A refusal names the key and the value, says it in our words (none of a library's), and ends with one full stop.
"""

from __future__ import annotations

import datetime
import json
import math
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

import pytest
from arrangement_files import DEMO, file_of
from pydantic import BaseModel

from bolewright.cli import main
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.project import Measure, Project
from bolewright.units import NONE, shown

MORE = """
[[wall]]
mark = "W1"
edge = 2
height = "6 ft"

[[as_built]]
mark = "P1"
level = "1/4 in"

[[reading]]
mark = "GRADE"
below_line = "50 in"

[[outline]]
tree = "OAK"
widths = ["24 in", "23 in", "24 in"]

[stock]
kerf = "1/8 in"

[[price]]
item = "2x8"
length = "12 ft"
each = 14

[material.LARCH]
F_b = "900 psi"
F_t = "500 psi"
F_v = "150 psi"
F_c_perp = "400 psi"
F_c = "1200 psi"
E = "1400 ksi"
G = 0.5
note = "invented"

[[load_area]]
mark = "TUB"
corners = [["0 in", "60 in"], ["12 in", "60 in"], ["12 in", "72 in"]]
load = "50 psf"
kind = "dead"

[[guard]]
mark = "G"
edges = [2]
section = "4x4"
species = "Southern Pine"
grade = "No.2"

[[gate]]
mark = "GT"
edge = 2
species = "Southern Pine"
grade = "No.2"

[[ground]]
mark = "DIP"
at = ["80 in", "100 in"]
level = "-6 in"

[[point_load]]
mark = "SW"
form = "thing"
member = "C1"
along = "20 in"
weight = "100 lb"

[[trunk_opening]]
mark = "Q1"
around = "OAK"
cover = "collar"

[[limb]]
mark = "L1"
tree = "OAK"
from = ["200 in", "60 in"]
start_level = "8 ft"
to = ["210 in", "60 in"]
end_level = "14 ft"
start_diameter = "8 in"
end_diameter = "6 in"

[[crossed_rods]]
mark = "XR1"
from_post = "P1"
to_post = "P2"
diameter = "5/8 in"

[strut.S4]
section = "4x6"
species = "Southern Pine"
grade = "No.2"

[hatch]
at = ["5 in", "76 in"]
length = "30 in"
width = "24 in"
hanger = "HJ"

[stairs]
edge = 3
hanger = "HJ"

[[blocking]]
mark = "BL"
kind = "blocking"
section = "2x8"
species = "Southern Pine"
grade = "No.2"
between = ["J2", "J5"]
along = "20 in"
fasteners = 5
"""
RAW = tomllib.loads(file_of(DEMO).read_text(encoding="utf-8") + MORE)
LIBRARY_WORDS = re.compile(
    r"[Pp]ydantic|[Ii]nput should|valid (integer|string|tuple|list|dictionary|number|boolean|date)|dictionary|tuple|"
    r"[Ii]nstance of|validation|NoneType|Traceback|object at|\b(int|str|float|bool|dict|datetime)\b|"
    r"\b(None|True|False)\b|\\x"
)
VALUES: dict[str, Any] = {
    "no unit": "42",
    "bare": 42.5,
    "wrong dimension": "42 mph",
    "unknown unit": "42 cubits",
    "comma": "1,5 ft",
    "not a number": math.nan,
    "infinite": math.inf,
    "negative": "-99999 in",
    "zero": "0 in",
    "huge": "999999999 ft",
    "digits": 10**40,
    "power": "1e9 in",
    "empty": "",
    "blank": "   ",
    "list": ["12 in", "x"],
    "numbers": [1, 2, 3],
    "table": {"a": 1},
    "NUL": "a\0b",
    "turned": "\u202e42 in",
    "switch": True,
    "date": datetime.date(2026, 11, 25),
    "long": "x" * 500,
}


def bare(annotation: Any) -> tuple[Any, tuple[Any, ...]]:
    """Type without its None, and what is annotated to it."""
    if get_origin(annotation) is Annotated:
        inner, *extras = get_args(annotation)
        plain, more = bare(inner)
        return plain, (*extras, *more)
    if get_origin(annotation) in (Union, UnionType):
        return bare(next(a for a in get_args(annotation) if a is not type(None)))
    return annotation, ()


def keys() -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Table of each key in the data, and the key."""
    for name, info in Project.model_fields.items():
        section = info.alias or name
        kinds = [a for a in (info.annotation, *get_args(info.annotation)) if isinstance(a, type)]
        for model in (kind for kind in kinds if issubclass(kind, BaseModel)):
            assert section in RAW, f"write one [{section}] into MORE, so that its keys are tried too"
            held = RAW[section]
            inner: tuple[str | int, ...] = ()
            if isinstance(held, list):
                inner = (0,)
            elif get_origin(info.annotation) is dict:
                inner = (next(iter(held)),)
            for field, about in model.model_fields.items():
                yield (section, *inner), about.alias or field


def allowed(table: tuple[str | int, ...], key: str, value: Any) -> bool:
    """Whether a value is one the key may have, by its type alone: zero of a coordinate, a number of a ratio."""
    model = next(
        kind
        for name, info in Project.model_fields.items()
        if (info.alias or name) == table[0]
        for kind in (info.annotation, *get_args(info.annotation))
        if isinstance(kind, type) and issubclass(kind, BaseModel)
    )
    info = next(f for n, f in model.model_fields.items() if (f.alias or n) == key)
    plain, extras = bare(info.annotation)
    measure = next((e for e in (*info.metadata, *extras) if isinstance(e, Measure)), None)
    if measure is not None:
        if measure.unit is NONE:
            return isinstance(value, int | float) or value == "42"
        return value == "0 in" or (isinstance(value, str) and value.endswith("mph"))
    if get_origin(plain) is Literal:
        return False
    if get_origin(plain) is tuple:
        return key == "guard_edges" and value == [1, 2, 3]
    if plain is str:
        return isinstance(value, str)
    return {bool: isinstance(value, bool), int: isinstance(value, int)}.get(plain, type(value) is plain)


def text_of(value: Any) -> str:
    """A value as TOML writes it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float) and not math.isfinite(value):
        return str(value)
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, list):
        return f"[{', '.join(text_of(item) for item in value)}]"
    if isinstance(value, dict):
        return f"{{{', '.join(f'{k} = {text_of(v)}' for k, v in value.items())}}}"
    return json.dumps(value)


def file_text(raw: dict[str, Any]) -> str:
    """A project file of data two tables deep."""
    lines = [f"{key} = {text_of(v)}" for key, v in raw.items() if not isinstance(v, dict | list)]
    for key, held in raw.items():
        if isinstance(held, list):
            for table in held:
                lines += [f"[[{key}]]", *(f"{k} = {text_of(v)}" for k, v in table.items())]
        elif isinstance(held, dict):
            named = all(isinstance(v, dict) for v in held.values()) and held
            for header, table in (
                {f"{key}.{n}": t for n, t in held.items()} if named else {key: held}
            ).items():
                lines += [f"[{header}]", *(f"{k} = {text_of(v)}" for k, v in table.items())]
    return "\n".join(lines)


def changed(table: tuple[str | int, ...], key: str, value: Any) -> str:
    node: Any = RAW
    for step in table:
        node = node[step]
    before = dict(node)
    node[key] = value
    try:
        return file_text(RAW)
    finally:
        node.clear()
        node.update(before)


def refusals(text: str) -> list[str]:
    try:
        parse_project(text, "demo.toml")
    except ProjectError as error:
        return error.sentences
    return []


KEYS = list(keys())


def test_the_file_itself_is_accepted() -> None:
    assert refusals(file_text(RAW)) == []
    assert len(KEYS) > 120


@pytest.mark.parametrize("kind", VALUES)
def test_a_value_of_the_wrong_kind(kind: str) -> None:
    value = VALUES[kind]
    for table, key in KEYS:
        found = refusals(changed(table, key, value))
        where = f"{table} {key} = {value!r}"
        for sentence in found:
            assert re.match(r"demo\.toml(, line \d+)?: [^:]+", sentence), where
            assert re.search(r"[^.]\.$", sentence), (where, sentence)
            assert sentence.isprintable(), (where, sentence)
            assert not LIBRARY_WORDS.search(sentence), (where, sentence)
        if not found:
            assert allowed(table, key, value), f"accepted without a word: {where}"
            continue
        ours = [s for s in found if re.search(rf"\b{re.escape(key)}\b", s)]
        assert ours, (where, found)
        if not isinstance(value, list | dict) and not allowed(table, key, value):
            assert any(shown(value) in s for s in ours), (where, ours)


@pytest.mark.parametrize("kind", ["unknown unit", "NUL"])
def test_the_command_refuses_with_exit_2(
    kind: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "demo.toml"
    refused = 0
    for table, key in KEYS:
        text = changed(table, key, VALUES[kind])
        if refusals(text):
            path.write_text(text, encoding="utf-8")
            assert main(["check", str(path)]) == 2
            said = capsys.readouterr()
            assert said.out == ""
            assert key in said.err
            refused += 1
    assert refused > 60


@pytest.mark.parametrize("key", [key for key in RAW if key not in ("format", "demonstration")])
def test_a_section_of_the_wrong_kind(key: str) -> None:
    for value in ("text", 3, True, [], ["text"], [[1]], {"a": 1}, [{"a": 1}], datetime.date(2026, 1, 1)):
        raw = {**RAW, key: value}
        text = file_text({k: v for k, v in raw.items() if k != key}).replace(
            "format = 2", f"format = 2\n{key} = {text_of(value)}"
        )
        found = refusals(text)
        if not found:
            assert value == [], (key, value)
            assert key not in ("support", "beam", "joists")
        for sentence in found:
            assert not LIBRARY_WORDS.search(sentence), sentence
            assert re.search(r"[^.]\.$", sentence), sentence
