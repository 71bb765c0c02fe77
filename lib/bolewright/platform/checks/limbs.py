"""Limbs, forks and leaning trunks beside the platform: clearance for sway and growth where it is least."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.calculation import Calculation
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.layout.limbs import near, ways_beside
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.project import Limb
from bolewright.tree.growth import gap_needed, years_to_contact
from bolewright.units import INCH, feet_inches

HEAD_ROOM = 80.0  # in (IRC 2021, R311.7.2, from memory)
OVER_NOTE = (
    "From the floor's level to the lowest underside of the limb within 12 in. of the flight in plan, less sway and "
    "growth: on the safe side of the head room over the noses (IRC 2021, R311.7.2)."
)
ASIDE_NOTE = (
    "Taken in plan, along the whole limb: what is higher or lower than the flight counts as beside it."
)
NOTE = "Taken along the whole limb, with its lean and taper, where it is least; for guards every edge counts."


def limb_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every limb that the file describes."""
    return [check for limb in lateral.path.layout.project.limbs for check in _limb(lateral, limb)]


def _limb(lateral: LateralAnalysis, limb: Limb) -> list[Check]:
    layout = lateral.path.layout
    tree = next(t for t in layout.project.trees if t.mark == limb.tree)
    growth = limb.growth if limb.growth is not None else tree.growth
    checks = []
    for what, clear, level in near(layout, limb):
        if limb.sway is None:
            checks.append(
                not_checked(
                    limb.mark,
                    "limb.clearance",
                    f"{limb.mark} is {clear:.1f} in. from {what}, but its sway is not given: enter what was seen.",
                    at=what,
                )
            )
            continue
        calculation = Calculation((1, 1))
        c = calculation.run(gap_needed, s=limb.sway, g=growth, t=tree.service, m=tree.margin)
        years = float(years_to_contact(c=max(clear, 0.0), g=growth))
        said = f"{feet_inches(level)} above grade; the bark is there in {years:.0f} years at rest"
        checks += judge(
            calculation,
            [limb.mark],
            ["any"],
            key="limb.clearance",
            at=what,
            demand=c,
            capacity=clear,
            unit=INCH,
            says=f"the clearance required to {what}",
            where=lambda row, column, said=said: said,  # type: ignore[misc]
            notes=(NOTE,),
            nothing=f"it is in the place of {what}",
        )
    return [*checks, *_way_up(lateral, limb, growth)]


def _way_up(lateral: LateralAnalysis, limb: Limb, growth: float) -> Iterator[Check]:
    """Stairs and ladder: clear of them in plan, with sway and growth, or head room over the floor's level."""
    project = lateral.path.layout.project
    tree = next(t for t in project.trees if t.mark == limb.tree)
    ways = list(ways_beside(lateral.path.layout, limb))
    for way in ways:
        if limb.sway is None:
            why = (
                f"{limb.mark} is {way.aside:.1f} in. from the {way.what} in plan, but its sway is not given."
            )
            yield not_checked(limb.mark, "limb.way_up", why, at=way.what)
            continue
        calculation = Calculation((1, 1))
        c = calculation.run(gap_needed, s=limb.sway, g=growth, t=tree.service, m=tree.margin)
        over = None if way.over is None else way.over - project.platform.floor_height - float(c)
        if over is not None and way.aside < float(c) and over > 0:
            yield from judge(
                Calculation((1, 1)),
                [limb.mark],
                ["any"],
                key="limb.way_up",
                at=way.what,
                demand=HEAD_ROOM,
                capacity=over,
                unit=INCH,
                says=f"the head room wanted over the {way.what}",
                notes=(OVER_NOTE,),
            )
            continue
        yield from judge(
            calculation,
            [limb.mark],
            ["any"],
            key="limb.way_up",
            at=way.what,
            demand=c,
            capacity=way.aside,
            unit=INCH,
            says=f"the clearance wanted to the {way.what}",
            notes=(ASIDE_NOTE,),
            nothing=f"it is in the place of the {way.what}",
        )
    if not ways and (project.stairs.given or project.ladder.given):
        why = (
            f"{limb.mark}: stairs or ladder have no place in the file, so its clearance to them is not known."
        )
        yield not_checked(limb.mark, "limb.way_up", why, at="stairs or ladder")
