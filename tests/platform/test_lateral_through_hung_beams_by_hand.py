"""The lateral force that comes through the hung end of a beam, off sliding bearings and from both faces: by statics.

Nothing but the ends on a beam ties it to the deck, unless boards cross it: what its supports take across it and along
it comes through these ends. Across, three ends are a continuous beam on rigid seats, solved here by its one redundant
force, with seats that give too; along, every end takes as much. Forces on the supports are as the program finds them
(other tests hold those). A bearing that rubs holds as if tied up to mu R and no more (Coulomb).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache

import numpy as np
import pytest
from beam_on_joists import STIFF, through_ends
from platforms_of_joists import BEAM, JOISTS, head, joists, post, tree

from bolewright.platform.analysis.lateral import State
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results

E, PLIES = 1.4e6 * 0.9, 3  # psi, Southern Pine No.2, wet (NDS 2018 Supplement, Table 4B)
EI = E * PLIES * 11.25 * 1.5**3 / 12  # flatwise, each ply by itself
AXES = {"x": 0, "y": 1}
HANGER, TIE = "1600 lb", "600 lb"
Array = np.ndarray


def files(*parts: str) -> Results:
    text = "".join(parts).replace("[connection.H]\n", f'[connection.H]\nrated_lateral = "{HANGER}"\n')
    return find_results(parse_project(text))


def beam(mark: str, start: Sequence[float], end: Sequence[float], hung: bool = False) -> str:
    """A beam anywhere, which may hang."""
    text = BEAM.format(mark=mark, plies=PLIES, a=start[0], b=end[0], y=start[1])
    text = text.replace(f'to = ["{end[0]} in", "{start[1]} in"]', f'to = ["{end[0]} in", "{end[1]} in"]')
    return text + ('hanger = "H"\n' if hung else "")


def joists_along_x(lines: Sequence[float], bearing: str, beams: Sequence[str]) -> str:
    more = f'lateral_tie = "{TIE}"' if bearing == "resting" else 'hanger = "H"'
    text = JOISTS.format(
        section="2x8",
        first=lines[0],
        last=lines[-1],
        spacing=lines[1] - lines[0],
        bearing=bearing,
        more=f"{more}\nbeams = {list(beams)}",
    )
    return text.replace('"90 deg"', '"0 deg"')


def posts(*places: Sequence[float]) -> str:
    return "".join(post(n, at) for n, at in enumerate(places, start=1))


def rows(found: Results, key: str) -> list[Check]:
    return [c for c in found.checks if c.key == key]


def by_hand(check: Check) -> float:
    """Demand of a row before what the frame model adds."""
    for step in check.steps:
        if step.formula.name == "demand_by_frame":
            return float(step.arguments["demand"])
    return float(check.demand)


def printed(check: Check, name: str, symbol: str) -> list[float]:
    return [float(s.arguments[symbol]) for s in check.steps if s.formula.name == name]


def pull(found: Results, state: State, mark: str, way: str) -> Array:
    """Force of the platform on a support along x or y in every case."""
    i = found.lateral.row(mark)
    return np.asarray((state.springs[i].axes.T @ state.force[i])[AXES[way]])


Share = Callable[[dict[float, float]], Sequence[float]]


def on_ends(share: Share, at: Sequence[float], pulls: Sequence[Array]) -> Array:
    """Force across of every end (ends, cases)."""
    unit = np.stack([np.asarray(share({x: 1.0})) for x in at], axis=1)
    return np.asarray(unit @ np.stack(pulls))


def three_seats(
    seats: Sequence[float], pulls: dict[float, float], give: float = 0.0
) -> tuple[float, float, float]:
    """A beam on three seats: the middle one is the redundant, on a simple beam between the outer two (no overhang).

    ``give`` of every seat (in/lb). Deflection of a simple beam under a load: any table of beams.
    """
    a, b, c = seats
    L, m = c - a, b - a
    outer = [0.0, 0.0]
    sag = 0.0
    for x, P in pulls.items():
        u = x - a
        assert 0 <= u <= L
        left, right = P * (L - u) / L, P * u / L
        near, far = (m, L - u) if m <= u else (L - m, u)
        sag += P * far * near * (L**2 - far**2 - near**2) / (6 * EI * L)
        sag += give * (left * (L - m) / L + right * m / L)
        outer[0] += left
        outer[1] += right
    lift = m**2 * (L - m) ** 2 / (3 * EI * L) + give * (((L - m) / L) ** 2 + (m / L) ** 2 + 1)
    X = sag / lift
    return outer[0] - X * (L - m) / L, X, outer[1] - X * m / L


# --- a: beams that hang ------------------------------------------------------------------------------------------

CROSS = (10.0, 65.0, 120.0)  # x of the beams that hang in C1 and C2
AT = (25.0, 89.0)  # x of the supports of C1 and C2
LINES = tuple(8.0 + 13 * n for n in range(9))  # y of the joists on them, none over C1 or C2
HANGS = {"hung at both ends": "CC", "C1 on tree bolts": "TC", "hung at one end, posts at the other": "CP"}


@cache
def hanging(kind: str) -> Results:
    both = kind[1] == "C"
    parts = [head((0, 130), (-3, 123), snow=20, solid=0.5), beam("C1", (-5, 0), (135, 0))]
    parts += [beam(f"S{n}", (x, 0), (x, 120), hung=True) for n, x in enumerate(CROSS, start=1)]
    places: list[tuple[float, float]] = []
    if kind[0] == "T":
        parts += [tree(n, (x, -16), (x, 0), 0.25) for n, x in enumerate(AT, start=1)]
    else:
        places += [(x, 0.0) for x in AT]
    if both:
        parts += [beam("C2", (-5, 120), (135, 120))]
        places += [(x, 120.0) for x in AT]
    else:
        places += [(x, 112.0) for x in CROSS]
    parts += [joists_along_x(LINES, "resting", ("S1", "S2", "S3")), posts(*places)]
    return files(*parts)


def held_at(kind: str, y: float) -> list[str]:
    """Marks of the supports of C1 or C2."""
    if kind[0] == "T":
        return ["T1", "T2"] if y == 0 else ["P1", "P2"]
    return ["P1", "P2"] if y == 0 else ["P3", "P4"]


def through_hung(kind: str, state: State, y: float, give: float = 0.0) -> tuple[Array, Array]:
    """Across (3 ends, cases) and along (cases) what comes through the ends of S1 to S3 at C1 or C2."""
    found, marks = hanging(kind), held_at(kind, y)
    across = on_ends(lambda p: three_seats(CROSS, p, give), AT, [pull(found, state, m, "y") for m in marks])
    return across, sum(pull(found, state, m, "x") for m in marks) / len(CROSS)


def most_hung(kind: str, end: int, y: float, give: float = 0.0) -> float:
    most = 0.0
    for state in hanging(kind).lateral.states:
        across, along = through_hung(kind, state, y, give)
        most = max(most, float(np.hypot(across[end], along).max()))
    return most


def hung_rows(kind: str, end: int) -> list[Check]:
    return [c for c in rows(hanging(kind), "beam.lateral") if c.part == f"S{end + 1}"]


@pytest.mark.parametrize("kind", HANGS.values(), ids=HANGS.keys())
@pytest.mark.parametrize("end", range(3))
def test_through_a_hung_end_comes_what_statics_says(kind: str, end: int) -> None:
    """Each hung beam by itself, for its hanger may be its own: across on three rigid seats, along a third."""
    found = hung_rows(kind, end)
    levels = (0.0, 120.0) if kind[1] == "C" else (0.0,)
    assert len(found) == len(levels)
    asked = sorted(most_hung(kind, end, y) for y in levels)
    assert sorted(by_hand(c) for c in found) == pytest.approx(asked, rel=0.01)
    for check in found:
        assert check.demand >= by_hand(check)
        assert printed(check, "share_along_beam", "n") == [3.0]


@pytest.mark.parametrize("kind", HANGS.values(), ids=HANGS.keys())
def test_a_row_is_no_less_than_seats_that_give_ask(kind: str) -> None:
    """The end that takes the most, however soft hangers and joists are; every end with hangers full of nails.

    An end away from the supports gets more from soft ones: up to 5 % over its row at 3,000 lb/in, 13 % at 1,000.
    """
    levels = (0.0, 120.0) if kind[1] == "C" else (0.0,)
    found = [max(c.demand for c in hung_rows(kind, end)) for end in range(3)]
    for k in (1e3, 3e3, 1e4, 3e4, 1e5):  # lb/in: toe-nails to hangers full of nails (judgement)
        asked = [max(most_hung(kind, end, y, give=1 / k) for y in levels) for end in range(3)]
        assert max(found) >= 0.98 * max(asked), k
        if k >= 1e4:
            assert all(f >= 0.98 * a for f, a in zip(found, asked, strict=True)), k


def on_joists(kind: str, end: int, state: State) -> Array:
    """Force of every joist's end on S1, S2 or S3: what its hung ends and its own post pull it with."""
    found = hanging(kind)
    across, along = through_hung(kind, state, 0.0)
    at, pulls, lengthwise = [0.0], [along], across[end]
    if kind[1] == "C":
        across, along = through_hung(kind, state, 120.0)
        at, pulls, lengthwise = [0.0, 120.0], [*pulls, along], lengthwise + across[end]
    else:
        mark = f"P{end + (1 if kind[0] == 'T' else 3)}"
        at, pulls = [0.0, 112.0], [*pulls, pull(found, state, mark, "x")]
        lengthwise = lengthwise + pull(found, state, mark, "y")
    share = on_ends(lambda p: through_ends(LINES, STIFF, EI, p), at, pulls)
    return np.hypot(share, lengthwise / len(LINES))


