"""The demo sideways, done again another way: knees under weight, overturning, deck in plan, trees that part.

Each test redoes by statics, or by an elastic frame of its own, what the checks work out by formulas.
"""

from __future__ import annotations

import numpy as np
import pytest
from arrangement_files import file_of

from bolewright.calculation import Calculation
from bolewright.mechanics.frame import analyse
from bolewright.mechanics.frame_model import Dof, Frame, Member, MemberPoint, Node, Profile, Support
from bolewright.platform.knee_weight import Way
from bolewright.platform.knees import carrier_modulus
from bolewright.platform.layout import find_layout
from bolewright.platform.level_stiffness import run_knee_stiffness, run_post_modulus
from bolewright.platform.load_path import find_load_path
from bolewright.platform.reading import parse_project
from bolewright.platform.sideways import Sideways, find_sideways

DEMO = file_of("lookout").read_text(encoding="utf-8")


def sideways_of(text: str) -> Sideways:
    return find_sideways(find_load_path(find_layout(parse_project(text))))


@pytest.fixture(scope="module")
def demo() -> Sideways:
    return sideways_of(DEMO)


# Weight on the knees ---------------------------------------------------------------------------------------


def knees_under_weight(found: Sideways, load: np.ndarray) -> dict[str, float]:
    """Push in every knee (pull negative): C1, its posts hinged at foot and top, its knees, as a plane frame."""
    run = Calculation().run
    path = found.path
    carrier = path.layout.member("C1")
    effects = path.effects["C1"]
    loads = list(zip(effects.loads, effects.delivered @ load, strict=True))
    places = sorted({0.0, carrier.line.length, *(s.at for s in carrier.seats), *(k.at for k in found.knees)})
    names = {at: f"c{i}" for i, at in enumerate(places)}
    level = carrier.bottom
    nodes = [Node(names[at], at, level) for at in places]
    beam = Profile(E=carrier_modulus(carrier), A=3e5, I_z=carrier.section.I)
    members = [
        Member(f"C/{i}", names[a], names[b], beam)
        for i, (a, b) in enumerate(zip(places, places[1:], strict=False))
    ]
    supports = []
    for frame in found.frames[2:]:
        mark, at = frame.support.mark, next(s.at for s in carrier.seats if s.below == frame.support.mark)
        bar = Profile(E=run_post_modulus(run, frame), A=3e5, I_z=frame.I)
        nodes += [Node(f"{mark}f", at, 0.0), Node(f"{mark}k", at, level - 30.0)]
        members += [
            Member(f"{mark}l", f"{mark}f", f"{mark}k", bar),
            Member(f"{mark}h", f"{mark}k", names[at], bar, end_releases=(Dof.RZ,)),
        ]
        supports.append(Support(f"{mark}f", (Dof.DX, Dof.DY)))
        knee = next(k for k in found.knees if k.brace.support == mark)
        length = float(np.hypot(30.0, 30.0))
        strut = Profile(E=1e6, A=run_knee_stiffness(run, knee) * length / 1e6, I_z=1.0)
        members.append(Member(knee.brace.mark, f"{mark}k", names[knee.at], strut, (Dof.RZ,), (Dof.RZ,)))
    applied = []
    for what, pounds in loads:
        spots = [(what.x, pounds)] if hasattr(what, "x") else _spread(what, float(pounds))
        for x, force in spots:
            piece = max(i for i, at in enumerate(places[:-1]) if at <= x + 1e-9)
            applied.append(MemberPoint(f"C/{piece}", x - places[piece], (0.0, -float(force), 0.0)))
    result = analyse(Frame(tuple(nodes), tuple(members), tuple(supports), plane=True), [applied])
    return {
        k.brace.mark: float(result.end_forces[result.frame.member_index[k.brace.mark], 0, 0])
        for k in found.knees
    }


def _spread(what, pounds):
    xs = np.linspace(what.start, what.end, 41)
    return [(float(x), pounds / 40) for x in (xs[1:] + xs[:-1]) / 2]


def test_an_overhang_pulls_at_the_knees_between_the_posts(demo):
    """S1 and S2 land outside the posts and lift C1 between them: the knees are pulled, not let off."""
    found = knees_under_weight(demo, demo.path.dead + demo.path.live)
    case = demo.cases.names.index("D + L")
    for knee in demo.knees:
        by_frame = found[knee.brace.mark]
        by_formula = demo.weight.force(Calculation().run, knee, Way.PULL)[0, case]
        assert by_frame < -500
        # the worst pattern leaves out what pushes, which is next to nothing here
        assert by_formula == pytest.approx(by_frame, rel=0.03)


def test_a_sagging_carrier_pushes_the_knees():
    """Posts moved out under the stringers: now C1 hangs between them under its own weight alone and pushes a little."""
    text = DEMO.replace('at = ["-36 in", "114 in"]', 'at = ["-50 1/2 in", "114 in"]').replace(
        'at = ["48 in", "114 in"]', 'at = ["64 1/4 in", "114 in"]'
    )
    found = sideways_of(text)
    by_frame = knees_under_weight(found, found.path.dead)
    for knee in found.knees:
        rows = found.weight.borne[knee.brace.mark, Way.PUSH]
        assert rows.delta_v.max() > 0
        assert by_frame[knee.brace.mark] > 0


def test_knees_shift_weight_between_cap_and_foot_and_lose_none(demo):
    """The knees move load from one cap to another and through the posts; the whole stays what it was.

    A push F at 45 degrees takes 0.7071 F off C1 at the knee, 30 in inside the post, and puts it on the post's foot;
    its moment is that of the level push at the foot, 0.7071 F x 30 / 60, times the post's height of 60 in.
    """
    plain = np.array([demo.path.reactions[f.support.mark] for f in demo.frames])
    np.testing.assert_allclose(demo.weight.feet.sum(axis=0), plain.sum(axis=0), atol=1e-9)
    x = np.array([f.support.at[0] for f in demo.frames])
    shift = x @ (demo.weight.feet - plain)
    i, j = demo.row("P1"), demo.row("P2")
    pushes = demo.weight.feet - demo.weight.caps  # 0.7071 F at each post
    np.testing.assert_allclose(shift, -30 * pushes[i] + 30 * pushes[j], atol=1e-6)
