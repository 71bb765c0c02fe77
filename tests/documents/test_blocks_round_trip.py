"""Blocks come back from a stored output as they were, and are refused when they can't be read."""

import json
from base64 import b64encode
from dataclasses import replace

import nbformat
import pytest

from bolewright.rendering.blocks import (
    BLOCK_MIME,
    Block,
    BlockError,
    Cell,
    Equations,
    Figure,
    Heading,
    KeyValues,
    Statement,
    StatementKind,
    Table,
    block_from_output,
)
from bolewright.rendering.palette import ACCENT, HIGHLIGHT, INK, SOFT_INK, Status

UGLY = "<b>&\"'</b> $x$ \\alpha\n\u200b✓"
BROKEN = '<img alt="x" src="data:image/svg+xml;base64,PHN2%">'
BLOCKS: list[Block] = [
    Equations("T " + UGLY, (r"a &= \frac{1}{2} \\", r"c = \text{1,500}"), "NDS 2018, 3.7.1", "a is", (UGLY,)),
    Table(("a", UGLY), (("1.5", Cell(UGLY, Status.FAILS)), ("2", Cell("x"))), UGLY, "dl", (0, 1.5)),
    KeyValues((("k", UGLY), (UGLY, Cell("passes", Status.PASSES))), UGLY),
    Figure("<svg xmlns='http://www.w3.org/2000/svg'><title>x</title></svg>", UGLY, UGLY),
    Heading(UGLY, 2, "an anchor", "back", new_page=True),
    *(Statement(kind, (UGLY, "two")) for kind in StatementKind),
]


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: type(block).__name__)
def test_block_comes_back_from_a_stored_notebook(block):
    output = nbformat.v4.new_output("display_data", data=block._repr_mimebundle_())
    cell = nbformat.v4.new_code_cell("x", outputs=[output])
    stored = nbformat.writes(nbformat.v4.new_notebook(cells=[cell]))
    bundle = nbformat.reads(stored, as_version=4).cells[0].outputs[0].data
    assert block_from_output(bundle) == block


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: type(block).__name__)
def test_html_of_a_block_escapes_its_text(block):
    assert "<b>" not in block._repr_mimebundle_().get("text/html", "")


def _times_drawn(figure: Figure) -> int:
    """How often the figure's whole SVG stands in its output, as it was drawn or as data of a picture."""
    stored = json.dumps(figure._repr_mimebundle_())
    return stored.count(json.dumps(figure.svg)[1:-1]) + stored.count(b64encode(figure.svg.encode()).decode())


def test_svg_of_a_figure_is_stored_once():
    figure = next(block for block in BLOCKS if isinstance(block, Figure))
    assert _times_drawn(figure) == 1


def test_svg_of_a_figure_to_turn_is_stored_once_still_and_once_to_turn():
    # the still picture is for a notebook that is not trusted, where no script runs
    figure = next(block for block in BLOCKS if isinstance(block, Figure))
    assert _times_drawn(replace(figure, scene="{}")) == 2


@pytest.mark.parametrize(
    "bundle",
    [
        {"text/plain": "x"},
        {BLOCK_MIME: {"kind": "table", "version": 99}},
        {BLOCK_MIME: {"kind": "table", "version": 1}},
        {BLOCK_MIME: {"kind": "poem", "version": 1}},
        {BLOCK_MIME: {"kind": "statement", "version": 1, "statement": "Boast", "items": []}},
        {BLOCK_MIME: {"kind": "figure", "version": 1, "caption": "", "alt": "x"}},
        {BLOCK_MIME: {"kind": "figure", "version": 1, "caption": "", "alt": "x"}, "text/html": "<p>x</p>"},
        {BLOCK_MIME: {"kind": "figure", "version": 1, "caption": "", "alt": "x"}, "text/html": BROKEN},
    ],
)
def test_an_output_without_a_readable_block_is_refused(bundle):
    with pytest.raises(BlockError):
        block_from_output(bundle)


@pytest.mark.parametrize(
    "make",
    [
        lambda: Table(("a", "b"), (("1",),)),
        lambda: Table(("a",), (("1",),), align="x"),
        lambda: Table(("a",), (("1",),), widths=(1, 2)),
        lambda: Figure("<svg/>", "caption", " "),
        lambda: Equations("t", ("$$a = b$$",)),
    ],
)
def test_a_block_that_holds_together_badly_is_refused(make):
    with pytest.raises(BlockError):
        make()


def test_columns_of_numbers_are_aligned_on_the_point():
    table = Table(("n", "t", "mixed"), (("1,500", "a", "1"), ("2.25", "b", "c"), ("–", "c", "2")))
    assert table.alignment == "dll"


def contrast(colour: str, ground: str = "#ffffff") -> float:
    """Contrast ratio of WCAG 2.2."""

    def luminance(code: str) -> float:
        parts = [int(code[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    light, dark = sorted((luminance(colour), luminance(ground)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("colour", [INK, SOFT_INK, ACCENT, HIGHLIGHT, *(status.colour for status in Status)])
def test_text_colours_reach_aa_contrast(colour):  # WCAG 2.2, success criterion 1.4.3: 4.5 to 1
    assert contrast(colour) >= 4.5


def test_states_differ_by_mark_and_word():
    assert len({status.mark for status in Status}) == len({status.value for status in Status}) == 3
