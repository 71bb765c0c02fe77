"""Deck boards held to the limits that the user read off their maker's sheet: no strength is calculated."""

from __future__ import annotations

from bolewright.calculation import Calculation
from bolewright.platform.layout.boards import board_spans
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.load_areas import heaviest
from bolewright.platform.loads.load_path import LoadPath
from bolewright.units import INCH, PSF, Unit, feet_inches

MARK = "decking"
DIGITS = (
    4  # of a distance in inches: joists at 16 in meet a limit of 16 in, whatever the last digits of geometry
)
LITTLE = 1 / 16  # in: an end no longer than this past a joist's face is cut flush with it
NOTE = "No strength of these boards is calculated: the limits of their maker's sheet are taken as they were entered."
LOAD_NOTE = (
    "The larger of live load and snow, with what always stands on the deck, without the weight of the boards."
)
PERSON_NOTE = (
    "One heavy person on one board is not calculated: the maker's sheet answers for it at that span."
)


def board_limit_checks(path: LoadPath, limit: float) -> list[Check]:
    """Span, load and end of the boards beside what their maker's sheet allows."""
    project = path.layout.project
    decking = project.decking
    clear = decking.span_measured == "clear"
    span, _ = board_spans(path.layout, clear=clear)
    checks = [
        _beside(
            limit,
            round(span, DIGITS),
            INCH,
            "decking.span_limit",
            f"the distance between joists along the boards, {decking.span_measured},",
            "all",
            (NOTE, PERSON_NOTE, *filter(None, (decking.span_note,))),
        )
    ]
    live = project.loads.live + heaviest(project, "live")
    snow = project.site.ground_snow + heaviest(project, "snow")
    dead = heaviest(project, "dead")
    if decking.span_load is None:
        reason = "Give span_load, the load that the limit of span of the boards' maker holds for."
        checks.append(not_checked(MARK, "decking.load_limit", reason))
    else:
        load = max(live, snow) + dead
        says = "the load on the boards"
        checks.append(
            _beside(decking.span_load, load, PSF, "decking.load_limit", says, "L or S", (NOTE, LOAD_NOTE))
        )
    return [*checks, *_end(path)]


def _end(path: LoadPath) -> list[Check]:
    """The boards' ends past the face of the last joist; none where they are cut flush with it."""
    past = round(board_spans(path.layout, clear=True)[1], DIGITS)
    limit = path.layout.project.decking.end_limit
    if past <= LITTLE:
        return []
    if not limit:
        reason = (
            f"The boards run out {feet_inches(past)} past the last joist: give end_limit, what their maker's sheet "
            "allows there, or a joist nearer to the edge."
        )
        return [not_checked(MARK, "decking.end_limit", reason)]
    return [_beside(limit, past, INCH, "decking.end_limit", "their end past the last joist", "all", (NOTE,))]


def _beside(
    limit: float, found: float, unit: Unit, key: str, says: str, case: str, notes: tuple[str, ...]
) -> Check:
    calculation = Calculation((1, 1))
    (check,) = judge(
        calculation, [MARK], [case], key=key, demand=found, capacity=limit, unit=unit, says=says, notes=notes
    )
    return check
