"""Servers and a browser for the workbook's tests: Chromium of the system, localhost only."""

from __future__ import annotations

import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from bolewright.paths import shipped

CHROMIUM = next((p for p in ("/usr/bin/chromium", "/usr/bin/chromium-browser") if Path(p).exists()), "")
ARGUMENTS = [
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync"),
    *("--disable-background-networking", "--disable-component-update"),
]
PATIENCE = 60_000
OPENING = 120_000  # a server's first page: Python, kernel and JupyterLab start
TOKEN = "a-token-of-these-tests"
PICTURES = os.environ.get("BOLEWRIGHT_PICTURES", "")


def pytest_collection_modifyitems(items: list[Any]) -> None:
    for item in items:
        if Path(__file__).parent in Path(item.path).parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    playwright = pytest.importorskip(
        "playwright.sync_api", reason="playwright is not installed (extra: browser)"
    )
    if not CHROMIUM:
        pytest.skip("Chromium is not installed (Debian's package: chromium)")
    with playwright.sync_playwright() as p:
        browser = p.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        yield browser
        browser.close()


@dataclass
class Server:
    """A server on its own folder, and what its kernels are."""

    process: subprocess.Popen[bytes]
    address: str
    folder: Path
    is_page: bool
    strays: list[str] = field(default_factory=list)

    @property
    def file(self) -> Path:
        return self.folder / "lookout.toml"

    def kernels(self) -> list[int]:
        found = []
        for entry in Path("/proc").iterdir():
            if not entry.name.isdigit():
                continue
            try:
                stat = (entry / "stat").read_text()
                words = (entry / "cmdline").read_bytes().decode().split("\0")
            except OSError:
                continue
            parent = int(stat.rsplit(")", 1)[1].split()[1])
            if parent in self._own() and "ipykernel_launcher" in " ".join(words):
                found.append(int(entry.name))
        return found

    def _own(self) -> set[int]:
        """The server: the command line's process and the one it started."""
        pid = self.process.pid
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
        return {pid, *map(int, children)}

    def go(self, page: Any) -> None:
        """Bring the workbook up: it opens ready to use, as a page and in JupyterLab."""
        from playwright.sync_api import TimeoutError as TooLate  # playwright is an extra

        place = "/" if self.is_page else "/lab/tree/workbook.ipynb?reset&"
        address = f"{self.address}{place}{'?' if self.is_page else ''}token={TOKEN}"
        page.goto(address)
        state = page.locator(".bw-state").first
        try:
            state.wait_for(timeout=OPENING)
        except TooLate:  # a loaded machine: JupyterLab needs up to 50 s there; a person would load it again
            print(f"\n  {address.split('?')[0]} did not come up in {OPENING // 1000} s: loaded again")
            page.goto(address)
            state.wait_for(timeout=OPENING)

    def wait_until(self, true: Callable[[], Any], what: str) -> None:
        """Wait for something outside the browser, such as a file."""
        wait_until(true, what)

    def kill_kernels(self) -> None:
        for pid in self.kernels():
            os.kill(pid, signal.SIGKILL)

    def stop(self) -> None:
        os.killpg(self.process.pid, signal.SIGTERM)
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait(10)


def free_port() -> int:
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return int(s.getsockname()[1])


def start(folder: Path, arguments: list[str], port: int, *, is_page: bool) -> Server:
    config = folder.parent / f"{folder.name}-config"
    config.mkdir(exist_ok=True)
    settings = {"ServerApp": {"allow_root": True}}
    (config / "jupyter_server_config.json").write_text(json.dumps(settings))
    environment = {
        **os.environ,
        "JUPYTER_TOKEN": TOKEN,
        "JUPYTER_CONFIG_DIR": str(config),
        "JUPYTERLAB_WORKSPACES_DIR": str(config / "workspaces"),
        "JUPYTERLAB_SETTINGS_DIR": str(config / "settings"),
    }
    with (folder.parent / f"{folder.name}.log").open("wb") as log:
        process = subprocess.Popen(
            [sys.executable, *arguments], env=environment, stdout=log, stderr=log, start_new_session=True
        )
    server = Server(process, f"http://localhost:{port}", folder, is_page)
    try:
        wait_until(lambda: listens(port) or process.poll() is not None, "the server listens")
        assert process.poll() is None, (folder.parent / f"{folder.name}.log").read_text()
    except BaseException:
        server.stop()
        raise
    return server


