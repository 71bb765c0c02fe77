"""Supports as lateral frames: posts with and without knees or crossed rods, and bolts tied to a trunk.

Each support has two directions at a right angle: a post along and across the beam on it, a tree bolt along
and across itself. Their stiffness is :mod:`bolewright.platform.analysis.lateral_stiffness`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from bolewright.platform.analysis.bolts import BoltInPlace, bolt_in_place
from bolewright.platform.analysis.crossed import Crossed, Rod, rods_at
from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.analysis.knees import BraceReactions, Knee
from bolewright.platform.analysis.post_values import post_timber
from bolewright.platform.layout.brace_bolts import BraceBolts, brace_bolts
from bolewright.platform.layout.parts import LayoutError
from bolewright.platform.layout.tees import Tee, stands_alone, tee_of
from bolewright.platform.layout.trunk_braces import TrunkBrace, trunk_brace
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Post, Support, Tree
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section
from bolewright.tree.embedment import DEFAULT_KAPPA, PLAUSIBLE_KAPPA
from bolewright.tree.species import TrunkWood

MEET = 0.1  # sine: beams on one post whose directions differ by more hold each other upright
SQUARE = 0.985  # sine: knees in two directions of a post stand square to each other, within 10 degrees


class Foot(StrEnum):
    """How the feet of posts are taken.

    In ground that gives, a knee-braced post is hinged at grade and a post without knees half as stiff.
    """

    HELD = "fixed base"
    GIVES = "base on elastic soil"


class Bed(StrEnum):
    """How stiff tree bolts are taken across themselves: at one end of what is plausible for the wood, or in its middle.

    What a bolt takes of the lateral load rises with it. ``ANY`` where no bolt holds the platform that way.
    """

    ANY = ""
    MIDDLE = "tree bolts of middling stiffness"
    STIFF = "tree bolts at their stiffest"
    SOFT = "tree bolts at their softest"

    @property
    def kappa(self) -> float:
        """E over the foundation modulus."""
        return {Bed.STIFF: PLAUSIBLE_KAPPA[0], Bed.SOFT: PLAUSIBLE_KAPPA[1]}.get(self, DEFAULT_KAPPA)


@dataclass(frozen=True)
class KneeMoved:
    """One knee while the deck moves along its beam, and all posts under this with it.

    ``force`` compression in it as that moves an inch against its lean (lb/in); ``give`` how far the beam deflects at it
    from a pound in it, with what comes to the other knees of the beam at the same time (in/lb); ``share`` its part of
    the lateral force of its post's knees.
    """

    force: float
    give: float
    share: float


@dataclass(frozen=True)
class PostAxis:
    """One direction of a post: its knees (none: a cantilever), rise and run, what moving it does to them; or its rod.

    ``moved`` is that by knee, with bases hinged and with those that are fixed held. ``rod`` is the crossed rod at its
    head, pulled while the post moves along that direction or against it.
    """

    knees: tuple[Knee, ...]
    a: float = 0.0
    r: float = 0.0
    moved: tuple[tuple[KneeMoved, ...], tuple[KneeMoved, ...]] = ((), ())
    rod: Rod | None = None

    @property
    def n(self) -> int:
        """How many knees."""
        return len(self.knees)

    def when_moved(self, foot: Foot) -> tuple[KneeMoved, ...]:
        """What moving it does to its knees, with the bases taken one way."""
        return self.moved[foot is Foot.HELD]


@dataclass(frozen=True)
class PostFrame:
    """A post as a lateral support; ``u`` is the direction of the beam on it, ``depth`` that beam's depth.

    Across the beam the lateral force comes in at the beam's top: the ties that keep it from rotating bend the
    post. Along it the beam itself takes that moment; but in a T-frame (``tee``) its two knees bring it into the
    post, which stands as a cantilever: they stiffen nothing below themselves, and ``axes`` do not count them.
    ``depth`` is 0 where beams in two directions meet on the post.
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
        """Height above the post's top at which lateral force comes in, in one direction (in)."""
        if which == 0 and self.tee is None:
            return 0.0
        return 0.0 if self.axes[which].n else self.depth

    @property
    def braced(self) -> bool:
        """Whether it has a knee."""
        return self.tee is not None or any(axis.n for axis in self.axes)

    @property
    def has_rods(self) -> bool:
        """Whether it has a crossed rod."""
        return any(axis.rod for axis in self.axes)

    @property
    def bolts(self) -> tuple[BraceBolts, ...]:
        """Bolts of its lapped knees."""
        own = tuple(knee.bolts for axis in self.axes for knee in axis.knees if knee.bolts)
        return own + self.tee_bolts


@dataclass(frozen=True)
class BoltFrame:
    """A tree bolt as a lateral support; ``braces`` are the knee braces that stand on it, where no beam does."""

    placed: BoltInPlace
    tree: Tree
    wood: TrunkWood
    level: float
    others: int
    braces: tuple[TrunkBrace, ...] = ()

    @property
    def support(self) -> Support:
        """The support."""
        return self.placed.support

    @property
    def u(self) -> tuple[float, float]:
        """Direction along the bolt, outward from the trunk."""
        return self.placed.u


@dataclass(frozen=True)
class BraceFrame:
    """The head of a knee brace from a trunk: hinged at both ends, it holds its beam up and nothing laterally."""

    brace: TrunkBrace

    @property
    def support(self) -> Support:
        """The support."""
        return self.brace.support

    @property
    def u(self) -> tuple[float, float]:
        """Direction of its beam."""
        return self.brace.beam.line.u

    @property
    def level(self) -> float:
        """Level of the beam's underside (in above grade)."""
        return self.brace.beam.bottom


