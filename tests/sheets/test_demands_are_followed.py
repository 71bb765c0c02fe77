"""Every load that a governing check starts from stands in the print: a reader follows it from there to the ratio.

A load (pounds, pound-inches) that goes into a printed line is the result of a line above it on that sheet, a number of
the project file, stands in the tables of that lateral case or support, or is named in ``ELSEWHERE`` with the reason.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import pytest

from bolewright.paths import shipped
from bolewright.platform.limit_states.check import Check, Topic
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Table
from bolewright.sheets.governing import governing_of
from bolewright.sheets.lateral_cases import push_name
from bolewright.sheets.lateral_path import lateral_blocks
from bolewright.sheets.lateral_statics import lateral_statics
from bolewright.sheets.opening import results_of
from bolewright.sheets.printing import Page, printed
from bolewright.sheets.statics import statics_blocks
from bolewright.units import POUND, POUND_FOOT, POUND_INCH

FILES = ["lookout.toml", "two_trees.toml", "one_oak.toml", "round_the_trunk.toml", "hickory_perch.toml"]
LOADS = (POUND.label, POUND_INCH.label)
Load = tuple[str, str, str, str, float]  # part, limit state, formula, its argument, value

# Loads that are not followed, by formula and argument, and by limit state where the formula serves many: the reason.
SIZES = "own weight or stiffness E A of a piece, by its sizes and density or modulus in the inputs"
CODE = "a load that a code or common practice sets, named in the remark of the row"
OTHER_SHEET = (
    "greatest moment, reaction or load of another member, worked out on its own sheet for that member alone"
)
SUM = "sum over several parts that the load path's sheet lists one by one"
CONTINUOUS = (
    "of a beam over three seats or on springs: its loads are listed, its forces are three-moment equations"
)
FACTORED = "D, L and S of the tables of weight, with own weight of the post and the guard's push, factored for concrete"
GAP = "not set out line by line: the print names the load path, or another case than this row's"
PUSHED = "what knees under weight push the deck with: sums over the deck, each load where it makes the force greatest"
ELSEWHERE: dict[tuple[str, str, str], str] = {
    **{("", "push_by_knees", name): PUSHED for name in ("T_D", "T_L", "T_S", "T_G")},
    ("", "with_more_by_knees", "T"): PUSHED,
    ("", "force_at_end_with_push", "T"): PUSHED,
    **{("", "force_across_beam", name): PUSHED for name in ("V_1", "V_2")},
    ("platform.in_plane", "with_brace_compression", "T"): PUSHED,
    **{
        ("", formula, name): SIZES
        for formula, name in (
            ("weight_across_rail", "W"),
            ("head_force", "W"),
            ("hinge_load", "W"),
            ("wheel_load", "W"),
            ("guard_weight", "W"),
            ("construction_push", "W"),
            ("group_action_factor", "EA_m"),
            ("group_action_factor", "EA_s"),
        )
    },
    ("hatch.weight", "demand_capacity_ratio", "demand"): SIZES,
    ("ladder.soil", "soil_pressure_gross", "P"): SIZES,
    ("ladder.rail", "along_rail", "P"): SIZES,
    ("", "baluster_moment", "P_i"): CODE,
    ("stairs.tread_bending", "bearing_length_wanted", "R"): CODE,  # half of 300 lb at each end of a tread
    ("stairs.tread_shear", "bearing_length_wanted", "R"): CODE,
    ("guard.infill_fastening", "demand_capacity_ratio", "demand"): CODE,
    ("ladder.grip", "demand_capacity_ratio", "demand"): CODE,
    **{
        ("", formula, name): OTHER_SHEET
        for formula, name in (
            ("blocking_moment", "M_r"),
            ("brace_edge_force", "R"),
            ("end_force", "R"),
            ("ply_point_transfer", "P"),
        )
    },
    **{
        ("", formula, name): SUM
        for formula, name in (
            ("platform_trunk_moment", "P"),
            ("platform_trunk_moment", "H"),
            ("trunk_stress", "P"),
            ("occupant_sway", "L"),
            ("second_order_ratio", "P"),
            ("seismic_force_allowable", "W"),
            ("force_at_end", "V"),  # of a seat on another beam: from all supports of that one
            ("share_along_beam", "H"),
            ("trunk_torsion", "H_x"),
            ("trunk_torsion", "H_y"),
            ("trunk_torsion_stress", "T"),
        )
    },
    ("tree.restraint", "demand_capacity_ratio", "capacity"): SUM,
    ("platform.seismic", "demand_capacity_ratio", "capacity"): SUM,
    ("beam.negative_bending", "bending_stress", "M"): CONTINUOUS,
    ("beam.bending_lateral", "bending_stress", "M"): CONTINUOUS,
    ("beam.bending_of_ply", "moment_of_loaded_ply", "M"): CONTINUOUS,
    ("joist.shear", "shear_stress", "V"): CONTINUOUS,
    ("beam.shear_lateral", "shear_stress", "V"): CONTINUOUS,
    ("joist.shear_lateral", "shear_stress", "V"): CONTINUOUS,
    **{("", f"factored_load{which}", name): FACTORED for which in ("", "_lateral") for name in "DLS"},
    **{
        ("", formula, name): GAP
        for formula, name in (
            ("compression_block", "R"),
            ("eccentric_moment", "R"),
            ("friction_force", "H_t"),
            ("joist_edge_force", "R"),
            ("rim_moment", "M_c"),
            ("rim_moment", "M_s"),
            ("rotation_resistance", "R"),
            ("seat_force_along", "H_x"),
            ("seat_force_along", "H_y"),
            ("seat_force_along", "T"),
            ("seat_lateral_force", "H_x"),
            ("seat_lateral_force", "H_y"),
            ("seat_lateral_force", "T"),
            ("thrust_moment", "M"),
            ("torsion_stress", "T"),
            ("trunk_brace_compression", "R"),
            ("uplift_by_worker", "R_D"),
            ("weight_left_by_worker", "R"),
            ("wind_at_one_end", "F"),
            ("with_wind_on_braces", "H_w"),
        )
    },
    **dict.fromkeys(
        (
            ("joist.stage_bending", "bending_stress", "M"),
            ("beam.stage_bending", "bending_stress", "M"),
            ("guard.framing_bending", "bending_stress", "M"),
            ("guard.framing_shear", "demand_capacity_ratio", "demand"),
            ("guard.framing_bending_lateral", "bending_stress", "M"),
            ("guard.framing_shear_lateral", "demand_capacity_ratio", "demand"),
            ("blocking.fastening", "demand_capacity_ratio", "demand"),
            ("beam.shear_at_bolts", "demand_capacity_ratio", "demand"),
            ("beam.edge_together", "ratings_together", "V"),
            ("beam.bending_lateral", "tension_stress", "T"),
            ("beam.torsion", "shear_stress", "V"),
            ("blocking.fastening_lateral", "load_with_sway", "R"),
            ("beam.rotation", "load_with_sway", "R"),
            ("beam.together", "load_with_sway", "R"),
            ("tree_bolt.together", "load_with_sway", "R"),
            ("post.cap_rotation", "load_with_sway", "R"),
            ("post.cap_together", "load_with_sway", "R"),
        ),
        GAP,
    ),
}


@pytest.fixture(scope="module", params=FILES)
def results(request: pytest.FixtureRequest) -> Results:
    return results_of(shipped("calcsheets") / request.param)


def numbers_in(value: object) -> Iterator[float]:
    """All numbers of the project file, as the program read them."""
    if isinstance(value, bool):
        return
    if isinstance(value, (int, float)):
        yield float(value)
    elif isinstance(value, dict):
        for one in value.values():
            yield from numbers_in(one)
    elif isinstance(value, (list, tuple)):
        for one in value:
            yield from numbers_in(one)


def alike(one: float, other: float) -> bool:
    return math.isclose(abs(one), abs(other), rel_tol=1e-7, abs_tol=1e-9)


def factors(combination: str) -> tuple[float, float, float, float]:
    """Factors of D, L, S and a guard's push in the name of a combination: "D + 0.75L + 0.75(0.6W) + 0.75S"."""
    terms = combination.split(" + ")

    def of(letter: str) -> float:
        found = [
            term
            for term in terms
            if (term.endswith(letter) and term[:-1].replace(".", "").isdigit()) or term == letter
        ]
        return sum(float(term[: -len(letter)] or 1) for term in found)

    return of("D"), of("L"), of("S"), float("guard" in terms)


