"""Laws every beam keeps: statics, superposition, mirror image, units, reciprocity; and what is refused."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.mechanics.beam import (
    Beam,
    BeamError,
    LoadError,
    PointLoad,
    SpreadLoad,
    TriangleLoad,
    UnitLoad,
    UnstableError,
    respond,
)
from bolewright.mechanics.diagrams import solve

LENGTH = 240.0


@st.composite
def beams(draw: st.DrawFn) -> Beam:
    count = draw(st.integers(2, 5))
    places = draw(st.lists(st.integers(0, 40), min_size=count, max_size=count, unique=True))
    supports = tuple(sorted(6.0 * p for p in places))
    springy = draw(st.booleans())
    springs = tuple(draw(st.sampled_from((None, 800.0, 5000.0))) for _ in supports) if springy else ()
    # A hinge within an inner span of three supports or more leaves the beam stable.
    hinges = ()
    if count >= 3 and draw(st.booleans()):
        hinges = ((supports[0] + 2 * supports[1]) / 3,)
    clamps = (draw(st.sampled_from((0.0, None, 4e5))), 0.0)
    return Beam(LENGTH, supports, draw(st.sampled_from((2e7, 9e7))), hinges, springs, clamps)


@st.composite
def unit_loads(draw: st.DrawFn) -> UnitLoad:
    a = 6.0 * draw(st.integers(0, 39))
    b = a + draw(st.floats(0.5, LENGTH - a)) if LENGTH - a > 0.5 else LENGTH
    kind = draw(st.sampled_from((PointLoad, SpreadLoad, TriangleLoad)))
    if kind is PointLoad:
        return PointLoad(a)
    return SpreadLoad(a, b) if kind is SpreadLoad else TriangleLoad(*draw(st.permutations((a, b))))


def mirrored(load: UnitLoad) -> UnitLoad:
    if isinstance(load, PointLoad):
        return PointLoad(LENGTH - load.x)
    if isinstance(load, SpreadLoad):
        return SpreadLoad(LENGTH - load.end, LENGTH - load.start)
    return TriangleLoad(LENGTH - load.zero, LENGTH - load.peak)


cases = st.lists(st.tuples(unit_loads(), st.floats(-500, 500)), min_size=1, max_size=5)


@settings(deadline=None, max_examples=120)
@given(beams(), cases)
def test_reactions_balance_the_loads(beam: Beam, loads: list) -> None:
    found = solve(beam, loads)
    size = sum(abs(total) for _, total in loads) + 1.0
    assert abs(found.imbalance[0]) < 1e-10 * size
    assert abs(found.imbalance[1]) < 1e-10 * size * LENGTH


@settings(deadline=None, max_examples=60)
@given(beams(), cases)
def test_diagrams_close_and_moment_is_the_area_of_shear(beam: Beam, loads: list) -> None:
    found = solve(beam, loads, pieces=24)
    size = sum(abs(total) for _, total in loads) + 1.0
    assert abs(found.shear_right[-1]) < 1e-9 * size
    assert abs(found.shear_left[0]) < 1e-9 * size
    middle = (found.stations[1:] + found.stations[:-1]) / 2
    halfway = respond(beam, [load for load, _ in loads], middle).shear_left @ np.array([t for _, t in loads])
    # Simpson's rule: exact for the shear of even and triangular loads
    area = (found.shear_right[:-1] + 4 * halfway + found.shear_left[1:]) * np.diff(found.stations) / 6
    assert np.allclose(np.diff(found.moment), area, atol=1e-9 * size * LENGTH)


@settings(deadline=None, max_examples=60)
@given(beams(), cases)
def test_any_case_is_a_product_with_the_unit_responses(beam: Beam, loads: list) -> None:
    stations = np.linspace(0.0, LENGTH, 41)
    unit = [load for load, _ in loads]
    total = np.array([size for _, size in loads])
    found = respond(beam, unit, stations)
    alone = sum(respond(beam, [load], stations).deflection[:, 0] * size for load, size in loads)
    assert np.allclose(found.deflection @ total, alone, rtol=1e-9, atol=1e-12)


@settings(deadline=None, max_examples=60)
@given(beams(), unit_loads())
def test_mirror_image_gives_the_mirrored_answer(beam: Beam, load: UnitLoad) -> None:
    order = range(len(beam.supports) - 1, -1, -1)
    image = Beam(
        LENGTH,
        tuple(LENGTH - beam.supports[i] for i in order),
        beam.EI,
        tuple(LENGTH - x for x in beam.hinges),
        tuple(beam.springs[i] for i in order) if beam.springs else (),
        beam.clamps[::-1],
    )
    stations = np.linspace(0.0, LENGTH, 33)
    one, other = respond(beam, [load], stations), respond(image, [mirrored(load)], LENGTH - stations)
    assert np.allclose(one.reactions, other.reactions[::-1], atol=1e-8)
    assert np.allclose(one.moment, other.moment, atol=1e-7)
    assert np.allclose(one.shear_left, -other.shear_right, atol=1e-8)
    assert np.allclose(one.deflection, other.deflection, rtol=1e-7, atol=1e-12)


@settings(deadline=None, max_examples=40)
@given(beams(), unit_loads())
def test_metric_and_imperial_agree(beam: Beam, load: UnitLoad) -> None:
    mm, newton = 25.4, 4.4482216152605

    def metric(x: float) -> float:
        return x * mm

    same: UnitLoad
    if isinstance(load, PointLoad):
        same = PointLoad(metric(load.x))
    elif isinstance(load, SpreadLoad):
        same = SpreadLoad(metric(load.start), metric(load.end))
    else:
        same = TriangleLoad(metric(load.zero), metric(load.peak))
    other = Beam(
        metric(LENGTH),
        tuple(map(metric, beam.supports)),
        beam.EI * newton * mm**2,
        tuple(map(metric, beam.hinges)),
        tuple(None if k is None else k * newton / mm for k in beam.springs),
        tuple(None if k is None else k * newton * mm for k in beam.clamps),
    )
    stations = np.linspace(0.0, LENGTH, 17)
    inches, millimetres = respond(beam, [load], stations), respond(other, [same], stations * mm)
    assert np.allclose(inches.moment * mm, millimetres.moment, atol=1e-6)
    assert np.allclose(inches.deflection * mm / newton, millimetres.deflection, rtol=1e-8, atol=1e-12)


@settings(deadline=None, max_examples=60)
@given(beams(), st.integers(0, 40), st.integers(0, 40))
def test_reciprocity_of_two_places(beam: Beam, a: int, b: int) -> None:
    # Maxwell and Betti: the deflection at a by a load at b is that at b by a load at a.
    found = respond(beam, [PointLoad(6.0 * a), PointLoad(6.0 * b)], [6.0 * a, 6.0 * b])
    assert found.deflection[0, 1] == pytest.approx(found.deflection[1, 0], rel=1e-8, abs=1e-13)


@settings(deadline=None, max_examples=60)
@given(beams(), cases)
def test_no_station_passes_the_extrema(beam: Beam, loads: list) -> None:
    found = solve(beam, loads)
    fine = respond(beam, [load for load, _ in loads], np.linspace(0.0, LENGTH, 481))
    total = np.array([size for _, size in loads])
    moment, deflection = fine.moment @ total, fine.deflection @ total
    slack = 1e-9 * (np.abs(moment).max() + 1.0)
    assert moment.max() <= found.sagging.value + slack
    assert moment.min() >= found.hogging.value - slack
    give = 1e-9 * np.abs(deflection).max() + 1e-14 * np.abs(total).sum() * LENGTH**3 / beam.EI
    assert deflection.max() <= found.downward.value + give
    assert deflection.min() >= found.upward.value - give


@pytest.mark.parametrize("x", [0.0, 37.0, 60.0, 119.0, 149.5, 180.0])
def test_two_supports_are_exact_statics(x: float) -> None:
    # Moments about each support of an overhanging beam, by hand.
    beam = Beam(180.0, (30.0, 150.0), 1e6)
    stations = np.array([0.0, 30.0, 45.0, 90.0, 150.0, 180.0])
    found = respond(beam, [PointLoad(x)], stations)
    right = (x - 30.0) / 120.0
    assert found.reactions[:, 0] == pytest.approx([1 - right, right], rel=1e-14, abs=1e-14)
    by_hand = (
        (1 - right) * np.maximum(stations - 30, 0)
        + right * np.maximum(stations - 150, 0)
        - np.maximum(stations - x, 0)
    )
    assert found.moment[:, 0] == pytest.approx(by_hand, rel=1e-13, abs=1e-12)


def test_another_stiffness_without_solving_again() -> None:
    beam = Beam(200.0, (0.0, 90.0, 200.0), 1e6)
    loads, stations = [SpreadLoad(10, 170), PointLoad(150)], np.linspace(0, 200, 21)
    again = respond(Beam(200.0, (0.0, 90.0, 200.0), 3e6), loads, stations)
    scaled = respond(beam, loads, stations).with_EI(3e6)
    assert np.allclose(scaled.deflection, again.deflection, rtol=1e-12)
    assert np.allclose(scaled.slope, again.slope, rtol=1e-12)
    assert np.allclose(scaled.reactions, again.reactions, rtol=1e-12)


def test_a_beam_on_springs_must_be_solved_again() -> None:
    beam = Beam(200.0, (0.0, 90.0, 200.0), 1e6, springs=(None, 500.0, None))
    with pytest.raises(BeamError, match="springs"):
        respond(beam, [PointLoad(50)], [0.0]).with_EI(2e6)


def test_many_spans_keep_their_accuracy() -> None:
    # 20 equal spans: an inner span's reactions under load all over approach wL.
    beam = Beam(2000.0, tuple(100.0 * i for i in range(21)), 1e6)
    found = respond(beam, [SpreadLoad(0.0, 2000.0)], [1000.0])
    assert found.reactions[10, 0] * 2000 == pytest.approx(100.0, rel=1e-4)
    assert found.reactions[:, 0] == pytest.approx(found.reactions[::-1, 0], rel=1e-11)


@pytest.mark.parametrize(
    ("beam", "where"),
    [
        (Beam(120.0, (0.0,), 1e6), "x = 120 in"),
        (Beam(120.0, (120.0,), 1e6), "x = 0 in"),
        (Beam(120.0, (0.0, 120.0), 1e6, hinges=(60.0,)), "x = 60 in"),
        (Beam(120.0, (0.0, 60.0), 1e6, hinges=(80.0,)), "x = 120 in"),
        (Beam(120.0, (0.0, 120.0), 1e6, springs=(None, 0.0)), "x = 120 in"),
        (Beam(120.0, (0.0, 60.0), 1e6, hinges=(0.0, 60.0)), "x = 120 in"),
    ],
)
def test_a_beam_that_moves_says_where(beam: Beam, where: str) -> None:
    with pytest.raises(UnstableError, match=f"can move up and down at {where}") as caught:
        respond(beam, [PointLoad(10.0)], [10.0])
    assert caught.value.where == where


@pytest.mark.parametrize(
    "beam",
    [
        Beam(120.0, (0.0,), 1e6, clamps=(None, 0.0)),
        Beam(120.0, (0.0, 60.0, 120.0), 1e6, hinges=(70.0,)),
        Beam(120.0, (0.0, 120.0), 1e6, hinges=(60.0,), clamps=(None, 0.0)),
        Beam(120.0, (0.0, 120.0), 1e6, springs=(10.0, 1e9)),
        Beam(120.0, (0.0,), 1e6, clamps=(5e4, 0.0)),
    ],
)
def test_a_beam_that_is_held_is_solved(beam: Beam) -> None:
    found = respond(beam, [PointLoad(50.0)], np.linspace(0.0, 120.0, 9))
    assert found.reactions.sum() == pytest.approx(1.0, rel=1e-9)


@pytest.mark.parametrize(
    ("make", "error", "says"),
    [
        (lambda: Beam(0.0, (0.0,), 1e6), BeamError, "length 0 in"),
        (lambda: Beam(120.0, (0.0, 130.0), 1e6), BeamError, "support at x = 130 in"),
        (lambda: Beam(120.0, (0.0, 60.0, 60.0), 1e6), BeamError, "two supports stand at x = 60 in"),
        (lambda: Beam(120.0, (0.0, 120.0), -1.0), BeamError, "EI -1"),
        (lambda: Beam(120.0, (0.0, 120.0), 1e6, springs=(5.0,)), BeamError, "1 springs for 2 supports"),
        (lambda: Beam(120.0, (0.0, 120.0), 1e6, springs=(5.0, -1.0)), BeamError, "stiffness -1"),
        (lambda: respond(Beam(120.0, (0.0, 120.0), 1e6), [PointLoad(121.0)], [0.0]), LoadError, "121"),
        (
            lambda: respond(Beam(120.0, (0.0, 120.0), 1e6), [SpreadLoad(9.0, 9.0)], [0.0]),
            LoadError,
            "no width",
        ),
        (lambda: respond(Beam(120.0, (0.0, 120.0), 1e6), [], [float("nan")]), BeamError, "x = nan"),
    ],
)
def test_what_makes_no_sense_is_refused(make, error: type[ValueError], says: str) -> None:
    with pytest.raises(error, match=says):
        make()
