"""The statics of a beam in print: the loads that act, the reactions, the moment at the section that governs."""

from __future__ import annotations

from bolewright.part_sheets.beam_statics import BeamStatics, Worst
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import fmt
from bolewright.units import INCH, POUND
from bolewright.worked import work


def before(statics: BeamStatics, worst: Worst) -> tuple[Block, ...]:
    """Blocks before the steps: forces on the beam, and equilibrium line by line."""
    if not worst.loads or worst.value <= 0:
        return ()
    found = statics.diagrams(worst.loads)
    loads = [statics.loads[i] for i in worst.loads]
    rows = tuple(
        (f"W_{n}", load.words, fmt(load.total, POUND), fmt(load.middle, INCH))
        for n, load in enumerate(loads, 1)
    )
    table = Table(
        ("resultant", "load", "size", "from the left end"),
        rows,
        "Loads that act where the moment is greatest; live load that would relieve it is left off",
        "llrr",
    )
    supports = statics.beam.supports
    sum_W = " + ".join(f"W_{n}" for n in range(1, len(loads) + 1))
    names = {f"x_{n}": load.middle for n, load in enumerate(loads, 1)}
    text: list[str] = []
    title = "Reactions"
    if len(supports) == 2:
        arms = " + ".join(f"W_{n} * (x_{n} - a_1)" for n in range(1, len(loads) + 1))
        text = [f"R_2 = ({arms}) / (a_2 - a_1)  # moments about 1", f"R_1 = {sum_W} - R_2  # vertical forces"]
    elif len(supports) == 1:
        arms = " + ".join(f"W_{n} * x_{n}" for n in range(1, len(loads) + 1))
        text = [f"R_1 = {sum_W}  # vertical forces", f"M_0 = -({arms})  # moments about the clamp"]
    namespace = {
        **{f"W_{n}": POUND.of(load.total) for n, load in enumerate(loads, 1)},
        **{name: INCH.of(x) for name, x in names.items()},
        **{f"a_{n}": INCH.of(x) for n, x in enumerate(supports, 1)},
    }
    blocks: list[Block] = [table]
    places = "; ".join(f"a_{n} = {fmt(x, INCH)}" for n, x in enumerate(supports, 1))
    blocks.append(Statement(StatementKind.ASIDE, (f"Supports, from the left end: {places}.",)))
    if text:
        done = work("\n".join(text), namespace, title)
        namespace.update(done.values)
        blocks += done.blocks
    else:
        reactions = "; ".join(f"R_{n} = {fmt(r, POUND)}" for n, r in enumerate(found.reactions, 1))
        said = f"Reactions by the three-moment equation: {reactions}; they add up to the loads."
        blocks.append(Statement(StatementKind.ASIDE, (said,)))
        namespace.update({f"R_{n}": POUND.of(float(r)) for n, r in enumerate(found.reactions, 1)})
    return (*blocks, *_moment(statics, worst, namespace))


def _moment(statics: BeamStatics, worst: Worst, namespace: dict[str, object]) -> tuple[Block, ...]:
    """The moment at the section that governs, from what stands left of it."""
    x = worst.x
    terms = [f"R_{n} * (x - a_{n})" for n, a in enumerate(statics.beam.supports, 1) if a < x - 1e-6]
    names = dict(namespace) | {"x": INCH.of(x)}
    said = []
    if len(statics.beam.supports) == 1:
        terms.insert(0, "M_0")
    for n, i in enumerate(worst.loads, 1):
        part, at = statics.loads[i].left_of(x)
        if part > 0:
            names |= {f"P_{n}": POUND.of(part), f"c_{n}": INCH.of(x - at)}
            said.append(f"of W_{n} stand {fmt(part, POUND)} left of the section, {fmt(x - at, INCH)} from it")
            terms.append(f"- P_{n} * c_{n}")
    if not terms or terms == ["M_0"]:
        return ()
    expression = " + ".join(terms).replace("+ - ", "- ")
    if expression.startswith("- "):
        expression = f"-{expression[2:]}"
    where = f"Section at x = {fmt(x, INCH)} from the left end" + (f": {'; '.join(said)}." if said else ".")
    done = work(f"M_x = {expression}  # moments left of x", names, "Moment at the section")
    return (Statement(StatementKind.ASIDE, (where,)), *done.blocks)
