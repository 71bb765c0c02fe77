"""Knee braces from a trunk: statics by hand, a frame by another program, what is open, what is refused.

``LEANING``: two beams past the trunk's front, each on a bolt and on one brace at 45 degrees, 30 in. out.
``one_oak``: the shipped platform on one trunk before its guard, two braces from each lower bolt.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from Pynite import FEModel3D  # type: ignore[import-untyped]

from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import SpreadLoad
from bolewright.platform.analysis.lateral_supports import is_foot
from bolewright.platform.checks.lateral import run_lateral_force, unprinted
from bolewright.platform.checks.trunk_brace_forces import run_force
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.parts import LayoutError
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.layout.trunk_brace_ends import foot_clearance, is_paired, profile
from bolewright.platform.layout.trunk_braces import trunk_braces
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import raising_loads
from bolewright.platform.results.results import Results, find_results
from bolewright.setting_out.trunk_braces import trunk_brace_cuts
from bolewright.status import Status

ONE_OAK = (Path(__file__).parent / "before" / "one_oak.toml").read_text(encoding="utf-8")
RUN = RISE = 30.0
BOLT, HEAD = 20.0, 50.0  # in from the trunk's axis, along x


def _support(mark: str, kind: str, at: tuple[float, float], more: str) -> str:
    return f'[[support]]\nmark = "{mark}"\nkind = "{kind}"\nat = ["{at[0]} in", "{at[1]} in"]\n{more}\n'


def leaning(how: str = "tied", rise: float = RISE) -> str:
    """Two beams of one brace each, joists across them, a deck from 20 to 68 in. before the trunk."""
    head = ONE_OAK[: ONE_OAK.index("[platform]")]
    middle = ONE_OAK[ONE_OAK.index("[decking]") : ONE_OAK.index("[[support]]")]
    parts = [
        head,
        '[platform]\noutline = [["20 in", "-24 in"], ["68 in", "-24 in"], ["68 in", "24 in"], ["20 in", "24 in"]]\n'
        'floor_height = "8 ft"\n',
        middle,
    ]
    for n, y in ((1, 8.0), (2, -8.0)):
        bore = 'tree = "OAK"\nbolt = "upper"\ndirection = "180 deg"\n'
        parts.append(
            _support(f"T{n}", "tree bolt", (BOLT, y), bore + f'lateral = "{how}"\nuplift_tie = "900 lb"\n')
        )
        parts.append(_support(f"B{n}", "tree bolt", (BOLT, y), bore + 'uplift_tie = "250 lb"\n'))
        brace = f'foot = "B{n}"\nstrut = "S46"\nrise = "{rise} in"\n'
        parts.append(_support(f"K{n}", "knee brace", (HEAD, y), brace))
        parts.append(
            f'[[beam]]\nmark = "C{n}"\nplies = 2\nsection = "2x10"\nspecies = "Southern Pine"\ngrade = "No.2"\n'
            f'from = ["18 in", "{y} in"]\nto = ["68 in", "{y} in"]\nrotation_tie = "900 lb"\n'
        )
    parts.append(
        '[[joists]]\nmark = "J"\nsection = "2x6"\nspecies = "Southern Pine"\ngrade = "No.2"\ndirection = "90 deg"\n'
        'first = "-67 1/4 in"\nlast = "-20 3/4 in"\nspacing = "15 1/2 in"\nbearing = "resting"\nuplift_tie = "200 lb"\n'
    )
    return "\n".join(parts)


@pytest.fixture(scope="module")
def lean() -> Results:
    return find_results(parse_project(leaning()))


@pytest.fixture(scope="module")
def oak() -> Results:
    return find_results(parse_project(ONE_OAK))


def one(results: Results, part: str, key: str) -> Check:
    found = [c for c in results.checks if c.part == part and c.key == key]
    assert len(found) == 1
    return found[0]


def test_a_row_of_bolts_torn_out_of_the_beam_at_a_head(lean: Results) -> None:
    """Two 5/8 in. bolts, 4 D = 2 1/2 in. apart, 16 3/4 in. from the beam's end; 2-2x10: 3 in. (NDS 2018, E.3-2).

    Z'_RT = 2 F_v' 3 x 2.5 = 15 F_v'; at 45 degrees the lateral force is the load on the head.
    """
    found = one(lean, "K1", "trunk_brace.row_tear_out")
    steps = {s.formula.name: s for s in found.steps}
    assert steps["critical_spacing"].arguments["a_end"] == pytest.approx(68 - HEAD - 1.25)
    assert found.capacity == pytest.approx(15 * steps["adjusted_shear"].result)
    thrust = steps["trunk_brace_compression"]
    assert thrust.result == pytest.approx(thrust.arguments["R"])


# ---------------------------------------------------------------------------------------------------------
# Statics by hand: bolt and brace at 45 degrees


def moment_by_hand(results: Results, beam: str) -> tuple[float, float]:
    """Weight on a beam when all panels carry the live load, and its moment about the bolt, by the deck's own areas."""
    live = results.project.loads.live / 144
    area = 48.0 * 24.0  # half the deck: the joists hang over alike on both sides
    return live * area, live * area * (44.0 - BOLT)  # the deck's middle is 44 in. from the trunk


