"""The stored calc sheets: executed for the demonstration, so that they read without being run.

``python -m bolewright.sheets.stored --write`` runs them again and stores them; a test holds that two runs give
the same, and nbval that the stored outputs still come out.
"""

from __future__ import annotations

import sys
from pathlib import Path

import nbformat

from bolewright.documents.execute import run_sheets
from bolewright.sheets.package import sheet_files


def executed_text(notebooks: list[Path]) -> dict[Path, str]:
    """Text of the notebooks, run as they stand; nothing is written."""
    return {
        path: nbformat.writes(notebook) + "\n"  # type: ignore[no-untyped-call]
        for path, notebook in zip(notebooks, run_sheets(notebooks, {}), strict=True)
    }


def main(arguments: list[str]) -> int:
    """Run the stored sheets; with ``--write`` store them, else say which would change. 0 when none would."""
    changed = [path for path, text in executed_text(sheet_files()).items() if text != path.read_text("utf-8")]
    if "--write" in arguments:
        for path, text in executed_text(changed).items():
            path.write_text(text, encoding="utf-8")
    names = ", ".join(path.name for path in changed) or "none"
    sys.stdout.write(f"Changed: {names}\n")
    return 0 if "--write" in arguments or not changed else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
