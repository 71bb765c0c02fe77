"""Rows where auditor and program differ by more than 0.5 %, with the clause: at most six, none with the auditor higher.

(limit state, project or "" for all): why.
"""

from __future__ import annotations

EXPLAINED: dict[tuple[str, str], str] = {}
