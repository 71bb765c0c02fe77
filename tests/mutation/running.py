"""One mutant and the tests that cover it, each in a forked process.

The tests are collected once. A mutant within a function is put in place by giving that function its changed code, in
a fork, so that everything that refers to it sees the change; one outside of functions (a constant, a default) needs
the whole program imported anew, from a changed copy of its module in a folder of its own. The working tree is never
touched.
"""

from __future__ import annotations

import functools
import gc
import importlib.util
import os
import resource
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from importlib.machinery import ModuleSpec
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import pytest

from mutation.covering import AUDIT, covering, functions
from mutation.operators import LIBRARY, Mutant

TESTS = Path(__file__).parents[1]
ROUND = 12  # tests to an import of the program; most mutants end in the first round
MEMORY = 6 << 30
NO_TEST = "(no test found)"
OPTIONS = ("-q", "-p", "no:cacheprovider", "-p", "no:xdist", "-o", "addopts=--import-mode=importlib")


@dataclass(frozen=True)
class Outcome:
    """What became of a mutant: killed by a test, hung, alive, or covered by no test."""

    mutant: Mutant
    fate: str  # killed, hung, alive, uncovered
    by: str = ""
    seconds: float = 0.0
    tests: int = 0

    @property
    def caught(self) -> bool:
        return self.fate in ("killed", "hung")


def settle_hypothesis() -> None:
    """The same examples every time, no deadline, and no search for a smaller one."""
    import hypothesis

    hypothesis.settings.register_profile(
        "mutation",
        deadline=None,
        derandomize=True,
        database=None,
        max_examples=40,
        suppress_health_check=list(hypothesis.HealthCheck),
        phases=(hypothesis.Phase.explicit, hypothesis.Phase.generate),
    )
    hypothesis.settings.load_profile("mutation")


def wanted(mutant: Mutant, budget: float) -> list[str]:
    """Covering tests, as many as ``budget`` seconds of them."""
    tests: list[str] = []
    spent = 0.0
    for test, seconds in covering(mutant):
        spent += seconds
        if tests and spent > budget:
            break
        tests.append(test)
    return [*tests, *(test for test in AUDIT if mutant.room == "platform" and test not in tests)]


def run(chosen: Sequence[Mutant], budget: float, say: Callable[[Outcome], None]) -> list[Outcome]:
    """Fates of some mutants."""
    settle_hypothesis()
    found: list[Outcome] = []

    def note(one: Outcome) -> None:
        found.append(one)
        say(one)

    inside: list[tuple[Mutant, list[str]]] = []
    for mutant in chosen:
        tests = wanted(mutant, budget)
        if not tests:
            note(Outcome(mutant, "uncovered"))
        elif _outermost(mutant):
            inside.append((mutant, tests))
        else:
            note(_anew(mutant, tests, budget))
    if inside:
        files = {test.split("::")[0] for _, tests in inside for test in tests}
        os.chdir(TESTS.parent)
        sys.path[:0] = [str(LIBRARY.parent)]
        loop = _Loop(inside, budget, note)
        pytest.main([*OPTIONS, *(file for file in sorted(files) if Path(file).exists())], plugins=[loop])
    return found


def _forked(work: Callable[[Callable[[str], None]], None], limit: float) -> str | None:
    """What ``work`` said first in a process of its own; "" where it said nothing, None where the time ran out."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        code = 1
        try:
            os.setsid()
            resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
            silent = os.open(os.devnull, os.O_WRONLY)
            for stream in (1, 2):
                os.dup2(silent, stream)
            work(lambda words: os.write(writing, f"{words}\n".encode()))
            code = 0
        finally:
            os._exit(code)
    os.close(writing)
    end = time.monotonic() + limit
    status: int | None = None
    while status is None and time.monotonic() < end:
        done, given = os.waitpid(child, os.WNOHANG)
        status = given if done else None
        time.sleep(0.01)
    if status is None:
        os.killpg(child, signal.SIGKILL)
        os.waitpid(child, 0)
    with os.fdopen(reading) as stream:
        said = stream.read().splitlines()
    if said:
        return said[0]
    return None if status is None else "(the process died)" if status else ""


# -- a function's code, changed in a fork of the collected session -----------------------------------------------------


def _outermost(mutant: Mutant) -> str:
    """Outermost function that the mutant lies in, by its dotted name; empty outside of functions and in decorators."""
    spans = functions(LIBRARY / mutant.path)
    parts = mutant.function.split(".")
    for length in range(1, len(parts) + 1):
        name = ".".join(parts[:length])
        if name in spans:
            return name
    return ""


def put_in_place(mutant: Mutant, folder: str) -> None:
    """Give the function in this process the mutant's code, and forget what was kept of earlier runs."""
    name = _outermost(mutant)
    file = str(LIBRARY / mutant.path)
    changed = Path(folder, Path(mutant.path).name)
    changed.write_text(mutant.source(), encoding="utf-8")
    before = _code(compile(Path(file).read_text(encoding="utf-8"), file, "exec"), name.split("."))
    after = _code(compile(mutant.source(), str(changed), "exec"), name.split("."))
    met = 0
    for thing in gc.get_objects():
        if isinstance(thing, FunctionType) and thing.__code__ == before:
            thing.__code__ = after
            met += 1
        elif isinstance(thing, functools._lru_cache_wrapper):
            thing.cache_clear()
    if not met:
        raise LookupError(f"{mutant.path}: no function {name} was found in the program")


