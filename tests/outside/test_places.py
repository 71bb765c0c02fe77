"""Every field of the project file is known to the relations, and they carry each to where it belongs."""

from __future__ import annotations

import tomllib
from collections import defaultdict
from functools import cache
from typing import Any

import numpy as np
import pytest

from bolewright.platform.file.reading import find_faults
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.layout.point_loads import direction_of, place_of
from bolewright.platform.project import Project
from bolewright.platform.project.fields import Strict
from outside.places import PLACES, WITHOUT, fields_of, held, models
from outside.platforms import SHIPPED
from outside.relations import (
    EXACT,
    OTHER_END,
    beam_ends_swapped,
    joists_from_the_other_side,
    mirror_image,
    moved,
    outline_from_the_next_corner,
    outline_reversed,
    permuted_and_renamed,
    turn,
)

# What the two platforms below add to a shipped one, so that together they have every field that holds a place.
MORE: dict[str, dict[str, Any]] = {
    "round_the_trunk": {
        "confirmed": ["tree.BEECH.girth", "connection.HD.rated_load", "ladder.head_fixing"],
        "wall": [
            {"mark": "W1", "edge": 1, "height": "60 in", "start": "30 in", "length": "50 in"},
            {"mark": "W2", "edge": 3, "height": "60 in", "start": "100 in"},
        ],
        "load_area": [
            {
                "mark": "TUB",
                "corners": [["10 in", "10 in"], ["30 in", "10 in"], ["20 in", "40 in"]],
                "load": "30 psf",
                "kind": "dead",
            }
        ],
        "point_load": [
            {"mark": "PL1", "member": "J3", "along": "20 in", "weight": "50 lb"},
            {"mark": "PL2", "member": "M1", "along": "20 in", "weight": "50 lb"},
            {
                "mark": "PL3",
                "at": ["20 in", "20 in"],
                "kind": "wind",
                "lateral": "20 lb",
                "direction": "30 deg",
            },
        ],
        "guard": [{"mark": "GD", "edges": [1], "opening": 1}],
        "ground": [{"mark": "DIP", "at": ["150 in", "10 in"], "level": "-6 in"}],
        "as_built": [{"mark": "J3", "depth": "7 3/16 in"}, {"mark": "P1", "at": ["36 in", "20 in"]}],
        "reading": [{"mark": "P1", "below_line": "30 in"}, {"mark": "GRADE", "below_line": "30 in"}],
        "crossed_rods": [{"mark": "XR1", "from_post": "P2", "to_post": "P4", "diameter": "5/8 in"}],
        "outline": [{"tree": "BEECH", "widths": ["29 in", "30 in", "31 in"]}],
        "stairs": {"edge": 2, "along": "40 in", "hanger": "HD", "pad_length": "24 in"},
        "material": {
            "OWN": {
                **dict.fromkeys(("F_b", "F_t", "F_v", "F_c_perp", "F_c"), "500 psi"),
                "E": "1000000 psi",
                "G": 0.5,
                "note": "invented",
            }
        },
    },
    "one_oak": {
        "outline": [{"tree": "OAK", "points": [["14 in", "0 in"], ["0 in", "14 in"], ["-14 in", "0 in"]]}],
        "guard": [
            {"mark": "GA", "edges": [1], "start": "10 in", "length": "50 in"},
            {"mark": "GB", "edges": [2], "places": ["2 in", "40 in", "80 in"]},
            {"mark": "GC", "edges": [3], "start": "10 in"},
        ],
        "blocking": [{"mark": "BL", "between": ["J1", "J2"], "over": "C1", "hanger": "HT"}],
        "ladder": {"edge": 4, "along": "20 in"},
    },
}


@cache
def full(name: str) -> Project:
    raw = tomllib.loads(SHIPPED[f"shipped_{name}"].read_text())
    for key, value in MORE[name].items():
        raw[key] = [*raw.get(key, []), *value] if isinstance(value, list) else value
    raw["platform"]["north"] = "20 deg"
    raw["decking"]["direction"] = "diagonal left"
    field = raw["joists"][0]
    if name == "round_the_trunk":
        del field["species"], field["grade"]
        field["material"] = "OWN"
    else:
        raw["support"][0]["direction"] = "-90 deg"
        field["beams"] = [c["mark"] for c in raw["beam"] if c.get("layer", 1) <= 1]
        field["region"] = raw["platform"]["outline"]
    for gate in raw.get("gate", []):
        gate["along"] = "40 in"
    found, faults = find_faults(raw)
    assert found is not None, faults
    return found


