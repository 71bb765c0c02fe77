"""Pieces in the place of each other, as boxes in space; the end of a lapped brace over its beam.

What is looked at: joists, beams, blocks, posts, knee braces of posts, trunks, boards. Two boxes lie apart where some
direction, square to a side of one or to an edge of each, has their shadows apart; how far one would have to move is
the least overlap of their shadows (C. Ericson, Real-Time Collision Detection, 2005, 4.4.1).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from math import ceil, hypot

import numpy as np

from audit import timber
from audit.braces import Knee
from audit.paper import Member, Row, Site
from audit.quantities import read

Pair = tuple[float, float]
UP = np.array([0.0, 0.0, 1.0])
APART = 0.25  # in: two tapes read to 1/16 in. and levels to 1/8 in. (common practice)
CUT_OFF = 0.5  # in: a tip over the beam that is sawn flush (common practice)


@dataclass(frozen=True)
class Box:
    """A plane outline drawn along a direction; ``edges`` are directions of its edges, ``square`` of its sides."""

    name: str
    corners: np.ndarray
    edges: tuple[np.ndarray, ...]
    square: tuple[np.ndarray, ...]
    part: str = ""

    @classmethod
    def of(cls, name: str, outline: list[np.ndarray], along: np.ndarray, part: str = "") -> Box:
        """A body that an outline (in order) sweeps along a vector."""
        sides = tuple(b - a for a, b in zip(outline, [*outline[1:], outline[0]], strict=True))
        square = (np.cross(sides[0], sides[1]), *(np.cross(side, along) for side in sides))
        return cls(name, np.array([*outline, *(p + along for p in outline)]), (*sides, along), square, part)


def depth(one: Box, other: Box) -> float:
    """How far one would have to move to lie clear of the other; 0 where they touch."""
    crossed = [np.cross(a, b) for a in one.edges for b in other.edges]
    least = float("inf")
    for axis in (*one.square, *other.square, *crossed):
        length = float(np.linalg.norm(axis))
        if length < 1e-6:
            continue
        a, b = one.corners @ axis / length, other.corners @ axis / length
        least = min(least, float(a.max() - b.min()), float(b.max() - a.min()))
    return max(least, 0.0)


# ------------------------------------------------------------------------------------------------------ pieces


def side(u: np.ndarray) -> np.ndarray:
    return np.array([-u[1], u[0]])


def at_face(site: Site, member: Member, sign: int, of: Member, start: bool) -> float:
    """Where an edge of a member (left or right of its axis) meets the near face of what it hangs on, along its axis."""
    w, n = site.timber(of.mark).b / 2, side(of.u)
    own = member.start + sign * site.timber(member.mark).b / 2 * side(member.u)
    middle = member.start + member.length / 2 * member.u
    facing = 1.0 if (middle - of.start) @ n > 0 else -1.0
    return float(((of.start - own) @ n + facing * w) / (member.u @ n))


def framing(site: Site, member: Member) -> Box:
    """A joist or beam: from face to face where it hangs, to its own ends elsewhere."""
    ends = []
    for start in (True, False):
        here = 0.0 if start else member.length
        hung = [s for s in member.seats if s.bearing == "hangs from" and abs(s.at - here) < 3.0]
        if member.kind == "blocking" and not hung:  # between two joists, nailed
            hung = [min(member.seats, key=lambda s: abs(s.at - here))]
        of = site.members.get(hung[0].below) if hung else None
        ends.append([at_face(site, member, k, of, start) if of else here for k in (1, -1)])
    n = site.timber(member.mark).b / 2 * side(member.u)
    (a, b), (c, d) = ends
    plan = [(a, n), (c, n), (d, -n), (b, -n)]
    low, high = site.bottom(member.mark), site.top(member.mark)
    outline = [np.append(member.start + x * member.u + off, low) for x, off in plan]
    kind = member.kind if member.kind != "beam" else "beam"
    return Box.of(f"{kind} {member.mark}", outline, (high - low) * UP, member.mark)


def post(site: Site, mark: str) -> Box:
    """Set square to the first beam on it; from its pad to under the beam or its cap."""
    support, section = site.support(mark), timber.size(site.post(mark)["section"])
    u = site.on(mark)[0][0].u
    at, (b, d) = np.array([read(v) for v in support["at"]]), section
    footing = site.footing(mark)
    low, high = read(footing["pad"]) - read(footing["depth"]), site.post_top(mark)
    corners = [at + i * b / 2 * u + j * d / 2 * side(u) for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    return Box.of(f"post {mark}", [np.append(p, low) for p in corners], (high - low) * UP, mark)


def profile(site: Site, mark: str) -> list[np.ndarray]:
    """Corners of a knee brace in its plane: level from the post's middle, and above grade."""
    k = Knee(site, mark)
    seat = site.bottom(k.file["beam"])
    u = np.array([k.run, k.rise]) / k.length
    n = np.array([-u[1], u[0]])
    if not k.n:  # fitted: plumb at the post's face, level under the beam
        found = []
        for s in (-1, 1):
            p = np.array([0.0, seat - k.rise]) + s * k.t.d / 2 * n
            foot, head = p + (k.post.b / 2 - p[0]) / u[0] * u, p + (seat - p[1]) / u[1] * u
            found.append((foot, head))
        return [found[0][0], found[0][1], found[1][1], found[1][0]]
    # From bolts in the post's middle line to those at the beam's mid-depth, and past the outermost of a row along the
    # post's or the beam's grain by an end distance of 7 D (NDS 2018, Table 12.5.1A), up to 1/4 in.
    up = lambda x, part: ceil(x / part - 1e-9) * part  # noqa: E731
    e, half = up(7 * k.D, 0.25), (k.n - 1) / 2 * up(spacing(k), 1 / 16)
    lower = e + half * u[1]
    upper = e + half * u[0]
    bolts = (k.rise + k.beam.d / 2) * k.length / k.rise
    foot = np.array([0.0, seat - k.rise])
    ends = foot - lower * u, foot + (bolts + upper) * u
    return [
        ends[0] - k.t.d / 2 * n,
        ends[1] - k.t.d / 2 * n,
        ends[1] + k.t.d / 2 * n,
        ends[0] + k.t.d / 2 * n,
    ]


