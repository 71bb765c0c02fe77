"""Geometry factor C_Delta: end distance, edge distance and spacing of dowels (NDS 2018, 12.5.1).

Rows run along the load. A least distance that is not kept is an error, not a small factor.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy import maximum, minimum

from bolewright.calculation import Calculation
from bolewright.fasteners.errors import FastenerError, GeometryError
from bolewright.fasteners.members import Wood
from bolewright.formulas import formula, make_bare
from bolewright.reference import load
from bolewright.units import INCH, Length, Ratio, Value

GREATEST_OUTER_ROWS = 5.0  # in, across the grain, NDS 2018, 12.5.1.3
_SLACK = 1e-9
_SPACINGS = dict.fromkeys(("spacing", "row_spacing"), INCH)
_DISTANCES = dict.fromkeys(("end", "edge_loaded", "edge"), INCH)


@formula("NDS 2018, 12.5.1.2")
def geometry_factor(a: Length, a_full: Length) -> Ratio:
    """Geometry factor of one distance or spacing: what is there over what C_Delta = 1 wants.

    When it applies: D of 1/4 in. or more, and the distance is not below its least value.
    Parameters: a end distance or spacing, a_full the one for C_Delta = 1.0 (in). Returns: C_Delta, 1 at most.
    Source: NDS 2018, 12.5.1.2 (a) and (c).

    >>> round(float(geometry_factor(3.0, 4.0)), 6)
    0.75
    >>> round(float(geometry_factor(5.0, 4.0)), 6)
    1.0
    """
    C_Delta: Ratio = minimum(a / a_full, 1)
    return C_Delta


@formula("NDS 2018, 12.5.1.2(b)")
def geometry_factor_shear_area(A: Ratio, A_full: Ratio) -> Ratio:
    """Geometry factor of a fastener loaded at an angle to its axis: by shear area.

    Parameters: A shear area that is there, A_full shear area of a parallel member connection with the end
    distance for C_Delta = 1.0, both in the same unit. Returns: C_Delta, 1 at most; below 0.5 is not allowed.
    Source: NDS 2018, 12.5.1.2(b).

    >>> round(float(geometry_factor_shear_area(6.0, 8.0)), 6)
    0.75
    >>> round(float(geometry_factor_shear_area(9.0, 8.0)), 6)
    1.0
    """
    C_Delta: Ratio = minimum(A / A_full, 1)
    return C_Delta


@formula("NDS 2018, Table 12.5.1D", confidence="from memory")
def row_spacing_perpendicular(l: Length, D: Length) -> Length:
    """Least spacing between rows in a member loaded across the grain: 2.5 D to 5 D by l/D.

    Parameters: l bearing length, the lesser of main member and side members together; D diameter (in).
    Returns: s_row (in). Source: NDS 2018, Table 12.5.1D: 2.5 D up to l/D of 2, (5 l + 10 D)/8 between, 5 D from
    l/D of 6.

    >>> float(row_spacing_perpendicular(1.5, 0.75)), float(row_spacing_perpendicular(6.0, 0.75))
    (1.875, 3.75)
    """
    slenderness: Ratio = minimum(maximum(l / D, 2), 6)
    s_row: Length = D * (5 * slenderness + 10) / 8
    return s_row


@dataclass(frozen=True)
class Pattern:
    """Fasteners of one connection: ``in_row`` along the load, ``rows`` side by side, spacings in inches.

    ``shrinkage_provided``: special detailing (slots, separate splice plates) lets the wood shrink between
    outer rows more than 5 in. apart.
    """

    in_row: int = 1
    rows: int = 1
    spacing: float | None = None
    row_spacing: float | None = None
    shrinkage_provided: bool = False

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            in_row: int = 1,
            rows: int = 1,
            spacing: Value | None = None,
            row_spacing: Value | None = None,
            shrinkage_provided: bool = False,
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _SPACINGS)
        if self.in_row < 1 or self.rows < 1:
            raise FastenerError(f"{self.in_row} fasteners in {self.rows} rows: each must be 1 or more")
        if self.in_row > 1 and not self.spacing:
            raise FastenerError(f"{self.in_row} fasteners in a row need their spacing in the row")
        if self.rows > 1 and not self.row_spacing:
            raise FastenerError(f"{self.rows} rows need the spacing between rows")

    @property
    def count(self) -> int:
        """Number of fasteners."""
        return self.in_row * self.rows


@dataclass(frozen=True)
class Distances:
    """Distances of the nearest fastener in one wood member (in); None where that side is far away.

    ``end`` to the member's end; ``toward_end`` when the fastener bears toward that end (tension parallel to
    grain); ``edge_loaded`` to the edge the fastener bears toward, ``edge`` to the other one.
    """

    end: float | None = None
    toward_end: bool = True
    edge_loaded: float | None = None
    edge: float | None = None

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            end: Value | None = None,
            toward_end: bool = True,
            edge_loaded: Value | None = None,
            edge: Value | None = None,
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _DISTANCES)


@dataclass(frozen=True)
class Geometry:
    """Pattern of a connection and the distances in its main and side member."""

    pattern: Pattern = Pattern()
    main: Distances | None = None
    side: Distances | None = None


def member_geometry_factor(
    D: float, member: Wood, distances: Distances | None, pattern: Pattern, l: float, calculation: Calculation
) -> Any:
    """C_Delta of one wood member, the least of end distance and spacing in the row.

    ``l`` is the bearing length of 12.5.1: the lesser of the main member's and of both side members' together.
    A load neither along nor across the grain must keep the rules of both. Raises :class:`GeometryError` that
    names every distance that is too small. Source: NDS 2018, Tables 12.5.1A to 12.5.1D.
    """
    wanted = distances or Distances()
    theta = np.asarray(member.load_angle, dtype=float)
    directions = [
        name for name, there in (("parallel", theta < 90), ("perpendicular", theta > 0)) if there.any()
    ]
    failures: list[str] = []
    factor: Any = 1.0
    table = load("connection_geometry")

    def least_and_full(what: str, actual: float | None, load_case: str, wood: str = "any") -> None:
        nonlocal factor
        if actual is None:
            return
        row = table.row(what=what, load=load_case, wood=wood)
        if actual < row["least"] * D - _SLACK:
            failures.append(
                _short(f"{what.replace('end', 'end distance')} ({load_case})", actual, row["least"], D)
            )
            return
        part = calculation.run(geometry_factor, a=actual, a_full=row["full"] * D)
        factor = minimum(factor, part)

    for direction in directions:
        if direction == "perpendicular":
            least_and_full("end", wanted.end, "perpendicular")
        elif wanted.toward_end:
            wood = "hardwood" if member.hardwood else "softwood"
            least_and_full("end", wanted.end, "parallel tension", wood)
        else:
            least_and_full("end", wanted.end, "parallel compression")
        if pattern.in_row > 1:
            least_and_full("spacing in row", pattern.spacing, direction)
        failures += _edges_and_rows(D, direction, wanted, pattern, l)
    if failures:
        raise GeometryError(f"{member.name}: " + "; ".join(dict.fromkeys(failures)))
    return factor


def _edges_and_rows(D: float, direction: str, distances: Distances, pattern: Pattern, l: float) -> list[str]:
    failures = []
    rows = pattern.row_spacing if pattern.rows > 1 else None
    if direction == "parallel":
        least_edge = 1.5 * D
        if l / D > 6 and rows is not None:
            least_edge = max(least_edge, rows / 2)
        edges = [
            ("edge distance", distances.edge, least_edge),
            ("edge distance", distances.edge_loaded, least_edge),
        ]
        least_rows = 1.5 * D
        across = (pattern.rows - 1) * (rows or 0.0)
    else:
        edges = [
            ("loaded edge distance", distances.edge_loaded, 4 * D),
            ("edge distance", distances.edge, 1.5 * D),
        ]
        least_rows = float(row_spacing_perpendicular(l, D))
        across = (pattern.in_row - 1) * (pattern.spacing or 0.0)
    for what, actual, least in edges:
        if actual is not None and actual < least - _SLACK:
            failures.append(_short(f"{what} ({direction} to grain)", actual, least / D, D))
    if rows is not None and rows < least_rows - _SLACK:
        failures.append(_short(f"spacing between rows ({direction} to grain)", rows, least_rows / D, D))
    if across > GREATEST_OUTER_ROWS + _SLACK and not pattern.shrinkage_provided:
        failures.append(
            f"outer rows are {across:.4g} in. apart across the grain and 5 in. is the most unless the detail "
            "lets the wood shrink (NDS 2018, 12.5.1.3)"
        )
    return failures


def check_lag_withdrawal_geometry(D: float, distances: Distances, spacing: float | None = None) -> None:
    """Least edge, end distance and spacing of lag screws in withdrawal only (NDS 2018, Table 12.5.1E)."""
    table = load("connection_geometry")
    failures = []
    actuals = (
        ("edge", distances.edge),
        ("edge", distances.edge_loaded),
        ("end", distances.end),
        ("spacing in row", spacing),
    )
    for what, actual in actuals:
        least = table.row(what=what, load="lag withdrawal", wood="any")["least"]
        if actual is not None and actual < least * D - _SLACK:
            failures.append(_short(f"{what} (lag screw in withdrawal)", actual, least, D))
    if failures:
        raise GeometryError("; ".join(failures))


def small_dowel_advice(
    D: float,
    member: Wood,
    distances: Distances | None,
    pattern: Pattern,
    *,
    steel_side: bool,
    prebored: bool = False,
) -> list[str]:
    """Sentences where nails or screws under 1/4 in. are closer than the NDS Commentary recommends.

    C_Delta is 1 for them; 12.5.1.1 only asks that the wood does not split. Source: NDS Commentary,
    Table C12.1.6.6.
    """
    wanted = distances or Distances()
    side = "steel" if steel_side else "wood"
    column = "prebored" if prebored else "not_prebored"
    across = bool(np.any(np.asarray(member.load_angle) > 45))
    end = "end distance tension parallel" if wanted.toward_end else "end distance compression parallel"
    edges = [value for value in (wanted.edge, wanted.edge_loaded) if value is not None]
    actuals = [(end, wanted.end), ("edge distance", min(edges, default=None))]
    if pattern.in_row > 1:
        actuals.append((f"spacing in row {'perpendicular' if across else 'parallel'}", pattern.spacing))
    if pattern.rows > 1:
        actuals.append(("row spacing in line", pattern.row_spacing))
    said = []
    for what, actual in actuals:
        wants = load("nail_spacing_practice").row(side=side, what=what)[column] * D
        if actual is not None and actual < wants - _SLACK:
            said.append(
                f"{member.name}: {what} is {actual:.4g} in., the NDS Commentary recommends {wants:.3g} in. "
                f"({column.replace('_', ' ')}) against splitting."
            )
    return said


def _short(what: str, actual: float, least_diameters: float, D: float) -> str:
    return (
        f"{what} is {actual:.4g} in. and {least_diameters:.3g} D = {least_diameters * D:.4g} in. is the least"
    )
