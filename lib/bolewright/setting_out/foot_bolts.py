"""Bolts through the feet of posts: how long they are, where they go through the post, before the concrete is poured.

As the check of uplift takes them (NDS 2018): six diameters in the concrete on both sides (12.3.1, Table 12E), the
lowest seven diameters above the post's end and the next four apart (Tables 12.5.1A and B), on the post's middle line.
"""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.platform.layout.layout import Layout
from bolewright.platform.project import Post
from bolewright.setting_out.plan import posts_of
from bolewright.timber.sections import parse_section

IN_CONCRETE, END, APART = 6.0, 7.0, 4.0  # diameters
USUAL = 0.5  # in: where the file gives no diameter, as the check takes it


@dataclass(frozen=True)
class FootBolts:
    """The bolts through the foot of every post of a kind; lengths in inches.

    ``each`` post has as many; ``out`` is how far they stick out of it into the concrete on both sides, ``heights`` how
    far their middles lie above the post's end.
    """

    kind: str
    marks: tuple[str, ...]
    each: int
    diameter: float
    out: float
    length: float
    heights: tuple[float, ...]


def foot_bolts(layout: Layout) -> tuple[FootBolts, ...]:
    """Those of all kinds of posts that have any, in the order of the supports."""
    found: dict[str, list[str]] = {}
    for support in posts_of(layout):
        if layout.project.posts[support.post or ""].foot_bolts:
            found.setdefault(support.post or "", []).append(support.mark)
    return tuple(_of(layout.project.posts[kind], kind, marks) for kind, marks in found.items())


def _of(post: Post, kind: str, marks: list[str]) -> FootBolts:
    D = post.foot_bolt_diameter or USUAL
    section, each = parse_section(post.section), post.foot_bolts or 0
    return FootBolts(
        kind,
        tuple(marks),
        each,
        D,
        IN_CONCRETE * D,
        max(section.b, section.d) + 2 * IN_CONCRETE * D,
        tuple((END + APART * k) * D for k in range(each)),
    )