def spacing(k: Knee) -> float:
    """4 D in a row; rows side by side 2.5 D to 5 D by l / D (NDS 2018, Tables 12.5.1B, 12.5.1D): the greater."""
    wanted = 4 * k.D
    for width in (k.post.d, k.beam.b):
        ratio = min(width, k.t.b) / k.D
        wanted = max(
            wanted, 2.5 * k.D if ratio <= 2 else 5 * k.D if ratio >= 6 else (5 * ratio * k.D + 10 * k.D) / 8
        )
    return wanted


def braces(site: Site, mark: str) -> list[Box]:
    """Its plies: under the beam's middle, or on the sides of post and beam; two single ones on either side."""
    k = Knee(site, mark)
    support, beam = site.support(k.file["support"]), site.members[k.file["beam"]]
    at, t = np.array([read(v) for v in support["at"]]), k.t.b / k.plies
    u = beam.u if k.file["towards"] == "end" else -beam.u
    n, aside = side(beam.u), max(k.post.d, k.beam.b) / 2
    if not k.n:
        starts = [-t * k.plies / 2 + t * i for i in range(k.plies)]
    elif k.plies == 2:
        starts = [aside, -aside - t]
    else:
        first = next(b["mark"] for b in site.file["brace"] if b["support"] == k.file["support"])
        starts = [aside if mark == first else -aside - t]
    flat = profile(site, mark)
    return [
        Box.of(
            f"knee brace {mark}",
            [np.append(at + x * u + start * n, z) for x, z in flat],
            np.append(t * n, 0.0),
            mark,
        )
        for start in starts
    ]


