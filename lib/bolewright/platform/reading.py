"""Reads a project file: TOML text to a :class:`Project`, every fault as one sentence with its line."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from bolewright.platform.plausible import implausible
from bolewright.platform.project import Brace, Carrier, Diagonal, JoistField, Project, Support, Timber, Tree
from bolewright.reference import TableError
from bolewright.timber.material import MaterialError, reference_values
from bolewright.timber.sections import SectionError, parse_section
from bolewright.tree.species import SpeciesError, stem_wood

_MAX_BYTES = 1_000_000
_MOST_SENTENCES = 25
Location = tuple[str | int, ...]


class ProjectError(ValueError):
    """A project file that can't be used. ``sentences`` holds one sentence per fault."""

    def __init__(self, sentences: list[str]) -> None:
        super().__init__("\n".join(sentences))
        self.sentences = sentences


def read_project(path: Path) -> Project:
    """The project in the file at ``path``; ProjectError says in sentences what is wrong with it."""
    return parse_project(read_text(path), path.name)


def read_text(path: Path) -> str:
    """Text of the file at ``path``; ProjectError when there is no readable text file there."""
    try:
        if path.is_dir():
            raise ProjectError([f"{path} is a folder, not a project file."])
        if path.exists() and not path.is_file():
            raise ProjectError([f"{path} is no ordinary file."])
        if path.stat().st_size > _MAX_BYTES:
            raise ProjectError([f"{path} is larger than 1 MB, which no project file is."])
        return path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise ProjectError([f"There is no file {path}."]) from None
    except UnicodeDecodeError:
        raise ProjectError([f"{path} is not a text file in UTF-8."]) from None
    except OSError as error:
        raise ProjectError([f"{str(path)[:200]} can't be read: {error.strerror}."]) from None


def parse_project(text: str, name: str = "project") -> Project:
    """The project that ``text`` describes; ``name`` stands in the messages."""
    try:
        raw = tomllib.loads(text)
    except RecursionError:
        raise ProjectError([f"{name} is not valid TOML: its brackets are nested too deeply."]) from None
    except ValueError as error:  # a TOMLDecodeError, or a number with thousands of digits
        raise ProjectError([f"{name} is not valid TOML: {str(error)[:200]}."]) from None
    if not raw:
        raise ProjectError([f"{name} is empty; start from a template with the command new."])
    lines = _line_finder(text)
    project, faults = find_faults(raw)
    if project is None:
        sentences = [
            f"{name}{lines(fault.where)}: {_path(fault.where, raw)}: {fault.message}"
            for fault in faults[:_MOST_SENTENCES]
        ]
        if len(faults) > _MOST_SENTENCES:
            sentences.append(f"{name}: {len(faults) - _MOST_SENTENCES} more faults are not listed.")
        raise ProjectError(sentences)
    return project


@dataclass(frozen=True)
class Fault:
    """What is wrong in one place of the file's data, in one sentence."""

    where: Location
    message: str


def find_faults(raw: dict[str, Any]) -> tuple[Project | None, tuple[Fault, ...]]:
    """The project that a file's data describes, or None and what is wrong with it."""
    try:
        project = Project.model_validate(raw)
    except ValidationError as error:
        return None, tuple(Fault(*_plain(fault)) for fault in error.errors() if not _follows(fault, error))
    faults = tuple(Fault(where, message) for where, message in _cross_checks(project))
    return (None if faults else project), faults


# ---------------------------------------------------------------------------------------------------------
# Faults in plain words

