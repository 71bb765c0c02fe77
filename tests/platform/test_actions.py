"""Loads at one place: on the framing by statics, in every case, in the sum; swings by mechanics; what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest
from arrangement_files import file_of

from bolewright.bracing.hanging import (
    hammock_lateral_force,
    pulley_pull,
    swing_lateral_force,
    swing_pull,
    swing_worst_cosine,
)
from bolewright.mechanics.beam import Beam, CoupleLoad, PointLoad, respond
from bolewright.platform.analysis.lateral import find_lateral
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.actions import (
    Action,
    ActionKind,
    couple_along,
    moment_of_push,
    through_boards,
)
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.layout.parts import Layout, LayoutError
from bolewright.platform.loads.combine import envelope, raising_loads
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.results.results import find_results
from bolewright.platform.verification.frame_gravity import frame_gravity
from bolewright.sheets.standing_on import actions_table
from bolewright.status import Status

TEXT = file_of("over_three_posts").read_text(encoding="utf-8")
# without its stairs: the pushes of each test are the only ones
PERCH = file_of("hickory_perch").read_text(encoding="utf-8").partition("[connection.HS]")[0]


def load(**keys: str | float) -> str:
    lines = [
        f'{key} = "{value}"' if isinstance(value, str) else f"{key} = {value}" for key, value in keys.items()
    ]
    return "\n[[point_load]]\n" + "\n".join(lines) + "\n"


def path(text: str) -> LoadPath:
    return find_load_path(find_layout(parse_project(text)))


def with_actions(text: str, *actions: Action) -> LoadPath:
    """A platform with actions as another part would hand them on."""
    layout = find_layout(parse_project(text))
    layout.__dict__["actions"] = actions
    return find_load_path(layout)


# ---------------------------------------------------------------------------------------------------------
# A couple on a beam


def test_a_couple_on_a_simple_span() -> None:
    """M at a of a simple span: reactions M/L, moment M a/L before it and -M (L - a)/L past it (statics)."""
    found = respond(Beam(100.0, (0.0, 100.0), 1e6), [CoupleLoad(30.0)], [29.999, 30.001])
    assert found.reactions[:, 0] == pytest.approx([0.01, -0.01])
    assert found.moment[:, 0] == pytest.approx([0.3, -0.7], abs=1e-4)
    assert found.shear_left[:, 0] == pytest.approx([0.01, 0.01])


def test_a_couple_at_a_tip() -> None:
    """M at the tip of an overhang a past a span L: constant moment over the overhang, tip M (L a/3 + a^2/2)/EI."""
    beam = Beam(150.0, (0.0, 100.0), 1e6)
    found = respond(beam, [CoupleLoad(150.0)], [120.0, 150.0])
    assert found.moment[0, 0] == pytest.approx(1.0)
    assert found.reactions[:, 0] == pytest.approx([0.01, -0.01])
    assert found.deflection[1, 0] == pytest.approx(-(100 * 50 / 3 + 50**2 / 2) / 1e6)


@pytest.mark.parametrize("at", [0.0, 20.0, 60.0, 75.0, 120.0, 130.0])
def test_a_couple_is_a_close_pair_of_forces(at: float) -> None:
    """Over three supports: the limit of two equal and opposite loads, a deflection before it."""
    beam = Beam(130.0, (0.0, 60.0, 120.0), 1e6)
    h = 1e-3
    low, high = max(at - h / 2, 0.0), min(at + h / 2, 130.0)
    stations = [10.0, 40.0, 70.0, 100.0, 125.0]
    pair = respond(beam, [PointLoad(low), PointLoad(high)], stations)
    one = respond(beam, [CoupleLoad(at)], stations)
    for name in ("reactions", "moment", "deflection"):
        two = getattr(pair, name)
        assert getattr(one, name)[:, 0] == pytest.approx((two[:, 0] - two[:, 1]) / (high - low), abs=2e-4)


# ---------------------------------------------------------------------------------------------------------
# On the framing


@pytest.mark.parametrize("kind", ["dead", "live", "snow"])
def test_a_thing_weighs_where_it_stands(kind: str) -> None:
    """300 lb at a point: the sum rises by 300 lb, and its moment about the plan's origin is that of the point."""
    plain, laid = (
        path(TEXT),
        path(TEXT + load(mark="T", at="X", weight="300 lb", kind=kind).replace('"X"', '["48 in", "48 in"]')),
    )
    put = {name: laid.balance()[name][0] - plain.balance()[name][0] for name in ("D", "L", "S")}
    assert put == pytest.approx({k: 300.0 if k == kind[0].upper() else 0.0 for k in put}, abs=1e-6)
    at = {s.mark: s.at for s in laid.layout.supports}
    felt = {mark: float(row[laid.first_action]) for mark, row in laid.reactions.items()}
    for axis in (0, 1):
        assert sum(felt[m] * at[m][axis] for m in at) == pytest.approx(300 * 48.0, rel=1e-6)


