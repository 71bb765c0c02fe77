"""The skew that each hanger of a proposal has to be rated for."""

from __future__ import annotations

import math

from bolewright.platform.checks.seats import skew_of
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.project import Project
from bolewright.platform.results.given_for import SKEWED
from bolewright.proposing.parts import Data


def ask_for_skew(data: Data, project: Project) -> bool:
    """Write into a file's data the skew that its hangers stand at, where that is more than a seat takes.

    Returns whether anything was written. Raises LayoutError where the arrangement cannot stand.
    """
    layout, found = find_layout(project), dict[str, int]()
    for member in layout.members:
        for seat in member.seats:
            hanger = seat.connection
            if hanger is not None and hanger in data.get("connection", {}):
                skew = math.ceil(skew_of(layout, member, seat) - 1e-6)
                found[hanger] = max(found.get(hanger, 0), skew)
    asked = {name: f"{skew} deg" for name, skew in found.items() if skew > SKEWED}
    changed = {n: d for n, d in asked.items() if data["connection"][n].get("rated_skew") != d}
    for name, degrees in changed.items():
        data["connection"][name]["rated_skew"] = degrees
    return bool(changed)
