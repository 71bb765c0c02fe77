"""A short course made from the platform that is open: predict first, then see, with the statics of one's own guess.

Each question is made from the solved model, so that it fits any platform; one that would make no sense for it is
left out with the reason. The right answers come from the solver, never from a table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from bolewright.rendering.blocks import Block, Figure
from bolewright.rendering.numbers import fmt
from bolewright.units import NONE, ReadError, Unit, read

Answer = str | float
WEIGHT = 180.0  # lb, of one person in the questions


class AnswerKind(Enum):
    """How a question is answered."""

    CHOICE = "choice"
    NUMBER = "number"


@dataclass(frozen=True)
class Wrong:
    """A wrong answer that many give: why it tempts and what it leaves out."""

    answer: Answer
    why: str


@dataclass(frozen=True)
class Question:
    """One question.

    ``right`` are the answers that count as right (for a number: the one, within ``tolerance``); ``says`` the
    answer in a sentence; ``worked`` the solver's answer line by line, ``for_guess`` the statics of any guess.
    ``picture`` stands beside the question, ``sketch`` is the free body shown with the answer.
    """

    key: str
    title: str
    text: str
    kind: AnswerKind
    choices: tuple[str, ...]
    right: tuple[Answer, ...]
    says: str
    wrong: tuple[Wrong, ...]
    worked: Callable[[], tuple[Block, ...]]
    for_guess: Callable[[Answer], tuple[Block, ...]]
    units_line: str
    neglected: str
    picture: Callable[[], Figure]
    sketch: Callable[[], Figure]
    unit: Unit = NONE
    tolerance: float = 0.0

    def is_right(self, guess: Answer) -> bool:
        """Whether a guess counts as right."""
        if isinstance(guess, str):
            return guess in self.right
        return abs(guess - float(self.right[0])) <= self.tolerance

    def read(self, text: str) -> Answer:
        """The guess that a learner typed or chose; ValueError says in a sentence what is wanted."""
        if self.kind is AnswerKind.CHOICE:
            if text not in self.choices:
                raise ReadError(f"{text!r} is not one of: {', '.join(self.choices)}")
            return text
        return read(_with_unit(text, self.unit), self.unit)

    def tempting(self, guess: Answer) -> Wrong | None:
        """The wrong answer of the bank that a guess is, if it is one."""
        if isinstance(guess, str):
            return next((w for w in self.wrong if w.answer == guess), None)
        near = [w for w in self.wrong if not isinstance(w.answer, str)]
        found = min(near, key=lambda w: abs(float(w.answer) - guess), default=None)
        return found if found and abs(float(found.answer) - guess) <= self.tolerance else None


def _with_unit(text: str, unit: Unit) -> str:
    """A bare number means the unit that the question names beside the field."""
    clean = text.strip()
    bare = clean.replace(",", "").replace(".", "", 1).lstrip("-").isdigit()
    return f"{clean.replace(',', '')} {unit.label}".strip() if bare else clean


@dataclass(frozen=True)
class Feedback:
    """What a learner sees after a guess."""

    right: bool
    verdict: str
    why: str
    own: tuple[Block, ...]
    worked: tuple[Block, ...]
    units_line: str
    neglected: str
    sketch: Figure


def feedback(question: Question, guess: Answer) -> Feedback:
    """Feedback on a guess: verdict, why it tempts, its own statics, and the solver's answer worked out."""
    right = question.is_right(guess)
    tempting = None if right else question.tempting(guess)
    verdict = f"Right: {question.says}" if right else f"Not {_named(guess, question)}. {question.says}"
    return Feedback(
        right=right,
        verdict=verdict,
        why=tempting.why if tempting else "",
        own=question.for_guess(guess),
        worked=question.worked(),
        units_line=question.units_line,
        neglected=question.neglected,
        sketch=question.sketch(),
    )


def _named(guess: Answer, question: Question) -> str:
    """A guess in a sentence; one of several words stands in quotation marks."""
    if isinstance(guess, str):
        return f"“{guess}”" if guess.islower() else guess
    return fmt(guess, question.unit)


class NoQuestion(ValueError):
    """A question makes no sense for this platform; the message is the reason."""
