"""Withdrawal of lag screws, wood screws and nails from side grain."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from bolewright.fasteners import Connector, Wood, lag_screw, nail, withdrawal_design_value, wood_screw
from bolewright.fasteners import Service as JointService
from bolewright.fasteners.connectors import Shank
from bolewright.fasteners.service import Moisture
from bolewright.part_sheets.drawn import value
from bolewright.part_sheets.drawn_joints import pulled_figure
from bolewright.part_sheets.inputs import Inputs, Load, PartError, Small, asked
from bolewright.part_sheets.joints import FACTORS, Gravity
from bolewright.part_sheets.kind import (
    LATERAL_SYSTEM,
    TREE,
    Example,
    Given,
    Kind,
    Limit,
    Published,
    Step,
    Symbol,
)
from bolewright.part_sheets.timber_values import DURATIONS
from bolewright.platform.project.fields import Measure
from bolewright.rendering.blocks import Figure
from bolewright.units import INCH, NONE, PLI, POUND

Count = Annotated[float, Measure(NONE, least=1, most=400)]
LagDiameter = Annotated[float, Measure(INCH, least=0.25, most=1.25)]
_SHANKS = {"bright": Shank.SMOOTH, "stainless": Shank.SMOOTH_STAINLESS, "ring": Shank.RING}


class WithdrawalInputs(Inputs):
    """What the withdrawal sheet asks for."""

    fastener: Literal["lag screw", "wood screw", "nail"] = asked("Fastener", "lag screw")
    """Driven square into the side of the grain."""
    diameter: LagDiameter = asked("Lag diameter", "1/2 in")
    """Of a lag screw's shank."""
    length: Small = asked("Length", "5 in")
    """Of a lag screw or wood screw, under its head; a nail has its pennyweight's."""
    gage: Literal["8", "9", "10", "12", "14", "16"] = asked("Screw gage", "10")
    """Of a wood screw."""
    nail: Literal["8d", "10d", "12d", "16d", "20d"] = asked("Nail", "16d")
    """Pennyweight of a common nail."""
    shank: Literal["bright", "stainless", "ring"] = asked("Nail shank", "bright")
    """Bright or galvanized, stainless, or ring shank."""
    count: Count = asked("Number", "2")
    """Fasteners that share the load."""
    side_thickness: Small = asked("Side thickness", "1 1/2 in")
    """Of the member under the head."""
    side_gravity: Gravity = asked("Side gravity", "0.55")
    """Specific gravity of the member under the head."""
    main_thickness: Small = asked("Main thickness", "5 1/2 in")
    """Of the member that holds the point."""
    main_gravity: Gravity = asked("Main gravity", "0.55")
    """Specific gravity of the member that holds, NDS Table 12.3.3A: 0.55 Southern Pine, 0.50 Douglas Fir-Larch."""
    load: Load = asked("Load", "800 lb")
    """Along the fasteners, outward."""
    duration: Literal["permanent", "floor live", "snow", "construction", "wind"] = asked(
        "Duration", "floor live"
    )
    """What the load is, for the load duration factor."""
    service: Literal["wet", "dry"] = asked("Service", "wet")
    """Wet where the wood is over 19 % moist for long: all outdoor timber."""


STEPS = (
    Step("Lag screw", "W = lag_screw_withdrawal(G, D)", when="lag"),
    Step("Wood screw", "W = wood_screw_withdrawal(G, D)", when="screw"),
    Step("Bright nail", "W = smooth_nail_withdrawal(G, D)", when="bright"),
    Step("Stainless nail", "W = stainless_nail_withdrawal(G, D)", when="stainless"),
    Step("Ring shank nail", "W = ring_nail_withdrawal(G, D)", when="ring"),
    Step(
        "Withdrawal",
        """\
W_p = adjusted_withdrawal_value(W, C_D, C_M, C_t, C_eg, C_tn)
W_1 = withdrawal_capacity(W_p, p_t)
W_n = n * W_1
ratio_W = P / W_n""",
    ),
    Step("Head, thin side member", "W_H = pull_through_thin_side(G_s, D_H, t_ns)", when="thin_side"),
    Step("Head, thick side member", "W_H = pull_through_thick_side(G_s, D_H)", when="thick_side"),
    Step(
        "Head pull-through",
        """\
W_H_p = adjusted_pull_through_value(W_H, C_D, C_MH, C_t)
W_Hn = n * W_H_p
ratio_H = P / W_Hn""",
        when="D_H",
    ),
)
_MORE = "more or longer fasteners"
LIMITS = (
    Limit("ratio_W", "Withdrawal", "P", "W_n", "NDS 2018, 12.2", _MORE),
    Limit(
        "ratio_H", "Head pull-through", "P", "W_Hn", "NDS 2018, 12.2.5", "larger heads or more of them", "D_H"
    ),
)


