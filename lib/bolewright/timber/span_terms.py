"""Words of the span tables: loads, limits, stocks, what governs, and a row."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from bolewright.formulas import make_bare
from bolewright.timber.adjustment import Service
from bolewright.timber.basis import LoadType
from bolewright.timber.material import DesignValues, Factor, own_values, reference_values, species_named
from bolewright.timber.sections import Section
from bolewright.units import INCH, POUND, PSF, PSI, Value


class Governs(Enum):
    """What stops a span or an overhang."""

    BENDING = "bending"
    SHEAR = "shear"
    LIVE_DEFLECTION = "live deflection"
    TOTAL_DEFLECTION = "total deflection"
    LONGEST = "longest span listed"
    SHARE_OF_SPAN = "share of the span"
    TIP_DEFLECTION = "tip deflection"


class Rounding(Enum):
    """How spans are rounded to the inch."""

    NEAREST = "nearest"  # as code tables print them
    DOWN = "down"


@dataclass(frozen=True)
class SpanLoads:
    """Loads of a span table: psf over the floor, lb at the end of an overhang.

    ``live_kind`` tells what the live load is (live or snow), for its load duration.
    """

    live: float = 40.0
    dead: float = 10.0
    overhang_point: float = 220.0
    live_kind: LoadType = LoadType.LIVE

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            live: Value = 40.0,
            dead: Value = 10.0,
            overhang_point: Value = 220.0,
            live_kind: LoadType = LoadType.LIVE,
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, {"live": PSF, "dead": PSF, "overhang_point": POUND})


@dataclass(frozen=True)
class SpanLimits:
    """Limits of a span table; a deflection limit of None is not checked.

    ``overhang_tip`` is the overhang over its tip deflection under the point load, ``overhang_share`` the
    greatest overhang over the span; ``longest`` in inches. The total deflection counts creep (NDS 2018,
    3.5.2). ``live_dead_share`` is the share of the dead load that counts with the live load's limit (0: none;
    0.5 is L + 0.5D). ``share_down``: the overhang's share of the span is rounded down to the inch, since a
    code that says "at most a quarter" allows none over it; ``tip_allowance`` (in) is taken off what the tip
    deflection allows.
    """

    live: float | None = 360.0
    total: float | None = 240.0
    live_dead_share: float = 0.0
    overhang_tip: float = 180.0
    overhang_share: float = 0.25
    longest: float = 18 * 12.0
    rounding: Rounding = Rounding.NEAREST
    share_down: bool = False
    tip_allowance: float = 0.0

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            live: float | None = 360.0,
            total: float | None = 240.0,
            live_dead_share: float = 0.0,
            overhang_tip: float = 180.0,
            overhang_share: float = 0.25,
            longest: Value = 18 * 12.0,
            rounding: Rounding = Rounding.NEAREST,
            share_down: bool = False,
            tip_allowance: Value = 0.0,
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, {"longest": INCH, "tip_allowance": INCH})


@dataclass(frozen=True)
class OwnValues:
    """Reference design values of a user's own (psi), of one wood in any size.

    ``size``, ``repetitive`` and ``wet_values`` say whether C_F, C_r and C_M are in them already, as in
    :func:`~bolewright.timber.material.own_values`. F_c and E_min are wanted for posts only.
    """

    F_b: float
    F_v: float
    F_c_perp: float
    E: float
    source: str
    F_c: float | None = None
    E_min: float | None = None
    size: Factor = Factor.INCLUDED
    repetitive: Factor = Factor.APPLIED
    wet_values: bool = False

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            F_b: Value,
            F_v: Value,
            F_c_perp: Value,
            E: Value,
            source: str,
            F_c: Value | None = None,
            E_min: Value | None = None,
            size: Factor = Factor.INCLUDED,
            repetitive: Factor = Factor.APPLIED,
            wet_values: bool = False,
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, dict.fromkeys(("F_b", "F_v", "F_c_perp", "E", "F_c", "E_min"), PSI))


@dataclass(frozen=True)
class Stock:
    """A species and grade of a span table, or a material of the user's own with its values.

    ``service`` stands over the table's where it is given, so that one species can be dry or incised and the
    next not.
    """

    species: str
    grade: str
    own: OwnValues | None = None
    service: Service | None = None

    @property
    def name(self) -> str:
        """Species in full and grade."""
        return self.species if self.own else f"{species_named(self.species)} {self.grade}"

    def values(self, section: Section) -> DesignValues:
        """Reference design values in a size; raises :class:`~bolewright.timber.material.MaterialError`."""
        if self.own is None:
            return reference_values(self.species, self.grade, section)
        own = self.own
        return own_values(
            self.species,
            self.grade,
            section,
            F_b=own.F_b,
            F_t=own.F_b,  # no span takes tension
            F_v=own.F_v,
            F_c_perp=own.F_c_perp,
            F_c=own.F_c if own.F_c is not None else own.F_c_perp,
            E=own.E,
            E_min=own.E_min,
            G=0.5,  # no span takes it
            source=own.source,
            wet_values=own.wet_values,
            size=own.size,
            repetitive=own.repetitive,
        )


@dataclass(frozen=True)
class SpanRow:
    """One line of a span table; lengths in inches.

    ``width`` is the joist spacing, or for a beam the span of the joists it carries; ``exact`` the span
    before rounding; ``bearing`` the length of bearing each end needs at that span (at least the code
    minimum is the user's to keep); ``weakest`` the stock that governs, with the confidence of its values.
    """

    section: Section
    width: float
    span: float
    exact: float
    governs: Governs
    overhang: float
    overhang_governs: Governs
    bearing: float
    weakest: Stock
    confidence: str
