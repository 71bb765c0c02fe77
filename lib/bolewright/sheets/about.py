"""What a package says of its making, so that it can be made again; and which package a new one takes the place of."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bolewright import __version__
from bolewright.documents.content import Paper
from bolewright.sheets.lengths import Tape

ABOUT_NAME = "about.json"
ABOUT_SCHEMA = "bolewright about 1"
_LONGEST = 200  # characters of what an older package says of itself


@dataclass(frozen=True)
class About:
    """Program, input and choices that a package is made with."""

    file: str
    input: str
    revision: str
    date: str
    paper: Paper
    tape: Tape
    own_sheets: bool
    full: bool
    supersedes: str = ""

    def json(self) -> bytes:
        """As the file that lies beside the package and travels in it."""
        data = {
            "schema": ABOUT_SCHEMA,
            "program": "bolewright",
            "version": __version__,
            "file": self.file,
            "input": self.input,
            "revision": self.revision,
            "date": self.date,
            "paper": self.paper.name.lower(),
            "tape": self.tape.value,
            "own_sheets": self.own_sheets,
            "full": self.full,
            "supersedes": self.supersedes,
        }
        return (json.dumps(data, indent=1, ensure_ascii=False) + "\n").encode()


def superseded(folder: Path, about: About) -> str:
    """The package in a folder that a new one takes the place of, in words; empty where there is none.

    Made again from the same input by the same version it is the same package, and takes the place of what that did.
    """
    try:
        found: Any = json.loads((folder / ABOUT_NAME).read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return ""
    if not isinstance(found, dict) or found.get("schema") != ABOUT_SCHEMA:
        return ""
    said = {
        key: " ".join(str(found.get(key, "")).split())[:_LONGEST]
        for key in ("input", "revision", "date", "version", "supersedes")
    }
    if (said["input"], said["version"]) == (about.input, __version__):
        return said["supersedes"]
    return (
        f"revision {said['revision'] or 'not named'} of {said['date']}, version {said['version']}, fingerprint "
        f"{said['input']}"
    )