def test_what_lifts_and_what_comes_and_goes() -> None:
    """A live load that lifts counts only where lifting is the worse: most without it, least with all of it."""
    laid = path(TEXT + load(mark="U", member="C1", along="24 in", up="500 lb"))
    plain = path(TEXT)
    for mark, row in laid.reactions.items():
        here, before = envelope(laid, row[None, :]), envelope(plain, plain.reactions[mark][None, :])
        lifted = float(row[laid.first_action])
        assert here.L_most[0] - before.L_most[0] == pytest.approx(max(lifted, 0.0), abs=1e-6)
        assert here.L_least[0] - before.L_least[0] == pytest.approx(min(lifted, 0.0), abs=1e-6)


def test_moment_of_a_push_on_a_joist_by_statics() -> None:
    """200 lb outward 40.6 in over a joist's middle: a couple of 8,125 lb·in; far end of the back span up by M/L."""
    layout = find_layout(parse_project(PERCH))
    joist = layout.member("J2")
    push = (200.0 * joist.line.u[0], 200.0 * joist.line.u[1])
    tip = joist.line.end
    one = Action(
        "G", "guard", ActionKind.PUSH, tip, "J2", moment=moment_of_push(push, 40.625), level=push, height=50.0
    )
    laid = with_actions(PERCH, one)
    own = laid.effects["J2"]
    far, near = (float(own.reactions[i][laid.first_push]) for i in (0, 1))
    assert far == pytest.approx(-8125 / 34)  # lifted
    assert near == pytest.approx(8125 / 34)
    # hogging of the overhang is the whole couple, all the way to the last seat
    past = np.flatnonzero(own.stations > max(s.at for s in joist.seats) + 0.5)
    M = np.array([own.moment[int(i)][laid.first_push] for i in past[:-1]])
    assert np.abs(M + 8125.0).max() < 1e-6
    assert couple_along(joist, moment_of_push(push, 40.625)) == pytest.approx(-8125.0)


def test_pushes_count_one_at_a_time_beside_the_live_load() -> None:
    text = PERCH
    layout = find_layout(parse_project(text))
    pushes = [
        Action("G", "guard", ActionKind.PUSH, layout.member(mark).line.end, mark, moment=(0.0, M))
        for mark, M in (("J7", 8000.0), ("J7", -8000.0), ("J5", 5000.0))
    ]
    laid, plain = with_actions(text, *pushes), path(text)
    for mark, row in laid.reactions.items():
        felt = row[laid.first_push : laid.first_spot]
        here, before = envelope(laid, row[None, :]), envelope(plain, plain.reactions[mark][None, :])
        assert here.L_most == pytest.approx(before.L_most)
        assert here.guard_most[0] == pytest.approx(max(felt.max(), 0.0))
        assert here.guard_least[0] == pytest.approx(min(felt.min(), 0.0))


