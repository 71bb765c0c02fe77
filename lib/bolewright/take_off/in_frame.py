"""Hardware of the frame: crossings, plies, hangers, braces, straps in plan, deck screws."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from itertools import chain

from bolewright.fasteners.plies import ply_schedule
from bolewright.formulas import formula
from bolewright.platform.checks.blocking import connector_of
from bolewright.platform.checks.seats import held_by_fasteners
from bolewright.platform.layout.layout import Bearing, Layout, Member
from bolewright.platform.layout.parts import Seat
from bolewright.platform.layout.pieces import EndCut, Piece, Side, cut_pieces
from bolewright.platform.project import Brace
from bolewright.platform.results.results import Results
from bolewright.reference import load
from bolewright.setting_out.crossed import rod_cuts
from bolewright.take_off.blocking import fastened
from bolewright.take_off.boards import deck_boards
from bolewright.take_off.bolt_lengths import least_bolt_length as least_bolt_length
from bolewright.take_off.buying import natural
from bolewright.take_off.cut_list import Use, lumber_of, run_of
from bolewright.take_off.items import BOLTS, CONNECTORS, NAILS, Item, inch, material_of, nails_for
from bolewright.take_off.stock import usable_length
from bolewright.take_off.trunk_braces import trunk_brace_items
from bolewright.timber.sections import parse_section
from bolewright.units import Length, Ratio, feet_inches


@formula("IRC 2021, R507.5 (fastening of plies), in whole nails")
def nails_in_plies(l: Length, s: Length, n_r: Ratio, n_p: Ratio) -> Ratio:
    """Nails of a beam of several plies, before the spaces are rounded up.

    Parameters: l length (in); s greatest spacing (in); n_r rows; n_p plies. Returns: n: with the number of spaces
    l / s rounded up, one more nail than spaces in every row, in every plane between plies. Source: IRC R507.5.

    >>> nails_in_plies(144.0, 16.0, 2, 2)
    20.0
    """
    n: Ratio = (l / s + 1) * n_r * (n_p - 1)
    return n


def frame_items(results: Results) -> Iterator[Item]:
    """Hardware of the frame, from below up."""
    layout = results.path.layout
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    return chain(
        _crossings(layout),
        _plies(layout, pieces),
        _hangers(layout, pieces),
        _blocking(layout),
        _braces(layout),
        trunk_brace_items(layout),
        _diagonals(layout),
        _rods(layout),
        _decking(results),
    )


def _crossings(layout: Layout) -> Iterator[Item]:
    """Members that rest on beams: each is tied down and against rotation where it crosses."""
    marks = {m.mark for m in layout.members}
    found: dict[tuple[str, str], list[str]] = {}
    for member in layout.members:
        for seat in member.seats:
            if seat.bearing is Bearing.RESTS and seat.below in marks:
                size = crossing_ratings(member)
                what = f"joist {member.field}" if member.field else "beam"
                found.setdefault((what, size), []).append(f"{member.mark} on {seat.below}")
    for (what, size), unordered in found.items():
        places = sorted(unordered, key=natural)
        where = ", ".join(places) if len(places) <= 4 else f"{places[0]} to {places[-1]}"
        source = "one on each side of each crossing"
        name = f"angle, {what} on beam"
        yield Item(name, size, 2 * len(places), material_of(CONNECTORS), where, source)


def crossing_ratings(member: Member) -> str:
    """Every rating that the checks take of the angles at a crossing."""
    ways = (
        ("lateral_tie", "lateral"),
        ("uplift_tie", "uplift"),
        ("rotation_tie", "in tension, against rotation"),
    )
    given = [
        f"{rated:,.0f} lb {way}"
        for key, way in ways
        if (rated := getattr(member.timber, key, None)) is not None
    ]
    return f"each rated {', '.join(given)}" if given else "to be chosen"


def _plies(layout: Layout, pieces: dict[str, Piece]) -> Iterator[Item]:
    """Nails between the plies of beams that are fastened, one line for each way of nailing."""
    schedule = ply_schedule()
    found: dict[tuple[int, float], dict[str, int]] = {}
    for beam in layout.project.beams:
        if beam.plies > 1 and beam.plies_fastened:
            count = ply_nails(pieces[beam.mark].longest, beam.plies, beam.ply_rows, beam.ply_spacing)
            found.setdefault((beam.ply_rows, beam.ply_spacing), {})[beam.mark] = count
    for (rows, spacing), counts in sorted(found.items()):
        size = f"{schedule.nail}, {rows} rows at {spacing:g} in., one along each edge"
        as_schedule = (rows, spacing) == (schedule.rows, schedule.spacing)
        where = ", ".join(f"{mark}: {counts[mark]}" for mark in sorted(counts, key=natural))
        source = schedule.source if as_schedule else f"the project file; {schedule.source} asks for less"
        yield Item("nail between plies", size, sum(counts.values()), material_of(NAILS), where, source)


def ply_nails(length: float, plies: int, rows: int = 2, spacing: float = 16.0) -> int:
    """Nails of a built-up beam in rows, as IRC R507.5 asks at least: one at either end of a row, no space over that."""
    spaces = math.ceil(length / spacing - 1e-9)
    return round(float(nails_in_plies(l=spaces * spacing, s=spacing, n_r=rows, n_p=plies)))


def _hangers(layout: Layout, pieces: dict[str, Piece]) -> Iterator[Item]:
    found: dict[tuple[str, str], list[str]] = {}
    for member in layout.members:
        for seat in member.seats:
            if seat.bearing is Bearing.HANGS and not held_by_fasteners(member):
                at_start = seat.at < member.line.length / 2
                cut = pieces[member.mark].start if at_start else pieces[member.mark].end
                size = f"{_hung(member)}{hanger_ratings(layout, member, seat)}, {_skew(cut)}"
                key = (seat.connection or "", size)
                found.setdefault(key, []).append(member.mark)
    for (name, size), marks in found.items():
        where = f"{run_of(list(dict.fromkeys(marks)))} at {_beams_of(layout, pieces, marks, size)}"
        yield Item(
            f"hanger {name}".strip(),
            size,
            len(marks),
            material_of(CONNECTORS),
            where,
            "one for each hung end",
        )
    yield from nails_for("hanger", [mark for marks in found.values() for mark in marks])
    yield from _angles(layout)


def _blocking(layout: Layout) -> Iterator[Item]:
    """Nails or screws of rims, blocking and spacers, one line for each entry."""
    for found in fastened(layout):
        entry = found.entry
        connector = connector_of(entry)
        how = "into end grain"
        if found.slanted:
            how += f", at {found.slanted} of {found.ends} ends at a slant (toe-nails)"
        size = f"{connector.name}, {how}" if entry.fasteners else "to be chosen"
        each = "at each joist" if entry.kind == "rim" else "at each end"
        source = f"{entry.fasteners} {each}: the project file; NDS 2018, 12.5.2"
        if not entry.fasteners:
            source = "the project file gives none"
        what = f"{entry.fastener.split(' ')[-1]}, {entry.kind}"
        yield Item(what, size, found.count, material_of(NAILS), run_of(list(found.marks)), source)


def _hung(member: Member) -> str:
    return f"for {member.section.name}"


def edge_angles(member: Member) -> float | None:
    """Rating of the pieces that take what pulls and presses at a member's edges, where no hanger does (rated_alone)."""
    alone: bool = getattr(member.timber, "rated_alone", False)
    rated: float | None = getattr(member.timber, "edge_load", None)
    return rated if alone else None


