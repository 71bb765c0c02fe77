"""Plausibility of a whole project: sizes and counts beyond any platform that these sheets are for.

Each limit is wide, and a matter of common practice; what lies past it is a slip of the pen, or a job for an engineer
from the start.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from shapely import Polygon

from bolewright.platform.project import Project
from bolewright.timber.sections import SectionError, parse_section
from bolewright.units import feet_inches

Location = tuple[str | int, ...]

LONGEST_BEAM = 720.0  # in: 60 ft
MOST_JOISTS = 400  # in all fields
LARGEST_DECK = 4000.0  # sq ft
MOST_OF_A_KIND = {
    "tree": 12,
    "support": 60,
    "beam": 60,
    "joists": 12,
    "blocking": 30,
    "brace": 60,
    "diagonal": 60,
    "crossed_rods": 60,
}


def implausible(project: Project) -> Iterator[tuple[Location, str]]:
    """Where a project is beyond what is plausible, and what is allowed."""
    yield from _counts(project)
    yield from _sizes(project)
    yield from _joist_marks(project)
    yield from _plies(project)


def _counts(project: Project) -> Iterator[tuple[Location, str]]:
    parts = {
        "tree": project.trees,
        "support": project.supports,
        "beam": project.beams,
        "joists": project.joists,
        "blocking": project.blocking,
        "brace": project.braces,
        "diagonal": project.diagonals,
        "crossed_rods": project.crossed_rods,
    }
    for kind, most in MOST_OF_A_KIND.items():
        if len(parts[kind]) > most:
            yield (
                (kind, most),
                f"there are {len(parts[kind])} entries of this kind; at most {most} are allowed.",
            )
    total = 0
    for index, field in enumerate(project.joists):
        count = math.floor(max(0.0, field.last - field.first) / field.spacing) + 1
        total += count
        if total > MOST_JOISTS:
            yield (
                ("joists", index, "spacing"),
                f"{field.mark} from {feet_inches(field.first)} to {feet_inches(field.last)} at "
                f"{feet_inches(field.spacing)} makes {count} joists; at most {MOST_JOISTS} are allowed in all fields.",
            )
            return


def _sizes(project: Project) -> Iterator[tuple[Location, str]]:
    deck = Polygon(project.platform.outline)
    area = deck.area / 144
    if area > LARGEST_DECK:
        yield (
            ("platform", "outline"),
            f"the platform measures {area:,.0f} sq ft; the most allowed is {LARGEST_DECK:,.0f} sq ft.",
        )
    for index, beam in enumerate(project.beams):
        length = math.dist(beam.start, beam.end)
        if length > LONGEST_BEAM:
            yield (
                ("beam", index, "to"),
                f"{beam.mark} is {feet_inches(length)} long; the most allowed is {feet_inches(LONGEST_BEAM)}.",
            )


def _joist_marks(project: Project) -> Iterator[tuple[Location, str]]:
    """Marks that joists and blocking will get: those of field J are J1, J2 and so on."""
    letters_of = [*(field.mark for field in project.joists), *(entry.mark for entry in project.blocking)]
    fields = "|".join(map(re.escape, letters_of))
    marks: dict[str, list[str]] = {
        "tree": [part.mark for part in project.trees],
        "support": [part.mark for part in project.supports],
        "beam": [part.mark for part in project.beams],
        "brace": [part.mark for part in project.braces],
        "diagonal": [part.mark for part in project.diagonals],
        "crossed_rods": [part.mark for part in project.crossed_rods],
    }
    for kind, found in marks.items():
        for index, mark in enumerate(found):
            if re.fullmatch(rf"(?:{fields})\d+", mark):
                letters = mark.rstrip("0123456789")
                what = "joist of field" if letters in {f.mark for f in project.joists} else "piece of"
                yield (
                    (kind, index, "mark"),
                    f"{mark!r} is a mark that a {what} {letters!r} gets; name one of them otherwise.",
                )


def _plies(project: Project) -> Iterator[tuple[Location, str]]:
    """Sections that name plies where the file has another word for it, or none."""
    for index, beam in enumerate(project.beams):
        plies = _plies_in(beam.section)
        if plies > 1:
            yield (
                ("beam", index, "section"),
                f"{beam.section!r} names plies; give the section of one ply, and plies = {plies}.",
            )
    for name, post in project.posts.items():
        if _plies_in(post.section) > 1:
            yield (
                ("post", name, "section"),
                f"{post.section!r} names plies; a post is one piece here, such as 6x6.",
            )


def _plies_in(section: str) -> int:
    try:
        return parse_section(section).plies
    except SectionError:
        return 1  # said elsewhere
