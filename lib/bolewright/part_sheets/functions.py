"""The engineering functions that the steps of a kind call, and the rooms they are imported from."""

from __future__ import annotations

import ast
from functools import cache
from importlib import import_module
from typing import Any

from bolewright.formulas import REGISTRY
from bolewright.part_sheets.kind import Kind
from bolewright.rendering.lint import FUNCTIONS

ROOMS = ("timber", "fasteners", "tree", "ground", "mechanics")
_OWN = (*FUNCTIONS, "min", "max", "Q")


@cache
def called(text: str) -> tuple[str, ...]:
    """Names of the functions that a step calls, in order."""
    calls = (n for n in ast.walk(ast.parse(text)) if isinstance(n, ast.Call) and isinstance(n.func, ast.Name))
    names = [n.func.id for n in calls if isinstance(n.func, ast.Name)]
    return tuple(dict.fromkeys(n for n in names if n not in _OWN))


@cache
def assigned(text: str) -> tuple[str, ...]:
    """Symbols that a step works out, in order."""
    lines = (node for node in ast.parse(text).body if isinstance(node, ast.Assign))
    return tuple(target.id for node in lines for target in node.targets if isinstance(target, ast.Name))


def rooms_of(kind: Kind) -> dict[str, list[str]]:
    """Names of the functions of a kind, by the room they are imported from."""
    found: dict[str, list[str]] = {}
    for name in dict.fromkeys(name for step in kind.steps for name in called(step.text)):
        found.setdefault(_room(name), []).append(name)
    return found


def _room(name: str) -> str:
    """The subject that offers a function, else the module it stands in."""
    open_rooms = (r for r in ROOMS if name in import_module(f"bolewright.{r}").__all__)
    return next(open_rooms, None) or REGISTRY[name].module.removeprefix("bolewright.")


def functions_of(kind: Kind) -> dict[str, Any]:
    """The functions of a kind by name."""
    return {
        name: getattr(import_module(f"bolewright.{room}"), name)
        for room, names in rooms_of(kind).items()
        for name in names
    }
