"""A command of the program run beside the page: what it says as it goes, what it found, and a way to stop it."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from collections.abc import Callable
from html import escape

import ipywidgets as w

from bolewright.workbook.maker import run_package


class Running:
    """A button that starts a command, one that stops it, a line for how far it is and room for what it found.

    The command is stopped as Ctrl+C stops it: a search keeps the best that it found so far.
    """

    def __init__(self, words: str, start: Callable[[], None]) -> None:
        self.button = w.Button(description=words)
        self.button.add_class("bw-main")
        self.button.on_click(lambda _: start())
        self.cancel = w.Button(description="Stop", disabled=True)
        self.cancel.on_click(lambda _: self.stop())
        self.said = w.HTML()
        self.found = w.HTML()
        self.buttons = w.HBox([self.button, self.cancel])
        self.buttons.add_class("bw-bar")
        self._task: asyncio.Task[None] | None = None
        self._process: asyncio.subprocess.Process | None = None

    def run(self, arguments: list[str], done: Callable[[int, list[str], list[str]], None]) -> None:
        """Start the command, unless one runs; ``done`` gets its exit code, lines and what it said as it went."""
        if self._task is not None and not self._task.done():
            return
        self._task = asyncio.get_running_loop().create_task(self._run(arguments, done))

    async def _run(self, arguments: list[str], done: Callable[[int, list[str], list[str]], None]) -> None:
        self.button.disabled, self.cancel.disabled = True, False
        self.found.value = ""
        self.say("Starting …")
        lines: list[str] = []
        try:
            command = [sys.executable, "-m", "bolewright.cli", *arguments]
            code, told = await run_package(command, lines.append, self._started, self.say)
        except OSError as error:
            code, told = 2, [f"It could not be started: {error.strerror}."]
        finally:
            self._process = None
            self.button.disabled, self.cancel.disabled = False, True
        self.say("")
        done(code, lines, told)

    def _started(self, process: asyncio.subprocess.Process) -> None:
        self._process = process

    def stop(self) -> None:
        """Stop the command as Ctrl+C does."""
        if self._process is not None and self._process.returncode is None:
            self.say("Stopping …")
            os.killpg(self._process.pid, signal.SIGINT)

    def say(self, words: str, *, wrong: bool = False) -> None:
        """Show one line, with a mark where something is wrong."""
        kind, mark = ("bw-wrong", "✗ ") if wrong else ("bw-meant", "")
        self.said.value = f'<p class="{kind} bw-loud">{mark}{escape(words)}</p>' if words else ""

    def show(self, lines: list[str]) -> None:
        """Show what the command printed."""
        self.found.value = f'<pre class="bw-found">{escape(chr(10).join(lines))}</pre>'
