"""Results: every check, the reactions and the marks, and the one JSON they are written as.

The JSON is documented in :func:`to_json`.
"""

from __future__ import annotations

import hashlib
import json
import math
from dataclasses import dataclass
from typing import Any

from bolewright import __version__
from bolewright.platform.analysis.lateral import LateralAnalysis, find_lateral
from bolewright.platform.analysis.pattern import pattern_of
from bolewright.platform.analysis.support_loads import SupportLoads, sums, support_loads
from bolewright.platform.checks.beam_seats import beam_seat_checks
from bolewright.platform.checks.beams_lateral import beam_lateral_checks
from bolewright.platform.checks.blocking import blocking_checks
from bolewright.platform.checks.blocking_edges import blocking_edge_checks
from bolewright.platform.checks.blocking_lateral import blocking_lateral_checks
from bolewright.platform.checks.bolted_beams import bolted_beam_checks
from bolewright.platform.checks.braces import brace_checks
from bolewright.platform.checks.bracket_bolts import bracket_bolt_checks
from bolewright.platform.checks.bracket_fastening import bracket_fastening_checks
from bolewright.platform.checks.bracket_net_section import bracket_net_section_checks
from bolewright.platform.checks.caps import cap_checks
from bolewright.platform.checks.clash import clash_checks
from bolewright.platform.checks.concrete import concrete_lateral_checks
from bolewright.platform.checks.crossed_rods import crossed_rod_checks
from bolewright.platform.checks.deck_ends import deck_end_checks
from bolewright.platform.checks.decking import decking_checks
from bolewright.platform.checks.eccentric_loads import eccentric_checks
from bolewright.platform.checks.edge_together import edge_together_checks
from bolewright.platform.checks.footings import footing_checks
from bolewright.platform.checks.footings_lateral import footing_lateral_checks
from bolewright.platform.checks.guard_framing import guard_framing_checks
from bolewright.platform.checks.guard_framing_lateral import guard_framing_lateral_checks
from bolewright.platform.checks.guards import guard_checks
from bolewright.platform.checks.hammocks import hammock_checks
from bolewright.platform.checks.hatches import hatch_checks
from bolewright.platform.checks.incising import incising_checks
from bolewright.platform.checks.joint_shear import joint_shear_checks
from bolewright.platform.checks.joists_lateral import joist_lateral_checks
from bolewright.platform.checks.ladders import ladder_checks
from bolewright.platform.checks.limbs import limb_checks
from bolewright.platform.checks.members import (
    Look,
    bearing_checks,
    bearing_under_checks,
    bending_checks,
    deflection_checks,
    least_bearing_checks,
    look_of,
    shear_checks,
    slenderness_checks,
)
from bolewright.platform.checks.point_loads import point_load_checks
from bolewright.platform.checks.post_bases import post_base_checks
from bolewright.platform.checks.post_ends import post_end_checks, post_end_lateral_checks
from bolewright.platform.checks.posts import post_checks
from bolewright.platform.checks.posts_lateral import post_lateral_checks
from bolewright.platform.checks.pushed_across import across_checks
from bolewright.platform.checks.rims import rim_checks
from bolewright.platform.checks.seat_uplift import seat_uplift_checks
from bolewright.platform.checks.seats import hanger_checks, held_by_fasteners, uplift_checks
from bolewright.platform.checks.seismic import seismic_checks
from bolewright.platform.checks.stability import stability_checks
from bolewright.platform.checks.stage_uplift import stage_uplift_checks
from bolewright.platform.checks.stages import stage_checks
from bolewright.platform.checks.stairs import stair_checks
from bolewright.platform.checks.tear_out import tear_out_checks
from bolewright.platform.checks.tee_posts import tee_post_checks
from bolewright.platform.checks.together import together_checks
from bolewright.platform.checks.tree_bolt_service import tree_bolt_service_checks
from bolewright.platform.checks.tree_bolts import tree_bolt_checks
from bolewright.platform.checks.tree_clearance import tree_clearance_checks
from bolewright.platform.checks.tree_lateral import tree_lateral_checks
from bolewright.platform.checks.trunk_brace_beams import brace_tension_checks
from bolewright.platform.checks.trunk_braces import trunk_brace_checks
from bolewright.platform.checks.trunk_openings import trunk_opening_checks
from bolewright.platform.checks.trunk_torsion import trunk_torsion_checks
from bolewright.platform.checks.trunks import trunk_checks
from bolewright.platform.checks.whole import board_end_checks, open_checks
from bolewright.platform.file.demonstration import unconfirmed
from bolewright.platform.file.ratings import ratings_of
from bolewright.platform.layout.actions import Action
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.limit_states.check import Check, Topic, worst
from bolewright.platform.loads.load_path import LoadPath, find_load_path
from bolewright.platform.project import Project
from bolewright.platform.results.coverage import coverage, missing_checks
from bolewright.platform.results.given_for import reopened
from bolewright.platform.results.not_calculated import not_calculated
from bolewright.platform.results.said import said_once
from bolewright.platform.results.verdict import beside_verdict, verdict_lines
from bolewright.platform.verification.compared import Compared, told
from bolewright.platform.verification.comparison import compare, judged_by_worse, unsolved_checks
from bolewright.status import Status

