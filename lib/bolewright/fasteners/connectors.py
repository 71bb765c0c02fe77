"""Bolts, lag screws, wood screws, nails: dimensions and bending yield strength (NDS App. I, L)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from bolewright.fasteners.errors import FastenerError
from bolewright.formulas import formula, unit_aware
from bolewright.reference import load, memory_notes
from bolewright.units import Length, Stress

THREAD_OUT_OF_BEARING = "Bolt thread is taken to stay out of the bearing in the members (NDS 2018, 12.3.7.2)."


class Kind(StrEnum):
    """What the dowel is."""

    BOLT = "bolt"
    LAG_SCREW = "lag_screw"
    WOOD_SCREW = "wood_screw"
    NAIL = "nail"


class Shank(StrEnum):
    """Surface of a nail's shank, which decides its withdrawal value."""

    SMOOTH = "smooth"
    SMOOTH_STAINLESS = "smooth stainless"
    RING = "ring shank"


@dataclass(frozen=True)
class Connector:
    """One dowel: kind, nominal diameter D and length L (in), bending yield strength F_yb (psi).

    D_r root diameter, E_tip tapered tip, thread length T with its tip, D_H head diameter (in). ``D_r`` equals
    D for a plain shank; ``on_root``: the yield equations take D_r. :attr:`notes` says what rests on memory.
    """

    name: str
    kind: Kind
    D: float
    length: float
    F_yb: float
    D_r: float
    E_tip: float = 0.0
    thread: float = 0.0
    D_H: float = 0.0
    shank: Shank = Shank.SMOOTH
    on_root: bool = False
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for what, value in (("D", self.D), ("length", self.length), ("F_yb", self.F_yb), ("D_r", self.D_r)):
            if not value > 0:
                raise FastenerError(f"{what} of {self.name} is {value:g}: it must be more than 0")
        if self.D_r > self.D:
            raise FastenerError(f"D_r of {self.name} is {self.D_r:g} in.: it can't exceed D, {self.D:g} in.")

    @property
    def D_yield(self) -> float:
        """Diameter D of the yield equations: root where thread bears, else nominal (NDS 2018, 12.3.7)."""
        return self.D_r if self.on_root else self.D

    def with_full_body(self, thread_in_bearing: float, bearing: float) -> Connector:
        """The same connector with its full-body diameter in the yield equations.

        Allowed while the thread's share of the bearing length in the member that holds it (both in inches)
        is a quarter or less, and the shank is not reduced-body. Source: NDS 2018, 12.3.7.2.
        """
        if thread_in_bearing > bearing / 4:
            raise FastenerError(
                f"{thread_in_bearing:g} in. of thread bears in {bearing:g} in.: the full-body diameter "
                f"is allowed up to {bearing / 4:g} in. of thread (NDS 2018, 12.3.7.2)"
            )
        return replace(self, on_root=False)

    def with_thread_in_bearing(self) -> Connector:
        """A bolt with thread in the bearing: the yield equations take its root diameter (NDS 2018, 12.3.7.2)."""
        dimensions = memory_notes("fastener_bolt_dimensions", "Root diameter of the bolt")
        notes = tuple(note for note in self.notes if note != THREAD_OUT_OF_BEARING) + dimensions
        return replace(self, on_root=True, notes=notes)


@formula("NDS 2018, Appendix I")
def bending_yield_strength(F_y: Stress, F_u: Stress) -> Stress:
    """Bending yield strength of a steel dowel from its tensile yield and ultimate strength.

    Parameters: F_y yield, F_u tensile strength (psi). Returns: F_yb (psi).
    Source: NDS 2018, Appendix I, the mean of both.

    >>> round(bending_yield_strength(36_000.0, 58_000.0), 3)
    47000.0
    """
    F_yb: Stress = (F_y + F_u) / 2
    return F_yb


def tabulated_bending_yield(kind: Kind, D: float) -> float:
    """F_yb of Appendix I by kind and nominal diameter (psi).

    >>> tabulated_bending_yield(Kind.NAIL, 0.162)
    90000.0
    """
    for row in load("fastener_bending_yield"):
        if row["kind"] == kind.value and row["D_over"] < D <= row["D_up_to"]:
            return float(row["F_yb"])
    words = kind.value.replace("_", " ")
    raise FastenerError(
        f"NDS Appendix I has no bending yield strength for a {words} of D = {D:g} in.: enter F_yb"
    )


@unit_aware()
def bolt(D: Length, length: Length, F_yb: Stress | None = None) -> Connector:
    """Hex bolt by nominal diameter and length (in), thread out of the bearing; ASTM A307 unless F_yb is given."""
    D, length, F_yb = _in_table(D), _in_table(length), _given(F_yb)
    table = load("fastener_bolt_dimensions")
    rows = [row for row in table if row["D"] == D]
    known = rows[0] if rows else None
    thread = (known["T_short"] if length <= 6 else known["T_long"]) if known else 0.0
    return Connector(
        name=f"{_inches(D)} bolt",
        kind=Kind.BOLT,
        D=D,
        length=length,
        F_yb=F_yb if F_yb is not None else tabulated_bending_yield(Kind.BOLT, D),
        D_r=known["D_r"] if known else D,
        thread=thread,
        D_H=known["F_head"] if known else 0.0,
        notes=(THREAD_OUT_OF_BEARING, *_strength_notes(F_yb)),
    )


