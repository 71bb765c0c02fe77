"""What the file says of a hatch: a hole between the joists, framed by headers and trimmers, with a cover.

The hole makes its framing: an opening of the deck, two headers across the joists that it cuts, and two trimmers beside
it, written into the project as beams HH1, HH2, HT1, HT2, so that every check, drawing and list has them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, StrictBool, StrictInt

from bolewright.platform.project.fields import Mark, Measure, Point, Rated, Strict, Text
from bolewright.timber.sections import SectionError, parse_section
from bolewright.units import DEGREE, INCH, POUND

TRIMMERS, HEADERS = ("HT1", "HT2"), ("HH1", "HH2")
_INCH = Measure(INCH)
_ANGLE = Measure(DEGREE)
_TIES = (
    *("lateral_tie", "rotation_tie", "uplift_tie", "edge_load", "rated_alone", "tie_note"),
    *("ply_rows", "ply_spacing"),
)


class Hatch(Strict):
    """A hatch through the deck; ``at`` alone gives one of 30 by 36 in. with doubled trimmers."""

    at: Point | None = None
    """Middle of the hole, in plan: x, y; empty: no hatch (common practice)."""
    length: Annotated[float, Measure(INCH, least=12, most=96)] = 36.0
    """Clear length of the hole along the joists (common practice: 36 in)."""
    width: Annotated[float, Measure(INCH, least=12, most=96)] = 30.0
    """Clear width of the hole across the joists (common practice: 30 in)."""
    joists: Mark | None = None
    """Field of joists that it cuts; empty for the first (common practice)."""
    trimmer_plies: Annotated[StrictInt, Field(ge=1, le=3)] = 2
    """How many joists side by side make a trimmer (IRC 2021, R502.10: two where a header is over 4 ft)."""
    header_plies: Annotated[StrictInt, Field(ge=1, le=3)] = 1
    """How many boards side by side make a header (IRC 2021, R502.10: two over 4 ft)."""
    hanger: Mark | None = None
    """Hanger of headers and of trimmers that hang, by its name among the hangers (common practice)."""
    ply_rows: Annotated[StrictInt, Field(ge=2, le=6)] = 2
    """Rows of 10d nails between the plies of trimmers and headers (IRC 2021, R507.5: two)."""
    ply_spacing: Annotated[float, Measure(INCH, least=3, most=16)] = 16.0
    """Spacing of those nails along each row (IRC 2021, R507.5: 16 in at most)."""
    lateral_tie: Rated | None = None
    """Rated side load of what fastens a trimmer to each beam that it rests on, off its maker's sheet."""
    rotation_tie: Rated | None = None
    """Rated load of the tie on each side that keeps a trimmer upright on a beam, off its maker's sheet."""
    uplift_tie: Rated | None = None
    """Rated uplift of what ties a trimmer down to each beam, off its maker's sheet."""
    edge_load: Rated | None = None
    """Rated load of its hangers at the upper and lower edge, off their maker's sheet."""
    rated_alone: StrictBool = False
    """Whether its maker allows each rating in full while the others act too, or each is of a piece of its own."""
    tie_note: Text = ""
    """Where the maker's ratings of these ties are printed."""
    cover_weight: Annotated[float, Measure(POUND, positive=True, most=300)] | None = None
    """Weight of the cover; empty: that of its boards and a fourth more for battens (common practice: weigh it)."""
    held_open: Rated | None = None
    """Rated load of the latch that holds the cover open against the wind, off its maker's sheet."""
    held_note: Text = ""
    """Where that rating of the maker's is printed."""
    open_guard: Literal["three sides", "closes behind"] | None = None
    """Open, whether a guard stands on three sides, or whoever passes closes it behind (IRC 2021, R312.1.1)."""

    @property
    def given(self) -> bool:
        """Whether the file describes a hatch."""
        return self.at is not None


def with_hatch(raw: Any) -> Any:
    """A project as it was read, with the opening, headers and trimmers that its hatch makes.

    Text that can't be read goes through as it is: what is wrong in it is said by the model.
    """
    hatch = raw.get("hatch") if isinstance(raw, Mapping) else None
    if not isinstance(hatch, Mapping) or "at" not in hatch:
        return raw
    try:
        opening, beams = _framing(raw, hatch)
        platform, others = raw["platform"], raw["platform"].get("openings", [])
    except (ValueError, KeyError, TypeError, IndexError, AttributeError, ArithmeticError, SectionError):
        return raw
    if not isinstance(others, list) or not isinstance(raw["beam"], list):
        return raw
    return {
        **raw,
        "platform": {**platform, "openings": [*others, opening]},
        "beam": [*raw["beam"], *beams],
    }


