"""Reads reference_tables/: CSV files with a provenance header, loaded once and checked on load.

A file starts with ``# key: value`` lines; ``document``, ``table``, ``obtained`` and ``confidence`` must be
there. Each row may carry its own ``confidence`` column, which then stands over the header's.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Any

from bolewright.paths import shipped

CONFIDENCE = {
    "V": "read in a public copy of the document",
    "V*": "read in part, the rest from memory",
    "T": "read in a public transcription, confirm against the printed document",
    "M1": "from memory, reproduced by an independent calculation",
    "M2": "from memory, confirm against the printed document",
    "M3": "from memory and uncertain, confirm against the printed document",
    "C": "computed from the document's formula",
    "CP": "common practice",
    "J": "judgement, engineer to confirm",
}
_FROM_MEMORY = ("M2", "M3")
_REQUIRED = ("document", "table", "obtained", "confidence")


class TableError(ValueError):
    """A reference table that is missing, malformed, or lacks the wanted row; one sentence."""


@dataclass(frozen=True)
class Table:
    """One reference table: its provenance header and its rows (numbers as floats, the rest as text)."""

    name: str
    provenance: dict[str, str]
    rows: tuple[dict[str, Any], ...]

    @cached_property
    def _found(self) -> dict[tuple[tuple[str, Any], ...], dict[str, Any]]:
        return {}

    def __iter__(self) -> Iterator[dict[str, Any]]:
        return iter(self.rows)

    def row(self, **keys: Any) -> dict[str, Any]:
        """The only row whose columns equal ``keys``; TableError names what the table has instead."""
        asked = tuple(keys.items())
        if asked not in self._found:
            self._found[asked] = self._row(keys)
        return self._found[asked]

    def _row(self, keys: dict[str, Any]) -> dict[str, Any]:
        found = [row for row in self.rows if all(row.get(k) == v for k, v in keys.items())]
        if len(found) == 1:
            return found[0]
        wanted = ", ".join(f"{k} {v!r}" for k, v in keys.items())
        if found:
            raise TableError(f"{self.name} has {len(found)} rows for {wanted}")
        first = next(iter(keys))
        allowed = ", ".join(sorted({str(row.get(first)) for row in self.rows}))
        raise TableError(f"{self.name} has no row for {wanted}; {first} is one of: {allowed}")

    def confidence(self, row: dict[str, Any]) -> str:
        """Confidence code of a row (V, M1, M2 ...)."""
        return str(row.get("confidence") or self.provenance["confidence"])

    @property
    def source(self) -> str:
        """Document and table in a few words, for the sheet."""
        return f"{self.provenance['document']}, {self.provenance['table']}"


@cache
def load(name: str) -> Table:
    """Reference table ``reference_tables/{name}.csv``.

    Raises :class:`TableError` when the file is missing or malformed.
    """
    path = shipped("reference_tables") / f"{name}.csv"
    if not path.is_file():
        raise TableError(f"there is no reference table {name}")
    provenance: dict[str, str] = {}
    body: list[str] = []
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.startswith("#") and not body:
            key, _, value = line[1:].partition(":")
            provenance[key.strip()] = value.strip()
        elif line.strip():
            body.append(line)
    missing = [key for key in _REQUIRED if not provenance.get(key)]
    if missing:
        raise TableError(f"{path.name} lacks the header line {missing[0]}")
    reader = csv.reader(body)
    header = next(reader)
    rows = []
    for values in reader:
        if len(values) != len(header):
            raise TableError(f"{path.name}: {len(values)} cells under {len(header)} columns: {values}")
        rows.append({column: _cell(value) for column, value in zip(header, values, strict=True)})
    table = Table(name, provenance, tuple(rows))
    unknown = {table.confidence(row) for row in rows} - set(CONFIDENCE)
    if unknown:
        raise TableError(f"{path.name} uses the unknown confidence code {sorted(unknown)[0]}")
    return table


def memory_notes(name: str, what: str, **keys: Any) -> tuple[str, ...]:
    """Sentence for a sheet that uses a table, or its row with ``keys``, for ``what``; none unless it is from memory.

    >>> memory_notes("check_nds_table12_2A_lag_withdrawal", "Withdrawal value")
    ()
    """
    table = load(name)
    code = table.confidence(table.row(**keys)) if keys else table.provenance["confidence"]
    return (f"{what}: {table.source}, {CONFIDENCE[code]}.",) if code in _FROM_MEMORY else ()


def _cell(value: str) -> Any:
    text = value.strip()
    try:
        return float(text)
    except ValueError:
        return text