def _connector(inputs: WithdrawalInputs) -> Connector:
    if inputs.fastener == "lag screw":
        return lag_screw(inputs.diameter, inputs.length)
    if inputs.fastener == "wood screw":
        return wood_screw(int(inputs.gage), inputs.length)
    return nail(inputs.nail, "common", _SHANKS[inputs.shank])


def given(inputs: WithdrawalInputs) -> Given:
    """Values of the fasteners, factors by the library's own connection."""
    if inputs.count != round(inputs.count):
        raise PartError({"count": f"{inputs.count:g} is no whole number of fasteners."})
    if not inputs.load:
        raise PartError({"load": "No load is typed: give one above zero."})
    connector = _connector(inputs)
    moist = Moisture.WET if inputs.service == "wet" else Moisture.DRY
    side = Wood(inputs.side_thickness, inputs.side_gravity, name="side member")
    main = Wood(inputs.main_thickness, inputs.main_gravity, name="main member")
    found = withdrawal_design_value(
        connector, side, main, service=JointService(moist, moist), C_D=DURATIONS[inputs.duration]
    )
    head = connector.D_H if found.pull_through is not None else 0.0
    pulled = [s for s in found.calculation.at(()) if s.formula.name == "adjusted_pull_through_value"]
    thin = inputs.side_thickness <= 2.5 * head
    nails = inputs.fastener == "nail"
    symbols = (
        Symbol("P", inputs.load, POUND, "load along the fasteners"),
        Symbol("n", inputs.count, NONE, "fasteners"),
        Symbol("G", inputs.main_gravity, NONE, "specific gravity of the member that holds, as typed"),
        Symbol("D", connector.D, INCH, f"{connector.name}: diameter"),
        Symbol(
            "p_t",
            found.p_t,
            INCH,
            "thread that holds, tip left out (NDS 2018, 12.2)" if not nails else "penetration",
        ),
        *(Symbol(name, float(v), NONE, FACTORS[name]) for name, v in found.factors.items()),
        Symbol(
            "G_s", inputs.side_gravity, NONE, "specific gravity of the side member, as typed" if head else ""
        ),
        Symbol("D_H", head, INCH, "diameter of the head" if head else ""),
        Symbol("t_ns", inputs.side_thickness, INCH, "thickness of the side member" if head else ""),
        Symbol("C_MH", pulled[0].arguments["C_M"] if pulled else 1.0, NONE, FACTORS["C_M"] if head else ""),
        Symbol("thin_side", float(head > 0 and thin), NONE),
        Symbol("thick_side", float(head > 0 and not thin), NONE),
        Symbol("lag", float(inputs.fastener == "lag screw"), NONE),
        Symbol("screw", float(inputs.fastener == "wood screw"), NONE),
        *(Symbol(shank, float(nails and inputs.shank == shank), NONE) for shank in _SHANKS),
    )
    return Given(symbols, (), found.notes)


def figures(
    inputs: WithdrawalInputs, given: Given, values: Mapping[str, Any], blank: bool
) -> tuple[Figure, ...]:
    """The fastener with its forces."""
    return (
        pulled_figure(
            side=inputs.side_thickness,
            main=inputs.main_thickness,
            point=given["p_t"],
            load=value(inputs.load / inputs.count, POUND, blank),
        ),
    )


WITHDRAWAL = Kind(
    name="withdrawal",
    title="Withdrawal",
    about=(
        "Lag screws, wood screws or nails pulled along their axis out of the side of the grain, and their heads pulled "
        "through the member under them."
    ),
    model=WithdrawalInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source="NDS 2018, Table 12.2A: 5/8 in. lag screw, G 0.55",
        inputs={"fastener": "lag screw", "diameter": "5/8 in", "length": "6 in"},
        values=(Published("W", 516.0, 0.5, PLI, "W per inch of thread"),),
    ),
    not_checked=(
        "the tensile strength of the fastener (NDS 12.2.1.3), and the washer under a lag screw's head (NDS 3.10)",
        "lateral load at the same time (NDS 12.4), prying, and withdrawal from end grain",
        "edge and end distances, spacing and pilot holes",
        "where the load comes from and goes to (the load path)",
        "the joint at the other end of the members",
        LATERAL_SYSTEM,
        TREE,
    ),
)
