"""What is from memory or judgement, as one list: where it counts most, and what a tenth of it does there."""

from __future__ import annotations

import math
import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import islice

from bolewright.platform.checks.guard_common import CASE as GUARD_CASE
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Timber
from bolewright.platform.results.results import Results
from bolewright.reference import CONFIDENCE
from bolewright.rendering import numbers
from bolewright.rendering.blocks import Cell, Table
from bolewright.sheets.brief.sensitivity import with_a_tenth, with_inputs
from bolewright.sheets.places import derivation_place
from bolewright.status import Status
from bolewright.timber.adjustment import LoadDuration, load_duration_factor
from bolewright.timber.sections import parse_section

_DOUBT = re.compile(r"from memory|judgement|engineer to confirm|extrapolated|uncertain")
_SYMBOL = re.compile(r"\b[A-Za-z]+(?:_[A-Za-z]+)+\b")
_VALUES = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")
BOX = "☐"
_TRIED = 3  # checks in which the effect of a tenth is told, the worst first


@dataclass(frozen=True)
class Doubt:
    """A value or formula that is from memory or judgement, the checks that use it, and what a tenth of it means."""

    what: str
    checks: tuple[Check, ...]
    formulas: frozenset[str] = frozenset()
    inputs: frozenset[str] = frozenset()

    def effect(self) -> tuple[Check, float | None]:
        """The check it counts most in, with the ratio that a tenth of it makes; None where that can't be told."""
        worst_first = sorted(self.checks, key=lambda check: -check.severity)
        tried = ((check, with_a_tenth(check, self.formulas, self.inputs)) for check in worst_first)
        told = list(islice(((check, ratio) for check, ratio in tried if ratio is not None), _TRIED))
        return max(told, key=lambda pair: pair[1]) if told else (worst_first[0], None)


def memory_table(results: Results) -> Table:
    """Every such value with a box and room for initials; first what brings a check nearest to its limit."""
    found = [(doubt, *doubt.effect()) for doubt in doubts(results)]
    found.sort(key=lambda x: -(x[2] if x[2] is not None else x[1].severity - 10))
    rows = []
    for doubt, check, ratio in found:
        told = (
            "not by its formulas alone" if ratio is None else f"{check.shown_ratio} to {numbers.ratio(ratio)}"
        )
        rows.append(
            (
                doubt.what,
                f"{check.part}: {check.limit_state}",
                told,
                Cell("", to=derivation_place(check)),
                BOX,
                "",
            )
        )
    columns = ("from memory or judgement", "counts most in", "ratio, if 10 % off", "page", "seen", "initials")
    caption = "To be confirmed against the printed document, or decided by the engineer"
    return Table(columns, tuple(rows), caption, "llllcl", (4, 2, 0, 0, 0, 0))


def doubts(results: Results) -> list[Doubt]:
    """Formulas and remarks of all checks, then the reference values of the timber."""
    used = [c for c in results.governing if c.status is not Status.NOT_CHECKED]
    by_formula: dict[str, tuple[str, list[Check]]] = {}
    by_remark: dict[str, list[Check]] = {}
    for check in used:
        for step in check.steps:
            if _DOUBT.search(step.formula.confidence):
                words = f"{step.formula.title}: {step.formula.confidence}"
                checks = by_formula.setdefault(step.formula.name, (words, []))[1]
                if check not in checks[-1:]:
                    checks.append(check)
        own = {note for step in check.steps for note in step.notes}
        for note in check.notes:
            if note not in own and _DOUBT.search(note):
                by_remark.setdefault(note.rstrip("."), []).append(check)
        if check.asks_nothing and _DOUBT.search(check.sentence):
            by_remark.setdefault(_reason(check), []).append(check)
    found = [Doubt(words, tuple(checks), frozenset({name})) for name, (words, checks) in by_formula.items()]
    found += [
        Doubt(_sentence(note), tuple(checks), inputs=frozenset(_SYMBOL.findall(note)))
        for note, checks in by_remark.items()
    ]
    return [*_guard_duration(used), *found, *_timber(results, used)]


def _guard_duration(used: list[Check]) -> Iterator[Doubt]:
    """C_D of the load on a guard, which no clause gives, with what the worst check comes to at C_D 1.0."""
    factor = load_duration_factor(LoadDuration.TEN_MINUTES)
    checks = [
        check
        for check in used
        if GUARD_CASE in check.combination
        and any(step.arguments.get("C_D") == factor for step in check.steps)
    ]
    at_one = [(check, with_inputs(check, {"C_D"}, 1.0 / factor)) for check in checks]
    told = [(check, ratio) for check, ratio in at_one if ratio is not None]
    if not told:
        return
    worst, ratio = max(told, key=lambda pair: pair[1])
    words = (
        f"C_D {factor:g} for the load on a guard, alone and beside D + L: common practice, no clause; at C_D 1.0 "
        f"{worst.limit_state} of {worst.part} comes to {numbers.ratio(ratio)}"
    )
    over = sum(ratio > 1.0 for _, ratio in told)
    if over:
        words += f", and {over} governing {'check' if over == 1 else 'checks'} to more than 1.0"
    yield Doubt(words, tuple(check for check, _ in told), inputs=frozenset({"C_D"}))


def _reason(check: Check) -> str:
    """Why nothing is asked, of all parts alike: what stands behind the colon of the sentence."""
    return f"Nothing asked: {check.sentence.split(': ', 1)[-1].rstrip('.')}"


def _sentence(note: str) -> str:
    """Of a long remark the sentences that say what is from memory or judgement."""
    said = [part for part in re.split(r"(?<=[a-z)])\. (?=[A-Z])", note) if _DOUBT.search(part)]
    return ". ".join(said)


def _timber(results: Results, used: list[Check]) -> Iterator[Doubt]:
    """Reference values of every species and grade that are from memory."""
    parts: dict[str, set[str]] = {}
    for timber, marks in _pieces(results):
        values = timber.values(parse_section(timber.section))
        if values.confidence.startswith("M"):
            said = f"{values.source}; {CONFIDENCE[values.confidence]}"
            words = f"Reference values of {values.species} {values.grade}: {said}"
            parts.setdefault(words, set()).update(marks)
    for words, marks in parts.items():
        checks = [c for c in used if c.part in marks and _takes(c, _VALUES)]
        if checks:
            yield Doubt(words, tuple(checks), inputs=frozenset(_VALUES))


def _takes(check: Check, names: Collection[str]) -> bool:
    return not math.isnan(check.ratio) and any(set(names) & set(step.arguments) for step in check.steps)


def _pieces(results: Results) -> Iterator[tuple[Timber, set[str]]]:
    project, layout = results.project, results.path.layout
    if project.decking.span_limit is None:
        yield project.decking, {"decking"}
    for field in project.joists:
        yield field, {m.mark for m in layout.joists if m.field == field.mark}
    for beam in project.beams:
        yield beam, {beam.mark}
    for brace in project.braces:
        yield brace, {brace.mark}
    for name, post in project.posts.items():
        yield post, {s.mark for s in layout.supports if s.post == name}
