"""The arrangements that the tests run: their files, and what is made of each once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.project import Project

FOLDER = Path(__file__).parent / "arrangements"
ARRANGEMENTS = tuple(path.stem for path in sorted(FOLDER.glob("*.toml")))
DEMO = "lookout"
WITHOUT_GUARD = (
    Path(__file__).parents[1] / "projects" / "without_guard"
)  # the demo as these tests' statics have it
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
    """Project file of an arrangement, or of a demo, as it was before it got its guard if that is kept."""
    folders = (FOLDER, WITHOUT_GUARD, shipped("calcsheets"))
    return next(path for folder in folders if (path := folder / f"{name}.toml").exists())


@cache
def project_of(name: str) -> Project:
    return read_project(file_of(name))


@cache
def path_of(name: str) -> LoadPath:
    return find_load_path(find_layout(project_of(name)))
