"""Ways to help a check, each a run of changes from the smallest to the largest, likeliest way first."""

from __future__ import annotations

from bolewright.changes.change import Change, Data
from bolewright.changes.ways_case import Case
from bolewright.changes.ways_lateral import (
    base_fixed,
    braces_bolted,
    braces_bolted_less,
    knee_added,
    knees_longer,
    knees_shorter,
    lateral_held,
    rods_added,
    rods_stronger,
    straps_stronger,
    tree_released,
)
from bolewright.changes.ways_moved import (
    beam_longer,
    beam_moved,
    bolt_moved_out,
    opening_widened,
    post_moved,
)
from bolewright.changes.ways_supports import (
    bolt_deeper,
    bolt_shallower,
    bolt_thicker,
    cap_longer,
    edges_rated,
    foot_bolted,
    footing_deeper,
    footing_thicker,
    footing_wider,
    more_gusset_nails,
    rated_higher,
    rated_shares,
    rated_together,
    seat_wider,
    serviced_sooner,
    slot_longer,
)
from bolewright.changes.ways_timber import (
    closer,
    deeper,
    driven_more,
    graded,
    hung_wider,
    larger,
    plies,
    plies_nailed,
    post_under,
)
from bolewright.platform.limit_states.check import Check, Topic
from bolewright.platform.results.results import Results


def ways(data: Data, results: Results, check: Check) -> list[list[Change]]:
    """Ways to help a check; empty ones left out."""
    return [way for way in _ways(Case(data, results, check)) if way]


def _ways(case: Case) -> list[list[Change]]:
    match case.check.topic:
        case Topic.DECKING:
            fields = range(len(case.project.joists))
            where = ("decking",)
            return [*(closer(case, i) for i in fields), larger(case, where), graded(case, where)]
        case Topic.JOISTS:
            return _joist(case)
        case Topic.BEAMS:
            return _beam(case)
        case Topic.HANGERS:
            i = case.field
            if case.says("uplift"):
                return _uplift(case, "joists" if i is not None else "beam")
            return [rated_higher(case, "connection"), *([closer(case, i)] if i is not None else [])]
        case Topic.TREE_BOLTS:
            return _tree_bolt(case)
        case Topic.POSTS:
            return _post(case)
        case Topic.FOOTINGS:
            return _footing(case)
        case Topic.BRACES:
            return _brace(case)
        case Topic.CLEARANCE:
            return _tree_clearance(case)
        case Topic.STABILITY:
            return _stability(case)
    return []


def _joist(case: Case) -> list[list[Change]]:
    if case.check.key.startswith("blocking."):
        return _blocking(case)
    i = case.field
    if i is None:
        return []
    if case.says("uplift"):
        return _uplift(case, "joists")
    if case.says("edges"):
        return [edges_rated(case)]
    if case.says("bearing"):
        return [hung_wider(case), closer(case, i), *(plies(case, row) for row in case.beams_below())]
    return [larger(case, ("joists", i)), closer(case, i), graded(case, ("joists", i))]


def _blocking(case: Case) -> list[list[Change]]:
    """More nails or screws, or a larger size of the rim, row or spacer that the check's part comes from."""
    letters = case.check.part.rstrip("0123456789")
    found = (i for i, entry in enumerate(case.project.blocking) if entry.mark == letters)
    row = next(found, None)
    if row is None:
        return []
    if case.check.key == "blocking.bracing_edges":
        return [rated_higher(case, "blocking", "edge_load")]
    if case.check.key.startswith(("blocking.fastening", "blocking.bracing")):
        return [driven_more(case, row)]
    if case.says("uplift"):
        return [rated_higher(case, "connection", "rated_uplift")]
    return [larger(case, ("blocking", row)), graded(case, ("blocking", row))]


def _uplift(case: Case, key: str) -> list[list[Change]]:
    """A rating against uplift: of the hanger at a hung end, of the tie where it lies on something."""
    return [rated_higher(case, "connection", "rated_uplift"), rated_higher(case, key, "uplift_tie")]


def _beam(case: Case) -> list[list[Change]]:
    row = case.row("beam")
    if row is None:
        return []
    if case.says("uplift"):
        return _uplift(case, "beam")
    if case.says("acting together"):
        return [rated_shares(case)]
    if case.says("bearing"):
        below = [plies(case, other) for other in case.beams_below()]
        return [
            seat_wider(case),
            *(cap_longer(case, m) for m in case.supports_below()),
            plies(case, row),
            *below,
            *post_moved(case),
        ]
    if case.says("ply-to-ply"):
        return [plies_nailed(case, row)]
    if case.says("loaded ply"):
        return [plies_nailed(case, row), plies(case, row), deeper(case, row), graded(case, ("beam", row))]
    if case.says("torsion") or case.says("rotation in its hanger") or case.says("edges"):
        return [edges_rated(case)]
    if case.says("shear at the bolts") or case.says("tear-out"):
        return [beam_longer(case), plies(case, row), deeper(case, row), knees_longer(case)]
    sway = [knees_longer(case), knees_shorter(case)] if case.says("sway") else []
    timber = [deeper(case, row), plies(case, row), graded(case, ("beam", row))]
    return [*timber, *sway, *post_moved(case), *beam_moved(case), post_under(case, row)]


