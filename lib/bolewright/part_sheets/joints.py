"""What the lateral joints share: the steps of the yield limit equations, and the values they begin with."""

from __future__ import annotations

from typing import Annotated, Literal

from bolewright.calculation import Calculation
from bolewright.fasteners import Connector, Distances, Geometry, Pattern, Steel, Wood, lateral_design_value
from bolewright.fasteners import Service as JointService
from bolewright.fasteners.bearing_lengths import Shear, bearing_lengths
from bolewright.fasteners.service import Moisture
from bolewright.part_sheets.inputs import Inputs, Load, Off, PartError, Small, asked
from bolewright.part_sheets.kind import LATERAL_SYSTEM, TREE, Given, Limit, Step, Symbol
from bolewright.part_sheets.timber_values import DURATIONS
from bolewright.platform.project.fields import Measure
from bolewright.rendering.blocks import Block
from bolewright.sheets.printing import printed
from bolewright.units import DEGREE, INCH, NONE, POUND, PSI

Gravity = Annotated[float, Measure(NONE, least=0.31, most=0.73)]
Grain = Annotated[float, Measure(DEGREE, least=0, most=90)]
Modulus = Annotated[float, Measure(PSI, least=100_000, most=3_000_000)]
Number = Annotated[float, Measure(NONE, least=1, most=40)]
_BEFORE = ("lag_screw_penetration", "screw_or_nail_penetration", "bearing_length_with_tip", "axial_stiffness")
_GROUP = ("slip_modulus_wood", "slip_modulus_metal", "group_action_factor")
_PLACES = ("geometry_factor", "geometry_factor_shear_area", "row_spacing_perpendicular")
_SHOWN = (*_BEFORE, *_GROUP, *_PLACES)


class JointInputs(Inputs):
    """What every lateral joint asks for."""

    load: Load = asked("Load", "600 lb")
    """On the joint, square to the fasteners."""
    duration: Literal["permanent", "floor live", "snow", "construction", "wind"] = asked(
        "Duration", "floor live"
    )
    """What the load is, for the load duration factor."""
    service: Literal["wet", "dry"] = asked("Service", "wet")
    """Wet where the wood is over 19 % moist for long: all outdoor timber."""
    side: Literal["wood", "steel"] = asked("Side member", "wood")
    """The thinner member, under the head."""
    side_thickness: Small = asked("Side thickness", "1 1/2 in")
    """Of the side member."""
    side_gravity: Gravity = asked("Side gravity", "0.55")
    """Specific gravity of a wood side member, NDS Table 12.3.3A: 0.55 Southern Pine, 0.50 Douglas Fir-Larch."""
    side_angle: Grain = asked("Side angle", "0°")
    """Between load and grain of the side member."""
    main_thickness: Small = asked("Main thickness", "3 1/2 in")
    """Of the main member."""
    main_gravity: Gravity = asked("Main gravity", "0.55")
    """Specific gravity of the main member."""
    main_angle: Grain = asked("Main angle", "90°")
    """Between load and grain of the main member."""


class RowInputs(JointInputs):
    """What a joint of bolts or lag screws asks for besides: how they stand."""

    in_row: Number = asked("In a row", "2")
    """Fasteners in each row along the load."""
    rows: Number = asked("Rows", "1")
    """Rows of fasteners side by side."""
    spacing: Off = asked("Spacing", "4 in")
    """Between fasteners of a row."""
    row_spacing: Off = asked("Between rows", "3 in")
    """Between rows."""
    end_distance: Off = asked("End distance", "4 in")
    """To the end that the load pulls towards, in each member loaded along its grain."""
    edge_distance: Off = asked("Edge distance", "2 1/4 in")
    """To the loaded edge of a member loaded across its grain, and to any edge."""
    main_width: Small = asked("Main width", "7 1/4 in")
    """Of the main member across the load, for group action."""
    side_width: Small = asked("Side width", "5 1/2 in")
    """Of the side member across the load, for group action."""
    modulus: Modulus = asked("Modulus", "1400000 psi")
    """E of the wood members, for group action."""


def _members(
    inputs: JointInputs, width: tuple[float, float] | None, E: float | None
) -> tuple[Wood | Steel, Wood]:
    side: Wood | Steel
    main_width, side_width = width or (None, None)
    if inputs.side == "steel":
        side = Steel(inputs.side_thickness, width=side_width, name="side member")
    else:
        side = Wood(
            inputs.side_thickness,
            inputs.side_gravity,
            inputs.side_angle,
            E=E,
            width=side_width,
            name="side member",
        )
    main = Wood(
        inputs.main_thickness,
        inputs.main_gravity,
        inputs.main_angle,
        E=E,
        width=main_width,
        name="main member",
    )
    return side, main


