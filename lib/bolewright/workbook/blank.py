"""A project file in which nothing is given yet: its sections, what each key means, what must be given."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import get_args

from bolewright.platform.project.fields import Format
from bolewright.signs import begun_small
from bolewright.workbook.schema import FieldKind, FieldSpec, SectionSpec, Shape, sections

WIDTH = 110
# Sections that hardly a platform on a tree does without: of the others only what must be given is listed.
_USUAL = ("code", "tree", "bolt", "post", "footing", "connection", "brace", "diagonal")
_HEAD = """\
# A new project: nothing is given in it yet, and nobody's numbers stand in it but your own.
#
# Take the # away in front of a key and write its value. "bolewright check" of this file names what must still be given,
# with its line; "bolewright workbook" opens the same file as a form.
# Lengths and the like are text with a unit: 7' 2 1/2", 7.21 ft, 2200 mm, 40 psf. Points in plan: ["3 ft", "18 in"].
# Measure first: the trees, their places and girths, the lie of the ground. Ask first: the building department for code,
# frost, snow and wind; an arborist for the trees.

"""


def blank_project() -> str:
    """Text of a project file without a value: each section with its keys as remarks, those first that must be given."""
    parts = [_HEAD + f"format = {get_args(get_args(Format)[0])[0]}\n"]
    ordered = sorted(sections(), key=lambda spec: (not spec.needed, spec.key not in _USUAL))
    parts += ["\n".join(_section(spec)) + "\n" for spec in ordered]
    return "\n".join(parts)


def _section(spec: SectionSpec) -> Iterator[str]:
    header = {
        Shape.ONE: f"[{spec.key}]",
        Shape.LIST: f"[[{spec.key}]]",
        Shape.NAMED: f"[{spec.key}.NAME]",
    }[spec.shape]
    again = {
        Shape.ONE: "",
        Shape.LIST: f" Once for each {spec.part}.",
        Shape.NAMED: " Under a name of your own.",
    }
    yield f"# {spec.title}.{again[spec.shape]}"
    yield header if spec.needed else f"#{header}"
    whole = spec.needed or spec.key in _USUAL
    for field in sorted(spec.fields, key=lambda f: not f.required):
        if whole or field.required:
            yield from _field(field)


def _field(field: FieldSpec) -> Iterator[str]:
    """One key as a remark; more lines of its meaning stand under one another."""
    key = f"#{field.key} = {_place(field)}"
    means = " ".join(field.help.split())
    words = f"{'must be given: ' if field.required else ''}{begun_small(means)}".rstrip(": .")
    if not words:
        yield key
        return
    left = f"{key:<26}  # "
    lines = textwrap.wrap(words, max(40, WIDTH - len(left)), break_long_words=False, break_on_hyphens=False)
    yield f"{left}{lines[0]}"
    yield from (f"{'#':<26}  # {line}" for line in lines[1:])


def _place(field: FieldSpec) -> str:
    """What stands where the value will: the way a value of its kind is written."""
    if field.kind is FieldKind.CHOICE:
        return " or ".join(f'"{choice}"' for choice in field.choices[:6])
    return {
        FieldKind.QUANTITY: '""',
        FieldKind.TEXT: '""',
        FieldKind.YES_NO: "true or false",
        FieldKind.POINT: '["", ""]',
        FieldKind.CORNERS: '[["", ""], ["", ""], ["", ""]]',
        FieldKind.RINGS: '[[["", ""], ["", ""], ["", ""]]]',
        FieldKind.COUNTS: "[]",
        FieldKind.MARKS: "[]",
        FieldKind.DATE: "2026-01-31",
    }.get(field.kind, "")
