"""Guards: posts as cantilevers on two bolts, rails, infill. IRC 2021, R301.5 and R312; ASCE 7-16, 4.5.1; NDS 2018."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import asin, ceil, cos, hypot, pi, tan

import numpy as np

from audit import dowels, lateral, members, timber
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]
PUSH = 200.0  # lb at any place of the top (IRC 2021, Table R301.5; ASCE 7-16, 4.5.1)
C_D = 1.6  # ten minutes: common practice (SUPERSTRUCTURE, 0); never on F_c_perp (NDS 2018, 2.3.2)


@dataclass(frozen=True)
class Post:
    mark: str
    edge: int
    at: float  # along the edge, from its first corner
    member: str


def edge_of(site: Site, edge: int) -> tuple[tuple[float, float], tuple[float, float], float]:
    """First corner, direction, length."""
    ring = [tuple(read(v) for v in p) for p in site.file["platform"]["outline"]]
    (x, y), (p, q) = ring[edge - 1], ring[edge % len(ring)]
    l = hypot(p - x, q - y)
    return (x, y), ((p - x) / l, (q - y) / l), l


def posts(site: Site) -> list[Post]:
    """All posts where the plan has them: on the edge that is square to their push outward."""
    found = []
    for a in site.actions:
        if a["what"] != "push outward on the guard" or a["part"] in [post.mark for post in found]:
            continue  # a push stands twice where either of two pieces behind the post may take its moment
        (x, y), (ox, oy) = a["at_in"], a["level_lb"]
        near = []
        for edge in {e for g in site.file["guard"] for e in g["edges"]}:
            (cx, cy), (ux, uy), l = edge_of(site, edge)
            along, off = (x - cx) * ux + (y - cy) * uy, abs((y - cy) * ux - (x - cx) * uy)
            if abs(ox * ux + oy * uy) < 1e-3 * hypot(ox, oy) and -1 <= along <= l + 1:
                near.append((off, edge, along))
        _, edge, along = min(near)
        given = [
            read(place) for g in site.file["guard"] if edge in g["edges"] for place in g.get("places", ())
        ]
        along = min(
            given, key=lambda place: abs(place - along), default=along
        )  # beside its joist, where a place is named
        found.append(Post(a["part"], edge, along, a["member"]))
    return found


def line_load(site: Site) -> float:
    """50 plf where the IBC governs (ASCE 7-16, 4.5.1.1: not for one- and two-family dwellings), plf."""
    return 50.0 if site.file["code"]["basis"] == "IBC" else 0.0


def height(site: Site) -> float:
    return read(site.file["loads"].get("guard_height"), 36.0)


def stretches(site: Site, edge: int) -> list[tuple[float, float]]:
    """Parts of an edge that carry a guard: what a gate's way leaves, before the ladder where none else is said."""
    guard = next(g for g in site.file["guard"] if edge in g["edges"])
    length = edge_of(site, edge)[2]
    low = read(guard.get("start"), 0.0)
    high = low + read(guard["length"]) if "length" in guard else length
    found = []
    for gate in site.file.get("gate", []):
        if gate["edge"] == edge:
            ladder = site.file.get("ladder", {})
            before = ladder.get("along") if ladder.get("edge") == edge else None
            middle, width = read(gate.get("along", before), length / 2), read(gate.get("width"), 30.0)
            found.append((low, middle - width / 2))
            low = middle + width / 2
    return [*found, (low, high)]


