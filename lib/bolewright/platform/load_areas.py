"""Areas that the user draws on the deck with a load of their own: a planter, a tub, a bench where a crowd sits."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import Polygon, unary_union
from shapely.ops import polygonize

from bolewright.mechanics.loads import Array
from bolewright.platform.panels import Panel
from bolewright.platform.parts import Layout, LayoutError
from bolewright.platform.project import LoadArea, Project

KINDS = ("dead", "live", "snow")
SHOWN = 1.0  # sq in: less of an area on the deck counts as none


def on_deck(layout: Layout, area: LoadArea) -> Polygon:
    """The part of an area that lies on the deck. LayoutError when there is none or its edges cross."""
    shape = Polygon(area.corners)
    if not shape.is_valid:
        raise LayoutError(f"Load area {area.mark} is no simple polygon: its edges cross, or it has no area.")
    part = shape.intersection(layout.deck)
    if part.area < SHOWN:
        raise LayoutError(
            f"Load area {area.mark} lies nowhere on the deck: move its corners inside the outline."
        )
    return part


def area_loads(layout: Layout, panels: Sequence[Panel]) -> dict[str, Array]:
    """Pounds of all areas on every panel, by kind. A panel that an area cuts takes its share spread over itself."""
    loads = {kind: np.zeros(len(panels)) for kind in KINDS}
    areas = layout.project.load_areas
    if not areas:
        return loads
    for area in areas:
        loads[area.kind] += pounds_of(area, layout, panels)
    return loads


def pounds_of(area: LoadArea, layout: Layout, panels: Sequence[Panel]) -> Array:
    """Pounds of one area on every panel; all that lies on the deck."""
    part = on_deck(layout, area)
    inside = shapely.area(shapely.intersection([_shape(panel) for panel in panels], part))
    return np.asarray(inside * (part.area / inside.sum()) * area.load / 144, dtype=float)


def _shape(panel: Panel) -> Polygon:
    """A panel's area in plan; corners that fall together leave none, and edges that cross by a rounding are mended."""
    shape = Polygon(panel.corners) if len(panel.corners) > 2 else Polygon()
    return shape if shape.is_valid else shape.buffer(0)


def heaviest(project: Project, kind: str) -> float:
    """Greatest load of a kind that areas bring to any place (psf): the sum of those that lie over each other there."""
    found = [(Polygon(a.corners), a.load) for a in project.load_areas if a.kind == kind]
    borders = unary_union([shape.exterior for shape, _ in found])
    places = [piece.representative_point() for piece in polygonize(borders) if piece.area >= SHOWN]
    return max((sum(q for shape, q in found if shape.contains(place)) for place in places), default=0.0)