# ---------------------------------------------------------------------------------------------------------


def test_every_field_of_the_project_file_is_carried_or_said_to_have_no_place() -> None:
    known = set(models(Project))
    fields = {pair for model in known for pair in fields_of(model)}
    told = [(cls, name) for cls, own in PLACES.items() for name in own]
    told += [(cls, name) for cls, names in WITHOUT.items() for name in names.split()]
    assert {model.__name__ for model in known} <= {cls for cls, _ in told}
    assert len(told) == len(set(told)), "one field is told twice"
    assert fields == set(told), sorted(fields ^ set(told))


def places(project: Project) -> dict[tuple[str, str], list[Any]]:
    """What stands in every field that holds a place, but for the parts that hold others."""
    found: dict[tuple[str, str], list[Any]] = defaultdict(list)

    def look(part: Strict) -> None:
        known = held(type(part))
        for cls, name in fields_of(type(part)):
            value = getattr(part, name)
            inner = list(value.values()) if isinstance(value, dict) else value
            inner = inner if isinstance(inner, list | tuple) else [inner]
            if any(isinstance(i, Strict) for i in inner):
                for i in inner:
                    look(i)
                value = list(value) if isinstance(value, dict) else None
            if name in known and value not in (None, ()):
                found[cls, name].append(value)

    look(project)
    return found


def test_every_place_is_changed_by_some_relation() -> None:
    filled, changed = set(), set()
    for name in MORE:
        project = full(name)
        for relation in EXACT.values():
            base, other = relation(project)
            here, there = places(base), places(other)
            filled |= {key for key, value in here.items() if value}
            changed |= {key for key in here if here[key] != there[key]}
    wanted = {
        (cls, name)
        for cls, own in PLACES.items()
        for name, what in own.items()
        if what != "parts of the project"
    }
    assert wanted - filled == set(), "these platforms have no such field"
    assert wanted - changed == set()


@pytest.mark.parametrize("name", MORE)
@pytest.mark.parametrize(
    "relation", [mirror_image, outline_reversed, beam_ends_swapped, joists_from_the_other_side]
)
def test_done_twice_it_is_the_file_itself(name: str, relation: Any) -> None:
    base, other = relation(full(name))
    again = relation(other)[1]
    # A trunk measured in widths is one of points once it was mirrored: so is the file that went through twice.
    assert close(
        places(again), places(mirror_image(mirror_image(base)[1])[1] if relation is mirror_image else base)
    )


@pytest.mark.parametrize("name", MORE)
def test_the_outline_from_every_corner_in_turn_is_the_file_itself(name: str) -> None:
    project = full(name)
    for _ in range(12):  # 3 and 4 corners
        project = outline_from_the_next_corner(project)[1]
    assert close(places(project), places(full(name)))


def close(a: Any, b: Any) -> bool:
    if isinstance(a, dict):
        return a.keys() == b.keys() and all(close(a[key], b[key]) for key in a)
    if isinstance(a, list | tuple):
        return len(a) == len(b) and all(close(x, y) for x, y in zip(a, b, strict=True))
    if isinstance(a, float):
        return abs(a - b) < 1e-9 or abs(abs(a - b) - 360) < 1e-9
    return bool(a == b)


# ---------------------------------------------------------------------------------------------------------
# Where things stand in plan, as the program lays them out


def points(layout: Layout) -> dict[str, list[list[tuple[float, float]]]]:
    """Places in plan by kind of part, each part's own points together."""
    guards = [(post.at, post.end) for run in layout.guards for post in run.posts]
    loads = []
    for load in layout.project.point_loads:
        at, _ = place_of(layout, load)
        push = direction_of(load) if load.lateral else (0.0, 0.0)
        loads.append((at, (at[0] + push[0], at[1] + push[1])))
    ways = [plan.outline for plan in (layout.stairs, layout.ladder) if plan is not None]
    parts = {
        kind: [(m.line.start, m.line.end) for m in layout.members if m.kind == kind]
        for kind in {m.kind for m in layout.members}
    }
    return {
        **{str(kind): [list(p) for p in own] for kind, own in parts.items()},
        "guard": [list(p) for p in guards],
        "load": [list(p) for p in loads],
        "way up": [list(p) for p in ways],
    }


