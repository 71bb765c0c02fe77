"""Where one must stand to unload a support."""

from __future__ import annotations

import math

from bolewright.platform.layout.lines import Vector
from bolewright.platform.tracing.tracing import Person, Trace
from bolewright.platform.tracing.tracing_path import pounds
from bolewright.rendering.blocks import Block, Figure, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.workbook.explorer_plan import lettered_plan
from bolewright.workbook.questions import Answer, AnswerKind, NoQuestion, Question, Wrong
from bolewright.workbook.questions_ground import Axis, Ground, at_words, balance_blocks, side_view
from bolewright.workbook.questions_supports import NEGLECTED, reaction_table, route_blocks


def unloads(ground: Ground) -> Question:
    """Where one must stand to unload a support, out of four places."""
    if len(ground.marks) < 2:
        raise NoQuestion("There is only one support.")
    mark = (ground.bolts() or ground.marks)[0]
    letters = _four_places(ground, mark)
    traces = {letter: ground.tracer.trace(Person(place, ground.weight)) for letter, place in letters.items()}
    force = {letter: trace.reactions[mark] for letter, trace in traces.items()}
    best = min(force, key=lambda letter: force[letter])
    near = min(letters, key=lambda letter: math.dist(letters[letter], ground.places[mark]))
    farthest = max(letters, key=lambda letter: math.dist(letters[letter], ground.places[mark]))

    def does(letter: str) -> str:
        size = pounds(force[letter])
        return f"lifts {mark} by {size}" if force[letter] < -0.5 else f"puts {size} on {mark}"

    says = f"At {best} a person of {ground.weight:g} lb {does(best)}."

    def wrong(letter: str) -> Wrong:
        if letter == near:
            why = f"{letter} is nearest to {mark}; as a rule the nearer, the more."
        elif letter == farthest:
            why = f"{letter} is farthest from {mark}, which tempts; but the lever counts along the members."
        else:
            why = f"{letter} looks well away from {mark}; follow its joist and beams to see what comes there."
        puts = (
            f"puts {pounds(force[letter])} on it"
            if force[letter] > -0.5
            else f"lifts it by {pounds(force[letter])}"
        )
        return Wrong(letter, f"{why} It {puts}; {best} does better.")

    def for_guess(guess: Answer) -> tuple[Block, ...]:
        letter = str(guess)
        rows = tuple(
            (k, at_words(letters[k]), digits(force[k]) if abs(force[k]) > 1e-4 else "0") for k in letters
        )
        caption = f"One person of {ground.weight:g} lb: what {mark} gets"
        table = Table(("place", "where", f"{mark} takes (lb)"), rows, caption, "llr")
        route = route_blocks(ground, traces[letter], mark)
        if not route:
            said = f"From {letter} nothing comes to {mark}; the others hold all of it:"
            return (Statement(StatementKind.READING, (said,)), *_balance(ground, traces[letter], mark), table)
        said = f"From {letter} to {mark}, line by line:"
        return (Statement(StatementKind.READING, (said,)), *route, table)

    return Question(
        key="unloads",
        title=f"Unloading {mark}",
        text=f"Where must one stand so that {mark} carries least: at A, B, C or D on the plan?",
        kind=AnswerKind.CHOICE,
        choices=tuple(letters),
        right=(best,),
        says=says,
        wrong=tuple(wrong(letter) for letter in letters if letter != best),
        worked=lambda: (
            route_blocks(ground, traces[best], mark) or (reaction_table(traces[best], f"At {best}"),)
        ),
        for_guess=for_guess,
        units_line="Units: a share is lb on the support per lb of person, a plain number; negative lifts.",
        neglected=NEGLECTED,
        picture=lambda: lettered_plan(ground.results.path.layout, letters),
        sketch=lambda: _lever_view(ground, traces[best], mark),
    )


def _lever(ground: Ground, trace: Trace, mark: str) -> Axis:
    """Axis through the support that takes most, square to the line from it to another."""
    most = max(trace.reactions, key=lambda m: trace.reactions[m])
    return Axis.through(
        most, mark if mark != most else next(m for m in ground.marks if m != mark), ground.places
    )


def _balance(ground: Ground, trace: Trace, mark: str) -> tuple[Block, ...]:
    axis = _lever(ground, trace, mark)
    caption = f"Moments about {axis.name}"
    held = trace.reactions | ground.couple(trace)
    return balance_blocks(axis, trace.total, trace.pieces.centre, held, ground.places, caption)


def _lever_view(ground: Ground, trace: Trace, mark: str) -> Figure:
    axis = _lever(ground, trace, mark)
    title = f"Moments about {axis.name}"
    return side_view(axis, trace.total, trace.pieces.centre, trace.reactions, ground.places, title)


def _four_places(ground: Ground, mark: str) -> dict[str, Vector]:
    """Four places in a fixed order: where the support gets least, most, and two between, all clearly apart."""
    path = ground.results.path
    spots = [ground.spot(i) for i in range(len(path.spots))]
    traces = [ground.tracer.trace(Person(place, ground.weight)) for place in spots]
    shares = [(trace.share(mark), place) for trace, place in zip(traces, spots, strict=True)]
    least, most = min(shares), max(shares)
    if most[0] - least[0] < 0.2:
        raise NoQuestion(f"{mark} gets nearly the same from everywhere on this deck.")
    far = max(shares, key=lambda s: math.dist(s[1], ground.places[mark]) if s[0] > least[0] + 0.04 else 0.0)
    wanted = (least[0] + most[0]) / 2
    between = min(shares, key=lambda s: abs(s[0] - wanted) + (9.0 if s[1] in (far[1], most[1]) else 0.0))
    chosen = {least[1], most[1], far[1], between[1]}
    if len(chosen) < 4:
        raise NoQuestion(f"There are no four places that tell {mark} apart.")
    return dict(zip("ABCD", sorted(chosen), strict=True))