class Print:
    """What stands in the print of one project, as far as a check on one of its sheets may refer to it."""

    def __init__(self, results: Results) -> None:
        self.results = results
        self.file = [*numbers_in(results.project.model_dump()), 0.0, 200.0, 300.0]
        self.tables = [b for b in lateral_blocks(results) if isinstance(b, Table)]
        self.sums = next((t for t in self.tables if t.caption.startswith("Weight on supports")), None)

    def of_case(self, check: Check) -> list[float]:
        """Numbers in the rows of the lateral case that governs a check; R_k without what tight knees take up, too."""
        name = push_name(self.results, check)
        found = []
        for table in self.tables if name else []:
            if table.columns[0] == "case":
                rows = [[_number(cell) for cell in row[1:]] for row in table.rows if str(row[0]) == name]
                found += [number for row in rows for number in row if number is not None]
                if table.columns[1] == "member":  # two pieces of a rim on one joist's end share its fasteners
                    seats = [
                        (str(row[2]), _number(row[3]) or 0.0) for row in table.rows if str(row[0]) == name
                    ]
                    found += [a + b for i, (on, a) in enumerate(seats) for to, b in seats[:i] if on == to]
                if table.columns[-1].startswith("of it taken up"):
                    found += [row[i] - row[i + 1] for row in rows for i in (-4, -2)]
        return found

    def weights(self, check: Check) -> list[tuple[float, float]]:
        """Weight on each support and seat by the printed table, and how far its rounding may take the sum.

        In the combination of a check, most and least; at a post with its own weight, too.
        """
        rows = [[str(cell).replace(",", "") for cell in row] for row in self.sums.rows] if self.sums else []
        own = {row[0]: float(row[2]) for row in rows if row[1] == "its own weight"}
        found, by = [], factors(check.combination)
        for row in rows:
            numbers = [float(cell) for cell in row[2:]]
            for least in (0, 1):
                terms = [f * numbers[2 * i + least] for i, f in enumerate(by)]
                rounding = 5e-4 * sum(map(abs, terms)) + 1e-3
                found += [(sum(terms), rounding), (sum(terms) + by[0] * own.get(row[0], 0.0), rounding)]
        return found

    def unfollowed(self) -> list[Load]:
        """Loads of governing checks that are neither in the print above them nor in the file, listed or not."""
        found: list[Load] = []
        for topic in Topic:
            page = Page()
            for check in governing_of(self.results.of(topic)):
                statics_blocks(self.results, check, page)
                lateral_statics(self.results, check, page)
                found += self._of(check, page)
                printed(check.steps, page)
        return found

    def _of(self, check: Check, page: Page) -> Iterator[Load]:
        above = [value for _, value in page.found]
        in_case, weights = self.of_case(check), self.weights(check)
        for step in check.steps:
            for name, value in step.arguments.items():
                unit = step.formula.parameters[name]
                if unit.label not in LOADS:
                    continue
                known = any(alike(value, one) for one in (*above, *self.file))
                known = known or any(math.isclose(abs(value), abs(one), rel_tol=1e-3) for one in in_case)
                known = known or any(abs(abs(value) - abs(one)) <= by for one, by in weights)
                if not known:
                    yield check.part, check.key, step.formula.name, name, value
            above.append(step.result)
            if step.formula.result.label == POUND_FOOT.label:  # goes on in inches
                above.append(12 * step.result)


