"""What would cure a check: one change at a time is made to the file's data and all checks are run again."""

from __future__ import annotations

import copy
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from bolewright.platform.check import Check, Topic
from bolewright.platform.layout import LayoutError
from bolewright.platform.reading import Location, find_faults
from bolewright.platform.results import Results, find_results
from bolewright.rendering import numbers
from bolewright.status import Status
from bolewright.units import feet_inches

Data = dict[str, Any]

_LADDERS = (
    ("2x4", "2x6", "2x8", "2x10", "2x12"),
    ("4x4", "4x6", "4x8", "4x10", "4x12"),
    ("6x6", "8x8", "10x10"),
    ("6x8", "6x10", "6x12"),
)
_SPACINGS = (24.0, 19.2, 16.0, 12.0, 8.0)


@dataclass(frozen=True)
class Change:
    """One change of the data: ``words`` as in "2x10 for J", and the values it sets."""

    words: str
    values: tuple[tuple[Location, Any], ...]
    added: tuple[tuple[str, Data], ...] = ()

    def made(self, data: Data) -> Data:
        """The data with the change."""
        changed = copy.deepcopy(data)
        for where, value in self.values:
            node: Any = changed
            for key in where[:-1]:
                node = node[key]
            node[where[-1]] = value
        for key, part in self.added:
            changed.setdefault(key, []).append(part)
        return changed


@dataclass(frozen=True)
class Outcome:
    """What a change did to the check it was tried for; ``ratio`` is None where it could not be made."""

    change: Change
    ratio: float | None
    others_fail: int

    @property
    def cures(self) -> bool:
        """Whether the check passes then, and no other fails for it."""
        return self.ratio is not None and self.ratio <= 1 and self.others_fail == 0

    @property
    def sentence(self) -> str:
        """What it would do, in words."""
        if self.ratio is None:
            return f"{self.change.words} could not be worked out."
        result = f"bring it to {numbers.ratio(self.ratio)}" if self.ratio else "do away with it"
        said = f"{self.change.words} would {result}"
        if self.ratio > 1:
            return f"{said}, not enough."
        if self.others_fail:
            others = "another check" if self.others_fail == 1 else f"{self.others_fail} other checks"
            return f"{said}, but {others} would fail for it."
        return f"{said}."


def try_out(data: Data, results: Results, check: Check, change: Change) -> Outcome:
    """Run all checks with a change and see what became of one of them."""
    project, _ = find_faults(change.made(data))
    if project is None:
        return Outcome(change, None, 0)
    try:
        after = find_results(project)
    except LayoutError:
        return Outcome(change, None, 0)
    joists = {m.mark for r in (results, after) for m in r.path.layout.joists}
    same = [c for c in after.checks if _name(c, joists) == _name(check, joists)]
    failed = {_name(c, joists) for c in results.checks if c.status is Status.FAILS}
    fresh = {_name(c, joists) for c in after.checks if c.status is Status.FAILS} - failed
    ratios = [c.ratio for c in same if not math.isnan(c.ratio)]
    if not ratios:
        return Outcome(change, None, 0) if same else Outcome(change, 0.0, len(fresh))
    return Outcome(change, max(ratios), len(fresh))


def _name(check: Check, joists: set[str]) -> tuple[str, str, str]:
    """What makes a check the same before and after: joists as one, for closer ones are numbered anew."""
    return (check.topic, "a joist" if check.part in joists else check.part, check.limit_state)


def find_cures(data: Data, results: Results, check: Check, most: int = 2) -> Iterator[Outcome | None]:
    """Cures of a failing check, one trial a step; None where a trial cured nothing.

    Each way (a larger size, closer spacing ...) is followed until it cures. When none does, the best that was
    tried comes last.
    """
    if check.status is not Status.FAILS:
        return
    found = 0
    best: Outcome | None = None
    for way in ways(data, results, check):
        for change in way:
            outcome = try_out(data, results, check, change)
            if outcome.cures:
                found += 1
                yield outcome
                break
            if outcome.ratio is not None and (best is None or outcome.ratio < (best.ratio or math.inf)):
                best = outcome
            yield None
        if found == most:
            return
    if not found and best is not None:
        yield best


def ways(data: Data, results: Results, check: Check) -> list[list[Change]]:
    """Ways to help a check, each from the smallest change to the largest."""
    match check.topic:
        case Topic.DECKING:
            return [way for i in range(len(data.get("joists", ()))) for way in (_closer(data, results, i),)]
        case Topic.JOISTS:
            i = _field_of(results, check.part)
            return [_larger(data, ("joists", i)), _closer(data, results, i)]
        case Topic.CARRIERS:
            row = _place(data, "carrier", check.part)
            if row is None:
                return []
            return [_deeper(data, row), _plies(data, row), _support_under(data, results, row)]
        case Topic.HANGERS:
            return [_rating(data, results, check), *_hanger_joists(data, results, check)]
        case Topic.TREE_BOLTS:
            return _bolt(data, results, check)
        case Topic.POSTS:
            kind = _kind(results, check.part, "post")
            return [_larger(data, ("post", kind))] if kind else []
        case Topic.FOOTINGS:
            return _footing(data, results, check)
    return []


def _place(data: Data, key: str, mark: str) -> int | None:
    return next((i for i, part in enumerate(data.get(key, ())) if part.get("mark") == mark), None)


def _kind(results: Results, mark: str, what: str) -> str | None:
    support = next((s for s in results.project.supports if s.mark == mark), None)
    return getattr(support, what) if support is not None else None