@pytest.mark.parametrize("kind", HANGS.values(), ids=HANGS.keys())
def test_joists_hold_a_beam_that_hangs(kind: str) -> None:
    """On a beam that hangs, joists hold all that comes through its hung ends, and what its own support takes."""
    worst = max(rows(hanging(kind), "joist.lateral"), key=lambda c: c.severity)
    states = hanging(kind).lateral.states
    asked = max(float(on_joists(kind, end, s).max()) for s in states for end in range(3))
    assert by_hand(worst) == pytest.approx(asked, rel=0.01)


# --- b: a bearing that slides ------------------------------------------------------------------------------------

RIDES = tuple(1.0 + 16 * n for n in range(9))  # x of the joists that hang in C1 and C2
BOLT, POST = 25.0, 113.0  # x of the tree bolt and of the post under C1


@cache
def riding(sway: float, mu: float | None) -> Results:
    """C1 on one tree bolt and one post; the bearing slides along its bolt, across C1, or is tied where no mu is."""
    bolt = tree(1, (BOLT, -16), (BOLT, 0), sway)
    if mu is not None:
        bolt = bolt.replace('lateral = "tied"', f'lateral = "slides"\nslot = "6 in"\nfriction = {mu}')
    return files(
        head((0, 130), (-2.25, 122.25), snow=20, solid=0.5),
        joists("2x10", RIDES, 16, "hung", 'hanger = "H"'),
        beam("C1", (0, 0), (130, 0)),
        beam("C2", (0, 120), (130, 120)),
        bolt,
        posts((POST, 0), (25, 120), (105, 120)),
    )


