"""Crossed rods in place: which head of a post each rod holds, and what it holds that head against."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from bolewright.platform.analysis.embedded import embedded_depth
from bolewright.platform.analysis.post_values import post_timber
from bolewright.platform.layout.layout import trunk_radius
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import Layout, LayoutError
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import CrossedRods, Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section
from bolewright.units import feet_inches

STEEPEST = 2.0  # rise over run beyond which a rod holds little laterally for what it lifts; judgement
LEAST_RISE = 12.0  # in between a rod's ends


@dataclass(frozen=True)
class Rod:
    """One of two crossed rods, by the post at its head.

    ``sense`` is 1 for the rod that is stretched when the platform moves from the first post to the second, -1 for the
    other. ``L`` level distance of the posts, ``c`` height of its upper end above grade, ``z`` of its lower (in). It
    pulls at the foot of the post ``other``.
    """

    rods: CrossedRods
    head: Support
    other: Support
    sense: int
    u: Vector
    L: float
    c: float
    z: float
    section: Section
    values: DesignValues
    factors: Factors
    base: str
    depth: float

    @property
    def b(self) -> float:
        """Height of its upper end above the lower (in)."""
        return self.c - self.z

    @property
    def I(self) -> float:  # noqa: E743
        """Least second moment of the other post (in⁴)."""
        b, d = sorted((self.section.b, self.section.d))
        return d * b**3 / 12


@dataclass(frozen=True)
class Crossed:
    """Two crossed rods in place: the one at the head of the first post, and that at the head of the second."""

    rods: CrossedRods
    u: Vector
    middle: Vector
    pair: tuple[Rod, Rod]


def find_crossed(path: LoadPath) -> tuple[Crossed, ...]:
    """All crossed rods. Raises :class:`LayoutError` for rods that cannot stand where they are put."""
    return tuple(_crossed(path, rods) for rods in path.layout.project.crossed_rods)


def _crossed(path: LoadPath, rods: CrossedRods) -> Crossed:
    layout = path.layout
    one, two = (next(s for s in layout.supports if s.mark == m) for m in (rods.from_post, rods.to_post))
    L = math.dist(one.at, two.at)
    u = ((two.at[0] - one.at[0]) / L, (two.at[1] - one.at[1]) / L)
    _clear(layout, rods, one, two)
    for end in (one, two):
        rise = layout.seat_level(end.mark) - rods.below_beam - rods.above_grade
        if rise < LEAST_RISE:
            raise LayoutError(
                f"{rods.mark} rises {feet_inches(rise)} at post {end.mark}: with below_beam and above_grade at least "
                f"{feet_inches(LEAST_RISE)} must be left between the ends of a rod."
            )
        if rise > STEEPEST * L:
            raise LayoutError(
                f"{rods.mark} rises {feet_inches(rise)} over {feet_inches(L)} from {one.mark} to {two.mark}: a rod "
                f"that rises more than {STEEPEST:g} times its run lifts more than it holds; take posts farther apart."
            )
    middle = ((one.at[0] + two.at[0]) / 2, (one.at[1] + two.at[1]) / 2)
    return Crossed(
        rods, u, middle, (_rod(path, rods, one, two, -1, u, L), _rod(path, rods, two, one, 1, u, L))
    )


def _rod(
    path: LoadPath, rods: CrossedRods, head: Support, other: Support, sense: int, u: Vector, L: float
) -> Rod:
    project = path.layout.project
    post = project.posts[other.post or ""]
    section, values = post_timber(path, other)
    return Rod(
        rods=rods,
        head=head,
        other=other,
        sense=sense,
        u=u,
        L=L,
        c=path.layout.seat_level(head.mark) - rods.below_beam,
        z=rods.above_grade,
        section=section,
        values=values,
        factors=factors(values, Service(wet=post.wet, incised=post.counts_incised)),
        base=post.base,
        depth=embedded_depth(project.footings[other.footing or ""]),
    )


def _clear(layout: Layout, rods: CrossedRods, one: Support, two: Support) -> None:
    """LayoutError for rods that run into a trunk, or into a post between theirs."""
    line = Line.between(one.at, two.at)
    for tree in layout.project.trees:
        into = trunk_radius(tree) + rods.diameter / 2 - line.distance(tree.at)
        if into > 0:
            raise LayoutError(
                f"{rods.mark} runs {feet_inches(into)} into the trunk of {tree.mark}: brace between two other posts."
            )
    for support in _posts_between(layout, rods):
        if line.distance(support.at) < 6.0:
            raise LayoutError(
                f"{rods.mark} runs past post {support.mark}, which stands between {one.mark} and {two.mark}: end it "
                "there."
            )


def _posts_between(layout: Layout, rods: CrossedRods) -> Iterator[Support]:
    for support in layout.supports:
        if support.kind == SupportKind.POST and support.mark not in (rods.from_post, rods.to_post):
            yield support


def rods_at(crossed: tuple[Crossed, ...], mark: str) -> list[Rod]:
    """Rods whose heads are at a post."""
    return [rod for pair in crossed for rod in pair.pair if rod.head.mark == mark]


def moved_towards(crossed: tuple[Crossed, ...], movement: np.ndarray) -> dict[str, np.ndarray]:
    """Which way the platform moves at each pair of rods: 1 from its first post to its second, else -1, by mark."""
    found = {}
    for pair in crossed:
        (x, y), (ux, uy) = pair.middle, pair.u
        along = ux * (movement[0] - movement[2] * y) + uy * (movement[1] + movement[2] * x)
        found[pair.rods.mark] = np.where(along >= 0, 1, -1)
    return found
