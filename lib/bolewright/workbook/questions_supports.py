"""Questions about the supports: who takes most, what an overhang lifts, what goes to the tree."""

from __future__ import annotations

import math

import numpy as np

from bolewright.calculation import Calculation
from bolewright.mechanics.lever import still_held_down
from bolewright.platform.layout.lines import Vector
from bolewright.platform.tracing.tracing import Person, Trace
from bolewright.platform.tracing.tracing_path import path_steps, pounds
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.printing import printed
from bolewright.workbook.explorer_plan import lettered_plan
from bolewright.workbook.questions import Answer, AnswerKind, NoQuestion, Question, Wrong
from bolewright.workbook.questions_ground import Axis, Ground, at_words, balance_blocks, left_over, side_view

NEGLECTED = (
    "Neglected: the platform's own weight, the live load and snow (they are there whether you are or not), and how "
    "much supports give way."
)
_CLEAR = 0.08  # share by which the first must be ahead of the second


def reaction_table(trace: Trace, caption: str) -> Table:
    """Reactions of a burden, largest first."""
    ordered = sorted(trace.reactions.items(), key=lambda item: -item[1])
    rows = tuple(
        (mark, digits(force) if abs(force) > 1e-4 else "0", f"{trace.share(mark):.0%}")
        for mark, force in ordered
    )
    return Table(("support", "takes (lb)", "share"), rows, caption, "lrr")


def route_blocks(ground: Ground, trace: Trace, mark: str) -> tuple[Block, ...]:
    """The equations of the members that bring a support its share, from the boards down."""
    wanted = {mark}
    chosen = []
    for step in reversed(path_steps(ground.results.path, trace)):
        if step.part in wanted or wanted & set(step.hands_to):
            wanted.add(step.part)
            chosen.append(step)
    blocks: list[Block] = []
    for step in reversed(chosen):
        blocks += [Statement(StatementKind.READING, (step.sentence,)), *printed(step.steps)]
    return tuple(blocks)


# ---------------------------------------------------------------------------------------------------------


def takes_most(ground: Ground) -> Question:
    """Which support takes most of one person at a place where the nearest is not the answer, if there is one."""
    if len(ground.marks) < 2:
        raise NoQuestion("There is only one support.")
    if len(ground.marks) > 12:
        raise NoQuestion("There are too many supports to choose from.")
    trace = _telling(ground)
    at, W = trace.pieces.centre, trace.total
    ordered = sorted(trace.reactions, key=lambda m: -trace.reactions[m])
    best = ordered[0]
    nearest = min(ground.marks, key=lambda m: math.dist(ground.places[m], at))
    heaviest = max(ground.marks, key=ground.dead)

    def wrong(mark: str) -> Wrong:
        if mark == nearest:
            why = (
                f"{mark} is the nearest to you, and often the nearest does take most. But weight goes along boards, "
                "joists and beams, not straight across: what counts is the lever on each of them."
            )
        elif mark in ground.bolts() and best not in ground.bolts():
            why = f"A tree is the strongest thing here, but strength does not draw weight to {mark}; the lever does."
        elif mark == heaviest:
            why = f"{mark} does carry most of the platform's own weight, but that says nothing about yours."
        else:
            why = "Follow the joist to its beams, and each beam to its ends."
        return Wrong(mark, f"{why} It gets {trace.share(mark):.0%}.")

    def for_guess(guess: Answer) -> tuple[Block, ...]:
        mark = str(guess)
        if mark == best:
            axis = Axis.through(ordered[1], best, ground.places)
            held, said = (
                trace.reactions | ground.couple(trace),
                f"With {pounds(trace.reactions[best])} on {best} the moments balance.",
            )
        else:
            axis = Axis.through(best, mark, ground.places)
            held = trace.reactions | ground.couple(trace)
            held |= {mark: trace.reactions[best], best: trace.reactions[mark]}
            out = left_over(axis, W, at, held, ground.places)
            said = (
                f"To take most, {mark} would need {pounds(held[mark])}, as {best} has now. Give {best} what {mark} "
                f"has instead: moments about {axis.name} would be out by {abs(out):,.0f} lb·in: the deck would tip."
            )
        caption = f"Moments about {axis.name}" + ("" if mark == best else f", if {mark} took most")
        blocks = balance_blocks(axis, W, at, held, ground.places, caption)
        return (Statement(StatementKind.READING, (said,)), *blocks)

    axis = Axis.through(best, ordered[1], ground.places)
    return Question(
        key="takes-most",
        title="Which support takes most?",
        text=f"One person of {W:g} lb stands at {at_words(at)} (marked on the plan). Which support takes most of it?",
        kind=AnswerKind.CHOICE,
        choices=ground.marks,
        right=(best,),
        says=f"{best} takes {pounds(trace.reactions[best])} of the {pounds(W)}, {trace.share(best):.0%}.",
        wrong=tuple(wrong(mark) for mark in ground.marks if mark != best),
        worked=lambda: (reaction_table(trace, "What the solver finds"), *route_blocks(ground, trace, best)),
        for_guess=for_guess,
        units_line="Units: lb × in ÷ in = lb; a reaction is a force.",
        neglected=NEGLECTED,
        picture=lambda: lettered_plan(ground.results.path.layout, {"you": at}),
        sketch=lambda: side_view(
            axis, W, at, trace.reactions, ground.places, f"Seen square to {best} to {ordered[1]}"
        ),
    )