LateralFrame = PostFrame | BoltFrame | BraceFrame


def is_foot(frame: LateralFrame) -> bool:
    """Whether it is a tree bolt that knee braces stand on, with no beam of its own."""
    return isinstance(frame, BoltFrame) and bool(frame.braces)


def axes_of(frame: LateralFrame) -> Array:
    """The two unit directions of a support, as rows."""
    x, y = frame.u
    return np.array([(x, y), (-y, x)])


# ---------------------------------------------------------------------------------------------------------
# Posts


def post_frame(
    path: LoadPath,
    support: Support,
    brace_reactions: dict[str, BraceReactions],
    crossed: tuple[Crossed, ...] = (),
) -> PostFrame:
    """A post with its knees and rods. Raises :class:`LayoutError` where these do not fit one another."""
    beam = path.layout.on_support(support.mark)[0][0]
    knees = [k for found in brace_reactions.values() for k in found.knees if k.brace.support == support.mark]
    u = knees[0].beam.line.u if knees else beam.line.u
    along = tuple(k for k in knees if k.beam.mark == (knees[0].beam.mark))
    across = tuple(k for k in knees if k not in along)
    for knee in across:
        if abs(u[0] * knee.beam.line.u[1] - u[1] * knee.beam.line.u[0]) < SQUARE:
            raise LayoutError(
                f"Brace {knee.brace.mark} and {along[0].brace.mark} on post {support.mark} do not stand square to each "
                "other: give this post knees in one direction only."
            )
    post = path.layout.project.posts[support.post or ""]
    section, values = post_timber(path, support)
    tee = tee_of(path.layout.project, beam) if stands_alone(beam) else None
    axes = (_post_axis(support, along), _post_axis(support, across))
    rods = rods_at(crossed, support.mark)
    if tee and rods:
        raise LayoutError(
            f"{rods[0].rods.mark} ends at post {support.mark}, on which beam {beam.mark} stands alone: crossed rods "
            "are not calculated there; give that beam a second post."
        )
    for rod in rods:
        axes = _with_rod(axes, rod, u)
    return PostFrame(
        support=support,
        post=post,
        section=section,
        values=values,
        factors=factors(values, Service(wet=post.wet, incised=post.counts_incised)),
        h=path.layout.seat_level(support.mark),
        depth=0.0 if _upright(path, support) else beam.section.d,
        u=u,
        axes=axes,
        tee=tee,
        tee_bolts=tuple(b for knee in (tee.knees if tee else ()) if (b := brace_bolts(path.layout, knee))),
    )


def _upright(path: LoadPath, support: Support) -> bool:
    """Whether beams in two directions meet on a post: each keeps the other from rotating, and none bends the post."""
    lines = [beam.line for beam, _ in path.layout.on_support(support.mark)]
    return any(line.sine(lines[0]) > MEET for line in lines)


def _post_axis(support: Support, knees: tuple[Knee, ...]) -> PostAxis:
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
    return PostAxis(knees, first.rise, first.run)


def _with_rod(axes: tuple[PostAxis, PostAxis], rod: Rod, u: tuple[float, float]) -> tuple[PostAxis, PostAxis]:
    """The directions of a post whose first is ``u``, with a rod in the one that it lies in."""
    mark, post = rod.rods.mark, rod.head.mark
    along = abs(u[0] * rod.u[0] + u[1] * rod.u[1])
    across = abs(u[0] * rod.u[1] - u[1] * rod.u[0])
    if max(along, across) < SQUARE:
        raise LayoutError(
            f"{mark} runs aslant at post {post}: crossed rods stand square to the beam on their posts or along it, "
            "within 10 degrees."
        )
    which = 0 if along > across else 1
    if axes[which].n:
        raise LayoutError(
            f"{mark} runs the same way as knee brace {axes[which].knees[0].brace.mark} at post {post}: give this post "
            "one of them in each direction."
        )
    if (other := axes[which].rod) is not None:
        raise LayoutError(
            f"{mark} and {other.rods.mark} both end at post {post} in one direction: brace every second bay."
        )
    changed = replace(axes[which], rod=rod)
    return (changed, axes[1]) if which == 0 else (axes[0], changed)


def bolt_frame(path: LoadPath, support: Support) -> BoltFrame:
    """A tree bolt with its trunk, and how many bolts share the trunk."""
    placed = bolt_in_place(path, support)
    others = [s for s in path.layout.supports if s.tree == support.tree and any(held_ways(s.lateral))]
    level = path.layout.seat_level(support.mark)
    braces = tuple(trunk_brace(path.layout, s) for s in path.layout.braces_on(support.mark))
    return BoltFrame(placed, placed.tree, placed.wood, level, max(1, len(others)), braces)


def level_frame(
    path: LoadPath,
    support: Support,
    brace_reactions: dict[str, BraceReactions],
    crossed: tuple[Crossed, ...] = (),
) -> LateralFrame:
    """Any support as a lateral frame."""
    if support.kind == SupportKind.POST:
        return post_frame(path, support, brace_reactions, crossed)
    if support.kind == SupportKind.KNEE_BRACE:
        return BraceFrame(trunk_brace(path.layout, support))
    return bolt_frame(path, support)
