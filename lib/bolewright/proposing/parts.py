"""Entries of a project file that every arrangement has: title, place, loads, trees, posts, holes, beams."""

from __future__ import annotations

import datetime
import math
from dataclasses import dataclass, field
from typing import Any

from bolewright.platform.file.ratings import TO_BUY
from bolewright.platform.project.fields import Point
from bolewright.proposing import taken
from bolewright.proposing.ground import Ground, Turn
from bolewright.proposing.needs import NeededTree
from bolewright.proposing.sizes import Sizes
from bolewright.proposing.writing import Place, inches, point

ABOVE_GRADE = 8.0  # in, of the lower ends of crossed rods
SWAY = 0.10  # share of the live load that pushes laterally; common practice
BY_EARTHQUAKE = "raised, so that no direction is checked for less than the earthquake's 0.7 C_s W"
AT_HAND = "at hand, as the requirements give it"
DATE = datetime.date(2026, 11, 28)
TIED: dict[str, Any] = {
    "rotation_tie": "3000 lb",
    "lateral_tie": "1000 lb",
    "uplift_tie": "500 lb",
    "tie_note": TO_BUY,
}
"""Ratings of what ties a beam to the bracket of a tree bolt, before it is known what is required."""
Data = dict[str, Any]


@dataclass
class Draft:
    """A project's data as it is drawn, with comments by place; ``bearing`` are the marks of trees with bolts."""

    name: str
    why: str
    data: Data = field(default_factory=dict)
    comments: dict[Place, str] = field(default_factory=dict)
    bearing: tuple[str, ...] = ()

    def say(self, place: Place, words: str) -> None:
        """A comment beside a value or a header."""
        self.comments[place] = words

    def add(self, table: str, entry: Data, words: str = "") -> None:
        """One more entry of a list of tables, with a comment beside its header."""
        rows = self.data.setdefault(table, [])
        if words:
            self.say((table, len(rows)), words)
        rows.append(entry)


def begun(name: str, why: str, ground: Ground, sizes: Sizes) -> Draft:
    """A draft with everything that does not depend on the arrangement; points are turned back by :func:`ended`."""
    needs = ground.needs
    place = needs.place
    draft = Draft(name, why)
    draft.data = {
        "format": 2,
        "title": {"project": needs.project, "date": DATE, "revision": "A", "note": f"Proposal: {name}"},
        "code": {
            k: v
            for k, v in (
                ("basis", needs.code.basis or "IRC"),
                ("edition", needs.code.edition or "2021"),
                ("amendments", needs.code.amendments),
            )
            if v
        },
        "site": {
            "frost_depth": inches(taken.FROST if place.frost_depth is None else place.frost_depth),
            "soil": place.soil or taken.SOIL,
            "ground_snow": f"{place.ground_snow:g} psf",
            "wind_speed": f"{place.wind_speed:g} mph",
            "exposure": place.exposure or taken.EXPOSURE,
            "S_DS": taken.S_DS if place.S_DS is None else place.S_DS,
        },
        "loads": {
            "live": f"{needs.live:g} psf",
            "live_note": "as the requirements give it",
            "sway_share": f"{100 * sizes.sway:g} %",
            "guard": f"{sizes.guard:g} plf",
            "guard_edges": list(range(1, len(ground.outline) + 1)),
            "guard_height": inches(needs.floor.guard_height),
            "guard_solidity": 0.4,
        },
        "limits": {"drift": 200},
        "platform": {
            "outline": [point(x, y) for x, y in ground.outline],
            "floor_height": inches(ground.height),
        },
        "decking": timber(ground, "2x6"),
    }
    for key, given in (
        ("frost_depth", place.frost_depth),
        ("soil", place.soil),
        ("exposure", place.exposure),
    ):
        if given is None:
            draft.say(("site", key), "taken by default, not measured")
    if place.S_DS is None:
        draft.say(("site", "S_DS"), "taken by default, not looked up")
    draft.say(("loads", "sway_share"), BY_EARTHQUAKE if sizes.sway > SWAY else "common practice")
    draft.say(("loads", "guard_edges"), "all round: the way in is through a gate")
    draft.say(("limits", "drift"), "the floor's height divided by this (common practice)")
    if ground.needs.ground:
        draft.say(
            ("platform", "floor_height"), "over the lowest ground given, so that no post is longer than this"
        )
    if needs.trees:
        draft.data["tree"] = [tree_entry(ground, tree) for tree in needs.trees]
        for i, tree in enumerate(needs.trees):
            for key, given in (("bark", tree.bark), ("height", tree.height), ("growth", tree.growth)):
                if given is None:
                    draft.say(("tree", i, key), "taken by default, not measured")
            if tree.crown_area is None:
                draft.say(("tree", i, "crown_area"), "taken by default, not measured")
    return draft


