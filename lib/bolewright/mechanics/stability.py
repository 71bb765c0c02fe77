"""The error of a structure that can move."""

from __future__ import annotations


class UnstableError(ValueError):
    """A structure that can move without straining; the message names what moves and in which direction."""

    def __init__(self, message: str, *, where: str, direction: str) -> None:
        super().__init__(message)
        self.where = where
        self.direction = direction
