"""Service of a connection: moisture, temperature, end grain, toe-nails, diaphragms (NDS 2018, 11.3 and 12.5)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bolewright.fasteners.connectors import Connector, Kind
from bolewright.fasteners.errors import FastenerError
from bolewright.reference import CONFIDENCE, load, memory_notes

END_GRAIN_LATERAL = 0.67  # NDS 2018, 12.5.2.2
END_GRAIN_LAG_WITHDRAWAL = 0.75  # NDS 2018, 12.5.2.1
TOE_NAIL_LATERAL = 0.83  # NDS 2018, 12.5.4.2
TOE_NAIL_WITHDRAWAL = 0.67  # NDS 2018, 12.5.4.1
DIAPHRAGM = 1.1  # NDS 2018, 12.5.3
GREATEST_C_D = 1.6  # NDS 2018, 11.3.2 and Table 2.3.2: the impact factor does not apply to connections


class Moisture(StrEnum):
    """Moisture content: dry is 19 percent or less, wet is more."""

    DRY = "dry"
    WET = "wet"


class Loading(StrEnum):
    """How a connection is loaded, as far as moisture matters (NDS 2018, Table 11.3.3)."""

    LATERAL = "lateral"
    WITHDRAWAL = "withdrawal"
    PULL_THROUGH = "pull_through"


class Arrangement(StrEnum):
    """Arrangement of the fasteners of a connection, which decides whether drying can split the wood.

    The first three keep C_M = 1.0 when wood that was wet at fabrication dries (Table 11.3.3, footnote).
    """

    SINGLE = "one fastener"
    ROW_PARALLEL = "one row parallel to grain"
    SPLICE_PLATES = "rows parallel to grain with separate splice plates"
    OTHER = "other"


@dataclass(frozen=True)
class Service:
    """Moisture when the connection is made and in service, and sustained temperature (deg F).

    The default is the platform's: treated lumber fabricated wet, in service out of doors.
    """

    fabricated: Moisture = Moisture.WET
    in_service: Moisture = Moisture.WET
    temperature: float = 100.0


DRY = Service(Moisture.DRY, Moisture.DRY)
OUTDOORS = Service()


def wet_service_factor(
    connector: Connector,
    service: Service,
    loading: Loading = Loading.LATERAL,
    arrangement: Arrangement = Arrangement.OTHER,
    *,
    toe_nailed: bool = False,
) -> float:
    """Wet service factor C_M of a connection.

    Toe-nails loaded in withdrawal take none (12.5.4.1). Source: NDS 2018, Table 11.3.3 and its footnotes.

    >>> from bolewright.fasteners.connectors import bolt
    >>> wet_service_factor(bolt(0.5, 6.0), OUTDOORS)
    0.7
    """
    if loading is Loading.WITHDRAWAL and toe_nailed:
        return 1.0
    key = loading.value
    if loading is Loading.WITHDRAWAL:
        key = "withdrawal_nail" if connector.kind is Kind.NAIL else "withdrawal_screw"
    row = load("connection_wet_service").row(
        loading=key, fabricated=service.fabricated.value, in_service=service.in_service.value
    )
    dries = service.fabricated is Moisture.WET and service.in_service is Moisture.DRY
    if loading is Loading.LATERAL and dries:
        if arrangement is not Arrangement.OTHER:
            return 1.0
        if connector.D < 0.25:
            return 0.7
    return float(row["C_M"])


def temperature_factor(service: Service) -> float:
    """Temperature factor C_t of a connection (NDS 2018, Table 11.3.4); error above 150 deg F.

    >>> temperature_factor(Service(temperature=110.0))
    0.7
    """
    for row in load("connection_temperature"):
        in_range = row["over"] < service.temperature <= row["up_to"]
        if in_range and row["in_service"] == service.in_service.value:
            return float(row["C_t"])
    raise FastenerError(
        f"temperature of the connection is {service.temperature:g} deg F: NDS Table 11.3.4 ends at 150 deg F"
    )


def end_grain_factor(connector: Connector, loading: Loading, *, in_end_grain: bool) -> float:
    """End grain factor C_eg; an error for nails and wood screws in withdrawal from end grain, which NDS forbids.

    Source: NDS 2018, 12.5.2, 12.2.2.2 and 12.2.3.2.
    """
    if not in_end_grain:
        return 1.0
    if loading is Loading.LATERAL:
        return END_GRAIN_LATERAL
    if loading is Loading.WITHDRAWAL and connector.kind is Kind.LAG_SCREW:
        return END_GRAIN_LAG_WITHDRAWAL
    raise FastenerError(
        f"{connector.name} is loaded in withdrawal from end grain: NDS 2018, 12.2 allows that for lag screws only"
    )


def toe_nail_factor(connector: Connector, loading: Loading, *, toe_nailed: bool) -> float:
    """Toe-nail factor C_tn (NDS 2018, 12.5.4): 0.83 lateral, 0.67 withdrawal; nails only."""
    if not toe_nailed:
        return 1.0
    if connector.kind is not Kind.NAIL:
        raise FastenerError(
            f"{connector.name} is no nail: the toe-nail factor is for nails (NDS 2018, 12.5.4)"
        )
    return TOE_NAIL_LATERAL if loading is Loading.LATERAL else TOE_NAIL_WITHDRAWAL


def diaphragm_factor(connector: Connector, *, diaphragm: bool) -> float:
    """Diaphragm factor C_di: 1.1 for nails in a diaphragm's sheathing (NDS 2018, 12.5.3)."""
    return DIAPHRAGM if diaphragm and connector.kind is Kind.NAIL else 1.0


def check_load_duration(C_D: float) -> None:
    """Error for a load duration factor that connections may not take (impact, 2.0)."""
    if not 0.9 <= C_D <= GREATEST_C_D:
        raise FastenerError(
            f"C_D is {C_D:g}: connections take 0.9 to 1.6 (NDS 2018, 11.3.2, no impact factor)"
        )


def special_factor_notes(C_eg: float, C_di: float, C_tn: float) -> tuple[str, ...]:
    """Sentences on end grain, diaphragm and toe-nail factors, which were written from memory, where they are taken."""
    named = (("End grain factor C_eg", C_eg, "12.5.2"), ("Diaphragm factor C_di", C_di, "12.5.3"),
             ("Toe-nail factor C_tn", C_tn, "12.5.4"))  # fmt: skip
    memory = CONFIDENCE["M2"]
    return tuple(f"{what}: NDS 2018, {clause}, {memory}." for what, factor, clause in named if factor != 1.0)


def service_notes(service: Service) -> tuple[str, ...]:
    """Sentences on the factors C_M and C_t that this service takes from tables written from memory."""
    notes: tuple[str, ...] = ()
    if Moisture.WET in (service.fabricated, service.in_service):
        notes += memory_notes("connection_wet_service", "Wet service factor")
    if service.temperature > 100:
        notes += memory_notes("connection_temperature", "Temperature factor")
    return notes
