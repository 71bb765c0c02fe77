"""Where blocking keeps a joist or beam from turning: full depth, and on both sides of it or rated to hold its edges."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.analysis.eccentric import edge_load, restrains
from bolewright.platform.layout.blocking import FULL, entry_of
from bolewright.platform.layout.parts import Kind, Layout, Member, Seat

_BESIDE = 3.0  # in: pieces on both sides of a member no further apart along it hold it together


def braced_at(layout: Layout, member: Member) -> tuple[float, ...]:
    """Places along a member where blocking keeps it from turning.

    A row holds a joist by pressure from both sides. A piece on one side alone would have to pull on fasteners in end
    grain, which NDS 2018, 12.2 gives no value: it counts where its connections are rated at their edges.
    """
    meets = [(piece, seat) for piece, seat in _full_depth(layout, member)]
    return tuple(sorted({seat.below_at for piece, seat in meets if _holds(member, piece, seat, meets)}))


def braces(layout: Layout, piece: Member) -> tuple[Member, ...]:
    """Members that a piece of blocking keeps from turning."""
    members = (layout.member(seat.below) for seat in piece.seats)
    return tuple(
        m
        for m in members
        if any(seat.below_at in braced_at(layout, m) for seat in piece.seats if seat.below == m.mark)
    )


def unrated(layout: Layout, piece: Member) -> tuple[Member, ...]:
    """Members that a piece is to keep from turning but does not, as its connections have no rating at their edges."""
    if not restrains(piece) or edge_load(piece) is not None:
        return ()
    held = {m.mark for m in braces(layout, piece)}
    members = (layout.member(seat.below) for seat in piece.seats)
    return tuple(
        m for m in members if m.mark not in held and any(met is piece for met, _ in _full_depth(layout, m))
    )


def by_edges_alone(layout: Layout, piece: Member) -> tuple[int, ...]:
    """Seats of a piece, meant to keep its members from turning, that nothing holds on the other side of these.

    One edge of its connection there is pulled.
    """
    if not restrains(piece):
        return ()
    rows = []
    for i, own in enumerate(piece.seats):
        member = layout.member(own.below)
        meets = list(_full_depth(layout, member))
        here = any(met is piece and seat is own for met, seat in meets)
        if here and not _beside(member, piece, own, meets):
            rows.append(i)
    return tuple(rows)


def _full_depth(layout: Layout, member: Member) -> Iterator[tuple[Member, Seat]]:
    """Pieces of blocking as deep as a member that meet its side, with their seats there; not the rim at its end."""
    for piece in layout.blocking:
        if (
            entry_of(piece).kind == "rim"
            or abs(piece.top - member.top) > FULL
            or abs(piece.bottom - member.bottom) > FULL
        ):
            continue
        yield from ((piece, seat) for seat in piece.seats if seat.below == member.mark)


def _holds(member: Member, piece: Member, seat: Seat, meets: list[tuple[Member, Seat]]) -> bool:
    rated = restrains(piece) and edge_load(piece) is not None
    return rated or _beside(member, piece, seat, meets)


def _beside(member: Member, piece: Member, seat: Seat, meets: list[tuple[Member, Seat]]) -> bool:
    """Whether a piece stands on the other side of a member too, so that both hold it by pressure."""
    side = _side(member, piece)
    return any(
        abs(other.below_at - seat.below_at) <= _BESIDE and _side(member, beside) != side
        for beside, other in meets
    )


def _side(member: Member, piece: Member) -> bool:
    """On which side of a member a piece lies: whether on its left."""
    assert piece.kind is Kind.BLOCKING
    x, y = piece.line.at(piece.line.length / 2)
    (x_0, y_0), (u, v) = member.line.start, member.line.u
    return u * (y - y_0) - v * (x - x_0) > 0
