"""Every check of a platform with every pattern of load, beside a frame library that solves it for one load case.

Run it by itself: ``python tests/bench/bench_platform.py [64]``. Times are processor time, the best of several runs,
on one thread, so that other work on the machine does not show; nothing gates on them. The platform is a rectangle of
equal bays: joists hung between lines of beams on embedded posts.

Measured on 2026-11-29, 2 cores with several times as much other work on them; in brackets what is aimed at:

===================================================  ==================================================================
demo, one input changed to all checks up to date     0.51 s, 0.85 times that of the day before's program (400 ms)
1x, 4x, 16x, 64x the joists (8, 27, 101, 402         all checks 0.32, 0.9, 3.2, 15.1 s: members^0.98 (at most ^1.1);
members on 4, 9, 25, 90 supports)                    64x took 26 s before
40 x 40 ft on 400 joists, 433 members                12 s, a member 1.05 times that of 1x (1); 530 MB of the process
                                                     (under 1 GB)
2,000 incomplete supports                            0.22 s, 3.8 times 500 of them (4)
===================================================  ==================================================================

Measured on 2026-11-25, when there were fewer checks, and not since:

===================================================  ==================================================================
all worst patterns beside five single load cases     0.10 to 0.13 (at most 1)
frame solver alone on equal models                   16 to 29 times the library to displacements and reactions, 28 to 36
(``bench_frame.py``)                                 with end forces and the test of stability (20 times)
===================================================  ==================================================================
"""

from __future__ import annotations

import math
import os
import resource
import sys
import time
import tomllib
import tracemalloc
from collections.abc import Callable

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
from members_as_frame import members_as_frame
from Pynite import FEModel3D

from bolewright.mechanics.frame import Frame, analyse
from bolewright.mechanics.frame_model import Dof, FrameLoad, MemberPoint
from bolewright.paths import shipped
from bolewright.platform.analysis.lateral import find_lateral
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.combine import envelope
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.project import Project
from bolewright.platform.results.results import find_results
from bolewright.platform.verification.frame_gravity import frame_gravity
from bolewright.platform.verification.independent_lateral import compare_lateral

BAY, SPACING, JOISTS = 120, 16, 6  # in, in, joists of one bay
SEGMENT = 4  # bays in one piece of beam

HEAD = """
format = 2
[title]
project = "Bench"
date = 2026-11-25
[site]
frost_depth = "36 in"
soil = "class 4"
ground_snow = "30 psf"
wind_speed = "107 mph"
exposure = "B"
[loads]
live = "60 psf"
[platform]
outline = [["0 in", "0 in"], ["{x} in", "0 in"], ["{x} in", "{y} in"], ["0 in", "{y} in"]]
floor_height = "6 ft"
[decking]
section = "2x6"
species = "Southern Pine"
grade = "No.2"
[post.P6]
section = "6x6"
species = "Southern Pine"
grade = "No.2"
base = "fixed"
[footing.F]
shape = "round"
width = "24 in"
depth = "60 in"
pad = "10 in"
[connection.H]
rated_load = "900 lb"
"""


def project(bays: int, bay: int = BAY, spacing: int = SPACING, joists: int = JOISTS) -> Project:
    """``bays`` by ``bays`` bays, past the limits that a user's file has; each with some joists, ``bay`` long (in)."""
    length = spacing * joists
    text = HEAD.format(x=bay * bays, y=length * bays)
    segments = math.ceil(bays / SEGMENT)
    for line in range(bays + 1):
        x = bay * line
        for s in range(segments):
            low, high = length * SEGMENT * s, length * min(SEGMENT * (s + 1), bays)
            text += _timber("beam", f"C{line}x{s}", "2x10", f'plies = 3\nfrom = ["{x} in", "{low + 1} in"]')
            text += f'to = ["{x} in", "{high - 1} in"]\n'
            count = (high - low) // length
            for p in range(count + 1):
                y = low + 6 + (high - low - 12) * p / count
                text += f'[[support]]\nmark = "P{line}x{s}x{p}"\nkind = "post"\npost = "P6"\nfooting = "F"\n'
                text += f'at = ["{x} in", "{y} in"]\n'
    for column in range(bays):
        for s in range(segments):
            low, high = length * SEGMENT * s, length * min(SEGMENT * (s + 1), bays)
            mark = f"J{chr(97 + column)}{chr(97 + s)}"
            region = [
                [bay * column, low],
                [bay * (column + 1), low],
                [bay * (column + 1), high],
                [bay * column, high],
            ]
            places = ", ".join(f'["{x} in", "{y} in"]' for x, y in region)
            text += _timber(
                "joists",
                mark,
                "2x8",
                f'first = "{low + 8} in"\nlast = "{high - 8} in"\nspacing = "{spacing} in"',
            )
            text += f'bearing = "hung"\nhanger = "H"\nregion = [{places}]\n'
            text += f'beams = ["C{column}x{s}", "C{column + 1}x{s}"]\n'
    return Project.model_validate(tomllib.loads(text))


