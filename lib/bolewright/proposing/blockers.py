"""Which requirement is in the way where no arrangement passes: it is lifted, and the search run again."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from bolewright.proposing.ground import ground_of
from bolewright.proposing.needs import AtHand, Needs
from bolewright.proposing.search import Found, has_place, search
from bolewright.proposing.told import not_proposed

_BUDGET = 30
_LOW = 60.0  # in: a floor that low stands on common posts
Say = Callable[[str], None]


@dataclass(frozen=True)
class Lift:
    """A requirement that can be lifted: what it says, what would be asked for instead, and how it is taken away."""

    words: str
    instead: str
    taken_away: Callable[[Needs], Needs]


def lifts(needs: Needs) -> Iterator[Lift]:
    """Requirements that can be lifted, the least first."""
    if any(line.setback for line in needs.property_lines):
        free = tuple(line.model_copy(update={"setback": 0.0}) for line in needs.property_lines)
        yield Lift("the setback", "none", lambda n: n.model_copy(update={"property_lines": free}))
    for zone in needs.no_posts:

        def without(n: Needs, zone: object = zone) -> Needs:
            return n.model_copy(update={"no_posts": tuple(z for z in n.no_posts if z != zone)})

        yield Lift(f"no post on the {zone.why}", f"posts on the {zone.why}", without)
    for share in (2.0, 1.0):
        if needs.trees and share < needs.rules.root_zone:

            def nearer(n: Needs, share: float = share) -> Needs:
                return n.model_copy(update={"rules": n.rules.model_copy(update={"root_zone": share})})

            said = f"holes {needs.rules.root_zone:g} trunk diameters from the trunks"
            yield Lift(
                said,
                f"{share:g} diameters (rules: root_zone = {share:g}), dug by hand and with the arborist's word",
                nearer,
            )
    if needs.trees and needs.rules.may_tie is False:

        def tied(n: Needs) -> Needs:
            return n.model_copy(update={"rules": n.rules.model_copy(update={"may_tie": True})})

        yield Lift("no trunk may be tied", "a trunk tied to the platform, by the arborist's word", tied)
    if needs.hardware != AtHand():
        yield Lift(
            "the hardware at hand",
            "hardware bought as required",
            lambda n: n.model_copy(update={"hardware": AtHand()}),
        )
    own = needs.timber
    if own.largest_post != "12x12" or own.largest_board != "2x12":
        larger = own.model_copy(update={"largest_post": "12x12", "largest_board": "2x12"})
        said = f"posts of {own.largest_post} and boards of {own.largest_board} at most"
        yield Lift(
            said, "posts of 12x12 and boards of 2x12", lambda n: n.model_copy(update={"timber": larger})
        )
    if needs.floor.outline is not None:
        x, y = zip(*needs.floor.outline, strict=True)
        ring = ((min(x), min(y)), (max(x), min(y)), (max(x), max(y)), (min(x), max(y)))
        if set(ring) != set(needs.floor.outline):
            floor = needs.floor.model_copy(update={"outline": ring})
            said = f"an outline with {len(x)} corners"
            yield Lift(said, "the rectangle round it", lambda n: n.model_copy(update={"floor": floor}))
    if needs.floor.height > _LOW and not needs.ground:

        def lower(n: Needs) -> Needs:
            return n.model_copy(update={"floor": n.floor.model_copy(update={"height": _LOW})})

        yield Lift(f"a floor {needs.floor.height:g} in. up", f"{_LOW:g} in.", lower)
    for tree in ground_of(needs).trunks_in():

        def cleared(n: Needs, mark: str = tree.mark) -> Needs:
            return n.model_copy(update={"trees": tuple(t for t in n.trees if t.mark != mark)})

        yield Lift(f"the trunk of {tree.mark} through the floor", f"a floor clear of {tree.mark}", cleared)
    if needs.property_lines:
        yield Lift(
            "the property line",
            "a floor and holes on the far side of it",
            lambda n: n.model_copy(update={"property_lines": ()}),
        )


def proved(needs: Needs, *, budget: int = _BUDGET, say: Say = lambda words: None) -> tuple[Lift, ...]:
    """The requirements that are in the way: without them an arrangement passes, with any of them it was not found.

    One alone where one is enough; else all are lifted, and put back one by one while an arrangement still passes.
    """

    def passes(those: tuple[Lift, ...]) -> bool:
        lifted = needs
        for lift in those:
            lifted = lift.taken_away(lifted)
        ground = ground_of(lifted)
        if ground.floor_over_line or not has_place(ground):
            return False
        say(f"without {' and '.join(lift.words for lift in those)} ...")
        return bool(search(lifted, budget=budget, enough=1, closing=False, cheaper=False).passed)

    every = tuple(lifts(needs))
    for lift in every:
        if passes((lift,)):
            return (lift,)
    if len(every) < 2 or not passes(every):
        return ()
    left = every
    for lift in every:
        fewer = tuple(other for other in left if other is not lift)
        if len(fewer) > 1 and passes(fewer):
            left = fewer
    return left


def blockers(needs: Needs, found: Found, *, say: Say = lambda words: None) -> list[str]:
    """What stopped each arrangement, and which requirement is proved to be in the way."""
    said = not_proposed(found.failed)
    if found.ground.floor_over_line:
        said.append("The floor reaches over a property line or its setback.")
    those = proved(needs, say=say)
    if not those:
        return [*said, "No requirement was found that is in the way: lifting them brought no pass."]
    words = " and ".join(lift.words for lift in those)
    instead = " and ".join(lift.instead for lift in those)
    return [*said, f"In the way: {words}. With {instead} an arrangement passes: that was run."]
