"""What a reader with the sheet and a pocket calculator finds: the printed numbers, put through textbook formulas.

Every number here is read off the sheet of lateral stability as it is printed. The formulas are those of statics and of
beam theory (simple span, overhang, cantilever), written out in this file; nothing of the program is asked.
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import numpy as np
import pytest

from bolewright.rendering.blocks import Equations, KeyValues, Table
from bolewright.sheets import open_sheet

SHEETS = Path(__file__).parents[2] / "calcsheets"


def number(text: str) -> float:
    return float(str(text).replace(",", "").split()[0])


@pytest.fixture(scope="module")
def sheet():
    return open_sheet(SHEETS / "lookout.toml", "stability")


@pytest.fixture(scope="module")
def items(sheet):
    return sheet.lateral_path().items


def table(items, words: str) -> Table:
    return next(one for one in items if isinstance(one, Table) and words in one.caption)


def inches(text: str) -> float:
    """Feet and inches as printed: 5' 1 5/8"."""
    feet, _, rest = text.rpartition("'") if "'" in text else ("0", "", text)
    parts = rest.replace('"', "").split()
    return 12 * float(feet) + sum(
        float(p.split("/")[0]) / float(p.split("/")[1]) if "/" in p else float(p) for p in parts
    )


def worked(items, symbol: str) -> list[Equations]:
    return [one for one in items if isinstance(one, Equations) and one.values[-1][0] == symbol]


def springs(items, words: str) -> list[tuple[str, np.ndarray]]:
    """Rows of the supports as a state takes them, in the order of the file: bases of posts, wood at tree bolts."""
    rows = [[str(cell) for cell in row] for row in table(items, "Stiffness of the supports").rows]
    order = list(dict.fromkeys(r[0] for r in rows))
    taken = [(r[0], np.array([number(v) for v in r[2:]])) for r in rows if r[1] in words]
    return sorted(taken, key=lambda one: order.index(one[0]))


def test_stiffness_of_every_support_is_worked_out(items):
    """Bolt along itself: 3 E I/z³ of the trunk, shared by two; post without knees: a cantilever with a stiff head."""
    shown = {number(one.values[-1][1]) for one in worked(items, "k") + worked(items, "k_f")}
    printed = {number(row[-1]) for row in table(items, "Stiffness of the supports").rows}
    assert printed <= shown

    d = 75.375 / math.pi - 2 * 1.0  # girth over bark, two thicknesses of bark (project file)
    k_t = 3 * 880_000 * math.pi * d**4 / 64 / 71.25**3
    assert k_t / 2 == pytest.approx(41_908, rel=2e-4)
    E, I, l, beam = 1.6e6, 5.5**4 / 12, 60 + 12, 11.25
    assert 3 * E * I / ((l + beam) ** 3 - beam**3) == pytest.approx(636.0, rel=2e-4)


def test_stiffness_of_a_knee_braced_post_from_the_deflections_of_its_beam(items):
    """P1, base fixed: printed deflections of its beam, knee and beam in series, a cantilever that moves alike twice."""
    rows = [[number(v) for v in row[1:]] for row in table(items, "Deflection of C1 at its knees").rows]
    E, I, l = 1_260_000, 3 * 1.5 * 11.25**3 / 12, 84.0
    for row, b in zip(rows, (30.0, 54.0), strict=True):
        for found, a in zip(row, (30.0, 54.0), strict=True):
            near, far = min(a, b), l - max(a, b)
            by_hand = near * far * (l**2 - near**2 - far**2) / (6 * E * I * l)
            assert found == pytest.approx(1e9 * by_hand, rel=2e-4)
    k_v = 1e9 / (rows[0][0] - rows[0][1])  # K1 leans the other way than K2
    gamma = 180_000 * 0.625**1.5  # NDS 2018, 11.3.6.1
    k_b = 1 / (math.hypot(35, 30) / (E * 16.5) + 2 / (4 * gamma))
    kappa = 1 / (1 / (k_b * 30**2 / (35**2 + 30**2)) + 1 / (k_v * (30 / 35) ** 2))
    # Cantilever of 72 in, forces T at its top and Q at 37 in: top and, less Q/kappa, knee move alike.
    EI, c, l = 1.6e6 * 5.5**4 / 12, 37.0, 72.0
    top_t, top_q, knee_q = l**3 / 3, c**2 * (3 * l - c) / 6, c**3 / 3
    T_over_Q = (knee_q + EI / kappa - top_q) / (top_t - top_q)
    assert T_over_Q == pytest.approx(number(worked(items, "rho")[0].values[-1][1]), rel=2e-3)
    k = EI * (1 + T_over_Q) / (T_over_Q * top_t + top_q)
    assert k == pytest.approx(10_172, rel=2e-3)


