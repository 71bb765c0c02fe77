"""Built-up beams loaded on one ply: what passes to the other plies, and the bending of the ply that is loaded."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from bolewright.calculation import Calculation
from bolewright.fasteners.connectors import plain_nail
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.group_action import slip_modulus_wood
from bolewright.fasteners.lateral import lateral_design_value
from bolewright.fasteners.loaded_ply import (
    moment_of_loaded_ply,
    moment_till_nailed_end,
    moment_till_nailed_span,
    share_of_load_beside,
    slip_length,
    slip_stiffness,
)
from bolewright.fasteners.members import Wood
from bolewright.fasteners.plies import nails_beside, ply_point_fasteners, ply_point_transfer
from bolewright.mechanics.ties import first_most
from bolewright.platform.analysis.eccentric import OffCentre, off_centre
from bolewright.platform.checks.members import (
    BENT,
    C_D,
    CASES,
    NAMES,
    Look,
    bending_capacity,
    largest_moment,
    look_of,
    unbraced_length,
)
from bolewright.platform.layout.layout import Member
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath
from bolewright.timber.adjusted_values import adjusted_modulus
from bolewright.timber.bending import bending_stress
from bolewright.units import NONE, PSI, feet_inches

Run = Callable[..., Any]
Reaction = Callable[[OffCentre], Array]
"""Greatest load of a member that hangs on a beam, in each case (a row, lb)."""
NAIL = plain_nail(0.128, 3.0, name="10d nail, 3 x 0.128 in.")  # IRC 2021, R507.5
PLY_NOTE = (
    "A member on one face loads the outer ply first; the nails as far as halfway to the next member on that face, and "
    "no farther than the beam is deep, pass on what the other plies bear (statics). 10d nails, 3 x 0.128 in., as "
    "IRC 2021, R507.5, from memory."
)
NEAR_NOTE = "The ply that members near the bolts hang on bends more than its share; of what hangs there counts {said}."
BENDING_NOTE = (
    "Nails give, so that the ply under a load bends more than its even share: the greatest moment of the beam and the "
    "most that one load adds are taken as if at one place. P counts what hangs on the same face nearer than the "
    "length l_s, in part. A bound on the safe side, held to plies and nails solved as a grid."
)


def ply_checks(beam: Look, hung: Sequence[OffCentre], looks: dict[str, Look]) -> list[Check]:
    """Checks of a built-up beam that members hang on: ``hung``, each on one of its faces."""
    return [*_transfer(beam, hung, looks), *_bending(beam, hung, looks)]


@dataclass(frozen=True)
class _Tributary:
    """Length of a beam whose nails stand by one hung member (in)."""

    load: OffCentre
    length: float


def _tributaries(beam: Member, hung: Sequence[OffCentre]) -> list[_Tributary]:
    found = []
    for load in hung:
        places = sorted(other.at for other in hung if other.e * load.e > 0)
        i = places.index(load.at)
        low = (places[i - 1] + load.at) / 2 if i else 0.0
        high = (places[i + 1] + load.at) / 2 if i + 1 < len(places) else beam.line.length
        d = beam.section.d  # nails farther off than the beam is deep are not beside it
        found.append(_Tributary(load, min(load.at - low, d) + min(high - load.at, d)))
    return found


def _transfer(beam: Look, hung: Sequence[OffCentre], looks: dict[str, Look]) -> list[Check]:
    """Fasteners wanted beside the hung member that asks most of them, against those that are there."""
    member = beam.member
    n, ply = member.section.plies, _ply(beam)
    fastened, rows, spacing = _nailing(member)
    checks = []
    for stretch in _tributaries(member, hung):
        load = stretch.load
        calculation = Calculation((1, len(CASES)))
        run = calculation.run
        P = most_reaction(looks[load.member.mark], load)
        try:
            Z_p = lateral_design_value(NAIL, ply, ply, C_D=C_D, calculation=calculation).Z_adj
        except FastenerError:
            return [not_checked(member.mark, "beam.plies", _too_thick(member, load, P))]
        P_t = run(ply_point_transfer, P=P, share_in=1.0, share_borne=1.0 / n)
        wanted = run(ply_point_fasteners, P_t=P_t, Z_p=Z_p)
        there = run(nails_beside, n_rows=rows, l=stretch.length, s=spacing) if fastened else 0.0
        checks += judge(
            calculation,
            [member.mark],
            NAMES,
            key="beam.plies",
            demand=wanted,
            capacity=there,
            unit=NONE,
            says=f"what passes from ply to ply beside {load.member.mark}, in nails,",
            where=_at(load),
            notes=(PLY_NOTE,),
            nothing="nothing passes the load of what hangs on one ply to the others",
        )
    return [max(checks, key=lambda check: check.severity)]


def _too_thick(beam: Member, load: OffCentre, P: Array) -> str:
    return (
        f"What hangs on one face of {beam.mark}, {load.member.mark} with {float(P.max()):,.0f} lb, passes to its other "
        f"plies by what fastens them: a {NAIL.name} reaches less than 6 D past a ply of "
        f"{beam.section.ply_thickness:g} in. (NDS 2018, 12.1.6.5). Take thinner plies, one timber, or bolts that "
        "somebody who may design them gives."
    )


def _at(load: OffCentre) -> Callable[[int, int], str]:
    return lambda row, column: f"{load.member.mark}, at {feet_inches(load.at)} from its start"


def most_reaction(look: Look, load: OffCentre) -> Array:
    """Greatest reaction of a member that hangs on the beam, in each case (lb)."""
    return np.maximum(look.reactions.most(CASES)[:, load.row], 0.0)[None, :]


def _bending(beam: Look, hung: Sequence[OffCentre], looks: dict[str, Look]) -> list[Check]:
    """Bending of the ply that members hang on, where the beam sags and where it hogs: the worse of both."""
    member = beam.member
    if never_reaches(beam):
        return [not_checked(member.mark, "beam.bending_of_ply", _alone(member))]
    first, last = member.seats[0].at, member.seats[-1].at
    checks = []
    for sagging in (True, False):
        M = largest_moment(beam, sagging=sagging)[0]
        if M.max() <= BENT:
            continue
        for load in hung:
            if not sagging or first < load.at < last:
                checks += _bending_under(beam, load, hung, looks, M[None, :], sagging=sagging)
    return [max(checks, key=lambda check: check.severity)] if checks else []


def _bending_under(
    beam: Look,
    load: OffCentre,
    hung: Sequence[OffCentre],
    looks: dict[str, Look],
    M: Array,
    *,
    sagging: bool,
) -> list[Check]:
    member, section = beam.member, beam.member.section
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    l_u = np.array([[unbraced_length(member, beam.path, sagging=sagging)]])
    F_b_p = bending_capacity(run, [beam], l_u, C_D)
    P, beside = np.zeros_like(M), ""
    l_s = run_slip_length(run, beam)
    if l_s is not None:
        P, beside = _with_those_beside(
            load, hung, lambda one: most_reaction(looks[one.member.mark], one), l_s
        )
    M_1 = run_moment_of_ply(run, member, M, P, l_s, sagging=sagging)
    f_b = run(bending_stress, M=M_1, S=section.S / section.plies)
    return judge(
        calculation,
        [member.mark],
        NAMES,
        key="beam.bending_of_ply",
        demand=f_b,
        capacity=F_b_p,
        unit=PSI,
        says=f"{'bending' if sagging else 'negative bending'} of the ply that {load.member.mark} hangs on",
        where=lambda row, column: f"{_at(load)(row, column)}{beside}",
        notes=(BENDING_NOTE,),
    )


def hung_on_a_ply(beam: Look) -> list[OffCentre]:
    """Members that hang on one face of a built-up beam: its loaded ply bends more than its share.

    None where no nail reaches the next ply: the row of the loaded ply is then open.
    """
    hung = [load for load in off_centre(beam.path.layout, beam.member) if load.hung]
    return [] if beam.member.section.plies == 1 or never_reaches(beam) else hung


def run_moment_of_loaded_ply(
    run: Run, beam: Look, reaction: Reaction, M: Array, *, sagging: bool
) -> tuple[Array, float, tuple[str, ...]]:
    """Moment of the ply that members hang on (lb·in), over how many plies it counts, and what hangs on it by case.

    As the check of the loaded ply takes it: the most that any load adds beside the greatest moment of the beam.
    """
    member, hung = beam.member, hung_on_a_ply(beam)
    if not hung:
        return M, 1.0, ()
    n = float(member.section.plies)
    first, last = member.seats[0].at, member.seats[-1].at
    l_s = run_slip_length(run, beam)
    if l_s is None:
        own = ("its own load",) * M.shape[1]
        return run_moment_of_ply(run, member, M, np.zeros_like(M), None, sagging=sagging), n, own
    loads = [load for load in hung if not sagging or first < load.at < last]
    found = [_with_those_beside(load, hung, reaction, l_s) for load in loads]
    if not found:
        return M, 1.0, ()
    each = np.concatenate([P for P, _ in found])
    which = first_most(each, axis=0)
    P = np.where(M > BENT, each[which, np.arange(each.shape[1])], 0.0)
    words = [f"{load.member.mark}{beside}" for load, (_, beside) in zip(loads, found, strict=True)]
    return (
        run_moment_of_ply(run, member, M, P, l_s, sagging=sagging),
        n,
        tuple(np.array(words, dtype=object)[which]),
    )


def reaction_by_weight(path: LoadPath) -> Reaction:
    """Greatest load of a member that hangs on a beam by weight alone."""
    return lambda load: most_reaction(look_of(path, load.member), load)


def run_slip_length(run: Run, beam: Look) -> float | None:
    """Characteristic length of a ply on its nails (in); None where nothing fastens the plies."""
    fastened, rows, spacing = _nailing(beam.member)
    if not fastened:
        return None
    section, n = beam.member.section, float(beam.member.section.plies)
    E_p = run(adjusted_modulus, E=beam.effects.values.E, **beam.factors.modulus)
    gamma = run(slip_modulus_wood, D=NAIL.D)
    k_s = run(slip_stiffness, n_rows=rows, gamma=gamma, s=spacing, n=n)
    return float(run(slip_length, E=E_p, I=section.I / n, k_s=k_s))


def run_moment_of_ply(
    run: Run, member: Member, M: Array, P: Array, l_s: float | None, *, sagging: bool
) -> Array:
    """Moment of the ply that loads hang on (lb·in): its share of the beam's, and what nails that give leave on it."""
    n = float(member.section.plies)
    if l_s is None:  # no other ply bears anything
        return np.asarray(run(moment_of_loaded_ply, M=M, n=1.0, M_t=0.0), dtype=float)
    P_t = run(ply_point_transfer, P=P, share_in=1.0, share_borne=1.0 / n)
    M_t = (
        run(moment_till_nailed_span, P_t=P_t, l_s=l_s)
        if sagging
        else run(moment_till_nailed_end, P_t=P_t, l_s=l_s, s=_nailing(member)[2])
    )
    return np.asarray(run(moment_of_loaded_ply, M=M, n=n, M_t=M_t), dtype=float)