def listens(port: int) -> bool:
    with socket.socket() as s:
        return s.connect_ex(("127.0.0.1", port)) == 0


def wait_until(true: Callable[[], Any], what: str, seconds: float = 40) -> None:
    """Wait for something outside the browser, such as a file."""
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, f"waited {seconds} s in vain until {what}"
        time.sleep(0.05)


def workbook(tmp: Path, name: str, *options: str) -> Server:
    folder = tmp / name
    folder.mkdir()
    shutil.copy(shipped("calcsheets") / "lookout.toml", folder)
    port = free_port()
    arguments = ["-m", "bolewright.cli", "workbook", str(folder / "lookout.toml"), *options]
    arguments += ["--no-browser", "--port", str(port)]
    return start(folder, arguments, port, is_page="--page" in options)


@pytest.fixture(scope="session", params=["page", "lab"])
def server(request: Any, tmp_path_factory: Any, chromium: Any) -> Iterator[Server]:
    """The local page, then JupyterLab, each as the command line starts it."""
    options = ("--page",) if request.param == "page" else ()
    made = workbook(tmp_path_factory.mktemp("servers"), request.param, *options)
    yield made
    made.stop()
    assert made.strays == []


@pytest.fixture(scope="session")
def page_server(tmp_path_factory: Any, chromium: Any) -> Iterator[Server]:
    made = workbook(tmp_path_factory.mktemp("servers"), "alone", "--page")
    yield made
    made.stop()
    assert made.strays == []


@pytest.fixture
def own_server(tmp_path: Path, chromium: Any) -> Iterator[Server]:
    """A local page's server that a test may stop."""
    made = workbook(tmp_path, "own", "--page")
    yield made
    if made.process.poll() is None:
        made.stop()


@pytest.fixture
def start_notebook(tmp_path: Path, chromium: Any) -> Iterator[Callable[[str], Server]]:
    """Serves the text of a notebook as a page."""
    started = []

    def serve(text: str) -> Server:
        folder = tmp_path / "bare"
        folder.mkdir()
        (folder / "bare.ipynb").write_text(text, encoding="utf-8")
        port = free_port()
        arguments = ["-m", "voila", str(folder / "bare.ipynb"), f"--port={port}", "--no-browser"]
        started.append(start(folder, arguments, port, is_page=True))
        return started[-1]

    yield serve
    for server in started:
        server.stop()


Open = Callable[..., Any]
WITHOUT_GUARD = (
    Path(__file__).parents[1] / "projects" / "without_guard"
)  # joists that no row of blocks ties to a count


@pytest.fixture
def opened(chromium: Any) -> Iterator[Open]:
    """Opens a server's workbook on a fresh copy of the demonstration, or on what lies there."""
    contexts = []

    def open_(
        server: Server, *, width: int = 1280, height: int = 900, fresh: bool = True, guard: bool = True
    ) -> Any:
        if fresh:
            for left in server.folder.glob("*.toml"):
                left.unlink()
            shutil.copy((shipped("calcsheets") if guard else WITHOUT_GUARD) / "lookout.toml", server.folder)
        context = chromium.new_context(viewport={"width": width, "height": height})
        contexts.append(context)
        context.set_default_timeout(PATIENCE)
        context.on("request", lambda request: _note(server, request.url))
        page = context.new_page()
        server.go(page)
        return page

    yield open_
    for context in contexts:
        context.close()


def _note(server: Server, url: str) -> None:
    if not re.match(r"(http|ws)s?://(localhost|127\.0\.0\.1)[:/]|data:|blob:|about:|chrome:", url):
        server.strays.append(url)


@pytest.fixture
def picture() -> Callable[[Any, str], None]:
    """Keeps a picture of the workbook for a person to look at, where one is wanted."""

    def keep(page: Any, name: str) -> None:
        if PICTURES:
            Path(PICTURES).mkdir(parents=True, exist_ok=True)
            page.screenshot(path=str(Path(PICTURES) / f"{name}.png"))

    return keep
