"""A proposal in words: the head of its file, its comments, and the proposals side by side."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright import __version__
from bolewright.platform.file.demonstration import unconfirmed
from bolewright.proposing.effects import Effect, asked_for, deepest, not_measured
from bolewright.proposing.fit import Failed, Fitted
from bolewright.proposing.ground import Ground
from bolewright.proposing.parts import AT_HAND, SWAY
from bolewright.proposing.ratings import Group, groups_of, letters, places
from bolewright.proposing.writing import file_text, in_words
from bolewright.status import Status

NOT_APPROVED = (
    "Sizes were found which pass these checks; nobody has approved them, and the arrangement has to be looked at on "
    "the tree and on the ground."
)
_SQUARE_FEET = 200.0  # IRC 2021, R105.2, building, item 10
_ABOVE_GRADE = 30.0  # in, the same
_WORDS: dict[tuple[str, str], str] = {
    ("post", "cap_lateral"): "to the side",
    ("post", "rotation_tie"): "for the strap on each side of the beam",
    ("support", "uplift_tie"): "up",
    ("bolt", "rated_load"): "down",
    ("bolt", "rated_lateral"): "to the side",
    ("connection", "rated_load"): "down",
    ("connection", "rated_uplift"): "up",
    ("connection", "rated_lateral"): "to the side, in any direction in plan",
    ("beam", "lateral_tie"): "to the side",
    ("beam", "rotation_tie"): "on each side against rotation",
    ("beam", "uplift_tie"): "up",
    ("beam", "edge_load"): "at its upper and lower edge",
    ("joists", "uplift_tie"): "up",
    ("joists", "lateral_tie"): "to the side, in any direction in plan",
    ("joists", "edge_load"): "at its upper and lower edge",
    ("diagonal", "rated_load"): "tension",
    ("crossed_rods", "rated_load"): "tension",
    ("strut", "rated_foot"): "along it",
    ("guard", "hold_down"): "pull at the upper bolt",
    ("guard", "lower_tie"): "pull at the lower bolt",
    ("guard", "down_tie"): "down, at a joist's end with nothing along the edge",
    ("guard", "rail_fastening"): "at each end of a rail, in any direction",
    ("guard", "infill_load"): "at each baluster's ends",
    ("gate", "hinge"): "in any direction",
    ("gate", "latch"): "outward",
    ("gate", "wheel"): "down",
    ("stairs", "tread_bracket"): "under each end of a tread",
    ("stairs", "face_tie"): "for the board under the framing at the stairs",
    ("stairs", "head_edge"): "at the edges of each stringer's hanger",
    ("stairs", "rail_tie"): "at each bolt of a rail's post",
    ("ladder", "step_fixing"): "at each end of a rung",
    ("ladder", "head_fixing"): "at each rail's head, in any direction",
    ("ladder", "grip_rating"): "at any place of the grab bars, in any direction",
}


def shopping(one: Fitted) -> list[str]:
    """Ratings to be bought, a line for each piece of hardware."""
    by_piece: dict[str, list[str]] = {}
    entries = dict(places(one.draft.data))
    for group in groups_of(one.draft.data):
        value = entries[group][group[2]].removesuffix(" lb")
        words = f"{int(value):,} lb {_WORDS[group[0], group[2]]}"
        source = " (at hand)" if AT_HAND in entries[group].values() and group in one_fixed(one) else ""
        by_piece.setdefault(_piece(one, group), []).append(words + source)
    return [f"{piece} for {in_words(words)}" for piece, words in by_piece.items()]


def one_fixed(one: Fitted) -> set[Group]:
    """Ratings that are at hand, not to be bought."""
    return set(groups_of(one.draft.data)) - set(one.ratings)


def _piece(one: Fitted, group: Group) -> str:
    table, name, key = group
    supports = one.draft.data["support"]
    if table == "post" or (table == "support" and name == "P"):
        return f"a cap on each of {_marks(s['mark'] for s in supports if s['kind'] == 'post')}"
    if table == "bolt":
        return f"a bracket on each of {_marks(s['mark'] for s in supports if s['kind'] == 'tree bolt')}"
    if table == "guard":
        return "the guard's ties and fastenings"
    if table == "gate":
        return {"hinge": "each hinge of the gate", "latch": "the gate's latch"}.get(key, "the gate's wheel")
    if table == "stairs":
        return "the stairs' fixings"
    if table == "ladder":
        return "the ladder's fixings"
    if table == "strut":
        return f"the shoe of each of {_marks(s['mark'] for s in supports if s['kind'] == 'knee brace')}"
    if table == "support":
        return (
            f"a hold-down clip on each of {_marks(s['mark'] for s in supports if letters(s['mark']) == name)}"
        )
    if table == "connection":
        return f"hanger {name}"
    if table == "diagonal":
        return "each floor strap"
    if table == "crossed_rods":
        return "each end of a crossed rod"
    if table == "joists":
        return (
            "a tie of each joist on each beam"
            if key in ("uplift_tie", "lateral_tie")
            else "each joist's hanger"
        )
    marks = _marks(c["mark"] for c in one.draft.data["beam"] if letters(c["mark"]) == name)
    return f"the angles of {marks}" if key != "edge_load" else f"the hanger of {marks}"


def _marks(marks: Iterator[str]) -> str:
    return in_words(list(marks))


def permit(ground: Ground) -> str:
    """Which of the thresholds below which no permit is commonly asked for the platform is over."""
    over = [
        words
        for words, is_over in (
            (f"{ground.area:,.0f} sq ft, over {_SQUARE_FEET:g}", ground.area > _SQUARE_FEET),
            (f"{ground.height:g} in. above grade, over {_ABOVE_GRADE:g}", ground.height > _ABOVE_GRADE),
        )
        if is_over
    ]
    limit = f"{_SQUARE_FEET:g} sq ft and {_ABOVE_GRADE:g} in. above grade (IRC 2021, R105.2)"
    if over:
        free = f"beyond the {limit} up to which decks are commonly free of one"
        return f"Permit: {in_words(over)}: {free}; the local code decides."
    return f"Permit: within {limit}, up to which decks are commonly free of one; the local code decides."


def neighbours(ground: Ground) -> list[str]:
    """That a trunk of the requirements stands on a property line or beyond it."""
    marks = [tree.mark for tree in ground.trunks_over_line]
    if not marks:
        return []
    stands, it = ("stands", "it") if len(marks) == 1 else ("stand", "them")
    return [
        f"Open: {in_words(marks)} {stands} on the property line or beyond it: whoever owns that ground owns a part of "
        f"{it}, and has to agree in writing before {it} is drilled or a root is cut."
    ]


def head(one: Fitted, ground: Ground, found: tuple[Effect, ...]) -> list[str]:
    """Remarks on top of a proposal's file."""
    faults = [f"{t.mark}: {t.fault}" for t in ground.needs.trees if t.fault and t.mark in one.draft.bearing]
    lines = [
        not_measured(found, asked_for(one, ground)),
        "",
        f"Proposed by Bolewright {__version__} from requirements: {one.arrangement.name}. {one.draft.why}",
        NOT_APPROVED,
        "Ratings are what the calculation requires of hardware that has yet to be bought; none was read off a sheet:",
        *(f"  {line}." for line in shopping(one)),
        permit(ground),
        *neighbours(ground),
    ]
    if one.sizes.sway > SWAY:
        lines.append(
            f"Earthquake sets the lateral load: the platform is checked for {one.sizes.sway:.0%} of the live load from "
            "every direction in place of 10 %. Only the total force is compared; a licensed engineer decides."
        )
    if still := open_words(one, ground):
        lines.append(f"Open: {in_words(still)}.")
    if faults:
        lines.append(f"Open: the arborist's word on {in_words(faults)}.")
    return [piece for line in lines for piece in _wrapped(line)]


