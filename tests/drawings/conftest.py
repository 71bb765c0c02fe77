"""Results of all examples that ship and all arrangements, found once; makes this folder's helpers importable."""

import sys
from functools import cache
from pathlib import Path

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.results.results import find_results

sys.path.insert(0, str(Path(__file__).parent))

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
EXAMPLES = sorted(shipped("calcsheets").glob("*.toml"))
ARRANGEMENTS = sorted((Path(__file__).parents[1] / "platform" / "arrangements").glob("*.toml"))


@cache
def _results(path):
    return find_results(read_project(path))


@pytest.fixture(scope="session")
def demo():
    return _results(DEMO)


@pytest.fixture(params=[*EXAMPLES, *ARRANGEMENTS], ids=lambda path: path.stem)
def results(request):
    return _results(request.param)
