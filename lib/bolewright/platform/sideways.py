"""The platform sideways: level loads shared by the supports through a stiff deck, and what that adds to their loads.

Runs every case of :mod:`bolewright.platform.level_loads` on the springs of
:mod:`bolewright.platform.level_supports`, once with the feet of the posts held and once in ground that gives, each with
joints that hold firm and joints that slip (:mod:`bolewright.platform.plan_give`).
Level forces enter tree bolts at the underside of what sits on them, but a post at the top of its carrier: across it
the ties that keep the carrier upright bend the post, along it the carrier tips on its seats
(:mod:`bolewright.platform.tipping`). What their moment about these levels lacks is laid on the deck as a straight-line
pressure without a sum, and goes down through the load path; the kicks of the knees go down through their carriers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

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
from bolewright.platform.combine import Array, envelope
from bolewright.platform.influence import Influence
from bolewright.platform.knee_force import kick_loads, knee_forces
from bolewright.platform.knee_weight import KneeInfluence, KneeWeight, find_knee_influence, find_knee_weight
from bolewright.platform.knees import Kicks, Knee, find_kicks, find_knees
from bolewright.platform.level_loads import LevelCases, find_level_cases
from bolewright.platform.level_stiffness import (
    run_bolt_stiffness,
    spring_of_frame,
)
from bolewright.platform.level_supports import (
    BoltFrame,
    Foot,
    LevelFrame,
    PostFrame,
    axes_of,
    bolt_frame,
    post_frame,
)
from bolewright.platform.level_tees import TeeWeight, head_rows, run_lean, with_arms
from bolewright.platform.level_wind import Winds, find_winds
from bolewright.platform.load_path import LoadPath
from bolewright.platform.plan_give import Joints, plan_give
from bolewright.platform.stem_sway import run_sway
from bolewright.platform.tipping import Tipped, find_tipped


@dataclass(frozen=True)
class State:
    """All cases with the feet and the joints taken one way.

    ``give`` how much less the seats on supports move than the deck from a pound at each (2 supports, 2 supports), and
    ``lag`` how much less they do (supports, 2, cases); ``movement`` of the plate (3, cases); ``ground`` movement of
    the stem under each support, along its two directions (supports, 2, cases); ``force`` of the platform on each
    support in its two directions; ``Q`` level force of the knees of each post in its two directions; ``turn`` the
    moment along x and y that the level forces leave to weight (2, cases); ``over``, ``kick`` and ``cap`` what
    overturning and knees add to the load of each support, the knees at the foot of a post and at its cap (supports,
    cases); ``head`` the moment of weight and overturning into the head of a T-frame's post (supports, cases).
    """

    foot: Foot
    joints: Joints
    springs: tuple[PlanSpring, ...]
    give: Array
    lag: Array
    movement: Array
    ground: Array
    force: Array
    Q: Array
    turn: Array
    over: Array
    kick: Array
    cap: Array
    head: Array

    @property
    def words(self) -> str:
        """How it takes feet and joints."""
        return f"{self.foot.value}, {self.joints.value}"

    def only(self, case: int) -> State:
        """One case of it."""
        arrays = ("lag", "movement", "ground", "force", "Q", "turn", "over", "kick", "cap", "head")
        return replace(self, **{name: getattr(self, name)[..., case : case + 1] for name in arrays})


@dataclass(frozen=True)
class Sideways:
    """All that is known of the platform sideways; ``loose`` says which way nothing holds it, empty when held.

    ``tie`` is the level force that each sliding bearing would get from its moving stem were it tied: friction does
    not exceed it. ``most`` and ``least`` are the loads from weight on each support in each case, ``cap_most`` and
    ``cap_least`` those at a post's cap, all with what the knees bear. ``tilt`` is the load on every source that
    makes one lb·in of moment along x and y (columns); ``tipped`` are the carriers that level force along them tips;
    ``on_tees`` is the weight on T-frames. The knees of these are among ``knees``, but not in ``kicks``.
    """

    path: LoadPath
    winds: Winds
    cases: LevelCases
    frames: tuple[LevelFrame, ...]
    knees: tuple[Knee, ...]
    kicks: dict[str, Kicks]
    tipped: dict[str, Tipped]
    tilt: Array = field(repr=False)
    sway: dict[str, float | None]
    tie: Array
    loose: str
    states: tuple[State, ...]
    knee_influence: KneeInfluence = field(repr=False)
    weights: dict[str, KneeWeight] = field(repr=False)
    most: Array = field(repr=False)
    least: Array = field(repr=False)
    cap_most: Array = field(repr=False)
    cap_least: Array = field(repr=False)
    on_tees: TeeWeight = field(repr=False)

    def weight(self, state: State) -> KneeWeight:
        """What weight and overturning do to the knees in a state."""
        return self.weights[state.words]

    def row(self, mark: str) -> int:
        """Row of a support in the arrays."""
        return next(i for i, f in enumerate(self.frames) if f.support.mark == mark)


def find_sideways(path: LoadPath) -> Sideways:
    """The platform sideways in every case. Raises LayoutError for a knee that meets nothing."""
    knees = find_knees(path.layout)
    kicks = find_kicks(path, knees)
    frames: tuple[LevelFrame, ...] = tuple(
        post_frame(path, s, kicks) if s.kind == "post" else bolt_frame(path, s) for s in path.layout.supports
    )
    tipped = find_tipped(path, frames)
    bolts = [f for f in frames if isinstance(f, BoltFrame)]
    run = Calculation().run
    sway = {f.tree.mark: run_sway(run, path, f.tree, f.level) for f in bolts}
    winds = find_winds(path)
    still = any(isinstance(f, PostFrame) and f.tee is not None for f in frames)
    cases = find_level_cases(path, winds, [mark for mark, s in sway.items() if s], still=still)
    cases, on_tees = with_arms(path, frames, cases)
    influence = np.array([path.reactions[f.support.mark] for f in frames])
    on_knees = find_knee_influence(path, frames, tuple(k for k in knees if k.carrier.mark in kicks), kicks)
    most, least = range_over(path, on_knees.feet, cases)
    cap_most, cap_least = range_over(path, on_knees.caps, cases)
    feet = [Foot.HELD, Foot.GIVES]
    if not any(isinstance(f, PostFrame) and f.post.foot == "held" for f in frames):
        feet = [Foot.GIVES] if knees else [Foot.HELD]
    gives = {joints: plan_give(path.layout, frames, joints) for joints in Joints}
    ways = [
        (foot, springs, joints)
        for foot in feet
        for springs in [[spring_of_frame(f, foot) for f in frames]]
        for joints in Joints
    ]
    loose = next((w for _, s, joints in ways if (w := loose_direction(s, winds.reach, gives[joints]))), "")
    heads = head_rows(path, frames)
    tilt = _tilt(path, influence, frames, heads)
    ground = np.array([_ground(f, cases, sway) for f in frames])
    tie = np.zeros_like(most)
    states: list[State] = []
    if not loose:
        friction, tie = _friction(frames, ways[0][1], gives[ways[0][2]], ground, most)
        states = [
            _state(
                frames,
                (kicks, tipped),
                (cases.load, cases.over),
                (s, gives[joints]),
                (foot, joints),
                ground + _leans(frames, foot, on_tees.moment),
                friction,
                _lying(influence, on_knees, tilt, heads),
                on_tees.moment,
            )
            for foot, s, joints in ways
        ]
    return Sideways(
        path,
        winds,
        cases,
        frames,
        knees,
        kicks,
        tipped,
        tilt,
        sway,
        tie,
        loose,
        tuple(states),
        on_knees,
        {state.words: find_knee_weight(path, on_knees, cases, tilt, state.turn) for state in states},
        most,
        least,
        cap_most,
        cap_least,
        on_tees,
    )


def range_over(path: LoadPath, influence: Influence | Array, cases: LevelCases) -> tuple[Array, Array]:
    """Greatest and least of effects (rows of the influence) from weight in every case (columns)."""
    env = envelope(path, influence)
    factors = np.stack([cases.D, cases.S, cases.L])
    most, least = (
        np.stack([env.D, snow, live], axis=1) @ factors
        for snow, live in ((env.S_most, env.L_most), (env.S_least, env.L_least))
    )
    return most, least


def levels_of(frame: LevelFrame) -> tuple[float, float]:
    """Height above grade at which a support takes level force, in its two directions (in)."""
    if isinstance(frame, PostFrame):
        return frame.h + frame.depth, frame.h + frame.arm(1)
    return frame.level, frame.level


def _ground(frame: LevelFrame, cases: LevelCases, sway: dict[str, float | None]) -> Array:
    """Movement of the stem under a support along its two directions."""
    if isinstance(frame, PostFrame):
        return np.zeros((2, cases.count))
    sign = np.array([-1.0 if mark == frame.tree.mark else 1.0 for mark in cases.against])
    return np.asarray(axes_of(frame) @ cases.stem * sign * (sway[frame.tree.mark] or 0.0))


def _friction(
    frames: tuple[LevelFrame, ...], springs: list[PlanSpring], give: Array, ground: Array, most: Array
) -> tuple[Array, Array]:
    """Friction with which a moving stem drags a sliding bearing, and the force of a tie that bounds it."""
    friction, ties = np.zeros_like(ground), np.zeros_like(most)
    drags = [
        i
        for i, frame in enumerate(frames)
        if isinstance(frame, BoltFrame)
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


def _leans(frames: tuple[LevelFrame, ...], foot: Foot, moment: Array) -> Array:
    """Level movement of every support in its two directions, as weight on one arm of a T-frame bends its post."""
    along = np.array([run_lean(Calculation().run, f, foot, M) for f, M in zip(frames, moment, strict=True)])
    return np.stack([along, np.zeros_like(along)], axis=1)


def _tilt(path: LoadPath, influence: Array, frames: tuple[LevelFrame, ...], heads: Array) -> Array:
    """Load on every source (rows) that makes one lb·in of tilt along x and y (columns), laid on the deck.

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
    frames: tuple[LevelFrame, ...],
    carriers: tuple[dict[str, Kicks], dict[str, Tipped]],
    push: tuple[Array, Array],
    held: tuple[Sequence[PlanSpring], Array],
    how: tuple[Foot, Joints],
    ground: Array,
    friction: Array,
    lying: tuple[Array, Array, Array, Array],
    heads: Array,
) -> State:
    """State under level loads (3, cases) with their sums of force times height (2, cases).

    ``held`` are the springs and what gives above them; ``heads`` is the moment of weight into the heads of T-frames
    (supports, cases).
    """
    load, over_all = push
    (springs, give), (foot, joints) = held, how
    movement, force, turn = _plan(frames, held, load, ground, friction, over_all)
    tees = [i for i, f in enumerate(frames) if isinstance(f, PostFrame) and f.tee is not None]
    if tees:  # overturning leans their posts too, and so changes itself
        n = len(tees)
        one, none = np.zeros((len(frames), 2, n)), np.zeros((len(frames), 2, n))
        one[tees, 0, range(n)] = [
            float(run_lean(Calculation().run, frames[i], foot, np.ones(1))[0]) for i in tees
        ]
        _, _, by_one = _plan(frames, held, np.zeros((3, n)), one, none, none[0])
        into = lying[3][tees]
        more = np.linalg.solve(np.eye(n) - into @ by_one, into @ turn)
        ground = ground + one @ more
        movement, force, turn = _plan(frames, held, load, ground, friction, over_all)
    lag = (give @ force.reshape(len(give), -1)).reshape(force.shape)
    Q = np.array([knee_forces(f, foot, V) for f, V in zip(frames, force, strict=True)])
    kicks, tipped = carriers
    kick, cap = kick_loads(frames, kicks, Q)
    kick, cap = kick + lying[1] @ turn, cap + lying[2] @ turn
    over = lying[0] @ turn + sum(t.supports @ t.couples(frames, force) for t in tipped.values())
    head = heads + lying[3] @ turn
    return State(
        foot, joints, tuple(springs), give, lag, movement, ground, force, Q, turn, over, kick, cap, head
    )


def _plan(
    frames: tuple[LevelFrame, ...],
    held: tuple[Sequence[PlanSpring], Array],
    load: Array,
    ground: Array,
    friction: Array,
    over: Array,
) -> tuple[Array, Array, Array]:
    """Movement of the plate, force on every support, and the moment that the level forces leave to weight."""
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


def answer(sideways: Sideways, state: State, load: Array, over: Array) -> State:
    """What other level loads do, the feet taken as in a state, the stems at rest.

    Parameters: ``load`` force along x and y and moment about the origin (3, cases); ``over`` sums of force times
    height along x and y (2, cases).
    """
    still = np.zeros((len(sideways.frames), 2, load.shape[1]))
    influence = np.array([sideways.path.reactions[f.support.mark] for f in sideways.frames])
    heads = head_rows(sideways.path, sideways.frames)
    lying = _lying(influence, sideways.knee_influence, sideways.tilt, heads)
    carriers = (sideways.kicks, sideways.tipped)
    held, how = (state.springs, state.give), (state.foot, state.joints)
    return _state(sideways.frames, carriers, (load, over), held, how, still, still, lying, still[:, 0])
