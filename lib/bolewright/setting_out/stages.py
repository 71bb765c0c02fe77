"""Stages of the work: what stands before all is braced, what must be braced when, and what is lifted."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.pieces import Piece
from bolewright.platform.layout.wood_weight import timber_density
from bolewright.platform.loads.load_path import line_weight
from bolewright.platform.project.bearing import SupportKind
from bolewright.setting_out.levels import find_levels
from bolewright.setting_out.plan import posts_of
from bolewright.timber.sections import parse_section

TWO_PEOPLE = 100.0  # lb: more than this goes up by rope and tackle, not by two people on ladders (judgement)


@dataclass(frozen=True)
class Lift:
    """A piece as it is lifted: one ply at a time, and all plies of it together (lb)."""

    mark: str
    what: str
    ply: float
    whole: float


@dataclass(frozen=True)
class Stage:
    """A stage of the work: what is done, what must be braced or held before the next, what is lifted."""

    name: str
    hold: str
    lifts: tuple[Lift, ...]

    @property
    def heaviest(self) -> Lift | None:
        """Heaviest piece of the stage, as all its plies together."""
        return max(self.lifts, key=lambda lift: lift.whole, default=None)


def stages(layout: Layout, pieces: dict[str, Piece]) -> tuple[Stage, ...]:
    """Stages in order, from the bolts to the guard. What to hold is common practice and judgement."""
    found = []
    project = layout.project
    if any(s.kind == SupportKind.TREE_BOLT for s in layout.supports):
        found.append(
            Stage(
                "Bolts in the trunk, brackets on, hold-down clips loose",
                "Nothing hangs on a bolt before its depth has been measured. Nobody stands under the drill.",
                (),
            )
        )
    if posts_of(layout):
        found.append(
            Stage(
                "Posts in their holes, plumb, concrete round them",
                "Each post is braced in two directions to stakes until the frame is tied together. No load for 7 days "
                "of curing, longer below 50 °F (10 °C).",
                _post_lifts(layout),
            )
        )
    for layer in sorted({m.layer for m in layout.beams}, reverse=True):
        marks = [m.mark for m in layout.beams if m.layer == layer]
        what = ", ".join(sorted(marks))
        hold = (
            f"{what}: strapped or blocked against rotation at every seat before it is let go, plies fastened together "
            "before anything hangs on it, nobody on it."
        )
        found.append(Stage(f"Beams {what}", hold, _lifts(layout, pieces, marks)))
    if project.braces:
        found.append(
            Stage(
                "Knee braces " + ", ".join(brace.mark for brace in project.braces),
                "Bolted before joists go on; the temporary braces of the posts stay until the decking is on.",
                (),
            )
        )
    if project.crossed_rods:
        found.append(
            Stage(
                "Crossed rods " + ", ".join(rods.mark for rods in project.crossed_rods),
                "Posts plumb, then both rods of a pair drawn up hand tight in turn, none so far that a post leans; "
                "nuts locked. The temporary braces of the posts stay until the decking is on.",
                (),
            )
        )
    trunk = [s.mark for s in layout.supports if s.kind == SupportKind.KNEE_BRACE]
    if trunk:
        found.append(
            Stage(
                "Knee braces from the trunk " + ", ".join(trunk),
                "Both braces of a beam at once, the beam propped or held by tackle until all bolts at head and foot "
                "are tight and the upper bracket ties the beam to the trunk; nobody on the beam before.",
                (),
            )
        )
    found.append(
        Stage(
            "Joists, all hanger fasteners in",
            "A joist by itself tips over: boards are tacked across all of them in the middle of every span and "
            "fixed to a beam by others laid aslant, until decking holds them. One person, 20 psf at most, on planks "
            "over the beams.",
            _lifts(layout, pieces, [m.mark for m in layout.joists]),
        )
    )
    found.append(
        Stage(
            "Decking, then the guard",
            "The deck's open edge is fall ground: harness and anchor, or the guard's posts first. Temporary braces "
            "come off last, when the lateral system of the stability sheet is complete.",
            (),
        )
    )
    return tuple(found)


def _lifts(layout: Layout, pieces: dict[str, Piece], marks: list[str]) -> tuple[Lift, ...]:
    lifts = []
    for mark in marks:
        member = layout.member(mark)
        whole = line_weight(member) * pieces[mark].longest
        plies = member.section.plies
        lifts.append(Lift(mark, f"{plies} x {member.section.single}", whole / plies, whole))
    return tuple(lifts)


def _post_lifts(layout: Layout) -> tuple[Lift, ...]:
    lifts = []
    for level in find_levels(layout).at:
        if level.kind != SupportKind.POST or level.length is None:
            continue
        support = next(s for s in layout.supports if s.mark == level.support)
        timber = layout.project.posts[support.post or ""]
        section = parse_section(timber.section)
        rho = timber_density(timber.values(section), timber.wet)
        pounds = rho * section.b * section.d * level.length / 1728
        lifts.append(Lift(level.support, timber.section, pounds, pounds))
    return tuple(lifts)
