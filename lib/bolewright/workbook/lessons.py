"""Lesson mode: predict first, then see, with the statics of one's own guess."""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as w

from bolewright.platform.results.results import Results
from bolewright.sheets.opening import results_of
from bolewright.units import ReadError
from bolewright.workbook.explorer import shown_widget, with_style
from bolewright.workbook.html import html_of
from bolewright.workbook.questions import Answer, AnswerKind, Feedback, Question, feedback
from bolewright.workbook.questions_course import Course, course


class Lessons:
    """A course of questions over one platform; :meth:`update` makes it anew for another."""

    def __init__(self, results: Results) -> None:
        self.results = results
        self.course: Course | None = None
        self.number = 0
        self.answers: dict[str, Feedback] = {}
        self.guesses: dict[str, str] = {}
        self.head = w.HTML()
        self.place = w.VBox()
        self.choice = w.RadioButtons(description="Your prediction")
        self.typed = w.Text(description="Your prediction", continuous_update=False)
        self.wrong = w.HTML()
        self.answer = w.Button(description="See whether it holds")
        self.answer.add_class("bw-main")
        self.seen = w.HTML()
        self.seen.add_class("bw-page")
        self.back = w.Button(description="Question before")
        self.next = w.Button(description="Next question")
        self.foot = w.HTML()
        self.on_turn: Callable[[], None] = lambda: None
        """Called when a question is shown or answered."""
        self.answer.on_click(lambda _: self._answered())
        self.back.on_click(lambda _: self._go(-1))
        self.next.on_click(lambda _: self._go(1))
        turning = w.HBox([self.back, self.next])
        turning.add_class("bw-bar")
        self.box = w.VBox([self.head, self.place, self.wrong, self.answer, self.seen, turning, self.foot])
        self.box.add_class("bw-lessons")

    def show(self) -> None:
        """Make the course, if it is not made yet, and show the question."""
        if self.course is None:
            self.head.value = '<p role="status">Making the questions from this platform …</p>'
            self.course = course(self.results)
            self.number = 0
            self._show()

    def update(self, results: Results) -> None:
        """Another platform: another course, answers forgotten; nothing when the results are the same."""
        if results is self.results:
            return
        self.results, self.course = results, None
        self.answers.clear()
        self.guesses.clear()

    @property
    def question(self) -> Question | None:
        """The question that is shown."""
        return self.course.questions[self.number] if self.course and self.course.questions else None

    @property
    def is_asking(self) -> bool:
        """Whether the question that is shown has no prediction yet."""
        return self.question is not None and self.question.key not in self.answers

    def _go(self, by: int) -> None:
        if self.course is not None:
            self.number = min(max(self.number + by, 0), len(self.course.questions) - 1)
            self._show()

    def _answered(self) -> None:
        question = self.question
        if question is None:
            return
        text = self.choice.value if question.kind is AnswerKind.CHOICE else self.typed.value
        self.guesses[question.key] = text or ""
        self.predict(text or "")

    def predict(self, text: str) -> None:
        """Take a prediction as typed or chosen, and show whether it holds."""
        question = self.question
        if question is None:
            return
        try:
            guess: Answer = question.read(text)
        except ReadError as error:
            words = f"{error}." if text else "Predict first: choose or type an answer."
            self.wrong.value = f'<p class="bw-wrong" role="alert">{escape(words)}</p>'
            return
        self.wrong.value = ""
        self.answers[question.key] = feedback(question, guess)
        self.guesses[question.key] = text
        self._show_answer()

    # -- what is shown -------------------------------------------------------------------------------------

    def _show(self) -> None:
        assert self.course is not None
        self.wrong.value = ""
        question = self.question
        if question is None:
            self.head.value = "<p>No question can be made from this platform.</p>"
            self.place.children, self.answer.disabled = (), True
            self._show_foot()
            return
        count = len(self.course.questions)
        self.head.value = (
            f"<h2>Question {self.number + 1} of {count}: {escape(question.title)}</h2>"
            f"<p>{escape(question.text)}</p>{html_of([question.picture()])}"
        )
        guess = self.guesses.get(question.key, "")
        if question.kind is AnswerKind.CHOICE:
            self.choice.options = question.choices
            self.choice.value = guess or None
            self.place.children = (self.choice,)
        else:
            unit = f" ({question.unit.label})" if question.unit.label else ""
            self.typed.description = f"Your prediction{unit}"
            self.typed.value = guess
            self.place.children = (self.typed,)
        self.answer.disabled = False
        self.back.disabled, self.next.disabled = self.number == 0, self.number == count - 1
        self._show_answer()

    def _show_answer(self) -> None:
        question = self.question
        found = self.answers.get(question.key) if question else None
        self.seen.value = "" if found is None or question is None else answer_html(question, found)
        self._show_foot()

    def _show_foot(self) -> None:
        self.on_turn()
        assert self.course is not None
        right = sum(found.right for found in self.answers.values())
        said = f"{len(self.answers)} of {len(self.course.questions)} predicted, {right} of them right."
        skipped = "".join(
            f"<li>{escape(item.title)} {escape(item.reason)}</li>" for item in self.course.skipped
        )
        left = f"<p>Left out for this platform:</p><ul>{skipped}</ul>" if skipped else ""
        self.foot.value = f'<p class="bw-help">{said}</p><div class="bw-help">{left}</div>'

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, Any]:
        return shown_widget(self.box, "The lessons, to be used with the notebook open and running.")


def answer_html(question: Question, found: Feedback) -> str:
    """What a learner sees after a prediction."""
    mark, kind = ("✓", "bw-passes") if found.right else ("✗", "bw-fails")
    why = f"<p>{escape(found.why)}</p>" if found.why else ""
    return (
        f'<p class="{kind}" role="status"><strong><span aria-hidden="true">{mark}</span> '
        f"{escape(found.verdict)}</strong></p>{why}<h3>Your prediction, line by line</h3>{html_of(found.own)}"
        f"<h3>Drawn by itself</h3>{html_of([found.sketch])}"
        f"<h3>The answer, line by line</h3>{html_of(found.worked)}"
        f'<p class="bw-note">{escape(found.units_line)}</p><p class="bw-note">{escape(found.neglected)}</p>'
    )


def open_lessons(project: str | Path) -> Lessons:
    """The lessons for a project file, with the style they need in a notebook."""
    lessons = Lessons(results_of(project))
    lessons.show()
    lessons.box = with_style(lessons.box)
    return lessons
