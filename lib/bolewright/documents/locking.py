"""A lock that one process holds and the system frees when it ends, however it ends."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


class Busy(Exception):
    """Another process holds the lock."""


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Hold the lock of a file, which is made and taken away again; Busy when another process holds it."""
    handle = _taken(path)
    try:
        yield
    finally:
        with suppress(OSError):
            path.unlink()
        os.close(handle)


def _taken(path: Path) -> int:
    """Handle of the locked file: the one of that name, not one that its holder took away meanwhile."""
    while True:
        handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
        try:
            _lock(handle)
            if os.path.samestat(os.fstat(handle), path.stat()):
                return handle
        except FileNotFoundError:
            pass
        except BaseException:
            os.close(handle)
            raise
        os.close(handle)


if sys.platform == "win32":
    import msvcrt

    def _lock(handle: int) -> None:
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            raise Busy from None
else:
    import fcntl

    def _lock(handle: int) -> None:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise Busy from None
