"""Small project files in ``cases/`` on which something went wrong once, and what is made of each."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.project import Project

FOLDER = Path(__file__).parent / "cases"
MEETING = ("c03_hung_in_face", "m_f18", "m_f39b", "m_f48", "m_f51", "m_f53", "m_f54", "m_f58", "m_f62")


@cache
def case(name: str) -> Project:
    """Project of a case."""
    return read_project(FOLDER / f"{name}.toml")


@cache
def laid_out(name: str) -> Layout:
    """Layout of a case."""
    return find_layout(case(name))
