"""Springs that share the lateral load, as rows print them: how far a support moves, how stiff it is, the force of both.

A tree bolt across itself: a bar in green wood (Hetenyi 1946, ch. 3) at the end of kappa's range that the row names, in
series with its share of the trunk, a cantilever; along itself that share. A post in concrete without knees or rods: a
cantilever from 12 in. below grade, across its beam pushed at that beam's top; in soil that gives half as stiff.
"""

from __future__ import annotations

from math import hypot, nan, pi

import numpy as np

from audit.bolts import E_STEEL, GREEN, KAPPA, SOFTER, bolt_of, lever, place, sound_radius, tree_of
from audit.paper import Row, Site
from audit.posts import timber_of
from audit.quantities import read

NEAR = 2e-3
HELD = {"tied": (True, True), "slides": (False, True), "slides across": (True, False)}
TAKEN = {"tree bolts at their stiffest": KAPPA[0], "tree bolts at their softest": KAPPA[1]}
FEET = {"fixed base": 1.0, "base on elastic soil": 0.5}


def bar(e: float, L: float, D: float, bed: float) -> float:
    """Force for an inch at e before the wood's face; bed in lb an inch of length, an inch of movement.

    EI y"" + bed y = 0 as a sum of its four exponentials: the pound and its moment at the face, nothing at the tip.
    """
    EI = E_STEEL * pi * D**4 / 64
    m = (bed / (4 * EI)) ** 0.25 * np.array([a + 1j * b for a in (1, -1) for b in (1, -1)])
    tip = np.exp(m * L)
    c = np.linalg.solve(np.array([m**2, m**3, m**2 * tip, m**3 * tip]), np.array([e, 1, 0, 0]) / EI)
    return float(1 / (c.sum().real - e * (c @ m).real + e**3 / (3 * EI)))


def level(site: Site, mark: str) -> float:
    """Underside of what sits on a support, over grade (in)."""
    return min(site.bottom(m.mark) for m, _ in site.on(mark))


def trunk(site: Site, mark: str) -> float:
    """A bolt's share of the stiffness of its trunk there, shared evenly by all that hold to it."""
    tree = tree_of(site, mark)
    E, d = GREEN[tree["species"]][2], 2 * sound_radius(tree)
    n = sum(s.get("tree") == tree["mark"] and s.get("lateral") in HELD for s in site.file["support"])
    return 3 * E * pi * d**4 / 64 / level(site, mark) ** 3 / n


def of_bolt(site: Site, mark: str, row: Row, across: bool) -> float:
    """Stiffness of a tree bolt in one direction; across it in the wood that the row names, else no number."""
    if not across:
        return trunk(site, mark)
    kappa = next((k for words, k in TAKEN.items() if words in row.where), nan)
    bolt = bolt_of(site, mark)
    bed = GREEN[tree_of(site, mark)["species"]][2] / (kappa * SOFTER["across"])
    k_d = bar(lever(site, mark), read(bolt["embedment"]), read(bolt["diameter"]), bed)
    return 1 / (1 / k_d + 1 / trunk(site, mark))


def of_post(site: Site, mark: str, row: Row, across: bool) -> float | None:
    """Stiffness of a plain post in concrete in one direction; None of one with knees or rods, or on a T-frame."""
    post, on_it = site.post(mark), site.on(mark)
    u = [member.u for member, _ in on_it]
    alone = any(sum(s.below in site.reactions for s in m.seats) < 2 for m, _ in on_it)
    knees = any(b.get("support") == mark for b in site.file.get("brace", []))
    foot = next((f for words, f in FEET.items() if words in row.where), None)
    if post.get("base") != "fixed" or knees or alone or "crossed_rods" in site.file or foot is None:
        return None
    t = timber_of(site, mark)
    crossing = any(abs(u[0][0] * v[1] - u[0][1] * v[0]) > 0.1 for v in u)
    l = level(site, mark) + 12
    d = site.timber(on_it[0][0].mark).d if across and not crossing else 0.0
    return foot * 3 * t.E * min(t.b, t.d) ** 3 * max(t.b, t.d) / 12 / (l**3 + 3 * l**2 * d + 3 * l * d**2)


def apart(site: Site, row: Row) -> list[str]:
    """What a row prints of its springs that is otherwise by statics: movements and force to the digit, k by 0.2 %."""
    found: list[str] = []
    for (step, a, moved), (seat, b, left), (force, f, V) in zip(
        row.printed, row.printed[1:], row.printed[2:], strict=False
    ):
        if (step, seat, force) != ("support_movement", "seat_movement", "support_lateral_force"):
            continue
        x, y, c, s = (a[k] for k in ("x", "y", "c", "s"))
        own = (a["u_x"] - a["theta"] * y) * c + (a["u_y"] + a["theta"] * x) * s
        for printed, ours in ((moved, own), (left, own - b["y"]), (V, f["k"] * (own - b["y"] - f["g"]))):
            if abs(printed - ours) > 1e-6 * max(abs(ours), 1.0):
                found.append(f"{row.key} {row.part}: {printed:.6g}, by statics {ours:.6g}")
        at = [
            support
            for support in site.file["support"]
            if hypot(read(support["at"][0]) - x, read(support["at"][1]) - y) < 0.01
        ]
        k = stiffness(site, row, at[0], (c, s))
        if k is not None and not abs(f["k"] - k) <= NEAR * k:
            found.append(
                f"{row.key} {row.part}: k of {at[0]['mark']} {f['k']:.6g}, by statics {k:.6g}; {row.where}"
            )
    return found


def stiffness(site: Site, row: Row, support: dict, way: tuple[float, float]) -> float | None:
    """Of a support in one of its two directions."""
    mark = support["mark"]
    if support["kind"] == "tree bolt":
        _, _, into = place(site, mark)
        across = abs(float(into @ way)) < 0.5
        return of_bolt(site, mark, row, across)
    if support["kind"] == "post":
        u = site.on(mark)[0][0].u
        return of_post(site, mark, row, abs(float(u @ way)) < 0.5)
    return None