class On:
    """One part of an edge: its posts in order, bays, what runs past the outermost."""

    def __init__(self, site: Site, edge: int, part: int = 1) -> None:
        self.guard = next(g for g in site.file["guard"] if edge in g["edges"])
        low, high = stretches(site, edge)[part - 1]
        found = (p for p in posts(site) if p.edge == edge and low - 0.1 <= p.at <= high + 0.1)
        self.posts = sorted(found, key=lambda p: p.at)
        at = [p.at for p in self.posts]
        self.bays = [b - a for a, b in zip(at, at[1:], strict=False)]
        self.past = (at[0] - low, high - at[-1])

    @classmethod
    def of(cls, site: Site, post: Post) -> On:
        """The part that a post stands on."""
        parts = range(1, len(stretches(site, post.edge)) + 1)
        every = (cls(site, post.edge, part) for part in parts)
        return next(on for on in every if post.mark in [p.mark for p in on.posts])

    def lever(self, mark: str) -> float:
        """Load on a post of 1 lb where it loads it most: over it, or at the free end of a rail that runs past it.

        A rail over its last two posts, l apart, with 1 lb a past the last: (l + a) / l on that (statics).
        """
        marks = [p.mark for p in self.posts]
        found = 1.0
        if mark == marks[0] and self.bays:
            found = max(found, 1 + self.past[0] / self.bays[0])
        if mark == marks[-1] and self.bays:
            found = max(found, 1 + self.past[1] / self.bays[-1])
        return found

    def holds(self, mark: str) -> float:
        """Length of rail on a post by statics: half of each bay; at an end (l + a)^2 / 2 l."""
        k = [p.mark for p in self.posts].index(mark)
        left = self.bays[k - 1] / 2 if k else self.past[0] + self.past[0] ** 2 / 2 / self.bays[0]
        right = (
            self.bays[k] / 2 if k < len(self.bays) else self.past[1] + self.past[1] ** 2 / 2 / self.bays[-1]
        )
        return left + right


def on_edge(site: Site, row: Row) -> On:
    edge, part = re.search(r"on edge (\d+)(?:, part (\d+))?", row.part).groups()
    return On(site, int(edge), int(part or 1))


class Joint:
    """A post with its two bolts, pressed against the framing (SUPERSTRUCTURE, section 1, model B)."""

    def __init__(self, site: Site, row: Row, mark: str = "") -> None:
        self.site, self.mark = site, mark or row.part
        post = self.post = next(p for p in posts(site) if p.mark == self.mark)
        on = On.of(site, post)
        self.guard = on.guard
        piece = site.cut_from(site.file) | {"section": self.guard.get("section", "4x4")}
        piece |= {k: self.guard[k] for k in ("species", "grade", "wet") if k in self.guard}
        self.timber = timber.timber(piece)
        self.P = max(PUSH * on.lever(post.mark), line_load(site) * on.holds(post.mark) / 12)
        self.H = height(site)
        below = site.timber(post.member)
        self.t = read(site.file["platform"]["floor_height"]) - site.top(post.member)
        self.d, self.e = below.d, read(self.guard.get("bolt_edge"), 2.0)
        self.D = read(self.guard.get("bolt_diameter"), 0.5)
        self.hole = self.D + 1 / 16  # NDS 2018, 12.1.3.2
        self.plate = read(self.guard.get("plate"), 3.0)
        if self.guard.get("lever", "bearing block") == "bolts only":
            s = self.d - 2 * self.e
            self.T = self.P * (self.H + self.t + self.e + s) / s
            self.T_in, self.V = self.T, self.T
            return
        self.width, self.softest = self.pressed()
        self.V = self.block(self.H + self.t + self.e, self.d - self.e)
        self.T = self.V + self.P
        self.T_in = self.block(self.H + self.t + self.d - self.e, self.d - self.e) - self.P

    def pressed(self) -> tuple[float, float]:
        """Width of the post with wood behind it, by 1/100 in.: what takes it, timbers at its level along the edge.

        And the least strength across the grain of the post and of those timbers (psi).
        """
        softest = self.timber.Fcp
        (cx, cy), (ux, uy), _ = edge_of(self.site, self.post.edge)
        taker, spans = self.site.members[self.post.member], []
        ends = (taker.start, taker.start + taker.u * taker.length)
        nearest = min(ends, key=lambda p: abs((p[1] - cy) * ux - (p[0] - cx) * uy))
        middle = (nearest[0] - cx) * ux + (nearest[1] - cy) * uy - self.post.at
        spans.append(
            (middle - self.site.timber(taker.mark).b / 2, middle + self.site.timber(taker.mark).b / 2)
        )
        x, y = cx + ux * self.post.at, cy + uy * self.post.at
        for m in self.site.members.values():
            level = self.site.top(m.mark) > self.site.top(taker.mark) - self.d
            off = abs((y - m.start[1]) * m.u[0] - (x - m.start[0]) * m.u[1])
            if level and off <= 4 and abs(m.u[0] * uy - m.u[1] * ux) < 0.2:
                a = (m.start[0] - x) * ux + (m.start[1] - y) * uy
                span = sorted((a, a + m.length * (m.u[0] * ux + m.u[1] * uy)))
                spans.append(tuple(span))
                if span[0] <= 0 <= span[1]:
                    softest = min(softest, self.site.timber(m.mark).Fcp)
        n = round(self.timber.b * 100)
        places = [(k + 0.5) / 100 - self.timber.b / 2 for k in range(n)]
        covered = sum(any(low <= place <= high for low, high in spans) for place in places) / 100
        return covered, softest

    def block(self, arm: float, depth: float) -> float:
        """Force of pressed wood that balances P times an arm about the bolt, its block at the far end of a depth.

        C (depth - a / 2) = P arm, a = C / (b F_c_perp): by halving (NDS 2018, 3.10.2).
        """
        k = self.width * self.softest
        low, high = 0.0, k * depth
        for _ in range(80):
            C = (low + high) / 2
            low, high = (C, high) if C * (depth - C / k / 2) < self.P * arm else (low, C)
        return low


