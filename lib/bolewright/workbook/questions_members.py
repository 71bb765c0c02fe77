"""Questions about the members: which joist is worst off, spacing, depth against thickness, loads together."""

from __future__ import annotations

import numpy as np

from bolewright.calculation import Calculation, Step
from bolewright.mechanics.lever import load_in_combination, times_as_much
from bolewright.platform.analysis.post_values import post_weight
from bolewright.platform.layout.influence import Array
from bolewright.platform.layout.layout import Member
from bolewright.platform.limit_states.check import Check, Topic
from bolewright.platform.loads.combine import PERSON, Case, strength_cases, support_envelope
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.tracing.tracing_path import pounds
from bolewright.rendering.blocks import Block, Figure, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits, ratio
from bolewright.sheets.figures import plan_figure
from bolewright.sheets.printing import printed
from bolewright.sheets.statics import acting_on, statics_blocks
from bolewright.timber.deflection import simple_span_moment
from bolewright.units import NONE, POUND, feet_inches
from bolewright.workbook.explorer_bodies import Force, free_body
from bolewright.workbook.questions import Answer, AnswerKind, NoQuestion, Question, Wrong
from bolewright.workbook.questions_ground import Ground

_ALIKE = 0.01  # ratios nearer than this are the same


def said(*sentences: str) -> Statement:
    """A statement in plain words."""
    return Statement(StatementKind.READING, sentences)


# ---------------------------------------------------------------------------------------------------------


