"""Project files as a hurried hand leaves them, each drawn from its number: the same number gives the same file.

A file starts from a shipped project or an arrangement and gets one to five changes that know the file's structure:
a part pasted again a little off, moved, turned round, left out or renamed; a reference that points elsewhere; a key
that the model knows set to a value inside, at or past its limits; a part that the file did not have; garbage.
"""

from __future__ import annotations

import copy
import random
import re
import tomllib
from functools import cache
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

from annotated_types import Ge, Le
from pydantic import BaseModel

from bolewright.paths import shipped
from bolewright.platform.project import Measure, Project
from bolewright.units import INCH, NONE, ReadError, read

Raw = dict[str, Any]
_TESTS = Path(__file__).parent.parent
_OFFSETS = (0.0, 0.01, 0.1, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 12.0, 24.0, 120.0)  # in
_NAMED = ("bolt", "post", "footing", "connection", "material", "strut")
_LISTED = (
    "tree", "support", "beam", "joists", "blocking", "brace", "diagonal", "wall", "load_area", "point_load", "guard",
    "gate", "ground", "as_built", "reading", "trunk_opening", "limb", "outline", "price",
)  # fmt: skip
_REFERENCES = (
    "mark", "tree", "bolt", "post", "footing", "hanger", "support", "beam", "strut", "member", "joists", "around",
    "over", "foot",
)  # fmt: skip
_SECTIONS = (
    "2x4",
    "2x6",
    "2x8",
    "2x10",
    "2x12",
    "4x4",
    "4x12",
    "6x6",
    "8x8",
    "1x4",
    "5/4x6",
    "45x195 mm",
    "30x30 in",
)
_SPECIES = (
    "Southern Pine",
    "Douglas Fir-Larch",
    "Hem-Fir",
    "Spruce-Pine-Fir",
    "Redwood",
    "white oak",
    "bur oak",
)
_GRADES = ("No.1", "No.2", "No.3", "Stud", "Construction", "Select Structural")
_GARBAGE: tuple[Any, ...] = (
    None, True, -1, 0, 10**30, 1e308, float("nan"), float("inf"), "", "x", "0 in", "-0 in", "nan in", "1e400 ft",
    "9**9 ft", "12", "12 parsecs", "½ in", "\u202e2x8", "a" * 500, [], [[]], [["0 in", "0 in"]], {}, {"mark": "X"},
)  # fmt: skip


@cache
def seeds() -> dict[str, Raw]:
    """Files that the changes start from, by name."""
    folders = [
        _TESTS / "platform" / "arrangements",
        _TESTS / "platform" / "cases",
        _TESTS / "audit" / "projects",
    ]
    files = [
        *shipped("calcsheets").glob("*.toml"),
        *(file for folder in folders for file in folder.glob("*.toml")),
    ]
    return {path.stem: tomllib.loads(path.read_text("utf-8")) for path in sorted(files)}


def file_text(number: int) -> str:
    """Text of the file with a number."""
    draw = random.Random(number)
    raw = copy.deepcopy(seeds()[draw.choice(sorted(seeds()))])
    for _ in range(draw.choice((1, 1, 1, 2, 2, 3, 5))):
        draw.choice(_CHANGES)(draw, raw)
    text = to_toml(raw)
    return _scrambled(draw, text) if draw.random() < 0.03 else text


# ---------------------------------------------------------------------------------------------------------
# Changes of parts


def _part(draw: random.Random, raw: Raw, kinds: tuple[str, ...] = _LISTED) -> tuple[list[Any], int] | None:
    """A list of parts of the file and the place of one in it; None where it has none of these kinds."""
    there = [kind for kind in kinds if isinstance(raw.get(kind), list) and raw[kind]]
    if not there:
        return None
    parts = raw[draw.choice(there)]
    return parts, draw.randrange(len(parts))


def _pasted_again(draw: random.Random, raw: Raw) -> None:
    """A part once more, under another mark or the same, a little to one side."""
    if found := _part(draw, raw):
        parts, at = found
        again = copy.deepcopy(parts[at])
        if isinstance(again, dict):
            if "mark" in again and draw.random() < 0.9:
                again["mark"] = (
                    f"{again['mark']}b"[:12] if parts is not raw.get("joists") else draw.choice("KQRB")
                )
            _shift(draw, again)
            parts.insert(draw.randint(0, len(parts)), again)


