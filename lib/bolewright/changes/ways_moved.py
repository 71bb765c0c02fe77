"""Ways to help by moving: a post along its beam, a beam with its posts, a bolt's seat, the edge round a trunk."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from bolewright.changes.change import Change
from bolewright.changes.ways_case import Case, inches
from bolewright.platform.file.reading import Location
from bolewright.platform.layout.bolt_lines import bolt_line
from bolewright.platform.layout.layout import Member, trunk_radius
from bolewright.platform.layout.lines import Vector
from bolewright.platform.project import Tree
from bolewright.platform.project.bearing import SupportKind
from bolewright.units import feet_inches

_STEPS = (6.0, 12.0, 18.0)
_LONGER = (4.0, 8.0, 12.0)
_NEAR = 4.0  # in: what lies this near to a side of an opening goes with it


def post_moved(case: Case) -> list[list[Change]]:
    """Posts under the check's beam, or the check's own post, moved along it, either way."""
    member = case.member
    posts = {s.mark for s in case.project.supports if s.kind == SupportKind.POST}
    if member is None:
        on = case.members_on(case.check.part)
        seats = [(m, s.below) for m in on[:1] for s in m.seats if s.below == case.check.part]
    else:
        seats = [(member, s.below) for s in member.seats]
    return [
        [change for step in _STEPS if (change := _post_by(case, on, mark, way * step))]
        for on, mark in seats
        if mark in posts
        for way in (1, -1)
    ]


def _post_by(case: Case, member: Member, mark: str, by: float) -> Change | None:
    row = case.row("support", mark)
    seat = next(s for s in member.seats if s.below == mark)
    at = seat.at + by
    if row is None or not 0 < at < member.line.length:
        return None
    to = "end" if by > 0 else "start"
    words = f"{mark} moved {feet_inches(abs(by))} towards the {to} of {member.mark}"
    return Change(words, ((("support", row, "at"), _written(member.line.at(at))),))


def beam_longer(case: Case) -> list[Change]:
    """A beam longer at both ends, so that the bolts of its knees are farther from them (NDS 2018, 3.4.3.3)."""
    row, member = case.row("beam"), case.member
    if row is None or member is None:
        return []
    return [
        Change(
            f"{member.mark} longer by {feet_inches(more)} at each end",
            (
                (("beam", row, "from"), _written(member.line.at(-more))),
                (("beam", row, "to"), _written(member.line.at(member.line.length + more))),
            ),
        )
        for more in _LONGER
    ]


def beam_moved(case: Case) -> list[list[Change]]:
    """A beam on posts moved to its sides with all its posts: nearer to a tree bolt, or to the middle of a span."""
    posts = {s.mark for s in case.project.supports if s.kind == SupportKind.POST}
    lower = [m for m in case.results.path.layout.beams if m.seats and all(s.below in posts for s in m.seats)]
    if case.member is not None:
        below = {s.below for s in case.member.seats}
        lower = [m for m in lower if m.mark in below]
    return [
        [_row_by(case, m, way * step) for step in _STEPS if case.row("beam", m.mark) is not None]
        for m in lower
        for way in _ways_of(case, m)
    ]


def _ways_of(case: Case, member: Member) -> tuple[int, ...]:
    """Towards the trees first, where there are any."""
    if not case.project.trees:
        return (1, -1)
    x, y = member.line.start
    u_x, u_y = member.line.u
    t_x, t_y = case.project.trees[0].at
    left = u_x * (t_y - y) - u_y * (t_x - x) > 0
    return (1, -1) if left else (-1, 1)


def _row_by(case: Case, member: Member, by: float) -> Change:
    n = (-member.line.u[1] * by, member.line.u[0] * by)
    row = case.row("beam", member.mark)
    assert row is not None
    values: list[tuple[Location, Any]] = [
        (("beam", row, key), _written(_plus(end, n)))
        for key, end in (("from", member.line.start), ("to", member.line.end))
    ]
    marks = [seat.below for seat in member.seats]
    for i, support in enumerate(case.project.supports):
        if support.mark in marks:
            values.append((("support", i, "at"), _written(_plus(support.at, n))))
    nearer = by * _ways_of(case, member)[0] > 0
    sides = (
        ("towards the tree", "off the tree") if case.project.trees else ("to one side", "to the other side")
    )
    where = sides[0] if nearer else sides[1]
    words = f"{member.mark} with {' and '.join(marks)} moved {feet_inches(abs(by))} {where}"
    return Change(words, tuple(values))


def opening_widened(case: Case) -> list[Change]:
    """The opening round a trunk made wider all round, or the deck's edge at it cut back, with what frames it."""
    tree = next((t for t in case.project.trees if t.mark == case.check.part), None)
    if tree is None:
        return []
    ring = next((i for i, r in enumerate(case.project.platform.openings) if _holds(r, tree.at)), None)
    missing = case.check.demand - case.check.capacity
    first = max(0.5, math.ceil(missing * 2) / 2) if not math.isnan(missing) else 1.0
    steps = (first, first + 0.5, first + 1.0, first + 2.0)
    if ring is not None:
        return [_ring_by(case, tree, ring, by) for by in steps]
    return [_edge_by(case, tree, by) for by in steps]


def _holds(ring: tuple[Vector, ...], at: Vector) -> bool:
    left, low, right, high = _bounds(ring)
    return left < at[0] < right and low < at[1] < high