def worst_joist(ground: Ground) -> Question:
    """Which joist is nearest to its limit in bending."""
    results = ground.results
    marks_of_joists = {m.mark for m in results.path.layout.joists}
    checks = {
        c.part: c
        for c in results.of(Topic.JOISTS)
        if c.part in marks_of_joists and c.key == "joist.bending" and c.ratio == c.ratio
    }
    if len(checks) < 2:
        raise NoQuestion("There are not two joists to choose from.")
    ordered = sorted(checks.values(), key=lambda c: -c.ratio)
    top, low = ordered[0], ordered[-1]
    if low.ratio > (1 - 3 * _ALIKE) * top.ratio:
        raise NoQuestion("All joists of this platform are alike.")
    joists = {m.mark: m for m in results.path.layout.joists if m.mark in checks}
    longest = max(joists, key=lambda m: (round(joists[m].line.length, 1), checks[m].ratio))
    marks = list(joists)
    shown = dict.fromkeys((top.part, longest, marks[0], marks[-1], marks[len(marks) // 2], low.part))
    choices = tuple(m for m in marks if m in list(shown)[:6])
    right = tuple(m for m in choices if checks[m].ratio >= (1 - _ALIKE) * top.ratio)
    others = [m for m in choices if m not in right]
    if not others:
        raise NoQuestion("The joists to choose from are all alike.")

    def load(mark: str) -> str:
        effects = results.path.effects[mark]
        carried = float(np.sum(effects.reactions @ (results.path.dead + results.path.live)))
        return f"{mark} carries {pounds(carried)} over {feet_inches(joists[mark].line.length)}"

    def worst(mark: str) -> str:
        check = checks[mark]
        return f"{mark} comes to {ratio(check.ratio)} in {check.combination}"

    def wrong(mark: str) -> Wrong:
        if mark == longest:
            why = (
                "The longest is a good guess, but its load counts too; what hangs out past a beam takes off."
            )
        elif mark in (marks[0], marks[-1]):
            why = "A joist at the edge looks exposed, but what bends it is its load and its reach."
        elif mark == marks[len(marks) // 2]:
            why = "The middle of the deck is where most people stand, but that need not be where a joist is worst off."
        else:
            why = "A joist seldom looks worse than its neighbours: load and reach tell them apart."
        if PERSON in top.combination:
            facts = f"One heavy person bends {top.part} more than a full deck does"
        else:
            facts = f"With a full deck {load(mark)}, {load(top.part)}"
        return Wrong(mark, f"{why} {facts}. {worst(mark)}, {worst(top.part)}.")

    def statics(check: Check) -> tuple[Block, ...]:
        return (*statics_blocks(results, check), *printed(check.steps))

    def for_guess(guess: Answer) -> tuple[Block, ...]:
        check = checks[str(guess)]
        return (said(f"{check.part}, in {check.combination}: ratio {ratio(check.ratio)}."), *statics(check))

    rows = tuple((c.part, feet_inches(joists[c.part].line.length), ratio(c.ratio)) for c in ordered)
    return Question(
        key="worst-joist",
        title="Which joist is worst off?",
        text="Which joist is nearest to its limit in bending, when people may stand wherever it is worst?",
        kind=AnswerKind.CHOICE,
        choices=choices,
        right=right,
        says=f"{top.part} is: bending is {ratio(top.ratio)} of allowable.",
        wrong=tuple(wrong(mark) for mark in others),
        worked=lambda: (
            Table(("joist", "length", "ratio"), rows, "Every joist in bending", "lrr"),
            *statics(top),
        ),
        for_guess=for_guess,
        units_line="Units: lb·in ÷ in³ = lb/in² = psi; psi ÷ psi is a plain ratio.",
        neglected="Neglected: that neighbouring joists help through the boards (the factor C_r counts some of it).",
        picture=lambda: plan_figure(results, choices),
        sketch=lambda: spread_body(ground, joists[top.part]),
    )


# ---------------------------------------------------------------------------------------------------------


def twice_the_spacing(ground: Ground) -> Question:
    """How many times the bending of an inner joist becomes at twice the spacing."""
    path = ground.results.path
    joist = _inner_joist(ground)
    field = next(f for f in path.layout.project.joists if f.mark == joist.field)
    effects = path.effects[joist.mark]
    loads = path.dead + path.live
    deck = np.zeros_like(loads)
    deck[: len(path.panels)] = loads[: len(path.panels)]
    middle = int(np.abs(effects.moment @ loads).argmax())
    M_deck, M_old = float(effects.moment[middle] @ deck), float(effects.moment[middle] @ loads)
    M_new = M_old + M_deck
    k = M_new / M_old
    s = field.spacing
    l = joist.seats[-1].at - joist.seats[0].at
    tolerance = 0.08
    stays = "the joist's own weight stays"
    if k > 2:
        stays += ", and so does what stands on its ends, which bends it the other way"

    def steps(times: float) -> tuple[Step, ...]:
        calculation = Calculation()
        old = calculation.run(simple_span_moment, w=8 * M_old / l**2, l=l)
        new = calculation.run(simple_span_moment, w=times * 8 * M_old / l**2, l=l)
        calculation.run(times_as_much, M_new=new, M_old=old)
        return calculation.at(())

    def for_guess(guess: Answer) -> tuple[Block, ...]:
        times = float(guess)
        strip = s * (times * M_old - (M_old - M_deck)) / M_deck
        fits = (
            "just that"
            if abs(times - k) <= tolerance
            else f"but twice the spacing makes it {feet_inches(2 * s)}"
        )
        wide = f"a strip of deck {feet_inches(strip)} wide" if strip > 0 else "less than no deck at all"
        words = (
            f"{digits(times)} times the moment wants {digits(times)} times the load on the joist (w as an even load "
            f"that gives the same moment): {wide}, {fits}."
        )
        return (said(words), *(printed(steps(times)) if times > 0 else ()))

    bank = [
        (
            4.0,
            "The square belongs to the span, not to the spacing: the load grows with the width of the strip alone.",
        ),
        (8.0, "The cube belongs to how a joist deflects with its depth or span, not to the spacing."),
        (
            1.0,
            "The joist is the same, but what it carries is not: the strip of deck reaches half-way to its neighbours.",
        ),
        (
            0.5,
            "Half as many joists, but each carries twice the deck, so the bending grows; it does not halve.",
        ),
        (
            1.41,
            "A square root would come in if you asked how far the joist may span, not how hard it is bent.",
        ),
    ]
    return Question(
        key="twice-the-spacing",
        title="Twice the spacing",
        text=(
            f"Joist {joist.mark} stands {feet_inches(s)} from its neighbours. Take every second joist out, so that the "
            f"spacing is {feet_inches(2 * s)}, with people all over the deck. How many times what it is now does the "
            f"bending moment of {joist.mark} become?"
        ),
        kind=AnswerKind.NUMBER,
        choices=(),
        right=(k,),
        says=f"{k:.2f} times: the deck and the people on the strip double; {stays}.",
        wrong=tuple(Wrong(value, why) for value, why in bank if abs(value - k) > 2 * tolerance),
        worked=lambda: tuple(printed(steps(k))),
        for_guess=for_guess,
        units_line="Units: lb/in × in² = lb·in; moment over moment is a plain number.",
        neglected="Neglected: that the boards must span twice as far too, and that C_r is lost beyond 24 in.",
        picture=lambda: plan_figure(ground.results, (joist.mark,)),
        sketch=lambda: spread_body(ground, joist),
        unit=NONE,
        tolerance=tolerance,
    )


def _inner_joist(ground: Ground) -> Member:
    layout = ground.results.path.layout
    loads = ground.results.path.dead + ground.results.path.live
    for field in layout.project.joists:
        n_joists = [
            m
            for m in layout.joists
            if m.field == field.mark and len(m.seats) == 2 and _bends_down(ground, m, loads)
        ]
        rows = sorted({_row(m) for m in layout.joists if m.field == field.mark})
        inner = [
            m
            for m in n_joists
            if rows.index(_row(m)) not in (0, len(rows) - 1)
            and abs(rows[rows.index(_row(m)) + 1] - rows[rows.index(_row(m)) - 1] - 2 * field.spacing) < 0.1
        ]
        if len(rows) >= 3 and inner:
            return inner[len(inner) // 2]
    raise NoQuestion("No joist here is bent down and has neighbours at the full spacing on both sides.")


def _bends_down(ground: Ground, joist: Member, loads: Array) -> bool:
    """Whether the largest moment of a joist under a full deck bends it down."""
    moments = ground.results.path.effects[joist.mark].moment @ loads
    return float(moments[np.abs(moments).argmax()]) > 0


def _row(member: Member) -> float:
    """Place of a joist across its direction, in its own field's axes."""
    u = member.line.u
    return round(-member.line.start[0] * u[1] + member.line.start[1] * u[0], 3)


def spread_body(ground: Ground, joist: Member) -> Figure:
    """A joist by itself under a full deck."""
    path = ground.results.path
    loads = path.dead + path.live
    effects = path.effects[joist.mark]
    acting = [Force(a.at, a.pounds, a.label) for a in acting_on(effects, loads) if abs(a.pounds) > 0.5]
    total = sum(a.pounds for a in acting)
    centre = sum(a.pounds * a.at for a in acting) / total
    held = [
        Force(seat.at, float(r), seat.below)
        for seat, r in zip(joist.seats, effects.reactions @ loads, strict=True)
    ]
    title = f"{joist.mark} now, its load drawn at its centre"
    return free_body(title, joist.line.length, [Force(centre, total, "deck, people, itself")], held)


# ---------------------------------------------------------------------------------------------------------


def governing_case(ground: Ground) -> Question:
    """Which combination of loads presses hardest on the post, or bolt, that carries most."""
    path = ground.results.path
    supports = path.layout.supports
    posts = [s for s in supports if s.kind == SupportKind.POST]
    cases = strength_cases()
    loads = {}
    for support in posts or supports:
        env = support_envelope(path, support.mark)
        own = post_weight(path, support) if support.kind == SupportKind.POST else 0.0
        loads[support.mark] = (
            float(env.D[0]) + own,
            float(env.L_most[0]),
            float(env.S_most[0]),
            float(env.person_most[0]),
        )

    def total(case: Case, parts: tuple[float, float, float, float]) -> float:
        D, L, S, person = parts
        return case.D * D + case.L * L + case.S * S + case.person * person

    mark = max(loads, key=lambda m: max(total(case, loads[m]) for case in cases))
    D, L, S, person = loads[mark]
    sizes = {case.name: total(case, loads[mark]) for case in cases}
    by_name = {case.name: case for case in cases}
    best = max(sizes, key=lambda name: sizes[name])
    right = tuple(name for name, size in sizes.items() if size > 0.995 * sizes[best])
    if len(right) > 1:
        raise NoQuestion(f"Two combinations load {mark} alike here.")

    def steps(name: str) -> tuple[Step, ...]:
        case = by_name[name]
        calculation = Calculation()
        live, f_L = (person, case.person) if name == PERSON else (L, case.L)
        calculation.run(load_in_combination, f_D=case.D, D=D, f_L=f_L, L=live, f_S=case.S, S=S)
        return calculation.at(())

    def for_guess(guess: Answer) -> tuple[Block, ...]:
        name = str(guess)
        short = sizes[best] - sizes[name]
        note = f", {pounds(short)} less than {best}" if name != best else ""
        return (said(f"{name} puts {pounds(sizes[name])} on {mark}{note}."), *printed(steps(name)))

    def why(name: str) -> str:
        case = by_name[name]
        if name == PERSON:
            return (
                "One person is heavy on a board or a joist, but light on a support that gathers a whole deck."
            )
        if case.L == 1.0:
            return f"People all over are a full load, but with {pounds(S)} of snow three quarters of each is more."
        if case.L and case.S:
            return "Both together sounds worst, but each is cut to three quarters, since both are seldom full at once."
        if case.S == 1.0:
            return f"Snow alone leaves out the people, who are up to {pounds(L)} here."
        return "The platform's own weight is always there, but people or snow always come on top of it."

    rows = tuple((name, digits(size)) for name, size in sizes.items())
    what = "the soil under the post" if posts else "the tree bolt"
    return Question(
        key="governing-case",
        title="Which loads together?",
        text=(
            f"On {mark} come {pounds(D)} of dead load, up to {pounds(L)} of people and {pounds(S)} of snow. Which "
            f"combination presses hardest on {what} {mark}?"
        ),
        kind=AnswerKind.CHOICE,
        choices=tuple(sizes),
        right=right,
        says=f"{best} gives {pounds(sizes[best])} on {mark}.",
        wrong=tuple(Wrong(name, why(name)) for name in sizes if name != best),
        worked=lambda: (Table(("combination", "lb"), rows, f"Load on {mark}", "lr"), *printed(steps(best))),
        for_guess=for_guess,
        units_line="Units: factors are plain numbers; lb + lb + lb = lb. Soil and steel take no load-duration factor.",
        neglected="Neglected: wind and sway, which push laterally and have combinations of their own.",
        picture=lambda: plan_figure(ground.results, (mark,)),
        sketch=lambda: free_body(
            f"What comes onto {mark}",
            48.0,
            [Force(8, D, "dead"), Force(24, L, "people"), Force(40, S, "snow")],
            [Force(24, sizes[best], mark)],
        ),
        unit=POUND,
    )
