"""Tables of knee braces from a trunk: as they are cut, and their holes."""

from __future__ import annotations

from bolewright.rendering.blocks import Block, Table
from bolewright.setting_out.trunk_braces import TrunkBraceCut
from bolewright.sheets.lengths import Lengths


def trunk_brace_tables(found: tuple[TrunkBraceCut, ...], length: Lengths) -> tuple[Block, ...]:
    """How each is cut and placed, and where its bolts go."""
    cuts = tuple(
        (
            b.mark,
            b.section,
            b.foot,
            length(b.foot_level),
            length(b.below),
            length(b.standoff),
            length(b.long_edge),
            length(b.short_edge),
            f"foot square, head {b.level:.1f}°",
            f"{length(b.on_beam)} on {b.beam}",
        )
        for b in found
    )
    holes = tuple(
        (
            b.mark,
            ", ".join(length(x) for x in b.foot_holes) or "not given",
            ", ".join(length(x) for x in b.head_holes) or "not given",
            ", ".join(length(x) for x in b.beam_holes) or "not given",
        )
        for b in found
    )
    return (
        Table(
            (
                "brace",
                "section",
                "on bolt",
                "bearing above grade",
                "below the beam's underside",
                "bearing to foot, along it",
                "long edge",
                "short edge",
                "cuts from square",
                "middle of its head from the beam's start",
            ),
            cuts,
            "Knee braces from the trunk: under the middle of the beam, the long edge below",
            "lllrrrrrlr",
        ),
        Table(
            (
                "brace",
                "from its foot, at the foot",
                "from its foot, at the head",
                "in the beam, from its start",
            ),
            holes,
            "Holes of knee braces from the trunk: on the brace's middle line, in the beam at mid-depth",
            "lrrr",
        ),
    )
