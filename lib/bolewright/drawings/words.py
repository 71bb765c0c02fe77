"""Words on the drawings: titles, lists of marks, sizes of the parts."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Sequence

from bolewright.drawings.measures import Measures
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.layout import Layout
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering.drawing import Drawing, Item

_LINE = 60  # characters in a line of the heading: it fits in wide fonts too


def titled(
    results: Results,
    title: str,
    items: Sequence[Item],
    alt: str,
    notes: Sequence[str] = (),
    *,
    north: float | None = None,
    bare: bool = False,
) -> Drawing:
    """Drawing with its title, the project's name, revision and date, and notes on it; ``bare`` leaves them out."""
    about = results.project.title
    revision = f"revision {about.revision}" if about.revision else ""
    block = ", ".join(part for part in (about.project, revision, about.date.isoformat()) if part)
    lines = [line for note in notes for line in textwrap.wrap(note, _LINE)]
    heading = () if bare else (title, block, *lines)
    return Drawing(title, tuple(items), alt, north=north, heading=heading)


def listed(marks: Iterable[str]) -> str:
    """Marks in words, runs of numbers shortened.

    >>> listed(["J1", "J2", "J3", "S1", "C1", "C2"])
    'J1 to J3, S1, C1, C2'
    """
    runs: list[list[str]] = []
    for mark in marks:
        if runs and _next(runs[-1][-1]) == mark:
            runs[-1].append(mark)
        else:
            runs.append([mark])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)


def _next(mark: str) -> str:
    found = re.fullmatch(r"(.*?)(\d+)", mark)
    return f"{found[1]}{int(found[2]) + 1}" if found else ""


def sizes(layout: Layout, measures: Measures) -> list[str]:
    """Sizes of all parts in a few lines: joists by field, beams, posts and bolts by kind."""
    project = layout.project
    parts = []
    for field in project.joists:
        marks = listed(m.mark for m in layout.joists if m.field == field.mark)
        parts.append(f"{marks}: {field.section} at {measures.words(field.spacing)}")
    pieces: dict[str, list[str]] = {}
    for entry in project.blocking:
        own = [m.mark for m in layout.blocking if entry_of(m).mark == entry.mark]
        pieces.setdefault(f"{entry.section} {entry.kind}", []).extend(own)
    parts += [f"{listed(marks)}: {kind}" for kind, marks in pieces.items()]
    by_size: dict[str, list[str]] = {}
    for member in sorted(layout.beams, key=lambda m: m.mark):
        by_size.setdefault(member.section.name, []).append(member.mark)
    parts += [f"{listed(marks)}: {size}" for size, marks in by_size.items()]
    kinds: dict[str, list[str]] = {}
    for support in layout.supports:
        if support.kind == SupportKind.POST:
            kinds.setdefault(f"post {project.posts[support.post or ''].section}", []).append(support.mark)
        elif support.kind == SupportKind.KNEE_BRACE:
            strut = project.struts[support.strut or ""].section
            kinds.setdefault(f"{strut} knee brace from the trunk", []).append(support.mark)
        else:
            diameter = measures.words(project.bolts[support.bolt or ""].diameter)
            kinds.setdefault(f"tree bolt, {diameter} thick", []).append(support.mark)
    parts += [f"{listed(marks)}: {kind}" for kind, marks in kinds.items()]
    knees: dict[str, list[str]] = {}
    for brace in project.braces:
        plies = f"({brace.plies}) " if brace.plies > 1 else ""
        knees.setdefault(f"{plies}{brace.section} knee brace", []).append(brace.mark)
    parts += [f"{listed(marks)}: {kind}" for kind, marks in knees.items()]
    rods: dict[str, list[str]] = {}
    for pair in project.crossed_rods:
        rods.setdefault(f"crossed rods, {measures.words(pair.diameter)} thick", []).append(pair.mark)
    parts += [f"{listed(marks)}: {kind}" for kind, marks in rods.items()]
    if project.diagonals:
        parts.append(f"{listed(d.mark for d in project.diagonals)}: strap under the joists")
    return ["; ".join(parts) + "."]
