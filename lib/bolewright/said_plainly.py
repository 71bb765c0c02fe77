"""Errors that are sentences for the user: a notebook shows the sentence, not the program lines that led to it."""

from __future__ import annotations

from typing import TypeVar

_E = TypeVar("_E", bound=type[BaseException])


def said_plainly(error: _E) -> _E:
    """A class of errors that IPython shows by their message alone."""

    def shown(self: BaseException) -> list[str]:
        return [str(self)]

    error._render_traceback_ = shown  # type: ignore[attr-defined]
    return error
