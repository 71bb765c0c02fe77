"""Load on the head of a knee brace from a trunk, and the force along it."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.trunk_brace import (
    brace_head_load,
    brace_load_from_lateral,
    trunk_brace_force,
)
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BraceFrame
from bolewright.platform.checks.lateral import Run, run_beam_lateral, run_most_load
from bolewright.platform.layout.trunk_braces import TrunkBrace
from bolewright.platform.loads.combine import Array


def run_head_load(run: Run, lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> Array:
    """Greatest load on the head of a brace in every case: weight, overturning, and lateral force along its beam."""
    i = lateral.row(brace.mark)
    R = np.maximum(run_most_load(run, lateral, state, i), 0.0)
    other = next(
        (
            f.brace
            for f in lateral.frames
            if isinstance(f, BraceFrame)
            and f.brace.beam.mark == brace.beam.mark
            and f.brace.foot.tree == brace.foot.tree
            and f.brace.side != brace.side
        ),
        None,
    )
    if other is None:
        return R
    H_b = run_beam_lateral(lateral, state, brace)
    R_H = run(brace_load_from_lateral, H_b=H_b, a_1=brace.a, r_1=brace.r, a_2=other.a, r_2=other.r)
    return np.asarray(run(brace_head_load, R=R, R_H=R_H))


def run_force(run: Run, lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> Array:
    """Force along a brace in every case, compression (lb)."""
    R = run_head_load(run, lateral, state, brace)
    return np.asarray(run(trunk_brace_force, R=R, a=brace.a, r=brace.r))
