"""The door for a practitioner: open a project file, check it, make its package, and write quantities as builders do.

Everything here is also ``from bolewright import ...``. The engineering functions stand by subject beside it: ``from
bolewright import timber, fasteners, tree, ground, mechanics``. They take quantities and give quantities, single or in
numpy arrays; bare numbers are taken in the unit that each docstring names (inches, pounds, psi) and give bare numbers.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pint

from bolewright.platform.file.reading import parse_project, read_text
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Project
from bolewright.platform.results.results import Results, to_json
from bolewright.said_plainly import said_plainly
from bolewright.setting_out.complete import complete_results
from bolewright.status import Status
from bolewright.units import quantity

if TYPE_CHECKING:
    import pandas

Q = quantity


@said_plainly
class NoPandasError(ImportError):
    """A data frame is asked for and pandas is not installed; one sentence."""


@dataclass(frozen=True)
class OpenProject:
    """A project file that was read: its text as it stands on disk, and what it says."""

    name: str
    text: str
    project: Project

    def __repr__(self) -> str:
        return f"<project file {self.name}: {self.project.title.project}>"


@dataclass(frozen=True)
class CheckRecord:
    """One check: ``part``, ``limit_state``, ``status`` ("passes", "fails", "not checked"), and what it rests on.

    ``demand`` and ``capacity`` are quantities, or None where the check could not be made; ``ratio`` is demand over
    capacity (a ratio over 1.0 fails), not a number where the check is open.
    """

    part: str
    sheet: str
    limit_state: str
    status: str
    demand: pint.Quantity[Any] | None
    capacity: pint.Quantity[Any] | None
    ratio: float
    combination: str
    clause: str
    sentence: str
    where: str
    notes: tuple[str, ...]


@dataclass(frozen=True)
class Checked:
    """All checks of a project. It approves nothing: the numbers are for review by who decides on the structure."""

    opened: OpenProject
    results: Results

    def __repr__(self) -> str:
        passing, failing, opened = (self.count(status) for status in ("passes", "fails", "not checked"))
        return f"<checks of {self.opened.name}: {passing} pass, {failing} fail, {opened} not checked>"

    @property
    def records(self) -> tuple[CheckRecord, ...]:
        """Every check, failing first, then those not made, then by falling ratio."""
        return tuple(_record(check) for check in self.results.governing)

    def __iter__(self) -> Iterator[CheckRecord]:
        return iter(self.records)

    def count(self, status: str) -> int:
        """How many checks have a status: "passes", "fails" or "not checked"."""
        return self.results.count(Status(status))

    def to_json(self) -> str:
        """The same text as the package's ``results.json``."""
        return to_json(self.results, self.opened.text)

    def to_dict(self) -> dict[str, Any]:
        """``results.json`` as plain Python data."""
        data: dict[str, Any] = json.loads(self.to_json())
        return data

    def to_frame(self) -> pandas.DataFrame:
        """The records as a data frame, demand and capacity as numbers with their unit beside; wants pandas.

        Raises :class:`ImportError` in one sentence without it.
        """
        try:
            import pandas
        except ImportError:
            raise NoPandasError("to_frame wants pandas: install it, or use records or to_json") from None
        rows = [
            {
                "part": r.part,
                "sheet": r.sheet,
                "limit_state": r.limit_state,
                "status": r.status,
                "demand": r.demand.magnitude if r.demand is not None else math.nan,
                "capacity": r.capacity.magnitude if r.capacity is not None else math.nan,
                "unit": f"{r.demand.units:~P}" if r.demand is not None else "",
                "ratio": r.ratio,
                "combination": r.combination,
                "clause": r.clause,
                "sentence": r.sentence,
            }
            for r in self.records
        ]
        return pandas.DataFrame(rows)


def open_project(path: str | Path) -> OpenProject:
    """Read a project file.

    Raises :class:`bolewright.ProjectError` with a sentence for every fault of the file.
    """
    path = Path(path)
    text = read_text(path)
    return OpenProject(path.name, text, parse_project(text, path.name))


def check(project: OpenProject | str | Path) -> Checked:
    """All checks of a project, or of the project file at a path.

    Raises :class:`bolewright.ProjectError` for a file that can't be used, :class:`bolewright.LayoutError` for an
    arrangement that can't stand.
    """
    opened = project if isinstance(project, OpenProject) else open_project(project)
    return Checked(opened, complete_results(opened.project))


def package(path: str | Path, out: str | Path) -> tuple[Path, ...]:
    """Write the calc package of a project file (PDF, HTML, results, drawings, lists) into a folder; its files.

    Raises as :func:`check` does, and :class:`bolewright.PackageError` where the package can't be set or written.
    """
    from bolewright.sheets.package import make_package

    return make_package(Path(path), Path(out)).files


def _record(check: Check) -> CheckRecord:
    sized = math.isfinite(check.demand) and math.isfinite(check.capacity)
    return CheckRecord(
        part=check.part,
        sheet=check.topic.value,
        limit_state=check.limit_state,
        status=check.status.value,
        demand=check.unit.of(check.demand) if sized else None,
        capacity=check.unit.of(check.capacity) if sized else None,
        ratio=check.ratio,
        combination=check.combination,
        clause=check.clause,
        sentence=check.sentence,
        where=check.where,
        notes=check.notes,
    )
