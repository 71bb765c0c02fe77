"""The drawing sheets: plans, elevations and sections, details, and the view that turns."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from bolewright.drawings import files
from bolewright.drawings.brace_ends import brace_details
from bolewright.drawings.caps import cap_details
from bolewright.drawings.collars import collar_details
from bolewright.drawings.files import SHEET_HEIGHT_MM
from bolewright.drawings.hangers import hanger_details
from bolewright.drawings.ladders import ladder_details
from bolewright.drawings.measures import Measures
from bolewright.drawings.sections import bolt_sections, post_sections
from bolewright.drawings.stairs import stair_details
from bolewright.drawings.trunk_brace_ends import trunk_brace_details
from bolewright.drawings.view3d import turning_view
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Figure, Statement, StatementKind
from bolewright.rendering.drawing import Drawing
from bolewright.rendering.laying import PAGE_WIDTH_MM
from bolewright.rendering.svg import to_svg
from bolewright.sheets.lengths import Tape, read_tape
from bolewright.sheets.opening import Blocks, results_of

CAUTIONS = (
    "Measure on the site before cutting: the drawings show what was planned and checked, not what was built.",
    "Figured dimensions stand before scaled ones. Hangers, caps and brackets are drawn as spaces for the ones you buy.",
    "A tree is no cylinder: girth, lean and bark are taken where each bolt goes, on the day.",
)


def open_drawings(project: str | Path, tape: str = Tape.FEET) -> Drawings:
    """Drawing sheets of a project file for the tape in hand: ``feet and inches``, or ``millimetres``.

    Raises ValueError for another tape.
    """
    return Drawings(results_of(project), measures_of(read_tape(tape)))


def measures_of(tape: Tape) -> Measures:
    """Lengths and scales of drawings for a tape."""
    return Measures.IMPERIAL if tape is Tape.FEET else Measures.METRIC


@dataclass(frozen=True)
class Drawings:
    """The drawings of one project; every method gives blocks to display."""

    results: Results
    measures: Measures

    def view(self) -> Figure:
        """The framing from above, shaded by ratio; it turns on the screen."""
        return turning_view(self.results)

    def plan_of_framing(self) -> Figure:
        """Plan of the framing."""
        return self._figure(files.plans(self.results, self.measures)[0])

    def plan_of_decking(self) -> Figure:
        """Plan of the decking."""
        return self._figure(files.plans(self.results, self.measures)[1])

    def elevations(self) -> Blocks:
        """Elevations from two sides."""
        return self._all(files.elevations(self.results, self.measures))

    def bolt_sections(self) -> Blocks:
        """Sections at the tree bolts."""
        return self._all(bolt_sections(self.results, self.measures), "There is no tree bolt.")

    def post_sections(self) -> Blocks:
        """Sections at posts and footings."""
        return self._all(post_sections(self.results, self.measures), "There is no post.")

    def hangers(self) -> Blocks:
        """Details of hangers."""
        return self._all(hanger_details(self.results, self.measures), "Nothing hangs: there is no hanger.")

    def caps(self) -> Blocks:
        """Details of post caps."""
        return self._all(cap_details(self.results, self.measures), "There is no post.")

    def brace_ends(self) -> Blocks:
        """Details of knee braces with their ends."""
        found = brace_details(self.results, self.measures) + trunk_brace_details(self.results, self.measures)
        return self._all(found, "There is no knee brace.")

    def collars(self) -> Blocks:
        """Details of the collars of tree bolts."""
        return self._all(collar_details(self.results, self.measures), "There is no tree bolt.")

    def stairs(self) -> Blocks:
        """The stringer of the stairs as it is cut, and the ladder from the side."""
        found = [*stair_details(self.results, self.measures), *ladder_details(self.results, self.measures)]
        return self._all(found, "There are no stairs and no ladder with a place on an edge.")

    def cautions(self) -> Statement:
        """What to keep in mind with a drawing in the hand."""
        return Statement(StatementKind.CAUTION, CAUTIONS)

    def _figure(self, drawing: Drawing) -> Figure:
        svg = to_svg(drawing, PAGE_WIDTH_MM, SHEET_HEIGHT_MM, self.measures.scales)
        return Figure(svg, "", drawing.alt)

    def _all(self, drawings: list[Drawing], without: str = "") -> Blocks:
        if not drawings:
            return Blocks((Statement(StatementKind.NOTE, (without,)),))
        return Blocks(tuple(self._figure(drawing) for drawing in drawings))
