"""What the file says of a material of the user's own: its design values, where they come from, what they hold."""

from __future__ import annotations

from functools import lru_cache
from typing import Annotated, Literal

from bolewright.platform.project.fields import Measure, Name, Strict
from bolewright.timber.material import DesignValues, Factor, own_values
from bolewright.timber.sections import Section
from bolewright.units import NONE, PSI

Value = Annotated[float, Measure(PSI, least=10, most=20_000)]
Across = Annotated[float, Measure(PSI, least=10, most=5000)]
Modulus = Annotated[float, Measure(PSI, least=50_000, most=5_000_000)]


class Material(Strict):
    """Reference design values of a timber or board that the tables do not have, for normal load duration.

    The three factors say what the values hold already. One that is to be applied is taken as for visually graded lumber
    of the size. Flat use, which raises the bending value, is never counted.
    """

    F_b: Value
    """Bending (NDS 2018, 4.3): the reference value of its sheet or report."""
    F_t: Value
    """Tension along the grain (NDS 2018, 4.3)."""
    F_v: Across
    """Shear along the grain (NDS 2018, 4.3)."""
    F_c_perp: Across
    """Compression across the grain (NDS 2018, 4.3)."""
    F_c: Value
    """Compression along the grain (NDS 2018, 4.3)."""
    E: Modulus
    """Modulus of elasticity, for deflection (NDS 2018, 4.3)."""
    E_min: Modulus | None = None
    """Modulus of elasticity for stability; empty for 1.03 E (1 - 1.645 x 0.25) / 1.66 (NDS 2018, Appendix D.4)."""
    G: Annotated[float, Measure(NONE, least=0.1, most=1.5)]
    """Specific gravity, oven dry, for weight and fasteners (NDS 2018, Table 12.3.3A)."""
    note: Name
    """Where these values are printed, or who gave them (NDS 2018, 4.1.2)."""
    wet_factor: Literal["to be applied", "included"] = "to be applied"
    """Wet service: to be applied to timber in the weather, or included in the values (NDS 2018, 4.3.3)."""
    size_factor: Literal["included", "to be applied"] = "included"
    """Size: included in the values, or to be applied by the piece's depth (NDS 2018, 4.3.6)."""
    repetitive_factor: Literal["none", "to be applied", "included"] = "none"
    """Repetitive members: none counted, to be applied, or included and taken off a single piece (NDS 2018, 4.3.9)."""
    shrinkage: Annotated[float, Measure(NONE, least=0, most=0.2)] | None = None
    """Shrinkage across the grain, green to oven dry; empty for the species that shrinks most (Wood Handbook, ch. 4)."""

    def values(self, name: str, section: Section) -> DesignValues:
        """These values for a section, under the material's name."""
        return _values(self, name, section)


@lru_cache(maxsize=512)
def _values(material: Material, name: str, section: Section) -> DesignValues:
    return own_values(
        name,
        "own values",
        section,
        F_b=material.F_b,
        F_t=material.F_t,
        F_v=material.F_v,
        F_c_perp=material.F_c_perp,
        F_c=material.F_c,
        E=material.E,
        E_min=material.E_min,
        G=material.G,
        source=f"own values: {material.note}",
        wet_values=Factor(material.wet_factor) is Factor.INCLUDED,
        size=Factor(material.size_factor),
        repetitive=Factor(material.repetitive_factor),
    )
