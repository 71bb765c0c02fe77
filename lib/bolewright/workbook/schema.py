"""What the form shows: the sections and fields of the project file, read off its model."""

from __future__ import annotations

import datetime
import types
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, StrEnum, auto
from functools import cache
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from bolewright.platform.project import Measure, Point, Project


class FieldKind(Enum):
    """How a field is typed and written in the file."""

    QUANTITY = auto()
    NUMBER = auto()
    COUNT = auto()
    TEXT = auto()
    CHOICE = auto()
    YES_NO = auto()
    DATE = auto()
    POINT = auto()
    CORNERS = auto()
    RINGS = auto()
    COUNTS = auto()
    MARKS = auto()


class Shape(Enum):
    """How often a section stands in the file."""

    ONE = auto()
    LIST = auto()
    NAMED = auto()


@dataclass(frozen=True)
class FieldSpec:
    """One field: its key in the file, its name in the model, and what the form must know of it."""

    key: str
    name: str
    kind: FieldKind
    help: str
    required: bool
    default: Any
    measure: Measure | None = None
    choices: tuple[str, ...] = ()
    refers_to: str | None = None

    @property
    def label(self) -> str:
        """The key in words, with more of them where the key alone says too little."""
        return _LABELS.get(self.key, self.key.replace("_", " "))


@dataclass(frozen=True)
class SectionSpec:
    """One section of the file: its key, title, how often it stands there, and its fields."""

    key: str
    title: str
    part: str
    shape: Shape
    fields: tuple[FieldSpec, ...]
    needed: bool

    def field(self, key: str) -> FieldSpec:
        """Field of that key."""
        return next(f for f in self.fields if f.key == key)


_IN_ORDER = {
    "title": ("Title block", "title"),
    "code": ("Building code", "code"),
    "site": ("Ground and climate", "site"),
    "loads": ("Loads", "loads"),
    "load_area": ("Parts of the deck with a load of their own", "load area"),
    "guard": ("Guards as parts", "guard"),
    "gate": ("Gates in the guard", "gate"),
    "ground": ("Ground levels beside the platform", "ground level"),
    "point_load": ("Loads at one place: things, swings", "load at one place"),
    "platform": ("Platform", "platform"),
    "material": ("Materials of your own", "material"),
    "decking": ("Decking", "decking"),
    "joists": ("Joists", "field of joists"),
    "blocking": ("Rims, blocking and spacers", "rim, row or spacer"),
    "connection": ("Hangers", "hanger"),
    "beam": ("Beams", "beam"),
    "support": ("Supports", "support"),
    "tree": ("Trees", "tree"),
    "bolt": ("Kinds of tree bolt", "kind of bolt"),
    "post": ("Kinds of post", "kind of post"),
    "strut": ("Kinds of knee brace from the trunk", "kind of knee brace"),
    "brace": ("Braces", "brace"),
    "diagonal": ("Diagonals in the plane of the floor", "diagonal"),
    "crossed_rods": ("Crossed rods between posts", "pair of crossed rods"),
    "wall": ("Walls and screens", "wall"),
    "footing": ("Kinds of footing", "kind of footing"),
    "trunk_opening": ("Openings at trunks, how they are closed", "opening at a trunk"),
    "limb": ("Limbs and leaning trunks beside the platform", "limb"),
    "limits": ("Deflection and drift limits", "limits"),
    "outline": ("Outlines of a trunk, as measured", "outline"),
    "as_built": ("As built", "measured place"),
    "reading": ("Levels read on the day", "reading"),
    "stairs": ("Stairs", "stairs"),
    "ladder": ("Ladder or ship's ladder", "ladder"),
    "hatch": ("Hatch", "hatch"),
    "stock": ("Timber stock for the cut list", "stock"),
    "price": ("Prices", "price"),
}
_LABELS = {
    "F_b": "bending F b",
    "F_t": "tension F t",
    "F_v": "shear F v",
    "F_c_perp": "compression across the grain F c⊥",
    "F_c": "compression along the grain F c",
    "E": "modulus of elasticity E",
    "E_min": "modulus for stability E min",
    "G": "specific gravity G",
    "F_y": "yield strength F y",
    "F_u": "tensile strength F u",
    "f_c": "concrete strength f'c",
    "K_e": "effective length factor K e",
    "K_zt": "topographic factor K zt",
    "wet": "wet (in the weather)",
    "incised": "incised (for treatment)",
    "bark": "bark, its thickness",
    "service": "service (years to the next look)",
    "growth": "growth of the radius",
    "margin": "margin round the trunk",
    "first": "first joist at",
    "between": "between (first and last)",
    "over": "over (beam under the row)",
    "along": "along (place of the row)",
    "past": "past (beyond the last joist)",
    "last": "last joist at",
    "pad": "pad (concrete under the post)",
    "doubled": "doubled (lateral soil pressure)",
    "constrained": "constrained (by a floor at grade)",
    "person": "person (one, heavy)",
    "at": "place in plan",
    "to": "to, in plan",
    "from": "from, in plan",
}
_REFERENCES = {
    ("support", "tree"): "tree",
    ("support", "bolt"): "bolt",
    ("support", "post"): "post",
    ("support", "footing"): "footing",
    ("support", "foot"): "support",
    ("limb", "tree"): "tree",
    ("support", "strut"): "strut",
    ("beam", "hanger"): "connection",
    ("joists", "hanger"): "connection",
    ("joists", "beams"): "beam",
    ("blocking", "joists"): "joists",
    ("blocking", "over"): "beam",
    ("blocking", "hanger"): "connection",
    **{
        (key, "material"): "material"
        for key in (
            "decking",
            "joists",
            "beam",
            "blocking",
            "post",
            "strut",
            "brace",
            "stairs",
            "ladder",
            "guard",
            "gate",
        )
    },
    ("stairs", "hanger"): "connection",
    ("hatch", "hanger"): "connection",
    ("hatch", "joists"): "joists",
    ("brace", "support"): "support",
    ("brace", "beam"): "beam",
    ("crossed_rods", "from_post"): "support",
    ("crossed_rods", "to_post"): "support",
}


