"""Wind on ladder and stairs in the lateral loads: areas by hand, pressure by ASCE 7-16, 29.4."""

from __future__ import annotations

import math

import numpy as np
import pytest
from arrangement_files import file_of

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.lateral_wind import Wind, find_winds
from bolewright.platform.loads.load_path import find_load_path

LOOKOUT = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
PERCH = file_of("hickory_perch").read_text(encoding="utf-8")
# Exposure B up to 15 ft: K_z 0.57 (Table 26.10-1), K_d and G 0.85; C_f 2.0: flat-sided members (Table 29.4-2).
PRESSURE = 0.00256 * 0.57 * 0.85 * 107**2 * 0.85 * 2.0


def force_of(wind: Wind, name: str) -> float:
    return next((f.force for f in wind.faces if f.name == name), 0.0)


def test_a_ladder_by_hand() -> None:
    """84 in. high at 59 degrees: rails 2x6, 98 in. and 36 in. over the floor, handrails 1 1/2 in., 8 treads.

    Across its edge all of it: 6 x 84 + 3 x 36 + 8 x 20 x 1.5 = 852 in²; along it half of
    14 x 98 + 11 x 42 = 1834, as the rails run on along their slope: 36 / sin 59 = 42 in.
    """
    layout = find_layout(parse_project(LOOKOUT.replace("grip = true", 'rails_over = "36 in"', 1)))
    ladder = layout.ladder
    assert ladder is not None
    winds = find_winds(find_load_path(layout))
    across, along = (force_of(winds.towards(d), "ladder") for d in (ladder.out, ladder.along))
    assert across == pytest.approx(PRESSURE * 852 / 144, rel=0.01)
    assert along == pytest.approx(PRESSURE * 1834 / 2 / 144, rel=0.01)


def test_a_fixed_foot_takes_half() -> None:
    layout, fixed = (
        find_layout(parse_project(text))
        for text in (LOOKOUT, LOOKOUT.replace("[ladder] ", "[ladder]\nfoot_fixed = true\n#", 1))
    )
    assert layout.ladder is not None
    whole, half = (
        force_of(find_winds(find_load_path(one)).towards(layout.ladder.out), "ladder")
        for one in (layout, fixed)
    )
    assert half == pytest.approx(whole / 2)


def test_stairs_by_hand() -> None:
    """Half of a flight's side: one stringer of 11 1/4 in. on the slope, and the guards on both sides."""
    layout = find_layout(parse_project(PERCH))
    stairs = layout.stairs
    assert stairs is not None
    rail = max(stairs.stairs.guard_height or 0.0, stairs.stairs.handrail_height or 0.0)
    side = 11.25 * math.hypot(stairs.going, stairs.rise)
    side += 2 * rail * stairs.going * layout.project.loads.guard_solidity
    site = layout.project.site
    q = 0.00256 * 0.57 * 0.85 * site.wind_speed**2 * math.exp(-0.0000362 * site.elevation)
    winds = find_winds(find_load_path(layout))
    found = force_of(winds.towards(stairs.along), "stairs")
    assert found == pytest.approx(max(q * 0.85 * 2.0, 16) * side / 2 / 144, rel=0.01)


def test_it_turns_the_platform_about_where_it_hangs() -> None:
    """The moment of all wind is the sum of each face's force times its place: of the ladder its middle."""
    layout = find_layout(parse_project(LOOKOUT))
    ladder = layout.ladder
    assert ladder is not None
    wind = find_winds(find_load_path(layout)).towards(ladder.out)
    face = next(f for f in wind.faces if f.name == "ladder")
    middle = np.mean(np.array(ladder.outline), axis=0)
    right = (ladder.out[1], -ladder.out[0])
    assert face.across == pytest.approx(float(middle @ right))
    assert wind.force * wind.across == pytest.approx(sum(f.force * f.across for f in wind.faces), rel=0.01)
