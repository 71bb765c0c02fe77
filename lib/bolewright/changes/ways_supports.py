"""Ways to help what stands in the tree and in the ground: bolts, posts' caps, footings, and what is rated."""

from __future__ import annotations

import math
from typing import Any

from bolewright.changes.change import Change
from bolewright.changes.ways_case import Case, inches
from bolewright.platform.checks.bracket_bolts import APART as BRACKET_BOLTS_APART
from bolewright.platform.file.reading import Location
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

_FIRST = (400, 800, 1200, 1600, 2400)  # lb, where no rating is given yet
_WORDS = {
    "rated_load": "rated for {} lb",
    "rated_uplift": "rated for {} lb of uplift",
    "rated_lateral": "rated for {} lb to the side",
    "uplift_tie": "with a tie rated for {} lb of uplift",
    "foot_tie": "with an anchor at the foot rated for {} lb of uplift",
    "cap_lateral": "with a cap rated for {} lb to the side",
    "rotation_tie": "with a strap on each side rated for {} lb",
    "edge_load": "with connections rated for {} lb at their upper and lower edge",
    "lateral_tie": "fastened with angles rated for {} lb to the side",
}


def rated_higher(case: Case, key: str, field: str = "rated_load") -> list[Change]:
    """A higher rating of a hanger, bolt, cap, strap or tie, by what is wanted of it."""
    changes = []
    for name in _rated_parts(case, key):
        where = (key, name, field)
        part = case.get(key, name, "mark") or name
        rated = _rated_now(case, key, name, field)
        wanted = list(_FIRST) if rated is None else _over(rated, case.check.ratio)
        what = {"connection": "A hanger ", "bolt": "A bolt "}.get(key, "")
        for load in wanted:
            words = _WORDS[field].format(f"{load:,}")
            said = f"{what}{words} as {part}" if what else f"{part} {words}"
            changes.append(Change(said, ((where, f"{load} lb"),)))
    return changes


def tied_higher(case: Case, row: int) -> list[Change]:
    """A higher rating of the tie of a support against uplift."""
    mark, rated = case.project.supports[row].mark, _rated_now(case, "support", row, "uplift_tie")
    wanted = _FIRST if rated is None else _over(rated, case.check.ratio)
    words = f"{mark} {_WORDS['uplift_tie']}"
    return [
        Change(words.format(f"{load:,}"), ((("support", row, "uplift_tie"), f"{load} lb"),))
        for load in wanted
    ]


def rated_together(case: Case) -> list[Change]:
    """Bolts rated higher vertical and lateral alike, where the two act together."""
    if math.isnan(case.check.ratio):
        return []
    changes = []
    for kind in case.kinds("bolt"):
        bolt = case.project.bolts[kind]
        if bolt.rated_load is None or bolt.rated_lateral is None:
            continue
        for more in (1.0, 1.1, 1.2):
            down, side = (
                math.ceil(rated * case.check.ratio * more / 10) * 10
                for rated in (bolt.rated_load, bolt.rated_lateral)
            )
            words = f"A bolt rated for {down:,} lb and {side:,} lb to the side as {kind}"
            where = ("bolt", kind)
            values = (((*where, "rated_load"), f"{down} lb"), ((*where, "rated_lateral"), f"{side} lb"))
            changes.append(Change(words, values))
    return changes


def rated_shares(case: Case) -> list[Change]:
    """All ratings of a cap, or of a beam's angles, higher together, where their shares add up."""
    if math.isnan(case.check.ratio):
        return []
    places: list[tuple[str, int | str, str]] = []
    mark = case.check.part
    if (kind := case.kind("post")) is not None and (row := case.row("support")) is not None:
        places = [
            ("post", kind, "cap_lateral"),
            ("post", kind, "rotation_tie"),
            ("support", row, "uplift_tie"),
        ]
        mark = kind
    elif (row := case.row("beam")) is not None:
        places = [("beam", row, key) for key in ("lateral_tie", "rotation_tie", "uplift_tie")]
    given = [(place, rated) for place in places if (rated := _rated_now(case, *place)) is not None]
    return [
        Change(
            f"All ratings of {mark} {100 * (case.check.ratio * more - 1):.0f} % higher",
            tuple(
                (place, f"{math.ceil(rated * case.check.ratio * more / 10) * 10} lb")
                for place, rated in given
            ),
        )
        for more in (1.0, 1.1, 1.2)
        if given
    ]


