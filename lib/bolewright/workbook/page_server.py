"""The server of the local page: the stock one, with the files beside the page given out to those let in only."""

from __future__ import annotations

import sys
from collections.abc import Awaitable
from typing import Any

from jupyter_core.utils import ensure_async
from jupyter_server.auth.decorator import allow_unauthenticated
from jupyter_server.auth.logout import LogoutHandler
from jupyter_server.base.handlers import JupyterHandler
from tornado import web
from voila.app import Voila
from voila.shutdown_kernel_handler import VoilaShutdownKernelHandler
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


class LeaveHandler(JupyterHandler):
    """Ends the kernel of a page that is left. The stock one wants a token of the form that a page can't send then."""

    def check_xsrf_cookie(self) -> None:
        """None: the cookie that lets in is not sent along by other sites, nor are kernels' names known there."""

    @web.authenticated
    async def post(self, kernel: str) -> None:
        """End a kernel; nothing to be done when it has ended already."""
        if kernel in self.kernel_manager:
            await ensure_async(self.kernel_manager.shutdown_kernel(kernel))  # type: ignore[no-untyped-call]
        self.set_status(204)


class OutHandler(JupyterHandler):
    """Lets a browser out, and shows where to come in; the stock one finds no page to show."""

    @allow_unauthenticated
    def get(self) -> None:
        """Forget who is in."""
        self.identity_provider.clear_login_cookie(self)
        self.redirect(self.settings["login_url"])


_OURS = {
    AllowListFileHandler: FilesHandler,
    VoilaShutdownKernelHandler: LeaveHandler,
    LogoutHandler: OutHandler,
}


class PageServer(Voila):  # type: ignore[misc]
    """The local page's server."""

    def init_handlers(self) -> list[Any]:
        """The stock handlers, ours in place of some."""
        return [self._guarded(handler) for handler in super().init_handlers()]

    @staticmethod
    def _guarded(handler: Any) -> Any:
        ours = _OURS.get(handler[1]) if len(handler) > 1 else None
        return handler if ours is None else (handler[0], ours, *handler[2:])


if __name__ == "__main__":
    sys.exit(PageServer.launch_instance())
