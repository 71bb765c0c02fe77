"""Beams under wind and sway: biaxial bending with axial force, and shear.

Added to the weight in its worst pattern are what overturning lays on the deck, the brace reaction of knees, lateral
force along the beam, and lateral force across it between its seats and the joists that hold it laterally.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from bolewright.bracing.beam import (
    bending_stress_sum,
    flatwise_section_modulus,
    force_across_beam,
    lateral_moment_from_seat,
)
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import first_most
from bolewright.platform.analysis.eccentric import OffCentre
from bolewright.platform.analysis.knee_weight import KneeInfluence
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.checks.beam_added import (
    Added,
    Terms,
    added_to,
    lateral_moment,
    less,
    lifted_by_knees,
)
from bolewright.platform.checks.beam_rotation import run_seat_load
from bolewright.platform.checks.lateral import Run, judge_lateral, start, unprinted, worse
from bolewright.platform.checks.members import (
    breadth_against_buckling,
    look_of,
    shear_stations,
    unbraced_length,
)
from bolewright.platform.checks.plies import BENDING_NOTE, run_moment_of_loaded_ply
from bolewright.platform.checks.posts import SAWN
from bolewright.platform.layout.influence import Integers
from bolewright.platform.layout.parts import Member
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array, Envelope, envelope, member_envelope
from bolewright.platform.loads.lateral_loads import a_few
from bolewright.timber.adjusted_values import (
    adjusted_bending,
    adjusted_compression,
    adjusted_minimum_modulus,
    adjusted_shear,
    adjusted_tension,
    bending_before_stability,
    compression_before_stability,
)
from bolewright.timber.adjustment import Factors, Service, factors, repetitive_use
from bolewright.timber.bending import (
    BendingCase,
    beam_stability_factor,
    bending_stress,
    critical_buckling_bending,
    effective_length,
    effective_length_coefficients,
    slenderness_ratio,
)
from bolewright.timber.built_up_columns import built_up_stability_factor
from bolewright.timber.columns import (
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
)
from bolewright.timber.combined import bending_and_compression, bending_and_tension, tension_stress
from bolewright.timber.shear import shear_stress
from bolewright.units import NONE, PSI, feet_inches

NAILED = 0.60  # K_f across plies that nails join (NDS 2018, 15.3.2.4)
EDGE_NOTE = (
    "The lower edge is taken as held at the supports only, for both signs of moment; lateral forces along the beam "
    "all count in its worst section; laterally its plies bend each by itself, with no C_fu. Knees are taken as they "
    "take up weight, and as if they had slack and took none; the worse counts."
)
NEARLY = 0.85  # a station that gets less of the most in a third of the directions is not the worst in any


def beam_lateral_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every beam under wind and sway."""
    if lateral.loose:
        return []
    checks: list[Check] = []
    for beam in lateral.path.layout.beams:
        counted = shear_stations(beam, lateral.path.effects[beam.mark].stations)
        allowed = _allowed(lateral, beam)
        weights: dict[int, list[_Weight]] = {}
        bent = lateral_moment(lateral, beam)
        found: list[Check] = []
        for state in lateral.states:
            on = lateral.knees_in(state)
            if id(on) not in weights:
                weights[id(on)] = _weights(lateral, beam, counted, on)
            effects = _Effects(lateral, weights[id(on)], added_to(lateral, state, beam, bent, counted))
            found += _bending(lateral, state, beam, effects, allowed)
            found.append(_shear(lateral, state, beam, effects.shear()))
        checks += worse(found)
    return checks


@dataclass(frozen=True)
class _Weight:
    """Weight in its worst patterns, the knees taking none of it or their share; and what they take of overturning.

    Of moment, and of shear just before and just past the stations.
    """

    moment: Envelope
    shear: tuple[Envelope, Envelope]
    taken: tuple[Array, Array, Array] | None = None


def _weights(lateral: LateralAnalysis, beam: Member, counted: Integers, on: KneeInfluence) -> list[_Weight]:
    """Weight on a beam with its knees slack, and with knees that take up weight where it has any."""
    path, effects = lateral.path, lateral.path.effects[beam.mark]
    left, right = (
        member_envelope(path, beam.mark, side).at(counted) for side in ("shear_left", "shear_right")
    )
    found = [_Weight(member_envelope(path, beam.mark, "moment"), (left, right))]
    brace_reactions = lateral.brace_reactions.get(beam.mark)
    if brace_reactions is not None:
        lifted = lifted_by_knees(on, brace_reactions.knees)
        taken = [
            k @ lifted
            for k in (
                brace_reactions.moment,
                brace_reactions.shear_left[counted],
                brace_reactions.shear_right[counted],
            )
        ]
        rows = (effects.moment, effects.shear_left[counted], effects.shear_right[counted])
        tight = [envelope(path, less(own, off)) for own, off in zip(rows, taken, strict=True)]
        tilted = np.asarray(taken[0] @ lateral.tilt), taken[1] @ lateral.tilt, taken[2] @ lateral.tilt
        found.append(_Weight(tight[0], (tight[1], tight[2]), tilted))
    return found