def rated_with_edges(case: Case) -> list[Change]:
    """Ratings of a connection at its edges, down and up higher together, where their shares add up; else the first."""
    if math.isnan(case.check.ratio):
        return []
    table = case.check.key.partition(".")[0].replace("joist", "joists")
    places: list[tuple[str, int | str, str]] = [
        (table, row, "edge_load") for row in _rated_parts(case, table)
    ]
    alone = case.member is not None and getattr(case.member.timber, "rated_alone", False)
    for name in [] if alone else _rated_parts(case, "connection"):
        places += [("connection", name, key) for key in ("rated_load", "rated_uplift")]
    given = [(place, rated) for place in places if (rated := _rated_now(case, *place)) is not None]
    return [
        Change(
            f"Ratings of the connections of {case.check.part} {100 * (case.check.ratio * more - 1):.0f} % higher, at "
            f"the edges{'' if alone else ' and down and up'}",
            tuple(
                (place, f"{math.ceil(rated * case.check.ratio * more / 10) * 10} lb")
                for place, rated in given
            ),
        )
        for more in (1.0, 1.1, 1.2)
        if given
    ]


def seat_wider(case: Case) -> list[Change]:
    """A bracket's seat as wide as what lies on it."""
    wide = {m.width for m in case.members_on(case.check.at)}
    kind = next((s.bolt for s in case.project.supports if s.mark == case.check.at), None)
    if kind is None or not wide:
        return []
    across = inches(max(wide))
    return [Change(f"A seat {across}. wide on {kind}", ((("bolt", kind, "seat_across"), across),))]


def foot_bolted(case: Case, kind: str) -> list[Change]:
    """Bolts through a post's foot that stick out into its concrete."""
    return [
        Change(
            f"{count} bolt{'s' * (count > 1)} of {feet_inches(size)} through the foot of {kind}",
            ((("post", kind, "foot_bolts"), count), (("post", kind, "foot_bolt_diameter"), f"{size:g} in")),
        )
        for count, size in ((1, 0.5), (1, 0.625), (2, 0.5), (2, 0.625), (2, 0.75))
    ]


def bolted_to_bracket(case: Case) -> list[Change]:
    """Bolts through the side plates of a bracket and the middle of the beam on it."""
    kind = next((s.bolt for s in case.project.supports if s.mark == case.check.part), None)
    if kind is None:
        return []
    middle = min((m.section.d / 2 for m in case.members_on(case.check.part)), default=0.0)
    return [
        Change(
            f"{count} bolt{'s' * (count > 1)} of {feet_inches(size)} through bracket {kind} and the beam on it",
            (
                (("bolt", kind, "beam_bolts"), count),
                (("bolt", kind, "beam_bolt_diameter"), f"{size:g} in"),
                (("bolt", kind, "beam_bolt_height"), inches(max(middle, BRACKET_BOLTS_APART * size))),
            ),
        )
        for count, size in ((1, 0.5), (2, 0.5), (2, 0.625), (2, 0.75), (3, 0.75))
    ]