def _angles(layout: Layout) -> Iterator[Item]:
    """Pieces of their own at the upper and the lower edge of hung ends (rated_alone)."""
    found: dict[float, list[str]] = {}
    for member in layout.members:
        hung = [seat for seat in member.seats if seat.bearing is Bearing.HANGS]
        if hung and (rated := edge_angles(member)):
            found.setdefault(rated, []).extend(member.mark for _ in hung)
    for rated, marks in found.items():
        yield Item(
            "angle at the edges of a hung end",
            f"rated {rated:,.0f} lb across the edge, beside the hanger",
            2 * len(marks),
            material_of(CONNECTORS),
            run_of(list(dict.fromkeys(marks))),
            "one at the upper and one at the lower edge: the file rates them alone",
        )


def hanger_ratings(layout: Layout, member: Member, seat: Seat) -> str:
    """Every rating that the checks take of a hanger: down, uplift, and at the member's edges where it takes these."""
    hanger = layout.project.connections.get(seat.connection or "")
    ways = (
        []
        if edge_angles(member)
        else [(getattr(member.timber, "edge_load", None), "at its upper and lower edge")]
    )
    if hanger is not None:
        ways = [
            (hanger.rated_load, "down"),
            (hanger.rated_uplift, "uplift"),
            (hanger.rated_lateral, "lateral"),
            *ways,
        ]
    given = [f"{rated:,.0f} lb {way}" for rated, way in ways if rated is not None]
    return f"; rated {', '.join(given)}" if given else ""


def _skew(cut: EndCut) -> str:
    """Skew of a hanger: the way the joist comes off the beam, as you face the beam."""
    return (
        "not skewed"
        if cut.hanger_skew is Side.NEITHER
        else f"skewed {cut.bevel:.1f}° {cut.hanger_skew.value}"
    )


