"""Project files on disk: whole or not at all, the last good copy kept, unsaved work beside the file."""

from __future__ import annotations

import os
import re
import tempfile
from dataclasses import dataclass
from pathlib import Path

from bolewright.platform.reading import ProjectError, parse_project, read_text, unnamable
from bolewright.platform.results import fingerprint

_HEAD = "# Unsaved work of the workbook on the file with fingerprint "


class StorageError(ValueError):
    """A file that can't be written; one sentence."""


class ChangedOnDisk(StorageError):
    """The file is not what it was when it was opened; nothing was written."""


@dataclass(frozen=True)
class Unsaved:
    """Work found beside a file: its text, and whether the file is still the one it was begun from."""

    text: str
    same_file: bool


def autosave_path(path: Path) -> Path:
    """Side file with the unsaved work of a project file."""
    return path.with_suffix(".autosave.toml")


def last_good_path(path: Path) -> Path:
    """Copy of the last text of a project file that could be used."""
    return path.with_suffix(".last-good.toml")


def disk_fingerprint(path: Path) -> str:
    """Fingerprint of the file as it is on disk; empty when there is none."""
    return fingerprint(read_text(path)) if path.exists() else ""


def save(path: Path, text: str, opened: str, *, overwrite: bool = False) -> str:
    """Write a project file and keep its last good text beside it; the new fingerprint.

    ``opened`` is the fingerprint the file had when it was read, empty for none. Raises ChangedOnDisk when it
    has another by now and ``overwrite`` is not set, StorageError when it can't be written.
    """
    there = disk_fingerprint(path)
    if there and there != opened and not overwrite:
        raise ChangedOnDisk(
            f"{path.name} was changed on disk since it was opened here, so nothing was written: load it again, "
            "save under another name, or overwrite it."
        )
    if there and _is_good(path):
        write_whole(last_good_path(path), read_text(path))
    write_whole(path, text)
    forget(path)
    return fingerprint(text)


def _is_good(path: Path) -> bool:
    try:
        parse_project(read_text(path), path.name)
    except ProjectError:
        return False
    return True


def keep(path: Path, text: str, opened: str) -> None:
    """Keep unsaved work beside its file."""
    write_whole(autosave_path(path), f"{_HEAD}{opened or 'none'}\n{text}")


def forget(path: Path) -> None:
    """Drop the unsaved work beside a file."""
    autosave_path(path).unlink(missing_ok=True)


def unsaved(path: Path) -> Unsaved | None:
    """Unsaved work beside a file; None when there is none, or it says what the file says."""
    side = autosave_path(path)
    if not side.exists():
        return None
    head, _, text = read_text(side).partition("\n")
    match = re.fullmatch(re.escape(_HEAD) + r"(\w+)", head)
    if match is None:
        return None
    there = disk_fingerprint(path)
    if fingerprint(text) == there:
        return None
    return Unsaved(text, same_file=match[1] == (there or "none"))


def write_whole(path: Path, text: str) -> None:
    """Write a text file so that a reader sees the old or the new one, never half of it."""
    if words := unnamable(path):
        raise StorageError(words)
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
        try:
            with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
                file.write(text)
                file.flush()
                os.fsync(file.fileno())
            os.chmod(name, path.stat().st_mode if path.exists() else 0o644)
            os.replace(name, path)
        except OSError:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise StorageError(f"{path} can't be written: {error.strerror or error}.") from None