def bracket_bolts_higher(case: Case) -> list[Change]:
    """Bolts of a beam in its bracket farther from the beam's lower edge, up to its middle."""
    support = next((s for s in case.project.supports if s.mark == case.check.at), None)
    if support is None or support.bolt is None:
        return []
    kind, bolt = support.bolt, case.project.bolts[support.bolt]
    if bolt.beam_bolt_diameter is None:
        return []
    now = bolt.beam_bolt_height or BRACKET_BOLTS_APART * bolt.beam_bolt_diameter
    middle = min((m.section.d / 2 for m in case.members_on(support.mark)), default=0.0)
    return [
        Change(
            f"The bolts in bracket {kind} {feet_inches(height)} above the lower edge of the beam",
            ((("bolt", kind, "beam_bolt_height"), inches(height)),),
        )
        for height in (*(now + step / 2 for step in range(1, 20) if now + step / 2 < middle - 1e-9), middle)
        if height > now
    ]


def edges_rated(case: Case) -> list[Change]:
    """Connections rated at the upper and lower edge of what hangs on the check's beam, or of its own part."""
    mark = case.check.part
    on_it = {m.mark for m in case.results.path.layout.members for s in m.seats if s.below == mark} or {mark}
    fields = {m.field for m in case.results.path.layout.joists if m.mark in on_it | {mark}}
    where = [
        ("joists", i, "edge_load") for i, field in enumerate(case.project.joists) if field.mark in fields
    ]
    where += [("beam", i, "edge_load") for i, c in enumerate(case.project.beams) if c.mark in on_it]
    now = [value for path in where if (value := _pounds(case, path)) is not None]
    wanted = _FIRST if not now else tuple(_over(max(now), case.check.ratio))
    return [
        Change(f"Connections rated for {load:,} lb at their upper and lower edge", _restrained(where, load))
        for load in wanted
        if where
    ]


def _restrained(where: list[tuple[str, int, str]], load: int) -> tuple[tuple[Location, Any], ...]:
    rated = [((key, row, name), f"{load} lb") for key, row, name in where]
    return (*rated, *(((key, row, "restrains_beam"), True) for key, row, _ in where))


def _pounds(case: Case, where: tuple[str, int, str]) -> float | None:
    key, row, name = where
    parts = case.project.joists if key == "joists" else case.project.beams
    value = getattr(parts[row], name)
    return None if value is None else float(value)


def more_gusset_nails(case: Case, kind: str) -> list[Change]:
    """More nails in the gussets of a kind of post."""
    now = case.project.posts[kind].gusset_nails or 0
    where = ("post", kind, "gusset_nails")
    return [
        Change(f"{count} nails of each gusset in the post and in the beam, {kind}", ((where, count),))
        for count in (math.ceil(now * more) for more in (1.2, 1.5, 2.0))
        if count <= 24
    ]


def _over(rated: float, ratio: float) -> list[int]:
    """Ratings from what is wanted up; more than in proportion where something else bears with it."""
    if math.isnan(ratio):
        return []
    return [math.ceil(rated * ratio * more / 10) * 10 for more in (1.0, 1.2, 1.5, 2.0, 3.0)]


def _rated_now(case: Case, key: str, name: int | str, field: str) -> float | None:
    parts = {
        "connection": case.project.connections,
        "bolt": case.project.bolts,
        "post": case.project.posts,
        "support": case.project.supports,
        "beam": case.project.beams,
        "joists": case.project.joists,
        "blocking": case.project.blocking,
    }[key]
    value = getattr(parts[name], field)  # type: ignore[index]
    return None if value is None else float(value)


def _rated_parts(case: Case, key: str) -> list[int | str]:
    """Where the rated parts stand that the check leans on."""
    if key == "joists":
        return [] if case.field is None else [case.field]
    if key == "blocking":
        letters = case.check.part.rstrip("0123456789")
        return [i for i, entry in enumerate(case.project.blocking) if entry.mark == letters]
    if key in ("support", "beam"):
        row = case.row(key)
        return [] if row is None else [row]
    if key == "connection":
        named = {seat.connection for seat in case.member.seats if seat.connection} if case.member else set()
        return sorted(name for name in named if name in case.project.connections)
    return list(case.kinds(key))


