"""Gates: gaps, rail, hinges, latch, wheel, brace, the post that one hangs on. IRC 2021, R301.5, R312; NDS 2018."""

from __future__ import annotations

from math import atan2, ceil, degrees, hypot

from audit import dowels, timber
from audit.guards import C_D, PUSH, edge_of, height, line_load, posts, rim_of
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]
FLAT = {3.5: 1.1, 5.5: 1.15, 7.25: 1.15}  # C_fu (NDS Supplement 2018, Table 4B)


class Gate:
    def __init__(self, site: Site, mark: str) -> None:
        self.site = site
        g = self.file = next(g for g in site.file["gate"] if g.get("mark", "GT") == mark)
        self.edge, self.way = g["edge"], read(g.get("width"), 30.0)
        self.w = self.way - 2 * read(g.get("side_gap"), 0.75)
        self.h = height(site) - read(g.get("bottom_gap"), 2.0)
        own = {k: g[k] for k in ("species", "grade", "wet") if k in g}
        self.t = timber.timber(site.cut_from(site.file) | own | {"section": g.get("section", "2x4")})
        self.guard = next((x for x in site.file["guard"] if self.edge in x["edges"]), None)
        self.s = read(g.get("hinge_spacing"), 24.0)

    @property
    def W(self) -> float:
        """Two rails, two stiles, a brace corner to corner, balusters upright between the stiles, wet."""
        A = self.t.A
        wood = A * (2 * self.w + 2 * self.h + hypot(self.w, self.h))
        if self.guard is None or self.guard.get("infill", "balusters") != "balusters":
            return wood / 1728 * timber.WET_PCF + 2.0 * self.w * self.h / 144  # 2 psf (common practice)
        side, gap = self.baluster
        count = max(0, ceil((self.w - 2 * self.t.b - gap) / (side + gap) - 1e-9))
        return (wood + count * side**2 * self.h) / 1728 * timber.WET_PCF

    @property
    def baluster(self) -> Pair:
        """Its side, and the widest gap."""
        assert self.guard is not None
        side = 1.5 if self.guard.get("baluster", "2x2") == "2x2" else timber.size(self.guard["baluster"])[0]
        return side, read(self.guard.get("gap"), 3.75)

    @property
    def post_width(self) -> float:
        """Along the edge."""
        return timber.size((self.guard or {}).get("section", "4x4"))[0]

    @property
    def wheel(self) -> bool:
        return "wheel" in self.file or bool(self.file.get("on_wheel"))

    @property
    def middle(self) -> float:
        """Along the edge: as given, else before the ladder or the stairs, else mid-edge."""
        length = edge_of(self.site, self.edge)[2]
        behind = [self.site.file.get(k, {}) for k in ("ladder", "stairs")]
        before = next(
            (read(b["along"]) for b in behind if b.get("edge") == self.edge and "along" in b), length / 2
        )
        return read(self.file.get("along"), before)


def way(site: Site, row: Row) -> Pair:
    """No narrower than the ladder or the stairs behind it."""
    g = Gate(site, row.part)
    ladder, stairs = site.file.get("ladder", {}), site.file.get("stairs", {})
    if stairs.get("edge") == g.edge:
        return read(stairs.get("width"), 36.0), g.way
    usual = 20.0 if ladder.get("kind", "ladder") == "ship's ladder" else 16.0
    return read(ladder.get("clear"), usual), g.way


def opening(site: Site, row: Row) -> Pair:
    """A 4 in. sphere may not pass (IRC 2021, R312.1.3): beside the leaf, under it, between its balusters."""
    g = Gate(site, row.part)
    gaps = [read(g.file.get("side_gap"), 0.75), read(g.file.get("bottom_gap"), 2.0)]
    gaps.append(read((g.guard or {}).get("gap"), 3.75))
    infill = (g.guard or {}).get("infill", "balusters")
    if g.guard is not None and infill in ("balusters", "cable", "rope"):
        gaps += [past_post(g, p.at) for p in posts(site) if p.edge == g.edge]
    return max(gaps), 4.0


def past_post(g: Gate, at: float) -> float:
    """Clear from the face of the post next to the way, or from the last baluster past it, to the leaf; 0 if farther."""
    clear = abs(at - g.middle) - g.way / 2 - g.post_width / 2
    if clear >= 4:
        return 0.0
    side, gap = g.baluster
    count = max(0, ceil((clear - gap) / (side + gap) - 1e-9))
    return (clear - count * side) / (count + 1) + read(g.file.get("side_gap"), 0.75)


def rail(site: Site, row: Row) -> Pair:
    """200 lb outward at the middle of its rail, across its thin side, hinges to latch (NDS 2018, 3.3)."""
    g = Gate(site, row.part)
    M = max(PUSH * g.w / 4, line_load(site) / 12 * g.w**2 / 8)
    return M / (g.t.d * g.t.b**2 / 6), g.t.Fb * FLAT[g.t.d] * C_D


