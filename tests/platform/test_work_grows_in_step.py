"""Twice the parts make about twice the work, counted in calls and objects made: a clock would tell of the machine."""

import gc
import sys
from pathlib import Path

import pytest

from bolewright.platform.file.reading import ProjectError, parse_project

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text("utf-8")


def work_of(work):
    """How much a piece of work calls, generators going on included, and makes, as the collector of objects counts."""
    count = 0

    def called(frame, event, given):
        nonlocal count
        count += event == "call"

    def made(phase, given):
        nonlocal count
        count += 1000 * (phase == "start")  # each time some 700 objects more were made than are gone

    gc.collect()
    gc.callbacks.append(made)
    sys.setprofile(called)
    try:
        work()
    finally:
        sys.setprofile(None)
        gc.callbacks.remove(made)
    return count


def refused(text):
    with pytest.raises(ProjectError):
        parse_project(text)


@pytest.mark.parametrize(
    "more",
    [
        '\n[[support]]\nmark = "Q"\n',
        "\n[[tree]]\n",
        '\n[[as_built]]\nmark = "NONE"\n',
        '\n[[price]]\nitem = "x"\n',
    ],
)
def test_many_incomplete_parts_are_refused_in_step_with_their_number(more):
    refused(DEMO + more)  # what is done once in a process is done
    few, many = (work_of(lambda n=n: refused(DEMO + more * n)) for n in (300, 1200))
    assert few > 300
    assert many < 4.4 * few
