"""Checks that are open until somebody else settles them: the guard's load on the framing, a tree with a fault."""

from __future__ import annotations

import re
from collections.abc import Iterator

from bolewright.platform.layout.guard_ways import covered_edges
from bolewright.platform.layout.parts import Layout
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.free_ends import free_ends
from bolewright.platform.project import Project, Tree
from bolewright.units import feet_inches

FAULTS = frozenset(
    [
        "hollow",
        "cavity",
        "decay",
        "decayed",
        "rot",
        "rotten",
        "rotting",
        "soft",
        "fungus",
        "fungi",
        "conk",
        "mushroom",
        "mushrooms",
        "crack",
        "cracked",
        "cracks",
        "split",
        "splits",
        "dead",
        "dying",
        "dieback",
        "lightning",
        "wound",
        "wounds",
        "wounded",
        "union",
        "fork",
        "canker",
        "cankers",
        "girdled",
        "girdling",
        "borer",
        "borers",
        "beetle",
        "beetles",
        "disease",
        "diseased",
        "lean",
        "leans",
        "leaning",
        "heaved",
        "uprooted",
        "broken",
        "seam",
        "weak",
        "hazard",
        "unsound",
    ]
)
LOOSE = 1.5  # in: boards may end an inch or two past their last member (common practice)
DENIED = re.compile(r"\b(no|not|none|without|never|free of|free from)\b", re.IGNORECASE)
PARTS = re.compile(
    r"[,;.:]|\bbut\b|\bthough\b|\balthough\b|\bexcept\b|\bhowever\b|\bwith\b(?!out)", re.IGNORECASE
)


def open_checks(project: Project) -> list[Check]:
    """The guard's 200 lb on the framing, and every tree of which the file names a fault."""
    return [*_guard(project), *(check for tree in project.trees for check in _tree(tree))]


def board_end_checks(layout: Layout) -> list[Check]:
    """Ends of boards past a member that no other member holds down: they tip when somebody steps there."""
    return [
        not_checked(
            "platform",
            "platform.board_ends",
            f"Boards at {end.edge} end {feet_inches(end.past)} past {end.member}, and no member inward holds them "
            "down: they tip under a foot there. Put blocking or a rim under their ends, run them over another member, "
            "or trim them.",
            at=f"{end.edge}, past {end.member}",
        )
        for end in free_ends(layout)
        if not end.held and end.past > LOOSE
    ]


def _guard(project: Project) -> Iterator[Check]:
    open_edges = [e for e in project.loads.guard_edges if e not in covered_edges(project)]
    if open_edges and project.guards:
        yield not_checked(
            "guard",
            "platform.guard",
            f"The guard on edge {', '.join(map(str, open_edges))} is no part of the file ([[guard]]): its 200 lb are "
            "not carried into posts, joists and beams there; an engineer, or the guard's tested drawing, says how.",
        )
    elif open_edges:
        yield not_checked(
            "guard",
            "platform.guard",
            "The guard's 200 lb at its top, in any direction, is not carried into posts, joists and beams here: an "
            "engineer, or the guard's tested drawing, says how it is fixed to the framing.",
        )


def faults_named(condition: str) -> tuple[str, ...]:
    """Words for a fault in what the arborist wrote, without those in a phrase that denies them.

    >>> faults_named("Sound, no union or old wound within 6 ft"), faults_named("Conk at the foot, not deep")
    ((), ('conk',))
    """
    found = []
    for phrase in PARTS.split(condition):
        denied = DENIED.search(phrase)
        for match in re.finditer(r"[a-z]+", phrase.lower()):
            if match[0] in FAULTS and not (denied and denied.start() < match.start()):
                found.append(match[0])
    return tuple(dict.fromkeys(found))


def _tree(tree: Tree) -> Iterator[Check]:
    named = faults_named(tree.condition)
    if not named and tree.cavity == 0:
        return
    what = f"names {', '.join(named)}" if named else "gives a cavity"
    yield not_checked(
        tree.mark,
        "tree.condition",
        f"{tree.mark} is open for the arborist: what the file says of it {what}. Whether it may carry a platform is "
        "not calculated.",
    )
