"""Small steps of work between the user's keystrokes; without a running loop they are done at once."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator


class Background:
    """Runs one iterator at a time, step by step; starting another drops the one before."""

    def __init__(self) -> None:
        self._task: asyncio.Task[None] | None = None

    def start(self, steps: Iterator[None]) -> None:
        """Run the steps of an iterator, leaving room for the user between them."""
        self.stop()
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            for _ in steps:
                pass
            return
        self._task = loop.create_task(_run(steps))

    def stop(self) -> None:
        """Drop what is running."""
        if self._task is not None:
            self._task.cancel()
            self._task = None


async def _run(steps: Iterator[None]) -> None:
    await asyncio.sleep(0.15)
    for _ in steps:
        await asyncio.sleep(0.01)
