"""Nails in single shear."""

from __future__ import annotations

from typing import Annotated, Literal

from bolewright.fasteners import Geometry, Pattern, nail
from bolewright.part_sheets.inputs import Load, PartError, asked
from bolewright.part_sheets.joints import (
    BEARING,
    LATERAL,
    NOT_CHECKED,
    REDUCTION,
    SIX_MODES,
    VALUE,
    JointInputs,
    joint_given,
)
from bolewright.part_sheets.kind import Example, Given, Kind, Published
from bolewright.part_sheets.mode_figures import mode_figures
from bolewright.platform.project.fields import Measure
from bolewright.units import NONE, POUND

Count = Annotated[float, Measure(NONE, least=1, most=400)]


class NailedInputs(JointInputs):
    """What the nailed joint asks for."""

    load: Load = asked("Load", "300 lb")
    """On the joint, square to the nails."""
    size: Literal["8d", "10d", "12d", "16d", "20d"] = asked("Nail", "16d")
    """Pennyweight."""
    style: Literal["common", "box", "sinker"] = asked("Style", "common")
    """Of the nail; its diameter and length are those of NDS Table L4."""
    count: Count = asked("Number", "4")
    """Nails in all."""


def given(inputs: NailedInputs) -> Given:
    """Values of the joint."""
    if inputs.count != round(inputs.count):
        raise PartError({"count": f"{inputs.count:g} is no whole number of nails."})
    connector = nail(inputs.size, inputs.style)
    return joint_given(inputs, connector, Geometry(Pattern()), count=int(inputs.count))


NAILED = Kind(
    name="nailed-joint",
    title="Nailed joint",
    about=(
        "Nails through a side member of wood or steel into a main member, loaded square to their axes: penetration, "
        "the six yield modes of one nail, and the value of all nails together."
    ),
    model=NailedInputs,
    given=given,
    steps=(BEARING[1], BEARING[3], *BEARING[4:], REDUCTION[2], SIX_MODES, VALUE),
    limits=(LATERAL,),
    figures=mode_figures,
    example=Example(
        source="NDS 2018, Table 12N: 16d common nail, side member 1-1/2 in., G 0.55",
        inputs={},
        values=(Published("Z", 154.0, 0.5, POUND, "Z"),),
    ),
    not_checked=(*NOT_CHECKED, "splitting: edge and end distances and spacing of nails (NDS 12.1.6.1)"),
)
