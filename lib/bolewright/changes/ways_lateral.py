"""Ways to lateral stability: knee braces, crossed rods, fixed base, straps in the floor, bearings on the tree."""

from __future__ import annotations

import math
from typing import Any

from bolewright.changes.change import Change, Data
from bolewright.changes.ways_case import Case, inches
from bolewright.platform.analysis.crossed import LEAST_RISE, STEEPEST
from bolewright.platform.analysis.lateral_supports import SQUARE
from bolewright.platform.file.reading import Location
from bolewright.platform.layout.layout import Member, trunk_radius
from bolewright.platform.layout.lines import Line
from bolewright.platform.project import Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.units import feet_inches

_LEGS = (24.0, 30.0, 36.0)
BELOW_AND_ABOVE = 14.0  # in: what the file leaves crossed rods below the beam and above grade
CLEAR = 6.0  # in between rods and a trunk or post beside them
_LIKE = ("section", "species", "grade", "wet", "incised")


def knees_longer(case: Case) -> list[Change]:
    """All knees with longer legs: less force in each, and a stiffer corner."""
    return _knees_by(case, (6.0, 12.0))


def knees_shorter(case: Case) -> list[Change]:
    """All knees with shorter legs: less length to buckle."""
    return _knees_by(case, (-6.0, -12.0))


def _knees_by(case: Case, steps: tuple[float, ...]) -> list[Change]:
    changes = []
    for step in steps:
        values: list[tuple[Location, Any]] = []
        for i, brace in enumerate(case.project.braces):
            values += [
                (("brace", i, key), inches(max(value + step, 12.0)))
                for key, value in (("rise", brace.rise), ("run", brace.run))
            ]
        if values:
            how = "longer" if step > 0 else "shorter"
            changes.append(Change(f"Knees with legs {feet_inches(abs(step))} {how}", tuple(values)))
    return changes


def knee_added(case: Case) -> list[Change]:
    """Knees on every side of a post that has a beam with room for them over it, and no knee yet."""
    return [
        Change(
            f"Knees of {feet_inches(leg)} legs at {_listed([post for post, _, _ in free])}",
            (),
            tuple(("brace", _knee(case, n, corner, leg)) for n, corner in enumerate(free)),
        )
        for leg in _LEGS
        if (free := _free_corners(case, leg))
    ]


def _free_corners(case: Case, leg: float) -> list[tuple[str, str, str]]:
    """Post, beam and end of the beam, where a knee could stand and none does."""
    taken = {(b.support, b.beam, b.towards) for b in case.project.braces}
    return [
        (post, member.mark, towards)
        for post in (s.mark for s in case.project.supports if s.kind == SupportKind.POST)
        for member in case.members_on(post)
        for towards in _ends_with_room(member, post, leg)
        if (post, member.mark, towards) not in taken
    ]


def _ends_with_room(member: Member, post: str, leg: float) -> list[str]:
    at = next(s.at for s in member.seats if s.below == post)
    room = {"start": at, "end": member.line.length - at}
    return [end for end in ("start", "end") if room[end] > leg + 6.0]


def _knee(case: Case, n: int, corner: tuple[str, str, str], leg: float) -> Data:
    post, beam, towards = corner
    row = case.row("beam", beam)
    timber = case.data["beam"][row] if row is not None else {}
    knee: Data = {k: timber[k] for k in _LIKE if k in timber}
    knee |= {"section": "2x6", "plies": 2, "bolts": 2, "bolt_diameter": "1/2 in"}
    knee |= {"mark": f"NEW{n + 1}", "support": post, "beam": beam, "towards": towards}
    return knee | {"rise": inches(leg), "run": inches(leg)}


def rods_added(case: Case) -> list[Change]:
    """Crossed rods between the posts of neighbouring beams, wherever they can stand and none do."""
    free = _free_bays(case)
    if not free:
        return []
    rods = tuple(
        (
            "crossed_rods",
            {
                "mark": f"NEWR{n + 1}",
                "from_post": one.mark,
                "to_post": two.mark,
                "diameter": "5/8 in",
                "rated_load": "4000 lb",
            },
        )
        for n, (one, two) in enumerate(free)
    )
    bays = _listed([f"{one.mark} and {two.mark}" for one, two in free])
    return [Change(f"Crossed rods of 5/8 in, their ends rated 4,000 lb, between {bays}", (), rods)]


