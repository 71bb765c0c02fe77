"""Ways to help a check, each a run of changes from the smallest to the largest, likeliest way first."""

from __future__ import annotations

from collections.abc import Callable

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
    bolted_to_bracket,
    bracket_bolts_higher,
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
    rated_with_edges,
    seat_wider,
    serviced_sooner,
    slot_longer,
    tied_higher,
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
from bolewright.platform.limit_states.check import Check
from bolewright.platform.limit_states.helped import Help, help_of
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results

Ways = list[list[Change]]


def ways(data: Data, results: Results, check: Check) -> Ways:
    """Ways to help a check; empty ones left out."""
    kind = help_of(check.key)
    if kind is None:
        return []
    return [way for way in WAYS[kind](Case(data, results, check)) if way]


def _boards(case: Case) -> Ways:
    fields, where = range(len(case.project.joists)), ("decking",)
    return [*(closer(case, i) for i in fields), larger(case, where), graded(case, where)]


def _of_joist(case: Case, help_: Callable[[Case, int], Ways]) -> Ways:
    """What helps a joist, by the place of its field; nothing where the part is none."""
    return [] if case.field is None else help_(case, case.field)


def _joist(case: Case, i: int) -> Ways:
    return [larger(case, ("joists", i)), closer(case, i), graded(case, ("joists", i))]


def _joist_bearing(case: Case, i: int) -> Ways:
    return [hung_wider(case), closer(case, i), *(plies(case, row) for row in case.beams_below())]


def _edges(case: Case) -> Ways:
    return [] if case.field is None and case.row("beam") is None else [edges_rated(case)]


def _block_row(case: Case) -> int | None:
    """Place of the rim, row or spacer that the check's part comes from."""
    letters = case.check.part.rstrip("0123456789")
    return next((i for i, entry in enumerate(case.project.blocking) if entry.mark == letters), None)


def _of_block(case: Case, help_: Callable[[Case, int], Ways]) -> Ways:
    row = _block_row(case)
    return [] if row is None else help_(case, row)


def _block(case: Case, row: int) -> Ways:
    return [larger(case, ("blocking", row)), graded(case, ("blocking", row))]


def _hanger(case: Case) -> Ways:
    i = case.field
    return [rated_higher(case, "connection"), *([closer(case, i)] if i is not None else [])]


def _uplift(case: Case, key: str) -> Ways:
    """A rating against uplift: of the hanger at a hung end, of the tie where it lies on something."""
    return [rated_higher(case, "connection", "rated_uplift"), rated_higher(case, key, "uplift_tie")]


def _deck_end(case: Case) -> Ways:
    """A lateral rating: of what fastens a joist that rests, or of the hanger at a hung end."""
    if case.check.at == "resting":
        return [rated_higher(case, "joists", "lateral_tie")]
    return [rated_higher(case, "connection", "rated_lateral")]


def _of_beam(case: Case, help_: Callable[[Case, int], Ways]) -> Ways:
    """What helps a beam, by its place in the file; nothing where the part is none."""
    row = case.row("beam")
    return [] if row is None else help_(case, row)


def _beam(case: Case, row: int, *sway: list[Change]) -> Ways:
    timber = [deeper(case, row), plies(case, row), graded(case, ("beam", row))]
    return [*timber, *sway, *post_moved(case), *beam_moved(case), post_under(case, row)]


def _beam_in_sway(case: Case, row: int) -> Ways:
    return _beam(case, row, knees_longer(case), knees_shorter(case))


def _beam_bearing(case: Case, row: int) -> Ways:
    below = [plies(case, other) for other in case.beams_below()]
    caps = [cap_longer(case, m) for m in case.supports_below()]
    return [seat_wider(case), *caps, plies(case, row), *below, *post_moved(case)]


def _loaded_ply(case: Case, row: int) -> Ways:
    return [plies_nailed(case, row), plies(case, row), deeper(case, row), graded(case, ("beam", row))]


def _beam_at_bolts(case: Case, row: int) -> Ways:
    if any(s.mark == case.check.at and s.kind == SupportKind.TREE_BOLT for s in case.project.supports):
        return [bracket_bolts_higher(case), plies(case, row), deeper(case, row)]
    return [beam_longer(case), plies(case, row), deeper(case, row), knees_longer(case)]


def _bolt(case: Case) -> Ways:
    return [bolt_deeper(case), bolt_thicker(case), *beam_moved(case)]