_WORDS: dict[str, Callable[[dict[str, Any]], str]] = {
    "extra_forbidden": lambda f: f"there is no such key; {_known(f)}.",
    "missing": lambda f: "this key is missing and must be given.",
    "literal_error": lambda f: f"{_shown(f['input'])} is not allowed; choose {f['ctx']['expected']}.",
    "string_pattern_mismatch": lambda f: (
        f"{_shown(f['input'])} is no mark; a mark starts with a letter and has at most 12 letters and digits."
    ),
    "greater_than_equal": lambda f: f"{_shown(f['input'])} is too small; the least is {f['ctx']['ge']}.",
    "less_than_equal": lambda f: f"{_shown(f['input'])} is too large; the most is {f['ctx']['le']}.",
    "too_short": lambda f: f"at least {f['ctx']['min_length']} must be given.",
    "too_long": lambda f: f"at most {f['ctx']['max_length']} can be given.",
    "string_too_long": lambda f: f"the text is longer than {f['ctx']['max_length']} characters.",
    "string_too_short": lambda f: "the text is empty; give one.",
}


def _plain(fault: Any) -> tuple[Location, str]:
    where: Location = tuple(fault["loc"])
    kind = fault["type"]
    if kind == "value_error":
        return where, f"{fault['ctx']['error']}."
    if kind == "missing" and isinstance(where[-1], int):
        return where, "a point is two lengths, x and y."
    if kind in _WORDS:
        return where, _WORDS[kind](fault)
    return where, f"{_shown(fault.get('input'))} is not allowed: {fault['msg'].lower()}."


def _shown(value: Any) -> str:
    """A value as it stands in a message, not too long."""
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def _follows(fault: Any, error: ValidationError) -> bool:
    """Whether a list counts as too short only because a part in it is at fault."""
    where: Location = tuple(fault["loc"])
    inside = (tuple(other["loc"]) for other in error.errors())
    return fault["type"] == "too_short" and any(
        len(o) > len(where) and o[: len(where)] == where for o in inside
    )


def _known(fault: dict[str, Any]) -> str:
    model: Any = Project
    for key in fault["loc"][:-1]:
        if isinstance(key, int) or not hasattr(model, "model_fields"):
            continue
        annotation = next((f.annotation for n, f in model.model_fields.items() if key in (n, f.alias)), None)
        inner = [a for a in getattr(annotation, "__args__", (annotation,)) if hasattr(a, "model_fields")]
        model = inner[0] if inner else model
    names = sorted(field.alias or name for name, field in model.model_fields.items())
    return f"known here: {', '.join(names)}"


def _path(where: Location, raw: Any) -> str:
    """``carrier C1, section`` rather than ``carrier.2.section``."""
    words: list[str] = []
    node = raw
    for key in where:
        node = _step(node, key)
        if isinstance(key, int):
            mark = node.get("mark") if isinstance(node, dict) else None
            words[-1] = f"{words[-1]} {mark or f'no. {key + 1}'}" if words else f"no. {key + 1}"
        else:
            words.append(str(key))
    return ", ".join(words) or "the file"


def _step(node: Any, key: str | int) -> Any:
    try:
        return node[key]
    except (KeyError, IndexError, TypeError):
        return None


def _line_finder(text: str) -> Callable[[Location], str]:
    """Function from a location in the data to `` line N``; the header's line where the key has none."""
    found: dict[Location, int] = {}
    counts: Counter[str] = Counter()
    prefix: Location = ()
    for number, line in enumerate(text.splitlines(), start=1):
        if match := re.match(r"\s*\[\[\s*([\w-]+)\s*\]\]", line):
            prefix = (match[1], counts[match[1]])
            counts[match[1]] += 1
            found.setdefault(prefix, number)
        elif match := re.match(r"\s*\[\s*([\w.-]+)\s*\]", line):
            prefix = tuple(match[1].split("."))
            found.setdefault(prefix, number)
        elif match := re.match(r"\s*([\w-]+)\s*=", line):
            found.setdefault((*prefix, match[1]), number)

    def line_of(where: Location) -> str:
        for length in range(len(where), 0, -1):
            if where[:length] in found:
                return f", line {found[where[:length]]}"
        return ""

    return line_of


# ---------------------------------------------------------------------------------------------------------
# What one part of the file says of another