def _number(cell: object) -> float | None:
    try:
        return float(str(cell).replace(",", ""))
    except ValueError:
        return None


def listed(load: Load) -> list[tuple[str, str, str]]:
    """Entries of the list that let a load be."""
    _, key, formula, name, _ = load
    return [entry for entry in ((key, formula, name), ("", formula, name)) if entry in ELSEWHERE]


def test_every_load_of_a_governing_check_is_followed(results: Results) -> None:
    assert [load for load in Print(results).unfollowed() if not listed(load)] == []


def test_the_demands_that_a_reader_missed_are_followed() -> None:
    """Shear at the knee's bolts, uplift of a block and a joist, bolts of guards, diagonals, gap: none is let be, but
    the push of knees, one printed sum beside the rest.
    """
    left = {
        load[:2]
        for load in Print(results_of(shipped("calcsheets") / "lookout.toml")).unfollowed()
        if PUSHED not in {ELSEWHERE[entry] for entry in listed(load)}
    }
    missed = {
        ("C1", "beam.shear_at_bolts"),
        ("C1", "beam.bending_at_bolts"),
        ("BB1", "blocking.uplift"),
        ("J7", "joist.uplift"),
        ("GA4", "guard.framing_bending"),
        ("GA5", "guard.framing_shear"),
        ("platform", "platform.in_plane"),
        ("OAK", "tree.clearance"),
    }
    governing = {
        (check.part, check.key)
        for topic in Topic
        for check in governing_of(results_of(shipped("calcsheets") / "lookout.toml").of(topic))
    }
    assert missed <= governing
    assert not missed & left


def test_the_list_names_nothing_that_is_followed_by_now() -> None:
    """Entries that no shipped file needs leave the list; a few come and go with the case that governs."""
    needed = {
        entry
        for name in FILES
        for load in Print(results_of(shipped("calcsheets") / name)).unfollowed()
        for entry in listed(load)[:1]
    }
    assert len(set(ELSEWHERE) - needed) <= 3, set(ELSEWHERE) - needed
