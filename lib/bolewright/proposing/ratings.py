"""Which rating of the file a check rests on, and ratings fitted to what is required of them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from bolewright.platform.file.ratings import TO_BUY
from bolewright.platform.limit_states.check import Check
from bolewright.proposing.needs import AtHand
from bolewright.proposing.parts import AT_HAND, Data

Group = tuple[str, str, str]  # table, letters of the marks or name of the kind, key
Ratings = dict[Group, float]
LEAST = 50.0  # lb: nothing is bought for less
UNASKED = 0.0  # lb: no check rests on the rating, so the file does without it
FULL = 0.97  # of a rating that may be used, so that rounding does not fail it
SHARE = 0.5  # of a rating that acts together with others, to start from
ROD_ENDS = (
    4000.0  # lb: least rating of the ends of crossed rods, for ends of a smaller one slip more; judgement
)
GENEROUS: dict[str, float] = {"rated_load": 8000.0, "rated_lateral": 5000.0, "infill_load": 500.0}
_HANDS: dict[str, tuple[tuple[str, str | None, str], ...]] = {
    "cap_lateral": (("post", None, "cap_lateral"),),
    "cap_uplift": (("support", "P", "uplift_tie"),),
    "roll_strap": (("post", None, "rotation_tie"),),
    "floor_strap": (("diagonal", None, "rated_load"),),
    "bracket_down": (("bolt", None, "rated_load"),),
    "bracket_side": (("bolt", None, "rated_lateral"),),
    "joist_tie": (("joists", None, "uplift_tie"),),
    "hanger_down": (("connection", None, "rated_load"),),
}
_KEYS = (
    "rated_load",
    "rated_uplift",
    "rated_lateral",
    "cap_lateral",
    "rotation_tie",
    "uplift_tie",
    "lateral_tie",
    "edge_load",
    "rated_foot",
    *("hold_down", "lower_tie", "down_tie", "rail_fastening", "infill_load"),
    *("tread_bracket", "face_tie", "rail_tie", "head_edge"),
    *("hinge", "latch", "wheel", "step_fixing", "head_fixing", "grip_rating"),
)


_NOTES = {
    **dict.fromkeys(("connection", "strut", "diagonal", "crossed_rods"), "note"),
    "post": "cap_note",
    "support": "uplift_note",
    "gate": "hardware_note",
    "ladder": "fixing_note",
}


def letters(mark: str) -> str:
    """A mark without its number: parts of one letter share their ratings."""
    return mark.rstrip("0123456789")


def places(data: Data) -> Iterator[tuple[Group, dict[str, Any]]]:
    """Every rating of a file with the entry it stands in."""
    for table in ("bolt", "post", "connection", "strut"):
        for name, entry in data.get(table, {}).items():
            yield from (((table, name, key), entry) for key in _KEYS if key in entry)
    for table in ("support", "beam", "joists", "diagonal", "crossed_rods", "guard", "gate"):
        for entry in data.get(table, ()):
            mark = letters(entry.get("mark", "GT"))
            yield from (((table, mark, key), entry) for key in _KEYS if key in entry)
    for table in ("ladder", "stairs"):
        entry = data.get(table, {})
        yield from (((table, "", key), entry) for key in _KEYS if key in entry)


def groups_of(data: Data) -> tuple[Group, ...]:
    """All ratings of a file, those of equal parts as one."""
    return tuple(dict.fromkeys(group for group, _ in places(data)))


def at_hand(hands: AtHand, groups: Iterable[Group]) -> Ratings:
    """Ratings of hardware that is at hand: they are taken as they are."""
    found: Ratings = {}
    for name, spots in _HANDS.items():
        value = getattr(hands, name)
        if value is None:
            continue
        for group in groups:
            if any(group[0] == t and group[2] == k and n in (None, group[1]) for t, n, k in spots):
                found[group] = value
    return found


def apply(data: Data, ratings: Mapping[Group, float], fixed: Mapping[Group, float]) -> None:
    """Write ratings into a file's data, with where each comes from; what is not known yet is generous."""
    for group, entry in list(places(data)):
        if ratings.get(group) == UNASKED:
            del entry[group[2]]
            continue
        value = fixed.get(group, ratings.get(group, _generous(group)))
        entry[group[2]] = f"{value:.0f} lb"
        entry[note_key(group)] = AT_HAND if group in fixed else TO_BUY


