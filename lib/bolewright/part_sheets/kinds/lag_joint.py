"""Lag screws in single shear."""

from __future__ import annotations

from typing import Annotated

from bolewright.fasteners import lag_screw
from bolewright.part_sheets.inputs import Load, Small, asked
from bolewright.part_sheets.joints import (
    BEARING,
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

LagDiameter = Annotated[float, Measure(INCH, least=0.25, most=1)]


class LagInputs(RowInputs):
    """What the lag joint asks for."""

    load: Load = asked("Load", "350 lb")
    """On the joint, square to the screws."""
    diameter: LagDiameter = asked("Diameter", "1/2 in")
    """Of the unthreaded shank."""
    length: Small = asked("Length", "5 in")
    """Of the lag screw under its head."""


def given(inputs: LagInputs) -> Given:
    """Values of the joint."""
    return joint_given(inputs, lag_screw(inputs.diameter, inputs.length), row_geometry(inputs))


LAG = Kind(
    name="lag-joint",
    title="Lag joint",
    about=(
        "Lag screws through a side member of wood or steel into a main member, loaded square to their axes: "
        "penetration, the six yield modes of one screw on its root diameter, group action, distances, and the value "
        "of all together."
    ),
    model=LagInputs,
    given=given,
    steps=(BEARING[0], BEARING[2], *BEARING[4:], *REDUCTION[:2], SIX_MODES, VALUE),
    limits=(LATERAL,),
    figures=mode_figures,
    example=Example(
        source="NDS 2018, Table 12K: 5/16 in. lag screw, steel side plate of 14 gage (0.075 in.), G 0.55",
        inputs={
            "load": "100 lb",  # ours: the table has none
            "side": "steel",
            "side_thickness": "0.075 in",
            "diameter": "5/16 in",
            "length": "4 in",
            "main_angle": "0°",
            "main_thickness": "5 1/2 in",
            "in_row": "1",
        },
        values=(Published("Z", 200.0, 5.0, POUND, "Z along the grain"),),
    ),
    not_checked=(*NOT_CHECKED, "pilot holes, and the tensile strength of the screw"),
)
