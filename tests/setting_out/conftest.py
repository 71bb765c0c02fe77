"""The demonstration and the arrangements of tests/platform, laid out; entries are added to their text."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.results.results import Results, find_results

ARRANGEMENTS = sorted((Path(__file__).parents[1] / "platform" / "arrangements").glob("*.toml"))


@cache
def _layout(text: str) -> Layout:
    return find_layout(parse_project(text))


@cache
def _results(text: str) -> Results:
    return find_results(parse_project(text))


def _text() -> str:
    return (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text("utf-8")


@pytest.fixture(scope="session")
def demo() -> Layout:
    """The demonstration, laid out."""
    return _layout(_text())


@pytest.fixture(scope="session")
def demo_results() -> Results:
    """Results of the demonstration."""
    return _results(_text())


@pytest.fixture(scope="session")
def demo_with() -> Callable[[str], Layout]:
    """The demonstration with more text in its file, laid out."""
    return lambda more: _layout(f"{_text()}\n{more}")


@pytest.fixture(scope="session")
def results_with() -> Callable[[str], Results]:
    """Results of the demonstration with more text in its file."""
    return lambda more: _results(f"{_text()}\n{more}")


@pytest.fixture(params=ARRANGEMENTS, ids=lambda path: path.stem)
def arrangement(request: pytest.FixtureRequest) -> Layout:
    """Every arrangement of tests/platform, laid out."""
    return _layout(request.param.read_text("utf-8"))


@pytest.fixture(scope="session")
def demo_text() -> str:
    """Text of the demonstration's project file."""
    return _text()


@pytest.fixture(scope="session")
def demo_layout_of() -> Callable[[str], Layout]:
    """Layout of a project file's text."""
    return _layout


@pytest.fixture(params=ARRANGEMENTS, ids=lambda path: path.stem)
def arrangement_results(request: pytest.FixtureRequest) -> Results:
    """Results of every arrangement of tests/platform."""
    return _results(request.param.read_text("utf-8"))