@dataclass(frozen=True)
class _Effects:
    """Effects on a beam in one state, asked for by stations and cases: few of either matter."""

    lateral: LateralAnalysis
    weights: list[_Weight]
    added: Added

    def moment(self, rows: Integers, columns: slice = slice(None), *, sagging: bool) -> Array:
        """Greatest sagging or hogging moment at some stations in some cases; 0 where there is none."""
        found = np.zeros((rows.size, np.arange(self.lateral.cases.count)[columns].size))
        _, here, of_steps = np.intersect1d(rows, self.added.steps, return_indices=True)
        for weight in self.weights:
            terms, past = self.added.moment, self.added.past
            if weight.taken is not None:
                terms, past = terms.less(weight.taken[0]), past.less(weight.taken[0][self.added.steps])
            own = _one_way(self.lateral, weight.moment.at(rows), terms.at(rows), columns, up=sagging)
            at_steps = weight.moment.at(rows[here])
            stepped = _one_way(self.lateral, at_steps, past.at(of_steps), columns, up=sagging)
            own[here] = np.maximum(own[here], stepped)
            np.maximum(found, own, out=found)
        return found

    def across(self, rows: Integers, columns: slice = slice(None)) -> Array:
        """Lateral moment, without sign."""
        terms = self.added.lateral
        return np.abs(terms.unit[rows] @ terms.amount[:, columns])

    def shear(self) -> Array:
        """Greatest shear at any station that counts, in every case; which stations matter is seen over C_D."""
        C_D = self.lateral.cases.C_D
        found = np.zeros(self.lateral.cases.count)
        some = a_few(self.lateral.cases)
        for weight in self.weights:
            for n, (env, terms) in enumerate(
                zip(weight.shear, (self.added.shear_left, self.added.shear_right), strict=True)
            ):
                own = terms if weight.taken is None else terms.less(weight.taken[1 + n])
                rough = (_worst(self.lateral, env, own, some) / C_D[some]).max(axis=1)
                near = np.flatnonzero(rough >= NEARLY * rough.max())
                found = np.maximum(found, _worst(self.lateral, env.at(near), own.at(near)).max(axis=0))
        return found


def _one_way(
    lateral: LateralAnalysis, weight: Envelope, added: Terms, columns: slice = slice(None), *, up: bool
) -> Array:
    """Greatest of an effect, or of its opposite, from weight in its worst pattern and lateral load, in some cases."""
    cases = lateral.cases
    amount = np.vstack([cases.of_weight[:, columns], added.amount[:, columns]])
    unit = np.hstack([weight.greatest if up else weight.smallest, added.unit])
    return np.asarray((unit if up else -unit) @ amount)


def _worst(lateral: LateralAnalysis, weight: Envelope, added: Terms, columns: slice = slice(None)) -> Array:
    """Greatest size of an effect, either way, from weight in its worst pattern and lateral load, in some cases."""
    up, down = (_one_way(lateral, weight, added, columns, up=way) for way in (True, False))
    return np.asarray(np.maximum(up, down, out=up))


def _group(lateral: LateralAnalysis, beam: Member) -> Factors:
    timber = beam.timber
    return factors(
        lateral.path.effects[beam.mark].values,
        Service(wet=timber.wet, incised=timber.counts_incised),
        repetitive=repetitive_use(plies=beam.section.plies),
    )


@dataclass(frozen=True)
class _Allowed:
    """Allowable bending values of a beam in every case and the steps to them, the same in every state."""

    calculation: Calculation
    E_min_p: float
    F_bE: float
    F_b1_p: Array
    F_b2_p: Array
    S_2: float


@dataclass(frozen=True)
class _Bent:
    """Bending both ways at the worst station of every case, with its allowable values."""

    calculation: Calculation
    rows: Integers
    E_min_p: float
    F_bE: float
    F_b1_p: Array
    F_b2_p: Array
    f_b1: Array
    f_b2: Array
    hung: tuple[str, ...]