@cache
def sections() -> tuple[SectionSpec, ...]:
    """Sections of the project file in load-path order, those this list does not know at the end."""
    found = dict(_found())
    known = [found.pop(key) for key in _IN_ORDER if key in found]
    return (*known, *found.values())


def section(key: str) -> SectionSpec:
    """Section of that key; KeyError when the file has none of it."""
    for spec in sections():
        if spec.key == key:
            return spec
    raise KeyError(key)


def _found() -> Iterator[tuple[str, SectionSpec]]:
    for name, info in Project.model_fields.items():
        shape, model = _section_model(info.annotation)
        if model is None:
            continue
        key = info.alias or name
        title, part = _IN_ORDER.get(key, (key.replace("_", " ").capitalize(), key.replace("_", " ")))
        least = any(getattr(extra, "min_length", 0) for extra in info.metadata)
        fields = tuple(_field(key, n, f) for n, f in model.model_fields.items())
        yield key, SectionSpec(key, title, part, shape, fields, needed=info.is_required() or least)


def _section_model(annotation: Any) -> tuple[Shape, type[BaseModel] | None]:
    origin, inner = get_origin(annotation), get_args(annotation)
    if _is_model(annotation):
        return Shape.ONE, annotation
    if origin is tuple and inner and _is_model(inner[0]):
        return Shape.LIST, inner[0]
    if origin is dict and _is_model(inner[1]):
        return Shape.NAMED, inner[1]
    if origin in (Union, types.UnionType):
        return _section_model(next(a for a in inner if a is not type(None)))
    return Shape.ONE, None


def _is_model(annotation: Any) -> bool:
    return isinstance(annotation, type) and issubclass(annotation, BaseModel)


def _field(section_key: str, name: str, info: FieldInfo) -> FieldSpec:
    key = info.alias or name
    plain, extras = _plain(info.annotation)
    measure = next((e for e in (*info.metadata, *extras) if isinstance(e, Measure)), None)
    kind, choices = _kind(plain, measure)
    return FieldSpec(
        key=key,
        name=name,
        kind=kind,
        help=info.description or "",
        required=info.is_required(),
        default=None if info.is_required() else info.default,
        measure=measure,
        choices=choices,
        refers_to=_REFERENCES.get((section_key, key)),
    )


def _plain(annotation: Any) -> tuple[Any, tuple[Any, ...]]:
    """Annotation without its None and its extras, and those extras."""
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *extras = get_args(annotation)
        plain, more = _plain(inner)
        return plain, (*extras, *more)
    if origin in (Union, types.UnionType):
        return _plain(next(a for a in get_args(annotation) if a is not type(None)))
    return annotation, ()


def _kind(plain: Any, measure: Measure | None) -> tuple[FieldKind, tuple[str, ...]]:
    if measure is not None:
        return (FieldKind.QUANTITY if measure.unit.label else FieldKind.NUMBER), ()
    if get_origin(plain) is Literal:
        return FieldKind.CHOICE, tuple(str(choice) for choice in get_args(plain))
    if isinstance(plain, type) and issubclass(plain, StrEnum):
        return FieldKind.CHOICE, tuple(str(choice) for choice in plain)
    if plain is bool:
        return FieldKind.YES_NO, ()
    if plain is int:
        return FieldKind.COUNT, ()
    if plain is datetime.date:
        return FieldKind.DATE, ()
    if plain == Point:
        return FieldKind.POINT, ()
    if get_origin(plain) is tuple:
        inner = get_args(plain)[0]
        if inner == Point:
            return FieldKind.CORNERS, ()
        if inner == tuple[Point, ...]:
            return FieldKind.RINGS, ()
        return (FieldKind.COUNTS if _plain(inner)[0] is int else FieldKind.MARKS), ()
    return FieldKind.TEXT, ()
