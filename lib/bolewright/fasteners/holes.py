"""Holes to bore for bolts, lag screws, wood screws and nails (NDS 2018, 12.1)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bolewright.fasteners.connectors import Connector, Kind
from bolewright.fasteners.errors import FastenerError
from bolewright.reference import load


class Hole(StrEnum):
    """Which part of the fastener the hole is for, and of a wood screw how it is loaded."""

    THREAD = "thread"
    SHANK = "shank"
    LATERAL_THREAD = "lateral thread"
    LATERAL_SHANK = "lateral shank"
    WITHDRAWAL_THREAD = "withdrawal thread"


@dataclass(frozen=True)
class HoleRange:
    """Least and greatest hole diameter (in); a least of 0 means that no hole need be bored."""

    least: float
    greatest: float


def hole_diameter(connector: Connector, use: Hole, G: float) -> HoleRange:
    """Hole diameter allowed in wood of specific gravity G.

    Bolts: 1/32 to 1/16 in. over D, whatever ``use``. Raises :class:`FastenerError` for a use that the kind has
    not. Source: NDS 2018, 12.1.3.2, 12.1.4.2, 12.1.5.2, 12.1.5.3, 12.1.6.2.

    >>> from bolewright.fasteners.connectors import lag_screw
    >>> hole_diameter(lag_screw(0.5, 6.0), Hole.THREAD, 0.55)
    HoleRange(least=0.3, greatest=0.375)
    """
    if connector.kind is Kind.BOLT:
        return HoleRange(connector.D + 1 / 32, connector.D + 1 / 16)
    rows = [row for row in load("fastener_lead_holes") if row["kind"] == connector.kind and row["use"] == use]
    for row in rows:
        if row["G_over"] < G <= row["G_up_to"]:
            diameter = connector.D if row["of"] == "D" else connector.D_r
            return HoleRange(row["least"] * diameter, row["most"] * diameter)
    raise FastenerError(f"{connector.name} has no hole for {use.value} in wood of specific gravity {G:g}")
