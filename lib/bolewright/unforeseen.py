"""The last net under the command line: what nobody foresaw becomes one sentence and a saved report."""

from __future__ import annotations

import platform
import shlex
import tempfile
import traceback
from collections.abc import Sequence
from pathlib import Path

from bolewright import __version__

EXIT = 3
_NAME = "bolewright-fault"
_MOST = 200_000  # characters of a report: a deep recursion repeats itself


def unforeseen(error: BaseException, arguments: Sequence[str]) -> str:
    """What to tell the user of a fault of the program; the report is saved first, where a file can be written."""
    report = report_of(error, arguments)
    place = _saved(Path(), report) or _saved(Path(tempfile.gettempdir()), report)
    kept = f"the report is in {place}" if place else "no report could be saved"
    return (
        f"This is a fault of the program, not of your file ({type(error).__name__}): {kept}, nothing of the result "
        "may be used; send the report and the project file to who maintains the program"
    )


def report_of(error: BaseException, arguments: Sequence[str]) -> str:
    """What a maintainer needs to see: version, system, command and where it happened; no text of the project."""
    told = "".join(traceback.format_exception(error))
    lines = (
        f"bolewright {__version__}, Python {platform.python_version()}, {platform.system()} {platform.machine()}",
        f"command: bolewright {shlex.join(arguments)}",
        "",
        told if len(told) <= _MOST else f"{told[: _MOST // 2]}\n...\n{told[-_MOST // 2 :]}",
    )
    return "\n".join(lines)


def _saved(folder: Path, report: str) -> Path | None:
    """Where the report was written: a name of its own, nothing is written over; None where that can't be done."""
    try:
        for number in range(1, 100):
            path = folder.absolute() / f"{_NAME}-{number}.txt"
            try:
                with path.open("x", encoding="utf-8", errors="backslashreplace") as file:
                    file.write(report)
            except FileExistsError:
                continue
            return path
    except OSError:
        pass
    return None
