"""Load combinations over the load path: the worst pattern of live load for every effect."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from hashlib import blake2b
from math import nan

import numpy as np
import numpy.typing as npt

from bolewright.mechanics.ties import first_most
from bolewright.platform.layout.actions import ActionKind
from bolewright.platform.layout.influence import Array as Array
from bolewright.platform.layout.influence import Influence, Integers
from bolewright.platform.loads.either import HALF_SNOW, more_on_either, on_the_worse
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.loads.partly import loaded_parts
from bolewright.timber.adjustment import LoadDuration, load_duration_factor
from bolewright.timber.basis import Combination, DesignBasis, LoadType, asd_basis, lrfd_basis

PERSON = "D + one person"
GUARD = "D + L + guard"
UPLIFT_ONLY = ("0.6D + L", "0.6D + S")
LRFD = "LRFD "
OCCUPANCY = 0.8  # lambda of live load from occupancy (NDS 2018, Table N3)


_GRAVITY = (LoadType.DEAD, LoadType.LIVE, LoadType.SNOW)


@cache
def basis() -> DesignBasis:
    """The design basis of the gravity checks: combinations of D, L and S."""
    return asd_basis().with_loads(_GRAVITY)


NO_SIGN = 1e-12  # of the greatest influence: less has no sign
FEW = 8  # effects at a time whose envelope is kept: more are those of a member, which keeps its own
_AT_ONCE = 4_000_000  # numbers of an influence that are worked out at a time


@dataclass(frozen=True)
class Case:
    """One combination as it is run: factors of D, L (worst pattern), S (all or nothing), one person, a guard; C_D.

    By load and resistance factor design C_D is no number and ``time_effect`` is lambda.
    """

    name: str
    D: float
    L: float
    S: float
    person: float
    C_D: float
    guard: float = 0.0
    time_effect: float = nan


def _case(combination: Combination, method: str = "") -> Case:
    factor = combination.factor
    return Case(
        method + combination.name,
        factor(LoadType.DEAD),
        factor(LoadType.LIVE),
        factor(LoadType.SNOW),
        0.0,
        combination.C_D,
        time_effect=combination.time_effect,
    )


def _minutes() -> float:
    """C_D of a push on a guard, which lasts minutes (common practice)."""
    return load_duration_factor(LoadDuration.TEN_MINUTES)


@cache
def strength_cases() -> tuple[Case, ...]:
    """Combinations for strength; one heavy person at the worst spot replaces the live load once.

    The push on a guard comes beside all of the live load (common practice, on the safe side), at one post at a time,
    with C_D 1.6 (common practice); where no guard is a part it is that load alone and never governs.
    """
    cases = [_case(c) for c in basis().combinations if c.name not in UPLIFT_ONLY]
    return (*cases, Case(PERSON, 1.0, 0.0, 0.0, 1.0, 1.0), Case(GUARD, 1.0, 1.0, 0.0, 0.0, _minutes(), 1.0))


@cache
def lrfd_cases() -> tuple[Case, ...]:
    """Combinations for strength by load and resistance factor design, each named so that no row is mistaken.

    One person and the push on a guard are live load of occupancy: factor 1.6, lambda 0.8 (Table N3 names neither; the
    lambda of impact or wind would be greater). Each comes with 0.9D too, where dead load relieves.
    """
    cases = [_case(c, LRFD) for c in lrfd_basis().with_loads(_GRAVITY).combinations]
    for D in (1.2, 0.9):
        cases.append(Case(f"{LRFD}{D}D + 1.6 one person", D, 0.0, 0.0, 1.6, nan, 0.0, OCCUPANCY))
        cases.append(Case(f"{LRFD}{D}D + 1.6L + 1.6 guard", D, 1.6, 0.0, 0.0, nan, 1.6, OCCUPANCY))
    return tuple(cases)


@cache
def uplift_cases() -> tuple[Case, ...]:
    """Combinations for the least reaction: all of strength and, as common practice, 0.6D + L and 0.6D + S.

    One person, and a push on a guard, with all of D too: where D itself lifts a seat, 0.6 of it is the less.
    """
    cases = [_case(c) for c in basis().combinations]
    lighter = Case("0.6D + one person", 0.6, 0.0, 0.0, 1.0, 1.0)
    pushed = Case("0.6D + L + guard", 0.6, 1.0, 0.0, 0.0, _minutes(), 1.0)
    whole = Case(PERSON, 1.0, 0.0, 0.0, 1.0, 1.0), Case(GUARD, 1.0, 1.0, 0.0, 0.0, _minutes(), 1.0)
    return (*cases, lighter, *whole, pushed)


@dataclass(frozen=True)
class Envelope:
    """Greatest and least value of effects (last axis) under each load; ``S`` with snow everywhere alike.

    ``guard`` is the push at the worst post of a guard, one at a time. ``D`` is the greatest, ``D_least`` less only by
    what stands on either of two stretches of deck.
    """

    D: Array
    D_least: Array
    L_most: Array
    L_least: Array
    S: Array
    S_most: Array
    S_least: Array
    person_most: Array
    person_least: Array
    guard_most: Array
    guard_least: Array

    def most(self, cases: tuple[Case, ...]) -> Array:
        """Greatest value in each case: cases x effects."""
        return _factors(cases) @ np.stack(
            (self.D, self.L_most, self.S_most, self.person_most, self.guard_most)
        )

    def least(self, cases: tuple[Case, ...]) -> Array:
        """Least value in each case: cases x effects."""
        return _factors(cases) @ np.stack(
            (self.D_least, self.L_least, self.S_least, self.person_least, self.guard_least)
        )

    @property
    def greatest(self) -> Array:
        """What D, snow, live load and the push on a guard bring to the greatest value: effects x 4."""
        return np.stack([self.D, self.S_most, self.L_most, self.guard_most], axis=1)

    @property
    def smallest(self) -> Array:
        """What they bring to the least value: effects x 4."""
        return np.stack([self.D_least, self.S_least, self.L_least, self.guard_least], axis=1)

    def at(self, rows: slice | npt.NDArray[np.intp]) -> Envelope:
        """Some of the effects."""
        return Envelope(
            self.D[rows],
            self.D_least[rows],
            self.L_most[rows],
            self.L_least[rows],
            self.S[rows],
            self.S_most[rows],
            self.S_least[rows],
            self.person_most[rows],
            self.person_least[rows],
            self.guard_most[rows],
            self.guard_least[rows],
        )


@cache
def _factors(cases: tuple[Case, ...]) -> Array:
    """Factors on D, L, S, the person and a guard in every case (a row)."""
    return np.array([(c.D, c.L, c.S, c.person, c.guard) for c in cases])


def envelope(path: LoadPath, influence: Influence | Array) -> Envelope:
    """Envelope of effects whose influence (effects x sources) is given.

    Live load stands wherever it makes the effect greater (or less), snow in full there and in half elsewhere; the
    person stands on the worst spot. A few effects are asked for again and again, in every state of the ground: they
    are found once.
    """
    reached = influence if isinstance(influence, Influence) else Influence.of(influence)
    if len(reached) > FEW:
        return _envelope(path, reached)
    digest = blake2b(reached.values.tobytes(), digest_size=16)
    digest.update(reached.columns.tobytes())
    key = (f"{len(reached)} effects", digest.hexdigest())
    if key not in path.envelopes:
        path.envelopes[key] = _envelope(path, reached)
    found: Envelope = path.envelopes[key]
    return found


def _envelope(path: LoadPath, reached: Influence) -> Envelope:
    step = max(1, _AT_ONCE // max(1, reached.columns.size))
    if len(reached) > step:
        parts = [
            _envelope(path, reached[np.arange(low, min(low + step, len(reached)))])
            for low in range(0, len(reached), step)
        ]
        return Envelope(
            *(np.concatenate(rows) for rows in zip(*(vars(p).values() for p in parts), strict=True))
        )
    values, columns = reached.values, reached.columns
    person = path.layout.project.loads.person
    first_push, first_spot = np.searchsorted(columns, (path.first_push, path.first_spot))
    on_guards, on_spots = values[:, first_push:first_spot], values[:, first_spot:]
    live, snow = path.live[columns], path.snow[columns]
    raising = np.maximum(values, 0.0)
    partly = partly_raising(path, values, columns)
    most, S = raising @ live + partly("live"), values @ snow
    S_raising, D = raising @ snow + partly("snow"), values @ path.dead[columns]
    more = more_on_either(path.either, _by_action(path, values, columns))
    return Envelope(
        D=D + more.most[ActionKind.DEAD],
        D_least=D + more.least[ActionKind.DEAD],
        L_most=most + more.most[ActionKind.LIVE],
        L_least=values @ live - most + more.least[ActionKind.LIVE],
        S=S,
        S_most=S_raising + HALF_SNOW * (S - S_raising) + more.most[ActionKind.SNOW],
        S_least=HALF_SNOW * S_raising + (S - S_raising) + more.least[ActionKind.SNOW],
        person_most=on_spots.max(axis=1, initial=0.0) * person,
        person_least=on_spots.min(axis=1, initial=0.0) * person,
        guard_most=on_guards.max(axis=1, initial=0.0),
        guard_least=on_guards.min(axis=1, initial=0.0),
    )


def _by_action(path: LoadPath, values: Array, columns: Integers) -> Array:
    """Effects (rows) by the actions of parts, out of an influence."""
    found = np.zeros((len(values), len(path.layout.actions)))
    own = (columns >= path.first_action) & (columns < path.first_spot)
    found[:, columns[own] - path.first_action] = values[:, own]
    return found


def member_envelope(path: LoadPath, mark: str, effect: str) -> Envelope:
    """Envelope of an effect of a member, such as "moment" or "reactions", found once."""
    return _once(path, (mark, effect), lambda: getattr(path.effects[mark], effect))


def support_envelope(path: LoadPath, mark: str) -> Envelope:
    """Envelope of the force that a support gets from what sits on it, found once."""
    return _once(path, (mark, "support"), lambda: path.reactions[mark][None, :])


def _once(path: LoadPath, key: tuple[str, str], influence: Callable[[], Influence | Array]) -> Envelope:
    if key not in path.envelopes:
        path.envelopes[key] = envelope(path, influence())
    found: Envelope = path.envelopes[key]
    return found


def partly_raising(path: LoadPath, values: Array, columns: Integers) -> Callable[[str], Array]:
    """What loads of a kind on pieces of deck over which an influence changes its sign add to each effect.

    Beside what stands at the corners that raise it: see :func:`bolewright.platform.loads.partly.loaded_parts`.
    """
    count = path.first_spot + len(path.spots)
    if columns.size < count:  # what does not reach the effects: a last column of nothing
        values = np.column_stack([values, np.zeros(len(values))])
    small = NO_SIGN * np.abs(values).max(initial=0.0)
    up, down = values > small, values < -small
    place = np.full(count, columns.size)
    place[columns] = np.arange(columns.size)
    corners = place[path.deck.corners]
    some = np.flatnonzero(up.any(axis=0)[corners].any(axis=0) & down.any(axis=0)[corners].any(axis=0))
    corners = corners[:, some]  # at other pieces no effect changes its sign
    mixed = up[:, corners].any(axis=1) & down[:, corners].any(axis=1)
    rows, which = np.nonzero(mixed)
    pieces, at = some[which], values[rows, corners[:, which]]
    more = at * loaded_parts(at) - np.maximum(at, 0.0)

    def added(kind: str) -> Array:
        pounds = (more * path.on_pieces[kind][:, pieces]).sum(axis=0)
        return np.asarray(np.bincount(rows, weights=pounds, minlength=len(values)), dtype=float)

    return added


def raising_loads(path: LoadPath, row: Array, kind: str) -> Array:
    """Live load or snow ("live", "snow") on every source, on that part of the deck where it makes an effect greater.

    ``row`` the effect's influence. Times that it is just what the envelope says of it.
    """
    whole = path.live if kind == "live" else path.snow
    loads = np.where(row > 0, whole, 0.0)
    corners = path.deck.corners
    at = row[corners]
    small = NO_SIGN * np.abs(row).max(initial=0.0)
    mixed = np.flatnonzero((at > small).any(axis=0) & (at < -small).any(axis=0))
    more = (loaded_parts(at[:, mixed]) - (at[:, mixed] > 0)) * path.on_pieces[kind][:, mixed]
    np.add.at(loads, corners[:, mixed], more)
    if kind == "live":
        loads = on_the_worse(path.either, ActionKind.LIVE, path.first_action, row, loads)
    return np.asarray(loads, dtype=float)


def dead_for(path: LoadPath, row: Array) -> Array:
    """Dead load on every source, what may stand on either of two stretches of deck where the effect is greatest."""
    return on_the_worse(path.either, ActionKind.DEAD, path.first_action, row, path.dead)


def raising_push(path: LoadPath, row: Array) -> Array:
    """The push on a guard at the one post where it makes an effect greatest, as load on every source."""
    loads = np.zeros_like(path.live)
    pushes = row[path.first_push : path.first_spot]
    if pushes.size:
        worst = first_most(pushes)
        loads[path.first_push + worst] = float(pushes[worst] > 0)
    return loads


def snow_for(path: LoadPath, row: Array) -> Array:
    """Snow on every source so that the effect with this influence is greatest: full where it adds, half elsewhere.

    Full and half over spans, cantilevers counted as spans: ASCE 7-16, 7.5, written for roofs, by analogy.
    """
    loads = HALF_SNOW * path.snow + (1 - HALF_SNOW) * raising_loads(path, row, "snow")
    return on_the_worse(path.either, ActionKind.SNOW, path.first_action, row, loads)


def worst_loads(path: LoadPath, case: Case, row: Array) -> Array:
    """Load on every source in a case, placed so that the effect with this influence is greatest.

    The live load stands only where it makes the effect greater, snow in full there and in half elsewhere, the person
    on the worst spot, the push on a guard at the worst post.
    """
    loads = (
        case.D * dead_for(path, row)
        + case.S * snow_for(path, row)
        + case.L * raising_loads(path, row, "live")
    )
    if case.person and path.spots:
        spot = path.first_spot + first_most(row[path.first_spot :])
        loads[spot] += case.person * path.layout.project.loads.person * (row[spot] > 0)
    if case.guard:
        loads = loads + case.guard * raising_push(path, row)
    return np.asarray(loads, dtype=float)
