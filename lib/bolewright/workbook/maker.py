"""Makes the package from the workbook: another process, its progress sheet by sheet, and a way to stop it."""

from __future__ import annotations

import asyncio
import os
import re
import signal
import sys
from collections.abc import Callable
from html import escape
from pathlib import Path

import ipywidgets as w

from bolewright.documents.transaction import KEPT
from bolewright.workbook import storage
from bolewright.workbook.desk import Desk
from bolewright.workbook.links import link_to

_SHEET = re.compile(r"\s*Sheet (\d+) of (\d+): (\S+)")
_AFTER = 3  # steps after the sheets: converting, PDF, HTML
_PATIENCE = 5.0


class Maker:
    """The pane with the button, the bar and the links."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.paper = w.Dropdown(description="Paper", options=[("US letter", "letter"), ("A4", "a4")])
        self.make = w.Button(description="Make the package")
        self.make.add_class("bw-main")
        self.make.on_click(lambda _: self.start())
        self.cancel = w.Button(description="Cancel", disabled=True)
        self.cancel.on_click(lambda _: self.stop())
        self.bar = w.IntProgress(min=0, max=1, description="Progress")
        self.said = w.HTML(
            '<p class="bw-help">The file is saved first. The PDF and the web page hold every sheet; '
            "the project file travels inside the PDF.</p>"
        )
        buttons = w.HBox([self.make, self.cancel])
        buttons.add_class("bw-bar")
        self.box = w.VBox([self.paper, buttons, self.bar, self.said])
        self._task: asyncio.Task[None] | None = None
        self._process: asyncio.subprocess.Process | None = None
        self._stopped = False
        self._kept: list[str] = []

    @property
    def out(self) -> Path:
        """Folder of the package of the open file."""
        return self.desk.folder / "build" / self.desk.path.stem

    def start(self) -> None:
        """Save, then make the package in another process."""
        if self._task is not None and not self._task.done():
            return
        try:
            self.desk.save()
        except storage.StorageError as error:
            self._say(str(error), wrong=True)
            return
        self._task = asyncio.get_running_loop().create_task(self._run())

    def stop(self) -> None:
        """Stop the process that makes the package; nothing half made stays."""
        if self._process is not None and self._process.returncode is None:
            self._stopped = True
            self._say("Stopping …")
            self._process.send_signal(signal.SIGINT)
            asyncio.get_running_loop().call_later(_PATIENCE, self._end, self._process)

    @staticmethod
    def _end(process: asyncio.subprocess.Process) -> None:
        if process.returncode is None:
            os.killpg(process.pid, signal.SIGKILL)

    async def _run(self) -> None:
        self.make.disabled, self.cancel.disabled, self._stopped = True, False, False
        self.bar.value, self.bar.max, self._kept = 0, 1, []
        self._say("Starting …")
        try:
            code, errors = await run_package(self._command(), self._heard, self._started)
        except OSError as error:
            code, errors = 2, [f"The package could not be started: {error.strerror}."]
        finally:
            self._process = None
            self.make.disabled, self.cancel.disabled = False, True
        if self._stopped:
            self._say("Stopped. Nothing was written.")
        elif code == 0:
            self.bar.value = self.bar.max
            self._done()
        else:
            self._say(" ".join(errors) or "The package could not be made.", wrong=True)

    def _started(self, process: asyncio.subprocess.Process) -> None:
        self._process = process

    def _command(self) -> list[str]:
        command = [sys.executable, "-m", "bolewright.cli", "package", str(self.desk.path)]
        command += ["--out", str(self.out), "--paper", str(self.paper.value)]
        if any(self.desk.folder.glob("[0-9]*.ipynb")):
            command += ["--sheets", str(self.desk.folder)]
        return command

    def _heard(self, line: str) -> None:
        if line.startswith(KEPT):
            self._kept.append(line.removeprefix(KEPT))
        if self._stopped or not line.startswith("  "):
            return
        if match := _SHEET.match(line):
            number, count = int(match[1]), int(match[2])
            self.bar.max, self.bar.value = count + _AFTER, number
            words = re.sub(r"^\d+_", "", match[3]).replace("_", " ")
            self._say(f"Sheet {number} of {count}: {words}")
        else:
            self.bar.value += 1
            self._say(line.strip())

    def _say(self, words: str, *, wrong: bool = False) -> None:
        kind, mark = ("bw-wrong", "✗ ") if wrong else ("bw-meant", "")
        self.said.value = f'<p class="{kind} bw-loud">{mark}{escape(words)}</p>'

    def _done(self) -> None:
        links = "".join(
            f"<li>{link_to(self.out / name, words)}</li>"
            for name, words in (
                ("package.pdf", "The package as PDF"),
                ("package.html", "The package as one web page"),
                ("results.json", "All results as data"),
            )
        )
        kept = "".join(f"<p>{escape(words)}</p>" for words in self._kept)
        self.said.value = f'<div><p class="bw-meant bw-loud">Made.</p><ul>{links}</ul>{kept}</div>'


async def run_package(
    command: list[str],
    heard: Callable[[str], None],
    started: Callable[[asyncio.subprocess.Process], None] = lambda process: None,
    told: Callable[[str], None] = lambda line: None,
) -> tuple[int, list[str]]:
    """Run a command, tell each line of its output and of its errors as it comes; its exit code, its errors' lines."""
    environment = {**os.environ, "PYTHONUNBUFFERED": "1"}
    process = await asyncio.create_subprocess_exec(
        *command,
        stdin=asyncio.subprocess.DEVNULL,
        stdout=asyncio.subprocess.PIPE,
        stderr=asyncio.subprocess.PIPE,
        env=environment,
        start_new_session=True,
    )
    started(process)
    assert process.stdout is not None
    assert process.stderr is not None
    said: list[str] = []

    async def listen(stream: asyncio.StreamReader) -> None:
        while line := await stream.readline():
            said.append(line.decode("utf-8", "replace").rstrip("\n"))
            told(said[-1])

    errors = asyncio.create_task(listen(process.stderr))
    while line := await process.stdout.readline():
        heard(line.decode("utf-8", "replace").rstrip("\n"))
    await errors
    return await process.wait(), said
