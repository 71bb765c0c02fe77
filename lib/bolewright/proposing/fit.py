"""Sizes an arrangement by the checks themselves: what fails grows, ratings follow, then what can shrink does."""

from __future__ import annotations

import copy
import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any, Literal, Protocol

from bolewright.changes.trials import Stuff, tried_of
from bolewright.platform.checks.seismic import KEY as SEISMIC
from bolewright.platform.checks.seismic import settling_share
from bolewright.platform.file.reading import find_faults
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.limit_states import limit_state
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results
from bolewright.proposing.closing import closed
from bolewright.proposing.ground import Ground
from bolewright.proposing.parts import Data, Draft
from bolewright.proposing.ratings import Ratings, apply, at_hand, fitted, groups_of, resting_on
from bolewright.proposing.sizes import Limits, Sizes, stepped
from bolewright.proposing.skews import ask_for_skew
from bolewright.proposing.writing import Place
from bolewright.status import Status

# What may stay open in a proposal: no size of the file settles it.
LEFT_OPEN = frozenset({"platform.guard"})
FAULT = "tree.condition"
_ROUNDS = 14
_MORE = 1.02  # between two of the directions that are looked at sway is up to 0.5 % less, and posts may grow heavier
_RODS_COST = 15.0  # of a pair of crossed rods with turnbuckles and ends, as board feet; judgement
_ENOUGH = 20_000.0  # lb: what a higher rating does not settle wants something else
# The sizes that help a check, the likeliest first; the first key that fits the check's own counts.
_MOVES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("platform.drift", ("post",)),
    ("platform.p_delta", ("post", "depth")),
    ("platform.comparison", ("depth",)),
    ("decking.", ("spacing",)),
    ("joist.bearing", ("beam", "spacing")),
    ("joist.least_bearing", ("beam",)),
    ("joist.slenderness", ("spacing",)),
    ("joist.", ("joist", "spacing")),
    ("guard.framing_", ("joist",)),
    ("blocking.bearing", ("block",)),
    ("blocking.", ("joist", "block")),
    ("guard.weight", ("guard",)),
    ("beam.plies", ("trimmer_nails",)),
    ("beam.bending_of_ply", ("trimmer_nails", "beam")),
    ("beam.shear_at_bolts", ("beam",)),
    ("beam.row_tear_out", ("beam",)),
    ("trunk_brace.beam_tension", ("beam",)),
    ("trunk_brace.head_bolts", ("strut_bolts", "strut")),
    ("trunk_brace.foot_bolts", ("strut_bolts", "strut")),
    ("trunk_brace.clearance", ("gap",)),
    ("trunk_brace.", ("strut",)),
    ("tree_bolt.hole", ("-bolt",)),
    ("tree_bolt.tips", ("-embedment",)),
    ("tree_bolt.place", ("-bolt",)),
    ("tree_bolt.wood_pressure", ("embedment", "bolt")),
    ("tree_bolt.wood_yield", ("embedment", "bolt")),
    ("tree_bolt.withdrawal", ("embedment", "bolt")),
    ("tree_bolt.steel", ("bolt",)),
    ("tree_bolt.slot", ("slot",)),
    ("tree_bolt.contact_years", ("gap",)),
    ("tree_bolt.overgrown", ("gap",)),
    ("tree.clearance", ("gap",)),
    ("tree.trunk", ("-bolt",)),
    ("post.base", ("foot_bolts", "post")),
    ("post.foot", ("foot_bolts", "post")),
    ("crossed_rods.", ("rod",)),
    ("post.shear_at_bolts", ("post",)),
    ("post.", ("post",)),
    ("footing.frost", ("depth",)),
    ("footing.thickness", ("pad",)),
    ("footing.projection", ("pad",)),
    ("footing.concrete", ("pad",)),
    ("footing.embedment", ("depth", "width")),
    ("footing.soil_lateral", ("width", "depth")),
    ("footing.soil", ("width",)),
    ("footing.", ("depth", "width")),
)
# What wants both of its sizes at once where it fails by a good deal.
_BOTH = ("tree_bolt.wood_pressure", "tree_bolt.wood_yield")
# Nothing else helps these where their own sizes are at their end.
_STUCK = (
    *("beam.", "joist.", "tree.trunk", "platform.drift"),
    *("guard.", "gate.", "ladder.", "stairs.", "blocking.", "trunk_brace."),
)


class Arrangement(Protocol):
    """A way to carry the floor: it draws a project with given sizes."""

    @property
    def name(self) -> str: ...  # noqa: D102
    @property
    def key(self) -> str: ...  # noqa: D102
    @property
    def family(self) -> str: ...  # noqa: D102
    def start(self, ground: Ground) -> Sizes | None: ...  # noqa: D102
    def draw(self, ground: Ground, sizes: Sizes) -> Draft | None: ...  # noqa: D102
    def bolt_room(self, ground: Ground) -> tuple[float, float]: ...  # noqa: D102


