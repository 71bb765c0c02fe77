"""The server of the local page: the stock one, with the files beside the page given out to those let in only."""

from __future__ import annotations

import sys
from collections.abc import Awaitable
from typing import Any

from jupyter_server.base.handlers import JupyterHandler
from tornado import web
from voila.app import Voila
from voila.static_file_handler import AllowListFileHandler


class FilesHandler(JupyterHandler, AllowListFileHandler):  # type: ignore[misc]
    """Files that may be read, for whoever came with the token; the stock page gives them to everybody."""

    @web.authenticated
    def get(self, path: str, include_body: bool = True) -> Awaitable[None]:
        """Give a file out."""
        return web.StaticFileHandler.get(self, path, include_body)

    @web.authenticated
    def head(self, path: str) -> Awaitable[None]:
        """Say that a file is there."""
        return web.StaticFileHandler.get(self, path, include_body=False)


class PageServer(Voila):  # type: ignore[misc]
    """The local page's server."""

    def init_handlers(self) -> list[Any]:
        """The stock handlers; files behind the token."""
        return [self._guarded(handler) for handler in super().init_handlers()]

    @staticmethod
    def _guarded(handler: Any) -> Any:
        if len(handler) > 1 and handler[1] is AllowListFileHandler:
            return (handler[0], FilesHandler, *handler[2:])
        return handler


if __name__ == "__main__":
    sys.exit(PageServer.launch_instance())
