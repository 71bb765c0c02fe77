"""Ratings beside what they were given for: another wood, size, bolt, direction or duration opens the check again."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bolewright.platform.check import Check
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.limit_states import limit_state
from bolewright.platform.parts import Bearing, Layout
from bolewright.platform.project.given_for import GivenFor
from bolewright.platform.sideways import Sideways
from bolewright.status import Status
from bolewright.timber.sections import SectionError, parse_section

LEAST_DURATION = 0.9  # C_D of permanent load, NDS 2018, Table 2.3.2
HUNG = ("hanger.rated", "blocking.uplift", "joist.uplift", "beam.uplift", "beam.uplift_lateral")
BY_KIND = ("hanger.rated_lateral", "joist.uplift_lateral")  # one row for each kind of hanger
SIDE = ("post.cap_lateral", "tree_bolt.bracket_lateral", "post.cap_together", "tree_bolt.together")


@dataclass(frozen=True)
class _Use:
    """What a rating is used on: pieces by mark, species and specific gravity; their sizes; a bolt's diameter (in)."""

    wood: tuple[tuple[str, str, float], ...]
    sizes: tuple[tuple[str, str], ...] = ()
    bolt: float | None = None


def reopened(sideways: Sideways, checks: Sequence[Check]) -> list[Check]:
    """The checks, those open whose rating was given for something else than it is used on."""
    return [_reopened(sideways, check) for check in checks]


def _reopened(sideways: Sideways, check: Check) -> Check:
    if check.calculation is None or check.status is Status.NOT_CHECKED or not limit_state(check.key).rated:
        return check
    found = _given_and_use(sideways, check)
    if found is None:
        return check
    why = next(_differences(*found, check), "")
    if not why:
        return check
    return replace(
        check,
        status=Status.NOT_CHECKED,
        demand=math.nan,
        capacity=math.nan,
        ratio=math.nan,
        combination="",
        sentence=f"{check.part}, {check.limit_state}: its rating {why}: read what the maker allows there.",
        calculation=None,
        effect=None,
    )


def _differences(given: GivenFor, use: _Use, check: Check) -> Iterator[str]:
    for mark, species, G in use.wood:
        if given.rated_wood is not None and given.rated_wood.casefold() != species.casefold():
            yield f"was given for {given.rated_wood}, and {mark} is {species}"
        if given.rated_G is not None and given.rated_G - 1e-9 > G:
            yield f"was given for wood of a specific gravity of {given.rated_G:g}, and {mark} has {G:.2g}"
    for mark, size in use.sizes:
        if given.rated_size is not None and not _same(given.rated_size, size):
            yield f"was given for {given.rated_size}, and {mark} is {size}"
    if given.rated_bolt is not None and use.bolt is not None and abs(given.rated_bolt - use.bolt) > 1e-6:
        yield f"was given for a bolt of {given.rated_bolt:g} in., and this one has {use.bolt:g} in"
    if given.rated_direction in ("along", "across") and check.key in SIDE:
        yield f"was given for one direction, {given.rated_direction} the beam, and the force comes from every one"
    factor = given.rated_C_D
    if factor is not None and factor > 1 and check.severity * factor / LEAST_DURATION > 1:
        yield f"was given for short loads (C_D = {factor:g}) and is used for longer ones"


def _same(one: str, other: str) -> bool:
    try:
        a, b = parse_section(one), parse_section(other)
    except SectionError:
        return one.strip() == other.strip()
    return math.isclose(a.b, b.b, abs_tol=1e-6) and math.isclose(a.d, b.d, abs_tol=1e-6)


def _given_and_use(sideways: Sideways, check: Check) -> tuple[GivenFor, _Use] | None:
    layout = sideways.path.layout
    project = layout.project
    if check.key in HUNG or check.key in BY_KIND:
        member = layout.member(check.part)
        named = check.at if check.key in BY_KIND else None
        for seat in member.seats:
            if seat.bearing is Bearing.HANGS and (seat.connection == named or seat.below == check.at):
                hanger = project.connections.get(seat.connection or "")
                both = _pieces(sideways, member.mark, seat.below)
                return (
                    None if hanger is None else (hanger, _Use(both, ((member.mark, member.timber.section),)))
                )
        return None
    support = next((s for s in layout.supports if s.mark == check.part), None)
    if support is None:
        return None
    if support.kind == "tree bolt":
        frame = sideways.frames[sideways.row(support.mark)]
        assert isinstance(frame, BoltFrame)
        bolt, tree = frame.placed.bolt, frame.tree
        return bolt, _Use(((tree.mark, tree.species, frame.wood.G_green),), bolt=bolt.diameter)
    post = project.posts[support.post or ""]
    beams = [member.mark for member, _ in layout.on_support(support.mark)]
    return post, _Use(_pieces(sideways, *beams), tuple((m, _section(layout, m)) for m in beams))


def _section(layout: Layout, mark: str) -> str:
    return layout.member(mark).timber.section


def _pieces(sideways: Sideways, *marks: str) -> tuple[tuple[str, str, float], ...]:
    values = {mark: sideways.path.effects[mark].values for mark in marks}
    return tuple((mark, v.species, v.G) for mark, v in values.items())