def hung_near(
    hung: Sequence[OffCentre], at: float, l_s: float, reaction: Reaction
) -> tuple[Array | None, str]:
    """What counts at a place of the loads hung near by, in every case on the face with more of it; and which loads."""
    most: Array | None = None
    faces = []
    for face in (1.0, -1.0):
        shares = [
            (load, float(share_of_load_beside(abs(load.at - at), l_s))) for load in hung if load.e * face > 0
        ]
        near = [(load, share) for load, share in shares if share > 0]
        if near:
            P = np.sum([share * reaction(load) for load, share in near], axis=0)
            most = P if most is None else np.maximum(most, P)
            faces.append(" and ".join(f"{share:.2f} of {load.member.mark}" for load, share in near))
    return most, ", or on the other face ".join(faces)


def run_moment_of_ply_at(
    run: Run, beam: Look, at: float, reaction: Reaction, M: Array, *, sagging: bool
) -> tuple[Array, float, str]:
    """Moment at a place of the ply that members near by hang on, over how many plies it counts, and which members."""
    member, hung = beam.member, hung_on_a_ply(beam)
    if not hung:
        return M, 1.0, ""
    n, l_s = float(member.section.plies), run_slip_length(run, beam)
    if l_s is None:
        return run_moment_of_ply(run, member, M, np.zeros_like(M), None, sagging=False), n, "its own load"
    P, said = hung_near(hung, at, l_s, reaction)
    if P is None:
        return M, 1.0, ""
    between = member.seats[0].at < at < member.seats[-1].at
    return run_moment_of_ply(run, member, M, P, l_s, sagging=between and sagging), n, said


