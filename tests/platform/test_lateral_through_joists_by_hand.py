"""The lateral force that the deck passes into a beam through the ends of joists: by balance, and a plane model of ours.

What the supports of a beam hold across it and along it the joists' ends on it have to pass, since nothing else ties it
to the deck. Across, the beam bends flatwise between them (`beam_on_joists`): a stiff beam shares by a group of
fasteners, ends without slip as a continuous beam on rigid seats, and true ones lie between. Along it the beam is stiff:
even shares. Forces on the supports are as the program finds them (other tests hold those).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
from beam_on_joists import SLIP, STIFF, group, through_ends
from platforms_of_joists import beam, head, joists, post

from bolewright.platform.analysis.lateral import State
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check, Status
from bolewright.platform.results.results import Results, find_results

E, PLIES = 1.4e6 * 0.9, 3  # psi, Southern Pine No.2, wet (NDS 2018 Supplement, Table 4B)
EI = E * PLIES * 11.25 * 1.5**3 / 12  # flatwise, each ply by itself
LINES = tuple(1.0 + 16 * n for n in range(9))
RATED = "600 lb"
KEY = "joist.lateral"


@dataclass(frozen=True)
class Drawn:
    """Two beams on posts at ``posts`` (x) with joists hung between, drawn as they are or mirrored."""

    posts: tuple[float, ...]
    x: tuple[float, float] = (0.0, 130.0)
    wind: float = 107
    rated: bool = True
    mirrored: bool = False
    backwards: bool = False

    def text(self) -> str:
        way = -1.0 if self.mirrored else 1.0
        lines = tuple(sorted(way * v for v in LINES))
        edges = tuple(sorted((0 * way, 130 * way)))
        ends = tuple(sorted(way * v for v in self.x))
        if self.backwards:
            ends = ends[::-1]
        text = head(edges, (-2.25, 122.25), snow=20, solid=0.5, wind=self.wind)
        rated = f'rated_lateral = "{RATED}"\n' if self.rated else ""
        text = text.replace("[connection.H]\n", f"[connection.H]\n{rated}")
        text += joists("2x10", lines, 16, "hung", 'hanger = "H"')
        text += beam("C1", ends, 0, PLIES) + beam("C2", ends, 120, PLIES)
        places = [(way * v, y) for y in (0, 120) for v in self.posts]
        return text + "".join(post(n, place) for n, place in enumerate(places, start=1))


PLATFORMS = {
    "posts under joists": Drawn((17.0, 113.0)),
    "posts between joists": Drawn((25.0, 89.0)),
    "posts past the joists": Drawn((-14.0, 144.0), (-20.0, 150.0)),
}


@cache
def results(drawn: Drawn) -> Results:
    return find_results(parse_project(drawn.text()))


def rows(found: Results) -> list[Check]:
    some = [c for c in found.checks if c.key == KEY]
    assert some, "no row of the lateral force through joists' ends"
    return some


def worst(found: Results) -> Check:
    return max(rows(found), key=lambda c: c.severity)


def on_supports(found: Results, state: State, y: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Supports of the beam at y: their places along it (x), forces across (y) and along (x) in every case."""
    at, across, along = [], [], []
    for frame, spring, V in zip(found.lateral.frames, state.springs, state.force, strict=True):
        if frame.support.at[1] == y:
            F = spring.axes.T @ V
            at.append(frame.support.at[0])
            along.append(F[0])
            across.append(F[1])
    return np.array(at), np.array(across), np.array(along)


def governing(drawn: Drawn, share) -> float:
    """Greatest force of one end over states, cases and both beams, by a share of a pound at each support."""
    found, most = results(drawn), 0.0
    for state in found.lateral.states:
        for y in (0.0, 120.0):
            at, across, along = on_supports(found, state, y)
            unit = np.stack([share({x: 1.0}) for x in at], axis=1)
            most = max(most, float(np.hypot(unit @ across, along.sum(axis=0) / len(LINES)).max()))
    return most


@pytest.mark.parametrize("name", PLATFORMS)
def test_the_governing_end_has_no_less_than_statics_asks(name: str) -> None:
    """No less than an even share, than a stiff beam's, and than a plane model's with nails that slip."""
    drawn = PLATFORMS[name]
    demand = worst(results(drawn)).demand
    assert demand >= governing(drawn, lambda pulls: np.full(len(LINES), 1 / len(LINES))) * 0.999
    assert demand >= governing(drawn, lambda pulls: group(LINES, pulls)) * 0.999
    for slip in SLIP:
        assert demand >= 0.98 * governing(drawn, lambda pulls, k=slip: through_ends(LINES, k, EI, pulls)), (
            slip
        )


@pytest.mark.parametrize("name", PLATFORMS)
def test_nor_is_it_far_from_ends_that_do_not_slip(name: str) -> None:
    """A continuous beam on rigid seats has the most at one end: no more than a tenth over it, nor a fifth under it."""
    drawn = PLATFORMS[name]
    most = governing(drawn, lambda pulls: through_ends(LINES, STIFF, EI, pulls))
    assert 0.8 * most <= worst(results(drawn)).demand <= 1.1 * most


@pytest.mark.parametrize("name", PLATFORMS)
def test_by_hand_it_is_the_continuous_beam(name: str) -> None:
    """Without what the frame model adds: across as on rigid seats, along an even share."""
    check = worst(results(PLATFORMS[name]))
    raised = [float(x.arguments["f_m"]) for x in check.steps if x.formula.name == "demand_by_frame"]
    most = governing(PLATFORMS[name], lambda pulls: through_ends(LINES, STIFF, EI, pulls))
    assert check.demand / (raised[0] if raised else 1.0) == pytest.approx(most, rel=0.01)
    assert all(1 <= f < 1.06 for f in raised)


@pytest.mark.parametrize("name", PLATFORMS)
def test_it_grows_with_the_wind(name: str) -> None:
    drawn = PLATFORMS[name]
    more = Drawn(drawn.posts, drawn.x, wind=140)
    assert worst(results(more)).demand > 1.2 * worst(results(drawn)).demand


@pytest.mark.parametrize("name", PLATFORMS)
def test_it_is_the_same_in_the_mirror_and_however_the_beam_is_drawn(name: str) -> None:
    drawn = PLATFORMS[name]
    one = worst(results(drawn))
    for other in (
        Drawn(drawn.posts, drawn.x, mirrored=True),
        Drawn(drawn.posts, drawn.x, backwards=True),
    ):
        assert worst(results(other)).ratio == pytest.approx(one.ratio, rel=1e-6)


def test_a_rating_that_lacks_leaves_it_open() -> None:
    drawn = PLATFORMS["posts between joists"]
    bare = Drawn(drawn.posts, drawn.x, rated=False)
    assert {c.status for c in rows(results(drawn))} <= {Status.PASSES, Status.FAILS}
    assert {c.status for c in rows(results(bare))} == {Status.NOT_CHECKED}
    assert len(rows(results(bare))) >= 1
