"""Imports go downward only: no room imports from one above it (DEVELOPERS.md lists the rooms)."""

import ast
from pathlib import Path

import pytest

import bolewright

ROOT = Path(bolewright.__file__).parent
FLOORS = (
    ("mechanics", "timber", "fasteners", "tree", "ground", "bracing", "rendering"),
    ("worked",),
    ("platform.project",),
    ("platform.layout",),
    ("platform.file", "platform.limit_states"),
    ("platform.loads", "platform.solids"),
    ("platform.analysis",),
    ("platform.checks",),
    ("platform.verification", "platform.tracing"),
    ("platform.results",),
    ("setting_out",),
    ("take_off", "drawings"),
    ("changes", "documents"),
    ("sizing", "sheets"),
    ("proposing", "evidence", "part_sheets", "workbook"),
)
FLOOR = {room: number for number, rooms in enumerate(FLOORS) for room in rooms}
BESIDE = {
    "timber",
    "fasteners",
    "tree",
    "ground",
    "bracing",
    "mechanics",
    "rendering",
}  # subjects use each other


def _room(module: str) -> str:
    _, *names = module.split(".")
    return ".".join(names[: 2 if names[:1] == ["platform"] else 1])


def _imported(tree: ast.Module) -> set[str]:
    typing_only = {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
        for inner in ast.walk(node)
    }
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module and id(node) not in typing_only:
            found.add(node.module)
            found |= {f"{node.module}.{name.name}" for name in node.names}
    return {name for name in found if name.startswith("bolewright.")}


MODULES = sorted(path for path in ROOT.rglob("*.py") if path.parent != ROOT)


def test_every_folder_is_a_room_with_a_floor() -> None:
    rooms = {_room(".".join(("bolewright", *path.relative_to(ROOT).parent.parts))) for path in MODULES}
    assert rooms - {"platform"} == set(FLOOR)


@pytest.mark.parametrize("room", sorted(FLOOR))
def test_a_room_imports_from_no_room_above_it(room: str) -> None:
    looked_at = 0
    for path in MODULES:
        parts = path.relative_to(ROOT).parent.parts
        if _room(".".join(("bolewright", *parts))) != room:
            continue
        looked_at += 1
        for name in _imported(ast.parse(path.read_text(encoding="utf-8"))):
            other = _room(name)
            if other in FLOOR and other != room:
                higher = FLOOR[other] > FLOOR[room] or (FLOOR[other] == FLOOR[room] and other not in BESIDE)
                assert not higher, f"{path.relative_to(ROOT)} of {room} imports {name} of {other}"
    assert looked_at