def open_words(one: Fitted, ground: Ground) -> list[str]:
    """What a proposal leaves open beside ratings and the arborist's word."""
    data = one.draft.data
    guarded = {e for guard in data.get("guard", ()) for e in guard["edges"]}
    bare = [str(i + 1) for i in range(len(ground.outline)) if i + 1 not in guarded]
    said = [f"how the guard is fixed on edge{'s' if len(bare) > 1 else ''} {in_words(bare)}"] if bare else []
    if ground.needs.access.kind != "none" and not {"ladder", "stairs"} & data.keys():
        said.append("how one gets up (stairs and ladders are fixed to an outermost joist, along an edge)")
    return said


def _wrapped(line: str, width: int = 116) -> list[str]:
    if len(line) <= width:
        return [line]
    indent = "    " if line.startswith("  ") else ""
    rows, row = [], ""
    for word in line.split(" "):
        if row.strip() and len(row) + 1 + len(word) > width:
            rows.append(row)
            row = indent + word
        else:
            row = f"{row} {word}" if row else word or " "
    return [*rows, row]


def proposal_text(one: Fitted, ground: Ground, found: tuple[Effect, ...]) -> str:
    """The whole file of a proposal."""
    draft = one.draft
    comments = dict(draft.comments)
    for place, words in one.stops.items():
        comments.setdefault(place, words)
    data = dict(draft.data)
    same = [s.path for s in unconfirmed(one.results.project) if _given(s.path, one)]
    if same:  # they come from the requirements or the calculation, not from the demonstration
        data = {"format": data["format"], "confirmed": same, **data}
    return file_text(head(one, ground, found), data, comments)


