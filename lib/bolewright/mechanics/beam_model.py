"""A beam as it is described: its length, how it is held, how stiff it is; inches, pounds, psi."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from bolewright.formulas import make_bare
from bolewright.units import INCH, PLI, POUND_INCH, Unit, Value

CLOSE = 1e-9  # of the beam's length: nearer than this is the same place


_UNITS = {
    "length": INCH,
    "supports": INCH,
    "EI": Unit("lbf*inch**2", "lb·in²", "bending stiffness"),
    "hinges": INCH,
    "springs": PLI,
    "clamps": POUND_INCH,
}


class BeamError(ValueError):
    """A beam that makes no sense; one sentence that names the value and what is allowed."""


@dataclass(frozen=True)
class Beam:
    """A straight beam from x = 0 to ``length``.

    Parameters: ``length`` beam length (in); ``supports`` where it is held against moving up or down (in), in any order;
    ``EI`` bending stiffness (lb·in²), the same all along; ``hinges`` where it passes shear but no moment (in);
    ``springs`` stiffness of each support (lb/in), None where rigid; left out when all are rigid; ``clamps`` rotational
    stiffness of the two ends (lb·in per radian): 0 free, None rigid. Raises BeamError: a length, place or stiffness
    that is not allowed.
    """

    length: float
    supports: tuple[float, ...]
    EI: float
    hinges: tuple[float, ...] = ()
    springs: tuple[float | None, ...] = ()
    clamps: tuple[float | None, float | None] = (0.0, 0.0)

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            length: Value,
            supports: Sequence[Value] | Value,
            EI: Value,
            hinges: Sequence[Value] | Value = (),
            springs: Sequence[Value | None] = (),
            clamps: tuple[Value | None, Value | None] = (0.0, 0.0),
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _UNITS)
        if not 0 < self.length < float("inf"):
            raise BeamError(f"beam length {self.length:g} in: it must be above zero")
        if not 0 < self.EI < float("inf"):
            raise BeamError(f"beam EI {self.EI:g} lb·in²: it must be above zero")
        close = CLOSE * self.length
        for word, places in (("support", self.supports), ("hinge", self.hinges)):
            for x in places:
                if not -close <= x <= self.length + close:
                    raise BeamError(f"{word} at x = {x:g} in is not on the beam (0 to {self.length:g} in)")
        ordered = sorted(self.supports)
        for one, other in pairwise(ordered):
            if other - one <= close:
                raise BeamError(f"two supports stand at x = {one:g} in: give one")
        if self.springs and len(self.springs) != len(self.supports):
            raise BeamError(f"{len(self.springs)} springs for {len(self.supports)} supports: give one each")
        for k in (*self.springs, *self.clamps):
            if k is not None and not 0 <= k < float("inf"):
                raise BeamError(f"spring stiffness {k:g}: it must be zero or above, or None for rigid")

    @property
    def is_rigidly_held(self) -> bool:
        """Whether no support and no clamp gives way, so that only deflections depend on EI."""
        return all(k is None for k in self.springs) and all(k in (None, 0.0) for k in self.clamps)