def _cross_checks(project: Project) -> Iterator[tuple[Location, str]]:
    yield from _duplicates(project)
    yield from _references(project)
    yield from _materials(project)
    yield from _price_faults(project)
    yield from implausible(project)
    for index, tree in enumerate(project.trees):
        if (tree.girth is None) == (tree.diameter is None):
            yield ("tree", index), "give either girth or diameter, and not both."
        try:
            stem_wood(tree.species)
        except SpeciesError as error:
            yield ("tree", index, "species"), f"{error}."
    edges = len(project.platform.outline)
    for edge in project.loads.guard_edges:
        if not 1 <= edge <= edges:
            yield (
                ("loads", "guard_edges"),
                f"{edge} is no edge of the outline; its edges are numbered 1 to {edges} "
                "(edge 1 runs from the first corner to the second).",
            )


def _duplicates(project: Project) -> Iterator[tuple[Location, str]]:
    seen: dict[str, str] = {}
    marked: tuple[tuple[str, tuple[Tree | Support | Carrier | JoistField | Brace | Diagonal, ...]], ...] = (
        ("tree", project.trees),
        ("support", project.supports),
        ("carrier", project.carriers),
        ("joists", project.joists),
        ("brace", project.braces),
        ("diagonal", project.diagonals),
    )
    for kind, parts in marked:
        for index, part in enumerate(parts):
            if part.mark in seen:
                yield (
                    (kind, index, "mark"),
                    f"{part.mark!r} already names a {seen[part.mark]}; marks are unique.",
                )
            seen[part.mark] = kind
    entries: tuple[tuple[str, str, list[str]], ...] = (
        ("as_built", "mark", [entry.mark for entry in project.as_built]),
        ("reading", "mark", [entry.mark for entry in project.readings]),
        ("outline", "tree", [entry.tree for entry in project.outlines]),
    )
    for kind, key, marks in entries:
        for index, mark in enumerate(marks):
            if mark in marks[:index]:
                yield (
                    (kind, index, key),
                    f"{mark!r} has an entry already; put all that is known of it in one.",
                )


def _references(project: Project) -> Iterator[tuple[Location, str]]:
    trees = {tree.mark for tree in project.trees}
    carriers = {carrier.mark for carrier in project.carriers}

    def wanted(
        where: Location, name: str | None, names: set[str], what: str
    ) -> Iterator[tuple[Location, str]]:
        listed = ", ".join(sorted(names)) or "none"
        if name is None:
            yield where, f"a {what} must be named here; the file has: {listed}."
        elif name not in names:
            yield where, f"{name!r} is no {what} of this file; it has: {listed}."

    for index, support in enumerate(project.supports):
        at = ("support", index)
        if support.kind == "tree bolt":
            yield from wanted((*at, "tree"), support.tree, trees, "tree")
            yield from wanted((*at, "bolt"), support.bolt, set(project.bolts), "bolt")
        else:
            yield from wanted((*at, "post"), support.post, set(project.posts), "post")
            yield from wanted((*at, "footing"), support.footing, set(project.footings), "footing")
    posts = {support.mark for support in project.supports if support.kind == "post"}
    for index, brace in enumerate(project.braces):
        yield from wanted(("brace", index, "support"), brace.support, posts, "post")
        yield from wanted(("brace", index, "carrier"), brace.carrier, carriers, "carrier")
        if (brace.bolts is None) != (brace.bolt_diameter is None):
            yield ("brace", index, "bolts"), "bolts and bolt_diameter must be given together."
        if brace.bolts is not None and brace.rated_load is not None:
            yield ("brace", index, "rated_load"), "give either bolts or a rated load, and not both."
    supports = {support.mark for support in project.supports}
    for index, reading in enumerate(project.readings):
        yield from wanted(("reading", index, "mark"), reading.mark, supports | {"GRADE"}, "support")
    for index, outline in enumerate(project.outlines):
        yield from wanted(("outline", index, "tree"), outline.tree, trees, "tree")
        if not (len(outline.points) >= 3) ^ (len(outline.widths) >= 2):
            yield ("outline", index, "points"), "give either 3 points or more, or 2 widths or more."
    yield from _as_built_faults(project, supports | carriers)
    for index, diagonal in enumerate(project.diagonals):
        if diagonal.start == diagonal.end:
            yield ("diagonal", index, "to"), f"{diagonal.mark} starts and ends at one point."
    for index, field in enumerate(project.joists):
        for mark in field.carriers:
            yield from wanted(("joists", index, "carriers"), mark, carriers, "carrier")
        if field.hanger is not None:
            yield from wanted(
                ("joists", index, "hanger"), field.hanger, set(project.connections), "connection"
            )
        if field.last < field.first:
            yield ("joists", index, "last"), "the last joist lies before the first."
    for index, carrier in enumerate(project.carriers):
        if carrier.start == carrier.end:
            yield ("carrier", index, "to"), f"{carrier.mark} starts and ends at one point."
        if carrier.hanger is not None:
            yield from wanted(
                ("carrier", index, "hanger"), carrier.hanger, set(project.connections), "connection"
            )


