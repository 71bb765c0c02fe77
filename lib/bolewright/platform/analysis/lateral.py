"""The platform under lateral load: lateral loads shared by the supports through a stiff deck, and what that adds to
their loads.

Runs every case of :mod:`bolewright.platform.loads.lateral_loads` on the springs of
:mod:`bolewright.platform.analysis.lateral_supports`, once with the bases of the posts fixed and once in ground that
gives, each with joints that hold firm and joints that slip (:mod:`bolewright.platform.analysis.plan_give`).
Lateral forces enter tree bolts at the underside of what sits on them, but a post at the top of its beam: across it
the ties that keep the beam upright bend the post, along it the beam tips on its seats
(:mod:`bolewright.platform.analysis.tipping`). What their moment about these levels lacks is applied to the deck as a
straight-line pressure without a sum, and goes down through the load path; the brace reactions of the knees go down
through their beams. Of two crossed rods only the stretched one counts: every case is taken with the posts as stiff as
they are in the way in which the platform moves at each pair.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

import numpy as np

from bolewright.bracing.plan import (
    PlanSpring,
    all_rows,
    loose_direction,
    passed_on,
    plan_force,
    plan_movement,
    plan_stiffness,
)
from bolewright.bracing.tie import friction_force
from bolewright.calculation import Calculation
from bolewright.platform.analysis.brace_compression import Thrust, find_thrusts, with_feet
from bolewright.platform.analysis.crossed import Crossed, find_crossed, moved_towards
from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.analysis.knee_force import brace_reaction_loads, knee_forces
from bolewright.platform.analysis.knee_push import KneePush, find_knee_push, looked_at, more_on_post
from bolewright.platform.analysis.knee_shares import with_knees_moved
from bolewright.platform.analysis.knee_weight import (
    KneeInfluence,
    KneeWeight,
    find_knee_influence,
    find_knee_weight,
)
from bolewright.platform.analysis.knees import BraceReactions, Knee, find_brace_reactions, find_knees
from bolewright.platform.analysis.lateral_stiffness import (
    is_pulled,
    run_bolt_stiffness,
    spring_of_frame,
)
from bolewright.platform.analysis.lateral_supports import (
    Bed,
    BoltFrame,
    BraceFrame,
    Foot,
    LateralFrame,
    PostFrame,
    axes_of,
    level_frame,
)
from bolewright.platform.analysis.lateral_tees import TeeWeight, head_rows, run_lean, with_arms
from bolewright.platform.analysis.plan_give import Joints, plan_give
from bolewright.platform.analysis.rod_force import rod_forces, rod_loads
from bolewright.platform.analysis.tipping import Tipped, find_tipped
from bolewright.platform.analysis.trunk_sway import run_sway
from bolewright.platform.layout.influence import Influence
from bolewright.platform.loads.combine import Array, Envelope, envelope, member_envelope
from bolewright.platform.loads.lateral_loads import LateralCases, find_lateral_cases
from bolewright.platform.loads.lateral_wind import Winds, find_winds
from bolewright.platform.loads.load_path import LoadPath

TURNS = 8  # times at most that the cases are looked at again for which rods are stretched


@dataclass(frozen=True)
class State:
    """All cases with the feet, the joints and the wood at tree bolts taken one way.

    ``give`` how much less the seats on supports move than the deck from a pound at each (2 supports, 2 supports), and
    ``lag`` how much less they do (supports, 2, cases); ``movement`` of the plate (3, cases); ``ground`` movement of
    the trunk under each support, along its two directions (supports, 2, cases); ``force`` of the platform on each
    support in its two directions; ``push`` that of overturning on the deck through the knees at each post (supports, 2,
    cases), ``per_push`` force on every support from a pound of each such push (supports, 2, pushes), ``per_own`` what
    the posts push the deck with then, that pound and what its overturning adds; ``Q`` lateral
    force of the knees of each post in its two directions; ``turn`` the moment along x and y that the lateral forces
    leave to weight (2, cases); ``over``, ``brace_reaction`` and ``cap``
    what overturning and knees add to the load of each support, the knees at the foot of a post and at its cap
    (supports, cases), ``picked`` the part of these that knees take up of overturning (2, supports, cases); ``head``
    the moment of weight and overturning into the head of a T-frame's post (supports, cases).
    ``springs`` are taken as if the platform moved from the first to the second post of every pair of crossed
    rods, ``k`` their stiffness in every case (supports, 2, cases); ``pulled`` whether the rod at a post's head is
    stretched, ``rods`` the level part of its tension, ``rod_feet`` of that at a post's foot (supports, 2, cases);
    ``rod_loads`` what rods add to the load of each support (supports, cases), in ``brace_reaction`` too.
    ``smooth`` where the pads of sliding bearings are taken as if they did not rub.
    """

    foot: Foot
    joints: Joints
    bed: Bed
    springs: tuple[PlanSpring, ...]
    give: Array
    lag: Array
    movement: Array
    ground: Array
    force: Array
    push: Array
    per_push: Array
    per_own: Array
    Q: Array
    turn: Array
    over: Array
    brace_reaction: Array
    cap: Array
    picked: Array
    head: Array
    k: Array
    pulled: Array
    rods: Array
    rod_feet: Array
    rod_loads: Array
    smooth: bool = False

    @cached_property
    def words(self) -> str:
        """How it takes bases, joints, the wood at tree bolts, and pads that do not rub."""
        pads = "pads that slide freely" if self.smooth else ""
        return ", ".join(filter(None, (self.foot.value, pads, self.joints.value, self.bed.value)))

    def taken(self, frame: LateralFrame) -> str:
        """How it takes the base of a post, or the wood at a tree bolt."""
        if isinstance(frame, PostFrame):
            return self.foot.value
        return self.bed.value if isinstance(frame, BoltFrame) else ""

    def only(self, case: int) -> State:
        """One case of it."""
        of_knees = (
            "lag",
            "movement",
            "ground",
            "force",
            "push",
            "Q",
            "turn",
            "over",
            "brace_reaction",
            "cap",
            "picked",
            "head",
        )
        arrays = (*of_knees, "k", "pulled", "rods", "rod_feet", "rod_loads")
        return replace(self, **{name: getattr(self, name)[..., case : case + 1] for name in arrays})


@dataclass(frozen=True)
class LateralAnalysis:
    """All that is known of the platform under lateral load; ``loose`` says which way nothing holds it, empty when held.

    ``tie`` is the lateral force that each sliding bearing would get from its moving trunk were it tied: friction does
    not exceed it. ``most`` and ``least`` are the loads from weight on each support in each case, ``cap_most`` and
    ``cap_least`` those at a post's cap, all with what the knees bear; ``slack_most`` and ``slack_least`` with knees
    that have slack and take none. ``knee_influence`` is that with posts hinged at their base, ``knees_held`` with
    fixed bases held, and what knees bear is the greatest and the least of both. ``tilt`` is the load on every source
    that makes one lb·in of moment along x and y (columns); ``tipped`` are the beams that lateral force along them tips;
    ``pushes`` is what knees push the deck with, by how bases are taken, and ``pushed`` what that puts on every support
    by weight alone in a state: load of D, live load, snow and guard, the greatest and the least (2, 4, supports, 2),
    none along a post's own knees: what these get more as the deck moves is ``pushed_more``, in every case by the post's
    row and direction.
    ``on_tees`` is the weight on T-frames; ``thrusts`` are what knee braces from a trunk bring to its bolts, by the
    bolt's mark. The knees of these are among ``knees``, but not in ``brace_reactions``. ``smooth`` are the states
    without friction, where a bearing has any.
    """

    path: LoadPath
    winds: Winds
    cases: LateralCases
    frames: tuple[LateralFrame, ...]
    knees: tuple[Knee, ...]
    brace_reactions: dict[str, BraceReactions]
    tipped: dict[str, Tipped]
    tilt: Array = field(repr=False)
    sway: dict[str, float | None]
    tie: Array
    loose: str
    states: tuple[State, ...]
    middle: tuple[State, ...]
    knee_influence: KneeInfluence = field(repr=False)
    knees_held: KneeInfluence = field(repr=False)
    weights: dict[str, KneeWeight] = field(repr=False)
    pushes: dict[Foot, KneePush] = field(repr=False)
    pushed: dict[str, Array] = field(repr=False)
    pushed_more: dict[str, dict[tuple[int, int], Array]] = field(repr=False)
    most: Array = field(repr=False)
    least: Array = field(repr=False)
    cap_most: Array = field(repr=False)
    cap_least: Array = field(repr=False)
    slack_most: Array = field(repr=False)
    slack_least: Array = field(repr=False)
    on_tees: TeeWeight = field(repr=False)
    thrusts: dict[str, Thrust] = field(default_factory=dict, repr=False)
    smooth: tuple[State, ...] = ()
    crossed: tuple[Crossed, ...] = ()
    found: dict[tuple[object, ...], Array] = field(default_factory=dict, repr=False)
    kept: dict[tuple[object, ...], Any] = field(default_factory=dict, repr=False)

    @cached_property
    def on_seats(self) -> dict[str, tuple[Array, Array]]:
        """Greatest and least load on every seat (rows) of each member from weight in every case."""
        return {
            mark: range_in(member_envelope(self.path, mark, "reactions"), self.cases)
            for mark in self.path.effects
        }

    def weight(self, state: State) -> KneeWeight:
        """What weight and overturning do to the knees in a state."""
        return self.weights[state.words]

    def with_push(self, state: State) -> Array:
        """Force on every support with what knees under weight push on it, each direction by itself where it is more.

        Of one of the states of this analysis; found once.
        """
        if not self.pushed:
            return state.force
        key = ("whole", state.words)
        if key not in self.found:
            rows = [self.push_parts(state, i, w) for i in range(len(self.frames)) for w in (0, 1)]
            factors = np.stack([self.cases.D, self.cases.L, self.cases.S, self.cases.G])
            whole = state.force + np.einsum("nkc,kc->nc", np.array(rows), factors).reshape(state.force.shape)
            for (i, which), more in self.pushed_more[state.words].items():
                whole[i, which] += np.where(whole[i, which] < 0, -more, more)
            self.found[key] = whole
        return self.found[key]

    def push_parts(self, state: State, i: int, which: int) -> Array:
        """What knees push on a support by each kind of load, at its most or its least by which is worse (4, cases)."""
        key = ("parts", state.words, i, which)
        if key not in self.found:
            most, least = self.pushed[state.words][..., i, which]
            factors = np.stack([self.cases.D, self.cases.L, self.cases.S, self.cases.G])
            force = state.force[i, which]
            more = np.abs(force + most @ factors) >= np.abs(force + least @ factors)
            self.found[key] = np.where(more, most[:, None], least[:, None])
        return self.found[key]

    def passed_range(self, state: State, parts: Array) -> tuple[Array, Array]:
        """Sums of the forces that the deck hands down to the supports, greatest and least by what knees push.

        Parameters: ``parts`` of the force on each support in its two directions (sums, supports, 2). Of that on a post
        what its own knees push the deck with is taken off. Returns: each (sums, cases), lb.
        """
        level = np.einsum("msw,swc->mc", parts, state.force - state.push)
        if not self.pushed:
            return level, level
        key = ("passed", state.words, parts.tobytes())
        if key not in self.found:
            pushes = self.pushes[state.foot]
            rows = np.einsum("msw,swp->mp", parts, state.per_push - state.per_own) @ pushes.rows
            most, least = range_over(self.path, rows, self.cases)
            self.found[key] = np.stack([level + most, level + least])
        most, least = self.found[key]
        return most, least

    def passed_down(self, state: State, parts: Array) -> Array:
        """The same, of both the one that is further from nothing."""
        most, least = self.passed_range(state, parts)
        return np.where(np.abs(most) >= np.abs(least), most, least)

    def knees_in(self, state: State) -> KneeInfluence:
        """Influence of the sources on the knees in a state."""
        return self.knees_held if state.foot is Foot.HELD else self.knee_influence

    @property
    def tight(self) -> tuple[KneeInfluence, ...]:
        """Influence of the sources on the knees in every way that bases are taken."""
        if self.knees_held is self.knee_influence:
            return (self.knee_influence,)
        return self.knee_influence, self.knees_held

    @property
    def apart(self) -> tuple[State, ...]:
        """States that movement apart is looked at in: friction of a pad may be less than it is rated, and help less."""
        return (*self.states, *self.smooth)

    @property
    def every(self) -> tuple[State, ...]:
        """All states that a check is made in."""
        taken = {state.bed for state in self.states}
        middle = (state for state in self.middle if state.bed not in taken)
        return (*self.states, *middle, *self.smooth)

    def row(self, mark: str) -> int:
        """Row of a support in the arrays."""
        return next(i for i, f in enumerate(self.frames) if f.support.mark == mark)


def find_lateral(path: LoadPath) -> LateralAnalysis:
    """The platform under lateral load in every case. Raises LayoutError for a knee that meets nothing."""
    knees = find_knees(path.layout)
    brace_reactions = find_brace_reactions(path, knees)
    crossed = find_crossed(path)
    frames: tuple[LateralFrame, ...] = tuple(
        level_frame(path, s, brace_reactions, crossed) for s in path.layout.supports
    )
    frames = with_knees_moved(frames, brace_reactions)
    tipped = find_tipped(path, frames)
    bolts = [f for f in frames if isinstance(f, BoltFrame)]
    run = Calculation().run
    sway = {f.tree.mark: run_sway(run, path, f.tree, f.level) for f in bolts}
    winds = find_winds(path)
    still = any(isinstance(f, BraceFrame) or (isinstance(f, PostFrame) and f.braced) for f in frames)
    cases = find_lateral_cases(path, winds, [mark for mark, s in sway.items() if s], still=still)
    cases, on_tees = with_arms(path, frames, cases)
    influence = np.array([path.reactions[f.support.mark] for f in frames])
    on_posts = tuple(k for k in knees if k.beam.mark in brace_reactions)
    on_knees = find_knee_influence(path, frames, on_posts, brace_reactions)
    fixed = any(isinstance(f, PostFrame) and f.post.base == "fixed" for f in frames)
    knees_held = on_knees
    if fixed and on_posts:
        knees_held = find_knee_influence(path, frames, on_posts, brace_reactions, held=True)
    (most, least), (cap_most, cap_least) = (
        _wider(*(range_over(path, with_feet(frames, rows), cases) for rows in some))
        for some in ((on_knees.feet, knees_held.feet), (on_knees.caps, knees_held.caps))
    )
    slack_most, slack_least = range_over(path, with_feet(frames, influence), cases)
    feet = [Foot.HELD, Foot.GIVES]
    if not fixed:
        feet = [Foot.GIVES] if knees else [Foot.HELD]
    gives = {joints: plan_give(path.layout, frames, joints) for joints in Joints}
    held = any(held_ways(f.support.lateral)[1] for f in bolts)
    beds, middle = ([Bed.STIFF, Bed.SOFT], Bed.MIDDLE) if held else ([Bed.ANY], Bed.ANY)
    ways = [
        (bed, foot, springs, joints)
        for bed in dict.fromkeys((*beds, middle))
        for foot in feet
        for springs in [[spring_of_frame(f, foot, bed=bed) for f in frames]]
        for joints in Joints
    ]
    loose = next((w for *_, s, joints in ways if (w := loose_direction(s, winds.reach, gives[joints]))), "")
    if crossed and not loose:
        back = {pair.rods.mark: -1 for pair in crossed}
        other = [(spring_of_frame(f, foot, back) for f in frames) for foot in feet]
        loose = next((w for s in other if (w := loose_direction(list(s), winds.reach))), "")
    heads = head_rows(path, frames)
    tilt = _tilt(path, influence, frames, heads)
    ground = np.array([_ground(f, cases, sway) for f in frames])
    tie = np.zeros_like(most)
    states: list[State] = []
    on = {foot: knees_held if foot is Foot.HELD else on_knees for foot in feet}
    lying = {foot: _lying(influence, on[foot], tilt, heads) for foot in feet}
    pushes = {foot: find_knee_push(frames, on[foot], held=foot is Foot.HELD) for foot in feet}
    if not loose:
        rubs, tie = _friction(frames, ways[0][2], gives[ways[0][3]], ground, np.maximum(most, slack_most))
        states = [
            _state(
                frames,
                crossed,
                (brace_reactions, tipped),
                (cases.load, cases.over),
                (s, gives[joints]),
                (foot, joints, bed),
                ground + _leans(frames, foot, on_tees.moment),
                friction,
                lying[foot],
                on_tees.moment,
                (pushes[foot], pushes[foot].rows @ tilt),
            )
            for friction in (rubs, np.zeros_like(rubs))[: 2 if rubs.any() else 1]
            for bed, foot, s, joints in ways
        ]
    smooth = tuple(replace(state, smooth=True) for state in states[len(ways) :] if state.bed in beds)
    states = states[: len(ways)]
    return LateralAnalysis(
        path,
        winds,
        cases,
        frames,
        knees,
        brace_reactions,
        tipped,
        tilt,
        sway,
        tie,
        loose,
        tuple(state for state in states if state.bed in beds),
        tuple(state for state in states if state.bed is middle),
        on_knees,
        knees_held,
        {
            state.words: find_knee_weight(
                path, knees_held if state.foot is Foot.HELD else on_knees, cases, tilt, state.turn
            )
            for state in states
        },
        pushes,
        _pushed(path, pushes, states),
        _pushed_more(path, frames, cases, {foot: (pushes[foot], on[foot]) for foot in feet}, states),
        most,
        least,
        cap_most,
        cap_least,
        slack_most,
        slack_least,
        on_tees,
        find_thrusts(path, frames, cases),
        smooth,
        crossed,
    )


def _pushed(path: LoadPath, pushes: dict[Foot, KneePush], states: Sequence[State]) -> dict[str, Array]:
    """What knees push on every support by weight in every state, see :class:`LateralAnalysis`; empty without any."""
    if not states or not pushes[states[0].foot].places:
        return {}
    shape = states[0].per_push.shape[:2]
    others = np.ones(shape)
    for place in pushes[states[0].foot].places:
        others[place] = 0.0
    rows = np.concatenate(
        [
            (others[..., None] * state.per_push).reshape(-1, state.per_push.shape[2])
            @ pushes[state.foot].rows
            for state in states
        ]
    )
    env = envelope(path, rows)
    both = np.stack(
        [
            np.stack([env.D, env.L_most, env.S_most, env.guard_most]),
            np.stack([env.D_least, env.L_least, env.S_least, env.guard_least]),
        ]
    ).reshape(2, 4, len(states), *shape)
    return {state.words: both[:, :, n] for n, state in enumerate(states)}


def _pushed_more(
    path: LoadPath,
    frames: tuple[LateralFrame, ...],
    cases: LateralCases,
    pushes: dict[Foot, tuple[KneePush, KneeInfluence]],
    states: Sequence[State],
) -> dict[str, dict[tuple[int, int], Array]]:
    """What posts with knees get more in every state as the deck moves, see :class:`LateralAnalysis`."""
    found = [
        (state, place, looked_at(frames, on, push, state.per_push, n, held=state.foot is Foot.HELD))
        for state in states
        for push, on in [pushes[state.foot]]
        for n, place in enumerate(push.places)
    ]
    more: dict[str, dict[tuple[int, int], Array]] = {state.words: {} for state in states}
    if not found:
        return more
    still, moved = (
        range_over(path, np.concatenate(rows), cases)
        for rows in ([one.still for *_, one in found], [one.moved for *_, one in found])
    )
    first = 0
    for state, place, one in found:
        own = slice(first, first + len(one.still))
        first = own.stop
        more[state.words][place] = more_on_post(
            one, (still[0][own], still[1][own]), (moved[0][own], moved[1][own])
        )
    return more


def _wider(one: tuple[Array, Array], other: tuple[Array, Array]) -> tuple[Array, Array]:
    """The greater of two greatest values and the less of two least."""
    return np.maximum(one[0], other[0]), np.minimum(one[1], other[1])


def range_over(path: LoadPath, influence: Influence | Array, cases: LateralCases) -> tuple[Array, Array]:
    """Greatest and least of effects (rows of the influence) from weight in every case (columns)."""
    return range_in(envelope(path, influence), cases)


def range_in(env: Envelope, cases: LateralCases) -> tuple[Array, Array]:
    """Greatest and least of the effects of an envelope in every case (columns)."""
    return env.greatest @ cases.of_weight, env.smallest @ cases.of_weight


def levels_of(frame: LateralFrame) -> tuple[float, float]:
    """Height above grade at which a support takes lateral force, in its two directions (in)."""
    if isinstance(frame, PostFrame):
        return frame.h + frame.depth, frame.h + frame.arm(1)
    return frame.level, frame.level


def _ground(frame: LateralFrame, cases: LateralCases, sway: dict[str, float | None]) -> Array:
    """Movement of the trunk under a support along its two directions."""
    if not isinstance(frame, BoltFrame):
        return np.zeros((2, cases.count))
    sign = np.array([-1.0 if mark == frame.tree.mark else 1.0 for mark in cases.against])
    return np.asarray(axes_of(frame) @ cases.trunk * sign * (sway[frame.tree.mark] or 0.0))


def _friction(
    frames: tuple[LateralFrame, ...], springs: list[PlanSpring], give: Array, ground: Array, most: Array
) -> tuple[Array, Array]:
    """Friction with which a moving trunk drags a sliding bearing, and the force of a tie that bounds it."""
    friction, ties = np.zeros_like(ground), np.zeros_like(most)
    drags = [
        i
        for i, frame in enumerate(frames)
        if isinstance(frame, BoltFrame)
        and not frame.braces
        and any(run_bolt_stiffness(Calculation().run, frame, which) == 0.0 for which in (0, 1))
    ]
    if not drags:
        return friction, ties
    rows, passed = all_rows(springs), passed_on(springs, give)
    k = np.concatenate([s.k for s in springs])[:, None]
    plate = np.linalg.solve(plan_stiffness(springs, give), rows.T @ passed)
    seats = rows @ plate - give @ passed @ (
        k * rows @ plate - np.eye(len(k))
    )  # from a drag of a pound at each
    for i in drags:
        free = springs[i].k == 0.0
        slid = ground[i] * free[:, None]
        size = np.hypot(*slid)
        way = slid / np.where(size > 0, size, 1.0)
        soft = np.einsum("ac,ab,bc->c", way, seats[2 * i : 2 * i + 2, 2 * i : 2 * i + 2], way)
        tie = np.where(size > 0, size / np.where(soft > 0, soft, 1.0), 0.0)
        ties[i] = tie
        friction[i] = way * friction_force(mu=frames[i].support.friction, R=np.maximum(most[i], 0.0), H_t=tie)
    return friction, ties


def _leans(frames: tuple[LateralFrame, ...], foot: Foot, moment: Array) -> Array:
    """Lateral movement of every support in its two directions, as weight on one arm of a T-frame bends its post."""
    along = np.array([run_lean(Calculation().run, f, foot, M) for f, M in zip(frames, moment, strict=True)])
    return np.stack([along, np.zeros_like(along)], axis=1)


def _tilt(path: LoadPath, influence: Array, frames: tuple[LateralFrame, ...], heads: Array) -> Array:
    """Load on every source (rows) that makes one lb·in of tilt along x and y (columns), applied to the deck.

    Each panel counts where the supports feel it, so that their loads make the tilt exactly, with the moments that come
    into the heads of T-frames.
    """
    area = np.array([p.area for p in path.panels])
    felt = influence[:, : len(area)]
    at = np.array([s.at for s in path.layout.supports])
    into_heads = heads[:, : len(area)].T @ np.array([f.u for f in frames])
    shape = np.column_stack([np.ones(len(area)), felt.T @ at + into_heads])
    weighted = shape * area[:, None]
    turns = np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]])
    laid = np.zeros((influence.shape[1], 2))
    laid[: len(area)] = weighted @ np.linalg.lstsq(shape.T @ weighted, turns, rcond=None)[0]
    return laid


def _state(
    frames: tuple[LateralFrame, ...],
    crossed: tuple[Crossed, ...],
    beams: tuple[dict[str, BraceReactions], dict[str, Tipped]],
    push: tuple[Array, Array],
    held: tuple[Sequence[PlanSpring], Array],
    how: tuple[Foot, Joints, Bed],
    ground: Array,
    friction: Array,
    lying: tuple[Array, Array, Array, Array],
    heads: Array,
    pushes: tuple[KneePush, Array],
) -> State:
    """State under lateral loads (3, cases) with their sums of force times height (2, cases).

    ``held`` are the springs and what gives above them; ``heads`` is the moment of weight into the heads of T-frames
    (supports, cases); ``pushes`` what knees push the deck with, and that of one lb·in of overturning (pushes, 2).
    """
    load, over_all = push
    (springs, give), (foot, joints, bed) = held, how
    movement, force, turn, towards = _with_rods(
        frames, crossed, held, (foot, bed), (load, ground, friction, over_all)
    )
    tees = [i for i, f in enumerate(frames) if isinstance(f, PostFrame) and f.tee is not None]
    knees, by_turn = pushes
    pushed, per_push = np.zeros_like(force), np.zeros((len(frames), 2, len(knees.places)))
    per_own = per_push
    if (
        tees or knees.places
    ):  # overturning leans the posts of T-frames, and pushes the deck by knees: so it changes itself
        n, m = len(tees), len(knees.places)
        one, none = np.zeros((len(frames), 2, n + m)), np.zeros((len(frames), 2, n + m))
        one[tees, 0, range(n)] = [
            float(run_lean(Calculation().run, frames[i], foot, np.ones(1))[0]) for i in tees
        ]
        by_knees, high = np.hstack([np.zeros((3, n)), knees.load]), np.hstack([np.zeros((2, n)), knees.over])
        either = _either_rod(frames, crossed, held, foot, bed)
        _, on_each, by_one = _plan(frames, either, by_knees, one, none, high)
        into = np.vstack([lying[3][tees], by_turn])
        loop = np.eye(n + m) - into @ by_one
        more = np.linalg.solve(loop, into @ turn)
        ground = ground + one @ more
        what = load + by_knees @ more, ground, friction, over_all + high @ more
        movement, force, turn, towards = _with_rods(frames, crossed, held, (foot, bed), what)
        pushed = knees.own @ more[n:]
        whole = np.linalg.inv(loop)[:, n:]
        per_push, per_own = on_each @ whole, knees.own @ whole[n:]
    lag = (give @ force.reshape(len(give), -1)).reshape(force.shape)
    Q = np.array([knee_forces(f, foot, V) for f, V in zip(frames, force, strict=True)])
    pulled = np.array([[_everywhere(is_pulled(f, w, towards), load) for w in (0, 1)] for f in frames])
    k, rods, rod_feet = rod_forces(frames, springs, foot, force, pulled)
    lifted = rod_loads(frames, rods)
    brace_reactions, tipped = beams
    brace_reaction, cap = brace_reaction_loads(frames, brace_reactions, Q, foot)
    picked = np.stack([with_feet(frames, row @ turn) for row in lying[1:3]])
    brace_reaction, cap = brace_reaction + lying[1] @ turn, cap + lying[2] @ turn
    over = lying[0] @ turn + sum(t.supports @ t.couples(frames, force) for t in tipped.values())
    brace_reaction, over, cap = (with_feet(frames, rows) for rows in (brace_reaction + lifted, over, cap))
    head = heads + lying[3] @ turn
    return State(
        foot,
        joints,
        bed,
        tuple(springs),
        give,
        lag,
        movement,
        ground,
        force,
        pushed,
        per_push,
        per_own,
        Q,
        turn,
        over,
        brace_reaction,
        cap,
        picked,
        head,
        k,
        pulled,
        rods,
        rod_feet,
        lifted,
    )


def _either_rod(
    frames: tuple[LateralFrame, ...],
    crossed: tuple[Crossed, ...],
    held: tuple[Sequence[PlanSpring], Array],
    foot: Foot,
    bed: Bed,
) -> tuple[Sequence[PlanSpring], Array]:
    """Springs midway between those with the one and with the other rod of every pair stretched, however it is drawn."""
    if not crossed:
        return held
    back = {pair.rods.mark: -1 for pair in crossed}
    other = [spring_of_frame(f, foot, back, bed) for f in frames]
    return [replace(s, k=(s.k + o.k) / 2) for s, o in zip(held[0], other, strict=True)], held[1]


def _everywhere(value: Any, load: Array) -> Array:
    """A value for every case."""
    return np.broadcast_to(np.asarray(value, dtype=bool), load.shape[1:])


def _with_rods(
    frames: tuple[LateralFrame, ...],
    crossed: tuple[Crossed, ...],
    held: tuple[Sequence[PlanSpring], Array],
    how: tuple[Foot, Bed],
    what: tuple[Array, Array, Array, Array],
) -> tuple[Array, Array, Array, dict[str, Array]]:
    """As :func:`_plan`, of every pair of crossed rods with the one that the movement stretches; and which way that is.

    ``what``: load, ground, friction and over of :func:`_plan`. The stiff deck moves both heads of a pair alike, so that
    one rod of each is stretched.
    """
    movement, force, turn = _plan(frames, held, *what)
    towards = {pair.rods.mark: np.ones(movement.shape[1], dtype=int) for pair in crossed}
    for _ in range(TURNS if crossed else 0):
        found = moved_towards(crossed, movement)
        if all(np.array_equal(found[mark], towards[mark]) for mark in towards):
            break
        towards = found
        for ways in sorted(set(zip(*towards.values(), strict=True))):
            own = np.all([row == way for row, way in zip(towards.values(), ways, strict=True)], axis=0)
            one = dict(zip(towards, ways, strict=True))
            springs = [spring_of_frame(f, how[0], one, how[1]) for f in frames]
            part = _plan(frames, (springs, held[1]), *(array[..., own] for array in what))
            movement[:, own], force[:, :, own], turn[:, own] = part
    return movement, force, turn, towards


def _plan(
    frames: tuple[LateralFrame, ...],
    held: tuple[Sequence[PlanSpring], Array],
    load: Array,
    ground: Array,
    friction: Array,
    over: Array,
) -> tuple[Array, Array, Array]:
    """Movement of the plate, force on every support, and the moment that the lateral forces leave to weight."""
    springs, give = held
    movement = plan_movement(springs, load, ground, give, friction)
    force = plan_force(springs, movement, ground, give, friction)
    levels = np.array([levels_of(f) for f in frames])
    plan = np.array([s.axes for s in springs])
    return movement, force, over - np.einsum("sa,sac,sap->pc", levels, force, plan)


def _lying(
    influence: Array, on_knees: KneeInfluence, tilt: Array, heads: Array
) -> tuple[Array, Array, Array, Array]:
    """What one lb·in of overturning on the deck brings to the supports, and what knees add to it at foot and cap.

    At last what it brings into the heads of T-frames.
    """
    knees = (on_knees.feet - influence) @ tilt, (on_knees.caps - influence) @ tilt
    return influence @ tilt, *knees, heads @ tilt


def answer(lateral: LateralAnalysis, state: State, load: Array, over: Array) -> State:
    """What other lateral loads do, the feet taken as in a state, the trunks at rest.

    Parameters: ``load`` force along x and y and moment about the origin (3, cases); ``over`` sums of force times
    height along x and y (2, cases).
    """
    still = np.zeros((len(lateral.frames), 2, load.shape[1]))
    influence = np.array([lateral.path.reactions[f.support.mark] for f in lateral.frames])
    heads = head_rows(lateral.path, lateral.frames)
    lying = _lying(influence, lateral.knees_in(state), lateral.tilt, heads)
    beams = (lateral.brace_reactions, lateral.tipped)
    held, how = (state.springs, state.give), (state.foot, state.joints, state.bed)
    push = (load, over)
    knees = lateral.pushes[state.foot]
    pushes = knees, knees.rows @ lateral.tilt
    return _state(
        lateral.frames, lateral.crossed, beams, push, held, how, still, still, lying, still[:, 0], pushes
    )
