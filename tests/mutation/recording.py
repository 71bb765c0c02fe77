"""A pytest plugin: which lines of the program each test runs, as coverage.py's contexts.

What a fixture of a wider scope or a cached helper of the tests ran belongs to every test that uses it, not only to
the one that happened to come first: each gets a context of its own, and the tests remember which they used.

    python -m mutation --map
"""

from __future__ import annotations

import functools
import json
import os
import sys
from collections.abc import Callable, Hashable, Iterator
from pathlib import Path
from typing import Any

import coverage
import pytest

TESTS = Path(__file__).parents[1]


class Contexts:
    """The contexts under way, the innermost last, and what each has used of others."""

    def __init__(self) -> None:
        self.stack: list[str] = [""]
        self.uses: dict[str, set[str]] = {}
        self.seconds: dict[str, float] = {}
        self.failed: set[str] = set()

    def _switch(self) -> None:
        running = coverage.Coverage.current()
        if running is not None:
            running.switch_context(self.stack[-1])

    def enter(self, name: str) -> None:
        self.use(name)
        self.stack.append(name)
        self._switch()

    def leave(self) -> None:
        self.stack.pop()
        self._switch()

    def use(self, name: str) -> None:
        self.uses.setdefault(self.stack[-1], set()).add(name)


contexts = Contexts()


def _recorded(function: Callable[..., Any]) -> Callable[..., Any]:
    kept: dict[Hashable, Any] = {}

    @functools.wraps(function)
    def cached(*args: Any, **kwargs: Any) -> Any:
        key = (args, tuple(sorted(kwargs.items())))
        name = f"cache {function.__module__}.{function.__qualname__} {len(kept) if key not in kept else ''}"
        if key in kept:
            name, value = kept[key]
            contexts.use(name)
            return value
        contexts.enter(name)
        try:
            value = function(*args, **kwargs)
        finally:
            contexts.leave()
        kept[key] = (name, value)
        return value

    return cached


_cache, _lru_cache = functools.cache, functools.lru_cache


def _of_tests() -> bool:
    return sys._getframe(2).f_code.co_filename.startswith(str(TESTS))


def _cache_of_tests(function: Any) -> Any:
    return _recorded(function) if _of_tests() else _cache(function)


def _lru_cache_of_tests(*args: Any, **kwargs: Any) -> Any:
    return _recorded if _of_tests() and not (args and callable(args[0])) else _lru_cache(*args, **kwargs)


functools.cache, functools.lru_cache = _cache_of_tests, _lru_cache_of_tests


@pytest.hookimpl(wrapper=True)
def pytest_fixture_setup(fixturedef: Any, request: pytest.FixtureRequest) -> Iterator[None]:
    if fixturedef.scope == "function":
        return (yield)
    contexts.enter(f"fixture {fixturedef.baseid}::{fixturedef.argname}")
    try:
        return (yield)
    finally:
        contexts.leave()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    contexts.enter(item.nodeid)
    for name in getattr(item, "fixturenames", ()):
        for fixture in item.session._fixturemanager.getfixturedefs(name, item) or ():
            if fixture.scope != "function":
                contexts.use(f"fixture {fixture.baseid}::{fixture.argname}")
    try:
        return (yield)
    finally:
        contexts.leave()


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    contexts.seconds[report.nodeid] = contexts.seconds.get(report.nodeid, 0.0) + report.duration
    if report.outcome != "passed" or hasattr(report, "wasxfail"):
        contexts.failed.add(report.nodeid)


def pytest_sessionfinish(session: pytest.Session) -> None:
    target = Path(session.config.rootpath, os.environ.get("BOLEWRIGHT_USES", ".coverage-uses.json"))
    uses = {name: sorted(used) for name, used in contexts.uses.items()}
    seconds = {name: value for name, value in contexts.seconds.items() if name not in contexts.failed}
    target.write_text(json.dumps({"uses": uses, "seconds": seconds}))