def bending(site: Site, row: Row) -> Pair:
    """At the deck, gross (NDS 2018, 3.3)."""
    j = Joint(site, row)
    return j.P * j.H / j.timber.S, j.timber.Fb * C_D


def bending_at_bolts(site: Site, row: Row) -> Pair:
    """At the upper bolt, its hole along the depth taken off (NDS 2018, 3.1.2)."""
    j = Joint(site, row)
    S = (j.timber.b - j.hole) * j.timber.d**2 / 6
    return j.P * (j.H + j.t + j.e) / S, j.timber.Fb * C_D


def off_square(site: Site, mark: str) -> float:
    """Angle between the square of a post's edge and what takes it, from its two lines in plan; 0 up to 1 in 50."""
    post = next(p for p in posts(site) if p.mark == mark)
    u, (p, q) = edge_of(site, post.edge)[1], site.members[post.member].u
    sine = abs(u[0] * p + u[1] * q)
    return asin(sine) if sine > 0.02 else 0.0


def hold_down(site: Site, row: Row) -> Pair:
    """The bolt pulls square to the edge, the tie along the joist: T / cos."""
    j = Joint(site, row)
    return j.T / cos(off_square(site, row.part)), read(j.guard["hold_down"])


def lower_tie(site: Site, row: Row) -> Pair:
    j = Joint(site, row)
    return j.T_in / cos(off_square(site, row.part)), read(j.guard["lower_tie"])


def twist(site: Site, row: Row) -> Pair:
    """Along the edge, what the skew leaves of the bolt's pull: T tan."""
    j = Joint(site, row)
    return max(j.T, j.T_in) * tan(off_square(site, row.part)), read(j.guard["skew_tie"])


def bolt(site: Site, row: Row) -> Pair:
    """0.75 F_u A_b / 2.00 on the gross area (AISC 360-16, J3.6)."""
    j = Joint(site, row)
    F_u = read(j.guard.get("bolt_strength"), 60000.0)
    return max(j.T, j.T_in), 0.75 * F_u * pi * j.D**2 / 4 / 2.0


def plate(site: Site, row: Row) -> Pair:
    """Square plate less the hole; C_b 3 in. and more from the post's end only (NDS 2018, 3.10.2, 3.10.4)."""
    j = Joint(site, row)
    area = j.plate**2 - pi * j.hole**2 / 4
    C_b = (j.plate + 0.375) / j.plate
    upper = (j.T / area, j.timber.Fcp * (C_b if j.d - j.e - j.plate / 2 >= 3 else 1.0))
    lower = (j.T_in / area, j.timber.Fcp * (C_b if j.e - j.plate / 2 >= 3 else 1.0))
    return max(upper, lower, key=lambda p: p[0] / p[1])


def shear(site: Site, row: Row) -> Pair:
    """Between the bolts: the pressed wood's force pushed outward, the lower bolt's pulled inward (NDS 2018, 3.4.2)."""
    j = Joint(site, row)
    return 1.5 * max(j.V, j.T_in) / ((j.timber.b - j.hole) * j.timber.d), j.timber.Fv * C_D


