"""Bending, shear, bearing and deflection of joists and beams, from the influence of the load path."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from bolewright.calculation import Calculation
from bolewright.mechanics.serviceability import deflection_in_service, deflection_limit
from bolewright.mechanics.ties import exceeds, first_most
from bolewright.platform.analysis.braced import braced_at
from bolewright.platform.layout.contact import contact_at
from bolewright.platform.layout.layout import Bearing, Kind, Member, Seat
from bolewright.platform.limit_states import limit_state
from bolewright.platform.limit_states.check import Check, Effect, judge, nothing_asked
from bolewright.platform.loads.combine import Array, Case, Envelope, member_envelope, strength_cases
from bolewright.platform.loads.load_path import Effects, LoadPath
from bolewright.platform.loads.strength import Strength, Values, asd_values, strength
from bolewright.timber.adjusted_values import adjusted_modulus
from bolewright.timber.adjustment import Factors, Service, factors, repetitive_use
from bolewright.timber.basis import Method
from bolewright.timber.bearing import bearing_area_factor_for, bearing_stress
from bolewright.timber.bending import (
    BendingCase,
    beam_stability_factor,
    bending_stress,
    critical_buckling_bending,
    effective_length,
    effective_length_coefficients,
    slenderness_ratio,
)
from bolewright.timber.deflection import creep_factor, total_deflection
from bolewright.timber.shear import shear_stress
from bolewright.units import INCH, NONE, PSI, feet_inches

Run = Callable[..., Any]
Cases = tuple[Case, ...]
CASES = strength_cases()
NAMES = tuple(case.name for case in CASES)
C_D = np.array([case.C_D for case in CASES])
BENT = 1.0  # lb·in: a moment of no more is the noise of statics
LEAST_BEARING = 1.5  # in, on wood or metal (IRC 2021, R507.5.1 and R507.6.1)
MOST_SLENDER = 50.0  # NDS 2018, 3.3.3.7
PLIES_NOTE = (
    "Plies that are fastened as IRC 2021, R507.5 asks count as one breadth against lateral buckling, others by one "
    "ply's (judgement: NDS 2018, 15.3 is for columns)."
)
LEAST_NOTE = "1 1/2 in. of bearing on wood or metal over the whole width: IRC 2021, R507.5.1 and R507.6.1, from memory."


@dataclass(frozen=True)
class Look:
    """One member as the checks look at it: its effects, adjustment factors and envelopes."""

    path: LoadPath
    effects: Effects
    factors: Factors
    repetitive: bool

    @property
    def member(self) -> Member:
        """The member."""
        return self.effects.member

    @property
    def strength(self) -> Strength:
        """The design basis of its own bending, shear and bearing: of a joist the file's, else allowable stress."""
        if self.member.kind is not Kind.JOIST:
            return strength(Method.ASD)
        return strength(Method(self.path.layout.project.code.design))

    @property
    def moment(self) -> Envelope:
        """Envelope of the moment at every station."""
        return member_envelope(self.path, self.member.mark, "moment")

    @property
    def deflection(self) -> Envelope:
        """Envelope of the deflection at every station."""
        return member_envelope(self.path, self.member.mark, "deflection")

    @property
    def reactions(self) -> Envelope:
        """Envelope of the reaction at every seat."""
        return member_envelope(self.path, self.member.mark, "reactions")


def look_at(path: LoadPath, member: Member, *, repetitive: bool) -> Look:
    """A member with the factors of its timber."""
    effects = path.effects[member.mark]
    timber = member.timber
    service = Service(wet=timber.wet, incised=timber.counts_incised)
    return Look(path, effects, factors(effects.values, service, repetitive=repetitive), repetitive)