TURN, BY = np.diag([1.0, -1.0]) @ turn(30), (100.0, -40.0)
WAYS: dict[str, Any] = {
    "mirrored, turned and shifted": lambda project: (project, moved(project, TURN, BY)),
    **{name: relation for name, relation in EXACT.items() if name != "load_area_in_halves"},
}


@pytest.mark.parametrize("name", MORE)
@pytest.mark.parametrize("way", WAYS)
def test_all_parts_stand_where_they_are_to_stand(name: str, way: str) -> None:
    base, other = WAYS[way](full(name))
    here, there = points(find_layout(base)), points(find_layout(other))
    matrix, by = {
        "mirrored, turned and shifted": (TURN, BY),
        "mirror_image": (np.diag([-1.0, 1.0]), (0, 0)),
        "quarter_turn": (turn(90), (0, 0)),
        "shift_by_90_ft": (np.eye(2), (1080, -1080)),
    }.get(way, (np.eye(2), (0, 0)))
    assert here.keys() == there.keys()
    for kind, parts in here.items():
        wanted = sorted(_rounded(matrix @ np.array(p) + np.array(by) for p in part) for part in parts)
        assert close(wanted, sorted(_rounded(part) for part in there[kind])), kind


def _rounded(part: Any) -> list[tuple[float, float]]:
    """Points of a part, whichever way round they come."""
    return sorted((round(float(x), 3) + 0.0, round(float(y), 3) + 0.0) for x, y in part)


def test_ends_have_other_names_where_members_run_the_other_way() -> None:
    """By hand: mirrored joists run the other way, their rims change ends, and 10 in. from one end of a 144 in. joist
    is 134 in. from the other; swapped beams do so with their knee braces and what stands along them."""
    trunk, oak = full("round_the_trunk"), full("one_oak")
    assert [b.along for b in trunk.blocking if b.along] == [10, 72, 134, 10, 72, 134]
    mirrored = mirror_image(trunk)[1]
    assert [b.along for b in mirrored.blocking if b.along] == pytest.approx([134, 72, 10, 134, 72, 10])
    rims = {b.mark: b.end for b in oak.blocking if b.kind == "rim"}
    assert set(rims.values()) == {"start", "end"}
    other = {"start": "end", "end": "start"}
    swapped = {b.mark: b.end for b in mirror_image(oak)[1].blocking if b.kind == "rim"}
    assert swapped == {mark: other[end] for mark, end in rims.items()}
    swapped = beam_ends_swapped(trunk)[1]
    assert [b.towards for b in swapped.braces] == [OTHER_END[b.towards] for b in trunk.braces]
    trimmer = next(c for c in trunk.beams if c.mark == "M1")
    length = abs(trimmer.end[1] - trimmer.start[1])
    added = [p for p in swapped.point_loads if p.mark.startswith("PL")]
    assert [p.along for p in added] == [20, length - 20, None]
    hammock = next(p for p in mirrored.point_loads if p.form == "hammock")
    assert (hammock.along, hammock.other_end) == (pytest.approx(144 - 28), pytest.approx(144 - 116))


def test_edges_have_other_numbers_by_hand() -> None:
    """A square with edges 1 to 4. From the next corner edge 1 is the last; reversed about the first corner edge k is
    edge 5 - k, and a wall 30 to 80 in. along 144 in. stands 64 to 114 in. from its other corner."""
    trunk = full("round_the_trunk")
    turned, back = outline_from_the_next_corner(trunk)[1], outline_reversed(trunk)[1]
    assert (turned.walls[0].edge, turned.walls[1].edge, turned.stairs.edge, turned.ladder.edge) == (
        4,
        2,
        1,
        1,
    )
    assert (back.walls[0].edge, back.walls[1].edge, back.stairs.edge, back.ladder.edge) == (4, 2, 3, 3)
    assert [(w.start, w.length) for w in back.walls] == [(64, 50), (0, 44)]
    assert back.stairs.along == 104


def test_renamed_files_share_no_mark() -> None:
    for name in MORE:
        base, other = permuted_and_renamed(full(name))
        framed = {"HH1", "HH2", "HT1", "HT2"}  # named by the program
        own = [part.mark for part in (*base.supports, *base.beams, *base.joists, *base.guards)]
        new = [part.mark for part in (*other.supports, *other.beams, *other.joists, *other.guards)]
        assert set(own) & set(new) <= framed
        assert set(base.connections).isdisjoint(other.connections)
