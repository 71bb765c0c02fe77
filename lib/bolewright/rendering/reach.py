"""Which checks, sheets and commands a formula is run by: the names that functions use, followed from their doors.

A function is followed to what it names in its code, module by module: an import says where a name comes from, and
``module.name`` through an imported module too. The steps of a part sheet are text, whose calls are followed like code.
A formula that no door leads to is reached by nothing.
"""

from __future__ import annotations

import ast
import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import bolewright

LIBRARY = Path(bolewright.__file__).parent
Place = tuple[str, str]  # module and name

# Where what a person asks for begins: modules of each door, and what the index calls it.
DOORS = (
    ("platform.checks", "check"),
    ("timber.span_command", "spans"),
    ("setting_out", "setting out"),
    ("take_off", "take-off"),
    ("drawings", "drawings"),
    ("sheets", "sheets"),
    ("workbook", "workbook"),
    ("part_sheets", "part sheets"),
    ("platform", "load path"),
)
_TEXTS = "bolewright.part_sheets."


class Reach:
    """The names used by every function, class and table of the package, and the doors that lead to each."""

    def __init__(self, library: Path = LIBRARY) -> None:
        self.uses: dict[Place, set[Place]] = {}
        self._modules: dict[str, tuple[ast.Module, bool]] = {}
        for path in sorted(library.rglob("*.py")):
            parts = ("bolewright", *path.relative_to(library).with_suffix("").parts)
            package = parts[-1] == "__init__"
            name = ".".join(parts[:-1] if package else parts)
            self._modules[name] = (ast.parse(path.read_text(encoding="utf-8")), package)
        self._functions = {
            node.name: (module, node.name)
            for module, (tree, _) in self._modules.items()
            for node in tree.body
            if isinstance(node, ast.FunctionDef)
        }
        for name, (tree, _) in self._modules.items():
            self._read(name, tree)
        self._doors: dict[Place, set[str]] = defaultdict(set)
        for start, door in self._starts():
            self._follow(start, door)

    def doors(self, module: str, name: str) -> list[str]:
        """Doors that lead to a function: "check: posts", "spans", "setting out" ..., in order."""
        found = sorted(self._doors[module, name])
        checks = [door for door in found if door.startswith("check: ")]
        own = [door for door in found if door not in checks and door != "load path"]
        return [*checks, *own] or [door for door in found if door == "load path"]

    def _read(self, module: str, tree: ast.Module) -> None:
        known = self._imported(module, tree)
        for node in tree.body:
            for name in _defines(node):
                known[name] = (module, name)
        for node in tree.body:
            for name in _defines(node):
                used = self.uses.setdefault((module, name), set())
                used.update(self._used(node, known))
                if module.startswith(_TEXTS):
                    used.update(self._called_in_text(node))

    def _imported(self, module: str, tree: ast.Module) -> dict[str, Place]:
        """What each imported name of a module stands for, wherever in it the import is; a module has no name."""
        known: dict[str, Place] = {}
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("bolewright"):
                for alias in node.names:
                    inner = f"{node.module}.{alias.name}"
                    place = (inner, "") if inner in self._modules else (node.module, alias.name)
                    known[alias.asname or alias.name] = place
        return known

    def _used(self, node: ast.AST, known: dict[str, Place]) -> Iterator[Place]:
        for inner in ast.walk(node):
            if isinstance(inner, ast.Name) and inner.id in known:
                yield known[inner.id]
            elif isinstance(inner, ast.Attribute) and isinstance(inner.value, ast.Name):
                module, name = known.get(inner.value.id, ("", "?"))
                if module and not name:
                    yield module, inner.attr

    def _called_in_text(self, node: ast.AST) -> Iterator[Place]:
        for inner in ast.walk(node):
            if isinstance(inner, ast.Constant) and isinstance(inner.value, str):
                for name in re.findall(r"= (\w+)\(", inner.value):
                    if name in self._functions:
                        yield self._functions[name]

    def _starts(self) -> Iterator[tuple[Place, str]]:
        for module, name in self.uses:
            inside = module.removeprefix("bolewright.")
            for door, words in DOORS:
                if inside == door or inside.startswith(door + "."):
                    rest = inside.removeprefix("platform.checks.")
                    yield (module, name), f"check: {rest}" if door == "platform.checks" else words
                    break

    def _follow(self, start: Place, door: str) -> None:
        waiting = [start]
        while waiting:
            place = self._home(waiting.pop())
            if door in self._doors[place]:
                continue
            self._doors[place].add(door)
            # a door stands by itself: what another door does is not this one's work
            waiting += [p for p in self.uses.get(place, ()) if not self._is_check(p)]

    def _is_check(self, place: Place) -> bool:
        return place[0].startswith("bolewright.platform.checks.")

    def _home(self, place: Place) -> Place:
        """Where a name handed on by a package's ``__init__`` is defined."""
        module, name = place
        seen = set()
        while (module, name) not in self.uses and module in self._modules and module not in seen:
            seen.add(module)
            module, name = self._imported(module, self._modules[module][0]).get(name, (module, name))
        return module, name


def _defines(node: ast.stmt) -> list[str]:
    match node:
        case ast.FunctionDef(name=name) | ast.ClassDef(name=name) | ast.AnnAssign(target=ast.Name(id=name)):
            return [name]
        case ast.Assign(targets=targets):
            return [t.id for t in targets if isinstance(t, ast.Name)]
    return []
