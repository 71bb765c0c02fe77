"""The cell magic in a notebook's shell: values set, blocks displayed, one sentence for a refused line."""

import pytest
from IPython.core.interactiveshell import InteractiveShell
from IPython.utils.capture import capture_output


@pytest.fixture
def shell():
    InteractiveShell.clear_instance()
    shell = InteractiveShell.instance()
    yield shell
    InteractiveShell.clear_instance()


def test_a_cell_is_worked_and_shown(shell) -> None:
    shell.run_line_magic("load_ext", "bolewright")
    with capture_output() as shown:
        done = shell.run_cell('%%worked Weight of a beam\nw = Q("6 plf")\nL = Q("12 ft")\nW = w * L')
    assert done.success
    assert shell.user_ns["W"].m_as("lbf") == pytest.approx(72)
    assert "Weight of a beam" in shown.outputs[0].data["text/html"]
    assert r"= 72\ \text{lb}" in shown.outputs[0].data["text/latex"]


def test_a_refused_line_is_one_sentence_and_sets_nothing(shell, capsys) -> None:
    shell.run_line_magic("load_ext", "bolewright")
    done = shell.run_cell("%%worked\na = 2\nb = missing + 1")
    assert not done.success
    said = capsys.readouterr()
    assert "line 2 (b = missing + 1): missing is not known here" in said.out + said.err
    assert "Traceback" not in said.out + said.err
    assert "a" not in shell.user_ns


def test_a_cell_whose_condition_is_nothing_is_left_out(shell) -> None:
    shell.run_line_magic("load_ext", "bolewright")
    shell.user_ns |= {"uplift": 0.0, "wind": 1.0}
    with capture_output() as shown:
        assert shell.run_cell("%%worked Uplift --when uplift\nR_a = 3").success
    assert "Left out: uplift is 0 here." in shown.outputs[0].data["text/plain"]
    assert "R_a" not in shell.user_ns
    with capture_output():
        assert shell.run_cell("%%worked Wind --when wind\nR_b = 3").success
    assert shell.user_ns["R_b"] == 3


def test_its_help_says_what_a_line_may_hold(shell) -> None:
    shell.run_line_magic("load_ext", "bolewright")
    said = shell.find_cell_magic("worked").__doc__
    assert "What a worked cell may hold" in said
    assert 'L = Q("12 ft")' in said
