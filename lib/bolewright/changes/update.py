"""A project file of format 1 rewritten as format 2: remarks kept, a copy of the old one beside it."""

from __future__ import annotations

import argparse
import os
import re
import tempfile
import tomllib
from pathlib import Path
from typing import Any

from bolewright.changes.rewrite import Word, exchanged
from bolewright.platform.file.format_1 import KEYS, TABLES, VALUES, confirmed, is_format_1, is_named, renamed
from bolewright.platform.file.reading import ProjectError, parse_toml, read_text
from bolewright.usage import refuse

_FORMAT = re.compile(r"""^([ \t]*["']?format["']?[ \t]*=[ \t]*)\+?1\b""", re.MULTILINE)


def updated(text: str, name: str = "project") -> str:
    """The text of a project file of format 1 as one of format 2. Raises ProjectError where it is none of format 1."""
    raw = parse_toml(text, name)
    if not is_format_1(raw):
        raise ProjectError([f"{name} is no file of format 1, so there is nothing to update."])
    made = exchanged(text, _in_format_2)
    made = _FORMAT.sub(r"\g<1>2", made, count=1)
    if tomllib.loads(made) != _as_format_2(raw):
        raise ProjectError(
            [
                f"{name} is written in a way that can't be rewritten line by line: {_by_hand(raw)}, and format = 2."
            ]
        )
    return made


def _by_hand(raw: dict[str, Any]) -> str:
    return "write " + ", ".join(f"{new} for {old}" for old, new in renamed(raw))


def _in_format_2(word: Word) -> str:
    """What stands in format 2 for a key or a value of format 1."""
    table, last = word.path[0], word.path[-1]
    at = 3 if is_named(table) else 2
    if not word.is_key:
        return (
            confirmed(word.text)
            if word.path == ("confirmed",)
            else VALUES.get((table, last, word.text), word.text)
        )
    if len(word.path) == 1:
        return TABLES.get(table, table)
    return KEYS.get(table, {}).get(last, last) if len(word.path) == at else last


def _as_format_2(raw: dict[str, Any]) -> dict[str, Any]:
    """What a file's data must be afterwards, worked out on the data alone."""

    def part_of(table: str, part: Any) -> Any:
        if not isinstance(part, dict):
            return part
        keys = KEYS.get(table, {})
        return {
            keys.get(key, key): VALUES.get((table, key, value), value) if isinstance(value, str) else value
            for key, value in part.items()
        }

    def whole(table: str, value: Any) -> Any:
        if isinstance(value, list) and table in KEYS:
            return [part_of(table, part) for part in value]
        if isinstance(value, dict) and is_named(table):
            return {name: part_of(table, part) for name, part in value.items()}
        return part_of(table, value)

    data = {TABLES.get(table, table): whole(table, value) for table, value in raw.items()}
    if isinstance(raw.get("confirmed"), list):
        data["confirmed"] = [confirmed(path) if isinstance(path, str) else path for path in raw["confirmed"]]
    return data | {"format": 2}


def copy_path(file: Path) -> Path:
    """Where the copy of the old file goes: beside it, under a name that is free."""
    first = file.with_name(f"{file.stem}.format-1{file.suffix}")
    others = (file.with_name(f"{file.stem}.format-1-{n}{file.suffix}") for n in range(2, 1000))
    return next(path for path in (first, *others) if not path.exists())


def update(file: Path) -> Path:
    """Rewrite a project file of format 1 in its place; the copy that is kept of the old one.

    The copy is whole before the file is touched, and the new text is whole beside the file before it takes its place:
    cut off at any moment, the file is the old one or the new one. Raises ProjectError, or OSError where it can't be
    written.
    """
    text = updated(read_text(file), file.name)
    old = file.read_bytes()
    if b"\r\n" in old:
        text = text.replace("\n", "\r\n")
    kept = copy_path(file)
    _put(kept, old, file)
    _put(file, text.encode("utf-8"), file)
    return kept


def _put(path: Path, content: bytes, like: Path) -> None:
    """Bytes under a path, written beside it first; with the permissions of ``like``."""
    mode = like.stat().st_mode & 0o777
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as beside:
            beside.write(content)
            beside.flush()
            os.fsync(beside.fileno())
        os.chmod(name, mode)
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def add(commands: Any) -> None:
    """The command ``update`` of the command line."""
    parser = commands.add_parser(
        "update", help="rewrite a project file of format 1 as format 2; a copy of the old one is kept"
    )
    parser.add_argument("file", type=Path, metavar="FILE", help="project file (.toml) of format 1")
    parser.set_defaults(run=_run)


def _run(given: argparse.Namespace) -> int:
    file = given.file.resolve() if given.file.is_symlink() else given.file
    try:
        kept = update(file)
    except ProjectError as error:
        return refuse(*error.sentences)
    except OSError as error:
        return refuse(f"{given.file} can't be written: {error.strerror}. It is what it was.")
    print(f"{given.file} is format 2 now; the old one is kept as {kept.name}.")
    return 0