@unit_aware()
def lag_screw(
    D: Length, length: Length, thread: Length | None = None, F_yb: Stress | None = None
) -> Connector:
    """Hex lag screw by nominal diameter and length under the head (in); thread length T includes the tip.

    Reduced-body, as the yield equations take it (D_r); dimensions of NDS Appendix L, Table L2.
    """
    D, length, thread, F_yb = _in_table(D), _in_table(length), _given(thread), _given(F_yb)
    row = load("fastener_lag_dimensions").row(D=D)
    notes = memory_notes("fastener_lag_dimensions", "Root diameter and tip of the lag screw")
    if thread is None:
        thread = lag_thread_length(length)
        notes += memory_notes("fastener_lag_threads", "Thread length of the lag screw")
    return Connector(
        name=f"{_inches(D)} x {_inches(length)} lag screw",
        kind=Kind.LAG_SCREW,
        D=D,
        length=length,
        F_yb=F_yb if F_yb is not None else tabulated_bending_yield(Kind.LAG_SCREW, D),
        D_r=row["D_r"],
        E_tip=row["E_tip"],
        thread=thread,
        D_H=row["F_head"],
        on_root=True,
        notes=notes + _strength_notes(F_yb),
    )


def lag_thread_length(length: float) -> float:
    """Thread length T, tip included, of a lag screw of the longest tabulated length not above ``length``."""
    rows = [row for row in load("fastener_lag_threads") if row["L"] <= length]
    if not rows:
        raise FastenerError(f"a lag screw {length:g} in. long is not in NDS Table L2: 1 in. is the shortest")
    return float(max(rows, key=lambda row: float(row["L"]))["T"])


@unit_aware()
def wood_screw(
    gage: int, length: Length, thread: Length | None = None, F_yb: Stress | None = None
) -> Connector:
    """Wood screw by gage and length (in), cut or rolled thread; thread 2/3 of the length unless given.

    >>> wood_screw(10, 3.0).D_yield
    0.152
    """
    length, thread, F_yb = _in_table(length), _given(thread), _given(F_yb)
    row = load("fastener_wood_screw_dimensions").row(gage=float(gage))
    D = row["D"]
    return Connector(
        name=f"No. {gage} x {_inches(length)} wood screw",
        kind=Kind.WOOD_SCREW,
        D=D,
        length=length,
        F_yb=F_yb if F_yb is not None else tabulated_bending_yield(Kind.WOOD_SCREW, D),
        D_r=row["D_r"],
        E_tip=2 * D,
        thread=2 * length / 3 if thread is None else thread,
        D_H=row["D_H"],
        on_root=True,
        notes=memory_notes("fastener_wood_screw_dimensions", "Dimensions of the wood screw")
        + _strength_notes(F_yb),
    )


def nail(pennyweight: str, style: str = "common", shank: Shank = Shank.SMOOTH) -> Connector:
    """Common, box or sinker nail by pennyweight such as ``"16d"`` (NDS Appendix L, Table L4).

    >>> nail("16d").D, nail("10d", "box").length
    (0.162, 3.0)
    """
    row = load("fastener_nail_dimensions").row(pennyweight=pennyweight, style=style)
    found = plain_nail(row["D"], row["L"], row["D_H"], shank=shank, name=f"{pennyweight} {style} nail")
    return replace(
        found, notes=memory_notes("fastener_nail_dimensions", "Dimensions of the nail") + found.notes
    )


@unit_aware()
def plain_nail(
    D: Length,
    length: Length,
    D_H: Length = 0.0,
    *,
    F_yb: Stress | None = None,
    shank: Shank = Shank.SMOOTH,
    name: str = "",
) -> Connector:
    """Nail or spike by diameter, length and head diameter (in); its tip is taken as 2 D (NDS 2018, 12.1.6)."""
    D, length, D_H, F_yb = _in_table(D), _in_table(length), float(D_H), _given(F_yb)
    return Connector(
        name=name or f"{D:g} x {_inches(length)} nail",
        kind=Kind.NAIL,
        D=D,
        length=length,
        F_yb=F_yb if F_yb is not None else tabulated_bending_yield(Kind.NAIL, D),
        D_r=D,
        E_tip=2 * D,
        thread=length if shank is Shank.RING else 0.0,
        D_H=D_H,
        shank=shank,
        notes=_strength_notes(F_yb),
    )


def _in_table(length: Length) -> float:
    """A length (in) without what a conversion leaves, so that 12.7 mm is the 1/2 in. of a table's row."""
    return round(float(length), 9)


def _given(value: Length | Stress | None) -> float | None:
    return None if value is None else float(value)


def _inches(value: float) -> str:
    sixteenths = round(value * 16)
    if abs(sixteenths / 16 - value) > 1e-6:
        return f"{value:g} in."
    whole, part = divmod(sixteenths, 16)
    denominator = 16
    while part and part % 2 == 0:
        part, denominator = part // 2, denominator // 2
    pieces = [str(whole)] if whole or not part else []
    if part:
        pieces.append(f"{part}/{denominator}")
    return "-".join(pieces) + " in."


def _strength_notes(F_yb: float | None) -> tuple[str, ...]:
    return memory_notes("fastener_bending_yield", "Bending yield strength F_yb") if F_yb is None else ()
