"""Over the years: what to look at on every part and when, the girth to expect, the dates that growth sets."""

from __future__ import annotations

import datetime
import math
from dataclasses import dataclass

from bolewright.calculation import Calculation
from bolewright.formulas import formula
from bolewright.platform.checks.seats import held_by_fasteners
from bolewright.platform.layout.layout import Bearing, Layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Tree
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.setting_out.plan import posts_of
from bolewright.tree.growth import girth_after
from bolewright.units import YEAR, AreaFeet, AreaLoad, Force, Ratio

ONE_OF_MANY = 200.0  # lb, a person in a crowd, for the sign only (judgement)
SPRING, AUTUMN, STORM = "in spring, after frost", "in autumn", "after every storm"


@dataclass(frozen=True)
class Look:
    """One line of the round: the parts, what to look for, when, and what to do when it is so."""

    marks: tuple[str, ...]
    what: str
    when: str
    then: str


@dataclass(frozen=True)
class Due:
    """A date that growth sets: what comes to an end for a part, how many years on, in which year."""

    part: str
    what: str
    years: float
    year: int


@formula("Statics (crowd on the whole floor)")
def crowd_of_design(w_L: AreaLoad, A: AreaFeet, W_person: Force) -> Ratio:
    """How many people the design live load on the whole floor stands for.

    Parameters: w_L design live load (psf); A area of the deck (ft²); W_person weight of one person (lb).
    Returns: N number of people. Source: statics.

    >>> crowd_of_design(60.0, 70.0, 200.0)
    21.0
    """
    W_L: Force = w_L * A
    N: Ratio = W_L / W_person
    return N


def rounds(layout: Layout) -> tuple[Look, ...]:
    """The inspector's round over the parts that this platform has, from the tree down to the soil and back up."""
    project = layout.project
    bolts = tuple(s.mark for s in layout.supports if s.kind == SupportKind.TREE_BOLT)
    posts = tuple(s.mark for s in posts_of(layout))
    framing = (m for m in layout.members if not held_by_fasteners(m))
    hung = tuple(m.mark for m in framing if any(s.bearing is Bearing.HANGS for s in m.seats))
    sliding = tuple(
        s.mark
        for s in layout.supports
        if s.kind == SupportKind.TREE_BOLT and s.lateral in ("slides", "slides across", "floats")
    )
    found = [
        Look(
            tuple(tree.mark for tree in project.trees),
            "dead limbs above, fungus, cracks, lean, bare roots, weeping or loose bark at the bolts",
            f"{SPRING}; {STORM}",
            "nobody goes up until an arborist has looked",
        ),
        Look(
            bolts,
            "clearance between bark and bracket, bolt bent or lower than it was, soft or brown wood round the hole",
            f"{AUTUMN}; {STORM}",
            "unload the bolt; arborist and engineer before it carries again",
        ),
        Look(
            sliding,
            "bracket free to slide both ways, slot clear of leaves and ice, hold-down clip on and not tight",
            f"{SPRING}; {AUTUMN}",
            "clear it; set it back to the middle of its slot",
        ),
        Look(
            posts,
            "plumb; soil washed out, heaved or settled at the foot; soft wood at the ground line under a knife",
            SPRING,
            "level the seats again by the as-built sheet; replace a soft post",
        ),
        Look(
            tuple(m.mark for m in layout.beams),
            "leaned over on a seat, split at a bolt, a ply opening, water standing between plies",
            SPRING,
            "prop it before its ties are touched",
        ),
        Look(
            tuple(m.mark for m in layout.blocking),
            "a gap at its ends, wood split at the nails or screws, heads that stand out",
            SPRING,
            "nail or screw it again beside the split, or hang it",
        ),
        Look(
            hung,
            "hangers: every hole filled, nails backing out, rust, a gap at the end of the joist",
            SPRING,
            "replace with the fasteners the maker names; no odd screws",
        ),
        Look(
            tuple(brace.mark for brace in project.braces)
            + tuple(s.mark for s in layout.supports if s.kind == SupportKind.KNEE_BRACE)
            + tuple(d.mark for d in project.diagonals)
            + tuple(rods.mark for rods in project.crossed_rods),
            "bolts and straps tight, no hole worn long, no split at an end",
            f"once after the first summer; {STORM}",
            "draw up; a worn hole means a bigger bolt by calculation, not a washer",
        ),
        Look(
            ("decking",),
            "soft or cupped boards, heads standing up, leaves packed in gaps, boards touching the bark",
            f"{SPRING}; {AUTUMN}",
            "clear, replace, cut back to the gap of the deck sheet",
        ),
        Look(
            ("guard",) if project.loads.guard_edges else (),
            "lean on every post with your weight from inside, low and without risk: nothing moves, no rot at its foot",
            f"{SPRING}; before every gathering",
            "close the platform until it is fast",
        ),
    ]
    return tuple(look for look in found if look.marks)


def girth_to_expect(tree: Tree, years: float) -> float:
    """Girth over the bark after so many years of the growth in the project file (in)."""
    now = tree.girth if tree.girth is not None else math.pi * float(tree.diameter or 0.0)
    return float(Calculation().run(girth_after, C_1=now, g=tree.growth, t=years))


def dues(results: Results) -> tuple[Due, ...]:
    """What growth brings to an end, soonest first, from the checks that count in years."""
    day = results.path.layout.project.title.date
    found = [
        _due(check, day) for check in results.checks if check.unit == YEAR and math.isfinite(check.capacity)
    ]
    return tuple(sorted(found, key=lambda due: (due.years, due.part)))


def _due(check: Check, day: datetime.date) -> Due:
    years = max(check.capacity, 0.0)
    what = check.limit_state.removeprefix("years until ")
    return Due(check.part, what, years, day.year + math.floor(years + (day.timetuple().tm_yday - 1) / 365.25))
