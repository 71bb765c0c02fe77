"""Opens the workbook on a project file: in JupyterLab, or as a plain page, both on this machine only."""

from __future__ import annotations

import os
import sys
from importlib import resources
from pathlib import Path

from bolewright.sheets.package import lay_out_workbook
from bolewright.workbook.app import FILE
from bolewright.workbook.links import FILES, ROOT

NOTEBOOK = "workbook.ipynb"
FOLDER = Path("workbook")
_GIVEN_OUT = (r"build/.*\.(pdf|html|json)", r"[^/]*\.toml")


def prepare(file: Path | None) -> Path:
    """The project file to open, with copies of the calc sheets and the workbook's notebook beside it.

    Without a file: the demonstration in a folder ``workbook``. Raises PackageError when the folder can't be
    written.
    """
    path = file if file is not None else FOLDER / "lookout.toml"
    lay_out_workbook(path.parent)
    return path.resolve()


def command(path: Path, *, page: bool, port: int, browser: bool) -> tuple[list[str], dict[str, str]]:
    """The server's command and environment for a project file."""
    folder = path.parent
    environment = {**os.environ, FILE: str(path), ROOT: str(folder), "PYTHONWARNINGS": "ignore"}
    ours = str(resources.files("bolewright.workbook") / "page")
    if not page:
        environment["JUPYTER_CONFIG_PATH"] = _before(ours, "JUPYTER_CONFIG_PATH")
        arguments = [sys.executable, "-m", "jupyterlab", str(folder / NOTEBOOK)]
        arguments += [
            f"--ServerApp.port={port}",
            "--LabApp.news_url=None",
            "--LabApp.check_for_updates_class=jupyterlab.handlers.announcements.NeverCheckForUpdate",
        ]
        arguments += ["--LabApp.extension_manager=readonly"]
        return arguments + ([] if browser else ["--no-browser"]), environment
    environment["JUPYTER_PATH"] = _before(ours, "JUPYTER_PATH")
    environment[FILES] = "voila/files"
    arguments = [
        sys.executable,
        "-m",
        "voila",
        str(folder / NOTEBOOK),
        f"--port={port}",
        "--template=bolewright",
    ]
    arguments += [f"--VoilaConfiguration.file_allowlist={pattern}" for pattern in _GIVEN_OUT]
    arguments += ["--show_tracebacks=False"]
    return arguments + ([] if browser else ["--no-browser"]), environment


def _before(folder: str, variable: str) -> str:
    return os.pathsep.join(filter(None, (folder, os.environ.get(variable))))
