"""What a guard's posts do to the rim, header or edge joist that their bolts go through: holes, shear, tear-out.

The push outward goes back into the joist or block that the hold-down ties the upper bolt to, and is in that member's
rows. Load down goes through the bolts alone, across the grain of what they go through; a push along the rail goes
along its grain, towards an end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.bracing.cable import end_post_reaction
from bolewright.bracing.gate import gate_bolt_force, gate_moment
from bolewright.bracing.guard import (
    bolt_force_along_rail,
    load_down_on_bolts,
    load_down_on_one_bolt,
    shear_beside_post,
)
from bolewright.bracing.joint import depth_from_loaded_edge
from bolewright.calculation import Calculation
from bolewright.fasteners.geometry import GREATEST_OUTER_ROWS
from bolewright.fasteners.tear_out import row_tear_out
from bolewright.platform.checks.guard_bearing import At
from bolewright.platform.checks.guard_cables import C_D as STAYS
from bolewright.platform.checks.guard_cables import PULL, pull_on_end_post
from bolewright.platform.checks.guard_common import ANY, C_D, CASE, DURATION
from bolewright.platform.checks.members import BENT, CASES, NAMES, look_of
from bolewright.platform.checks.members import C_D as DURATIONS
from bolewright.platform.checks.plies import (
    BENDING_NOTE,
    NEAR_NOTE,
    reaction_by_weight,
    run_moment_of_ply_at,
)
from bolewright.platform.layout.gates import find_gates, leaf_weight
from bolewright.platform.layout.guard_joints import (
    AcrossGrain,
    InFraming,
    bolt_across_grain,
    in_framing,
    places_in_framing,
)
from bolewright.platform.layout.guards import PUSH, GuardPost, along_asked, find_guards
from bolewright.platform.layout.influence import Influence, Integers
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.limit_states.check import Check, Effect, judge, not_checked, nothing_asked, worst
from bolewright.platform.limit_states.state import RATED
from bolewright.platform.loads.combine import Array, Envelope, envelope, member_envelope
from bolewright.platform.loads.load_path import Effects, LoadPath
from bolewright.timber.adjusted_values import adjusted_bending, adjusted_shear
from bolewright.timber.adjustment import Factors
from bolewright.timber.bending import bending_stress
from bolewright.timber.net_section import net_modulus_of_row
from bolewright.timber.shear import (
    connection_near_end,
    connection_shear_away_from_end,
    connection_shear_near_end,
)
from bolewright.units import POUND, PSI, feet_inches

Run = Callable[..., Any]
_ON = 2e-5  # in: a station this near to the bolts is at them, on either side of a couple
PUSHED = np.array([case.guard for case in CASES])
HOLES = "Two holes, taken as far from mid-depth as the farther one; the worst load of every combination beside them."
NEAR = (
    "{mark} ends {end} from the bolts, less than five times its depth, so that (d_e/d)² counts (NDS 2018, "
    "3.4.3.3(a)). A splice counts as an end."
)
AWAY = (
    "{mark} goes on for five times its depth or more from the bolts, without a splice (NDS 2018, 3.4.3.3(b))."
)
SHARED_MEMBER = (
    "C_r {C_r:g} as of any joist here (NDS 2018, 4.3.9: three or more, 24 in. apart at most, joined by decking), "
    "though the post's moment comes to this one first: that the decking shares it is judgement, engineer to confirm."
)
WHOLE = "All of the load down is taken to go one way, beside the worst shear that {mark} has there by itself."
COUNTED = "What the post brings down is in the shear of {mark}, which the block behind the post hangs on."
SHARED = "Both bolts share it: {apart} apart across the grain, 5 in. at most (NDS 2018, 12.5.1.3)."
ALONE = (
    "The bolts are {apart} apart across the grain of {mark}, more than 5 in.: as it dries one may lose its hold (NDS "
    "2018, 12.5.1.3), so that one is taken to bear all of it."
)
TOWARDS = "One bolt towards the nearer end of {mark}, {end} away, the other the other way: a row of one each."
TIED = (
    "The hardware that ties its bolts has fasteners of its own in the joist or block: their end and edge distances are "
    "the maker's, and what their holes leave of it is not calculated here."
)


def guard_framing_checks(path: LoadPath) -> list[Check]:
    """Checks of every post that something takes the moment of, in what its bolts go through."""
    if not path.layout.project.guards:
        return []
    posts = [post for run in find_guards(path.layout) for post in run.posts if post.receiver is not None]
    return [check for post in posts for check in _post(path, post)]


def _post(path: LoadPath, post: GuardPost) -> Iterator[Check]:
    yield _down(path, post, in_framing(path.layout, post))
    looked = [list(_in_piece(path, post, place)) for place in places_in_framing(path.layout, post)]
    # Where two pieces of a rim meet behind a post, either may be the worse.
    for same in zip(*looked, strict=True):
        yield worst(same)[0]


def _in_piece(path: LoadPath, post: GuardPost, place: InFraming) -> Iterator[Check]:
    """Holes, shear and tear-out of one piece that a post's bolts go through."""
    mark = place.member.mark
    if min(place.to_top, place.to_bottom) <= 0:
        why = (
            f"The bolts of {post.mark} lie {post.guard.bolt_edge:g} in. from the edges of the piece that ties it, and "
            f"so not in {mark}, which lies lower or is less deep: level the two, or move the bolts."
        )
        for key in ("guard.framing_bending", "guard.framing_shear", "guard.framing_tear_out"):
            yield not_checked(post.mark, key, why, at=mark)
        return
    effects = path.effects[mark]
    own = look_of(path, place.member).factors
    yield _bending(path, post, place, effects, own)
    yield _shear(path, post, place, effects, own)
    yield _torn(path, post, place, effects, own)