@pytest.mark.parametrize("words", ["the middle of the weight", "the middle of its bolts"])
def test_movement_under_a_thousand_pounds_balances(items, words):
    """V = k (δ - y) at every support; the sums are the force, and the movement of its place is the one that is used."""
    row = next(r for r in table(items, "under 1,000 lb").rows if words in r[0])
    x, y, c, s, u_x, u_y, theta, delta = (number(v) for v in row[1:])
    assert (u_x - theta * y) * c + (u_y + theta * x) * s == pytest.approx(delta, rel=2e-3)
    held = [r for r in table(items, "bring to each support").rows if row[0].startswith(str(r[0]))]
    total = np.zeros(3)
    for mark, (at_x, at_y, cos, sin, k) in springs(items, row[0]):
        own = next((r for r in held if r[1] == mark), None)
        if own is None:
            assert "without them" in row[0]
            continue
        first = (cos, sin) in [(1, 0), (-1, 0)]  # each support's first way runs along x here
        V, lag = (number(own[i]) for i in ((2, 3) if first else (4, 5)))
        moved = (u_x - theta * at_y) * cos + (u_y + theta * at_x) * sin
        assert k * (moved - lag) == pytest.approx(V, abs=2.0 + 1e-3 * k * 0.01)
        total += V * np.array([cos, sin, at_x * sin - at_y * cos])
    assert total == pytest.approx(1000 * np.array([c, s, x * s - y * c]), abs=20.0)


def test_movements_of_every_governing_case_come_out_of_the_printed_stiffnesses(items):
    """Three unknowns a case: springs k on moving trunks g, less what joints and beams take; solved anew."""
    moved = table(items, "Movement of the deck in the lateral case")
    added = table(items, "What lateral force adds")
    by_knees = {
        str(r[0]): np.array([number(v) for v in r[1:4]])
        for one in items
        if isinstance(one, Table) and one.caption.startswith("What overturning pushes the deck with")
        for r in one.rows
    }
    assert {"g (in)", "y (in)"} <= set(added.columns)
    windy = 0
    letters = {str(r[0]): str(r[1]) for r in table(items, "How the supports are taken").rows}
    for row in moved.rows:
        case, words = str(row[0]), letters[str(row[1]).rpartition("; ")[2]]
        F, u = np.array([number(v) for v in row[3:6]]), np.array([number(v) for v in row[6:9]])
        F = F + by_knees.get(case, 0.0)
        joints = "hold firm" if "hold firm" in words else "slip"
        give = np.array([[number(v) for v in r[1:]] for r in _give(items, joints).rows]) * 1e-9
        here = springs(items, words)
        R = np.array([(c, s, x * s - y * c) for _, (x, y, c, s, _) in here])
        k = np.array([v[-1] for _, v in here])
        own = {str(r[1]): r for r in added.rows if str(r[0]) == case}
        g = np.array([number(own[mark][4 if i % 2 == 0 else 7]) for i, (mark, _) in enumerate(here)])
        passed = np.linalg.inv(np.eye(len(k)) + k[:, None] * give)
        found = np.linalg.solve(R.T @ passed @ (k[:, None] * R), F + R.T @ passed @ (k * g))
        reach = np.array([1.0, 1.0, 120.0])
        assert found * reach == pytest.approx(u * reach, abs=2e-3 * max(abs(u * reach)) + 2e-5), case
        windy += bool(np.any(g))
        if np.any(g):  # the trunk's 0.2121 in along, against or across the wind
            assert math.hypot(g[0], g[1]) == pytest.approx(0.25 * 71.25 / 84, rel=1e-3)
    assert windy > 10


def _give(items, joints: str) -> Table:
    found = [one for one in items if isinstance(one, Table) and "How much less a seat" in one.caption]
    return next(one for one in found if one.caption.endswith(joints))


def test_lateral_loads_add_up_from_wind_people_and_guards(items):
    shares = {str(r[0]): [number(v) for v in r[1:]] for r in table(items, "is made of").rows}
    for row in table(items, "Movement of the deck in the lateral case").rows:
        total = [number(v) for v in row[3:6]]
        parts = np.array(shares[str(row[0])]).reshape(-1, 3).sum(axis=0)
        assert parts == pytest.approx(total, abs=1.0 + 1e-3 * max(map(abs, total)))


def test_wind_of_a_case_from_the_faces(items):
    """Every face by its width across the wind: guards by their edges, framing by the deck, the rest as they say."""
    cases = table(items, "Movement of the deck in the lateral case").rows
    row = next(r for r in cases if str(r[1]).startswith("Wind") and str(r[2]) == "D + 0.6W")
    angle = math.radians(float(re.search(r"towards ([\d.]+)°", str(row[1]))[1]))
    c, s = math.cos(angle), math.sin(angle)
    corners = [(-24.375, 19.25), (26.5, 19.25), (74.0, 132.75), (-57.875, 132.75)]  # project file, deck
    corners += [
        (-15.25, -6.0),
        (-56.3125, 133.0),
        (14.5, -6.0),
        (72.4375, 133.0),
        (-54.6875, 114.0),
        (68.5, 114.0),
    ]
    across = [x * s - y * c for x, y in corners]
    total = 0.0
    for _, per_inch, words, _ in table(items, "What catches wind").rows:
        f, numbers = number(per_inch), [float(v) for v in re.findall(r"-?\d+\.?\d*", str(words))]
        if "edge from" in words:
            x, y, X, Y = numbers
            width = abs((X - x) * s - (Y - y) * c)
        elif "deck and beams" in words:
            width = max(across) - min(across)
        elif "every side" in words:
            width = numbers[0]
        else:
            line = math.radians(numbers[2]) if len(numbers) > 2 else 0.0
            width = numbers[0] * abs(math.cos(angle - line)) + numbers[1] * abs(math.sin(angle - line))
        total += f * width
    assert 0.6 * total == pytest.approx(math.hypot(number(row[3]), number(row[4])), rel=5e-3)


