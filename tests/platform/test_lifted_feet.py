"""What lifts a post at its cap lifts its foot and its footing: one person on an overhang too, by statics.

Two stringers of 140 in. on posts 36 in. from each end, 68 in. apart. A person of 300 lb at the end of one lifts its far
post by 300 x 36/68 = 158.8 lb. A quarter of the dead load lies on each post, without the post: deck 38.9 sq ft at 1 1/2
in. of wet Southern Pine (38.6 pcf: NDS Supplement 2018, 3.1.3, at 28 %) and 1 psf of hardware, 226 lb; nine 2x6 of 37
in., 61 lb; the stringers, 136 lb. Six tenths of it leave a lift of 158.8 - 0.6 x 106 = 95 lb.
"""

from __future__ import annotations

from functools import cache

import pytest
from cases import FOLDER

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

TEXT = (FOLDER / "b01_walkway.toml").read_text(encoding="utf-8")
BOLTED = TEXT.replace('section = "8x8"', 'section = "8x8"\nfoot_bolts = 1\nfoot_bolt_diameter = "1/2 in"')
INWARD = TEXT.replace('"36 in"]\n', '"24 in"]\n').replace('"104 in"]\n', '"116 in"]\n')

WOOD = 38.6 / 1728  # lb/in3
DEAD = (
    40 * 140 * (1.5 * WOOD + 1 / 144)  # boards, hardware
    + 9 * 37 * 1.5 * 5.5 * WOOD  # joists
    + 2 * 140 * 3 * 7.25 * WOOD  # stringers
) / 4
LIFT = 300 * 36 / 68 - 0.6 * DEAD
LIFT_INWARD = 300 * 24 / 92 - 0.6 * DEAD


@cache
def checks(text: str) -> dict[tuple[str, str], Check]:
    return {(c.part, c.key): c for c in find_results(parse_project(text)).checks}


def test_the_statics_of_this_file() -> None:
    assert pytest.approx(106, abs=1) == DEAD
    assert pytest.approx(95, abs=1) == LIFT
    assert checks(TEXT)["P3", "post.uplift"].demand == pytest.approx(LIFT, rel=0.01)


def test_bolts_of_the_foot_and_the_footing_are_pulled_by_as_much_as_the_tie_at_the_cap() -> None:
    found = checks(BOLTED)
    for key in ("post.foot_uplift", "post.foot_tear_out", "footing.uplift_lateral"):
        assert found["P3", key].demand == pytest.approx(LIFT, rel=0.01)
        assert found["P3", key].combination == "0.6D + one person"
    # Appendix E at C_D 1.0: 165 psi x 7 1/2 in. x 7 x 1/2 in.; net tension over 7.5 x (7.5 - 0.5625)
    assert found["P3", "post.foot_tear_out"].capacity == pytest.approx(165 * 7.5 * 3.5)
    assert found["P3", "post.foot_net_tension"].demand == pytest.approx(LIFT / (7.5 * 6.9375), rel=0.01)
    # NDS 2018, 12.3.1, mode IV: 2 D²/3.2 sqrt(2 F_em F_yb/(3 (1 + R_e))), wet 0.7, C_D 1.0
    mode = 2 * 0.25 / 3.2 * (2 * 6160 * 45_000 / (3 * (1 + 6160 / 7500))) ** 0.5
    assert found["P3", "post.foot_uplift"].capacity == pytest.approx(0.7 * mode, rel=0.005)


def test_a_foot_that_only_a_person_lifts_is_open_until_it_is_held() -> None:
    """Posts 24 in. from the ends, 92 in. apart: 300 x 24/92 - 0.6 x 106 = 15 lb; wind and sway leave 32 lb down."""
    assert pytest.approx(15, abs=1) == LIFT_INWARD
    found = checks(INWARD)["P1", "post.foot_uplift"]
    assert found.status is Status.NOT_CHECKED
    assert "lifted by up to 15 lb out of its concrete" in found.sentence
