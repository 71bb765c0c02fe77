"""The load path of every platform against the tests' own model: shipped, kept and generated ones.

Reactions of supports; moments, shears and deflections of members: dead load, live load most and least, one person,
snow. They agree within 1 % of the larger of the value and 5 % of the greatest of its kind in that platform.
"""

from __future__ import annotations

from collections import Counter

import pytest

from outside import not_yet
from outside.compare import apart, pairs
from outside.platforms import EVERY, GENERATED, layout_of, model_of, path_of


@pytest.mark.parametrize(
    "name",
    [
        pytest.param(name, marks=pytest.mark.xfail(strict=True)) if name in not_yet.PLATFORMS else name
        for name in EVERY
    ],
)
def test_load_path_agrees_with_statics(name: str) -> None:
    found = apart(pairs(path_of(name), model_of(name)))
    assert not found, f"{len(found)} numbers apart, first: " + "; ".join(str(pair) for pair in found[:5])


def test_generated_arrangements_cover_what_they_should() -> None:
    traits = Counter(trait for one in GENERATED.values() for trait in one.traits)
    trees = Counter(len(one.project.trees) for one in GENERATED.values())
    assert len(GENERATED) == 40
    for trait in ("continuous beams", "skewed beams", "overhangs at both ends", "edges askew", "load areas"):
        assert traits[trait] >= 8, trait
    assert all(trees[number] >= 8 for number in (1, 2, 3, 4))


@pytest.mark.parametrize("name", list(GENERATED))
def test_every_generated_arrangement_is_laid_out(name: str) -> None:
    layout = layout_of(name)
    project = GENERATED[name].project
    assert {support.mark for support in layout.supports} == {support.mark for support in project.supports}
    continuous = any(len(member.seats) > 2 for member in layout.members)
    assert continuous == bool({"continuous beams", "continuous joists"} & GENERATED[name].traits)