def row_geometry(inputs: RowInputs) -> Geometry:
    """How the fasteners stand, in both members alike."""
    for name in ("in_row", "rows"):
        if getattr(inputs, name) != round(getattr(inputs, name)):
            raise PartError({name: f"{getattr(inputs, name):g} is no whole number of fasteners."})
    pattern = Pattern(int(inputs.in_row), int(inputs.rows), inputs.spacing, inputs.row_spacing)
    places = Distances(end=inputs.end_distance, edge_loaded=inputs.edge_distance, edge=inputs.edge_distance)
    return Geometry(pattern, places, places if inputs.side == "wood" else None)


def joint_given(
    inputs: JointInputs, connector: Connector, geometry: Geometry, *, double: bool = False, count: int = 1
) -> Given:
    """Values of a joint, its factors worked out by the library's own connection."""
    if not inputs.load:
        raise PartError({"load": "No load is typed: give one above zero."})
    rows = isinstance(inputs, RowInputs)
    width = (inputs.main_width, inputs.side_width) if isinstance(inputs, RowInputs) else None
    side, main = _members(inputs, width, inputs.modulus if isinstance(inputs, RowInputs) else None)
    shear = Shear.DOUBLE if double else Shear.SINGLE
    moist = Moisture.WET if inputs.service == "wet" else Moisture.DRY
    service = JointService(moist, moist)
    C_D = DURATIONS[inputs.duration]
    found = lateral_design_value(
        connector, side, main, shear=shear, service=service, C_D=C_D, geometry=geometry if rows else None
    )
    lengths = bearing_lengths(connector, side, main, None, shear, Calculation(), False, False, False)
    theta = max(float(side.load_angle), float(main.load_angle))
    steel = inputs.side == "steel"
    cold = steel and inputs.side_thickness < 0.25
    large, threaded = connector.D >= 0.25, connector.D >= 0.25 > connector.D_yield
    n = count if not rows else found.count
    symbols = (
        Symbol("P", inputs.load, POUND, "load on the joint"),
        Symbol("D", connector.D_yield, INCH, f"{connector.name}: {_diameter(connector)}"),
        Symbol("D_n", connector.D, INCH, "its nominal diameter"),
        Symbol("F_yb", connector.F_yb, PSI, "its bending yield strength (NDS 2018, Appendix I)"),
        Symbol("l_m", lengths.main, INCH, "bearing length in the main member"),
        Symbol(
            "l_s", min(lengths.side, lengths.second) if double else lengths.side, INCH, "in the side member"
        ),
        Symbol("G_m", inputs.main_gravity, NONE, "specific gravity of the main member, as typed"),
        Symbol(
            "G_s", inputs.side_gravity, NONE, "" if steel else "specific gravity of the side member, as typed"
        ),
        Symbol("theta_m", inputs.main_angle, DEGREE, "angle of load to grain, main member"),
        Symbol("theta_s", inputs.side_angle, DEGREE, "" if steel else "angle of load to grain, side member"),
        Symbol("theta", theta, DEGREE, "the larger angle of both members"),
        Symbol("F_u", 45_000.0 if cold else 58_000.0, PSI, _steel_words(cold) if steel else ""),
        *(Symbol(name, float(value), NONE, FACTORS[name]) for name, value in found.factors.items()),
        Symbol("n", float(n), NONE, "fasteners in all"),
        *_flags(steel, cold, large, threaded, double),
    )
    steps = [s for s in found.calculation.at(()) if s.formula.name in _SHOWN]
    before: tuple[Block, ...] = tuple(printed(steps))
    said = (
        "penetration" if any(s.formula.name in _BEFORE[:2] for s in steps) else "",
        "group action and geometry" if rows else "",
    )
    title = ", ".join(filter(None, said)).capitalize()
    return Given(symbols, before, found.notes, connector, title)


def _flags(steel: bool, cold: bool, large: bool, threaded: bool, double: bool) -> tuple[Symbol, ...]:
    flags = {
        "large": large,
        "small": not large,
        "wood_side": not steel and large,
        "small_wood_side": not steel and not large,
        "hot_rolled": steel and not cold,
        "cold_formed": cold,
        "plain": large and not threaded,
        "threaded": threaded,
        "single": not double,
        "double": double,
    }
    return tuple(Symbol(name, float(value), NONE) for name, value in flags.items())


def _diameter(connector: Connector) -> str:
    return "diameter" if connector.D_yield == connector.D else "root diameter of the thread"


def _steel_words(cold: bool) -> str:
    return f"tensile strength of the plate, ASTM {'A653 Grade 33' if cold else 'A36'}"


