"""Corners of the deck from two fixed points, edges, diagonals, and the ends of the beams."""

from __future__ import annotations

from bolewright.documents.content import Content
from bolewright.drawings.files import SHEET_HEIGHT_MM
from bolewright.drawings.plan_corners import plan_of_corners
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Figure, Table
from bolewright.rendering.laying import PAGE_WIDTH_MM
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.corners import DeckCorners, along_beam, beam_ends, deck_corners
from bolewright.setting_out.ground import Peg
from bolewright.sheets.drawings import measures_of
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.setting_out.opening import note


def corner_blocks(results: Results, length: Lengths) -> tuple[Content, ...]:
    """Plan, corners by two tapes, edges, diagonals, beams' ends."""
    layout = results.path.layout
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    found = deck_corners(layout)
    measures = measures_of(length.tape)
    drawing = plan_of_corners(results, measures)
    ends = beam_ends(layout, pieces)
    said = [
        f"Fixed points are {found.tapes[0]} and {found.tapes[1]} of the ground's sheet. Hook a tape on each, cross "
        "them at the lengths given, level; plumb the place up to the frame.",
    ]
    if found.hidden:
        said.append(
            f"A trunk stands in {', '.join(found.hidden)}: the tapes and the line and offset give these corners."
        )
    return (
        Figure(to_svg(drawing, PAGE_WIDTH_MM, SHEET_HEIGHT_MM, measures.scales), "", drawing.alt),
        _pegs(found, found.corners, length, "Corners of the deck"),
        note(*said),
        Table(
            ("edge", "from", "to", "length"),
            tuple((e.name, *e.between, length(e.length)) for e in found.edges),
            "Every edge, corner to corner, along it",
            "lllr",
        ),
        length.closings(found.diagonals, "Diagonals: with the edges they prove the shape")
        if found.diagonals
        else note("No diagonal is clear of the trunks, or there is none: the tapes prove the corners."),
        _pegs(found, tuple(end.peg for end in ends), length, "Ends of the beams, middle of the end's face"),
        Table(
            ("beam", "tape hooked on its start"),
            tuple(
                (m.mark, "; ".join(f"{name} {length(at)}" for name, at in along_beam(layout, pieces, m.mark)))
                for m in layout.beams
            ),
            "Along each beam: middles of the seats, and its end",
            "ll",
        ),
    )


def _pegs(found: DeckCorners, pegs: tuple[Peg, ...], length: Lengths, caption: str) -> Table:
    one, two = found.tapes
    rows = tuple(
        (
            peg.name,
            _tape(length(peg.from_a), peg.clear_a),
            _tape(length(peg.from_b), peg.clear_b),
            length(peg.along),
            length(peg.offset),
        )
        for peg in pegs
    )
    columns = ("place", f"from {one}", f"from {two}", f"along from {found.base.a}", "square off")
    return Table(columns, rows, f"{caption}: two tapes, or the base line and square off it", "lrrrr")


def _tape(words: str, clear: bool) -> str:
    return words if clear else f"{words}, trunk in the way"
