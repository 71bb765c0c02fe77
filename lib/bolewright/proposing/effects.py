"""What was taken by default and not measured, in order of what a worse value of it does; the greatest ratios."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.changes.change import Change
from bolewright.platform.limit_states import Topic
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results
from bolewright.proposing.fit import Bench, Fitted
from bolewright.proposing.ground import Ground
from bolewright.proposing.taken import Taken, taken
from bolewright.proposing.writing import in_words
from bolewright.rendering import numbers
from bolewright.status import Status


@dataclass(frozen=True)
class Effect:
    """What was taken by default, and the worst of the ratios that a worse value of it changes; 0: it changes none."""

    taken: Taken
    ratio: float
    opens: str = ""
    """A check that can't be made with it."""


def effects(one: Fitted, ground: Ground, bench: Bench) -> tuple[Effect, ...]:
    """What was taken by default, in order of its effect: each worse value is run, the worst ratio it changes counts."""
    found = []
    for what in taken(ground.needs, set(one.draft.bearing)):
        results = bench.run(Change("", what.worse).made(one.draft.data))
        if isinstance(results, Results):
            opens = opened(one.results, results)
            ratio = math.inf if opens else worst_changed(one.results, results)
            found.append(Effect(what, ratio, opens))
        else:
            found.append(Effect(what, math.inf))
    return tuple(sorted(found, key=lambda e: (-round(e.ratio, 6), e.taken.what)))


_LEAST_SIZES = frozenset({"footing.thickness", "footing.frost", "guard.weight"})
_SAME = 1e-4  # of a ratio: less is no change


def _drawn_to_fit(check: Check) -> bool:
    """Whether it holds a measure to a least or greatest one: met to the inch it is no near miss."""
    ways = check.topic in (Topic.ACCESS, Topic.GUARDS) and check.unit.dimension in ("length", "angle")
    return ways or check.key in _LEAST_SIZES


def worst_changed(before: Results, after: Results) -> float:
    """The greatest ratio among the checks whose ratio is another than before; 0 where none is."""
    known = {(c.part, c.key, c.at): c.severity for c in before.checks}
    made = (c for c in after.checks if c.status is not Status.NOT_CHECKED and not _drawn_to_fit(c))
    return max(
        (c.severity for c in made if abs(c.severity - known.get((c.part, c.key, c.at), math.inf)) > _SAME),
        default=0.0,
    )


def opened(before: Results, after: Results) -> str:
    """The first check that was made before and is open now, in words; empty where none is."""
    was = {(c.part, c.key, c.at) for c in before.checks if c.status is Status.NOT_CHECKED}
    still = (c for c in after.checks if c.status is Status.NOT_CHECKED)
    return next((c.limit_state for c in still if (c.part, c.key, c.at) not in was), "")


def deepest(results: Results) -> Check:
    """The check with the greatest ratio that rests on no rating."""
    made = [
        c
        for c in results.checks
        if c.status is Status.PASSES and not c.rests_on_rating and not _drawn_to_fit(c)
    ]
    return max(made, key=lambda c: c.severity)


def asked_for(one: Fitted, ground: Ground) -> tuple[str, ...]:
    """What was taken of the trees that no calculation shows: an arborist has to say it."""
    tied = any(s.get("lateral") == "tied" for s in one.draft.data["support"])
    if not tied or ground.needs.rules.may_tie is not None:
        return ()
    return (f"{in_words(list(one.draft.bearing))} may be tied to the platform (an arborist's word)",)


def not_measured(found: tuple[Effect, ...], asked: tuple[str, ...] = ()) -> str:
    """The first line of every proposal: what has to be taken to the tree before anything is bought."""
    if not found and not asked:
        return "Nothing was taken by default: all that the checks rest on is in the requirements."
    said = [f"{e.taken.what} (with {e.taken.worse_words} {_effect(e)})" for e in found]
    return (
        "Taken by default and not measured, in order of effect, to be looked at before buying: "
        f"{'; '.join([*said, *asked])}."
    )


def _effect(found: Effect) -> str:
    if found.opens:
        return f"{found.opens} is open"
    if not found.ratio:
        return "no ratio changes"
    said = numbers.ratio(found.ratio) if found.ratio < 10 else "far over 1.00"
    return f"the worst ratio that changes is {said}"
