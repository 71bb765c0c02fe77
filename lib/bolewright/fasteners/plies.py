"""Ply-to-ply fastening of built-up beams: the load that must pass between plies, spacing and rows.

Plies that bend together share the load by their stiffness. What enters one ply and belongs to the others
passes the planes between them as lateral load on the fasteners. Statics; no NDS clause covers a beam's plies.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from numpy import abs

from bolewright.calculation import Calculation, Step
from bolewright.fasteners.connectors import Connector, Kind
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.lateral import LateralResult, lateral_design_value
from bolewright.fasteners.members import Wood
from bolewright.fasteners.service import OUTDOORS, Service
from bolewright.formulas import formula
from bolewright.reference import CONFIDENCE, load
from bolewright.units import Force, Length, LineLoad, LineLoadInch, Ratio

_SCHEDULE = "irc_R507_5_ply_nailing"
_STATICS = "Statics of plies that deflect together"


@formula(_STATICS, homogeneous=False)
def load_per_inch(w: LineLoad) -> LineLoadInch:
    """Load per inch of beam.

    Parameters: w load per foot (plf). Returns: w_in (lb/in). Source: 12 in. to the foot.

    >>> round(load_per_inch(600.0), 3)
    50.0
    """
    w_in: LineLoadInch = w / 12
    return w_in


@formula(_STATICS)
def ply_plane_transfer(w_in: LineLoadInch, share_in: Ratio, share_borne: Ratio) -> LineLoadInch:
    """Load per inch that passes the plane between two plies.

    Parameters: w_in load on the beam (lb/in); share_in part of it that enters the plies on one side of the
    plane; share_borne part of it that these plies bear by their stiffness. Returns: q_t (lb/in).
    Source: statics; side load on one face of n like plies: w (n - 1)/n passes the first plane.

    Three like plies, loaded on one face: two thirds pass the first plane.

    >>> round(float(ply_plane_transfer(60.0, 1.0, 1 / 3)), 3)
    40.0
    """
    q_t: LineLoadInch = w_in * abs(share_in - share_borne)
    return q_t


@formula(_STATICS)
def ply_fastener_spacing(n_rows: Ratio, Z_p: Force, q_t: LineLoadInch) -> Length:
    """Greatest spacing along each row of the fasteners between two plies.

    Parameters: n_rows rows; Z_p adjusted lateral value of one fastener (lb); q_t load that passes (lb/in).
    Returns: s (in). Source: statics: n_rows Z' = q_t s.

    >>> round(ply_fastener_spacing(2.0, 100.0, 25.0), 3)
    8.0
    """
    s: Length = n_rows * Z_p / q_t
    return s


@formula(_STATICS)
def ply_point_transfer(P: Force, share_in: Ratio, share_borne: Ratio) -> Force:
    """Part of a concentrated load, as of a hanger, that passes the plane between two plies.

    Parameters: P load (lb); share_in part that enters the plies on one side of the plane; share_borne part that
    these plies bear. Returns: P_t (lb). Source: statics.

    >>> round(float(ply_point_transfer(1200.0, 1.0, 0.5)), 3)
    600.0
    """
    P_t: Force = P * abs(share_in - share_borne)
    return P_t


@formula(_STATICS)
def ply_point_fasteners(P_t: Force, Z_p: Force) -> Ratio:
    """Fasteners wanted beside a concentrated load on one face of a beam.

    Parameters: P_t part of the load that passes the plane; Z_p adjusted lateral value of one fastener (lb).
    Returns: n, to be rounded up. Source: statics.

    >>> round(ply_point_fasteners(600.0, 120.0), 3)
    5.0
    """
    n: Ratio = P_t / Z_p
    return n


@formula(_STATICS)
def nails_beside(n_rows: Ratio, l: Length, s: Length) -> Ratio:
    """Fasteners between two plies that stand by a concentrated load.

    Parameters: n_rows rows; l length of the beam that belongs to the load, s spacing along each row (in).
    Returns: n. Source: geometry.

    >>> nails_beside(2.0, 16.0, 8.0)
    4.0
    """
    n: Ratio = n_rows * l / s
    return n


@dataclass(frozen=True)
class Schedule:
    """Prescriptive fastening of a top-loaded beam's plies, with where it comes from."""

    nail: str
    rows: int
    spacing: float
    source: str


@dataclass(frozen=True)
class PlyFastening:
    """Fastening of a built-up beam.

    ``transfer`` load through each plane (lb/in), ``spacing`` the greatest along each row (in), ``rows``,
    ``governed_by`` statics or the schedule, ``fastener`` the lateral value of one.
    """

    transfer: tuple[Any, ...]
    spacing: float
    rows: int
    governed_by: str
    fastener: LateralResult
    calculation: Calculation
    notes: tuple[str, ...]

    def steps(self) -> tuple[Step, ...]:
        """Steps of the fastener's value, then of the spacing."""
        return (*self.fastener.steps(), *self.calculation.at(()))


