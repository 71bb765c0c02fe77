"""Results of all examples that ship and all arrangements; makes this folder's helpers importable."""

import sys
from pathlib import Path

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.results.results import find_results

sys.path.insert(0, str(Path(__file__).parent))

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
EXAMPLES = sorted(shipped("calcsheets").glob("*.toml"))
ARRANGEMENTS = sorted((Path(__file__).parents[1] / "platform" / "arrangements").glob("*.toml"))


def _results(path):
    return find_results(read_project(path))


@pytest.fixture(scope="session")
def demo():
    return _results(DEMO)


@pytest.fixture(scope="session", params=[*EXAMPLES, *ARRANGEMENTS], ids=lambda path: path.stem)
def results(request):
    """One platform after the other through all tests that look at it, so that it is found once and then let go."""
    return _results(request.param)
