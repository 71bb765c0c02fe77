"""Formulas made from source text, as a user's own module would bring them."""

import importlib.util
import itertools
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from bolewright.formulas import REGISTRY, Formula

HEAD = """
from numpy import abs, arctan, cos, exp, log, maximum, minimum, pi, sin, sqrt, tan
from bolewright.formulas import formula
from bolewright.units import *
"""


@pytest.fixture
def formula_from(tmp_path: Path) -> Iterator[Callable[[str], Formula]]:
    """Writes source text into a module of its own, imports it, and gives the formula it registered."""
    before = dict(REGISTRY)
    numbers = itertools.count()
    names: list[str] = []

    def make(source: str, head: str = HEAD) -> Formula:
        name = f"formula_from_text_{next(numbers)}"
        path = tmp_path / f"{name}.py"
        path.write_text(head + source, encoding="utf-8")
        spec = importlib.util.spec_from_file_location(name, path)
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules[name] = module
        names.append(name)
        known = set(REGISTRY)
        spec.loader.exec_module(module)
        (new,) = set(REGISTRY) - known
        return REGISTRY.pop(new)

    yield make
    REGISTRY.clear()
    REGISTRY.update(before)
    for name in names:
        del sys.modules[name]