def note_key(group: Group) -> str:
    """Key that says where a rating comes from."""
    table, _, key = group
    if table == "guard":
        return {"rail_fastening": "rail_note", "infill_load": "infill_note"}.get(key, "hold_down_note")
    if table == "stairs":
        return {"tread_bracket": "tread_note", "rail_tie": "rail_note"}.get(key, "face_note")
    if table == "bolt":
        return "rated_lateral_note" if key == "rated_lateral" else "rated_note"
    return _NOTES.get(table, "tie_note")


def resting_on(data: Data, check: Check) -> tuple[tuple[Group, ...], bool]:
    """The ratings that a check rests on, and whether they act together; none for a check of sizes."""
    key, part, at = check.key, check.part, check.at
    supports = {s["mark"]: s for s in data.get("support", ())}
    beams = {c["mark"]: c for c in data.get("beam", ())}
    post = supports.get(part, {}).get("post", "")
    bolt = supports.get(part, {}).get("bolt", "")
    own = letters(part)
    blocks = {b["mark"]: b for b in data.get("blocking", ())}
    hanger = blocks.get(own, beams.get(part, data["joists"][0])).get("hanger", "")
    match key:
        case "post.cap_lateral":
            return (("post", post, "cap_lateral"),), False
        case "post.cap_rotation":
            return (("post", post, "rotation_tie"),), False
        case "post.uplift" | "post.uplift_lateral":
            return (("support", own, "uplift_tie"),), False
        case "post.cap_together":
            found = (
                ("post", post, "cap_lateral"),
                ("post", post, "rotation_tie"),
                ("support", own, "uplift_tie"),
            )
            return found, True
        case "tree_bolt.rated" | "tree_bolt.rated_lateral":
            return (("bolt", bolt, "rated_load"),), False
        case "tree_bolt.bracket_lateral" | "tree_bolt.fastening":
            return (("bolt", bolt, "rated_lateral"),), False
        case "tree_bolt.uplift" | "tree_bolt.uplift_lateral":
            return (("support", own, "uplift_tie"),), False
        case "tree_bolt.together":
            on_bolts = "ST" if data.get("post") else "C"
            on_it = tuple(
                ("beam", letters(m), "rotation_tie")
                for m, b in beams.items()
                if "rotation_tie" in b and m[0] in on_bolts
            )
            return tuple(
                dict.fromkeys(
                    (
                        *(("bolt", bolt, "rated_load"), ("bolt", bolt, "rated_lateral")),
                        *(
                            ("support", own, "uplift_tie"),
                            *on_it,
                        ),  # a bracket that is lifted holds by its hold-down clip
                    )
                )
            ), True
        case "tree.restraint":
            return tuple(("bolt", name, "rated_lateral") for name in data.get("bolt", {})), False
        case "hanger.rated" | "hanger.rated_lateral":
            return (("connection", hanger, "rated_load"),), False
        case "blocking.uplift":
            return (("connection", hanger, "rated_uplift"),), False
        case "guard.hold_down" | "guard.lower_tie" | "guard.rail_fastening":
            return (("guard", "G", key.removeprefix("guard.")),), False
        case "guard.load_down":
            return (("guard", "G", "down_tie"),), False
        case "guard.infill_fastening":
            return (("guard", "G", "infill_load"),), False
        case "gate.hinge" | "gate.latch" | "gate.wheel":
            return (("gate", "GT", key.removeprefix("gate.")),), False
        case "ladder.step_fixing":
            return (("ladder", "", "step_fixing"),), False
        case "stairs.tread_bracket" | "stairs.face_tie":
            return (("stairs", "", key.removeprefix("stairs.")),), False
        case "stairs.rail_load":
            return (("stairs", "", "rail_tie"),), False
        case "stairs.head_rotation":
            return (("stairs", "", "head_edge"),), False
        case "stairs.rail_head_up":
            return (("connection", "HS", "rated_uplift"),), False
        case "stairs.head" | "stairs.rail_head":
            return (("connection", "HS", "rated_load"),), False
        case "ladder.grip":
            return (("ladder", "", "grip_rating"),), False
        case "ladder.head":
            return (("ladder", "", "head_fixing"),), False
        case "joist.uplift" | "joist.uplift_lateral" | "beam.uplift" | "beam.uplift_lateral":
            return (_uplift(data, beams, part, at, hanger),), False
        case "joist.lateral" if at == "resting":
            return (("joists", "J", "lateral_tie"),), False
        case "joist.lateral" | "beam.lateral":
            return (
                ("connection", at if at in data.get("connection", {}) else hanger, "rated_lateral"),
            ), False
        case "beam.stage_uplift" if at in supports:
            return (("support", letters(at), "uplift_tie"),), False
        case "beam.stage_uplift" | "joist.stage_uplift":
            return (_uplift(data, beams, part, at, hanger),), False
        case "beam.fastening_lateral":
            return (("beam", own, "lateral_tie"),), False
        case "beam.rotation":
            seat = supports.get(at, {})
            return (
                (("post", seat["post"], "rotation_tie") if "post" in seat else ("beam", own, "rotation_tie")),
            ), False
        case "beam.together":
            return tuple(("beam", own, k) for k in ("lateral_tie", "rotation_tie", "uplift_tie")), True
        case "beam.rotation_hanger" | "beam.edge_load":
            return (("beam", own, "edge_load"),), False
        case "beam.rotation_joists" | "joist.edge_load":
            return (("joists", "J", "edge_load"),), False
        case "joist.edge_together" | "beam.edge_together":
            edges = ("beam", own, "edge_load") if part in beams else ("joists", "J", "edge_load")
            return (edges, *(("connection", hanger, k) for k in ("rated_load", "rated_uplift"))), True
        case "trunk_brace.foot_rated":
            return (("strut", supports.get(part, {}).get("strut", ""), "rated_foot"),), False
        case "trunk_brace.uplift" | "trunk_brace.uplift_lateral":
            return (("support", own, "uplift_tie"),), False
        case "crossed_rods.ends":
            return (("crossed_rods", own, "rated_load"),), False
        case "platform.in_plane":
            return (("diagonal", "X", "rated_load"),), False
    return (), False


