"""Weight on knee braces: push where the beam deflects onto them, pull where an overhang's load lifts it off them.

The knees are taken as fixed before the load comes. All knees of the platform are solved together with the give
of their beams and posts, so that the influence of every panel of deck on every knee is known, and with it the
worst pattern of load for each; and so is what the knees take off, or put on, the caps of the posts.
Overturning lies on the deck like a weight, and bears on the knees with it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import Any

import numpy as np

from bolewright.bracing.knee import brace_force_from_weight
from bolewright.calculation import Calculation
from bolewright.platform.analysis.knee_shares import beams_at_knees, cosines, places_of, posts_at_knees
from bolewright.platform.analysis.knees import BraceReactions, Knee, beam_modulus
from bolewright.platform.analysis.lateral_stiffness import run_knee_stiffness
from bolewright.platform.analysis.lateral_supports import LateralFrame
from bolewright.platform.loads.combine import Array, dead_for, envelope, raising_loads, raising_push, snow_for
from bolewright.platform.loads.lateral_loads import LateralCases
from bolewright.platform.loads.load_path import LoadPath

Run = Callable[..., Any]
STIFF = 1e9  # lb/in: a part that the other knees hold still


class Way(Enum):
    """Which way weight works in a knee: the greatest compression, the greatest tension, or the greater of both."""

    PUSH = 1
    PULL = -1
    EITHER = 0


@dataclass(frozen=True)
class Borne:
    """Arguments of the printed formula of one knee, over the cases: deflection, and stiffness of beam and post there.

    The stiffnesses count the other knees in the same pattern: what they hold up is not left to this one.
    """

    knee: Knee
    delta_v: Array
    k_v: Array
    k_p: Array
    k_b: float

    def force(self, run: Run) -> Array:
        """Compression in the knee (negative: tension) in every case, as a row."""
        return np.asarray(
            run(
                brace_force_from_weight,
                delta_v=self.delta_v[None, :],
                a=self.knee.brace.rise,
                r=self.knee.brace.run,
                k_v=self.k_v[None, :],
                k_p=self.k_p[None, :],
                k_b=self.k_b,
            ),
            dtype=float,
        )


@dataclass(frozen=True)
class KneeInfluence:
    """Influence of the sources (columns) on the knees of a platform, all knees solved together.

    ``rise`` deflection of the beam at every knee with no knees there (in), ``force`` push in it (lb); ``beam`` and
    ``post`` the give along every knee from a pound in every other, ``k_b`` its stiffness; ``places`` row of its post
    and direction there. ``caps`` and ``feet`` the load at each support's cap and foot with the knees there.
    """

    knees: tuple[Knee, ...]
    places: tuple[tuple[int, int], ...]
    rise: Array
    force: Array
    beam: Array
    post: Array
    k_b: Array
    caps: Array
    feet: Array


@dataclass(frozen=True)
class KneeWeight:
    """What weight and overturning do to the knees and, through them, to the posts.

    ``borne`` by the brace's mark and way; ``thrust`` by the post's mark and direction: the greatest lateral push of
    its knees on it, either way, in every case (lb).
    """

    borne: dict[tuple[str, Way], Borne]
    thrust: dict[tuple[str, int], Array]

    def force(self, run: Run, knee: Knee, way: Way) -> Array:
        """Force in a knee in every case, as a row: compression positive, tension negative."""
        return self.borne[knee.brace.mark, way].force(run)


def find_knee_influence(
    path: LoadPath,
    frames: tuple[LateralFrame, ...],
    knees: tuple[Knee, ...],
    brace_reactions: dict[str, BraceReactions],
    *,
    held: bool = False,
) -> KneeInfluence:
    """Influence of every source on every knee; with ``held`` the posts whose base is fixed are held there."""
    caps = np.array([path.reactions[f.support.mark] for f in frames])
    if not knees:
        none = np.zeros((0, caps.shape[1]))
        return KneeInfluence((), (), none, none, np.zeros((0, 0)), np.zeros((0, 0)), np.zeros(0), caps, caps)
    places = places_of(frames, knees)
    c_v, c_p = cosines(knees)
    run = Calculation().run
    k_b = np.array([run_knee_stiffness(run, knee) for knee in knees])
    beam = beams_at_knees(knees, brace_reactions) * np.outer(c_v, c_v)
    post = posts_at_knees(frames, knees, places, held=held) * np.outer(c_p, c_p)
    rise = np.array([_deflection_row(path, knee) for knee in knees])
    force = np.linalg.solve(np.diag(1 / k_b) + beam + post, c_v[:, None] * rise)
    lifted = c_v[:, None] * force
    for brace_reaction in brace_reactions.values():
        own = [knees.index(knee) for knee in brace_reaction.knees]
        caps = caps - brace_reaction.supports @ lifted[own]
    feet = caps.copy()
    for (i, _), up in zip(places, lifted, strict=True):
        feet[i] += up
    return KneeInfluence(knees, tuple(places), rise, force, beam, post, k_b, caps, feet)


def find_knee_weight(
    path: LoadPath, influence: KneeInfluence, cases: LateralCases, tilt: Array, turn: Array
) -> KneeWeight:
    """Weight on all knees in every case.

    Parameters: ``tilt`` load on every source (rows) for one lb·in of overturning along x and y, ``turn`` that
    overturning in every case (2, cases).
    """
    borne: dict[tuple[str, Way], Borne] = {}
    for i, knee in enumerate(influence.knees):
        push, pull = (_borne(path, cases, influence, i, way, (tilt, turn)) for way in (Way.PUSH, Way.PULL))
        mark = knee.brace.mark
        borne[mark, Way.PUSH], borne[mark, Way.PULL] = push, pull
        borne[mark, Way.EITHER] = _greater(push, pull)
    return KneeWeight(borne, _thrusts(path, cases, influence, (tilt, turn)))


def _deflection_row(path: LoadPath, knee: Knee) -> Array:
    """Influence of the sources on the deflection of a beam at a knee, as if no knee were there (in).

    Between two stations the moment goes straight, so the beam bends past its chord by a cubic.
    """
    effects = path.effects[knee.beam.mark]
    after = int(np.clip(np.searchsorted(effects.stations, knee.at), 1, effects.stations.size - 1))
    low, high = effects.stations[after - 1], effects.stations[after]
    share = (knee.at - low) / (high - low)
    bent = (knee.at - low) * (high - knee.at) / (6 * effects.values.E * knee.beam.section.I)
    row = (1 - share) * effects.deflection[after - 1] + share * effects.deflection[after]
    row += bent * ((2 - share) * effects.moment[after - 1] + (1 + share) * effects.moment[after])
    return np.asarray(row * effects.values.E / beam_modulus(knee.beam))


def _borne(
    path: LoadPath,
    cases: LateralCases,
    influence: KneeInfluence,
    i: int,
    way: Way,
    laid: tuple[Array, Array],
) -> Borne:
    knee, force = influence.knees[i], influence.force
    worst, push = raising_loads(path, way.value * force[i], "live"), raising_push(path, way.value * force[i])
    dead, snow = dead_for(path, way.value * force[i]), snow_for(path, way.value * force[i])

    def under_all(rows: Array) -> Array:
        weight = np.outer(rows @ dead, cases.D) + np.outer(rows @ worst, cases.L)
        weight = weight + np.outer(rows @ push, cases.G)
        return np.asarray(weight + np.outer(rows @ snow, cases.S) + rows @ laid[0] @ laid[1])

    F = under_all(force)
    c_v, c_p = (float(c[0]) for c in cosines((knee,)))
    own = np.where(np.abs(F[i]) > 1e-9, F[i], 1.0)

    def stiffness(square: float, part: Array) -> Array:
        shared = np.where(np.abs(F[i]) > 1e-9, part[i] @ F / own, part[i, i])
        return np.asarray(square / np.where(np.abs(shared) > square / STIFF, shared, square / STIFF))

    delta_v = under_all(influence.rise[i : i + 1])[0]
    k_v, k_p = stiffness(c_v**2, influence.beam), stiffness(c_p**2, influence.post)
    return Borne(knee, delta_v, k_v, k_p, float(influence.k_b[i]))


def loads_for(
    path: LoadPath,
    influence: KneeInfluence,
    cases: LateralCases,
    which: tuple[int, Way, int],
    laid: tuple[Array, Array],
) -> Array:
    """Load on every source that makes the force in a knee greatest, one way, in one case.

    Parameters: ``which`` number of the knee, the way, the case; ``laid`` load on every source for one lb·in of
    overturning along x and y, and that overturning in every case.
    """
    i, way, case = which
    return pattern_loads(path, cases, case, way.value * influence.force[i]) + laid[0] @ laid[1][:, case]


def pattern_loads(path: LoadPath, cases: LateralCases, case: int, aim: Array) -> Array:
    """Weight on every source in one lateral case, placed so that the effect with this influence is greatest."""
    weight = dead_for(path, aim) * cases.D[case] + raising_loads(path, aim, "live") * cases.L[case]
    weight = weight + raising_push(path, aim) * cases.G[case] + snow_for(path, aim) * cases.S[case]
    return np.asarray(weight)


def _greater(one: Borne, other: Borne) -> Borne:
    """In every case the one with the greater force, whatever its sign."""
    run = Calculation().run
    first = (np.abs(one.force(run)) >= np.abs(other.force(run)))[0]

    def pick(name: str) -> Array:
        return np.asarray(np.where(first, getattr(one, name), getattr(other, name)))

    return Borne(one.knee, pick("delta_v"), pick("k_v"), pick("k_p"), one.k_b)


def post_push(influence: KneeInfluence, mark: str, which: int) -> Array:
    """Lateral push on a post, towards the end of its beam, from a pound of push in each of its knees."""
    _, c_p = cosines(influence.knees)
    own = [
        k.brace.support == mark and p[1] == which
        for k, p in zip(influence.knees, influence.places, strict=True)
    ]
    return np.asarray(-np.array([k.side for k in influence.knees]) * c_p * np.array(own))


def _thrusts(
    path: LoadPath, cases: LateralCases, influence: KneeInfluence, laid: tuple[Array, Array]
) -> dict[tuple[str, int], Array]:
    """Greatest lateral push of the knees of each post on it, either way, in each of its directions."""
    found = {}
    posts = dict.fromkeys(
        (k.brace.support, p[1]) for k, p in zip(influence.knees, influence.places, strict=True)
    )
    for mark, which in posts:
        row = post_push(influence, mark, which) @ influence.force
        env = envelope(path, row[None, :])
        steady = env.D[0] * cases.D + row @ laid[0] @ laid[1]
        most = steady + env.S_most[0] * cases.S + env.L_most[0] * cases.L + env.guard_most[0] * cases.G
        least = steady + env.S_least[0] * cases.S + env.L_least[0] * cases.L + env.guard_least[0] * cases.G
        found[mark, which] = np.maximum(np.abs(most), np.abs(least))
    return found
