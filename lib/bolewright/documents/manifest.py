"""The list of the files a package was made of, so that making it again takes away what it no longer has.

Only a file that the list names and that still has the bytes written then is taken away: what a user put there or
changed stays.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

MANIFEST = "files.json"
SCHEMA = "bolewright package files 1"


def manifest_of(files: Mapping[str, bytes]) -> bytes:
    """List of files, each with the SHA-256 of its bytes."""
    sums = {name: hashlib.sha256(data).hexdigest() for name, data in sorted(files.items())}
    return (json.dumps({"schema": SCHEMA, "files": sums}, indent=1) + "\n").encode()


def stale_files(folder: Path, files: Mapping[str, bytes]) -> list[Path]:
    """Files of an earlier package in ``folder`` that the new one does not have, untouched since they were written."""
    found = []
    for name, wanted in _listed(folder / MANIFEST).items():
        path = folder / name
        if name in files or not _inside(name) or path.is_symlink() or not path.is_file():
            continue
        if hashlib.sha256(path.read_bytes()).hexdigest() == wanted:
            found.append(path)
    return found


def remove_files(folder: Path, paths: list[Path]) -> None:
    """Take files away, and folders inside ``folder`` that are empty then."""
    for path in paths:
        path.unlink()
        parent = path.parent
        while parent != folder and not any(parent.iterdir()):
            parent.rmdir()
            parent = parent.parent


def _listed(path: Path) -> dict[str, str]:
    """Names and sums of a list; nothing where there is none, or one that this program did not write."""
    try:
        read = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    if not isinstance(read, dict) or read.get("schema") != SCHEMA or not isinstance(read.get("files"), dict):
        return {}
    return {name: value for name, value in read["files"].items() if isinstance(value, str)}


def _inside(name: str) -> bool:
    """Whether a name stays in the folder it is counted from."""
    parts = PurePosixPath(name).parts
    return bool(parts) and not PurePosixPath(name).is_absolute() and ".." not in parts
