"""How much of one's weight goes into a tree."""

from __future__ import annotations

import math

from bolewright.calculation import Calculation
from bolewright.mechanics.lever import reaction_left
from bolewright.platform.tracing.tracing import Trace
from bolewright.platform.tracing.tracing_path import pounds
from bolewright.rendering.blocks import Block, Statement, StatementKind
from bolewright.sheets.printing import printed
from bolewright.units import POUND
from bolewright.workbook.explorer_plan import lettered_plan
from bolewright.workbook.questions import Answer, AnswerKind, NoQuestion, Question, Wrong
from bolewright.workbook.questions_ground import Axis, Ground, at_words, balance_blocks, left_over, side_view
from bolewright.workbook.questions_supports import NEGLECTED, reaction_table


def to_the_tree(ground: Ground) -> Question:
    """How much of one's weight goes to a tree."""
    ground.only_carry()
    trees = [t.mark for t in ground.results.project.trees if ground.bolts(t.mark)]
    if not trees:
        raise NoQuestion("No tree carries this platform.")
    bolts = ground.bolts(trees[0])
    others = tuple(m for m in ground.marks if m not in bolts)
    if not others:
        raise NoQuestion(f"All supports are on {trees[0]}: all of the weight goes to it.")
    trace = _shared(ground, bolts)
    at, W = trace.pieces.centre, trace.total
    share = sum(trace.reactions[m] for m in bolts)
    axis = _axis_of_others(ground, bolts, others)
    bank: list[tuple[float, str]] = [
        (
            W * len(bolts) / len(ground.marks),
            "One share for each support: but they do not share alike, the lever decides.",
        ),
        (W / 2, "Half to the tree and half to the rest: true only half-way between them."),
        (W - share, "That is what the other supports take: the two shares were changed over."),
        (W, "All of it would go to the tree only if you stood right over its bolts."),
        (
            0.0,
            "The tree holds one side up; only right over the line of the other supports would it get nothing.",
        ),
    ]
    if len(bolts) > 1:
        bank.insert(
            2, (max(trace.reactions[m] for m in bolts), "That is one bolt alone: add the bolts of the tree.")
        )
    tolerance = 0.05 * W
    wrong: list[tuple[float, str]] = []
    for value, why in bank:
        if all(abs(value - other) > 1.2 * tolerance for other in (share, *(w for w, _ in wrong))):
            wrong.append((value, why))

    def supposed(guess: float) -> dict[str, float]:
        rest = W - share
        return {
            m: f * (guess / share if m in bolts else (W - guess) / rest) for m, f in trace.reactions.items()
        }

    def for_guess(guess: Answer) -> tuple[Block, ...]:
        held = supposed(float(guess))
        out = abs(left_over(axis, W, at, held, ground.places))
        said = (
            f"If {trees[0]} took {pounds(float(guess))} and the others, sharing as they do now, "
            f"{pounds(W - float(guess))}, moments about {axis.name} would "
            + ("balance" if out < 0.5 else f"be out by {out:,.0f} lb·in")
            + (": near enough." if abs(float(guess) - share) <= tolerance else ", so it can't be.")
        )
        blocks = balance_blocks(
            axis, W, at, held, ground.places, f"Moments about {axis.name}, for your guess"
        )
        return (Statement(StatementKind.READING, (said,)), *blocks)

    def worked() -> tuple[Block, ...]:
        calculation = Calculation()
        calculation.run(reaction_left, W=W, R_others=W - share)
        blocks = balance_blocks(axis, W, at, trace.reactions, ground.places, f"Moments about {axis.name}")
        return (reaction_table(trace, "What the solver finds"), *blocks, *printed(calculation.at(())))

    return Question(
        key="to-the-tree",
        title="How much goes to the tree?",
        text=(
            f"One person of {W:g} lb stands at {at_words(at)} (marked on the plan). How many pounds of it go into "
            f"the tree {trees[0]} ({'bolts' if len(bolts) > 1 else 'bolt'} {' and '.join(bolts)})?"
        ),
        kind=AnswerKind.NUMBER,
        choices=(),
        right=(share,),
        says=f"{pounds(share)} go to {trees[0]}, {share / W:.0%} of the weight.",
        wrong=tuple(Wrong(value, why) for value, why in wrong),
        worked=worked,
        for_guess=for_guess,
        units_line="Units: lb × in ÷ in = lb. The arms are distances from the axis, square to it.",
        neglected=NEGLECTED,
        picture=lambda: lettered_plan(ground.results.path.layout, {"you": at}),
        sketch=lambda: side_view(axis, W, at, trace.reactions, ground.places, f"Seen along {axis.name}"),
        unit=POUND,
        tolerance=tolerance,
    )


def _shared(ground: Ground, bolts: tuple[str, ...]) -> Trace:
    """A place that both the tree and the others carry, as near to the middle of the deck as may be."""
    middle = ground.results.path.layout.deck.centroid

    def tree(trace: Trace) -> float:
        return sum(trace.share(m) for m in bolts)

    fits = [t for t in ground.tried if 0.15 <= tree(t) <= 0.85 and abs(tree(t) - 0.5) > 0.08]
    if not fits:
        raise NoQuestion(
            "There is no place on this deck that the tree and the other supports both clearly carry."
        )
    return min(fits, key=lambda t: math.dist(t.pieces.centre, (middle.x, middle.y)))


def _axis_of_others(ground: Ground, bolts: tuple[str, ...], others: tuple[str, ...]) -> Axis:
    xs, ys = zip(*(ground.places[m] for m in bolts), strict=True)
    tree = (sum(xs) / len(xs), sum(ys) / len(ys))
    if len(others) >= 2:
        axis = Axis.along(others[0], others[1], ground.places, tree)
        if abs(axis.arm(tree)) > 12:
            return axis
    return Axis.through(others[0], bolts[0], ground.places)