def _with_those_beside(
    load: OffCentre, hung: Sequence[OffCentre], reaction: Reaction, l_s: float
) -> tuple[Array, str]:
    """What counts at a load: its own, and a share of each on the same face; which, in words."""
    P, said = reaction(load), []
    for other in hung:
        share = float(share_of_load_beside(abs(other.at - load.at), l_s))
        if other is not load and other.e * load.e > 0 and share > 0:
            P = P + share * reaction(other)
            said.append(f"{share:.2f} of {other.member.mark}")
    return P, f"; with {' and '.join(said)}" if said else ""


def _nailing(beam: Member) -> tuple[bool, float, float]:
    """Whether the plies are fastened, in how many rows, and how far apart in each."""
    timber = beam.timber
    rows, spacing = getattr(timber, "ply_rows", 2), getattr(timber, "ply_spacing", 16.0)
    return bool(getattr(timber, "plies_fastened", True)), float(rows), float(spacing)


def never_reaches(beam: Look) -> bool:
    """Whether the nail is too short for these plies."""
    return not _reaches(_ply(beam))


@lru_cache(maxsize=64)
def _reaches(ply: Wood) -> bool:
    """Whether the nail reaches far enough into the next of such plies; asked for of the same few in every state."""
    try:
        lateral_design_value(NAIL, ply, ply)
    except FastenerError:
        return False
    return True


def _ply(beam: Look) -> Wood:
    return Wood(beam.member.section.ply_thickness, beam.effects.values.G, theta=90.0, name="ply")


def _alone(beam: Member) -> str:
    return (
        f"How much more than its share the loaded ply of {beam.mark} bends hangs on what fastens its plies, and a "
        f"{NAIL.name} does not reach the next ply of {beam.section.ply_thickness:g} in. Take thinner plies, one "
        "timber, or bolts that somebody who may design them gives."
    )