def test_a_brace_bears_the_moment_about_the_bolt_over_its_distance(lean: Results) -> None:
    for n in (1, 2):
        W, M = moment_by_hand(lean, f"C{n}")
        R = float(lean.path.reactions[f"K{n}"] @ lean.path.live)
        assert pytest.approx(M / RUN, rel=1e-9) == R
        assert float(lean.path.reactions[f"T{n}"] @ lean.path.live) == pytest.approx(W - M / RUN, rel=1e-9)


def test_at_45_degrees_the_force_along_is_root_two_and_the_lateral_one_the_load_itself(lean: Results) -> None:
    """Dead load alone, nothing lateral: F = R sqrt(2), T = R at the foot inwards and at the tie outwards."""
    lateral, path = lean.lateral, lean.path
    case = next(i for i, w in enumerate(lateral.cases.words) if w == "nothing lateral")
    assert lateral.cases.names[case] == "D"
    for brace in trunk_braces(path.layout):
        R = float(path.reactions[brace.mark] @ path.dead)
        for state in lateral.states:
            F = run_force(unprinted(), lateral, state, brace)[0, case]
            assert pytest.approx(R * math.sqrt(2), rel=1e-6) == F
            n = brace.mark[1]
            tie, foot = (
                float(run_lateral_force(unprinted(), lateral, state, lateral.row(mark), 0)[0, case])
                for mark in (f"T{n}", f"B{n}")
            )
            assert tie == pytest.approx(R, rel=0.02)  # by its spring next to nothing: nothing lateral is on
            assert abs(foot) == pytest.approx(R, rel=1e-6)


def test_tie_and_foot_are_in_balance_with_the_brace(lean: Results) -> None:
    """The moment about the lower bearing of tie, head and bolt: T a = R r, whatever the slope."""
    for rise in (24.0, 45.0):
        found = find_results(parse_project(leaning(rise=rise)))
        lateral = found.lateral
        case = next(i for i, w in enumerate(lateral.cases.words) if w == "nothing lateral")
        R = float(found.path.reactions["K1"] @ found.path.dead)
        state = lateral.states[0]
        foot = run_lateral_force(unprinted(), lateral, state, lateral.row("B1"), 0)[0, case]
        assert abs(foot) * rise == pytest.approx(R * RUN, rel=1e-9)


def test_the_upper_bolt_is_pulled_by_the_brace_and_the_lower_one_loaded_by_it(lean: Results) -> None:
    """Withdrawal of the upper bolt asks at least the brace's lateral force under D + L of the worst pattern."""
    path = lean.path
    row = path.reactions["K1"]
    R = float(row @ (path.dead + raising_loads(path, row, "live")))
    assert one(lean, "T1", "tree_bolt.withdrawal").demand >= R * 0.999
    assert one(lean, "B1", "tree_bolt.rated").demand >= R * 0.999


