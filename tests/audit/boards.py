"""Deck boards between joists (NDS 2018, chapter 3; IBC 2021, Table 1604.3)."""

from __future__ import annotations

from audit import timber
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]


def board(site: Site) -> tuple[timber.Timber, float, float, float]:
    """Values, section modulus and second moment flatwise, width of a board."""
    t = timber.timber(site.file["decking"])
    return t, t.d * t.b**2 / 6, t.d * t.b**3 / 12, t.d


def span(site: Site, l: float) -> float:
    """Printed: the widest gap between joists along the boards, at openings and edges more than their spacing."""
    assert l >= min(read(f["spacing"]) for f in site.file["joists"]) - 1e-6
    return l


def dead(site: Site) -> float:
    """Boards and hardware, psf."""
    t, *_ = board(site)
    return timber.WET_PCF * t.b / 12 + read(site.file["loads"].get("hardware"), 1.0)


def allowed(site: Site, C_D: float) -> float:
    """F_b on the flat: C_fu 1.15 of 2x6 (Table 4B), 1.1 of 2x4; C_M on F_b alone; no C_r."""
    t, *_ = board(site)
    return t.Fb * C_D * {3.5: 1.1, 5.5: 1.15, 7.25: 1.15}[t.d]


def cases(site: Site) -> list[tuple[float, float, float]]:
    """Psf, one person's pounds, C_D."""
    D, L = dead(site), read(site.file["loads"]["live"])
    S, P = read(site.file["site"]["ground_snow"]), read(site.file["loads"].get("person"), 300.0)
    return [(D, 0, 0.9), (D + L, 0, 1.0), (D + S, 0, 1.15), (D + 0.75 * (L + S), 0, 1.15), (D, P, 1.0)]


def bending(site: Site, row: Row) -> Pair:
    """One span between two joists, its person in the middle of one board."""
    _, S, _, width = board(site)
    l = span(site, row.argument("point_load_moment", "l"))
    pairs = [((q / 144 * width * l**2 / 8 + P * l / 4) / S, allowed(site, C_D)) for q, P, C_D in cases(site)]
    return max(pairs, key=lambda p: p[0] / p[1])


def end_bending(site: Site, row: Row) -> Pair:
    """Past the last joist by the printed length: q a^2 / 2 + P a."""
    _, S, _, width = board(site)
    a = row.argument("overhang_moment", "a")
    pairs = [((q / 144 * width * a**2 / 2 + P * a) / S, allowed(site, C_D)) for q, P, C_D in cases(site)]
    return max(pairs, key=lambda p: p[0] / p[1])


def live_deflection(site: Site, row: Row) -> Pair:
    t, _, I, width = board(site)
    l = span(site, row.argument("simple_span_deflection", "l"))
    q = max(read(site.file["loads"]["live"]), read(site.file["site"]["ground_snow"]))
    return 5 * q / 144 * width * l**4 / (384 * t.E * I), l / site.limit("deck_live")


AUDIT = {
    "decking.bending": bending,
    "decking.end_bending": end_bending,
    "decking.live_deflection": live_deflection,
}
