"""What gives between deck and supports, by statics: beams that bend laterally, joists' fastenings that slip.

And what hung on its absence: a tree bolt pulled by an axis that leans a hair, since nothing between it and a rigid deck
gave way.
"""

from __future__ import annotations

import sys

import numpy as np
import pytest
from arrangement_files import file_of

from bolewright.bracing.joint_slip import joint_stiffness
from bolewright.bracing.plan import PlanSpring, passed_on, plan_force, plan_movement, seat_movement
from bolewright.paths import shipped
from bolewright.platform.analysis.knees import beam_modulus
from bolewright.platform.analysis.lateral import LateralAnalysis, find_lateral
from bolewright.platform.analysis.plan_give import Joints, plan_give
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.load_path import find_load_path

PERCH = file_of("hickory_perch").read_text(encoding="utf-8")
TRUNK = 'at = ["0 in", "0 in"]'
NAIL = 180_000 * 0.148**1.5  # lb/in: load/slip modulus of a 10d nail, NDS 2018, 11.3.6.1


def perch(y: float = 0.0) -> LateralAnalysis:
    """The perch with its trunk moved from the line of its bolts."""
    assert PERCH.count(TRUNK) == 1
    text = PERCH.replace(TRUNK, f'at = ["0 in", "{y} in"]')
    return find_lateral(find_load_path(find_layout(parse_project(text))))


@pytest.fixture(scope="module")
def straight() -> LateralAnalysis:
    return perch()


def beam_on_springs(EI: float, load_at: float, held: list[tuple[float, float]]) -> float:
    """Movement under a pound at one place of a free beam on springs (place, lb/in), by the force method.

    The reactions R of all springs but the first two are unknown; each spring and the beam between bend to
    one line: int(m M)/EI + sum(r R / k) = 0, the integrals by Simpson on straight pieces.
    """
    places = sorted({load_at, *(x for x, _ in held)})
    (a, k_a), (b, k_b), *rest = held

    def moments(loads: list[tuple[float, float]]) -> tuple[np.ndarray, dict[float, float]]:
        """Moment at the ends of pieces, and the reactions, of the beam on its first two springs."""
        P, first = sum(p for _, p in loads), sum(p * (x - a) for x, p in loads)
        R_b = -first / (b - a)
        R_a = -P - R_b
        forces = [*loads, (a, R_a), (b, R_b)]
        return np.array([sum(p * max(x - at, 0.0) for at, p in forces) for x in places]), {a: R_a, b: R_b}

    bases = [moments([(x, 1.0)]) for x, _ in rest]
    M_0, R_0 = moments([(load_at, 1.0)])
    L = np.diff(places)

    def product(one: np.ndarray, other: np.ndarray) -> float:
        p, q, r, s = one[:-1], one[1:], other[:-1], other[1:]
        return float((L / 6 * (2 * p * r + 2 * q * s + p * s + q * r)).sum()) / EI

    def sprung(one: dict[float, float], other: dict[float, float]) -> float:
        return one[a] * other[a] / k_a + one[b] * other[b] / k_b

    A = np.array([[product(m, n) + sprung(r, s) for n, s in bases] for m, r in bases])
    A += np.diag([1 / k for _, k in rest])
    c = np.array([product(m, M_0) + sprung(r, R_0) for m, r in bases])
    X = np.linalg.solve(A, -c)
    M = M_0 + sum(x * m for x, (m, _) in zip(X, bases, strict=True))
    R = {p: R_0[p] + sum(x * r[p] for x, (_, r) in zip(X, bases, strict=True)) for p in (a, b)}
    return product(M, M_0) + sprung(R, R_0)


@pytest.mark.parametrize(
    ("joints", "nails", "plies_as_one"), [(Joints.FIRM, 8, True), (Joints.GIVE, 2, False)]
)
def test_a_hung_beam_past_the_trunk_gives_by_hand(straight, joints, nails, plies_as_one):
    """S1 of the perch: its bolt 6 in. from the start, joists at 24, 37, 50, 63, 76 and 89 in., held by C1 at 102 in.

    Across S1 a pound on T1 bends 18 in. of it over the first joists and lets their nails slip. What holds it far off,
    D1 and C1, matters little: they stand here as rigid.
    """
    beam = straight.path.layout.member("S1")
    I = 9.25 * 3.0**3 / 12 if plies_as_one else 2 * 9.25 * 1.5**3 / 12
    EI = beam_modulus(beam) * I
    joist = nails * NAIL
    by_hand = beam_on_springs(
        EI, 6.0, [(24.0, joist), (37.0, joist), (50.0, joist), (54.5, 1e7), (63.0, joist)]
    )
    i = straight.row("T1")
    found = plan_give(straight.path.layout, straight.frames, joints)[2 * i, 2 * i]
    assert found == pytest.approx(by_hand, rel=0.02)