def test_the_trunk_bears_the_moment_of_the_whole_platform_about_its_axis(lean: Results) -> None:
    """With the deck full the trunk's moment is no less than weight times distance, the braces' heads counted."""
    path, cases = lean.path, lean.lateral.cases
    check = one(lean, "OAK", "tree.trunk")
    case = check.index[1]
    load = cases.D[case] * path.dead + cases.L[case] * path.live + cases.S[case] * path.snow
    x = {s.mark: s.at[0] for s in path.layout.supports}
    by_hand = sum(float(row @ load) * x[mark] for mark, row in path.reactions.items())
    given = next(s.arguments for s in check.steps if "a" in s.arguments and "P" in s.arguments)
    assert given["P"] * given["a"] >= 0.97 * by_hand  # what lateral force relieves it is in the case


# ---------------------------------------------------------------------------------------------------------
# By another program: a beam on a bolt and two braces


def test_two_braces_and_a_bolt_against_pynite(oak: Results) -> None:
    """A beam of the shipped platform on its bracket and two braces, hinged feet: PyNiteFEA's reactions and forces.

    The program takes bracket and braces as stiff, so here they are: steel areas. Uneven load on the two arms.
    """
    braces = [b for b in trunk_braces(oak.path.layout) if b.beam.mark == "C1"]
    beam = braces[0].beam
    E, I, w = 1.4e6, beam.section.I, (3.0, 9.0)  # psi, in⁴, lb/in on the arms towards start and end
    model = FEModel3D()
    model.add_material("wood", E, E / 16, 0.3, 0.0)
    model.add_material("stiff", 1e10, 1e9, 0.3, 0.0)
    model.add_section("beam", 1e6, I, I, I)  # no stretch: the program takes none
    model.add_section("brace", 20.0, 30.0, 30.0, 30.0)
    for name, x in (("a", 0.0), ("k2", 14.0), ("t", 44.0), ("k1", 74.0), ("b", 88.0)):
        model.add_node(name, x, 0, 0)
    model.add_node("foot", 44.0, -40.0, 0)
    ends = ("a", "k2", "t", "k1", "b")
    for i, j in zip(ends, ends[1:], strict=False):
        model.add_member(i + j, i, j, "wood", "beam")
    for k in ("k1", "k2"):
        model.add_member(k, "foot", k, "stiff", "brace")
        model.def_releases(k, Rzi=True, Rzj=True)
    for name in (*ends, "foot"):
        held = name in ("t", "foot")
        model.def_support(name, held, held, True, True, True, name == "foot")
    for i, j in (("a", "k2"), ("k2", "t")):
        model.add_member_dist_load(i + j, "FY", -w[0], -w[0])
    for i, j in (("t", "k1"), ("k1", "b")):
        model.add_member_dist_load(i + j, "FY", -w[1], -w[1])
    model.analyze()
    ours = respond(
        Beam(88.0, (14.0, 44.0, 74.0), E * I), [SpreadLoad(0.0, 44.0), SpreadLoad(44.0, 88.0)], [0.0]
    )
    R = ours.reactions @ np.array([w[0] * 44.0, w[1] * 44.0])
    forces = {k: model.members[k].max_axial("Combo 1") for k in ("k1", "k2")}
    for k, load in (("k2", R[0]), ("k1", R[2])):
        assert forces[k] == pytest.approx(load * 50.0 / 40.0, rel=2e-3)  # 30, 40, 50
    drawn = -model.nodes["t"].RxnFX["Combo 1"]
    assert drawn == pytest.approx((R[2] - R[0]) * 30.0 / 40.0, rel=5e-3)
    assert model.nodes["foot"].RxnFY["Combo 1"] == pytest.approx(R[0] + R[2], rel=2e-3)