class BudgetSpent(Exception):
    """No set of checks is left to be run."""


@dataclass
class Bench:
    """Runs sets of checks and counts them, so that the same requirements end at the same place everywhere."""

    budget: int
    count: int = 0
    say: Callable[[str], None] = lambda words: None
    find: Callable[[Any], Results] = find_results

    def run(self, data: Data) -> Results | tuple[str, ...]:
        """Results of a project's data, or sentences that say why it can't be used."""
        if self.count >= self.budget:
            raise BudgetSpent
        self.count += 1
        project, faults = find_faults(data)
        if project is None:
            return tuple(f"{'.'.join(map(str, f.where))}: {f.message}" for f in faults)
        try:
            if ask_for_skew(data, project):
                project = find_faults(data)[0] or project
            return self.find(project)
        except LayoutError as error:
            return tuple(error.sentences)


@dataclass(frozen=True)
class Fitted:
    """An arrangement at sizes with its ratings, and what its checks say."""

    arrangement: Arrangement
    sizes: Sizes
    ratings: Ratings
    draft: Draft
    results: Results
    stuff: Stuff
    stops: dict[Place, str] = field(default_factory=dict)
    """What stops the next smaller size, by its place in the file."""

    @property
    def cost(self) -> float:
        """Wood, concrete at six board feet a cubic foot, half a day's digging at 20 for each hole, rods (judgement)."""
        data = self.draft.data
        rods = _RODS_COST * len(data.get("crossed_rods", ()))
        return self.stuff.weight + 20.0 * len(data["support"]) + rods

    @property
    def is_open(self) -> bool:
        """Whether the guard is left open somewhere, or how one gets up."""
        guard = any(c.status is Status.NOT_CHECKED and c.key in LEFT_OPEN for c in self.results.checks)
        return guard or not {"ladder", "stairs"} & self.draft.data.keys()


@dataclass(frozen=True)
class Failed:
    """An arrangement that could not be made to pass: the checks that stopped it, or why it can't be drawn."""

    arrangement: Arrangement
    why: tuple[str, ...]
    keys: tuple[str, ...] = ()


def wanting(results: Results, *, faults: bool) -> list[Check]:
    """Checks that fail, and open ones that a proposal may not leave open."""
    return [
        c
        for c in results.checks
        if c.status is Status.FAILS
        or (c.status is Status.NOT_CHECKED and c.key not in LEFT_OPEN and not (faults and c.key == FAULT))
    ]


