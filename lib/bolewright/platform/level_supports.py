"""Supports as level frames: posts with and without knees, and bolts tied to a stem.

Each support has two directions at a right angle: a post along and across the carrier on it, a tree bolt along
and across itself. Their stiffness is :mod:`bolewright.platform.level_stiffness`.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from bolewright.platform.bolts import BoltInPlace, bolt_in_place
from bolewright.platform.brace_bolts import BraceBolts, brace_bolts
from bolewright.platform.checks.posts import post_timber
from bolewright.platform.combine import Array
from bolewright.platform.knees import Kicks, Knee
from bolewright.platform.load_path import LoadPath
from bolewright.platform.parts import LayoutError
from bolewright.platform.project import Post, Support, Tree
from bolewright.platform.tees import Tee, stands_alone, tee_of
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section
from bolewright.tree.species import StemWood

MEET = 0.1  # sine: carriers on one post whose directions differ by more hold each other upright
SQUARE = 0.985  # sine: knees in two directions of a post stand square to each other, within 10 degrees


class Foot(StrEnum):
    """How the feet of posts are taken.

    In ground that gives, a knee-braced post is hinged at grade and a post without knees half as stiff.
    """

    HELD = "feet held in the ground"
    GIVES = "feet that give in the ground"


@dataclass(frozen=True)
class PostAxis:
    """One direction of a post: its knees (none: a cantilever), rise and run, and the carrier's stiffness.

    ``k_v`` is the carrier's stiffness against the post's knees while all knees under it kick alike.
    """

    knees: tuple[Knee, ...]
    a: float = 0.0
    r: float = 0.0
    k_v: float = 0.0

    @property
    def n(self) -> int:
        """How many knees."""
        return len(self.knees)


@dataclass(frozen=True)
class PostFrame:
    """A post as a level support; ``u`` is the direction of the carrier on it, ``depth`` that carrier's depth.

    Across the carrier the level force comes in at the carrier's top: the ties that keep it from rolling bend the
    post. Along it the carrier itself takes that moment; but in a T-frame (``tee``) its two knees bring it into the
    post, which stands as a cantilever: they stiffen nothing below themselves, and ``axes`` do not count them.
    ``depth`` is 0 where carriers in two directions meet on the post.
    """

    support: Support
    post: Post
    section: Section
    values: DesignValues
    factors: Factors
    h: float
    depth: float
    u: tuple[float, float]
    axes: tuple[PostAxis, PostAxis]
    tee: Tee | None = None
    tee_bolts: tuple[BraceBolts, ...] = ()

    @property
    def I(self) -> float:  # noqa: E743
        """Least second moment of the section (in⁴), taken for both directions."""
        b, d = sorted((self.section.b, self.section.d))
        return d * b**3 / 12

    @property
    def S(self) -> float:
        """Least section modulus (in³), taken for both directions."""
        b, d = sorted((self.section.b, self.section.d))
        return d * b**2 / 6

    def arm(self, which: int) -> float:
        """Height above the post's top at which level force comes in, in one direction (in)."""
        if which == 0 and self.tee is None:
            return 0.0
        return 0.0 if self.axes[which].n else self.depth

    @property
    def braced(self) -> bool:
        """Whether it has a knee."""
        return self.tee is not None or any(axis.n for axis in self.axes)

    @property
    def bolts(self) -> tuple[BraceBolts, ...]:
        """Bolts of its lapped knees."""
        own = tuple(knee.bolts for axis in self.axes for knee in axis.knees if knee.bolts)
        return own + self.tee_bolts


@dataclass(frozen=True)
class BoltFrame:
    """A tree bolt as a level support."""

    placed: BoltInPlace
    tree: Tree
    wood: StemWood
    level: float
    others: int

    @property
    def support(self) -> Support:
        """The support."""
        return self.placed.support

    @property
    def u(self) -> tuple[float, float]:
        """Direction along the bolt, outward from the stem."""
        return self.placed.u


LevelFrame = PostFrame | BoltFrame


def axes_of(frame: LevelFrame) -> Array:
    """The two unit directions of a support, as rows."""
    x, y = frame.u
    return np.array([(x, y), (-y, x)])


# ---------------------------------------------------------------------------------------------------------
# Posts


def post_frame(path: LoadPath, support: Support, kicks: dict[str, Kicks]) -> PostFrame:
    """A post with its knees. Raises :class:`LayoutError` where its knees do not fit one another."""
    carrier = path.layout.on_support(support.mark)[0][0]
    knees = [k for found in kicks.values() for k in found.knees if k.brace.support == support.mark]
    u = knees[0].carrier.line.u if knees else carrier.line.u
    along = tuple(k for k in knees if k.carrier.mark == (knees[0].carrier.mark))
    across = tuple(k for k in knees if k not in along)
    for knee in across:
        if abs(u[0] * knee.carrier.line.u[1] - u[1] * knee.carrier.line.u[0]) < SQUARE:
            raise LayoutError(
                f"Brace {knee.brace.mark} and {along[0].brace.mark} on post {support.mark} do not stand square to each "
                "other: give this post knees in one direction only."
            )
    post = path.layout.project.posts[support.post or ""]
    section, values = post_timber(path, support)
    tee = tee_of(path.layout.project, carrier) if stands_alone(carrier) else None
    return PostFrame(
        support=support,
        post=post,
        section=section,
        values=values,
        factors=factors(values, Service(wet=post.wet, incised=post.counts_incised)),
        h=path.layout.seat_level(support.mark),
        depth=0.0 if _upright(path, support) else carrier.section.d,
        u=u,
        axes=(_post_axis(support, along, kicks), _post_axis(support, across, kicks)),
        tee=tee,
        tee_bolts=tuple(b for knee in (tee.knees if tee else ()) if (b := brace_bolts(path.layout, knee))),
    )


def _upright(path: LoadPath, support: Support) -> bool:
    """Whether carriers in two directions meet on a post: each keeps the other from rolling, and none bends the post."""
    lines = [carrier.line for carrier, _ in path.layout.on_support(support.mark)]
    return any(line.sine(lines[0]) > MEET for line in lines)


def _post_axis(support: Support, knees: tuple[Knee, ...], kicks: dict[str, Kicks]) -> PostAxis:
    if not knees:
        return PostAxis(())
    first = knees[0].brace
    if any((k.brace.rise, k.brace.run) != (first.rise, first.run) for k in knees):
        raise LayoutError(
            f"The knees of post {support.mark} differ in rise or run: give both sides of the post the same."
        )
    if len({k.side for k in knees}) != len(knees):
        raise LayoutError(
            f"Post {support.mark} has two knees on one side: give one, with two plies if need be."
        )
    found = kicks[knees[0].carrier.mark]
    own = [found.knees.index(k) for k in knees]
    signs = np.array([k.side for k in found.knees])
    give = float(signs[own] @ found.sag[own] @ signs)
    return PostAxis(knees, first.rise, first.run, 1 / max(give, 1e-12))


def bolt_frame(path: LoadPath, support: Support) -> BoltFrame:
    """A tree bolt with its stem, and how many bolts share the stem."""
    placed = bolt_in_place(path, support)
    others = [s for s in path.layout.supports if s.tree == support.tree and s.sideways in ("tied", "slides")]
    level = path.layout.seat_level(support.mark)
    return BoltFrame(placed, placed.tree, placed.wood, level, max(1, len(others)))
