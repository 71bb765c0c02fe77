"""The course of eight questions for a platform; what does not fit it is left out with the reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from bolewright.platform.results.results import Results
from bolewright.workbook import (
    questions_members,
    questions_places,
    questions_sections,
    questions_supports,
    questions_tree,
)
from bolewright.workbook.questions import WEIGHT, NoQuestion, Question
from bolewright.workbook.questions_ground import Ground

MAKERS: tuple[tuple[str, Callable[[Ground], Question]], ...] = (
    ("Which support takes most?", questions_supports.takes_most),
    ("The overhang", questions_supports.overhang),
    ("Unloading a support", questions_places.unloads),
    ("How much goes to the tree?", questions_tree.to_the_tree),
    ("Which joist is worst off?", questions_members.worst_joist),
    ("Twice the spacing", questions_members.twice_the_spacing),
    ("Deeper or thicker?", questions_sections.deeper_or_thicker),
    ("Which loads together?", questions_members.governing_case),
)


@dataclass(frozen=True)
class Skipped:
    """A question that makes no sense for this platform, with the reason."""

    title: str
    reason: str


@dataclass(frozen=True)
class Course:
    """The questions made for one platform, and those left out."""

    questions: tuple[Question, ...]
    skipped: tuple[Skipped, ...]


def course(results: Results) -> Course:
    """The questions that make sense for a platform, in order."""
    ground = Ground(results, WEIGHT)
    made: list[Question] = []
    left: list[Skipped] = []
    for title, maker in MAKERS:
        try:
            made.append(maker(ground))
        except NoQuestion as reason:
            left.append(Skipped(title, str(reason)))
    return Course(tuple(made), tuple(left))