def timber(ground: Ground, section: str) -> Data:
    """Size, species and grade of a piece, in the weather."""
    own = ground.needs.timber
    return {
        "section": section,
        "species": own.species,
        "grade": own.grade,
        "wet": True,
        "incised": own.incised,
    }


def tree_entry(ground: Ground, tree: NeededTree) -> Data:
    """A tree as the file has it; what was not given is taken by default."""
    height = max(tree.height or taken.HEIGHT, ground.height + 60)
    entry: Data = {
        "mark": tree.mark,
        "species": tree.species,
        "at": point(*ground.at(tree)),
        "girth": inches(tree.girth),
        "bark": inches(taken.BARK if tree.bark is None else tree.bark),
        "height": inches(height),
    }
    if tree.sway_seen is not None and tree.sway_seen_at is not None:
        entry |= {"sway_seen": inches(tree.sway_seen), "sway_seen_at": inches(tree.sway_seen_at)}
    entry["crown_area"] = f"{tree.crown_area or taken.CROWN:g} ft2"
    entry["crown_center"] = inches(tree.crown_center or taken.CENTER * height)
    entry["growth"] = f"{taken.GROWTH if tree.growth is None else tree.growth:g} in/yr"
    entry["service"] = f"{ground.needs.rules.visits:g} years"
    if tree.cavity is not None:
        entry["cavity"] = inches(tree.cavity)
    said = ". ".join(
        s for s in (tree.condition, f"For the arborist: {tree.fault}" if tree.fault else "") if s
    )
    if said:
        entry["condition"] = said
    return entry


def post_kind(draft: Draft, ground: Ground, sizes: Sizes) -> None:
    """The kinds of post and hole."""
    own = ground.needs.timber
    draft.data["post"] = {
        "P": {
            "section": sizes.post,
            "species": own.species,
            "grade": own.grade,
            "wet": True,
            "incised": own.incised,
            "foot_bolts": sizes.foot_bolts,
            "foot_bolt_diameter": "3/4 in",
            "base": "fixed",
            "cap_lateral": "2000 lb",
            "rotation_tie": "2000 lb",
            "cap_note": TO_BUY,
        }
    }
    draft.say(
        ("post", "P", "base"), "the post stands in concrete down to the pad: what holds the floor upright"
    )
    draft.data["footing"] = {
        "F": {
            "shape": "round",
            "width": inches(sizes.width),
            "depth": inches(sizes.depth),
            "pad": inches(sizes.pad),
            "fill": "concrete",
            "f_c": "2500 psi",
        }
    }


def strut_kind(draft: Draft, ground: Ground, sizes: Sizes) -> None:
    """The kind of knee brace from a lower tree bolt."""
    draft.data["strut"] = {
        "S": {
            **timber(ground, sizes.strut),
            "head_bolts": sizes.strut_bolts,
            "foot_bolts": sizes.strut_bolts,
            "bolt_diameter": "5/8 in",
            "rated_foot": "4000 lb",
            "note": TO_BUY,
        }
    }
    draft.say(("strut", "S", "head_bolts"), "of its plates in the beam, and as many in the brace")


def post(draft: Draft, mark: str, at: Point) -> None:
    """A post on its hole."""
    entry = {
        "mark": mark,
        "kind": "post",
        "uplift_tie": "500 lb",
        "uplift_note": TO_BUY,
        "post": "P",
        "footing": "F",
        "at": point(*at),
    }
    draft.add("support", entry)


