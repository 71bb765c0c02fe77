"""Runs calc sheets for a project, one after the other on one kernel, its names cleared between them."""

from __future__ import annotations

import ast
import atexit
import logging
import re
import subprocess
import tempfile
from collections.abc import Callable, Mapping, Sequence
from contextlib import AsyncExitStack
from pathlib import Path
from typing import Any, cast

import nbformat
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionError, CellTimeoutError, DeadKernelError
from nbclient.util import run_sync

from bolewright.documents.content import SheetError
from bolewright.documents.kernel import SealedKernel, sealed_environment
from bolewright.documents.notebook import EQUATIONS, PARAMETERS

_CLEAR = """
import os as _os, sys as _sys
_os.chdir({folder!r})
if "matplotlib.pyplot" in _sys.modules:
    _sys.modules["matplotlib.pyplot"].close("all")
get_ipython().reset(new_session=True)
"""
_ANSI = re.compile(r"\x1b\[[0-9;]*[A-Za-z]")

_SILENT = logging.getLogger("bolewright.sheets")
_SILENT.addHandler(logging.NullHandler())
_SILENT.propagate = False

Progress = Callable[[int, int, str], None]


def run_sheets(
    notebooks: Sequence[Path],
    parameters: Mapping[str, object],
    progress: Progress = lambda number, count, name: None,
    timeout: int = 120,
    wishes: Mapping[str, object] | None = None,
) -> list[Any]:
    """Executed copies of the notebooks, in order; the files stay as they are.

    Cells tagged ``equations`` are left out when a value is given.
    Each value of ``parameters`` takes the place of the value of that name in the notebook's one cell tagged
    ``parameters``; a path among them should be absolute, for a sheet runs in its own folder. ``wishes`` are values for
    the sheets that have a parameter of that name. ``progress`` is told the number, the count and the name of each
    sheet as it starts. Raises :class:`SheetError` in one
    sentence for a sheet that can't be read, lacks a parameter, or has a cell that fails or takes longer than
    ``timeout`` seconds.
    """
    prepared = []
    for path in notebooks:
        notebook = _read(path)
        granted = {name: value for name, value in (wishes or {}).items() if name in _names(notebook)}
        prepared.append(with_parameters(notebook, {**parameters, **granted}, path.name))
    run_sync(_run_all)(prepared, notebooks, progress, timeout)
    return prepared


def with_parameters(notebook: Any, parameters: Mapping[str, object], name: str) -> Any:
    """The notebook with values put into its parameters cell; a name that is not there is an error."""
    if not parameters:
        return notebook
    notebook.cells = [cell for cell in notebook.cells if EQUATIONS not in cell.metadata.get("tags", ())]
    cells = [c for c in notebook.cells if c.cell_type == "code" and PARAMETERS in c.metadata.get("tags", ())]
    if len(cells) != 1:
        raise SheetError(f"the sheet {name} has {len(cells)} cells tagged {PARAMETERS!r}, one is wanted")
    source = cells[0].source
    try:
        places = _values(source)
    except SyntaxError as error:
        raise SheetError(
            f"the cell tagged {PARAMETERS!r} of the sheet {name} is no Python: {error.msg}"
        ) from error
    unknown = sorted(set(parameters) - set(places))
    if unknown:
        known = ", ".join(sorted(places)) or "none"
        raise SheetError(f"the sheet {name} has no parameter {unknown[0]!r}; it has: {known}")
    lines = source.encode("utf-8").splitlines(keepends=True)
    starts = [sum(map(len, lines[:index])) for index in range(len(lines) + 1)]
    changed = source.encode("utf-8")
    for parameter, node in sorted(places.items(), key=lambda item: (-item[1].lineno, -item[1].col_offset)):
        if parameter in parameters:
            begin = starts[node.lineno - 1] + node.col_offset
            end = starts[(node.end_lineno or node.lineno) - 1] + (node.end_col_offset or 0)
            changed = changed[:begin] + repr(parameters[parameter]).encode("utf-8") + changed[end:]
    cells[0].source = changed.decode("utf-8")
    return notebook