def rods_stronger(case: Case) -> list[Change]:
    """Thicker crossed rods, or a higher rating of their ends."""
    row = case.row("crossed_rods")
    if row is None:
        return []
    rods = case.project.crossed_rods[row]
    if case.check.key == "crossed_rods.ends":
        ratio = 1.0 if math.isnan(case.check.ratio) else case.check.ratio
        loads = (
            math.ceil((rods.rated_load or 4000.0) * ratio * more / 100) * 100 for more in (1.0, 1.1, 1.3)
        )
        return [
            Change(
                f"Ends of {rods.mark} rated {load:,} lb",
                ((("crossed_rods", row, "rated_load"), f"{load} lb"),),
            )
            for load in loads
        ]
    return [
        Change(f"{rods.mark} {inches(size)} thick", ((("crossed_rods", row, "diameter"), inches(size)),))
        for size in (0.5, 0.625, 0.75, 0.875, 1.0, 1.25, 1.5)
        if size > rods.diameter + 1e-6
    ]


def _free_bays(case: Case) -> list[tuple[Support, Support]]:
    """Posts of two beams that stand square across from each other, without rods that way, a trunk or post between."""
    layout = case.results.path.layout
    posts = [s for s in layout.supports if s.kind == SupportKind.POST]
    taken = {mark for rods in case.project.crossed_rods for mark in (rods.from_post, rods.to_post)}
    taken |= {m.seats[0].below for m in layout.beams if len(m.seats) == 1}
    found = []
    for i, one in enumerate(posts):
        for two in sorted(posts[i + 1 :], key=lambda s: math.dist(s.at, one.at)):
            if taken & {one.mark, two.mark} or not _is_bay(case, one, two):
                continue
            taken |= {one.mark, two.mark}
            found.append((one, two))
    return found


def _is_bay(case: Case, one: Support, two: Support) -> bool:
    layout = case.results.path.layout
    line = Line.between(one.at, two.at)
    under = [layout.on_support(mark)[0][0] for mark in (one.mark, two.mark)]
    if under[0].mark == under[1].mark or any(beam.line.sine(line) < SQUARE for beam in under):
        return False
    rise = max(layout.seat_level(s.mark) for s in (one, two)) - BELOW_AND_ABOVE
    if not LEAST_RISE <= rise <= STEEPEST * line.length:
        return False
    trunks = ((tree.at, trunk_radius(tree) + CLEAR) for tree in case.project.trees)
    posts = (
        (s.at, CLEAR)
        for s in layout.supports
        if s.kind == SupportKind.POST and s.mark not in (one.mark, two.mark)
    )
    return all(line.distance(at) > least for at, least in (*trunks, *posts))


def braces_bolted(case: Case) -> list[Change]:
    """More or thicker bolts at the ends of the braces."""
    row = case.row("brace")
    if row is None or case.project.braces[row].bolts is None:
        return rated_brace(case)
    brace = case.project.braces[row]
    now, thick = brace.bolts or 1, brace.bolt_diameter or 0.5
    tried = [(now, thick + 0.125), (now + 1, thick), (now + 1, thick + 0.125), (now + 2, thick + 0.25)]
    return _bolted(row, brace.mark, [(count, size) for count, size in tried if count <= 6 and size <= 1])


def braces_bolted_less(case: Case) -> list[Change]:
    """Thinner or fewer bolts at the ends of the braces, which come less near to edges and ends."""
    row = case.row("brace")
    brace = case.project.braces[row] if row is not None else None
    if row is None or brace is None or brace.bolts is None or brace.bolt_diameter is None:
        return []
    now, thick = brace.bolts, brace.bolt_diameter
    tried = [(now, thick - 0.125), (now, thick - 0.25), (now - 1, thick), (now - 1, thick - 0.125)]
    return _bolted(row, brace.mark, [(count, size) for count, size in tried if count >= 1 and size >= 0.375])


def _bolted(row: int, mark: str, tried: list[tuple[int, float]]) -> list[Change]:
    return [
        Change(
            f"{count} bolts of {feet_inches(size)} at the ends of {mark}",
            ((("brace", row, "bolts"), count), (("brace", row, "bolt_diameter"), inches(size))),
        )
        for count, size in tried
    ]