def _uplift(data: Data, beams: Mapping[str, Data], part: str, at: str, hanger: str) -> Group:
    if at in data.get("connection", {}):
        return ("connection", at, "rated_uplift")
    if part in beams:
        if hanger and at in beams:
            return ("connection", hanger, "rated_uplift")
        return ("beam", letters(part), "uplift_tie")
    if at.startswith("H") and hanger:
        return ("connection", hanger, "rated_uplift")
    return ("joists", "J", "uplift_tie")


def _generous(group: Group) -> float:
    """A rating to begin with, before it is known what is required."""
    return ROD_ENDS if group[0] == "crossed_rods" else GENEROUS.get(group[2], 4000.0)


def fitted(
    data: Data,
    checks: Iterable[Check],
    ratings: Mapping[Group, float],
    fixed: Mapping[Group, float],
    first: bool,
) -> Ratings:
    """Every rating at what is required of it; ``first``: those that act together get room for each other."""
    alone: dict[Group, float] = {}
    joint: dict[Group, float] = {}
    for check in checks:
        groups, together = resting_on(data, check)
        # Open by a small rating: two models differ by more than a twentieth of it, though by little.
        ratio = 2.0 if math.isnan(check.ratio) else check.ratio
        for group in groups:
            where = joint if together else alone
            where[group] = max(where.get(group, 0.0), ratio)
    found: Ratings = {g: v for g, v in ratings.items() if v == UNASKED}
    for group in groups_of(data):
        if group in fixed:
            continue
        now = ratings.get(group, _generous(group))
        if group[0] == "beam" and group not in alone and group not in joint:
            found[group] = UNASKED
            continue
        want = alone.get(group, 0.0) / FULL
        if group in joint:
            want = alone.get(group, 0.0) / SHARE if first else max(want, joint[group] / FULL)
        least = ROD_ENDS if group[0] == "crossed_rods" else LEAST
        found[group] = min(max(math.ceil(now * want / 10) * 10.0, least), 100_000.0)
    return found
