"""Every platform that the net is cast over, and both models of it."""

from __future__ import annotations

from functools import cache, lru_cache
from pathlib import Path

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.project import Ladder, Project, Stairs
from outside.drawing import drawing_of
from outside.generate import arrangements
from outside.model import Model

PLATFORM = Path(__file__).parents[1] / "platform"
FILES = {
    path.stem if folder != "cases" else f"case_{path.stem}": path
    for folder in ("arrangements", "cases")
    for path in sorted((PLATFORM / folder).glob("*.toml"))
}
SHIPPED = {f"shipped_{path.stem}": path for path in sorted(shipped("calcsheets").glob("*.toml"))}
GENERATED = {found.name: found for found in arrangements()}
# A beam on one post, kept upright by its knees, is no grillage of beams on seats: tests/platform/test_t_frame.py.
OTHER_STATICS = ("one_tree_one_post_t_frame",)
EVERY = tuple(name for name in (*SHIPPED, *FILES, *GENERATED) if name not in OTHER_STATICS)


@cache
def project_of(name: str) -> Project:
    if name in GENERATED:
        return GENERATED[name].project
    return read_project({**SHIPPED, **FILES}[name])


@cache
def layout_of(name: str) -> Layout:
    """Without the ways up: what a ladder or stairs lay on a member is worked out by hand in their own tests."""
    return find_layout(project_of(name).model_copy(update={"ladder": Ladder(), "stairs": Stairs()}))


@lru_cache(maxsize=4)
def path_of(name: str) -> LoadPath:
    return find_load_path(layout_of(name))


def model_of(name: str) -> Model:
    """Not kept: a model is large, and each is looked at once."""
    return Model(drawing_of(layout_of(name)))