def test_opposed_braces_leave_their_difference(oak: Results) -> None:
    """Load on one arm alone: the lower bolt gets both loads upright, the difference of both lateral ones."""
    thrust = oak.lateral.thrusts["B1"]
    case = next(i for i, w in enumerate(oak.lateral.cases.words) if w == "nothing lateral")
    heads = thrust.loads[:, :, case]
    assert [b.mark for b in thrust.braces] == ["K1", "K2"]
    none = np.zeros((2, oak.lateral.cases.count))
    T = thrust.run(unprinted(), none, np.zeros(oak.lateral.cases.count), 1)[0, case]
    by_hand = [abs(h[0] - h[1]) * 30.0 / 40.0 for h in heads]
    assert abs(T) == pytest.approx(max(by_hand))


# ---------------------------------------------------------------------------------------------------------
# The platform on one trunk


def test_a_platform_wholly_on_one_trunk_is_held_and_passes(oak: Results) -> None:
    assert not oak.lateral.loose
    assert all(s.kind != "post" for s in oak.path.layout.supports)
    assert [c.key for c in oak.checks if c.status is Status.FAILS] == []
    assert {c.key for c in oak.checks if c.status is Status.NOT_CHECKED} <= {"platform.guard"}
    feet = [f for f in oak.lateral.frames if is_foot(f)]
    assert len(feet) == 2


def test_no_rating_of_it_is_more_than_its_checks_ask(oak: Results) -> None:
    """The greatest ratio of the checks that rest on ratings of each kind of part; C1's angles count at T1, together."""
    most: dict[str, float] = {}
    for check in oak.checks:
        if check.rests_on_rating and check.calculation is not None:
            kind = check.part.rstrip("0123456789")
            most[kind] = max(most.get(kind, 0.0), check.ratio)
    for kind in ("B", "H", "J", "K", "M", "T"):
        assert most[kind] >= 0.79


def test_one_bolt_alone_does_not_keep_it_from_turning() -> None:
    """With one bracket tied and the others floating, nothing holds it from turning round the trunk: open, in words."""
    text = ONE_OAK.replace('lateral = "tied"', 'lateral = "floats"', 1)
    text = text.replace('lateral = "tied"', 'lateral = "slides"', 1)
    found = find_results(parse_project(text))
    assert found.lateral.loose
    assert one(found, "platform", "platform.lateral").status is Status.NOT_CHECKED


@pytest.mark.parametrize("how", ["floats", "slides"])
def test_without_a_bracket_that_holds_along_the_beam_the_tie_is_open(how: str) -> None:
    """A bracket that slides along the bolt, which lies along the beam here, holds no thrust."""
    text = leaning().replace('lateral = "tied"', f'lateral = "{how}"', 1)
    found = find_results(parse_project(text))
    checks = [c for c in found.checks if c.part == "K1" and c.key == "trunk_brace.tie"]
    if not found.lateral.loose:
        assert checks[0].status is Status.NOT_CHECKED
        assert "pushes C1 away from its tree OAK" in checks[0].sentence


def test_a_bracket_may_hold_along_its_bolt_and_slide_across_it() -> None:
    """Bolts along the beams: held that way they tie the braces; across they run in a slot, which must be given."""
    text = leaning("slides across").replace('mark = "T2"', 'mark = "T2"\nslot = "8 in"', 1)
    text = text.replace('lateral = "slides across"', 'lateral = "tied"', 1)
    found = find_results(parse_project(text))
    assert not found.lateral.loose
    i = found.lateral.row("T2")
    for state in found.lateral.states:
        along, across = state.springs[i].k
        assert along > 0
        assert across == 0
    assert one(found, "K2", "trunk_brace.tie").status is Status.PASSES
    assert one(found, "T2", "tree_bolt.slot").status is Status.PASSES
    without = find_results(parse_project(text.replace('slot = "8 in"', "")))
    assert one(without, "T2", "tree_bolt.slot").status is Status.NOT_CHECKED


def test_what_is_not_given_is_open() -> None:
    text = (
        ONE_OAK.replace("head_bolts = 2", "#")
        .replace("foot_bolts = 2", "#")
        .replace('rated_foot = "1550 lb"', "")
    )
    found = find_results(parse_project(text))
    for key in ("head_bolts_beam", "head_bolts_brace", "foot_bolts", "foot_rated"):
        assert one(found, "K1", f"trunk_brace.{key}").status is Status.NOT_CHECKED


