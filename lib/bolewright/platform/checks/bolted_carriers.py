"""Carriers at the bolts of their knees: bending of what the holes leave, with wind and sway."""

from __future__ import annotations

import numpy as np

from bolewright.platform.brace_bolts import BraceBolts
from bolewright.platform.check import Check
from bolewright.platform.checks.carrier_added import added_effect
from bolewright.platform.checks.level import judge_level, start, worse
from bolewright.platform.knees import Knee
from bolewright.platform.sideways import Sideways, State, range_over
from bolewright.timber.adjusted_values import adjusted_bending
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bending import bending_stress
from bolewright.timber.net_section import holes_in_one_section, net_modulus_of_row
from bolewright.units import PSI

AT = 1e-6  # in: a station this near to a knee is at it
HOLES_NOTE = (
    "The holes stand level at mid-depth of the carrier; the share of plies is not counted. Bending sideways is in the "
    "check of both ways."
)


def bolted_carrier_checks(sideways: Sideways) -> list[Check]:
    """Bending at the bolts of every knee, on the net section of its carrier."""
    if sideways.loose:
        return []
    return [
        check
        for knee in sideways.knees
        if knee.bolts
        for check in worse(_bending(sideways, state, knee, knee.bolts) for state in sideways.states)
    ]


def _bending(sideways: Sideways, state: State, knee: Knee, bolts: BraceBolts) -> Check:
    carrier, cases, brace = knee.carrier, sideways.cases, knee.brace
    effects = sideways.path.effects[carrier.mark]
    after = int(np.clip(np.searchsorted(effects.stations, knee.at - AT), 1, effects.stations.size - 1))
    before = after if abs(effects.stations[after] - knee.at) <= AT else after - 1
    rows = np.array([before, after])
    most, least = range_over(sideways.path, effects.moment[rows], cases)
    added = added_effect(sideways, state, carrier, "moment", rows).total
    M = np.maximum(most + added, -(least + added)).max(axis=0)
    n = float(holes_in_one_section(bolts.count, bolts.spacing, 0.0, bolts.diameter))
    d = carrier.section.d
    group = factors(effects.values, Service(wet=carrier.timber.wet, incised=carrier.timber.counts_incised))
    calculation = start(sideways)
    run = calculation.run
    S_n = run(net_modulus_of_row, b=carrier.width, d=d, n=n, D_h=bolts.hole, y=0.0)
    f_b = run(bending_stress, M=M[None, :], S=S_n)
    F_b_p = run(adjusted_bending, F_b=effects.values.F_b, C_D=cases.C_D, C_L=1.0, **group.bending)
    return judge_level(
        calculation,
        sideways,
        state,
        carrier.mark,
        key="beam.bending_at_bolts",
        at=brace.mark,
        demand=f_b,
        capacity=F_b_p,
        unit=PSI,
        says=f"bending of what the holes at {brace.mark} leave",
        notes=(HOLES_NOTE,),
    )