# -------------------------------------------------------------------------------------------- along the rail


def along_force(j: Joint, on: On) -> float:
    """A push along the rail on one of two bolts, shared by the posts that the rail ties in one line (statics).

    M = P (H + t + e + s / 2) about the middle of the bolts, and half of P on each. A push along has no lever of a rail.
    """
    s = j.d - 2 * j.e
    n = min(j.guard.get("rail_posts", 1), len(on.posts))
    P = max(PUSH, line_load(j.site) * on.holds(j.mark) / 12)
    return P / n * ((j.H + j.t + j.e + s / 2) / s + 0.5)


def across_grain(j: Joint, C: float) -> float:
    """One bolt, the force across the post's grain and along the rim's: single shear, wet (NDS 2018, 12.3, 11.3.3).

    4 D to the post's loaded edges and end (Tables 12.5.1A, 12.5.1C): C_Delta 1. K_theta 1.25 at 90 degrees.
    """
    assert min(j.timber.b / 2, j.e) >= 4 * j.D
    rim = j.site.timber(rim_of(j.site, j.post))
    F_post, F_rim = (dowels.F_e(timber.G_SOUTHERN, j.D, a) for a in (90, 0))
    return dowels.single_shear(j.D, j.timber.d, rim.b, F_post, F_rim, 45000.0, (5.0, 4.5, 4.0)) * 0.7 * C


def along(site: Site, row: Row) -> Pair:
    j = Joint(site, row)
    return along_force(j, On.of(site, j.post)), across_grain(j, C_D)


def tear_out(site: Site, row: Row) -> Pair:
    """That bolt torn out of the timber behind along its grain, towards the nearer end: F_v' b s (NDS 2018, E.3)."""
    j = Joint(site, row)
    rim, t = site.members[row.at], site.timber(row.at)
    (x, y), (ux, uy), _ = edge_of(site, j.post.edge)
    from_start = abs(
        (x + j.post.at * ux - rim.start[0]) * rim.u[0] + (y + j.post.at * uy - rim.start[1]) * rim.u[1]
    )
    end = min(from_start, rim.length - from_start)
    pairs = []
    if along_is_asked(site, j.guard):
        pairs.append((along_force(j, On.of(site, j.post)), t.Fv * C_D * t.b * end))
    pairs += [(Z, t.Fv * C_D * t.b * end) for Z in leaf_couples(site, j)]
    return max(pairs, key=lambda pair: pair[0] / pair[1])


def along_is_asked(site: Site, guard: dict) -> bool:
    """IRC 2021, Table R301.5, note d: no push along the top of a guard that is no handrail (from memory)."""
    code = site.file.get("code", {})
    edition = str(code.get("edition", "2021"))[:4]
    return bool(guard.get("handrail")) or code.get("basis", "IRC") != "IRC" or edition < "2021"


def leaf_couples(site: Site, j: Joint) -> list[float]:
    """On one bolt, of each leaf without a wheel that hangs on the post: 200 lb at its free edge and its weight."""
    from audit.gates import Hung

    found = []
    for gate in site.file.get("gate", []):
        hung = Hung(site, gate["mark"])
        if hung.post == j.post and not hung.gate.wheel:
            n = min(j.guard.get("rail_posts", 1), hung.beside)
            found.append(hung.M / n / (j.d - 2 * j.e))
    return found


def rim_of(site: Site, post: Post) -> str:
    """The piece along the edge that a post stands against: the nearest one that runs past it."""
    (x, y), (ux, uy), _ = edge_of(site, post.edge)
    found = []
    for m in site.members.values():
        if abs(m.u[0] * uy - m.u[1] * ux) < 0.2:
            off = abs((m.start[0] - x) * uy - (m.start[1] - y) * ux)
            near = (m.start[0] - x) * ux + (m.start[1] - y) * uy
            far = near + m.length * (m.u[0] * ux + m.u[1] * uy)
            if min(near, far) - 1 <= post.at <= max(near, far) + 1:
                found.append((off, m.mark))
    return min(found)[1]


# ---------------------------------------------------------------------------------------------------- cables

STAYS = 0.9  # the pull stays (NDS 2018, Table 2.3.2)