def look_of(path: LoadPath, member: Member) -> Look:
    """A member with the factors of its timber, and whether it is one of several that share loads (NDS 2018, 4.3.9)."""
    if member.kind is Kind.BLOCKING:
        return look_at(path, member, repetitive=False)
    if member.kind is Kind.BEAM:
        return look_at(path, member, repetitive=repetitive_use(plies=member.section.plies))
    field = next(f for f in path.layout.project.joists if f.mark == member.field)
    count = sum(m.field == member.field for m in path.layout.joists)
    return look_at(path, member, repetitive=repetitive_use(members=count, spacing=field.spacing))


def prefix_of(looks: Sequence[Look]) -> str:
    """How the keys of the limit states of these members begin."""
    return prefix(looks[0].member)


def prefix(member: Member) -> str:
    """How the keys of the limit states of a member begin."""
    return {Kind.JOIST: "joist", Kind.BLOCKING: "blocking"}.get(member.kind, "beam")


def _column(values: Sequence[float]) -> Array:
    return np.array(values, dtype=float)[:, None]


def _factor(looks: Sequence[Look], group: str) -> dict[str, Array]:
    """Factors of a group as columns over the members."""
    names = getattr(looks[0].factors, group)
    return {name: _column([getattr(look.factors, group)[name] for look in looks]) for name in names}


def _value(looks: Sequence[Look], name: str) -> Array:
    return _column([getattr(look.effects.values, name) for look in looks])


# ---------------------------------------------------------------------------------------------------------
# Bending


def unbraced_length(member: Member, path: LoadPath, *, sagging: bool) -> float:
    """Greatest length over which the edge in compression is free to move laterally (in).

    Sagging: the top edge is held by decking all along a joist, and on a beam by each joist or beam on or in it.
    Hogging: the bottom edge is held at the seats only. Blocking that keeps the member from turning holds both.
    """
    if sagging and member.kind is not Kind.BEAM:
        return 0.0
    held = [*(seat.at for seat in member.seats), *braced_at(path.layout, member)]
    if sagging:
        framing = (*path.layout.joists, *path.layout.beams)
        held += [seat.below_at for m in framing for seat in m.seats if seat.below == member.mark]
    places = sorted({0.0, *held, member.line.length})
    return max(b - a for a, b in zip(places, places[1:], strict=False))


def breadth_against_buckling(member: Member) -> float:
    """Breadth that holds a member's compression edge in line: of all plies fastened together, of one if not (in)."""
    together = getattr(member.timber, "plies_fastened", True)
    return member.width if together else member.section.ply_thickness


def slenderness_checks(looks: Sequence[Look]) -> list[Check]:
    """Slenderness ratio of bending members, at most 50, over the longer of both edges' unbraced lengths."""
    l_u = _column(
        [max(unbraced_length(look.member, look.path, sagging=s) for s in (True, False)) for look in looks]
    )
    calculation = Calculation((len(looks), 1))
    R_B = run_slenderness(calculation.run, looks, l_u)
    return judge(
        calculation,
        [look.member.mark for look in looks],
        ("any",),
        key=f"{prefix_of(looks)}.slenderness",
        demand=R_B,
        capacity=MOST_SLENDER,
        unit=NONE,
        says="its slenderness ratio",
        notes=(PLIES_NOTE,) if any(look.member.section.plies > 1 for look in looks) else (),
    )


def run_slenderness(run: Run, looks: Sequence[Look], l_u: Array) -> Array:
    """Slenderness ratio of members (a column)."""
    b = _column([breadth_against_buckling(look.member) for look in looks])
    d = _column([look.member.section.d for look in looks])
    k = [
        effective_length_coefficients(BendingCase.OTHER, u, depth)
        for u, depth in zip(l_u[:, 0], d[:, 0], strict=True)
    ]
    l_e = run(effective_length, l_u=l_u, d=d, k_l=_column([x[0] for x in k]), k_d=_column([x[1] for x in k]))
    return np.asarray(run(slenderness_ratio, l_e=l_e, d=d, b=b))


def bending_capacity(run: Run, looks: Sequence[Look], l_u: Array, C_D: Array | float) -> Array:
    """Adjusted bending value of members (a column) whose compression edge is free over ``l_u``; 0 for held."""
    return _bending_value(run, looks, l_u, asd_values(C_D))


