"""Limbs beside the floor, the guard and the way up: taper and slope in straight lines, the flight as a rectangle."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot, radians, tan

import numpy as np

from audit.guards import edge_of, height
from audit.ladders import Ladder
from audit.paper import Row, Site
from audit.places import apart, framing
from audit.quantities import read
from audit.stairs import Flight

Pair = tuple[float, float]
HEAD_ROOM = 80.0  # in (IRC 2021, R311.7.2)
REACH = 12.0  # in beside the flight over which head room is kept (judgement)


def flight(site: Site, what: str) -> tuple[np.ndarray, np.ndarray, np.ndarray, float, float]:
    """Middle of its head, direction along the edge, direction away from the deck, half its breadth, its length."""
    part = site.file[what]
    (x, y), (ux, uy), length = edge_of(site, part["edge"])
    along = read(part.get("along"), length / 2)
    ring = [tuple(read(v) for v in p) for p in site.file["platform"]["outline"]]
    inward = np.mean(ring, axis=0) - np.array([x, y])
    out = np.array([uy, -ux])
    out = out if inward @ out < 0 else -out
    if what == "stairs":
        f = Flight(site)
        return np.array([x + along * ux, y + along * uy]), np.array([ux, uy]), out, f.width / 2, f.L
    l = Ladder(site)
    half = l.clear / 2 + l.rail.b
    # its head at the edge, its foot a slant's run away, and the depth of its rails
    run = l.height / tan(l.pitch) if l.pitch < radians(89.9) else 0.0
    return np.array([x + along * ux, y + along * uy]), np.array([ux, uy]), out, half, run


def way_up(site: Site, row: Row) -> Pair:
    """Beside it: sway, growth in service, a margin, against the room in plan; over it: head room over the floor."""
    limb, room = of(site, row)
    head, u, out, half, length = flight(site, row.at)
    aside, over = float("inf"), float("inf")
    for at, z, r in axis(limb):
        p = at - head
        beside = hypot(max(abs(p @ u) - half, 0.0), max(-(p @ out), p @ out - length, 0.0))
        aside = min(aside, beside - r)
        if beside < r + REACH:
            over = min(over, z - r)
    above = over - read(site.file["platform"]["floor_height"]) - room
    if aside < room and above < float("inf") and above > 0:
        return HEAD_ROOM, above
    return room, aside


def clearance(site: Site, row: Row) -> Pair:
    """Sway, growth in service, a margin; from the bark to boards and framing, or to a guard on any edge, on the slope.

    The limb's axis in straight pieces; what stands there as its plan between two levels.
    """
    limb, room = of(site, row)
    floor = read(site.file["platform"]["floor_height"])
    ring = [np.array([read(v) for v in p]) for p in site.file["platform"]["outline"]]
    if row.at == "the guard":
        edges = [np.array(e) for e in zip(ring, [*ring[1:], ring[0]], strict=True)]
        parts = [(edge, floor, floor + height(site)) for edge in edges]
    else:
        parts = [(np.array(ring), floor - site.deck_thickness, floor)]
        for member in site.members.values():
            corners = framing(site, member).corners
            parts.append((corners[:4, :2], float(corners[:, 2].min()), float(corners[:, 2].max())))
    least = float("inf")
    for p, z, r in axis(limb):
        for plan, low, high in parts:
            least = min(least, hypot(off(p, plan), max(low - z, z - high, 0.0)) - r)
    return room, least


def off(p: np.ndarray, plan: np.ndarray) -> float:
    """Distance in plan of a point from a convex outline, 0 within it; from a line between two points."""
    pairs = list(zip(plan, [*plan[1:], plan[0]], strict=True))
    turns = [(b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) for a, b in pairs]
    if len(plan) > 2 and (min(turns) >= 0 or max(turns) <= 0):
        return 0.0
    return min(apart(p, a, b) for a, b in pairs)


def axis(limb: dict) -> Iterator[tuple[np.ndarray, float, float]]:
    """Places along a limb: in plan, level, radius."""
    a, b = (np.array([read(v) for v in limb[k]]) for k in ("from", "to"))
    for t in np.linspace(0, 1, 401):
        r = (read(limb["start_diameter"]) * (1 - t) + read(limb["end_diameter"]) * t) / 2
        yield a + t * (b - a), read(limb["start_level"]) * (1 - t) + read(limb["end_level"]) * t, r


def of(site: Site, row: Row) -> tuple[dict, float]:
    """A limb, and the room that it asks for."""
    limb = next(l for l in site.file["limb"] if l["mark"] == row.part)
    tree = site.tree(limb["tree"])
    growth = read(limb.get("growth", tree.get("growth")), 0.25) * read(tree.get("service"), 10.0)
    return limb, read(limb["sway"]) + growth + read(tree.get("margin"), 1.0)


AUDIT = {"limb.way_up": way_up, "limb.clearance": clearance}
