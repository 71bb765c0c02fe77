"""Every position, length, spacing and height of a project moved by 1/16 in., one at a time.

Diameters, thicknesses and gaps are exempt. A step is allowed where a clause has one: STEPS, a closed list.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bolewright.platform.project import Project
from bolewright.platform.project.hatch import HEADERS, TRIMMERS

SIXTEENTH = 1 / 16
SHARE, LEAST = 0.02, 0.02
# Limit states whose clause steps. Demands from the load path never step.
NEAR_THE_END = "NDS 2018, 3.10.4: C_b counts from 3 in. off a member's end"
NEAR_BOLTS = "NDS 2018, 3.4.3.3: within 5d of an end bolts cut the shear strength"
SPACING = "NDS 2018, 4.3.9: C_r up to 24 in. on centre"
STEPS = {
    "joist.bearing": NEAR_THE_END,
    "beam.bearing": NEAR_THE_END,
    "beam.bearing_under": NEAR_THE_END,
    "beam.bearing_lateral": NEAR_THE_END,
    "post.cap_bearing_lateral": NEAR_THE_END,
    "beam.shear_at_bolts": NEAR_BOLTS,
    "post.shear_at_bolts": NEAR_BOLTS,
    "brace.distances": "NDS 2018, 12.5.1: end and edge distances",
    "ladder.spacing": "OSHA 1910.23(b): rungs at most 12 in. apart; one more of them from some height on",
    "platform.guard": "IRC 2021, R312.1.1: a guard above a floor of 30 in.",
}
AT_24_IN = {"joist.bending": SPACING, "joist.negative_bending": SPACING}
# Gaps are exempt: what is left between trunk and timber or bracket.
GAPS = (
    "tree.clearance",
    "tree.clearance_years",
    "tree_bolt.contact_years",
    "tree_bolt.overgrown_years",
    "tree_bolt.slot",
)
# Two pieces in one place are said from 1/4 in. on, and not before: a fault of the drawing, no demand.
CLASHES = ".place"
# Where the ratio itself is steep: platform and what moved. The whole moves it further than SHARE; that it is a slope,
# no step, is tested by the half. In g02, g08, g10, g16, g38 it is the lever of beam.rotation, from its middle to the
# edge of its bracket: 1/16 in. of 1 1/2 to 2 1/4 in. is 3 to 4 %. Eight spaces of 1/16 in. make the last bay of
# round_the_trunk 1/2 in. narrower, of 14 1/2 in.: the couple of a guard's post over it puts 3.4 % more on what lies
# beside it.
SLOPES = (
    ("g02_hung", "B1 end y"),
    ("g08_stringers", "C1 start y"),
    ("g10_two_beams", "B2 start y"),
    ("g16_three_beams", "T1 at y"),
    ("g38_stringers", "C1 end y"),
    ("shipped_round_the_trunk", "J spacing"),
)
HALF = 0.55  # share of the whole that half of a nudge may move a ratio; a step takes all of it in one of the halves
Nudge = tuple[str, Project]


def nudges(project: Project, by: float = SIXTEENTH) -> Iterator[Nudge]:
    """Name of what moved, and the project with it moved by so much (in)."""
    p = project.platform
    yield from _field(by, project, "platform", p, "floor_height")
    for k in range(len(p.outline)):
        for axis in (0, 1):
            outline = _point_of(by, p.outline, k, axis)
            yield f"outline {k + 1} {'xy'[axis]}", _with(project, platform=_with(p, outline=outline))
    for h, hole in enumerate(p.openings):
        for k in range(len(hole)):
            for axis in (0, 1):
                holes = (*p.openings[:h], _point_of(by, hole, k, axis), *p.openings[h + 1 :])
                yield (
                    f"opening {h + 1} corner {k + 1} {'xy'[axis]}",
                    _with(project, platform=_with(p, openings=holes)),
                )
    yield from _entries(by, project, "trees", points=("at",), lengths=("height",))
    yield from _entries(by, project, "supports", points=("at",), lengths=())
    # A hatch's own trimmers and headers stand in no file: they move with its hole.
    made = (*TRIMMERS, *HEADERS) if project.hatch.given else ()
    for name, moved in _entries(by, project, "beams", points=("start", "end"), lengths=()):
        if name.split()[0] not in made:
            yield name, moved
    yield from _entries(by, project, "joists", points=(), lengths=("first", "last", "spacing"))
    yield from _entries(by, project, "braces", points=(), lengths=("rise", "run"))
    yield from _entries(by, project, "diagonals", points=("start", "end"), lengths=())
    yield from _entries(by, project, "walls", points=(), lengths=("height", "start", "length"))
    yield from _field(by, project, "loads", project.loads, "guard_height")
    yield from _kinds(by, project, "bolts", ("embedment", "seat_length"))
    yield from _kinds(by, project, "footings", ("depth",))
    for a, area in enumerate(project.load_areas):
        for k in range(len(area.corners)):
            moved = _with(area, corners=_point_of(by, area.corners, k, 0))
            yield (
                f"load area {area.mark} corner {k + 1} x",
                _with(project, load_areas=(*project.load_areas[:a], moved, *project.load_areas[a + 1 :])),
            )


def nudges_of_parts(project: Project, by: float = SIXTEENTH) -> Iterator[Nudge]:
    """The same of loads at a place, guards, gates, blocks, ways up and the hatch."""
    places = ("at",) if any(load.at is not None for load in project.point_loads) else ()
    yield from _entries(by, project, "point_loads", places, ("along", "other_end", "height"))
    yield from _entries(by, project, "blocking", (), ("along",))
    yield from _entries(by, project, "guards", (), ("start", "length"))
    for k, guard in enumerate(project.guards):
        for i, place in enumerate(guard.places):
            moved = _with(guard, places=(*guard.places[:i], place + by, *guard.places[i + 1 :]))
            guards = (*project.guards[:k], moved, *project.guards[k + 1 :])
            yield f"{guard.mark} place {i + 1}", _with(project, guards=guards)
    yield from _entries(by, project, "gates", (), ("along", "width"))
    for kind, keys in (
        ("ladder", ("along", "clear", "foot")),
        ("stairs", ("along", "width", "foot", "tread_run")),
    ):
        part = getattr(project, kind)
        for key in keys if part.given else ():
            if isinstance(getattr(part, key), float):
                yield from ((f"{kind} {name}", one) for name, one in _field(by, project, kind, part, key))
    hatch = project.hatch
    if hatch.at is not None:
        for axis in (0, 1):
            yield (
                f"hatch at {'xy'[axis]}",
                _with(project, hatch=_with(hatch, at=_shifted(by, hatch.at, axis))),
            )
        for key in ("length", "width"):
            yield from ((f"hatch {name}", one) for name, one in _field(by, project, "hatch", hatch, key))


def _with(thing: Any, **changes: Any) -> Any:
    return thing.model_copy(update=changes)


def _point_of(by: float, points: Any, k: int, axis: int) -> Any:
    return (*points[:k], _shifted(by, points[k], axis), *points[k + 1 :])


def _shifted(by: float, point: Any, axis: int) -> Any:
    return tuple(v + by * (i == axis) for i, v in enumerate(point))


def _field(by: float, project: Project, kind: str, part: Any, key: str) -> Iterator[Nudge]:
    yield key, _with(project, **{kind: _with(part, **{key: getattr(part, key) + by})})


def _entries(
    by: float, project: Project, kind: str, points: tuple[str, ...], lengths: tuple[str, ...]
) -> Iterator[Nudge]:
    entries = getattr(project, kind)
    for k, entry in enumerate(entries):
        changed = [
            (f"{key} {'xy'[axis]}", {key: _shifted(by, getattr(entry, key), axis)})
            for key in points
            for axis in (0, 1)
        ]
        changed += [
            (key, {key: getattr(entry, key) + by}) for key in lengths if getattr(entry, key) is not None
        ]
        for name, change in changed:
            moved = (*entries[:k], _with(entry, **change), *entries[k + 1 :])
            yield f"{entry.mark} {name}", _with(project, **{kind: moved})


def _kinds(by: float, project: Project, kind: str, keys: tuple[str, ...]) -> Iterator[Nudge]:
    named = getattr(project, kind)
    for name, part in named.items():
        for key in keys:
            moved = {**named, name: _with(part, **{key: getattr(part, key) + by})}
            yield f"{kind} {name} {key}", _with(project, **{kind: moved})


def allowed(difference: str, project: Project, moved: Project) -> bool:
    """Whether a difference is in a limit state whose clause steps there, or of a gap."""
    key = difference.split(":")[0]
    past = [max(f.spacing, g.spacing) > 24 >= min(f.spacing, g.spacing) for f, g in _fields(project, moved)]
    return key in STEPS or key in GAPS or key.endswith(CLASHES) or (key in AT_24_IN and any(past))


def _fields(project: Project, moved: Project) -> Iterator[tuple[Any, Any]]:
    yield from zip(project.joists, moved.joists, strict=True)