def _code(code: CodeType, names: list[str]) -> CodeType:
    for name in names:
        code = next(c for c in code.co_consts if isinstance(c, CodeType) and c.co_name == name)
    return code


class _Loop:
    """In place of the run of all tests: for each mutant a fork that runs its own."""

    def __init__(
        self, chosen: Sequence[tuple[Mutant, list[str]]], budget: float, note: Callable[[Outcome], None]
    ) -> None:
        self.chosen, self.budget, self.note = chosen, budget, note
        self.failed = ""

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed = self.failed or report.nodeid

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        gc.freeze()
        for mutant, tests in self.chosen:
            start = time.monotonic()
            own = [items[test] for test in tests if test in items]
            if not own:
                self.note(Outcome(mutant, "uncovered", NO_TEST))
                continue
            with tempfile.TemporaryDirectory() as folder:
                by = self._killer(mutant, own, folder)
            fate = "hung" if by is None else "killed" if by else "alive"
            self.note(Outcome(mutant, fate, by or "", time.monotonic() - start, len(own)))
        return True

    def _killer(self, mutant: Mutant, own: list[pytest.Item], folder: str) -> str | None:
        """The test that fails for the mutant and not without it; as :func:`_forked` says it."""
        limit = 30 + 5 * self.budget
        while True:
            by = _forked(lambda say: self._run(mutant, own, folder, say), limit)  # noqa: B023
            killer = [item for item in own if item.nodeid == by]
            if not killer or not _forked(lambda say: self._run(None, killer, folder, say), limit):  # noqa: B023
                return by
            own = [item for item in own if item not in killer]  # it fails anyway

    def _run(
        self, mutant: Mutant | None, items: list[pytest.Item], folder: str, say: Callable[[str], None]
    ) -> None:
        gc.unfreeze()
        if mutant is not None:
            put_in_place(mutant, folder)
        for item, following in zip(items, [*items[1:], None], strict=True):
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            if self.failed:
                say(self.failed)
                return


# -- a module's text, changed before the program is imported -----------------------------------------------------------


class _Changed:
    """Finder of the one module whose text is changed."""

    def __init__(self, name: str, path: str, package: bool) -> None:
        self.name, self.path, self.package = name, path, package

    def find_spec(self, name: str, path: Any = None, target: Any = None) -> ModuleSpec | None:
        if name != self.name:
            return None
        below = [str(LIBRARY.joinpath(*name.split(".")[1:]))] if self.package else None
        return importlib.util.spec_from_file_location(name, self.path, submodule_search_locations=below)


class _Chosen:
    """Only the wanted tests, in the wanted order, and which of them failed."""

    def __init__(self, tests: Sequence[str], say: Callable[[str], None]) -> None:
        self.order = {name: i for i, name in enumerate(tests)}
        self.say = say

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted((i for i in items if i.nodeid in self.order), key=lambda i: self.order[i.nodeid])

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.say(report.nodeid)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed:
            self.say(f"{report.nodeid} (collection)")


def _anew(mutant: Mutant, tests: list[str], budget: float) -> Outcome:
    """Fate of a mutant outside of functions; the program must not have been imported in this process."""
    start = time.monotonic()
    for first in range(0, len(tests), ROUND):
        some = tests[first : first + ROUND]
        with tempfile.TemporaryDirectory() as folder:
            by = _forked(lambda say: _import_and_run(mutant, some, folder, say), 60 + 5 * budget)  # noqa: B023
        if by == NO_TEST:
            return Outcome(mutant, "uncovered", by)
        if by is None or by:
            fate = "hung" if by is None else "killed"
            return Outcome(mutant, fate, by or "", time.monotonic() - start, len(tests))
    return Outcome(mutant, "alive", "", time.monotonic() - start, len(tests))


def _import_and_run(mutant: Mutant, tests: Sequence[str], folder: str, say: Callable[[str], None]) -> None:
    sys.path[:0] = [str(LIBRARY.parent)]
    sys.dont_write_bytecode = True
    os.chdir(TESTS.parent)
    path = Path(folder, Path(mutant.path).name)
    path.write_text(mutant.source(), encoding="utf-8")
    parts = ["bolewright", *Path(mutant.path).with_suffix("").parts]
    package = parts[-1] == "__init__"
    name = ".".join(parts[:-1] if package else parts)
    if name in sys.modules:
        raise LookupError(f"{name} is imported already")
    sys.meta_path.insert(0, _Changed(name, str(path), package))  # type: ignore[arg-type]
    files = dict.fromkeys(test.split("::")[0] for test in tests)
    code = int(pytest.main(["-x", *OPTIONS, *files], plugins=[_Chosen(tests, say)]))
    if code == pytest.ExitCode.NO_TESTS_COLLECTED:
        say(NO_TEST)
    elif code not in (pytest.ExitCode.OK, pytest.ExitCode.TESTS_FAILED):
        say("(the program can't be imported)")
