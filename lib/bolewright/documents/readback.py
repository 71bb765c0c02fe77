"""Reads equations again in the forms a reader meets, and compares them with the LaTeX whose print-back held.

The LaTeX of a formula is computed again from its own print before it gets here
(:mod:`bolewright.rendering.printback`). What is set from it is read back too: the MathML of the page, the typesetter's
source of every width, the plain text that a screen reader speaks, and the numbers in the text of the finished PDF.
A sheet on which one of them says something else is not released.
"""

from __future__ import annotations

import ast
import ctypes
import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence

import pypdfium2 as pdfium

from bolewright.documents.content import PackageError, SheetContent
from bolewright.documents.forms import latex_row, mathml_row, numerals, rows_of_numerals, typst_row
from bolewright.documents.places import places_of
from bolewright.rendering.blocks import Cell, Equations, KeyValues, Table
from bolewright.rendering.printed import Equation, read_block
from bolewright.rendering.symbols import symbol_latex
from bolewright.rendering.tree import Node, Number, Operation, Symbol


def check_display(block: Equations, place: int, typst: Sequence[str], mathml: Sequence[str]) -> None:
    """PackageError where the page's or the paper's form of an equation says something else than its LaTeX."""
    wanted = latex_row(block.latex[place])
    forms = [("page's", mathml_row(form)) for form in mathml] + [
        ("paper's", typst_row(form)) for form in typst
    ]
    for form, read in forms:
        if read != wanted:
            raise PackageError(
                f"the {form} form of an equation of {block.title!r} does not say what was computed"
            )


def check_spoken(block: Equations) -> None:
    """PackageError where the plain text of a formula's lines says another formula or result than its LaTeX.

    The text gives each line as ``symbol = formula = result``.
    """
    if not block.alt or not block.formula:
        return
    said = [_said(line) for line in block.alt.splitlines()]
    printed = [_printed(equation) for latex in block.latex for equation in read_block(latex)]
    if said != printed:
        raise PackageError(f"the plain text of {block.title!r} does not say what its equations print")


def check_paper(pdf: bytes, blocks: Sequence[Equations]) -> None:
    """PackageError where a row of an equation is not found, number by number and in order, in the text of the PDF.

    ``blocks`` are the equations of formulas in the order of the sheets.
    """
    document = pdfium.PdfDocument(pdf)
    found = [number for page in document for number in numerals(page.get_textpage().get_text_range())]
    document.close()
    starts: dict[str, list[int]] = {}
    for at, number in enumerate(found):
        starts.setdefault(number, []).append(at)
    at = 0
    for block in blocks:
        for row in (row for latex in block.latex for row in rows_of_numerals(latex)):
            places = starts.get(row[0], [])
            after = places[bisect_left(places, at) :]
            place = next((i for i in after if found[i : i + len(row)] == row), None)
            if place is None:
                raise PackageError(
                    f"the PDF's text of {block.title!r} does not hold {' '.join(row)} in order"
                )
            at = place + len(row)


def pages_led_to(pdf: bytes, sheets: Sequence[SheetContent]) -> dict[str, int]:
    """The page of every place that a row names by its page alone, as the finished PDF prints it.

    Raises PackageError where the PDF does not print as many pages as the sheets name places.
    """
    known = places_of(sheets)
    places = [
        cell.to
        for sheet in sheets
        for item in sheet.items
        if isinstance(item, Table | KeyValues)
        for row in (item.rows if isinstance(item, Table) else item.pairs)
        for cell in row
        if isinstance(cell, Cell) and cell.to in known and not cell.text
    ]
    document = pdfium.PdfDocument(pdf)
    found = [number for page in document for number in _pages_named(document, page)]
    document.close()
    if len(found) != len(places):
        raise PackageError(f"the PDF prints {len(found)} pages to turn to, its sheets name {len(places)}")
    return dict(zip(places, found, strict=True))


def _pages_named(document: pdfium.PdfDocument, page: pdfium.PdfPage) -> Iterator[int]:
    """Pages that the links of a page name, in order. Raises PackageError where one leads elsewhere."""
    text = page.get_textpage()
    at, link, box = ctypes.c_int(0), pdfium.raw.FPDF_LINK(), pdfium.raw.FS_RECTF()
    while pdfium.raw.FPDFLink_Enumerate(page.raw, at, link):
        if not pdfium.raw.FPDFLink_GetAnnotRect(link, box):
            continue
        words = text.get_text_bounded(box.left, box.bottom, box.right, box.top).strip()
        named = re.fullmatch(r"p\.\s*(\d+)", words)
        if named is None:
            continue
        to = pdfium.raw.FPDFDest_GetDestPageIndex(
            document.raw, pdfium.raw.FPDFLink_GetDest(document.raw, link)
        )
        if to + 1 != int(named[1]):
            raise PackageError(f"the PDF names page {named[1]} and leads to page {to + 1}")
        yield int(named[1])


def _said(line: str) -> tuple[str, Node | None, str]:
    """Symbol, formula and result of one line of plain text."""
    head, *middle, result = line.split(" = ")
    formula = _tree(ast.parse(middle[0], mode="eval").body) if middle else None
    if isinstance(formula, Number):
        formula = None
    return symbol_latex(head), formula, result.replace("°", " deg").replace("-", "−")


def _printed(equation: Equation) -> tuple[str, Node | None, str]:
    """The same of one printed chain; a line that is one number and no formula has none."""
    first, last = equation.parts[0], equation.latex.rpartition("=")[2]
    formula = _without_rounding(first) if len(equation.parts) > 1 else None
    return equation.symbol, formula, _plain_number(last)


def _plain_number(latex: str) -> str:
    """A printed number as plain text has it."""
    words = re.sub(r"10\^\{(-?\d+)\}", lambda m: "10" + m[1].translate(_RAISED), latex)
    words = re.sub(r"\\text\{([^{}]*)\}", r"\1", words).replace(r"\times", "×").replace(r"\infty", "∞")
    words = re.sub(r"\\%", "%", re.sub(r"\\ ", " ", words))
    return " ".join(words.split()).replace("-", "−")


_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
_BINARY = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Pow: "^"}
_CALLS = {"minimum": r"\min", "maximum": r"\max", "log": r"\ln", "abs": "abs"}


def _tree(node: ast.expr) -> Node:
    """The tree of an expression in plain text, as the one of printed LaTeX."""
    match node:
        case ast.Constant(value=int() | float() as value):
            return Number(float(value), 0.0, "")
        case ast.Name(id=name):
            return Symbol(symbol_latex(name))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return Operation("negative", (_tree(operand),))
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _BINARY:
            return Operation(_BINARY[type(op)], (_tree(left), _tree(right)))
        case ast.Call(func=ast.Name(id=name), args=arguments):
            call = _CALLS.get(name, f"\\{name}")
            inner = [_tree(argument) for argument in arguments]
            if call in (r"\min", r"\max"):  # the least of the least of two and a third prints as one
                inner = [
                    x
                    for i in inner
                    for x in (i.operands if isinstance(i, Operation) and i.name == call else [i])
                ]
            return Operation(call, tuple(inner))
        case _:
            raise PackageError(f"plain text with {ast.unparse(node)!r} can't be read back")


def _without_rounding(node: Node) -> Node:
    match node:
        case Number(value=value, unit=unit):
            return Number(value, 0.0, unit)
        case Operation(name=name, operands=operands):
            return Operation(name, tuple(_without_rounding(operand) for operand in operands))
        case _:
            return node
