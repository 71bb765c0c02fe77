"""Cells of a stored sheet in which a reader works on its equations: calls of the engineering functions, to be changed.

They stand on the notebook only, for the demonstration: a package prints each derivation already, and another project's
governing check may go by other lines, so that a run with a project of its own leaves them out.
"""

from __future__ import annotations

from typing import Any

import nbformat

from bolewright.documents.notebook import EQUATIONS
from bolewright.paths import shipped
from bolewright.rendering.numbers import ratio
from bolewright.sheets.equations import chain_of, choose, code_of
from bolewright.sheets.sheet import open_sheet

AFTER = "sheet.calculation()"
PROJECT = "lookout.toml"
# Sheet (its file's name) -> its topic and the limit states whose equations stand on it.
CELLS: dict[str, tuple[str, tuple[str, ...]]] = {
    "03_decking": ("decking", ("decking.bending", "decking.live_deflection")),
    "04_joists": ("joists", ("joist.bending", "joist.live_deflection")),
    "05_beams": ("beams", ("beam.bending", "beam.shear")),
    "06_hangers": ("hangers", ("hanger.rated",)),
    "07_tree_bolts": ("tree bolts", ("tree_bolt.steel_bending", "tree_bolt.wood_yield")),
    "08_posts": ("posts", ("post.buckling",)),
    "09_footings": ("footings", ("footing.soil", "footing.concrete_bending")),
    "10_braces": ("braces", ("brace.buckling", "brace.end_on_beam")),
    "11_clearance_and_growth": ("clearance and growth", ("tree.clearance",)),
    "14_guards": ("guards", ("guard.bolt", "guard.hold_down")),
    "15_stairs_and_ladder": ("stairs and ladder", ("ladder.step_bending", "ladder.rail")),
    "12_stability": ("stability", ("platform.drift", "beam.rotation")),
}
_PROSE = """## The equations, to be changed

Limit states of this sheet, each for the part where it governs, as calls of the engineering functions that the check
ran: change a number or a line and run the cell (Shift+Enter); its last line says how the outcome stands to the check.
Any input can be had otherwise, such as `M=1.2 * given.M`. For another part name it: `sheet.given("MARK", "{key}")`;
`sheet.calculation("MARK")` prints all of its checks. What governs the whole sheet may be another limit state: here it
is {part}, {words} (`{governing}`), ratio {ratio}.
`sheet.equations()` writes its cell; `sheet.equations("MARK", "{key}")` that of another check.
These cells are not printed in the package."""


def with_equation_cells(notebook: Any, name: str) -> Any:
    """A notebook with its equation cells made anew, after the hand calculation; others are given back as they are."""
    if name not in CELLS:
        return notebook
    topic, keys = CELLS[name]
    sheet = open_sheet(shipped("calcsheets") / PROJECT, topic)
    most = choose(sheet.checks, "", "")
    prose = _PROSE.format(
        key=keys[0], part=most.part, words=most.limit_state, governing=most.key, ratio=ratio(most.ratio)
    )
    made = [_tagged(nbformat.v4.new_markdown_cell(prose), "equations-0")]  # type: ignore[no-untyped-call]
    for number, key in enumerate(keys, start=1):
        check = choose(sheet.checks, "", key)
        opening = f'given = sheet.given(limit="{key}")  # {check.part}: {check.limit_state}'
        source = f"{opening}\n{code_of(chain_of(check))}"
        made.append(_tagged(nbformat.v4.new_code_cell(source), f"equations-{number}"))  # type: ignore[no-untyped-call]
    cells = [cell for cell in notebook.cells if EQUATIONS not in cell.metadata.get("tags", ())]
    after = next(i for i, cell in enumerate(cells) if cell.source.strip() == AFTER) + 1
    notebook.cells = [*cells[:after], *made, *cells[after:]]
    return notebook


def _tagged(cell: Any, name: str) -> Any:
    cell.id = name
    cell.metadata["tags"] = [EQUATIONS]
    if (
        cell.cell_type == "code"
    ):  # another project's part may want other lines: the cells below run all the same
        cell.metadata["tags"].append("raises-exception")
    return cell
