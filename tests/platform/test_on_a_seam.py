"""A thing set exactly on the seam of two fields: boards end there, so it may stand on either field whole (statics).

Joists J up to y = 66 in. at x = 38, 54, 86 and 102 in., K from there on at 35 and 51 in.: simple spans of board. It
counted with half of its weight on each field's joists: on the seam just half of what it was a hair beside it.
"""

from __future__ import annotations

import json
from dataclasses import fields
from pathlib import Path

import numpy as np
import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.combine import (
    Envelope,
    dead_for,
    envelope,
    raising_loads,
    snow_for,
    strength_cases,
    worst_loads,
)
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.results.results import find_results, to_json
from bolewright.platform.verification.frame_gravity import frame_gravity
from bolewright.sheets.standing_on import actions_table

TEXT = (Path(__file__).parent / "arrangements" / "skewed_and_reentrant.toml").read_text(encoding="utf-8")
W = 400.0


def thing(kind: str, y: float) -> str:
    return (
        TEXT + f'\n[[point_load]]\nmark = "Z"\nkind = "{kind}"\nat = ["40 in", "{y} in"]\nweight = "{W} lb"\n'
    )


def laid(text: str) -> LoadPath:
    return find_load_path(find_layout(parse_project(text)))


def seats(path: LoadPath, mark: str) -> Envelope:
    return envelope(path, path.effects[mark].reactions)


@pytest.fixture(scope="module")
def bare() -> LoadPath:
    return laid(TEXT)


@pytest.mark.parametrize("kind", ["dead", "live", "snow"])
def test_each_fields_joists_get_all_of_it(kind: str, bare: LoadPath) -> None:
    """J8 14/16 of it by the lever between J7 and J8, K4 11/16 between K3 and K4; at the least nothing of it."""
    path = laid(thing(kind, 66.0))
    most, least = {"dead": ("D", "D_least"), "live": ("L_most", "L_least"), "snow": ("S_most", "S_least")}[
        kind
    ]
    for mark, part in {"J8": 14 / 16, "J7": 2 / 16, "K4": 11 / 16, "K3": 5 / 16}.items():
        with_it, without = seats(path, mark), seats(bare, mark)
        assert float((getattr(with_it, most) - getattr(without, most)).sum()) == pytest.approx(
            part * W, abs=1e-6
        )
        assert getattr(with_it, least) == pytest.approx(getattr(without, least), abs=1e-6)
    assert path.balance()[most[0]][0] - bare.balance()[most[0]][0] == pytest.approx(W)


@pytest.mark.parametrize("kind", ["dead", "live", "snow"])
def test_every_effect_is_the_worse_of_both_sides(kind: str) -> None:
    """Of every member under each load, at its worst place: as it is 0.001 in. to either side, the worse of both."""
    on, below, above = (laid(thing(kind, y)) for y in (66.0, 65.999, 66.001))
    for mark in on.effects:
        for effect in ("moment", "reactions", "deflection"):  # the seam is over a seat: no shear beside it
            each = [envelope(p, getattr(p.effects[mark], effect)) for p in (on, below, above)]
            size = np.abs(each[0].most(strength_cases())).max(initial=1e-9)
            for name in (field.name for field in fields(Envelope)):
                if name in ("S", "guard_most", "guard_least"):
                    continue
                worst = np.min if name.endswith("least") else np.max
                found, *sides = (worst(getattr(e, name)) for e in each)
                worse = worst(sides)
                assert found == pytest.approx(worse, abs=2e-3 * size), (mark, effect, name)


def test_the_frame_model_takes_the_worse_too(bare: LoadPath) -> None:
    on, without = (frame_gravity(path.layout) for path in (laid(thing("dead", 66.0)), bare))
    for mark, part in {"J8": 14 / 16, "K4": 11 / 16}.items():
        with_it, plain = (
            frame.envelope(frame.frame.found[mark].reactions, frame.frame.found[mark].columns)
            for frame in (on, without)
        )
        assert float((with_it.D - plain.D).sum()) == pytest.approx(part * W, rel=0.01)
        assert with_it.D_least == pytest.approx(plain.D_least, abs=0.5)


@pytest.mark.parametrize("kind", ["dead", "live", "snow"])
def test_loads_laid_for_an_effect_give_what_its_envelope_says(kind: str) -> None:
    path = laid(thing(kind, 66.0))
    for row in (path.effects["J8"].reactions[0], path.effects["K4"].moment[5], path.reactions["P1"]):
        for sign in (1.0, -1.0):
            whole = envelope(path, sign * row[None, :])
            assert row @ dead_for(path, sign * row) * sign == pytest.approx(whole.D[0])
            assert row @ raising_loads(path, sign * row, "live") * sign == pytest.approx(whole.L_most[0])
            assert row @ snow_for(path, sign * row) * sign == pytest.approx(whole.S_most[0])
            for case, found in zip(strength_cases(), whole.most(strength_cases())[:, 0], strict=True):
                assert row @ worst_loads(path, case, sign * row) * sign == pytest.approx(found)


def test_the_files_of_results_name_it_once() -> None:
    text = thing("dead", 66.0)
    results = find_results(parse_project(text))
    named = [action for action in json.loads(to_json(results, text))["actions"] if action["part"] == "Z"]
    assert [action["down_lb"] for action in named] == [W]
    (row,) = (row for row in actions_table(results).rows if row[0] == "Z")
    assert row[-1].count(" or ") == 1  # to the supports by either field
