"""Ratings beside what they were given for: another wood, size, bolt, direction, skew or duration opens the check."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shapely.geometry import LineString, Point

from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.analysis.lateral_supports import BoltFrame, PostFrame
from bolewright.platform.checks.seats import skew_of
from bolewright.platform.checks.upright import joists_that_hold
from bolewright.platform.layout.parts import Bearing, Layout, Member
from bolewright.platform.layout.trunk_braces import trunk_brace
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Connection, Diagonal, Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.project.given_for import GivenFor, GivenTogether, GivenWood
from bolewright.status import Status
from bolewright.timber.sections import SectionError, parse_section

LEAST_DURATION = 0.9  # C_D of permanent load, NDS 2018, Table 2.3.2
HELD = (
    "rated",
    "rated_lateral",
    "uplift",
    "uplift_lateral",
    "stage_uplift",
    "lateral",
)  # of a hanger where the end hangs
TIED = ("edge_load", "bracing_edges", "rotation_hanger", "fastening_lateral", "rotation", "together")
SIDE = (
    "post.cap_lateral",
    "tree_bolt.bracket_lateral",
    "tree_bolt.fastening",
    "beam.fastening_lateral",
    "post.cap_together",
    "tree_bolt.together",
    "beam.together",
)
SKEWED = 5.0  # degrees off square: less is within what a hanger's seat takes (common practice)
NEARLY = 0.5  # degrees by which a rating's skew may be short, as rounded on a maker's sheet
NEAR = 3.0  # in: a strap whose end is this near to a member is fastened to it


@dataclass(frozen=True)
class _Use:
    """What a rating is used on: pieces by mark, species and specific gravity; their sizes; a bolt's diameter (in).

    ``skew`` of a hung piece off square (degrees), in words and as a number.
    """

    wood: tuple[tuple[str, str, float], ...]
    sizes: tuple[tuple[str, str], ...] = ()
    bolt: float | None = None
    skew: tuple[str, float] | None = None


def reopened(lateral: LateralAnalysis, checks: Sequence[Check]) -> list[Check]:
    """The checks, those open whose rating was given for something else than it is used on; one that fails says so."""
    return [_reopened(lateral, check) for check in checks]


def _reopened(lateral: LateralAnalysis, check: Check) -> Check:
    fails = check.status is Status.FAILS
    if (check.calculation is None and not fails) or check.status is Status.NOT_CHECKED:
        return check
    if not check.rests_on_rating:
        return check
    uses = _given_and_use(lateral, check)
    why = next((said for given, use in uses for said in _differences(given, use, check)), "")
    if not why:
        return check
    if fails:  # another rating may be less, and nothing says that it is more
        said = (
            f"{check.sentence} That is by the rating as typed, which {why}: read what the maker allows there."
        )
        return replace(check, sentence=said)
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


def _differences(given: GivenWood, use: _Use, check: Check) -> Iterator[str]:
    for mark, species, G in use.wood:
        if given.rated_wood is not None and given.rated_wood.casefold() != species.casefold():
            yield f"was given for {given.rated_wood}, and {mark} is {species}"
        if given.rated_G is not None and given.rated_G - 1e-9 > G:
            yield f"was given for wood of a specific gravity of {given.rated_G:g}, and {mark} has {G:.2g}"
    for mark, size in use.sizes:
        if given.rated_size is not None and not _same(given.rated_size, size):
            yield f"was given for {given.rated_size}, and {mark} is {size}"
    bolt = given.rated_bolt if isinstance(given, GivenFor) else None
    if bolt is not None and use.bolt is not None and abs(bolt - use.bolt) > 1e-6:
        yield f"was given for a bolt of {bolt:g} in., and this one has {use.bolt:g} in"
    if isinstance(given, Connection) and use.skew is not None and use.skew[1] > SKEWED:
        where, skew = use.skew
        if given.rated_skew is None:
            yield f"names no skew (rated_skew), and {where}"
        elif given.rated_skew < skew - NEARLY:
            yield f"was given for a skew of up to {given.rated_skew:g}°, and {where}"
    direction = given.rated_direction if isinstance(given, GivenTogether) else None
    if direction in ("along", "across") and check.key in SIDE:
        yield f"was given for one direction, {direction} the beam, and the force comes from every one"
    factor = given.rated_C_D
    if factor is not None and factor > 1 and check.severity * factor / LEAST_DURATION > 1:
        yield f"was given for short loads (C_D = {factor:g}) and is used for longer ones"


def _same(one: str, other: str) -> bool:
    try:
        a, b = parse_section(one), parse_section(other)
    except SectionError:
        return one.strip() == other.strip()
    return math.isclose(a.b, b.b, abs_tol=1e-6) and math.isclose(a.d, b.d, abs_tol=1e-6)


def _given_and_use(lateral: LateralAnalysis, check: Check) -> Iterator[tuple[GivenWood, _Use]]:
    """What the ratings of a check were given for, each with what it is used on."""
    layout, (kind, _, name) = lateral.path.layout, check.key.partition(".")
    if kind in ("joist", "beam", "hanger", "blocking"):
        member = layout.member(check.part)
        if name == "rotation_joists":
            for joist, _ in joists_that_hold(lateral, member):
                yield from _own(lateral, joist, member.mark)
        elif name == "edge_together":
            if not getattr(member.timber, "rated_alone", False):
                yield from _hung_or_tied(lateral, member, check)
            yield from _own(lateral, member, check.at)
        elif name in HELD:
            yield from _hung_or_tied(lateral, member, check)
        elif name in TIED:
            yield from _own(lateral, member, check.at)
        return
    if kind == "platform":
        for diagonal in layout.project.diagonals:
            yield diagonal, _Use(_pieces(lateral, *_met(layout, diagonal)))
        return
    if kind == "crossed_rods":
        rods = next(r for r in layout.project.crossed_rods if r.mark == check.part)
        posts = (lateral.frames[lateral.row(mark)] for mark in (rods.from_post, rods.to_post))
        yield (
            rods,
            _Use(
                tuple(
                    (f.support.mark, f.values.species, f.values.G) for f in posts if isinstance(f, PostFrame)
                )
            ),
        )
        return
    if kind == "brace":
        brace = next(b for b in layout.project.braces if b.mark == check.part)
        knee = next(k for k in lateral.knees if k.brace is brace)
        frame = lateral.frames[lateral.row(brace.support)]
        assert isinstance(frame, PostFrame)
        wood = ((m, v.species, v.G) for m, v in ((brace.mark, knee.values), (brace.support, frame.values)))
        yield brace, _Use((*wood, *_pieces(lateral, brace.beam)), ((brace.mark, brace.section),))
        return
    support = next((s for s in layout.supports if s.mark == check.part), None)
    if support is not None:
        yield _tied_to(lateral, support)
        if support.kind != SupportKind.KNEE_BRACE and name == "together" and layout.on_support(support.mark):
            beam, _ = layout.on_support(support.mark)[0]
            yield from _own(lateral, beam, support.mark)


def _hung_or_tied(lateral: LateralAnalysis, member: Member, check: Check) -> Iterator[tuple[GivenWood, _Use]]:
    """The hanger of a hung end, or the ties of a resting one."""
    for seat in member.seats:
        hung = seat.bearing is Bearing.HANGS
        if seat.below != check.at and (seat.connection if hung else "resting") != check.at:
            continue
        support = next((s for s in lateral.path.layout.supports if s.mark == seat.below), None)
        if support is not None:  # held down by the tie of the support (beam.stage_uplift)
            yield _tied_to(lateral, support)
        elif not hung:
            yield from _own(lateral, member, seat.below)
        elif (hanger := lateral.path.layout.project.connections.get(seat.connection or "")) is not None:
            both = _pieces(lateral, member.mark, seat.below)
            skew = skew_of(lateral.path.layout, member, seat)
            where = f"{member.mark} stands {skew:.0f}° off square to {seat.below}"
            yield hanger, _Use(both, ((member.mark, member.timber.section),), skew=(where, skew))


def _tied_to(lateral: LateralAnalysis, support: Support) -> tuple[GivenWood, _Use]:
    """The hardware of a support."""
    if support.kind != SupportKind.KNEE_BRACE:
        return _of_support(lateral, support)
    brace = trunk_brace(lateral.path.layout, support)
    wood = ((support.mark, brace.values.species, brace.values.G),)
    return brace.strut, _Use(wood, ((support.mark, brace.strut.section),))


def _own(lateral: LateralAnalysis, member: Member, below: str) -> Iterator[tuple[GivenWood, _Use]]:
    """Ties and edges of a joist or beam, on what it bears on."""
    if isinstance(member.timber, GivenWood):
        marks = [member.mark, *([below] if below in lateral.path.effects else [])]
        yield member.timber, _Use(_pieces(lateral, *marks), ((member.mark, member.timber.section),))


def _met(layout: Layout, diagonal: Diagonal) -> list[str]:
    """Members that a strap is fastened to: those at its ends, all beams where none is there."""
    ends = [Point(diagonal.start), Point(diagonal.end)]
    at = [
        m.mark
        for m in layout.members
        if any(LineString([m.line.start, m.line.end]).distance(e) <= m.width / 2 + NEAR for e in ends)
    ]
    return at or [m.mark for m in layout.beams]


def _of_support(lateral: LateralAnalysis, support: Support) -> tuple[GivenFor, _Use]:
    layout = lateral.path.layout
    beams = [member.mark for member, _ in layout.on_support(support.mark)]
    sizes = tuple((m, _section(layout, m)) for m in beams)
    if support.kind == SupportKind.TREE_BOLT:
        frame = lateral.frames[lateral.row(support.mark)]
        assert isinstance(frame, BoltFrame)
        bolt, tree = frame.placed.bolt, frame.tree
        struts = ((s.mark, trunk_brace(layout, s).strut.section) for s in layout.braces_on(support.mark))
        wood = ((tree.mark, tree.species, frame.wood.G_green),)
        return bolt, _Use(wood, (*sizes, *struts), bolt=bolt.diameter)
    return layout.project.posts[support.post or ""], _Use(_pieces(lateral, *beams), sizes)


def _section(layout: Layout, mark: str) -> str:
    return layout.member(mark).timber.section


def _pieces(lateral: LateralAnalysis, *marks: str) -> tuple[tuple[str, str, float], ...]:
    values = {mark: lateral.path.effects[mark].values for mark in marks}
    return tuple((mark, v.species, v.G) for mark, v in values.items())