def _field_of(results: Results, mark: str) -> int:
    member = results.path.layout.member(mark)
    return next(i for i, field in enumerate(results.project.joists) if field.mark == member.field)


def _larger(data: Data, where: Location) -> list[Change]:
    part: Any = data
    for key in where:
        part = part[key]
    name = part.get("mark", where[-1] if isinstance(where[-1], str) else "J")
    return [
        Change(f"{size} for {name}", (((*where, "section"), size),)) for size in _sizes_over(part["section"])
    ]


def _sizes_over(section: str) -> tuple[str, ...]:
    ladder = next((ladder for ladder in _LADDERS if section in ladder), ())
    return ladder[ladder.index(section) + 1 :] if ladder else ()


def _deeper(data: Data, i: int) -> list[Change]:
    """A larger size for a carrier and for those of its layer and size, which share its level."""
    one = data["carrier"][i]
    alike = [
        (row, other["mark"])
        for row, other in enumerate(data["carrier"])
        if (other["section"], other.get("layer", 1)) == (one["section"], one.get("layer", 1))
    ]
    words = " and ".join(mark for _, mark in alike)
    return [
        Change(f"{size} for {words}", tuple((("carrier", row, "section"), size) for row, _ in alike))
        for size in _sizes_over(one["section"])
    ]


def _closer(data: Data, results: Results, i: int) -> list[Change]:
    field = results.project.joists[i]
    return [
        Change(
            f"{feet_inches(spacing) if spacing % 1 == 0 else f'{spacing:g} in'} spacing of {field.mark}",
            ((("joists", i, "spacing"), f"{spacing:g} in"),),
        )
        for spacing in _SPACINGS
        if spacing < field.spacing - 0.1
    ]


def _plies(data: Data, i: int) -> list[Change]:
    plies, mark = data["carrier"][i].get("plies", 1), data["carrier"][i]["mark"]
    return [
        Change(f"{n} plies for {mark}", ((("carrier", i, "plies"), n),))
        for n in range(plies + 1, min(plies + 3, 6))
    ]


def _support_under(data: Data, results: Results, i: int) -> list[Change]:
    """A post in the middle of the carrier's longest reach between supports or to its end."""
    mark = data["carrier"][i]["mark"]
    if not data.get("post") or not data.get("footing"):
        return []
    member = results.path.layout.member(mark)
    stops = [0.0, *(seat.at for seat in member.seats), member.line.length]
    start, end = max(zip(stops, stops[1:], strict=False), key=lambda pair: pair[1] - pair[0])
    x, y = member.line.at((start + end) / 2)
    post = {
        "mark": "NEW",
        "kind": "post",
        "post": next(iter(data["post"])),
        "footing": next(iter(data["footing"])),
        "at": [f"{x:.3f} in", f"{y:.3f} in"],
    }
    words = f"Another post under {mark} at {feet_inches((start + end) / 2)} from its start"
    return [Change(words, (), (("support", post),))]


def _rating(data: Data, results: Results, check: Check) -> list[Change]:
    if math.isnan(check.demand):
        return []
    member = next((m for m in results.path.layout.members if m.mark == check.part), None)
    named = {seat.connection for seat in member.seats if seat.connection} if member else set()
    changes = []
    for name in sorted(named & set(data.get("connection", {}))):
        rated = results.project.connections[name].rated_load
        if rated is None:
            continue
        wanted = math.ceil(rated * check.ratio / 10) * 10
        changes.append(
            Change(
                f"A hanger rated for {wanted:,} lb as {name}",
                ((("connection", name, "rated_load"), f"{wanted} lb"),),
            )
        )
    return changes


def _hanger_joists(data: Data, results: Results, check: Check) -> list[list[Change]]:
    joists = {m.mark for m in results.path.layout.joists}
    return [_closer(data, results, _field_of(results, check.part))] if check.part in joists else []


def _bolt(data: Data, results: Results, check: Check) -> list[list[Change]]:
    kind = _kind(results, check.part, "bolt")
    if not kind:
        return []
    bolt = results.project.bolts[kind]
    thicker = [
        Change(
            f"A bolt {feet_inches(bolt.diameter + more)} thick as {kind}",
            ((("bolt", kind, "diameter"), f"{bolt.diameter + more:g} in"),),
        )
        for more in (0.25, 0.5, 1.0)
        if bolt.diameter + more <= 4
    ]
    deeper = [
        Change(
            f"{feet_inches(bolt.embedment + more)} of embedment for {kind}",
            ((("bolt", kind, "embedment"), f"{bolt.embedment + more:g} in"),),
        )
        for more in (1.0, 2.0, 3.0)
    ]
    return [deeper, thicker]


def _footing(data: Data, results: Results, check: Check) -> list[list[Change]]:
    kind = _kind(results, check.part, "footing")
    if not kind:
        return []
    footing = results.project.footings[kind]

    def change(words: str, key: str, value: float) -> Change:
        return Change(
            f"{words} {feet_inches(value)} for {kind}", ((("footing", kind, key), f"{value:g} in"),)
        )

    wider = [change("A width of", "width", footing.width + more) for more in (2.0, 4.0, 8.0)]
    deeper = [change("A depth of", "depth", footing.depth + more) for more in (6.0, 12.0, 24.0)]
    thicker = [change("Concrete of", "pad", footing.pad + more) for more in (2.0, 4.0)]
    return [wider, thicker, deeper]
