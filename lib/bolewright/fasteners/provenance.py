"""Sentences for the sheet on reference tables that rest on memory."""

from __future__ import annotations

from bolewright.reference import CONFIDENCE, load

_FROM_MEMORY = ("M2", "M3")


def memory_notes(table: str, what: str) -> tuple[str, ...]:
    """Sentence for a sheet that uses ``table`` for ``what``; none where the table was read or reproduced.

    >>> memory_notes("check_nds_table12_2A_lag_withdrawal", "Withdrawal value")
    ()
    """
    found = load(table)
    code = found.provenance["confidence"]
    return (f"{what}: {found.source}, {CONFIDENCE[code]}.",) if code in _FROM_MEMORY else ()