def boxes(site: Site) -> list[Box]:
    found = [framing(site, m) for m in site.members.values()]
    found += [post(site, s["mark"]) for s in site.file["support"] if s["kind"] == "post"]
    return found + [box for b in site.file.get("brace", []) for box in braces(site, b["mark"])]


def through_boards(site: Site, box: Box) -> float:
    """How far a brace or a post stands up into boards over it: all boards between the corners of the outline."""
    floor = read(site.file["platform"]["floor_height"]) - site.deck_thickness
    over = float(box.corners[:, 2].max()) - floor
    ring = np.array([[read(v) for v in p] for p in site.file["platform"]["outline"]])
    inside = (box.corners[:, :2] > ring.min(axis=0)).all(axis=1) & (
        box.corners[:, :2] < ring.max(axis=0)
    ).all(axis=1)
    return over if over > 0 and inside.any() else 0.0


def ends_together(site: Site, one: Box, other: Box) -> bool:
    """Two beams that end on one support are cut to each other there."""
    a, b = site.members.get(one.part), site.members.get(other.part)
    if a is None or b is None:
        return False
    ends = [[m.start, m.start + m.length * m.u] for m in (a, b)]
    return min(hypot(*(p - q)) for p in ends[0] for q in ends[1]) < 6.0


def pairs(site: Site) -> dict[tuple[str, str], float]:
    """Every two pieces of which one lies more than 1/4 in. in the other: how far."""
    found: dict[tuple[str, str], float] = {}
    every = boxes(site)
    for one, other in combinations(every, 2):
        if one.part == other.part or ends_together(site, one, other):
            continue
        low = np.maximum(one.corners.min(axis=0), other.corners.min(axis=0))
        high = np.minimum(one.corners.max(axis=0), other.corners.max(axis=0))
        if (high - low > 0).all() and (deep := depth(one, other)) > APART:
            found[one.name, other.name] = max(deep, found.get((one.name, other.name), 0.0))
    for box in every:
        if box.name.startswith(("knee", "post")) and (over := through_boards(site, box)) > APART:
            found[box.name, "the decking"] = over
    for tree in site.file.get("tree", []):
        deep = [(in_trunk(tree, box), box.name) for box in every]
        found |= {(f"trunk {tree['mark']}", name): d for d, name in deep if d > APART}
    return found


def in_trunk(tree: dict, box: Box) -> float:
    """How far a piece reaches into a round trunk, from the bark: its corners and its sides in plan."""
    at = np.array([read(v) for v in tree["at"]])
    r = read(tree["diameter"]) / 2 if "diameter" in tree else read(tree["girth"]) / (2 * np.pi)
    plan = box.corners[:, :2]
    near = min(apart(at, p, q) for p, q in combinations(plan, 2))
    return r - near


def apart(at: np.ndarray, p: np.ndarray, q: np.ndarray) -> float:
    """Distance of a point from a line between two points."""
    l2 = float((q - p) @ (q - p))
    t = 0.0 if l2 < 1e-12 else min(max(float((at - p) @ (q - p)) / l2, 0.0), 1.0)
    return hypot(*(at - p - t * (q - p)))


# ------------------------------------------------------------------------------------------------------- rows


def place(site: Site, row: Row) -> Pair:
    """The deepest of all pairs; nothing where all lie apart."""
    return max(pairs(site).values(), default=0.0), APART


def brace_place(site: Site, row: Row) -> Pair:
    """One pair: the brace, and what is said to be in its place."""
    name = f"knee brace {row.part}"
    deep = next(d for (a, b), d in pairs(site).items() if {a, b} == {name, row.at})
    return deep, APART


def above_beam(site: Site, row: Row) -> Pair:
    top = max(float(z) for _, z in profile(site, row.part)) - site.top(row.at)
    return max(top, 0.0), CUT_OFF


AUDIT = {"platform.place": place, "brace.place": brace_place, "brace.above_beam": above_beam}
