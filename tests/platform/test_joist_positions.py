"""Which way the positions of joists count: to the left of the way they run, and it is said so."""

from __future__ import annotations

import pytest
from arrangement_files import DEMO, project_of

from bolewright.platform.layout.joists import counts_along, field_axes
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.limit_states.check import Topic
from bolewright.platform.loads.load_path import find_load_path
from bolewright.sheets.inputs import inputs_of

FIELD = project_of(DEMO).joists[0]


@pytest.mark.parametrize(
    ("direction", "normal", "said"),
    [
        (0.0, (0.0, 1.0), "along y"),
        (90.0, (-1.0, 0.0), "along minus x: a joist at x = 16 in counts as -16 in"),
        (-90.0, (1.0, 0.0), "along x"),
        (180.0, (0.0, -1.0), "along minus y: a joist at y = 16 in counts as -16 in"),
        (30.0, (-0.5, 0.8660254), "square to the joists"),
    ],
)
def test_the_words_are_those_of_the_geometry(
    direction: float, normal: tuple[float, float], said: str
) -> None:
    field = FIELD.model_copy(update={"direction": direction})
    assert field_axes(field)[1] == pytest.approx(normal, abs=1e-6)
    assert counts_along(field).startswith(said)


def test_joists_along_y_lie_where_minus_x_says() -> None:
    project = project_of("round_the_trunk")
    layout = find_layout(project)
    (field,) = project.joists
    xs = sorted(joist.line.start[0] for joist in layout.joists)
    assert xs[0] == pytest.approx(-field.last)
    assert xs[-1] == pytest.approx(-field.first)


def test_the_sheet_of_joists_says_it() -> None:
    path = find_load_path(find_layout(project_of("round_the_trunk")))
    said = dict(inputs_of(path, Topic.JOISTS))
    assert "counted along minus x" in said["Positions of joists J"]
