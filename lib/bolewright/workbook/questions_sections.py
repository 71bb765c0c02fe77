"""Deeper or thicker: the same wood added to a joist in two ways."""

from __future__ import annotations

from bolewright.calculation import Calculation, Step
from bolewright.platform.layout.layout import Member
from bolewright.platform.limit_states.check import Topic
from bolewright.rendering.blocks import Block, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.figures import plan_figure
from bolewright.sheets.printing import printed
from bolewright.timber.adjusted_values import adjusted_bending
from bolewright.timber.adjustment import Service, factors, repetitive_use
from bolewright.timber.material import MaterialError
from bolewright.timber.section_properties import section_modulus
from bolewright.timber.sections import Section, SectionError, parse_section
from bolewright.workbook.questions import Answer, AnswerKind, NoQuestion, Question, Wrong
from bolewright.workbook.questions_ground import Ground
from bolewright.workbook.questions_members import said, spread_body

DEEPER, THICKER, SAME = "deeper", "thicker", "both the same"


def deeper_or_thicker(ground: Ground) -> Question:
    """Whether the next depth, or the same wood as thickness, makes a joist stronger."""
    results = ground.results
    own = {m.mark for m in results.path.layout.joists}  # blocks and rims stand on the joists' sheet too
    bending = [c for c in results.of(Topic.JOISTS) if c.key == "joist.bending" and c.part in own]
    if not bending:
        raise NoQuestion("No joist of this platform is bent downwards.")
    joist = results.path.layout.member(max(bending, key=lambda c: c.ratio).part)
    deeper = _next_depth(joist)
    now = joist.section
    b_t = now.b * deeper.d / now.d
    F_now, F_deep = _bending_value(ground, joist, now), _bending_value(ground, joist, deeper)
    strength = {DEEPER: F_deep.result * deeper.S, THICKER: F_now.result * b_t * now.d**2 / 6}
    if abs(strength[DEEPER] / strength[THICKER] - 1) < 0.02:
        right = SAME
    else:
        right = max(strength, key=lambda name: strength[name])
    old = F_now.result * now.S

    def steps(name: str) -> tuple[Step, ...]:
        calculation = Calculation()
        if name == DEEPER:
            calculation.run(section_modulus, b=deeper.b, d=deeper.d)
            return (F_deep, *calculation.at(()))
        calculation.run(section_modulus, b=b_t, d=now.d)
        return (F_now, *calculation.at(()))

    def gain(name: str) -> str:
        return f"{strength[name] / old:.2f} times as strong in bending as now"

    def for_guess(guess: Answer) -> tuple[Block, ...]:
        names = (DEEPER, THICKER) if guess == SAME else (str(guess),)
        blocks: list[Block] = []
        for name in names:
            blocks += [said(f"{name.capitalize()}: F'b times S, {gain(name)}."), *printed(steps(name))]
        return tuple(blocks)

    rows = (
        ("now", digits(now.b), digits(now.d), digits(now.S), "1.00", "1.00"),
        _row_of(DEEPER, deeper.b, deeper.d, strength[DEEPER] / old, now),
        _row_of(THICKER, b_t, now.d, strength[THICKER] / old, now),
    )
    table = Table(
        ("joist", "b (in)", "d (in)", "S (in³)", "strength", "stiffness"),
        rows,
        "The same wood, two ways",
        "lrrrrr",
    )
    bank = {
        DEEPER: "Depth usually wins, by its square; but here the deeper size has a lower value for its wood.",
        THICKER: "A thick joist looks strong, but breadth counts once where depth counts twice (for deflection three "
        "times).",
        SAME: "It is the same wood, but not the same lever inside: the outer fibres of a deep joist are farther apart.",
    }
    return Question(
        key="deeper-or-thicker",
        title="Deeper or thicker?",
        text=(
            f"Joist {joist.mark} is a {now.name} ({digits(now.b)} by {digits(now.d)} in). You may add the same wood "
            f"two ways: make it {digits(deeper.d)} in deep (a {deeper.name}), or {digits(b_t)} in thick. Which helps "
            "more against bending?"
        ),
        kind=AnswerKind.CHOICE,
        choices=(DEEPER, THICKER, SAME),
        right=(right,),
        says=(
            f"Deeper: {gain(DEEPER)}; thicker: {gain(THICKER)}. Against deflection: {(deeper.d / now.d) ** 3:.2f} and "
            f"{b_t / now.b:.2f} times."
        ),
        wrong=tuple(Wrong(name, why) for name, why in bank.items() if name != right),
        worked=lambda: (table, *printed((*steps(DEEPER), *steps(THICKER)))),
        for_guess=for_guess,
        units_line="Units: in × in² = in³ for S; psi × in³ = lb·in of moment.",
        neglected=(
            "Neglected: the little more that the joist weighs, and that a deep, thin joist overturns more easily until "
            "it is decked."
        ),
        picture=lambda: plan_figure(results, (joist.mark,)),
        sketch=lambda: spread_body(ground, joist),
    )


def _row_of(name: str, b: float, d: float, strength: float, now: Section) -> tuple[str, ...]:
    S = b * d**2 / 6
    return (name, digits(b), digits(d), digits(S), f"{strength:.2f}", f"{b * d**3 / (now.b * now.d**3):.2f}")


def _next_depth(joist: Member) -> Section:
    now = joist.section
    name = f"{now.nominal_thickness:g}x{now.nominal_width + 2:g}"
    try:
        deeper = parse_section(name)
        joist.timber.values(deeper)
    except (SectionError, MaterialError):
        raise NoQuestion(f"There is no deeper standard size than {now.name} in the tables.") from None
    if deeper.d <= now.d or abs(deeper.b - now.b) > 0.01:
        raise NoQuestion(f"There is no standard size of the same thickness deeper than {now.name}.")
    return deeper


def _bending_value(ground: Ground, joist: Member, section: Section) -> Step:
    """Adjusted bending value of a joist of that section, as a printed step, for normal duration."""
    layout = ground.results.path.layout
    field = next(f for f in layout.project.joists if f.mark == joist.field)
    count = sum(m.field == joist.field for m in layout.joists)
    values = joist.timber.values(section)
    group = factors(
        values,
        Service(wet=joist.timber.wet, incised=joist.timber.counts_incised),
        repetitive=repetitive_use(members=count, spacing=field.spacing),
    )
    calculation = Calculation()
    calculation.run(adjusted_bending, F_b=values.F_b, C_D=1.0, C_L=1.0, **group.bending)
    return calculation.at(())[0]
