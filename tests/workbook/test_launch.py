"""How the workbook is started: on this machine only unless asked, never without a token, ready when it opens."""

from __future__ import annotations

import json
import os
import re
import socket
import subprocess
import sys
import time
from importlib import resources
from pathlib import Path

import pytest

from bolewright.cli import main
from bolewright.paths import shipped
from bolewright.workbook import launch, network

PAGE = resources.files("bolewright.workbook") / "page"
START = PAGE / "lab" / "labextensions" / "bolewright-start"


@pytest.fixture(autouse=True)
def _no_token(monkeypatch):
    monkeypatch.delenv(launch.TOKEN, raising=False)


def test_the_page_stays_on_this_machine_unless_another_address_is_asked_for(tmp_path):
    start = launch.as_page(tmp_path / "mine.toml", 9000)
    assert "--Voila.ip=localhost" in start.arguments
    asked = launch.as_page(tmp_path / "mine.toml", 9000, address="192.168.1.20")
    assert "--Voila.ip=192.168.1.20" in asked.arguments
    assert asked.link.startswith("http://192.168.1.20:9000/?token=")


def test_every_start_has_a_token_of_its_own_and_it_is_not_in_the_command(tmp_path):
    tokens = {launch.as_page(tmp_path / "mine.toml", 9000).environment[launch.TOKEN] for _ in range(5)}
    assert len(tokens) == 5
    assert all(len(token) >= 32 for token in tokens)
    start = launch.as_page(tmp_path / "mine.toml", 9000)
    token = start.environment[launch.TOKEN]
    assert start.link.endswith(token)
    assert not any(token in word for word in start.arguments)  # other users of the machine can list commands
    assert "--Voila.auto_token=True" in start.arguments


def test_the_workbook_in_jupyterlab_keeps_its_own_token_and_its_own_machine(tmp_path):
    words = launch.in_lab(tmp_path / "mine.toml", 9000, browser=False).arguments
    assert not any("token" in word or "ip=" in word for word in words)


@pytest.mark.parametrize("given", ["0.0.0.0", "::", "tree.example", "203.0.113.7", ""])
def test_addresses_that_are_not_one_of_this_machine_are_refused(given):
    with pytest.raises(network.NetworkError, match="--address"):
        network.own_address(given)


def test_the_command_refuses_such_an_address_in_one_sentence(capsys, tmp_path):
    assert main(["workbook", str(tmp_path / "mine.toml"), "--address", "203.0.113.7"]) == 2
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "is not an address of this computer" in said
    assert list(tmp_path.iterdir()) == []


def test_a_taken_port_is_passed_over():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert port < network.free_port("127.0.0.1", port) < port + 50


def test_the_terminal_shows_the_address_a_code_and_a_caution():
    link = "http://192.168.1.20:8866/?token=abc"
    said = launch.words(link, elsewhere=True)
    assert link in said
    assert "only in a network you trust" in said
    assert re.search("[█▀▄]{5}", said)
    assert "█" not in launch.words(link, elsewhere=False)


def own_lines() -> list[str]:
    """The patterns of lines that the extension runs unasked, as it has them."""
    text = (START / "static" / "start.js").read_text(encoding="utf-8")
    name = re.search(r"const NAME = '(.*)';", text)
    assert name is not None
    plain = re.findall(r"^    /(.*)/,$", text, re.M)
    built = [
        p.replace("${NAME}", name[1]).replace("\\\\", "\\") for p in re.findall(r"new RegExp\(`(.*)`\)", text)
    ]
    assert len(plain) + len(built) == 8
    return [p.replace("\\\\", "\\").replace("\\/", "/") for p in (*plain, *built)]


def starts(notebook: dict) -> bool:
    lines = [
        line
        for cell in notebook["cells"]
        if cell["cell_type"] == "code"
        for line in "".join(cell["source"]).split("\n")
        if line.strip()
    ]
    return all(any(re.fullmatch(pattern, line) for pattern in own_lines()) for line in lines)