def _beams_of(layout: Layout, pieces: dict[str, Piece], marks: list[str], size: str) -> str:
    """Beams at which hangers of this size are."""
    names = {
        cut.meets
        for mark in marks
        for cut in (pieces[mark].start, pieces[mark].end)
        if cut.hung and size.endswith(_skew(cut)) and size.startswith(_hung(layout.member(mark)))
    }
    return ", ".join(sorted(names))


def _braces(layout: Layout) -> Iterator[Item]:
    found: dict[tuple[float, float], Counter[str]] = {}
    for brace in layout.project.braces:
        if brace.bolts is not None and brace.bolt_diameter is not None:
            key = (brace.bolt_diameter, bolt_length(layout, brace))
            found.setdefault(key, Counter())[brace.mark] += 2 * brace.bolts
        else:
            rated = f"rated {brace.rated_load:,.0f} lb" if brace.rated_load else "to be chosen"
            material = material_of(CONNECTORS)
            yield Item("brace end connector", rated, 2, material, brace.mark, "one at either end")
    for (diameter, length), marks in found.items():
        count, where, material = sum(marks.values()), run_of(list(marks)), material_of(BOLTS)
        size = f"{inch(diameter)} x {inch(length)}, ASTM A307 or better"
        yield Item("bolt", size, count, material, where, "bolts at both ends of each brace")
        under = "under head and nut: NDS 2018, 12.1.3"
        yield Item("washer", f"{inch(diameter)}", 2 * count, material, where, under)
        yield Item("nut", f"{inch(diameter)}", count, material, where, "one for each bolt")


def bolt_length(layout: Layout, brace: Brace) -> float:
    """Bolt of a lapped brace, to the half inch: through its plies and the wider of post and beam (in).

    The plies lie flat on the wider of the two; a narrower one between them is packed out.
    """
    support = next(s for s in layout.supports if s.mark == brace.support)
    post = parse_section(layout.project.posts[support.post or ""].section).b
    between = max(post, layout.member(brace.beam).width)
    grip = between + brace.plies * parse_section(brace.section).ply_thickness
    least = float(least_bolt_length(g=grip, D=brace.bolt_diameter or 0.0))
    return math.ceil(least * 2 - 1e-9) / 2


def packing(layout: Layout, brace: Brace) -> float:
    """Packing on each side, where post and beam between the plies of a lapped brace differ in width (in)."""
    if brace.bolts is None or brace.plies < 2:
        return 0.0
    support = next(s for s in layout.supports if s.mark == brace.support)
    post = parse_section(layout.project.posts[support.post or ""].section).b
    return abs(post - layout.member(brace.beam).width) / 2


def _diagonals(layout: Layout) -> Iterator[Item]:
    for diagonal in layout.project.diagonals:
        length = math.dist(diagonal.start, diagonal.end)
        rated = f"rated {diagonal.rated_load:,.0f} lb" if diagonal.rated_load else "rating to be given"
        size = f"{rated}, {feet_inches(length)} between its ends"
        material = material_of(CONNECTORS)
        yield Item("strap in plan", size, 1, material, diagonal.mark, "one for each diagonal")


def _rods(layout: Layout) -> Iterator[Item]:
    for rods in layout.project.crossed_rods:
        rated = (
            f"ends rated {rods.rated_load:,.0f} lb" if rods.rated_load else "rating of the ends to be given"
        )
        for cut in (cut for cut in rod_cuts(layout) if cut.mark == rods.mark):
            size = (
                f"{inch(rods.diameter)} threaded rod, F_y {rods.F_y:,.0f} psi at least, {rated}, "
                f"{feet_inches(cut.length)} between the posts' middle lines"
            )
            where = f"{rods.mark}, {cut.head} to {cut.foot}"
            yield Item(
                "crossed rod", size, 1, material_of(CONNECTORS), where, "with turnbuckle or nuts at both ends"
            )


def _decking(results: Results) -> Iterator[Item]:
    project = results.project
    table = load("deck_fastening")
    rule = table.rows[0]
    lumber = lumber_of(Use.DECKING, project.decking)
    boards = deck_boards(results, usable_length(project, lumber.section, lumber.grade))
    each = int(rule["at_each_member"])
    count = each * sum(len(board.under) for board in boards)
    length = 2 * parse_section(project.decking.section).b
    size = f"{rule['fastener']}, {inch(length)} or longer; or {rule['alternative']}"
    source = f"{each} at each member: {table.source}, from memory"
    where = f"{len(boards)} boards"
    yield Item("deck screw", size, count, material_of(NAILS), where, source)