def _load_down(path: LoadPath, post: GuardPost, calculation: Calculation, at: At) -> Array:
    w_g = path.layout.project.loads.guard
    return np.asarray(calculation.run(load_down_on_bolts, P=at.P, w_g=w_g, l=post.holds), dtype=float)


def _down(path: LoadPath, post: GuardPost, place: InFraming | None) -> Check:
    """Load down on the bolts, single shear, across the grain of what they go through."""
    calculation = Calculation((1, 1))
    F_d = _load_down(path, post, calculation, At(path.layout, [post], calculation))
    found = bolt_across_grain(path.layout, post, calculation, vertical=1.0, level=0.0)
    if place is None and post.guard.down_tie is not None:
        return _tied_down(post, calculation, F_d)
    if place is None or not isinstance(found, AcrossGrain):
        reason = f"{post.mark} brings {float(F_d.max()):,.0f} lb down to its bolts. {found}"
        if place is None:
            reason += " Put a rim there, or enter the rated load down of what holds it as down_tie."
        return not_checked(post.mark, "guard.load_down", reason)
    apart = feet_inches(place.apart)
    share = place.apart <= GREATEST_OUTER_ROWS + _ON
    (check,) = judge(
        calculation,
        [post.mark],
        [CASE],
        key="guard.load_down",
        demand=calculation.run(load_down_on_one_bolt, F_d=F_d, n=2.0 if share else 1.0),
        capacity=found.value,
        unit=POUND,
        says="load down on one bolt",
        notes=(
            (SHARED if share else ALONE).format(apart=apart, mark=place.member.mark),
            DURATION,
            TIED,
            *found.notes,
        ),
    )
    return check


def _tied_down(post: GuardPost, calculation: Calculation, F_d: Array) -> Check:
    """Load down where the post stands on a joist's end alone: by the rating of what holds it there."""
    (check,) = judge(
        calculation,
        [post.mark],
        [CASE],
        key="guard.load_down",
        demand=F_d,
        capacity=post.guard.down_tie,
        unit=POUND,
        clause=RATED,
        says="load down at the joist's end",
        notes=(TIED,),
    )
    return check


