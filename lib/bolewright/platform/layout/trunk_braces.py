"""Knee braces from a tree bolt low in the trunk up to a beam: where each stands, and its slope.

The head bears on the beam's underside; the foot sits on the lower bolt's bearing. Both lie in the upright plane of
the beam.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bolewright.platform.project import Project, Strut, Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section, parse_section
from bolewright.units import feet_inches

if TYPE_CHECKING:
    from bolewright.platform.layout.parts import Layout, Member

IN_PLANE = 1.0  # in: a foot this far off its beam's line is under it; the brackets' play takes it up
LEAST_RUN = 6.0  # in
LEAST_LEVEL = 12.0  # in above grade, of a foot


@dataclass(frozen=True)
class TrunkBrace:
    """A knee brace from the trunk in place.

    ``foot`` the tree bolt it stands on, ``at`` the place of its head along ``beam``, ``side`` 1 where it leans
    towards the beam's end, -1 towards its start; ``a`` rise from its foot to the beam's underside, ``r`` run (in).
    """

    support: Support
    strut: Strut
    foot: Support
    beam: Member
    at: float
    side: int
    a: float
    r: float

    @property
    def mark(self) -> str:
        """Its mark."""
        return self.support.mark

    @property
    def section(self) -> Section:
        """Its section."""
        return parse_section(self.strut.section)

    @property
    def values(self) -> DesignValues:
        """Reference design values."""
        return self.strut.values(self.section)

    @property
    def factors(self) -> Factors:
        """Adjustment factors in service."""
        return factors(self.values, Service(wet=self.strut.wet, incised=self.strut.counts_incised))

    @property
    def length(self) -> float:
        """Between its working points: its foot on the bolt, and the beam's underside at its head (in)."""
        return math.hypot(self.a, self.r)

    @property
    def slope(self) -> float:
        """Lateral force for one pound upright."""
        return self.r / self.a

    @property
    def foot_level(self) -> float:
        """Level of its foot's bearing above grade (in)."""
        return self.beam.bottom - self.a

    @property
    def cut(self) -> float:
        """Length of its level cut on the beam's underside, along the beam (in)."""
        return self.section.d * self.length / self.a

    @property
    def to_beam(self) -> float:
        """Angle between it and the grain of the beam (degrees)."""
        return math.degrees(math.atan2(self.a, self.r))


def trunk_brace(layout: Layout, support: Support) -> TrunkBrace:
    """A knee brace in place."""
    beam, seat = layout.on_support(support.mark)[0]
    foot = next(s for s in layout.supports if s.mark == support.foot)
    under = beam.line.along(foot.at)
    return TrunkBrace(
        support=support,
        strut=layout.project.struts[support.strut or ""],
        foot=foot,
        beam=beam,
        at=seat.at,
        side=1 if seat.at > under else -1,
        a=support.rise or 0.0,
        r=abs(seat.at - under),
    )


def trunk_braces(layout: Layout) -> tuple[TrunkBrace, ...]:
    """All knee braces from trunks."""
    return tuple(trunk_brace(layout, s) for s in layout.supports if s.kind == SupportKind.KNEE_BRACE)


def tree_of(project: Project, foot: str) -> str | None:
    """Mark of the tree that a knee brace's foot is in."""
    return next((s.tree for s in project.supports if s.mark == foot), None)


def brace_faults(layout: Layout) -> list[str]:
    """Sentences on knee braces that do not fit their beams and feet."""
    found: list[str] = []
    braces: list[TrunkBrace] = []
    for support in layout.supports:
        if support.kind != SupportKind.KNEE_BRACE:
            continue
        mark, over = support.mark, layout.on_support(support.mark)
        if len(over) > 1:
            found.append(
                f"{' and '.join(m.mark for m, _ in over)} both sit on the knee brace {mark}: give each its own."
            )
            continue
        brace = trunk_brace(layout, support)
        off = brace.beam.line.off(brace.foot.at)
        if off > IN_PLANE:
            found.append(
                f"The knee brace {mark} does not stand in the plane of {brace.beam.mark}: the bearing on its tree bolt "
                f"{brace.foot.mark} is {feet_inches(off)} off that beam's line, {feet_inches(IN_PLANE)} is the most."
            )
        elif brace.r < LEAST_RUN:
            found.append(
                f"The knee brace {mark} has a run of {feet_inches(brace.r)} from its tree bolt {brace.foot.mark}: at "
                f"least {feet_inches(LEAST_RUN)}."
            )
        elif brace.foot_level < LEAST_LEVEL:
            most = (support.rise or 0.0) + brace.foot_level - LEAST_LEVEL
            found.append(
                f"The knee brace {mark} has a rise of {feet_inches(support.rise or 0.0)}: at most "
                f"{feet_inches(max(most, 0.0))} leave its foot {feet_inches(LEAST_LEVEL)} above grade."
            )
        else:
            braces.append(brace)
    return found + _pairs(braces)


def _pairs(braces: Sequence[TrunkBrace]) -> list[str]:
    """Sentences on braces of one foot or one beam that do not go together."""
    found = []
    for n, one in enumerate(braces):
        for other in braces[:n]:
            both = f"The knee braces {other.mark} and {one.mark}"
            if one.foot.mark == other.foot.mark and one.beam.mark != other.beam.mark:
                found.append(
                    f"{both} stand on one tree bolt under two beams: give each beam a bolt of its own."
                )
            elif one.foot.mark == other.foot.mark and abs(one.foot_level - other.foot_level) > 1e-6:
                found.append(f"{both} stand on one tree bolt: give both the same rise.")
            elif (
                one.beam.mark == other.beam.mark
                and one.side == other.side
                and one.foot.tree == other.foot.tree
            ):
                found.append(
                    f"{both} lean to one side of {one.beam.mark} from one tree: give each side one, with two plies."
                )
    return found
