"""As built: the project with what was really built, its checks again, and how much each slip of the day matters."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from bolewright.platform.layout.layout import Layout, LayoutError, Vector
from bolewright.platform.layout.parts import CLOSE
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import AsBuilt, Bolt, Footing, Post, Project, Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results, find_results
from bolewright.setting_out.plan import base_line, posts_of
from bolewright.setting_out.trunk import bearing_at, bolt_marks
from bolewright.status import Status
from bolewright.timber.material import MaterialError
from bolewright.timber.sections import SectionError, parse_section
from bolewright.units import feet_inches

SLIP_POST = 1.0  # in: how far out a post may stand (common practice for a hole dug by hand)
SEEN = 0.005  # change of a ratio that is told: half of what is printed
SLIP_BOLT = 0.5  # in: how far out or in a collar may stand


@dataclass(frozen=True)
class Changed:
    """A check before and after; either is None where the check is not made there."""

    before: Check | None
    after: Check | None

    @property
    def check(self) -> Check:
        """The check after, or before where there is none after."""
        found = self.after or self.before
        assert found is not None
        return found

    @property
    def rise(self) -> float:
        """By how much the ratio rose; 0 where one of the two has no ratio."""
        if self.before is None or self.after is None:
            return 0.0
        rise = self.after.severity - self.before.severity
        return rise if math.isfinite(rise) else 0.0

    @property
    def matters(self) -> bool:
        """Whether status or printed ratio differ."""
        if self.before is None or self.after is None:
            return True
        return self.before.status is not self.after.status or abs(self.rise) >= SEEN

    @property
    def lost(self) -> bool:
        """Whether the check holds no more."""
        held = self.before is None or self.before.status is Status.PASSES
        return held and (self.after is None or self.after.status is not Status.PASSES)


@dataclass(frozen=True)
class Outcome:
    """A platform with a slip: what slipped, the checks that changed, worst first, or why it cannot stand."""

    what: str
    changed: tuple[Changed, ...]
    fault: str = ""

    @property
    def lost(self) -> tuple[Changed, ...]:
        """Checks that held before and hold no more."""
        return tuple(change for change in self.changed if change.lost)

    @property
    def worst(self) -> Changed | None:
        """The change with the highest ratio after, among those that rose; None when nothing rose."""
        rose = [c for c in self.changed if c.rise >= SEEN]
        return max(rose, key=lambda c: c.check.ratio, default=None)


@dataclass
class _Kinds:
    """Kinds of bolt, post and footing, with new ones for parts that came out different."""

    bolts: dict[str, Bolt]
    posts: dict[str, Post]
    footings: dict[str, Footing]


def built_project(layout: Layout) -> Project:
    """The project with supports where they stand, bolts as deep as they reached, and holes as deep as they are.

    A post that stands off the beam's line gets its load that much off centre. A timber of another depth or width
    than planned keeps the level of its top: it is shimmed or notched at its seats. Levels change shims and cuts, not
    the checks.
    """
    project = layout.project
    entries = {entry.mark: entry for entry in project.as_built}
    kinds = _Kinds(dict(project.bolts), dict(project.posts), dict(project.footings))
    supports = tuple(
        _built(layout, support, entries[support.mark], kinds) if support.mark in entries else support
        for support in project.supports
    )
    return _with(project.with_measured_timbers(), supports, kinds)


def _with(project: Project, supports: tuple[Support, ...], kinds: _Kinds) -> Project:
    update = {"supports": supports, "bolts": kinds.bolts, "posts": kinds.posts, "footings": kinds.footings}
    return project.model_copy(update=update)


def _built(layout: Layout, support: Support, entry: AsBuilt, kinds: _Kinds) -> Support:
    if entry.at is not None:
        support = _stands(support, entry.at)
    if entry.projection is not None:
        tree = next(t for t in layout.project.trees if t.mark == support.tree)
        support = _stands(support, bearing_at(support, tree, entry.projection))
    if entry.embedment is not None and support.bolt is not None:
        name = f"{support.bolt} in {support.mark}"
        kinds.bolts[name] = kinds.bolts[support.bolt].model_copy(update={"embedment": entry.embedment})
        support = support.model_copy(update={"bolt": name})
    if entry.hole is not None and support.footing is not None:
        name = f"{support.footing} at {support.mark}"
        kinds.footings[name] = kinds.footings[support.footing].model_copy(update={"depth": entry.hole})
        support = support.model_copy(update={"footing": name})
    if (entry.depth is not None or entry.width is not None) and support.post is not None:
        name = f"{support.post} at {support.mark}"
        kinds.posts[name] = _measured(kinds.posts[support.post], entry)
        support = support.model_copy(update={"post": name})
    return support


def _measured(post: Post, entry: AsBuilt) -> Post:
    """A post of the size that was measured, which takes the size class that gives the lower value."""
    planned = parse_section(post.section)
    width = planned.b if entry.width is None else entry.width
    depth = planned.d if entry.depth is None else entry.depth
    return post.model_copy(
        update={"section": f"{width:.4f}x{depth:.4f} in"}
    )  # as many digits as a section takes


def _stands(support: Support, at: Vector) -> Support:
    """The support at another place: the checks count what it then stands off the beam."""
    return support.model_copy(update={"at": at})


def as_built(results: Results) -> Outcome | None:
    """The checks again, with what was built; None where nothing that changes them has been entered."""
    built = built_project(results.path.layout)
    if built == results.project:
        return None
    marks = ", ".join(entry.mark for entry in results.project.as_built)
    return _outcome(f"as built at {marks}", results, built)


def _outcome(what: str, results: Results, project: Project) -> Outcome:
    try:
        after = find_results(project)
    except LayoutError as error:
        return Outcome(what, (), " ".join(_off_their_beams(results.path.layout, project)) or str(error))
    except (SectionError, MaterialError) as error:  # a timber so thin that no table has it
        return Outcome(what, (), f"{error}.")
    return Outcome(what, compared(results.checks, after.checks))


def _off_their_beams(layout: Layout, project: Project) -> Iterator[str]:
    """What a builder can do about supports that stand too far off their beams, by where they really stand."""
    at = {support.mark: support.at for support in project.supports}
    for support in layout.supports:
        for beam, _ in layout.on_support(support.mark):
            off = beam.line.distance(at[support.mark])
            if at[support.mark] != support.at and off > CLOSE:
                again = (
                    "drill another hole" if support.kind is SupportKind.TREE_BOLT else "set the post again"
                )
                yield (
                    f"{support.mark} stands {feet_inches(off)} off the middle line of {beam.mark}, and a beam is "
                    f"calculated on what stands {feet_inches(CLOSE)} off it at most: set {beam.mark} over it and "
                    f"change the file to that, or {again}."
                )


def compared(before: Iterable[Check], after: Iterable[Check]) -> tuple[Changed, ...]:
    """Checks whose status or ratio differs, those lost first, then by falling ratio."""
    old = {(c.part, c.limit_state): c for c in before}
    new = {(c.part, c.limit_state): c for c in after}
    changes = [Changed(old.get(key), new.get(key)) for key in dict.fromkeys([*old, *new])]
    told = [c for c in changes if c.matters]
    return tuple(sorted(told, key=lambda c: (not c.lost, -c.check.severity)))


# ---------------------------------------------------------------------------------------------------------
# What if


def slips(results: Results) -> Iterator[Outcome]:
    """What each slip of the day does to the checks: a post out by 1 in. each way, a collar by 1/2 in. out or in.

    One after the other, as each holds the checks of a whole platform.
    """
    layout = results.path.layout
    base = base_line(layout)
    u = base.line.u
    ways = (
        (f"towards {base.b}", u),
        (f"towards {base.a}", (-u[0], -u[1])),
        ("farther from the base line", (-u[1], u[0])),
        ("nearer to the base line", (u[1], -u[0])),
    )
    for post in posts_of(layout):
        for words, (x, y) in ways:
            at = (post.at[0] + SLIP_POST * x, post.at[1] + SLIP_POST * y)
            yield _moved(results, post, at, f"{post.mark} 1 in. {words}")
    for support in layout.supports:
        if support.kind == SupportKind.TREE_BOLT:
            yield from _collar_slips(layout, results, support)


def _collar_slips(layout: Layout, results: Results, support: Support) -> Iterator[Outcome]:
    tree = next(t for t in layout.project.trees if t.mark == support.tree)
    projection = next(bolt.projection for bolt in bolt_marks(layout) if bolt.mark == support.mark)
    for slip, words in ((SLIP_BOLT, "farther out"), (-SLIP_BOLT, "nearer the bark")):
        at = bearing_at(support, tree, projection + slip)
        yield _moved(results, support, at, f"{support.mark} 1/2 in. {words}")


def _moved(results: Results, support: Support, at: Vector, what: str) -> Outcome:
    project = results.project
    moved = _stands(support, at)
    supports = tuple(moved if s.mark == support.mark else s for s in project.supports)
    return _outcome(what, results, project.model_copy(update={"supports": supports}))
