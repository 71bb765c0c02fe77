"""Where the stiffness of every support comes from, and what of a movement joints and beams take: for the reader."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from bolewright.bracing.joint_slip import NAIL, joint_stiffness
from bolewright.calculation import Calculation, Step
from bolewright.fasteners.group_action import slip_modulus_wood
from bolewright.platform.analysis.knee_shares import run_side_stiffness
from bolewright.platform.analysis.knees import BraceReactions, beam_modulus
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import (
    is_pulled,
    run_bolt_stiffness,
    run_post_stiffness,
)
from bolewright.platform.analysis.lateral_supports import BoltFrame, LateralFrame, PostFrame
from bolewright.platform.analysis.plan_give import NAILS, Joints
from bolewright.platform.analysis.trunk_sway import run_sway
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits, fmt
from bolewright.sheets.printing import Page, printed
from bolewright.units import INCH_FOURTH, PLI, PSI, feet_inches

NANO = 1e9  # an inch in the unit of the tables of flexibility
WAYS = ("along", "across")
FOOT_WORDS = {True: "the bolt", False: "the beam on it"}


def stiffness_blocks(lateral: LateralAnalysis, page: Page) -> list[Block]:
    """Stiffness of every support by its formulas, those that are alike once."""
    blocks: list[Block] = [*_at_knees(lateral, page)]
    for words, steps in _derivations(lateral):
        blocks += [Statement(StatementKind.ASIDE, (words,)), *printed(steps, page)]
    return blocks


def _derivations(lateral: LateralAnalysis) -> Iterator[tuple[str, tuple[Step, ...]]]:
    found: dict[tuple[tuple[str, ...], ...], tuple[list[str], list[str], Calculation]] = {}
    for state in {(state.foot, state.bed): state for state in lateral.every}.values():
        for frame in lateral.frames:
            for which in (0, 1):
                calculation = Calculation()
                k = _run(calculation, frame, which, state)
                steps = calculation.at(())
                if not steps or not k:
                    continue
                key = tuple(
                    (step.formula.name, *(f"{v:.9g}" for v in step.arguments.values())) for step in steps
                )
                name = f"{frame.support.mark} {WAYS[which]} {FOOT_WORDS[isinstance(frame, BoltFrame)]}"
                names, feet, _ = found.setdefault(key, ([], [], calculation))
                if name not in names:
                    names.append(name)
                taken = state.taken(frame)
                if taken and taken not in feet:
                    feet.append(taken)
    for names, feet, calculation in found.values():
        based = f" ({' and '.join(feet)})" if feet else ""
        steps = calculation.at(())
        yield f"Lateral stiffness of {', '.join(names)}{based}: {fmt(steps[-1].result, PLI)}.", steps


def _run(calculation: Calculation, frame: LateralFrame, which: int, state: State) -> float:
    if isinstance(frame, PostFrame):
        pulled = is_pulled(frame, which, None)
        return float(run_post_stiffness(calculation.run, frame, which, state.foot, pulled))
    return (
        run_bolt_stiffness(calculation.run, frame, which, state.bed) if isinstance(frame, BoltFrame) else 0.0
    )


def _at_knees(lateral: LateralAnalysis, page: Page) -> Iterator[Block]:
    """How far beams deflect at their knees from a pound there, and posts."""
    for found in lateral.brace_reactions.values():
        marks = [knee.brace.mark for knee in found.knees]
        rows = tuple(
            (mark, *(f"{NANO * v:,.1f}" for v in row))
            for mark, row in zip(marks, found.deflection, strict=True)
        )
        columns = ("at", *(f"from 1 lb at {mark}" for mark in marks))
        caption = f"Deflection of {found.beam.mark} at its knees, in units of 1e-9 in"
        yield Table(columns, rows, caption, "l" + "r" * len(marks))
        yield Statement(StatementKind.ASIDE, (_of_beam(found),))
        yield _when_moved(lateral, found)
    posts = [f for f in lateral.frames if isinstance(f, PostFrame) and any(a.n for a in f.axes)]
    for _, alike in groupby(posts, key=lambda f: (f.I, f.h, f.axes[0].a, f.values.E)):
        frame = next(alike)
        axis = next(a for a in frame.axes if a.n)
        for held in (False, True) if frame.post.base == "fixed" else (False,):
            calculation = Calculation()
            run_side_stiffness(calculation.run, frame, axis.a, held=held)
            yield from printed(calculation.at(()), page)


def _of_beam(found: BraceReactions) -> str:
    beam = found.beam
    seats = ", ".join(f"{seat.below} at {feet_inches(seat.at)}" for seat in beam.seats)
    knees = ", ".join(f"{knee.brace.mark} at {feet_inches(knee.at)}" for knee in found.knees)
    return (
        f"By beam theory: {beam.mark} on {seats}, with {knees} from its start; E' {fmt(beam_modulus(beam), PSI)}, "
        f"I {fmt(beam.section.I, INCH_FOURTH)}. Between two seats l apart a pound at a deflects a beam at b, both from "
        "one seat and b the nearer, by b (l - a) (l² - b² - (l - a)²) / (6 E' I l). Lateral load presses knees that "
        "lean one way up and pulls those that lean the other way down. The deck moves all posts under the beam alike: "
        "δ of a knee is its row, every number times the force F in that knee for an inch, over its own F."
    )


def _when_moved(lateral: LateralAnalysis, found: BraceReactions) -> Table:
    """Force in every knee of a beam, how the beam gives at it, and its share, as the deck moves along the beam."""
    rows: list[tuple[str, ...]] = []
    for foot in dict.fromkeys(state.foot for state in lateral.every):
        for knee in found.knees:
            frame = lateral.frames[lateral.row(knee.brace.support)]
            assert isinstance(frame, PostFrame)
            axis = next(a for a in frame.axes if knee in a.knees)
            moved = axis.when_moved(foot)[axis.knees.index(knee)]
            numbers = (digits(-knee.side * moved.force), f"{NANO * moved.give:,.1f}", digits(moved.share))
            rows.append((knee.brace.mark, frame.support.mark, foot.value, *numbers))
    caption = (
        f"Knees of {found.beam.mark} as the deck moves it an inch towards its end: F in each, compression above 0, "
        "δ of the beam there in units of 1e-9 in from a pound in it, and its share q of the knees of its post. F of "
        "all are solved together: F/k_b, the beam's deflection times a/L_b and the post's, Q of its own knees over "
        "k_p, times r/L_b, make up r/L_b times what the deck moves past the post at its knee (a/h with a hinged base)"
    )
    return Table(("knee", "post", "bases", "F (lb/in)", "δ", "q"), tuple(rows), caption, "lllrrr")


def between_blocks(lateral: LateralAnalysis, page: Page) -> list[Block]:
    """What lies between the deck and the supports: the joint of a joist, and how much less each seat moves."""
    calculation = Calculation()
    gamma = calculation.run(slip_modulus_wood, D=NAIL)
    for firm in (True, False):
        calculation.run(joint_stiffness, n=NAILS[firm], gamma=gamma)
    blocks: list[Block] = list(printed(calculation.at(()), page, {"D": "10d common nail"}))
    for joints in dict.fromkeys(state.joints for state in lateral.states):
        state = next(s for s in lateral.states if s.joints is joints)
        blocks.append(_give(lateral, state, joints))
    blocks.append(Statement(StatementKind.NOTE, (BETWEEN,)))
    return blocks


BETWEEN = (
    "y of a support in a case is its row times the V of that case, summed over the columns. The table is found by "
    "elastic theory: each beam bends laterally between the places where joists, boards or other beams hold it. Every "
    "joist holds it with the stiffness of one joint; boards hold a beam they lie on, each with the stiffness of two "
    "nails, only where the deck lies: past its edge or in an opening nothing does. Seats and crossings are rigid; "
    "plies bend as one with joints that hold firm, each by itself with joints that slip. It is solved as one frame in "
    "plan, not by hand."
)


def _give(lateral: LateralAnalysis, state: State, joints: Joints) -> Table:
    names = [
        f"{frame.support.mark} {WAYS[which]}"
        for i, frame in enumerate(lateral.frames)
        for which in (0, 1)
        if state.springs[i].k[which]
    ]
    held = [
        2 * i + which for i in range(len(lateral.frames)) for which in (0, 1) if state.springs[i].k[which]
    ]
    rows = tuple(
        (name, *(digits(NANO * float(state.give[r, c])) for c in held))
        for name, r in zip(names, held, strict=True)
    )
    caption = f"How much less a seat moves than the deck, from 1 lb of V at each, in units of 1e-9 in; {joints.value}"
    return Table(("seat", *names), rows, caption, "l" + "r" * len(names))


def trunk_blocks(lateral: LateralAnalysis, page: Page) -> list[Block]:
    """How far a trunk moves in a case with wind, and which way."""
    blocks: list[Block] = []
    for mark, sway in lateral.sway.items():
        own = [f for f in lateral.frames if isinstance(f, BoltFrame) and f.tree.mark == mark]
        if not sway or not own:
            continue
        calculation = Calculation()
        run_sway(calculation.run, lateral.path, own[0].tree, own[0].level)
        words = (
            f"In every case with wind {mark} moves at its bolts by s = {digits(sway)} in, along the wind, against or "
            "across it as the case says; g is the part of that along each direction of a bolt."
        )
        blocks += [Statement(StatementKind.ASIDE, (words,)), *printed(calculation.at(()), page)]
    return blocks
