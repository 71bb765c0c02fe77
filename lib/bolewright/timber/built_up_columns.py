"""Columns of 2 to 5 plies nailed or bolted together (NDS 2018, 15.3).

For columns only: no clause nails up a beam. Axis 1 is in the plane of the plies' depth d_1; axis 2 across
the plies, d_2 the sum of their thicknesses.
"""

from __future__ import annotations

from enum import Enum

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import Ratio, Stress


class PlyFastening(Enum):
    """How the plies of a built-up column are joined."""

    NAILED = "nailed"
    BOLTED = "bolted"


@formula("NDS 2018, 15.3.2.2", confidence="from memory")
def built_up_stability_factor(F_cE: Stress, F_c_star: Stress, c: Ratio, K_f: Ratio) -> Ratio:
    """Column stability factor C_P of a built-up column fastened by 15.3.3 or 15.3.4.

    When it applies: both axes are to be checked, the smaller C_P governs. F'_c need not be taken below
    that of the plies as separate columns (15.3.2, from memory; see
    :func:`bolewright.timber.columns.column_stability_factor`).
    Parameters: F_cE critical buckling stress of the axis (psi); F_c_star compression value with every factor
    but C_P (psi); c 0.8 sawn; K_f from :func:`built_up_coefficient`. Returns: C_P.
    Source: NDS 2018, 15.3.2.2, equation 15.3-1.

    With both stresses alike beta_c is 1.25: 0.6 (1.25 - sqrt(1.5625 - 1.25)).

    >>> round(float(built_up_stability_factor(1000.0, 1000.0, 0.8, 0.6)), 3)
    0.415
    """
    alpha_c: Ratio = F_cE / F_c_star
    beta_c: Ratio = (1 + alpha_c) / (2 * c)
    C_P: Ratio = K_f * (beta_c - sqrt(beta_c**2 - alpha_c / c))
    return C_P


def built_up_coefficient(fastening: PlyFastening, *, across_plies: bool) -> float:
    """K_f: 1.0 about the plies' strong axis; across the plies 0.60 nailed, 0.75 bolted (15.3.2.2).

    >>> built_up_coefficient(PlyFastening.NAILED, across_plies=True)
    0.6
    """
    if not across_plies:
        return 1.0
    return 0.60 if fastening is PlyFastening.NAILED else 0.75


def lamination_faults(*, plies: int, thickness: float) -> tuple[str, ...]:
    """Sentences for what 15.3.1 asks of the plies and is not met.

    2 to 5 plies, each at least 1-1/2 in. thick. They must also be of one depth, full length, and with
    their faces in contact.
    """
    faults = []
    if not 2 <= plies <= 5:
        faults.append(f"a built-up column has 2 to 5 plies, not {plies} (NDS 15.3.1).")
    if thickness < 1.5:
        faults.append(f"each ply is at least 1.5 in. thick, not {thickness:g} in. (NDS 15.3.1).")
    return tuple(faults)


def nailing_faults(
    *,
    D: float,
    nail_length: float,
    plies: int,
    thickness: float,
    depth: float,
    end_distance: float,
    spacing: float,
    edge_distance: float,
    rows: int,
    row_spacing: float | None = None,
) -> tuple[str, ...]:
    """Sentences for what 15.3.3 asks of the nails and is not met; empty when the nailing is as it must be.

    ``D`` nail diameter, ``thickness`` of the thinnest ply, ``depth`` of the plies; ``spacing`` along the
    grain of nails in a row, ``row_spacing`` across it; all in inches. Adjacent nails are to be driven
    from opposite sides.

    Source: NDS 2018, 15.3.3, from memory.
    """
    faults = _spacing_faults(
        "15.3.3",
        [
            ("end distance", end_distance, 15 * D, 18 * D),
            ("spacing in a row", spacing, 20 * D, 6 * thickness),
            ("spacing of rows", row_spacing, 10 * D, 20 * D),
            ("edge distance", edge_distance, 5 * D, 20 * D),
        ],
    )
    wanted = (plies - 1) * thickness + 0.75 * thickness
    if nail_length < wanted - _SLACK:
        faults.append(
            f"nails {nail_length:g} in. long do not pass through every ply and 3/4 into the last one: "
            f"{wanted:g} in. is wanted (NDS 15.3.3.1)."
        )
    return (*faults, *_row_faults(rows, depth, thickness, "15.3.3"))


def bolting_faults(
    *,
    D: float,
    thickness: float,
    depth: float,
    end_distance: float,
    spacing: float,
    edge_distance: float,
    rows: int,
    row_spacing: float | None = None,
    softwood: bool = True,
) -> tuple[str, ...]:
    """Sentences for what 15.3.4 asks of the bolts and is not met; washers under head and nut, nuts tight.

    ``D`` bolt diameter, ``thickness`` of the thinnest ply, ``depth`` of the plies, all in inches.

    Source: NDS 2018, 15.3.4, from memory.
    """
    end_low, end_high = (7.0, 8.4) if softwood else (5.0, 6.0)
    faults = _spacing_faults(
        "15.3.4",
        [
            ("end distance", end_distance, end_low * D, end_high * D),
            ("spacing in a row", spacing, 4 * D, 6 * thickness),
            ("spacing of rows", row_spacing, 1.5 * D, 10 * D),
            ("edge distance", edge_distance, 1.5 * D, 10 * D),
        ],
    )
    return (*faults, *_row_faults(rows, depth, thickness, "15.3.4"))


_SLACK = 1e-9


def _spacing_faults(clause: str, limits: list[tuple[str, float | None, float, float]]) -> list[str]:
    return [
        f"{what} {value:g} in. is outside {low:g} to {high:g} in. (NDS {clause})."
        for what, value, low, high in limits
        if value is not None and not low - _SLACK <= value <= high + _SLACK
    ]


def _row_faults(rows: int, depth: float, thickness: float, clause: str) -> list[str]:
    if depth > 3 * thickness and rows < 2:
        return [f"plies deeper than 3 times their thickness want 2 or more rows, not {rows} (NDS {clause})."]
    return []
