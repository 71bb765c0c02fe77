"""Ratios of the files that were of format 1, by the files of the repository that are the same in format 2.

``python tests/projects/old_ratios.py --write`` makes them again where a change of the engineering changes them: from
the files of format 2 alone, never through the update that they are to prove.
"""

from __future__ import annotations

import json
import lzma
import sys
from pathlib import Path
from typing import Any

from bolewright.platform.file.reading import read_project
from bolewright.platform.project import Project
from bolewright.platform.results.results import find_results

HERE = Path(__file__).parent
OLD = tuple(sorted((HERE / "format_1").glob("*.toml")))
RATIOS = HERE / "format_1" / "ratios.json.xz"
NAMES = {"round_the_stem": "round_the_trunk"}
Row = tuple[str, str, str, float | None]


def twin(old: Path) -> Path:
    """The same project in format 2: a shipped one as it was when the format changed, not made by the update."""
    name = f"{NAMES.get(old.stem, old.stem)}.toml"
    places = (HERE / "format_2" / name, HERE.parent / "platform" / "cases" / name)
    return next(path for path in places if path.exists())


def ratios(project: Project) -> list[Row]:
    """Part, key of the limit state, place and ratio of every check; no number where a check has none."""
    checks = find_results(project).checks
    return [(c.part, c.key, c.at, None if c.ratio != c.ratio else float(c.ratio)) for c in checks]


def stored() -> dict[str, list[list[Any]]]:
    """The ratios that were stored, by the name of the old file."""
    found: dict[str, list[list[Any]]] = json.loads(lzma.decompress(RATIOS.read_bytes()))
    return found


def main() -> None:
    """Write the ratios of all files."""
    found = {old.stem: ratios(read_project(twin(old))) for old in OLD}
    RATIOS.write_bytes(lzma.compress(json.dumps(found).encode()))


if __name__ == "__main__" and "--write" in sys.argv:
    main()
