"""Reactions and moments of every arrangement against a second model, solved by PyNiteFEA.

Reactions agree to a millionth, for the platforms that statics alone settles and for those with members over three
seats (a looser tolerance could hide a lost joist). Where a skewed edge cuts the panels, a panel's trapezoid of load
stands in the load path as an even spread about the same centroid: reactions are the same, moments inside that panel
differ by less than 1 % of the member's largest.
"""

from __future__ import annotations

import numpy as np
import pytest
from arrangement_files import ARRANGEMENTS, DEMO, SKEWED, path_of, project_of
from independent_model import Platform
from shapely import Polygon, unary_union

from bolewright.platform.load_path import LoadPath
from bolewright.platform.panels import Panel

STATICS = 1e-6  # of the largest reaction
SAME_LOADS = 1e-6  # of the member's largest moment, where no panel is skewed
EVEN_SPREAD = 0.01  # the same, where some are


def compare(name: str, loads: dict[str, np.ndarray], second: Platform, model, moments=None) -> None:
    """Reactions of all supports, and moments of the members named, or of all."""
    path = path_of(name)
    tolerance = EVEN_SPREAD if name in SKEWED else SAME_LOADS
    for case, load in loads.items():
        ours = np.array([path.reactions[mark] @ load for mark in path.reactions])
        theirs = np.array([second.reaction(model, mark, case) for mark in path.reactions])
        assert np.abs(ours - theirs).max() < STATICS * np.abs(theirs).max(), case
        for member in path.layout.members:
            if moments and member.mark not in moments:
                continue
            effects = path.effects[member.mark]
            moment = effects.moment @ load
            looked = sorted({*range(0, moment.size, 6), int(moment.argmax()), int(moment.argmin())})
            mine = moment[looked]
            other = np.array([second.moment(model, member.mark, effects.stations[i], case) for i in looked])
            assert np.abs(mine - other).max() <= tolerance * max(np.abs(other).max(), 12.0), (
                case,
                member.mark,
            )


@pytest.mark.parametrize("name", [DEMO, *ARRANGEMENTS])
def test_dead_live_and_snow_load(name: str) -> None:
    path, second = path_of(name), Platform(project_of(name))
    assert set(second.sticks) == {member.mark for member in path.layout.members}
    project = path.layout.project
    model = second.frame(
        {
            "D": second.dead(),
            "L": second.area_load(second.deck, project.loads.live),
            "S": second.area_load(second.deck, project.site.ground_snow),
        }
    )
    compare(name, {"D": path.dead, "L": path.live, "S": path.snow}, second, model)


def patterns(path: LoadPath) -> dict[str, list[int]]:
    """Panels loaded in each pattern: halves, what lies past each carrier, checkerboards, single panels."""
    panels = path.panels
    at = np.array([panel.centroid for panel in panels])
    x, y = at[:, 0], at[:, 1]
    middle = np.median(at, axis=0)
    line = {mark: path.layout.member(mark).line for mark in ("S1", "S2", "C1")}

    def past(mark: str, inside: tuple[float, float]) -> np.ndarray:
        u, start = np.array(line[mark].u), np.array(line[mark].start)
        side = (at - start) @ np.array([-u[1], u[0]])
        return side * ((np.array(inside) - start) @ np.array([-u[1], u[0]])) < 0

    parity = (np.floor(x / 12) + np.floor(y / 12)).astype(int)
    chosen = {
        "all": np.ones(len(panels), dtype=bool),
        "left half": x < middle[0],
        "right half": x >= middle[0],
        "near half": y < middle[1],
        "far half": y >= middle[1],
        "past C1": past("C1", (0.0, 60.0)),
        "past S1": past("S1", (0.0, 60.0)),
        "past S2": past("S2", (0.0, 60.0)),
        "checkerboard": parity % 2 == 0,
        "the other checkerboard": parity % 2 == 1,
        "every other joist": np.array([panel.member in ("J1", "J3", "J5", "J7") for panel in panels]),
        "diagonal": (x - middle[0]) * (y - middle[1]) > 0,
    }
    found = {name: np.nonzero(where)[0].tolist() for name, where in chosen.items()}
    corners = [int(np.argmax(i * x + j * y)) for i in (-1, 1) for j in (-1, 1)]
    for n in (*corners, int(np.argmin(np.hypot(*(at - middle).T)))):
        found[f"panel {n}"] = [n]
    return found


def area_of(panels: tuple[Panel, ...], numbers: list[int]):
    shapes = [Polygon(panels[n].corners) for n in numbers if len(panels[n].corners) > 2]
    return unary_union([shape.buffer(0) for shape in shapes])


def test_patterns_of_the_demo() -> None:
    path, second = path_of(DEMO), Platform(project_of(DEMO))
    live = project_of(DEMO).loads.live
    chosen = patterns(path)
    assert len(chosen) >= 12
    assert all(chosen.values())
    model = second.frame(
        {name: second.area_load(area_of(path.panels, numbers), live) for name, numbers in chosen.items()}
    )
    loads = {}
    for name, numbers in chosen.items():
        loads[name] = np.zeros_like(path.live)
        loads[name][numbers] = path.live[numbers]
    compare(DEMO, loads, second, model, moments=("J4", "S1", "S2", "C1"))


def test_largest_moments_of_the_demo() -> None:
    # The library searches its own diagrams; ours are looked at on stations at most 6 in. apart.
    path, second = path_of(DEMO), Platform(project_of(DEMO))
    model = second.frame({"L": second.area_load(second.deck, project_of(DEMO).loads.live)})
    for member in path.layout.members:
        moment = path.effects[member.mark].moment @ path.live
        least, most = second.largest(model, member.mark, "L")
        size = max(-least, most)
        assert max(0.0, moment.max()) == pytest.approx(max(0.0, most), abs=0.005 * size)
        assert min(0.0, moment.min()) == pytest.approx(min(0.0, least), abs=0.005 * size)
