"""The sheets that ship, run in this process: they are the program's own code, so no kernel has to stand between.

A user's own sheets run on a kernel of their own (:mod:`bolewright.documents.execute`); both give the same content.
"""

from __future__ import annotations

import ast
import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from IPython.display import Markdown as ShownMarkdown

from bolewright.documents.content import Content, Markdown, SheetContent, SheetError
from bolewright.documents.notebook import EQUATIONS, NOT_PRINTED, numbered
from bolewright.documents.notebook import PARAMETERS as PARAMETERS_TAG
from bolewright.rendering.blocks import Block
from bolewright.sheets.opening import Blocks

Progress = Callable[[int, int, str], None]


def run_shipped(
    notebooks: Sequence[Path],
    parameters: Mapping[str, object],
    progress: Progress = lambda number, count, name: None,
) -> list[SheetContent]:
    """Content of the sheets that ship, in order; a parameter counts for the sheets that have one of that name.

    Raises :class:`SheetError` in one sentence for a sheet with a cell that fails.
    """
    contents = []
    for number, path in enumerate(notebooks, start=1):
        progress(number, len(notebooks), path.stem)
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        contents.append(numbered(path.stem, _items(cells, parameters, path.name)))
    return contents


def _items(
    cells: Sequence[Mapping[str, Any]], parameters: Mapping[str, object], name: str
) -> Iterator[Content]:
    """What the cells say and display, one after the other."""
    names: dict[str, Any] = {"__name__": "__main__"}
    for position, cell in enumerate(cells, start=1):
        source = "".join(cell["source"])
        tags = set(cell["metadata"].get("tags", ()))
        if EQUATIONS in tags:
            continue
        if cell["cell_type"] == "markdown":
            yield Markdown(source)
        elif cell["cell_type"] == "code" and source.strip():
            try:
                shown = _run(source, names)
            except Exception as error:
                first = source.strip().splitlines()[0][:60]
                said = next(iter(str(error).splitlines()), "")
                raise SheetError(
                    f"the sheet {name} failed in cell {position} ({first}): {type(error).__name__}: {said}"
                ) from error
            if PARAMETERS_TAG in tags:
                names |= {key: value for key, value in parameters.items() if key in names}
            if not tags & NOT_PRINTED:
                yield from _displayed(shown, f"cell {position} of the sheet {name}")


def _run(source: str, names: dict[str, Any]) -> Any:
    """Run a cell; the value of its last line, where that is an expression."""
    tree = ast.parse(source)
    shown = None
    if tree.body and isinstance(last := tree.body[-1], ast.Expr):
        del tree.body[-1]
        shown = compile(ast.Expression(last.value), "<sheet>", "eval")
    exec(compile(tree, "<sheet>", "exec"), names)
    return eval(shown, names) if shown else None


def _displayed(shown: Any, where: str) -> Iterator[Content]:
    if isinstance(shown, Blocks):
        for item in shown.items:
            yield from _displayed(item, where)
    elif isinstance(shown, ShownMarkdown):
        yield Markdown(str(shown.data))
    elif isinstance(shown, Block):
        yield shown
    elif shown is not None:
        raise SheetError(f"{where} displays a {type(shown).__name__}, which no sheet that ships does")