def _bending_value(run: Run, looks: Sequence[Look], l_u: Array, by: Values) -> Array:
    F_b = _value(looks, "F_b")
    C_L = 1.0
    if np.any(l_u > 0):
        F_b_star = run(by.F_b_star.formula, F_b=F_b, **by.F_b_star.given, **_factor(looks, "bending_star"))
        E_min = _value(looks, "E_min")
        E_min_p = run(by.E_min.formula, E_min=E_min, **by.E_min.given, **_factor(looks, "modulus"))
        R_B = run_slenderness(run, looks, l_u)
        F_bE = run(critical_buckling_bending, E_min_p=E_min_p, R_B=R_B)
        C_L = run(beam_stability_factor, F_bE=F_bE, F_b_star=F_b_star)
    return np.asarray(run(by.F_b.formula, F_b=F_b, **by.F_b.given, C_L=C_L, **_factor(looks, "bending")))


def _clause(key: str, basis: Strength) -> str:
    """Clause of a row where the basis adds to that of the limit state; else empty."""
    return f"{limit_state(key).clause}; {basis.clause}" if basis.clause else ""


def bending_checks(looks: Sequence[Look], *, sagging: bool) -> list[Check]:
    """Bending between supports (sagging) or over them and on overhangs (hogging)."""
    basis = looks[0].strength
    found = [largest_moment(look, basis.cases, sagging=sagging) for look in looks]
    chosen = [i for i, (moment, _) in enumerate(found) if moment.max() > BENT]
    straight = [
        nothing_asked(
            look.member.mark,
            f"{prefix_of(looks)}.bending",
            f"{look.member.mark} is not bent downwards in any case.",
            unit=PSI,
        )
        for i, look in enumerate(looks)
        if sagging and i not in chosen
    ]
    if not chosen:
        return straight
    picked = [looks[i] for i in chosen]
    M = np.stack([found[i][0] for i in chosen])
    rows = np.stack([found[i][1] for i in chosen])
    l_u = _column([unbraced_length(look.member, look.path, sagging=sagging) for look in picked])
    calculation = Calculation(M.shape)
    run = calculation.run
    F_b_p = _bending_value(run, picked, l_u, basis.values)
    f_b = run(bending_stress, M=M, S=_column([look.member.section.S for look in picked]))

    def where(row: int, column: int) -> str:
        return f"at {feet_inches(float(picked[row].effects.stations[rows[row, column]]))} from its start"

    key = f"{prefix_of(picked)}.{'bending' if sagging else 'negative_bending'}"
    return straight + judge(
        calculation,
        [look.member.mark for look in picked],
        basis.names,
        key=key,
        clause=_clause(key, basis),
        demand=f_b,
        capacity=F_b_p,
        unit=PSI,
        says="bending" if sagging else "negative bending",
        where=where,
        effect=lambda row, column: Effect(
            "moment", picked[row].member.mark, int(rows[row, column]), 1 if sagging else -1
        ),
    )


def largest_moment(look: Look, cases: Cases = CASES, *, sagging: bool) -> tuple[Array, Array]:
    """Largest moment of a member in each case, sagging or hogging (lb·in), and the station it is at."""
    moments = look.moment.most(cases) if sagging else -look.moment.least(cases)
    rows = first_most(moments, axis=1)
    return np.maximum(moments.max(axis=1), 0.0), rows


# ---------------------------------------------------------------------------------------------------------
# Shear and bearing


