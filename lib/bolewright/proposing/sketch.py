"""A plan of a proposal in letters, to be set beside others: floor, beams, posts, trunks and bolts."""

from __future__ import annotations

from itertools import zip_longest

import numpy as np
from shapely import Polygon, contains_xy

from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results

COLUMNS = 30
_ASPECT = 2.0  # a letter is about twice as high as wide
_LEGEND = "P post, T tree bolt, O trunk, - and | beams, . floor; y runs up"


def plan_lines(results: Results, columns: int = COLUMNS) -> list[str]:
    """Lines of a plan, the greatest y first."""
    project = results.project
    floor = Polygon(project.platform.outline, project.platform.openings)
    trunks = [(*tree.at, _radius(tree.girth, tree.diameter)) for tree in project.trees]
    x0, y0, x1, y1 = floor.bounds
    near = [t for t in trunks if x0 - 30 <= t[0] <= x1 + 30 and y0 - 30 <= t[1] <= y1 + 30]
    x0, x1 = min([x0, *(x - r for x, _, r in near)]), max([x1, *(x + r for x, _, r in near)])
    y0, y1 = min([y0, *(y - r for _, y, r in near)]), max([y1, *(y + r for _, y, r in near)])
    step = (x1 - x0) / columns
    rows = max(1, round((y1 - y0) / (step * _ASPECT)))
    xs = x0 + (np.arange(columns) + 0.5) * step
    ys = y1 - (np.arange(rows) + 0.5) * step * _ASPECT
    letters = np.full((rows, columns), " ")
    across, up = np.meshgrid(xs, ys)
    letters[contains_xy(floor, across, up)] = "."

    def put(x: float, y: float, letter: str) -> None:
        row = min(max(int((y1 - y) / (step * _ASPECT)), 0), rows - 1)
        letters[row, min(max(int((x - x0) / step), 0), columns - 1)] = letter

    for beam in project.beams:
        (ax, ay), (bx, by) = beam.start, beam.end
        letter = "-" if abs(bx - ax) >= abs(by - ay) else "|"
        for share in np.linspace(0, 1, 4 * columns):
            put(ax + share * (bx - ax), ay + share * (by - ay), letter)
    for x, y, r in near:
        letters[np.hypot(across - x, up - y) <= max(r, step)] = "O"
    for support in project.supports:
        put(*support.at, "P" if support.kind == SupportKind.POST else "T")
    return ["".join(row).rstrip() for row in letters]


def plans(shown: list[Results], columns: int = COLUMNS) -> list[str]:
    """Plans of several proposals beside each other, with what the letters mean."""
    drawn = [[f"{i + 1}", *plan_lines(results, columns)] for i, results in enumerate(shown)]
    rows = zip_longest(*drawn, fillvalue="")
    return [*("    ".join(f"{cell:<{columns}}" for cell in row).rstrip() for row in rows), _LEGEND]


def _radius(girth: float | None, diameter: float | None) -> float:
    return girth / (2 * np.pi) if girth is not None else (diameter or 0.0) / 2