def beam(ground: Ground, mark: str, plies: tuple[int, str], start: Point, end: Point, **more: Any) -> Data:
    """A beam of plies from a point to another."""
    return {
        "mark": mark,
        "plies": plies[0],
        **timber(ground, plies[1]),
        "from": point(*start),
        "to": point(*end),
        **more,
    }


def even_spacing(first: float, last: float, spacing: float) -> float:
    """A spacing no wider than wanted that leaves no short last bay: blocks there would turn joists by a small arm."""
    bays = max(1, math.ceil((last - first) / spacing - 1e-6))
    return math.ceil((last - first) / bays * 8 - 1e-6) / 8


def joists(
    draft: Draft, ground: Ground, sizes: Sizes, lines: tuple[float, float, float], *, along: str, **more: Any
) -> None:
    """Joists along x or y on top of the beams, from the first line to the last across them, at a spacing."""
    first, last, spacing = lines
    entry = {
        "mark": "J",
        **timber(ground, sizes.joist),
        "direction": along,
        "first": first,
        "last": last,
        "spacing": inches(spacing),
        "bearing": "resting",
        "uplift_tie": "300 lb",
        "lateral_tie": "1000 lb",
        "tie_note": TO_BUY,
        **more,
    }
    draft.add("joists", entry)


def strap(draft: Draft, start: Point, end: Point) -> None:
    """A strap of a crossed pair under the joists."""
    number = len(draft.data.get("diagonal", ())) + 1
    entry = {
        "mark": f"X{number}",
        "from": point(*start),
        "to": point(*end),
        "rated_load": "1500 lb",
        "note": TO_BUY,
    }
    draft.add("diagonal", entry, "straps under the joists keep the floor square" if number == 1 else "")


def rods(draft: Draft, sizes: Sizes, below: float, one: str, two: str) -> None:
    """A pair of crossed rods between two posts."""
    number = len(draft.data.get("crossed_rods", ())) + 1
    entry = {
        "mark": f"XR{number}",
        "from_post": one,
        "to_post": two,
        "below_beam": inches(below),
        "above_grade": inches(ABOVE_GRADE),
        "diameter": inches(sizes.rod),
        "rated_load": "4000 lb",
        "note": TO_BUY,
    }
    words = "crossed rods between the posts keep the floor from swaying; one passes under it only beside them"
    draft.add("crossed_rods", entry, words if number == 1 else "")


def crossed(draft: Draft, x0: float, x1: float, y0: float, y1: float) -> None:
    """A crossed pair of straps in a bay between two beams."""
    strap(draft, (x0, y0), (x1, y1))
    strap(draft, (x1, y0), (x0, y1))


def ended(draft: Draft, turn: Turn) -> Draft:
    """The draft in the plan of the requirements: what was turned before it was drawn is turned back."""
    data = draft.data
    platform = data["platform"]
    platform["outline"] = [_back(p, turn) for p in platform["outline"]]
    if "openings" in platform:
        platform["openings"] = [[_back(p, turn) for p in ring] for ring in platform["openings"]]
    for table in ("tree", "support", "beam", "diagonal"):
        for entry in data.get(table, ()):
            for key in ("at", "from", "to"):
                if key in entry:
                    entry[key] = _back(entry[key], turn)
    for entry in data["joists"]:
        first, last, along_y = entry["first"], entry["last"], entry["direction"] == "y"
        if turn.flipped and not along_y:
            first, last = -last, -first
        along_y ^= turn.swapped
        if along_y:  # positions count to the left of the way that joists run: against x
            first, last = -last, -first
        entry |= {"direction": "90 deg" if along_y else "0 deg", "first": inches(first), "last": inches(last)}
    return draft


def _back(at: list[str], turn: Turn) -> list[str]:
    x, y = at
    if turn.flipped:
        y = _negated(y)
    return [y, x] if turn.swapped else [x, y]


def _negated(length: str) -> str:
    return length[1:] if length.startswith("-") else (length if length == "0 in" else f"-{length}")