class Cables:
    """Pull of each over their distance, on a post from its upper bolt to the top rail, which is its strut (statics)."""

    def __init__(self, site: Site, row: Row) -> None:
        self.on = on_edge(site, row)
        g = self.guard = self.on.guard
        level = max(read(site.file["platform"]["floor_height"]) - site.top(p.member) for p in self.on.posts)
        self.h = height(site) + level + read(g.get("bolt_edge"), 2.0)
        self.w = read(g["cable_pull"]) / read(g.get("gap"), 3.75)
        self.R = self.w * self.h / 2


def cable_post(site: Site, row: Row) -> Pair:
    """Bent along the guard, a cable's hole through its depth taken off (NDS 2018, 3.1.2)."""
    c = Cables(site, row)
    t = rail_timber(site, c.guard, c.guard.get("section", "4x4"))
    S = (t.d - read(c.guard.get("cable_hole"), 0.375)) * t.b**2 / 6
    return c.w * c.h**2 / 8 / S, t.Fb * STAYS


def cable_rail(site: Site, row: Row) -> Pair:
    """The cap in compression, about its thin side from post to post (NDS 2018, 3.7.1)."""
    c = Cables(site, row)
    t = rail_timber(site, c.guard, c.guard.get("cap", "2x6"))
    star = t.Fc * STAYS
    return c.R / t.A, star * timber.C_P(star, 0.822 * t.Emin / (max(c.on.bays) / t.b) ** 2)


def cable_rail_end(site: Site, row: Row) -> Pair:
    c = Cables(site, row)
    return c.R, read(c.guard["rail_fastening"])


def cable_joint(site: Site, row: Row) -> Pair:
    """The other half of the pull, on the upper bolt."""
    c = Cables(site, row)
    return c.R, across_grain(Joint(site, row, row.at), STAYS)


# ------------------------------------------------------------------------------------------- rails and infill


def rail_timber(site: Site, guard: dict, section: str) -> timber.Timber:
    piece = site.cut_from(site.file) | {k: guard[k] for k in ("species", "grade", "wet") if k in guard}
    return timber.timber(piece | {"section": section})


def rail_moment(site: Site, on: On) -> float:
    """P l / 4 or w l^2 / 8 in a bay, P a or w a^2 / 2 of what runs past the last post."""
    w, l, a = line_load(site) / 12, max(on.bays), max(on.past)
    return max(PUSH * l / 4, w * l**2 / 8, PUSH * a, w * a**2 / 2)


def rail_down(site: Site, row: Row) -> Pair:
    """The rail on edge, about its strong axis; C_L = 1 by NDS 2018, 4.4.1.2 (no deeper than four times its breadth)."""
    on = on_edge(site, row)
    t = rail_timber(site, on.guard, on.guard.get("top_rail", "2x4"))
    return rail_moment(site, on) / t.S, t.Fb * C_D


def rail_outward(site: Site, row: Row) -> Pair:
    """The cap laid flat, about its strong axis."""
    on = on_edge(site, row)
    t = rail_timber(site, on.guard, on.guard.get("cap", "2x6"))
    return rail_moment(site, on) / t.S, t.Fb * C_D


def rail_fastening(site: Site, row: Row) -> Pair:
    """All of the push at one post; with the lever of a rail that runs past it, as on the post itself (statics)."""
    on = on_edge(site, row)
    most = max(max(PUSH * on.lever(p.mark), line_load(site) / 12 * on.holds(p.mark)) for p in on.posts)
    return most, read(on.guard["rail_fastening"])


def spacing(site: Site, row: Row) -> Pair:
    """6 ft at most (DCA 6, Fig. 24, second-hand: SUPERSTRUCTURE, section 1)."""
    return max(on_edge(site, row).bays), 72.0


def opening(site: Site, row: Row) -> Pair:
    """A 4 in. sphere may not pass (IRC 2021, R312.1.3)."""
    guard = on_edge(site, row).guard
    return max(read(guard.get("gap"), 3.75), read(guard.get("bottom_gap"), 3.0)), 4.0


def clear(site: Site, guard: dict) -> float:
    """Height between lower and upper rail: guard, less cap, rail on edge, lower rail and the gap under it."""
    cap, top, low = (timber.size(guard.get(k, s)) for k, s in RAILS.items())
    return height(site) - cap[0] - top[1] - low[1] - read(guard.get("bottom_gap"), 3.0)