def is_made_of_hatch(where: tuple[Any, ...], raw: Any) -> bool:
    """Whether a place is in a header or trimmer that the hatch made, which the file does not have."""
    entries = raw.get("beam", []) if isinstance(raw, Mapping) else []
    return len(where) > 1 and where[0] == "beam" and isinstance(where[1], int) and where[1] >= len(entries)


def _framing(raw: Mapping[str, Any], hatch: Mapping[str, Any]) -> tuple[list[Any], list[dict[str, Any]]]:
    fields = raw["joists"]
    field = next(
        (f for f in fields if f.get("mark", "J") == hatch.get("joists", fields[0].get("mark", "J"))),
        fields[0],
    )
    angle = math.radians(_ANGLE.read(field.get("direction", "0 deg")))
    u = (math.cos(angle), math.sin(angle))
    n = (-u[1], u[0])
    x, y = (_INCH.read(value) for value in hatch["at"])
    s, t = x * u[0] + y * u[1], x * n[0] + y * n[1]
    length, width = (
        _INCH.read(hatch.get(key, text)) for key, text in (("length", "36 in"), ("width", "30 in"))
    )
    b = parse_section(field["section"]).b
    trims, heads = int(hatch.get("trimmer_plies", 2)), int(hatch.get("header_plies", 1))

    def plan(along: float, across: float) -> list[str]:
        place = (along * u[0] + across * n[0], along * u[1] + across * n[1])
        return [f"{round(value, 4)!r} in" for value in place]

    low, high = s - length / 2, s + length / 2
    near, far = t - width / 2, t + width / 2
    ring = [plan(low, near), plan(high, near), plan(high, far), plan(low, far)]
    common = {
        key: field[key]
        for key in ("section", "species", "grade", "material", "wet", "incised")
        if key in field
    }
    common |= {key: hatch[key] for key in _TIES if key in hatch}
    if "hanger" in hatch or "hanger" in field:
        common["hanger"] = hatch.get("hanger", field.get("hanger"))
    hung = field.get("bearing") == "hung"
    layer = 1 if hung else 0
    sides = (near - trims * b / 2, far + trims * b / 2)
    beams: list[dict[str, Any]] = []
    for mark, across in zip(TRIMMERS, sides, strict=True):
        start, end = _reach(raw, field, u, n, across, s, hung=hung)
        ends = {"from": plan(start, across), "to": plan(end, across)}
        own = common if hung else {key: value for key, value in common.items() if key != "hanger"}
        beams.append({"mark": mark, "plies": trims, "layer": layer, **ends, **own})
    for mark, along in zip(HEADERS, (low - heads * b / 2, high + heads * b / 2), strict=True):
        ends = {"from": plan(along, sides[0]), "to": plan(along, sides[1])}
        beams.append({"mark": mark, "plies": heads, "layer": layer, **ends, **common})
    return ring, beams


def _reach(
    raw: Mapping[str, Any],
    field: Mapping[str, Any],
    u: tuple[float, float],
    n: tuple[float, float],
    across: float,
    s: float,
    *,
    hung: bool,
) -> tuple[float, float]:
    """Where a trimmer starts and ends along the joists: at the beams beside the hole, or over all that it rests on."""
    named = field.get("beams") or None
    places = list(_crossings(raw, named, u, n, across))
    before, after = [p for p in places if p < s], [p for p in places if p > s]
    if hung:
        return max(before), min(after)
    outline = [tuple(_INCH.read(value) for value in corner) for corner in raw["platform"]["outline"]]
    edges = list(_edge_crossings(outline, u, n, across))
    low = max(p for p in edges if p < s)
    high = min(p for p in edges if p > s)
    return min([low, *(p for p in before if p > low)]), max([high, *(p for p in after if p < high)])


def _crossings(
    raw: Mapping[str, Any],
    named: Any,
    u: tuple[float, float],
    n: tuple[float, float],
    across: float,
) -> Iterator[float]:
    for beam in raw["beam"]:
        if (named and beam["mark"] not in named) or int(beam.get("layer", 1)) > 1:
            continue
        ends = [tuple(_INCH.read(value) for value in beam[key]) for key in ("from", "to")]
        yield from _edge_crossings(ends, u, n, across, closed=False)


def _edge_crossings(
    points: list[tuple[float, ...]],
    u: tuple[float, float],
    n: tuple[float, float],
    across: float,
    *,
    closed: bool = True,
) -> Iterator[float]:
    """Places along the joists where a line across them, at that distance, meets the sides of a ring or a line."""
    ring = [(x * u[0] + y * u[1], x * n[0] + y * n[1]) for x, y in points]
    pairs = zip(ring, [*ring[1:], ring[0]], strict=True) if closed else zip(ring, ring[1:], strict=False)
    for (s0, t0), (s1, t1) in pairs:
        if min(t0, t1) - 0.5 <= across <= max(t0, t1) + 0.5 and abs(t1 - t0) > 1e-6:
            yield s0 + (across - t0) / (t1 - t0) * (s1 - s0)
