"""What these sheets do not calculate, each with who decides it: said beside the verdict, never left to be guessed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.platform.analysis.drift import drift_edges
from bolewright.platform.layout.guard_ways import covered_edges
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

ANCHORS = NotCalculated(
    "hoist and anchors",
    ENGINEER,
    "An anchor against a fall wants 5,000 lb or its own design (OSHA 1926.502).",
)
NOT_CALCULATED = (
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
        "tree bolts in wood of unlike stiffness",
        ENGINEER,
        "All bolts are taken in stiff wood together, and in soft. One in wood four times as stiff as that of the "
        "others draws more lateral load: up to 1.6 times as much of two bolts, 2.3 times of four.",
    ),
    NotCalculated(
        "net section of beams at the bolts of guards' posts with wind and sway",
        ENGINEER,
        "Overturning and lateral force bend a beam more than weight alone. Its own bending and shear count it, what "
        "the two holes of a guard's post leave of it does not; of joists, rims and blocks it does.",
    ),
    NotCalculated(
        "the lateral rating of hangers and joists' ties together with their other ratings",
        ENGINEER,
        "What presses, lifts or turns an end at its edges comes with lateral force from the deck; each rating counts "
        "by itself here. In platforms that were tried the shares of two add up to 1.45: ask the maker whether the "
        "connection takes both at once, or fasten the end for the lateral force with steel angles of their own.",
    ),
    NotCalculated(
        "bending of joists by the couples at their ends",
        ENGINEER,
        "A joist whose connection keeps a beam from turning gets a couple there. Its edges count it, its bending and "
        "shear and the load down on its connections do not: in a platform that was tried 140 psi, 12 % of what the "
        "joist may have, and 52 lb on a hanger.",
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
    """What is not calculated for a project: what it has and lacks of guards and ways up, and :data:`NOT_CALCULATED`."""
    against = drift_edges(project)
    found = (
        *_guards(project),
        *_ways_up(project),
        *_edges_of_stairs(project),
        *_knees(project),
        *_swings(project),
        ANCHORS,
        *NOT_CALCULATED,
    )
    if not against:
        return found
    why = (
        f"Snow drifts against {', '.join(against)}; the sheets count it everywhere alike and in patterns of full and "
        "half (ASCE 7-16, 7.7 and 7.8; none where h_c/h_b is below 0.2)."
    )
    return (*found, NotCalculated("snow drift", ENGINEER, why))


def _guards(project: Project) -> Iterator[NotCalculated]:
    """Guards on edges that no part of the file stands for; what is left out of those that are parts."""
    edges = sorted(set(project.loads.guard_edges) - covered_edges(project))
    if edges:
        yield NotCalculated(
            f"guard on {_edges(edges)}",
            ENGINEER,
            "It is no part of the file ([[guard]]): its weight and wind are counted, but neither its rails, infill and "
            "posts nor how they are fixed.",
        )


def _ways_up(project: Project) -> Iterator[NotCalculated]:
    """Stairs and ladders: that there is none in the file, or what is left out of what there is."""
    if not (project.stairs.given or project.ladder.given):
        yield NotCalculated(
            "stairs or ladder",
            ENGINEER,
            "The file has none with a place: what is built loads the floor's edge and is not counted.",
        )
        return
    if project.stairs.given:
        yield NotCalculated(
            "infill and handrail brackets of the stairs' rails",
            ENGINEER,
            "Posts of the rails, treads, stringers and what they bring to the floor are calculated; balusters, the "
            "handrail itself and its brackets are not.",
        )
    if project.ladder.given and not project.ladder.steep:
        yield NotCalculated(
            "handrails of the ship's ladder",
            ENGINEER,
            "Rails, treads and fixings of the ladder are calculated; of its handrails the height alone: not how they "
            "are fixed for 200 lb (IRC 2021, Table R301.5).",
        )
    yield NotCalculated(
        f"foot of the {'stairs' if project.stairs.given else 'ladder'} held laterally",
        ENGINEER,
        "Wind along the edge that they hang on comes half to the floor and half to the foot, which must be held there: "
        "how is not calculated.",
    )
    if project.hatch.given and not any(guard.opening for guard in project.guards):
        yield NotCalculated(
            "guard round the hatch",
            ENGINEER,
            "The cover, its weight and the framing round it are calculated, a guard round the opening is not.",
        )


def _knees(project: Project) -> Iterator[NotCalculated]:
    """What is left out of the knees of posts: the deck's movement by weight, and slack in one of two at a post."""
    if project.braces:
        yield NotCalculated(
            "movement and load of supports as knees under weight push the deck",
            ENGINEER,
            "Its lateral forces are counted, not the movement, in two frames that were tried 0.04 to 0.12 in. more at "
            "the gap of a trunk and in a slot; nor what that push lifts and presses: up to 9 % on the cap of a post "
            "whose knee none faces, and a quarter of what holds it down.",
        )
    at = [(brace.support, brace.beam) for brace in project.braces]
    pairs = [post for (post, beam), count in Counter(at).items() if count > 1]
    if pairs:
        yield NotCalculated(
            f"slack in one of the two knees of {', '.join(pairs)}",
            ENGINEER,
            "Both are counted as tight. Until slack in the bolt holes of one has closed the other bears what is meant "
            "for both, twice its share where they are alike, and lifts or presses the cap with it: drill holes no more "
            "than 1/32 in. over the bolt (NDS 2018, 12.1.3.2), draw both knees tight while the post stands plumb, or "
            "size each for all of it.",
        )


def _swings(project: Project) -> Iterator[NotCalculated]:
    """What a swing or hammock needs beside the strength of what it hangs on."""
    hung = [load.mark for load in project.point_loads if load.form in ("swing", "hanging chair", "hammock")]
    if hung:
        yield NotCalculated(
            f"room round {', '.join(hung)}, and the ground below",
            ENGINEER,
            "How far it reaches at its widest, how near trunk, posts, braces and ladder are then, how high one falls "
            "and on what. Its lateral force is counted in the plane that the file gives (direction): a seat on one "
            "rope swings in every direction.",
        )
        yield NotCalculated(
            f"pull of {', '.join(hung)} across or along its member together with wind and sway",
            ENGINEER,
            "Bending by both is counted with weight alone; what wind and sway add to the weight is in the rows of "
            "the member's own bending, which leave out that pull.",
        )


def _edges_of_stairs(project: Project) -> Iterator[NotCalculated]:
    """Hangers of stringers with a rating at their edges, which one load asks for beside that down."""
    if project.stairs.given and project.stairs.head_edge is not None:
        yield NotCalculated(
            "the rating at the edges of the stairs' hangers together with that down or up",
            ENGINEER,
            "Each counts by itself here, though one load on the stairs asks for both: ask the maker whether it takes "
            "both at once. Their shares added may come to twice what is rated.",
        )


def _edges(edges: list[int]) -> str:
    return f"edge{'s' if len(edges) > 1 else ''} {', '.join(map(str, edges))}"
