"""Geometry of stairs by the code that is adopted, and what goes with them: landing, handrail, guard."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.calculation import Calculation
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stair_rules import (
    GUARD_ABOVE,
    HANDRAIL,
    HEAD_ROOM,
    NO_NOSING,
    NOSING,
    OPENING,
    StairRules,
    rules_of,
)
from bolewright.platform.layout.stairs import MARK, StairPlan
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.platform.project import Project
from bolewright.timber.stairs import riser_height, stair_opening
from bolewright.units import INCH, NONE, Unit, feet_inches

NO_CODE = "The file names no building code (code.basis): the IBC's limits are taken, which ask for more."
TRIANGLE = (
    "In the triangle of riser, tread and lower rail a sphere of 6 in. may not pass (IRC 2021, R312.1.3)."
)


def stair_geometry_checks(layout: Layout, plan: StairPlan) -> list[Check]:
    """Steps, width, landing, handrail and guard against the limits of the code."""
    project = layout.project
    rules = rules_of(project)
    return [
        *_steps(project, plan, rules),
        *_between(plan, rules),
        *_around(plan, rules),
        *_handrail(plan, rules),
        *_guard(plan, rules),
    ]


def _held(
    key: str,
    demand: float,
    capacity: float,
    says: str,
    clause: str = "",
    *,
    calculation: Calculation | None = None,
    unit: Unit = INCH,
    notes: tuple[str, ...] = (),
    nothing: str = "",
) -> list[Check]:
    return judge(
        calculation or Calculation((1, 1)),
        [MARK],
        ["any"],
        key=f"stairs.{key}",
        demand=demand,
        capacity=capacity,
        unit=unit,
        clause=clause,
        says=says,
        notes=notes,
        nothing=nothing,
    )


def _steps(project: Project, plan: StairPlan, rules: StairRules) -> Iterator[Check]:
    stairs, floor = plan.stairs, project.platform.floor_height
    notes = () if project.code.basis else (NO_CODE,)
    calculation = Calculation((1, 1))
    h_r = calculation.run(riser_height, H_f=floor, z_f=plan.level, n=float(plan.count))
    low = calculation.branch()
    yield from _held(
        "riser",
        h_r,
        rules.riser,
        "the height of a riser",
        rules.riser_clause,
        calculation=calculation,
        notes=notes,
    )
    if rules.least_riser:
        yield from _held(
            "least_riser", rules.least_riser, h_r, "the least height of a riser", calculation=low
        )
    yield from _held(
        "tread_depth", rules.tread, plan.run, "the least depth of a tread", rules.tread_clause, notes=notes
    )
    yield from _held("width", rules.width, stairs.width, "the least width", rules.width_clause)
    yield from _held("flight", plan.rise, rules.flight, "the rise of the flight", rules.flight_clause)


def _between(plan: StairPlan, rules: StairRules) -> Iterator[Check]:
    """What passes between two treads, and their nosing."""
    stairs = plan.stairs
    if stairs.risers == "open" and plan.rise > rules.open_above:
        calculation = Calculation((1, 1))
        g = calculation.run(stair_opening, h_r=plan.riser, t=plan.tread, c=stairs.riser_strip)
        yield from _held(
            "opening",
            max(g, 0.0),
            OPENING,
            "the opening between two treads",
            rules.open_clause,
            calculation=calculation,
        )
    if stairs.risers == "closed":
        if plan.run >= NO_NOSING:
            yield nothing_asked(MARK, "stairs.nosing", "Treads of 11 in. and more ask for no nosing.")
        elif stairs.nosing > NOSING[1]:
            yield from _held("nosing", stairs.nosing, NOSING[1], "the nosing of a tread")
        else:
            yield from _held("nosing", NOSING[0], stairs.nosing, "the least nosing of a tread")


def _around(plan: StairPlan, rules: StairRules) -> Iterator[Check]:
    stairs = plan.stairs
    deep = rules.landing_for(stairs.width)
    if stairs.head_room is None:
        said = "The file names nothing above the stairs (stairs.head_room): look for limbs on the site."
        yield nothing_asked(MARK, "stairs.head_room", said)
    else:
        yield from _held("head_room", HEAD_ROOM, stairs.head_room, "the head room that stairs need")
    if stairs.landing is None:
        why = (
            f"The landing at the foot of the stairs is not given (stairs.landing): {feet_inches(deep)} deep "
            f"at least, and as wide as they ({rules.landing_clause})."
        )
        yield not_checked(MARK, "stairs.landing", why)
    else:
        yield from _held(
            "landing",
            deep,
            stairs.landing,
            "the least depth of the landing",
            rules.landing_clause,
            nothing="there is no landing",
        )


def _handrail(plan: StairPlan, rules: StairRules) -> Iterator[Check]:
    stairs = plan.stairs
    sides = {"none": 0, "one side": 1, "both sides": 2, None: 0}[stairs.handrail]
    wanted = rules.rails if plan.count >= rules.rails_from else 0
    if wanted and stairs.handrail is None:
        why = (
            f"Stairs of {plan.count} risers want a handrail on {'one side' if wanted == 1 else 'both sides'} "
            f"({rules.rails_clause}); the file does not say where there is one (stairs.handrail)."
        )
        yield not_checked(MARK, "stairs.handrail", why)
    elif wanted:
        yield from _held(
            "handrail",
            float(wanted),
            float(sides),
            "the number of handrails",
            rules.rails_clause,
            unit=NONE,
            nothing="there is no handrail",
        )
    if not sides:
        return
    if stairs.handrail_height is None:
        why = "The height of the handrail is not given (stairs.handrail_height): 34 to 38 in. over the noses."
        yield not_checked(MARK, "stairs.handrail_height", why)
    elif stairs.handrail_height > HANDRAIL[1]:
        yield from _held("handrail_height", stairs.handrail_height, HANDRAIL[1], "the height of the handrail")
    else:
        yield from _held(
            "handrail_height", HANDRAIL[0], stairs.handrail_height, "the least height of the handrail"
        )


def _guard(plan: StairPlan, rules: StairRules) -> Iterator[Check]:
    stairs = plan.stairs
    if plan.rise > GUARD_ABOVE:
        asked = (
            f"they rise {feet_inches(plan.rise)}, and from {GUARD_ABOVE:g} in. on an open side wants a guard"
        )
        if stairs.guard_height is None:
            why = (
                f"The guard on the stairs is not given (stairs.guard_height): {asked} ({rules.guard_clause})."
            )
            yield not_checked(MARK, "stairs.guard_height", why)
        else:
            yield from _held(
                "guard_height",
                rules.guard,
                stairs.guard_height,
                "the least height of the guard",
                rules.guard_clause,
            )
        if stairs.guard_opening is None:
            why = f"The openings of the guard on the stairs are not given (stairs.guard_opening): {asked}."
            yield not_checked(MARK, "stairs.guard_opening", why)
        else:
            yield from _held(
                "guard_opening",
                stairs.guard_opening,
                rules.guard_opening,
                "the sphere that passes the guard",
                rules.guard_opening_clause,
                notes=(TRIANGLE,),
            )
