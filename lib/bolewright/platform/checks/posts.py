"""Posts: buckling about both axes under the load of the platform."""

from __future__ import annotations

import numpy as np

from bolewright.calculation import Calculation
from bolewright.platform.analysis.post_values import post_height, post_timber, post_weight
from bolewright.platform.checks.members import CASES, NAMES
from bolewright.platform.layout.tees import FIXITY
from bolewright.platform.limit_states.check import Check, judge
from bolewright.platform.loads.combine import Array, envelope
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.adjusted_values import (
    adjusted_compression,
    adjusted_minimum_modulus,
    compression_before_stability,
)
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.columns import (
    column_slenderness,
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
    effective_column_length,
)
from bolewright.units import NONE, PSI

SAWN = 0.8  # c of 3.7.1.5
MOST_SLENDER = 50.0


def support_load(path: LoadPath, mark: str) -> Array:
    """Greatest load on a support in each strength case (lb)."""
    return np.maximum(envelope(path, path.load_on(mark)[None, :]).most(CASES)[:, 0], 0.0)


def post_checks(path: LoadPath) -> list[Check]:
    """Checks of every post, about both axes."""
    posts = [s for s in path.layout.supports if s.kind == SupportKind.POST]
    return [check for support in posts for check in _post(path, support)]


def _post(path: LoadPath, support: Support) -> list[Check]:
    post = path.layout.project.posts[support.post or ""]
    section, values = post_timber(path, support)
    group = factors(values, Service(wet=post.wet, incised=post.counts_incised))
    P = support_load(path, support.mark) + post_weight(path, support) * np.array([c.D for c in CASES])
    C_D = np.array([c.C_D for c in CASES])
    axes = (
        [("", section.d)]
        if section.b == section.d
        else [("strong-axis ", section.d), ("weak-axis ", section.b)]
    )
    checks = []
    for axis, d in axes:
        calculation = Calculation((1, len(CASES)))
        run = calculation.run
        l_e = run(effective_column_length, K_e=post.K_e, l=post_height(path, support) + FIXITY)
        slender = run(column_slenderness, l_e=l_e, d=d)
        F_c_star = run(compression_before_stability, F_c=values.F_c, C_D=C_D, **group.compression)
        E_min_p = run(adjusted_minimum_modulus, E_min=values.E_min, **group.modulus)
        F_cE = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=d)
        C_P = run(column_stability_factor, F_cE=F_cE, F_c_star=F_c_star, c=SAWN)
        F_c_p = run(adjusted_compression, F_c=values.F_c, C_D=C_D, C_P=C_P, **group.compression)
        f_c = run(compression_stress, P=P, A=section.A)
        checks += judge(
            calculation,
            [support.mark],
            NAMES,
            key="post.buckling",
            at=axis,
            demand=f_c,
            capacity=F_c_p,
            unit=PSI,
            says="compression against buckling",
        )
        slim = Calculation((1, 1))
        slim.run(column_slenderness, l_e=l_e, d=d)
        checks += judge(
            slim,
            [support.mark],
            ["any"],
            key="post.slenderness",
            at=axis,
            demand=slender,
            capacity=MOST_SLENDER,
            unit=NONE,
            says="its slenderness",
        )
    return checks
