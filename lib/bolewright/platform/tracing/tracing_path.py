"""The path of a burden part by part: one plain sentence and the one equation of each step."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.bracing.trunk_brace import trunk_brace_compression, trunk_brace_force
from bolewright.calculation import Calculation, Step
from bolewright.ground.soil import round_footing_area
from bolewright.mechanics.lever import (
    moment_of_force,
    pressure_added,
    reaction_left,
    share_by_lever,
    still_held_down,
    weight_spread,
)
from bolewright.mechanics.statics import other_reaction, reaction_by_moments
from bolewright.platform.analysis.bolts import bolt_in_place
from bolewright.platform.checks.footings import allowable_bearing
from bolewright.platform.layout.parts import Bearing
from bolewright.platform.layout.trunk_braces import trunk_brace
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Footing, Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.tracing.tracing import Carried, Crowd, Drift, Person, Trace
from bolewright.units import feet_inches

LEAST = 0.0005  # share of the burden below which a part is left out of the path


@dataclass(frozen=True)
class PathStep:
    """One step down: the part, its sentence, the equation with its numbers, and the parts it hands on to."""

    part: str
    sentence: str
    steps: tuple[Step, ...]
    hands_to: tuple[str, ...]


def path_steps(path: LoadPath, trace: Trace) -> tuple[PathStep, ...]:
    """Steps of a burden from the boards to the soil and into the trunk."""
    return (
        _boards(trace),
        *(_member(trace, carried) for carried in trace.carried.values() if _counts(trace, carried)),
        *_supports(path, trace),
    )


def pounds(force: float) -> str:
    """A force to the pound in words, without its sign: ``95 lb``."""
    size = abs(force)
    return f"{size:,.0f} lb" if size >= 9.5 else f"{size:.1f} lb" if size >= 0.05 else "nothing"


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _counts(trace: Trace, carried: Carried) -> bool:
    return max(map(abs, carried.seats)) >= LEAST * trace.total


def _boards(trace: Trace) -> PathStep:
    landed = [
        (carried.member, load)
        for carried in trace.carried.values()
        for load in carried.arriving
        if load.source == "boards"
    ]
    marks = tuple(member.mark for member, _ in landed)
    calculation = Calculation()
    P = trace.total
    match trace.burden:
        case Person() if len(landed) == 2:
            (near, one), (far, other) = sorted(landed, key=lambda item: item[1].total >= 0)
            places = [m.line.at(float(load.at[0])) for m, load in landed]
            gap = math.dist(*places)
            R = calculation.run(share_by_lever, P=P, a=gap * other.total / P, l=gap)
            calculation.run(other_reaction, W=P, R_B=R)
            said = (
                f"You stand past {far.mark}, the last member under your boards: by the lever it gets "
                f"{pounds(other.total)}, more than your {pounds(P)}, and {near.mark}, {feet_inches(gap)} back, is "
                f"lifted by {pounds(one.total)}."
                if one.total < 0
                else f"The boards under your feet reach from {near.mark} to {far.mark}, {feet_inches(gap)} apart: "
                f"{near.mark} gets {pounds(one.total)} and {far.mark} {pounds(other.total)} of your {pounds(P)}; the "
                "nearer one gets more."
            )
        case Person():
            member = landed[0][0]
            calculation.run(reaction_left, W=P, R_others=0.0)
            past = (
                f" {feet_inches(trace.aside)} past its line, where no other holds the board"
                if trace.aside > 1
                else ""
            )
            over = "on" if past else "right over"
            said = f"You stand {over} {member.mark}{past}: it gets all of your {pounds(P)}."
        case Crowd(_, psf):
            calculation.run(weight_spread, q=psf, A=P / psf)
            said = (
                f"The crowd weighs {pounds(P)}; the boards hand it to {_range(marks)}: half of what lies between "
                "two to each, and what lies past the last by the lever, more than all of it to that one."
            )
        case Drift(_, psf, width):
            calculation.run(weight_spread, q=psf / 2, A=2 * P / psf)
            said = (
                f"The drift weighs {pounds(P)}, most of it within {feet_inches(width / 2)} of the edge; the boards "
                f"hand it to {_range(marks)}."
            )
    return PathStep("boards", said, calculation.at(()), marks)


def _range(marks: tuple[str, ...]) -> str:
    return _listed(list(marks)) if len(marks) <= 3 else f"{len(marks)} members, {marks[0]} to {marks[-1]}"


def _member(trace: Trace, carried: Carried) -> PathStep:
    member, seats = carried.member, carried.member.seats
    W = carried.total
    felt = [
        (seat.below, force)
        for seat, force in zip(seats, carried.seats, strict=True)
        if abs(force) >= LEAST * trace.total
    ]
    given = [f"{mark} {pounds(force)}" for mark, force in felt if force > 0]
    lifts = [f"{mark} by {pounds(force)}" for mark, force in felt if force < 0]
    onto = [f"{verb} {_listed(some)}" for verb, some in (("gives", given), ("lifts", lifts)) if some]
    sits = "hangs from" if seats[0].bearing is Bearing.HANGS else "rests on"
    kind = member.kind.value
    bears = f"carries {pounds(W)} of it" if W >= 0 else f"is pulled up with {pounds(W)}"
    calculation = Calculation()
    if len(seats) == 2:
        first, second = seats
        M_A = carried.moments_about(first.at)
        R_B = calculation.run(reaction_by_moments, M_A=M_A, l=second.at - first.at)
        calculation.run(other_reaction, W=W, R_B=R_B)
        how = f"by moments about {first.below}"
    elif len(seats) == 1:
        calculation.run(reaction_left, W=W, R_others=0.0)
        how = "held from tipping by the two knees of its post, which bend it"
    else:
        calculation.run(reaction_left, W=W, R_others=sum(carried.seats[1:]))
        how = "as a beam over more than two supports, which bends to share it (three-moment equations)"
    lever = (
        " It works as a lever: what hangs out past one support lifts the other."
        if lifts and len(seats) == 2
        else ""
    )
    said = (
        f"The {kind} {member.mark} {bears}, {sits} {_listed([s.below for s in seats])}, and, "
        f"{how}, {_listed(onto)}.{lever}"
    )
    return PathStep(member.mark, said, calculation.at(()), tuple(seat.below for seat in seats))


def _supports(path: LoadPath, trace: Trace) -> Iterator[PathStep]:
    for support in path.layout.supports:
        force = trace.reactions[support.mark]
        if abs(force) < LEAST * trace.total:
            continue
        dead = float(path.reactions[support.mark] @ path.dead)
        yield (
            _lifted(support, force, dead)
            if force < 0
            else (
                _post(path, trace, support, force)
                if support.kind == SupportKind.POST
                else _brace(path, trace, support, force)
                if support.kind == SupportKind.KNEE_BRACE
                else _bolt(path, trace, support, force)
            )
        )


def _lifted(support: Support, force: float, dead: float) -> PathStep:
    calculation = Calculation()
    calculation.run(still_held_down, D=dead, U=-force)
    rest = (
        f"the platform's own weight holds it down with {pounds(dead)}, so it stays down by {pounds(dead + force)}"
        if dead + force > 0
        else f"the platform's own weight holds it down with only {pounds(dead)}: without a tie it lifts off"
    )
    said = f"{support.mark} is lifted by {pounds(force)}; {rest}."
    return PathStep(support.mark, said, calculation.at(()), ())


def base_area(footing: Footing, calculation: Calculation) -> float:
    """Area of a footing's base (sq ft)."""
    side = footing.width / 12
    return float(calculation.run(round_footing_area, d_f=side)) if footing.shape == "round" else side**2