def _moved(draw: random.Random, raw: Raw) -> None:
    if (found := _part(draw, raw)) and isinstance(part := found[0][found[1]], dict):
        _shift(draw, part)


def _turned(draw: random.Random, raw: Raw) -> None:
    """A line with its ends exchanged, or one of its ends put where another part begins or ends."""
    if (found := _part(draw, raw, ("beam", "diagonal"))) and isinstance(part := found[0][found[1]], dict):
        if draw.random() < 0.5:
            part["from"], part["to"] = part.get("to"), part.get("from")
        else:
            points = [
                p[key] for p in raw["beam"] if isinstance(p, dict) for key in ("from", "to") if key in p
            ]
            points += [p["at"] for p in raw["support"] if isinstance(p, dict) and "at" in p]
            part[draw.choice(("from", "to"))] = copy.deepcopy(draw.choice(points))


def _left_out(draw: random.Random, raw: Raw) -> None:
    if found := _part(draw, raw):
        del found[0][found[1]]


def _in_other_order(draw: random.Random, raw: Raw) -> None:
    if found := _part(draw, raw):
        draw.shuffle(found[0])


def _renamed(draw: random.Random, raw: Raw) -> None:
    """A mark or a reference that is another part's, or nobody's."""
    if (found := _part(draw, raw)) and isinstance(part := found[0][found[1]], dict):
        keys = [k for k in part if k in _REFERENCES]
        if keys:
            part[draw.choice(keys)] = draw.choice(_names(raw))


def _corner(draw: random.Random, raw: Raw) -> None:
    """A corner of the outline or an opening moved, doubled or left out; or an opening more."""
    platform = raw.get("platform")
    if not isinstance(platform, dict):
        return
    rings = [platform.get("outline"), *_list(platform.get("openings"))]
    ring = draw.choice([r for r in rings if isinstance(r, list) and r] or [[["0 in", "0 in"]]])
    at = draw.randrange(len(ring))
    match draw.randrange(4):
        case 0:
            ring[at] = [_off(draw, x) for x in _list(ring[at])]
        case 1:
            ring.insert(at, copy.deepcopy(ring[at]))
        case 2:
            del ring[at]
        case _:
            x, y, a = draw.uniform(-60, 60), draw.uniform(0, 120), draw.choice((2.0, 12.0, 30.0))
            hole = [
                [f"{x + i * a:.2f} in", f"{y + j * a:.2f} in"] for i, j in ((0, 0), (1, 0), (1, 1), (0, 1))
            ]
            platform["openings"] = [*_list(platform.get("openings")), hole]


def _shift(draw: random.Random, part: Raw) -> None:
    """A part moved as a whole along one axis, or one of its numbers changed a little."""
    places = [key for key in ("at", "from", "to") if isinstance(part.get(key), list)]
    step, axis = draw.choice(_OFFSETS) * draw.choice((1, -1)), draw.randrange(2)
    if not places:
        _slip(draw, part)
    one = draw.choice((places, places[:1]))
    for key in one:
        if len(part[key]) == 2:
            part[key][axis] = _plus(part[key][axis], step)


# ---------------------------------------------------------------------------------------------------------
# Changes of values


def _slipped(draw: random.Random, raw: Raw) -> None:
    """A value anywhere in the file that a slip of the pen may have given."""
    tables = [*(raw[k] for k in raw if isinstance(raw[k], dict))]
    tables += [
        t for k in _NAMED if isinstance(raw.get(k), dict) for t in raw[k].values() if isinstance(t, dict)
    ]
    tables += [t for k in _LISTED if isinstance(raw.get(k), list) for t in raw[k] if isinstance(t, dict)]
    _slip(draw, draw.choice([t for t in tables if t] or [raw]))


def _slip(draw: random.Random, table: Raw) -> None:
    if not table:
        return
    key = draw.choice(list(table))
    table[key] = _other(draw, key, table[key])


def _other(draw: random.Random, key: str, value: Any) -> Any:
    if key == "section":
        return draw.choice(_SECTIONS)
    if key in ("species", "grade"):
        return draw.choice(_SPECIES if key == "species" else _GRADES)
    if isinstance(value, list) and value:
        value[draw.randrange(len(value))] = _other(draw, "", draw.choice(value))
        return value
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return draw.choice((0, 1, 2, 3, 4, 5, 6, 60))
    if isinstance(value, str) and re.match(r"-?[\d.]", value):
        return _off(draw, value)
    return value