def test_lateral_force_comes_once_into_the_lateral_cases() -> None:
    """Dead: in every case by the factor of D; a push of a guard: once, in cases of its own, where it adds."""
    text = PERCH
    plain = find_lateral(path(text))
    one = Action("A", "pull", ActionKind.DEAD, (0.0, 60.0), level=(100.0, 0.0), height=52.0)
    dead = find_lateral(with_actions(text, one))
    n = plain.cases.count
    still = dead.cases.count - n
    assert still > 0  # cases of weight alone have come in
    names = [k for k, word in enumerate(dead.cases.words) if word != "nothing lateral"]
    more = dead.cases.load[:, names] - plain.cases.load
    assert more[0] == pytest.approx(100 * plain.cases.D)
    assert more[2] == pytest.approx(-60 * 100 * plain.cases.D)
    pushes = [
        Action("G", "guard", ActionKind.PUSH, at, level=(200.0, 0.0), height=52.0)
        for at in ((0.0, 90.0), (20.0, 40.0))
    ]
    pushed = find_lateral(with_actions(text, *pushes))
    own = np.flatnonzero(pushed.cases.G)
    assert pushed.cases.count == n + own.size
    assert np.array_equal(pushed.cases.load[:, pushed.cases.G == 0], plain.cases.load)
    assert set(pushed.cases.C_D[own]) == {1.6}
    without = {
        (name, word): plain.cases.load[:, i]
        for i, (name, word) in enumerate(zip(plain.cases.names, plain.cases.words, strict=True))
    }
    for i in own:
        before = without[pushed.cases.names[i].removesuffix(" + guard"), pushed.cases.words[i]]
        more = pushed.cases.load[:, i] - before
        assert math.hypot(*more[:2]) in (pytest.approx(0.0), pytest.approx(200.0))
        assert more[:2] @ before[:2] >= -1e-9


def test_the_frame_model_finds_the_same() -> None:
    """Vertical loads and couples of actions by the frame model of the independent check: within 3 %."""
    text = PERCH
    layout = find_layout(parse_project(text))
    actions = (
        Action("T", "thing", ActionKind.DEAD, layout.member("J4").line.at(30.0), "J4", down=400.0, patch=6.0),
        Action("G", "guard", ActionKind.PUSH, layout.member("J7").line.end, "J7", moment=(0.0, 8125.0)),
    )
    laid = with_actions(text, *actions)
    frame = frame_gravity(laid.layout)
    plain = frame_gravity(layout)
    for mark in ("J4", "J7", "C1", "S1"):
        own = laid.effects[mark]
        found = frame.frame.found[mark]
        by_frame = frame.envelope(found.reactions, found.columns)
        by_hand = envelope(laid, own.reactions)
        assert by_frame.guard_most == pytest.approx(by_hand.guard_most, rel=0.03, abs=8.0)
        assert by_frame.guard_least == pytest.approx(by_hand.guard_least, rel=0.03, abs=8.0)
        before = plain.frame.found[mark]
        more = by_frame.D - plain.envelope(before.reactions, before.columns).D
        own_before = envelope(path(text), path(text).effects[mark].reactions).D
        assert more == pytest.approx(by_hand.D - own_before, rel=0.03, abs=8.0)


def test_patterns_hold_the_envelope() -> None:
    """The loads that the worst pattern lays give just what the envelope says, with things that come and go."""
    laid = path(
        TEXT
        + load(mark="T", member="C1", along="20 in", weight="350 lb")
        + load(mark="U", member="C1", along="80 in", up="200 lb")
    )
    for row in laid.reactions.values():
        assert float(row @ raising_loads(laid, row, "live")) == pytest.approx(
            envelope(laid, row[None, :]).L_most[0]
        )


def test_boards_hand_on_all_of_it() -> None:
    layout: Layout = find_layout(parse_project(TEXT))
    for point in ((30.0, 30.0), (48.0, 61.0), (70.0, 12.0)):
        (shares,) = through_boards(layout, point)
        assert sum(s.part for s in shares) == pytest.approx(1.0)


# ---------------------------------------------------------------------------------------------------------
# Swings, hammocks, pulleys


@pytest.mark.parametrize(
    ("degrees", "down", "level"),
    [(45, 1.586, 0.600), (60, 2.0, 0.840), (75, 2.482, 1.146), (90, 3.0, 1.5)],
)
def test_a_swing_by_mechanics(degrees: float, down: float, level: float) -> None:
    """Pendulum let go at rest (mechanics; reference folder, superstructure_loads.toml, pendulum)."""
    a = degrees
    assert swing_pull(1.0, a, 1.0) == pytest.approx(down, abs=5e-4)
    assert swing_lateral_force(1.0, a, swing_worst_cosine(a), 1.0) == pytest.approx(level, abs=5e-4)


