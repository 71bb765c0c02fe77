"""Joists that keep a beam upright on tree bolts: shares of its torque, as springs along a bar that twists.

One system of equations for the turns of all joists and of the bolt, solved at once; the program goes joist by joist.
Load/slip modulus 180,000 D^1.5 of a nail (NDS 2018, 11.3.6.1), eight 10d nails in a joint (judgement) at its edges;
G = E/16, torsion constant of a rectangle by St Venant's series, each ply by itself.
"""

from __future__ import annotations

from math import pi, tanh

import numpy as np

from audit.paper import Member, Row, Site


def torsion_constant(d: float, t: float) -> float:
    """St Venant's series for a rectangle d x t, d the longer (Timoshenko and Goodier, section 109)."""
    terms = sum(tanh(n * pi * d / (2 * t)) / n**5 for n in range(1, 40, 2))
    return d * t**3 / 3 * (1 - 192 * t / (pi**5 * d) * terms)


def turns(k: list[float], at: list[float], bolt: float, GJ: float) -> np.ndarray:
    """Shares of a torque at ``bolt`` that springs ``k`` at places ``at`` of a bar take: K turns = torque."""
    places = sorted({*at, bolt})
    K = np.zeros((len(places),) * 2)
    for i, (a, b) in enumerate(zip(places, places[1:], strict=False)):
        K[i : i + 2, i : i + 2] += GJ / (b - a) * np.array([[1.0, -1.0], [-1.0, 1.0]])
    for one, place in zip(k, at, strict=True):
        K[places.index(place), places.index(place)] += one
    torque = np.array([float(place == bolt) for place in places])
    turned = np.linalg.solve(K, torque)
    return np.array([one * turned[places.index(place)] for one, place in zip(k, at, strict=True)])


def shares(site: Site, beam: Member, bolt: str) -> dict[str, float]:
    """Share of every joist that holds a beam upright in the torque at one of its bolts, no less than an even one."""
    fields = {f.get("mark", "J"): f for f in site.file["joists"]}
    at, k = {}, {}
    for m, s in site.on(beam.mark):
        if m.kind == "joist" and fields.get(m.field, {}).get("restrains_beam"):
            at[m.mark] = float((m.start + m.u * s.at - beam.start) @ beam.u)
            k[m.mark] = 8 * 180_000 * 0.148**1.5 * site.timber(m.mark).d ** 2 / 4
    t = site.timber(beam.mark)
    GJ = t.E / 16 * t.plies * torsion_constant(t.d, t.b / t.plies)
    place = next(s.at for s in beam.seats if s.below == bolt)
    found = turns(list(k.values()), list(at.values()), place, GJ)
    return {mark: max(float(s), 1 / len(at)) for mark, s in zip(at, found, strict=True)}


def torque(site: Site, row: Row, beam: str, joist: str = "") -> float:
    """Torque that comes to a joist's connection: of every bolt its share of V d, V as printed (lateral model)."""
    member = site.members[beam]
    bolts = [s.below for s in member.seats if site.is_bolt(s.below)]
    if row.at in bolts:
        bolts = [row.at, *(b for b in bolts if b != row.at)]
    printed = [(a, r) for step, a, r in row.printed if step == "torque_at_joist"]
    assert len(printed) == len(bolts)
    if not joist:  # of which of them: the one whose shares these are
        every = [shares(site, member, bolt) for bolt in bolts]
        joist = min(
            every[0], key=lambda m: sum(abs(s[m] - a["s"]) for s, (a, _) in zip(every, printed, strict=True))
        )
    d = site.timber(beam).d
    return sum(
        shares(site, member, bolt)[joist] * abs(a["V"]) * d
        for bolt, (a, _) in zip(bolts, printed, strict=True)
    )