@pytest.mark.parametrize("name", ["workbook", "explorer"])
def test_the_notebooks_that_ship_open_ready(name):
    assert starts(json.loads((shipped("calcsheets") / f"{name}.ipynb").read_text(encoding="utf-8")))


@pytest.mark.parametrize(
    "line",
    [
        "import os",
        'show("a.toml"); import os',
        'show(open("a.toml").read() + ".toml")',
        'project = "../../x.toml"',
        'project = "a.toml" + f()',
        "explorer = open_explorer(project) or f()",
        'explorer.follow("0 in", f(), "1 lb")',
        "%run other.py",
        "!ls",
        "from bolewright.workbook import show, os",
    ],
)
def test_nothing_else_is_ever_run_unasked(line):
    notebook = {"cells": [{"cell_type": "code", "source": ['show("lookout.toml")\n', line]}]}
    assert not starts(notebook)


def test_the_extension_is_one_that_jupyterlab_finds_and_that_ships():
    about = json.loads((START / "package.json").read_text(encoding="utf-8"))
    assert (START / about["jupyterlab"]["_build"]["load"]).is_file()
    environment = launch.in_lab(Path("mine.toml"), 9000, browser=False).environment
    assert environment["JUPYTER_PATH"].startswith(str(PAGE / "lab"))


def test_a_hub_lays_out_a_learners_folder_and_starts_nothing(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(launch, "run", lambda *_, **__: pytest.fail("no server is started"))
    assert main(["workbook", "--lay-out"]) == 0
    folder = tmp_path / "workbook"
    assert {"workbook.ipynb", "explorer.ipynb", "lookout.toml", "04_joists.ipynb"} <= {
        p.name for p in folder.iterdir()
    }
    assert str(folder) in capsys.readouterr().out
    (folder / "lookout.toml").write_text("# a learner's own\n", encoding="utf-8")
    assert main(["workbook", "--lay-out"]) == 0
    assert (folder / "lookout.toml").read_text(encoding="utf-8") == "# a learner's own\n"


def test_an_empty_token_in_the_environment_is_replaced(tmp_path, monkeypatch):
    """An empty one would let in whoever can reach the port."""
    monkeypatch.setenv(launch.TOKEN, " ")
    start = launch.as_page(tmp_path / "mine.toml", 9000)
    assert len(start.environment[launch.TOKEN]) >= 32
    assert start.link.endswith(start.environment[launch.TOKEN])
    assert launch.TOKEN not in launch.in_lab(tmp_path / "mine.toml", 9000, browser=False).environment


def test_kernels_that_no_page_uses_are_ended_by_the_server(tmp_path):
    page = launch.as_page(tmp_path / "mine.toml", 9000)
    lab = launch.in_lab(tmp_path / "mine.toml", 9000, browser=False)
    for words, seconds in ((page.arguments, launch.REST), (lab.arguments, launch.LAB_REST)):
        assert f"--MappingKernelManager.cull_idle_timeout={seconds}" in words
        assert "--MappingKernelManager.cull_connected=False" in words


def test_ending_the_command_ends_the_server(tmp_path):
    """By the signal that service managers and `kill` send; its child must not stay reachable."""
    code = (
        "import sys; from bolewright.workbook.launch import Start, run; import os\n"
        "child = 'import os, sys, time; open(sys.argv[1], \"w\").write(str(os.getpid())); time.sleep(60)'\n"
        "run(Start([sys.executable, '-c', child, sys.argv[1]], dict(os.environ)))"
    )
    said = tmp_path / "pid"
    process = subprocess.Popen([sys.executable, "-c", code, str(said)])
    deadline = time.monotonic() + 60
    while not (said.exists() and said.read_text()) and time.monotonic() < deadline:
        time.sleep(0.05)
    process.terminate()
    process.wait(30)
    with pytest.raises(ProcessLookupError):
        os.kill(int(said.read_text()), 0)