def shear_checks(looks: Sequence[Look]) -> list[Check]:
    """Shear, at the depth from each support where NDS 3.4.3.1(a) allows it, else right at the support."""
    basis, key = looks[0].strength, f"{prefix_of(looks)}.shear"
    V, rows, effects = zip(*(_largest_shear(look, basis.cases) for look in looks), strict=True)
    calculation = Calculation((len(looks), len(basis.cases)))
    run = calculation.run
    f_v = run(
        shear_stress,
        V=np.stack(V),
        b=_column([look.member.width for look in looks]),
        d=_column([look.member.section.d for look in looks]),
    )
    F_v_p = shear_capacity(run, looks, basis.values)

    def where(row: int, column: int) -> str:
        at = f"at {feet_inches(float(looks[row].effects.stations[rows[row][column]]))}"
        return f"{at} from its start" + (
            ", at its depth from the support" if at_depth(looks[row].member) else ""
        )

    return judge(
        calculation,
        [look.member.mark for look in looks],
        basis.names,
        key=key,
        clause=_clause(key, basis),
        demand=f_v,
        capacity=F_v_p,
        unit=PSI,
        says="shear",
        where=where,
        effect=lambda row, column: effects[row][column],
    )


def shear_capacity(run: Run, looks: Sequence[Look], by: Values) -> Array:
    """Adjusted shear value of members (a column)."""
    F_v = _value(looks, "F_v")
    return np.asarray(run(by.F_v.formula, F_v=F_v, **by.F_v.given, **_factor(looks, "shear")))


def at_depth(member: Member) -> bool:
    """Whether loads within the depth of a support may be left out: bearing below, loads on top (3.4.3.1(a))."""
    if member.kind is Kind.JOIST:
        return not member.hung_loads
    return not member.hung_loads and all(seat.bearing is Bearing.RESTS for seat in member.seats)


def shear_stations(member: Member, stations: Array) -> npt.NDArray[np.intp]:
    """Rows of the stations at which shear counts: all of them where none lies a depth from every seat."""
    counted = np.ones(stations.size, dtype=bool)
    if at_depth(member):
        for seat in member.seats:
            counted &= np.abs(stations - seat.at) >= member.section.d - 1e-6
    return np.flatnonzero(counted if counted.any() else ~counted)


def largest_shear(look: Look) -> Array:
    """Largest shear of a member in each case, without its sign (lb)."""
    return _largest_shear(look, CASES)[0]


def _largest_shear(look: Look, cases: Cases) -> tuple[Array, Array, list[Effect]]:
    """Largest shear in each case without its sign, the station it is at, and where it was read."""
    member, stations = look.member, look.effects.stations
    kept = shear_stations(member, stations)
    sides = [member_envelope(look.path, member.mark, side).at(kept) for side in ("shear_left", "shear_right")]
    ways = [(name, sign) for name in ("shear left", "shear right") for sign in (1, -1)]
    shear = np.stack([way for e in sides for way in (e.most(cases), -e.least(cases))])
    most = shear.max(axis=0)
    rows = kept[first_most(most, axis=1)]
    effects = []
    for case, row in enumerate(rows):
        way = first_most(shear[:, case, np.searchsorted(kept, row)])
        effects.append(Effect(ways[way][0], member.mark, int(row), ways[way][1]))
    return most.max(axis=1), rows, effects


@dataclass(frozen=True)
class BearingSeat:
    """A place of bearing: whose wood is looked at, what bears there, and which of its seats that is."""

    bearing: Look
    upper: Look
    row: int

    @property
    def seat(self) -> Seat:
        """The seat."""
        return self.upper.member.seats[self.row]


def bearing_seats(looks: Sequence[Look], under: Sequence[Look] | None = None) -> list[BearingSeat]:
    """Every seat of members, for their own wood; or for that of the beams ``under`` them that they rest on."""
    if under is None:
        return [BearingSeat(look, look, i) for look in looks for i in range(len(look.member.seats))]
    by_mark = {look.member.mark: look for look in under}
    return [
        BearingSeat(by_mark[seat.below], look, i)
        for look in looks
        for i, seat in enumerate(look.member.seats)
        if seat.bearing is Bearing.RESTS and seat.below in by_mark
    ]


def bearing_checks(looks: Sequence[Look]) -> list[Check]:
    """Bearing across the grain at every seat: of the member itself, and of the beam it rests on."""
    return _bearing(bearing_seats(looks))


