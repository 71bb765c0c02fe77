"""What the file says of rims, blocking and spacers: short timbers between joists or beams, and along joists' ends."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Annotated, Any, Literal

from pydantic import Field, StrictBool, StrictInt, StringConstraints

from bolewright.platform.project.fields import Mark, Measure, Name, Rated, Size, Small, Text
from bolewright.platform.project.hatch import is_made_of_hatch
from bolewright.platform.project.timber import Timber
from bolewright.units import INCH

Fastener = Literal["10d nail", "16d nail", "20d nail", "No. 10 screw", "No. 12 screw", "No. 14 screw"]
_TIMBER = ("species", "grade", "material")
_ONES = ("stairs", "ladder")  # tables that stand once and take the joists' timber


class Blocking(Timber):
    """A rim along the ends of joists, a row of blocking between joists, or a spacer between two beams.

    Each piece goes from one joist or beam to the next and hangs in both: in hangers with a rating, or by nails or
    screws driven into end grain. Its timber is that of the joists or beams it is fastened to where none is given.
    """

    section: Name = ""
    """Size as a builder writes it, such as 2x8; empty for that of the joists or beams (common practice: as deep)."""
    mark: Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Za-z]{0,3}$")] = "BL"
    """Letters of these pieces; they are numbered BL1, BL2 and so on (common practice)."""
    kind: Literal["rim", "blocking", "spacer"] = "blocking"
    """A rim along joists' ends, blocking between joists, or a spacer between two beams (common practice)."""
    joists: Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Za-z]{0,3}$")] | None = None
    """Field of joists along whose ends a rim runs; empty for the first (common practice)."""
    end: Literal["start", "end"] = "end"
    """At which end of those joists a rim runs, as their direction goes (common practice)."""
    between: Annotated[tuple[Mark, ...], Field(max_length=2)] = ()
    """First and last joist of the row, or the two beams; empty for a rim along all of its field (common practice)."""
    over: Mark | None = None
    """Beam over which the row of blocking runs, along its middle line; or give along (common practice)."""
    along: Annotated[float, Measure(INCH, least=0, most=1200)] | None = None
    """In place of over: how far along the first of them, from its start, the row lies (common practice)."""
    past: Small = 0.0
    """How far a rim may run out past the first and last joist, along the edge of the deck (common practice: 0 in)."""
    drop: Small = 0.0
    """How far its top lies below the tops of what it hangs between, 0 in for flush (common practice: 0 in)."""
    hanger: Mark | None = None
    """Hanger at each of its ends, by its name among the hangers; or give fasteners (common practice)."""
    fasteners: Annotated[StrictInt, Field(ge=1, le=12)] | None = None
    """Nails or screws at each end of a piece, of a rim at each joist, into end grain (NDS 2018, 12.5.2)."""
    fastener: Fastener = "16d nail"
    """Which nails or screws: common nails, or wood screws by gage (NDS 2018, Appendix L)."""
    fastener_length: Size | None = None
    """Length of those screws; 3 1/2 in where none is given, a nail's goes with its size (NDS 2018, Appendix L)."""
    restrains_beam: StrictBool = False
    """Whether its connections keep the beams beside it from turning; edge_load rates them (common practice)."""
    edge_load: Rated | None = None
    """Rated load of its connections at the upper and lower edge, off their maker's sheet."""
    rated_alone: StrictBool = False
    """Whether its maker allows each rating in full while the others act too, or each is of a piece of its own."""
    tie_note: Text = ""
    """Where the maker's ratings of its connections are printed."""


def with_timber(raw: Any) -> Any:
    """A project as it was read, each rim, block and spacer with the timber of what it is fastened to if it has none.

    Text of the file goes through unread: what is wrong in it is said by the model.
    """
    entries = raw.get("blocking") if isinstance(raw, Mapping) else None
    if not isinstance(entries, list | tuple):
        return raw
    return {**raw, "blocking": [_filled(raw, entry) for entry in entries]}


def given_timber(raw: Mapping[str, Any]) -> dict[str, Any]:
    """Species, grade or material of the first joists, and whether they are wet and incised: for parts without them."""
    joists = next((field for field in _entries(raw, "joists") if isinstance(field, Mapping)), {})
    return {key: joists[key] for key in (*_TIMBER, "wet", "incised") if key in joists}


def is_handed_out(where: Sequence[str | int], raw: Any) -> bool:
    """Whether a value of a part is that of the joists or beam it is fastened to, where it is said too."""
    if is_made_of_hatch(tuple(where), raw):
        return True
    if len(where) > 1 and where[0] in _ONES:
        return where[1] in (*_TIMBER, "wet", "incised") and where[1] not in raw.get(where[0], {})
    filled = (*_TIMBER, "section", "wet", "incised")
    if len(where) < 3 or where[0] not in ("blocking", "guard") or where[2] not in filled:
        return False
    try:
        return where[2] not in raw[where[0]][where[1]]
    except (KeyError, IndexError, TypeError):
        return False


def _filled(raw: Mapping[str, Any], entry: Any) -> Any:
    if not isinstance(entry, Mapping):
        return entry
    other = _fastened_to(raw, entry)
    found = dict(entry)
    if not found.get("section") and "section" in other:
        found["section"] = other["section"]
    if not any(key in found for key in _TIMBER):
        found |= {
            key: other[key] for key in (*_TIMBER, "wet", "incised") if key in other and key not in found
        }
    return found


def _fastened_to(raw: Mapping[str, Any], entry: Mapping[str, Any]) -> Mapping[str, Any]:
    """Entry of the joists or beam that a rim, block or spacer is fastened to first; else that of the first joists."""
    between = entry.get("between")
    first = between[0] if isinstance(between, list | tuple) and between else None
    joists = [field for field in _entries(raw, "joists") if isinstance(field, Mapping)]
    for beam in _entries(raw, "beam"):
        if isinstance(beam, Mapping) and first is not None and beam.get("mark") == first:
            return beam
    letters = entry.get("joists") or (first.rstrip("0123456789") if isinstance(first, str) else None)
    named = [field for field in joists if field.get("mark", "J") == letters]
    return (named or joists or [{}])[0]


def _entries(raw: Mapping[str, Any], key: str) -> list[Any]:
    found = raw.get(key)
    return list(found) if isinstance(found, list | tuple) else []