def test_the_worked_swing() -> None:
    """Reference example D1: 210 lb let go at 60 degrees: 420.0 lb down, 176.43 lb lateral at 37.314 degrees."""
    a = 60.0
    c = swing_worst_cosine(a)
    assert swing_pull(210.0, a, 1.0) == pytest.approx(420.0)
    assert swing_lateral_force(210.0, a, c, 1.0) == pytest.approx(176.43, abs=5e-3)
    assert math.degrees(math.acos(c)) == pytest.approx(37.314, abs=1e-3)


def test_a_swing_at_rest_is_its_weight() -> None:
    a = 5.0
    assert swing_pull(200.0, a, 1.0) == pytest.approx(200.0, rel=0.01)
    assert swing_lateral_force(200.0, a, swing_worst_cosine(a), 1.0) < 20


def test_hammock_and_pulley() -> None:
    """T = W/(2 sin a) along the rope, so W/(2 tan a) level; a sheave with both parts down takes twice the weight."""
    rope = 250 / (2 * math.sin(math.radians(25)))
    assert math.hypot(hammock_lateral_force(250.0, 25.0, 1.0), 125.0) == pytest.approx(rope)
    assert pulley_pull(100.0, 1.5) == pytest.approx(300.0)


HAMMOCK = {"form": "hammock", "member": "C1", "along": "10 in", "other_end": "70 in", "weight": "250 lb"}


def test_a_hammock_with_both_ends_on_a_member_pushes_the_platform_nowhere() -> None:
    """250 lb dropped into (2, common practice), ropes 30 degrees below level: by statics 250 lb down at each end, and
    433.0 lb level at each, towards the other; all together 500 lb down, nothing level, no moment about any point."""
    plain, laid = path(TEXT), path(TEXT + load(mark="H", **HAMMOCK))
    assert laid.balance()["L"][0] - plain.balance()["L"][0] == pytest.approx(500.0)
    (one,) = (a for a in laid.layout.actions if a.part == "H")
    assert one.lateral == pytest.approx((0.0,) * 5, abs=1e-6)
    assert math.hypot(*one.level) == pytest.approx(500 / 2 / math.tan(math.radians(30)))
    C1 = laid.layout.member("C1")
    ends = [C1.line.at(10.0), C1.line.at(70.0)]
    (other,) = one.also
    assert (one.at, other.at) == (pytest.approx(ends[0]), pytest.approx(ends[1]))
    assert np.array(one.level) @ (np.array(ends[1]) - ends[0]) > 0  # it pulls towards the other end
    at = {s.mark: s.at for s in laid.layout.supports}
    felt = {mark: float(row[laid.first_action]) for mark, row in laid.reactions.items()}
    for axis in (0, 1):
        assert sum(felt[m] * at[m][axis] for m in at) == pytest.approx(250 * (ends[0][axis] + ends[1][axis]))


def test_a_hammock_on_one_end_alone_pulls_the_platform() -> None:
    keys = {k: v for k, v in HAMMOCK.items() if k != "other_end"}
    (one,) = (a for a in path(TEXT + load(mark="H", **keys)).layout.actions if a.part == "H")
    assert math.hypot(*one.lateral[:2]) == pytest.approx(433.0, abs=0.05)
    assert not one.also


def test_a_hammock_bends_a_joist_as_two_loads_do() -> None:
    """250 lb at 8 in. from each seat of a 104 in. span: 250 lb at each seat, 2,000 lb·in all the way between."""
    text = file_of("round_the_trunk").read_text(encoding="utf-8")
    laid = path(text)
    number = next(n for n, a in enumerate(laid.layout.actions, start=laid.first_action) if a.part == "HM")
    own = laid.effects["J10"]
    assert [float(own.reactions[k][number]) for k in (0, 1)] == pytest.approx([250.0, 250.0])
    between = np.flatnonzero((own.stations > 28.5) & (own.stations < 115.5))
    assert [float(own.moment[int(k)][number]) for k in between] == pytest.approx([2000.0] * between.size)


def test_a_hammock_on_a_slender_beam_is_open() -> None:
    """NDS 2018, 3.7.1.4: no column longer than 50 times its thickness; 185 in. of 3 1/2 in. is 52.9 times."""
    text = TEXT.replace('section = "2x10"', 'section = "2x4"')
    for ends, asked in ((("5 in", "190 in"), False), (("10 in", "70 in"), True)):
        keys = HAMMOCK | {"along": ends[0], "other_end": ends[1]}
        rows = {
            c.key: c
            for c in find_results(parse_project(text + load(mark="H", **keys))).checks
            if c.part == "H"
        }
        assert "point_load.across" not in rows
        assert (rows["point_load.compression"].status is not Status.NOT_CHECKED) is asked


