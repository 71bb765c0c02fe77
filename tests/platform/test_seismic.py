"""Earthquake beside wind and sway: 0.7 C_s W by hand (ASCE 7-16, 12.7.2, 12.8.1.1, Table 12.2-1, 2.4.5)."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from bolewright.bracing.seismic import seismic_response_coefficient
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")
S_DS = re.compile(r"S_DS = 0\.15[^\n]*\n")


def seismic(text: str) -> list[Check]:
    return [c for c in find_results(parse_project(text)).checks if c.key == "platform.seismic"]


@pytest.mark.parametrize(
    ("S_DS_", "C_s"),
    [
        (1.0, 0.667),  # ASCE 7-16, equation 12.8-2: 1.0 / (1.5 / 1.0)
        (0.15, 0.10),
        (0.005, 0.01),  # equation 12.8-5: no less than 0.01
    ],
)
def test_response_coefficient_of_a_timber_frame_of_cantilevered_columns(S_DS_: float, C_s: float) -> None:
    assert float(seismic_response_coefficient(S_DS_, 1.5, 1.0)) == pytest.approx(C_s, abs=5e-4)


def test_force_by_hand() -> None:
    """Lookout: D applied, two 6x6 posts of wet southern pine (38.6 pcf), S_DS = 0.15: E = 0.7 x 0.10 x W."""
    results = find_results(parse_project(DEMO))
    D = results.path.balance()["D"][0]
    height = results.path.layout.seat_level("P1")
    posts = 2 * 38.6 * 5.5**2 / 144 * height / 12
    along_x, along_y = (c for c in results.checks if c.key == "platform.seismic")
    assert along_x.demand == along_y.demand == pytest.approx(0.7 * 0.10 * (D + posts), rel=0.005)
    assert along_x.status is Status.PASSES
    assert "Earthquake is settled along x" in along_x.sentence
    sway = 0.10 * 60 * results.path.layout.deck.area / 144  # 10 % of the live load on the whole deck
    assert along_x.capacity >= sway - 0.5


def test_a_fifth_of_snow_over_30_psf_counts() -> None:
    """ASCE 7-16, 12.7.2: W with 20 % of the uniform design snow where p_f is over 30 psf; none at 30 psf."""
    at_30 = seismic(DEMO)[0]
    over = seismic(DEMO.replace('ground_snow = "30 psf"', 'ground_snow = "40 psf"'))[0]
    area = find_results(parse_project(DEMO)).path.layout.deck.area / 144
    assert over.demand - at_30.demand == pytest.approx(0.7 * 0.10 * 0.2 * 40 * area, rel=1e-6)


def test_without_the_sites_value_it_is_open_and_says_up_to_which_it_would_be_settled() -> None:
    found = seismic(S_DS.sub("", DEMO))
    assert [c.status for c in found] == [Status.NOT_CHECKED] * 2
    enough = float(re.search(r"Up to S_DS = ([\d.]+)", found[0].sentence)[1])  # type: ignore[index]
    assert seismic(S_DS.sub(f"S_DS = {enough}\n", DEMO))[0].status is Status.PASSES
    assert seismic(S_DS.sub(f"S_DS = {enough + 0.02:.2f}\n", DEMO))[0].status is Status.NOT_CHECKED


def test_where_it_governs_it_is_open_and_says_so() -> None:
    for check in seismic(S_DS.sub("S_DS = 2.5\n", DEMO)):
        assert check.status is Status.NOT_CHECKED
        assert check.sentence.startswith("Earthquake governs along ")
        assert "the licensed engineer decides" in check.sentence


def test_what_would_be_settled_is_told_with_the_weight_beside_it() -> None:
    """0.7 (S_DS / 1.5) W by hand at the S_DS that the sentence names comes to the lateral force that it names."""
    sentence = seismic(S_DS.sub("", DEMO))[0].sentence
    found = re.search(r"S_DS = ([\d.]+) the ([\d,]+) lb .* \(W = ([\d,]+) lb\)", sentence)
    assert found is not None, sentence
    enough, has, W = (float(word.replace(",", "")) for word in found.groups())
    assert 0.7 * enough / 1.5 * W == pytest.approx(has, rel=0.01)


def test_what_is_compared_is_the_weakest_direction_not_the_papers_axes() -> None:
    """ASCE 7-16, 12.5.1: the force comes from the worst direction. The least over all, each degree tried."""
    results = find_results(parse_project(DEMO))
    cases = results.lateral.cases
    force = cases.load[:2][:, (cases.W == 0.6) | (cases.W == 0)]  # 0.6W by itself, or sway by itself
    least = min(
        float((np.cos(t) * force[0] + np.sin(t) * force[1]).max()) for t in np.radians(np.arange(0.0, 360.0))
    )
    along = [c.capacity for c in results.checks if c.key == "platform.seismic"]
    assert min(along) == pytest.approx(least, rel=0.005)
