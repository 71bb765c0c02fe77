"""A hatch's cover: its size and weight, and what it brings to the trimmers that it lies on."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.layout.actions import Action, ActionKind, gives_actions
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.wood_weight import timber_density
from bolewright.platform.project.hatch import TRIMMERS
from bolewright.timber.sections import parse_section

MARK = "hatch"
BATTENS = 1.25  # of the boards' weight, with battens and hardware (common practice)


def cover_area(layout: Layout) -> float:
    """Area of the cover (sq ft)."""
    hatch = layout.project.hatch
    return hatch.length * hatch.width / 144


def cover_weight(layout: Layout) -> float:
    """Weight of the cover (lb): the file's, or that of its boards and battens."""
    hatch, decking = layout.project.hatch, layout.project.decking
    if hatch.cover_weight is not None:
        return hatch.cover_weight
    if decking.weight is not None:
        return BATTENS * decking.weight * cover_area(layout)
    section = parse_section(decking.section)
    return (
        BATTENS * timber_density(decking.values(section), decking.wet) * section.b / 12 * cover_area(layout)
    )


@gives_actions
def hatch_actions(layout: Layout) -> Iterator[Action]:
    """The shut cover lies on both trimmers along the hole: its weight, people and snow on it, half on each."""
    project = layout.project
    hatch = project.hatch
    if hatch.at is None:
        return
    area = cover_area(layout)
    kinds = (
        (ActionKind.DEAD, "cover of the hatch", cover_weight(layout)),
        (ActionKind.LIVE, "live load on the cover", max(project.loads.live * area, project.loads.person)),
        (ActionKind.SNOW, "snow on the cover", project.site.ground_snow * area),
    )
    for mark in TRIMMERS:
        member = layout.member(mark)
        at: Vector = member.line.at(member.line.nearest(hatch.at))
        for kind, what, pounds in kinds:
            if pounds > 0:
                yield Action(MARK, what, kind, at, mark, down=pounds / 2, patch=hatch.length)
