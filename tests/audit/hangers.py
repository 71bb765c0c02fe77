"""Hangers: the maker's rating as typed, its load duration basis and wet factor (ENGINEERING_NOTES E12)."""

from __future__ import annotations

from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]


def hanger_of(site: Site, mark: str) -> dict:
    return site.file["connection"][site.piece(mark)["hanger"]]


def factor(hanger: dict, C_D: float) -> float:
    """0.9 on a rating of normal duration for D alone, never more than 1: a hanger's steel may be what is rated.

    None of it for one "as stated"; 0.7 where wet is not in it (NDS 2018, 11.3.2, 11.3.3).
    """
    share = min(C_D, 1.0) if hanger.get("load_duration", "normal") == "normal" else 1.0
    return share * (1.0 if hanger.get("wet_included", False) else 0.7)


def rated(site: Site, row: Row) -> Pair:
    """The reaction of the hung end; its greatest share of the rating over the cases."""
    hanger, member = hanger_of(site, row.part), site.members[row.part]
    Z = read(hanger["rated_load"])
    seats = [
        s
        for s in member.seats
        if s.bearing == "hangs from" and s.below == row.limit_state.removeprefix("hanger at ")
    ]
    pairs = [
        (float(R.max()), Z * factor(hanger, C_D)) for s in seats for R, C_D in s.reaction.cases().values()
    ]
    R, most = max(pairs, key=lambda p: p[0] / p[1])
    return R * row.by_frame, most


def rated_lateral(site: Site, row: Row) -> Pair:
    """As above with the printed weight of the case; and its C_D."""
    hanger = hanger_of(site, row.part)
    return abs(row.result("load_with_sway")) * row.by_frame, read(hanger["rated_load"]) * factor(
        hanger, row.C_D
    )


AUDIT = {"hanger.rated": rated, "hanger.rated_lateral": rated_lateral}
