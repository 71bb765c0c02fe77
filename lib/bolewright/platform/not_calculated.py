"""What these sheets do not calculate, each with who decides it: said beside the verdict, never left to be guessed."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.platform.drift import drift_edges
from bolewright.platform.project import Project


@dataclass(frozen=True)
class NotCalculated:
    """One matter that is not calculated: what, who decides it, and why or what to do about it."""

    what: str
    who: str
    why: str


ENGINEER = "licensed engineer"
ARBORIST = "qualified arborist"
OFFICIAL = "building department"

NOT_CALCULATED = (
    NotCalculated(
        "guard, gate, stairs, ladder, hoist and anchors",
        ENGINEER,
        "Rails, infill, posts and steps, and how they are fixed; an anchor against a fall wants 5,000 lb or its own "
        "design (OSHA 1926.502).",
    ),
    NotCalculated(
        "ice on platform, guard and crown",
        OFFICIAL,
        "It says whether ice is to be designed for (ASCE 7-16, chapter 10); ice and shed limbs load the platform.",
    ),
    NotCalculated(
        "wind from below",
        ENGINEER,
        "Wind under an open deck on a slope or in a gap lifts it; ASCE 7-16 has no coefficient for such a floor.",
    ),
    NotCalculated(
        "frost that grips a footing's side (adfreeze)",
        ENGINEER,
        "It lifts rough concrete even below the frost line: a smooth sleeve or a bell at the foot is common practice.",
    ),
    NotCalculated(
        "fatigue of bolts in a moving trunk",
        ENGINEER,
        "A trunk bends a tied bolt some million times a year; look at bolts and thread at every service.",
    ),
    NotCalculated(
        "root plate and stability of the tree in the ground",
        ARBORIST,
        "A trunk can stand sound and go over with its roots; holes for footings cut roots.",
    ),
    NotCalculated(
        "decay in the trunk and round the bolts",
        ARBORIST,
        "Green wood is counted as sound; wounds let decay in, and years change it.",
    ),
    NotCalculated(
        "lightning", ARBORIST, "Whether the tree is to be protected; nobody is up there in a storm."
    ),
    NotCalculated(
        "earthquake beyond the total lateral force",
        ENGINEER,
        "Vertical shaking, drift and the tree's own movement in an earthquake (ASCE 7-16, 12.4.2.2 and 12.8.6).",
    ),
    NotCalculated(
        "permit, zoning, access for everybody, fire",
        OFFICIAL,
        "Its rules stand over everything here.",
    ),
)


def not_calculated(project: Project) -> tuple[NotCalculated, ...]:
    """What is not calculated for a project: all of :data:`NOT_CALCULATED`, and what its own shape brings."""
    against = drift_edges(project)
    if not against:
        return NOT_CALCULATED
    why = (
        f"Snow drifts against {', '.join(against)}; the sheets count it everywhere alike and in patterns of full and "
        "half (ASCE 7-16, 7.7 and 7.8; none where h_c/h_b is below 0.2)."
    )
    return (*NOT_CALCULATED, NotCalculated("snow drift", ENGINEER, why))
