"""Opens a project file for a sheet; the results are found once for all sheets of a run."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from IPython.display import Markdown, display

from bolewright.platform.file.reading import parse_project, read_text
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block
from bolewright.setting_out.complete import complete_results

Shown = Block | Markdown


@dataclass(frozen=True)
class Blocks:
    """Several blocks that one cell displays, in order."""

    items: tuple[Shown, ...]

    def _ipython_display_(self) -> None:
        for item in self.items:
            display(item)  # type: ignore[no-untyped-call]


def results_of(project: str | Path) -> Results:
    """Results of the project file, from the folder of the sheet or anywhere else."""
    path = Path(project)
    return results_from(read_text(path), path.name)


@lru_cache(maxsize=4)
def results_from(text: str, name: str) -> Results:
    """Results of a project file's text, found once."""
    return complete_results(parse_project(text, name))
