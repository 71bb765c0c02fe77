"""The cell magic ``%%worked`` of a notebook: ``%load_ext bolewright`` brings it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from IPython.core.error import UsageError
from IPython.display import display

from bolewright.rendering.blocks import Statement, StatementKind
from bolewright.worked import grammar
from bolewright.worked.cell import TITLE, work
from bolewright.worked.grammar import WorkedError


def register(shell: Any, ran: Callable[[str, str, str, str], None] | None = None) -> None:
    """Give a notebook's shell the magic.

    ``ran`` is told id, title, text and condition of every cell that was worked out or left out by its condition.
    """

    def worked(line: str, cell: str) -> None:
        """``%%worked [title]``: compute the lines of the cell and print them with symbols, numbers and units.

        ``%%worked title --when NAME`` leaves the cell out where the value of that name is 0.
        """
        line, _, condition = line.partition("--when")
        title, condition = line.strip(), condition.strip()

        def told() -> None:
            if ran is not None:
                ran(_cell_id(shell), title or TITLE, cell.strip(), condition)

        if condition and not shell.user_ns.get(condition, 0):
            said = (
                f"Left out: {condition} is 0 here."
                if condition in shell.user_ns
                else f"Left out: no {condition}."
            )
            told()
            display(Statement(StatementKind.ASIDE, (said,)))  # type: ignore[no-untyped-call]
            return
        try:
            done = work(cell, shell.user_ns, title)
        except WorkedError as error:
            raise UsageError(str(error)) from None
        shell.user_ns.update(done.values)
        told()
        for block in done.blocks:
            display(block)  # type: ignore[no-untyped-call]

    worked.__doc__ = f"{worked.__doc__}\n\n{grammar.__doc__}"  # what `%%worked?` shows
    shell.register_magic_function(worked, magic_kind="cell", magic_name="worked")


def _cell_id(shell: Any) -> str:
    """Id of the cell that runs, where the notebook tells it; empty elsewhere."""
    message = shell.get_parent() if hasattr(shell, "get_parent") else {}
    return str(message.get("metadata", {}).get("cellId", ""))
