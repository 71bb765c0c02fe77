"""Inputs of the sheet of stairs and ladders."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.layout.hatches import cover_weight
from bolewright.platform.layout.stair_loads import dead_of, person_of
from bolewright.platform.layout.stair_rules import rules_of, stair_live
from bolewright.platform.loads.load_path import LoadPath
from bolewright.rendering.numbers import fmt
from bolewright.units import PSF, feet_inches

Pairs = tuple[tuple[str, str], ...]
NONE = (("Way up", "the file describes no stairs and no ladder ([stairs], [ladder])"),)


def access_inputs(path: LoadPath) -> Pairs:
    """What the file says of the ways up, and what follows from it."""
    layout = path.layout
    project, plan = layout.project, layout.stairs
    stairs = project.stairs
    ladder = (*_ladder(path), *_hatch(path))
    if plan is None:
        if stairs.given:
            return (("Stairs", "set out only: the file gives no edge for them"), *ladder)
        return ladder or NONE
    rules = rules_of(project)
    values = stairs.values(plan.section)
    top = "flush with the floor" if stairs.flush else "one riser down"
    head = plan.heads[0].member or "nothing"
    return (
        ("Rules", f"{rules.code}, {project.code.words or 'no code is named in the file'}"),
        (
            "Stairs",
            f"on edge {stairs.edge}, hung on {head}, {feet_inches(stairs.width)} wide, from "
            f"{feet_inches(plan.level)} above grade: {plan.count} risers of {feet_inches(plan.riser)}, {plan.treads} "
            f"treads of {feet_inches(plan.run)}, the top one {top}",
        ),
        (
            "Stringers",
            f"{stairs.stringers} {stairs.cut}, {plan.section.name} {values.species} {values.grade}, "
            f"{feet_inches(plan.spacing)} on centre; level span {feet_inches(plan.going)}, slope {plan.theta:.1f}°",
        ),
        ("Treads", f"{stairs.tread_section} laid flat, {stairs.risers} risers"),
        (
            "Loads",
            f"dead {fmt(dead_of(layout, plan), PSF)} of plan, live {fmt(stair_live(project), PSF)} "
            f"({'the file' if stairs.live is not None else rules.live_clause}), snow "
            f"{fmt(project.site.ground_snow, PSF)}, one person {person_of(project):g} lb",
        ),
        *ladder,
    )


def _hatch(path: LoadPath) -> Iterator[tuple[str, str]]:
    hatch = path.layout.project.hatch
    if hatch.at is None:
        return
    yield (
        "Hatch",
        f"{feet_inches(hatch.width)} by {feet_inches(hatch.length)} along the joists; trimmers HT1, HT2 of "
        f"{hatch.trimmer_plies}, headers HH1, HH2 of {hatch.header_plies}: they stand on the sheet of beams",
    )
    yield (
        "Cover",
        f"{cover_weight(path.layout):.0f} lb, lies on both trimmers; open: {hatch.open_guard or 'not said'}",
    )


def _ladder(path: LoadPath) -> Iterator[tuple[str, str]]:
    plan = path.layout.ladder
    if plan is None:
        return
    ladder = plan.ladder
    values = ladder.values(plan.section)
    where = (
        f"edge {ladder.edge}" if ladder.opening is None else f"edge {ladder.edge} of opening {ladder.opening}"
    )
    round_ = ladder.rung_diameter is not None
    step = f"{ladder.rung_diameter:g} in. round" if round_ else f"{ladder.step_size} laid flat"
    yield (
        ladder.kind.capitalize(),
        f"at {where}, head at {plan.member or 'nothing'}, {feet_inches(plan.height)} up at {plan.pitch:g}°, "
        f"{feet_inches(plan.clear)} clear; {plan.count - 1} steps of {feet_inches(plan.rise)}, {step}",
    )
    yield "Rails", f"{plan.section.name} {values.species} {values.grade}"
    yield "Load", "300 lb at any point, 300 lb more for each full 10 ft (ASCE 7-16, 4.5.4)"
