"""Reads a file of requirements: TOML text to :class:`Needs`, every fault as one sentence with its line."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterator
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from shapely.geometry import Polygon

from bolewright.platform.file.fault_words import in_words, path_words
from bolewright.platform.file.file_lines import FileLines, Location
from bolewright.platform.file.reading import ProjectError, parse_toml
from bolewright.proposing.needs import Needs
from bolewright.signs import sentence
from bolewright.tree.species import SpeciesError, trunk_wood

_HEADERS = {"tree", "no_post", "property_line", "ground"}


def parse_needs(text: str, name: str = "needs.toml") -> Needs:
    """The requirements that ``text`` holds; ProjectError says in sentences what is wrong with it."""
    raw = parse_toml(text, name)
    if not raw:
        raise ProjectError([f"{name} is empty: it wants format = 2, [floor] and [place] at least."])
    found, faults = find_need_faults(raw)
    if found is None:
        lines = FileLines(text)
        raise ProjectError([_said(name, lines, where, words, raw) for where, words in faults])
    return found


def find_need_faults(raw: dict[str, Any]) -> tuple[Needs | None, list[tuple[Location, str]]]:
    """The requirements in a file's data, or None and what is wrong: where, and a sentence without its stop."""
    try:
        needs = Needs.model_validate(raw)
    except ValidationError as error:
        return None, list(dict.fromkeys(_in_words(f) for f in error.errors(include_url=False)))
    faults = list(_contradictions(needs))
    return (None if faults else needs), faults


def _said(name: str, lines: FileLines, where: Location, words: str, raw: Any) -> str:
    number = lines.of(where)
    line = f", line {number}" if number else ""
    return f"{name}{line}: {path_words(where, raw)}: {sentence(words)}"


def _in_words(fault: Any) -> tuple[Location, str]:
    where: Location = tuple(fault["loc"])
    if fault["type"] == "missing" and isinstance(where[-1], str):
        if len(where) == 1:
            return (
                where,
                f"this section is missing: write {_header(where[0])}, and its keys in the lines below"
                if (where[0] != "format")
                else "this key is missing: write format = 2 above the first header",
            )
        return where, "this key is missing and must be given"
    if fault["type"] == "extra_forbidden":
        known = [info.alias or key for key, info in _model_at(where[:-1]).model_fields.items()]
        near = difflib.get_close_matches(str(where[-1]).lower(), known, n=1, cutoff=0.7)
        hint = f"the nearest is {near[0]}" if near else f"known here: {', '.join(known)}"
        return where, f"there is no such key here; {hint}"
    return in_words(fault)


def _header(key: str | int) -> str:
    return f"[[{key}]]" if key in _HEADERS else f"[{key}]"


def _model_at(where: Location) -> type[BaseModel]:
    if where:
        for key, info in Needs.model_fields.items():
            if (info.alias or key) == where[0]:
                for candidate in (info.annotation, *get_args(info.annotation)):
                    if isinstance(candidate, type) and issubclass(candidate, BaseModel):
                        return candidate
    return Needs


def _contradictions(needs: Needs) -> Iterator[tuple[Location, str]]:
    floor = needs.floor
    given = [
        floor.outline is not None,
        floor.width is not None or floor.depth is not None,
        floor.area is not None,
    ]
    if sum(given) != 1:
        yield ("floor",), "write one of outline, or width and depth, or area"
    elif given[1] and (floor.width is None or floor.depth is None):
        lacking = "depth" if floor.depth is None else "width"
        yield ("floor", lacking), "this key is missing: width and depth go together"
    if floor.outline is not None and not Polygon(floor.outline).is_valid:
        yield ("floor", "outline"), "its edges cross each other: write the corners in order round it"
    marks = [tree.mark for tree in needs.trees]
    for i, tree in enumerate(needs.trees):
        if tree.mark in marks[:i]:
            yield ("tree", i, "mark"), f"{tree.mark} is the mark of another tree"
        try:
            trunk_wood(tree.species)
        except SpeciesError as error:
            yield ("tree", i, "species"), str(error).rstrip(".")
        if (tree.sway_seen is None) != (tree.sway_seen_at is None):
            lacking = "sway_seen" if tree.sway_seen is None else "sway_seen_at"
            yield ("tree", i, lacking), "this key is missing: sway_seen and sway_seen_at go together"
        if tree.height is not None and tree.height <= needs.floor.height:
            yield ("tree", i, "height"), "the tree is no higher than the floor"
        for j, other in enumerate(needs.trees[:i]):
            if math.dist(tree.at, other.at) < tree.radius + other.radius:
                yield ("tree", i, "at"), f"its trunk stands in that of {needs.trees[j].mark}"
    for i, line in enumerate(needs.property_lines):
        if math.dist(line.start, line.end) < 1:
            yield ("property_line", i, "to"), "it equals from: a line has two points"
    for i, zone in enumerate(needs.no_posts):
        if not Polygon(zone.corners).is_valid:
            yield ("no_post", i, "corners"), "its edges cross each other: write the corners in order round it"
    low = min((level.level for level in needs.ground), default=0.0)
    if floor.height - max((level.level for level in needs.ground), default=0.0) < 24:
        yield ("floor", "height"), "less than 2 ft are left under the floor where the ground is highest"
    if floor.height - low > 240:
        yield ("floor", "height"), "the floor is more than 20 ft over the lowest ground"
    if needs.access.edge > _edges(needs):
        yield ("access", "edge"), f"the outline has edges 1 to {_edges(needs)}"


def _edges(needs: Needs) -> int:
    return len(needs.floor.outline) if needs.floor.outline is not None else 4
