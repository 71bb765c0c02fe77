"""The arrangements that the tests run: their files, and what is made of each once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from bolewright.paths import shipped
from bolewright.platform.layout import find_layout
from bolewright.platform.load_path import LoadPath, find_load_path
from bolewright.platform.project import Project
from bolewright.platform.reading import read_project

FOLDER = Path(__file__).parent / "arrangements"
ARRANGEMENTS = tuple(path.stem for path in sorted(FOLDER.glob("*.toml")))
DEMO = "lookout"
SKEWED = (
    DEMO,
    "joists_at_an_angle",
    "one_tree_one_post",
    "one_tree_one_post_knee",
    "one_tree_one_post_t_frame",
    "one_tree_two_posts",
    "skewed_and_reentrant",
    "three_trees",
)


def file_of(name: str) -> Path:
    """Project file of an arrangement, or of the demo."""
    here = FOLDER / f"{name}.toml"
    return here if here.exists() else shipped("calcsheets") / f"{name}.toml"


@cache
def project_of(name: str) -> Project:
    return read_project(file_of(name))


@cache
def path_of(name: str) -> LoadPath:
    return find_load_path(find_layout(project_of(name)))
