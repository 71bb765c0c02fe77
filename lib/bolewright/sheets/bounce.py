"""Bounce of the floor on the joists' sheet: a report, not a check."""

from __future__ import annotations

from bolewright.platform.results.bounce import FIRM, find_bounce
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.sheets.opening import Blocks
from bolewright.sheets.printing import printed


def bounce_blocks(results: Results) -> Blocks:
    """First frequency of the joist that swings slowest, line by line, then a table of all joists."""
    found = find_bounce(results.path)
    if not found:
        return Blocks((Statement(StatementKind.NOTE, ("There is no joist to swing.",)),))
    worst = min(found, key=lambda bounce: bounce.together)
    feel = "firm" if worst.together >= FIRM else "lively"
    rows = tuple((b.mark, f"{b.alone:.1f}", b.beam, f"{b.together:.1f}") for b in found)
    said = Statement(
        StatementKind.READING,
        (
            f"{worst.mark} swings slowest, at {worst.together:.1f} Hz, and feels {feel} underfoot: {FIRM:.0f} Hz and "
            "up feels firm (common practice). Reported, not judged. Posts and bolts count as rigid here, so that the "
            "floor is a little livelier than this.",
        ),
    )
    table = Table(
        ("joist", "alone (Hz)", "on", "together (Hz)"), rows, "First frequency under D + a tenth of L", "lrlr"
    )
    return Blocks((*printed(worst.steps), table, said))