@dataclass
class Fit:
    """One arrangement on its way from its first sizes to ones that pass."""

    arrangement: Arrangement
    ground: Ground
    bench: Bench
    ratings: Ratings = field(default_factory=dict)
    fixed: Ratings = field(default_factory=dict)
    fresh: bool = True
    closing: Literal["", "guard", "guard and way up"] = ""
    """What the platform is drawn with beside what bears it."""

    @property
    def limits(self) -> Limits:
        """What can be had."""
        own = self.ground.needs.timber
        deep, both = self.arrangement.bolt_room(self.ground)
        return Limits(own.largest_post, own.largest_board, deep, both)

    def drawn(self, sizes: Sizes) -> Draft | None:
        """The draft at these sizes with the ratings as they are."""
        draft = self.arrangement.draw(self.ground, sizes)
        if draft is not None and self.closing:
            draft = closed(draft, self.ground.needs, sizes, way_up=self.closing != "guard")
        if draft is None:
            return None
        return self.with_ratings(draft)

    def with_ratings(self, draft: Draft) -> Draft:
        """A copy of a draft with the ratings as they are."""
        draft = copy.deepcopy(draft)
        self.fixed = at_hand(self.ground.needs.hardware, groups_of(draft.data))
        apply(draft.data, self.ratings, self.fixed)
        return draft

    def rated(self, check: Check, data: Data) -> bool:
        """Whether a check rests on ratings that can be raised."""
        groups, _ = resting_on(data, check)
        return bool(groups) and any(g not in self.fixed and self.ratings.get(g, 0) < _ENOUGH for g in groups)

    def split(self, draft: Draft, results: Results) -> tuple[list[Check], list[Check]]:
        """Checks that want larger sizes, and those that want ratings."""
        faults = any(t.fault for t in self.ground.needs.trees)
        wrong = wanting(results, faults=faults)
        on_ratings = [c for c in wrong if self.rated(c, draft.data)]
        return [c for c in wrong if c not in on_ratings], on_ratings

    def run(self, sizes: Sizes | None = None) -> Fitted | Failed:
        """Grow from the first sizes until all passes; BudgetSpent where the budget ends first."""
        sizes = sizes or self.arrangement.start(self.ground)
        if sizes is None:
            return Failed(self.arrangement, (f"no place for its posts{in_way(self.ground)}",), ("place",))
        why: tuple[str, ...] = ()
        keys: tuple[str, ...] = ()
        tried = set()
        for _ in range(_ROUNDS):
            tried.add(sizes)
            draft = self.drawn(sizes)
            if draft is None:
                return Failed(
                    self.arrangement,
                    (f"no place for its parts at the sizes it needs{in_way(self.ground)}",),
                    ("place",),
                )
            results = self.bench.run(draft.data)
            if not isinstance(results, Results):
                return Failed(self.arrangement, results, ("layout",))
            by_size, _ = self.split(draft, results)
            if not by_size:
                return self.settled(sizes, draft, results)
            why = tuple(
                f"{c.part}: {limit_state(c.key).at(c.at)} ({c.shown_ratio})" for c in worst_first(by_size)
            )
            keys = tuple(dict.fromkeys(c.key for c in worst_first(by_size)))
            grown = self.grown(sizes, by_size, results)
            if grown in tried:
                return Failed(self.arrangement, why, keys)
            sizes = grown
        return Failed(self.arrangement, why, keys)

    def grown(self, sizes: Sizes, wrong: list[Check], results: Results) -> Sizes:
        """Every failing check answered once: the first size that helps it and can still grow.

        The sizes as they are where one fails by much that nothing helps. Where an earthquake asks for more than wind
        and sway, the platform is checked for so much sway.
        """
        found = sizes
        if any(c.key == SEISMIC for c in wrong):
            found = replace(found, sway=max(sizes.sway, _up(_MORE * settling_share(results.lateral))))
        moved: set[str] = set()
        for check in worst_first(wrong):
            moves = next((names for key, names in _MOVES if check.key.startswith(key)), _beam_moves(check))
            if any(n.lstrip("-") in moved for n in moves):
                continue
            grew = False
            for move in moves:
                nxt = stepped(found, move.lstrip("-"), _steps(move, check.severity), self.limits)
                if nxt is None:
                    continue
                found, grew = nxt, True
                moved.add(move.lstrip("-"))
                if not (check.key.startswith(_BOTH) and check.severity > 1.25):
                    break
            if not grew and check.key.startswith(_STUCK) and check.severity > 1.2:
                return sizes
        return found

    def settled(self, sizes: Sizes, draft: Draft, results: Results, *, drawn: bool = True) -> Fitted | Failed:
        """Ratings set to what is required, two or three times over, until nothing fails.

        ``drawn``: anew at these sizes each time; else the draft itself with other ratings.
        """
        for turn in range(8):
            self.ratings = fitted(
                draft.data, results.checks, self.ratings, self.fixed, turn == 0 and self.fresh
            )
            self.fresh = False
            again = self.drawn(sizes) if drawn else self.with_ratings(draft)
            assert again is not None
            found = self.bench.run(again.data)
            if not isinstance(found, Results):
                return Failed(self.arrangement, found, ("layout",))
            draft, results = again, found
            by_size, on_ratings = self.split(draft, results)
            if by_size:
                why = tuple(f"{c.part}: {limit_state(c.key).at(c.at)} ({c.shown_ratio})" for c in by_size)
                return Failed(self.arrangement, why, tuple(dict.fromkeys(c.key for c in by_size)))
            if not on_ratings:
                return Fitted(
                    self.arrangement, sizes, dict(self.ratings), draft, results, tried_of(results).stuff
                )
        why = tuple(f"{c.part}: {limit_state(c.key).at(c.at)} ({c.shown_ratio})" for c in on_ratings)
        return Failed(self.arrangement, why, tuple(dict.fromkeys(c.key for c in on_ratings)))


def in_way(ground: Ground) -> str:
    """What keeps holes away under the floor, in words."""
    names = dict.fromkeys(z.why for z in ground.zones if z.shape.intersects(ground.polygon))
    return f"; holes are kept away by {', '.join(names)}" if names else ""


def _beam_moves(check: Check) -> tuple[str, ...]:
    """What helps a beam: its own size by the letter of its mark."""
    if not check.key.startswith("beam."):
        return ()
    return {"S": ("hung",), "D": ("hung",), "M": ("joist",), "H": ("joist",)}.get(check.part[:1], ("beam",))


def _up(share: float) -> float:
    """A share to the next whole percent."""
    return math.ceil(100 * share - 1e-9) / 100


def _steps(move: str, severity: float) -> int:
    """How many steps at once, by how much a check fails."""
    if move.startswith("-"):
        return -1
    if move == "embedment":
        return 4 if severity > 1.25 else 2 if severity > 1.1 else 1
    if move in ("gap", "slot", "width", "guard"):
        return 2 if severity > 1.15 else 1
    if move == "depth":
        return 1 + sum(severity > limit for limit in (1.15, 1.6, 2.2))
    return 1


def worst_first(checks: list[Check]) -> list[Check]:
    """Checks by falling ratio, open ones last."""
    return sorted(checks, key=lambda c: -c.severity)