def rated_brace(case: Case) -> list[Change]:
    """Ends of a brace with a higher rating."""
    row = case.row("brace")
    if row is None or (rated := case.project.braces[row].rated_load) is None or math.isnan(case.check.ratio):
        return []
    wanted = math.ceil(rated * case.check.ratio / 10) * 10
    return [
        Change(
            f"Ends of {case.check.part} rated for {wanted:,} lb",
            ((("brace", row, "rated_load"), f"{wanted} lb"),),
        )
    ]


def base_fixed(case: Case) -> list[Change]:
    """Feet of posts counted as held by the ground they stand in; their embedment is checked then."""
    kinds = [name for name, post in case.project.posts.items() if post.base != "fixed"]
    if not kinds:
        return []
    values = tuple((("post", name, "base"), "fixed") for name in kinds)
    return [Change(f"Feet of {_listed(kinds)} held in the ground they stand in", values)]


def straps_stronger(case: Case) -> list[list[Change]]:
    """A higher rating of the straps in the floor; a crossed pair, where there is none."""
    straps = case.project.diagonals
    ratio = case.check.ratio
    if straps and not math.isnan(ratio):
        loads = [
            tuple(
                (
                    ("diagonal", i, "rated_load"),
                    f"{math.ceil((strap.rated_load or 0.0) * ratio * more / 50) * 50} lb",
                )
                for i, strap in enumerate(straps)
            )
            for more in (1.0, 1.1, 1.3)
        ]
        return [
            [
                Change(f"Straps rated for {str(values[0][1]).replace(' lb', '')} lb", values)
                for values in loads
            ],
            *_crossed(case),
        ]
    return _crossed(case)


def _crossed(case: Case) -> list[list[Change]]:
    outline = case.project.platform.outline
    if len(outline) != 4:
        return []
    centre = (sum(x for x, _ in outline) / 4, sum(y for _, y in outline) / 4)
    corners = [(x + 0.06 * (centre[0] - x), y + 0.06 * (centre[1] - y)) for x, y in outline]
    pair = ((corners[0], corners[2]), (corners[1], corners[3]))
    ways = []
    for load in (800, 1200, 1600, 2400):
        added = tuple(
            (
                "diagonal",
                {
                    "mark": f"NEWX{n + 1}",
                    "from": [inches(start[0]), inches(start[1])],
                    "to": [inches(end[0]), inches(end[1])],
                    "rated_load": f"{load} lb",
                },
            )
            for n, (start, end) in enumerate(pair)
        )
        ways.append(
            Change(f"A crossed pair of straps from corner to corner, rated for {load:,} lb", (), added)
        )
    return [ways]


def tree_released(case: Case) -> list[list[Change]]:
    """Bearings that are tied to the tree, let slide."""
    tied = [(i, s) for i, s in enumerate(case.project.supports) if s.lateral == "tied"]
    if not tied:
        return []
    names = _listed([s.mark for _, s in tied])
    ways = []
    for how in ("slides", "floats"):
        for slot in (4.0, 8.0):
            values: list[tuple[Location, Any]] = []
            for i, _ in tied:
                values += [(("support", i, "lateral"), how), (("support", i, "slot"), inches(slot))]
            words = f"{names} free to {'slide' if how == 'slides' else 'float'} by {feet_inches(slot)}"
            ways.append(Change(words, tuple(values)))
    return [ways]


def lateral_held(case: Case) -> list[list[Change]]:
    """What would hold a platform that nothing holds: knees, fixed bases, bearings tied to the tree; then all of it."""
    trees = [
        (i, s)
        for i, s in enumerate(case.project.supports)
        if s.kind == SupportKind.TREE_BOLT and s.lateral is None
    ]
    tied = tuple((("support", i, "lateral"), "tied") for i, _ in trees)
    held, knees = base_fixed(case), knee_added(case)
    single = [knees[:1], held]
    if tied:
        single.append([Change(f"{_listed([s.mark for _, s in trees])} tied to the tree", tied)])
    together: list[Change] = []
    words = [
        w
        for w, there in (("fixed bases", held), ("knees", knees), ("bearings tied to the tree", tied))
        if there
    ]
    if len(words) > 1:
        values = (*(held[0].values if held else ()), *tied)
        together.append(Change(" and ".join(words).capitalize(), values, knees[0].added if knees else ()))
    return [*single, together]


def _listed(marks: list[str]) -> str:
    unique = list(dict.fromkeys(marks))
    return unique[0] if len(unique) == 1 else f"{', '.join(unique[:-1])} and {unique[-1]}"
