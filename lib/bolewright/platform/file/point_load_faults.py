"""Loads at one place whose keys do not go together."""

from __future__ import annotations

from bolewright.platform.project import PointLoad

LEAST_HAMMOCK = 36.0  # in between its ends: less is a slip of the pen (judgement)


def point_load_fault(load: PointLoad) -> tuple[str, str] | None:
    """What is wrong with a load at one place: the key, and a sentence."""
    if (load.at is None) == (load.member is None):
        return "at", f"{load.mark} needs one place: at, a point on the deck, or member with along."
    if load.member is not None and load.along is None:
        return "along", f"{load.mark} needs its distance along {load.member}, from where that starts."
    if load.at is not None and load.along is not None:
        return "along", f"{load.mark} stands at a point of the deck: leave along out."
    if load.other_end is not None:
        if load.form != "hammock" or load.member is None:
            return (
                "other_end",
                f"{load.mark} is no hammock on a member: only such a one has an other end there.",
            )
        if load.direction:
            return "direction", f"{load.mark} hangs along {load.member} by both ends: leave direction out."
        if abs(load.other_end - (load.along or 0.0)) < LEAST_HAMMOCK:
            return "other_end", f"{load.mark} has its ends less than 3 ft apart: give the place of each."
    own = load.form in ("swing", "hanging chair", "hammock")
    if load.weight == 0 and load.up == 0 and load.lateral == 0:
        return "weight", f"{load.mark} brings nothing: give its weight, or a force up or laterally."
    if load.form != "thing" and load.weight == 0:
        return "weight", f"{load.mark} is a {load.form}: give the weight on it, people and all."
    if own and (load.lateral or load.up):
        return (
            "lateral",
            f"{load.mark} is a {load.form} and makes its own lateral force: leave up and laterally out.",
        )
    if own and load.member is None:
        return "member", f"{load.mark} is a {load.form}, which hangs: give the member and the place along it."
    if load.kind == "wind" and (load.weight or load.up or load.form != "thing"):
        return "kind", f"{load.mark} is wind, which is counted laterally only: leave weight and up out."
    if load.form in ("swing", "hanging chair", "hammock", "pulley") and load.kind != "live":
        return "kind", f"{load.mark} is a {load.form}, which comes and goes: its kind is live."
    if load.impact is not None and load.impact > 1 and not load.impact_note:
        return "impact_note", f"{load.mark} has an impact factor of {load.impact:g}: say where it comes from."
    return None