SCHEMA = "bolewright results 2"


@dataclass(frozen=True)
class Results:
    """All that was found for one project file."""

    project: Project
    path: LoadPath
    lateral: LateralAnalysis
    checks: tuple[Check, ...]
    compared: tuple[Compared, ...] = ()

    @property
    def governing(self) -> list[Check]:
        """Checks with the failing first, then the not checked, then by falling ratio."""
        return worst(self.checks)

    def count(self, status: Status) -> int:
        """How many checks have a status."""
        return sum(check.status is status for check in self.checks)

    @property
    def all_pass(self) -> bool:
        """Whether every check was made and passes."""
        return all(check.status is Status.PASSES for check in self.checks)

    def of(self, topic: Topic) -> list[Check]:
        """Checks of one topic in the order they were made."""
        return [check for check in self.checks if check.topic is topic]


def find_results(project: Project) -> Results:
    """All checks of a project. Raises LayoutError for an arrangement that cannot stand."""
    path = find_load_path(find_layout(project))
    path.balance()
    lateral = find_lateral(path)
    joists, beams, blocking = (
        [look_of(path, member) for member in members]
        for members in (path.layout.joists, path.layout.beams, path.layout.blocking)
    )
    compared, unsolved = compare(path, lateral, [*blocking, *joists, *beams])
    checks = [
        *incising_checks(project),
        *decking_checks(path),
        *_beam_checks(blocking, [look for look in blocking if not held_by_fasteners(look.member)]),
        *blocking_checks(blocking, [*joists, *beams]),
        *blocking_edge_checks(blocking, [*joists, *beams]),
        *rim_checks(blocking),
        *_beam_checks(joists),
        *_beam_checks(beams),
        *bearing_under_checks(beams, [*joists, *beams]),
        *eccentric_checks(beams, [*blocking, *joists, *beams]),
        *hanger_checks([*blocking, *joists, *beams]),
        *tree_bolt_checks(path),
        *post_checks(path),
        *post_end_checks(path),
        *tee_post_checks(path),
        *footing_checks(path),
        *uplift_checks(path),
        *post_lateral_checks(lateral),
        *post_end_lateral_checks(lateral),
        *post_base_checks(lateral),
        *footing_lateral_checks(lateral),
        *concrete_lateral_checks(lateral),
        *cap_checks(lateral),
        *tree_lateral_checks(lateral),
        *bracket_fastening_checks(lateral),
        *bracket_bolt_checks(lateral),
        *bracket_net_section_checks(lateral),
        *tree_bolt_service_checks(lateral),
        *trunk_torsion_checks(lateral),
        *trunk_checks(lateral),
        *brace_checks(lateral),
        *crossed_rod_checks(lateral),
        *brace_tension_checks(path),
        *trunk_brace_checks(lateral),
        *joist_lateral_checks(lateral, joists, beams, blocking),
        *beam_lateral_checks(lateral),
        *bolted_beam_checks(lateral),
        *joint_shear_checks(lateral),
        *tear_out_checks(lateral),
        *beam_seat_checks(lateral),
        *blocking_lateral_checks(lateral),
        *seat_uplift_checks(lateral),
        *deck_end_checks(lateral),
        *stair_checks(path.layout),
        *ladder_checks(path.layout),
        *hatch_checks(path),
        *tree_clearance_checks(lateral),
        *trunk_opening_checks(lateral),
        *limb_checks(lateral),
        *together_checks(lateral),
        *edge_together_checks(lateral),
        *stability_checks(lateral),
        *guard_checks(path.layout),
        *guard_framing_checks(path),
        *guard_framing_lateral_checks(lateral),
        *point_load_checks(path.layout),
        *hammock_checks(path),
        *across_checks(path),
        *clash_checks(path.layout),
        *stage_checks(path),
        *stage_uplift_checks(path),
        *seismic_checks(lateral),
        *open_checks(project),
        *board_end_checks(path.layout),
    ]
    checks = reopened(lateral, judged_by_worse(checks, compared))
    checks += unsolved_checks(unsolved)
    checks += missing_checks(lateral, checks)
    return Results(project, path, lateral, said_once(path.layout, checks), tuple(compared))