def _off(draw: random.Random, text: Any) -> Any:
    """A quantity a little off, far off, negative, or one of the round numbers."""
    if not isinstance(text, str) or not (match := re.match(r"[-\d. /'\"]+", text)):
        return text
    try:
        number = read(match[0].strip() or "0", NONE)
    except ReadError:
        number = draw.uniform(0, 100)
    unit = text[match.end() :] or ("in" if "'" in text or '"' in text else "")
    factor = draw.choice((0.0, -1.0, 0.1, 0.5, 0.9, 0.999, 1.001, 1.1, 2.0, 10.0))
    return f"{number * factor + draw.choice((0, 0, 0, 1, -1, 4)):.4f} {unit}".strip()


def _known_key(draw: random.Random, raw: Raw) -> None:
    """A key that the model knows, in a table of the file or a new one, inside, at or just past its limits."""
    top, info = draw.choice([(i.alias or n, i) for n, i in Project.model_fields.items()])
    models = [m for m in _models(info.annotation) if m is not Project]
    if not models:
        return
    model = models[0]
    tables = _tables(raw, top)
    if not tables or draw.random() < 0.15:
        tables = [_new_table(draw, raw, top, model)]
    table = draw.choice(tables)
    name, field = draw.choice(list(model.model_fields.items()))
    table[field.alias or name] = _value(draw, raw, name, field)


def _new_table(draw: random.Random, raw: Raw, top: str, model: type[BaseModel]) -> Raw:
    """A part with every key that it must have, and some of the others."""
    table: Raw = {}
    for name, field in model.model_fields.items():
        if field.is_required() or draw.random() < 0.2:
            table[field.alias or name] = _value(draw, raw, name, field)
    if top in _LISTED:
        raw.setdefault(top, [])
        if isinstance(raw[top], list):
            raw[top].append(table)
    elif top in _NAMED:
        raw.setdefault(top, {})
        if isinstance(raw[top], dict):
            raw[top][draw.choice(("main", "N1", "F22", "P6"))] = table
    else:
        raw[top] = table
    return table


def _value(draw: random.Random, raw: Raw, name: str, field: Any) -> Any:
    """A value for a key, by what its annotation allows."""
    if name in ("section", "species", "grade"):
        return _other(draw, name, "")
    measure = next((m for m in _inside(field, Measure)), None)
    if measure is not None:
        low = measure.least if measure.least is not None else 0.001 if measure.positive else -100.0
        high = measure.most if measure.most is not None else 1000.0
        near = min(high, max(low, 10.0))
        chosen = draw.choice(
            (low, high, near, draw.uniform(low, high), draw.uniform(low, near), low - 1, high * 1.01)
        )
        return f"{chosen:.6g} {measure.unit.label}".strip() if measure.unit is not NONE else chosen
    choices = [
        a for part in _parts_of(field.annotation) if get_origin(part) is Literal for a in get_args(part)
    ]
    if choices:
        return draw.choice(choices)
    limits = [m for m in field.metadata if isinstance(m, Ge | Le)]
    if int in _parts_of(field.annotation) or limits:
        return draw.choice((0, 1, 2, 3, 4, 5, 6, 60))
    if bool in _parts_of(field.annotation):
        return draw.random() < 0.5
    if "tuple" in str(field.annotation):
        return _several(draw, raw, name)
    return draw.choice(_names(raw)) if "str" in str(field.annotation) else "2026-02-28"


def _several(draw: random.Random, raw: Raw, name: str) -> Any:
    """A point, a ring of points, lengths or marks."""

    def point() -> list[str]:
        return [f"{draw.uniform(-120, 160):.2f} in", f"{draw.uniform(-60, 160):.2f} in"]

    if name in ("start", "end", "at"):
        return point()
    if name in ("corners", "region", "points", "outline"):
        x, y, a, b = draw.uniform(-60, 60), draw.uniform(0, 120), draw.uniform(1, 80), draw.uniform(1, 80)
        return [[f"{x + i * a:.2f} in", f"{y + j * b:.2f} in"] for i, j in ((0, 0), (1, 0), (1, 1), (0, 1))]
    if name in ("beams", "between"):
        return draw.sample(_names(raw), min(2, len(_names(raw))))
    if name in ("guard_edges", "edges"):
        return [draw.randint(1, 5) for _ in range(draw.randint(0, 4))]
    return [f"{draw.uniform(1, 300):.2f} in" for _ in range(draw.randint(0, 6))]


