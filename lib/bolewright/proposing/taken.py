"""What is taken by default where the requirements say nothing: never measured, so the list to take to the tree."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from bolewright.proposing.needs import NeededTree, Needs

Place = tuple[str | int, ...]

# Values are judgement on the careful side of what is common; class 5 is the weakest of IBC 2021, Table 1806.2.
EXPOSURE = "C"
S_DS = 0.33
FROST = 48.0
SOIL = "class 5"
BARK = 0.75
HEIGHT = 720.0
CROWN = 400.0
CENTER = 0.6  # of the tree's height
GROWTH = 0.15


@dataclass(frozen=True)
class Taken:
    """A value that was taken and not measured: what it is, where it stands in the file, a worse one to try."""

    what: str
    worse: tuple[tuple[Place, Any], ...]
    worse_words: str


def taken(needs: Needs, bearing: set[str]) -> tuple[Taken, ...]:
    """What was taken by default; ``bearing`` are the marks of trees that bear bolts."""
    return (
        *_place(needs),
        *(t for i, tree in enumerate(needs.trees) for t in _tree(i, tree, tree.mark in bearing)),
    )


def _place(needs: Needs) -> Iterator[Taken]:
    place = needs.place
    if place.soil is None:
        yield Taken(
            "soil: class 5, clay, the weakest of the code's table",
            ((("site", "soil_bearing"), "1000 psf"),),
            "soil that allows 1,000 psf",
        )
    if place.frost_depth is None:
        yield Taken("frost depth: 48 in", ((("site", "frost_depth"), "60 in"),), "frost down to 60 in")
    if place.exposure is None:
        yield Taken("exposure: C, open ground", ((("site", "exposure"), "D"),), "exposure D")
    if place.S_DS is None:
        yield Taken("S_DS: 0.33", ((("site", "S_DS"), 1.0),), "an S_DS of 1.0")


def _tree(i: int, tree: NeededTree, bears: bool) -> Iterator[Taken]:
    mark, where = tree.mark, ("tree", i)
    if tree.cavity is None:
        hollow = f"{tree.radius:.1f} in"
        words = "sound wood to the middle" if bears else "a sound trunk"
        yield Taken(f"{mark}: {words}", (((*where, "cavity"), hollow),), f"a hollow of {hollow} in {mark}")
    if tree.bark is None:
        yield Taken(
            f"{mark}: bark 3/4 in thick", (((*where, "bark"), "1 1/2 in"),), f"{mark} with 1 1/2 in of bark"
        )
    if tree.sway_seen is None:
        area = 2 * (tree.crown_area or CROWN)
        how = "from a crown of 400 sq ft" if tree.crown_area is None else "from its crown"
        yield Taken(
            f"{mark}: sway, estimated {how}",
            (((*where, "crown_area"), f"{area:g} ft2"),),
            f"twice the sway of {mark}",
        )
    elif tree.crown_area is None:
        yield Taken(
            f"{mark}: a crown of 400 sq ft",
            (((*where, "crown_area"), "800 ft2"),),
            f"a crown of 800 sq ft on {mark}",
        )
    if tree.growth is None:
        yield Taken(
            f"{mark}: growth 0.15 in of radius a year",
            (((*where, "growth"), "0.3 in/yr"),),
            f"{mark} growing twice as fast",
        )
