"""The same platform drawn or written otherwise has the same answers; what is doubled doubles; nothing jumps.

Every relation runs on every shipped project and on some generated arrangements, the same on every day.
``python -m outside.every_relation`` from the folder of the tests runs all on all, or on those that are named to it.
"""

from __future__ import annotations

import random
import re
import tomllib

import numpy as np
import pytest

from bolewright.platform.file.reading import find_faults
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.project import Project
from bolewright.platform.results.results import Results
from outside import not_yet, program
from outside.answers import differences, ratios, results_of
from outside.compare import numbers
from outside.metric import in_metric
from outside.nudges import HALF, LEAST, SHARE, SIXTEENTH, SLOPES, allowed, nudges, nudges_of_parts
from outside.platforms import GENERATED, SHIPPED, layout_of, project_of
from outside.relations import EXACT, TURNED

SAME = 1e-6
TURNING = 0.005  # share of a ratio that turning the drawing may move
SEEN = 5e-4  # ... where it moves it by more than this
RELATIONS = (*EXACT, "in_metric", *TURNED)
# Every family, one to four trees, skewed and square: those that have found most.
DRAWN = (
    "g05_two_beams",
    "g06_three_beams",
    "g07_hung",
    "g08_stringers",
    "g19_continuous_beams",
    "g31_three_beams",
)
LARGE = ("shipped_two_trees", "shipped_round_the_trunk")
SOME = tuple(GENERATED)[::2]
PLATFORMS = (*SHIPPED, *GENERATED)


def expected(case: tuple[str, str], fails: bool):
    """A case; one that is not yet true must fail, so that it comes out of the list as it is mended."""
    return pytest.param(*case, marks=pytest.mark.xfail(strict=True)) if fails else case


def other_way(name: str, relation: str) -> tuple[Project, Project]:
    project = project_of(name)
    if relation == "in_metric":
        raw = GENERATED[name].raw if name in GENERATED else tomllib.loads(SHIPPED[name].read_text())
        written, faults = find_faults(in_metric(raw))
        assert written is not None, faults
        return project, written
    pair = {**EXACT, **TURNED}[relation](project)
    assert pair is not None
    return pair


def test_the_drawn_ones_are_of_every_kind() -> None:
    found = [GENERATED[name] for name in DRAWN]
    assert {name[4:] for name in DRAWN} == {name[4:] for name in GENERATED}
    assert {one.trees for one in found} == {one.trees for one in GENERATED.values()}
    assert set().union(*(one.traits for one in found)) == set().union(
        *(one.traits for one in GENERATED.values())
    )


def cases() -> list:
    found = [(name, relation) for name in (*SHIPPED, *DRAWN) for relation in RELATIONS]
    # The two that take longest: every third relation each; all by ``python -m outside.every_relation``.
    left = [(name, r) for i, name in enumerate(LARGE) for r in (*RELATIONS[i::3], *RELATIONS[i + 1 :: 3])]
    found = [case for case in found if case not in left]
    return [expected(case, case[0] in not_yet.RELATIONS.get(case[1], ())) for case in found]


@pytest.mark.parametrize(("name", "relation"), cases())
def test_same_ratios(name: str, relation: str) -> None:
    base, other = (ratios(results_of(project)) for project in other_way(name, relation))
    share, least = (TURNING, SEEN) if relation in TURNED else (SAME, SAME)
    found = differences(base, other, share, least)
    assert not found, f"{len(found)} differ: " + "; ".join(found[:8])


# ------------------------------------------------------------------------------------------------


def effects(path: LoadPath) -> dict[str, float]:
    """Reactions, and moments, shears and deflections, of dead load, live load, snow and one person."""
    found = {
        f"{mark} {k}": v for mark in path.reactions for k, v in numbers(program.reaction(path, mark)).items()
    }
    for member in path.layout.members:
        for kind, worst in program.member(path, member.mark).items():
            found |= {f"{member.mark} {kind} {k}": v for k, v in numbers(worst).items()}
    return found


