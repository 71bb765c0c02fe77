"""The small cases of ``cases/``: what is made of each, read as the program reads any file."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.combine import Envelope, envelope
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.project import Project

CASES = Path(__file__).parent / "cases"


@cache
def case_of(name: str) -> Project:
    return read_project(CASES / f"{name}.toml")


@cache
def case_path(name: str) -> LoadPath:
    return find_load_path(find_layout(case_of(name)))


def reaction(path: LoadPath, mark: str) -> Envelope:
    return envelope(path, path.reactions[mark][None, :])


def moment(path: LoadPath, mark: str) -> Envelope:
    return envelope(path, path.effects[mark].moment)
