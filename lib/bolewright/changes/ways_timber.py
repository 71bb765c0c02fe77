"""Ways to help timber: a larger size, closer spacing, more plies, a better grade, another post."""

from __future__ import annotations

from typing import Any

from bolewright.changes.change import Change
from bolewright.changes.ways_case import Case, inches
from bolewright.platform.file.reading import Location
from bolewright.timber.material import MaterialError, grades, reference_values
from bolewright.timber.sections import SectionError
from bolewright.units import feet_inches

LADDERS = (
    ("5/4x6", "2x6"),
    ("2x4", "2x6", "2x8", "2x10", "2x12"),
    ("4x4", "4x6", "4x8", "4x10", "4x12"),
    ("4x4", "6x6", "8x8", "10x10", "12x12"),
    ("6x8", "6x10", "6x12"),
)
_SPACINGS = (24.0, 19.2, 16.0, 12.0, 8.0)
_SQUARE = ("post",)


def larger(case: Case, where: Location) -> list[Change]:
    """The next sizes up."""
    section = str(case.get(*where, "section"))
    return [
        Change(f"{size} for {_name(case, where)}", (((*where, "section"), size),))
        for size in _sizes_over(section, square=where[0] in _SQUARE)
    ]


def _name(case: Case, where: Location) -> str:
    if where == ("decking",):
        return "the boards"
    named = where[-1] if isinstance(where[-1], str) else "J"
    return str(case.get(*where, "mark") or named)


def _sizes_over(section: str, *, square: bool = False) -> tuple[str, ...]:
    ladders = [ladder for ladder in LADDERS if section in ladder[:-1]]
    ladders.sort(key=lambda ladder: (ladder[0].split("x")[0] != ladder[-1].split("x")[0]) is not square)
    return ladders[0][ladders[0].index(section) + 1 :] if ladders else ()


def graded(case: Case, where: Location) -> list[Change]:
    """Better grades of the same species: no weaker in anything, and stronger in bending."""
    species, grade, section = (str(case.get(*where, key)) for key in ("species", "grade", "section"))
    try:
        now = reference_values(species, grade, section)
        found = [reference_values(species, better, section) for better in grades(species, section)]
    except (MaterialError, SectionError):
        return []
    kept = ("F_b", "F_v", "F_c", "F_c_perp", "E")
    better = [v for v in found if v.F_b > now.F_b and all(getattr(v, k) >= getattr(now, k) for k in kept)]
    better.sort(key=lambda values: values.F_b)
    return [
        Change(f"Grade {v.grade} for {_name(case, where)}", (((*where, "grade"), v.grade),)) for v in better
    ]


def deeper(case: Case, row: int) -> list[Change]:
    """A larger size for a beam and for those of its layer and size, which share its level."""
    beams = case.data["beam"]
    one = beams[row]
    alike = [
        (i, other["mark"])
        for i, other in enumerate(beams)
        if (other["section"], other.get("layer", 1)) == (one["section"], one.get("layer", 1))
    ]
    words = " and ".join(mark for _, mark in alike)
    return [
        Change(f"{size} for {words}", tuple((("beam", i, "section"), size) for i, _ in alike))
        for size in _sizes_over(one["section"])
    ]


def closer(case: Case, i: int) -> list[Change]:
    """Closer spacing of a field of joists."""
    field = case.project.joists[i]
    return [
        Change(
            f"{feet_inches(spacing) if spacing % 1 == 0 else f'{spacing:g} in'} spacing of {field.mark}",
            ((("joists", i, "spacing"), f"{spacing:g} in"),),
        )
        for spacing in _SPACINGS
        if spacing < field.spacing - 0.1
    ]


def plies(case: Case, row: int, key: str = "beam") -> list[Change]:
    """More plies of a beam or brace."""
    part = case.data[key][row]
    now, most = int(part.get("plies", 1)), 5 if key == "beam" else 2
    return [
        Change(f"{n} plies for {part['mark']}", (((key, row, "plies"), n),))
        for n in range(now + 1, min(now + 2, most) + 1)
    ]


def plies_nailed(case: Case, row: int) -> list[Change]:
    """More rows of nails between the plies of a beam, closer together."""
    beam = case.project.beams[row]
    tried = [(rows, spacing) for rows in (2, 3, 4) for spacing in (12.0, 8.0, 6.0, 4.0)]
    now = beam.ply_rows / beam.ply_spacing if beam.plies_fastened else 0.0
    return [
        Change(
            f"{rows} rows of nails at {feet_inches(spacing)} between the plies of {beam.mark}",
            (
                (("beam", row, "plies_fastened"), True),
                (("beam", row, "ply_rows"), rows),
                (("beam", row, "ply_spacing"), inches(spacing)),
            ),
        )
        for rows, spacing in sorted(tried, key=lambda way: way[0] / way[1])
        if rows / spacing > now
    ]


def driven_more(case: Case, row: int) -> list[Change]:
    """More nails or screws at each end of a rim, of blocking or of a spacer that no hanger holds."""
    entry = case.project.blocking[row]
    if entry.hanger is not None:
        return []
    most = 8  # at one end: more split what they go into (common practice)
    return [
        Change(f"{n} {entry.fastener}s at each end of {entry.mark}", ((("blocking", row, "fasteners"), n),))
        for n in range((entry.fasteners or 0) + 1, most + 1)
    ]


def hung_wider(case: Case) -> list[Change]:
    """A longer seat in the hangers of the check's part."""
    named = {seat.connection for seat in case.member.seats if seat.connection} if case.member else set()
    return [
        Change(
            f"A hanger with a seat of {feet_inches(seat)} as {name}",
            ((("connection", name, "seat_length"), inches(seat)),),
        )
        for name in sorted(named)
        for seat in (2.0, 2.5, 3.0)
        if seat > case.project.connections[name].seat_length
    ]


def post_under(case: Case, row: int) -> list[Change]:
    """A post in the middle of the beam's longest reach between supports or to its end."""
    mark = case.data["beam"][row]["mark"]
    if not case.data.get("post") or not case.data.get("footing"):
        return []
    member = case.results.path.layout.member(mark)
    stops = [0.0, *(seat.at for seat in member.seats), member.line.length]
    start, end = max(zip(stops, stops[1:], strict=False), key=lambda pair: pair[1] - pair[0])
    x, y = member.line.at((start + end) / 2)
    like = next((dict(s) for s in case.data["support"] if s.get("kind") == "post"), {})
    post: dict[str, Any] = {
        "post": next(iter(case.data["post"])),
        "footing": next(iter(case.data["footing"])),
        **like,
        "mark": "NEW",
        "kind": "post",
        "at": [f"{x:.3f} in", f"{y:.3f} in"],
    }
    words = f"Another post under {mark} at {feet_inches((start + end) / 2)} from its start"
    return [Change(words, (), (("support", post),))]