def _timber(table: str, mark: str, section: str, rest: str) -> str:
    head = f'[[{table}]]\nmark = "{mark}"\nsection = "{section}"\nspecies = "Southern Pine"\ngrade = "No.2"\n'
    return f"{head}{rest}\n"


def best(work: Callable[[], object], repeats: int) -> float:
    """Shortest time of several runs (ms)."""
    times = []
    for _ in range(repeats):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return 1000 * min(times)


# ---------------------------------------------------------------------------------------------------------
# The same platform in another library


def pynite_model(frame: Frame, loads: list[FrameLoad]) -> FEModel3D:
    """The same frame with y up, as that library has it; all members along x or y in plan."""
    model = FEModel3D()
    for n in frame.nodes:
        model.add_node(n.name, n.x, n.z, -n.y)
    sections = {m.profile: f"s{i}" for i, m in enumerate({m.profile: m for m in frame.members}.values())}
    for p, name in sections.items():
        model.add_material(f"m{name}", p.E, p.G, 0.3, 0.0)
        model.add_section(name, p.A, p.I_y, p.I_z, p.J)
    for m in frame.members:
        name = sections[m.profile]
        model.add_member(m.name, m.start, m.end, f"m{name}", name)
        if m.start_releases:
            model.def_releases(m.name, Ryi=True, Rzi=True, Ryj=True, Rzj=True)
    for s in frame.supports:
        along = (s.axes or ((1.0, 0.0, 0.0),))[0]
        turned = {Dof.RX: "x" if abs(along[0]) > 0.5 else "z", Dof.RZ: "y"}
        held = {turned[d] for d in s.held if d in turned}
        model.def_support(s.node, True, Dof.DZ in s.held, True, "x" in held, "y" in held, "z" in held)
    for load in loads:
        if isinstance(load, MemberPoint):
            model.add_member_pt_load(load.member, "FY", load.force[2], load.x)
        else:
            model.add_member_dist_load(load.member, "FY", load.q[2], load.q[2], load.start, load.end)
    return model


def apart(frame: Frame, loads: list[FrameLoad], model: FEModel3D) -> float:
    """Largest difference of an upright movement, as a part of the largest."""
    ours = analyse(frame, [loads]).displacements[:, Dof.DZ, 0]
    theirs = np.array([model.nodes[n.name].DY["Combo 1"] for n in frame.nodes])
    return float(np.abs(ours - theirs).max() / np.abs(theirs).max())


def beside_one_case(name: str, path: LoadPath, checks: Callable[[], object]) -> None:
    """All checks with all patterns, and the library on one load case."""
    frame, loads = members_as_frame(path, path.dead + path.live)
    model = pynite_model(frame, loads)
    theirs = best(lambda: model.analyze_linear(check_stability=False), 5)
    built = best(lambda: pynite_model(frame, loads), 3)
    every = best(checks, 10)
    print(
        f"{name:28} {len(path.layout.joists):4} joists {len(frame.members):5} members   all checks {every:7.1f} ms   "
        f"one case {theirs:7.1f} ms (and {built:.1f} to build)   ratio {every / theirs:5.2f}   "
        f"apart {apart(frame, loads, model):.0e}"
    )


# ---------------------------------------------------------------------------------------------------------
# Patterns, growth, split


def all_patterns(path: LoadPath) -> None:
    """The worst pattern of every moment, shear, reaction and deflection of every member."""
    for e in path.effects.values():
        for effect in (e.moment, e.shear_left, e.shear_right, e.deflection, e.reactions):
            envelope(path, effect)


def beside_five_cases(path: LoadPath) -> None:
    frame, loads = members_as_frame(path, path.dead + path.live)

    def fresh(times: int) -> None:
        found = analyse(Frame(frame.nodes, frame.members, frame.supports), [loads] * times)
        assert found.end_forces.size
        assert found.reactions.size

    together = best(lambda: all_patterns(path), 10)
    one, five = best(lambda: fresh(1), 10), 5 * best(lambda: fresh(1), 10)
    print(
        f"worst patterns of every effect {together:6.2f} ms; one load case by our frame {one:6.2f} ms; "
        f"ratio to five {together / five:5.2f}"
    )


