"""Work survives the process that holds it: killed at any moment while typing, at most the keystroke under way is lost.

``BOLEWRIGHT_KILLS`` sets how many; results are not worked out here, so that the moments fall into the keeping of work.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import time
import tomllib
from pathlib import Path

import pytest

from bolewright.workbook import storage
from bolewright.workbook.desk import Desk

KILLS = int(os.environ.get("BOLEWRIGHT_KILLS", "12"))

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="a process is forked")


def typing(desk: Desk, told: int) -> None:
    """Type numbers without end; tell each once it is taken."""
    for number in range(1, 10**6):
        desk.type(("title", "site"), f"place {number}")
        os.write(told, f"{number}\n".encode())


def test_at_most_the_keystroke_under_way_is_lost(tmp_path, monkeypatch):
    path = tmp_path / "lookout.toml"
    shutil.copy(Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml", path)
    monkeypatch.setattr(Desk, "work_out", lambda desk: None)
    monkeypatch.setattr(Desk, "resume", lambda desk: None)
    draw = random.Random(11)
    for kill in range(KILLS):
        desk = Desk(path)
        read, told = os.pipe()
        child = os.fork()
        if child == 0:
            try:
                typing(desk, told)
            finally:
                os._exit(1)
        os.close(told)
        first = os.read(read, 64)  # typing has begun
        time.sleep(draw.uniform(0, 0.2))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        with os.fdopen(read, "rb") as rest:
            taken = int((first + rest.read()).split()[-1])
        (found,) = storage.unsaved(path)
        kept = int(tomllib.loads(found.text)["title"]["site"].split()[1])
        assert taken <= kept <= taken + 1, f"kill {kill}"
        assert not found.is_open
        storage.forget(found.side)
        for half in path.parent.glob(".*"):
            Path(half).unlink()
