"""Lateral force from the deck through the ends of joists and hung beams, against typed ratings.

Across the beam every end is a rigid support of a continuous beam and every seat pulls it: found here from the beam's
stiffness matrix, solved at once, with very stiff springs. Along it all ends take the same. The pulls at the seats are
printed (lateral model). Ends nearer than 3.9 in. count as one, each of them with all that comes there (judgement).
"""

from __future__ import annotations

from math import hypot

import numpy as np

from audit.hangers import factor, hanger_of
from audit.paper import Member, Row, Site
from audit.quantities import read

Pair = tuple[float, float]
NEAR = 3.9
STIFF = 1e9


def ends_on(site: Site, beam: Member) -> list[tuple[Member, str, float]]:
    """Joists and beams on a beam: how each bears, and where along it."""
    return [
        (m, s.bearing, float((m.start + m.u * s.at - beam.start) @ beam.u))
        for m, s in site.on(beam.mark)
        if m.kind != "blocking"
    ]


def as_one(places: list[float]) -> list[float]:
    groups: list[list[float]] = []
    for place in sorted(places):
        if groups and place - groups[-1][-1] <= NEAR:
            groups[-1].append(place)
        else:
            groups.append([place])
    found = [(group[0] + group[-1]) / 2 for group in groups]
    if len(groups) > 1:
        found[0], found[-1] = groups[0][0], groups[-1][-1]
    return found


def held(places: list[float], at: float, length: float) -> np.ndarray:
    """Forces at rigid supports of a bar of unit stiffness, from a pound at a place of it."""
    if len(places) == 1:
        return np.ones(1)
    nodes = sorted({*places, at, 0.0, length})
    nodes = [x for k, x in enumerate(nodes) if k == 0 or x - nodes[k - 1] > 1e-9]
    K = np.zeros((2 * len(nodes),) * 2)
    for k, L in enumerate(np.diff(nodes)):
        a, b = 6 / L**2, 12 / L**3
        K[2 * k : 2 * k + 4, 2 * k : 2 * k + 4] += np.array(
            [[b, a, -b, a], [a, 4 / L, -a, 2 / L], [-b, -a, b, -a], [a, 2 / L, -a, 4 / L]]
        )
    near = lambda x: 2 * min(range(len(nodes)), key=lambda k: abs(nodes[k] - x))  # noqa: E731
    for place in places:
        K[near(place), near(place)] += STIFF
    pound = np.zeros(len(K))
    pound[near(at)] = 1.0
    moved = np.linalg.solve(K, pound)
    return np.array([STIFF * moved[near(place)] for place in places])


def shares(site: Site, beam: Member, at: float) -> list[float]:
    """What comes to an end at a place of a beam of a pound across at each of its seats."""
    places = as_one([where for *_, where in ends_on(site, beam)])
    own = min(range(len(places)), key=lambda k: abs(places[k] - at))
    return [float(held(places, seat.at, beam.length)[own]) for seat in beam.seats]


def lateral(site: Site, row: Row) -> Pair:
    """Sum of the printed pulls by their shares, and an even part of that along; the file's rating."""
    steps = [a for step, a, _ in row.printed if step == "force_at_end"]
    found = []
    for seat in site.members[row.part].seats:
        if seat.below not in site.members:
            continue
        beam = site.members[seat.below]
        hung = seat.bearing == "hangs from"
        wanted = row.at == beam.mark if row.key == "beam.lateral" else (row.at != "resting") == hung
        if not wanted:
            continue
        for m, _, at in ends_on(site, beam):
            if m.mark == row.part:
                own = [r for r in shares(site, beam, at) if abs(r) > 1e-6]
                if len(own) == len(steps):
                    off = sum(abs(r - a["r"]) for r, a in zip(own, steps, strict=True))
                    found.append((off, own, len(ends_on(site, beam)), hung))
    off, own, n, hung = min(found, key=lambda one: one[0])
    assert row.argument("share_along_beam", "n") == n
    across = sum(r * a["V"] for r, a in zip(own, steps, strict=True))
    if row.has("force_at_end_with_push"):
        across += row.argument("force_at_end_with_push", "T")
    along = row.argument("share_along_beam", "H") / n
    piece = site.piece(row.part)
    if hung:
        hanger = hanger_of(site, row.part)
        Z = read(hanger["rated_lateral"]) * factor(hanger, 1.0)
    else:
        Z = read(piece["lateral_tie"])
    return hypot(across, along) * row.by_frame, Z


AUDIT = {"joist.lateral": lateral, "beam.lateral": lateral}
