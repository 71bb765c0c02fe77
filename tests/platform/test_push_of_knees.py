"""A knee under weight pushes the deck, and the deck the tree bolts and the other posts: by statics.

The level part of a knee's force presses beam and post apart. The post is a beam from its base to its cap: what its foot
takes of the push is missing at the cap, so that the beam pushes the deck with just that, towards the knee's side. The
deck, stiff in plan, hands it to the springs of all supports, the post's own among them. Read of the program are the
force in the knee and the springs with their places; all else is worked out here.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from bolewright.platform.analysis.lateral import LateralAnalysis, State, find_lateral
from bolewright.platform.checks.lateral import run_lateral_force, unprinted
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.load_path import find_load_path

LONE = Path(__file__).parent / "arrangements" / "one_tree_one_post_knee.toml"
FIXED = 12.0  # in under grade
RISE = RUN = 30.0


@pytest.fixture(scope="module")
def lateral() -> LateralAnalysis:
    return find_lateral(find_load_path(find_layout(parse_project(LONE.read_text(encoding="utf-8")))))


def cap_share(base: float, knee: float, top: float, *, held: bool) -> float:
    """Share of a level push at the knee that the cap holds: by lever, or so that a cantilever's tip stays in place.

    A cantilever's tip moves by the integral of moment times lever; of the push and of the cap's force they are equal.
    """
    if not held:
        return (knee - base) / (top - base)
    z = np.linspace(base, top, 200_001)
    lever = top - z
    return float(np.trapezoid(np.maximum(knee - z, 0) * lever, z) / np.trapezoid(lever**2, z))


def on_springs(state: State, at: tuple[float, float], push: np.ndarray) -> list[np.ndarray]:
    """Force (x, y) on each support from a push on the deck: deck and seats are moved by themselves.

    Unknown are the deck's three movements and the force in every spring; each spring moves as the deck there less
    what lies between gives from all these forces.
    """
    k = np.concatenate([s.k for s in state.springs])
    moved = np.array([[a, b, s.x * b - s.y * a] for s in state.springs for a, b in s.axes])
    n = len(k)
    whole, right = np.zeros((n + 3, n + 3)), np.zeros(n + 3)
    whole[:n, :n] = np.eye(n) + k[:, None] * state.give
    whole[:n, n:] = -k[:, None] * moved
    whole[n:, :n] = moved.T
    right[n:] = [push[0], push[1], at[0] * push[1] - at[1] * push[0]]
    force = np.linalg.solve(whole, right)[:n].reshape(-1, 2)
    return [s.axes.T @ f for s, f in zip(state.springs, force, strict=True)]


def alone(lateral: LateralAnalysis, name: str) -> int:
    """The case of a combination of weight without wind, sway or a push."""
    (found,) = (
        n
        for n, words in enumerate(lateral.cases.words)
        if lateral.cases.names[n] == name and not lateral.cases.load[:, n].any() and "guard" not in words
    )
    return found


def test_weight_alone_is_a_case(lateral: LateralAnalysis) -> None:
    """Heavy snow with no one on the deck pushes by the knee as well (ASCE 7-16, 2.4.1: D + S)."""
    assert {"D", "D + L", "D + S"} <= {
        lateral.cases.names[alone(lateral, n)] for n in ("D", "D + L", "D + S")
    }


@pytest.mark.parametrize("name", ["D", "D + L", "D + S"])
def test_what_the_foot_takes_of_the_knee_comes_to_the_tree_bolts(lateral: LateralAnalysis, name: str) -> None:
    S1 = lateral.path.layout.member("S1")
    away = (
        np.subtract(S1.line.start, S1.line.end) / S1.line.length
    )  # from the post into the beam, where K1 leans
    post = next(f for f in lateral.frames if f.support.mark == "P1")
    case = alone(lateral, name)
    for state in lateral.every:
        F = max(
            abs(float(b.force(unprinted())[0, case]))
            for (mark, _), b in lateral.weight(state).borne.items()
            if mark == "K1"
        )
        held = state.foot.value == "fixed base"
        top = S1.bottom
        foot = 1 - cap_share(-FIXED if held else 0.0, top - RISE, top, held=held)
        push = F * RUN / np.hypot(RISE, RUN) * foot * away
        found = on_springs(state, post.support.at, push)
        assert np.sum(found, axis=0) == pytest.approx(push)
        for i, frame in enumerate(lateral.frames):
            if frame.support.mark == "P1":
                continue
            ours = [float(run_lateral_force(unprinted(), lateral, state, i, w)[0, case]) for w in (0, 1)]
            by_statics = state.springs[i].axes @ found[i]
            assert np.hypot(*by_statics) > 0.1 * np.hypot(*push)
            assert ours == pytest.approx(by_statics, rel=2e-3, abs=0.3), (frame.support.mark, state.words)
