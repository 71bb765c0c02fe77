"""All drawings of a platform, and each as SVG and DXF for the package."""

from __future__ import annotations

import re

from bolewright.drawings.details import details
from bolewright.drawings.dxf import dxf_bytes
from bolewright.drawings.elevations import VIEWS, elevation
from bolewright.drawings.measures import Measures
from bolewright.drawings.plan_decking import plan_of_decking
from bolewright.drawings.plan_framing import plan_of_framing
from bolewright.drawings.sections import bolt_sections, post_sections
from bolewright.drawings.view3d import turning_view
from bolewright.platform.results.results import Results
from bolewright.rendering.drawing import Drawing
from bolewright.rendering.laying import PAGE_WIDTH_MM
from bolewright.rendering.svg import to_svg

SHEET_HEIGHT_MM = 189.5
FOLDER = "drawings"


def plans(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Plan of framing and plan of decking."""
    return [plan_of_framing(results, measures, views=VIEWS), plan_of_decking(results, measures)]


def elevations(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Elevations from two sides, as lettered on the plan of framing."""
    return [elevation(results, letter, look, measures) for letter, look in VIEWS]


def sections(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Sections at tree bolts and at posts."""
    return [*bolt_sections(results, measures), *post_sections(results, measures)]


def all_drawings(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Every drawing to scale, in the order of the package."""
    return [
        *plans(results, measures),
        *elevations(results, measures),
        *sections(results, measures),
        *details(results, measures),
    ]


def drawing_files(results: Results, measures: Measures = Measures.IMPERIAL) -> dict[str, bytes]:
    """Every drawing as SVG and DXF, and the view from above as SVG, by file name."""
    files: dict[str, bytes] = {}
    for number, drawing in enumerate(all_drawings(results, measures), start=1):
        name = f"{FOLDER}/{number:02d}-{_plain(drawing.title)}"
        svg = to_svg(drawing, PAGE_WIDTH_MM, SHEET_HEIGHT_MM, measures.scales)
        files[f"{name}.svg"] = svg.encode()
        files[f"{name}.dxf"] = dxf_bytes(drawing, measures, SHEET_HEIGHT_MM)
    files[f"{FOLDER}/view.svg"] = turning_view(results).svg.encode()
    return files


def _plain(title: str, most: int = 48) -> str:
    """Title as part of a file name."""
    words = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")
    return words[:most].rstrip("-")