def _beam_checks(looks: list[Look], bearing: list[Look] | None = None) -> list[Check]:
    if not looks:
        return []
    bearing = looks if bearing is None else bearing
    return [
        *bending_checks(looks, sagging=True),
        *bending_checks(looks, sagging=False),
        *shear_checks(looks),
        *bearing_checks(bearing),
        *least_bearing_checks(looks),
        *deflection_checks(looks),
        *slenderness_checks(looks),
    ]


# ---------------------------------------------------------------------------------------------------------
# JSON


def fingerprint(text: str) -> str:
    """Fingerprint of a project file's text: the first 16 digits of its SHA-256."""
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def to_json(results: Results, text: str) -> str:
    """Results as JSON: what :class:`~bolewright.platform.results.results_schema.ResultsFile` says of each key.

    Numbers are rounded to six significant digits, those of the frame to the four that solving it leaves alike on every
    machine; a number that does not exist is null. The worst ``pattern`` of live load stands with the governing check of
    each topic and limit state.
    """
    path = results.path
    governing = results.governing[0]
    patterns = _patterns(results)
    data = {
        "schema": SCHEMA,
        "version": __version__,
        "input": fingerprint(text),
        "project": results.project.title.project,
        "code": results.project.code.words,
        "demonstration": results.project.demonstration,
        "verdict": list(verdict_lines(results)),
        "beside_verdict": list(beside_verdict(results)),
        "ratings": [
            {"table": r.table, "part": r.part, "key": r.key, "lb": _n(r.load), "source": r.source}
            for r in ratings_of(results.project)
        ],
        "unconfirmed": [{"path": same.path, "value": same.shown} for same in unconfirmed(results.project)],
        "not_calculated": [
            {"what": n.what, "who": n.who, "why": n.why} for n in not_calculated(results.project)
        ],
        "limit_states": [
            {"key": r.state.key, "outcome": r.cover.value, "parts": r.parts, "why": r.why}
            for r in coverage(results.lateral, results.checks)
        ],
        "summary": {
            **{status.value: results.count(status) for status in Status},
            "nothing_asked": sum(check.asks_nothing for check in results.checks),
            "governing": {
                "part": governing.part,
                "limit_state": governing.limit_state,
                "ratio": _ratio(governing.ratio),
            },
        },
        "loads": {
            name: {"laid_on_lb": _n(laid), "carried_lb": _n(carried)}
            for name, (laid, carried) in path.balance().items()
        },
        "reactions": {s.mark: _reaction(s) for s in support_loads(path, results.lateral)},
        "sum": {s.load: {"carried_lb": _n(s.carried), "put_on_lb": _n(s.put_on)} for s in sums(path)},
        **_actions(path),
        "marks": [*_member_marks(path), *_support_marks(path)],
        "checks": [_check(check) | patterns.get(id(check), {}) for check in results.checks],
        "panels": [
            {
                "corners_in": [[_n(x), _n(y)] for x, y in panel.corners],
                "area_sqft": _n(panel.area / 144),
                "member": panel.member,
            }
            for panel in path.panels
        ],
        "independent_check": told(results.compared),
    }
    return json.dumps(data, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def _n(value: float) -> float | None:
    return float(f"{value:.6g}") if math.isfinite(value) else None


_NOISE = 0.02  # of the sixth digit: what a frame's solution differs by from machine to machine (1e-8 seen)


def _ratio(value: float) -> float | None:
    """Six digits of a ratio, rounded up, so that whoever rounds on gets what the sheets print."""
    if not math.isfinite(value) or value == 0:
        return _n(value)
    step = 10.0 ** (math.floor(math.log10(abs(value))) - 5)
    up = _n(math.ceil(value / step - _NOISE) * step)
    return max(up, 1.00001) if up is not None and value > 1 else up


def _patterns(results: Results) -> dict[int, dict[str, Any]]:
    """Worst pattern of the governing check of each topic and limit state, by the check's identity."""
    found: dict[int, dict[str, Any]] = {}
    seen: set[tuple[Topic, str]] = set()
    for check in results.governing:
        pattern = pattern_of(results.path, check)
        if pattern is None or (check.topic, check.limit_state) in seen:
            continue
        seen.add((check.topic, check.limit_state))
        person = [_n(x) for x in pattern.person] if pattern.person else None
        found[id(check)] = {"pattern": {"panels": list(pattern.panels), "person_in": person}}
    return found


def _reaction(loads: SupportLoads) -> dict[str, Any]:
    kinds = ("D", "L", "L_most", "L_least", "S", "S_most", "S_least", "person_most", "person_least")
    lateral = loads.lateral
    return {
        **{kind: _n(getattr(loads, kind)) for kind in kinds},
        "most": {"lb": _n(loads.most[0]), "combination": loads.most[1]},
        "least": {"lb": _n(loads.least[0]), "combination": loads.least[1]},
        "lateral": {"x_lb": _n(lateral.x), "y_lb": _n(lateral.y), "combination": lateral.combination}
        if lateral
        else None,
    }


def _actions(path: LoadPath) -> dict[str, Any]:
    """What parts bring to places of the framing; no key where none does."""
    actions = path.layout.actions
    return {"actions": [_action(action) for action in actions if action.way == 0]} if actions else {}


def _action(action: Action) -> dict[str, Any]:
    return {
        "part": action.part,
        "what": action.what,
        "kind": action.kind.value,
        "at_in": [_n(x) for x in action.at],
        "member": action.member or None,
        "down_lb": _n(action.down),
        "level_lb": [_n(x) for x in action.level],
        "height_in": _n(action.height),
        "moment_lbin": [_n(x) for x in action.moment],
    } | ({"also": [_action(one) for one in action.also]} if action.also else {})


def _member_marks(path: LoadPath) -> list[dict[str, Any]]:
    return [
        {
            "mark": m.mark,
            "kind": m.kind.value,
            "section": m.section.name,
            "length_in": _n(m.line.length),
            "seats": [{"below": s.below, "bearing": s.bearing.value, "at_in": _n(s.at)} for s in m.seats],
        }
        for m in path.layout.members
    ]


def _support_marks(path: LoadPath) -> list[dict[str, Any]]:
    return [
        {"mark": s.mark, "kind": s.kind, "at_in": [_n(s.at[0]), _n(s.at[1])]} for s in path.layout.supports
    ]


def _check(check: Check) -> dict[str, Any]:
    return {
        "part": check.part,
        "key": check.key,
        "topic": check.topic.value,
        "limit_state": check.limit_state,
        "status": check.status.value,
        "demand": _n(check.demand),
        "capacity": _n(check.capacity),
        "unit": check.unit.label,
        "ratio": _ratio(check.ratio),
        "combination": check.combination,
        "clause": check.clause,
        "sentence": check.sentence,
        "where": check.where,
        "notes": list(check.notes),
        "asks_nothing": check.asks_nothing,
    }