def bearing_under_checks(looks: Sequence[Look], above: Sequence[Look]) -> list[Check]:
    """Bearing across the grain on the top of beams, under the members that rest on them."""
    return _bearing(bearing_seats(above, under=looks))


def run_bearing(run: Run, seats: Sequence[BearingSeat], R: Array, by: Values) -> tuple[Array, Array]:
    """Stress across the grain at seats (rows) under their loads, and its adjusted value."""
    b, l_b, to_end = zip(*(_area(s.bearing, s.upper, s.seat) for s in seats), strict=True)
    f_c_perp = run(bearing_stress, R=R, b=_column(b), l_b=_column(l_b))
    C_b = _column([float(bearing_area_factor_for(x, y)) for x, y in zip(l_b, to_end, strict=True)])
    looks = [s.bearing for s in seats]
    value = by.F_c_perp
    F_c_perp = _value(looks, "F_c_perp")
    found = run(value.formula, F_c_perp=F_c_perp, **value.given, C_b=C_b, **_factor(looks, "bearing"))
    return np.asarray(f_c_perp), np.asarray(found)


def _bearing(seats: Sequence[BearingSeat]) -> list[Check]:
    if not seats:
        return []
    looks = [s.bearing for s in seats]
    basis = looks[0].strength
    R = np.stack([np.maximum(s.upper.reactions.most(basis.cases)[:, s.row], 0.0) for s in seats])
    calculation = Calculation((len(seats), len(basis.cases)))
    f_c_perp, F_c_perp_p = run_bearing(calculation.run, seats, R, basis.values)
    under = looks[0] is not seats[0].upper
    key = f"{prefix_of(looks)}.{'bearing_under' if under else 'bearing'}"
    return judge(
        calculation,
        [look.member.mark for look in looks],
        basis.names,
        key=key,
        clause=_clause(key, basis),
        at=[s.upper.member.mark if under else s.seat.below for s in seats],
        demand=f_c_perp,
        capacity=F_c_perp_p,
        unit=PSI,
        says="bearing across the grain",
        effect=lambda row, column: Effect("reaction", seats[row].upper.member.mark, seats[row].row, 1),
    )


def _area(bearing: Look, upper: Look, seat: Seat) -> tuple[float, float, float]:
    """Mean breadth, length along the grain, and distance from the timber's end of a bearing area (in)."""
    member, layout = bearing.member, upper.path.layout
    if seat.bearing is Bearing.HANGS:
        hanger = layout.project.connections.get(seat.connection or "")
        return member.width, hanger.seat_length if hanger else LEAST_BEARING, 0.0
    contact = contact_at(layout, upper.member, seat)
    return *contact.sides(member.line), contact.from_end(member)


def least_bearing_checks(looks: Sequence[Look]) -> list[Check]:
    """Length of bearing over the whole width of every member that rests on beams, caps and brackets.

    A hanger is rated with its own seat.
    """
    seats = [
        (look, contact_at(look.path.layout, look.member, seat), seat)
        for look in looks
        for seat in look.member.seats
        if seat.bearing is Bearing.RESTS
    ]
    if not seats:
        return []
    there = _column([contact.over_whole_width(look.member) for look, contact, _ in seats])
    return judge(
        Calculation(there.shape),
        [look.member.mark for look, _, _ in seats],
        ("any",),
        key=f"{prefix_of(looks)}.least_bearing",
        at=[seat.below for _, _, seat in seats],
        demand=LEAST_BEARING,
        capacity=there,
        unit=INCH,
        says="the least length of bearing",
        notes=(LEAST_NOTE,),
        nothing="part of its width bears on nothing; of a bracket enter seat_across, its width under the beam, where "
        "it is more than its seat is long",
    )


# ---------------------------------------------------------------------------------------------------------
# Deflection


@dataclass(frozen=True)
class _Part:
    """A span or overhang of a member, by the rows of its stations."""

    look: Look
    rows: npt.NDArray[np.intp]
    length: float
    name: str


