"""Order of the suite, what stays together on one worker, and what is let go after each file.

The browser's tests come last: they are the slowest, and Playwright's own event loop keeps running in the main thread
until the session ends, so that no other test could start one there.
"""

import functools
import gc
import os
import re
import sys
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

TESTS = Path(__file__).parent
BROWSER = TESTS / "browser"
# Folders in which many files look at the same platforms: all of one platform goes to one worker, found once.
BY_PLATFORM = ("tests/drawings/", "tests/outside/")
PLATFORMS = frozenset(
    path.stem for folder in (TESTS, TESTS.parent / "calcsheets") for path in folder.rglob("*.toml")
)
ARRANGEMENTS = frozenset(path.stem for path in (TESTS / "platform" / "arrangements").glob("*.toml"))
SWEEP = 12  # arrangements in one test
MANY = (
    100_000  # new objects before a search for rings of objects; a check makes and drops millions without one
)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    items.sort(key=lambda item: BROWSER in item.path.parents)
    left = set() if "BOLEWRIGHT_EVERY_PLATFORM" in os.environ else swept_elsewhere(items)
    config.hook.pytest_deselected(items=[item for item in items if item in left])
    items[:] = [item for item in items if item not in left]


def swept_elsewhere(items: list[pytest.Item]) -> set[pytest.Item]:
    """What a sweep leaves to other sweeps: a test of a dozen arrangements or more looks at every third of them, each
    file at others. The audit and what ships are never left out; BOLEWRIGHT_EVERY_PLATFORM leaves nothing out.
    """
    sweeps: dict[tuple[str, str], dict[str, list[pytest.Item]]] = {}
    for item in items:
        file, _, rest = item.nodeid.partition("::")
        if file.startswith("tests/audit/"):
            continue
        name, *words = re.split(r"[-\[\]]", rest)
        of = next((word for word in words if word in ARRANGEMENTS or re.match(r"g\d\d_", word)), None)
        if of:
            sweeps.setdefault((file, name), {}).setdefault(of, []).append(item)
    left: set[pytest.Item] = set()
    for (file, _), found in sweeps.items():
        if len(found) >= SWEEP:
            first = zlib.crc32(file.encode()) % 3
            left.update(item for i, of in enumerate(sorted(found)) if i % 3 != first for item in found[of])
    return left


def pytest_collection_finish() -> None:
    gc.freeze()  # modules and tests stay to the end: no search for rings goes through them
    gc.set_threshold(MANY, 20, 20)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    from xdist.scheduler import LoadScopeScheduling

    class ByWork(LoadScopeScheduling):
        """Tests of one file, or of one platform in one folder, on one worker, in the order they were collected."""

        def _split_scope(self, nodeid: str) -> str:
            return work_of(nodeid)

    return ByWork(config, log)


def work_of(nodeid: str) -> str:
    """What a test shares its costly parts with: its file, or the platform of its folder."""
    file, _, rest = nodeid.partition("::")
    folder = next((folder for folder in BY_PLATFORM if file.startswith(folder)), "")
    words = re.split(r"[-\[\]]", rest)[1:] if folder else ()
    for word in words:
        name = word.removeprefix("shipped_").removeprefix("case_")
        if name in PLATFORMS or re.match(r"g\d\d_", name):
            return f"{folder}{word}"
    return file


@pytest.fixture(scope="module", autouse=True)
def _kept_no_longer_than_its_file() -> Iterator[None]:
    """Clears the caches of the tests' own modules after each file: a platform's results take up to 150 MB."""
    yield
    for module in list(sys.modules.values()):
        if not (getattr(module, "__file__", None) or "").startswith(f"{TESTS}/"):
            continue
        for thing in list(vars(module).values()):
            of_tests = not getattr(thing, "__module__", "bolewright").startswith("bolewright")
            if of_tests and isinstance(thing, functools._lru_cache_wrapper):
                thing.cache_clear()
