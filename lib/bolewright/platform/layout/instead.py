"""What can't be drawn so, and what to write instead: joists and beams that nothing holds, supports under nothing."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from shapely import Point as PlanPoint
from shapely import Polygon

from bolewright.platform.layout.joist_lines import field_axes, joist_positions
from bolewright.platform.layout.lines import Line
from bolewright.platform.layout.parts import CLOSE, LayoutError, Member
from bolewright.platform.project import Beam, Project, Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

_NEAR = 1.0  # in: what ends this near to another thing was meant to meet it
_BESIDE = 5.0  # in: a support this near to a beam's line was meant for it
_FAR = 24.0  # in: a beam that misses a joist by more was not meant for it


def unheld_joist(
    mark: str, line: Line, held: Sequence[Member], others: Iterable[Member], deck: Polygon
) -> LayoutError:
    """A joist that reaches fewer than two beams: which one misses it, by how much, and what to write."""
    on = f"only beam {held[0].mark}" if held else "no beam"
    where = f"at {feet_inches(line.at(0)[0])}, {feet_inches(line.at(0)[1])}"
    hole = _opening_at(line, deck)
    if hole:
        what = (
            f", and it is cut by opening {hole}: put a header there (a beam of layer 0 that hangs from trimmers on "
            "both sides of the opening), or leave the joist out"
        )
    else:
        what = ", so " + (
            _missed(line, held, others) or "lengthen a beam, add one, or stop the joist field before it"
        )
    return LayoutError(f"Joist {mark} ({where}) reaches {on}: it needs two{what}.")


def _opening_at(line: Line, deck: Polygon) -> int:
    """Number of the opening of the deck at an end of a line; 0 where there is none."""
    for number, ring in enumerate(deck.interiors, start=1):
        if any(ring.distance(PlanPoint(end)) < _NEAR for end in (line.start, line.end)):
            return number
    return 0


def _missed(line: Line, held: Sequence[Member], others: Iterable[Member]) -> str:
    """The beam that misses a joist by the least, in words; empty where none comes near."""
    found: list[tuple[float, str]] = []
    for other in others:
        crossing = line.crossing(other.line)
        if crossing is None or line.sine(other.line) < 0.02 or other in held:
            continue
        here, there = crossing
        past = max(-here, here - line.length, 0.0)
        short = max(-there, there - other.line.length, 0.0)
        if max(past, short) > _FAR:
            continue
        if short:
            words = (
                f"lengthen {other.mark}, which ends {feet_inches(short)} short of it, add a beam, or stop the joist "
                "field before it"
            )
        else:
            words = (
                f"draw the deck or the field's region out over {other.mark}, which lies {feet_inches(past)} past its "
                "end, move that beam, or stop the joist field before it"
            )
        found.append((past + short, words))
    return min(found)[1] if found else ""


def unheld_beam(project: Project, mark: str, on: str) -> LayoutError:
    """A beam on fewer than two supports: what it may have been meant for, and how the file says that."""
    beam = next(c for c in project.beams if c.mark == mark)
    line = Line.between(beam.start, beam.end)
    splice = _splice(project, beam)
    joists = _between_joists(project, beam)
    beside = _beside(project, line, on)
    if splice:
        what = (
            f"it meets {splice} end to end with nothing under the joint: a beam is spliced over a post, so draw both "
            "on to the middle of one, or write them as one beam"
        )
    elif joists:
        what = (
            f"it is drawn between joists of field {joists}. As a header, give it trimmers: write the joists at its "
            "ends as beams of layer 0, from which it hangs. As blocking, write it as [[blocking]] with between, the "
            "first and the last joist of the row, and along, how far along them it lies (or over, the beam under it)"
        )
    elif beside:
        what = (
            f"{beside} stands beside its line: a beam stands on top of its post, with its line over the post's middle; "
            "two beams bolted to the sides of a post that goes on up are written as one beam of two plies on a post "
            "that ends under it"
        )
    else:
        what = (
            "it needs two supports or more under its line, so add or move a post, a tree bolt or another beam; or "
            "one post held in the ground, with a knee brace from it towards each end of the beam"
        )
    return LayoutError(f"Beam {mark} rests {on}: {what}.")


def _splice(project: Project, beam: Beam) -> str:
    """Another beam in line whose end meets this one's, or empty."""
    line = Line.between(beam.start, beam.end)
    for other in project.beams:
        if other is beam or line.sine(Line.between(other.start, other.end)) > 0.02:
            continue
        for end in (beam.start, beam.end):
            if (
                min(math.dist(end, other.start), math.dist(end, other.end)) <= _NEAR
                and line.off(other.end) <= _NEAR
            ):
                return other.mark
    return ""


def _between_joists(project: Project, beam: Beam) -> str:
    """Mark of a field of joists that a beam runs across, with both its ends at joists of it; or empty."""
    for field in project.joists:
        u, n = field_axes(field)
        across = [p[0] * n[0] + p[1] * n[1] for p in (beam.start, beam.end)]
        line = Line.between(beam.start, beam.end)
        if abs(line.u[0] * u[0] + line.u[1] * u[1]) > 0.1:
            continue
        reach = parse_section(field.section).b / 2 + _NEAR
        if all(any(abs(t - place) <= reach for place in joist_positions(field)) for t in across):
            return field.mark
    return ""


def _beside(project: Project, line: Line, on: str) -> str:
    """A post beside a beam's line, or empty."""
    for support in project.supports:
        if (
            support.kind == SupportKind.POST
            and CLOSE < line.distance(support.at) <= _BESIDE
            and support.mark not in on.split()
        ):
            return support.mark
    return ""


def idle_support(support: Support, lines: Mapping[str, Line]) -> LayoutError:
    """A support that no beam passes over."""
    nearest = min(lines, key=lambda mark: lines[mark].distance(support.at))
    off = lines[nearest].distance(support.at)
    what = "move it under a beam or leave it out"
    if support.kind == SupportKind.POST and off <= _BESIDE:
        what = (
            "move it under a beam: that beam's line runs over the middle of its post. Two beams bolted to the sides "
            "of a post that goes on up are written as one beam of two plies on a post that ends under it"
        )
    return LayoutError(
        f"Support {support.mark} carries nothing: no beam passes over it (the nearest, {nearest}, is "
        f"{feet_inches(off)} away); {what}."
    )