def test_a_slender_brace_buckles() -> None:
    """A 2x4 of 50 in.: l/d 33, C_P near 0.3; NDS 2018, 3.7.1, by hand from the sheet's own F_c* and E_min'."""
    found = find_results(parse_project(ONE_OAK.replace('section = "4x6"', 'section = "2x4"')))
    check = one(found, "K1", "trunk_brace.buckling")
    brace = trunk_braces(found.path.layout)[0]
    group, values = brace.factors, brace.values
    C_D = found.lateral.cases.C_D[check.index[1]]
    F_star = values.F_c * C_D * math.prod(group.compression.values())
    E_p = values.E_min * math.prod(group.modulus.values())
    F_cE = 0.822 * E_p / (50.0 / 1.5) ** 2
    x = (1 + F_cE / F_star) / 1.6
    C_P = x - math.sqrt(x * x - F_cE / F_star / 0.8)
    assert check.capacity == pytest.approx(F_star * C_P, rel=1e-6)


# ---------------------------------------------------------------------------------------------------------
# As it is cut, and its clearance


def test_cuts_close_on_the_working_points(oak: Results) -> None:
    """3-4-5: axis 50 in.; the long edge reaches from the foot's low corner to the far end of the level cut."""
    layout = oak.path.layout
    cuts = trunk_brace_cuts(layout, {p.mark: p for p in cut_pieces(layout)})
    for brace, cut in zip(trunk_braces(layout), cuts, strict=True):
        assert cut.axis == pytest.approx(50.0)
        assert cut.level == pytest.approx(math.degrees(math.atan2(30, 40)))
        low, far, near, high = profile(brace, paired=is_paired(layout, brace))
        assert cut.long_edge == pytest.approx(math.dist(low, far))
        assert cut.short_edge == pytest.approx(math.dist(high, near))
        assert far[0] - near[0] == pytest.approx(5.5 * 50 / 40)
        assert min(x for x, _ in (low, far, near, high)) == pytest.approx(
            1 / 8
        )  # clear of the brace beside it


def test_clearance_is_taken_where_it_is_least(oak: Results) -> None:
    """Beam 21 in. off the axis, brace 3 1/2 in. thick, trunk of 88 in. girth; the foot begins beside the axis."""
    brace = trunk_braces(oak.path.layout)[0]
    tree = oak.project.trees[0]
    expected = math.hypot(1 / 8, 21 - 1.75) - 88 / (2 * math.pi)
    assert foot_clearance(brace, tree, paired=True) == pytest.approx(expected)


# ---------------------------------------------------------------------------------------------------------
# What is refused


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('foot = "B1"', 'foot = "B9"', "'B9' is no tree bolt of this file"),
        ('foot = "B1"', "", "a tree bolt must be named here"),
        ('strut = "S46"', 'strut = "S9"', "'S9' is no strut of this file"),
        ('rise = "40 in"', "", "K1 needs a rise"),
        ('rise = "40 in"', 'rise = "6 in"', "less than 12 in"),
        ('rise = "40 in"', 'rise = "85 in"', "leave its foot"),
        ('rise = "40 in"', 'rise = "36 in"', "give both the same rise"),
        ('foot = "B1"', 'foot = "B2"', "does not stand in the plane of C1"),
        ('mark = "B1"               # 40', 'lateral = "tied"\nmark = "B1"   # 40', "leave this line out"),
        ('foot = "B1"', 'foot = "B1"\npost = "P"', "takes no post"),
        ('at = ["-30 in", "21 in"]', 'at = ["40 in", "21 in"]', "lean to one side of C1"),
    ],
)
def test_a_fault_gets_one_sentence(old: str, new: str, said: str) -> None:
    assert old in ONE_OAK
    with pytest.raises((ProjectError, LayoutError)) as caught:
        find_results(parse_project(ONE_OAK.replace(old, new, 1)))
    assert said in str(caught.value)