def _garbage(draw: random.Random, raw: Raw) -> None:
    place: Any = raw
    for _ in range(draw.randint(0, 3)):
        inner = [
            v
            for v in (place.values() if isinstance(place, dict) else place)
            if isinstance(v, dict | list) and v
        ]
        place = draw.choice(inner) if inner else place
    key = draw.choice(list(place)) if isinstance(place, dict) else draw.randrange(len(place))
    if draw.random() < 0.3:
        del place[key]
    else:
        place[key] = copy.deepcopy(draw.choice(_GARBAGE))


def _scrambled(draw: random.Random, text: str) -> str:
    """A text with a stretch cut out and something put in its place."""
    start = draw.randrange(len(text))
    filler = draw.choice(
        ("", "[", "]" * 40, "[" * 2000, '"', "=", "\0", "\ufeff", "[[support]]\n", "1e999", "é\n")
    )
    return text[:start] + filler + text[start + draw.randrange(300) :]


# ---------------------------------------------------------------------------------------------------------
# Helpers


def _names(raw: Raw) -> list[str]:
    marks = [p["mark"] for k in _LISTED for p in _list(raw.get(k)) if isinstance(p, dict) and "mark" in p]
    named = [name for k in _NAMED if isinstance(raw.get(k), dict) for name in raw[k]]
    return [*(m for m in marks if isinstance(m, str)), *named, "NOPE", "J1", "J2", "GRADE"]


def _tables(raw: Raw, top: str) -> list[Raw]:
    node = raw.get(top)
    inside = (
        node.values()
        if isinstance(node, dict) and top in _NAMED
        else node
        if isinstance(node, list)
        else [node]
    )
    return [table for table in inside if isinstance(table, dict)]


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []


def _plus(text: Any, step: float) -> Any:
    try:
        return f"{read(text, INCH) + step:.4f} in"
    except ReadError:
        return text


def _parts_of(annotation: Any) -> list[Any]:
    """An annotation and everything inside it."""
    return [annotation, *(part for arg in get_args(annotation) for part in _parts_of(arg))]


def _models(annotation: Any) -> list[type[BaseModel]]:
    return [p for p in _parts_of(annotation) if isinstance(p, type) and issubclass(p, BaseModel)]


def _inside(field: Any, kind: type[Any]) -> list[Any]:
    parts = [m for part in _parts_of(field.annotation) for m in getattr(part, "__metadata__", ())]
    return (
        [m for m in [*field.metadata, *parts] if isinstance(m, kind)]
        if "tuple" not in str(field.annotation)
        else []
    )


_CHANGES = (
    _pasted_again, _pasted_again, _moved, _moved, _turned, _left_out, _in_other_order, _renamed, _corner, _slipped,
    _slipped, _slipped, _known_key, _known_key, _known_key, _known_key, _garbage,
)  # fmt: skip


# ---------------------------------------------------------------------------------------------------------
# TOML


def to_toml(raw: Raw) -> str:
    """A file's data as TOML, with every table inline below the top: short, and it need not be pretty."""
    lines = [
        f"{_key(key)} = {_toml(value)}" for key, value in raw.items() if not isinstance(value, dict | list)
    ]
    for key, value in raw.items():
        if isinstance(value, list) and value and all(isinstance(item, dict) for item in value):
            for item in value:
                lines += [f"[[{_key(key)}]]", *(f"{_key(k)} = {_toml(v)}" for k, v in item.items())]
        elif isinstance(value, list):
            lines.insert(0, f"{_key(key)} = {_toml(value)}")
        elif isinstance(value, dict):
            lines += [f"[{_key(key)}]", *(f"{_key(k)} = {_toml(v)}" for k, v in value.items())]
    return "\n".join(lines) + "\n"


def _toml(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return (
            '"'
            + "".join(c if c.isprintable() and c not in '"\\' else f"\\u{ord(c):04x}" for c in value)
            + '"'
        )
    if isinstance(value, list):
        return f"[{', '.join(map(_toml, value))}]"
    if isinstance(value, dict):
        return f"{{{', '.join(f'{_key(k)} = {_toml(v)}' for k, v in value.items())}}}"
    return '""' if value is None else str(value)


def _key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else _toml(key)
