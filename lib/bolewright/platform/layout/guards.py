"""Guards as parts: where their posts stand, what takes each of them, and the pushes that they hand on.

A post stands outside the edge at the end of a joist, or of a block between the edge joist and the next, square to the
edge: into that its upper bolt is tied. The moment of its push bends this joist (hogging over an overhang, lifting the
far end of the back span), or the block, which turns it into a push down on the edge joist and a lift of the next.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely import Point as PlanPoint

from bolewright.bracing.guard import guard_load_at_post, push_at_end_post
from bolewright.platform.layout.guard_ways import edge_of, stretches
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import Kind, Layout, LayoutError, Member
from bolewright.platform.project import Guard, Project
from bolewright.timber.sections import Section, parse_section
from bolewright.units import feet_inches

PUSH = 200.0  # lb, IRC 2021, Table R301.5; ASCE 7-16, 4.5.1
LINE = 50.0  # plf, ASCE 7-16, 4.5.1; not asked of one- and two-family dwellings
INFILL = 50.0  # lb on a square foot, IRC 2021, Table R301.5, note f
_ONE = 1e-4  # in: ends of members nearer than this along an edge are one place for a post
_AT_EDGE = 3.5  # in: a joist or block that ends no further from the edge takes a post there
_SQUARE = 0.9  # cosine: a member at less than 26 degrees to the square of the edge takes a post
_BESIDE = 0.5  # in: a post that stands this near to the side of a member is fastened to its end
_CORNER = 1.0  # in: least from a post's face to the corner
_STRAIGHT = 0.02  # sine: a member further off the square of the edge counts as skewed


@dataclass(frozen=True)
class GuardPost:
    """A post: its mark, guard and edge, how far along the edge it stands, the way out, and what takes its moment.

    ``at`` is its place on the edge; ``end`` the place of the receiver's end. ``depth`` of the receiver and ``below``,
    from the deck's surface to its top (in); ``holds`` the length of rail it holds, ``bay`` the last bay and ``past``
    what runs past it of an end post (in); ``tips`` the ends of a rail that has no other post, in plan. ``sharing``
    posts take a push along the rail together: no more than stand in one line with it.
    """

    mark: str
    guard: Guard
    edge: int
    along: float
    at: Vector
    out: Vector
    receiver: Member | None
    end: Vector
    holds: float
    bay: float = 1.0
    past: float = 0.0
    tips: tuple[Vector, ...] = ()
    sharing: int = 1

    @property
    def section(self) -> Section:
        """Its section."""
        return parse_section(self.guard.section)

    @property
    def depth(self) -> float:
        """Depth of what it stands against (in)."""
        return self.receiver.section.d if self.receiver is not None else 0.0

    @property
    def twist(self) -> float:
        """Sine of the angle by which the receiver lies off the square of the edge."""
        if self.receiver is None:
            return 0.0
        u = self.receiver.line.u
        return abs(u[0] * self.out[1] - u[1] * self.out[0])

    @property
    def skewed(self) -> bool:
        """Whether the receiver lies so far off the square of the edge that the joint passes a force along the edge."""
        return self.twist > _STRAIGHT


@dataclass(frozen=True)
class GuardRun:
    """A guard along one edge, or a part of it: its line, its posts in order, and how far its rails go past them."""

    guard: Guard
    edge: int
    line: Line
    start: float
    posts: tuple[GuardPost, ...]
    part: int = 1

    @property
    def spans(self) -> tuple[float, ...]:
        """Distances from post to post (in)."""
        at = [post.along for post in self.posts]
        return tuple(b - a for a, b in zip(at, at[1:], strict=False))

    @property
    def past(self) -> float:
        """How far its rails go past the last post, at most (in)."""
        if not self.posts:
            return self.line.length
        return max(self.posts[0].along - self.start, self.start + self.line.length - self.posts[-1].along)


def edge_name(run: GuardRun) -> str:
    """What a guard along one edge is called on sheets: ``G on edge 3``, ``G on edge 3, part 2`` past a way through."""
    of = "" if run.guard.opening is None else f" of opening {run.guard.opening}"
    part = "" if run.part == 1 else f", part {run.part}"
    return f"{run.guard.mark} on edge {run.edge}{of}{part}"


def height_of(project: Project) -> float:
    """Height of the guard over the deck (in)."""
    return project.loads.guard_height


def line_load(project: Project) -> float:
    """Line load that is asked of the rail (plf): none where the IRC governs."""
    return 0.0 if project.code.basis == "IRC" else LINE


def along_asked(project: Project, guard: Guard) -> tuple[bool, str]:
    """Whether a push along the rail is asked, and by which edition."""
    if guard.handrail:
        return True, "the rail is a handrail too"
    if (
        project.code.basis == "IRC"
        and project.code.edition[:4].isdigit()
        and int(project.code.edition[:4]) >= 2021
    ):
        return False, (
            f"IRC {project.code.edition}, Table R301.5, note d: not along the top of a guard that is no handrail "
            "(from memory that it came with 2021)"
        )
    return (
        True,
        "the code named asks for any direction along the top (IRC 2018, Table R301.5; ASCE 7-16, 4.5.1)",
    )


Receiver = tuple[float, Member, Vector]


def find_guards(layout: Layout) -> tuple[GuardRun, ...]:
    """All guards of a layout by edge. LayoutError for one on an edge that is not there, or with a part off it."""
    return layout.guards


def guard_runs(layout: Layout) -> tuple[GuardRun, ...]:
    """The same, found anew; a layout keeps them as ``guards``."""
    return tuple(_runs(layout))


def _runs(layout: Layout) -> Iterator[GuardRun]:
    number: dict[str, int] = {}
    for guard in layout.project.guards:
        for edge in guard.edges:
            for run in _on_edge(layout, guard, edge, number.get(guard.mark, 0)):
                number[guard.mark] = number.get(guard.mark, 0) + len(run.posts)
                yield run


def _on_edge(layout: Layout, guard: Guard, edge: int, before: int) -> Iterator[GuardRun]:
    """Its parts along one edge: from way through to way through."""
    project = layout.project
    ring = project.platform.outline
    if guard.opening is not None:
        openings = project.platform.openings
        if guard.opening > len(openings):
            raise LayoutError(
                f"Guard {guard.mark} stands round opening {guard.opening}, but the deck has {len(openings)}."
            )
        ring = openings[guard.opening - 1]
    if not 1 <= edge <= len(ring):
        of = "outline" if guard.opening is None else f"opening {guard.opening}"
        raise LayoutError(f"Guard {guard.mark} stands on edge {edge}, but the {of} has {len(ring)} edges.")
    whole = edge_of(project, guard, edge)
    length = whole.length - guard.start if guard.length is None else guard.length
    if guard.start + length > whole.length + 0.5 or length < 6:
        raise LayoutError(
            f"Guard {guard.mark} does not fit on edge {edge}, which is {feet_inches(whole.length)} long."
        )
    for place in guard.places:
        if not guard.start - 0.01 <= place <= guard.start + length + 0.01:
            raise LayoutError(
                f"A post of guard {guard.mark} at {feet_inches(place)} is off its part of edge {edge}."
            )
    out = _outward(layout, whole)
    taken = list(_receivers(layout, whole, out))
    for number, (low, high) in enumerate(stretches(project, guard, edge, whole.length), start=1):
        run = _run(layout, guard, edge, before, whole, out, taken, low, high)
        before += len(run.posts)
        yield replace(run, part=number)


def _run(
    layout: Layout,
    guard: Guard,
    edge: int,
    before: int,
    whole: Line,
    out: Vector,
    taken: Sequence[Receiver],
    low: float,
    high: float,
) -> GuardRun:
    line = Line(whole.at(low), whole.u, high - low)
    places = sorted(place for place in guard.places if low - 0.01 <= place <= high + 0.01)
    places = places or _by_spacing(guard, low, high, taken)
    posts = []
    for k, place in enumerate(places):
        reach = [places[k] - places[k - 1] if k else 2 * (place - low)]
        reach.append(places[k + 1] - place if k + 1 < len(places) else 2 * (high - place))
        mark = f"{guard.mark}{before + k + 1}"
        post = _post(layout, guard, edge, whole, place, out, taken, mark, sum(reach) / 2)
        bay, past = _end(places, k, low, high)
        # Of a line load an end post gets (l + a)² / 2l: half the bay, what runs past, and its lever.
        tips = (whole.at(low), whole.at(high)) if len(places) == 1 else ()
        holds, sharing = post.holds + past**2 / (2 * bay), min(guard.rail_posts, len(places))
        posts.append(replace(post, bay=bay, past=past, holds=holds, tips=tips, sharing=sharing))
    return GuardRun(guard, edge, line, low, tuple(posts))


def _end(places: Sequence[float], k: int, low: float, high: float) -> tuple[float, float]:
    """The bay beside an end post and how far the rails run past it (in), the worse of both ends, if any."""
    ends: list[tuple[float, float]] = []
    if len(places) < 2:
        return 1.0, 0.0
    if k == 0:
        ends.append((places[1] - places[0], places[0] - low))
    if k == len(places) - 1:
        ends.append((places[-1] - places[-2], high - places[-1]))
    return max(ends, key=lambda end: end[1] / end[0], default=(1.0, 0.0))


def _outward(layout: Layout, line: Line) -> Vector:
    """Unit direction out of the deck, square to an edge."""
    n = (line.u[1], -line.u[0])
    middle = line.at(line.length / 2)
    inside = layout.deck.buffer(1e-6).contains(PlanPoint(middle[0] + 0.1 * n[0], middle[1] + 0.1 * n[1]))
    return (-n[0] + 0.0, -n[1] + 0.0) if inside else (n[0] + 0.0, n[1] + 0.0)


def _receivers(layout: Layout, line: Line, out: Vector) -> Iterator[Receiver]:
    """Members that end at an edge, nearly square to it: where along the edge, and the place of that end."""
    for member in (*layout.joists, *layout.blocking, *layout.beams):
        if abs(member.line.u[0] * out[0] + member.line.u[1] * out[1]) < _SQUARE:
            continue
        if abs(member.top - layout.under_deck) > 0.13:
            continue
        for end in (member.line.start, member.line.end):
            along = line.along(end)
            if line.off(end) <= _AT_EDGE and -1.0 <= along <= line.length + 1.0:
                yield along, member, end


def _by_spacing(guard: Guard, start: float, end: float, taken: Sequence[Receiver]) -> list[float]:
    """Posts at the members that can take them: near both ends, and between no further apart than the spacing."""
    room = parse_section(guard.section).b / 2 + _CORNER
    low, high = start + room, end - room
    ends = sorted(at for at, _, _ in taken if low <= at <= high)
    if not ends:
        return []
    # Not rounded: from the other end of the edge the same members are at the same places.
    places = [ends[0], *(b for a, b in pairwise(ends) if b - a > _ONE)]
    found = [places[0]]
    while found[-1] < places[-1]:
        ahead = [p for p in places if found[-1] < p <= found[-1] + guard.spacing + 0.01]
        found.append(ahead[-1] if ahead else next(p for p in places if p > found[-1]))
    return _evened(found, places, guard.spacing)


def _evened(found: list[float], places: Sequence[float], most: float) -> list[float]:
    """The same number of posts, more evenly apart where the members let them."""
    n = len(found) - 1
    if n < 2:
        return found
    step = (found[-1] - found[0]) / n
    even = [_nearest(places, found[0] + k * step) for k in range(n + 1)]
    gaps = [b - a for a, b in zip(even, even[1:], strict=False)]
    return even if min(gaps) > 0 and max(gaps) <= most + 0.01 else found


def _nearest(places: Sequence[float], wanted: float) -> float:
    return min(places, key=lambda place: (round(abs(place - wanted), 3), place))


def _post(
    layout: Layout,
    guard: Guard,
    edge: int,
    line: Line,
    place: float,
    out: Vector,
    taken: Sequence[Receiver],
    mark: str,
    holds: float,
) -> GuardPost:
    half = parse_section(guard.section).b / 2
    near = [r for r in taken if abs(r[0] - place) <= half + r[1].width / 2 + _BESIDE]
    best = min(near, key=lambda r: (round(abs(r[0] - place), 3), r[1].kind is Kind.BLOCKING), default=None)
    at = line.at(place)
    receiver, end = (best[1], best[2]) if best is not None else (None, at)
    return GuardPost(mark, guard, edge, place, at, out, receiver, end, holds)


def push_on(layout: Layout, post: GuardPost, lever: bool = True) -> float:
    """Load at the top of a post (lb), of a push at the free end of its rail where that runs past it.

    Without ``lever`` what all posts get together: the post next to an end post gets what that gets too much, backwards.
    """
    P_1 = push_at_end_post(P_1=PUSH, l=post.bay, a=post.past) if lever else PUSH
    return float(guard_load_at_post(P_1=P_1, w=line_load(layout.project), l=post.holds))


def below_deck(layout: Layout, post: GuardPost) -> float:
    """From the deck's surface to the top of what a post stands against (in)."""
    top = post.receiver.top if post.receiver is not None else layout.under_deck
    return layout.project.platform.floor_height - top