def _telling(ground: Ground) -> Trace:
    """The place where the answer is clear, and where the nearest support is a tempting wrong one."""
    found: tuple[float, Trace] | None = None
    for trace in ground.tried:
        first, second, *_ = sorted(trace.reactions.values(), reverse=True)
        margin = (first - second) / trace.total
        if margin < _CLEAR:
            continue
        best = max(trace.reactions, key=lambda m: trace.reactions[m])
        nearest = min(ground.marks, key=lambda m: math.dist(ground.places[m], trace.pieces.centre))
        score = (1.0 if nearest != best else 0.0) - abs(margin - 0.2)
        if found is None or score > found[0] + 1e-9:
            found = (score, trace)
    if found is None:
        raise NoQuestion("No place on this deck gives one support clearly more than the others.")
    return found[1]


# ---------------------------------------------------------------------------------------------------------

MORE, SAME, STAYS, LIFTS = (
    "it carries more",
    "nothing changes",
    "it is lifted, but stays down",
    "it lifts off",
)
_LIFT = -0.03  # share of the weight from which a lift is worth a question


def overhang(ground: Ground) -> Question:
    """What three people out on an overhang do to the support far from them."""
    ground.only_carry()
    far, place = _most_lifted(ground)
    count = _telling_count(ground, far, place)
    trace = ground.tracer.trace(Person(place, count * ground.weight))
    W, at = trace.total, trace.pieces.centre
    U, D = -trace.reactions[far], ground.dead(far)
    right = STAYS if D > U else LIFTS
    near = max(trace.reactions, key=lambda m: trace.reactions[m])
    axis = Axis.through(near, far, ground.places)
    number = {2: "Two", 3: "Three", 4: "Four", 5: "Five", 8: "Eight"}[count]
    says = f"{far} is lifted by {pounds(U)}; {pounds(D)} of the platform's own weight hold it down, so " + (
        f"{pounds(D - U)} stay on it."
        if right == STAYS
        else f"it lifts off by {pounds(U - D)} unless it is tied down."
    )

    def for_guess(guess: Answer) -> tuple[Block, ...]:
        if guess in (STAYS, LIFTS):
            calculation = Calculation()
            calculation.run(still_held_down, D=D, U=U)
            less = "more than the lift: it stays down" if D > U else "less than the lift: it comes up"
            said = f"The people lift {far} by {pounds(U)}; {pounds(D)} of dead load press on it, {less}."
            held, own = dict(trace.reactions), printed(calculation.at(()))
        else:
            supposed = U if guess == MORE else 0.0
            held = dict(trace.reactions)
            held[near] -= supposed - held[far]
            held[far] = supposed
            out = abs(left_over(axis, W, at, held, ground.places))
            had = f"had {pounds(supposed)} more on it" if supposed else "felt nothing"
            said = (
                f"If {far} {had} and {near} made up the rest, moments about {axis.name} would be out by "
                f"{out:,.0f} lb·in: it can't be."
            )
            own = []
        caption = f"Moments of the people about {axis.name}" + (
            "" if guess in (STAYS, LIFTS) else f", if {guess}"
        )
        blocks = balance_blocks(axis, W, at, held, ground.places, caption)
        return (Statement(StatementKind.READING, (said,)), *blocks, *own)

    bank = {
        MORE: "More people, more load: true as a whole, but beyond a support they lever the far end up.",
        SAME: f"{far} is far away, so it seems to feel nothing; but a beam is stiff and works as a lever.",
        STAYS: "A heavy platform feels as if it could not lift; compare the dead load there with the lift.",
        LIFTS: "A lever lifts, so it seems to fly; but the platform's own weight on that support may hold it.",
    }
    return Question(
        key="overhang",
        title="The overhang",
        text=(
            f"{number} people, {W:,.0f} lb together, stand at {at_words(at)} (marked on the plan), beyond a support. "
            f"What happens to {far}, far from them? Count the platform's own weight, and no tie."
        ),
        kind=AnswerKind.CHOICE,
        choices=(MORE, SAME, STAYS, LIFTS),
        right=(right,),
        says=says,
        wrong=tuple(Wrong(choice, why) for choice, why in bank.items() if choice != right),
        worked=lambda: (
            reaction_table(trace, "What the people alone do to the supports"),
            *route_blocks(ground, trace, far),
        ),
        for_guess=for_guess,
        units_line="Units: lb × in on both sides of the support; lift and dead load are both lb.",
        neglected="Neglected: live load and snow elsewhere, which hold it down more, and the give of the supports.",
        picture=lambda: lettered_plan(ground.results.path.layout, {"you": at}),
        sketch=lambda: side_view(axis, W, at, trace.reactions, ground.places, f"The lever over {near}"),
    )


def _most_lifted(ground: Ground) -> tuple[str, Vector]:
    path = ground.results.path
    lifted = []
    for mark in ground.marks:
        row = path.reactions[mark][path.first_spot :]
        for column in np.argsort(row)[:6]:
            place = ground.spot(int(column))
            trace = ground.tracer.trace(Person(place, ground.weight))
            if trace.aside < 0.05 and _by_lever(trace, mark):
                lifted.append((trace.share(mark), mark, place))
    if not lifted or min(lifted)[0] > _LIFT:
        raise NoQuestion("Nothing on this deck hangs far enough past a support to lift another.")
    return min(lifted)[1:]


def _by_lever(trace: Trace, mark: str) -> bool:
    """Whether a support is lifted by the lever of a member on two seats, not by bending in the next span."""
    carried = [c for c in trace.carried.values() if any(s.below == mark for s in c.member.seats)]
    return all(len(c.member.seats) == 2 for c in carried)


def _telling_count(ground: Ground, mark: str, place: Vector) -> int:
    one = -ground.tracer.trace(Person(place, ground.weight)).reactions[mark]
    for count in (3, 2, 4, 5, 8):
        if abs(count * one / ground.dead(mark) - 1) > 0.1:
            return count
    raise NoQuestion("Lift and dead load are too near each other here for a clear answer.")
