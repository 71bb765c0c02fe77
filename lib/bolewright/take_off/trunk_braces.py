"""Hardware of knee braces from a trunk: plates at the head, shoe at the foot, bolts."""

from __future__ import annotations

import math
from collections.abc import Iterator

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.trunk_braces import TrunkBrace, trunk_braces
from bolewright.take_off.bolt_lengths import least_bolt_length
from bolewright.take_off.cut_list import run_of
from bolewright.take_off.items import BOLTS, CONNECTORS, Item, inch, material_of


def trunk_brace_items(layout: Layout) -> Iterator[Item]:
    """Plates, shoes and bolts of every kind of knee brace from a trunk."""
    found: dict[str, list[TrunkBrace]] = {}
    for brace in trunk_braces(layout):
        found.setdefault(brace.support.strut or "", []).append(brace)
    for name, braces in found.items():
        strut, marks = braces[0].strut, [b.mark for b in braces]
        where, metal = run_of(marks), material_of(CONNECTORS)
        plate = (
            f"{inch(strut.plate)} steel, {strut.head_bolts or '?'} holes in the beam and as many in the brace"
        )
        yield Item(
            f"head plate {name}", plate, 2 * len(braces), metal, where, "one on each side of each head"
        )
        feet = list(dict.fromkeys(b.foot.mark for b in braces))
        rated = (
            f"rated {strut.rated_foot:,.0f} lb along each brace" if strut.rated_foot else "rating to be given"
        )
        size = f"{inch(strut.plate)} steel plates, {rated}"
        yield Item(f"shoe {name}", size, len(feet), metal, run_of(feet), "one on each tree bolt")
        if strut.bolt_diameter is None:
            continue
        counts: dict[float, int] = {}
        for brace in braces:
            for wide, bolts in (
                (brace.beam.width, strut.head_bolts or 0),
                (brace.section.b, (strut.head_bolts or 0) + (strut.foot_bolts or 0)),
            ):
                length = _length(wide + 2 * strut.plate, strut.bolt_diameter)
                counts[length] = counts.get(length, 0) + bolts
        for length, count in counts.items():
            size = f"{inch(strut.bolt_diameter)} x {inch(length)}, ASTM A307 or better"
            yield Item(
                "bolt", size, count, material_of(BOLTS), where, "plates at head and foot of each brace"
            )
            yield Item(
                "nut", inch(strut.bolt_diameter), count, material_of(BOLTS), where, "one for each bolt"
            )


def _length(grip: float, D: float) -> float:
    """Bolt to the half inch: through timber and plates, with nut and thread to spare (in)."""
    return math.ceil(float(least_bolt_length(g=grip, D=D)) * 2 - 1e-9) / 2