@pytest.mark.parametrize("joints", Joints)
def test_a_beam_that_others_stand_on_twists_beyond_its_posts(monkeypatch, joints):
    """C1 of the lookout on P1 and P2, S1 and S2 on top of it, each beyond its post; a pound on P1 across C1.

    It goes to the two in the plan as to the seats of a simple beam (C1 meets nothing else), into each at C1's top. A
    section turns about its shear centre, its middle: r at the top twists what of C1 is past the post by T = r d/2 over
    the length a, the bottom held at the post alone. By energy, T^2 a / (2 GJ), the pound gives by the sum of
    r^2 d^2 a / (4 GJ) more than with a C1 that does not twist. Of one rectangle J = d t^3 (1/3 - 0.21 t/d) but for a
    thousandth; three plies twist as one 4 1/2 in. thick, or each. G = E/16.
    """
    text = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
    lateral = find_lateral(find_load_path(find_layout(parse_project(text))))
    layout = lateral.path.layout
    C1 = layout.member("C1")
    at = {mark: layout.member(mark).seats[1].below_at for mark in ("S1", "S2")}
    post = {seat.below: seat.at for seat in C1.seats}
    assert at["S1"] < post["P1"] < post["P2"] < at["S2"]
    (n, t), d = (1, 4.5) if joints is Joints.FIRM else (3, 1.5), 11.25
    GJ = beam_modulus(C1) / 16 * n * d * t**3 * (1 / 3 - 0.21 * t / d)
    part = (post["P1"] - at["S1"]) / (at["S2"] - at["S1"])
    past = (1 - part) ** 2 * (post["P1"] - at["S1"]) + part**2 * (at["S2"] - post["P2"])
    by_hand = past * (d / 2) ** 2 / GJ
    (frame,) = (f for f in lateral.frames if f.support.mark == "P1")
    across = 1 if abs(frame.u[0]) > 0.5 else 0  # C1 runs along x
    i = 2 * lateral.row("P1") + across
    whole = plan_give(layout, lateral.frames, joints)[i, i]
    module = sys.modules[plan_give.__module__]
    monkeypatch.setattr(module, "E_OVER_G", 1e-9)  # as stiff against twist as nothing is
    assert whole - plan_give(layout, lateral.frames, joints)[i, i] == pytest.approx(by_hand, rel=0.01)


def test_series_of_springs_by_hand():
    """A plate on springs of 1,000 lb/in with 1/3,000 in/lb between: 750. 75 lb moves it 0.1 in., the seat 0.075."""
    spring = PlanSpring(0.0, 0.0, np.eye(2), np.array([1000.0, 1000.0]))
    post = PlanSpring(0.0, 50.0, np.eye(2), np.array([1000.0, 1000.0]))
    give = np.eye(4) / 3000
    load, still = np.array([[0.0], [150.0], [0.0]]), np.zeros((2, 2, 1))
    u = plan_movement([spring, post], load, still, give)
    V = plan_force([spring, post], u, still, give)
    assert u[1, 0] == pytest.approx(0.1)
    assert V[:, 1, 0] == pytest.approx([75.0, 75.0])
    y = (give @ V.reshape(4, 1))[1, 0]
    assert seat_movement(delta=u[1, 0], y=y) == pytest.approx(0.075)
    assert passed_on([spring, post], give) == pytest.approx(0.75 * np.eye(4))


def test_a_bearing_that_slides_passes_its_friction_only():
    """No spring: whatever gives above it, 20 lb dragged on the seat come to the deck whole."""
    spring = PlanSpring(0.0, 0.0, np.eye(2), np.array([1000.0, 1000.0]))
    slide = PlanSpring(0.0, 50.0, np.eye(2), np.array([1000.0, 0.0]))
    give = np.eye(4) / 3000
    dragged = np.zeros((2, 2, 1))
    dragged[1, 1] = 20.0
    u = plan_movement([spring, slide], np.zeros((3, 1)), np.zeros((2, 2, 1)), give, dragged)
    V = plan_force([spring, slide], u, np.zeros((2, 2, 1)), give, dragged)
    assert V[1, 1, 0] == pytest.approx(-20.0)
    assert V[0, 1, 0] == pytest.approx(20.0)
    assert u[1, 0] == pytest.approx(20.0 / 750.0)


def test_a_joint_is_as_stiff_as_its_fasteners_together():
    """Eight nails of 10,000 lb/in each: 80,000."""
    assert joint_stiffness(n=8.0, gamma=10_000.0) == pytest.approx(80_000)


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_a_trunk_a_hair_off_the_line_of_its_bolts_does_not_lock_them(straight, mark):
    """The trunk of the perch off by 1/16 to 1/2 in.: axes up to 1.7 degrees apart.

    By hand: the trunk moves 0.11 in. along y, 0.11 x 0.5 / 17 = 0.0032 in. along each bolt. Between them lie two
    beams that give some 10,000 lb/in each: 30 lb, where a rigid deck had 900. Each sixteenth changes the greatest
    lateral force by less than 2 %.
    """

    def most(found: LateralAnalysis) -> tuple[float, float]:
        i = found.row(mark)
        return (
            max(float(np.hypot(*state.force[i]).max()) for state in found.states),
            max(float(np.abs(state.force[i, 0]).max()) for state in found.states),
        )

    whole, along = most(straight)
    for y in (1 / 16, 1 / 2):
        moved = most(perch(y))
        assert moved[0] == pytest.approx(whole, rel=0.02)
        assert moved[1] == pytest.approx(along, abs=60.0 * y)


def test_both_bounds_are_looked_at(straight):
    """Some supports get most with joints that slip, some with joints that hold: neither bound covers the other."""
    by = {state.words: state for state in straight.states}
    assert len(by) == 8  # bases, joints, wood at the tree bolts
    firm, slip = ([s for s in straight.states if s.joints is joints] for joints in (Joints.FIRM, Joints.GIVE))
    most = [np.max([np.abs(s.force).max(axis=2) for s in states], axis=0) for states in (firm, slip)]
    assert (most[1] > 1.002 * most[0]).any()
    assert (most[0] > 1.002 * most[1]).any()
