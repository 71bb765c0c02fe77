"""Opens the workbook on a project file: in JupyterLab, or as a plain page; on this machine only unless asked."""

from __future__ import annotations

import os
import secrets
import signal
import socket
import subprocess
import sys
import threading
import time
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass
from importlib import resources
from pathlib import Path

from bolewright.sheets.package import lay_out_workbook
from bolewright.workbook.app import FILE
from bolewright.workbook.links import FILES, ROOT
from bolewright.workbook.network import CAUTION, square_code

NOTEBOOK = "workbook.ipynb"
EXPLORER = "explorer.ipynb"
FOLDER = Path("workbook")
HERE = "localhost"
TOKEN = "JUPYTER_TOKEN"
REST = 600  # s without a page after which the page's server ends a kernel
LAB_REST = 7200  # s, the same in JupyterLab, where other notebooks' kernels are too
_ENDINGS = tuple(
    getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)
)  # what ends this process ends the server, and that its kernels
_GIVEN_OUT = (r"build/.*\.(pdf|html|json)", r"[^/]*\.toml")


@dataclass(frozen=True)
class Start:
    """A server to start: its command, its environment, and the page's address with its token ("" in JupyterLab,
    which opens and prints its own)."""

    arguments: list[str]
    environment: dict[str, str]
    link: str = ""


def prepare(file: Path | None) -> Path:
    """The project file to open, with copies of the calc sheets and the workbook's notebook beside it.

    Without a file: the demonstration in a folder ``workbook``. Raises PackageError when the folder can't be
    written.
    """
    path = file if file is not None else FOLDER / "lookout.toml"
    lay_out_workbook(path.parent)
    return path.resolve()


def in_lab(path: Path, port: int, *, browser: bool) -> Start:
    """JupyterLab on a project file, its form running when it opens."""
    ours = resources.files("bolewright.workbook") / "page"
    environment = _environment(path)
    environment["JUPYTER_CONFIG_PATH"] = _before(str(ours), "JUPYTER_CONFIG_PATH")
    environment["JUPYTER_PATH"] = _before(str(ours / "lab"), "JUPYTER_PATH")
    arguments = [
        *(sys.executable, "-m", "jupyterlab", str(path.parent / NOTEBOOK)),
        f"--ServerApp.port={port}",
        "--LabApp.news_url=None",
        "--LabApp.check_for_updates_class=jupyterlab.handlers.announcements.NeverCheckForUpdate",
        "--LabApp.extension_manager=readonly",
        *_resting(LAB_REST),
        *([] if browser else ["--no-browser"]),
    ]
    return Start(arguments, environment)


def as_page(path: Path, port: int, *, address: str = HERE) -> Start:
    """The plain page on a project file; whoever opens it needs the token in its link."""
    ours = resources.files("bolewright.workbook") / "page"
    environment = _environment(path)
    environment["JUPYTER_PATH"] = _before(str(ours), "JUPYTER_PATH")
    environment[FILES] = "voila/files"
    token = environment.setdefault(TOKEN, secrets.token_hex(16))
    # A page that is left ends its kernel; where it could not, as after a crash of the browser, this does.
    arguments = [
        *(sys.executable, "-m", "bolewright.workbook.page_server", str(path.parent / NOTEBOOK)),
        *(f"--Voila.ip={address}", f"--port={port}", "--Voila.port_retries=0", "--Voila.auto_token=True"),
        *("--no-browser", "--template=bolewright", "--show_tracebacks=False", "--Voila.log_level=WARN"),
        *_resting(REST),
        *(f"--VoilaConfiguration.file_allowlist={pattern}" for pattern in _GIVEN_OUT),
    ]
    host = f"[{address}]" if ":" in address else address
    return Start(arguments, environment, f"http://{host}:{port}/?token={token}")


def run(start: Start, *, opened: Callable[[str], object] | None = None) -> int:
    """Run a server until it ends; once it listens, ``opened`` is called with its link. Its exit code."""
    process = subprocess.Popen(start.arguments, env=start.environment)
    before = {number: signal.signal(number, lambda *_: process.terminate()) for number in _ENDINGS}
    if opened is not None and start.link:
        threading.Thread(target=_when_it_listens, args=(start.link, process, opened), daemon=True).start()
    try:
        return process.wait()
    except KeyboardInterrupt:
        process.wait()
        raise
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def _when_it_listens(link: str, process: subprocess.Popen[bytes], opened: Callable[[str], object]) -> None:
    host, _, port = link.split("/")[2].rpartition(":")
    while process.poll() is None:
        try:
            with socket.create_connection((host.strip("[]"), int(port)), timeout=1):
                break
        except OSError:
            time.sleep(0.2)
    else:
        return
    opened(link)


def open_here(link: str) -> None:
    """Open a link in this machine's browser."""
    webbrowser.open(link)


def words(link: str, *, elsewhere: bool) -> str:
    """What the terminal says of the page's link; with its square code and the caution for another machine."""
    stop = (
        "Stop with Ctrl+C; what is not saved is kept beside the file. A page that is closed ends its calculation at "
        f"once, one that crashed after {REST // 60} minutes, one that nobody touches after 2 hours."
    )
    if not elsewhere:
        return f"The workbook is at\n  {link}\n{stop}"
    return (
        f"On the phone or tablet, in the same network as this computer, open\n  {link}\nor point its camera here:\n\n"
        f"{square_code(link)}\n{CAUTION}\n{stop}"
    )


def _environment(path: Path) -> dict[str, str]:
    environment = {**os.environ, FILE: str(path), ROOT: str(path.parent), "PYTHONWARNINGS": "ignore"}
    if not environment.get(TOKEN, "").strip():  # an empty token would let everybody in
        environment.pop(TOKEN, None)
    return environment


def _resting(seconds: int) -> tuple[str, ...]:
    """Options by which the server ends a kernel that no page has used for a while; work is kept beside the file."""
    return (
        f"--MappingKernelManager.cull_idle_timeout={seconds}",
        f"--MappingKernelManager.cull_interval={seconds // 10}",
        "--MappingKernelManager.cull_connected=False",
    )


def _before(folder: str, variable: str) -> str:
    return os.pathsep.join(filter(None, (folder, os.environ.get(variable))))
