"""Where the files that ship with the package are: inside a wheel, or beside lib/ in a checkout."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def shipped(folder: str) -> Path:
    """Folder ``calcsheets`` or ``reference_tables``, wherever this copy of the package keeps it."""
    installed = _PACKAGE / "data" / folder
    if installed.is_dir():
        return installed
    return _PACKAGE.parent.parent / folder
