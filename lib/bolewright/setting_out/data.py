"""Setting out as data: what the sheets show, as one JSON object."""

from __future__ import annotations

import math
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any

from bolewright.calculation import Step
from bolewright.platform.layout.pieces import EndCut, cut_pieces
from bolewright.platform.layout.stair_rails import stair_rail
from bolewright.platform.results.results import Results
from bolewright.setting_out.access import hatch_cut, ladder_cut, stands
from bolewright.setting_out.as_built import Outcome, as_built
from bolewright.setting_out.beams import joist_marks, seat_marks
from bolewright.setting_out.braces import brace_cuts
from bolewright.setting_out.crossed import rod_cuts
from bolewright.setting_out.cutout import cut_outs, room_needed
from bolewright.setting_out.decking import deck_rows
from bolewright.setting_out.ground import ground_plan
from bolewright.setting_out.guards import gate_cuts, rail_bays
from bolewright.setting_out.holes import holes
from bolewright.setting_out.levels import find_levels
from bolewright.setting_out.stacks import stacks
from bolewright.setting_out.stages import stages
from bolewright.setting_out.stairs import stair_layout
from bolewright.setting_out.things import limbs, things
from bolewright.setting_out.trunk import bolt_marks, bolt_pairs

SCHEMA = "bolewright setting out 1"


def setting_out_data(results: Results) -> dict[str, Any]:
    """Setting out of a project as plain data that JSON can hold.

    Keys: ``schema``; ``project``; ``units`` (lengths are inches, angles degrees from square, volumes cubic feet,
    weights pounds); ``bolts`` and ``bolt_pairs``; ``ground`` (null without posts); ``holes``; ``stacks``;
    ``levels``; ``pieces`` (joists and beams as cut); ``joist_marks`` and ``seat_marks``; ``braces``; ``cut_outs``;
    ``crossed_rods``; ``rows`` of boards; ``stairs`` (null where none are described); ``rail_bays`` and
    ``gates`` of guards; ``stands`` (places of the ways up), ``ladder`` and ``hatch`` (null without);
    ``stair_rail`` (null without posts); ``things`` (loads at a place) and ``limbs``; ``stages``; ``as_built`` (null
    where nothing was entered). The keys of each entry are those of the classes in :mod:`bolewright.setting_out`.
    Numbers are rounded to 1e-4.
    """
    layout = results.path.layout
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    bolts = bolt_marks(layout)
    found = cut_outs(results)
    built = as_built(results)
    return {
        "schema": SCHEMA,
        "project": results.project.title.project,
        "units": {"length": "in", "angle": "deg from square", "volume": "cu ft", "weight": "lb"},
        "bolts": plain(bolts),
        "bolt_pairs": plain(bolt_pairs(layout, bolts)),
        "ground": plain(ground_plan(layout)),
        "holes": plain(holes(layout)),
        "stacks": plain(stacks(layout)),
        "levels": plain(find_levels(layout)),
        "pieces": plain(tuple(pieces.values())),
        "joist_marks": plain(joist_marks(layout, pieces)),
        "seat_marks": plain(seat_marks(layout, pieces)),
        "braces": plain(brace_cuts(layout, pieces)),
        "crossed_rods": plain(rod_cuts(layout)),
        "cut_outs": plain(found),
        "rows": plain(deck_rows(layout, room_needed(found))),
        "stairs": plain(stair_layout(layout)),
        "rail_bays": plain(rail_bays(layout)),
        "gates": plain(gate_cuts(layout)),
        "stands": plain(stands(layout)),
        "ladder": plain(ladder_cut(layout)),
        "hatch": plain(hatch_cut(layout)),
        "stair_rail": plain(stair_rail(layout)),
        "things": plain(things(layout)),
        "limbs": plain(limbs(layout)),
        "stages": plain(stages(layout, pieces)),
        "as_built": None if built is None else _outcome(built),
    }


def plain(value: Any) -> Any:
    """Frozen data as dicts, lists, numbers and text; the steps of calculations are left out."""
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, float):
        return round(value, 4) + 0.0 if math.isfinite(value) else None
    if isinstance(value, EndCut):
        return {f.name: plain(getattr(value, f.name)) for f in fields(value)} | {
            "hanger_skew": value.hanger_skew.value
        }
    if is_dataclass(value):
        return {f.name: plain(getattr(value, f.name)) for f in fields(value) if f.name != "steps"}
    if isinstance(value, tuple | list):
        return [plain(item) for item in value if not isinstance(item, Step)]
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    return value


def _outcome(built: Outcome) -> dict[str, Any]:
    return {
        "what": built.what,
        "fault": built.fault,
        "changed": [
            {
                "part": change.check.part,
                "limit_state": change.check.limit_state,
                "before": plain(change.before.ratio) if change.before else None,
                "after": plain(change.after.ratio) if change.after else None,
                "status": change.after.status.value if change.after else None,
            }
            for change in built.changed
        ],
    }