RAILS = {"cap": "2x6", "top_rail": "2x4", "bottom_rail": "2x4"}


def infill(site: Site, row: Row) -> Pair:
    """50 lb on one baluster at mid-height (IRC 2021, Table R301.5, note f; SUPERSTRUCTURE [G7])."""
    guard = on_edge(site, row).guard
    if guard.get("infill", "balusters") != "balusters":  # by its maker's rating
        return 50.0, read(guard["infill_load"])
    side = 1.5 if guard.get("baluster", "2x2") == "2x2" else timber.size(guard["baluster"])[0]
    return 50 * clear(site, guard) / 4 / (side**3 / 6), read(guard["baluster_strength"]) * C_D


def infill_fastening(site: Site, row: Row) -> Pair:
    """50 lb at one of its ends."""
    return 50.0, read(on_edge(site, row).guard["infill_load"])


def gap(site: Site, row: Row) -> Pair:
    """A 4 in. sphere may not pass between the stairs and what closes the edge beside them (IRC 2021, R312.1.3)."""
    edge = int(row.part.removeprefix("edge "))
    stairs, length = site.file["stairs"], edge_of(site, edge)[2]
    middle, half = read(stairs.get("along"), length / 2), read(stairs.get("width"), 36.0) / 2
    before, after = [0.0], [length]
    # the guard leaves room for the stairs, and for a gate before them where that is wider
    open_low, open_high = middle - half, middle + half
    for gate in (g for g in site.file.get("gate", ()) if g["edge"] == edge):
        at, reach = read(gate.get("along"), middle), read(gate.get("width"), 30.0) / 2
        open_low, open_high = min(open_low, at - reach), max(open_high, at + reach)
    for g in site.file["guard"]:
        if edge in g["edges"] and "opening" not in g:
            low = read(g.get("start"), 0.0)
            high = low + read(g["length"]) if "length" in g else length
            before += [min(high, open_low)] if low < open_low else []
            after += [max(low, open_high)] if high > open_high else []
    return max(middle - half - max(before), min(after) - middle - half), 4.0


def weight(site: Site, row: Row) -> Pair:
    """Posts, rails and balusters of an edge, wet, over its length: what the loads count must be no less (plf)."""
    on = on_edge(site, row)
    g, L = on.guard, sum(on.bays) + sum(on.past)
    b = lambda s: (1.5, 1.5) if s == "2x2" else timber.size(s)  # noqa: E731
    section = b(g.get("section", "4x4"))
    foot = max(site.timber(p.member).d for p in on.posts) + site.deck_thickness
    # posts from the underside of the framing to under the cap
    wood = (
        len(on.posts) * section[0] * section[1] * (height(site) - timber.size(g.get("cap", "2x6"))[0] + foot)
    )
    wood += L * sum(x * y for x, y in (b(g.get(k, s)) for k, s in RAILS.items()))
    if g.get("infill", "balusters") != "balusters":  # 2 psf of its face (common practice)
        return wood / 1728 * timber.WET_PCF / (L / 12) + 2.0 * height(site) / 12, read(
            site.file["loads"]["guard"]
        )
    side, gap = b(g.get("baluster", "2x2"))[0], read(g.get("gap"), 3.75)
    # upright on the rails' faces, from the lower one's underside to the cap, no wider apart than the gap
    spaces = [x - section[0] for x in on.bays] + [x - section[0] / 2 for x in on.past]
    count = sum(max(0, ceil((space - gap) / (gap + side) - 1e-9)) for space in spaces)
    upright = height(site) - timber.size(g.get("cap", "2x6"))[0] - read(g.get("bottom_gap"), 3.0)
    wood += count * side**2 * upright
    W = wood / 1728 * timber.WET_PCF
    return W / (L / 12), read(site.file["loads"]["guard"])


def behind(site: Site, row: Row) -> tuple[Post, On, dict, float]:
    """A post, its part of the edge, its guard's entry, and where along the member behind it its bolts are."""
    post = next(p for p in posts(site) if p.mark == row.part)
    on = On.of(site, post)
    (cx, cy), (ux, uy), _ = edge_of(site, post.edge)
    if not row.at:
        return post, on, on.guard, 0.0
    member = site.members[row.at]
    at = (cx + post.at * ux - member.start[0]) * member.u[0] + (
        cy + post.at * uy - member.start[1]
    ) * member.u[1]
    return post, on, on.guard, min(max(float(at), 0.0), member.length)


