"""Guards: what takes their posts, where one has to stand; what they do to the framing stands in the framing's rows."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.bracing.guard import drop_at_edge
from bolewright.calculation import Calculation
from bolewright.platform.checks.guard_common import ANY, NEEDED
from bolewright.platform.checks.guard_edges import guard_edge_checks
from bolewright.platform.checks.guard_posts import guard_post_checks
from bolewright.platform.checks.guard_ways import gate_checks, way_checks
from bolewright.platform.layout.guard_joints import gap_behind
from bolewright.platform.layout.guard_ways import covered_edges, ground_beside, posts_in_ways
from bolewright.platform.layout.guards import GuardRun, find_guards
from bolewright.platform.layout.parts import Layout
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.units import INCH, feet_inches

MOST_GAP = (
    0.25  # in between a post and what it stands against: no more than boards and cuts are out (judgement)
)


def guard_checks(layout: Layout) -> list[Check]:
    """All checks of all guards as parts; none where the file has none."""
    if not layout.project.guards:
        return []
    runs = find_guards(layout)
    checks = [check for run in runs for check in _posts(layout, run)]
    checks += [check for run in runs for check in guard_edge_checks(layout, run)]
    checks += _left_out(layout)
    return [*checks, *way_checks(layout), *gate_checks(layout), *_missing(layout)]


def _posts(layout: Layout, run: GuardRun) -> Iterator[Check]:
    """Checks of the posts of a guard on one edge."""
    held = [post for post in run.posts if post.receiver is not None]
    for post in run.posts:
        if post.receiver is None:
            yield not_checked(
                post.mark,
                "guard.receiver",
                f"{post.mark} stands at {feet_inches(post.along)} of edge {post.edge} on the rim alone: its "
                "moment would pull "
                "the rim's nails out of end grain, which has no capacity (NDS 2018, 12.5.2), so no calculation "
                "exists that "
                "passes. Put the post at a joist's end with a hold-down, or put a block to the next joist there.",
            )
            continue
        gap = gap_behind(layout, post)
        if gap > MOST_GAP:
            yield not_checked(
                post.mark,
                "guard.receiver",
                f"{post.mark} stands at the deck's edge, {feet_inches(gap)} off {post.receiver.mark} and all other "
                "framing: its bolts would be bent over the gap and nothing is pressed behind it, which is not "
                "calculated. Bring joists or a rim out to the edge there, or the edge back to them.",
            )
            continue
        yield nothing_asked(
            post.mark,
            "guard.receiver",
            f"{post.mark} is tied to {post.receiver.mark}; what its moment does there stands in that member's rows.",
            case=ANY,
        )
    if held:
        yield from guard_post_checks(layout, held)


def _left_out(layout: Layout) -> Iterator[Check]:
    """Posts that the file puts where the guard is open."""
    for guard, edge, place, way in posts_in_ways(layout.project):
        what = f"the {way.what}" if way.what in ("stairs", "ladder") else f"gate {way.what}"
        yield not_checked(
            f"{guard.mark} on edge {edge}",
            "guard.receiver",
            f"The post of guard {guard.mark} at {feet_inches(place)} of edge {edge} is left out: it would stand in the "
            f"way of {what}, where the guard is open from {feet_inches(way.low)} to {feet_inches(way.high)}. Move it "
            "past that, or take it out of places.",
        )


def _missing(layout: Layout) -> Iterator[Check]:
    """Edges of the outline with no guard, where the floor is more than 30 in. over the lowest ground beside them."""
    project = layout.project
    covered = covered_edges(project) | set(project.loads.guard_edges)
    for edge in range(1, len(project.platform.outline) + 1):
        if edge in covered:
            continue
        low, mark = ground_beside(project, edge)
        calculation = Calculation((1, 1))
        h_g = calculation.run(drop_at_edge, h=project.platform.floor_height, g=low)
        where = f" at {mark}" if mark else ", taken as grade: give [[ground]] where it is lower"
        yield from judge(
            calculation,
            [f"edge {edge}"],
            [ANY],
            key="guard.missing",
            demand=np.array([[float(h_g)]]),
            capacity=NEEDED,
            unit=INCH,
            says="the height of the floor over the ground",
            notes=(f"Lowest ground within 36 in. of the edge: {feet_inches(low)} above grade{where}.",),
        )