def _stretch(post: GuardPost, place: InFraming) -> tuple[float, float]:
    """From the bolts to where what takes the post hangs on their piece: its load is there, on either side."""
    seats = () if post.receiver is None else post.receiver.seats
    at = [place.at, *(seat.below_at for seat in seats if seat.below == place.member.mark)]
    return min(at), max(at)


def _greatest(envelopes: Sequence[Envelope]) -> Array:
    """Greatest size of effects in every case, without its sign."""
    found = [way for e in envelopes for way in (e.most(CASES), -e.least(CASES))]
    return np.asarray(np.max([one.max(axis=1) for one in found], axis=0), dtype=float)[None, :]


def _effect(
    path: LoadPath, mark: str, quantity: str, rows: Integers, case: int, wanted: float
) -> Effect | None:
    """Where an effect of a member, such as its shear just left of some stations, is as great as was found."""
    e = member_envelope(path, mark, quantity).at(rows)
    for sign, values in ((1, e.most(CASES)[case]), (-1, -e.least(CASES)[case])):
        at = np.flatnonzero(np.isclose(values, wanted, rtol=1e-9, atol=0.0))
        if at.size:
            return Effect(quantity.replace("_", " "), mark, int(rows[at[0]]), sign)
    return None


def _moments(path: LoadPath, post: GuardPost, place: InFraming, effects: Effects) -> tuple[Array, Array]:
    """Greatest sagging and greatest negative moment at the bolts in every case, on both sides of a couple (lb·in)."""
    e = envelope(path, moments_there(post, place, effects))
    sag, hog = e.most(CASES).max(axis=1)[None, :], -e.least(CASES).min(axis=1)[None, :]
    return np.maximum(sag, 0.0), np.maximum(hog, 0.0)


def moments_there(post: GuardPost, place: InFraming, effects: Effects) -> Influence:
    """Influence on the moments at the bolts, and on both sides of a couple there (rows)."""
    x, ends = effects.stations, _stretch(post, place)
    within = np.flatnonzero((x >= ends[0] - _ON) & (x <= ends[1] + _ON))
    rows = [np.eye(x.size)[within]]
    for at in ends:
        after = min(max(int(np.searchsorted(x, at)), 1), x.size - 1)
        share = (at - x[after - 1]) / (x[after] - x[after - 1])
        row = np.zeros((1, x.size))
        row[0, after - 1 : after + 1] = 1.0 - share, share
        rows.append(row)
    return effects.moment.after(np.concatenate(rows))


def _shear_there(path: LoadPath, post: GuardPost, place: InFraming, effects: Effects) -> Array:
    """Greatest shear at the bolts in every case, on both sides of what hangs there (lb)."""
    left, right = sheared_stations(post, place, effects)
    mark = place.member.mark
    return _greatest(
        [
            member_envelope(path, mark, "shear_left").at(left),
            member_envelope(path, mark, "shear_right").at(right),
        ]
    )


def sheared_stations(post: GuardPost, place: InFraming, effects: Effects) -> tuple[Integers, Integers]:
    """Stations at whose left, and at whose right, the shear at the bolts is looked at."""
    x, (low, high) = effects.stations, _stretch(post, place)
    first, last = int(np.searchsorted(x, low - _ON)), int(np.searchsorted(x, high + _ON, side="right"))
    before, past = max(first - 1, 0), min(last, x.size - 1)
    return np.arange(first, past + 1), np.arange(before, last)


def _bending(path: LoadPath, post: GuardPost, place: InFraming, effects: Effects, own: Factors) -> Check:
    """Bending of the timber behind the post on what the two holes leave of it."""
    member = place.member
    found = [
        _bent(path, post, place, effects, own, M, sagging=sagging)
        for M, sagging in zip(_moments(path, post, place, effects), (True, False), strict=True)
        if float(M.max()) > BENT
    ]
    if not found:
        said = f"{member.mark} is not bent at the bolts of {post.mark} in any case."
        return nothing_asked(post.mark, "guard.framing_bending", said, at=member.mark, case=ANY)
    return worst(found)[0]