def _allowed(lateral: LateralAnalysis, beam: Member) -> _Allowed:
    cases, values, group = (
        lateral.cases,
        lateral.path.effects[beam.mark].values,
        _group(lateral, beam),
    )
    section = beam.section
    calculation = start(lateral)
    run = calculation.run
    d, b = section.d, breadth_against_buckling(beam)
    l_u = unbraced_length(beam, lateral.path, sagging=False)
    E_min_p = run(adjusted_minimum_modulus, E_min=values.E_min, **group.modulus)
    k_l, k_d = effective_length_coefficients(BendingCase.OTHER, l_u, d)
    l_e = run(effective_length, l_u=l_u, d=d, k_l=k_l, k_d=k_d)
    F_bE = run(critical_buckling_bending, E_min_p=E_min_p, R_B=run(slenderness_ratio, l_e=l_e, d=d, b=b))
    F_b_star = run(bending_before_stability, F_b=values.F_b, C_D=cases.C_D, **group.bending_star)
    C_L = run(beam_stability_factor, F_bE=F_bE, F_b_star=F_b_star)
    F_b2_p = run(adjusted_bending, F_b=values.F_b, C_D=cases.C_D, C_L=1.0, **group.bending)
    F_b1_p = run(adjusted_bending, F_b=values.F_b, C_D=cases.C_D, C_L=C_L, **group.bending)
    S_2 = run(flatwise_section_modulus, n=float(section.plies), d=d, t=section.ply_thickness)
    return _Allowed(calculation, E_min_p, F_bE, F_b1_p, F_b2_p, S_2)


def _bent(
    lateral: LateralAnalysis,
    state: State,
    beam: Member,
    effects: _Effects,
    allowed: _Allowed,
    *,
    sagging: bool,
) -> _Bent:
    cases, section, calculation = lateral.cases, beam.section, allowed.calculation.branch()
    run, F_b1_p, F_b2_p, S_2 = calculation.run, allowed.F_b1_p, allowed.F_b2_p, allowed.S_2
    some, every = a_few(cases), np.arange(len(effects.weights[0].moment.D))
    rough = effects.moment(every, some, sagging=sagging) / (section.S * F_b1_p[some])
    rough += effects.across(every, some) / (S_2 * F_b2_p[some])
    most = rough.max(axis=1)
    near = np.flatnonzero(most >= NEARLY * most.max())
    M, across = effects.moment(near, sagging=sagging), effects.across(near)
    best, columns = (
        first_most(M / (section.S * F_b1_p) + across / (S_2 * F_b2_p), axis=0),
        np.arange(cases.count),
    )
    rows = near[best]
    M_2 = _run_across(run, lateral, state, beam, effects.added.lateral.unit[rows])
    f_b2 = run(bending_stress, M=np.abs(M_2), S=S_2)
    M_1, n, said = run_moment_of_loaded_ply(
        run,
        look_of(lateral.path, beam),
        lambda load: _most_hung(lateral, state, load),
        M[best, columns][None, :],
        sagging=sagging,
    )  # what it adds is the same at every station: the worst stays the worst
    f_b1 = run(bending_stress, M=M_1, S=section.S / n)
    return _Bent(calculation, rows, allowed.E_min_p, allowed.F_bE, F_b1_p, F_b2_p, f_b1, f_b2, said)


def _run_across(run: Run, lateral: LateralAnalysis, state: State, beam: Member, unit: Array) -> Array:
    """Lateral moment in every case at its station; ``unit`` that of a pound across at each seat (cases, seats)."""
    M_2: Array | float = 0.0
    u = np.array(beam.line.u)
    for n, seat in enumerate(beam.seats):
        if seat.below in lateral.path.reactions:
            i = lateral.row(seat.below)
            way = state.springs[i].axes @ np.array([-u[1], u[0]])
            (c_1, c_2), pushed, still = way, lateral.with_push(state)[i], state.force[i]
            # Along two directions that lie askew to the beam more may be less across it: the greater counts.
            V_1, V_2 = np.where(np.abs(way @ pushed) >= np.abs(way @ still), pushed, still)[:, None, :]
            V = run(force_across_beam, V_1=V_1, V_2=V_2, c_1=float(c_1), c_2=float(c_2))
            M_2 = run(lateral_moment_from_seat, M_b=M_2, m=unit[:, n][None, :], V=V)
    return np.broadcast_to(np.asarray(M_2, dtype=float), (1, lateral.cases.count))


def _most_hung(lateral: LateralAnalysis, state: State, load: OffCentre) -> Array:
    """Greatest load of a member that hangs on a beam, with overturning, in every case (a row, lb)."""
    return run_seat_load(unprinted(), lateral, state, load.member, load.row, most=True)


