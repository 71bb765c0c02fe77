"""Every arrangement that people build runs through every sheet, and two of them to a full package.

In ``tests/platform/arrangements`` and ``calcsheets``:

======================================================  =============================================================
one tree and two posts                                  one_tree_two_posts, overhang; lookout
one tree and one post under a knee-braced beam       one_tree_one_post_knee; without the knee one_tree_one_post
one tree, two bolts bored parallel, and two posts       parallel_bolts
two trees and posts                                     two_trees_two_posts; calcsheets/two_trees
two, three and four trees and no post                   two_trees, three_trees, four_trees
all on posts round a free trunk                          round_a_trunk, round_a_trunk_hung; round_the_trunk
beams crossing or hung                               joists_over_three_beams, hung_beams, hung_one_end
joists on top or hung between, in any direction         over_three_posts, two_fields_square, joists_at_an_angle
an opening for the trunk with trimmers and headers       round_a_trunk, round_a_trunk_hung; round_the_trunk
skewed and re-entrant edges                             skewed_and_reentrant; calcsheets/two_trees
several joist fields                                    two_fields_square, skewed_and_reentrant
======================================================  =============================================================
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from IPython.display import Markdown

from bolewright.documents.notebook import EQUATIONS
from bolewright.rendering.blocks import Block
from bolewright.sheets.opening import Blocks, results_of
from bolewright.sheets.package import RESULTS_NAME, files_beside, make_package, sheet_files

FILES = sorted((Path(__file__).parents[1] / "platform" / "arrangements").glob("*.toml"))
WHOLE = ("hung_beams", "skewed_and_reentrant")


def cells(sheet: Path) -> list[tuple[str, bool]]:
    """Source of every code cell of a sheet that runs for any project, and whether it holds the sheet's parameters.

    A reader's equations are lines for the project they were stored with: test_equations.py runs them.
    """
    found = json.loads(sheet.read_text(encoding="utf-8"))["cells"]
    return [
        ("".join(cell["source"]), "parameters" in cell["metadata"].get("tags", []))
        for cell in found
        if cell["cell_type"] == "code" and EQUATIONS not in cell["metadata"].get("tags", [])
    ]


def shown(sheet: Path, project: Path) -> list[Any]:
    """What the cells of a sheet display for a project, run here instead of in a kernel of its own."""
    names: dict[str, Any] = {}
    found = []
    for source, is_parameters in cells(sheet):
        *before, last = source.strip().splitlines()
        exec("\n".join(before), names)
        if last.partition(" ")[0] in ("from", "import") or " = " in last.partition("(")[0]:
            exec(last, names)
        else:
            found.append(eval(last, names))
        if is_parameters:
            names["project"] = str(project)
    return found


def items(displayed: Any) -> list[Any]:
    if isinstance(displayed, Blocks):
        return list(displayed.items)
    return [] if displayed is None else [displayed]


@pytest.mark.parametrize("project", FILES, ids=lambda file: file.stem)
def test_every_sheet_says_something_and_every_check_is_on_one(project: Path) -> None:
    tables = ""
    for sheet in sheet_files():
        blocks = [block for displayed in shown(sheet, project) for block in items(displayed)]
        assert blocks, sheet.name
        for block in blocks:
            assert isinstance(block, Block | Markdown), (sheet.name, type(block))
        tables += "".join(str(block) for block in blocks)
    results = results_of(project)
    assert len(results.checks) > 100
    for check in results.checks:
        assert repr(check.limit_state) in tables or check.limit_state in tables, check.limit_state
    beside = files_beside(results, project.read_text(encoding="utf-8"))
    data = json.loads(beside[RESULTS_NAME])
    assert len(data["checks"]) == len(results.checks)
    assert data["independent_check"]


@pytest.mark.parametrize("name", WHOLE)
def test_a_whole_package(name: str, tmp_path: Path) -> None:
    project = next(file for file in FILES if file.stem == name)
    made = make_package(project, tmp_path)
    assert {"package.pdf", "package.html", RESULTS_NAME} <= {file.name for file in made.files}
    assert all((tmp_path / file.name).exists() or file.exists() for file in made.files)
    assert (tmp_path / "package.pdf").stat().st_size > 100_000
