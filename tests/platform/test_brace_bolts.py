"""Edge and end distances of lapped knees: one knee by hand, and NDS 2018, 12.5.1 as for any connection."""

from __future__ import annotations

import math
import re

import pytest
from arrangement_files import DEMO, file_of
from hypothesis import assume, given
from hypothesis import strategies as st

from bolewright.calculation import Calculation
from bolewright.fasteners.errors import GeometryError
from bolewright.fasteners.geometry import Distances, Pattern, member_geometry_factor
from bolewright.fasteners.members import Wood
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.brace_bolts import BraceBolts, Distance, brace_bolts
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.rendering.blocks import Statement
from bolewright.setting_out.braces import brace_cuts
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.setting_out.brace_holes import brace_holes
from bolewright.status import Status

TEXT = file_of(DEMO).read_text(encoding="utf-8")


def changed(**values: str) -> str:
    """The demo with other values in both of its braces."""
    head, *braces = re.split(r"(?=\[\[brace\]\])", TEXT)
    for name, value in values.items():
        braces = [re.sub(rf"(?m)^{name} = .*$", f"{name} = {value}", text, count=1) for text in braces]
    return head + "".join(braces)


def layout_of(text: str) -> Layout:
    return find_layout(parse_project(text))


def bolts_of(layout: Layout) -> BraceBolts:
    found = brace_bolts(layout, layout.project.braces[0])
    assert found is not None
    return found


def distance_check(text: str) -> Check:
    found = find_results(parse_project(text)).checks
    return next(c for c in found if (c.part, c.limit_state) == ("K1", "edge and end distances"))


def test_the_demo_by_hand() -> None:
    """30 up, 30 along, two 5/8 in. bolts; 6x6 post, (2) 2x12 beam, two plies of 2x6.

    l = 3 in.: l/D = 4.8, rows across the grain (5 * 3 + 10 * 0.625)/8 = 2.656 in., on the tape 2 11/16. In the brace at
    45 degrees that is 1.900 in. along and across. Edge of the post 5.5/2, of the brace 2.75 - 0.950 = 1.800 in.
    """
    bolts = bolts_of(layout_of(changed(bolts="2", bolt_diameter='"5/8 in"', rise='"30 in"', run='"30 in"')))
    there = {d.what: d for d in bolts.distances}
    half = 2.6875 / 2 * math.sqrt(0.5)
    assert bolts.spacing == 2.6875
    assert bolts.end == 4.5  # 7 D = 4 3/8, to the quarter inch
    assert bolts.length == pytest.approx(35.625 * math.sqrt(2) + 2 * half + 9.0)
    assert (there["hole to the edge of post P1"].actual, there["hole to the edge of post P1"].limit) == (
        2.75,
        2.5,
    )
    assert there["hole to the edge of beam C1"].actual == 5.625
    assert there["hole to its top in post P1"].actual == 30 - 2.6875 / 2
    for end in ("P1", "C1"):
        edge = there[f"hole to the edge of the brace at {end}"]
        assert (edge.actual, edge.limit) == pytest.approx((2.75 - half, 1.5 * 0.625))
        assert there[f"row to row across the brace at {end}"].actual == pytest.approx(2 * half)
    assert (
        bolts.together == 2
    )  # 1.900 in. apart along the grain of the brace: less than 4 D (NDS 2018, 3.1.2.3)
    assert not any(d.wrong for d in bolts.distances)


def test_pull_counts_both_holes() -> None:
    check = next(
        c for c in find_results(parse_project(TEXT)).checks if (c.part, c.limit_state) == ("K1", "tension")
    )
    net = next(s for s in check.steps if s.formula.name == "net_area")
    D = layout_of(TEXT).project.braces[0].bolt_diameter
    assert net.arguments["n"] == 2
    assert net.result == pytest.approx(3.0 * (5.5 - 2 * (D + 1 / 16)))


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"bolt_diameter": '"3/4 in"'}, "edge of post P1"),  # 4 D = 3 in.
        ({"bolts": "3"}, "edge of the brace at P1"),  # 2.75 - 2.6875 * 0.707 = 0.85 in., 1.5 D = 0.94
        ({"bolts": "4"}, "outer rows apart across the brace at P1"),  # 5.70 in.: 5 in. is the most (12.5.1.3)
        ({"bolts": "5", "rise": '"6 in"', "bolt_diameter": '"1/2 in"'}, "its top in post P1"),
    ],
)
def test_a_distance_below_the_least_fails_the_check_and_the_sheet(values: dict[str, str], words: str) -> None:
    text = changed(**({"bolts": "2", "bolt_diameter": '"5/8 in"'} | values))
    layout = layout_of(text)
    assert any(words in d.what for d in bolts_of(layout).distances if d.wrong)
    check = distance_check(text)
    assert check.status is Status.FAILS
    cuts = brace_cuts(layout, {p.mark: p for p in cut_pieces(layout)})
    *_, loud = brace_holes(cuts, Lengths(Tape.FEET))
    assert isinstance(loud, Statement)
    assert any(words in item for item in loud.items)


