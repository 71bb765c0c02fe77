"""Areas with a load of their own, a crowd in a corner, and a support that goes down: held by hand."""

from __future__ import annotations

import numpy as np
import pytest
from arrangement_files import DEMO, file_of, path_of
from shapely import Polygon

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.coupling import settle
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.layout.parts import LayoutError
from bolewright.platform.loads.load_areas import heaviest
from bolewright.platform.loads.load_path import LoadPath, find_load_path, member_values
from bolewright.platform.results.results import find_results
from bolewright.sheets.standing_on import CROWD, crowds

TEXT = file_of("over_three_posts").read_text(encoding="utf-8")


def area(corners: str, kind: str, psf: str = "50 psf", mark: str = "TUB") -> str:
    return f'\n[[load_area]]\nmark = "{mark}"\ncorners = [{corners}]\nload = "{psf}"\nkind = "{kind}"\n'


def path(text: str) -> LoadPath:
    return find_load_path(find_layout(parse_project(text)))


SQUARE = '["24 in", "24 in"], ["72 in", "24 in"], ["72 in", "72 in"], ["24 in", "72 in"]'


@pytest.mark.parametrize(("kind", "load"), [("dead", "dead"), ("live", "live"), ("snow", "snow")])
def test_an_area_weighs_its_load_and_presses_where_it_lies(kind: str, load: str) -> None:
    """50 psf on 4 ft by 4 ft is 800 lb; its middle, 48 in by 48 in, is where the supports feel it."""
    plain, laid = path(TEXT), path(TEXT + area(SQUARE, kind))
    for name in ("dead", "live", "snow"):
        more = getattr(laid, name) - getattr(plain, name)
        assert laid.weights @ more == pytest.approx(800.0 if name == load else 0.0, abs=1e-9)
        if name == load:
            at = {s.mark: s.at for s in laid.layout.supports}
            felt = {mark: float(row @ more) for mark, row in laid.reactions.items()}
            assert sum(felt.values()) == pytest.approx(800.0)
            for axis in (0, 1):
                # panels are a foot long, and joists take the deck half way to the next: within 2 in.
                assert sum(felt[m] * at[m][axis] for m in at) / 800 == pytest.approx(48.0, abs=2.0)


def test_what_lies_off_the_deck_does_not_count() -> None:
    half = '["-48 in", "24 in"], ["48 in", "24 in"], ["48 in", "72 in"], ["-48 in", "72 in"]'
    plain, laid = path(TEXT), path(TEXT + area(half, "dead"))
    x = min(p[0] for p in laid.layout.project.platform.outline)
    assert laid.weights @ (laid.dead - plain.dead) == pytest.approx(50 * 48 * (48 - x) / 144)


def test_an_area_over_slivers_of_the_deck_weighs_its_load() -> None:
    """The demonstration's boards are cut to slivers along the skewed stringers: 30 psf on what lies on the deck."""
    text = file_of(DEMO).read_text(encoding="utf-8")
    corners = '["0 in", "40 in"], ["40 in", "40 in"], ["40 in", "80 in"], ["0 in", "80 in"]'
    plain, laid = path(text), path(text + area(corners, "dead", "30 psf"))
    deck = laid.layout.deck.intersection(Polygon([(0, 40), (40, 40), (40, 80), (0, 80)]))
    assert laid.weights @ (laid.dead - plain.dead) == pytest.approx(30 * deck.area / 144)


def test_a_heavy_area_is_felt_in_every_kind_of_check() -> None:
    plain = {(c.part, c.limit_state): c.ratio for c in find_results(parse_project(TEXT)).checks}
    laid = find_results(parse_project(TEXT + area(SQUARE, "live", "200 psf"))).checks
    grown = {c.topic for c in laid if c.ratio > 1.05 * plain[c.part, c.limit_state]}
    assert {"decking", "joists", "beams", "posts", "footings"} <= {topic.value for topic in grown}


@pytest.mark.parametrize(
    ("corners", "said"),
    [
        ('["900 in", "0 in"], ["930 in", "0 in"], ["930 in", "30 in"]', "TUB lies nowhere on the deck"),
        (
            '["0 in", "0 in"], ["48 in", "48 in"], ["48 in", "0 in"], ["0 in", "48 in"]',
            "TUB is no simple polygon",
        ),
    ],
)
def test_an_area_that_makes_no_sense_is_named(corners: str, said: str) -> None:
    with pytest.raises(LayoutError, match=said):
        path(TEXT + area(corners, "live"))


def test_two_areas_of_one_mark() -> None:
    with pytest.raises(ProjectError, match="TUB"):
        parse_project(TEXT + area(SQUARE, "live") + area(SQUARE, "dead"))


def test_a_crowd_in_a_corner_stands_near_it_only() -> None:
    found = path_of(DEMO)
    for number, load in crowds(found).items():
        corner = np.array(found.layout.project.platform.outline[int(number) - 1])
        for i in np.flatnonzero(load):
            assert np.abs(np.array(found.panels[i].centroid) - corner).max() <= CROWD
        assert 0 < load.sum() < found.live.sum() / 2


def test_a_middle_post_that_goes_down_by_hand() -> None:
    """C1 over three posts, two spans of 84 in: 1 in down in the middle sheds 6 E I / l^3, half of it to each end.

    Its moment is half of that force times 84 in.
    """
    found = path_of("over_three_posts")
    EI = {m.mark: member_values(m).E * m.section.I for m in found.layout.members}
    settled = settle(found.layout, EI)
    k = 6 * EI["C1"] / 84**3
    np.testing.assert_allclose(settled.supports[:3, 1], [k / 2, -k, k / 2], rtol=1e-6)
    np.testing.assert_allclose(settled.supports[3:, 1], 0.0, atol=1e-6 * k)
    assert settled.moment["C1"][1] == pytest.approx(k / 2 * 84, rel=1e-6)
    np.testing.assert_allclose(settled.supports.sum(axis=0), 0.0, atol=1e-6 * k)
    x = np.array([s.at[0] for s in found.layout.supports])
    np.testing.assert_allclose(x @ settled.supports, 0.0, atol=1e-4 * k)


def test_where_statics_alone_rules_nothing_shifts() -> None:
    found = path_of("two_trees_two_posts")
    EI = {m.mark: member_values(m).E * m.section.I for m in found.layout.members}
    settled = settle(found.layout, EI)
    assert np.abs(settled.supports).max() < 1e-6


def test_areas_count_together_only_where_they_lie_over_each_other() -> None:
    """By hand: halves that touch count once; 30 over 20 psf is 50; a third over one of them alone adds to that one."""
    left = area(
        '["0 in", "0 in"], ["24 in", "0 in"], ["24 in", "48 in"], ["0 in", "48 in"]', "live", "30 psf", "L"
    )
    right = area(
        '["24 in", "0 in"], ["48 in", "0 in"], ["48 in", "48 in"], ["24 in", "48 in"]', "live", "30 psf", "R"
    )
    over = area(
        '["12 in", "12 in"], ["20 in", "12 in"], ["20 in", "20 in"], ["12 in", "20 in"]',
        "live",
        "20 psf",
        "O",
    )
    third = area(
        '["30 in", "12 in"], ["40 in", "12 in"], ["40 in", "20 in"], ["30 in", "20 in"]',
        "live",
        "35 psf",
        "T",
    )
    assert heaviest(parse_project(TEXT + left + right), "live") == 30
    assert heaviest(parse_project(TEXT + left + right + over), "live") == 50
    assert heaviest(parse_project(TEXT + left + right + over + third), "live") == 65
    assert heaviest(parse_project(TEXT + left), "snow") == 0