def _bolt_rated(case: Case) -> Ways:
    return [rated_higher(case, "bolt"), *beam_moved(case)]


def _bolt_rated_in_sway(case: Case) -> Ways:
    return [*_bolt_rated(case), knee_added(case), base_fixed(case)]


def _bracket(case: Case) -> Ways:
    return [rated_higher(case, "bolt", "rated_lateral"), knee_added(case), base_fixed(case)]


def _of_post(case: Case, help_: Callable[[Case, str], Ways]) -> Ways:
    """What helps a post, by the name of its kind; nothing where the part is none."""
    kind = case.kind("post")
    return [] if kind is None else help_(case, kind)


def _timber(case: Case, kind: str) -> Ways:
    return [larger(case, ("post", kind)), graded(case, ("post", kind))]


def _post(case: Case, kind: str) -> Ways:
    return [*_timber(case, kind), *post_moved(case), knee_added(case)]


def _post_in_sway(case: Case, kind: str) -> Ways:
    held = [knee_added(case), knees_longer(case), rods_added(case), base_fixed(case)]
    return [*_timber(case, kind), *held]


def _post_bearing(case: Case, kind: str) -> Ways:
    part = case.check.part
    return [cap_longer(case, part), *(plies(case, row) for row in case.beams_on(part))]


def _cap_rotation(case: Case, kind: str) -> Ways:
    nailed = case.project.posts[kind].gusset is not None
    return [more_gusset_nails(case, kind) if nailed else rated_higher(case, "post", "rotation_tie")]


def _footing(case: Case) -> Ways:
    return [footing_wider(case), footing_deeper(case), footing_thicker(case), *post_moved(case)]


def _embedment(case: Case) -> Ways:
    return [footing_deeper(case), footing_wider(case), knee_added(case)]


def _of_brace(case: Case, help_: Callable[[Case, int], Ways]) -> Ways:
    """What helps a knee brace, by its place in the file; where the part is none, what holds the floor laterally."""
    row = case.row("brace")
    return lateral_held(case) if row is None else help_(case, row)


def _brace(case: Case, row: int) -> Ways:
    where = ("brace", row)
    return [
        larger(case, where),
        plies(case, row, "brace"),
        graded(case, where),
        knees_shorter(case),
        knee_added(case),
    ]


def _brace_distances(case: Case, row: int) -> Ways:
    return [braces_bolted_less(case), larger(case, ("brace", row))]


def _brace_ends(case: Case, row: int) -> Ways:
    return [braces_bolted(case), knees_longer(case), larger(case, ("brace", row)), knee_added(case)]


def _clearance(case: Case) -> Ways:
    return [opening_widened(case), bolt_moved_out(case), serviced_sooner(case)]


def _stage_rotation(case: Case) -> Ways:
    on_post = any(s.mark == case.check.at and s.kind == SupportKind.POST for s in case.project.supports)
    return [rated_higher(case, "post" if on_post else "beam", "rotation_tie")]


def _stage_uplift(case: Case) -> Ways:
    """A tie at the seat: of the support there, or of the beam, the joist or its hanger where it lies on another."""
    row = case.row("support", case.check.at)
    table = "joists" if case.check.key.startswith("joist") else "beam"
    return _uplift(case, table) if row is None else [tied_higher(case, row)]


def _drift(case: Case) -> Ways:
    posts = [larger(case, ("post", kind)) for kind in case.data.get("post", {})]
    on_posts = [
        row for m in case.project.supports for row in case.beams_on(m.mark) if m.kind == SupportKind.POST
    ]
    more = [post_under(case, row) for row in dict.fromkeys(on_posts)]
    held = [knees_longer(case), knee_added(case), rods_added(case)]
    return [*held, *posts, base_fixed(case), footing_deeper(case), *more]