def wood_behind(site: Site, post: Post) -> float:
    """Thickness of what lies along the edge behind a post, its middle line no further in than 4 in.: a 2x, or plies."""
    (cx, cy), (ux, uy), _ = edge_of(site, post.edge)
    found = []
    for mark, m in site.members.items():
        if abs(ux * m.u[1] - uy * m.u[0]) < 0.2:
            x, y = cx + post.at * ux - m.start[0], cy + post.at * uy - m.start[1]
            along, off = x * m.u[0] + y * m.u[1], abs(x * m.u[1] - y * m.u[0])
            beside = site.bottom(mark) < site.top(post.member) and site.bottom(post.member) < site.top(mark)
            if beside and off <= 4 and -1 <= along <= m.length + 1:
                found.append((off, site.timber(mark).b))
    return min(found)[1]


def load_down(site: Site, row: Row) -> Pair:
    """200 lb by the rail's lever and the weight of its rail; half on a bolt no more than 5 in. from the other.

    Single shear into what lies behind, down: along the post's grain, across the rim's; modes by the general dowel
    equations (NDS 2018, 12.3), C_Delta as printed distances give it (12.5.1).
    """
    post, on, guard, _ = behind(site, row)
    P = max(PUSH * on.lever(post.mark), line_load(site) * on.holds(post.mark) / 12)
    F = P + read(site.file["loads"]["guard"]) * on.holds(post.mark) / 12
    if not row.has("adjusted_lateral_value"):  # on a joist's end alone: rated
        return F, read(guard["down_tie"])
    j = Joint(site, row)
    d = site.timber(post.member).d
    F_post, F_rim = (dowels.F_e(timber.G_SOUTHERN, j.D, a) for a in (0, 90))
    Z = dowels.single_shear(j.D, j.timber.d, wood_behind(site, post), F_post, F_rim, 45000.0, (5.0, 4.5, 4.0))
    parts = [a["a"] / a["a_full"] for step, a, _ in row.printed if step == "geometry_factor"]
    return F / (2 if d - 2 * j.e <= 5 else 1), Z * 0.7 * C_D * min([1.0, *parts])


def hangs_over(site: Site, post: Post, mark: str, at: float) -> tuple[float, float]:
    """From the bolts to where what takes the post hangs on the timber behind: its load is there, on one of the sides.

    Where the middle lines of the two cross.
    """
    member, taker = site.members[mark], site.members[post.member]
    places = [at]
    for seat in taker.seats:
        if seat.below == mark:
            x, y = taker.start[0] - member.start[0], taker.start[1] - member.start[1]
            turn = member.u[0] * taker.u[1] - member.u[1] * taker.u[0]
            places.append(float((x * taker.u[1] - y * taker.u[0]) / turn))
    return min(places), max(places)


def bent_there(member, low: float, high: float, sign: int) -> dict[str, tuple[float, float]]:
    """Greatest moment over a stretch in every case with its C_D: straight between the places known, no load nearer."""
    x = member.x
    inside = x[(x >= low - 1e-4) & (x <= high + 1e-4)]
    places = np.concatenate([[low, high], inside])
    return {
        name: (
            float(
                max(np.interp(places, x, v).max(), v[(x >= low - 1e-4) & (x <= high + 1e-4)].max(initial=0.0))
            ),
            C,
        )
        for name, (v, C) in member.moment.cases(sign).items()
    }


def sheared_there(member, low: float, high: float, sign: int) -> dict[str, tuple[float, float]]:
    """Greatest shear between the last place before a stretch and the first past it, in every case with its C_D."""
    x = member.x
    before = max(int((x < low - 1e-4).sum()) - 1, 0)
    past = min(int((x <= high + 1e-4).sum()), len(x) - 1)
    left, right = (effect.cases(sign) for effect in member.shear)
    # left of each place but the first, right of each but the last: what is sheared between them
    return {
        name: (
            max(float(left[name][0][before + 1 : past + 1].max()), float(right[name][0][before:past].max())),
            C,
        )
        for name, (_, C) in left.items()
    }


