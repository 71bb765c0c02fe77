"""The list of the files a package was made of, by which the next one tells them from the user's.

A file is the program's when the list names it and it still has the bytes written then; all others are the user's.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

MANIFEST = "files.json"
SCHEMA = "bolewright package files 1"
_MOST_BYTES = 10_000_000
_LITTER = re.compile(
    r"\.package-[a-z0-9_]{8}"
)  # where earlier versions of the program wrote, when they were killed

Listed = frozenset[str]


class NotOurs(ValueError):
    """A list that this program did not write, or that was damaged; what is wrong with it."""


@dataclass(frozen=True)
class Sorted:
    """What stands in a package's folder, by names with ``/``.

    ``kept`` files stay, ``changed`` are those of them that the list names, ``folders`` are those with anything of the
    user's in them or nothing at all, ``own`` counts the files that were never the program's.
    """

    kept: Listed
    changed: tuple[str, ...]
    folders: tuple[str, ...]
    own: int


def manifest_of(files: Mapping[str, bytes]) -> bytes:
    """List of files, each with the SHA-256 of its bytes."""
    sums = {name: _sum(data) for name, data in sorted(files.items())}
    return (json.dumps({"schema": SCHEMA, "files": sums}, indent=1) + "\n").encode()


def sort_files(folder: Path, files: Mapping[str, bytes]) -> Sorted:
    """What in ``folder`` is the user's when ``files`` are to be written there; NotOurs for a list that is none.

    A file with the very bytes that are to be written under its name is not kept: it is written again.
    """
    if not folder.is_dir():
        return Sorted(frozenset(), (), (), 0)
    listed = _listed(folder / MANIFEST)
    kept: dict[str, bool] = {}
    folders: set[str] = set()
    for name in _names(folder, "", folders):
        if name == MANIFEST:
            continue
        bytes_there = _bytes(folder / name)
        found = None if bytes_there is None else _sum(bytes_there)
        if (name not in listed or found != listed[name]) and (
            name not in files or bytes_there != files[name]
        ):
            kept[name] = name in listed
    ours = {str(parent) for name in listed for parent in _parents(name)}
    users = {parent for name in kept for parent in _parents(name)}
    wanted = users | {name for name in folders if name not in ours}
    changed = tuple(sorted(name for name, was_ours in kept.items() if was_ours or name in files))
    return Sorted(frozenset(kept), changed, tuple(sorted(wanted)), len(kept) - len(changed))


def _names(folder: Path, above: str, folders: set[str]) -> list[str]:
    """Names of all files below a folder; its folders go into ``folders``. Links are not followed."""
    found: list[str] = []
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=lambda e: e.name):
            name = f"{above}{entry.name}"
            if not entry.is_dir(follow_symlinks=False):
                found.append(name)
            elif above or not _LITTER.fullmatch(entry.name):
                folders.add(name)
                found += _names(Path(entry.path), f"{name}/", folders)
    return found


def _parents(name: str) -> list[str]:
    parts = name.split("/")[:-1]
    return ["/".join(parts[: i + 1]) for i in range(len(parts))]


def _bytes(path: Path) -> bytes | None:
    """Bytes of a plain file; None for a link, or one that can't be read: it is the user's."""
    if path.is_symlink() or not path.is_file():
        return None
    try:
        return path.read_bytes()
    except OSError:
        return None


def _sum(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _listed(path: Path) -> dict[str, str]:
    """Names and sums of a list; nothing where there is no file."""
    try:
        if path.stat().st_size > _MOST_BYTES:
            raise NotOurs("it is larger than 10 MB")
        read = json.loads(path.read_text("utf-8"))
    except FileNotFoundError:
        return {}
    except RecursionError:
        raise NotOurs("its brackets are nested too deeply") from None
    except ValueError:
        raise NotOurs("it is no JSON") from None
    if not isinstance(read, dict) or read.get("schema") != SCHEMA or not isinstance(read.get("files"), dict):
        raise NotOurs(f"its schema is not {SCHEMA!r}")
    return {name: value for name, value in read["files"].items() if isinstance(value, str)}
