"""Bolted joint in single or double shear."""

from __future__ import annotations

from typing import Annotated, Literal

from bolewright.fasteners import bolt
from bolewright.part_sheets.inputs import asked
from bolewright.part_sheets.joints import (
    BEARING,
    FOUR_MODES,
    LATERAL,
    NOT_CHECKED,
    REDUCTION,
    SIX_MODES,
    VALUE,
    RowInputs,
    joint_given,
    row_geometry,
)
from bolewright.part_sheets.kind import Example, Given, Kind, Published
from bolewright.part_sheets.mode_figures import mode_figures
from bolewright.platform.project.fields import Measure
from bolewright.units import INCH, POUND

BoltDiameter = Annotated[float, Measure(INCH, least=0.25, most=1)]


class BoltedInputs(RowInputs):
    """What the bolted joint asks for."""

    diameter: BoltDiameter = asked("Bolt diameter", "1/2 in")
    """Full-body bolt; 1/4 to 1 in. (NDS 12.1.3)."""
    shear: Literal["single", "double"] = asked("Shear", "single")
    """Double: a like side member on either face of the main member."""


def given(inputs: BoltedInputs) -> Given:
    """Values of the joint."""
    double = inputs.shear == "double"
    length = inputs.main_thickness + inputs.side_thickness * (2 if double else 1) + 2 * inputs.diameter
    return joint_given(inputs, bolt(inputs.diameter, length), row_geometry(inputs), double=double)


BOLTED = Kind(
    name="bolted-joint",
    title="Bolted joint",
    about=(
        "Bolts through a main member and one or two side members of wood or steel, loaded square to their axes: the "
        "yield modes of one bolt, group action, end and edge distances, and the value of all bolts together."
    ),
    model=BoltedInputs,
    given=given,
    steps=(*BEARING[:1], BEARING[2], *BEARING[4:], REDUCTION[0], SIX_MODES, FOUR_MODES, VALUE),
    limits=(LATERAL,),
    figures=mode_figures,
    example=Example(
        source="NDS 2018, Table 12A: 1/2 in. bolt, t_s 1-1/2 in., t_m 3-1/2 in., G 0.55, both members along the grain",
        inputs={"load": "400 lb", "main_angle": "0°", "in_row": "1"},  # the load is ours: the table has none
        values=(Published("Z", 660.0, 5.0, POUND, "Z along the grain"),),
    ),
    not_checked=NOT_CHECKED,
)