# ---------------------------------------------------------------------------------------------------------
# In the file


def test_rows_of_a_swing() -> None:
    text = PERCH
    swing = load(mark="SW", form="swing", member="C1", along="60 in", weight="200 lb", angle="60 deg")
    rated = find_results(parse_project(text + swing + 'fastener_load = "600 lb"\n'))
    own = {c.key: c for c in rated.checks if c.part == "SW"}
    assert own["point_load.fastening"].demand == pytest.approx(math.hypot(400.0, 168.03), rel=1e-4)
    assert own["point_load.fastening"].status is Status.PASSES
    assert "point_load.across" not in own  # along the beam
    bare = find_results(parse_project(text + swing + 'direction = "90 deg"\n'))
    own = {c.key: c for c in bare.checks if c.part == "SW"}
    assert own["point_load.fastening"].status is Status.NOT_CHECKED
    assert own["point_load.across"].status is Status.NOT_CHECKED
    # it hangs under a 2x12: half of 11 1/4 in. below its middle
    assert "168 lb" in own["point_load.across"].sentence
    assert f"{168.03 * 5.625:,.0f} lb·in" in own["point_load.across"].sentence


@pytest.mark.parametrize(
    ("along", "moment"), [(66.0, 100 * 50 * 50 / 100), (36.0, 100 * 20 * 80 / 100), (4.0, 1200.0)]
)
def test_a_push_across_a_beam_by_hand(along: float, moment: float) -> None:
    """NDS 2018, 3.9.2 without axial force: f_b1 / F_b1' + f_b2 / (F_b2' (1 - (f_b1 / F_bE)^2)), 100 lb at mid-depth.

    C1 is two 2x12, 132 in. long, on posts 16 and 116 in. along: between them H a b / l, past them H a; each ply by
    itself, S = 2 x 11.25 x 1.5^2 / 6. Southern Pine No.2 2x12: F_b 750, E_min 510,000 psi (NDS Supplement, Table 4B);
    wet: C_M 1 and 0.9. Edgewise by the largest moment and the loaded ply, which the row of its bending prints.
    """
    push = load(mark="PA", member="C1", along=f"{along} in", lateral="100 lb", direction="90 deg")
    found = find_results(parse_project(PERCH + push))
    own = next(c for c in found.checks if c.key == "point_load.across")
    steps = {step.formula.name: step.result for step in own.steps}
    f_b2 = moment / (2 * 11.25 * 1.5**2 / 6)
    assert steps["flatwise_section_modulus"] == pytest.approx(8.4375)
    # edgewise: the ply that hangers load, no less than the beam as one in its own row
    f_b1 = steps["moment_of_loaded_ply"] / (1.5 * 11.25**2 / 6)
    whole = next(c for c in found.checks if c.part == "C1" and c.key == "beam.bending")
    assert f_b1 >= whole.demand
    C_D = {"D": 0.9, "D + L": 1.0}[own.combination]
    F_b, E_min = 750 * C_D, 510_000 * 0.9
    # 3.3.3: the lower edge between its seats, l_u = 100 in. = 8.9 d: l_e = 1.63 l_u + 3 d
    F_bE = 1.20 * E_min * 3.0**2 / ((1.63 * 100 + 3 * 11.25) * 11.25)
    r = F_bE / F_b
    C_L = (1 + r) / 1.9 - math.sqrt(((1 + r) / 1.9) ** 2 - r / 0.95)
    wanted = f_b1 / (C_L * F_b) + f_b2 / (F_b * (1 - (f_b1 / F_bE) ** 2))
    assert own.ratio == pytest.approx(wanted, rel=1e-6)