def _tree_bolt(case: Case) -> list[list[Change]]:
    if case.part_is_tree or case.says("hole in the trunk"):
        return [bolt_thicker(case, thinner=True)]
    if case.says("tip of"):
        return [bolt_shallower(case)]
    if case.says("uplift"):
        return [rated_higher(case, "support", "uplift_tie")]
    if case.says("acting together"):
        return [rated_together(case), *beam_moved(case)]
    if case.says("lateral load on the bracket"):
        return [rated_higher(case, "bolt", "rated_lateral"), knee_added(case), base_fixed(case)]
    rated = (
        [rated_higher(case, "bolt")] if case.says("rated load") else [bolt_deeper(case), bolt_thicker(case)]
    )
    return [*rated, *beam_moved(case), *([knee_added(case), base_fixed(case)] if case.says("sway") else [])]


def _post(case: Case) -> list[list[Change]]:
    kind = case.kind("post")
    if kind is None:
        return []
    if case.says("uplift of its foot"):
        return [foot_bolted(case, kind), rated_higher(case, "post", "foot_tie")]
    if case.says("uplift"):
        return [rated_higher(case, "support", "uplift_tie"), *beam_moved(case)]
    if case.says("acting together"):
        return [rated_shares(case), knee_added(case)]
    if case.says("lateral load on the post cap"):
        return [rated_higher(case, "post", "cap_lateral"), knee_added(case)]
    if case.says("rotation"):
        nailed = case.project.posts[kind].gusset is not None
        return [more_gusset_nails(case, kind) if nailed else rated_higher(case, "post", "rotation_tie")]
    if case.says("bearing"):
        return [
            cap_longer(case, case.check.part),
            *(plies(case, row) for row in case.beams_on(case.check.part)),
        ]
    timber = [larger(case, ("post", kind)), graded(case, ("post", kind))]
    if case.says("at the bolts") or case.says("tear-out"):
        return [*timber, knees_longer(case)]
    if case.says("sway") or case.says("combined axial"):
        return [*timber, knee_added(case), knees_longer(case), rods_added(case), base_fixed(case)]
    return [*timber, *post_moved(case), knee_added(case)]


def _footing(case: Case) -> list[list[Change]]:
    wider, deeper_, thicker = footing_wider(case), footing_deeper(case), footing_thicker(case)
    if case.says("frost"):
        return [deeper_]
    if case.says("concrete") or case.says("footing thickness"):
        return [thicker, wider]
    if case.says("embedment") or case.says("uplift"):
        return [deeper_, wider, knee_added(case)]
    return [wider, deeper_, thicker, *post_moved(case)]


def _brace(case: Case) -> list[list[Change]]:
    row = case.row("brace")
    if case.check.key in ("crossed_rods.tension", "crossed_rods.ends"):
        return [rods_stronger(case)]
    if row is None:
        return [*lateral_held(case)]
    if case.says("edge and end distances"):
        return [braces_bolted_less(case), larger(case, ("brace", row))]
    if case.says("brace connection"):
        return [braces_bolted(case), knees_longer(case), larger(case, ("brace", row)), knee_added(case)]
    where = ("brace", row)
    return [
        larger(case, where),
        plies(case, row, "brace"),
        graded(case, where),
        knees_shorter(case),
        knee_added(case),
    ]


def _tree_clearance(case: Case) -> list[list[Change]]:
    if case.says("slot"):
        return [slot_longer(case)]
    if case.says("clearance"):
        return [opening_widened(case), bolt_moved_out(case), serviced_sooner(case)]
    if case.says("years"):
        return [serviced_sooner(case), bolt_moved_out(case)]
    if case.says("restraint force") or case.says("restrained trunks"):
        return [*tree_released(case), rated_higher(case, "bolt", "rated_lateral")]
    return []


def _stability(case: Case) -> list[list[Change]]:
    if case.check.key in ("platform.guard", "platform.seismic"):
        return []  # no size in the file settles it: its sentence says what to enter
    if case.check.key == "beam.stage_rotation":
        on_post = any(s.mark == case.check.at and s.kind == "post" for s in case.project.supports)
        return [rated_higher(case, "post" if on_post else "beam", "rotation_tie")]
    if case.says("rotation"):
        return [rated_higher(case, "beam", "rotation_tie"), edges_rated(case)]
    if case.says("fastening"):
        return [rated_higher(case, "beam", "lateral_tie")]
    if case.says("in-plane bracing"):
        return [*straps_stronger(case)]
    if case.says("drift") or case.says("P-delta"):
        posts = [larger(case, ("post", kind)) for kind in case.data.get("post", {})]
        on_posts = [row for m in case.project.supports for row in case.beams_on(m.mark) if m.kind == "post"]
        more = [post_under(case, row) for row in dict.fromkeys(on_posts)]
        return [
            knees_longer(case),
            knee_added(case),
            rods_added(case),
            *posts,
            base_fixed(case),
            footing_deeper(case),
            *more,
        ]
    return lateral_held(case)
