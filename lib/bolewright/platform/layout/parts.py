"""The parts of an arrangement: members with their seats, and the layout that holds them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING, TypeVar

from shapely import Polygon

from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.project import Project, Support, Timber
from bolewright.platform.project.bearing import SupportKind
from bolewright.said_plainly import said_plainly
from bolewright.timber.sections import Section, parse_section

if TYPE_CHECKING:
    from bolewright.platform.layout.actions import Action
    from bolewright.platform.layout.boards import BoardField
    from bolewright.platform.layout.contact import Contact
    from bolewright.platform.layout.guards import GuardRun
    from bolewright.platform.layout.ladders import LadderPlan
    from bolewright.platform.layout.stairs import StairPlan

CLOSE = 1.0  # in: a support this near a beam's line is under it; what it is off counts in its checks
OFF = 1 / 16  # in: a support off the line by less was put on it, and its coordinates rounded
END = 0.25  # in: a timber that misses the end of what carries it by less was put on it, and rounded
STEP = 0.125  # in: levels that differ by more do not meet
_T = TypeVar("_T")


@said_plainly
class LayoutError(ValueError):
    """An arrangement that cannot stand; one sentence that names the part and a change.

    ``sentences`` holds one for each fault that was found in the same pass.
    """

    def __init__(self, *sentences: str) -> None:
        super().__init__(sentences[0])
        self.sentences = sentences


def gather(steps: Iterable[Callable[[], _T]]) -> list[_T]:
    """What independent steps give; LayoutError with the sentences of all that failed."""
    found: list[_T] = []
    wrong: list[str] = []
    for step in steps:
        try:
            found.append(step())
        except LayoutError as error:
            wrong += error.sentences
    if wrong:
        raise LayoutError(*dict.fromkeys(wrong))
    return found


class Kind(StrEnum):
    """What a part is."""

    BLOCKING = "blocking"
    JOIST = "joist"
    BEAM = "beam"
    TREE_BOLT = "tree bolt"
    POST = "post"


class Bearing(StrEnum):
    """How a member sits on what carries it."""

    RESTS = "rests on"
    HANGS = "hangs from"


@dataclass(frozen=True)
class Seat:
    """A place where a member sits: ``at`` along it, on ``below``, ``below_at`` along that (0 on a support)."""

    at: float
    below: str
    below_at: float
    bearing: Bearing
    point: Vector
    connection: str | None = None


class Cut(StrEnum):
    """What an end of a member is cut to."""

    FREE = "free"
    HUNG = "face it hangs on"
    BUTT = "face it ends at"
    MITRE = "mitre"


@dataclass(frozen=True)
class End:
    """How a member ends: where the middle of its cut is along its line, what it meets, and the cut's run in plan.

    ``run`` None is square across, or along the deck's edge for a joist. ``at`` may lie past the line's ends.
    """

    at: float
    cut: Cut = Cut.FREE
    meets: str = ""
    run: Vector | None = None


@dataclass(frozen=True)
class Member:
    """A joist, a beam, a piece of a rim or of blocking, a spacer.

    Its centre line in plan, its timber, its seats in order along it, its top level.
    """

    mark: str
    kind: Kind
    line: Line
    timber: Timber
    section: Section
    layer: int
    seats: tuple[Seat, ...]
    top: float
    field: str = ""
    hung_loads: bool = False
    ends: tuple[End, End] | None = None

    @property
    def cuts(self) -> tuple[End, End]:
        """How it ends; square at the ends of its line where nothing else was found."""
        return self.ends or (End(0.0), End(self.line.length))

    @property
    def width(self) -> float:
        """Width of all plies (in)."""
        return self.section.b

    @property
    def bottom(self) -> float:
        """Level of the underside (in above grade)."""
        return self.top - self.section.d


@dataclass(frozen=True)
class Note:
    """What a layout did that the file does not say, in one sentence, and the part on whose checks it stands."""

    part: str
    words: str


@dataclass(frozen=True)
class Layout:
    """The whole arrangement: members in order of the flow of weight (top first) and the supports."""

    project: Project
    members: tuple[Member, ...]
    supports: tuple[Support, ...]
    deck: Polygon
    notes: tuple[Note, ...] = ()

    @cached_property
    def _by_mark(self) -> dict[str, Member]:
        return {m.mark: m for m in self.members}

    def member(self, mark: str) -> Member:
        """Member of that mark; KeyError when there is none."""
        return self._by_mark[mark]

    @cached_property
    def _seats_on(self) -> dict[str, list[tuple[Member, int]]]:
        found: dict[str, list[tuple[Member, int]]] = {}
        for member in self.members:
            for row, seat in enumerate(member.seats):
                found.setdefault(seat.below, []).append((member, row))
        return found

    def seats_on(self, mark: str) -> Sequence[tuple[Member, int]]:
        """Members that sit on a part, in their order, each with the row of that seat."""
        return self._seats_on.get(mark, ())

    @cached_property
    def joists(self) -> tuple[Member, ...]:
        """All joists, by mark."""
        return tuple(m for m in self.members if m.kind is Kind.JOIST)

    @cached_property
    def blocking(self) -> tuple[Member, ...]:
        """All pieces of rims and rows of blocking and all spacers, by mark."""
        return tuple(m for m in self.members if m.kind is Kind.BLOCKING)

    @cached_property
    def beams(self) -> tuple[Member, ...]:
        """All beams, in order of the flow of weight."""
        return tuple(m for m in self.members if m.kind is Kind.BEAM)

    @cached_property
    def under_deck(self) -> float:
        """Level of the underside of the decking (in above grade)."""
        return under_deck(self.project)

    @cached_property
    def flush(self) -> tuple[Member, ...]:
        """Members that the decking lies on: joists, and beams whose top is level with theirs."""
        return tuple(m for m in self.members if abs(m.top - self.under_deck) <= STEP)

    @cached_property
    def contacts(self) -> dict[tuple[str, int], Contact]:
        """Where every resting seat bears, by the member's mark and the seat's row."""
        from bolewright.platform.layout.contact import (
            find_contacts,  # contacts are found from a layout's pieces
        )

        return find_contacts(self)

    @cached_property
    def actions(self) -> tuple[Action, ...]:
        """What its parts bring to the framing at places, beside the weight that lies everywhere."""
        from bolewright.platform.layout.actions import find_actions  # found from a layout's members

        return find_actions(self)

    @cached_property
    def guards(self) -> tuple[GuardRun, ...]:
        """Its guards that are parts, by edge."""
        from bolewright.platform.layout.guards import guard_runs  # found from a layout's members

        return guard_runs(self)

    @cached_property
    def board_fields(self) -> tuple[BoardField, ...]:
        """Its joist fields in the axes of their boards."""
        from bolewright.platform.layout.boards import find_board_fields  # found from a layout's members

        return find_board_fields(self)

    @cached_property
    def stairs(self) -> StairPlan | None:
        """Its stairs, where the file says on which edge they hang."""
        from bolewright.platform.layout.stairs import find_stairs  # they hang on a layout's members

        return find_stairs(self)

    @cached_property
    def ladder(self) -> LadderPlan | None:
        """Its ladder, where the file says where it leads up."""
        from bolewright.platform.layout.ladders import find_ladder  # it hangs on a layout's members

        return find_ladder(self)

    def on_support(self, mark: str) -> tuple[tuple[Member, Seat], ...]:
        """Beams that sit on a support, with their seats."""
        return tuple((m, m.seats[row]) for m, row in self.seats_on(mark) if m.kind is Kind.BEAM)

    def off_line(self, mark: str) -> float:
        """How far a support stands off the line of the beams on it (in), not counting rounding."""
        off = max((member.line.off(seat.point) for member, seat in self.on_support(mark)), default=0.0)
        return off if off > OFF else 0.0

    def braces_on(self, mark: str) -> tuple[Support, ...]:
        """Knee braces that stand on a tree bolt."""
        return tuple(s for s in self.supports if s.kind == SupportKind.KNEE_BRACE and s.foot == mark)

    def seat_level(self, mark: str) -> float:
        """Level of the underside of what sits on a support (in above grade); of a knee brace's foot on its bolt."""
        if braces := self.braces_on(mark):
            return self.on_support(braces[0].mark)[0][0].bottom - (braces[0].rise or 0.0)
        return self.on_support(mark)[0][0].bottom


def under_deck(project: Project) -> float:
    """Level of the underside of the decking (in above grade)."""
    return project.platform.floor_height - parse_section(project.decking.section).b