def test_what_the_sheet_holds_is_what_is_checked() -> None:
    layout = layout_of(TEXT)
    cut = brace_cuts(layout, {p.mark: p for p in cut_pieces(layout)})[0]
    assert cut.distances == bolts_of(layout).distances
    assert [(h.on_brace, h.off) for h in cut.holes] == [(h.along, h.off) for h in bolts_of(layout).holes]


def test_c_delta_comes_from_the_distances() -> None:
    """Four 1/2 in. bolts at 2 1/2 in. about 6 in. under the beam: the uppermost 2 1/4 in. from the post's top.

    7 D is 3 1/2 in. (NDS 2018, Table 12.5.1A): C_Delta = 2.25/3.5 = 0.643 at the post; at the beam all are full.
    """
    text = changed(rise='"6 in"', run='"24 in"', bolts="4", bolt_diameter='"1/2 in"')
    found = {c.limit_state: c for c in find_results(parse_project(text)).checks if c.part == "K1"}
    for state, wanted in (
        ("brace connection at the post", 2.25 / 3.5),
        ("brace connection at the beam", 1.0),
    ):
        steps = found[state].steps
        factor = next(s for s in steps if s.formula.name == "geometry_factor").result
        used = next(s for s in steps if s.formula.name == "adjusted_lateral_value").arguments["C_Delta"]
        assert (factor, used) == pytest.approx((wanted, wanted))


@given(
    st.floats(6, 60),
    st.floats(12, 48),
    st.integers(1, 5),
    st.sampled_from(["3/8 in", "1/2 in", "5/8 in", "3/4 in", "1 in"]),
)
def test_post_and_beam_agree_with_the_rules_for_any_connection(a: float, r: float, n: int, size: str) -> None:
    """The same distances put to the general rules: refused where one is below its least, the same C_Delta else."""
    text = changed(rise=f'"{a:.3f} in"', run=f'"{r:.3f} in"', bolts=str(n), bolt_diameter=f'"{size}"')
    layout = layout_of(text)
    bolts = bolts_of(layout)
    for mark, thick in (("P1", 5.5), ("C1", 3.0)):
        own = {d.what: d for d in bolts.distances if d.at == mark and "brace" not in d.what}
        edge = next(d.actual for what, d in own.items() if "edge" in what)
        end = next(d.actual for what, d in own.items() if " its " in what)
        assume(edge > 0 and end > 0)
        wanted = Distances(end=end, toward_end=True, edge_loaded=edge, edge=edge)
        in_row = Pattern(in_row=n, spacing=bolts.spacing if n > 1 else None)
        bad = any(d.wrong for d in own.values())
        # Along the grain the bolts are one row; across it each is a row of its own.
        along = Wood(thick, 0.55, 0.0, name=mark)
        across = Wood(thick, 0.55, 90.0, name=mark)
        rows = Pattern(rows=n, row_spacing=bolts.spacing if n > 1 else None)
        l = min(thick, 3.0)
        calculation = Calculation()
        try:
            C = min(
                float(member_geometry_factor(bolts.diameter, along, wanted, in_row, l, calculation)),
                float(member_geometry_factor(bolts.diameter, across, wanted, rows, l, calculation)),
            )
        except GeometryError:
            assert bad
        else:
            assert not bad
            full = [d.actual / d.full for d in own.values() if d.full]
            assert pytest.approx(min(1.0, *full)) == C


@pytest.mark.parametrize(
    ("actual", "limit", "most", "said"),
    [
        (3.0, 2.51, False, ('3"', '2 9/16"')),  # nearest would be 2 1/2 in., less than is asked
        (2.0, 2.51, False, ('2"', '2 9/16"')),
        (4.0, 4.99, True, ('4"', '4 15/16"')),  # nearest would be 5 in., more than is allowed
        (2.52, 2.51, False, ("2.520 in.", "2.510 in.")),  # 2 1/2 beside 2 9/16 would say that it fails
        (2.5, 2.51, False, ('2 1/2"', '2 9/16"')),
        (2.5, 2.5, False, ('2 1/2"', '2 1/2"')),
    ],
)
def test_limits_are_rounded_to_their_safe_side(
    actual: float, limit: float, most: bool, said: tuple[str, str]
) -> None:
    """A builder bores by what is written: a least is never written less than it is, a most never more."""
    assert Distance("P1", "hole", actual, limit, most=most).said == said
    bound = Lengths(Tape.FEET).bound(limit, most=most)
    assert bound == (said[1] if said[1].endswith('"') else '2 9/16"')
    assert Lengths(Tape.METRIC).bound(2.51) == "64 mm"  # 63.75 mm
    assert Lengths(Tape.METRIC).bound(2.51, most=True) == "63 mm"