def _spans(look: Look) -> list[_Part]:
    member, stations = look.member, look.effects.stations
    ends = [0.0, *(seat.at for seat in member.seats), member.line.length]
    parts = []
    for i, (a, b) in enumerate(zip(ends, ends[1:], strict=False)):
        if b - a < 1.0:
            continue
        rows = np.nonzero((stations >= a - 1e-6) & (stations <= b + 1e-6))[0]
        overhang = i in (0, len(ends) - 2)
        parts.append(
            _Part(look, rows, 2 * (b - a) if overhang else b - a, "overhang" if overhang else "span")
        )
    return parts


SHORT_TERM = ((1.0, 0.0), (0.0, 1.0), (0.75, 0.75))
SHORT_NAMES = ("L", "S", "0.75L + 0.75S")


def deflection_checks(looks: Sequence[Look]) -> list[Check]:
    """Deflection under live load and in total with creep, of the worst span or overhang of each member."""
    parts = [part for look in looks for part in _spans(look)]
    owners = [part.look for part in parts]
    limits = looks[0].path.layout.project.limits
    down = [part.look.deflection for part in parts]
    live = _column(
        [
            float(np.maximum(e.L_most[p.rows], -e.L_least[p.rows]).max())
            for e, p in zip(down, parts, strict=True)
        ]
    )
    span = _column([part.length for part in parts])
    E, modulus = _value(owners, "E"), _factor(owners, "modulus")

    calculation = Calculation((len(parts), 1))
    E_p = calculation.run(adjusted_modulus, E=E, **modulus)
    delta = calculation.run(deflection_in_service, delta_E=live, E=E, E_p=E_p)
    allowed = calculation.run(deflection_limit, l=span, n=limits.live)
    checks = _worst_span(
        judge(
            calculation,
            [part.look.member.mark for part in parts],
            ("L",),
            key=f"{prefix_of(looks)}.live_deflection",
            demand=delta,
            capacity=allowed,
            unit=INCH,
            says="the deflection under live load",
            where=lambda row, column: parts[row].name,
        )
    )

    total = Calculation((len(parts), len(SHORT_TERM)))
    E_p = total.run(adjusted_modulus, E=E, **modulus)
    dead, short = zip(*(_long_and_short(part) for part in parts), strict=True)
    delta_LT = total.run(deflection_in_service, delta_E=np.stack(dead), E=E, E_p=E_p)
    delta_ST = total.run(deflection_in_service, delta_E=np.stack(short), E=E, E_p=E_p)
    K_cr = _column([creep_factor(wet=look.member.timber.wet) for look in owners])
    Delta_T = total.run(total_deflection, K_cr=K_cr, delta_LT=delta_LT, delta_ST=delta_ST)
    allowed = total.run(deflection_limit, l=span, n=limits.total)
    checks += _worst_span(
        judge(
            total,
            [part.look.member.mark for part in parts],
            tuple(f"D + {name}" for name in SHORT_NAMES),
            key=f"{prefix_of(looks)}.total_deflection",
            demand=Delta_T,
            capacity=allowed,
            unit=INCH,
            says="the deflection in total, with creep,",
            where=lambda row, column: parts[row].name,
        )
    )
    return checks


def _long_and_short(part: _Part) -> tuple[Array, Array]:
    """Dead and short-term deflection at the station where their sum is largest, for each short-term case."""
    e, rows = part.look.deflection, part.rows
    short = np.stack([l * e.L_most[rows] + s * e.S_most[rows] for l, s in SHORT_TERM])
    worst = first_most(2.0 * e.D[rows] + short, axis=1)
    return np.maximum(e.D[rows][worst], 0.0), np.maximum(short[np.arange(len(SHORT_TERM)), worst], 0.0)


def _worst_span(checks: Sequence[Check]) -> list[Check]:
    by_part: dict[str, Check] = {}
    for check in checks:
        if check.part not in by_part or exceeds(check.severity, by_part[check.part].severity):
            by_part[check.part] = check
    return list(by_part.values())
