"""Where along a member the boards of the deck lie on it."""

from __future__ import annotations

from shapely import LineString

from bolewright.platform.layout.parts import OFF, Layout, Member

NAILED = 0.75  # in: so much of a member's width a board has to cover to be nailed to it
LITTLE = 0.5  # in: no board is held by less of its own width


def boards_on(layout: Layout, member: Member) -> tuple[tuple[float, float], ...]:
    """From where to where along a member boards lie on it, in order (in); none where it is not level with them.

    By the deck's outline less its openings. A member whose middle is on the deck's edge lies under it.
    """
    if member not in layout.flush:
        return ()
    line = member.line
    strip = LineString([line.start, line.end]).buffer(max(member.width / 2 - NAILED, OFF), cap_style="flat")
    under = strip.intersection(layout.deck)
    found = []
    for piece in getattr(under, "geoms", [under]):
        if piece.area > 0:
            along = [min(max(line.along(corner), 0.0), line.length) for corner in piece.exterior.coords]
            found.append((min(along), max(along)))
    return tuple(sorted((start, end) for start, end in found if end - start > LITTLE))