WAYS: dict[Help, Callable[[Case], Ways]] = {
    Help.BOARDS: _boards,
    Help.JOIST: lambda case: _of_joist(case, _joist),
    Help.JOIST_UPLIFT: lambda case: _of_joist(case, lambda c, _: _uplift(c, "joists")),
    Help.JOIST_BEARING: lambda case: _of_joist(case, _joist_bearing),
    Help.EDGES: _edges,
    Help.EDGES_TOGETHER: lambda case: [rated_with_edges(case)],
    Help.DECK_END: _deck_end,
    Help.BLOCK: lambda case: _of_block(case, _block),
    Help.BLOCK_EDGES: lambda case: _of_block(case, lambda c, _: [rated_higher(c, "blocking", "edge_load")]),
    Help.BLOCK_FASTENING: lambda case: _of_block(case, lambda c, row: [driven_more(c, row)]),
    Help.BLOCK_UPLIFT: lambda case: _of_block(
        case, lambda c, _: [rated_higher(c, "connection", "rated_uplift")]
    ),
    Help.HANGER: _hanger,
    Help.BEAM: lambda case: _of_beam(case, _beam),
    Help.BEAM_IN_SWAY: lambda case: _of_beam(case, _beam_in_sway),
    Help.BEAM_UPLIFT: lambda case: _of_beam(case, lambda c, _: _uplift(c, "beam")),
    Help.BEAM_BEARING: lambda case: _of_beam(case, _beam_bearing),
    Help.PLY_FASTENING: lambda case: _of_beam(case, lambda c, row: [plies_nailed(c, row)]),
    Help.LOADED_PLY: lambda case: _of_beam(case, _loaded_ply),
    Help.BEAM_AT_BOLTS: lambda case: _of_beam(case, _beam_at_bolts),
    Help.BOLT: _bolt,
    Help.BOLT_HOLE: lambda case: [bolt_thicker(case, thinner=True)],
    Help.BOLT_TIP: lambda case: [bolt_shallower(case)],
    Help.BOLT_UPLIFT: lambda case: [rated_higher(case, "support", "uplift_tie")],
    Help.BOLT_TOGETHER: lambda case: [rated_together(case), *beam_moved(case)],
    Help.BOLT_RATED: _bolt_rated,
    Help.BOLT_RATED_IN_SWAY: _bolt_rated_in_sway,
    Help.BRACKET: _bracket,
    Help.BRACKET_FASTENING: lambda case: [
        bolted_to_bracket(case),
        rated_higher(case, "bolt", "rated_lateral"),
    ],
    Help.POST: lambda case: _of_post(case, _post),
    Help.POST_IN_SWAY: lambda case: _of_post(case, _post_in_sway),
    Help.POST_AT_BOLTS: lambda case: _of_post(case, lambda c, kind: [*_timber(c, kind), knees_longer(c)]),
    Help.POST_FOOT_UPLIFT: lambda case: _of_post(
        case, lambda c, kind: [foot_bolted(c, kind), rated_higher(c, "post", "foot_tie")]
    ),
    Help.POST_UPLIFT: lambda case: _of_post(
        case, lambda c, _: [rated_higher(c, "support", "uplift_tie"), *beam_moved(c)]
    ),
    Help.POST_BEARING: lambda case: _of_post(case, _post_bearing),
    Help.CAP_TOGETHER: lambda case: _of_post(case, lambda c, _: [rated_shares(c), knee_added(c)]),
    Help.CAP_LATERAL: lambda case: _of_post(
        case, lambda c, _: [rated_higher(c, "post", "cap_lateral"), knee_added(c)]
    ),
    Help.CAP_ROTATION: lambda case: _of_post(case, _cap_rotation),
    Help.FOOTING: _footing,
    Help.FROST: lambda case: [footing_deeper(case)],
    Help.CONCRETE: lambda case: [footing_thicker(case), footing_wider(case)],
    Help.EMBEDMENT: _embedment,
    Help.BRACE: lambda case: _of_brace(case, _brace),
    Help.BRACE_DISTANCES: lambda case: _of_brace(case, _brace_distances),
    Help.BRACE_ENDS: lambda case: _of_brace(case, _brace_ends),
    Help.RODS: lambda case: [rods_stronger(case)],
    Help.SLOT: lambda case: [slot_longer(case)],
    Help.CLEARANCE: _clearance,
    Help.YEARS: lambda case: [serviced_sooner(case), bolt_moved_out(case)],
    Help.RESTRAINT: lambda case: [*tree_released(case), rated_higher(case, "bolt", "rated_lateral")],
    Help.STAGE_ROTATION: _stage_rotation,
    Help.STAGE_UPLIFT: _stage_uplift,
    Help.ROTATION: lambda case: [rated_higher(case, "beam", "rotation_tie"), edges_rated(case)],
    Help.BEAM_FASTENING: lambda case: [rated_higher(case, "beam", "lateral_tie")],
    Help.IN_PLANE: lambda case: [*straps_stronger(case)],
    Help.DRIFT: _drift,
    Help.LATERAL: lateral_held,
}