def _bent(
    path: LoadPath,
    post: GuardPost,
    place: InFraming,
    effects: Effects,
    own: Factors,
    M: Array,
    *,
    sagging: bool,
) -> Check:
    """Bending one way."""
    member = place.member
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    S_n = run_net_modulus(run, post, place)
    F_b_p = run(adjusted_bending, F_b=effects.values.F_b, C_D=DURATIONS, C_L=1.0, **own.bending)
    look = look_of(path, member)
    C_r = own.bending["C_r"]
    shared = (SHARED_MEMBER.format(C_r=C_r),) if C_r > 1 else ()
    every, M_b = np.arange(effects.stations.size), M
    M, n, said = run_moment_of_ply_at(run, look, place.at, reaction_by_weight(path), M, sagging=sagging)
    (check,) = judge(
        calculation,
        [post.mark],
        NAMES,
        key="guard.framing_bending",
        at=member.mark,
        demand=run(bending_stress, M=M, S=S_n / n),
        capacity=F_b_p,
        unit=PSI,
        says=f"bending of the net section of {member.mark} at its bolts",
        effect=lambda row, column: _effect(path, member.mark, "moment", every, column, float(M_b[0, column])),
        notes=(HOLES, *shared, *((NEAR_NOTE.format(said=said), BENDING_NOTE) if said else ())),
    )
    return check


def run_net_modulus(run: Run, post: GuardPost, place: InFraming) -> float:
    """Section modulus that the two holes leave of the timber behind a post (in³)."""
    section = place.member.section
    y = section.d / 2 - min(place.to_top, place.to_bottom)
    D_h = post.guard.bolt_diameter + 1 / 16
    return float(run(net_modulus_of_row, b=place.member.width, d=section.d, n=2.0, D_h=D_h, y=y))


def hangs_behind(post: GuardPost, member: Member) -> bool:
    """Whether what takes the post's moment hangs on the timber behind it, so that the post's load is in its shear."""
    return post.receiver is not None and any(seat.below == member.mark for seat in post.receiver.seats)


def run_shear_beside(
    path: LoadPath, post: GuardPost, calculation: Calculation, V: Array, pushed: Array
) -> Array:
    """Shear of the timber behind a post with all of the post's load down; ``pushed``: the push in every case."""
    at = At(path.layout, [post], calculation)
    F_d = _load_down(path, post, calculation, at)
    return np.asarray(calculation.run(shear_beside_post, V=V, F_d=F_d - (1 - pushed) * at.P))


def run_shear_value(
    run: Run, place: InFraming, effects: Effects, own: Factors, C_D: Array
) -> tuple[Array, str, str]:
    """Adjusted shear at the bolts (lb) of the timber behind a post, its clause, and in words why that one."""
    member = place.member
    d, b = member.section.d, member.width
    d_e = run(depth_from_loaded_edge, d=d, u=place.to_top)
    F_v_p = run(adjusted_shear, F_v=effects.values.F_v, C_D=C_D, **own.shear)
    near = bool(connection_near_end(place.end, d))
    words = (NEAR if near else AWAY).format(mark=member.mark, end=feet_inches(place.end))
    if near:
        V_r_p = run(connection_shear_near_end, F_v_p=F_v_p, b=b, d=d, d_e=d_e)
    else:
        V_r_p = run(connection_shear_away_from_end, F_v_p=F_v_p, b=b, d_e=d_e)
    return np.asarray(V_r_p), f"NDS 2018, 3.4.3.3({'a' if near else 'b'})", words


