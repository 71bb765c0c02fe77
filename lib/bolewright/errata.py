"""Errata: what was found wrong in earlier versions, told first of whatever was made by one of them."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from pathlib import Path
from typing import Any

from bolewright import __version__

STAMP = "# Begun with bolewright "
_STAMPED = re.compile(rf"^{re.escape(STAMP)}(\d+(?:\.\d+){{0,3}})\s*$", re.MULTILINE)
_MOST_BYTES = 50_000_000


class Severity(StrEnum):
    """How bad an erratum is, the worst first."""

    UNSAFE = "unsafe"
    WRONG = "wrong"
    MISLEADING = "misleading"


@dataclass(frozen=True)
class Erratum:
    """Something found wrong: in versions from ``first`` on, before ``fixed`` (empty: not mended yet).

    ``checks`` are keys of limit states, none for all of them; ``says`` is one sentence.
    """

    number: int
    first: str
    fixed: str
    severity: Severity
    checks: tuple[str, ...]
    says: str

    def touches(self, version: str, keys: Collection[str] | None = None) -> bool:
        """Whether results of a version have it, with checks of these limit states; None where these are not known."""
        made = _order(version)
        there = _order(self.first) <= made and not (self.fixed and made >= _order(self.fixed))
        return there and (keys is None or not self.checks or not set(self.checks).isdisjoint(keys))


@lru_cache(maxsize=1)
def errata() -> tuple[Erratum, ...]:
    """All errata that ship with this program, the worst first."""
    read = tomllib.loads((Path(__file__).parent / "errata.toml").read_text(encoding="utf-8"))
    found = [
        Erratum(
            row["number"],
            row["first"],
            row["fixed"],
            Severity(row["severity"]),
            tuple(row["checks"]),
            row["says"],
        )
        for row in read["erratum"]
    ]
    order = list(Severity)
    return tuple(sorted(found, key=lambda e: (order.index(e.severity), e.number)))


def _order(version: str) -> tuple[int, ...]:
    """A version to compare by: its numbers; what stands behind them does not count."""
    return tuple(int(number) for number in re.findall(r"\d+", version.partition("+")[0])[:3])


def of_file(text: str, known: Sequence[Erratum] | None = None, running: str = __version__) -> tuple[str, ...]:
    """What to say first of a project file begun with an earlier version that had errata; empty for none."""
    match = _STAMPED.search(text[:4000])
    if match is None or _order(match[1]) >= _order(running):
        return ()
    return _said(
        f"This project was begun with version {match[1]}, whose results had the errata below: do not use what it "
        f"printed. What follows is by version {running}.",
        [e for e in (errata() if known is None else known) if e.touches(match[1])],
    )


def of_package(
    folder: Path, known: Sequence[Erratum] | None = None, running: str = __version__
) -> tuple[str, ...]:
    """What to say first of a package that an earlier version made and that had errata; empty for none."""
    made, keys = _made_by(folder / "results.json")
    if not made or _order(made) >= _order(running):
        return ()
    return _said(
        f"The package in {folder} was made by version {made}, whose results had the errata below: do not use it, nor "
        "prints of it.",
        [e for e in (errata() if known is None else known) if e.touches(made, keys)],
    )


def _said(head: str, found: Sequence[Erratum]) -> tuple[str, ...]:
    rows = (f"Erratum {e.number} ({e.severity}): {e.says}" for e in found)
    return (head, *rows) if found else ()


def _made_by(path: Path) -> tuple[str, set[str] | None]:
    """Version that wrote a ``results.json``, and the limit states in it where it names them; empty where it is none."""
    try:
        if path.stat().st_size > _MOST_BYTES:
            return "", None
        read: Any = json.loads(path.read_text(encoding="utf-8"))
        version = read["version"]
        if not re.fullmatch(r"\d{1,4}(?:\.\d{1,4}){0,3}[\w.+-]{0,20}", version):
            return "", None
        checks = read["checks"]
        keys = {check["key"] for check in checks if check.get("key")}
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return "", None
    return version, keys or None