def ply_schedule() -> Schedule:
    """IRC R507.5 schedule of a multiple-ply deck beam: 10d nails, two rows, 16 in.

    >>> ply_schedule().rows, ply_schedule().spacing
    (2, 16.0)
    """
    table = load(_SCHEDULE)
    row = next(iter(table))
    source = f"{table.source}, {CONFIDENCE[table.confidence(row)]}"
    return Schedule(str(row["nail"]), int(row["rows"]), float(row["spacing_in"]), source)


def side_loaded(plies: int, from_second_face: float = 0.0) -> tuple[float, ...]:
    """Shares of the load that enter each ply when it hangs on the faces; ``from_second_face`` the far face's share.

    >>> side_loaded(3)
    (1.0, 0.0, 0.0)
    """
    if plies < 2:
        raise FastenerError(f"a beam of {plies} ply has no planes to fasten: 2 plies or more")
    return (1.0 - from_second_face, *([0.0] * (plies - 2)), from_second_face)


def top_loaded(plies: int) -> tuple[float, ...]:
    """Shares of the load that enter each ply when it bears on top of all of them alike."""
    if plies < 2:
        raise FastenerError(f"a beam of {plies} ply has no planes to fasten: 2 plies or more")
    return tuple([1.0 / plies] * plies)


def fasten_plies(
    connector: Connector,
    ply: Wood,
    w: float,
    entering: Sequence[float],
    *,
    rows: int = 2,
    stiffness: Sequence[float] | None = None,
    service: Service = OUTDOORS,
    C_D: float = 1.0,
    schedule: bool = True,
) -> PlyFastening:
    """Greatest spacing of the fasteners between the plies of a beam.

    Parameters: ``connector`` nail, screw or bolt; nails and screws are driven through one ply into the next, from each
    face; ``ply`` one ply; its theta is that of the load, 90 degrees for a beam; ``w`` load per foot of beam (plf);
    ``entering`` share of the load that enters each ply, see :func:`side_loaded` and :func:`top_loaded`; ``rows`` rows
    of fasteners along the beam; ``stiffness`` share that each ply bears; alike unless given; ``service``, ``C_D`` for
    the fastener's adjusted value; ``schedule`` hold the spacing to the IRC R507.5 schedule as well. Returns:
    PlyFastening. Source: statics; NDS 2018 chapter 12 for the fastener; IRC R507.5 for the schedule.
    """
    plies = len(entering)
    borne = tuple(stiffness) if stiffness is not None else tuple([1.0 / plies] * plies)
    if plies < 2 or len(borne) != plies or rows < 1:
        raise FastenerError(
            f"{plies} plies in {rows} rows: 2 plies or more, 1 row or more, a share for each ply"
        )
    for what, shares in (("entering", entering), ("borne", borne)):
        if any(share < 0 for share in shares) or not 1 - 1e-6 < sum(shares) < 1 + 1e-6:
            raise FastenerError(
                f"shares of the load {what} the plies add up to {sum(shares):g}: they must add up to 1"
            )
    if w < 0:
        raise FastenerError(f"load on the beam is {w:g} plf: it must be 0 or more")
    fastener = lateral_design_value(connector, ply, ply, service=service, C_D=C_D)
    calc = Calculation()
    w_in = calc.run(load_per_inch, w=w)
    transfer = tuple(
        calc.run(
            ply_plane_transfer, w_in=w_in, share_in=sum(entering[:plane]), share_borne=sum(borne[:plane])
        )
        for plane in range(1, plies)
    )
    spacing, governed_by = float("inf"), "statics"
    most = max(transfer)
    if most > 1e-9:
        spacing = float(calc.run(ply_fastener_spacing, n_rows=float(rows), Z_p=fastener.Z_adj, q_t=most))
    if schedule:
        prescribed = ply_schedule()
        if spacing > prescribed.spacing:
            governed_by = prescribed.source
            spacing = prescribed.spacing
    notes = list(fastener.notes)
    if schedule and rows < ply_schedule().rows:
        raise FastenerError(
            f"{rows} row of fasteners: {ply_schedule().source} wants {ply_schedule().rows} rows"
        )
    closest = 4 * connector.D if connector.D >= 0.25 else 15 * connector.D
    if spacing < closest:
        raise FastenerError(
            f"{connector.name} in {rows} rows would have to stand {spacing:.3g} in. apart and {closest:.3g} in. is "
            "the closest along the grain: use more rows or a stronger fastener"
        )
    if connector.kind in (Kind.NAIL, Kind.WOOD_SCREW) and plies > 2:
        notes.append("Every plane between plies has its own fasteners, driven from the nearer face.")
    return PlyFastening(transfer, spacing, rows, governed_by, fastener, calc, tuple(notes))
