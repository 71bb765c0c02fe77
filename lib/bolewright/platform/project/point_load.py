"""What the file says of loads at one place: a thing that stands or hangs, a swing, a hammock, a pulley."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, StrictBool

from bolewright.platform.project.fields import Mark, Measure, Point, Rated, Strict, Text
from bolewright.units import DEGREE, INCH, NONE, POUND

_ANCHOR = (
    "an anchor that catches falling people takes several thousand pounds and is a life-safety device: a qualified "
    "engineer designs it and a qualified person inspects it"
)
_ROPE = (
    "people moved along or balanced on a stretched rope bring forces of several thousand pounds and fatigue: a "
    "qualified engineer designs it and a qualified person inspects it"
)
REFUSED = {
    "fall arrest anchor": _ANCHOR,
    "climbing anchor": _ANCHOR,
    "belay anchor": _ANCHOR,
    "zip line": _ROPE,
    "slack line": _ROPE,
    "high rope": _ROPE,
    "trapeze": _ROPE,
    "attachment to a house": (
        "a ledger on a house loads and is held by a wall that this file knows nothing of, and the tree moves against "
        "it: keep the platform free-standing, or have an engineer design the connection"
    ),
    "second storey": (
        "more than one storey over the platform changes wind, way out and code: an engineer and the building department"
    ),
    "roof": (
        "a roof brings snow, wind and uplift of its own, which no check here takes: what stands on the deck can be "
        "given as [[load_area]] and [[point_load]], the roof itself is an engineer's"
    ),
}
_OTHER_WORDS = {  # by which people look for the same
    "house": "attachment to a house",
    "ledger": "attachment to a house",
    "wall of a house": "attachment to a house",
    "storey": "second storey",
    "story": "second storey",
    "level": "second storey",
    "anchor": "fall arrest anchor",
}


def refused(name: str) -> str:
    """Why a kind of thing, a table or a support of that name is not to be calculated here at all; empty: it may be.

    >>> refused("zip_line").startswith("people moved along")
    True
    >>> refused("swing")
    ''
    """
    words = name.strip().lower().replace("_", " ")
    return REFUSED.get(_OTHER_WORDS.get(words, words), "")


def _form(value: object) -> object:
    """Refuse, with its reason, what is not to be calculated here at all."""
    if isinstance(value, str) and (why := refused(value)):
        raise ValueError(f"{value!r} is refused: {why}")
    return value


class PointLoad(Strict):
    """A load at one place of the deck or of a member: a thing that stands or hangs there, or one that people swing on.

    ``weight`` is static; ``impact`` multiplies it where it moves or is dropped, with its source in ``impact_note``.
    A swing, hanging chair or hammock makes its own lateral force from ``angle``.
    """

    mark: Mark
    """Short name of the load on sheets and drawings (common practice)."""
    form: Annotated[
        Literal["thing", "swing", "hanging chair", "hammock", "pulley"], BeforeValidator(_form)
    ] = "thing"
    """What it is; a swing, hammock or pulley makes force of its own from its weight (mechanics)."""
    at: Point | None = None
    """Where it stands on the deck, in plan: x, y; or give a member (common practice)."""
    member: Mark | None = None
    """Mark of the joist or beam that it is fastened to, in place of a point on the deck (common practice)."""
    along: Annotated[float, Measure(INCH, least=0, most=2400)] | None = None
    """How far from the member's start, along it; also with ``at`` left out (common practice)."""
    other_end: Annotated[float, Measure(INCH, least=0, most=2400)] | None = None
    """Of a hammock: how far along the same member its other end hangs; empty: not on this platform (statics)."""
    kind: Literal["dead", "live", "snow", "wind"] = "live"
    """Dead stays for good, live comes and goes, snow lies with the snow, wind is a lateral force (ASCE 7-16, 2.4.1)."""
    weight: Annotated[float, Measure(POUND, least=0, most=20_000)] = 0.0
    """Weight that bears down there, without impact: of the thing with all in it (common practice: weigh it)."""
    up: Annotated[float, Measure(POUND, least=0, most=20_000)] = 0.0
    """Force that lifts there (statics)."""
    lateral: Annotated[float, Measure(POUND, least=0, most=20_000)] = 0.0
    """Lateral force there; of wind at strength level (statics; ASCE 7-16, 26)."""
    direction: Annotated[float, Measure(DEGREE, least=-360, most=360)] = 0.0
    """Direction of the lateral force in plan: 0 deg along x, 90 deg along y; a swing's plane (common practice)."""
    reverses: StrictBool | None = None
    """Whether the lateral force comes both ways; empty: for swings yes, else no (mechanics)."""
    height: Annotated[float, Measure(INCH, least=-240, most=240)] | None = None
    """Its height over the floor, minus below; empty: floor, a member's middle, its underside if it hangs (statics)."""
    angle: Annotated[float, Measure(DEGREE, least=5, most=90)] | None = None
    """Angle a swing is let go at from hanging straight, or of a hammock's rope below level (mechanics)."""
    impact: Annotated[float, Measure(NONE, least=1, most=4)] | None = None
    """Impact factor on weight and lateral force; empty: 1, hammock 2, pulley 1.5 (common practice)."""
    impact_note: Text = ""
    """Where that impact factor comes from (common practice, or a maker's sheet)."""
    patch: Annotated[float, Measure(INCH, least=0, most=96)] = 0.0
    """Length along the member over which it bears (common practice)."""
    fastener_load: Rated | None = None
    """Rated load of what fastens or hangs it, off its maker's sheet; nothing that only stands needs one."""
    fastener_note: Text = ""
    """Where that rating of the maker's is printed."""
    note: Text = ""
    """What it is, in words (common practice)."""