def test_force_in_a_knee_from_the_loads_on_its_beam(items):
    """C1 on P1 and P2, 84 in apart, loads past both: deflection by beam theory, then two knees that share it."""
    rows = table(items, "Weight on the knee braces").rows
    assert len(rows) >= 4
    E, I, l, first = 1_260_000, 3 * 1.5 * 11.25**3 / 12, 84.0, inches("1' 6 11/16\"")
    a, r = 35.0, 30.0
    L = math.hypot(a, r)
    gamma = 180_000 * 0.625**1.5
    k_b = 1 / (L / (E * 16.5) + 2 / (4 * gamma))
    EI = 1.6e6 * 5.5**4 / 12
    k_p = {
        "base on elastic soil": 3 * EI * 60 / (35**2 * 25**2),  # hinged at both ends
        "fixed base": 12 * EI * 72**3 / (35**2 * 37**3 * (3 * 72 + 35)),  # held 12 in. under grade
    }
    d = np.array([[15_480.0, 13_951.1], [13_951.1, 15_480.0]]) * 1e-9

    def span(x: float, M_1: float, M_2: float) -> float:
        """Deflection from hogging moments over the two seats."""
        other = l - x
        return -(M_1 * x * (l - x) * (2 * l - x) + M_2 * other * (l - other) * (2 * l - other)) / (
            6 * E * I * l
        )

    for row in rows:
        loads = [one.rsplit(" at ", 1) for one in str(row[3]).split("; ")]
        found = {}
        for knee, x in (("K1", 30.0), ("K2", 54.0)):
            total = 0.0
            for what, place in loads:
                P, at = number(what.split()[-1]), inches(place) - first
                if what.startswith("own weight"):
                    length = 2 * inches(place)
                    w, before, past = P / length, first, length - first - l
                    total += w * x * (l**3 - 2 * l * x**2 + x**3) / (24 * E * I)
                    total += span(x, w * before**2 / 2, w * past**2 / 2)
                elif at < 0:
                    total += span(x, -P * at, 0.0)
                else:
                    total += span(x, 0.0, P * (at - l))
            found[knee] = total
        printed = {one.split()[0]: number(one.split()[1]) for one in str(row[4]).split("; ")}
        for knee, value in printed.items():
            assert found[knee] == pytest.approx(value, rel=5e-3)
        # along each knee: c_v δ_v = F/k_b + c_v² Σ d F + c_p² F/k_p
        c_v, c_p = a / L, r / L
        side = next(k for base, k in k_p.items() if base in str(row[1]))
        A = np.eye(2) * (1 / k_b + c_p**2 / side) + c_v**2 * d
        F = np.linalg.solve(A, c_v * np.array([printed["K1"], printed["K2"]]))
        shown = [number(one.split()[1]) for one in str(row[5]).split("; ")]
        assert list(F) == pytest.approx(shown, rel=2e-3)


def test_what_is_entered_and_what_is_assumed_is_said(sheet):
    said = dict(sheet.inputs().pairs)
    assert "K_zt 1 (not entered" in said["Wind of the place"]
    assert "risk category II (assumed)" in said["Wind of the place"]
    posts = open_sheet(SHEETS / "lookout.toml", "posts").inputs()
    assert isinstance(posts, KeyValues)
    assert "e_1 0.5 in" in dict(posts.pairs)["Load on P6"]


def test_restraint_force_from_its_two_springs(sheet):
    """The posts alone give 0.8555 in under 1,000 lb: 1,169 lb/in; with the trunk behind it in series."""
    clearance = open_sheet(SHEETS / "lookout.toml", "clearance and growth")
    check = next(c for c in clearance.checks if c.key == "tree.restraint")
    under = table(sheet.lateral_path().items, "under 1,000 lb")
    k_f = 1000 / number(next(row for row in under.rows if "restraint" in str(row[0]))[-1])
    k_t, sway = 83_816.0, 0.25 * 71.25 / 84
    assert sway / (1 / k_t + 1 / k_f) == pytest.approx(float(check.demand), rel=1e-3)
    assert "spring_of" in [step.formula.name for step in check.steps]