def loaded(name: str, **factors: float) -> dict[str, float]:
    """Effects with live load, snow, person, guard and hardware times factors."""
    layout = layout_of(name)
    project = layout.project
    loads = project.loads.model_copy(
        update={
            key: getattr(project.loads, key) * factors.get(key, 1.0)
            for key in ("live", "person", "guard", "hardware")
        }
    )
    site = project.site.model_copy(
        update={"ground_snow": project.site.ground_snow * factors.get("snow", 1.0)}
    )
    areas = tuple(
        a.model_copy(update={"load": a.load * factors.get({"dead": "guard"}.get(a.kind, a.kind), 1.0)})
        for a in project.load_areas
    )
    places = tuple(
        p.model_copy(
            update={
                key: getattr(p, key) * factors.get({"dead": "guard"}.get(p.kind, p.kind), 1.0)
                for key in ("weight", "up", "lateral")
            }
        )
        for p in project.point_loads
    )
    changed = project.model_copy(
        update={"loads": loads, "site": site, "load_areas": areas, "point_loads": places}
    )
    return effects(find_load_path(type(layout)(changed, layout.members, layout.supports, layout.deck)))


@pytest.mark.parametrize("name", [*SHIPPED, *SOME[::3]])
def test_doubled_loads_double_what_they_do(name: str) -> None:
    """Dead load by what of it the file gives: guard, hardware and dead areas, from none to once and on to twice."""
    once, twice = loaded(name), loaded(name, live=2, snow=2, person=2, guard=2, hardware=2)
    none = loaded(name, guard=0, hardware=0, dead=0)
    for key, value in once.items():
        size = max(abs(value), 1e-3)
        if " D " in key:
            continue
        assert twice[key] == pytest.approx(2 * value, rel=SAME, abs=SAME * size), key
    for mark in layout_of(name).supports:
        # Dead load has one value: the most where it presses, the least where it lifts.
        D0, D1, D2 = (
            found[f"{mark.mark} D most"] + found[f"{mark.mark} D least"] for found in (none, once, twice)
        )
        assert pytest.approx(D1 - D0, rel=SAME, abs=1e-6) == D2 - D1, mark.mark


# ------------------------------------------------------------------------------------------------


def nudge_cases() -> list:
    rng = random.Random(2026)
    found = []
    for name in (*SHIPPED, *SOME):
        moves = [what for what, _ in nudges(project_of(name))]
        found += [(name, what) for what in rng.sample(moves, min(len(moves), 4 if name in SHIPPED else 1))]
    for name in SHIPPED:
        moves = [what for what, _ in nudges_of_parts(project_of(name))]
        found += [(name, what) for what in rng.sample(moves, min(len(moves), 4))]
    found += [case for case in not_yet.NUDGES if case not in found][:2]
    return [expected(case, case in not_yet.NUDGES) for case in found if case not in SLOPES]


@pytest.mark.parametrize(("name", "what"), nudge_cases())
def test_a_sixteenth_of_an_inch_moves_no_ratio_far(name: str, what: str) -> None:
    project = project_of(name)
    moved = {**dict(nudges(project)), **dict(nudges_of_parts(project))}[what]
    base, other = ratios(results_of(project)), ratios(results_of(moved))
    found = [d for d in differences(base, other, SHARE, LEAST) if not allowed(d, project, moved)]
    assert not found, f"{len(found)} jump: " + "; ".join(found[:8])


@pytest.mark.parametrize(("name", "what"), SLOPES)
def test_what_moves_a_ratio_further_is_a_slope_and_no_step(name: str, what: str) -> None:
    """Half of the nudge moves each ratio by about half of what the whole does, either half."""
    project = project_of(name)
    half, whole = (dict(nudges(project, by))[what] for by in (SIXTEENTH / 2, SIXTEENTH))
    one, two, three = (by_part(results_of(p)) for p in (project, half, whole))
    found = [d for d in differences(one, three, SHARE, LEAST) if not allowed(d, project, whole)]
    assert found, "no longer steep: out of the list"
    for key in (d.rsplit(":", 1)[0] for d in found):
        walked = np.array([one[key], two[key], three[key]])
        parts, all_of_it = np.abs(np.diff(walked, axis=0)), np.abs(walked[2] - walked[0])
        steep = all_of_it > LEAST
        assert (parts[:, steep] <= HALF * all_of_it[steep]).all(), key


def by_part(results: Results) -> dict[str, list[float]]:
    """Ratios by limit state and part: two rows that change places in order of size stay apart."""
    found: dict[str, list[float]] = {}
    for check in results.checks:
        # one row for the joist or block of a field that governs: another may a hair farther on
        of_a_field = re.fullmatch(r"(joist|blocking)\..*lateral", check.key)
        part = check.part.rstrip("0123456789") if of_a_field else check.part
        found.setdefault(f"{check.key}: {part} {check.at}", []).append(check.ratio)
    return found