FACTORS = {
    "C_D": "load duration factor (NDS 2018, Table 2.3.2)",
    "C_M": "wet service factor (NDS 2018, Table 11.3.3)",
    "C_t": "temperature factor (NDS 2018, Table 11.3.4)",
    "C_g": "group action factor (NDS 2018, 11.3.6)",
    "C_Delta": "geometry factor (NDS 2018, 12.5.1)",
    "C_eg": "end grain factor (NDS 2018, 12.5.2)",
    "C_di": "diaphragm factor (NDS 2018, 12.5.3)",
    "C_tn": "toe-nail factor (NDS 2018, 12.5.4)",
}

BEARING = (
    Step(
        "Dowel bearing, main member",
        """\
F_epar_m = dowel_bearing_parallel(G_m)
F_eperp_m = dowel_bearing_perpendicular(G_m, D_n)
F_em = dowel_bearing_at_angle(F_epar_m, F_eperp_m, theta_m)""",
        when="large",
    ),
    Step("Dowel bearing of a small dowel, main member", "F_em = dowel_bearing_small(G_m)", when="small"),
    Step(
        "Dowel bearing, side member",
        """\
F_epar_s = dowel_bearing_parallel(G_s)
F_eperp_s = dowel_bearing_perpendicular(G_s, D_n)
F_es = dowel_bearing_at_angle(F_epar_s, F_eperp_s, theta_s)""",
        when="wood_side",
    ),
    Step(
        "Dowel bearing of a small dowel, side member",
        "F_es = dowel_bearing_small(G_s)",
        when="small_wood_side",
    ),
    Step("Dowel bearing, hot-rolled plate", "F_es = dowel_bearing_hot_rolled(F_u)", when="hot_rolled"),
    Step("Dowel bearing, cold-formed sheet", "F_es = dowel_bearing_cold_formed(F_u)", when="cold_formed"),
)
REDUCTION = (
    Step(
        "Reduction terms",
        """\
K_theta = angle_coefficient(theta)
R_I = reduction_mode_I(K_theta)
R_II = reduction_mode_II(K_theta)
R_III = reduction_mode_III_IV(K_theta)""",
        when="plain",
    ),
    Step(
        "Reduction term of a threaded dowel",
        """\
K_D = diameter_coefficient(D)
K_theta = angle_coefficient(theta)
R_I = reduction_threaded(K_D, K_theta)
R_II = R_I
R_III = R_I""",
        when="threaded",
    ),
    Step(
        "Reduction term of a small dowel",
        """\
R_I = diameter_coefficient(D)
R_II = R_I
R_III = R_I""",
        when="small",
    ),
)
SIX_MODES = Step(
    "Six yield modes, single shear",
    """\
k_1 = yield_coefficient_k1(F_em, F_es, l_m, l_s)
k_2 = yield_coefficient_k2(F_em, F_es, F_yb, D, l_m)
k_3 = yield_coefficient_k3(F_em, F_es, F_yb, D, l_s)
Z_Im = yield_mode_Im(D, l_m, F_em, R_I)
Z_Is = yield_mode_Is(D, l_s, F_es, R_I)
Z_II = yield_mode_II(k_1, D, l_s, F_es, R_II)
Z_IIIm = yield_mode_IIIm(k_2, D, l_m, F_em, F_es, R_III)
Z_IIIs = yield_mode_IIIs(k_3, D, l_s, F_em, F_es, R_III)
Z_IV = yield_mode_IV(D, F_em, F_es, F_yb, R_III)
Z = least_of_six_modes(Z_Im, Z_Is, Z_II, Z_IIIm, Z_IIIs, Z_IV)""",
    when="single",
)
FOUR_MODES = Step(
    "Four yield modes, double shear",
    """\
k_3 = yield_coefficient_k3(F_em, F_es, F_yb, D, l_s)
Z_Im = yield_mode_Im(D, l_m, F_em, R_I)
Z_Is = double_shear_mode_Is(D, l_s, F_es, R_I)
Z_IIIs = double_shear_mode_IIIs(k_3, D, l_s, F_em, F_es, R_III)
Z_IV = double_shear_mode_IV(D, F_em, F_es, F_yb, R_III)
Z = least_of_four_modes(Z_Im, Z_Is, Z_IIIs, Z_IV)""",
    when="double",
)
VALUE = Step(
    "Value of the joint",
    """\
Z_p = adjusted_lateral_value(Z, C_D, C_M, C_t, C_g, C_Delta, C_eg, C_di, C_tn)
Z_j = connection_value(n, Z_p)
ratio_Z = P / Z_j""",
)
MORE = "more or larger fasteners"
LATERAL = Limit("ratio_Z", "Lateral load", "P", "Z_j", "NDS 2018, 12.3", MORE)
NOT_CHECKED = (
    "the members: bending, shear at the joint (NDS 3.4.3), net section, row and group tear-out (NDS Appendix E)",
    "load off the middle of the group, and withdrawal",
    "where the load comes from and goes to (the load path)",
    "the joint at the other end of the members, and corrosion of the fasteners",
    LATERAL_SYSTEM,
    TREE,
)