def _bending(
    lateral: LateralAnalysis, state: State, beam: Member, effects: _Effects, allowed: _Allowed
) -> list[Check]:
    """Bending both ways with axial force, as compression and as tension, sagging and hogging."""
    added, checks = effects.added, []
    for sagging in (True, False):
        bent = _bent(lateral, state, beam, effects, allowed, sagging=sagging)
        other = replace(bent, calculation=bent.calculation.branch())
        checks += [
            _judge_bending(lateral, state, beam, _compressed(lateral, beam, added, bent), "NDS 2018, 3.9.2"),
            _judge_bending(lateral, state, beam, _pulled(lateral, beam, added, other), "NDS 2018, 3.9.1"),
        ]
    return checks


def _judge_bending(
    lateral: LateralAnalysis, state: State, beam: Member, found: tuple[_Bent, Array], clause: str
) -> Check:
    bent, ratio = found
    check = judge_lateral(
        bent.calculation,
        lateral,
        state,
        beam.mark,
        key="beam.bending_lateral",
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        clause=clause,
        says="biaxial bending with wind and sway",
        notes=(EDGE_NOTE, *((BENDING_NOTE,) if bent.hung else ())),
    )
    stations = lateral.path.effects[beam.mark].stations
    place = feet_inches(float(stations[bent.rows[check.index[1]]]))
    on_ply = f", of the ply under {bent.hung[check.index[1]]}" if bent.hung else ""
    return replace(check, where=f"at {place} from its start{on_ply}; {check.where}")


def _compressed(lateral: LateralAnalysis, beam: Member, added: Added, bent: _Bent) -> tuple[_Bent, Array]:
    run, values, C_D = (
        bent.calculation.run,
        lateral.path.effects[beam.mark].values,
        lateral.cases.C_D,
    )
    group, d, b = _group(lateral, beam), beam.section.d, breadth_against_buckling(beam)
    l = unbraced_length(beam, lateral.path, sagging=False)
    F_cE1 = run(critical_buckling_compression, E_min_p=bent.E_min_p, l_e=l, d=d)
    F_cE2 = run(critical_buckling_compression, E_min_p=bent.E_min_p, l_e=l, d=b)
    F_c_star = run(compression_before_stability, F_c=values.F_c, C_D=C_D, **group.compression)
    if beam.section.plies > 1 and b > beam.section.b / beam.section.plies:  # nailed plies slip (15.3.2)
        C_P = run(built_up_stability_factor, F_cE=F_cE2, F_c_star=F_c_star, c=SAWN, K_f=NAILED)
    else:
        C_P = run(column_stability_factor, F_cE=F_cE2, F_c_star=F_c_star, c=SAWN)
    F_c_p = run(adjusted_compression, F_c=values.F_c, C_D=C_D, C_P=C_P, **group.compression)
    f_c = run(compression_stress, P=added.axial[None, :], A=beam.section.A)
    ratio = run(
        bending_and_compression,
        f_c=f_c,
        F_c_p=F_c_p,
        F_cE1=F_cE1,
        F_cE2=F_cE2,
        f_b1=bent.f_b1,
        F_b1_p=bent.F_b1_p,
        f_b2=bent.f_b2,
        F_b2_p=bent.F_b2_p,
        F_bE=bent.F_bE,
    )
    return bent, ratio


def _pulled(lateral: LateralAnalysis, beam: Member, added: Added, bent: _Bent) -> tuple[_Bent, Array]:
    run, values = bent.calculation.run, lateral.path.effects[beam.mark].values
    holes = [k.bolts.hole for k in lateral.knees if k.beam.mark == beam.mark and k.bolts]
    A_n = beam.width * (beam.section.d - max(holes, default=0.0))
    f_t = run(tension_stress, T=added.axial[None, :], A_n=A_n)
    F_t_p = run(adjusted_tension, F_t=values.F_t, C_D=lateral.cases.C_D, **_group(lateral, beam).tension)
    f_b = run(bending_stress_sum, f_b1=bent.f_b1, f_b2=bent.f_b2)
    return bent, run(bending_and_tension, f_t=f_t, F_t_p=F_t_p, f_b=f_b, F_b_star=bent.F_b1_p)


def _shear(lateral: LateralAnalysis, state: State, beam: Member, V: Array) -> Check:
    effects = lateral.path.effects[beam.mark]
    calculation = start(lateral)
    run = calculation.run
    f_v = run(shear_stress, V=V[None, :], b=beam.width, d=beam.section.d)
    group = _group(lateral, beam)
    F_v_p = run(adjusted_shear, F_v=effects.values.F_v, C_D=lateral.cases.C_D, **group.shear)
    return judge_lateral(
        calculation,
        lateral,
        state,
        beam.mark,
        key="beam.shear_lateral",
        demand=f_v,
        capacity=F_v_p,
        unit=PSI,
        says="shear with wind and sway",
    )