def _shear(path: LoadPath, post: GuardPost, place: InFraming, effects: Effects, own: Factors) -> Check:
    """Shear of the timber behind the post, which its bolts press down on, with the depth from the lower edge."""
    member = place.member
    calculation = Calculation((1, len(CASES)))
    V = V_b = _shear_there(path, post, place, effects)
    counted = hangs_behind(post, member)
    if not counted:
        V_b = run_shear_beside(path, post, calculation, V, PUSHED)

    def effect(row: int, column: int) -> Effect | None:
        sides = zip(("shear_left", "shear_right"), sheared_stations(post, place, effects), strict=True)
        found = (_effect(path, member.mark, name, rows, column, float(V[0, column])) for name, rows in sides)
        return next((one for one in found if one), None)

    V_r_p, clause, words = run_shear_value(calculation.run, place, effects, own, DURATIONS)
    (check,) = judge(
        calculation,
        [post.mark],
        NAMES,
        key="guard.framing_shear",
        at=member.mark,
        demand=V_b,
        capacity=V_r_p,
        unit=POUND,
        clause=clause,
        says=f"shear of {member.mark} at its bolts",
        effect=effect,
        notes=(words, (COUNTED if counted else WHOLE).format(mark=member.mark)),
    )
    return check


def _torn(path: LoadPath, post: GuardPost, place: InFraming, effects: Effects, own: Factors) -> Check:
    """What one bolt hands on towards an end of the timber behind the post: of a push, a gate's leaf or cables."""
    member, layout = place.member, path.layout
    found = [_torn_by(post, place, effects, own, force) for force in _along_grain(layout, post)]
    if found:
        return worst(found)[0]
    _, why = along_asked(layout.project, post.guard)
    said = f"Nothing pushes {member.mark} along its grain at the bolts of {post.mark}: {why}."
    return nothing_asked(post.mark, "guard.framing_tear_out", said, at=member.mark, case=ANY)


@dataclass(frozen=True)
class _Along:
    """Force on one bolt of a post along the timber behind it (lb), its steps, case, load duration, and in words."""

    calculation: Calculation
    Z: Array
    case: str
    C_D: float
    says: str
    note: str


def _along_grain(layout: Layout, post: GuardPost) -> Iterator[_Along]:
    """The push along the rail where it is asked, the leaf that hangs on the post, the cables that end at it."""
    guard = post.guard
    if along_asked(layout.project, guard)[0]:
        own = Calculation((1, 1))
        at = At(layout, [post], own, along=True)
        Z = own.run(bolt_force_along_rail, P=at.P, n=float(post.sharing), H=at.H, t=at.t, d=at.d, e=at.e)
        yield _Along(own, Z, CASE, C_D, "a push along the rail", DURATION)
    s = post.depth - 2 * guard.bolt_edge
    for gate in find_gates(layout):
        hung = gate.hung_on is not None and gate.hung_on.mark == post.mark
        if hung and not gate.gate.wheeled and s > 0:
            own = Calculation((1, 1))
            W = leaf_weight(layout, gate)
            M = own.run(gate_moment, P=PUSH, W=W, w=gate.leaf, b=gate.arm)
            Z = own.run(gate_bolt_force, M_g=M, n=float(post.sharing), s=s)
            yield _Along(own, Z, CASE, C_D, f"the couple of {gate.gate.mark}", DURATION)
    for run in find_guards(layout):
        ends = {one.mark for one in (run.posts[0], run.posts[-1])} if run.posts else set()
        cables = run.guard.infill in ("cable", "rope") and run.guard.cable_pull is not None
        if cables and post.mark in ends:
            own, w_c, h = pull_on_end_post(layout, run)
            Z = own.run(end_post_reaction, w_c=w_c, h=h)
            yield _Along(own, Z, "D", STAYS, "the pull of its cables", PULL)


def _torn_by(post: GuardPost, place: InFraming, effects: Effects, own: Factors, force: _Along) -> Check:
    run, member = force.calculation.run, place.member
    F_v_p = run(adjusted_shear, F_v=effects.values.F_v, C_D=force.C_D, **own.shear)
    Z_RT = run(row_tear_out, n_i=1.0, F_v_p=F_v_p, t=member.width, s_crit=place.end)
    (check,) = judge(
        force.calculation,
        [post.mark],
        [force.case],
        key="guard.framing_tear_out",
        at=member.mark,
        demand=force.Z,
        capacity=Z_RT,
        unit=POUND,
        says=f"{force.says}, on one bolt towards the end of {member.mark},",
        notes=(TOWARDS.format(mark=member.mark, end=feet_inches(place.end)), force.note),
    )
    return check