def rubbing(sway: float, mu: float) -> float:
    """Greatest force of a joist's end on C1: the bearing holds what a tied one would, but mu R at most.

    Between sliding freely and tied everything is in proportion to what the bearing holds (one bearing that slides).
    """
    slides, tied = riding(sway, mu), riding(sway, None)
    R, most = slides.lateral.most[slides.lateral.row("T1")], 0.0
    for free, held in zip(slides.lateral.smooth, tied.lateral.states, strict=True):
        assert held.words in free.words.replace("pads that slide freely, ", "")
        as_tied = pull(tied, held, "T1", "y")
        assert np.abs(pull(slides, free, "T1", "y")).max() < 1e-6
        part = np.clip(as_tied, -mu * R, mu * R) / np.where(as_tied == 0, 1.0, as_tied)

        def between(mark: str, way: str, free: State = free, held: State = held, part: Array = part) -> Array:
            least, whole = pull(slides, free, mark, way), pull(tied, held, mark, way)
            return np.asarray(least + part * (whole - least))

        across = on_ends(
            lambda p: through_ends(RIDES, STIFF, EI, p), (BOLT, POST), [between(m, "y") for m in ("T1", "P1")]
        )
        along = (between("T1", "x") + between("P1", "x")) / len(RIDES)
        most = max(most, float(np.hypot(across, along).max()))
    return most


def asked_of_joists(found: Results) -> float:
    return max(c.demand for c in rows(found, "joist.lateral"))


@pytest.mark.parametrize("mu", [0.2, 0.4])
@pytest.mark.parametrize("sway", [1.0, 3.0])
def test_friction_comes_through_the_joists(sway: float, mu: float) -> None:
    """No less than Coulomb's friction on the bearing, counted once, where the trunk moves an inch or three.

    Where it hardly moves wind alone makes the bearing rub; that is not held here (0.02 and 0.2 in disagreed).
    """
    assert asked_of_joists(riding(sway, mu)) >= 0.999 * rubbing(sway, mu)


@pytest.mark.parametrize("mu", [0.2, 0.4])
def test_where_the_trunk_moves_far_all_of_mu_R_is_there(mu: float) -> None:
    found = riding(3.0, mu)
    R = found.lateral.most[found.lateral.row("T1")].max()
    near = np.abs(through_ends(RIDES, STIFF, EI, {BOLT: 1.0})).max()
    assert asked_of_joists(found) >= near * mu * R
    assert asked_of_joists(found) <= asked_of_joists(riding(3.0, None))  # nor more than a tied one's


