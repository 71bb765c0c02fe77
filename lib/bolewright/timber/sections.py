"""Sections of sawn timber: a builder's names and what they measure (NDS Supplement Tables 1A, 1B)."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from enum import Enum
from functools import lru_cache

from bolewright.mechanics.section import rectangle_torsion_constant
from bolewright.reference import load
from bolewright.timber.section_properties import (
    section_area,
    section_modulus,
    section_second_moment,
)

_MM_PER_INCH = 25.4
_LARGEST = 30.0
_WIDEST_NOMINAL = 24  # in: a number beyond it without a unit was meant in millimetres
_DRESSED_SIZE, _NOMINAL_SIZE = "dressed", "nominal"
_TIMBER_KIND = "timber thickness and width"
_TOLERANCE = 0.02  # half a millimetre: 38 mm lumber is 1-1/2 in.


class Finish(Enum):
    """How the name of a section gives its size."""

    DRESSED = "dressed to NDS Supplement Table 1A"
    ROUGH = "rough, full size"
    ACTUAL = "actual size given"


class SectionError(ValueError):
    """A section name that is not understood or not possible; one sentence for the user."""


@dataclass(frozen=True)
class Section:
    """A rectangular section, of one or more equal plies side by side.

    ``single`` is the name of one ply; ``b`` the whole breadth and ``d`` the depth in inches (narrow face up,
    d >= thickness); ``nominal_thickness`` and ``nominal_width`` are the size class of one ply, which picks
    table rows.
    """

    single: str
    b: float
    d: float
    nominal_thickness: float
    nominal_width: float
    finish: Finish
    plies: int = 1

    @property
    def name(self) -> str:
        """Name as a builder writes it, with the plies: ``(3) 2x12``."""
        return self.single if self.plies == 1 else f"({self.plies}) {self.single}"

    @property
    def ply_thickness(self) -> float:
        """Thickness of one ply (in)."""
        return self.b / self.plies

    @property
    def A(self) -> float:
        """Area (in²)."""
        return float(section_area(b=self.b, d=self.d))

    @property
    def S(self) -> float:
        """Section modulus about the strong axis, load on the narrow face (in³)."""
        return float(section_modulus(b=self.b, d=self.d))

    @property
    def I(self) -> float:  # noqa: E743 (the standard's symbol)
        """Second moment of area about the strong axis (in⁴)."""
        return float(section_second_moment(b=self.b, d=self.d))

    @property
    def S_flat(self) -> float:
        """Section modulus about the weak axis, load on the wide face, plies bent together (in³)."""
        return float(section_modulus(b=self.d, d=self.b))

    @property
    def I_flat(self) -> float:
        """Second moment of area about the weak axis, plies bent together (in⁴)."""
        return float(section_second_moment(b=self.d, d=self.b))

    def J(self, *, together: bool) -> float:
        """Torsion constant (in⁴): the plies twist as one solid, or each by itself."""
        count, b = (1, self.b) if together else (self.plies, self.ply_thickness)
        return count * float(rectangle_torsion_constant(b=min(b, self.d), d=max(b, self.d)))

    @property
    def is_timber(self) -> bool:
        """Whether both dimensions are 5 in. nominal or more (a timber, not dimension lumber)."""
        return self.nominal_thickness >= 5

    def of_plies(self, plies: int) -> Section:
        """The same section with this many plies."""
        if plies < 1:
            raise SectionError(f"{plies} plies of {self.name} is not possible: give 1 or more")
        return replace(self, b=self.ply_thickness * plies, plies=plies)


_NUMBER = r"\d{1,4}(?:\.\d{1,4})?"
_NAME = re.compile(
    rf"(?:\((?P<paren>\d{{1,2}})\)\s*|(?P<dash>\d{{1,2}})\s*[-–]\s*)?(?P<rough>rough\s+)?"
    rf"(?P<a>5/4|{_NUMBER})\s*(?:\"|in\.?)?\s*[xX×]\s*(?P<b>{_NUMBER})\s*(?P<unit>mm|in\.?|\"|)",
)
_EXAMPLES = "write a name such as 2x10, 6x6, 5/4x6, rough 2x10, (3) 2x12, 45x195 mm or 1.5x9.25 in"


@lru_cache(maxsize=512)
def parse_section(text: str) -> Section:
    """Section that a builder's name means.

    ``2x12`` and ``6x6`` are nominal and dressed (NDS Supplement Table 1A; 5 in. and thicker 1/2 in. under);
    ``5/4x6`` a radius-edge board, 1 in. thick; ``rough 2x10`` is full size; ``45x195 mm`` and
    ``1.5x11.25 in`` are actual sizes; ``(3) 2x12`` or ``3-2x12`` three plies. The smaller number is
    taken as the thickness. A rough or actual size takes the size class that gives the lower value. Raises
    :class:`SectionError`.

    >>> parse_section("2x12").d, parse_section("6x6").b, parse_section("(3) 2x12").b
    (11.25, 5.5, 4.5)
    """
    clean = " ".join(text.split())
    match = _NAME.fullmatch(clean.replace("ROUGH", "rough").replace("Rough", "rough"))
    if match is None:
        raise SectionError(f"section {text[:40]!r} is not understood: {_EXAMPLES}")
    first = 1.25 if match["a"] == "5/4" else float(match["a"])
    thickness, width = sorted((first, float(match["b"])))
    unit, rough = match["unit"], match["rough"] is not None
    plies = int(match["paren"] or match["dash"] or 1)
    if unit == "mm":
        name = f"{thickness:g}x{width:g} mm"
        single = _actual(name, thickness / _MM_PER_INCH, width / _MM_PER_INCH, _DRESSED_SIZE, Finish.ACTUAL)
    elif unit:
        single = _actual(f"{thickness:g}x{width:g} in", thickness, width, _DRESSED_SIZE, Finish.ACTUAL)
    elif rough:
        single = _actual(f"rough {thickness:g}x{width:g}", thickness, width, _NOMINAL_SIZE, Finish.ROUGH)
    else:
        single = _dressed(thickness, width)
    return single.of_plies(plies)


def _dressed(thickness: float, width: float) -> Section:
    shown = "5/4" if thickness == 1.25 else f"{thickness:g}"
    name = f"{shown}x{width:g}"
    if thickness >= 5:
        kinds = (_TIMBER_KIND, _TIMBER_KIND)
    else:
        kinds = ("board thickness" if thickness < 2 else "dimension thickness", "width")
    sizes = []
    for kind, nominal in zip(kinds, (thickness, width), strict=True):
        dressed = {row["nominal"]: row["dressed"] for row in load("nds_table_1A") if row["kind"] == kind}
        if nominal not in dressed:
            allowed = ", ".join(f"{n:g}" for n in dressed)
            if nominal == thickness and width > _WIDEST_NOMINAL:  # neither is a nominal size
                raise SectionError(
                    f"section {name} has no unit: write {name} mm if it is measured in millimetres"
                )
            metric = f" or {name} mm" if width > _WIDEST_NOMINAL else ""
            raise SectionError(
                f"section {name}: {nominal:g} is not a standard nominal {kind}; use {allowed}, "
                f"or give an actual size such as 1.5x9.25 in{metric}"
            )
        sizes.append(dressed[nominal])
    return Section(name, sizes[0], sizes[1], thickness, width, Finish.DRESSED)


def _actual(name: str, thickness: float, width: float, column: str, finish: Finish) -> Section:
    """Section of the given size, in the size class (by ``column`` of Table 1A) with the lower size factors.

    That is the next nominal thickness down and the next nominal width up.
    """
    if not 0.25 <= thickness <= width <= _LARGEST:
        raise SectionError(f"section {name}: each side must be between 1/4 in. and {_LARGEST:g} in.")
    rows = load("nds_table_1A").rows
    thicknesses = [r for r in rows if r["kind"] != "width"]
    below = [r["nominal"] for r in thicknesses if r[column] <= thickness + _TOLERANCE]
    nominal_thickness = max(below, default=min(r["nominal"] for r in thicknesses))
    widths = [r for r in rows if r["kind"] == (_TIMBER_KIND if nominal_thickness >= 5 else "width")]
    above = [r["nominal"] for r in widths if r[column] >= width - _TOLERANCE]
    nominal_width = min(above, default=max(r["nominal"] for r in widths))
    return Section(name, thickness, width, nominal_thickness, nominal_width, finish)


def section_names() -> tuple[str, ...]:
    """Names of the stock sections, from boards to timbers, in the order of a lumber list.

    >>> section_names()[:4]
    ('5/4x6', '2x4', '2x6', '2x8')
    """
    dimension = [(t, w) for t in (2, 3, 4) for w in (4, 6, 8, 10, 12, 14) if w >= t]
    timbers = [(t, w) for t in (6, 8, 10, 12) for w in (6, 8, 10, 12, 14, 16) if w >= t]
    return ("5/4x6", *(f"{t}x{w}" for t, w in dimension + timbers))
