"""Members of a connection: wood, steel and concrete, with what a dowel sees of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from bolewright.calculation import Calculation
from bolewright.fasteners.dowel_bearing import (
    CONCRETE_F_E,
    dowel_bearing_cold_formed,
    dowel_bearing_hot_rolled,
    dowel_bearing_perpendicular,
    dowel_bearing_small,
    wood_bearing_strength,
)
from bolewright.fasteners.errors import FastenerError
from bolewright.formulas import bare, make_bare
from bolewright.units import DEGREE, INCH, PSI, Value

_WOOD = {"thickness": INCH, "E": PSI, "width": INCH, "F_e": PSI}
_STEEL = {"thickness": INCH, "F_u": PSI, "F_e": PSI, "width": INCH, "E": PSI}
_CONCRETE = {"thickness": INCH, "f_c": PSI, "width": INCH, "E": PSI}
STEEL_MODULUS = 29_000_000.0  # psi
PLATE_F_U, SHEET_F_U = 58_000.0, 45_000.0  # psi, ASTM A36 and A653 Grade 33, NDS 2018 Tables 12B and 12M


@dataclass(frozen=True)
class Wood:
    """Wood member: thickness along the dowel (in), specific gravity G, angle of load to grain theta (degrees).

    For group action also E (psi) and ``width`` across the load (in). ``end_grain``: the dowel is driven along
    the fibers. ``F_e`` overrides the strength from G (panels, NDS Table 12.3.3B).
    """

    thickness: float
    G: float
    theta: Any = 0.0
    E: float | None = None
    width: float | None = None
    hardwood: bool = False
    end_grain: bool = False
    F_e: float | None = None
    name: str = "wood member"

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            thickness: Value,
            G: float,
            theta: Any = 0.0,
            E: Value | None = None,
            width: Value | None = None,
            hardwood: bool = False,
            end_grain: bool = False,
            F_e: Value | None = None,
            name: str = "wood member",
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _WOOD)
        object.__setattr__(self, "theta", bare("Wood", "theta", DEGREE, self.theta))
        _positive("thickness", self.name, self.thickness)
        if not 0.1 <= self.G <= 1.2:
            raise FastenerError(f"specific gravity of {self.name} is {self.G:g}: it must be 0.1 to 1.2")
        angles = np.asarray(self.theta, dtype=float)
        if np.any(angles < 0) or np.any(angles > 90):
            raise FastenerError(
                f"angle of load to grain in {self.name} is {self.theta}: it must be 0 to 90 degrees"
            )

    @property
    def load_angle(self) -> Any:
        """Angle of load to grain; 90 degrees for a dowel in end grain, which can only be loaded across it."""
        return 90.0 if self.end_grain else self.theta

    def bearing_strength(self, D: float, calculation: Calculation) -> Any:
        """F_e (psi) under a dowel of nominal diameter D; in end grain F_e,perp (NDS 2018, 12.3.3.4)."""
        if self.F_e is not None:
            return self.F_e
        if self.end_grain and D >= 0.25:
            return calculation.run(dowel_bearing_perpendicular, G=self.G, D=D)
        if self.end_grain:
            return calculation.run(dowel_bearing_small, G=self.G)
        return wood_bearing_strength(self.G, D, self.theta, calculation.run)


@dataclass(frozen=True)
class Steel:
    """Steel member: thickness (in) and tensile strength F_u (psi), or its bearing strength F_e itself.

    Hot-rolled plate from 1/4 in., cold-formed sheet below, unless ``hot_rolled`` says otherwise. F_u is that of
    ASTM A36 plate or of ASTM A653 Grade 33 sheet unless given.
    """

    thickness: float
    F_u: float | None = None
    F_e: float | None = None
    hot_rolled: bool | None = None
    width: float | None = None
    E: float | None = STEEL_MODULUS
    name: str = "steel member"

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            thickness: Value,
            F_u: Value | None = None,
            F_e: Value | None = None,
            hot_rolled: bool | None = None,
            width: Value | None = None,
            E: Value | None = STEEL_MODULUS,
            name: str = "steel member",
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _STEEL)
        _positive("thickness", self.name, self.thickness)

    @property
    def load_angle(self) -> float:
        """Steel has no grain."""
        return 0.0

    def bearing_strength(self, D: float, calculation: Calculation) -> Any:
        """F_e (psi): 1.5 F_u hot-rolled, 1.375 F_u cold-formed."""
        del D
        if self.F_e is not None:
            return self.F_e
        hot = self.hot_rolled if self.hot_rolled is not None else self.thickness >= 0.25
        F_u = self.F_u if self.F_u is not None else PLATE_F_U if hot else SHEET_F_U
        return calculation.run(dowel_bearing_hot_rolled if hot else dowel_bearing_cold_formed, F_u=F_u)


@dataclass(frozen=True)
class Concrete:
    """Concrete member: embedment of the bolt (in) and f'c (psi), 2500 or more."""

    thickness: float
    f_c: float = 2500.0
    width: float | None = None
    E: float | None = None
    name: str = "concrete"

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            thickness: Value,
            f_c: Value = 2500.0,
            width: Value | None = None,
            E: Value | None = None,
            name: str = "concrete",
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _CONCRETE)
        _positive("embedment", self.name, self.thickness)
        if self.f_c < 2500:
            raise FastenerError(
                f"f'c of {self.name} is {self.f_c:g} psi: F_e of 7500 psi wants 2500 psi or more"
            )

    @property
    def load_angle(self) -> float:
        """Concrete has no grain."""
        return 0.0

    def bearing_strength(self, D: float, calculation: Calculation) -> float:
        """F_e (psi), NDS 2018 Table 12E."""
        del D, calculation
        return CONCRETE_F_E


Member = Wood | Steel | Concrete


def _positive(what: str, name: str, value: float) -> None:
    if not value > 0:
        raise FastenerError(f"{what} of {name} is {value:g} in.: it must be more than 0")
