"""Sizes and weights of a guard's pieces: lengths of posts and rails, number of balusters, weight of it all."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from bolewright.platform.layout.guards import GuardPost, GuardRun, below_deck, edge_name, height_of
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.wood_weight import timber_density
from bolewright.platform.project import Guard
from bolewright.timber.sections import parse_section


@dataclass(frozen=True)
class GuardPiece:
    """One kind of piece of a guard on one edge: what it is, its size, length (in) and how many; of what marks."""

    what: str
    section: str
    length: float
    count: int
    marks: tuple[str, ...]


def post_length(layout: Layout, post: GuardPost) -> float:
    """From the cap down to the underside of what it stands against (in)."""
    cap = parse_section(post.guard.cap).b
    return height_of(layout.project) - cap + below_deck(layout, post) + (post.depth or 7.25)


def stretches_of(run: GuardRun) -> list[tuple[float, float]]:
    """What lies clear between the posts of a guard along an edge, and past the outer ones: from its start (in)."""
    half = parse_section(run.guard.section).b / 2
    at = [post.along - run.start for post in run.posts]
    if not at:
        return []
    ends = [
        (0.0, at[0] - half),
        *((a + half, b - half) for a, b in pairwise(at)),
        (at[-1] + half, run.line.length),
    ]
    return [(low, high) for low, high in ends if high > low]


def baluster_places(guard: Guard, low: float, high: float) -> list[float]:
    """Middles of the balusters in a clear stretch (in), evenly: no gap is wider than the file's.

    >>> from bolewright.platform.project import Guard
    >>> baluster_places(Guard(mark="G", edges=(1,), species="Southern Pine", grade="No.2"), 0.0, 14.25)
    [4.5, 9.75]
    """
    b = parse_section(guard.baluster).b
    count = max(0, math.ceil((high - low - guard.gap) / (b + guard.gap) - 1e-9))
    gap = (high - low - count * b) / (count + 1)
    return [low + gap + b / 2 + k * (gap + b) for k in range(count)]


def baluster_count(guard: Guard, run: GuardRun) -> int:
    """Balusters along an edge: no gap between them, or beside a post, is wider than the file's."""
    return sum(len(baluster_places(guard, low, high)) for low, high in stretches_of(run))


def pieces_of_run(layout: Layout, run: GuardRun) -> tuple[GuardPiece, ...]:
    """All pieces of a guard along one edge."""
    guard = run.guard
    name = edge_name(run)
    found = [
        GuardPiece("guard post", guard.section, post_length(layout, post), 1, (post.mark,))
        for post in run.posts
    ]
    found += [
        GuardPiece("guard cap", guard.cap, run.line.length, 1, (name,)),
        GuardPiece("guard rail", guard.top_rail, run.line.length, 1, (name,)),
        GuardPiece("guard rail", guard.bottom_rail, run.line.length, 1, (name,)),
    ]
    if guard.infill == "balusters" and run.posts:
        top, bottom = parse_section(guard.top_rail), parse_section(guard.bottom_rail)
        # balusters run over the faces of both rails
        length = height_of(layout.project) - parse_section(guard.cap).b - guard.bottom_gap
        found.append(
            GuardPiece(
                "baluster", guard.baluster, max(length, top.d + bottom.d), baluster_count(guard, run), (name,)
            )
        )
    return tuple(found)


def weight_of_run(layout: Layout, run: GuardRun) -> float:
    """Weight of the timber of a guard along one edge (lb); infill that is no wood as 2 psf (common practice)."""
    guard = run.guard
    rho = timber_density(guard.values(parse_section(guard.section)), guard.wet)
    total = 0.0
    for piece in pieces_of_run(layout, run):
        section = parse_section(piece.section)
        total += rho * section.b * section.d * piece.length * piece.count / 1728
    if guard.infill != "balusters":
        total += 2.0 * run.line.length * height_of(layout.project) / 144
    return total