# --- c: joists from both faces of a beam -------------------------------------------------------------------------

BOTH = tuple(9.0 + 16 * n for n in range(8))  # x of the joists
MIDDLE = (25.0, 89.0)  # x of the posts of the middle beam
THIN = '[post.THIN]\nsection = "4x4"\nspecies = "Southern Pine"\ngrade = "No.2"\nincised = false\nbase = "fixed"\n'


@cache
def both_faces() -> Results:
    """The middle beam on stout posts, the outer ones on thin ones: the middle takes the most."""
    thin = 'cap_lateral = "3000 lb"\n'
    outer = posts(*((x, 60.0) for x in MIDDLE), *((x, y) for y in (0.0, 120.0) for x in (5.0, 125.0)))
    first, *rest = outer.split("[[support]]")
    outer = "[[support]]".join(
        [first, *(p.replace('"FIXED"', '"THIN"') if n >= 2 else p for n, p in enumerate(rest))]
    )
    return files(
        head((0, 130), (-2.25, 122.25), snow=20, solid=0.5),
        THIN + thin,
        joists("2x8", BOTH, 16, "hung", 'hanger = "H"'),
        *(beam(f"C{n}", (0, y), (130, y)) for n, y in enumerate((0.0, 60.0, 120.0), start=1)),
        outer,
    )


def test_of_two_joists_at_one_place_each_takes_all() -> None:
    """Across, either may be the one that holds; along, as many ends as hang there."""
    found = both_faces()
    check = max(rows(found, "joist.lateral"), key=lambda c: c.severity)
    most = 0.0
    for state in found.lateral.states:
        across = on_ends(
            lambda p: through_ends(BOTH, STIFF, EI, p),
            MIDDLE,
            [pull(found, state, m, "y") for m in ("P1", "P2")],
        )
        along = sum(pull(found, state, m, "x") for m in ("P1", "P2")) / (2 * len(BOTH))
        most = max(most, float(np.hypot(across, along).max()))
    assert by_hand(check) == pytest.approx(most, rel=0.01)
    assert printed(check, "share_along_beam", "n") == [2.0 * len(BOTH)]


# --- d: a beam that boards cross ---------------------------------------------------------------------------------


def crossed(joists_run: str) -> Results:
    """D1 and D2 along y on posts, C1 and C2 hung between, joists hung along x or y: all level with the deck."""
    if joists_run == "y":
        field = joists(
            "2x10", tuple(15.0 + 20 * n for n in range(6)), 20, "hung", 'hanger = "H"\nbeams = ["C1", "C2"]'
        )
    else:
        field = joists_along_x(tuple(24.0 + 16 * n for n in range(6)), "hung", ("D1", "D2"))
    return files(
        head((0, 130), (0, 120), snow=20, solid=0.5),
        beam("D1", (0, -3), (0, 123)),
        beam("D2", (130, -3), (130, 123)),
        beam("C1", (0, 0), (130, 0), hung=True),
        beam("C2", (0, 120), (130, 120), hung=True),
        field,
        posts(*((x, y) for x in (0, 130) for y in (25, 89))),
    )


def test_boards_hold_a_beam_that_they_cross() -> None:
    """Joists along y: boards lie across D1 and D2, which alone have supports; no end has anything to pass."""
    found = crossed("y")
    assert not rows(found, "joist.lateral")
    assert not rows(found, "beam.lateral")


def test_boards_that_run_along_a_beam_do_not() -> None:
    """Joists along x: boards run along D1 and D2, and six joists and two beams pass what their posts take."""
    found = crossed("x")
    ends = (0.0, *(24.0 + 16 * n for n in range(6)), 120.0)
    of_joists, of_beams = 0.0, 0.0
    for state in found.lateral.states:
        for marks in (("P1", "P2"), ("P3", "P4")):
            across = on_ends(
                lambda p: through_ends(ends, STIFF, EI, p),
                (25.0, 89.0),
                [pull(found, state, m, "x") for m in marks],
            )
            whole = np.hypot(across, sum(pull(found, state, m, "y") for m in marks) / len(ends))
            of_joists = max(of_joists, float(whole[1:-1].max()))
            of_beams = max(of_beams, float(whole[[0, -1]].max()))
    worst = max(rows(found, "joist.lateral"), key=lambda c: c.severity)
    assert by_hand(worst) == pytest.approx(of_joists, rel=0.01)
    assert max(by_hand(c) for c in rows(found, "beam.lateral")) == pytest.approx(of_beams, rel=0.01)
    assert {c.part for c in rows(found, "beam.lateral")} == {"C1", "C2"}
