"""The connection schedule: every joint once, like joints in one row, with what is asked of it and what holds it.

A joint is where a part meets another: ends and crossings of members, their seats on supports, braces, straps, guards,
gates, stairs, ladder, hatch. What is asked comes from the checks; a joint that no check asks anything of is listed as
one that only keeps its parts in place.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from bolewright.fasteners.plies import ply_schedule
from bolewright.platform.checks.blocking import connector_of
from bolewright.platform.checks.seats import held_by_fasteners
from bolewright.platform.layout.layout import Bearing, Layout, Member
from bolewright.platform.layout.parts import Seat
from bolewright.platform.layout.pieces import Piece, Side, cut_pieces
from bolewright.platform.layout.trunk_brace_ends import END, SPACING
from bolewright.platform.project import Blocking
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.setting_out.foot_bolts import foot_bolts
from bolewright.take_off.connections_beside import joints_beside
from bolewright.take_off.cut_list import run_of
from bolewright.take_off.in_frame import bolt_length, crossing_ratings, edge_angles, hanger_ratings
from bolewright.take_off.items import BOLTS, CONNECTORS, NAILS, TREE_BOLTS, inch
from bolewright.take_off.joint import Found, Joint, Row

_AT_SEAT = (
    "edge_load",
    "edge_together",
    "bracing_edges",
    "uplift",
    "stage_uplift",
    "rotation",
    "rotation_hanger",
    "fastening_lateral",
    "together",
)
_OF_BOLT = (
    *("rated", "rated_lateral", "bracket_lateral", "fastening", "together", "uplift", "uplift_lateral"),
    *("wood_yield", "wood_yield_lateral", "withdrawal"),
)
_OF_CAP = ("cap_lateral", "cap_rotation", "cap_together", "uplift", "uplift_lateral")


def connection_schedule(results: Results) -> tuple[Joint, ...]:
    """All joints of a platform, from the tree up, numbered in that order."""
    found = [*_at_supports(results), *_seats(results), *_plies(results), *_braced(results)]
    rows = [*found, *joints_beside(results)]
    return tuple(row.numbered(k) for k, row in enumerate(_together(results, rows), start=1))


def _together(results: Results, rows: Iterable[Row]) -> Iterator[Joint]:
    """Like joints in one row, each check in the first joint that asks for it."""
    groups: dict[tuple[str, ...], list[Row]] = {}
    for row in rows:
        groups.setdefault(row.like, []).append(row)
    given = Found(results.checks)
    for group in groups.values():
        yield Joint.of(group, given)


def _at_supports(results: Results) -> Iterator[Row]:
    """Bolts in their trunk with bracket and clip, caps of posts, feet of posts."""
    layout, project = results.path.layout, results.project
    for support in layout.supports:
        on = run_of([member.mark for member, _ in layout.on_support(support.mark)]) or "knee braces"
        if support.kind == SupportKind.TREE_BOLT:
            bolt = project.bolts[support.bolt or ""]
            yield Row(
                "bolt in the trunk, its bracket and hold-down clip",
                f"{support.mark} in {support.tree}, under {on}",
                f"tree bolt {support.bolt}, {inch(bolt.diameter)} at the root",
                "1",
                f"{inch(bolt.embedment)} in sound wood; {bolt.seat}, {inch(bolt.seat_length)} along the bolt",
                TREE_BOLTS,
                tuple((support.mark, f"tree_bolt.{key}", "") for key in _OF_BOLT),
            )
        elif support.kind == SupportKind.POST:
            post = project.posts[support.post or ""]
            yield Row(
                "beam on its post",
                f"{on} on {support.mark}",
                f"cap {support.post}, ties as rated"
                if post.gusset is None
                else f"cap and gussets {support.post}",
                "1",
                "cap as wide as the beam, every hole filled",
                CONNECTORS,
                tuple((support.mark, f"post.{key}", "") for key in _OF_CAP),
            )
            bolts = next((b for b in foot_bolts(layout) if support.mark in b.marks), None)
            size, pattern = "none", "the post stands on its pad"
            if bolts is not None:
                size = f"bolt {inch(bolts.diameter)} x {inch(bolts.length)} through the post"
                heights = ", ".join(inch(height) for height in bolts.heights)
                pattern = (
                    f"{inch(bolts.out)} in the concrete on both sides; {heights} above the post's end, on its "
                    "middle line; before the concrete"
                )
            elif post.foot_tie is not None:
                size, pattern = (
                    f"anchor rated {post.foot_tie:,.0f} lb uplift",
                    "by its maker, before the concrete",
                )
            yield Row(
                "foot of a post",
                f"{support.mark} in {support.footing}",
                size,
                str(bolts.each if bolts else int(post.foot_tie is not None)),
                pattern,
                BOLTS,
                tuple(
                    (support.mark, f"post.{key}", "")
                    for key in ("foot_uplift", "foot_tear_out", "foot_net_tension")
                ),
            )


def _seats(results: Results) -> Iterator[Row]:
    """Every end and crossing of a member: hung, resting, on a support, or nailed."""
    layout = results.path.layout
    members = {m.mark: m for m in layout.members}
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    for member in layout.members:
        for seat in member.seats:
            parts = f"{member.mark} at {seat.below}"
            kind = {"joist": "joist", "beam": "beam", "blocking": "blocking"}[str(member.kind)]
            asked = [(member.mark, f"{kind}.{key}", seat.below) for key in _AT_SEAT]
            if held_by_fasteners(member):
                yield _nailed(member, seat, parts, asked)
            elif seat.bearing is Bearing.HANGS:
                yield _hung(member, seat, parts, asked, pieces, kind, layout)
            elif seat.below in members:
                yield _resting(member, seat, parts, asked, kind)
            else:
                yield _seated(layout, member, seat, parts, asked)


def _nailed(member: Member, seat: Seat, parts: str, asked: list[tuple[str, str, str]]) -> Row:
    entry = member.timber
    each = getattr(entry, "fasteners", None)
    asked += [(member.mark, f"blocking.{key}", "") for key in ("fastening", "fastening_lateral")]
    return Row(
        "blocking or rim, nailed",
        parts,
        _end_grain(entry) if each and isinstance(entry, Blocking) else "to be chosen",
        str(each or "open"),
        "into end grain through the face, evenly over the depth",
        NAILS,
        tuple(asked),
    )


def _end_grain(entry: Blocking) -> str:
    """Nail or screw with its size: ``16d nail, 0.162 x 3 1/2 in.``."""
    found = connector_of(entry)
    return f"{entry.fastener}, {found.D:g} x {inch(found.length)}"


def _hung(
    member: Member,
    seat: Seat,
    parts: str,
    asked: list[tuple[str, str, str]],
    pieces: dict[str, Piece],
    kind: str,
    layout: Layout,
) -> Row:
    at_start = seat.at < member.line.length / 2
    cut = pieces[member.mark].start if at_start else pieces[member.mark].end
    skew = (
        "not skewed"
        if cut.hanger_skew is Side.NEITHER
        else f"skewed {cut.bevel:.1f}° {cut.hanger_skew.value}"
    )
    asked += [
        (member.mark, "hanger.rated", seat.below),
        *([(seat.below, "beam.rotation_joists", "")] if kind == "joist" else []),
        (member.mark, "hanger.rated_lateral", seat.connection or ""),
        *(
            (member.mark, f"{kind}.{name}", at)
            for name in ("uplift_lateral", "lateral")
            for at in (seat.connection or "", seat.below)
            if at
        ),
    ]
    rated = edge_angles(member)
    beside = f"; beside it two angles at its edges, each rated {rated:,.0f} lb" if rated else ""
    hanger = f"hanger {seat.connection or 'to be chosen'} for {member.section.name}"
    return Row(
        f"{kind} in a hanger",
        parts,
        f"{hanger}{hanger_ratings(layout, member, seat)}{beside}",
        "1",
        f"{skew}; its maker's nails, every hole filled",
        CONNECTORS,
        tuple(asked),
    )


def _resting(member: Member, seat: Seat, parts: str, asked: list[tuple[str, str, str]], kind: str) -> Row:
    asked += [(member.mark, f"{kind}.uplift_lateral", at) for at in (seat.below, "resting")]
    asked.append((member.mark, f"{kind}.lateral", "resting"))
    return Row(
        f"{kind} on a beam",
        parts,
        f"angles of {member.field or 'the beam'}, {crossing_ratings(member)}",
        "2",
        "one on each side of the crossing",
        CONNECTORS,
        tuple(asked),
    )


def _seated(layout: Layout, member: Member, seat: Seat, parts: str, asked: list[tuple[str, str, str]]) -> Row:
    kinds = {s.mark: s.kind for s in layout.supports}
    kind = kinds.get(seat.below, "support")
    asked.append((member.mark, "beam.uplift_lateral", seat.below))
    pattern = "one on each side"
    if kind == SupportKind.TREE_BOLT:
        pattern += (
            "; no check is made of them: they have to hold, at the least, the lateral load that the bracket is asked "
            "and rated for; the hold-down clip holds the uplift, both in the row of the bolt; rotation held by joists "
            "is in the row of their hangers"
        )
    return Row(
        f"beam on a {kind}",
        parts,
        "the bracket's own fasteners, as its maker names them"
        if kind == SupportKind.TREE_BOLT
        else "straps or plates of the support",
        "2",
        pattern,
        CONNECTORS,
        tuple(asked),
    )


def _plies(results: Results) -> Iterator[Row]:
    schedule = ply_schedule()
    for beam in results.project.beams:
        if beam.plies < 2:
            continue
        said = f"{schedule.nail}, {beam.ply_rows} rows" if beam.plies_fastened else "not fastened"
        yield Row(
            "plies of a beam",
            beam.mark,
            said,
            "along its length",
            f"{beam.ply_spacing:g} in. apart, one row along each edge",
            NAILS,
            ((beam.mark, "beam.plies", ""),),
        )


def _braced(results: Results) -> Iterator[Row]:
    """Ends of knee braces, of braces from a trunk, straps."""
    layout, project = results.path.layout, results.project
    for brace in project.braces:
        for onto, key in ((brace.support, "end_on_post"), (brace.beam, "end_on_beam")):
            bolted = brace.bolts is not None and brace.bolt_diameter is not None
            size = "to be chosen" if brace.rated_load is None else "connector as rated"
            if bolted:
                size = f"bolt {inch(brace.bolt_diameter or 0.0)} x {inch(bolt_length(layout, brace))}, A307"
            row = "on the middle line, along the grain; distances on the setting-out sheet"
            asked = [(brace.mark, f"brace.{key}", at) for at in ("", onto)]
            asked += [(brace.mark, f"brace.{name}", "") for name in ("ends", "distances")]
            yield Row(
                "end of a knee brace",
                f"{brace.mark} at {onto}",
                size,
                str(brace.bolts) if bolted else "1",
                row if bolted else "by its maker",
                BOLTS if bolted else CONNECTORS,
                tuple(asked),
            )
    for diagonal in project.diagonals:
        yield Row(
            "strap in plan",
            diagonal.mark,
            "strap" if diagonal.rated_load is None else f"strap rated {diagonal.rated_load:,.0f} lb",
            "both ends",
            "its maker's nails, every hole filled",
            CONNECTORS,
            (("platform", "platform.in_plane", ""),),
        )
    for rods in project.crossed_rods:
        for post in (rods.from_post, rods.to_post):
            yield Row(
                "ends of crossed rods",
                f"{rods.mark} at {post}",
                f"rod {inch(rods.diameter)}, "
                + ("end to be chosen" if rods.rated_load is None else f"end rated {rods.rated_load:,.0f} lb"),
                "2: head and foot",
                "by its maker, on the post's middle line",
                CONNECTORS,
                tuple((rods.mark, f"crossed_rods.{key}", "") for key in ("ends", "tension")),
            )
    for support in layout.supports:
        if support.kind != SupportKind.KNEE_BRACE:
            continue
        strut = project.struts[support.strut or ""]
        size = "bolts to be given" if strut.bolt_diameter is None else f"bolt {inch(strut.bolt_diameter)}"
        keys = ("head_bolts_beam", "head_bolts_brace", "uplift", "uplift_lateral")
        yield Row(
            "head of a brace from the trunk",
            f"{support.mark} under its beam",
            f"{size}, through plates {inch(strut.plate)} on both sides",
            f"{strut.head_bolts or '?'} in the beam and as many in the brace",
            _along_brace(strut.bolt_diameter),
            BOLTS,
            tuple((support.mark, f"trunk_brace.{key}", "") for key in keys),
        )
        yield Row(
            "foot of a brace from the trunk",
            f"{support.mark} on {support.foot}",
            f"{size}, through the plates of the shoe on the tree bolt",
            f"{strut.foot_bolts or '?'}",
            _along_brace(strut.bolt_diameter),
            BOLTS,
            tuple((support.mark, f"trunk_brace.{key}", "") for key in ("foot_bolts", "foot_rated")),
        )


def _along_brace(D: float | None) -> str:
    """Bolts of a brace from the trunk as the checks take them: one row along the grain on the middle line."""
    if D is None:
        return "on the middle line of beam and brace"
    return (
        f"one row on the middle line of beam and brace, along the grain: {inch(SPACING * D)} apart, {inch(END * D)} "
        "from the brace's end, the plates' other bolts as far"
    )


__all__ = ["Joint", "connection_schedule"]
