"""Joists hung from both sides of one beam, mirror images of each other, bear alike: statics by symmetry."""

from __future__ import annotations

import pytest
from framings import beam, box, framing, joists, posts

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.load_path import find_load_path

WIDTH, LENGTH = 168.0, 108.0  # in: the deck from x = 6 to 174
FILE = framing(
    "joists hung from both sides",
    box(174, LENGTH, 6),
    posts((8, 10), (8, 98), (90, 10), (90, 98), (172, 10), (172, 98)),
    *(beam(f"C{i}", (x, 0), (x, LENGTH)) for i, x in enumerate((8, 90, 172), start=1)),
    joists(0, 2, 106, "hung"),
)


def test_they_share_the_boards_over_the_beam_alike() -> None:
    path = find_load_path(find_layout(parse_project(FILE)))
    for left, right in (("J1", "J2"), ("J5", "J6")):
        ends = [[float(row @ path.live) for row in path.effects[mark].reactions] for mark in (left, right)]
        assert ends[0][1] == pytest.approx(ends[1][0], rel=1e-4)  # both at C2
        assert ends[0][0] == pytest.approx(ends[1][1], rel=1e-4)
    total = {mark: float(row @ path.live) for mark, row in path.reactions.items()}
    assert total["P1"] == pytest.approx(total["P5"], rel=1e-6)
    assert sum(total.values()) == pytest.approx(40 * WIDTH * LENGTH / 144, rel=1e-9)
