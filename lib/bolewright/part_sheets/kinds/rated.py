"""Hanger and post cap by the rating that comes with them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from bolewright.part_sheets.drawn import value
from bolewright.part_sheets.drawn_joints import rated_figure
from bolewright.part_sheets.inputs import Inputs, Load, PartError, asked
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
from bolewright.platform.project.fields import Measure, Rated
from bolewright.rendering.blocks import Figure
from bolewright.units import NONE, POUND

Factor = Annotated[float, Measure(NONE, least=0.3, most=1)]


class RatedInputs(Inputs):
    """What the sheet of a rated connector asks for."""

    what: Literal["hanger", "cap"] = asked("Connector", "hanger")
    """A hanger under the end of a member, or a cap or base of a post."""
    down: Load = asked("Load down", "650 lb")
    """Reaction of the member, or load on the cap."""
    rated_down: Rated = asked("Rated down", "1000 lb")
    """What its own papers state for normal duration (C_D 1.0), with the fasteners they name, all of them."""
    up: Load = asked("Load up", "0 lb")
    """Net uplift."""
    rated_up: Load = asked("Rated up", "0 lb")
    """What its papers state against uplift; 0 lb where they state nothing."""
    lateral: Load = asked("Lateral load", "0 lb")
    """Lateral load on a cap, or across a hanger."""
    rated_lateral: Load = asked("Rated lateral", "0 lb")
    """What its papers state for it; 0 lb where they state nothing."""
    duration: Literal["permanent", "floor live", "snow", "construction", "wind"] = asked(
        "Duration", "floor live"
    )
    """What the load is; a short one does not raise the rating here, since the steel may govern."""
    wet_factor: Factor = asked("Wet factor", "0.7")
    """C_M of its nails or screws in wet service (NDS Table 11.3.3); 1 where the rating holds for wet wood."""


STEPS = (
    Step("Load down", "Z_d = hanger_capacity(Z_rd, C_D, C_M)\nratio_d = P_d / Z_d"),
    Step("Load up", "Z_u = hanger_capacity(Z_ru, C_D, C_M)\nratio_u = P_u / Z_u", when="up_rated"),
    Step("Lateral load", "Z_h = hanger_capacity(Z_rh, C_D, C_M)\nratio_h = P_h / Z_h", when="lateral_rated"),
)
_OTHER = "a connector of a higher rating"
LIMITS = (
    Limit("ratio_d", "Load down", "P_d", "Z_d", "NDS 2018, 11.3.2", _OTHER),
    Limit("ratio_u", "Load up", "P_u", "Z_u", "NDS 2018, 11.3.2", "a rating against uplift", "P_u"),
    Limit(
        "ratio_h", "Lateral load", "P_h", "Z_h", "NDS 2018, 11.3.2", "a rating against lateral load", "P_h"
    ),
)


def given(inputs: RatedInputs) -> Given:
    """Loads and ratings."""
    if not inputs.down + inputs.up + inputs.lateral:
        raise PartError({"down": "No load is typed: give one above zero."})
    C_D = min(DURATIONS[inputs.duration], 1.0)
    stated = "as its papers state it"
    symbols = (
        Symbol("P_d", inputs.down, POUND, "load down"),
        Symbol("Z_rd", inputs.rated_down, POUND, f"rated load down, {stated}"),
        Symbol("P_u", inputs.up, POUND, "load up" if inputs.up else ""),
        Symbol("Z_ru", inputs.rated_up, POUND, f"rated load up, {stated}" if inputs.rated_up else ""),
        Symbol("P_h", inputs.lateral, POUND, "lateral load" if inputs.lateral else ""),
        Symbol(
            "Z_rh",
            inputs.rated_lateral,
            POUND,
            f"rated lateral load, {stated}" if inputs.rated_lateral else "",
        ),
        Symbol("C_D", C_D, NONE, "load duration factor, at most 1 here (NDS 2018, Table 2.3.2)"),
        Symbol("C_M", inputs.wet_factor, NONE, "wet service factor, as typed"),
        Symbol("up_rated", float(inputs.rated_up > 0 and inputs.up > 0), NONE),
        Symbol("lateral_rated", float(inputs.rated_lateral > 0 and inputs.lateral > 0), NONE),
    )
    notes = ["A rating holds only with every fastener its papers name, in the wood they name."]
    if sum(load > 0 for load in (inputs.down, inputs.up, inputs.lateral)) > 1:
        notes.append(
            "Loads in two directions at once are held against each rating by itself; read its papers for both."
        )
    return Given(symbols, (), tuple(notes))


def figures(inputs: RatedInputs, given: Given, values: Mapping[str, Any], blank: bool) -> tuple[Figure, ...]:
    """The connector with its forces."""
    loads = {"down": inputs.down, "up": inputs.up, "level": inputs.lateral}
    return (rated_figure(inputs.what, {n: value(v, POUND) for n, v in loads.items() if v}),)


RATED = Kind(
    name="hanger",
    title="Hanger or cap by rating",
    about=(
        "A hanger, or the cap or base of a post, against the load that its own papers state: rated load, load duration "
        "and wet service. The rating is yours to type; no rating is stored here."
    ),
    model=RatedInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source=(
            "NDS 2018, Table 2.3.2, permanent load 0.9, and Table 11.3.3, nails in wet service 0.7: "
            "1,000 lb x 0.9 x 0.7 (no standard publishes ratings)"
        ),
        inputs={"duration": "permanent", "down": "600 lb"},
        values=(
            Published("Z_d", 630.0, 0.5, POUND, "The adjusted rating"),
            Published("ratio_d", 0.9524, 0.00005, NONE, "Its ratio under 600 lb", "600 / (1000 x 0.9 x 0.7)"),
        ),
        lone=(
            "No public worked example of a rating was found, so the first value is held against published factors, "
            "and the ratio is worked by hand."
        ),
    ),
    not_checked=(
        "the rating itself, and that every fastener it names is there, in wood of its kind and size",
        "the members it joins: bending, shear, bearing in the seat",
        "two directions at once, skew, and twisting of the member",
        "where the load comes from and goes to (the load path), and corrosion",
        LATERAL_SYSTEM,
        TREE,
    ),
)