def split(text: str) -> None:
    """Where the time of all checks goes."""
    found = parse_project(text)
    layout = find_layout(found)
    path = find_load_path(layout)
    lateral = find_lateral(path)
    whole = best(lambda: find_results(found), 25)
    parts = {
        "read the file": best(lambda: parse_project(text), 5),
        "layout": best(lambda: find_layout(found), 10),
        "load path": best(lambda: find_load_path(layout), 10),
        "lateral": best(lambda: find_lateral(path), 10),
        "frame model, weight": best(lambda: frame_gravity(layout), 10),
        "frame model, lateral": best(lambda: list(compare_lateral(lateral)), 10),
    }
    print(f"demo, one input changed to all checks up to date: {whole:.1f} ms")
    for name, ms in parts.items():
        print(f"  {name:26} {ms:6.1f} ms")
    rest = whole - sum(ms for name, ms in parts.items() if name != "read the file")
    print(f"  {'checks':26} {rest:6.1f} ms")


def growth(largest: int) -> float:
    """How time and memory grow with the members; gives the time of all checks for a member of the smallest (s)."""
    rows = []
    for times in (t for t in (1, 4, 16, 64) if t <= largest):
        made = project(math.isqrt(times))
        repeats = 5 if times < 16 else 1
        path = find_load_path(find_layout(made))
        solve = best(lambda: find_load_path(find_layout(made)), repeats)  # noqa: B023
        every = best(lambda: find_results(made), repeats)  # noqa: B023
        tracemalloc.start()
        find_load_path(find_layout(made))
        peak = tracemalloc.get_traced_memory()[1] / 1e6
        tracemalloc.stop()
        size = len(path.layout.members) * len(path.layout.supports)
        rows.append((times, len(path.layout.members), len(path.layout.supports), solve, every, peak, size))
        print(
            f"{times:3}x {rows[-1][1]:5} members {rows[-1][2]:4} supports   load path {solve:9.1f} ms   "
            f"all checks {every:9.1f} ms   peak {peak:7.1f} MB   members x supports {size:6}"
        )
    first, last = rows[0], rows[-1]
    for name, column in (("load path", 3), ("all checks", 4), ("memory", 5)):
        power = math.log(last[column] / first[column]) / math.log(last[1] / first[1])
        product = math.log(last[column] / first[column]) / math.log(last[6] / first[6])
        print(f"{name}: members^{power:.2f}, (members x supports)^{product:.2f}")
    return first[4] / 1000 / first[1]


def broad_deck(seconds_of_a_member: float) -> None:
    """A deck of 40 by 40 ft on 400 joists: time beside that of a member of the smallest platform, and memory."""
    made = project(10, bay=48, spacing=12, joists=4)
    start = time.process_time()
    found = find_results(made)
    seconds = time.process_time() - start
    members, peak = len(found.path.layout.members), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000
    print(
        f"40 x 40 ft: {len(found.path.layout.joists)} joists {members} members   all checks {seconds:.1f} s, a member "
        f"{seconds / members / seconds_of_a_member:.2f} times that of the smallest   peak of the process {peak:.0f} MB"
    )


def incomplete_supports(text: str) -> None:
    """A file with many supports of which nothing but the mark is given: refused in step with their number."""

    def refused(count: int) -> None:
        try:
            parse_project(text + "".join(f'\n[[support]]\nmark = "Q{i}"\n' for i in range(count)))
        except ProjectError:
            return
        raise AssertionError("incomplete supports were taken")

    few, many = (best(lambda n=n: refused(n), 3) for n in (500, 2000))  # type: ignore[misc]
    print(
        f"2,000 incomplete supports refused in {many:.0f} ms, {many / few:.2f} times 500 of them (4 in step)"
    )


def main() -> None:
    demo = shipped("calcsheets") / "lookout.toml"
    text = demo.read_text(encoding="utf-8")
    split(text)
    print()
    for bays in (1, 2):
        made = project(bays)
        path = find_load_path(find_layout(made))
        beside_one_case(f"{bays} x {bays} bays", path, lambda: find_results(made))  # noqa: B023
        beside_five_cases(path)
    print()
    incomplete_supports(text)
    broad_deck(growth(int(sys.argv[1]) if len(sys.argv) > 1 else 16))


if __name__ == "__main__":
    main()
