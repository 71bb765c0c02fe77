"""Reads lengths back out of a drawing's SVG, from its strokes and from its words."""

import math
import re
import xml.etree.ElementTree as ET

from bolewright.units import INCH, read

SVG = "{http://www.w3.org/2000/svg}"
MM = 25.4


def ratio_of(root):
    """Paper length over true length, by the scale written on the drawing."""
    for text in root.iter(f"{SVG}text"):
        if match := re.fullmatch(r"""([\d /]+)" = 1' 0\"""", text.text):
            return read(f'{match[1]}"', INCH) / 12
        if match := re.fullmatch(r"1 : (\d+)", text.text):
            return 1 / int(match[1])
    raise AssertionError("no standard scale is written on the drawing")


def written(words, metric=False):
    """Inches that a dimension's words mean; of a row of spaces, the whole."""
    last = words.rpartition(" = ")[2]
    return float(last) / MM if metric else read(last, INCH)


def dimensions(svg):
    """Words and drawn length (in, true size) of every dimension: between the middles of its two ticks."""
    root = ET.fromstring(svg)
    ratio = ratio_of(root)
    found = []
    for group in root.iter(f"{SVG}g"):
        if group.get("class") == "dimension":
            lines = [
                [float(line.get(key)) for key in ("x1", "y1", "x2", "y2")]
                for line in group.iter(f"{SVG}line")
            ]
            ends = [((a + c) / 2, (b + d) / 2) for a, b, c, d in (lines[1], lines[3])]
            found.append((group.find(f"{SVG}text").text, math.dist(*ends) / MM / ratio))
    return found
