"""Hardware: hangers, ties, bolts and fasteners by number, with the material that goes with treated lumber."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain

from bolewright.fasteners.plies import ply_schedule
from bolewright.formulas import formula
from bolewright.platform.layout import Bearing, Layout, Member
from bolewright.platform.load_path import LoadPath
from bolewright.platform.project import Brace
from bolewright.reference import load
from bolewright.setting_out.pieces import EndCut, Piece, Side, cut_pieces
from bolewright.setting_out.plan import posts_of
from bolewright.take_off.boards import deck_boards
from bolewright.take_off.buying import natural
from bolewright.take_off.cut_list import Use, lumber_of, run_of
from bolewright.take_off.stock import usable_length
from bolewright.timber.sections import parse_section
from bolewright.units import Length, Ratio, feet_inches

PROTECTION = "fastener_protection"
NAILS, BOLTS, CONNECTORS, TREE_BOLTS = (
    "nails and screws",
    "bolts, nuts and washers",
    "connectors",
    "tree bolts",
)


@formula("Common practice (bolt through timber)")
def least_bolt_length(g: Length, D: Length) -> Length:
    """Shortest bolt that takes two washers and a nut with thread to spare.

    Parameters: g thickness of all timber that it passes (in); D diameter (in). Returns: l_b (in); take the next half
    inch. Source: common practice: nut D, two washers 1/4 D, three turns of thread 1/4 D.

    >>> least_bolt_length(8.5, 0.5)
    9.375
    """
    l_b: Length = g + D + 3 * D / 4
    return l_b


@formula("IRC 2021, R507.5 (fastening of plies), in whole nails")
def nails_in_plies(l: Length, s: Length, n_r: Ratio, n_p: Ratio) -> Ratio:
    """Nails of a carrier of several plies, before the spaces are rounded up.

    Parameters: l length (in); s greatest spacing (in); n_r rows; n_p plies. Returns: n: with the number of spaces
    l / s rounded up, one more nail than spaces in every row, in every plane between plies. Source: IRC R507.5.

    >>> nails_in_plies(144.0, 16.0, 2, 2)
    20.0
    """
    n: Ratio = (l / s + 1) * n_r * (n_p - 1)
    return n


@dataclass(frozen=True)
class Item:
    """A line of the hardware list. ``count`` None: as many as the maker of something else says.

    ``name`` is what the price table calls it; ``where`` the parts it belongs to; ``material`` what goes with treated
    lumber; ``source`` what the number rests on.
    """

    name: str
    size: str
    count: int | None
    material: str
    where: str
    source: str


def hardware_list(path: LoadPath) -> tuple[Item, ...]:
    """All hardware of a platform, from the tree up."""
    layout = path.layout
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    return tuple(
        chain(
            _tree_bolts(layout),
            _posts(layout),
            _crossings(layout),
            _plies(layout, pieces),
            _hangers(layout, pieces),
            _braces(layout),
            _diagonals(layout),
            _decking(path),
        )
    )


def material_of(kind: str) -> str:
    """Material that goes with treated lumber outdoors."""
    return str(load(PROTECTION).row(kind=kind)["material"])


def _tree_bolts(layout: Layout) -> Iterator[Item]:
    bolts = [s for s in layout.supports if s.kind == "tree bolt"]
    for name in dict.fromkeys(s.bolt or "" for s in bolts):
        marks = [s.mark for s in bolts if s.bolt == name]
        bolt = layout.project.bolts[name]
        size = f"{_inch(bolt.diameter)} at the root, {_inch(bolt.embedment)} in sound wood"
        where, source = run_of(marks), "one for each support"
        material = material_of(TREE_BOLTS)
        yield Item(f"tree bolt {name}", size, len(marks), material, where, source)
        if bolt.seat == "steel bracket":
            seat = f"seat {_inch(bolt.seat_length)} along the bolt"
            yield Item(f"bracket {name}", seat, len(marks), material_of(CONNECTORS), where, source)
        keepers = [s.mark for s in bolts if s.uplift_tie is not None]
        if keepers:
            yield _tie("keeper on the bracket", layout, keepers)


def _posts(layout: Layout) -> Iterator[Item]:
    posts = posts_of(layout)
    for name in dict.fromkeys(s.post or "" for s in posts):
        marks = [s.mark for s in posts if s.post == name]
        post = layout.project.posts[name]
        widths = sorted({layout.on_support(mark)[0][0].width for mark in marks})
        size = (
            f"{parse_section(post.section).single} post, carrier {', '.join(_inch(w) for w in widths)} wide"
        )
        source = "one for each post"
        yield Item(f"cap {name}", size, len(marks), material_of(CONNECTORS), run_of(marks), source)
        if post.roll_tie is not None:
            rated = f"rated {post.roll_tie:,.0f} lb"
            ties = 2 * sum(len(layout.on_support(mark)) for mark in marks)
            yield Item(
                f"roll tie {name}", rated, ties, material_of(CONNECTORS), run_of(marks), "one on each side"
            )
    tied = [s.mark for s in posts if s.uplift_tie is not None]
    if tied:
        yield _tie("uplift tie", layout, tied, ", unless the cap is rated for it")
    yield from _nails_for("cap", [s.mark for s in posts])


def _tie(name: str, layout: Layout, marks: list[str], but: str = "") -> Item:
    rated = [s.uplift_tie or 0.0 for s in layout.supports if s.mark in marks]
    size = f"rated {', '.join(f'{pounds:,.0f} lb' for pounds in sorted(set(rated)))}{but}"
    source = "the project file's rated uplift"
    return Item(name, size, len(marks), material_of(CONNECTORS), run_of(marks), source)


def _crossings(layout: Layout) -> Iterator[Item]:
    """Members that rest on carriers: each is tied down and against rolling where it crosses."""
    marks = {m.mark for m in layout.members}
    found: dict[tuple[str, str], list[str]] = {}
    for member in layout.members:
        for seat in member.seats:
            if seat.bearing is Bearing.RESTS and seat.below in marks:
                rated = getattr(member.timber, "side_tie", None)
                size = f"rated {rated:,.0f} lb sideways" if rated else "to be chosen"
                what = f"joist {member.field}" if member.field else "carrier"
                found.setdefault((what, size), []).append(f"{member.mark} on {seat.below}")
    for (what, size), unordered in found.items():
        places = sorted(unordered, key=natural)
        where = ", ".join(places) if len(places) <= 4 else f"{places[0]} to {places[-1]}"
        source = "one on each side of each crossing"
        name = f"angle, {what} on carrier"
        yield Item(name, size, 2 * len(places), material_of(CONNECTORS), where, source)


def _plies(layout: Layout, pieces: dict[str, Piece]) -> Iterator[Item]:
    schedule = ply_schedule()
    built_up = sorted((m for m in layout.carriers if m.section.plies > 1), key=lambda m: natural(m.mark))
    counts = {m.mark: ply_nails(pieces[m.mark].longest, m.section.plies) for m in built_up}
    if counts:
        size = f"{schedule.nail}, {schedule.rows} rows at {schedule.spacing:g} in., one along each edge"
        where = ", ".join(f"{mark}: {count}" for mark, count in counts.items())
        yield Item(
            "nail between plies", size, sum(counts.values()), material_of(NAILS), where, schedule.source
        )


def ply_nails(length: float, plies: int) -> int:
    """Nails of a built-up carrier by the schedule of IRC R507.5: one at either end of a row, no space over 16 in."""
    schedule = ply_schedule()
    spaces = math.ceil(length / schedule.spacing - 1e-9)
    whole = spaces * schedule.spacing
    return round(float(nails_in_plies(l=whole, s=schedule.spacing, n_r=schedule.rows, n_p=plies)))


def _hangers(layout: Layout, pieces: dict[str, Piece]) -> Iterator[Item]:
    found: dict[tuple[str, str], list[str]] = {}
    for member in layout.members:
        for seat in member.seats:
            if seat.bearing is Bearing.HANGS:
                at_start = seat.at < member.line.length / 2
                cut = pieces[member.mark].start if at_start else pieces[member.mark].end
                key = (seat.connection or "", f"{_hung(member)}, {_skew(cut)}")
                found.setdefault(key, []).append(member.mark)
    for (name, size), marks in found.items():
        where = f"{run_of(list(dict.fromkeys(marks)))} at {_carriers_of(layout, pieces, marks, size)}"
        yield Item(
            f"hanger {name}".strip(),
            size,
            len(marks),
            material_of(CONNECTORS),
            where,
            "one for each hung end",
        )
    yield from _nails_for("hanger", [mark for marks in found.values() for mark in marks])


def _hung(member: Member) -> str:
    return f"for {member.section.name}"


def _skew(cut: EndCut) -> str:
    """Skew of a hanger: the way the joist comes off the carrier, as you face the carrier."""
    return (
        "not skewed"
        if cut.hanger_skew is Side.NEITHER
        else f"skewed {cut.bevel:.1f}° {cut.hanger_skew.value}"
    )


def _carriers_of(layout: Layout, pieces: dict[str, Piece], marks: list[str], size: str) -> str:
    """Carriers at which hangers of this size are."""
    names = {
        cut.meets
        for mark in marks
        for cut in (pieces[mark].start, pieces[mark].end)
        if cut.meets and size.endswith(_skew(cut)) and size.startswith(_hung(layout.member(mark)))
    }
    return ", ".join(sorted(names))


def _nails_for(what: str, marks: list[str]) -> Iterator[Item]:
    if marks:
        size = f"as the {what}'s maker names them, every hole filled; screws only where the maker says so"
        yield Item(f"{what} nails", size, None, material_of(NAILS), f"every {what}", "maker's sheet")


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
        size = f"{_inch(diameter)} x {_inch(length)}, ASTM A307 or better"
        yield Item("bolt", size, count, material, where, "bolts at both ends of each brace")
        under = "under head and nut: NDS 2018, 12.1.3"
        yield Item("washer", f"{_inch(diameter)}", 2 * count, material, where, under)
        yield Item("nut", f"{_inch(diameter)}", count, material, where, "one for each bolt")


def bolt_length(layout: Layout, brace: Brace) -> float:
    """Bolt of a lapped brace, to the half inch: through its plies and the wider of post and carrier (in).

    The plies lie flat on the wider of the two; a narrower one between them is packed out.
    """
    support = next(s for s in layout.supports if s.mark == brace.support)
    post = parse_section(layout.project.posts[support.post or ""].section).b
    between = max(post, layout.member(brace.carrier).width)
    grip = between + brace.plies * parse_section(brace.section).ply_thickness
    least = float(least_bolt_length(g=grip, D=brace.bolt_diameter or 0.0))
    return math.ceil(least * 2 - 1e-9) / 2


def packing(layout: Layout, brace: Brace) -> float:
    """Packing on each side, where post and carrier between the plies of a lapped brace differ in width (in)."""
    if brace.bolts is None or brace.plies < 2:
        return 0.0
    support = next(s for s in layout.supports if s.mark == brace.support)
    post = parse_section(layout.project.posts[support.post or ""].section).b
    return abs(post - layout.member(brace.carrier).width) / 2


def _diagonals(layout: Layout) -> Iterator[Item]:
    for diagonal in layout.project.diagonals:
        length = math.dist(diagonal.start, diagonal.end)
        size = f"rated {diagonal.rated_load:,.0f} lb, {feet_inches(length)} between its ends"
        material = material_of(CONNECTORS)
        yield Item("strap in plan", size, 1, material, diagonal.mark, "one for each diagonal")


def _decking(path: LoadPath) -> Iterator[Item]:
    project = path.layout.project
    table = load("deck_fastening")
    rule = table.rows[0]
    lumber = lumber_of(Use.DECKING, project.decking)
    boards = deck_boards(path, usable_length(project, lumber.section, lumber.grade))
    each = int(rule["at_each_member"])
    count = each * sum(len(board.under) for board in boards)
    length = 2 * parse_section(project.decking.section).b
    size = f"{rule['fastener']}, {_inch(length)} or longer; or {rule['alternative']}"
    source = f"{each} at each member: {table.source}, from memory"
    where = f"{len(boards)} boards"
    yield Item("deck screw", size, count, material_of(NAILS), where, source)


def _inch(length: float) -> str:
    """Inches as a builder says a size: ``1 1/2 in.``."""
    return feet_inches(length).replace('"', " in.") if length < 12 else feet_inches(length)
