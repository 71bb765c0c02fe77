"""Order of the suite: the browser's tests come last.

They are the slowest, and Playwright's own event loop keeps running in the main thread until the session ends: no other
test could start one there.
"""

from pathlib import Path

import pytest

BROWSER = Path(__file__).parent / "browser"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    items.sort(key=lambda item: BROWSER in item.path.parents)