def test_a_push_across_one_joist_is_shared_by_no_other() -> None:
    """NDS 2018, 4.3.9: C_r is for loads that the deck shares out. Twice the push less once is f_b2 / F_b2' alone.

    J4, a 2x6 of Southern Pine No.2 (F_b 1,000 psi: NDS Supplement, Table 4B), wet (F_b C_F at most 1,150 psi: C_M 1),
    seats 34 in. apart on both sides of the push; S 5.5 x 1.5^2 / 6. Edgewise bending amplifies that by a few per cent.
    """
    ratios = []
    for pounds in (20, 40):
        push = load(mark="PA", member="J4", along="38 in", lateral=f"{pounds} lb", direction="90 deg")
        found = find_results(parse_project(PERCH + push)).checks
        own = next(c for c in found if c.key == "point_load.across")
        assert own.combination == "D + one person"
        ratios.append(own.ratio)
    f_b2 = 20 * 17 * 17 / 34 / (5.5 * 1.5**2 / 6)
    assert 1.0 <= (ratios[1] - ratios[0]) / (f_b2 / 1000) < 1.1


def test_no_push_across_has_no_row() -> None:
    found = find_results(parse_project(PERCH + load(mark="TH", member="C1", along="66 in", weight="50 lb")))
    assert not [c for c in found.checks if c.key == "point_load.across"]


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ({"form": "zip line", "weight": "200 lb"}, "fatigue"),
        ({"form": "climbing anchor", "weight": "200 lb"}, "life-safety"),
        ({"form": "attachment to a house", "weight": "200 lb"}, "free-standing"),
        ({"form": "second storey", "weight": "200 lb"}, "storey"),
        ({"weight": "200 lb"}, "one place"),
        ({"member": "C1", "weight": "200 lb"}, "along"),
        ({"member": "C1", "along": "10 in"}, "brings nothing"),
        ({"member": "C1", "along": "10 in", "form": "swing"}, "weight"),
        ({"member": "C1", "along": "10 in", "weight": "20 lb", "impact": 2}, "where it comes from"),
        ({"member": "C1", "along": "10 in", "weight": "20 lb", "kind": "wind"}, "laterally only"),
        (HAMMOCK | {"other_end": "30 in"}, "less than 3 ft apart"),
        (HAMMOCK | {"form": "swing"}, "no hammock"),
        (HAMMOCK | {"direction": "90 deg"}, "leave direction out"),
    ],
)
def test_refused_in_words(keys: dict[str, str | float], says: str) -> None:
    with pytest.raises(ProjectError, match=says):
        parse_project(TEXT + load(mark="P", **keys))


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ('[[storey]]\nheight = "8 ft"\n', "refused: more than one storey"),
        ('[roof]\nslope = "10 deg"\n', "refused: a roof brings snow"),
        ('[[zip_line]]\nlength = "90 ft"\n', "refused: people moved along"),
        ("[ledger]\nbolts = 4\n", "refused: a ledger on a house"),
        (
            '[[support]]\nmark = "H"\nkind = "house"\nat = ["0 in", "0 in"]\n',
            "'house' is refused: a ledger on",
        ),
        ('[[canopy]]\nheight = "8 ft"\n', "no such key"),
    ],
)
def test_tables_and_supports_that_are_refused_say_why(lines: str, says: str) -> None:
    with pytest.raises(ProjectError, match=says):
        parse_project(TEXT + "\n" + lines)


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ({"member": "C9", "along": "10 in", "weight": "20 lb"}, "no joist or beam"),
        ({"member": "C1", "along": "900 in", "weight": "20 lb"}, "long"),
        (HAMMOCK | {"other_end": "900 in"}, "long"),
    ],
)
def test_a_place_that_is_not_there(keys: dict[str, str], says: str) -> None:
    with pytest.raises(LayoutError, match=says):
        find_load_path(find_layout(parse_project(TEXT + load(mark="P", **keys))))


def test_the_sheet_has_both_ends_of_a_hammock_in_one_row() -> None:
    """500 lb down in all at two places, nothing lateral; to the supports they add up."""
    found = find_results(parse_project(TEXT + load(mark="H", **HAMMOCK)))
    table = actions_table(found)
    assert table is not None
    (row,) = (row for row in table.rows if row[0] == "H")
    place, down, lateral, shares = row[3], row[4], row[5], row[-1]
    assert place == 'C1 at 10", 1\' 2" and 5\' 10", 1\' 2"'
    assert (down, lateral) == ("500", "")
    assert sum(float(one.split(" ")[1].replace(",", "")) for one in shares.split(", ")) == pytest.approx(
        500, abs=1
    )