def _bounds(ring: tuple[Vector, ...]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return min(xs), min(ys), max(xs), max(ys)


def _ring_by(case: Case, tree: Tree, ring: int, by: float) -> Change:
    left, low, right, high = _bounds(case.project.platform.openings[ring])

    def pushed(at: Vector) -> Vector:
        return (_pushed(at[0], left, right, by), _pushed(at[1], low, high, by))

    corners = [_written(pushed(p)) for p in case.project.platform.openings[ring]]
    values = [(("platform", "openings", ring), corners), *_framing(case, pushed)]
    return Change(f"The opening round {tree.mark} {feet_inches(by)} wider all round", tuple(values))


def _pushed(value: float, low: float, high: float, by: float) -> float:
    if abs(value - low) <= _NEAR:
        return value - by
    return value + by if abs(value - high) <= _NEAR else value


def _framing(case: Case, pushed: Callable[[Vector], Vector]) -> list[tuple[Location, Any]]:
    """Ends of beams and straps that go with an edge."""
    ends = [
        *(("beam", i, (c.start, c.end)) for i, c in enumerate(case.project.beams)),
        *(("diagonal", i, (d.start, d.end)) for i, d in enumerate(case.project.diagonals)),
    ]
    return [
        ((key, i, name), _written(pushed(end)))
        for key, i, both in ends
        for name, end in zip(("from", "to"), both, strict=True)
        if pushed(end) != end
    ]


def _edge_by(case: Case, tree: Tree, by: float) -> Change:
    """The edge of the deck that is nearest to the trunk cut back, with the first joist and the straps at it."""
    outline = case.project.platform.outline
    (x, y), (n_x, n_y) = _edge_at(outline, tree.at)

    def pushed(at: Vector) -> Vector:
        off = (at[0] - x) * n_x + (at[1] - y) * n_y
        return _plus(at, (n_x * by, n_y * by)) if abs(off) <= _NEAR else at

    values: list[tuple[Location, Any]] = [(("platform", "outline"), [_written(pushed(p)) for p in outline])]
    for i, field in enumerate(case.project.joists):
        turn = math.radians(field.direction)
        across = (-math.sin(turn), math.cos(turn))
        along_n = n_x * across[0] + n_y * across[1]
        if abs(along_n) > 0.99:
            values += [
                (("joists", i, key), inches(value + by * along_n))
                for key, value in (("first", field.first), ("last", field.last))
                if abs(value - (x * across[0] + y * across[1])) <= _NEAR
            ]
    for i, strap in enumerate(case.project.diagonals):
        for name, end in (("from", strap.start), ("to", strap.end)):
            if pushed(end) != end:
                values.append((("diagonal", i, name), _written(pushed(end))))
    return Change(f"The deck's edge at {tree.mark} cut back by {feet_inches(by)}", tuple(values))


def _edge_at(outline: tuple[Vector, ...], at: Vector) -> tuple[Vector, Vector]:
    """The edge nearest to a trunk: a point of it, and the direction away from the trunk across it."""

    def reach(i: int) -> float:
        (x0, y0), (x1, y1) = outline[i], outline[(i + 1) % len(outline)]
        share = ((at[0] - x0) * (x1 - x0) + (at[1] - y0) * (y1 - y0)) / ((x1 - x0) ** 2 + (y1 - y0) ** 2)
        share = min(max(share, 0.0), 1.0)
        return math.dist(at, (x0 + share * (x1 - x0), y0 + share * (y1 - y0)))

    i = min(range(len(outline)), key=reach)
    (x0, y0), (x1, y1) = outline[i], outline[(i + 1) % len(outline)]
    length = math.dist((x0, y0), (x1, y1))
    n = (-(y1 - y0) / length, (x1 - x0) / length)
    off = (at[0] - x0) * n[0] + (at[1] - y0) * n[1]
    return (x0, y0), (n if off < 0 else (-n[0], -n[1]))


def bolt_moved_out(case: Case) -> list[Change]:
    """The seats of a tree's bolts further out, with the ends of beams that bear on them."""
    tree = next((t for t in case.project.trees if t.mark == case.check.part), None)
    if tree is None and case.support is not None:
        tree = next((t for t in case.project.trees if t.mark == case.support.tree), None)
    if tree is None:
        return []
    bolts = [(i, s) for i, s in enumerate(case.project.supports) if s.tree == tree.mark]
    moved = [(i, s) for i, s in bolts if case.support is None or s.mark == case.check.part]
    changes = []
    for by in (0.5, 1.0, 2.0):
        values: list[tuple[Location, Any]] = []
        for i, support in moved:
            away = bolt_line(support, tree).u
            step = (away[0] * by, away[1] * by)
            values.append((("support", i, "at"), _written(_plus(support.at, step))))
            for row, beam in enumerate(case.project.beams):
                near, _ = sorted(
                    (("from", beam.start), ("to", beam.end)),
                    key=lambda end: math.dist(end[1], support.at),
                )
                if math.dist(near[1], support.at) <= trunk_radius(tree) and beam.mark in {
                    m.mark for m in case.members_on(support.mark)
                }:
                    values.append((("beam", row, near[0]), _written(_plus(near[1], step))))
        names = " and ".join(s.mark for _, s in moved)
        if values:
            changes.append(
                Change(f"{names} {feet_inches(by)} further out, with the beams on them", tuple(values))
            )
    return changes


def _plus(a: Vector, b: Vector) -> Vector:
    return (a[0] + b[0], a[1] + b[1])


def _written(at: Vector) -> list[str]:
    return [inches(at[0]), inches(at[1])]
