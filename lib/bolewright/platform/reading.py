"""Reads a project file: TOML text to a :class:`Project`, every fault as one sentence with its line."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from bolewright.platform.cross_checks import cross_checks
from bolewright.platform.project import Project

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
    faults = tuple(Fault(where, message) for where, message in cross_checks(project))
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
