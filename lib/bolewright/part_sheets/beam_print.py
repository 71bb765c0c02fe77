"""The statics of a beam in print: the loads that act, the reactions, the moment at the section that governs."""

from __future__ import annotations

from bolewright.part_sheets.beam_statics import BeamStatics, Worst
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import fmt
from bolewright.units import INCH, POUND, POUND_INCH
from bolewright.worked import work


def before(statics: BeamStatics, worst: Worst) -> tuple[Block, ...]:
    """Blocks before the steps: forces on the beam, and equilibrium line by line."""
    if not worst.loads or worst.value <= 0:
        return ()
    found = statics.diagrams(worst)
    numbers = {i: n for n, i in enumerate(worst.loads, 1)}
    forces = {n: i for i, n in numbers.items() if not statics.loads[i].couple}
    couples = {n: i for i, n in numbers.items() if statics.loads[i].couple}
    supports = statics.beam.supports
    sum_W = " + ".join(f"W_{n}" for n in forces)
    turning = "".join(f" + M_{n}" for n in couples)
    text: list[str] = []
    title = "Reactions"
    if len(supports) == 2:
        arms = " + ".join(f"W_{n} * (x_{n} - a_1)" for n in forces)
        arms = (arms + turning).removeprefix(" + ")
        second = f"R_2 = ({arms}) / (a_2 - a_1)  # moments about 1"
        text = [
            second,
            f"R_1 = {sum_W} - R_2  # vertical forces" if forces else "R_1 = -R_2  # vertical forces",
        ]
    elif len(supports) == 1:
        arms = " + ".join(f"W_{n} * x_{n}" for n in forces)
        arms = (arms + turning).removeprefix(" + ")
        text = [f"R_1 = {sum_W}  # vertical forces"] if forces else []
        text.append(f"M_0 = -({arms})  # moments about the clamp")
    namespace: dict[str, object] = {
        **{f"W_{n}": POUND.of(statics.loads[i].total * statics.share(i, worst)) for n, i in forces.items()},
        **{f"x_{n}": INCH.of(statics.loads[i].middle) for n, i in forces.items()},
        **{
            f"M_{n}": POUND_INCH.of(statics.loads[i].couple * statics.share(i, worst))
            for n, i in couples.items()
        },
        **{f"a_{n}": INCH.of(x) for n, x in enumerate(supports, 1)},
    }
    blocks: list[Block] = [_loads(statics, worst)]
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
    for n, r in enumerate(found.reactions, 1):
        namespace.setdefault(f"R_{n}", POUND.of(float(r)))
    return (*blocks, *_moment(statics, worst, namespace))


def _loads(statics: BeamStatics, worst: Worst) -> Table:
    """The loads that act, as resultants."""
    rows = []
    for n, i in enumerate(worst.loads, 1):
        load, share = statics.loads[i], statics.share(i, worst)
        words = load.words if share == 1 else f"{share:g} x {load.words}"
        if load.couple:
            turn = "clockwise" if load.couple > 0 else "counterclockwise"
            size = f"{fmt(abs(load.couple) * share, POUND_INCH)} {turn}"
            rows.append((f"M_{n}", words, size, fmt(load.start, INCH)))
        else:
            size = fmt(abs(load.total) * share, POUND) + (" up" if load.lifts else "")
            rows.append((f"W_{n}", words, size, fmt(load.middle, INCH)))
    title = "Loads that act where the moment is greatest; live load that would relieve it is left off"
    if worst.dead_share < 1:
        title += f", and of dead load {worst.dead_share:g} is counted against what lifts (ASCE 7-16, 2.4.1)"
    return Table(("resultant", "load", "size", "from the left end"), tuple(rows), title, "llrr")


def _moment(statics: BeamStatics, worst: Worst, namespace: dict[str, object]) -> tuple[Block, ...]:
    """The moment at the section that governs, from what stands left of it."""
    x = worst.x
    terms = [f"R_{n} * (x - a_{n})" for n, a in enumerate(statics.beam.supports, 1) if a < x - 1e-6]
    names = dict(namespace) | {"x": INCH.of(x)}
    said = []
    if len(statics.beam.supports) == 1:
        terms.insert(0, "M_0")
    for n, i in enumerate(worst.loads, 1):
        load = statics.loads[i]
        if load.couple:
            if load.start <= x:
                terms.append(f"M_{n}")
            elif load.start - x < 1e-3:
                said.append(f"just left of M_{n}, which is not counted")
            continue
        part, at = load.left_of(x)
        part *= statics.share(i, worst)
        if part:
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
