"""The stored calc sheets: executed for the demonstration, so that they read without being run.

``python -m bolewright.sheets.stored --write`` runs them again and stores them; a test holds that two runs give
the same, and nbval that the stored outputs still come out.
"""

from __future__ import annotations

import sys
from pathlib import Path

import nbformat

from bolewright.documents.execute import run_sheets
from bolewright.paths import shipped
from bolewright.sheets.equation_cells import with_equation_cells
from bolewright.sheets.package import sheet_files

_WIDGET = "application/vnd.jupyter.widget-view+json"


def executed_text(notebooks: list[Path]) -> dict[Path, str]:
    """Text of the notebooks, run as they stand; nothing is written. A widget lives in its own run: none is kept."""
    found = {}
    for path, notebook in zip(notebooks, run_sheets(notebooks, {}), strict=True):
        for cell in notebook.cells:
            if cell.cell_type == "code":
                cell.outputs = [output for output in cell.outputs if _WIDGET not in output.get("data", {})]
        found[path] = nbformat.writes(notebook) + "\n"  # type: ignore[no-untyped-call]
    return found


def refresh(path: Path) -> None:
    """Make a sheet's equation cells anew where the program would write others; what was run stays."""
    notebook = nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]
    before = [(cell.source, cell.metadata.get("tags")) for cell in notebook.cells]
    notebook = with_equation_cells(notebook, path.stem)
    if [(cell.source, cell.metadata.get("tags")) for cell in notebook.cells] != before:
        path.write_text(nbformat.writes(notebook) + "\n", encoding="utf-8")  # type: ignore[no-untyped-call]


def main(arguments: list[str]) -> int:
    """Run the stored sheets; with ``--write`` store them, else say which would change. 0 when none would."""
    if "--write" in arguments:
        for path in sheet_files():
            refresh(path)
    stored = [*sheet_files(), shipped("calcsheets") / "explorer.ipynb"]
    changed = [path for path, text in executed_text(stored).items() if text != path.read_text("utf-8")]
    if "--write" in arguments:
        for path, text in executed_text(changed).items():
            path.write_text(text, encoding="utf-8")
    names = ", ".join(path.name for path in changed) or "none"
    sys.stdout.write(f"Changed: {names}\n")
    return 0 if "--write" in arguments or not changed else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
