"""Project files on disk: whole or not at all, the last good copy kept, unsaved work beside the file."""

from __future__ import annotations

import glob
import os
import re
import tempfile
from dataclasses import dataclass
from pathlib import Path

import psutil

from bolewright.platform.file.reading import ProjectError, parse_project, read_text, unnamable
from bolewright.platform.results.results import fingerprint

_HEAD = "# Unsaved work of the workbook on the file with fingerprint "
_SIDE = ".autosave"


class StorageError(ValueError):
    """A file that can't be written; one sentence."""


class ChangedOnDisk(StorageError):
    """The file is not what it was when it was opened; nothing was written."""


@dataclass(frozen=True)
class Unsaved:
    """Work found beside a file: its text, and whether the file is still the one it was begun from."""

    text: str
    same_file: bool
    side: Path
    began: str
    """Fingerprint of the file that it was begun from."""
    is_open: bool
    """Whether the process that writes it still runs: another open page."""


def autosave_path(path: Path, tab: str) -> Path:
    """Side file with the unsaved work of one open page on a project file."""
    return path.with_suffix(f"{_SIDE}-{tab}.toml")


def is_side_file(name: str) -> bool:
    """Whether a file is one that the workbook keeps beside a project file."""
    return name.endswith(".last-good.toml") or bool(re.search(r"\.autosave(-\w+)?\.toml$", name))


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
    return fingerprint(text)


def _is_good(path: Path) -> bool:
    try:
        parse_project(read_text(path), path.name)
    except ProjectError:
        return False
    return True


def keep(path: Path, text: str, opened: str, tab: str) -> None:
    """Keep the unsaved work of an open page beside its file."""
    head = f"{_HEAD}{opened or 'none'}, process {os.getpid()}"
    write_whole(autosave_path(path, tab), f"{head}\n{text}")


def forget(side: Path) -> None:
    """Drop unsaved work."""
    side.unlink(missing_ok=True)


def unsaved(path: Path, tab: str = "") -> list[Unsaved]:
    """Unsaved work of other pages beside a file, newest last; none of it says what the file says."""
    there = disk_fingerprint(path)
    sides = [*path.parent.glob(f"{glob.escape(path.stem)}{_SIDE}-*.toml"), path.with_suffix(f"{_SIDE}.toml")]
    sides = [side for side in sides if side.exists() and side != autosave_path(path, tab)]
    found = []
    for side in sorted(sides, key=lambda side: side.stat().st_mtime_ns):
        try:
            head, _, text = read_text(side).partition("\n")
        except ProjectError:  # cut off or gone meanwhile
            continue
        match = re.fullmatch(re.escape(_HEAD) + r"(\w+)(?:, process (\d+))?", head)
        if match is not None and fingerprint(text) != there:
            found.append(
                Unsaved(text, match[1] == (there or "none"), side, match[1], _runs(int(match[2] or 0)))
            )
    return found


def own_text(path: Path) -> str:
    """Text of a project file, or of the one that a side file keeps."""
    text = read_text(path)
    return text.partition("\n")[2] if text.startswith(_HEAD) else text


def _runs(process: int) -> bool:
    """Whether another process runs; this one's own pages before are gone."""
    return process != os.getpid() and psutil.pid_exists(process) and process > 0


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