def _as_built_faults(project: Project, marks: set[str]) -> Iterator[tuple[Location, str]]:
    """Entries of what was built that no part can have: a joist's mark is known only once they are laid out."""
    joists = tuple(field.mark for field in project.joists)
    kinds = {support.mark: support.kind for support in project.supports}
    for index, built in enumerate(project.as_built):
        where = ("as_built", index)
        kind = kinds.get(built.mark, "member")
        numbered = any(built.mark.startswith(mark) and built.mark[len(mark) :].isdigit() for mark in joists)
        if built.mark not in marks and not numbered:
            yield (*where, "mark"), f"{built.mark!r} is no support, carrier or joist of this file."
            continue
        allowed = {
            "tree bolt": ("at", "projection", "level", "embedment"),
            "post": ("at", "level", "hole"),
            "member": ("depth",),
        }[kind]
        for key in ("at", "projection", "level", "embedment", "hole", "depth"):
            if getattr(built, key) is not None and key not in allowed:
                yield (*where, key), f"{built.mark} is a {kind}, which takes {', '.join(allowed)}."
        if built.at is not None and built.projection is not None:
            yield (*where, "projection"), "give either at or projection, and not both."


def _price_faults(project: Project) -> Iterator[tuple[Location, str]]:
    """A size of lumber with no length, and a line that says a price twice."""
    seen: set[tuple[str, float | None, str]] = set()
    for index, price in enumerate(project.prices):
        try:
            item = parse_section(price.item).name
        except SectionError:
            item = price.item.strip().lower()
            if price.length is not None:
                yield (
                    ("price", index, "length"),
                    f"{price.item!r} is no size of lumber, so it has no length; sizes are written such as 2x8.",
                )
        else:
            if price.length is None:
                yield (
                    ("price", index, "length"),
                    f"{price.item} is lumber: say for which length this price is.",
                )
        key = (item, price.length, price.grade.strip().lower())
        if key in seen:
            yield ("price", index, "item"), f"{price.item!r} has a price for this length already."
        seen.add(key)


def _materials(project: Project) -> Iterator[tuple[Location, str]]:
    pieces: list[tuple[Location, Timber]] = [(("decking",), project.decking)]
    pieces += [(("carrier", i), part) for i, part in enumerate(project.carriers)]
    pieces += [(("joists", i), part) for i, part in enumerate(project.joists)]
    pieces += [(("post", name), part) for name, part in project.posts.items()]
    pieces += [(("brace", i), part) for i, part in enumerate(project.braces)]
    for where, piece in pieces:
        try:
            section = parse_section(piece.section)
        except SectionError as error:
            yield (*where, "section"), f"{error}."
            continue
        try:
            reference_values(piece.species, piece.grade, section)
        except (MaterialError, TableError) as error:
            yield (*where, "grade" if "grade" in str(error) else "species"), f"{error}."
