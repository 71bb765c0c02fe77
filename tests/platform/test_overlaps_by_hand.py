"""Joists at 60 degrees on a 1 1/2 in. ply: the overlap clipped by ends and edges of both, by a polygon of our own.

NDS 2018, 3.10.2 and 3.10.4; least bearing 1 1/2 in. (IRC 2021, R507.6.1).
"""

from __future__ import annotations

import math
from functools import cache

import pytest
from arrangement_files import file_of

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

SINE, COSINE = math.sin(math.pi / 3), 0.5
FIRST, SPACING, COUNT, FAR = -129.0, 16.0, 9, 94.0
Polygon = list[tuple[float, float]]


def text(start: float, near: float = 10.0) -> str:
    """C1 one ply from x = ``start`` at y = 14 in.; the plan's edge, to which the joists are cut, at y = ``near``."""
    x = near / math.tan(math.pi / 3)
    return (
        file_of("joists_at_an_angle")
        .read_text(encoding="utf-8")
        .replace('mark = "C1"\nplies = 3', 'mark = "C1"\nplies = 1')
        .replace('from = ["8 in", "14 in"]', f'from = ["{start:.4f} in", "14 in"]')
        .replace(
            '["0 in", "0 in"], ["150 in", "0 in"]',
            f'["{x:.4f} in", "{near} in"], ["{150 + x:.4f} in", "{near} in"]',
        )
    )


@cache
def checks(start: float, near: float = 10.0) -> dict[tuple[str, str], Check]:
    return {(c.part, c.limit_state): c for c in find_results(parse_project(text(start, near))).checks}


def clipped(polygon: Polygon, a: float, b: float, c: float) -> Polygon:
    """What of a polygon lies where a x + b y <= c."""
    kept: Polygon = []
    for p, q in zip(polygon, [*polygon[1:], *polygon[:1]], strict=True):
        f, g = (a * x + b * y - c for x, y in (p, q))
        if f <= 0:
            kept.append(p)
        if f * g < 0:
            t = f / (f - g)
            kept.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
    return kept


def overlap(n: int, x_0: float, x_1: float, y: float, width: float, near: float = 10.0) -> Polygon:
    """Joist n (from 0), cut at both edges of the plan, on a beam along x."""
    at = FIRST + n * SPACING
    beam = [(x_0, y - width / 2), (x_1, y - width / 2), (x_1, y + width / 2), (x_0, y + width / 2)]
    limits = (-SINE, COSINE, at + 0.75), (SINE, -COSINE, 0.75 - at), (0.0, -1.0, -near), (0.0, 1.0, FAR)
    for limit in limits:
        beam = clipped(beam, *limit)
    return beam


def area(polygon: Polygon) -> float:
    pairs = zip(polygon, [*polygon[1:], *polygon[:1]], strict=True)
    return abs(sum(p[0] * q[1] - q[0] * p[1] for p, q in pairs)) / 2


def argument(check: Check, formula: str, name: str) -> float:
    return next(float(s.arguments[name]) for s in check.steps if s.formula.name == formula)


def test_stress_is_the_reaction_over_the_clipped_overlap() -> None:
    """Whole: 1.5 x 1.5/sin 60 = 2.60 in2 on the ply, 3.0 times as much on three; less under a beam's end."""
    found = checks(8.0)
    whole = 0
    for n in range(COUNT):
        for mark, beam in (("C1", (8.0, 158.0, 14.0, 1.5)), ("C2", (46.0, 196.0, 80.0, 4.5))):
            A = area(overlap(n, *beam))
            check = found[f"J{n + 1}", f"bearing on {mark}"]
            b, l_b = (argument(check, "bearing_stress", name) for name in ("b", "l_b"))
            assert b * l_b == pytest.approx(A, rel=1e-6)
            assert check.demand >= argument(check, "bearing_stress", "R") / A * (1 - 1e-9)
            whole += math.isclose(A, beam[3] * 1.5 / SINE)
    assert whole == 2 * COUNT - 4  # the first and the last joist hang over the ends of both


def test_a_joist_half_over_the_end_has_too_short_a_bearing() -> None:
    """J1 at C1's end has 1.20 in. over its whole width; whole it is 1.5/sin 60 = 1.73 in., enough."""
    assert checks(8.0)["J1", "length of bearing on C1"].status is Status.FAILS
    whole = checks(8.0)["J2", "length of bearing on C1"]
    assert (whole.status, whole.capacity) == (Status.PASSES, pytest.approx(1.5 / SINE))


@pytest.mark.parametrize(("near_edge", "wanted"), [(2.95, 1.0), (3.05, (2.598 + 0.375) / 2.598)])
def test_C_b_under_the_last_joist_from_three_inches_to_the_end_on(near_edge: float, wanted: float) -> None:
    """NDS 2018, 3.10.4: J9 begins ``near_edge`` in. from C1's end and bears 1.5 (1 + cos 60)/sin 60 = 2.598 in."""
    begins = min(x for x, _ in overlap(COUNT - 1, -100.0, 158.0, 14.0, 1.5))
    check = checks(begins - near_edge)["C1", "bearing under J9"]
    assert argument(check, "adjusted_bearing", "C_b") == pytest.approx(wanted, rel=1e-4)


def test_no_C_b_in_a_joist_that_ends_within_three_inches_of_its_bearing() -> None:
    """Cut 2.25/sin 60 = 2.60 in. before the ply: none; 3.98 in. before it: (2.598 + 0.375)/2.598."""
    near, away = (checks(8.0, y)["J4", "bearing on C1"] for y in (11.0, 9.8))
    assert argument(near, "adjusted_bearing", "C_b") == 1.0
    assert argument(away, "adjusted_bearing", "C_b") == pytest.approx((2.598 + 0.375) / 2.598, rel=1e-4)