def hinge(site: Site, row: Row) -> Pair:
    """200 lb down at the free edge, or outward at the top over the hinges, which stand in the middle of its height.

    Down: moments about the hinges, all weight on one; a wheel takes the couple. Outward: moments about the lower hinge
    (statics); the leaf's weight beside it.
    """
    g = Gate(site, row.part)
    couple = 0.0 if g.wheel else (PUSH * g.w + g.W * g.w / 2) / g.s
    down = hypot(couple, PUSH + g.W)
    over = max((g.h - g.s) / 2, 0.0)
    own = 0.0 if g.wheel else g.W * g.w / 2 / g.s
    outward = hypot(hypot(PUSH * (1 + over / g.s), own), g.W)
    return max(down, outward), read(g.file["hinge"])


def latch(site: Site, row: Row) -> Pair:
    return PUSH, read(Gate(site, row.part).file["latch"])


def wheel(site: Site, row: Row) -> Pair:
    """200 lb over it, and half of the leaf (statics)."""
    g = Gate(site, row.part)
    return PUSH + g.W / 2, read(g.file["wheel"])


def brace_fastening(site: Site, row: Row) -> Pair:
    """The joint at the free edge: the brace's rise takes the load and half of the leaf (statics)."""
    g = Gate(site, row.part)
    return (PUSH + g.W / 2) * hypot(g.w, g.h) / g.h, read(g.file["brace_fastening"])


class Hung:
    """The post that the leaf hangs on: moment along the guard, from the leaf's weight and 200 lb at its free edge."""

    def __init__(self, site: Site, mark: str) -> None:
        g = self.gate = Gate(site, mark)
        edge_posts = sorted((p for p in posts(site) if p.edge == g.edge), key=lambda p: p.at)
        start = g.file.get("hung", "start") == "start"
        before = [p for p in edge_posts if p.at < g.middle - g.way / 2]
        after = [p for p in edge_posts if p.at > g.middle + g.way / 2]
        self.post = before[-1] if start else after[0]
        self.beside = len(before if start else after)
        piece = site.cut_from(site.file) | {"section": g.guard.get("section", "4x4")}
        piece |= {k: g.guard[k] for k in ("species", "grade", "wet") if k in g.guard}
        self.t = timber.timber(piece)
        # From the post's middle to the leaf: what the guard runs on past it, and the gap, are levers too.
        lever = abs(self.post.at - g.middle) - g.way / 2 + read(g.file.get("side_gap"), 0.75)
        self.M = PUSH * (g.w + lever) + g.W * (g.w / 2 + lever)
        self.D = read(g.guard.get("bolt_diameter"), 0.5)


def post(site: Site, row: Row) -> Pair:
    """At its bolts, whose holes lie across the bending, in the middle of the depth (NDS 2018, 3.1.2, 3.3)."""
    k = Hung(site, row.part)
    I = k.t.d * (k.t.b**3 - (k.D + 1 / 16) ** 3) / 12
    return k.M / (I / (k.t.b / 2)), k.t.Fb * C_D


def joint(site: Site, row: Row) -> Pair:
    """Couple on two bolts, shared by as many posts as the rail ties, and half of what hangs on each (statics).

    One bolt in single shear, post to rim or edge joist: the force across the post's grain and along the rim's, aslant
    by the weight; wet 0.7, C_D (NDS 2018, 12.3, Table 11.3.3). 4 D to the edges; the post's end by 7 D, as a push may
    lift the leaf too (Tables 12.5.1A, 12.5.1C).
    """
    k = Hung(site, row.part)
    guard, below = k.gate.guard, site.timber(k.post.member)
    e = read(guard.get("bolt_edge"), 2.0)
    n = min(guard.get("rail_posts", 1), k.beside)
    Z = k.M / n / (below.d - 2 * e)
    V = (PUSH + k.gate.W) / 2
    slope = degrees(atan2(V, Z))
    F_post, F_rim = (dowels.F_e(timber.G_SOUTHERN, k.D, a) for a in (90 - slope, slope))
    K = 1 + 0.25 * max(slope, 90 - slope) / 90
    rim = site.timber(rim_of(site, k.post))
    value = dowels.single_shear(k.D, k.t.d, rim.b, F_post, F_rim, 45000.0, (4 * K, 3.6 * K, 3.2 * K))
    assert min(k.t.b / 2, e) >= 4 * k.D
    return hypot(Z, V), value * 0.7 * C_D * min(1.0, e / (7 * k.D))


AUDIT = {
    "gate.way": way,
    "gate.opening": opening,
    "gate.rail": rail,
    "gate.hinge": hinge,
    "gate.latch": latch,
    "gate.wheel": wheel,
    "gate.brace_fastening": brace_fastening,
    "gate.post": post,
    "gate.joint": joint,
}
