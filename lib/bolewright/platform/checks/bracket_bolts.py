"""The beam at the bolts that hold it in its bracket: shear beside them when it is lifted, and tear-out along its grain.

Lifted, a beam presses on the underside of these bolts: its lower edge is the loaded one (NDS 2018, 3.4.3.3).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

import numpy as np
import numpy.typing as npt

from bolewright.bracing.joint import depth_from_loaded_edge
from bolewright.bracing.standing import resultant_lateral_force
from bolewright.bracing.tie import LEAST_HOLD_DOWN, hold_down_force
from bolewright.calculation import Calculation
from bolewright.fasteners.tear_out import critical_spacing, row_tear_out
from bolewright.platform.analysis.knee_weight import KneeInfluence
from bolewright.platform.analysis.lateral import LateralAnalysis, State, range_over
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.checks.beam_added import added_effect, lifted_by_knees
from bolewright.platform.checks.joint_shear import TRADED, traded_sizes, whole
from bolewright.platform.checks.lateral import (
    Run,
    judge_lateral,
    open_while_loose,
    run_lateral_force,
    run_load,
    start,
    under_weight,
    weight_on,
    worse,
)
from bolewright.platform.checks.seats import LIFTS
from bolewright.platform.layout.parts import Member, Seat
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array, envelope, uplift_cases
from bolewright.platform.project import Bolt
from bolewright.timber.adjusted_values import adjusted_shear
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.shear import (
    connection_near_end,
    connection_shear_away_from_end,
    connection_shear_near_end,
)
from bolewright.units import POUND

APART = (
    4.0  # diameters from bolt to bolt, and least from the beam's lower edge (NDS 2018, Tables 12.5.1B and C)
)
LIFTED_NOTE = (
    "Lifted, the beam is held down by its bolts alone, which press on the wood under them: d_e is what lies below the "
    "bolts. Asked for 200 lb at least, as a hold-down clip is (common practice), and for the shear beside the bolts "
    "under the loads that lift it. Pressed down, the beam bears on the bracket and its bolts take nothing."
)
ALONG_NOTE = (
    "On the safe side the whole lateral force counts along the grain, in whatever direction it comes."
)


@dataclass(frozen=True)
class BracketBolts:
    """Bolts in a row along a beam, through the side plates of its bracket (in): middle of the row on the seat."""

    count: int
    diameter: float
    height: float
    end: float
    places: tuple[float, ...]

    @property
    def spacing(self) -> float:
        """From bolt to bolt along the beam."""
        return APART * self.diameter


def bracket_bolts(kind: Bolt, member: Member, seat: Seat) -> BracketBolts | None:
    """The bolts that the file names for a bracket, in the beam on it; None where it names none.

    ``height`` of them over the beam's lower edge; ``end`` the distance of the nearest one to the beam's end (in).
    """
    count, D = kind.beam_bolts, kind.beam_bolt_diameter
    if count is None or D is None:
        return None
    half = (count - 1) * APART * D / 2
    start_at, end_at = (cut.at for cut in member.cuts)
    end = min(seat.at - start_at, end_at - seat.at) - half
    height = APART * D if kind.beam_bolt_height is None else kind.beam_bolt_height
    places = tuple(seat.at - half + i * APART * D for i in range(count))
    return BracketBolts(count, D, height, end, places)


def bracket_bolt_checks(lateral: LateralAnalysis) -> list[Check]:
    """Every beam at the bolts of its bracket."""
    if lateral.loose:
        keys = ("beam.shear_at_bolts", "beam.row_tear_out")
        return [
            open_while_loose(lateral, at.member.mark, key, at.mark)
            for at in bolted_in_brackets(lateral)
            for key in keys
        ]
    return [check for at in bolted_in_brackets(lateral) for check in worse(at.judged())]


def bolted_in_brackets(lateral: LateralAnalysis) -> Iterator[BoltedBeam]:
    """Every beam that bolts hold in its bracket."""
    for i, frame in enumerate(lateral.frames):
        if not isinstance(frame, BoltFrame) or frame.placed.bolt.seat != "steel bracket":
            continue
        for member, seat in lateral.path.layout.on_support(frame.support.mark)[:1]:
            bolts = bracket_bolts(frame.placed.bolt, member, seat)
            if bolts is not None:
                yield BoltedBeam(lateral, i, frame.support.mark, member, bolts)


@dataclass(frozen=True)
class BoltedBeam:
    """A beam at the bolts of the bracket on one tree bolt."""

    lateral: LateralAnalysis
    i: int
    mark: str
    member: Member
    bolts: BracketBolts

    @property
    def group(self) -> Factors:
        """Adjustment factors of the beam."""
        timber = self.member.timber
        values = self.lateral.path.effects[self.member.mark].values
        return factors(values, Service(wet=timber.wet, incised=timber.counts_incised))

    @property
    def stations(self) -> Array:
        """Stations of the beam beside the bolts, as ``beside`` picks them (in)."""
        return np.asarray(self.lateral.path.effects[self.member.mark].stations[self.beside()])

    def judged(self) -> list[Check]:
        """Shear and tear-out, with wind and sway in every state, and under weight alone."""
        lateral, checks = self.lateral, [self._under_weight()]
        for state in lateral.states:
            checks += [self._tear_out(state)]
            for weight, slack in weight_on(lateral, self.i, most=False, foot=False):
                calculation = start(lateral)
                R = run_load(calculation.run, state, self.i, weight, foot=False, slack=slack)
                V = np.asarray(calculation.run(hold_down_force, R=R, U_0=LEAST_HOLD_DOWN), dtype=float)
                if float(R.min()) < -LIFTS:
                    V = np.maximum(V, self._shear_while_lifted(state, slack=slack))
                judged = partial(
                    judge_lateral, lateral=lateral, state=state, part=self.member.mark, slack=slack
                )
                checks.append(self._shear(calculation, V, lateral.cases.C_D, judged))
        return checks

    def _under_weight(self) -> Check:
        """The same shear with what weight alone lifts: one person at the worst place, too."""
        lifted = under_weight(self.lateral, self.i, self.member.mark)
        V = np.asarray(lifted.calculation.run(hold_down_force, R=lifted.R, U_0=LEAST_HOLD_DOWN), dtype=float)
        if float(lifted.R.min()) < -LIFTS:
            V = np.maximum(V, self._shear_while_weight_lifts())
        return self._shear(lifted.calculation, V, lifted.C_D, lifted.judged)

    def _shear(self, calculation: Calculation, V: Array, C_D: Array, judged: Callable[..., Check]) -> Check:
        """Shear beside the bolts against what the beam's depth below them takes."""
        run, b, d = calculation.run, self.member.width, self.member.section.d
        F_v_p = self._shear_value(calculation, C_D)
        d_e = run(depth_from_loaded_edge, d=d, u=max(d - self.bolts.height, 0.0))
        near = bool(connection_near_end(self.bolts.end, d))
        if near:
            V_r_p = run(connection_shear_near_end, F_v_p=F_v_p, b=b, d=d, d_e=d_e)
        else:
            V_r_p = run(connection_shear_away_from_end, F_v_p=F_v_p, b=b, d_e=d_e)
        return judged(
            calculation=calculation,
            key="beam.shear_at_bolts",
            at=self.mark,
            demand=V,
            capacity=V_r_p,
            unit=POUND,
            clause="NDS 2018, 3.4.3.3(a)" if near else "NDS 2018, 3.4.3.3(b)",
            says=f"shear at the bolts that hold it down in its bracket on {self.mark}",
            notes=(LIFTED_NOTE,),
        )

    def _tear_out(self, state: State) -> Check:
        """The row of bolts torn out along the grain by lateral force."""
        lateral, bolts = self.lateral, self.bolts
        calculation = start(lateral)
        run = calculation.run
        H = self.run_lateral(run, state)
        F_v_p, end = self._shear_value(calculation, lateral.cases.C_D), max(bolts.end, 0.0)
        s_crit = run(critical_spacing, a_end=end, s=bolts.spacing) if bolts.count > 1 else end
        return judge_lateral(
            calculation,
            lateral,
            state,
            self.member.mark,
            key="beam.row_tear_out",
            at=self.mark,
            demand=H,
            capacity=run(
                row_tear_out, n_i=float(bolts.count), F_v_p=F_v_p, t=self.member.width, s_crit=s_crit
            ),
            unit=POUND,
            says=f"the lateral force at the bolts in its bracket on {self.mark}",
            notes=(ALONG_NOTE,),
        )

    def run_lateral(self, run: Run, state: State) -> Array:
        """Lateral force on the bolts, whatever its direction (1, cases), lb."""
        V = [run_lateral_force(run, self.lateral, state, self.i, which) for which in (0, 1)]
        return np.asarray(run(resultant_lateral_force, V_1=V[0], V_2=V[1]), dtype=float)

    def _shear_value(self, calculation: Calculation, C_D: Array) -> Array:
        values = self.lateral.path.effects[self.member.mark].values
        return np.asarray(
            calculation.run(adjusted_shear, F_v=values.F_v, C_D=C_D, **self.group.shear), dtype=float
        )

    def beside(self) -> npt.NDArray[np.intp]:
        """Stations from the last before the bolts to the first beyond them."""
        stations, places = self.lateral.path.effects[self.member.mark].stations, self.bolts.places
        low = max(int(np.searchsorted(stations, min(places), side="left")) - 1, 0)
        high = min(int(np.searchsorted(stations, max(places), side="right")), stations.size - 1)
        return np.arange(low, high + 1)

    def influences(self, name: str, on: KneeInfluence | None) -> tuple[Array, Array, Array]:
        """An effect beside the bolts by weight, what the beam's knees take of it, and uplift by weight.

        ``on``: influence on the knees while they are tight; None with knees that have slack.
        """
        lateral, path, rows = self.lateral, self.lateral.path, self.beside()
        picked = whole(getattr(path.effects[self.member.mark], name)[rows])
        braces = lateral.brace_reactions.get(self.member.mark)
        taken = np.zeros_like(picked)
        if braces is not None and on is not None:
            taken = np.asarray(getattr(braces, name)[rows] @ lifted_by_knees(on, braces.knees))
        R = path.reactions[self.mark] if on is None else on.caps[self.i]
        return picked - taken, taken, -R

    def _shear_while_weight_lifts(self) -> Array:
        """Greatest shear beside the bolts in the patterns of weight alone that lift the beam, knees tight or not (lb).

        The greatest V of the patterns x with U(x) >= 0 is no more than the greatest of V(x) + t U(x) over all of them,
        for any t >= 0.
        """
        path, cases, greatest = self.lateral.path, uplift_cases(), np.zeros(len(uplift_cases()))
        for on in (*self.lateral.tight, None):
            for name in ("shear_left", "shear_right"):
                V, _, up = self.influences(name, on)
                sizes = [
                    envelope(path, np.concatenate([V + t * up, -V + t * up])).most(cases).max(axis=1)
                    for t in TRADED[:, 0]
                ]
                lifts = envelope(path, up[None, :]).most(cases)[:, 0] > LIFTS
                greatest = np.maximum(greatest, np.where(lifts, np.min(sizes, axis=0), 0.0))
        return greatest[None, :]

    def _shear_while_lifted(self, state: State, *, slack: bool) -> Array:
        """The same with wind and sway in one state (lb)."""
        lateral, path, i = self.lateral, self.lateral.path, self.i
        R_k = state.cap[i] - (state.picked[1][i] if slack else 0.0)
        more_up, greatest = -(state.over[i] + R_k), np.zeros(lateral.cases.count)
        for name in ("shear_left", "shear_right"):
            V, taken, up = self.influences(name, None if slack else lateral.knees_in(state))
            level = added_effect(lateral, state, self.member, name, self.beside()).total
            level = level - taken @ lateral.tilt @ state.turn
            sizes = traded_sizes(path, V, up, lateral.cases, level)
            greatest = np.maximum(greatest, (sizes + TRADED * more_up).min(axis=0))
            lifts = range_over(path, up[None, :], lateral.cases)[0][0] + more_up > LIFTS
        return np.asarray(np.where(lifts, greatest, 0.0))[None, :]