def _post(path: LoadPath, trace: Trace, support: Support, force: float) -> PathStep:
    footing = path.layout.project.footings[support.footing or ""]
    calculation = Calculation()
    A = base_area(footing, calculation)
    q = calculation.run(pressure_added, R=force, A=A)
    said = (
        f"The post {support.mark} takes {pounds(force)}, {trace.share(support.mark):.0%} of the weight, down to its "
        f"footing, which presses the soil with {q:,.0f} psf more; in all it may bear "
        f"{allowable_bearing(path):,.0f} psf."
    )
    return PathStep(support.mark, said, calculation.at(()), ("soil",))


def _brace(path: LoadPath, trace: Trace, support: Support, force: float) -> PathStep:
    brace = trunk_brace(path.layout, support)
    calculation = Calculation()
    F = float(calculation.run(trunk_brace_force, R=force, a=brace.a, r=brace.r))
    T = float(calculation.run(trunk_brace_compression, R=force, a=brace.a, r=brace.r))
    said = (
        f"The knee brace {support.mark} takes {pounds(force)}, {trace.share(support.mark):.0%} of the weight, with "
        f"{pounds(F)} along itself down to tree bolt {brace.foot.mark}; it pushes {brace.beam.mark} outwards with "
        f"{pounds(T)}, which the upper bolt or the brace that leans the other way holds back."
    )
    return PathStep(support.mark, said, calculation.at(()), (str(brace.foot.tree),))


def _bolt(path: LoadPath, trace: Trace, support: Support, force: float) -> PathStep:
    placed = bolt_in_place(path, support)
    calculation = Calculation()
    calculation.run(moment_of_force, R=force, e=placed.e)
    said = (
        f"The tree bolt {support.mark} takes {pounds(force)}, {trace.share(support.mark):.0%} of the weight, "
        f"{feet_inches(placed.e)} out from the sound wood, and turns it into the trunk of {support.tree}: the wood "
        "above and below the bolt holds this moment, and the trunk carries the weight down to its roots."
    )
    return PathStep(support.mark, said, calculation.at(()), (str(support.tree),))