def net_modulus(t: timber.Timber, guard: dict) -> float:
    """What two holes, e from the edges, leave of a section (NDS 2018, 3.1.2)."""
    hole, e = read(guard.get("bolt_diameter"), 0.5) + 1 / 16, read(guard.get("bolt_edge"), 2.0)
    outer, inner = t.d / 2 - e + hole / 2, t.d / 2 - e - hole / 2
    return t.b * (t.d**3 / 12 - 2 * (outer**3 - inner**3) / 3) / (t.d / 2)


def framing_bending(site: Site, row: Row) -> Pair:
    """M over what two holes leave of the member behind."""
    post, _, guard, at = behind(site, row)
    member, t = site.members[row.at], site.timber(row.at)
    S = net_modulus(t, guard)
    C_r = members.C_r(site, row.at) if member.field else 1.0
    if row.has("ply_point_transfer"):  # the ply that joists near the bolts hang on has more than its share
        cases = [bent_there(member, *hangs_over(site, post, row.at, at), sign) for sign in (1, -1)]
        M, C = max(case[row.combination] for case in cases)
        more = lateral.over_its_share(site, row, row.at)
        return (M / t.plies + more) / (S / t.plies) * row.by_frame, t.Fb * C
    pairs = [
        (M / S, t.Fb * C * C_r)
        for sign in (1, -1)
        for M, C in bent_there(member, *hangs_over(site, post, row.at, at), sign).values()
    ]
    return members.governing(pairs, row)


def shear_value(site: Site, row: Row, guard: dict, at: float) -> float:
    """2/3 F_v' b d_e without C_D, nearer than 5 d to the end times (d_e / d)^2 (NDS 2018, 3.4.3.3)."""
    member, t = site.members[row.at], site.timber(row.at)
    d_e = t.d - read(guard.get("bolt_edge"), 2.0)
    near = (
        min(at, member.length - at) < 5 * t.d
        if member.kind != "blocking"
        else row.has("connection_shear_near_end")
    )
    return 2 / 3 * t.Fv * t.b * d_e * ((d_e / t.d) ** 2 if near else 1)


def framing_shear(site: Site, row: Row) -> Pair:
    """All of the post's load one way, beside the shear there, against 3.4.3.3.

    Where a block behind the post hangs on the member, that load is in its shear already.
    """
    post, on, guard, at = behind(site, row)
    member = site.members[row.at]
    P = max(PUSH * on.lever(post.mark), line_load(site) * on.holds(post.mark) / 12)
    W = read(site.file["loads"]["guard"]) * on.holds(post.mark) / 12
    hung = any(s.below == row.at for s in site.members[post.member].seats)
    V_r = shear_value(site, row, guard, at)
    pairs = []
    for sign in (1, -1):
        for name, (V, C) in sheared_there(member, *hangs_over(site, post, row.at, at), sign).items():
            own = 0.0 if hung else W + (P if "guard" in name else 0.0)
            pairs.append((V + own, V_r * C))
    return members.governing(pairs, row)


AUDIT = {
    "guard.load_down": load_down,
    "guard.framing_bending": framing_bending,
    "guard.framing_shear": framing_shear,
    "guard.bending": bending,
    "guard.bending_at_bolts": bending_at_bolts,
    "guard.hold_down": hold_down,
    "guard.lower_tie": lower_tie,
    "guard.twist": twist,
    "guard.bolt": bolt,
    "guard.plate": plate,
    "guard.shear": shear,
    "guard.along": along,
    "guard.framing_tear_out": tear_out,
    "guard.cable_post": cable_post,
    "guard.cable_rail": cable_rail,
    "guard.cable_rail_end": cable_rail_end,
    "guard.cable_joint": cable_joint,
    "guard.rail_down": rail_down,
    "guard.rail_outward": rail_outward,
    "guard.rail_fastening": rail_fastening,
    "guard.spacing": spacing,
    "guard.opening": opening,
    "guard.gap": gap,
    "guard.infill": infill,
    "guard.infill_fastening": infill_fastening,
    "guard.weight": weight,
}
