"""Deck boards: the rows of the setting-out cut into boards that can be bought, with joints over members."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shapely import LineString, Polygon

from bolewright.platform.layout.layout import Layout, Line, Vector, field_region
from bolewright.platform.results.results import Results
from bolewright.setting_out.cutout import cut_outs, room_needed
from bolewright.setting_out.decking import DeckRows, Row, deck_rows

_SQUARE = 0.03125  # in: edges of a board that end this near each other are cut square
_INSIDE = 1e-6  # in: how far inside a board's edge its length is taken
_FAR = 5000.0  # in, past any deck
_SHORTEST = 12.0  # in: no board is made shorter than this by a joint


@dataclass(frozen=True)
class Board:
    """A deck board: its row's number, width, long and short point along it (in), whether its ends are square.

    ``under`` are the members it is fastened to. ``mark`` is D (another letter where a part of the file is
    marked so) and the row's number, with a letter where the row is of several boards.
    """

    mark: str
    field: str
    row: int
    width: float
    long: float
    short: float
    square: tuple[bool, bool]
    under: tuple[str, ...]


@dataclass(frozen=True)
class _Stretch:
    """A run of deck in one row: where its longest and its shortest edge begin and end, along the row."""

    start: tuple[float, float]
    end: tuple[float, float]


def deck_boards(results: Results, longest: float) -> tuple[Board, ...]:
    """Boards of all rows, none longer than ``longest`` (in) where a member for a joint can be found."""
    layout = results.path.layout
    found: list[Board] = []
    room = room_needed(cut_outs(results))
    fields = deck_rows(layout, room)
    start = _letter(layout)
    for rows in fields:
        field = next(f for f in layout.project.joists if f.mark == rows.field)
        region = field_region(field, layout.deck)
        region = region if room is None else region.difference(room)
        letter = start if len(fields) == 1 else f"{start}{rows.field}"
        for row in rows.rows:
            found += _row_boards(layout, rows, row, region, f"{letter}{row.number}", longest)
    return tuple(found)


def _letter(layout: Layout) -> str:
    """What the marks of boards begin with: nothing that the mark of another part, such as D1, begins with."""
    marks = [member.mark for member in layout.members] + [support.mark for support in layout.supports]
    marks += [brace.mark for brace in layout.project.braces]
    marks += [diagonal.mark for diagonal in layout.project.diagonals]
    marks += [rods.mark for rods in layout.project.crossed_rods]
    taken = {mark.rstrip("0123456789") for mark in marks} | {field.mark for field in layout.project.joists}
    own = ["", *(field.mark for field in layout.project.joists)]
    return next(
        letters
        for letters in ("D", "B", "BD", "BDS", "BOARD")
        if not taken & {letters + field for field in own}
    )


def _row_boards(
    layout: Layout, rows: DeckRows, row: Row, region: Polygon, mark: str, longest: float
) -> list[Board]:
    crossings = _crossings(layout, rows, row)
    lengths: list[tuple[_Stretch, tuple[bool, bool]]] = []
    for low, high in row.stretches:
        whole = _stretch(rows, row, region, low, high)
        joints = _joints(whole, [at for at, _ in crossings], longest, row.number)
        places = [whole.start[0], *joints, whole.end[0]]
        for i, (a, b) in enumerate(zip(places, places[1:], strict=False)):
            first, last = i == 0, i == len(joints)
            start = whole.start if first else (a, a)
            end = whole.end if last else (b, b)
            lengths.append((_Stretch(start, end), (_is_square(start), _is_square(end))))
    boards = []
    for i, (part, square) in enumerate(lengths):
        under = tuple(name for at, name in crossings if part.start[0] - 0.75 <= at <= part.end[0] + 0.75)
        boards.append(
            Board(
                mark=mark if len(lengths) == 1 else f"{mark}{_letters(i)}",
                field=rows.field,
                row=row.number,
                width=row.width,
                long=part.end[0] - part.start[0],
                short=max(0.0, part.end[1] - part.start[1]),
                square=square,
                under=under,
            )
        )
    return boards


def _letters(i: int) -> str:
    """The letters a, b ... z, aa, ab ..."""
    return (_letters(i // 26 - 1) if i >= 26 else "") + chr(97 + i % 26)


def _is_square(edge: tuple[float, float]) -> bool:
    return abs(edge[0] - edge[1]) <= _SQUARE


def _stretch(rows: DeckRows, row: Row, region: Polygon, low: float, high: float) -> _Stretch:
    """Where both edges of a row's board begin and end; a row that is a sliver has no short edge."""
    edges = []
    for across in (row.near + _INSIDE, row.far - _INSIDE):
        line = LineString([_plan(rows, across, -_FAR), _plan(rows, across, _FAR)])
        spans = [
            sorted(_along(rows, (x, y)) for x, y in piece.coords)
            for piece in getattr(line.intersection(region), "geoms", [line.intersection(region)])
            if piece.geom_type == "LineString" and not piece.is_empty
        ]
        edges.append([(span[0], span[-1]) for span in spans if span[-1] > low and span[0] < high])
    if not all(edges):
        return _Stretch((low, high), (high, high))
    starts = [max(low, min(a for a, _ in spans)) for spans in edges]
    ends = [min(high, max(b for _, b in spans)) for spans in edges]
    return _Stretch((low, max(starts)), (high, min(ends)))


def _plan(rows: DeckRows, across: float, along: float) -> Vector:
    return (
        rows.origin[0] + across * rows.across[0] + along * rows.along[0],
        rows.origin[1] + across * rows.across[1] + along * rows.along[1],
    )


def _along(rows: DeckRows, point: Vector) -> float:
    return (point[0] - rows.origin[0]) * rows.along[0] + (point[1] - rows.origin[1]) * rows.along[1]


def _crossings(layout: Layout, rows: DeckRows, row: Row) -> list[tuple[float, str]]:
    """Members under the middle of a row: where along it, which."""
    middle = (row.near + row.far) / 2
    line = Line(_plan(rows, middle, 0.0), rows.along, 1.0)
    found = []
    for member in layout.flush:
        crossing = line.crossing(member.line) if member.field in ("", rows.field) else None
        if crossing and -0.75 <= crossing[1] <= member.line.length + 0.75:
            found.append((crossing[0], member.mark))
    return sorted(found)


def _joints(whole: _Stretch, members: list[float], longest: float, row: int) -> list[float]:
    """Places of the joints of a row, over members; they are staggered from row to row."""
    start, end = whole.start[0], whole.end[0]
    return list(_joint_places(start, end, members, longest, staggered=row % 2 == 0))


def _joint_places(
    start: float, end: float, members: list[float], longest: float, *, staggered: bool
) -> Iterator[float]:
    reach = longest / 2 if staggered else longest
    while end - start > longest:
        inside = [at for at in members if start + _SHORTEST <= at <= end - _SHORTEST]
        place = max((at for at in inside if at - start <= reach), default=None)
        if place is None:
            place = max((at for at in inside if at - start <= longest), default=None)
        if place is None:
            return
        yield place
        start, reach = place, longest
