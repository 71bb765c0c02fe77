"""Cut list: every stick of timber once, as it is cut, with the mark it has on sheets and drawings."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from bolewright.calculation import Step
from bolewright.platform.layout.layout import Kind, Layout
from bolewright.platform.layout.pieces import EndCut, Piece, Side, cut_pieces
from bolewright.platform.project import Timber
from bolewright.platform.results.results import Results
from bolewright.reference import load
from bolewright.setting_out.braces import BraceCut, brace_cuts
from bolewright.setting_out.levels import find_levels
from bolewright.setting_out.tolerance import rounded
from bolewright.setting_out.trunk_braces import trunk_brace_cuts
from bolewright.take_off.access import Length, hatch_lengths, ladder_lengths, stair_lengths
from bolewright.take_off.blocking import all_sticks
from bolewright.take_off.boards import Board, deck_boards
from bolewright.take_off.guards import gate_lengths, guard_lengths
from bolewright.take_off.stock import usable_length
from bolewright.take_off.weights import weigh
from bolewright.timber.sections import parse_section

DRY_SERVICE = "none named (dry service)"
ON_THE_DAY = "cut to height on the day"
IN_PLACE = "in place, along the edge"


class Use(StrEnum):
    """What a stick becomes."""

    DECKING = "deck board"
    JOIST = "joist"
    BLOCKING = "blocking"
    BEAM = "beam"
    BRACE = "knee brace"
    POST = "post"
    STRINGER = "stringer"
    TREAD = "tread"
    STAIR_POST = "post of the stairs' rail"
    STAIR_BLOCK = "block of the stairs' rail"
    RAIL = "ladder rail"
    RUNG = "rung"
    COVER = "hatch cover"
    GUARD_POST = "guard post"
    GUARD_CAP = "guard cap"
    GUARD_RAIL = "guard rail"
    BALUSTER = "baluster"
    GATE_RAIL = "gate rail"
    GATE_STILE = "gate stile"
    GATE_BRACE = "gate brace"


@dataclass(frozen=True, order=True)
class Lumber:
    """What is asked for at the yard: size, species, grade, treatment."""

    section: str
    species: str
    grade: str
    treatment: str

    @property
    def name(self) -> str:
        """All of it in one line."""
        return f"{self.section} {self.species} {self.grade}, {self.treatment}"


@dataclass(frozen=True)
class Cut:
    """One stick as it is cut. Lengths in inches to a sixteenth.

    ``long`` and ``short`` run between the long and between the short points, ``buy`` is what it takes of a stick;
    ``ends`` say the cut at start and end; ``ply`` is its number among the plies of ``mark``, or among the sticks of
    stairs, of a ladder, of a hatch, which have one mark on drawings; 0 for a single piece;
    ``weight`` in pounds; ``under`` the members that a deck board is fastened to.
    """

    mark: str
    use: Use
    lumber: Lumber
    long: float
    short: float
    buy: float
    ends: tuple[str, str]
    weight: float
    ply: int = 0
    under: tuple[str, ...] = ()
    steps: tuple[Step, ...] = field(default=(), compare=False, repr=False)

    @property
    def label(self) -> str:
        """Mark that no other stick has: ``C1/2`` is the second ply of C1."""
        return f"{self.mark}/{self.ply}" if self.ply else self.mark


@dataclass(frozen=True)
class CutLine:
    """Like sticks as one line of the list."""

    cuts: tuple[Cut, ...]

    @property
    def cut(self) -> Cut:
        """Any of them."""
        return self.cuts[0]

    @property
    def count(self) -> int:
        """How many."""
        return len(self.cuts)

    @property
    def marks(self) -> str:
        """Their marks, each once."""
        return run_of(list(dict.fromkeys(cut.mark for cut in self.cuts)))


def find_cuts(results: Results) -> tuple[Cut, ...]:
    """Every stick, posts and beams first, boards last."""
    return (*framing_cuts(results.path.layout), *_boards(results))


def framing_cuts(layout: Layout) -> tuple[Cut, ...]:
    """Every stick but the boards, which only a load path decides on."""
    pieces = {piece.mark: piece for piece in _ordered(layout)}
    return (
        *_posts(layout),
        *(cut for piece in pieces.values() for cut in _plies(layout, piece)),
        *_blocking(layout),
        *(cut for brace in brace_cuts(layout, pieces) for cut in _brace(layout, brace)),
        *_ways_up(layout),
        *_trunk_braces(layout, pieces),
    )


def cut_lines(cuts: Iterable[Cut]) -> tuple[CutLine, ...]:
    """Like sticks together, in the order in which the first of each stands."""
    found: dict[tuple[object, ...], list[Cut]] = {}
    for cut in cuts:
        key = (cut.use, cut.lumber, cut.long, cut.short, cut.ends, cut.mark if cut.use is Use.BEAM else "")
        found.setdefault(key, []).append(cut)
    return tuple(CutLine(tuple(group)) for group in found.values())


def run_of(marks: Sequence[str]) -> str:
    """Marks in few words, numbers that follow each other as a run.

    >>> run_of(["J1", "J2", "J3", "J7", "C1"])
    'J1 to J3, J7, C1'
    """
    runs: list[list[str]] = []
    for mark in marks:
        if runs and _next_after(runs[-1][-1]) == mark:
            runs[-1].append(mark)
        else:
            runs.append([mark])
    words = [
        [run[0], run[-1]] if len(run) == 2 else [f"{run[0]} to {run[-1]}"] if len(run) > 2 else run
        for run in runs
    ]
    return ", ".join(word for run in words for word in run)


def _next_after(mark: str) -> str:
    match = re.fullmatch(r"(.*?)(\d+)", mark)
    return f"{match[1]}{int(match[2]) + 1}" if match else ""


def treatment_of(use: Use, timber: Timber) -> str:
    """Use category asked for by where the piece is."""
    return str(load("treatment_by_use").row(use=use.value)["category"]) if timber.wet else DRY_SERVICE


def lumber_of(use: Use, timber: Timber) -> Lumber:
    """What a piece is bought as; the full names of species and grade."""
    section = parse_section(timber.section)
    return Lumber(section.single, *timber.bought_as, treatment_of(use, timber))


def _cut(
    mark: str,
    use: Use,
    timber: Timber,
    long: float,
    short: float,
    ends: tuple[str, str],
    *,
    spare: float = 0.0,
    ply: int = 0,
    width: float | None = None,
    under: tuple[str, ...] = (),
) -> Cut:
    """A stick with its weight; ``width`` that of a ripped board."""
    length = rounded(long)
    weighed = weigh(timber, length, width)
    lumber = lumber_of(use, timber)
    return Cut(
        mark,
        use,
        lumber,
        length,
        rounded(short),
        length + rounded(spare),
        ends,
        weighed.weight,
        ply,
        under,
        weighed.steps,
    )


# ---------------------------------------------------------------------------------------------------------


def _posts(layout: Layout) -> Iterator[Cut]:
    project = layout.project
    for level in find_levels(layout).at:
        if level.length is None:
            continue
        support = next(s for s in layout.supports if s.mark == level.support)
        timber = project.posts[support.post or ""]
        ends = ("square, cut end down and treated", ON_THE_DAY)
        spare = project.stock.post_spare
        yield _cut(support.mark, Use.POST, timber, level.length, level.length, ends, spare=spare)


def _ordered(layout: Layout) -> list[Piece]:
    """Beams as the project file has them, then joists."""
    order = {beam.mark: i for i, beam in enumerate(layout.project.beams)}
    framing = (piece for piece in cut_pieces(layout) if piece.kind is not Kind.BLOCKING)
    return sorted(framing, key=lambda p: (p.kind is Kind.JOIST, order.get(p.mark, 0)))


def _plies(layout: Layout, piece: Piece) -> Iterator[Cut]:
    """Plies of a joist or beam; where its ends are bevelled unlike, each ply has its own length."""
    use = Use.JOIST if piece.kind is Kind.JOIST else Use.BEAM
    t = piece.b / piece.plies
    ends = (_end(piece.start), _end(piece.end))
    slant = piece.end.tangent - piece.start.tangent
    bevels = abs(piece.start.tangent) + abs(piece.end.tangent)
    for ply in range(piece.plies):
        left = piece.b / 2 - (ply + 0.5) * t
        centre = piece.centre + left * slant
        timber = layout.member(piece.mark).timber
        number = ply + 1 if piece.plies > 1 else 0
        long, short = centre + t / 2 * bevels, centre - t / 2 * bevels
        yield _cut(piece.mark, use, timber, long, short, ends, ply=number)


def _blocking(layout: Layout) -> Iterator[Cut]:
    """Sticks of rims, blocks and spacers."""
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    for stick in all_sticks(layout, pieces):
        ends = (_end(stick.start), _end(stick.end))
        yield _cut(stick.mark, Use.BLOCKING, stick.member.timber, stick.long, stick.short, ends)


def _end(cut: EndCut) -> str:
    """An end in words, as the saw reads it."""
    if cut.long_point is Side.NEITHER:
        return "square"
    hand = ", by hand" if cut.beyond_saw else ""
    return f"bevel {cut.bevel:.1f}°, long point {cut.long_point.value}{hand}"


def _brace(layout: Layout, brace: BraceCut) -> Iterator[Cut]:
    timber = next(b for b in layout.project.braces if b.mark == brace.mark)
    ends, short = ("square", "square"), brace.long_edge
    if brace.fitted:
        ends, short = (f"{brace.plumb:.1f}° off square", f"{brace.level:.1f}° off square"), brace.short_edge
    for ply in range(brace.plies):
        number = ply + 1 if brace.plies > 1 else 0
        yield _cut(brace.mark, Use.BRACE, timber, brace.long_edge, short, ends, ply=number)


def _trunk_braces(layout: Layout, pieces: dict[str, Piece]) -> Iterator[Cut]:
    for brace in trunk_brace_cuts(layout, pieces):
        ends = ("square", f"{brace.level:.1f}° off square")
        strut = layout.project.struts[brace.kind]
        yield _cut(brace.mark, Use.BRACE, strut, brace.long_edge, brace.short_edge, ends)


def _boards(results: Results) -> Iterator[Cut]:
    project = results.project
    decking = project.decking
    lumber = lumber_of(Use.DECKING, decking)
    for board in deck_boards(results, usable_length(project, lumber.section, lumber.grade)):
        ends = (_board_end(board, board.square[0]), _board_end(board, board.square[1]))
        yield _cut(
            board.mark,
            Use.DECKING,
            decking,
            board.long,
            board.short,
            ends,
            width=board.width,
            under=board.under,
        )


def _ways_up(layout: Layout) -> Iterator[Cut]:
    """Sticks of stairs, of a ladder, of a hatch, and of guards."""
    for lengths in (stair_lengths(layout), ladder_lengths(layout), hatch_lengths(layout)):
        number = 0
        for found in lengths:
            for _ in range(found.count):
                number += 1
                yield _cut_of(found, number)
    for found in (*guard_lengths(layout), *gate_lengths(layout)):
        for _ in range(found.count):
            yield _cut_of(found)


def _cut_of(found: Length, number: int = 0) -> Cut:
    """One of like sticks of a way up or a guard."""
    return _cut(found.mark, Use(found.use), found.timber, found.length, found.length, found.ends, ply=number)


def _board_end(board: Board, square: bool) -> str:
    return "square" if square else IN_PLACE