def _names(notebook: Any) -> set[str]:
    """Names of a notebook's parameters; none where its cell can't be read, which is said later."""
    cells = [c for c in notebook.cells if c.cell_type == "code" and PARAMETERS in c.metadata.get("tags", ())]
    try:
        return {name for cell in cells for name in _values(cell.source)}
    except SyntaxError:
        return set()


def _values(source: str) -> dict[str, ast.expr]:
    """The expression assigned to each plain name of the parameters cell."""
    found: dict[str, ast.expr] = {}
    for node in ast.parse(source).body:
        if isinstance(node, ast.Assign) and len(node.targets) == 1 and isinstance(node.targets[0], ast.Name):
            found[node.targets[0].id] = node.value
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and node.value:
            found[node.target.id] = node.value
    return found


def _read(path: Path) -> Any:
    try:
        return nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]
    except (OSError, ValueError, nbformat.ValidationError) as error:
        said = (str(error).splitlines() or ["no reason given"])[0]
        raise SheetError(f"the sheet {path.name} can't be read as a notebook: {said}") from error


async def _run_all(prepared: list[Any], notebooks: Sequence[Path], progress: Progress, timeout: int) -> None:
    """One kernel of this Python for all sheets; it is shut down at the end, whatever happens."""
    client = NotebookClient(
        nbformat.v4.new_notebook(),  # type: ignore[no-untyped-call]
        timeout=timeout,
        kernel_name="python3",
        kernel_manager_class=SealedKernel,
        record_timing=False,
        store_widget_state=False,
        log=_SILENT,
        extra_arguments=["--log-level=CRITICAL"],  # what goes wrong is said by SheetError
    )
    async with AsyncExitStack() as stack:
        await _start(client, stack)
        for number, (path, notebook) in enumerate(zip(notebooks, prepared, strict=True), start=1):
            progress(number, len(notebooks), path.stem)
            for cell in notebook.cells:
                if cell.cell_type == "code":
                    cell.outputs, cell.execution_count = [], None
            client.nb = notebook
            await _run(client, path)


async def _start(client: NotebookClient, stack: AsyncExitStack) -> None:
    """Start the kernel; the file that it is reached by is gone once it is reached, so that none is left behind."""
    with tempfile.TemporaryDirectory(prefix="bolewright-kernel-") as folder:
        try:
            client.create_kernel_manager().connection_file = str(Path(folder, "kernel.json"))
            sealed: dict[str, Any] = {"env": sealed_environment(), "stderr": subprocess.DEVNULL}
            await stack.enter_async_context(client.async_setup_kernel(cleanup_kc=True, **sealed))
        except (OSError, RuntimeError) as error:
            atexit.unregister(
                client._cleanup_kernel
            )  # left behind by a start that failed: there is no kernel
            raise SheetError(
                f"the Python that runs the sheets can't be started: {_line(str(error))}"
            ) from error


async def _run(client: NotebookClient, path: Path) -> None:
    cells, at = client.nb.cells, 0

    def note(cell: Any, cell_index: int) -> None:
        nonlocal at
        at = cell_index

    def failed(said: str) -> SheetError:
        first_line = _line(cells[at].source)[:60]
        return SheetError(f"the sheet {path.name} failed in cell {at + 1} ({first_line}): {said}")

    client.on_cell_execute = note
    clear = _CLEAR.format(folder=str(path.parent.resolve()))
    try:
        reply = await cast(Any, client.kc).execute(
            clear, silent=True, store_history=False, reply=True, timeout=client.timeout
        )
        if reply["content"]["status"] != "ok":
            said = f"{reply['content'].get('ename')}: {_line(reply['content'].get('evalue', ''))}"
            raise SheetError(f"the sheet {path.name} can't be started: {said}")
        await client.async_execute(reset_kc=False, cleanup_kc=False)
    except CellExecutionError as error:
        raise failed(f"{error.ename}: {_line(error.evalue)}") from error
    except CellTimeoutError as error:
        raise failed(f"it took longer than {client.timeout} seconds") from error
    except DeadKernelError as error:
        raise failed("the Python that ran it stopped") from error


def _line(text: str) -> str:
    return next((line.strip() for line in _ANSI.sub("", text).splitlines() if line.strip()), "")
