"""The sheets run in a kernel of the program's own, whatever the user has set up."""

import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import nbformat
import pytest

from bolewright.documents.content import SheetError
from bolewright.documents.execute import run_sheets

CODE = """
import sys, os
shell = get_ipython()
print(sys.executable, "spoiled" in globals(), shell.history_manager.hist_file, os.path.exists(shell.ipython_dir))
"""


def sheet(folder, code=CODE):
    notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(code)])
    path = folder / "00_sheet.ipynb"
    nbformat.write(notebook, path)
    return path


@pytest.fixture
def spoiled(tmp_path, monkeypatch):
    """A user whose Jupyter, IPython and Python are set up to be in the way."""
    jupyter, ipython, start = tmp_path / "jupyter", tmp_path / "ipython", tmp_path / "start.py"
    (jupyter / "kernels/python3").mkdir(parents=True)
    wrong = {"argv": ["/bin/false", "{connection_file}"], "display_name": "wrong", "language": "python"}
    (jupyter / "kernels/python3/kernel.json").write_text(json.dumps(wrong))
    (ipython / "profile_default/startup").mkdir(parents=True)
    (ipython / "profile_default/startup/00.py").write_text("spoiled = True")
    (ipython / "profile_default/ipython_kernel_config.py").write_text(
        "c.IPKernelApp.exec_lines = ['spoiled = 1']"
    )
    start.write_text("spoiled = True")
    monkeypatch.setenv("JUPYTER_PATH", str(jupyter))
    monkeypatch.setenv("IPYTHONDIR", str(ipython))
    monkeypatch.setenv("PYTHONSTARTUP", str(start))
    monkeypatch.setattr(tempfile, "tempdir", None)
    monkeypatch.setenv("TMPDIR", str(tmp_path / "scratch"))
    (tmp_path / "scratch").mkdir()
    work = tmp_path / "work"
    work.mkdir()
    (work / "random.py").write_text("raise ImportError('the wrong random')")
    monkeypatch.chdir(work)
    return tmp_path


def test_a_users_kernel_startup_files_and_settings_have_no_part(spoiled):
    (notebook,) = run_sheets([sheet(spoiled)], {})
    said = "".join(output.text for output in notebook.cells[0].outputs).split()
    assert said == [sys.executable, "False", ":memory:", "False"]
    assert list((spoiled / "scratch").iterdir()) == []


def test_a_kernel_that_does_not_start_is_a_sentence(tmp_path, monkeypatch):
    monkeypatch.setattr("bolewright.documents.kernel.sys.executable", "/bin/false")
    with pytest.raises(SheetError, match="the Python that runs the sheets can't be started"):
        run_sheets([sheet(tmp_path)], {})


def test_a_run_that_is_killed_leaves_no_kernel_and_no_file(tmp_path):
    """SIGKILL in a sheet that shows its kernel's number and then waits."""
    (tmp_path / "scratch").mkdir()
    mark = tmp_path / "pid"
    path = sheet(
        tmp_path, f"import os, time; open({str(mark)!r}, 'w').write(str(os.getpid())); time.sleep(60)"
    )
    program = "import sys; from pathlib import Path; from bolewright.documents.execute import run_sheets; "
    program += "run_sheets([Path(sys.argv[1])], {})"
    environment = {**os.environ, "TMPDIR": str(tmp_path / "scratch")}
    run = subprocess.Popen([sys.executable, "-c", program, str(path)], env=environment)
    while run.poll() is None and not (mark.exists() and mark.read_text()):
        time.sleep(0.05)
    run.kill()
    run.wait()
    kernel = Path(f"/proc/{mark.read_text()}/status")
    for _ in range(100):
        if not kernel.exists() or "zombie" in kernel.read_text():
            break
        time.sleep(0.2)
    else:
        raise AssertionError("the kernel runs on")
    assert list((tmp_path / "scratch").iterdir()) == []