def _given(path: str, one: Fitted) -> bool:
    """Whether a value was given or calculated, not taken by default."""
    table, *rest = path.split(".")
    if table != "tree":
        return "default" not in one.draft.comments.get((table, *rest), "")
    marks = [entry["mark"] for entry in one.draft.data["tree"]]
    return "default" not in one.draft.comments.get(("tree", marks.index(rest[0]), rest[1]), "")


def not_proposed(failed: list[Failed]) -> list[str]:
    """Why the other arrangements are not proposed: those that one reason stopped in one line."""
    by_reason: dict[str, list[str]] = {}
    for one in failed:
        by_reason.setdefault(one.why[0], []).append(one.arrangement.name)
    return [f"Not proposed, {reason}: {'; '.join(names)}." for reason, names in by_reason.items()]


def side_by_side(shown: list[Fitted]) -> list[str]:
    """The proposals in a table: what each takes, and how near to its limits it is."""
    rows: list[tuple[str, list[str]]] = [
        ("", [f"{i + 1}" for i in range(len(shown))]),
        ("arrangement", [o.arrangement.name for o in shown]),
        ("cost, in board ft", [f"{o.cost:,.0f}" for o in shown]),
        ("wood, board ft", [f"{o.stuff.wood:,.0f}" for o in shown]),
        ("concrete, cu ft", [f"{o.stuff.concrete:,.0f}" for o in shown]),
        ("holes", [f"{_holes(o)}" for o in shown]),
        ("posts", [_posts(o) for o in shown]),
        ("tree bolts", [f"{len(o.draft.data['support']) - _holes(o)}" for o in shown]),
        ("greatest ratio", [_deep(o) for o in shown]),
        ("clearance, years", [_years(o) for o in shown]),
        ("ratings to buy", [f"{len(set(groups_of(o.draft.data)) - one_fixed(o))}" for o in shown]),
        ("largest of them", [f"{max(o.ratings.values(), default=0):,.0f} lb" for o in shown]),
        ("open", [_open(o) for o in shown]),
    ]
    first = max(len(name) for name, _ in rows)
    widths = [max(len(cells[i]) for _, cells in rows) for i in range(len(shown))]
    return [
        f"{name:<{first}}  " + "  ".join(f"{c:<{w}}" for c, w in zip(cells, widths, strict=True)).rstrip()
        for name, cells in rows
    ]


def _holes(one: Fitted) -> int:
    return sum(s["kind"] == "post" for s in one.draft.data["support"])


def _posts(one: Fitted) -> str:
    return ", ".join(p["section"] for p in one.draft.data.get("post", {}).values()) if _holes(one) else "none"


def _deep(one: Fitted) -> str:
    check = deepest(one.results)
    return f"{check.shown_ratio} {check.part}, {check.limit_state}"


def _years(one: Fitted) -> str:
    own = [c for c in one.results.checks if c.key in ("tree.clearance_years", "tree_bolt.contact_years")]
    return f"{min(c.capacity for c in own):.0f}" if own else "-"


def _open(one: Fitted) -> str:
    names = {c.limit_state for c in one.results.checks if c.status is Status.NOT_CHECKED}
    return ", ".join(sorted(names)) or "none"
