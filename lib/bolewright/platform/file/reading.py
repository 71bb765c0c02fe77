"""Reads a project file: TOML text to a :class:`Project`, every fault as one sentence with its line."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from bolewright.platform.file.cross_checks import cross_checks
from bolewright.platform.file.fault_words import in_words, path_words
from bolewright.platform.file.file_lines import FileLines, Location
from bolewright.platform.file.follow import follow
from bolewright.platform.file.format_1 import is_format_1
from bolewright.platform.file.format_1 import sentence as old_format
from bolewright.platform.file.toml_words import toml_fault
from bolewright.platform.project import Project
from bolewright.platform.project.blocking import is_handed_out
from bolewright.said_plainly import said_plainly
from bolewright.signs import hidden_sign, sentence, turning_sign
from bolewright.units import shown

__all__ = [
    "Fault",
    "Location",
    "ProjectError",
    "find_faults",
    "layout_sentences",
    "parse_project",
    "parse_toml",
    "read_project",
    "read_text",
    "unnamable",
]
_MAX_BYTES = 1_000_000
_MOST_SENTENCES = 25


@said_plainly
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
    if words := unnamable(path):
        raise ProjectError([words])
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


def unnamable(path: Path) -> str:
    """Why a path can't be used for a file of ours: its name holds a sign that can't be printed; empty when it can."""
    if sign := hidden_sign(str(path)):
        return f"{shown(str(path))} holds a sign that can't be printed, number {ord(sign)}: give it another name."
    return ""


def parse_project(text: str, name: str = "project") -> Project:
    """The project that ``text`` describes; ``name`` stands in the messages."""
    raw = parse_toml(text, name)
    if is_format_1(raw):
        place = _line(FileLines(text).of(("format",)))
        raise ProjectError([f"{name}{place}: format: {sentence(old_format(raw, name))}"])
    if not raw:
        raise ProjectError([f"{name} is empty; start from a template with the command new."])
    project, faults = find_faults(raw)
    if project is None:
        lines = FileLines(text)
        sentences = [
            f"{name}{_line(lines.of(fault.where))}: {path_words(fault.where, raw)}: {fault.message}"
            for fault in faults[:_MOST_SENTENCES]
        ]
        if len(faults) > _MOST_SENTENCES:
            sentences.append(f"{name}: {len(faults) - _MOST_SENTENCES} more faults are not listed.")
        raise ProjectError(sentences)
    return project


def layout_sentences(text: str, name: str, sentences: Iterable[str]) -> list[str]:
    """Faults of an arrangement, each with the line of the first part that it names."""
    raw, lines = parse_toml(text, name), FileLines(text)
    places: dict[str, Location] = {}
    for key, parts in raw.items():
        if isinstance(parts, list):
            for i, part in enumerate(parts):
                if isinstance(part, dict) and isinstance(part.get("mark", "J"), str):
                    places.setdefault(part.get("mark", "J" if key == "joists" else ""), (key, i))

    def line_of(sentence: str) -> int | None:
        for word in re.findall(r"\w+", sentence):
            where = places.get(word) or places.get(word.rstrip("0123456789"))
            if where:
                return lines.of(where)
        return None

    return [f"{name}{_line(line_of(sentence))}: {sentence}" for sentence in sentences]


def parse_toml(text: str, name: str) -> dict[str, Any]:
    """Data of a TOML text; ProjectError says on which line it is none, and what to write.

    No sign that turns the reading direction stands in it, remarks too: the file would read otherwise than it is.
    """
    try:
        raw = tomllib.loads(text)
    except RecursionError:
        raise ProjectError([f"{name} is not valid TOML: its brackets are nested too deeply."]) from None
    except ValueError as error:  # a TOMLDecodeError, or a number with thousands of digits
        fault = toml_fault(text, error)
        raise ProjectError(
            [f"{name}{_line(fault.line)} is not valid TOML: {sentence(fault.message)}"]
        ) from None
    if sign := turning_sign(text):
        number = text[: text.index(sign)].count("\n") + 1
        raise ProjectError(
            [
                f"{name}, line {number}: it holds a sign that can't be printed or turns the reading direction, number "
                f"{ord(sign)}: delete it."
            ]
        )
    return raw


def _line(number: int | None) -> str:
    return f", line {number}" if number else ""


@dataclass(frozen=True)
class Fault:
    """What is wrong in one place of the file's data, in one sentence."""

    where: Location
    message: str


def find_faults(raw: dict[str, Any]) -> tuple[Project | None, tuple[Fault, ...]]:
    """The project that a file's data describes, or None and what is wrong with it."""
    if is_format_1(raw):
        return None, (Fault(("format",), sentence(old_format(raw))),)
    raw, _, lost = follow(raw)
    if lost:
        return None, _faults(lost)
    try:
        project = Project.model_validate(raw)
    except ValidationError as error:
        faults_of = error.errors(include_url=False)
        inside = {loc[:length] for loc in (tuple(f["loc"]) for f in faults_of) for length in range(len(loc))}
        found = [in_words(fault) for fault in faults_of if not _follows(fault, inside, raw)]
        return None, _faults(fault for fault in found if not is_handed_out(fault[0], raw))
    faults = _faults(fault for fault in cross_checks(project) if not is_handed_out(fault[0], raw))
    return (None if faults else project), faults


def _faults(found: Iterable[tuple[Location, str]]) -> tuple[Fault, ...]:
    """One sentence each, and none twice."""
    return tuple(dict.fromkeys(Fault(where, sentence(words)) for where, words in found))


def _follows(fault: Any, inside: AbstractSet[Location], raw: dict[str, Any]) -> bool:
    """Whether a fault only follows from another: a list too short for a part in it that is at fault, or a name that
    is none because it is a key of a table whose header lacks one. ``inside`` are the places with a fault in them.
    """
    where: Location = tuple(fault["loc"])
    if where[-1:] == ("[key]",):
        return not isinstance(raw[str(where[0])][str(where[1])], dict)
    return fault["type"] == "too_short" and where in inside