def bolt_deeper(case: Case) -> list[Change]:
    """More thread in sound wood."""
    return [
        Change(
            f"{feet_inches(case.project.bolts[kind].embedment + more)} of embedment for {kind}",
            ((("bolt", kind, "embedment"), inches(case.project.bolts[kind].embedment + more)),),
        )
        for kind in case.kinds("bolt")
        for more in (1.0, 2.0, 3.0)
    ]


def bolt_shallower(case: Case) -> list[Change]:
    """Less thread in the wood, where two bolts come too near to each other."""
    return [
        Change(
            f"{feet_inches(case.project.bolts[kind].embedment - less)} of embedment for {kind}",
            ((("bolt", kind, "embedment"), inches(case.project.bolts[kind].embedment - less)),),
        )
        for kind in case.kinds("bolt")
        for less in (0.5, 1.0, 2.0)
        if case.project.bolts[kind].embedment - less >= 1
    ]


def bolt_thicker(case: Case, *, thinner: bool = False) -> list[Change]:
    """A thicker bolt, or a thinner one for the trunk's sake."""
    steps = (-0.25, -0.5) if thinner else (0.25, 0.5, 1.0)
    return [
        Change(
            f"A bolt {feet_inches(thick)} thick as {kind}", ((("bolt", kind, "diameter"), f"{thick:g} in"),)
        )
        for kind in case.kinds("bolt")
        for step in steps
        if 0.5 <= (thick := case.project.bolts[kind].diameter + step) <= 4
    ]


def cap_longer(case: Case, support: str) -> list[Change]:
    """A longer cap under the beam."""
    found = next((s for s in case.project.supports if s.mark == support and s.post), None)
    if found is None or found.post is None:
        return []
    kind = found.post
    post = case.project.posts[kind]
    now = post.cap_length or parse_section(post.section).d
    return [
        Change(
            f"A cap {feet_inches(now + more)} long on {kind}",
            ((("post", kind, "cap_length"), inches(now + more)),),
        )
        for more in (2.0, 4.0, 6.0)
    ]


def footing_wider(case: Case) -> list[Change]:
    """A wider footing."""
    return _footing(case, "width", "A width of", (2.0, 4.0, 8.0))


def footing_deeper(case: Case) -> list[Change]:
    """A deeper hole."""
    return _footing(case, "depth", "A hole", (6.0, 12.0, 18.0, 24.0))


def footing_thicker(case: Case) -> list[Change]:
    """Thicker plain concrete under the post."""
    return _footing(case, "pad", "Concrete of", (2.0, 4.0))


def _footing(case: Case, key: str, words: str, steps: tuple[float, ...]) -> list[Change]:
    deep = " deep" if key == "depth" else ""
    return [
        Change(f"{words} {feet_inches(value)}{deep} for {kind}", ((("footing", kind, key), inches(value)),))
        for kind in case.kinds("footing")
        for more in steps
        for value in (getattr(case.project.footings[kind], key) + more,)
    ]


def serviced_sooner(case: Case) -> list[Change]:
    """Gaps looked at and cut back sooner."""
    trees = [t.mark for t in case.project.trees if t.mark == case.check.part]
    if case.support is not None and case.support.tree:
        trees = [case.support.tree]
    return [
        Change(
            f"{mark} looked at after {years} years",
            ((("tree", row, "service"), f"{years} years"),),
        )
        for mark in trees
        if (row := case.row("tree", mark)) is not None
        for years in (8, 5, 3, 2)
        if years < case.project.trees[row].service
    ]


def slot_longer(case: Case) -> list[Change]:
    """A slot as long as is wanted."""
    row = case.row("support")
    if row is None:
        return []
    lengths = (
        [math.ceil(case.check.demand * 2) / 2]
        if not math.isnan(case.check.demand)
        else [2.0, 4.0, 6.0, 9.0, 12.0]
    )
    return [
        Change(
            f"A slot {feet_inches(length)} long at {case.check.part}",
            ((("support", row, "slot"), inches(length)),),
        )
        for length in lengths
    ]
