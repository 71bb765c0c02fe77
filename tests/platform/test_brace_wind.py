"""Wind on knee braces and crossed rods in the lateral loads: areas by hand, pressure by ASCE 7-16, 29.4."""

from __future__ import annotations

import math

import numpy as np
import pytest
from arrangement_files import file_of

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.layout.trunk_braces import trunk_braces
from bolewright.platform.loads.lateral_wind import find_winds
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.results import find_results

LOOKOUT = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
OAK = (shipped("calcsheets") / "one_oak.toml").read_text(encoding="utf-8")
RODS = file_of("crossed_rods").read_text(encoding="utf-8")
KNEES = LOOKOUT[LOOKOUT.index("[[brace]]") : LOOKOUT.index("[[diagonal]]")]


def layout_of(text: str) -> Layout:
    return find_layout(parse_project(text))


def force(layout: Layout, name: str, along: bool) -> float:
    """Wind on one face by the program, towards the line of beam C1 or of the rods, or square to it."""
    winds = find_winds(find_load_path(layout))
    n = next(i for i, face in enumerate(winds.faces) if face.name == name)
    u, v = winds.hung_along[n - (len(winds.faces) - len(winds.hung_along))]
    return float(winds.shown(np.array([(u, v) if along else (-v, u)]))[0][0, n])


def pressure(layout: Layout, C_f: float) -> float:
    """Psf: K_z of exposure B up to 15 ft 0.57 (Table 26.10-1), K_d 0.85, G 0.85, 16 psf at least (29.7)."""
    site = layout.project.site
    q = 0.00256 * 0.57 * 0.85 * site.wind_speed**2 * math.exp(-0.0000362 * site.elevation)
    return max(q * 0.85 * C_f, 16.0)


def test_a_knee_brace_of_two_boards_by_hand() -> None:
    """2x6 on both faces of its post: across 5 1/2 in. on its length, along 2 x 1 1/2 in. on its height. The beam gets
    half, and the post below as much of the other half as its height is of the beam's: a simple beam (statics)."""
    layout = layout_of(LOOKOUT)
    brace = next(b for b in layout.project.braces if b.mark == "K1")
    level = layout.member("C1").bottom
    length = math.hypot(brace.run, brace.rise)
    high = brace.rise + 5.5 * brace.run / length
    share = 0.5 + 0.5 * (level - brace.rise) / level
    p = pressure(layout, 2.0) / 144
    assert force(layout, "knee brace K1", along=False) == pytest.approx(p * 5.5 * length * share, rel=0.02)
    assert force(layout, "knee brace K1", along=True) == pytest.approx(p * 3.0 * high * share, rel=0.02)


def test_a_brace_from_a_trunk_gives_half_to_its_tree_bolt() -> None:
    layout = layout_of(OAK)
    brace = trunk_braces(layout)[0]
    hand = pressure(layout, 2.0) / 144 * brace.section.d * math.hypot(brace.r, brace.a) / 2
    assert force(layout, f"knee brace {brace.mark}", along=False) == pytest.approx(hand, rel=0.02)


def test_wind_bends_a_brace_and_half_of_it_comes_to_its_tree_bolt() -> None:
    """K1 of one oak between its hinges: 0.6 of the wind on its broad side, F l/8 flatwise; F/2 at B1, two braces there.

    Once both braces press the bolt aside by as much as they may, their own wind comes on top in whatever way it blows.
    """
    found = find_results(parse_project(OAK))
    brace = trunk_braces(found.path.layout)[0]
    wide, thin = max(brace.section.b, brace.section.d), min(brace.section.b, brace.section.d)
    F = pressure(found.path.layout, 2.0) / 144 * wide * brace.length
    row = next(c for c in found.checks if c.key == "trunk_brace.with_wind" and c.part == brace.mark)
    step = {s.formula.name: s for s in row.steps}
    w = float(step["moment_by_wind"].arguments["w"])
    assert w == (0.45 if "0.75(0.6W)" in row.combination else 0.6)
    assert float(step["moment_by_wind"].arguments["F"]) == pytest.approx(F, rel=0.02)
    f_b = w * F * brace.length / 8 / (wide * thin**2 / 6)
    assert float(step["bending_stress"].result) == pytest.approx(f_b, rel=0.02)
    bolt = next(c for c in found.checks if c.key == "tree_bolt.bracket_lateral" and c.part == brace.foot.mark)
    added = [float(s.arguments["H_w"]) for s in bolt.steps if s.formula.name == "with_wind_on_braces"]
    case = next(float(s.arguments["w"]) for s in bolt.steps if s.formula.name == "wind_at_one_end")
    assert added == pytest.approx([2 * case * F / 2] * 2, rel=0.02)


def test_a_round_rod_gives_half_to_the_ground() -> None:
    """C_f 1.2 of round members (ASCE 7-16, Table 29.4-2)."""
    layout = layout_of(RODS)
    rods = layout.project.crossed_rods[0]
    a, b = (next(s.at for s in layout.supports if s.mark == m) for m in (rods.from_post, rods.to_post))
    high = layout.seat_level(rods.to_post) - rods.below_beam - rods.above_grade
    hand = pressure(layout, 1.2) / 144 * rods.diameter * math.hypot(math.dist(a, b), high) / 2
    assert force(layout, f"rod 1 of {rods.mark}", along=False) == pytest.approx(hand, rel=0.02)


def test_knees_add_what_they_catch_and_no_more() -> None:
    """All wind with the knees is all wind without them and the knees' own: of the file without its knees."""
    with_them, without = layout_of(LOOKOUT), layout_of(LOOKOUT.replace(KNEES, ""))
    for d in ((1.0, 0.0), (0.0, 1.0), (0.6, 0.8)):
        more, less = (find_winds(find_load_path(one)).towards(d) for one in (with_them, without))
        knees = sum(f.force for f in more.faces if f.name.startswith("knee"))
        assert knees > 0
        assert more.force - less.force == pytest.approx(knees, rel=1e-6)
